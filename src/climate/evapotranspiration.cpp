#include "climate/evapotranspiration.hpp"

#include <algorithm>
#include <cmath>

namespace sowtide::climate {
namespace {

constexpr double kAlbedoOfGrass = 0.23;               // eq. 38
constexpr double kStefanBoltzmannMjM2Day = 4.903e-9;  // eq. 39
constexpr double kMillimetresPerMegajoule = 0.408;    // eq. 20, latent heat 2.45 MJ/kg
constexpr double kLeastCloudFactor = 0.05;            // ASCE-EWRI 2005
// Share of clear-sky radiation taken where there is no sun to tell how cloudy it is: middle of the range that
// FAO-56 chapter 4 gives for nights (0.4-0.6 humid, 0.7-0.8 arid).
constexpr double kAssumedClearness = 0.6;

double fourth_power_k(double celsius) {
  const double square = (celsius + 273.16) * (celsius + 273.16);
  return square * square;
}

double cloud_factor(double radiation, double clear_sky) {
  const double share = clear_sky > 0.0 ? std::min(1.0, radiation / clear_sky) : kAssumedClearness;
  return std::clamp(1.35 * share - 0.35, kLeastCloudFactor, 1.0);
}

void fill_radiation(const DailyWeather& weather, const Site& site, int day_of_year,
                    EvapotranspirationTerms& terms) {
  const base::Degrees latitude = base::Degrees::of(site.latitude_deg);
  terms.extraterrestrial_mj_m2 = extraterrestrial_radiation(latitude, day_of_year).value();
  terms.daylight_h = daylight_hours(latitude, day_of_year).value();
  terms.clear_sky_mj_m2 = clear_sky_radiation(site, day_of_year).value();
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
                             cloud_factor(terms.radiation_mj_m2, terms.clear_sky_mj_m2);
  terms.net_mj_m2 = terms.net_shortwave_mj_m2 - terms.net_longwave_mj_m2;
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

}  // namespace sowtide::climate
