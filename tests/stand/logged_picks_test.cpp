// What the log tells was picked, and what not: before the day that it reaches to nothing else is taken, and a
// plant weighs the same by the outlook, the judgement and the picture.
#include <gtest/gtest.h>

#include "made_weather.hpp"
#include "stand/judge.hpp"
#include "stand/picture.hpp"

namespace sowtide::stand {
namespace {

using testing::made_ensemble;
using testing::MadeClimate;

struct Grown {
  climate::WeatherEnsemble ensemble =
      made_ensemble(MadeClimate{.mean_c = 14.0}, base::date_of(2026, 1, 1), 730, 10);
  CropWeather weather;
  StandPlan plan;
  StandFacts facts;
  base::Date today = base::date_of(2026, 8, 12);

  Grown(const char* crop, double spacing_mm, double per_clump)
      : weather(**crop::built_in_library().find(crop), std::make_shared<const SeasonWeather>(ensemble)) {
    plan.id = "s1";
    plan.crop = crop;
    plan.sow = base::date_of(2026, 5, 1);
    plan.clumps = 30;
    plan.spacing_mm = spacing_mm;
    plan.plants_per_clump = per_clump;
    facts.sown = plan.sow;
    facts.log_to = today;
  }

  [[nodiscard]] Outlook seen() const { return *outlook(weather, plan, facts, {}); }
  /// Index of a day in the fan of its outlook.
  static std::size_t place(const Outlook& outlook, base::Date day) {
    return static_cast<std::size_t>((day - outlook.fan_first).count());
  }
};

void expect_one_weight(const Grown& grown) {
  const Outlook outlook = grown.seen();
  const base::Quantiles by_outlook = outlook.plant_weight_g.at(Grown::place(outlook, grown.today));
  const Judgement judged = *judge(grown.weather, grown.plan, grown.facts, {}, grown.today);
  const StandPicture seen = *picture(grown.weather, grown.plan, grown.facts, {}, {grown.today, grown.today});
  ASSERT_GT(by_outlook.p50, 0.0);
  for (const auto quantile : {&base::Quantiles::p10, &base::Quantiles::p50, &base::Quantiles::p90}) {
    EXPECT_NEAR(judged.options[0].plant_g.*quantile, by_outlook.*quantile, 1e-9 * by_outlook.p50);
    EXPECT_NEAR(seen.days[0].plant_g.*quantile, by_outlook.*quantile, 1e-9 * by_outlook.p50);
  }
}

double taken_before(const Outlook& outlook, base::Date day) {
  double grams = 0.0;
  for (const WeekOutlook& week : outlook.weeks) {
    if (week.week_start + base::Days{7} <= day) grams += week.weight_g.p90;
  }
  return grams;
}

TEST(LoggedPicks, WhatNobodyPickedStillStands) {
  const Grown beets("beet", 200, 3);
  const Outlook outlook = beets.seen();
  EXPECT_DOUBLE_EQ(taken_before(outlook, beets.today), 0.0);
  EXPECT_LT(outlook.events[1].p50, beets.today);  // it could have been picked before
  EXPECT_GT(week_ahead_g(outlook, beets.today).p50, 0.0);
  expect_one_weight(beets);
}

TEST(LoggedPicks, PullingIsToldInItsWeekAndChangesNoPlantThatStands) {
  Grown beets("beet", 200, 3);
  beets.facts.taken = {{base::date_of(2026, 7, 15), 30, true, 2000.0}, {base::date_of(2026, 7, 22), 6, true}};
  beets.facts.plants_removed = 36;
  const Outlook outlook = beets.seen();
  const auto taken = [&outlook](int month, int day) {
    const auto weeks = (base::date_of(2026, month, day) - outlook.weeks.front().week_start).count() / 7;
    return outlook.weeks.at(static_cast<std::size_t>(weeks)).weight_g;
  };
  EXPECT_DOUBLE_EQ(taken(7, 15).p10, 2000.0);
  EXPECT_DOUBLE_EQ(taken(7, 15).p90, 2000.0);
  EXPECT_GT(taken(7, 22).p10, 0.0);
  EXPECT_DOUBLE_EQ(taken(7, 29).p90, 0.0);
  EXPECT_EQ(outlook.events[1].p90, base::date_of(2026, 7, 15));
  expect_one_weight(beets);
}

TEST(LoggedPicks, AWeightWithoutACountTakesTheLargest) {
  Grown beets("beet", 200, 3);
  const auto standing = [&beets] {
    return picture(beets.weather, beets.plan, beets.facts, {}, {beets.today, beets.today})
        ->days[0]
        .standing_plants;
  };
  const double all = standing();
  beets.facts.taken = {{base::date_of(2026, 8, 1), 0, true, 3000.0}};
  EXPECT_LT(standing(), all - 4.0);
  EXPECT_GT(standing(), 0.5 * all);
  expect_one_weight(beets);
}

TEST(LoggedPicks, LeavesInTheLogLeaveEveryRootAndSlowIt) {
  Grown beets("beet", 200, 3);
  const auto seen = [&beets] {
    return picture(beets.weather, beets.plan, beets.facts, {}, {beets.today, beets.today})->days[0];
  };
  const PictureDay alone = seen();
  const PlantsTaken leaves{.date = base::date_of(2026, 6, 20), .leaves = true};
  beets.facts.taken = {leaves};
  const PictureDay third = seen();
  EXPECT_DOUBLE_EQ(third.standing_plants, alone.standing_plants);
  EXPECT_LT(third.plant_g.p50, alone.plant_g.p50);
  EXPECT_GT(third.plant_g.p50, 0.85 * alone.plant_g.p50)
      << "as tried by hand (Removal, GreensComeAtACostToTheRoot)";
  beets.facts.taken[0].grams = 200.0;
  const PictureDay little = seen();
  EXPECT_LT(little.plant_g.p50, alone.plant_g.p50);
  EXPECT_GT(little.plant_g.p50, third.plant_g.p50) << "200 g of 90 plants are less than a third";
  EXPECT_DOUBLE_EQ(taken_before(beets.seen(), beets.today), 0.0) << "no roots came in";
  expect_one_weight(beets);
}

TEST(LoggedPicks, ACountLaterTellsWhatIsLeft) {
  Grown beets("beet", 200, 3);
  beets.facts.taken = {{base::date_of(2026, 7, 15), 30, true, 2000.0, true}};
  beets.facts.counted_plants = 60;
  EXPECT_DOUBLE_EQ(taken_before(beets.seen(), beets.today), 2000.0);
  EXPECT_NEAR(picture(beets.weather, beets.plan, beets.facts, {}, {beets.today, beets.today})
                  ->days[0]
                  .standing_plants,
              60.0, 1.0);
}

TEST(LoggedPicks, ACutInTheLogTakesItsShareOfTheLeaf) {
  Grown chard("chard", 260, 1);
  const auto plant_g = [&chard] {
    return picture(chard.weather, chard.plan, chard.facts, {}, {chard.today, chard.today})
        ->days[0]
        .plant_g.p50;
  };
  expect_one_weight(chard);
  EXPECT_GT(week_ahead_g(chard.seen(), chard.today).p50, 0.0);
  const double uncut = plant_g();
  chard.facts.taken = {{chard.today - base::Days{1}, 0, true, 0.3 * uncut * 30.0}};
  EXPECT_NEAR(plant_g() / uncut, 0.7, 0.1);
  expect_one_weight(chard);
}

TEST(LoggedPicks, FruitLeftHangingGoesOverAndTheRestIsPickedFromToday) {
  Grown beans("bush-bean", 150, 1);
  beans.today = base::date_of(2026, 7, 22);
  beans.facts.log_to = beans.today;
  const Outlook never = beans.seen();
  EXPECT_DOUBLE_EQ(taken_before(never, beans.today), 0.0);
  EXPECT_GT(week_ahead_g(never, beans.today).p50, 0.0);
  beans.facts.log_to.reset();
  const Outlook as_planned = beans.seen();
  EXPECT_LT(week_ahead_g(never, beans.today).p50, 3.0 * week_ahead_g(as_planned, beans.today).p50);
  beans.facts.log_to = beans.today;
  beans.facts.taken = {{beans.today - base::Days{1}, 0, true, 600.0}};
  const Outlook logged = beans.seen();
  EXPECT_DOUBLE_EQ(logged.plant_weight_g.at(Grown::place(logged, beans.today)).p50, 600.0 / 30.0);
  const Judgement judged = *judge(beans.weather, beans.plan, beans.facts, {}, beans.today);
  EXPECT_DOUBLE_EQ(judged.options[0].plant_g.p50, 600.0 / 30.0);
}

TEST(LoggedPicks, AStandPastItsEndHadItsHarvestAndTellsWhen) {
  Grown radishes("radish", 60, 1);
  radishes.facts.log_to = base::date_of(2026, 10, 15);
  const Outlook outlook = radishes.seen();
  EXPECT_DOUBLE_EQ(outlook.success, 1.0);
  EXPECT_DOUBLE_EQ(taken_before(outlook, base::date_of(2027, 12, 1)), 0.0);
  ASSERT_EQ(outlook.events.back().name, "last-pick");
  EXPECT_DOUBLE_EQ(outlook.events.back().probability, 1.0);
  EXPECT_LT(outlook.events.back().p90, *radishes.facts.log_to);
}

}  // namespace
}  // namespace sowtide::stand
