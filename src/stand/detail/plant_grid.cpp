#include "stand/detail/plant_grid.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <utility>

#include "base/vector_copies.hpp"
#include "stand/detail/exponential.hpp"

// The parts of the kernel are compiled into each copy: a day of a small stand is a microsecond, in which
// calls would tell.
#define SOWTIDE_INLINE [[gnu::always_inline]] inline

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

SOWTIDE_INLINE void leaf_areas(double day, const PlantConstants& constants, std::size_t plants,
                               const GridPointers& grid) {
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

SOWTIDE_INLINE void add_areas(std::size_t clumps, const double* __restrict area, double* __restrict sum) {
  for (std::size_t c = 0; c < clumps; ++c) sum[c] += area[c];
}

// What a leaf area of a clump brings to the contest, in `share`: the clump's leaves lie over its crown, which
// grows as the 3/4 power of its leaf area, and over at most `reach` zones, and shade each other there, each
// plant's like its mates', since plants of a clump lean apart. So a large lone plant shades itself, and none,
// however large, takes light from far away.
SOWTIDE_INLINE void share_crowns(double extinction, double crown, double reach, std::size_t clumps,
                                 const double* __restrict zone, const double* __restrict sum,
                                 double* __restrict share) {
  constexpr double kNoLeaf = 1e-12;
  for (std::size_t c = 0; c < clumps; ++c) {
    const double leaf = sum[c] + kNoLeaf;
    const double root = std::sqrt(leaf);
    const double own = crown * root * std::sqrt(root);
    const double most = reach * zone[c];
    const double over = own < most ? own : most;
    const double depth = extinction * leaf / over;
    share[c] = (1.0 - exponential(-depth)) / depth;
  }
}

// Ground beside the bed a leaf area of the clump, as it shows there.
SOWTIDE_INLINE void open_edges(double extinction, double reach, std::size_t clumps,
                               const double* __restrict zone, const double* __restrict ground,
                               double* __restrict edge) {
  for (std::size_t c = 0; c < clumps; ++c) edge[c] = ground[c] * extinction / (reach * zone[c]);
}

SOWTIDE_INLINE void reach_out(std::size_t clumps, const double* __restrict share, double* __restrict area) {
  for (std::size_t c = 0; c < clumps; ++c) area[c] *= share[c];
}

// Sums that run side by side, added up in the same order on every machine.
constexpr std::size_t kParts = PlantGrid::kParts;
using Sums = std::array<double, kParts>;

SOWTIDE_INLINE double added(const Sums& sums) {
  return ((sums[0] + sums[1]) + (sums[2] + sums[3])) + ((sums[4] + sums[5]) + (sums[6] + sums[7]));
}

SOWTIDE_INLINE double total_of(std::size_t count, const double* __restrict values) {
  Sums sums{};
  std::size_t i = 0;
  for (; i + kParts <= count; i += kParts)
    for (std::size_t k = 0; k < kParts; ++k) sums[k] += values[i + k];
  for (std::size_t k = 0; i < count; ++i, ++k) sums[k] += values[i];
  return added(sums);
}

// The leaf area of each plant in the order of the contest and the sum down to it within its part; the whole
// sums of the parts.
SOWTIDE_INLINE void sum_down(std::size_t steps, const std::uint32_t* __restrict order,
                             const double* __restrict area, double* __restrict own, double* __restrict above,
                             double* __restrict sums) {
  Sums sum{};
  for (std::size_t at = 0; at < steps * kParts; at += kParts) {
    for (std::size_t k = 0; k < kParts; ++k) {
      own[at + k] = area[order[at + k]];
      sum[k] += own[at + k];
      above[at + k] = sum[k];
    }
  }
  for (std::size_t k = 0; k < kParts; ++k) sums[k] = sum[k];
}

// Light that is left below each plant; `through` begins with what is left above the first plants of the
// parts.
SOWTIDE_INLINE void light_below(double per_area, std::size_t steps, const double* __restrict before,
                                double* __restrict above, double* __restrict through) {
  for (std::size_t k = 0; k < kParts; ++k) through[k] = exponential(per_area * before[k]);
  for (std::size_t at = 0; at < steps * kParts; at += kParts) {
    for (std::size_t k = 0; k < kParts; ++k) {
      above[at + k] += before[k];
      through[at + kParts + k] = exponential(per_area * above[at + k]);
    }
  }
}

// Light each plant catches and the leaf area above its middle: in the order of the contest, in place of `own`
// and `above`, then by plant.
SOWTIDE_INLINE void hand_out(double first, double even, std::size_t places, const double* __restrict through,
                             double* __restrict own, double* __restrict above) {
  for (std::size_t at = 0; at < places; ++at) {
    above[at] -= 0.5 * own[at];
    own[at] = first * (through[at] - through[at + kParts]) + even * own[at];
  }
}
SOWTIDE_INLINE void bring_back(std::size_t plants, const std::uint32_t* __restrict place,
                               const double* __restrict in_order, double* __restrict by_plant) {
  for (std::size_t i = 0; i < plants; ++i) by_plant[i] = in_order[place[i]];
}

// Every clump's crown; leaves in `area_m2` what of its leaves each plant brings to the contest.
SOWTIDE_INLINE void gather_clumps(const PlantConstants& constants, PlantGrid& grid) {
  std::fill(grid.clump_area_m2.begin(), grid.clump_area_m2.end(), 0.0);
  for (std::size_t p = 0; p < grid.ranks; ++p)
    add_areas(grid.clumps, &grid.area_m2[p * grid.clumps], grid.clump_area_m2.data());
  share_crowns(constants.extinction, constants.crown, constants.reach, grid.clumps, grid.zone_m2.data(),
               grid.clump_area_m2.data(), grid.clump_share.data());
  for (std::size_t p = 0; p < grid.ranks; ++p)
    reach_out(grid.clumps, grid.clump_share.data(), &grid.area_m2[p * grid.clumps]);
}

// The contest for light: the taller first, in part; the rest by leaf area. Leaves in `captured_m2` what each
// plant catches, in `shade` the leaf area above its middle, and returns the area of all.
SOWTIDE_INLINE double share_light(const PlantConstants& constants, double ground, PlantGrid& grid) {
  gather_clumps(constants, grid);
  const auto& order = grid.contest_order();
  const std::size_t steps = order.size() / kParts;
  Sums part{}, before{};
  sum_down(steps, order.data(), grid.area_m2.data(), grid.own.data(), grid.above.data(), part.data());
  double sum = 0.0;
  for (std::size_t k = 0; k < kParts; ++k) {
    before[k] = sum;
    sum += part[k];
  }
  const double per_area = -constants.extinction / ground;
  light_below(per_area, steps, before.data(), grid.above.data(), grid.through.data());
  const double caught = ground * (1.0 - exponential(per_area * sum));
  const double even = sum > 0.0 ? (1.0 - constants.asymmetry) * caught / sum : 0.0;
  hand_out(constants.asymmetry * ground, even, order.size(), grid.through.data(), grid.own.data(),
           grid.above.data());
  bring_back(grid.size(), grid.contest_place().data(), grid.own.data(), grid.captured_m2.data());
  bring_back(grid.size(), grid.contest_place().data(), grid.above.data(), grid.shade.data());
  return sum;
}

// What `grow_rank` needs of the crop and the day, as plain numbers.
struct RankForcing {
  double day, thermal, organ_thermal, per_light, sink, per_span, share_max, leaf_share, leaf_most, maturity,
      per_life, organ_start;
  double shade_alike = 0.0, shade_by_depth = 0.0;  // leaf lost to shade: by all, and by leaf area above
};

SOWTIDE_INLINE RankForcing rank_forcing_of(const PlantConstants& constants, const DayForcing& forcing) {
  return {.day = forcing.day,
          .thermal = forcing.thermal_cd,
          .organ_thermal = forcing.organ_thermal_cd,
          .per_light = forcing.light_g_per_m2,
          .sink = forcing.sink_share / constants.leaf_share,
          .per_span = 1.0 / constants.organ_span_cd,
          .share_max = constants.organ_share_max,
          .leaf_share = constants.leaf_share,
          .leaf_most = constants.leaf_most_g,
          .maturity = constants.maturity_cd,
          .per_life = 1.0 / (constants.decline_cd - constants.maturity_cd),
          .organ_start = constants.organ_start_cd};
}

// Rate at which the leaves of the whole stand die of shade.
SOWTIDE_INLINE double shade_loss(const PlantConstants& constants, double scale, double ground,
                                 const PlantGrid& grid) {
  const double leaf = total_of(grid.clumps, grid.clump_area_m2.data());
  const double over = constants.extinction * leaf / ground / kShadeDepth - 1.0;
  return scale * kShadeLossPerDay * std::clamp(over, 0.0, 1.0);
}

// One rank of every clump: light or size limits growth, the stage shares it out, leaves die of age or shade.
SOWTIDE_INLINE void grow_rank(const RankForcing f, double age_loss, std::size_t clumps,
                              const double* __restrict emerge, const double* __restrict present,
                              const double* __restrict captured, const double* __restrict reaching,
                              const double* __restrict edge, const double* __restrict shade,
                              double* __restrict leaf, double* __restrict organ, double* __restrict other,
                              double* __restrict age, double* __restrict organ_age,
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
    const double leaf_room = f.leaf_most > leaf_before ? f.leaf_most - leaf_before : 0.0;
    const double leaf_wish = rest * f.leaf_share;
    const double to_leaf = leaf_wish < leaf_room ? leaf_wish : leaf_room;
    leaf[c] = leaf_before + to_leaf - loss * leaf_before;
    other[c] += rest - to_leaf;
    organ[c] += growth * share;
    made_organ[c] = growth * share;
    age[c] = age_after;
    organ_age[c] = organ_age_before + begun * step;
  }
}

