// Taking plants and leaves out, by trial and by the logbook; plants at the edge; what a picture and a count
// show.
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "made_weather.hpp"
#include "stand/picture.hpp"

namespace sowtide::stand {
namespace {

using testing::made_ensemble;
using testing::MadeClimate;

struct Beets {
  climate::WeatherEnsemble ensemble = made_ensemble(MadeClimate{}, base::date_of(2026, 1, 1), 730, 10);
  CropWeather weather{**crop::built_in_library().find("beet"),
                      std::make_shared<const SeasonWeather>(ensemble)};
  StandPlan plan = [] {
    StandPlan made;
    made.id = "s1";
    made.crop = "beet";
    made.sow = base::date_of(2026, 5, 1);
    made.clumps = 30;
    made.spacing_mm = 200;
    made.plants_per_clump = 3;
    return made;
  }();
  base::Date thin = base::date_of(2026, 7, 1);
  base::Date later = base::date_of(2026, 8, 15);

  [[nodiscard]] StandLives lived(const StandFacts& facts, SimulationOptions options) const {
    options.leave_standing = true;
    options.watch = {later};
    return simulate(weather, plan, facts, {}, options);
  }
};

double mean_standing(const StandLives& lives) {
  double sum = 0.0;
  double count = 0.0;
  for (const double weight : lives.watched_g) {
    sum += weight;
    count += weight > 0.0 ? 1.0 : 0.0;
  }
  return sum / count;
}

TEST(Removal, WhatTheLogSaysWasPulledFreesItsShare) {
  const Beets beets;
  StandFacts facts;
  facts.plants_removed = 30;
  facts.taken = {{beets.thin, 30, true}};
  const StandLives alone = beets.lived({}, {});
  const StandLives pulled = beets.lived(facts, {});
  EXPECT_DOUBLE_EQ(pulled.plants, 90.0);
  std::size_t standing = 0;
  for (const double weight : pulled.watched_g) standing += weight > 0.0 ? 1 : 0;
  EXPECT_EQ(standing, 64U * pulled.members.size());  // 96 of the sample, less the third that was pulled
  for (std::size_t i = 0; i < alone.watched_g.size(); ++i) {
    if (pulled.watched_g[i] <= 0.0) continue;
    EXPECT_GE(pulled.watched_g[i], alone.watched_g[i] * (1.0 - 1e-9));
  }
}

TEST(Removal, ThinningTakesTheSmallestAndPullingTheLargest) {
  const Beets beets;
  StandFacts thinned, pulled;
  thinned.taken = {{beets.thin, 30, false}};
  pulled.taken = {{beets.thin, 30, true}};
  EXPECT_GT(mean_standing(beets.lived(thinned, {})), mean_standing(beets.lived(pulled, {})));
}

TEST(Removal, KeepingOnePlantAClumpLeavesOneInEach) {
  const Beets beets;
  SimulationOptions options;
  options.removal = Removal{.date = beets.thin, .keep_per_clump = 1};
  const StandLives lives = beets.lived({}, options);
  for (std::size_t m = 0; m < lives.members.size(); ++m) {
    EXPECT_DOUBLE_EQ(lives.removed_plants[m], 64.0);
    for (std::size_t c = 0; c < lives.clumps; ++c) {
      int standing = 0;
      for (std::size_t p = 0; p < lives.ranks; ++p)
        standing += lives.watched_g[(m * lives.ranks + p) * lives.clumps + c] > 0.0 ? 1 : 0;
      EXPECT_EQ(standing, 1);
    }
  }
}

TEST(Removal, GreensComeAtACostToTheRoot) {
  const Beets beets;
  SimulationOptions third, half;
  third.removal = Removal{.date = beets.thin, .leaf_share = 0.33};
  half.removal = Removal{.date = beets.thin, .leaf_share = 0.6};
  const StandLives alone = beets.lived({}, {});
  const StandLives few = beets.lived({}, third);
  const StandLives many = beets.lived({}, half);
  EXPECT_GT(few.greens_g[0], 0.0);
  EXPECT_GT(many.greens_g[0], few.greens_g[0]);
  EXPECT_LT(mean_standing(few), mean_standing(alone));
  EXPECT_LT(mean_standing(many), mean_standing(few));
  // Extension leaflets: up to a third of the leaves can be taken without much harm.
  EXPECT_GT(mean_standing(few), 0.85 * mean_standing(alone));
}

TEST(Edge, ClumpsBesideThePathAreHeavier) {
  const Beets beets;
  SimulationOptions options;
  options.bed.rows_across = 4;
  const StandLives lives = beets.lived({}, options);
  double edge = 0.0, inner = 0.0;
  std::size_t edges = 0;
  for (std::size_t c = 0; c < lives.clumps; ++c) {
    edges += lives.open_sides[c];
    for (std::size_t p = 0; p < lives.ranks; ++p)
      (lives.open_sides[c] > 0 ? edge : inner) += lives.watched_g[p * lives.clumps + c];
  }
  EXPECT_EQ(edges, 16U);
  EXPECT_GT(edge, inner);
}

TEST(Arrangement, OffsetClumpsHaveLessGroundAndSquaresBeatRowsOfTheSameGround) {
  const Beets beets;
  SimulationOptions standing;
  standing.leave_standing = true;
  standing.watch = {beets.later};
  const auto mean_of = [&](const StandPlan& plan) {
    return mean_standing(simulate(beets.weather, plan, {}, {}, standing));
  };
  StandPlan offset = beets.plan, rows = beets.plan;
  offset.arrangement = Arrangement::offset;
  rows.arrangement = Arrangement::rows;
  rows.row_spacing_mm = 800.0;
  rows.spacing_mm = 50.0;
  const double square = mean_standing(beets.lived({}, {}));
  EXPECT_LT(mean_of(offset), square);
  EXPECT_LT(mean_of(rows), square);
}

TEST(Picture, ShowsTheDaysAskedForAndNothingTaken) {
  const Beets beets;
  const auto seen = picture(beets.weather, beets.plan, {}, {},
                            {.from = beets.thin, .to = beets.later, .step_days = 15, .clumps = 5});
  ASSERT_TRUE(seen);
  ASSERT_EQ(seen->days.size(), 4U);
  EXPECT_EQ(seen->clumps, 5U);
  for (const auto& day : seen->days) {
    EXPECT_EQ(day.weight_g.size(), 15U);
    EXPECT_NEAR(day.standing_plants, 90.0, 1e-9);
    EXPECT_NEAR(std::accumulate(day.class_share.begin(), day.class_share.end(), 0.0), 1.0, 1e-9);
  }
  EXPECT_GT(seen->days[3].plant_g.p50, seen->days[0].plant_g.p50);
}

TEST(Picture, WhatIsUpStandsBeforeItHasARoot) {
  const Beets beets;
  const auto seen = picture(beets.weather, beets.plan, {}, {},
                            {.from = beets.plan.sow, .to = beets.later, .step_days = 1, .clumps = 5});
  ASSERT_TRUE(seen);
  const auto rootless = std::find_if(seen->days.begin(), seen->days.end(),
                                     [](const PictureDay& day) { return day.standing_plants > 89.0; });
  ASSERT_NE(rootless, seen->days.end());
  EXPECT_LT(rootless->plant_g.p90, 0.001) << "less than the seed weighed: no root to speak of";
  EXPECT_LT(rootless->date, beets.thin);
  EXPECT_EQ(std::count(rootless->stands.begin(), rootless->stands.end(), 1), 15);
  EXPECT_DOUBLE_EQ(seen->days.front().standing_plants, 0.0) << "on the day of sowing";
  for (std::size_t day = 1; day < seen->days.size(); ++day)
    EXPECT_GE(seen->days[day].standing_plants, seen->days[day - 1].standing_plants) << day;
}

TEST(Picture, WhatANightHasKilledStandsNoMore) {
  const Beets beets;
  const CropWeather weather{**crop::built_in_library().find("bush-bean"),
                            std::make_shared<const SeasonWeather>(beets.ensemble)};
  StandPlan plan = beets.plan;
  plan.crop = "bush-bean";
  plan.sow = base::date_of(2026, 8, 10);
  const auto seen =
      picture(weather, plan, {}, {},
              {.from = base::date_of(2026, 9, 1), .to = base::date_of(2027, 1, 31), .step_days = 30});
  ASSERT_TRUE(seen);
  // All but what cool nights of a few years have taken: death by cold is a curve.
  EXPECT_GT(seen->days.front().standing_plants, 89.5);
  EXPECT_LE(seen->days.front().standing_plants, 90.0);
  EXPECT_DOUBLE_EQ(seen->days.back().standing_plants, 0.0);
  const auto& stands = seen->days.back().stands;
  EXPECT_EQ(std::count(stands.begin(), stands.end(), 1), 0);
}

TEST(Picture, RefusesDaysBeforeTheSowing) {
  const Beets beets;
  const auto seen =
      picture(beets.weather, beets.plan, {}, {}, {.from = base::date_of(2026, 4, 1), .to = beets.later});
  ASSERT_FALSE(seen);
  EXPECT_EQ(seen.error().code, base::ProblemCode::out_of_range);
}

TEST(Trial, PullingTheLargestGivesNowAndLetsTheRestGain) {
  const Beets beets;
  const auto trial =
      try_removal(beets.weather, beets.plan, {}, {}, Removal{.date = beets.thin, .largest_per_clump = 1},
                  {.from = beets.thin, .to = beets.later, .step_days = 15, .clumps = 4});
  ASSERT_TRUE(trial);
  EXPECT_NEAR(trial->taken_plants, 30.0, 1e-9);
  EXPECT_GT(trial->taken_g.p50, 0.0);
  EXPECT_GT(trial->rest_gain_g.back().p50, 0.0);
  EXPECT_NEAR(trial->after.days.back().standing_plants, 60.0, 1e-9);
  EXPECT_NEAR(trial->before.days.back().standing_plants, 90.0, 1e-9);
}

}  // namespace
}  // namespace sowtide::stand
