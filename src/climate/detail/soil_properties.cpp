#include "climate/detail/soil_properties.hpp"

#include <algorithm>
#include <cmath>

namespace sowtide::climate::detail {
namespace {

constexpr double kWaterCapacity = 4.18e6;  // J/m³/K
constexpr double kWaterConductivity = 0.594;
constexpr double kQuartzConductivity = 7.7;

constexpr SoilProperties kSand = {
    .porosity = 0.42,
    .field_capacity = 0.12,
    .wilting_point = 0.045,
    .readily_evaporable_mm = 6.0,
    .solid_capacity_mj_m3_k = 1.92,
    .quartz = 0.8,
    .kersten_alpha = 0.96,
    .albedo_wet = 0.15,
    .albedo_dry = 0.3,
    .source =
        "FAO-56 table 19 (water); de Vries 1963 (heat); Oke 1987, Boundary Layer Climates (albedo, from "
        "memory)",
};
constexpr SoilProperties kLoam = {
    .porosity = 0.47,
    .field_capacity = 0.25,
    .wilting_point = 0.12,
    .readily_evaporable_mm = 9.0,
    .solid_capacity_mj_m3_k = 1.92,
    .quartz = 0.45,
    .kersten_alpha = 0.96,
    .albedo_wet = 0.12,
    .albedo_dry = 0.23,
    .source = "FAO-56 table 19 (water); de Vries 1963 (heat); Oke 1987 (albedo, from memory)",
};
constexpr SoilProperties kClay = {
    .porosity = 0.52,
    .field_capacity = 0.36,
    .wilting_point = 0.22,
    .readily_evaporable_mm = 10.0,
    .solid_capacity_mj_m3_k = 1.92,
    .quartz = 0.25,
    .kersten_alpha = 0.27,
    .albedo_wet = 0.1,
    .albedo_dry = 0.2,
    .source = "FAO-56 table 19 (water); de Vries 1963 (heat); Oke 1987 (albedo, from memory)",
};
constexpr SoilProperties kCompostMix = {
    .porosity = 0.7,
    .field_capacity = 0.4,
    .wilting_point = 0.15,
    .readily_evaporable_mm = 10.0,
    .solid_capacity_mj_m3_k = 2.2,
    .quartz = 0.1,
    .kersten_alpha = 0.0,
    .albedo_wet = 0.08,
    .albedo_dry = 0.14,
    .source =
        "between loam and the peat of Oke 1987, from memory; no published set for mixes as sold was found",
};
constexpr CoverProperties kBare = {
    .albedo = -1.0,
    .light_through = 0.0,
    .conductance_w_m2_k = 0.0,
    .evaporation = 1.0,
    .transpires = false,
    .source = "no cover",
};
constexpr CoverProperties kGrass = {
    .albedo = 0.23,
    .light_through = 0.07,
    .conductance_w_m2_k = 16.0,
    .evaporation = 0.1,
    .transpires = true,
    .source =
        "FAO-56 (albedo, transpiration); light and conductance fitted to Cork Airport, 1991-2005 (Met "
        "Éireann)",
};
constexpr CoverProperties kStraw = {
    .albedo = 0.25,
    .light_through = 0.02,
    .conductance_w_m2_k = 1.6,
    .evaporation = 0.4,
    .transpires = false,
    .source =
        "Shen et al. 2018, Sci. Rep. 8:4500 (residue conducts a fifth of soil; albedo of residue); "
        "evaporation: student trial, Cal Poly",
};
constexpr CoverProperties kLeaves = {
    .albedo = 0.16,
    .light_through = 0.02,
    .conductance_w_m2_k = 2.0,
    .evaporation = 0.4,
    .transpires = false,
    .source = "as straw, darker: Shen et al. 2018; common practice for the rest",
};
constexpr CoverProperties kClearFilm = {
    .albedo = 0.18,
    .light_through = 0.7,
    .conductance_w_m2_k = 40.0,
    .evaporation = 0.0,
    .transpires = false,
    .source =
        "Ham, Kluitenberg and Lamont 1993, J. Am. Soc. Hort. Sci. 118:188 (light through up to 0.84; here "
        "with dew on it); contact set so that 5 cm gains 4 to 8 K: Lamont 1993, HortTechnology 3:35 (from "
        "memory)",
};
constexpr CoverProperties kBlackFilm = {
    .albedo = 0.05,
    .light_through = 0.01,
    .conductance_w_m2_k = 7.0,
    .evaporation = 0.0,
    .transpires = false,
    .source =
        "Ham, Kluitenberg and Lamont 1993 (light through 0.01); contact set so that 5 cm gains about 3 K: "
        "Lamont 1993, HortTechnology 3:35 (from memory)",
};
constexpr ShelterProperties kOpen = {
    .light_through = 1.0,
    .exchange = 1.0,
    .longwave_through = 1.0,
    .rain_through = 1.0,
    .evaporation = 1.0,
    .vent_above_c = 1000.0,
    .source = "none",
};
constexpr ShelterProperties kRowCover = {
    .light_through = 0.88,
    .exchange = 0.62,
    .longwave_through = 0.7,
    .rain_through = 0.9,
    .evaporation = 0.75,
    .vent_above_c = 1000.0,
    .source =
        "set so that bare soil at 10 cm gains about 2 K in spring: Acta Hort. 187:20 (one layer of "
        "perforated film: +2.5 mean)",
};
constexpr ShelterProperties kColdFrame = {
    .light_through = 0.8,
    .exchange = 0.4,
    .longwave_through = 0.35,
    .rain_through = 0.0,
    .evaporation = 0.5,
    .vent_above_c = 25.0,
    .source = "single glass over still air, vented; common practice, from memory",
};

}  // namespace

const SoilProperties& properties_of(SoilTexture texture) {
  switch (texture) {
    case SoilTexture::sand:
      return kSand;
    case SoilTexture::loam:
      return kLoam;
    case SoilTexture::clay:
      return kClay;
    case SoilTexture::compost_mix:
      return kCompostMix;
  }
  return kLoam;
}

const CoverProperties& properties_of(SoilCover cover) {
  switch (cover) {
    case SoilCover::bare:
      return kBare;
    case SoilCover::grass:
      return kGrass;
    case SoilCover::straw:
      return kStraw;
    case SoilCover::leaves:
      return kLeaves;
    case SoilCover::clear_film:
      return kClearFilm;
    case SoilCover::black_film:
      return kBlackFilm;
  }
  return kBare;
}

const ShelterProperties& properties_of(SoilShelter shelter) {
  switch (shelter) {
    case SoilShelter::none:
      return kOpen;
    case SoilShelter::row_cover:
      return kRowCover;
    case SoilShelter::cold_frame:
      return kColdFrame;
  }
  return kOpen;
}

double heat_capacity_j_m3_k(const SoilProperties& soil, double water) {
  return (1.0 - soil.porosity) * soil.solid_capacity_mj_m3_k * 1e6 + water * kWaterCapacity;
}

double conductivity_w_m_k(const SoilProperties& soil, double water) {
  const double filled = std::clamp(water / soil.porosity, 0.0, 1.0);
  if (soil.kersten_alpha <= 0.0)
    return 0.10 + 0.45 * filled;  // peat: 0.06 dry, 0.5 wet (Oke 1987); mix a little more
  const double dry = 0.51 - 0.56 * soil.porosity;
  const double other = soil.quartz > 0.2 ? 2.0 : 3.0;
  const double solids = std::pow(kQuartzConductivity, soil.quartz) * std::pow(other, 1.0 - soil.quartz);
  const double wet = std::pow(solids, 1.0 - soil.porosity) * std::pow(kWaterConductivity, soil.porosity);
  if (filled < 0.01) return dry;
  const double kersten = std::exp(soil.kersten_alpha * (1.0 - std::pow(filled, soil.kersten_alpha - 1.33)));
  return dry + (wet - dry) * kersten;
}

}  // namespace sowtide::climate::detail
