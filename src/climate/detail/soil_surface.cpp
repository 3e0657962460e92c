#include "climate/detail/soil_surface.hpp"

#include <algorithm>
#include <cmath>

#include "base/quantity.hpp"
#include "climate/vapour.hpp"

namespace sowtide::climate::detail {
namespace {

constexpr double kTopLayerM = 0.10;  // FAO-56 evaporation layer
constexpr double kRootLayerM = 0.50;
constexpr double kBareCoefficient = 1.15;  // FAO-56: wet bare soil against the reference
constexpr double kDeepEvaporation =
    0.04;  // of ET0, out of a dry bare soil; fits the drying of fallows (view)
constexpr double kLatentMjPerMm = 2.45;
constexpr double kEmissivity = 0.97;
constexpr double kStefanBoltzmann = 5.67e-8;
constexpr double kSnowMeltMmPerK = 3.0;     // degree-day factor, common practice
constexpr double kSnowConductivity = 0.25;  // W/m/K
constexpr double kSnowDensity = 250.0;      // kg/m³
constexpr double kSnowAlbedo = 0.70;
constexpr double kFusionJM3 = 334e6;          // of water
constexpr double kFreezingWindowK = 2.0;      // soil water freezes between 0 and -2 °C
constexpr double kPsychrometricKpaK = 0.066;  // at about 100 kPa, FAO-56 eq. 8
constexpr double kWallResistance = 0.2;       // m² K/W: 25 mm of timber
constexpr double kWallSun =
    0.6 * 0.4;  // taken up by a wall, and what falls on two walls against level ground
constexpr double kTrayBottomExchange = 6.0;  // still air under a bench, W/m²/K
// Heat that the air takes from the surface, W/m²/K: forced by wind (logarithmic profile, roughness 5 mm over
// bare soil and FAO-56's 0.015 m over grass) and rising by itself.
constexpr double kBareExchangePerWind = 4.0;
constexpr double kGrassExchangePerWind = 5.7;
constexpr double kFreeExchange = 3.0;

double fourth_power_k(double celsius) {
  const double square = (celsius + 273.16) * (celsius + 273.16);
  return square * square;
}

/// FAO-56 eq. 39 as a mean flux, W/m².
double net_longwave_w_m2(const SurfaceDay& day) {
  const double clearness =
      day.clear_sky_mj_m2 > 0.0 ? std::min(1.0, day.radiation_mj_m2 / day.clear_sky_mj_m2) : 0.6;
  const double cloud = std::clamp(1.35 * clearness - 0.35, 0.05, 1.0);
  const double emitted = kStefanBoltzmann * 0.5 * (fourth_power_k(day.tmin_c) + fourth_power_k(day.tmax_c));
  return emitted * (0.34 - 0.14 * std::sqrt(std::max(0.0, day.vapour_kpa))) * cloud;
}

}  // namespace

SoilSurface::SoilSurface(const SoilSetting& setting, const SoilGrid& grid)
    : setting_(setting),
      soil_(properties_of(setting.texture)),
      cover_(properties_of(setting.cover)),
      shelter_(properties_of(setting.shelter)),
      grid_(grid) {
  top_depletion_mm_ = 0.5 * soil_.readily_evaporable_mm;
}

double SoilSurface::soil_albedo() const {
  const double dryness = std::clamp(top_depletion_mm_ / soil_.readily_evaporable_mm, 0.0, 1.0);
  return soil_.albedo_wet + (soil_.albedo_dry - soil_.albedo_wet) * dryness;
}

void SoilSurface::take_water(const SurfaceDay& day) {
  const double mean_c = 0.5 * (day.tmin_c + day.tmax_c);
  double water_mm = day.rain_mm * shelter_.rain_through;
  if (mean_c < 0.5) {
    snow_mm_ += water_mm;
    water_mm = 0.0;
  }
  const double melt_mm = std::min(snow_mm_, std::max(0.0, kSnowMeltMmPerK * mean_c));
  snow_mm_ -= melt_mm;
  water_mm += melt_mm;
  const double after_rain = top_depletion_mm_ - water_mm;
  top_depletion_mm_ = std::max(0.0, after_rain);
  root_depletion_mm_ = std::max(0.0, root_depletion_mm_ - std::max(0.0, -after_rain));

  const double most_top_mm = 1000.0 * (soil_.field_capacity - 0.5 * soil_.wilting_point) * kTopLayerM;
  const double most_root_mm = 1000.0 * (soil_.field_capacity - soil_.wilting_point) * kRootLayerM;
  const double reducible_mm = most_top_mm - soil_.readily_evaporable_mm;
  const double ready = std::clamp((most_top_mm - top_depletion_mm_) / std::max(1.0, reducible_mm), 0.0, 1.0);
  const double demand_mm = snow_mm_ > 0.0 ? 0.0 : day.et0_mm * shelter_.evaporation;
  const double deep_mm = kDeepEvaporation * demand_mm * (1.0 - ready) * cover_.evaporation *
                         (1.0 - root_depletion_mm_ / most_root_mm);
  const double top_mm =
      std::min(most_top_mm - top_depletion_mm_, kBareCoefficient * demand_mm * ready * cover_.evaporation);
  soil_evaporation_mm_ = top_mm + deep_mm;
  top_wetness_ = snow_mm_ > 0.0 ? 0.0 : ready;
  transpiration_mm_ = 0.0;
  if (cover_.transpires) {
    const double unstressed =
        1.0 - 2.0 * std::max(0.0, root_depletion_mm_ / most_root_mm - 0.5);  // FAO-56 Ks, p 0.5
    transpiration_mm_ = demand_mm * std::max(0.0, unstressed);
  }
  top_depletion_mm_ = std::min(most_top_mm, top_depletion_mm_ + top_mm + 0.2 * transpiration_mm_);
  root_depletion_mm_ = std::min(most_root_mm, root_depletion_mm_ + deep_mm + 0.8 * transpiration_mm_);
  if (setting_.watered) {
    top_depletion_mm_ = std::min(top_depletion_mm_, soil_.readily_evaporable_mm);
    root_depletion_mm_ = std::min(root_depletion_mm_, 0.5 * most_root_mm);
  }
}

void SoilSurface::set_exchange(const SurfaceDay& day) {
  const double mean_c = 0.5 * (day.tmin_c + day.tmax_c);
  const double per_wind = cover_.transpires ? kGrassExchangePerWind : kBareExchangePerWind;
  const double kelvin = mean_c + 273.16;
  const double radiative = 4.0 * kEmissivity * kStefanBoltzmann * kelvin * kelvin * kelvin;
  const double open = radiative + kFreeExchange + per_wind * day.wind_2m_ms;
  const double mean_sun_w = day.radiation_mj_m2 * 1e6 / 86400.0 * shelter_.light_through;
  // Opened as far as keeps the mean of the sunlit hours (twice the day's mean sun) under the vent
  // temperature.
  const double room_k = std::max(2.0, shelter_.vent_above_c - day.tmax_c);
  exchange_w_m2_k_ = std::clamp(2.0 * mean_sun_w / room_k, shelter_.exchange * open, open);
  longwave_w_m2_ = net_longwave_w_m2(day) * shelter_.longwave_through;

  const bool snow = snow_mm_ > 5.0;
  const bool covered = cover_.conductance_w_m2_k > 0.0;
  double resistance = covered ? 1.0 / cover_.conductance_w_m2_k : 0.0;
  if (snow_mm_ > 0.0) resistance += snow_mm_ / kSnowDensity / kSnowConductivity;
  through_ = 1.0 / (1.0 + exchange_w_m2_k_ * resistance);

  const double albedo = snow ? kSnowAlbedo : (cover_.albedo < 0.0 ? soil_albedo() : cover_.albedo);
  light_soil_ = snow ? 0.0 : cover_.light_through * shelter_.light_through;
  light_outer_ = std::max(0.0, (1.0 - albedo) * shelter_.light_through - light_soil_);
  const double per_mm = day.radiation_mj_m2 > 0.0 ? kLatentMjPerMm / day.radiation_mj_m2 : 0.0;
  heat_per_sun_outer_ = per_mm * (covered ? transpiration_mm_ : soil_evaporation_mm_);
  heat_per_sun_soil_ = cover_.transpires ? per_mm * soil_evaporation_mm_ : 0.0;
  vapour_w_m2_ = 0.0;
  vapour_w_m2_k_ = 0.0;
  if (covered && !cover_.transpires) set_vapour_through_mulch(mean_c, day.vapour_kpa);
}

/// Under a mulch it is the mulch, not the sun, that limits evaporation: vapour goes through it as heat does,
/// by the psychrometer's law, so the soil tends towards the wet bulb and not below.
void SoilSurface::set_vapour_through_mulch(double mean_c, double vapour_kpa) {
  const base::Celsius air = base::Celsius::of(mean_c);
  const double deficit_kpa = std::max(0.0, saturation_vapour_pressure(air).value() - vapour_kpa);
  const double conductance_w_m2_kpa =
      cover_.evaporation * top_wetness_ * cover_.conductance_w_m2_k / kPsychrometricKpaK;
  vapour_w_m2_ = conductance_w_m2_kpa * deficit_kpa;
  vapour_w_m2_k_ = conductance_w_m2_kpa * saturation_slope_kpa_k(air);
}

void SoilSurface::set_soil(SoilColumn& column) const {
  const double top_water = soil_.field_capacity - 0.001 * top_depletion_mm_ / kTopLayerM;
  const double root_water = soil_.field_capacity - 0.001 * root_depletion_mm_ / kRootLayerM;
  const double top_conductivity = conductivity_w_m_k(soil_, top_water);
  const double root_conductivity = conductivity_w_m_k(soil_, root_water);
  const double top_capacity = heat_capacity_j_m3_k(soil_, top_water);
  const double root_capacity = heat_capacity_j_m3_k(soil_, root_water);
  const bool bed = setting_.place == SoilPlace::raised_bed;
  for (std::size_t i = 0; i < grid_.count; ++i) {
    const bool top = grid_.centre_m[i] < kTopLayerM;
    const double water = top ? top_water : root_water;
    double capacity = top ? top_capacity : root_capacity;
    const double here = column.temperature_c()[i];
    if (here < 0.0 && here > -kFreezingWindowK) capacity += kFusionJM3 * water / kFreezingWindowK;
    column.capacity_j_m2_k[i] = capacity * grid_.thickness_m[i];
    column.conductivity_w_m_k[i] = top ? top_conductivity : root_conductivity;
    column.side_w_m2_k[i] = 0.0;
    if (bed && grid_.centre_m[i] < setting_.bed.height_m) {
      const double path = 0.25 * setting_.bed.width_m / column.conductivity_w_m_k[i];
      const double side = 1.0 / (1.0 / exchange_w_m2_k_ + kWallResistance + path);
      column.side_w_m2_k[i] = side * 2.0 * grid_.thickness_m[i] / setting_.bed.width_m;
    }
  }
  column.bottom_w_m2_k = setting_.place == SoilPlace::tray ? kTrayBottomExchange : 0.0;
}

void SoilSurface::begin_day(const SurfaceDay& day, double step_s, SoilColumn& column) {
  take_water(day);
  set_exchange(day);
  set_soil(column);
  column.prepare(step_s, through_ * exchange_w_m2_k_ + vapour_w_m2_k_);
}

void SoilSurface::step(const SurfaceStep& step, SoilColumn& column) const {
  const double outer = step.sun_w_m2 * (light_outer_ - heat_per_sun_outer_) - longwave_w_m2_;
  const double soil = step.sun_w_m2 * (light_soil_ - heat_per_sun_soil_) - vapour_w_m2_;
  SoilSurroundings around;
  around.surface_c = step.air_c + (soil + through_ * outer) / (through_ * exchange_w_m2_k_ + vapour_w_m2_k_);
  around.side_c = step.air_c + kWallSun * step.sun_w_m2 / exchange_w_m2_k_;
  around.bottom_c = step.air_c;
  column.step(around);
}

}  // namespace sowtide::climate::detail
