// What is believed of a packet of seed: how much of it still comes up, and how sure that is.
//
// The viability of a lot in probits falls by a straight line (crop/viability.hpp). Two things about the line
// are not known: where it began, and how fast it falls where the seed lies. Both are carried as a grid of
// weighed lines. A home test weighs the lines by how likely each makes what came up; afterwards those that
// are left go on falling. So a test outweighs the calendar, and next year follows from what was tested.
//
// How fast: where the grower tells how damp the seed is, and constants are published, by Ellis and Roberts.
// Otherwise by the published storage life of the crop's seed: such lists give years under ordinary dry, cool
// keeping, after which about half of the first figure is taken to be left (the lists do not say how much).
//     auto belief = PacketBelief::of_packet(lettuce.seed, {}, 85.0);
//     belief->age(2.0);
//     belief->learn({.sown = 20, .came_up = 18});
#pragma once

#include <optional>
#include <vector>

#include "base/problem.hpp"
#include "base/quantile.hpp"
#include "crop/crop.hpp"
#include "crop/viability.hpp"

namespace sowtide::crop {

/// Warmth of the ordinary keeping that lists of seed life mean (chosen: a cool room).
inline constexpr double kOrdinaryStoreC = 18.0;

/// How a grower keeps seed, as far as it is told.
struct SeedKeeping {
  std::optional<double> temp_c;        ///< absent: kOrdinaryStoreC
  std::optional<double> moisture_pct;  ///< of fresh weight; absent: dry, as seed is commonly kept
};

class PacketBelief {
 public:
  /// A packet when new. Problems: out_of_range for a figure not above 0 and below 100, or a keeping outside
  /// -20..90 °C or 2..25 % moisture.
  [[nodiscard]] static base::Result<PacketBelief> of_packet(const SeedFacts& seed, const SeedKeeping& keeping,
                                                            double fresh_pct);

  /// Lets the seed lie for some years; negative ones count as none.
  void age(double years);
  /// Takes in a home test. Problems: out_of_range for counts that cannot be.
  [[nodiscard]] base::Result<void> learn(const HomeTest& test);

  [[nodiscard]] double mean_pct() const;
  [[nodiscard]] base::Quantiles pct() const;
  /// Seeds of a test that would leave one as sure as this: those of the Beta distribution with the same mean
  /// and variance.
  [[nodiscard]] double worth_seeds() const;
  /// Aged by the viability equation; otherwise by the published life.
  [[nodiscard]] bool by_equation() const noexcept { return by_equation_; }

 private:
  struct Line {
    double probits = 0.0;
    double fall_per_year = 0.0;
    double weight = 0.0;  ///< they sum to 1
  };
  std::vector<Line> lines_;
  bool by_equation_ = false;
};

}  // namespace sowtide::crop
