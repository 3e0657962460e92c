// What the planner asks of the rooms below, one narrow question: what would this sowing bring, week by week,
// in every weather year, and when does it need a tray and a bed?
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "stand/bed_place.hpp"
#include "stand/outlook.hpp"
#include "stand/windows.hpp"

namespace sowtide::plan {

/// The weeks of a plan.
struct WeekGrid {
  base::Date first_monday{};
  std::size_t weeks = 52;
  bool operator==(const WeekGrid&) const = default;
};

inline constexpr int kNeverDay = -1000000;

/// One sowing over all weather years. Days count from the grid's first Monday and may be negative or beyond
/// the grid.
struct SowingLife {
  std::vector<double> weekly_g;  ///< fresh weight taken: [m * weeks + w], whole stand
  std::vector<int> emerge_day;   ///< by member: half of the seed is up; kNeverDay when it never is
  std::vector<int> set_out_day;  ///< by member; kNeverDay when it never is (or is sown in place)
  std::vector<int> end_day;      ///< by member: last day in the ground, kNeverDay when nothing is ever picked
  double success = 0.0;          ///< share of members with a harvest worth having
  std::string limits;            ///< what limits it, in words
  /// That it meets, as `stand::StandPlan::planned_c` has it; nothing where the weather does not cover it.
  std::optional<double> warmth_c;
  bool operator==(const SowingLife&) const = default;
};

class SowingMemory;

class SowingSource {
 public:
  virtual ~SowingSource() = default;
  [[nodiscard]] virtual std::size_t member_count() const = 0;
  /// `bed`: how it would lie in its bed, and in what light. Safe to call from several threads at once.
  [[nodiscard]] virtual base::Result<SowingLife> life(const crop::Crop& crop, const stand::StandPlan& plan,
                                                      const stand::StandFacts& facts,
                                                      const std::optional<stand::RaisingPlace>& raising,
                                                      const stand::BedPlace& bed) const = 0;
  /// The warmth that a sowing of the day meets, as `stand::StandPlan::planned_c` has it; nothing where the
  /// weather does not cover it or is not known.
  [[nodiscard]] virtual std::optional<double> warmth_c(stand::Method /*method*/, base::Date /*sow*/) const {
    return {};
  }
  /// What a placed stand is told to bring, as every page reckons it: from more clumps than `life` takes for
  /// the choices. A source that only tells of choices has none.
  [[nodiscard]] virtual std::optional<stand::Outlook> outlook(
      const crop::Crop& /*crop*/, const stand::StandPlan& /*plan*/,
      const std::optional<stand::RaisingPlace>& /*raising*/, const stand::BedPlace& /*bed*/) const {
    return {};
  }
  /// The day of a sowing as `windows` judges it: how often growers get a harvest worth having from it, and
  /// what spoils the others; of bought plants the day of setting out. A source without such knowledge lets
  /// every day pass.
  [[nodiscard]] virtual stand::SowingDay sowing_day(const crop::Crop& /*crop*/,
                                                    const stand::StandPlan& /*plan*/) const {
    return {.success = 1.0};
  }
};

/// The real one: lives every sowing through the ensemble with the growth model. Crops named here share what
/// depends on the weather only; `weather` must outlive it. With `typical_years` (two from a 1 January on) it
/// knows the days that `windows` would sow on. With a `memory` it takes from there what is known, and leaves
/// there what it lives; the answers are the same. `memory` must outlive it.
[[nodiscard]] std::unique_ptr<SowingSource> growing_source(
    const climate::WeatherEnsemble& weather, const WeekGrid& grid, const std::vector<crop::Crop>& crops,
    std::uint64_t seed, const climate::WeatherEnsemble* typical_years = nullptr,
    SowingMemory* memory = nullptr);

/// The name under which a crop with a variety's deltas is kept apart: "beet" or "beet/rubycoil".
[[nodiscard]] std::string crop_key(const std::string& crop, const std::string& variety);

}  // namespace sowtide::plan