SOWTIDE_INLINE void fresh_weights(double day, double per_organ, double per_top, std::size_t plants,
                                  const GridPointers& grid, double* __restrict fresh, double* __restrict sums,
                                  double* __restrict most) {
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
  Sums sum{}, largest{};
  std::size_t i = 0;
  for (; i + kParts <= plants; i += kParts) {
    for (std::size_t k = 0; k < kParts; ++k) {
      sum[k] += fresh[i + k];
      largest[k] = largest[k] > fresh[i + k] ? largest[k] : fresh[i + k];
    }
  }
  for (std::size_t k = 0; i < plants; ++i, ++k) {
    sum[k] += fresh[i];
    largest[k] = largest[k] > fresh[i] ? largest[k] : fresh[i];
  }
  for (std::size_t k = 0; k < kParts; ++k) {
    sums[k] = sum[k];
    most[k] = largest[k];
  }
}

}  // namespace

PlantGrid::PlantGrid(std::size_t clump_count, std::size_t rank_count)
    : clumps(clump_count), ranks(rank_count) {
  const std::size_t plants = size();
  for (auto* each : {&leaf_g, &organ_g, &other_g, &age_cd, &organ_age_cd, &emerge_day, &present, &captured_m2,
                     &shade, &organ_growth_g, &fresh_g}) {
    each->assign(plants, 0.0);
  }
  area_m2.assign(plants + 1, 0.0);
  for (auto* each : {&zone_m2, &edge_m2, &clump_area_m2, &clump_share, &clump_edge})
    each->assign(clumps, 0.0);
  std::vector<std::uint32_t> order(plants);
  std::iota(order.begin(), order.end(), 0U);
  set_stand_order(std::move(order));
}

