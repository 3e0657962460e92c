#include "stand/judge.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "made_weather.hpp"
#include "stand/standing_sizes.hpp"

namespace sowtide::stand {
namespace {

using testing::made_ensemble;
using testing::MadeClimate;

struct Judged {
  climate::WeatherEnsemble ensemble = made_ensemble(MadeClimate{}, base::date_of(2026, 1, 1), 730, 10);
  CropWeather weather{**crop::built_in_library().find("beet"),
                      std::make_shared<const SeasonWeather>(ensemble)};
  StandPlan plan = [] {
    StandPlan made;
    made.id = "s1";
    made.crop = "beet";
    made.sow = base::date_of(2026, 5, 1);
    made.clumps = 30;
    made.spacing_mm = 240;
    made.plants_per_clump = 3;
    return made;
  }();

  [[nodiscard]] Judgement on(base::Date date, const StandFacts& facts = {},
                             const JudgeNeeds& needs = {}) const {
    return *judge(weather, plan, facts, {}, date, needs);
  }

  /// The first of every other day from a date on on which any of them is worth taking.
  [[nodiscard]] base::Date first_usable_from(base::Date date) const {
    while (!(on(date).options[0].usable_g > 0.0)) date += base::Days{2};
    return date;
  }

  /// A kitchen that lacks so many times what could be used of them on the day.
  [[nodiscard]] JudgeNeeds kitchen_lacking(double times, base::Date date) const {
    JudgeNeeds needs;
    needs.kitchen_short_g = times * on(date).options[0].usable_g;
    return needs;
  }
};

TEST(SizeClass, RunsFromTooSmallToOverSize) {
  const auto& harvest = (*crop::built_in_library().find("beet"))->harvest;
  EXPECT_EQ(size_class(harvest, harvest.smallest_g - 0.1), SizeClass::too_small);
  EXPECT_EQ(size_class(harvest, harvest.smallest_g), SizeClass::small);
  EXPECT_EQ(size_class(harvest, harvest.large_g), SizeClass::large);
  EXPECT_EQ(size_class(harvest, harvest.over_size_g + 1.0), SizeClass::over_size);
}

TEST(Judge, GrowingBeetsAreLeftToGrow) {
  const Judged judged;
  const Judgement answer = judged.on(base::date_of(2026, 6, 30));
  ASSERT_EQ(answer.options.size(), 4U);
  for (std::size_t w = 1; w < 4; ++w)
    EXPECT_GT(answer.options[w].plant_g.p50, answer.options[w - 1].plant_g.p50);
  EXPECT_GT(answer.best_weeks, 0);
  EXPECT_NE(answer.advice, "pull");
  EXPECT_FALSE(answer.reasons.empty());
}

TEST(Judge, ClassesShareOutAllPlants) {
  const Judged judged;
  for (const auto& option : judged.on(base::date_of(2026, 7, 10)).options) {
    double sum = 0.0;
    for (const double share : option.class_share) sum += share;
    EXPECT_NEAR(sum, 1.0, 1e-12);
  }
}

// A stand that was pulled by weight is gone in some weather years and stands in others.
TEST(Judge, WhereSomeAreOfASizeTheyWeighSomething) {
  const Judged judged;
  const base::Date day = base::date_of(2026, 8, 20);
  const double all_g = judged.on(day).options.front().usable_g;
  ASSERT_GT(all_g, 0.0);
  for (double share = 0.5; share < 1.5; share += 0.05) {
    StandFacts facts;
    facts.sown = judged.plan.sow;
    facts.first_picked = day - base::Days{1};
    facts.taken = {{.date = day - base::Days{1}, .plants = 0, .largest = true, .grams = share * all_g}};
    const WaitOption now = judged.on(day, facts).options.front();
    const auto& sizes = now.class_share;
    const bool some = std::any_of(sizes.begin(), sizes.end(), [](double each) { return each > 0.0; });
    EXPECT_EQ(now.plant_g.p50 > 0.0, some) << share << " of what stood there";
  }
}

// Common practice: pulling the largest of a clump lets the others grow on.
TEST(Judge, PullingTheLargestSpeedsTheRest) {
  const Judged judged;
  const Judgement answer = judged.on(base::date_of(2026, 7, 10));
  EXPECT_GT(answer.pull_largest_now_g, 0.0);
  EXPECT_GT(answer.rest_gain_g, 0.0);
  ASSERT_EQ(answer.clump.size(), 3U);
  EXPECT_GT(answer.clump[0].weight_g.p50, answer.clump[1].weight_g.p50);
  EXPECT_GT(answer.clump[1].weight_g.p50, answer.clump[2].weight_g.p50);
}

TEST(Judge, TheWeightsOfAClumpAgreeWithWhatTakingItsLargestGives) {
  const Judged judged;
  const Judgement answer = judged.on(base::date_of(2026, 7, 10));
  ASSERT_EQ(answer.clump.size(), 3U);
  EXPECT_NEAR(answer.pull_largest_now_g, 30.0 * answer.clump[0].weight_g.p50,
              0.01 * answer.pull_largest_now_g);
}

TEST(Judge, AClumpThatWasPulledFromListsAsManyAsStandTheHeaviestFirst) {
  Judged judged;
  judged.plan.plants_per_clump = 4;
  StandFacts facts;
  facts.plants_removed = 30;
  facts.taken = {{base::date_of(2026, 7, 10), 30, true, 4000.0}};
  const Judgement answer = judged.on(base::date_of(2026, 7, 10), facts);
  ASSERT_EQ(answer.clump.size(), 3U) << "90 plants in 30 clumps";
  EXPECT_GE(answer.clump[0].weight_g.p50, answer.clump[1].weight_g.p50);
  EXPECT_GE(answer.clump[1].weight_g.p50, answer.clump[2].weight_g.p50);
}

TEST(Judge, AThinnedStandYieldsBetweenWhatIsLeftAndTheFullStand) {
  const Judged judged;
  SimulationOptions options;
  options.leave_standing = true;
  options.watch = {base::date_of(2026, 8, 15)};
  const StandLives full = simulate(judged.weather, judged.plan, {}, {}, options);
  options.removal = Removal{.date = base::date_of(2026, 7, 1), .largest_per_clump = 1};
  const StandLives thinned = simulate(judged.weather, judged.plan, {}, {}, options);
  const std::size_t plants = full.clumps * full.ranks;
  for (std::size_t m = 0; m < full.members.size(); ++m) {
    double all = 0.0;
    double same = 0.0;
    double left = 0.0;
    for (std::size_t i = 0; i < plants; ++i) {
      const double grown = thinned.watched_g[m * plants + i];
      left += grown;
      all += full.watched_g[m * plants + i];
      if (grown > 0.0) same += full.watched_g[m * plants + i];
    }
    EXPECT_GE(left, same);
    const double pulled = thinned.removed_g[m] * static_cast<double>(full.clumps);
    EXPECT_LE(left, all);
    EXPECT_LE(left + pulled, all + pulled);
  }
}

TEST(Judge, AHungryKitchenPullsSooner) {
  const Judged judged;
  const base::Date date = base::date_of(2026, 7, 20);
  const Judgement calm = judged.on(date);
  JudgeNeeds needs;
  needs.ground_worth_g_per_week = 1e5;
  EXPECT_EQ(judged.on(date, {}, needs).advice, "pull");
  EXPECT_GE(calm.best_weeks, judged.on(date, {}, needs).best_weeks);
}

TEST(Judge, AKitchenThatLacksALittleGetsTheLargestAndTheRestStays) {
  const Judged judged;
  const base::Date date = base::date_of(2026, 7, 10);
  JudgeNeeds needs = judged.kitchen_lacking(0.2, date);
  const Judgement answer = judged.on(date, {}, needs);
  EXPECT_EQ(answer.advice, "pull the largest");
  EXPECT_GT(answer.plants_for_kitchen, 0);
  EXPECT_LT(answer.plants_for_kitchen, 30);
  needs.kitchen_short_g *= 10.0;
  EXPECT_NE(judged.on(date, {}, needs).advice, "pull") << "in three weeks they come to far more";
}

// The first days on which a few of the beets are worth taking: left alone they come to many times what the
// kitchen lacks.
TEST(Judge, AHungryKitchenDoesNotGetAllTheSmallOnes) {
  const Judged judged;
  const base::Date date = judged.first_usable_from(base::date_of(2026, 6, 10));
  const JudgeNeeds needs = judged.kitchen_lacking(2.0, date);
  const Judgement answer = judged.on(date, {}, needs);
  ASSERT_GT(answer.options[0].class_share[static_cast<std::size_t>(SizeClass::too_small)], 0.5);
  ASSERT_GT(answer.options[3].usable_g, 5.0 * needs.kitchen_short_g);
  EXPECT_EQ(answer.advice, "wait");
}

// Nor some of them, while each still weighs far more in a week.
TEST(Judge, AKitchenThatLacksALittleWaitsForPlantsThatAreNoFoodYet) {
  const Judged judged;
  const base::Date date = judged.first_usable_from(base::date_of(2026, 6, 10));
  const JudgeNeeds needs = judged.kitchen_lacking(0.5, date);
  const Judgement answer = judged.on(date, {}, needs);
  ASSERT_GT(answer.options[1].plant_g.p50, 1.5 * answer.options[0].plant_g.p50);
  EXPECT_EQ(answer.advice, "wait");
}

TEST(Judge, WhatWouldComeToHalfAsMuchAgainGoesToTheKitchenOnlyWhereItIsLarge) {
  const Judged judged;
  int young = 0, grown = 0;
  for (base::Date date = base::date_of(2026, 6, 20); date < base::date_of(2026, 8, 20);
       date += base::Days{3}) {
    const JudgeNeeds needs = judged.kitchen_lacking(0.4, date);
    if (!(needs.kitchen_short_g > 0.0)) continue;
    const Judgement answer = judged.on(date, {}, needs);
    const auto& told = answer.options[static_cast<std::size_t>(std::max(1, answer.best_weeks))];
    if (told.net_g > 1.5 * answer.options[0].net_g) {
      ++young;
      EXPECT_LE(answer.plants_for_kitchen, answer.options[0].large_plants.p50) << base::to_iso(date);
    } else if (answer.advice == "pull the largest") {
      ++grown;
      EXPECT_GE(answer.plants_for_kitchen * answer.clump[0].weight_g.p50, needs.kitchen_short_g)
          << base::to_iso(date);
    }
  }
  EXPECT_GT(young, 3);
  EXPECT_GT(grown, 3);
}

// Bulbs ripen together; common practice is to lift them when the tops fall.
TEST(Judge, TheLargestOfAClumpOfOnionsStandTillAllAreRipe) {
  Judged judged;
  const CropWeather onions{**crop::built_in_library().find("onion"),
                           std::make_shared<const SeasonWeather>(judged.ensemble)};
  StandPlan plan = judged.plan;
  plan.crop = "onion";
  plan.sow = base::date_of(2026, 3, 20);
  plan.plants_per_clump = 4;
  for (base::Date date = base::date_of(2026, 6, 1); date < base::date_of(2026, 8, 15);
       date += base::Days{7}) {
    const auto answer = judge(onions, plan, {}, {}, date);
    ASSERT_TRUE(answer);
    EXPECT_NE(answer->advice, "pull the largest") << base::to_iso(date);
  }
}

/// Carrots that the plan leaves in the ground over the winter, where winters are as cold as told.
struct WaitingCarrots {
  explicit WaitingCarrots(double mean_c)
      : ensemble(made_ensemble({.mean_c = mean_c, .swing_k = 14.0, .noise_k = 4.0}, base::date_of(2026, 1, 1),
                               730, 20)) {}
  climate::WeatherEnsemble ensemble;
  CropWeather weather{**crop::built_in_library().find("carrot"),
                      std::make_shared<const SeasonWeather>(ensemble)};
  StandPlan plan{.id = "s1", .crop = "carrot", .sow = base::date_of(2026, 5, 20)};

