#include "crop/viability.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <cmath>

namespace sowtide::crop {
namespace {

using base::ProblemCode;

base::Result<void> in_range(std::string_view name, double value, double low, double high,
                            std::string_view unit) {
  if (value >= low && value <= high) return {};
  return base::fail(ProblemCode::out_of_range,
                    fmt::format("is {} {}, must be from {} to {}", value, unit, low, high),
                    {.field = std::string(name)});
}

base::Result<void> check_initial(double initial_pct) {
  if (initial_pct > 0.0 && initial_pct < 100.0) return {};
  return base::fail(ProblemCode::out_of_range,
                    fmt::format("is {}, must be above 0 and below 100", initial_pct),
                    {.field = "initial_pct"}, "A test of 100 % says no more than that it is high: write 99");
}

}  // namespace

ViabilityConstants constants_of(const SeedFacts::Viability& viability) noexcept {
  return {viability.ke, viability.cw, viability.ch, viability.cq};
}

base::Result<double> days_per_probit(const ViabilityConstants& constants, const SeedStore& store) {
  if (auto ok = in_range("temp_c", store.temp_c, -20.0, 90.0, "°C"); !ok) return tl::unexpected(ok.error());
  if (auto ok = in_range("moisture_pct", store.moisture_pct, 2.0, 25.0, "%"); !ok)
    return tl::unexpected(ok.error());
  const double moisture = std::max(store.moisture_pct, kDriestMoisturePct);
  const double t = store.temp_c;
  return std::pow(
      10.0, constants.ke - constants.cw * std::log10(moisture) - constants.ch * t - constants.cq * t * t);
}

base::Result<double> viability_after(const ViabilityConstants& constants, const SeedStore& store,
                                     double initial_pct, double days) {
  if (auto ok = check_initial(initial_pct); !ok) return tl::unexpected(ok.error());
  if (auto ok = in_range("days", days, 0.0, 1e6, "days"); !ok) return tl::unexpected(ok.error());
  const auto sigma = days_per_probit(constants, store);
  if (!sigma) return tl::unexpected(sigma.error());
  return 100.0 * base::normal_cdf(base::normal_quantile(initial_pct / 100.0) - days / *sigma);
}

base::Result<double> moisture_from_humidity(double humidity_pct, double temp_c, double oil_fraction) {
  if (auto ok = in_range("humidity_pct", humidity_pct, 1.0, 95.0, "%"); !ok)
    return tl::unexpected(ok.error());
  if (auto ok = in_range("temp_c", temp_c, 0.0, 50.0, "°C"); !ok) return tl::unexpected(ok.error());
  if (auto ok = in_range("oil_fraction", oil_fraction, 0.0, 0.6, ""); !ok) return tl::unexpected(ok.error());
  const double dry_pct =
      (1.0 - oil_fraction) * std::sqrt(-440.0 * std::log(1.0 - humidity_pct / 100.0)) / (1.1 + temp_c / 90.0);
  return 100.0 * dry_pct / (100.0 + dry_pct);
}

base::Result<TestedGermination> after_home_test(double expected_pct, const HomeTest& test,
                                                double prior_seeds) {
  if (auto ok = check_initial(expected_pct); !ok) return tl::unexpected(ok.error());
  if (auto ok = in_range("prior_seeds", prior_seeds, 0.1, 10000.0, "seeds"); !ok)
    return tl::unexpected(ok.error());
  if (test.sown < 0 || test.sown > 1'000'000 || test.came_up < 0 || test.came_up > test.sown) {
    return base::fail(ProblemCode::out_of_range,
                      fmt::format("{} of {} cannot have come up", test.came_up, test.sown),
                      {.field = "came_up"}, "Write how many were sown and how many of them came up");
  }
  const double a = prior_seeds * expected_pct / 100.0 + test.came_up;
  const double b = prior_seeds * (1.0 - expected_pct / 100.0) + (test.sown - test.came_up);
  const boost::math::beta_distribution<double> belief(a, b);
  return TestedGermination{
      100.0 * boost::math::mean(belief),
      {100.0 * boost::math::quantile(belief, 0.1), 100.0 * boost::math::quantile(belief, 0.5),
       100.0 * boost::math::quantile(belief, 0.9)}};
}

}  // namespace sowtide::crop
