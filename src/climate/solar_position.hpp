// Where the sun stands at a moment, and when it rises, crosses the meridian and sets.
//
// Sun's apparent longitude, nutation and sidereal time after J. Meeus 1998, Astronomical Algorithms (2nd
// edition), chapters 12, 22 and 25, with the five largest perturbations by Venus, Jupiter and the moon (Meeus
// 1979, Astronomical Formulae for Calculators, chapter 18); parallax and refraction as in I. Reda and A.
// Andreas 2004, Solar position algorithm for solar radiation applications, Solar Energy 76:577-589
// (NREL/TP-560-34302). Good to 0.005° between 1900 and 2100 (measured against libnova), above a degree of
// elevation; nearer the horizon the real refraction of the day varies by more than this.
#pragma once

#include <chrono>
#include <optional>

#include "base/date.hpp"
#include "base/quantity.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate {

/// A moment of universal time. Dates and seconds convert to it: `UtcTime{date} + std::chrono::hours{12}`.
using UtcTime = std::chrono::sys_time<std::chrono::milliseconds>;

/// What bends the light near the horizon, and where the observer stands.
struct Observer {
  double latitude_deg = 0.0;   ///< -90..90
  double longitude_deg = 0.0;  ///< east positive, -180..180
  double elevation_m = 0.0;
  double pressure_mbar = 1010.0;
  double air_c = 10.0;
};

/// The sun seen by an observer; angles in degrees.
struct SunPosition {
  double elevation_deg = 0.0;            ///< apparent: with refraction, above the level horizon
  double geometric_elevation_deg = 0.0;  ///< without refraction
  double azimuth_deg = 0.0;              ///< from north, eastward, 0..360
  double hour_angle_deg = 0.0;           ///< west of the meridian positive, -180..180
  double declination_deg = 0.0;          ///< apparent, geocentric
  double right_ascension_deg = 0.0;      ///< apparent, geocentric, 0..360
  double equation_of_time_min = 0.0;     ///< apparent less mean solar time
  double distance_au = 0.0;

  [[nodiscard]] double zenith_deg() const { return 90.0 - elevation_deg; }
};

/// Julian day number of a moment (days from noon of 1 January 4713 BC).
[[nodiscard]] double julian_day(UtcTime moment);

/// Position of the sun at a moment.
[[nodiscard]] SunPosition sun_position(UtcTime moment, const Observer& observer);

/// Angle between the sun's rays and the normal of a plane tilted by `slope` towards `aspect` (from north,
/// eastward; 180° faces south).
[[nodiscard]] base::Degrees incidence_angle(const SunPosition& sun, base::Degrees slope,
                                            base::Degrees aspect);

enum class SunDayKind { rises_and_sets, polar_day, polar_night };

/// One local day of the sun. Rise and set are nothing in polar day and night.
struct SunDay {
  SunDayKind kind = SunDayKind::rises_and_sets;
  UtcTime transit{};
  double transit_elevation_deg = 0.0;  ///< geometric
  std::optional<UtcTime> rise;
  std::optional<UtcTime> set;

  /// 0 in the polar night, 24 in the polar day; a rise or set that is lacking counts as 12 h from the
  /// transit.
  [[nodiscard]] base::Hours length() const;
};

/// Rise, transit and set around the noon of a local date whose clock runs `utc_offset` ahead of UTC. The
/// sun's centre crosses `horizon`: the almanac's -0.833° by default.
[[nodiscard]] SunDay sun_day(base::Date date, const Observer& observer, base::Hours utc_offset,
                             base::Degrees horizon = kAlmanacHorizon);

}  // namespace sowtide::climate
