#include "climate/sun.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sowtide::climate {
namespace {

using std::numbers::pi;

double radians(base::Degrees angle) {
  return angle.value() * pi / 180.0;
}

double year_angle_rad(int day_of_year) {
  return 2.0 * pi * day_of_year / 365.0;
}

}  // namespace

double inverse_relative_distance(int day_of_year) {
  return 1.0 + 0.033 * std::cos(year_angle_rad(day_of_year));
}

double solar_declination_rad(int day_of_year) {
  return 0.409 * std::sin(year_angle_rad(day_of_year) - 1.39);
}

double sunset_hour_angle_rad(base::Degrees latitude, int day_of_year) {
  const double cosine = -std::tan(radians(latitude)) * std::tan(solar_declination_rad(day_of_year));
  return std::acos(std::clamp(cosine, -1.0, 1.0));
}

base::Hours daylight_hours(base::Degrees latitude, int day_of_year) {
  return base::Hours::of(24.0 / pi * sunset_hour_angle_rad(latitude, day_of_year));
}

base::Hours hours_above(base::Degrees horizon, base::Degrees latitude, int day_of_year) {
  const double phi = radians(latitude);
  const double delta = solar_declination_rad(day_of_year);
  // At the poles the cosine of the latitude is a rounding error; the clip below still gives day or night.
  const double cosine =
      (std::sin(radians(horizon)) - std::sin(phi) * std::sin(delta)) / (std::cos(phi) * std::cos(delta));
  return base::Hours::of(24.0 / pi * std::acos(std::clamp(cosine, -1.0, 1.0)));
}

base::DailyRadiation extraterrestrial_radiation(base::Degrees latitude, int day_of_year) {
  const double phi = radians(latitude);
  const double delta = solar_declination_rad(day_of_year);
  const double omega = sunset_hour_angle_rad(latitude, day_of_year);
  const double sun =
      omega * std::sin(phi) * std::sin(delta) + std::cos(phi) * std::cos(delta) * std::sin(omega);
  const double whole_day = 24.0 * 60.0 / pi * kSolarConstantMjM2Min * inverse_relative_distance(day_of_year);
  return base::DailyRadiation::of(std::max(0.0, whole_day * sun));
}

base::DailyRadiation clear_sky_radiation(const Site& site, int day_of_year) {
  const base::Degrees latitude = base::Degrees::of(site.latitude_deg);
  return (0.75 + 2e-5 * site.elevation_m) * extraterrestrial_radiation(latitude, day_of_year);
}

base::DailyRadiation radiation_from_sunshine(base::Hours sunshine, base::Degrees latitude, int day_of_year,
                                             double a, double b) {
  const base::Hours day = daylight_hours(latitude, day_of_year);
  if (day.value() <= 0.0) return base::DailyRadiation::of(0.0);
  const double share = std::clamp(sunshine / day, 0.0, 1.0);
  return (a + b * share) * extraterrestrial_radiation(latitude, day_of_year);
}

base::DailyRadiation radiation_from_temperature_range(base::Celsius tmin, base::Celsius tmax,
                                                      const Site& site, int day_of_year, double k_rs) {
  const base::DailyRadiation top =
      extraterrestrial_radiation(base::Degrees::of(site.latitude_deg), day_of_year);
  const double range = std::max(0.0, (tmax - tmin).value());
  return std::min(k_rs * std::sqrt(range) * top, clear_sky_radiation(site, day_of_year));
}

}  // namespace sowtide::climate
