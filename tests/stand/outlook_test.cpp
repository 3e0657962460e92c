#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/parallel.hpp"
#include "made_weather.hpp"
#include "stand/simulate.hpp"
#include "stand/told_outlook.hpp"

namespace sowtide::stand {
namespace {

using testing::made_ensemble;
using testing::MadeClimate;

const crop::Crop& crop_named(const char* id) {
  return **crop::built_in_library().find(id);
}

StandPlan plan_of(const char* crop_id, base::Date sow, double spacing_mm, double plants_per_clump = 1.0) {
  StandPlan plan;
  plan.id = "s1";
  plan.crop = crop_id;
  plan.sow = sow;
  plan.clumps = 40;
  plan.spacing_mm = spacing_mm;
  plan.plants_per_clump = plants_per_clump;
  return plan;
}

const EventOutlook& event(const Outlook& outlook, std::string_view name) {
  for (const auto& each : outlook.events) {
    if (each.name == name) return each;
  }
  throw std::logic_error("no such event");
}

double total_g(const Outlook& outlook) {
  double sum = 0.0;
  for (const double each : outlook.members.weekly_g) sum += each;
  return sum / static_cast<double>(outlook.members.member_count);
}

struct Place {
  climate::WeatherEnsemble ensemble;
  std::shared_ptr<const SeasonWeather> season;

