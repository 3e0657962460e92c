// Sun and daily radiation by FAO Irrigation and Drainage Paper 56 (R. G. Allen, L. S. Pereira, D. Raes, M.
// Smith 1998), chapter 3: how long is the day, how much sun reaches the top of the air, how much the ground.
// Good to a degree or so of sun angle, which is what FAO-56 asks for; the full solar position is in
// solar_position.hpp.
//
//   dr    = 1 + 0.033 cos(2π J/365)                                  inverse relative distance, eq. 23
//   δ     = 0.409 sin(2π J/365 - 1.39)                     rad       declination, eq. 24
//   ωs    = arccos(-tan φ tan δ), argument clipped to ±1   rad       sunset hour angle, eq. 25
//   Ra    = 24·60/π · 0.0820 dr (ωs sin φ sin δ + cos φ cos δ sin ωs)   MJ/m²/d, eq. 21
//   N     = 24 ωs/π                                        h         eq. 34
//
// J is the day of the year, 1..366; φ the latitude, north positive, -90..90. Polar night and polar day are
// ordinary values (0 and 24 hours), never an error.
#pragma once

#include "base/date.hpp"
#include "base/quantity.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Solar constant of FAO-56, MJ/m² per minute (eq. 21).
inline constexpr double kSolarConstantMjM2Min = 0.0820;

/// Elevation of the sun's centre at which a day is taken to begin and end. A photoperiod parameter means
/// nothing without one: between the first and the last of these lie 1.0 to 1.3 hours at 40 degrees.
inline constexpr base::Degrees kGeometricHorizon = base::Degrees::of(0.0);   ///< FAO-56
inline constexpr base::Degrees kAlmanacHorizon = base::Degrees::of(-0.833);  ///< upper limb, with refraction
inline constexpr base::Degrees kPhotoperiodHorizon = base::Degrees::of(-4.0);  ///< usual in open crop models
inline constexpr base::Degrees kCivilTwilightHorizon = base::Degrees::of(-6.0);

/// Coefficient of eq. 50 away from and on coasts; by site it ranges from 0.14 to 0.21.
inline constexpr double kInlandKrs = 0.16;
inline constexpr double kCoastalKrs = 0.19;

/// Inverse relative distance to the sun, eq. 23; a pure number near 1.
[[nodiscard]] double inverse_relative_distance(int day_of_year);

/// Declination of the sun, eq. 24, in radians.
[[nodiscard]] double solar_declination_rad(int day_of_year);

/// Sunset hour angle, eq. 25, in radians: 0 in the polar night, π in the polar day.
[[nodiscard]] double sunset_hour_angle_rad(base::Degrees latitude, int day_of_year);

/// Hours from sunrise to sunset of the centre of the sun over a level horizon: FAO-56 eq. 34. 0 in the polar
/// night and 24 in the polar day.
[[nodiscard]] base::Hours daylight_hours(base::Degrees latitude, int day_of_year);

/// Hours in which the centre of the sun stands above `horizon`, with the declination of eq. 24.
[[nodiscard]] base::Hours hours_above(base::Degrees horizon, base::Degrees latitude, int day_of_year);

/// Radiation at the top of the atmosphere on a level surface: FAO-56 eq. 21.
[[nodiscard]] base::DailyRadiation extraterrestrial_radiation(base::Degrees latitude, int day_of_year);

/// Radiation on a level surface under a clear sky: (0.75 + 2·10⁻⁵ z) Ra, FAO-56 eq. 37.
[[nodiscard]] base::DailyRadiation clear_sky_radiation(const Site& site, int day_of_year);

/// Daily solar radiation from the hours of bright sunshine: (a + b n/N) Ra, FAO-56 eq. 35 (Ångström).
/// Sunshine beyond the day length counts as the day length. 0 in the polar night.
[[nodiscard]] base::DailyRadiation radiation_from_sunshine(base::Hours sunshine, base::Degrees latitude,
                                                           int day_of_year, double a = 0.25, double b = 0.50);

/// Daily solar radiation from the temperature range: FAO-56 eq. 50, k_rs 0.16 inland, 0.19 coast; at most the
/// clear-sky radiation of eq. 37. A tmin above tmax counts as no range.
[[nodiscard]] base::DailyRadiation radiation_from_temperature_range(base::Celsius tmin, base::Celsius tmax,
                                                                    const Site& site, int day_of_year,
                                                                    double k_rs = kInlandKrs);

}  // namespace sowtide::climate
