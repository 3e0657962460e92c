#include "stand/detail/plant_grid.hpp"

#include <algorithm>
#include <array>
#include <cmath>

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

// Leaves begin to die of shade below so much leaf area times extinction, at this rate: leaf area index 4 at
// k = 0.6 (Shibu et al. 2010, LINTUL-3), 1.25 times that since leaves lie in heaps here.
constexpr double kShadeDepth = 1.25 * 0.6 * 4.0;
constexpr double kShadeLossPerDay = 0.03;
// So much of that loss falls on the plants by the leaf above them, the rest on all alike. Chosen between the
// spread of red beet, which wants more, and of leek, which wants less (docs/models/stand.md).
constexpr double kShadeLossByDepth = 0.5;
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
    const double standing = present[i];
    const double up = day >= emerge[i] ? standing : 0.0;
    area[i] = up * leaf[i] * area_per_g * (1.0 + extra / (1.0 + leaf[i] * per_leaf));
  }
}

SOWTIDE_VECTOR_COPIES
void light_below(double extinction, double ground, std::size_t plants, double* __restrict above) {
  const double per_area = -extinction / ground;
  for (std::size_t i = 0; i < plants; ++i) above[i] = exponential(per_area * above[i]);
}

SOWTIDE_VECTOR_COPIES
void add_areas(std::size_t clumps, const double* __restrict area, double* __restrict sum) {
  for (std::size_t c = 0; c < clumps; ++c) sum[c] += area[c];
}

// What of its leaf area each plant of a clump brings to the contest, the tallest first: the clump's leaves
// lie over its crown, which grows as the 3/4 power of its leaf area, and over at most `reach` zones, and
// shade each other there. So a large lone plant shades itself, and none, however large, takes light from far
// away.
SOWTIDE_VECTOR_COPIES
void begin_clumps(double extinction, double crown, double reach, std::size_t clumps,
                  const double* __restrict zone, const double* __restrict edge_ground, double* __restrict sum,
                  double* __restrict open, double* __restrict depth, double* __restrict edge) {
  constexpr double kNoCrown = 1e-12;
  for (std::size_t c = 0; c < clumps; ++c) {
    const double root = std::sqrt(sum[c]);
    const double own = crown * root * std::sqrt(root) + kNoCrown;
    const double most = reach * zone[c];
    depth[c] = extinction / (own < most ? own : most);
    edge[c] = edge_ground[c] * extinction / most;
    sum[c] = 0.0;
    open[c] = 1.0;
  }
}

SOWTIDE_VECTOR_COPIES
void reach_out(std::size_t clumps, const double* __restrict depth, double* __restrict sum,
               double* __restrict open, double* __restrict area) {
  for (std::size_t c = 0; c < clumps; ++c) {
    const double with = sum[c] + area[c];
    const double below = exponential(-depth[c] * with);
    area[c] = (open[c] - below) / depth[c];
    sum[c] = with;
    open[c] = below;
  }
}

// The contest for light: the taller first, in part; the rest by leaf area. Leaves in `area_m2` what reaches
// out, in `shade` the leaf area above the middle of each plant, and returns the area of all.
double share_light(const PlantConstants& constants, double ground, PlantGrid& grid) {
  const std::size_t plants = grid.size();
  std::vector<double>& through = grid.through;
  std::fill(grid.clump_area_m2.begin(), grid.clump_area_m2.end(), 0.0);
  for (std::size_t p = 0; p < grid.ranks; ++p)
    add_areas(grid.clumps, &grid.area_m2[p * grid.clumps], grid.clump_area_m2.data());
  begin_clumps(constants.extinction, constants.crown, constants.reach, grid.clumps, grid.zone_m2.data(),
               grid.edge_m2.data(), grid.clump_area_m2.data(), grid.clump_open.data(),
               grid.clump_depth.data(), grid.clump_edge.data());
  for (std::size_t p = 0; p < grid.ranks; ++p) {
    reach_out(grid.clumps, grid.clump_depth.data(), grid.clump_area_m2.data(), grid.clump_open.data(),
              &grid.area_m2[p * grid.clumps]);
  }
  double sum = 0.0;
  for (std::size_t r = 0; r < plants; ++r) {
    const std::size_t i = grid.stand_order[r];
    const double own = grid.area_m2[i];
    grid.shade[i] = sum + 0.5 * own;
    sum += own;
    through[r] = sum;
  }
  light_below(constants.extinction, ground, plants, through.data());
  const double even =
      sum > 0.0 ? (1.0 - constants.asymmetry) * ground * (1.0 - through[plants - 1]) / sum : 0.0;
  const double first = constants.asymmetry * ground;
  double open = 1.0;
  for (std::size_t r = 0; r < plants; ++r) {
    const std::size_t i = grid.stand_order[r];
    grid.captured_m2[i] = first * (open - through[r]) + even * grid.area_m2[i];
    open = through[r];
  }
  return sum;
}

