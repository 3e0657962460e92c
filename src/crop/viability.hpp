// Old seed: how much of it is still alive.
//
// R. H. Ellis and E. H. Roberts 1980, Annals of Botany 45:13-30:
//     v = Ki - p/sigma,   log10 sigma = KE - CW log10 m - CH t - CQ t²
// v and Ki are viability in probits (normal quantile of the share alive), p the days in store, m the seed's
// moisture in per cent of fresh weight, t the store in °C. Ki comes from a germination test, never from the
// species. Meant for -20 to 90 °C and 5 to 25 % moisture. Below about 5 % drier seed lives no longer
// (recalled), so m is held at 5. Moisture from the room's humidity: R. J. Cromarty, R. H. Ellis and E. H.
// Roberts 1982, The design of seed storage facilities for genetic conservation (eq. below), meant for 10 to
// 70 % relative humidity.
#pragma once

#include <optional>

#include "base/problem.hpp"
#include "base/quantile.hpp"
#include "crop/crop.hpp"

namespace sowtide::crop {

/// The four constants of the viability equation.
struct ViabilityConstants {
  double ke = 0.0, cw = 0.0, ch = 0.0, cq = 0.0;
};

[[nodiscard]] ViabilityConstants constants_of(const SeedFacts::Viability& viability) noexcept;

/// Drying below this no longer lengthens life (recalled).
inline constexpr double kDriestMoisturePct = 5.0;

/// Where seed is kept.
struct SeedStore {
  double temp_c = 0.0;
  double moisture_pct = 0.0;  ///< of fresh weight; see moisture_from_humidity
};

/// Days for viability to fall by one probit. Problems: out_of_range outside -20..90 °C or 2..25 % moisture.
[[nodiscard]] base::Result<double> days_per_probit(const ViabilityConstants& constants,
                                                   const SeedStore& store);

/// Per cent alive after `days`, from `initial_pct` (above 0, below 100) at the start.
[[nodiscard]] base::Result<double> viability_after(const ViabilityConstants& constants,
                                                   const SeedStore& store, double initial_pct, double days);

/// Seed moisture, % of fresh weight, in equilibrium with air: dry-basis moisture
/// (1-Do) sqrt(-440 ln(1-R)) / (1.1 + t/90), R relative humidity 0..1, Do the oil share of the dry matter.
/// Problems: out_of_range outside 1..95 % humidity, 0..50 °C, oil share 0..0.6.
[[nodiscard]] base::Result<double> moisture_from_humidity(double humidity_pct, double temp_c,
                                                          double oil_fraction);

/// A home test: so many sown, so many came up.
struct HomeTest {
  int sown = 0;
  int came_up = 0;
};

/// What is believed of a packet's germination after a home test.
struct TestedGermination {
  double mean_pct = 0.0;
  base::Quantiles pct;  ///< p10, p50, p90
};

/// Bayesian update of a Beta prior with mean `expected_pct` that weighs as much as `prior_seeds` seeds
/// tested. Posterior Beta(a + came_up, b + sown - came_up). Problems: out_of_range.
[[nodiscard]] base::Result<TestedGermination> after_home_test(double expected_pct, const HomeTest& test,
                                                              double prior_seeds = 10.0);

}  // namespace sowtide::crop
