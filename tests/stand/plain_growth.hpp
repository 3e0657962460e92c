// A day of growth in its plain form, plant by plant: what the fast kernel must equal within rounding, and
// what the benchmark compares it with. Also a small stand to grow.
#pragma once

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "stand/detail/plant_grid.hpp"

namespace sowtide::stand::detail {

inline PlantConstants beet_like() {
  PlantConstants constants;
  constants.extinction = 0.68;
  constants.leaf_area_m2_per_g = 0.025;
  constants.organ_start_cd = 150.0;
  constants.organ_span_cd = 450.0;
  constants.organ_share_max = 0.8;
  constants.maturity_cd = 700.0;
  constants.decline_cd = 1700.0;
  return constants;
}

inline DayForcing warm_day(double day) {
  return {.day = day,
          .thermal_cd = 12.0,
          .organ_thermal_cd = 12.0,
          .light_g_per_m2 = 18.0,
          .sink_share = 0.22,
          .leaf_loss_scale = 1.0};
}

inline PlantGrid made_grid(std::size_t clumps, std::size_t ranks, double zone_m2) {
  PlantGrid grid(clumps, ranks);
  for (std::size_t i = 0; i < grid.size(); ++i) {
    const double rank = static_cast<double>(i / clumps);
    grid.leaf_g[i] = 0.004 / (1.0 + 0.3 * rank + 0.01 * static_cast<double>(i % clumps));
    grid.other_g[i] = grid.leaf_g[i] * 2.0 / 3.0;
    grid.emerge_day[i] = rank;
    grid.present[i] = 1.0;
  }
  for (double& zone : grid.zone_m2) zone = zone_m2;
  return grid;
}

/// The plain form of one day, plant by plant, as docs/models/stand.md writes it; std::exp, no arrays of its
/// own order.
inline void grow_day_plainly(const PlantConstants& k, const DayForcing& f, PlantGrid& grid) {
  const std::size_t plants = grid.size();
  std::vector<double> area(plants, 0.0);
  std::vector<double> light(plants, 0.0);
  for (std::size_t i = 0; i < plants; ++i) {
    if (grid.present[i] <= 0.0 || f.day < grid.emerge_day[i]) continue;
    const double factor = 1.0 + (k.seedling_leaf_factor - 1.0) / (1.0 + grid.leaf_g[i] / k.seedling_leaf_g);
    area[i] = grid.leaf_g[i] * k.leaf_area_m2_per_g * factor;
  }
  std::vector<double> clump_area(grid.clumps, 0.0);
  for (std::size_t i = 0; i < plants; ++i) clump_area[i % grid.clumps] += area[i];
  std::vector<double> reaching(plants, 0.0);
  std::vector<double> beside(plants, 0.0);
  for (std::size_t i = 0; i < plants; ++i) {
    const std::size_t c = i % grid.clumps;
    const double most = k.reach * grid.zone_m2[c];
    const double over = std::min(most, k.crown * std::pow(clump_area[c], 0.75));
    const double depth = k.extinction * clump_area[c] / over;
    if (clump_area[c] > 0.0) reaching[i] = area[i] * (1.0 - std::exp(-depth)) / depth;
    beside[i] = grid.edge_m2[c] * k.extinction / most * reaching[i];
  }
  const double ground = std::accumulate(grid.zone_m2.begin(), grid.zone_m2.end(), 0.0);
  const double total = std::accumulate(reaching.begin(), reaching.end(), 0.0);
  const double caught = ground * (1.0 - std::exp(-k.extinction * total / ground));
  std::vector<double> middle(plants, 0.0);
  double above = 0.0;
  for (const std::size_t i : grid.stand_order()) {
    const double before = std::exp(-k.extinction * above / ground);
    middle[i] = above + reaching[i] / 2.0;
    above += reaching[i];
    const double after = std::exp(-k.extinction * above / ground);
    light[i] = k.asymmetry * ground * (before - after);
    if (total > 0.0) light[i] += (1.0 - k.asymmetry) * caught * reaching[i] / total;
  }
  const double leaf = std::accumulate(area.begin(), area.end(), 0.0);
  const double shade = 0.03 * std::clamp(k.extinction * leaf / ground / 3.0 - 1.0, 0.0, 1.0);
  for (std::size_t i = 0; i < plants; ++i) {
    if (grid.present[i] <= 0.0 || f.day < grid.emerge_day[i]) continue;
    const double growth =
        std::min(f.light_g_per_m2 * (light[i] + beside[i]), f.sink_share * grid.leaf_g[i] / k.leaf_share);
    const double share = k.organ_share_max * std::min(1.0, grid.organ_age_cd[i] / k.organ_span_cd);
    const double old =
        std::clamp((grid.age_cd[i] - k.maturity_cd) / (k.decline_cd - k.maturity_cd), 0.0, 1.0);
    const double lower = total > 0.0 ? 0.5 + middle[i] / total : 0.5;
    const double loss = f.leaf_loss_scale * std::max(0.05 * old, shade * lower);
    const double shoot = growth * (1.0 - share);
    const double to_leaf = std::min(shoot * k.leaf_share, std::max(0.0, k.leaf_most_g - grid.leaf_g[i]));
    grid.leaf_g[i] += to_leaf - loss * grid.leaf_g[i];
    grid.other_g[i] += shoot - to_leaf;
    grid.organ_g[i] += growth * share;
    grid.age_cd[i] += f.thermal_cd;
    if (grid.age_cd[i] >= k.organ_start_cd) {
      grid.organ_age_cd[i] += grid.organ_age_cd[i] > 0.0 ? f.thermal_cd : f.organ_thermal_cd;
    }
  }
}

}  // namespace sowtide::stand::detail
