#include "climate/evapotranspiration.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sowtide::climate {
namespace {

using std::numbers::pi;

constexpr double kAlbedoOfGrass = 0.23;                 // eq. 38
constexpr double kStefanBoltzmannMjM2Day = 4.903e-9;    // eq. 39
constexpr double kStefanBoltzmannMjM2Hour = 2.043e-10;  // FAO-56 chapter 4: a twenty-fourth
constexpr double kMillimetresPerMegajoule = 0.408;      // eq. 20, latent heat 2.45 MJ/kg
constexpr double kLeastCloudFactor = 0.05;              // ASCE-EWRI 2005
// Share of clear-sky radiation taken where there is no sun to tell how cloudy it is: middle of the range that
// FAO-56 chapter 4 gives for nights (0.4-0.6 humid, 0.7-0.8 arid).
constexpr double kAssumedClearness = 0.6;
// Below this elevation of the sun the hour's own Rs/Rso is noise (ASCE-EWRI 2005: 0.3 rad).
constexpr double kLeastSunForClearnessRad = 0.3;

double fourth_power_k(double celsius) {
  const double square = (celsius + 273.16) * (celsius + 273.16);
  return square * square;
}

double cloud_factor(double clearness) {
  return std::clamp(1.35 * clearness - 0.35, kLeastCloudFactor, 1.0);
}

double clearness_of_day(double radiation, double clear_sky) {
  return clear_sky > 0.0 ? std::min(1.0, radiation / clear_sky) : kAssumedClearness;
}

void fill_radiation(const DailyWeather& weather, const Site& site, int day_of_year,
                    EvapotranspirationTerms& terms) {
  const base::Degrees latitude = base::Degrees::of(site.latitude_deg);
  terms.extraterrestrial_mj_m2 = extraterrestrial_radiation(latitude, day_of_year).value();
  terms.daylight_h = daylight_hours(latitude, day_of_year).value();
  terms.clear_sky_mj_m2 = weather.clear_sky_mj_m2.value_or(clear_sky_radiation(site, day_of_year).value());
  if (weather.radiation_mj_m2) {
    terms.radiation_mj_m2 = *weather.radiation_mj_m2;
    terms.radiation_rule = RadiationRule::measured;
  } else if (weather.sunshine_h) {
    terms.radiation_mj_m2 = radiation_from_sunshine(base::Hours::of(*weather.sunshine_h), latitude,
                                                    day_of_year, weather.angstrom_a, weather.angstrom_b)
                                .value();
    terms.radiation_rule = RadiationRule::sunshine;
  } else {
    terms.radiation_mj_m2 =
        radiation_from_temperature_range(base::Celsius::of(weather.tmin_c), base::Celsius::of(weather.tmax_c),
                                         site, day_of_year, weather.k_rs)
            .value();
    terms.radiation_rule = RadiationRule::temperature_range;
  }
}

void fill_net_radiation(const DailyWeather& weather, EvapotranspirationTerms& terms) {
  terms.net_shortwave_mj_m2 = (1.0 - kAlbedoOfGrass) * terms.radiation_mj_m2;
  const double emitted =
      kStefanBoltzmannMjM2Day * 0.5 * (fourth_power_k(weather.tmax_c) + fourth_power_k(weather.tmin_c));
  const double vapour = std::max(0.0, terms.vapour.actual.value());
  terms.net_longwave_mj_m2 = emitted * (0.34 - 0.14 * std::sqrt(vapour)) *
                             cloud_factor(clearness_of_day(terms.radiation_mj_m2, terms.clear_sky_mj_m2));
  terms.net_mj_m2 = terms.net_shortwave_mj_m2 - terms.net_longwave_mj_m2;
}

/// FAO-56 eq. 32, h.
double seasonal_correction_h(int day_of_year) {
  const double b = 2.0 * pi * (day_of_year - 81) / 364.0;
  return 0.1645 * std::sin(2.0 * b) - 0.1255 * std::cos(b) - 0.025 * std::sin(b);
}

/// Fills the sun of the hour: eq. 28-32. Only the part of the hour with the sun up counts.
void fill_sun_of_hour(const Site& site, const HourOfYear& when, HourlyEvapotranspirationTerms& terms) {
  const base::Degrees latitude = base::Degrees::of(site.latitude_deg);
  const double phi = site.latitude_deg * pi / 180.0;
  const double delta = solar_declination_rad(when.day_of_year);
  const double sunset = sunset_hour_angle_rad(latitude, when.day_of_year);
  terms.seasonal_correction_h = seasonal_correction_h(when.day_of_year);
  const double solar_h =
      when.middle_h + (site.longitude_deg - when.zone_meridian_deg) / 15.0 + terms.seasonal_correction_h;
  terms.solar_angle_rad = std::remainder(pi / 12.0 * (solar_h - 12.0), 2.0 * pi);
  const double begin = std::clamp(terms.solar_angle_rad - pi / 24.0, -sunset, sunset);
  const double end = std::clamp(terms.solar_angle_rad + pi / 24.0, -sunset, sunset);
  const double sun = (end - begin) * std::sin(phi) * std::sin(delta) +
                     std::cos(phi) * std::cos(delta) * (std::sin(end) - std::sin(begin));
  terms.extraterrestrial_mj_m2 = std::max(
      0.0, 12.0 * 60.0 / pi * kSolarConstantMjM2Min * inverse_relative_distance(when.day_of_year) * sun);
  terms.clear_sky_mj_m2 = (0.75 + 2e-5 * site.elevation_m) * terms.extraterrestrial_mj_m2;
}

double clearness_of_hour(const HourlyWeather& weather, const Site& site, const HourOfYear& when,
                         const HourlyEvapotranspirationTerms& terms) {
  const double phi = site.latitude_deg * pi / 180.0;
  const double delta = solar_declination_rad(when.day_of_year);
  const double sine =
      std::sin(phi) * std::sin(delta) + std::cos(phi) * std::cos(delta) * std::cos(terms.solar_angle_rad);
  if (terms.clear_sky_mj_m2 <= 0.0 || sine < std::sin(kLeastSunForClearnessRad))
    return weather.clearness_before_sunset;
  return std::min(1.0, weather.radiation_mj_m2 / terms.clear_sky_mj_m2);
}

std::optional<double> vapour_of_hour(const HourlyWeather& weather, double saturation_kpa) {
  if (weather.vapour_pressure_kpa) return weather.vapour_pressure_kpa;
  if (weather.dewpoint_c) return saturation_vapour_pressure(base::Celsius::of(*weather.dewpoint_c)).value();
  if (weather.rh_pct) return saturation_kpa * *weather.rh_pct / 100.0;
  return std::nullopt;
}

}  // namespace

