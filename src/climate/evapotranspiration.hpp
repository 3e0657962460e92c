// How much water a short, well-watered grass would give off: the reference evapotranspiration ETo of FAO
// Irrigation and Drainage Paper 56 (R. G. Allen, L. S. Pereira, D. Raes, M. Smith 1998), with its rules for
// missing data (chapter 3).
//
//   ETo = [0.408 Δ (Rn - G) + γ 900/(T + 273) u2 (es - ea)] / [Δ + γ (1 + 0.34 u2)]     mm/d, eq. 6
//   Rns = 0.77 Rs                                                                       eq. 38
//   Rnl = σ ½(Tmax,K⁴ + Tmin,K⁴)(0.34 - 0.14 √ea)(1.35 Rs/Rso - 0.35)                   eq. 39
//
// Hourly: 37 in place of 900, radiation of the hour, G 0.1 Rn by day and 0.5 Rn by night (eq. 53, 45, 46).
//
// The cloud factor 1.35 Rs/Rso - 0.35 is held to 0.05..1 as in the ASCE-EWRI 2005 standard; FAO-56 only caps
// Rs/Rso at 1, which on the dullest days would let the sky warm the ground.
#pragma once

#include <optional>

#include "base/quantity.hpp"
#include "climate/site.hpp"
#include "climate/sun.hpp"
#include "climate/vapour.hpp"

namespace sowtide::climate {

/// Wind at 2 m where none is known: mean of over 2000 stations, FAO-56 chapter 3.
inline constexpr base::MetresPerSecond kAssumedWind = base::MetresPerSecond::of(2.0);

/// The weather of one day as far as it is known. tmin and tmax must be; tmin at most tmax.
struct DailyWeather {
  double tmin_c = 0.0;
  double tmax_c = 0.0;
  Humidity humidity;
  std::optional<double> wind_2m_ms;
  std::optional<double> radiation_mj_m2;  ///< measured, per day
  std::optional<double> sunshine_h;       ///< used where radiation is not known
  double k_rs = kInlandKrs;               ///< used where neither is known
  std::optional<double> clear_sky_mj_m2;  ///< in place of eq. 37, for example from clear_sky_radiation_full
  double angstrom_a = 0.25;
  double angstrom_b = 0.50;
};

/// Which rule of FAO-56 gave the radiation.
enum class RadiationRule { measured, sunshine, temperature_range };

/// Words for people, with the equation number.
[[nodiscard]] std::string_view radiation_rule_text(RadiationRule rule) noexcept;

/// Every step between the weather and the answer.
struct EvapotranspirationTerms {
  double tmean_c = 0.0;
  double pressure_kpa = 0.0;
  double gamma_kpa_k = 0.0;
  double slope_kpa_k = 0.0;
  double saturation_kpa = 0.0;
  VapourPressure vapour;
  double wind_2m_ms = 0.0;
  bool wind_assumed = false;
  double extraterrestrial_mj_m2 = 0.0;
  double daylight_h = 0.0;
  double radiation_mj_m2 = 0.0;
  RadiationRule radiation_rule = RadiationRule::measured;
  double clear_sky_mj_m2 = 0.0;
  double net_shortwave_mj_m2 = 0.0;
  double net_longwave_mj_m2 = 0.0;  ///< outgoing, positive
  double net_mj_m2 = 0.0;
  double soil_heat_mj_m2 = 0.0;
  double et0_mm = 0.0;  ///< may be slightly negative in a cold dark day
};

/// All terms of a day's reference evapotranspiration; `soil_heat_mj_m2` is 0 for single days.
[[nodiscard]] EvapotranspirationTerms evapotranspiration_terms(const DailyWeather& weather, const Site& site,
                                                               int day_of_year, double soil_heat_mj_m2 = 0.0);

/// Reference evapotranspiration of one day, FAO-56 eq. 6 with its rules for missing data; never below 0.
[[nodiscard]] base::MillimetresPerDay reference_evapotranspiration_daily(const DailyWeather& weather,
                                                                         const Site& site, int day_of_year);

/// Soil heat flux of a month from the mean temperatures of the months around it, MJ/m²/d: 0.07 (next -
/// previous), FAO-56 eq. 43, or 0.14 (this - previous), eq. 44, when the next is not known.
[[nodiscard]] double monthly_soil_heat_mj_m2(double previous_month_c, double this_month_c,
                                             std::optional<double> next_month_c);

/// Reference evapotranspiration of the mean day of a month, mm/d: the daily equation on the 15th, with the
/// soil heat of the month. `month` is 1..12.
[[nodiscard]] EvapotranspirationTerms evapotranspiration_terms_monthly(const DailyWeather& mean_day,
                                                                       const Site& site, int month,
                                                                       double previous_month_c,
                                                                       std::optional<double> next_month_c);

/// Day of the year of the 15th of a month in a common year.
[[nodiscard]] int mid_month_day_of_year(int month);

/// The weather of one hour. One of vapour pressure, dew point and relative humidity must be known.
struct HourlyWeather {
  double air_c = 0.0;
  std::optional<double> vapour_pressure_kpa;
  std::optional<double> dewpoint_c;
  std::optional<double> rh_pct;
  std::optional<double> wind_2m_ms;
  double radiation_mj_m2 = 0.0;  ///< of the hour
  /// Rs/Rso two or three hours before sunset, for hours with no sun or a low one; FAO-56: 0.4-0.6 in humid,
  /// 0.7-0.8 in arid climates.
  double clearness_before_sunset = 0.6;
};

/// Which hour: day of the year, its middle on the standard clock, and the clock's meridian in degrees east
/// (UTC offset × 15).
struct HourOfYear {
  int day_of_year = 1;
  double middle_h = 12.5;
  double zone_meridian_deg = 0.0;
};

/// Every step between the weather of an hour and its answer.
struct HourlyEvapotranspirationTerms {
  double seasonal_correction_h = 0.0;   ///< eq. 32
  double solar_angle_rad = 0.0;         ///< eq. 31, at the middle of the hour
  double extraterrestrial_mj_m2 = 0.0;  ///< eq. 28
  double clear_sky_mj_m2 = 0.0;
  double vapour_kpa = 0.0;
  double saturation_kpa = 0.0;
  double slope_kpa_k = 0.0;
  double gamma_kpa_k = 0.0;
  double wind_2m_ms = 0.0;
  bool wind_assumed = false;
  double clearness = 0.0;
  double net_longwave_mj_m2 = 0.0;
  double net_mj_m2 = 0.0;
  double soil_heat_mj_m2 = 0.0;
  double et0_mm = 0.0;  ///< mm in the hour; dew makes it slightly negative
};

/// Hourly FAO-56 Penman-Monteith, eq. 53. missing_field when no humidity is given.
[[nodiscard]] base::Result<HourlyEvapotranspirationTerms> evapotranspiration_terms_hourly(
    const HourlyWeather& weather, const Site& site, const HourOfYear& when);

/// Reference evapotranspiration from temperatures alone, FAO-56 eq. 52 (G. H. Hargreaves and Z. A. Samani
/// 1985): 0.0023 (Tmean + 17.8) √(Tmax - Tmin) · 0.408 Ra; never below 0.
[[nodiscard]] base::MillimetresPerDay reference_evapotranspiration_hargreaves(base::Celsius tmin,
                                                                              base::Celsius tmax,
                                                                              base::Degrees latitude,
                                                                              int day_of_year);

}  // namespace sowtide::climate
