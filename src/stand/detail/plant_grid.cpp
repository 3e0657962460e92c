#include "stand/detail/plant_grid.hpp"

#include "stand/detail/exponential.hpp"

// GCC makes one copy of the kernel per instruction set and picks at start; results are the same, since
// nothing is contracted or reordered. Sanitizers do not work with the picking.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__) && \
    !defined(__SANITIZE_THREAD__)
#define SOWTIDE_VECTOR_COPIES __attribute__((target_clones("default", "avx2", "avx512f")))
#else
#define SOWTIDE_VECTOR_COPIES
#endif

namespace sowtide::stand::detail {
namespace {

// Leaves begin to die of shade above this leaf area index, at this rate (Shibu et al. 2010, LINTUL-3).
constexpr double kShadeLeafAreaIndex = 4.0;
constexpr double kShadeLossPerDay = 0.03;
// Leaves of a plant at the end of its life die at this rate (Shibu et al. 2010: 0.03 to 0.05 per day at 15 to
// 30 °C).
constexpr double kAgeLossPerDay = 0.05;

struct GridPointers {
  double* __restrict leaf;
  double* __restrict organ;
  double* __restrict other;
  double* __restrict age;
  double* __restrict organ_age;
  const double* __restrict emerge;
  const double* __restrict present;
  double* __restrict area;
  double* __restrict captured;
};

SOWTIDE_VECTOR_COPIES
void leaf_areas(double day, const PlantConstants& constants, std::size_t plants, const GridPointers& grid) {
  const double area_per_g = constants.leaf_area_m2_per_g;
  const double extra = constants.seedling_leaf_factor - 1.0;
  const double per_leaf = 1.0 / constants.seedling_leaf_g;
  const double* __restrict leaf = grid.leaf;
  const double* __restrict emerge = grid.emerge;
  const double* __restrict present = grid.present;
  double* __restrict area = grid.area;
  for (std::size_t i = 0; i < plants; ++i) {
    const double up = day >= emerge[i] ? present[i] : 0.0;
    area[i] = up * leaf[i] * area_per_g * (1.0 + extra / (1.0 + leaf[i] * per_leaf));
  }
}

// Light of the part of the leaves that meets only the own clump: the taller half of the contest first.
SOWTIDE_VECTOR_COPIES
void share_in_clumps(double extinction, double asymmetry, double weight, std::size_t clumps,
                     std::size_t ranks, const double* __restrict zone, const double* __restrict area,
                     double* __restrict sum, double* __restrict open, double* __restrict even,
                     double* __restrict captured) {
  for (std::size_t c = 0; c < clumps; ++c) {
    sum[c] = 0.0;
    open[c] = 1.0;
  }
  for (std::size_t p = 0; p < ranks; ++p) {
    const double* __restrict a = area + p * clumps;
    double* __restrict light = captured + p * clumps;
    for (std::size_t c = 0; c < clumps; ++c) {
      sum[c] += a[c];
      const double below = exponential(-extinction * sum[c] / zone[c]);
      light[c] = weight * asymmetry * zone[c] * (open[c] - below);
      open[c] = below;
    }
  }
  for (std::size_t c = 0; c < clumps; ++c) {
    const double whole = sum[c] > 0.0 ? sum[c] : 1.0;
    even[c] = weight * (1.0 - asymmetry) * zone[c] * (1.0 - open[c]) / whole;
  }
  for (std::size_t p = 0; p < ranks; ++p) {
    const double* __restrict a = area + p * clumps;
    double* __restrict light = captured + p * clumps;
    for (std::size_t c = 0; c < clumps; ++c) light[c] += a[c] * even[c];
  }
}

SOWTIDE_VECTOR_COPIES
void light_below(double extinction, double ground, std::size_t plants, double* __restrict above) {
  for (std::size_t i = 0; i < plants; ++i) above[i] = exponential(-extinction * above[i] / ground);
}

// Light of the part of the leaves that meets the whole stand.
void share_in_stand(const PlantConstants& constants, double weight, PlantGrid& grid) {
  const std::size_t plants = grid.size();
  std::vector<double>& through = grid.through;
  double ground = 0.0;
  for (const double zone : grid.zone_m2) ground += zone;
  double sum = 0.0;
  for (std::size_t r = 0; r < plants; ++r) {
    sum += grid.area_m2[grid.stand_order[r]];
    through[r] = sum;
  }
  if (!(sum > 0.0)) return;
  light_below(constants.extinction, ground, plants, through.data());
  const double even = weight * (1.0 - constants.asymmetry) * ground * (1.0 - through[plants - 1]) / sum;
  const double first = weight * constants.asymmetry * ground;
  double open = 1.0;
  for (std::size_t r = 0; r < plants; ++r) {
    const std::size_t i = grid.stand_order[r];
    grid.captured_m2[i] += first * (open - through[r]) + even * grid.area_m2[i];
    open = through[r];
  }
}

SOWTIDE_VECTOR_COPIES
void grow(const PlantConstants& constants, const DayForcing& forcing, std::size_t clumps, std::size_t ranks,
          const double* __restrict zone, const double* __restrict clump_area, double* __restrict shade_loss,
          double* __restrict organ_growth, const GridPointers& grid) {
  const double per_span = 1.0 / constants.organ_span_cd;
  const double life = 1.0 / (constants.decline_cd - constants.maturity_cd);
  const double sink = forcing.sink_share / constants.leaf_share;
  for (std::size_t c = 0; c < clumps; ++c) {
    const double over = clump_area[c] / zone[c] / kShadeLeafAreaIndex - 1.0;
    shade_loss[c] = kShadeLossPerDay * (over > 0.0 ? (over < 1.0 ? over : 1.0) : 0.0);
  }
  for (std::size_t p = 0; p < ranks; ++p) {
    const std::size_t at = p * clumps;
    double* __restrict leaf = grid.leaf + at;
    double* __restrict organ = grid.organ + at;
    double* __restrict other = grid.other + at;
    double* __restrict age = grid.age + at;
    double* __restrict organ_age = grid.organ_age + at;
    const double* __restrict emerge = grid.emerge + at;
    const double* __restrict present = grid.present + at;
    const double* __restrict captured = grid.captured + at;
    double* __restrict made_organ = organ_growth + at;
    for (std::size_t c = 0; c < clumps; ++c) {
      const double up = forcing.day >= emerge[c] ? present[c] : 0.0;
      const double from_light = forcing.light_g_per_m2 * captured[c];
      const double from_size = sink * leaf[c];
      const double growth = up * (from_light < from_size ? from_light : from_size);
      double share = organ_age[c] * per_span;
      share = constants.organ_share_max * (share < 1.0 ? share : 1.0);
      double old = (age[c] - constants.maturity_cd) * life;
      old = old > 0.0 ? (old < 1.0 ? old : 1.0) : 0.0;
      const double by_age = kAgeLossPerDay * old;
      const double loss = up * forcing.leaf_loss_scale * (by_age > shade_loss[c] ? by_age : shade_loss[c]);
      const double rest = growth * (1.0 - share);
      leaf[c] += rest * constants.leaf_share - loss * leaf[c];
      other[c] += rest * (1.0 - constants.leaf_share);
      organ[c] += growth * share;
      made_organ[c] = growth * share;
      age[c] += up * forcing.thermal_cd;
      const double organ_step = organ_age[c] > 0.0 ? forcing.thermal_cd : forcing.organ_thermal_cd;
      organ_age[c] += age[c] >= constants.organ_start_cd ? up * organ_step : 0.0;
    }
  }
}

}  // namespace

PlantGrid::PlantGrid(std::size_t clump_count, std::size_t rank_count)
    : clumps(clump_count), ranks(rank_count) {
  const std::size_t plants = size();
  for (auto* each : {&leaf_g, &organ_g, &other_g, &age_cd, &organ_age_cd, &emerge_day, &present, &area_m2,
                     &captured_m2, &organ_growth_g, &through}) {
    each->assign(plants, 0.0);
  }
  for (auto* each : {&zone_m2, &clump_area_m2, &clump_open, &clump_even}) each->assign(clumps, 0.0);
  stand_order.resize(plants);
  for (std::size_t i = 0; i < plants; ++i) stand_order[i] = static_cast<std::uint32_t>(i);
}

void grow_day(const PlantConstants& constants, const DayForcing& forcing, PlantGrid& grid) {
  const GridPointers pointers{grid.leaf_g.data(),  grid.organ_g.data(),      grid.other_g.data(),
                              grid.age_cd.data(),  grid.organ_age_cd.data(), grid.emerge_day.data(),
                              grid.present.data(), grid.area_m2.data(),      grid.captured_m2.data()};
  leaf_areas(forcing.day, constants, grid.size(), pointers);
  share_in_clumps(constants.extinction, constants.asymmetry, 1.0 - constants.pooling, grid.clumps, grid.ranks,
                  grid.zone_m2.data(), grid.area_m2.data(), grid.clump_area_m2.data(), grid.clump_open.data(),
                  grid.clump_even.data(), grid.captured_m2.data());
  share_in_stand(constants, constants.pooling, grid);
  grow(constants, forcing, grid.clumps, grid.ranks, grid.zone_m2.data(), grid.clump_area_m2.data(),
       grid.clump_open.data(), grid.organ_growth_g.data(), pointers);
}

}  // namespace sowtide::stand::detail