// What `grow_rank` needs of the crop and the day, as plain numbers.
struct RankForcing {
  double day, thermal, organ_thermal, per_light, sink, per_span, share_max, leaf_share, maturity, per_life,
      organ_start;
  double shade_alike = 0.0, shade_by_depth = 0.0;  // leaf lost to shade: by all, and by leaf area above
};

RankForcing rank_forcing_of(const PlantConstants& constants, const DayForcing& forcing) {
  return {.day = forcing.day,
          .thermal = forcing.thermal_cd,
          .organ_thermal = forcing.organ_thermal_cd,
          .per_light = forcing.light_g_per_m2,
          .sink = forcing.sink_share / constants.leaf_share,
          .per_span = 1.0 / constants.organ_span_cd,
          .share_max = constants.organ_share_max,
          .leaf_share = constants.leaf_share,
          .maturity = constants.maturity_cd,
          .per_life = 1.0 / (constants.decline_cd - constants.maturity_cd),
          .organ_start = constants.organ_start_cd};
}

// Rate at which the leaves of the whole stand die of shade.
double shade_loss(const PlantConstants& constants, double scale, double ground, const PlantGrid& grid) {
  double leaf = 0.0;
  for (const double area : grid.clump_area_m2) leaf += area;
  const double over = constants.extinction * leaf / ground / kShadeDepth - 1.0;
  return scale * kShadeLossPerDay * std::clamp(over, 0.0, 1.0);
}

// One rank of every clump: light or size limits growth, the stage shares it out, leaves die of age or shade.
SOWTIDE_VECTOR_COPIES
void grow_rank(const RankForcing f, double age_loss, std::size_t clumps, const double* __restrict emerge,
               const double* __restrict present, const double* __restrict captured,
               const double* __restrict reaching, const double* __restrict edge,
               const double* __restrict shade, double* __restrict leaf, double* __restrict organ,
               double* __restrict other, double* __restrict age, double* __restrict organ_age,
               double* __restrict made_organ) {
  for (std::size_t c = 0; c < clumps; ++c) {
    const double standing = present[c];
    const double leaf_before = leaf[c];
    const double age_before = age[c];
    const double organ_age_before = organ_age[c];
    const double up = f.day >= emerge[c] ? standing : 0.0;
    const double from_light = f.per_light * (captured[c] + edge[c] * reaching[c]);
    const double from_size = f.sink * leaf_before;
    const double growth = up * (from_light < from_size ? from_light : from_size);
    double share = organ_age_before * f.per_span;
    share = f.share_max * (share < 1.0 ? share : 1.0);
    double old = (age_before - f.maturity) * f.per_life;
    old = old > 0.0 ? old : 0.0;
    const double by_age = age_loss * (old < 1.0 ? old : 1.0);
    const double by_shade = f.shade_alike + f.shade_by_depth * shade[c];
    const double loss = up * (by_age > by_shade ? by_age : by_shade);
    const double rest = growth * (1.0 - share);
    const double age_after = age_before + up * f.thermal;
    const double step = organ_age_before > 0.0 ? f.thermal : f.organ_thermal;
    const double begun = age_after >= f.organ_start ? up : 0.0;
    leaf[c] = leaf_before + rest * f.leaf_share - loss * leaf_before;
    other[c] += rest * (1.0 - f.leaf_share);
    organ[c] += growth * share;
    made_organ[c] = growth * share;
    age[c] = age_after;
    organ_age[c] = organ_age_before + begun * step;
  }
}

