// How much water a short, well-watered grass would give off: the reference evapotranspiration ETo of FAO
// Irrigation and Drainage Paper 56 (R. G. Allen, L. S. Pereira, D. Raes, M. Smith 1998), with its rules for
// missing data (chapter 3).
//
//   ETo = [0.408 Δ (Rn - G) + γ 900/(T + 273) u2 (es - ea)] / [Δ + γ (1 + 0.34 u2)]     mm/d, eq. 6
//   Rns = 0.77 Rs                                                                       eq. 38
//   Rnl = σ ½(Tmax,K⁴ + Tmin,K⁴)(0.34 - 0.14 √ea)(1.35 Rs/Rso - 0.35)                   eq. 39
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

}  // namespace sowtide::climate