void PlantGrid::set_stand_order(std::vector<std::uint32_t> order) {
  stand_order_ = std::move(order);
  const std::size_t steps = (size() + kParts - 1) / kParts;
  contest_order_.assign(steps * kParts, static_cast<std::uint32_t>(size()));
  contest_place_.assign(size(), 0);
  for (std::size_t rank = 0; rank < size(); ++rank) {
    const std::size_t place = rank % steps * kParts + rank / steps;
    contest_order_[place] = stand_order_[rank];
    contest_place_[stand_order_[rank]] = static_cast<std::uint32_t>(place);
  }
  own.assign(steps * kParts, 0.0);
  above.assign(steps * kParts, 0.0);
  through.assign((steps + 1) * kParts, 0.0);
}

namespace {

SOWTIDE_INLINE GridPointers pointers_of(PlantGrid& grid) {
  return {grid.leaf_g.data(),  grid.organ_g.data(),      grid.other_g.data(),
          grid.age_cd.data(),  grid.organ_age_cd.data(), grid.emerge_day.data(),
          grid.present.data(), grid.area_m2.data(),      grid.captured_m2.data()};
}

SOWTIDE_VECTOR_COPIES
void grow_all(const PlantConstants& constants, const DayForcing& forcing, PlantGrid& grid) {
  const GridPointers pointers = pointers_of(grid);
  leaf_areas(forcing.day, constants, grid.size(), pointers);
  const double ground_m2 = total_of(grid.clumps, grid.zone_m2.data());
  open_edges(constants.extinction, constants.reach, grid.clumps, grid.zone_m2.data(), grid.edge_m2.data(),
             grid.clump_edge.data());
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

SOWTIDE_VECTOR_COPIES
void weigh_all(double day, double grams_per_organ_g, double grams_per_top_g, PlantGrid& grid, Sums& sums,
               Sums& most) {
  fresh_weights(day, grams_per_organ_g, grams_per_top_g, grid.size(), pointers_of(grid), grid.fresh_g.data(),
                sums.data(), most.data());
}

}  // namespace

void grow_day(const PlantConstants& constants, const DayForcing& forcing, PlantGrid& grid) {
  grow_all(constants, forcing, grid);
}

FreshWeights weigh_fresh(double day, double grams_per_organ_g, double grams_per_top_g, PlantGrid& grid) {
  Sums sums{}, most{};
  weigh_all(day, grams_per_organ_g, grams_per_top_g, grid, sums, most);
  return {added(sums), *std::max_element(most.begin(), most.end())};
}

}  // namespace sowtide::stand::detail
