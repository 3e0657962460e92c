#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numeric>

#include "plain_growth.hpp"

namespace sowtide::stand::detail {
namespace {

double weight(const PlantGrid& grid) {
  double sum = 0.0;
  for (std::size_t i = 0; i < grid.size(); ++i) sum += grid.leaf_g[i] + grid.organ_g[i] + grid.other_g[i];
  return sum;
}

TEST(GrowDay, EqualsThePlainFormWithinRounding) {
  PlantGrid fast = made_grid(32, 3, 0.04);
  PlantGrid plain = made_grid(32, 3, 0.04);
  for (std::size_t c = 0; c < 32; c += 4) fast.edge_m2[c] = plain.edge_m2[c] = 0.02;
  for (int day = 0; day < 150; ++day) {
    grow_day(beet_like(), warm_day(day), fast);
    grow_day_plainly(beet_like(), warm_day(day), plain);
  }
  for (std::size_t i = 0; i < fast.size(); ++i) {
    EXPECT_NEAR(fast.leaf_g[i], plain.leaf_g[i], 1e-9 * plain.leaf_g[i]);
    EXPECT_NEAR(fast.organ_g[i], plain.organ_g[i], 1e-9 * plain.organ_g[i]);
    EXPECT_NEAR(fast.other_g[i], plain.other_g[i], 1e-9 * plain.other_g[i]);
  }
}

TEST(GrowDay, LeavesStopAtWhatAPlantGrowsAtMost) {
  PlantConstants bounded = beet_like();
  bounded.leaf_most_g = 3.0;
  PlantGrid fast = made_grid(8, 1, 0.2);
  PlantGrid plain = made_grid(8, 1, 0.2);
  PlantGrid free = made_grid(8, 1, 0.2);
  for (int day = 0; day < 80; ++day) {
    grow_day(bounded, warm_day(day), fast);
    grow_day_plainly(bounded, warm_day(day), plain);
    grow_day(beet_like(), warm_day(day), free);
  }
  for (std::size_t i = 0; i < fast.size(); ++i) {
    EXPECT_LE(fast.leaf_g[i], 3.0);
    EXPECT_GT(free.leaf_g[i], 2.0 * 3.0);
    EXPECT_NEAR(fast.leaf_g[i], plain.leaf_g[i], 1e-9 * plain.leaf_g[i]);
    EXPECT_NEAR(fast.other_g[i], plain.other_g[i], 1e-9 * plain.other_g[i]);
    EXPECT_GT(fast.other_g[i] / fast.leaf_g[i], free.other_g[i] / free.leaf_g[i]);
  }
}

RC_GTEST_PROP(GrowDay, NeverCatchesMoreLightThanArrives, ()) {
  const auto clumps = static_cast<std::size_t>(*rc::gen::inRange(1, 40));
  const auto ranks = static_cast<std::size_t>(*rc::gen::inRange(1, 5));
  const double zone = *rc::gen::inRange(5, 2000) * 1e-4;
  const double leaf_g = *rc::gen::inRange(1, 50000) * 1e-3;
  PlantGrid grid = made_grid(clumps, ranks, zone);
  for (double& leaf : grid.leaf_g) leaf = leaf_g;
  grow_day(beet_like(), warm_day(100), grid);
  const double caught = std::accumulate(grid.captured_m2.begin(), grid.captured_m2.end(), 0.0);
  RC_ASSERT(caught <= zone * static_cast<double>(clumps) * (1.0 + 1e-12));
  for (const double each : grid.captured_m2) RC_ASSERT(each >= 0.0);
}

RC_GTEST_PROP(GrowDay, MoreLightNeverMeansLessGrowth, ()) {
  PlantGrid dim = made_grid(8, 3, *rc::gen::inRange(10, 900) * 1e-4);
  PlantGrid bright = dim;
  const double light = *rc::gen::inRange(1, 40);
  for (int day = 0; day < 90; ++day) {
    DayForcing forcing = warm_day(day);
    forcing.light_g_per_m2 = light;
    grow_day(beet_like(), forcing, dim);
    forcing.light_g_per_m2 = light * 1.3;
    grow_day(beet_like(), forcing, bright);
  }
  RC_ASSERT(weight(bright) >= weight(dim) * (1.0 - 1e-12));
}

double light_of_the_rest(const PlantGrid& grid, const std::vector<bool>& gone) {
  double sum = 0.0;
  for (std::size_t i = 0; i < grid.size(); ++i) sum += gone[i] ? 0.0 : grid.captured_m2[i];
  return sum;
}

// One of them may lose: a tall neighbour whose mate is gone spreads its leaves.
RC_GTEST_PROP(GrowDay, TakingPlantsOutNeverLowersTheLightOfTheRestTogether, ()) {
  PlantGrid full = made_grid(12, 3, *rc::gen::inRange(10, 400) * 1e-4);
  for (int day = 0; day < 60; ++day) grow_day(beet_like(), warm_day(day), full);
  PlantGrid thinned = full;
  std::vector<bool> gone(full.size());
  for (std::size_t i = 0; i < full.size(); ++i) {
    gone[i] = *rc::gen::inRange(0, 3) == 0;
    if (gone[i]) thinned.present[i] = 0.0;
  }
  grow_day(beet_like(), warm_day(60), full);
  grow_day(beet_like(), warm_day(60), thinned);
  RC_ASSERT(light_of_the_rest(thinned, gone) >= light_of_the_rest(full, gone) * (1.0 - 1e-9));
}

RC_GTEST_PROP(GrowDay, TakingWholeClumpsOutNeverLowersTheLightOfAnyOther, ()) {
  PlantGrid full = made_grid(12, 3, *rc::gen::inRange(10, 400) * 1e-4);
  for (int day = 0; day < 60; ++day) grow_day(beet_like(), warm_day(day), full);
  PlantGrid thinned = full;
  std::vector<bool> gone(full.clumps);
  for (std::size_t c = 0; c < full.clumps; ++c) gone[c] = *rc::gen::inRange(0, 3) == 0;
  for (std::size_t i = 0; i < full.size(); ++i) {
    if (gone[i % full.clumps]) thinned.present[i] = 0.0;
  }
  grow_day(beet_like(), warm_day(60), full);
  grow_day(beet_like(), warm_day(60), thinned);
  for (std::size_t i = 0; i < full.size(); ++i) {
    if (!gone[i % full.clumps]) RC_ASSERT(thinned.captured_m2[i] >= full.captured_m2[i] * (1.0 - 1e-9));
  }
}

TEST(GrowDay, MatesBringTheirLeavesToTheContestAlike) {
  PlantGrid grid = made_grid(2, 3, 0.04);
  for (int day = 0; day < 60; ++day) grow_day(beet_like(), warm_day(day), grid);
  PlantConstants even = beet_like();
  even.asymmetry = 0.0;  // what is left is by the leaves that each brings
  const std::vector<double> leaf_g = grid.leaf_g;
  grow_day(even, warm_day(60), grid);
  const auto area = [&](std::size_t i) {
    return leaf_g[i] * (1.0 + (even.seedling_leaf_factor - 1.0) / (1.0 + leaf_g[i] / even.seedling_leaf_g));
  };
  for (const std::size_t mate : {2U, 4U}) {
    EXPECT_LT(area(mate), area(0));
    EXPECT_NEAR(grid.captured_m2[mate] / grid.captured_m2[0], area(mate) / area(0), 1e-12);
  }
}

// Mates lean apart: they share their crown by leaf area, so those that stay gain by one that goes, whichever
// it is.
TEST(GrowDay, TakingAMateOutHelpsTheOthersOfALoneClump) {
  for (std::size_t out = 0; out < 3; ++out) {
    PlantGrid full = made_grid(1, 3, 0.04);
    for (int day = 0; day < 60; ++day) grow_day(beet_like(), warm_day(day), full);
    PlantGrid thinned = full;
    thinned.present[out] = 0.0;
    grow_day(beet_like(), warm_day(60), full);
    grow_day(beet_like(), warm_day(60), thinned);
    for (std::size_t i = 0; i < 3; ++i) {
      if (i == out) continue;
      EXPECT_GT(thinned.captured_m2[i], full.captured_m2[i]) << i << " without " << out;
    }
  }
}

TEST(GrowDay, TwoTouchingHalvesCatchNoMoreThanOneWhole) {
  PlantGrid whole = made_grid(1, 1, 0.04);
  PlantGrid halves = made_grid(1, 2, 0.04);
  PlantConstants constants = beet_like();
  constants.seedling_leaf_factor = 1.0;  // the thinner leaves of the smaller plant are another matter
  whole.leaf_g = {2.0};
  halves.leaf_g = {1.0, 1.0};
  grow_day(constants, warm_day(10), whole);
  grow_day(constants, warm_day(10), halves);
  EXPECT_NEAR(halves.captured_m2[0] + halves.captured_m2[1], whole.captured_m2[0], 1e-12);
}

TEST(GrowDay, WhatGrowsGoesSomewhere) {
  PlantGrid grid = made_grid(16, 3, 0.04);
  for (int day = 0; day < 40; ++day) {
    const double before = weight(grid);
    grow_day(beet_like(), warm_day(day), grid);
    const double caught = std::accumulate(grid.captured_m2.begin(), grid.captured_m2.end(), 0.0);
    // Before leaves die, the stand gains at most what its light makes, and never loses.
    EXPECT_GE(weight(grid), before);
    EXPECT_LE(weight(grid) - before, 18.0 * caught + 1e-12);
  }
}

TEST(GrowDay, APlantThatHasNotEmergedDoesNothing) {
  PlantGrid grid = made_grid(1, 1, 0.04);
  grid.emerge_day[0] = 5.0;
  grow_day(beet_like(), warm_day(4), grid);
  EXPECT_DOUBLE_EQ(grid.leaf_g[0], 0.004);
  EXPECT_DOUBLE_EQ(grid.age_cd[0], 0.0);
  grow_day(beet_like(), warm_day(5), grid);
  EXPECT_GT(grid.leaf_g[0], 0.004);
}

}  // namespace
}  // namespace sowtide::stand::detail