  explicit Place(const MadeClimate& climate = {}, base::Date first = base::date_of(2026, 1, 1),
                 std::size_t days = 730)
      : ensemble(made_ensemble(climate, first, days, 12)),
        season(std::make_shared<const SeasonWeather>(ensemble)) {}
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
};

TEST(Outlook, EventsComeInTheirOrder) {
  const Place place;
  const CropWeather weather(crop_named("beet"), place.season);
  StandPlan plan = plan_of("beet", base::date_of(2026, 4, 20), 140);
  plan.method = Method::start_indoors;
  const auto answer = outlook(weather, plan, {}, RaisingPlace{});
  ASSERT_TRUE(answer);
  EXPECT_LT(plan.sow, event(*answer, "emerge").p10);
  EXPECT_LT(event(*answer, "emerge").p90, event(*answer, "set-out").p10);
  EXPECT_LT(event(*answer, "set-out").p90, event(*answer, "first-pick").p10);
  EXPECT_LE(event(*answer, "first-pick").p50, event(*answer, "last-pick").p50);
  for (const auto& each : answer->events) {
    EXPECT_LE(each.p10, each.p50);
    EXPECT_LE(each.p50, each.p90);
  }
}

TEST(Outlook, GarlicOfOctoberStandsAColdWinterInTheGround) {
  const Place place(
      {.latitude_deg = 44.0, .mean_c = 5.0, .swing_k = 15.0, .daily_range_k = 11.0, .noise_k = 4.0});
  const CropWeather weather(crop_named("garlic"), place.season);
  const auto answer = outlook(weather, plan_of("garlic", base::date_of(2026, 10, 10), 150), {}, {});
  ASSERT_TRUE(answer);
  EXPECT_GT(answer->success, 0.8) << answer->limits;
  EXPECT_GT(event(*answer, "first-pick").p50, base::date_of(2027, 6, 15));
  EXPECT_LT(event(*answer, "first-pick").p50, base::date_of(2027, 9, 15));
}

// Common practice: large roots 13 to 15 cm apart, baby roots 8 cm, about 50 to 75 days from a spring sowing.
TEST(Outlook, BeetIsReadyInTheDaysGrowersSay) {
  const Place place;
  const CropWeather weather(crop_named("beet"), place.season);
  const StandPlan large = plan_of("beet", base::date_of(2026, 5, 10), 140);
  const auto big = outlook(weather, large, {}, {});
  ASSERT_TRUE(big);
  const auto days_large = (event(*big, "first-pick").p50 - large.sow).count();
  EXPECT_GE(days_large, 50);
  EXPECT_LE(days_large, 75);
  StandPlan baby = plan_of("beet", base::date_of(2026, 5, 10), 80);
  baby.size = SizeGoal::small;
  const auto small = outlook(weather, baby, {}, {});
  ASSERT_TRUE(small);
  EXPECT_LT(event(*small, "first-pick").p50, event(*big, "first-pick").p50);
}

TEST(Outlook, AClumpOfThreeStillSizesUp) {
  const Place place;
  const CropWeather weather(crop_named("beet"), place.season);
  const base::Date sow = base::date_of(2026, 5, 1);
  const auto singles = outlook(weather, plan_of("beet", sow, 140, 1.0), {}, {});
  const auto clumps = outlook(weather, plan_of("beet", sow, 140 * std::sqrt(3.0), 3.0), {}, {});
  ASSERT_TRUE(singles && clumps);
  // The same ground per plant: grouping costs little in beet.
  EXPECT_NEAR(total_g(*clumps) / (40 * 3), total_g(*singles) / 40, 0.15 * total_g(*singles) / 40);
}

TEST(Outlook, WiderSpacingGivesLargerPlantsAndLessFromTheGround) {
  const Place place;
  const CropWeather weather(crop_named("carrot"), place.season);
  const base::Date sow = base::date_of(2026, 4, 15);
  const auto close = simulate(weather, plan_of("carrot", sow, 40), {}, {}, {});
  const auto wide = simulate(weather, plan_of("carrot", sow, 120), {}, {}, {});
  const std::size_t at = 110;
  EXPECT_GT(wide.plant_g[at], close.plant_g[at]);
  EXPECT_LT(wide.plant_g[at] / (0.12 * 0.12), close.plant_g[at] / (0.04 * 0.04));
}

TEST(Outlook, WeeklyWeightsAddUpToWhatWasTaken) {
  const Place place;
  const CropWeather weather(crop_named("bush-bean"), place.season);
  const StandPlan plan = plan_of("bush-bean", base::date_of(2026, 6, 1), 150);
  const StandLives lives = simulate(weather, plan, {}, {}, {});
  const Outlook answer = outlook_of(lives, weather, plan, {});
  for (std::size_t m = 0; m < lives.members.size(); ++m) {
    double weekly = 0.0;
    for (std::size_t w = 0; w < answer.members.week_count; ++w) {
      weekly += answer.members.weekly_g[m * answer.members.week_count + w];
    }
    EXPECT_NEAR(weekly, lives.members[m].taken_g * lives.plants, 1e-6 * std::max(1.0, weekly));
  }
}

// The whole answer, from the season's weather on, is the same to the last bit on one thread and on many: what
// is printed, compared and kept may not depend on the machine.
TEST(Outlook, IsTheSameToTheLastBitOnOneThreadAndOnMany) {
  const climate::WeatherEnsemble ensemble = made_ensemble(MadeClimate{}, base::date_of(2026, 1, 1), 400, 7);
  const auto answer = [&](const char* crop_id, double spacing_mm, std::size_t threads) {
    const base::ThreadLimit limit(threads);
    StandPlan plan = plan_of(crop_id, base::date_of(2026, 4, 20), spacing_mm);
    plan.plants_per_clump = 2.4;
    return outlook(crop_named(crop_id), plan, {}, {}, ensemble, 11).value();
  };
  for (const auto& [crop_id, spacing_mm] : {std::pair{"beet", 200.0}, std::pair{"bush-bean", 200.0}}) {
    const Outlook one = answer(crop_id, spacing_mm, 1);
    for (const std::size_t threads : {2U, 3U, 8U}) {
      const Outlook many = answer(crop_id, spacing_mm, threads);
      EXPECT_EQ(one.members.weekly_g, many.members.weekly_g) << crop_id << " on " << threads;
      EXPECT_EQ(one.success, many.success);
      ASSERT_EQ(one.events.size(), many.events.size());
      for (std::size_t i = 0; i < one.events.size(); ++i) {
        EXPECT_EQ(one.events[i].p50, many.events[i].p50);
        EXPECT_EQ(one.events[i].probability, many.events[i].probability);
      }
      ASSERT_EQ(one.plant_weight_g.size(), many.plant_weight_g.size());
      for (std::size_t i = 0; i < one.plant_weight_g.size(); ++i) {
        EXPECT_EQ(one.plant_weight_g[i].p10, many.plant_weight_g[i].p10);
        EXPECT_EQ(one.plant_weight_g[i].p50, many.plant_weight_g[i].p50);
        EXPECT_EQ(one.plant_weight_g[i].p90, many.plant_weight_g[i].p90);
      }
      ASSERT_EQ(one.weeks.size(), many.weeks.size());
      for (std::size_t i = 0; i < one.weeks.size(); ++i)
        EXPECT_EQ(one.weeks[i].weight_g.p50, many.weeks[i].weight_g.p50);
    }
  }
}

TEST(Outlook, ObservedDatesStandInPlaceOfComputedOnes) {
  const Place place;
  const CropWeather weather(crop_named("beet"), place.season);
  const StandPlan plan = plan_of("beet", base::date_of(2026, 5, 1), 140);
  StandFacts facts;
  facts.emerged = base::date_of(2026, 5, 20);
  const auto late = outlook(weather, plan, facts, {});
  const auto usual = outlook(weather, plan, {}, {});
  ASSERT_TRUE(late && usual);
  EXPECT_EQ(event(*late, "emerge").p10, *facts.emerged);
  EXPECT_EQ(event(*late, "emerge").p90, *facts.emerged);
  EXPECT_GT(event(*late, "first-pick").p50, event(*usual, "first-pick").p50);
}

// Whoever counts half a summer later has not seen them come up.
TEST(Outlook, ALateCountSaysOnlyThatTheyWereUpByThen) {
  const Place place;
  const CropWeather weather(crop_named("beet"), place.season);
  const StandPlan plan = plan_of("beet", base::date_of(2026, 5, 1), 140);
  StandFacts facts;
  facts.sown = plan.sow;
  const auto usual = outlook(weather, plan, facts, {});
  facts.emerged = base::date_of(2026, 7, 20);
  const auto counted_late = outlook(weather, plan, facts, {});
  ASSERT_TRUE(usual && counted_late);
  EXPECT_LT(event(*counted_late, "emerge").p90, base::date_of(2026, 6, 1));
  EXPECT_EQ(event(*counted_late, "first-pick").p50, event(*usual, "first-pick").p50);
}

TEST(Outlook, PlantsWereUpBeforeTheyWereMeasured) {
  const Place place;
  const CropWeather weather(crop_named("beet"), place.season);
  const StandPlan plan = plan_of("beet", base::date_of(2026, 5, 1), 140);
  StandFacts facts;
  facts.sown = plan.sow;
  facts.measured_on = base::date_of(2026, 5, 4);
  facts.measured_g = 1.0;
  const auto answer = outlook(weather, plan, facts, {});
  ASSERT_TRUE(answer);
  EXPECT_LE(event(*answer, "emerge").p90, *facts.measured_on);
}

// Common practice: leeks stand in the ground and are dug through the winter.
TEST(Outlook, WhatWaitsInTheGroundIsPulledAsItIsWanted) {
  const Place place({.mean_c = 11.0, .swing_k = 6.0});
  const CropWeather weather(crop_named("leek"), place.season);
  StandPlan plan = plan_of("leek", base::date_of(2026, 3, 15), 180);
  plan.method = Method::start_indoors;
  const auto at_once = outlook(weather, plan, {}, RaisingPlace{});
  plan.pick_from = base::date_of(2026, 11, 16);
  plan.pick_weeks = 18;
  const auto standing = outlook(weather, plan, {}, RaisingPlace{});
  ASSERT_TRUE(at_once && standing);
  EXPECT_EQ(event(*standing, "first-pick").p10, *plan.pick_from);
  EXPECT_GE(event(*standing, "last-pick").p50, *plan.pick_from + base::Days{7 * 17});
  EXPECT_GE(total_g(*standing), 0.9 * total_g(*at_once));
  // Evenly over the weeks: none brings more than three times its share.
  double most_g = 0.0;
  for (const WeekOutlook& week : standing->weeks) {
    if (week.week_start < *plan.pick_from - base::Days{7}) {
      EXPECT_EQ(week.weight_g.p90, 0.0);
    }
    most_g = std::max(most_g, week.weight_g.p50);
  }
  EXPECT_GT(most_g, 0.0);
  EXPECT_LT(most_g, 3.0 * total_g(*standing) / plan.pick_weeks);
}

// A crop that is old before the plan's weeks are over is eaten by then: no heap on its last day.
TEST(Outlook, WhatIsOldBeforeThePlansLastWeekIsSpreadToItsEnd) {
  const Place place({.mean_c = 13.0, .swing_k = 9.0});
  const CropWeather weather(crop_named("beet"), place.season);
  StandPlan plan = plan_of("beet", base::date_of(2026, 4, 1), 150);
  plan.pick_weeks = 26;
  const auto answer = outlook(weather, plan, {}, {});
  ASSERT_TRUE(answer);
  const base::Date first = event(*answer, "first-pick").p50, last = event(*answer, "last-pick").p50;
  const auto weeks = static_cast<double>((last - first).count()) / 7.0;
  ASSERT_LT(weeks, 20.0) << "its age ends it";
  double most_g = 0.0;
  for (const WeekOutlook& week : answer->weeks) most_g = std::max(most_g, week.weight_g.p50);
  EXPECT_LT(most_g, 2.0 * total_g(*answer) / weeks);
}

// A plan's day that finds them tiny is no reason to pull them while they grow fast.
TEST(Outlook, WhatIsTinyOnThePlansDayIsLeftToGrow) {
  const Place place({.mean_c = 13.0, .swing_k = 9.0});
  const CropWeather weather(crop_named("carrot"), place.season);
  StandPlan plan = plan_of("carrot", base::date_of(2026, 5, 1), 110);
  plan.pick_weeks = 20;
  plan.pick_from = base::date_of(2026, 6, 1);
  const auto answer = outlook(weather, plan, {}, {});
  ASSERT_TRUE(answer);
  const double small_g = crop_named("carrot").harvest.small_g;
  const double begun_g = plant_on_g(*answer, event(*answer, "first-pick").p50).p50;
  EXPECT_GT(begun_g, 0.9 * small_g);
  EXPECT_LT(begun_g, 1.5 * small_g) << "no later than that";
}

// The weeks of a stand that waits differ from year to year as its plants do.
TEST(Outlook, WeeksOfWhatWaitsTellHowTheYearsDiffer) {
  const Place place({.mean_c = 12.0, .swing_k = 9.0, .noise_k = 4.0});
  const CropWeather weather(crop_named("beet"), place.season);
  StandPlan plan = plan_of("beet", base::date_of(2026, 5, 1), 240);
  plan.pick_weeks = 16;
  const auto answer = outlook(weather, plan, {}, {});
  ASSERT_TRUE(answer);
  const base::Date late = event(*answer, "first-pick").p90 + base::Days{35};
  int seen = 0;
  for (const WeekOutlook& week : answer->weeks) {
    if (week.week_start < late || week.week_start + base::Days{14} > event(*answer, "last-pick").p10)
      continue;
    ++seen;
    EXPECT_GT(week.weight_g.p90, 1.02 * week.weight_g.p50) << base::to_iso(week.week_start);
  }
  EXPECT_GE(seen, 3);
}

TEST(Outlook, SevenDaysAheadAreSevenOnASundayToo) {
  const Place place;
  const CropWeather weather(crop_named("leek"), place.season);
  StandPlan plan = plan_of("leek", base::date_of(2026, 3, 15), 180);
  plan.method = Method::start_indoors;
  plan.pick_from = base::date_of(2026, 10, 5);
  plan.pick_weeks = 12;
  StandFacts facts;
  facts.sown = plan.sow;
  facts.set_out = base::date_of(2026, 5, 20);
  const auto ahead_g = [&](base::Date today) {
    facts.log_to = today;
    return week_ahead_g(*outlook(weather, plan, facts, RaisingPlace{}), today).p50;
  };
  const base::Date monday = base::date_of(2026, 10, 26);
  const double on_monday_g = ahead_g(monday);
  ASSERT_GT(on_monday_g, 0.0);
  for (int day = -3; day < 7; ++day)
    EXPECT_NEAR(ahead_g(monday + base::Days{day}) / on_monday_g, 1.0, 0.25) << day;
}

/// A winter of frosts that kale bears: its nights stay above what kills half of grown plants.
MadeClimate mild_winter() {
  return {.latitude_deg = 52.0, .mean_c = 10.0, .swing_k = 8.0, .daily_range_k = 6.0, .noise_k = 1.0};
}

double weeks_sum_g(const Outlook& outlook, base::Date from, base::Date to) {
  double sum = 0.0;
  for (const WeekOutlook& week : outlook.weeks) {
    if (week.week_start >= from && week.week_start < to) sum += week.weight_g.p50;
  }
  return sum;
}

// Common practice: kale of early summer stands through autumn and is picked all winter, a few leaves a plant.
TEST(Outlook, HardyLeafThatWasLeftStandingIsPickedThroughTheWinter) {
  const Place place(mild_winter());
  const CropWeather weather(crop_named("kale"), place.season);
  StandPlan plan = plan_of("kale", base::date_of(2026, 6, 1), 360);
  const base::Date winter = base::date_of(2026, 11, 2), spring = base::date_of(2027, 3, 29);
  const auto at_once = outlook(weather, plan, {}, {});
  plan.pick_from = winter;
  plan.pick_weeks = 21;
  const auto standing = outlook(weather, plan, {}, {});
  ASSERT_TRUE(at_once && standing);
  EXPECT_EQ(event(*standing, "first-pick").p10, winter);
  EXPECT_EQ(weeks_sum_g(*standing, plan.sow, winter), 0.0);
  EXPECT_GT(weeks_sum_g(*standing, winter, spring), 2.0 * weeks_sum_g(*at_once, winter, spring));
  // Every week brings its share: none less than half of the mean week, none more than twice.
  const double mean_g = weeks_sum_g(*standing, winter, spring) / plan.pick_weeks;
  for (const WeekOutlook& week : standing->weeks) {
    if (week.week_start < winter || week.week_start >= spring) continue;
    EXPECT_GT(week.weight_g.p50, 0.5 * mean_g) << base::to_iso(week.week_start);
    EXPECT_LT(week.weight_g.p50, 2.0 * mean_g) << base::to_iso(week.week_start);
  }
}

TEST(Outlook, HardFrostEndsLeafThatStandsAndBringsItIn) {
  const Place place({.latitude_deg = 52.0, .mean_c = 5.0, .swing_k = 16.0, .noise_k = 3.0});
  const CropWeather weather(crop_named("chard"), place.season);
  StandPlan plan = plan_of("chard", base::date_of(2026, 6, 1), 250);
  plan.pick_from = base::date_of(2026, 10, 5);
  plan.pick_weeks = 30;
  const auto answer = outlook(weather, plan, {}, {});
  ASSERT_TRUE(answer);
  EXPECT_LT(event(*answer, "last-pick").p90, *plan.pick_from + base::Days{7 * 29});
  EXPECT_GT(total_g(*answer), 0.0);
}

// A cut that the log tells counts as that week's: the rule picks again a week after it.
TEST(Outlook, TheWeekOfALoggedCutIsNotPickedAgain) {
  const Place place(mild_winter());
  const CropWeather weather(crop_named("kale"), place.season);
  StandPlan plan = plan_of("kale", base::date_of(2026, 6, 1), 360);
  plan.pick_from = base::date_of(2026, 11, 2);
  plan.pick_weeks = 21;
  StandFacts facts;
  facts.sown = plan.sow;
  const base::Date cut = base::date_of(2026, 11, 16);
  facts.taken = {{.date = cut, .largest = true, .grams = 300.0}};
  facts.log_to = cut;
  const StandLives lives = simulate(weather, plan, facts, {}, {});
  const auto from = static_cast<std::size_t>((cut - plan.sow).count());
  for (std::size_t m = 0; m < lives.members.size(); ++m) {
    EXPECT_DOUBLE_EQ(lives.taken_g[m * lives.day_count + from], 300.0);
    for (std::size_t day = from + 1; day < from + 7; ++day) EXPECT_EQ(lives.taken_g[m * lives.day_count + day], 0.0);
    EXPECT_GT(lives.taken_g[m * lives.day_count + from + 7], 0.0);
  }
}

TEST(Outlook, LessSunGivesLessAndLater) {
  const Place place;
  const CropWeather weather(crop_named("lettuce"), place.season);
  const StandPlan plan = plan_of("lettuce", base::date_of(2026, 4, 20), 300);
  const auto in = [&](bed::SunClass sun) { return *outlook(weather, plan, {}, {}, {.bed = {.sun = sun}}); };
  const Outlook full = in(bed::SunClass::full), part = in(bed::SunClass::partial), shade = in(bed::SunClass::shade);
  EXPECT_LT(event(full, "first-pick").p50, event(part, "first-pick").p50);
  EXPECT_LT(event(part, "first-pick").p50, event(shade, "first-pick").p50);
  const auto grown_g = [&](const Outlook& outlook) {
    const auto day = (event(full, "first-pick").p50 - outlook.fan_first).count();
    return outlook.plant_weight_g[static_cast<std::size_t>(day)].p50;
  };
  EXPECT_LT(grown_g(part), grown_g(full));
  EXPECT_LT(grown_g(shade), grown_g(part));
}

// A seedling in its tray does not know the bed that it will stand in.
TEST(Outlook, TheSunOfTheBedCountsFromSettingOutOn) {
  const Place place;
  const CropWeather weather(crop_named("lettuce"), place.season);
  StandPlan plan = plan_of("lettuce", base::date_of(2026, 3, 1), 300);
  plan.method = Method::start_indoors;
  const auto full = outlook(weather, plan, {}, RaisingPlace{});
  const auto part = outlook(weather, plan, {}, RaisingPlace{}, {.bed = {.sun = bed::SunClass::partial}});
  ASSERT_TRUE(full && part);
  EXPECT_EQ(event(*full, "set-out").p50, event(*part, "set-out").p50);
  const auto out = static_cast<std::size_t>((event(*full, "set-out").p10 - full->fan_first).count());
  for (std::size_t day = 0; day < out; ++day)
    EXPECT_EQ(full->plant_weight_g[day].p50, part->plant_weight_g[day].p50) << day;
  EXPECT_GT(full->plant_weight_g[out + 30].p50, part->plant_weight_g[out + 30].p50);
}

TEST(Outlook, PlantsAreHardenedWhenTheyAreGrownAndNotAsSeedlings) {
  const Place place;
  const CropWeather weather(crop_named("kale"), place.season);
  const StandPlan plan = plan_of("kale", base::date_of(2026, 5, 1), 360);
  const auto answer = outlook(weather, plan, {}, {});
  ASSERT_TRUE(answer);
  const auto day_of = [&](base::Date date) { return (date - place.ensemble.first).count(); };
  EXPECT_FALSE(is_grown(*answer, day_of(event(*answer, "emerge").p50)));
  EXPECT_TRUE(is_grown(*answer, day_of(event(*answer, "first-pick").p50)));
}

// Whatever day it is looked at from: before the day told nothing is picked, also where they were ready
// sooner.
TEST(Outlook, WhatWaitsIsNotPickedBeforeItsDay) {
  const Place place;
  const CropWeather weather(crop_named("leek"), place.season);
  StandPlan plan = plan_of("leek", base::date_of(2026, 2, 1), 180);
  plan.method = Method::start_indoors;
  plan.pick_from = base::date_of(2026, 11, 16);
  plan.pick_weeks = 12;
  StandFacts facts;
  facts.set_out = base::date_of(2026, 4, 10);
  for (const base::Date today : {base::date_of(2026, 7, 1), base::date_of(2026, 11, 10)}) {
    facts.log_to = today;
    const auto answer = outlook(weather, plan, facts, RaisingPlace{});
    ASSERT_TRUE(answer);
    EXPECT_EQ(event(*answer, "first-pick").p10, *plan.pick_from) << base::to_iso(today);
  }
}

// A day decided for setting out that went by is put off, not forgotten.
TEST(Outlook, ADecidedSettingOutThatWentByIsDoneToday) {
  const Place place;
  const CropWeather weather(crop_named("leek"), place.season);
  StandPlan plan = plan_of("leek", base::date_of(2026, 2, 1), 180);
  plan.method = Method::start_indoors;
  plan.set_out = base::date_of(2026, 4, 5);
  StandFacts facts;
  facts.sown = plan.sow;
  facts.log_to = *plan.set_out + base::Days{1};
  const auto answer = outlook(weather, plan, facts, RaisingPlace{});
  ASSERT_TRUE(answer);
  EXPECT_EQ(event(*answer, "set-out").p50, *facts.log_to);
}

TEST(StandsInGround, IsTrueOfWhatGrowersLeaveStanding) {
  for (const char* id :
       {"leek", "parsnip", "carrot", "celeriac", "rutabaga", "cabbage", "beet", "kohlrabi", "scallion", "kale",
        "collards", "chard", "parsley"})
    EXPECT_TRUE(stands_in_ground(crop_named(id))) << id;
  for (const char* id : {"onion", "garlic", "potato", "lettuce", "radish", "broccoli", "tomato", "basil", "arugula"})
    EXPECT_FALSE(stands_in_ground(crop_named(id))) << id;
}

TEST(Outlook, WhatTheLogDoesNotTellWasNotSetOut) {
  const Place place;
  const CropWeather weather(crop_named("lettuce"), place.season);
  StandPlan plan = plan_of("lettuce", base::date_of(2026, 4, 1), 250);
  plan.method = Method::start_indoors;
  StandFacts facts;
  facts.sown = plan.sow;
  facts.log_to = base::date_of(2026, 8, 1);
  const auto forgotten = outlook(weather, plan, facts, RaisingPlace{});
  ASSERT_TRUE(forgotten);
  EXPECT_EQ(forgotten->success, 0.0);
  facts.set_out = base::date_of(2026, 5, 10);
  EXPECT_GT(outlook(weather, plan, facts, RaisingPlace{})->success, 0.9);
}

TEST(Outlook, AWeighedSampleMovesTheSizesToIt) {
  const Place place;
  const CropWeather weather(crop_named("carrot"), place.season);
  const StandPlan plan = plan_of("carrot", base::date_of(2026, 4, 15), 110);
  const StandLives before = simulate(weather, plan, {}, {}, {});
  StandFacts facts;
  facts.measured_on = base::date_of(2026, 7, 10);
  const std::size_t at = static_cast<std::size_t>((*facts.measured_on - plan.sow).count());
  facts.measured_g = before.plant_g[at] * 1.5;
  const StandLives after = simulate(weather, plan, facts, {}, {});
  for (std::size_t m = 0; m < after.members.size(); ++m) {
    EXPECT_NEAR(after.plant_g[m * after.day_count + at], *facts.measured_g, 0.02 * *facts.measured_g);
  }
}

TEST(Outlook, TheWorseOfWaterAndNitrogenCounts) {
  const Place place;
  const CropWeather weather(crop_named("carrot"), place.season);
  const StandPlan plan = plan_of("carrot", base::date_of(2026, 4, 15), 110);
  const std::size_t entries = place.ensemble.member_count * place.ensemble.day_count;
  SimulationOptions dry;
  dry.water_factor.assign(entries, 0.6);
  SimulationOptions both = dry;
  both.nitrogen_factor.assign(entries, 0.8);
  SimulationOptions poor;
  poor.nitrogen_factor.assign(entries, 0.8);
  const std::size_t day = 100;
  const double unstressed = simulate(weather, plan, {}, {}, {}).plant_g[day];
  const double dry_g = simulate(weather, plan, {}, {}, dry).plant_g[day];
  EXPECT_LT(dry_g, simulate(weather, plan, {}, {}, poor).plant_g[day]);
  EXPECT_LT(dry_g, unstressed);
  EXPECT_DOUBLE_EQ(simulate(weather, plan, {}, {}, both).plant_g[day], dry_g);
}

// A stand that brings ripe fruit for weeks before the frost is no failed one, however long it might have gone on.
TEST(Outlook, FruitIsWorthHavingByWhatRipenedOfIt) {
  const Place place({.latitude_deg = 52.0, .mean_c = 10.0, .swing_k = 8.0, .noise_k = 2.0});
  const CropWeather weather(crop_named("tomato"), place.season);
  StandPlan plan = plan_of("tomato", base::date_of(2026, 4, 20), 600);
  plan.method = Method::start_indoors;
  plan.set_out = base::date_of(2026, 6, 1);
  const auto cool = outlook(weather, plan, {}, RaisingPlace{});
  ASSERT_TRUE(cool);
  const double days = static_cast<double>((event(*cool, "last-pick").p50 - event(*cool, "first-pick").p50).count());
  ASSERT_GT(days, 28.0);
  ASSERT_GT(total_g(*cool) / plan.clumps, 500.0);
  EXPECT_GT(cool->success, 0.8) << cool->limits;
  plan.set_out = base::date_of(2026, 8, 1);
  plan.sow = base::date_of(2026, 6, 20);
  const auto late = outlook(weather, plan, {}, RaisingPlace{});
  ASSERT_TRUE(late);
  EXPECT_LT(late->success, 0.2) << "hardly any comes ripe";
}

// Tubers are lifted when they are ripe, whatever their size: worth having is a plant worth lifting.
TEST(Outlook, TubersAreWorthHavingWhenThePlantsAreWorthLifting) {
  const Place place;
  const CropWeather weather(crop_named("potato"), place.season);
  const StandPlan close = plan_of("potato", base::date_of(2026, 4, 15), 250);
  const auto answer = outlook(weather, close, {}, {});
  ASSERT_TRUE(answer);
  const double plant_g = total_g(*answer) / close.clumps;
  ASSERT_GT(plant_g, crop_named("potato").harvest.smallest_g);
  ASSERT_LT(plant_g, 0.4 * crop_named("potato").harvest.large_g) << "less than the goal asks for";
  EXPECT_GT(answer->success, 0.9) << answer->limits;
}

TEST(Outlook, FrostEndsATenderCrop) {
  const Place place({.mean_c = 8.0, .swing_k = 11.0});
  const CropWeather weather(crop_named("bush-bean"), place.season);
  const auto autumn = outlook(weather, plan_of("bush-bean", base::date_of(2026, 8, 25), 150), {}, {});
  ASSERT_TRUE(autumn);
  EXPECT_LT(autumn->success, 0.2);
  EXPECT_NE(autumn->limits.find("frost"), std::string::npos);
}

TEST(Outlook, ALeapDayIsADayLikeAnyOther) {
  const Place place({}, base::date_of(2028, 1, 1), 731);
  const CropWeather weather(crop_named("pea"), place.season);
  const auto answer = outlook(weather, plan_of("pea", base::date_of(2028, 2, 29), 110), {}, {});
  ASSERT_TRUE(answer);
  EXPECT_GT(event(*answer, "emerge").p50, base::date_of(2028, 2, 29));
}

TEST(Outlook, TheSouthIsTheNorthHalfAYearLater) {
  const Place north;
  const Place south({.latitude_deg = -47.5});
  const auto& beet = crop_named("beet");
  const StandPlan in_may = plan_of("beet", base::date_of(2026, 5, 10), 140);
  StandPlan in_november = in_may;
  in_november.sow = base::date_of(2026, 11, 9);
  const auto first = outlook(CropWeather(beet, north.season), in_may, {}, {});
  const auto second = outlook(CropWeather(beet, south.season), in_november, {}, {});
  ASSERT_TRUE(first && second);
  const auto days = [](const Outlook& answer, const StandPlan& plan) {
    return static_cast<double>((event(answer, "first-pick").p50 - plan.sow).count());
  };
  EXPECT_NEAR(days(*second, in_november), days(*first, in_may), 10.0);
}

TEST(Outlook, WhatWasUpBeforeTheWeatherBeginsIsUp) {
  const Place place({}, base::date_of(2027, 1, 1));
  const CropWeather weather(crop_named("beet"), place.season);
  StandFacts facts;
  facts.sown = base::date_of(2027, 1, 1);  // as a stand of the year before is seen
  facts.emerged = base::date_of(2026, 5, 9);
  facts.counted_plants = 40;
  const auto answer = outlook(weather, plan_of("beet", *facts.sown, 140), facts, {});
  ASSERT_TRUE(answer);
  EXPECT_DOUBLE_EQ(event(*answer, "emerge").probability, 1.0);
}

TEST(ToldOutlook, HoldsWhatTheLogTellsAndNothingToCome) {
  const Place place;
  StandFacts facts;
  facts.first_picked = base::date_of(2026, 7, 1);
  facts.taken = {{base::date_of(2025, 12, 1), 1, true, 50.0},
                 {base::date_of(2026, 7, 1), 2, true, 200.0},
                 {base::date_of(2026, 7, 2), 2, true, 300.0},
                 {base::date_of(2026, 7, 9), 4, false, {}}};
  facts.finished = true;
  const StandPlan plan = plan_of("beet", base::date_of(2024, 4, 10), 140);
  const Outlook told = told_outlook(plan, facts, place.ensemble);
  EXPECT_EQ(event(told, "last-pick").p50, base::date_of(2026, 7, 2)) << "what was thinned away is no picking";
  EXPECT_EQ(event(told, "emerge").probability, 0.0) << "nobody wrote it down";
  double taken_g = 0.0;
  for (const WeekOutlook& week : told.weeks) taken_g += week.weight_g.p50;
  EXPECT_DOUBLE_EQ(taken_g, 500.0) << "of the days that the weather covers";
  EXPECT_DOUBLE_EQ(told.success, 1.0);
  const auto lived = outlook(CropWeather(crop_named("beet"), place.season),
                             plan_of("beet", base::date_of(2026, 4, 10), 140), {}, {});
  ASSERT_TRUE(lived);
  EXPECT_EQ(told.weeks.size(), lived->weeks.size());
  EXPECT_EQ(told.weeks.front().week_start, lived->weeks.front().week_start);
  EXPECT_EQ(told.members.weekly_g.size(), lived->members.weekly_g.size());
  EXPECT_EQ(told.members.killed_day.size(), lived->members.killed_day.size());
}

TEST(Outlook, RefusesASowingOutsideTheWeather) {
  const Place place;
  const CropWeather weather(crop_named("beet"), place.season);
  const auto answer = outlook(weather, plan_of("beet", base::date_of(2029, 5, 10), 140), {}, {});
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().code, base::ProblemCode::out_of_range);
}

TEST(Outlook, RefusesASpacingThatCannotBe) {
  const Place place;
  const CropWeather weather(crop_named("beet"), place.season);
  EXPECT_FALSE(outlook(weather, plan_of("beet", base::date_of(2026, 5, 10), 0.0), {}, {}));
  EXPECT_FALSE(outlook(weather, plan_of("beet", base::date_of(2026, 5, 10), -3.0), {}, {}));
}

}  // namespace
}  // namespace sowtide::stand
