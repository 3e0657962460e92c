// What a packet is still worth: the published life of seed, the grower's keeping, and home tests.
#include "crop/packet_belief.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "example_crop.hpp"

namespace sowtide::crop {
namespace {

PacketBelief belief_of(const SeedFacts& seed, double years, const SeedKeeping& keeping = {}) {
  auto belief = PacketBelief::of_packet(seed, keeping, seed.germination_pct);
  EXPECT_TRUE(belief.has_value());
  belief->age(years);
  return *belief;
}

TEST(PacketBelief, FreshSeedIsAsGoodAsItIsSaidToBe) {
  for (const auto& [id, crop] : built_in_library().crops) {
    const PacketBelief fresh = belief_of(crop.seed, 0.0);
    EXPECT_NEAR(fresh.mean_pct(), crop.seed.germination_pct, 0.1) << id;
    EXPECT_GT(fresh.pct().p90 - fresh.pct().p10, 5.0) << id;
  }
}

/// Lists of seed life mean ordinary keeping; so where nothing is told of it, they and the packet must agree,
/// with or without constants of the viability equation.
TEST(PacketBelief, AboutHalfOfTheFirstFigureIsLeftAtThePublishedLife) {
  for (const auto& [id, crop] : built_in_library().crops) {
    const PacketBelief old = belief_of(crop.seed, crop.seed.life_years);
    EXPECT_FALSE(old.by_equation()) << id;
    EXPECT_NEAR(old.mean_pct() / crop.seed.germination_pct, 0.5, 0.05) << id;
  }
}

/// Keeping and lists differ by a factor of about two: seed at its published life may be as good as at half
/// of it, or as bad as at twice.
TEST(PacketBelief, IsUnsureByAFactorOfTwoInTime) {
  const SeedFacts& lettuce = built_in_library().crops.at("lettuce").seed;
  const double life = lettuce.life_years;
  const base::Quantiles at_life = belief_of(lettuce, life).pct();
  EXPECT_GT(at_life.p90, belief_of(lettuce, life / 2.0).pct().p50);
  EXPECT_LT(at_life.p10, belief_of(lettuce, life * 2.0).pct().p50);
  EXPECT_GT(at_life.p10, 0.5);
}

TEST(PacketBelief, AHomeTestOutweighsTheCalendar) {
  const SeedFacts& lettuce = built_in_library().crops.at("lettuce").seed;
  for (const double years : {1.0, 2.2, 6.0, 10.0}) {
    PacketBelief belief = belief_of(lettuce, years);
    ASSERT_TRUE(belief.learn({.sown = 20, .came_up = 18}));
    // Twenty seeds alone, from a flat start, say 86 % (75 to 95).
    const TestedGermination alone = after_home_test(50.0, {.sown = 20, .came_up = 18}, 2.0).value();
    EXPECT_NEAR(belief.mean_pct(), alone.mean_pct, 6.0) << years;
    EXPECT_NEAR(belief.pct().p90 - belief.pct().p10, alone.pct.p90 - alone.pct.p10, 4.0) << years;
  }
}

/// The lines that a good test leaves are those of slow ageing: the next year takes little, not all.
TEST(PacketBelief, NextYearFollowsFromTheTest) {
  const SeedFacts& lettuce = built_in_library().crops.at("lettuce").seed;
  PacketBelief belief = belief_of(lettuce, 6.0);
  ASSERT_TRUE(belief.learn({.sown = 20, .came_up = 18}));
  const double today = belief.mean_pct();
  belief.age(1.0);
  EXPECT_LT(belief.mean_pct(), today);
  EXPECT_GT(belief.mean_pct(), today - 8.0);
}

TEST(PacketBelief, AManyTimesTestedPacketIsWhatTheTestsSay) {
  PacketBelief belief = belief_of(testing::example_crop().seed, 1.0);
  ASSERT_TRUE(belief.learn({.sown = 4000, .came_up = 1200}));
  EXPECT_NEAR(belief.mean_pct(), 30.0, 2.0);
  EXPECT_GT(belief.worth_seeds(), 1000.0);
}

TEST(PacketBelief, ToldMoistureFollowsTheEquation) {
  const SeedFacts seed = testing::example_crop().seed;
  const PacketBelief old = belief_of(seed, 2.0, {.temp_c = 10.0, .moisture_pct = 10.0});
  EXPECT_TRUE(old.by_equation());
  // The line of the middle start and rate: the centre is set so that the mean of packets is the fresh figure.
  const double centre = base::normal_quantile(0.8) * std::sqrt(1.25);
  const double days = days_per_probit(constants_of(*seed.viability), {10.0, 10.0}).value();
  EXPECT_NEAR(old.pct().p50, 100.0 * base::normal_cdf(centre - 2.0 * 365.25 / days), 1.0);
}

RC_GTEST_PROP(PacketBelief, FallsWithTimeAndWarmth, ()) {
  const SeedFacts seed = testing::example_crop().seed;
  const double years = *rc::gen::inRange(0, 20);
  const double temp = *rc::gen::inRange(-10, 30);
  const double here = belief_of(seed, years, {.temp_c = temp}).mean_pct();
  RC_ASSERT(belief_of(seed, years + 1.0, {.temp_c = temp}).mean_pct() <= here + 1e-9);
  RC_ASSERT(belief_of(seed, years, {.temp_c = temp + 5.0}).mean_pct() <= here + 1e-9);
  RC_ASSERT(belief_of(seed, -1.0).mean_pct() == belief_of(seed, 0.0).mean_pct());
}

TEST(PacketBelief, RefusesWhatCannotBe) {
  const SeedFacts seed = testing::example_crop().seed;
  EXPECT_FALSE(PacketBelief::of_packet(seed, {}, 0.0));
  EXPECT_FALSE(PacketBelief::of_packet(seed, {}, 100.0));
  EXPECT_FALSE(PacketBelief::of_packet(seed, {.temp_c = 120.0}, 80.0));
  EXPECT_FALSE(PacketBelief::of_packet(seed, {.moisture_pct = 40.0}, 80.0));
  PacketBelief belief = belief_of(seed, 0.0);
  EXPECT_FALSE(belief.learn({.sown = 10, .came_up = 11}));
  EXPECT_FALSE(belief.learn({.sown = -1, .came_up = 0}));
}

}  // namespace
}  // namespace sowtide::crop
