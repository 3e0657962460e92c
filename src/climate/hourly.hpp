// Hourly temperatures from daily extremes. Every thermal-time sum integrates hours, since a daily mean loses
// the warm hours of a cold day.
//
// W. J. Parton and J. A. Logan 1981, A model for diurnal variation in soil and air temperature, Agric.
// Meteorol. 23:205-216. With Y the day length and Z = 24 - Y the night, in hours:
//   day    T = Tmin + (Tmax - Tmin) sin(π m/(Y + 2a))     m hours since the minimum, which falls c after
//   sunrise night  T = Tmin + (Ts - Tmin) exp(-b n/Z)             n hours since sunset, Ts the temperature at
//   sunset
// The night curve of the paper ends about a tenth of (Ts - Tmin) above the minimum; that step at sunrise is
// kept.
#pragma once

#include <array>

#include "base/quantity.hpp"

namespace sowtide::climate {

using HourlyTemperatures = std::array<double, 24>;  ///< °C at 0:30, 1:30 … 23:30 local solar time

/// The three parameters of Parton and Logan's curve, for one height or depth.
struct DailyCourse {
  double maximum_lag_h = 1.86;   ///< a: hours from noon to the maximum, less the lag of the minimum
  double night_fall = 2.20;      ///< b: how fast the night cools
  double minimum_lag_h = -0.17;  ///< c: hours from sunrise to the minimum
};

// Fitted values of the paper, table 1.
inline constexpr DailyCourse kAirAtScreenHeight{1.86, 2.20, -0.17};
inline constexpr DailyCourse kAirAtTenCentimetres{1.52, 2.00, -0.18};
inline constexpr DailyCourse kSoilSurface{0.50, 1.81, 0.49};
inline constexpr DailyCourse kSoilAtTenCentimetres{0.45, 2.28, 1.83};

/// Hours of one day from its minimum and maximum, the maximum of the day before, the minimum of the day after
/// and the day length. Never outside [min, max] of the values given. Day lengths outside 4..20 h count as
/// these: beyond them the curve has no room for a day or a night.
[[nodiscard]] HourlyTemperatures hourly_temperatures(double tmin_c, double tmax_c, double previous_tmax_c,
                                                     double next_tmin_c, double day_length_h,
                                                     const DailyCourse& course = kAirAtScreenHeight);

}  // namespace sowtide::climate
