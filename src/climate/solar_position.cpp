#include "climate/solar_position.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sowtide::climate {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kUnixEpochJulianDay = 2440587.5;
constexpr double kMillisecondsPerDay = 86'400'000.0;
constexpr double kHourAngleDegPerDay =
    360.9856;                              // sun against stars: one turn and a bit a day, for Newton steps
constexpr double kSunRadiusDeg = 0.26667;  // Reda and Andreas
constexpr double kHorizonRefractionDeg = 0.5667;  // Reda and Andreas

double sine(double degrees) {
  return std::sin(degrees * kDegree);
}
double cosine(double degrees) {
  return std::cos(degrees * kDegree);
}

double turn(double degrees) {
  const double rest = std::fmod(degrees, 360.0);
  return rest < 0.0 ? rest + 360.0 : rest;
}

double half_turn(double degrees) {
  const double rest = turn(degrees);
  return rest > 180.0 ? rest - 360.0 : rest;
}

/// Terrestrial less universal time: the parabola of L. V. Morrison and F. R. Stephenson 2004, J. Hist.
/// Astron. 35:327. Within a minute of what was measured since 1900, in which the sun moves 0.0007°.
double delta_t_days(double jd) {
  const double centuries = (jd - 2385800.5) / 36525.0;  // from 1820
  return (-20.0 + 32.0 * centuries * centuries) / 86400.0;
}

/// What a moment has for every observer.
struct SkyAtMoment {
  double right_ascension_deg;
  double declination_deg;
  double sidereal_deg;  ///< apparent, at Greenwich
  double equation_of_time_min;
  double distance_au;
};

struct Nutation {
  double longitude_deg;
  double obliquity_deg;
};

/// Meeus chapter 22, the four largest terms: 0.5" in longitude, 0.1" in obliquity.
Nutation nutation(double t) {
  const double node = 125.04452 - 1934.136261 * t;
  const double sun = 2.0 * (280.4665 + 36000.7698 * t);
  const double moon = 2.0 * (218.3165 + 481267.8813 * t);
  const double longitude =
      -17.20 * sine(node) - 1.32 * sine(sun) - 0.23 * sine(moon) + 0.21 * sine(2.0 * node);
  const double obliquity =
      9.20 * cosine(node) + 0.57 * cosine(sun) + 0.10 * cosine(moon) - 0.09 * cosine(2.0 * node);
  return {longitude / 3600.0, obliquity / 3600.0};
}

/// Pulls of Venus, Jupiter and the moon on the earth's longitude; Meeus 1979, centuries from 1900.
double perturbation_deg(double jde) {
  const double t = (jde - 2415020.0) / 36525.0;
  return 0.00134 * cosine(153.23 + 22518.7541 * t) + 0.00154 * cosine(216.57 + 45037.5082 * t) +
         0.00200 * cosine(312.69 + 32964.3577 * t) +
         0.00179 * sine(350.74 + 445267.1142 * t - 0.00144 * t * t) + 0.00178 * sine(231.19 + 20.20 * t);
}

