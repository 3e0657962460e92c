#include "climate/vapour.hpp"

#include <fmt/format.h>

#include <cmath>

namespace sowtide::climate {
namespace {

constexpr double kHighestWindHeightM = 200.0;

double saturation_kpa(double air_c) {
  return 0.6108 * std::exp(17.27 * air_c / (air_c + 237.3));
}

}  // namespace

base::Kilopascals saturation_vapour_pressure(base::Celsius air) {
  return base::Kilopascals::of(saturation_kpa(air.value()));
}

base::Kilopascals mean_saturation_vapour_pressure(base::Celsius tmin, base::Celsius tmax) {
  return 0.5 * (saturation_vapour_pressure(tmin) + saturation_vapour_pressure(tmax));
}

double saturation_slope_kpa_k(base::Celsius air) {
  const double t = air.value() + 237.3;
  return 4098.0 * saturation_kpa(air.value()) / (t * t);
}

base::Celsius dew_point(base::Kilopascals vapour) {
  const double logarithm = std::log(vapour.value() / 0.6108);
  return base::Celsius::of(237.3 * logarithm / (17.27 - logarithm));
}

base::Kilopascals air_pressure(base::Metres elevation) {
  return base::Kilopascals::of(101.3 * std::pow((293.0 - 0.0065 * elevation.value()) / 293.0, 5.26));
}

double psychrometric_constant_kpa_k(base::Kilopascals pressure) {
  return 0.665e-3 * pressure.value();
}

base::Result<base::MetresPerSecond> wind_at_two_metres(base::MetresPerSecond wind, base::Metres height) {
  if (!(height >= kLowestWindHeight && height.value() <= kHighestWindHeightM)) {
    return base::fail(base::ProblemCode::out_of_range,
                      fmt::format("a wind height of {} m cannot be brought to 2 m", height.value()),
                      {.field = "wind_height_m"}, "Give the height of the anemometer, 0.5 to 200 m");
  }
  return wind * (4.87 / std::log(67.8 * height.value() - 5.42));
}

std::string_view vapour_rule_text(VapourRule rule) noexcept {
  switch (rule) {
    case VapourRule::measured:
      return "as given";
    case VapourRule::dew_point:
      return "from the dew point (eq. 14)";
    case VapourRule::psychrometer:
      return "from wet and dry bulb (eq. 15)";
    case VapourRule::rh_extremes:
      return "from the highest and lowest relative humidity (eq. 17)";
    case VapourRule::rh_maximum:
      return "from the highest relative humidity (eq. 18)";
    case VapourRule::rh_mean:
      return "from the mean relative humidity (eq. 19)";
    case VapourRule::minimum_temperature:
      return "from the minimum temperature, no humidity being known (eq. 48)";
  }
  return "";
}

VapourPressure actual_vapour_pressure(const Humidity& humidity, base::Celsius tmin, base::Celsius tmax,
                                      base::Kilopascals pressure) {
  const auto made = [](double kpa, VapourRule rule) {
    return VapourPressure{base::Kilopascals::of(kpa), rule};
  };
  const double at_tmin = saturation_kpa(tmin.value());
  const double at_tmax = saturation_kpa(tmax.value());
  if (humidity.vapour_pressure_kpa) return made(*humidity.vapour_pressure_kpa, VapourRule::measured);
  if (humidity.dewpoint_c) return made(saturation_kpa(*humidity.dewpoint_c), VapourRule::dew_point);
  if (humidity.wet_bulb_c && humidity.dry_bulb_c) {
    const double gamma = humidity.psychrometer_coefficient * pressure.value();
    const double depression = *humidity.dry_bulb_c - *humidity.wet_bulb_c;
    return made(saturation_kpa(*humidity.wet_bulb_c) - gamma * depression, VapourRule::psychrometer);
  }
  if (humidity.rh_max_pct && humidity.rh_min_pct) {
    return made(0.5 * (at_tmin * *humidity.rh_max_pct + at_tmax * *humidity.rh_min_pct) / 100.0,
                VapourRule::rh_extremes);
  }
  if (humidity.rh_max_pct) return made(at_tmin * *humidity.rh_max_pct / 100.0, VapourRule::rh_maximum);
  if (humidity.rh_mean_pct) {
    return made(0.5 * (at_tmin + at_tmax) * *humidity.rh_mean_pct / 100.0, VapourRule::rh_mean);
  }
  return made(saturation_kpa(tmin.value() - humidity.dewpoint_below_tmin_k), VapourRule::minimum_temperature);
}

}  // namespace sowtide::climate