SOWTIDE_VECTOR_COPIES
void fresh_weights(double day, double per_organ, double per_top, std::size_t plants, const GridPointers& grid,
                   double* __restrict fresh) {
  const double* __restrict leaf = grid.leaf;
  const double* __restrict organ = grid.organ;
  const double* __restrict other = grid.other;
  const double* __restrict emerge = grid.emerge;
  const double* __restrict present = grid.present;
  for (std::size_t i = 0; i < plants; ++i) {
    const double standing = present[i];
    const double up = day >= emerge[i] ? standing : 0.0;
    fresh[i] = up * (per_organ * organ[i] + per_top * (leaf[i] + other[i]));
  }
}

}  // namespace

PlantGrid::PlantGrid(std::size_t clump_count, std::size_t rank_count)
    : clumps(clump_count), ranks(rank_count) {
  const std::size_t plants = size();
  for (auto* each : {&leaf_g, &organ_g, &other_g, &age_cd, &organ_age_cd, &emerge_day, &present, &area_m2,
                     &captured_m2, &shade, &organ_growth_g, &through, &fresh_g}) {
    each->assign(plants, 0.0);
  }
  for (auto* each : {&zone_m2, &edge_m2, &clump_area_m2, &clump_open, &clump_depth, &clump_edge})
    each->assign(clumps, 0.0);
  stand_order.resize(plants);
  for (std::size_t i = 0; i < plants; ++i) stand_order[i] = static_cast<std::uint32_t>(i);
}

namespace {

GridPointers pointers_of(PlantGrid& grid) {
  return {grid.leaf_g.data(),  grid.organ_g.data(),      grid.other_g.data(),
          grid.age_cd.data(),  grid.organ_age_cd.data(), grid.emerge_day.data(),
          grid.present.data(), grid.area_m2.data(),      grid.captured_m2.data()};
}

}  // namespace

void grow_day(const PlantConstants& constants, const DayForcing& forcing, PlantGrid& grid) {
  const GridPointers pointers = pointers_of(grid);
  leaf_areas(forcing.day, constants, grid.size(), pointers);
  double ground_m2 = 0.0;
  for (const double zone : grid.zone_m2) ground_m2 += zone;
  const double reaching_m2 = share_light(constants, ground_m2, grid);
  RankForcing rank_forcing = rank_forcing_of(constants, forcing);
  // In part by the leaf above the middle of a plant: of that part the tallest lose nothing, the lowest twice
  // the mean.
  const double loss = shade_loss(constants, forcing.leaf_loss_scale, ground_m2, grid);
  rank_forcing.shade_alike = (1.0 - kShadeLossByDepth) * loss;
  rank_forcing.shade_by_depth = reaching_m2 > 0.0 ? 2.0 * kShadeLossByDepth * loss / reaching_m2 : 0.0;
  for (std::size_t p = 0; p < grid.ranks; ++p) {
    const std::size_t at = p * grid.clumps;
    grow_rank(rank_forcing, kAgeLossPerDay * forcing.leaf_loss_scale, grid.clumps, &grid.emerge_day[at],
              &grid.present[at], &grid.captured_m2[at], &grid.area_m2[at], grid.clump_edge.data(),
              &grid.shade[at], &grid.leaf_g[at], &grid.organ_g[at], &grid.other_g[at], &grid.age_cd[at],
              &grid.organ_age_cd[at], &grid.organ_growth_g[at]);
  }
}

FreshWeights weigh_fresh(double day, double grams_per_organ_g, double grams_per_top_g, PlantGrid& grid) {
  fresh_weights(day, grams_per_organ_g, grams_per_top_g, grid.size(), pointers_of(grid), grid.fresh_g.data());
  // Four sums side by side, always in the same order.
  std::array<double, 4> sum{};
  std::array<double, 4> most{};
  const std::size_t plants = grid.size();
  std::size_t i = 0;
  for (; i + 4 <= plants; i += 4) {
    for (std::size_t k = 0; k < 4; ++k) {
      const double weight = grid.fresh_g[i + k];
      sum[k] += weight;
      most[k] = most[k] > weight ? most[k] : weight;
    }
  }
  for (; i < plants; ++i) {
    sum[0] += grid.fresh_g[i];
    most[0] = most[0] > grid.fresh_g[i] ? most[0] : grid.fresh_g[i];
  }
  return {(sum[0] + sum[1]) + (sum[2] + sum[3]),
          std::max(std::max(most[0], most[1]), std::max(most[2], most[3]))};
}

}  // namespace sowtide::stand::detail