SkyAtMoment sky_at(double jd) {
  const double jde = jd + delta_t_days(jd);
  const double t = (jde - 2451545.0) / 36525.0;
  const double mean_longitude = 280.46646 + t * (36000.76983 + 0.0003032 * t);
  const double anomaly = 357.52911 + t * (35999.05029 - 0.0001537 * t);
  const double eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t);
  const double centre = (1.914602 - t * (0.004817 + 0.000014 * t)) * sine(anomaly) +
                        (0.019993 - 0.000101 * t) * sine(2.0 * anomaly) + 0.000289 * sine(3.0 * anomaly);
  const double distance =
      1.000001018 * (1.0 - eccentricity * eccentricity) / (1.0 + eccentricity * cosine(anomaly + centre));
  const Nutation nod = nutation(t);
  const double aberration = -20.4898 / 3600.0 / distance;
  const double longitude = mean_longitude + centre + perturbation_deg(jde) + nod.longitude_deg + aberration;
  const double obliquity =
      23.439291111 - t * (0.013004167 + t * (1.639e-7 - 5.036e-7 * t)) + nod.obliquity_deg;
  SkyAtMoment sky{};
  sky.right_ascension_deg =
      turn(std::atan2(cosine(obliquity) * sine(longitude), cosine(longitude)) / kDegree);
  sky.declination_deg = std::asin(sine(obliquity) * sine(longitude)) / kDegree;
  const double ut = (jd - 2451545.0) / 36525.0;
  const double equinoxes = nod.longitude_deg * cosine(obliquity);
  sky.sidereal_deg = turn(280.46061837 + 360.98564736629 * (jd - 2451545.0) +
                          ut * ut * (0.000387933 - ut / 38710000.0) + equinoxes);
  sky.equation_of_time_min =
      4.0 * half_turn(mean_longitude - 0.0057183 - sky.right_ascension_deg + equinoxes);
  sky.distance_au = distance;
  return sky;
}

struct Topocentric {
  double hour_angle_deg;
  double declination_deg;
};

/// Parallax by Reda and Andreas, equations 33 to 40.
Topocentric topocentric(const SkyAtMoment& sky, double hour_angle_deg, const Observer& observer) {
  const double parallax = 8.794 / 3600.0 / sky.distance_au;
  const double flattened = std::atan(0.99664719 * std::tan(observer.latitude_deg * kDegree));
  const double height = observer.elevation_m / 6378140.0;
  const double x = std::cos(flattened) + height * cosine(observer.latitude_deg);
  const double y = 0.99664719 * std::sin(flattened) + height * sine(observer.latitude_deg);
  const double base = cosine(sky.declination_deg) - x * sine(parallax) * cosine(hour_angle_deg);
  const double shift = std::atan2(-x * sine(parallax) * sine(hour_angle_deg), base);
  const double declination =
      std::atan2((sine(sky.declination_deg) - y * sine(parallax)) * std::cos(shift), base);
  return {hour_angle_deg - shift / kDegree, declination / kDegree};
}

double elevation_of(double latitude_deg, double declination_deg, double hour_angle_deg) {
  const double sine_of = sine(latitude_deg) * sine(declination_deg) +
                         cosine(latitude_deg) * cosine(declination_deg) * cosine(hour_angle_deg);
  return std::asin(std::clamp(sine_of, -1.0, 1.0)) / kDegree;
}

/// Reda and Andreas, equation 42; nothing once the whole disc is below the horizon.
double refraction_deg(double elevation_deg, const Observer& observer) {
  if (elevation_deg < -(kSunRadiusDeg + kHorizonRefractionDeg)) return 0.0;
  return observer.pressure_mbar / 1010.0 * 283.0 / (273.0 + observer.air_c) * 1.02 /
         (60.0 * std::tan((elevation_deg + 10.3 / (elevation_deg + 5.11)) * kDegree));
}

double hour_angle_at(double jd, double longitude_deg) {
  const SkyAtMoment sky = sky_at(jd);
  return half_turn(sky.sidereal_deg + longitude_deg - sky.right_ascension_deg);
}

double geocentric_elevation_at(double jd, const Observer& observer) {
  const SkyAtMoment sky = sky_at(jd);
  return elevation_of(observer.latitude_deg, sky.declination_deg,
                      sky.sidereal_deg + observer.longitude_deg - sky.right_ascension_deg);
}

/// The moment nearest to `jd` at which the sun crosses the meridian.
double transit_near(double jd, double longitude_deg) {
  for (int step = 0; step < 4; ++step) jd -= hour_angle_at(jd, longitude_deg) / kHourAngleDegPerDay;
  return jd;
}

/// Between a moment with the sun below the horizon and one with it above: bisection to a few milliseconds.
double crossing_between(double below_jd, double above_jd, const Observer& observer, double horizon_deg) {
  for (int step = 0; step < 26; ++step) {
    const double middle = 0.5 * (below_jd + above_jd);
    (geocentric_elevation_at(middle, observer) < horizon_deg ? below_jd : above_jd) = middle;
  }
  return 0.5 * (below_jd + above_jd);
}