std::string_view radiation_rule_text(RadiationRule rule) noexcept {
  switch (rule) {
    case RadiationRule::measured:
      return "as given";
    case RadiationRule::sunshine:
      return "from the hours of sunshine (eq. 35)";
    case RadiationRule::temperature_range:
      return "from the temperature range (eq. 50)";
  }
  return "";
}

EvapotranspirationTerms evapotranspiration_terms(const DailyWeather& weather, const Site& site,
                                                 int day_of_year, double soil_heat_mj_m2) {
  const base::Celsius tmin = base::Celsius::of(weather.tmin_c);
  const base::Celsius tmax = base::Celsius::of(weather.tmax_c);
  const base::Kilopascals pressure = air_pressure(base::Metres::of(site.elevation_m));
  EvapotranspirationTerms terms;
  terms.tmean_c = 0.5 * (weather.tmin_c + weather.tmax_c);
  terms.pressure_kpa = pressure.value();
  terms.gamma_kpa_k = psychrometric_constant_kpa_k(pressure);
  terms.slope_kpa_k = saturation_slope_kpa_k(base::Celsius::of(terms.tmean_c));
  terms.saturation_kpa = mean_saturation_vapour_pressure(tmin, tmax).value();
  terms.vapour = actual_vapour_pressure(weather.humidity, tmin, tmax, pressure);
  terms.wind_assumed = !weather.wind_2m_ms;
  terms.wind_2m_ms = weather.wind_2m_ms.value_or(kAssumedWind.value());
  terms.soil_heat_mj_m2 = soil_heat_mj_m2;
  fill_radiation(weather, site, day_of_year, terms);
  fill_net_radiation(weather, terms);
  const double deficit = terms.saturation_kpa - terms.vapour.actual.value();
  const double energy = kMillimetresPerMegajoule * terms.slope_kpa_k * (terms.net_mj_m2 - soil_heat_mj_m2);
  const double drying = terms.gamma_kpa_k * 900.0 / (terms.tmean_c + 273.0) * terms.wind_2m_ms * deficit;
  terms.et0_mm =
      (energy + drying) / (terms.slope_kpa_k + terms.gamma_kpa_k * (1.0 + 0.34 * terms.wind_2m_ms));
  return terms;
}

