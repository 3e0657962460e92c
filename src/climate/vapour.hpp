// Water vapour, air pressure and wind by FAO Irrigation and Drainage Paper 56 (R. G. Allen, L. S. Pereira, D.
// Raes, M. Smith 1998), chapter 3.
//
//   e°(T) = 0.6108 exp(17.27 T/(T + 237.3))                     kPa     eq. 11
//   Δ     = 4098 e°(T)/(T + 237.3)²                             kPa/°C  eq. 13
//   P     = 101.3 ((293 - 0.0065 z)/293)^5.26                   kPa     eq. 7
//   γ     = 0.665·10⁻³ P                                        kPa/°C  eq. 8
//   u2    = uz 4.87/ln(67.8 z - 5.42)                           m/s     eq. 47
#pragma once

#include <optional>
#include <string_view>

#include "base/problem.hpp"
#include "base/quantity.hpp"

namespace sowtide::climate {

/// Saturation vapour pressure over water at an air temperature, eq. 11.
[[nodiscard]] base::Kilopascals saturation_vapour_pressure(base::Celsius air);

/// Mean saturation vapour pressure of a day from its extremes, eq. 12.
[[nodiscard]] base::Kilopascals mean_saturation_vapour_pressure(base::Celsius tmin, base::Celsius tmax);

/// Slope of the saturation curve, eq. 13, in kPa/°C.
[[nodiscard]] double saturation_slope_kpa_k(base::Celsius air);

/// The temperature whose saturation vapour pressure this is: eq. 11 solved for T. `vapour` must be above 0.
[[nodiscard]] base::Celsius dew_point(base::Kilopascals vapour);

/// Air pressure at an elevation, eq. 7.
[[nodiscard]] base::Kilopascals air_pressure(base::Metres elevation);

/// Psychrometric constant, eq. 8, in kPa/°C.
[[nodiscard]] double psychrometric_constant_kpa_k(base::Kilopascals pressure);

/// The lowest anemometer height that eq. 47 can bring to 2 m: below it the logarithm runs away.
inline constexpr base::Metres kLowestWindHeight = base::Metres::of(0.5);

/// Wind over short grass at 2 m from wind at `height`, eq. 47. out_of_range for a height below 0.5 m or above
/// 200 m.
[[nodiscard]] base::Result<base::MetresPerSecond> wind_at_two_metres(base::MetresPerSecond wind,
                                                                     base::Metres height);

/// What is known of the humidity of a day. Everything may be missing.
struct Humidity {
  std::optional<double> vapour_pressure_kpa;
  std::optional<double> dewpoint_c;
  std::optional<double> wet_bulb_c;  ///< needs dry_bulb_c
  std::optional<double> dry_bulb_c;
  double psychrometer_coefficient =
      0.000662;  ///< eq. 16: ventilated 0.000662, natural 0.0008, indoors 0.0012
  std::optional<double> rh_max_pct;
  std::optional<double> rh_min_pct;
  std::optional<double> rh_mean_pct;
  double dewpoint_below_tmin_k = 0.0;  ///< last resort: dew point this far under tmin; 2 to 3 in dry climates
};

/// Which rule of FAO-56 gave the vapour pressure.
enum class VapourRule {
  measured,
  dew_point,
  psychrometer,
  rh_extremes,
  rh_maximum,
  rh_mean,
  minimum_temperature
};

/// Words for people, with the equation number.
[[nodiscard]] std::string_view vapour_rule_text(VapourRule rule) noexcept;

struct VapourPressure {
  base::Kilopascals actual;
  VapourRule rule = VapourRule::minimum_temperature;
};

/// Actual vapour pressure by the best rule the data allow, in FAO-56's order of trust: measured, dew point
/// (eq. 14), psychrometer (eq. 15), both humidity extremes (eq. 17), the maximum alone (eq. 18), the mean
/// (eq. 19), and at last e°(tmin) (eq. 48).
[[nodiscard]] VapourPressure actual_vapour_pressure(const Humidity& humidity, base::Celsius tmin,
                                                    base::Celsius tmax, base::Kilopascals pressure);

}  // namespace sowtide::climate