UtcTime moment_of(double jd) {
  return UtcTime{std::chrono::milliseconds{
      static_cast<std::int64_t>(std::llround((jd - kUnixEpochJulianDay) * kMillisecondsPerDay))}};
}

}  // namespace

double julian_day(UtcTime moment) {
  return static_cast<double>(moment.time_since_epoch().count()) / kMillisecondsPerDay + kUnixEpochJulianDay;
}

SunPosition sun_position(UtcTime moment, const Observer& observer) {
  const SkyAtMoment sky = sky_at(julian_day(moment));
  SunPosition sun;
  sun.declination_deg = sky.declination_deg;
  sun.right_ascension_deg = sky.right_ascension_deg;
  sun.equation_of_time_min = sky.equation_of_time_min;
  sun.distance_au = sky.distance_au;
  sun.hour_angle_deg = half_turn(sky.sidereal_deg + observer.longitude_deg - sky.right_ascension_deg);
  const Topocentric seen = topocentric(sky, sun.hour_angle_deg, observer);
  sun.geometric_elevation_deg =
      elevation_of(observer.latitude_deg, seen.declination_deg, seen.hour_angle_deg);
  sun.elevation_deg = sun.geometric_elevation_deg + refraction_deg(sun.geometric_elevation_deg, observer);
  const double west = sine(seen.hour_angle_deg);
  const double south = cosine(seen.hour_angle_deg) * sine(observer.latitude_deg) -
                       std::tan(seen.declination_deg * kDegree) * cosine(observer.latitude_deg);
  sun.azimuth_deg = turn(std::atan2(west, south) / kDegree + 180.0);
  return sun;
}

base::Degrees incidence_angle(const SunPosition& sun, base::Degrees slope, base::Degrees aspect) {
  const double cosine_of =
      sine(sun.elevation_deg) * cosine(slope.value()) +
      cosine(sun.elevation_deg) * sine(slope.value()) * cosine(sun.azimuth_deg - aspect.value());
  return base::Degrees::of(std::acos(std::clamp(cosine_of, -1.0, 1.0)) / kDegree);
}

base::Hours SunDay::length() const {
  if (kind == SunDayKind::polar_day) return base::Hours::of(24.0);
  if (kind == SunDayKind::polar_night) return base::Hours::of(0.0);
  // On the first and the last day of the midnight sun one of the two is lacking: the sun is up for that half.
  constexpr std::chrono::hours kHalfADay{12};
  const UtcTime from = rise.value_or(transit - kHalfADay);
  const UtcTime to = set.value_or(transit + kHalfADay);
  return base::Hours::of(static_cast<double>((to - from).count()) / 3'600'000.0);
}

SunDay sun_day(base::Date date, const Observer& observer, base::Hours utc_offset, base::Degrees horizon) {
  const double noon = julian_day(UtcTime{date}) + 0.5 - utc_offset.value() / 24.0;
  const double transit = transit_near(noon, observer.longitude_deg);
  const double highest = geocentric_elevation_at(transit, observer);
  SunDay day;
  day.transit = moment_of(transit);
  day.transit_elevation_deg = highest;
  if (highest < horizon.value()) {
    day.kind = SunDayKind::polar_night;
    return day;
  }
  const double before = transit - 0.5;
  const double after = transit + 0.5;
  const bool rises = geocentric_elevation_at(before, observer) < horizon.value();
  const bool sets = geocentric_elevation_at(after, observer) < horizon.value();
  if (rises) day.rise = moment_of(crossing_between(before, transit, observer, horizon.value()));
  if (sets) day.set = moment_of(crossing_between(after, transit, observer, horizon.value()));
  if (!rises && !sets) day.kind = SunDayKind::polar_day;
  return day;
}

}  // namespace sowtide::climate
