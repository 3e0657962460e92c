#include "crop/emergence.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "crop/curve.hpp"

namespace sowtide::crop {
namespace {

constexpr double kHoursPerDay = 24.0;

/// Thermal time from sowing at `depth_mm` to half emergence. A depth other than the crop's usual one adds or
/// takes the time the shoot needs for the difference; never less than half of the whole.
double thermal_time_to_half_cd(const Germination& germination, double depth_mm) noexcept {
  const double usual_cd = germination.thermal_time_50_cd;
  const double extra_mm = depth_mm - germination.depth_mm;
  return std::max(0.5 * usual_cd, usual_cd + extra_mm * germination.depth_thermal_time_cd_per_mm);
}

double soil_factor(const Crop& crop) noexcept {
  return crop.germination.soil_factor ? crop.germination.soil_factor->value : 1.0;
}

base::Result<void> check_depth(double depth_mm) {
  if (depth_mm >= 0.0 && depth_mm <= 300.0) return {};
  return base::fail(base::ProblemCode::out_of_range, fmt::format("{} mm is not a sowing depth", depth_mm),
                    {.field = "depth_mm"}, "Give a depth from 0 to 300 mm");
}

base::Result<double> packet_pct(const Crop& crop, std::optional<double> germination_pct) {
  const double pct = germination_pct.value_or(crop.seed.germination_pct);
  if (pct >= 0.0 && pct <= 100.0) return pct;
  return base::fail(base::ProblemCode::out_of_range, fmt::format("{} is not a percentage", pct),
                    {.field = "germination_pct"}, "Give a percentage from 0 to 100");
}

}  // namespace

double thermal_rate(double base_c, double optimum_low_c, double optimum_high_c, double ceiling_c,
                    double temp_c) noexcept {
  if (!(temp_c > base_c) || temp_c >= ceiling_c) return 0.0;
  const double full = optimum_low_c - base_c;
  if (temp_c <= optimum_low_c) return temp_c - base_c;
  if (temp_c <= optimum_high_c) return full;
  return full * (ceiling_c - temp_c) / (ceiling_c - optimum_high_c);
}

double thermal_rate(const CardinalTemperatures& cardinal, double temp_c) noexcept {
  return thermal_rate(cardinal.base_c, cardinal.optimum_low_c, cardinal.optimum_high_c, cardinal.ceiling_c,
                      temp_c);
}

double daily_thermal_time(const CardinalTemperatures& cardinal,
                          std::span<const double, 24> hours_c) noexcept {
  double sum = 0.0;
  for (const double temp_c : hours_c) sum += thermal_rate(cardinal, temp_c);
  return sum / kHoursPerDay;
}

double half_emergence_cd(const Crop& crop) noexcept {
  return half_emergence_cd(crop, crop.germination.depth_mm);
}

double half_emergence_cd(const Crop& crop, double depth_mm) noexcept {
  return soil_factor(crop) * thermal_time_to_half_cd(crop.germination, depth_mm);
}

double emerged_share(const Crop& crop, double thermal_time_cd, double depth_mm) noexcept {
  if (!(thermal_time_cd > 0.0)) return 0.0;
  return base::normal_cdf(std::log(thermal_time_cd / half_emergence_cd(crop, depth_mm)) /
                          crop.germination.log_spread);
}

double final_fraction_at(const Crop& crop, double temp_c) noexcept {
  return on_curve(crop.germination.final_fraction, temp_c);
}

base::Result<ConstantEmergence> emergence_at(const Crop& crop, double temp_c, double depth_mm,
                                             std::optional<double> germination_pct) {
  if (auto ok = check_depth(depth_mm); !ok) return tl::unexpected(ok.error());
  const auto pct = packet_pct(crop, germination_pct);
  if (!pct) return tl::unexpected(pct.error());
  const double rate = thermal_rate(crop.germination.cardinal, temp_c);
  const double fraction = final_fraction_at(crop, temp_c);
  if (!(rate > 0.0) || !(fraction > 0.0)) {
    return base::fail(base::ProblemCode::out_of_range,
                      fmt::format("{} does not come up at {} °C", crop.name, temp_c), {.field = "temp_c"},
                      fmt::format("It comes up between {} and {} °C", crop.germination.cardinal.base_c.value,
                                  crop.germination.cardinal.ceiling_c.value));
  }
  const double half_days = thermal_time_to_half_cd(crop.germination, depth_mm) / rate;
  const auto at_share = [&](double share) {
    return half_days * std::exp(crop.germination.log_spread * base::normal_quantile(share));
  };
  ConstantEmergence made;
  made.days = {at_share(0.1), half_days, at_share(0.9)};
  made.soil_days = {made.days.p10 * soil_factor(crop), half_days * soil_factor(crop),
                    made.days.p90 * soil_factor(crop)};
  made.final_pct = *pct * fraction;
  return made;
}

std::vector<double> emergence_by_day(const Crop& crop, std::span<const double> hours_c, double depth_mm) {
  std::vector<double> share;
  share.reserve(hours_c.size() / 24);
  double sum_cd = 0.0;
  double weighted_fraction = 0.0;
  for (std::size_t day = 0; day + 24 <= hours_c.size(); day += 24) {
    for (std::size_t hour = 0; hour < 24; ++hour) {
      const double step_cd = thermal_rate(crop.germination.cardinal, hours_c[day + hour]) / kHoursPerDay;
      sum_cd += step_cd;
      weighted_fraction += step_cd * final_fraction_at(crop, hours_c[day + hour]);
    }
    const double fraction = sum_cd > 0.0 ? weighted_fraction / sum_cd : 0.0;
    const double up = fraction * emerged_share(crop, sum_cd, depth_mm);
    share.push_back(share.empty() ? up : std::max(share.back(), up));
  }
  return share;
}

}  // namespace sowtide::crop
