// Figures of soils, covers and shelters that the soil temperature model stands on, each with its source.
#pragma once

#include <string_view>

#include "climate/soil_temperature.hpp"

namespace sowtide::climate::detail {

/// One kind of soil.
struct SoilProperties {
  double porosity;                ///< m³/m³
  double field_capacity;          ///< m³/m³
  double wilting_point;           ///< m³/m³
  double readily_evaporable_mm;   ///< FAO-56 REW
  double solid_capacity_mj_m3_k;  ///< of the solids
  double quartz;                  ///< share of the solids
  double kersten_alpha;           ///< of Lu et al. 2007: 0.96 coarse, 0.27 fine; 0 marks a peat-like mix
  double albedo_wet;
  double albedo_dry;
  std::string_view source;
};
[[nodiscard]] const SoilProperties& properties_of(SoilTexture texture);

/// Heat capacity, J/m³/K, at a water content: D. A. de Vries 1963.
[[nodiscard]] double heat_capacity_j_m3_k(const SoilProperties& soil, double water);
/// Thermal conductivity, W/m/K, at a water content: S. Lu, T. Ren, Y. Gong and R. Horton 2007.
[[nodiscard]] double conductivity_w_m_k(const SoilProperties& soil, double water);

/// What lies on the soil.
struct CoverProperties {
  double albedo;              ///< of the outer surface; below 0: that of the soil
  double light_through;       ///< share of sunshine that reaches the soil under it
  double conductance_w_m2_k;  ///< between the outer surface and the soil; 0 marks none (bare)
  double evaporation;  ///< soil evaporation under it against bare soil, and vapour against heat through it
  bool transpires;     ///< gives off water as the reference grass does
  std::string_view source;
};
[[nodiscard]] const CoverProperties& properties_of(SoilCover cover);

/// What stands over it.
struct ShelterProperties {
  double light_through;
  double exchange;          ///< exchange with the outside air against the open, closed
  double longwave_through;  ///< share of the net longwave loss that remains
  double rain_through;
  double evaporation;   ///< evaporation under it against the open
  double vent_above_c;  ///< opened so that the day under it does not pass this; above 100 never
  std::string_view source;
};
[[nodiscard]] const ShelterProperties& properties_of(SoilShelter shelter);

}  // namespace sowtide::climate::detail