  [[nodiscard]] Judgement on(base::Date date) const {
    StandPlan waiting = plan;
    waiting.clumps = 60;
    waiting.spacing_mm = 110;
    waiting.pick_weeks = 31;
    JudgeNeeds needs;
    needs.pulling = PlannedPulling{
        .from = base::date_of(2026, 9, 1), .weeks = 31, .now = true, .week_g = {100, 100, 100}};
    return *judge(weather, waiting, {}, {}, date, needs);
  }
};

bool says(const Judgement& answer, std::string_view key) {
  return std::any_of(answer.reasons.begin(), answer.reasons.end(),
                     [key](const base::Message& reason) { return reason.key == key; });
}

TEST(Judge, WhatWaitsComesInBeforeTheFrostThatEndsItInAThirdOfTheYears) {
  const WaitingCarrots carrots(7.0);
  bool left_before = false, lifted = false;
  for (base::Date day = base::date_of(2026, 10, 1); day < base::date_of(2027, 1, 15); day += base::Days{7}) {
    const Judgement answer = carrots.on(day);
    const bool likely = 3 * answer.frost_years >= answer.years_alive;
    EXPECT_EQ(answer.before_frost, likely && answer.options[0].usable_g > 0.0) << base::to_iso(day);
    EXPECT_EQ(says(answer, "frost-will-have-ended"), answer.before_frost);
    EXPECT_NE(says(answer, "plan-pulls-now"), answer.before_frost) << "one order only";
    if (answer.before_frost) {
      EXPECT_EQ(answer.advice, "pull") << base::to_iso(day);
      EXPECT_EQ(answer.best_weeks, 0);
    }
    left_before |= !answer.before_frost;
    lifted |= answer.before_frost;
  }
  EXPECT_TRUE(left_before) << "in October they may stand";
  EXPECT_TRUE(lifted);
}

TEST(Judge, WhereFrostHardlyEndsItThePlanGoesOn) {
  const WaitingCarrots carrots(14.0);
  const Judgement answer = carrots.on(base::date_of(2026, 12, 10));
  EXPECT_LT(3 * answer.frost_years, answer.years_alive);
  EXPECT_EQ(answer.advice, "pull the largest");
}

// What lived through the winter is not judged by the nights of that winter.
TEST(Judge, AFrostThatItHasOutlivedIsNoRiskAhead) {
  const WaitingCarrots carrots(12.0);
  int frost_years = 0;
  for (base::Date day = base::date_of(2026, 12, 1); day < base::date_of(2027, 2, 15); day += base::Days{7})
    frost_years = std::max(frost_years, carrots.on(day).frost_years);
  EXPECT_GT(frost_years, 0);
  const Judgement spring = carrots.on(base::date_of(2027, 5, 10));
  EXPECT_LT(spring.years_alive, static_cast<int>(carrots.ensemble.member_count))
      << "in some years that winter ended it";
  EXPECT_GT(spring.years_alive, 0);
  EXPECT_EQ(spring.frost_years, 0);
  EXPECT_FALSE(spring.before_frost);
  for (const WaitOption& option : spring.options) EXPECT_NE(option.loss_cause, "frost");
}

/// Beets of May that the plan has over a whole winter, and what it takes of them by the week.
Judgement beets_of_a_long_plan(base::Date date, double week_g) {
  const Judged judged;
  JudgeNeeds needs;
  needs.pulling = PlannedPulling{.from = base::date_of(2026, 7, 10), .weeks = 20, .begun = true, .now = true};
  needs.pulling->week_g = {week_g, week_g, week_g};
  needs.pulling->by_wait_g = {week_g, 2.0 * week_g, 3.0 * week_g};
  return judged.on(date, {}, needs);
}

// The first day on which age is likely to end them within three weeks.
base::Date near_the_end_of_beets() {
  const Judged judged;
  base::Date date = base::date_of(2026, 7, 20);
  while (judged.on(date).options.back().loss_risk < 0.5) date += base::Days{2};
  return date;
}

TEST(Judge, WhatThePlanLeavesToItsEndByAgeIsTakenBefore) {
  const base::Date date = near_the_end_of_beets();
  const Judgement slow = beets_of_a_long_plan(date, 100.0);
  ASSERT_TRUE(says(slow, "ends-before-eaten"));
  EXPECT_FALSE(says(slow, "plan-pulls-now")) << "one order only";
  EXPECT_EQ(slow.advice, "pull");
  EXPECT_TRUE(slow.takes_all);
  EXPECT_FALSE(slow.as_planned);
  EXPECT_FALSE(slow.before_frost);
  const Judgement quick = beets_of_a_long_plan(date, slow.options.front().usable_g);
  EXPECT_FALSE(says(quick, "ends-before-eaten")) << "the plan has eaten it by then";
  EXPECT_TRUE(quick.as_planned);
  EXPECT_EQ(quick.advice, "pull the largest");
  base::Date last = date;
  while (beets_of_a_long_plan(last, 100.0).options[1].loss_risk < 0.5) last += base::Days{1};
  const Judgement all = beets_of_a_long_plan(last, slow.options.front().usable_g);
  EXPECT_TRUE(says(all, "ends-before-eaten")) << "within a week all of it comes in, by the plan or not";
}

TEST(Judge, TheBestIsMarkedOnlyWhereTheAdviceFollowsIt) {
  const Judged judged;
  const base::Date young = base::date_of(2026, 7, 5);
  const Judgement planned = beets_of_a_long_plan(young, 300.0);
  ASSERT_EQ(planned.advice, "pull the largest");
  ASSERT_GT(planned.options.back().net_g, 1.5 * planned.options.front().net_g) << "waiting nets most";
  EXPECT_FALSE(planned.marked_weeks);
  EXPECT_TRUE(says(planned, "plan-before-most"));
  for (base::Date date = young; date < base::date_of(2026, 11, 1); date += base::Days{9}) {
    const Judgement free = judged.on(date);
    if (!free.marked_weeks) continue;
    const auto best = std::max_element(free.options.begin(), free.options.end(),
                                       [](const auto& a, const auto& b) { return a.net_g < b.net_g; });
    const double marked_g = free.options[static_cast<std::size_t>(*free.marked_weeks)].net_g;
    EXPECT_GE(marked_g, 0.95 * best->net_g) << base::to_iso(date);
    EXPECT_EQ(free.advice == "wait", *free.marked_weeks > 0) << base::to_iso(date);
  }
}

TEST(Judge, APlansDayThatFindsThemTinyWaitsAndSaysWhy) {
  const Judged judged;
  const base::Date date = judged.first_usable_from(base::date_of(2026, 6, 1));
  JudgeNeeds needs;
  needs.pulling = PlannedPulling{.from = date + base::Days{9}, .weeks = 20, .begun = true, .now = false};
  const Judgement answer = judged.on(date, {}, needs);
  ASSERT_LT(answer.options.front().plant_g.p50, judged.weather.crop().harvest.small_g);
  EXPECT_EQ(answer.advice, "wait");
  EXPECT_EQ(answer.best_weeks, 2);
  EXPECT_TRUE(says(answer, "still-small"));
  needs.pulling->begun = false;
  EXPECT_FALSE(says(judged.on(date, {}, needs), "still-small")) << "its day has not come";
}

TEST(Judge, AmountAndGainAreBothMeans) {
  const Judged judged;
  for (const base::Date date : {base::date_of(2026, 7, 5), near_the_end_of_beets()}) {
    const Judgement answer = judged.on(date);
    for (const WaitOption& option : answer.options)
      EXPECT_NEAR(option.mean_gain_g, option.usable_g - answer.options.front().usable_g, 1e-9);
  }
}

// Leaf past its end gives all that is left; there is no cut of half of it, and no next cut.
TEST(Judge, LeafPastItsEndIsTakenWhole) {
  const climate::WeatherEnsemble ensemble =
      made_ensemble(MadeClimate{.mean_c = 14.0}, base::date_of(2026, 1, 1), 730, 6);
  const CropWeather spinach{**crop::built_in_library().find("spinach"),
                            std::make_shared<const SeasonWeather>(ensemble)};
  StandPlan plan{.id = "s1", .crop = "spinach", .sow = base::date_of(2026, 4, 20)};
  plan.clumps = 40;
  plan.spacing_mm = 80;
  base::Date date = base::date_of(2026, 5, 20);
  Judgement answer = *judge(spinach, plan, {}, {}, date);
  while (!says(answer, "is-past")) answer = *judge(spinach, plan, {}, {}, date += base::Days{3});
  ASSERT_EQ(answer.advice, "cut");
  EXPECT_GT(answer.cut_now_g, 0.0);
  EXPECT_DOUBLE_EQ(answer.cut_now_g, answer.options.front().usable_g);
  EXPECT_TRUE(answer.takes_all);
  EXPECT_FALSE(answer.rhythm);
  EXPECT_FALSE(says(answer, "next-cut"));
  EXPECT_FALSE(says(answer, "cut-brings-more"));
}

TEST(ReachedSizes, AreThoseOfTheJudgeAndEachHoldsTheLarger) {
  const Judged judged;
  const base::Date date = base::date_of(2026, 7, 10);
  const Judgement answer = judged.on(date);
  for (const WaitOption& option : answer.options) {
    const auto sizes = reached_sizes(judged.weather, judged.plan, {}, {}, option.date);
    ASSERT_EQ(sizes.size(), 4U);
    EXPECT_EQ(sizes[2].size, "large");
    EXPECT_EQ(sizes[2].least_g, judged.weather.crop().harvest.large_g);
    EXPECT_NEAR(sizes[2].plants.p50, option.large_plants.p50, 1e-9);
    EXPECT_NEAR(sizes[2].grams.p90, option.large_g.p90, 1e-9);
    for (std::size_t s = 1; s < sizes.size(); ++s) {
      EXPECT_GT(sizes[s].least_g, sizes[s - 1].least_g);
      EXPECT_LE(sizes[s].plants.p50, sizes[s - 1].plants.p50);
      EXPECT_LE(sizes[s].grams.p10, sizes[s - 1].grams.p10);
    }
    EXPECT_LE(sizes[0].plants.p10, sizes[0].plants.p90);
  }
  EXPECT_EQ(reached_sizes(judged.weather, judged.plan, {}, {}, judged.plan.sow).front().plants.p90, 0.0);
}

TEST(Judge, TheNextStandCostsOnlyFromItsDayOn) {
  const Judged judged;
  const base::Date date = base::date_of(2026, 7, 10);
  JudgeNeeds needs;
  needs.ground_worth_g_per_week = 100.0;
  needs.next_from = date + base::Days{14};
  const Judgement answer = judged.on(date, {}, needs);
  EXPECT_DOUBLE_EQ(answer.options[2].ground_cost_g, 0.0);
  EXPECT_DOUBLE_EQ(answer.options[3].ground_cost_g, 100.0);
}

TEST(Judge, LeavesAreCutAndFruitIsPicked) {
  const climate::WeatherEnsemble ensemble =
      made_ensemble(MadeClimate{.mean_c = 14.0}, base::date_of(2026, 1, 1), 730, 6);
  const auto season = std::make_shared<const SeasonWeather>(ensemble);
  StandPlan plan;
  plan.id = "s2";
  plan.clumps = 10;
  plan.sow = base::date_of(2026, 5, 10);
  plan.crop = "chard";
  plan.spacing_mm = 260;
  const auto chard =
      judge({**crop::built_in_library().find("chard"), season}, plan, {}, {}, base::date_of(2026, 8, 20));
  ASSERT_TRUE(chard);
  EXPECT_EQ(chard->advice, "cut");
  EXPECT_EQ(chard->best_weeks, 0);
  EXPECT_GT(chard->cut_now_g, 0.0);
  ASSERT_TRUE(chard->rhythm && chard->rhythm->next_days);
  EXPECT_GT(*chard->rhythm->next_days, 5);
  plan.crop = "bush-bean";
  plan.spacing_mm = 150;
  const CropWeather beans{**crop::built_in_library().find("bush-bean"), season};
  const auto early = judge(beans, plan, {}, {}, base::date_of(2026, 6, 10));
  ASSERT_TRUE(early);
  EXPECT_NE(early->advice, "pick");
  const Outlook seen = *outlook(beans, plan, {}, {});
  const auto ripe = judge(beans, plan, {}, {}, seen.events[1].p50 + base::Days{4});
  ASSERT_TRUE(ripe);
  EXPECT_EQ(ripe->advice, "pick");
}

// The leaves of a beet are a second product: what they give, and what they cost the root.
TEST(Judge, GreensOfARootCropCostTheRoot) {
  const Judged judged;
  const base::Date day = judged.first_usable_from(base::date_of(2026, 6, 15));
  const Judgement answer = judged.on(day);
  ASSERT_TRUE(answer.greens);
  EXPECT_GT(answer.greens->now_g, 0.0);
  EXPECT_GT(answer.greens->root_cost_g, 0.0);
  EXPECT_LT(answer.greens->root_cost_g, answer.options.back().usable_g);
  const auto says = [](const Judgement& said) {
    return std::any_of(said.reasons.begin(), said.reasons.end(),
                       [](const base::Message& each) { return each.key == "leaves-for-kitchen"; });
  };
  EXPECT_FALSE(says(answer)) << "nobody asked for them";
  JudgeNeeds needs;
  needs.greens_short_g = 2.0 * answer.greens->now_g;
  EXPECT_TRUE(says(judged.on(day, {}, needs)));
  EXPECT_EQ(judged.on(day, {}, needs).advice, answer.advice) << "the roots are judged as before";
  needs.greens_short_g = 11.0 * answer.greens->now_g;
  EXPECT_FALSE(says(judged.on(day, {}, needs))) << "under a tenth of the lack";
  StandFacts cut;
  cut.taken = {{.date = day - base::Days{1}, .largest = true, .leaves = true}};
  EXPECT_LT(judged.on(day, cut).greens->now_g, answer.greens->now_g) << "a share of what is left";
}

TEST(Judge, OnlyRootCropsWithEdibleLeavesOfferGreens) {
  const Judged beets;
  const climate::WeatherEnsemble ensemble = made_ensemble(MadeClimate{}, base::date_of(2026, 1, 1), 730, 4);
  const auto season = std::make_shared<const SeasonWeather>(ensemble);
  for (const char* crop : {"radish", "chard", "cabbage"}) {
    StandPlan plan = beets.plan;
    plan.crop = crop;
    plan.plants_per_clump = 1;
    const auto answer =
        judge({**crop::built_in_library().find(crop), season}, plan, {}, {}, base::date_of(2026, 7, 1));
    ASSERT_TRUE(answer) << crop;
    EXPECT_FALSE(answer->greens) << crop;
  }
}

struct Beans {
  climate::WeatherEnsemble ensemble =
      made_ensemble(MadeClimate{.mean_c = 14.0}, base::date_of(2026, 1, 1), 730, 6);
  CropWeather weather{**crop::built_in_library().find("bush-bean"),
                      std::make_shared<const SeasonWeather>(ensemble)};
  StandPlan plan = [] {
    StandPlan made;
    made.id = "s2";
    made.crop = "bush-bean";
    made.sow = base::date_of(2026, 5, 10);
    made.clumps = 10;
    made.spacing_mm = 150;
    return made;
  }();
  base::Date first = outlook(weather, plan, {}, {})->events[1].p50;
};

// A late frost of some years has not killed what lives in July.
TEST(Judge, FruitThatLivesHasOutlivedTheFrostsOfSpring) {
  Beans beans;
  const auto frost_day = static_cast<std::size_t>((base::date_of(2026, 6, 1) - beans.ensemble.first).count());
  for (std::size_t m = 0; m < 3; ++m) beans.ensemble.tmin_c[beans.ensemble.at(m, frost_day)] = -8.0;
  const CropWeather weather{**crop::built_in_library().find("bush-bean"),
                            std::make_shared<const SeasonWeather>(beans.ensemble)};
  const Judgement answer = *judge(weather, beans.plan, {}, {}, beans.first + base::Days{7});
  EXPECT_EQ(answer.advice, "pick");
  for (const WaitOption& option : answer.options) EXPECT_EQ(option.loss_risk, 0.0) << option.weeks;
  const Beans calm;
  const Judgement as_without = *judge(calm.weather, calm.plan, {}, {}, calm.first + base::Days{7});
  EXPECT_NEAR(answer.options[0].usable_g, as_without.options[0].usable_g,
              0.2 * as_without.options[0].usable_g)
      << "not half, though half of the years have lost them";
}

TEST(Judge, RipeFruitIsPickedNowAndWaitingCosts) {
  const Beans beans;
  const Judgement answer = *judge(beans.weather, beans.plan, {}, {}, beans.first + base::Days{7});
  EXPECT_EQ(answer.advice, "pick");
  EXPECT_EQ(answer.best_weeks, 0);
  ASSERT_TRUE(answer.rhythm);
  EXPECT_GT(answer.rhythm->now_g, 0.0);
  ASSERT_TRUE(answer.rhythm->next_days);
  EXPECT_EQ(*answer.rhythm->next_days, std::lround(beans.weather.crop().harvest.pick_interval_days.value));
  EXPECT_GT(answer.rhythm->week_costs_g,
            0.5 * answer.rhythm->now_g);  // beans are picked more often than once a week
  // The sentence and the table are one: a week's wait is held against picking on as usual.
  EXPECT_DOUBLE_EQ(answer.rhythm->week_costs_g, -answer.options[1].mean_gain_g);
  EXPECT_DOUBLE_EQ(answer.options[0].gain_g.p50, 0.0);
  EXPECT_LE(answer.options[2].gain_g.p50, answer.options[1].gain_g.p50)
      << "two weeks miss more pickings than one";
}

TEST(Judge, WhatWasPickedYesterdayIsNotPickedAgainToday) {
  const Beans beans;
  StandFacts facts;
  facts.sown = beans.plan.sow;
  const base::Date today = beans.first + base::Days{7};
  facts.taken = {{today - base::Days{1}, 0, true, 300.0}};
  const Judgement answer = *judge(beans.weather, beans.plan, facts, {}, today);
  EXPECT_EQ(answer.advice, "wait");
  EXPECT_EQ(answer.best_weeks, 1);
  EXPECT_EQ(*answer.rhythm->next_days,
            std::lround(beans.weather.crop().harvest.pick_interval_days.value) - 1);
}

TEST(Judge, FruitNotYetRipeIsWaitedForToItsWeek) {
  const Beans beans;
  const Judgement answer = *judge(beans.weather, beans.plan, {}, {}, beans.first - base::Days{11});
  EXPECT_EQ(answer.advice, "wait");
  EXPECT_EQ(answer.best_weeks, 2);
  EXPECT_EQ(judge(beans.weather, beans.plan, {}, {}, beans.plan.sow + base::Days{5})->advice,
            "nothing to judge yet");
}

TEST(Judge, AKitchenThatTakesAllIsToldWhatItGivesUp) {
  const Judged judged;
  // The first day on which waiting pays by less than half as much again.
  base::Date date = base::date_of(2026, 7, 1);
  Judgement calm = judged.on(date);
  const auto gain = [&calm] {
    return calm.options[static_cast<std::size_t>(calm.best_weeks)].net_g / calm.options[0].net_g;
  };
  while (gain() > 1.45) calm = judged.on(date += base::Days{1});
  ASSERT_GT(calm.best_weeks, 0);
  JudgeNeeds needs;
  needs.kitchen_short_g = calm.options[3].usable_g;
  const Judgement answer = judged.on(date, {}, needs);
  ASSERT_EQ(answer.advice, "pull");
  EXPECT_TRUE(std::any_of(answer.reasons.begin(), answer.reasons.end(),
                          [](const base::Message& reason) { return reason.key == "waiting-adds"; }));
}

TEST(Judge, AStandPastItsEndIsToldSo) {
  const Judged judged;
  const Judgement answer = judged.on(base::date_of(2027, 8, 1));
  EXPECT_TRUE(std::any_of(answer.reasons.begin(), answer.reasons.end(),
                          [](const base::Message& reason) { return reason.key == "is-past"; }));
}

TEST(Judge, AWeighedSampleShiftsIt) {
  const Judged judged;
  const base::Date date = base::date_of(2026, 7, 10);
  const Judgement before = judged.on(date);
  StandFacts facts;
  facts.measured_on = date;
  facts.measured_g = 1.5 * before.options[0].plant_g.p50;
  const Judgement after = judged.on(date, facts);
  EXPECT_NEAR(after.options[0].plant_g.p50, *facts.measured_g, 0.05 * *facts.measured_g);
  EXPECT_GT(after.options[2].plant_g.p50, before.options[2].plant_g.p50);
}

TEST(Judge, RefusesADayBeforeTheSowing) {
  const Judged judged;
  EXPECT_FALSE(judge(judged.weather, judged.plan, {}, {}, base::date_of(2026, 4, 1)));
  EXPECT_FALSE(judge(judged.weather, judged.plan, {}, {}, base::date_of(2027, 12, 25)));
}

TEST(PlannedPulling, WaitsFromPlantToPlantWhereAShareIsLessThanOne) {
  PlannedPulling pulling;
  pulling.week_g.p50 = 100.0;
  EXPECT_EQ(weeks_to_each_plant(pulling, 900.0), 9);
  EXPECT_EQ(weeks_to_each_plant(pulling, 160.0), 2);
  EXPECT_FALSE(weeks_to_each_plant(pulling, 140.0)) << "a plant a week, or nearly";
  pulling.week_g.p50 = 0.0;
  EXPECT_FALSE(weeks_to_each_plant(pulling, 900.0)) << "nothing comes out";
}

}  // namespace
}  // namespace sowtide::stand
