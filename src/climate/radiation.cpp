#include "climate/radiation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "climate/sun.hpp"

namespace sowtide::climate {
namespace {

using std::numbers::pi;

constexpr double kSolarConstantWM2 = 1366.1;
constexpr double kLeastCosineForClearness = 0.065;  // Erbs split: keeps the index finite at the horizon
constexpr double kBeamlessZenithDeg = 87.0;
constexpr int kStepsPerHour = 6;

double cosine(base::Degrees angle) {
  return std::cos(angle.value() * pi / 180.0);
}

/// Erbs et al. 1982, equation 1 (hourly).
double diffuse_share_of_hour(double clearness) {
  if (clearness <= 0.22) return 1.0 - 0.09 * clearness;
  if (clearness > 0.80) return 0.165;
  return 0.9511 + clearness * (-0.1604 + clearness * (4.388 + clearness * (-16.638 + clearness * 12.336)));
}

}  // namespace

double extraterrestrial_normal_w_m2(int day_of_year) {
  const double b = 2.0 * pi * (day_of_year - 1) / 365.0;
  const double eccentricity = 1.00011 + 0.034221 * std::cos(b) + 0.00128 * std::sin(b) +
                              0.000719 * std::cos(2.0 * b) + 0.000077 * std::sin(2.0 * b);
  return kSolarConstantWM2 * eccentricity;
}

double relative_air_mass(base::Degrees zenith) {
  const double z = std::min(zenith.value(), 90.0);
  return 1.0 / (cosine(base::Degrees::of(z)) + 0.50572 * std::pow(96.07995 - z, -1.6364));
}

double clear_sky_global_w_m2(base::Degrees zenith) {
  const double cos_z = cosine(zenith);
  return cos_z > 0.0 ? 1098.0 * cos_z * std::exp(-0.059 / cos_z) : 0.0;
}

base::DailyRadiation clear_sky_radiation_full(const Site& site, int day_of_year, base::Kilopascals vapour,
                                              base::Kilopascals pressure, double turbidity) {
  const double phi = site.latitude_deg * pi / 180.0;
  const double water_mm = 0.14 * vapour.value() * pressure.value() + 2.1;
  // The standard's day-long sun angle is made for northern latitudes; the south has the same sun half a year
  // on.
  const double season = std::sin(2.0 * pi * day_of_year / 365.0 - 1.39);
  const double sin_sun = std::max(0.1, std::sin(0.85 + 0.3 * phi * season - 0.42 * phi * phi));
  const double beam = 0.98 * std::exp(-0.00146 * pressure.value() / (turbidity * sin_sun) -
                                      0.075 * std::pow(water_mm / sin_sun, 0.4));
  const double diffuse = beam >= 0.15 ? 0.35 - 0.36 * beam : 0.18 + 0.82 * beam;
  return (beam + diffuse) * extraterrestrial_radiation(base::Degrees::of(site.latitude_deg), day_of_year);
}

double diffuse_share_of_day(double clearness) {
  if (clearness < 0.07) return 1.0;
  if (clearness < 0.35) return 1.0 - 2.3 * (clearness - 0.07) * (clearness - 0.07);
  if (clearness < 0.75) return 1.33 - 1.46 * clearness;
  return 0.23;
}

BeamAndDiffuse split_beam_and_diffuse(double global_w_m2, base::Degrees zenith, int day_of_year) {
  const double cos_z = cosine(zenith);
  const double top = extraterrestrial_normal_w_m2(day_of_year) * std::max(cos_z, kLeastCosineForClearness);
  BeamAndDiffuse split;
  split.clearness = std::clamp(global_w_m2 / top, 0.0, 1.0);
  split.diffuse_level_w_m2 = diffuse_share_of_hour(split.clearness) * global_w_m2;
  if (zenith.value() > kBeamlessZenithDeg || global_w_m2 <= 0.0) {
    split.diffuse_level_w_m2 = std::max(0.0, global_w_m2);
  } else {
    split.beam_normal_w_m2 = (global_w_m2 - split.diffuse_level_w_m2) / cos_z;
  }
  return split;
}

HourlyRadiation hourly_radiation(base::DailyRadiation day, base::Degrees latitude, int day_of_year) {
  const double phi = latitude.value() * pi / 180.0;
  const double delta = solar_declination_rad(day_of_year);
  HourlyRadiation hours;
  double sum = 0.0;
  for (std::size_t hour = 0; hour < 24; ++hour) {
    for (int step = 0; step < kStepsPerHour; ++step) {
      const double time_h = static_cast<double>(hour) + (step + 0.5) / kStepsPerHour;
      const double angle = pi / 12.0 * (time_h - 12.0);
      const double sine = std::sin(phi) * std::sin(delta) + std::cos(phi) * std::cos(delta) * std::cos(angle);
      if (sine > 0.0) hours.global_mj_m2[hour] += sine * (1.0 + 0.4 * sine);
    }
    sum += hours.global_mj_m2[hour];
  }
  if (sum <= 0.0) return {};
  const double top = extraterrestrial_radiation(latitude, day_of_year).value();
  const double diffuse = diffuse_share_of_day(top > 0.0 ? day.value() / top : 0.0);
  for (std::size_t hour = 0; hour < 24; ++hour) {
    hours.global_mj_m2[hour] *= day.value() / sum;
    hours.diffuse_mj_m2[hour] = diffuse * hours.global_mj_m2[hour];
  }
  return hours;
}

double sky_light_on_slope_w_m2(double diffuse_level_w_m2, base::Degrees slope) {
  return diffuse_level_w_m2 * 0.5 * (1.0 + cosine(slope));
}

double ground_light_on_slope_w_m2(double global_w_m2, double albedo, base::Degrees slope) {
  return global_w_m2 * albedo * 0.5 * (1.0 - cosine(slope));
}

double beam_on_plane_w_m2(double beam_normal_w_m2, base::Degrees incidence) {
  return beam_normal_w_m2 * std::max(0.0, cosine(incidence));
}

base::DailyRadiation photosynthetically_active(base::DailyRadiation solar, double share) {
  return share * solar;
}

double daily_light_integral_mol_m2(base::DailyRadiation solar, double share) {
  return kPhotonsMolPerMegajoule * photosynthetically_active(solar, share).value();
}

}  // namespace sowtide::climate
