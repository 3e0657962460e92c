// How warm the soil is where the seed lies: heat conduction down a column of soil, driven by the day's
// weather through the heat balance of its surface; in the ground, in a raised bed, in a tray, bare or
// covered.
//
//   C ∂T/∂t = ∂/∂z (λ ∂T/∂z)                                              in the soil
//   G = a + f (A - h (Ts - Ta)),   f = U/(h + U)                           at its surface
//
// C heat capacity, J/m³/K, and λ conductivity, W/m/K, follow the water content (S. Lu et al. 2007, Soil Sci.
// Soc. Am. J. 71:8; D. A. de Vries 1963). A is what the outer surface takes up: sunshine less reflection, net
// longwave to the sky at air temperature (FAO-56 eq. 39) and heat of evaporation; h its exchange with the
// air, U the conductance of a cover between it and the soil (none: f = 1), a the sunshine that a clear cover
// lets through. The water of the top layers is kept by the FAO-56 evaporation layer. Snow insulates and
// freezing takes its latent heat. Solved implicitly in steps of two hours from day's minimum and maximum by
// Parton and Logan's curve, or in steps of an hour from hourly weather.
//
// What is not in it: slope, neighbouring walls, the shade of the crop itself. Daily means at 5 and 10 cm: see
// docs/models/climate.md for the error against measured records.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "base/quantity.hpp"
#include "climate/ensemble.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

enum class SoilTexture { sand, loam, clay, compost_mix };
enum class SoilCover { bare, grass, straw, leaves, clear_film, black_film };
enum class SoilShelter { none, row_cover, cold_frame };
enum class SoilPlace { ground, raised_bed, tray };

/// A filled box standing on the ground; heat passes through its long sides.
struct RaisedBedShape {
  double height_m = 0.30;
  double width_m = 1.20;
};

/// A tray of cells.
struct TraySetting {
  double depth_m = 0.05;
  std::optional<double> room_c;  ///< indoors: mean temperature of the room; outdoors when not given
  double room_swing_k = 4.0;     ///< indoors: warmest less coolest of the day
  std::optional<double>
      mat_c;  ///< standing on a mat whose thermostat holds the mix at this, as far as it can
};

/// Where the soil is and what lies on it.
struct SoilSetting {
  SoilPlace place = SoilPlace::ground;
  SoilTexture texture = SoilTexture::loam;
  SoilCover cover = SoilCover::bare;
  SoilShelter shelter = SoilShelter::none;
  bool watered = true;  ///< the gardener keeps the top from drying out
  RaisedBedShape bed;
  TraySetting tray;
};

/// The stable words, "raised-bed" and so on; nothing for a word that names none.
[[nodiscard]] std::optional<SoilTexture> soil_texture_from(std::string_view text) noexcept;
[[nodiscard]] std::optional<SoilCover> soil_cover_from(std::string_view text) noexcept;
[[nodiscard]] std::optional<SoilShelter> soil_shelter_from(std::string_view text) noexcept;
[[nodiscard]] std::optional<SoilPlace> soil_place_from(std::string_view text) noexcept;

/// out_of_range for a bed or tray of impossible size or temperature, contradiction for a mat colder than the
/// room.
[[nodiscard]] base::Result<void> check(const SoilSetting& setting);

/// Daily weather of consecutive days, one value a day in each array. Empty arrays are not known: radiation
/// then comes from the temperature range, rain is none, the air as moist as at its minimum, the wind 2 m/s,
/// and reference evapotranspiration is worked out. Arrays hold no NaN.
struct SoilWeather {
  Site site;
  base::Date first{};
  std::span<const double> tmin_c, tmax_c;
  std::span<const double> rain_mm, radiation_mj_m2, vapour_pressure_kpa, wind_2m_ms, et0_mm;
};

/// Soil temperature of each day at one depth.
struct SoilTemperatures {
  std::vector<double> tmin_c, tmax_c, tmean_c;
};

/// Daily soil temperature at each of `depths` (0 to 500 mm). The soil is first brought into step by running
/// through the first year. Problems: empty, insufficient_data (a NaN or arrays of unequal length),
/// out_of_range (a depth, the setting). About 3 µs a day.
[[nodiscard]] base::Result<std::vector<SoilTemperatures>> soil_temperature_daily(
    const SoilWeather& weather, const SoilSetting& setting, std::span<const base::Millimetres> depths);

/// Hourly weather of consecutive hours in local standard time, from midnight of `first`; whole days. Empty
/// arrays as in SoilWeather, but radiation must be known.
struct HourlySoilWeather {
  Site site;
  base::Date first{};
  std::span<const double> air_c, radiation_w_m2;
  std::span<const double> rain_mm, vapour_pressure_kpa, wind_2m_ms;
};

/// Soil temperature at the end of every hour, for each of `depths`.
[[nodiscard]] base::Result<std::vector<std::vector<double>>> soil_temperature_hourly(
    const HourlySoilWeather& weather, const SoilSetting& setting, std::span<const base::Millimetres> depths);

/// Soil temperature at sowing depth for every day of an ensemble, laid out as the ensemble is: member m on
/// day d is `tmin_c[m * day_count + d]`. `depth` is 0 to 500 mm and `setting` passes `check`; anything else
/// is an assert.
[[nodiscard]] SoilTemperatures sowing_depth_temperature(const WeatherEnsemble& ensemble,
                                                        const SoilSetting& setting, base::Millimetres depth);

}  // namespace sowtide::climate
