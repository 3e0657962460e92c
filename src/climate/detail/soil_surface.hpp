// The surface between weather and soil: its water, its snow, and the heat it takes up and passes on.
#pragma once

#include <array>
#include <vector>

#include "climate/detail/soil_column.hpp"
#include "climate/detail/soil_properties.hpp"
#include "climate/site.hpp"
#include "climate/soil_temperature.hpp"

namespace sowtide::climate::detail {

/// Weather of one day as the surface wants it; nothing missing.
struct SurfaceDay {
  double tmin_c = 0.0;
  double tmax_c = 0.0;
  double rain_mm = 0.0;
  double radiation_mj_m2 = 0.0;
  double clear_sky_mj_m2 = 0.0;
  double vapour_kpa = 0.0;
  double wind_2m_ms = 2.0;
  double et0_mm = 0.0;
};

/// Of one step of the day.
struct SurfaceStep {
  double air_c = 0.0;
  double sun_w_m2 = 0.0;
};

/// Keeps the water and the snow from day to day, and prepares each day's exchange for the column below.
class SoilSurface {
 public:
  SoilSurface(const SoilSetting& setting, const SoilGrid& grid);

  /// Takes the day's rain and evaporation, and sets heat capacity, conductivity and matrix of the column for
  /// its steps.
  void begin_day(const SurfaceDay& day, double step_s, SoilColumn& column);
  /// One step of the column under this day's surface.
  void step(const SurfaceStep& step, SoilColumn& column) const;

 private:
  void take_water(const SurfaceDay& day);
  void set_exchange(const SurfaceDay& day);
  void set_vapour_through_mulch(double mean_c, double vapour_kpa);
  void set_soil(SoilColumn& column) const;
  [[nodiscard]] double soil_albedo() const;

  SoilSetting setting_;
  const SoilProperties& soil_;
  const CoverProperties& cover_;
  const ShelterProperties& shelter_;
  SoilGrid grid_;
  // State.
  double top_depletion_mm_ = 0.0;
  double root_depletion_mm_ = 0.0;
  double snow_mm_ = 0.0;
  // Of the day.
  double soil_evaporation_mm_ = 0.0;
  double transpiration_mm_ = 0.0;
  double exchange_w_m2_k_ = 10.0;  ///< outer surface to air
  double through_ = 1.0;           ///< f of the header
  double longwave_w_m2_ = 0.0;
  double light_outer_ = 1.0;         ///< share of sunshine taken up by the outer surface
  double light_soil_ = 0.0;          ///< share taken up by the soil under it
  double heat_per_sun_outer_ = 0.0;  ///< evaporation of the outer surface, as share of sunshine
  double heat_per_sun_soil_ = 0.0;
  double top_wetness_ = 1.0;
  double vapour_w_m2_ = 0.0;    ///< heat of evaporation under a mulch with the soil at air temperature
  double vapour_w_m2_k_ = 0.0;  ///< and its growth as the soil warms
};

}  // namespace sowtide::climate::detail