base::MillimetresPerDay reference_evapotranspiration_daily(const DailyWeather& weather, const Site& site,
                                                           int day_of_year) {
  return base::MillimetresPerDay::of(
      std::max(0.0, evapotranspiration_terms(weather, site, day_of_year).et0_mm));
}

double monthly_soil_heat_mj_m2(double previous_month_c, double this_month_c,
                               std::optional<double> next_month_c) {
  return next_month_c ? 0.07 * (*next_month_c - previous_month_c) : 0.14 * (this_month_c - previous_month_c);
}

int mid_month_day_of_year(int month) {
  constexpr std::array<int, 12> kFifteenth{15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349};
  return kFifteenth.at(static_cast<std::size_t>(month - 1));
}

EvapotranspirationTerms evapotranspiration_terms_monthly(const DailyWeather& mean_day, const Site& site,
                                                         int month, double previous_month_c,
                                                         std::optional<double> next_month_c) {
  const double this_month_c = 0.5 * (mean_day.tmin_c + mean_day.tmax_c);
  return evapotranspiration_terms(mean_day, site, mid_month_day_of_year(month),
                                  monthly_soil_heat_mj_m2(previous_month_c, this_month_c, next_month_c));
}

base::Result<HourlyEvapotranspirationTerms> evapotranspiration_terms_hourly(const HourlyWeather& weather,
                                                                            const Site& site,
                                                                            const HourOfYear& when) {
  const base::Celsius air = base::Celsius::of(weather.air_c);
  HourlyEvapotranspirationTerms terms;
  fill_sun_of_hour(site, when, terms);
  terms.saturation_kpa = saturation_vapour_pressure(air).value();
  const std::optional<double> vapour = vapour_of_hour(weather, terms.saturation_kpa);
  if (!vapour) {
    return base::fail(base::ProblemCode::missing_field, "the humidity of the hour is not given",
                      {.field = "rh_pct"}, "Give rh_pct, dewpoint_c or vapour_pressure_kpa");
  }
  terms.vapour_kpa = *vapour;
  terms.slope_kpa_k = saturation_slope_kpa_k(air);
  terms.gamma_kpa_k = psychrometric_constant_kpa_k(air_pressure(base::Metres::of(site.elevation_m)));
  terms.wind_assumed = !weather.wind_2m_ms;
  terms.wind_2m_ms = weather.wind_2m_ms.value_or(kAssumedWind.value());
  terms.clearness = clearness_of_hour(weather, site, when, terms);
  terms.net_longwave_mj_m2 = kStefanBoltzmannMjM2Hour * fourth_power_k(weather.air_c) *
                             (0.34 - 0.14 * std::sqrt(std::max(0.0, *vapour))) *
                             cloud_factor(terms.clearness);
  terms.net_mj_m2 = (1.0 - kAlbedoOfGrass) * weather.radiation_mj_m2 - terms.net_longwave_mj_m2;
  terms.soil_heat_mj_m2 = (terms.extraterrestrial_mj_m2 > 0.0 ? 0.1 : 0.5) * terms.net_mj_m2;
  const double energy =
      kMillimetresPerMegajoule * terms.slope_kpa_k * (terms.net_mj_m2 - terms.soil_heat_mj_m2);
  const double drying = terms.gamma_kpa_k * 37.0 / (weather.air_c + 273.0) * terms.wind_2m_ms *
                        (terms.saturation_kpa - *vapour);
  terms.et0_mm =
      (energy + drying) / (terms.slope_kpa_k + terms.gamma_kpa_k * (1.0 + 0.34 * terms.wind_2m_ms));
  return terms;
}

base::MillimetresPerDay reference_evapotranspiration_hargreaves(base::Celsius tmin, base::Celsius tmax,
                                                                base::Degrees latitude, int day_of_year) {
  const double mean = 0.5 * (tmin.value() + tmax.value());
  const double range = std::max(0.0, (tmax - tmin).value());
  const double energy = extraterrestrial_radiation(latitude, day_of_year).value();
  return base::MillimetresPerDay::of(
      std::max(0.0, 0.0023 * (mean + 17.8) * std::sqrt(range) * kMillimetresPerMegajoule * energy));
}

}  // namespace sowtide::climate
