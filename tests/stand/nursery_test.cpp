#include "stand/nursery.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "made_weather.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace {

using base::Date;
using base::date_of;
using base::Days;

const crop::Crop& crop_named(const char* id) {
  return crop::built_in_library().crops.at(id);
}

struct Nurtured {
  climate::WeatherEnsemble years = testing::made_ensemble({}, date_of(2026, 1, 1), 730, 12);
  CropWeather felt;
  explicit Nurtured(const char* crop, testing::MadeClimate climate = {})
      : years(testing::made_ensemble(climate, date_of(2026, 1, 1), 730, 12)),
        felt(crop_named(crop), std::make_shared<const SeasonWeather>(years)) {}

  [[nodiscard]] base::Result<NurseryOutlook> outlook(const StandPlan& plan, const NurserySpot& spot,
                                                     const StandFacts& facts = {},
                                                     Date today = date_of(2026, 1, 1)) const {
    return nursery_outlook(felt, plan, facts, spot, today);
  }
};

StandPlan plan_of(const char* crop, Date sow) {
  StandPlan plan;
  plan.id = "s1";
  plan.crop = crop;
  plan.method = Method::start_indoors;
  plan.sow = sow;
  plan.clumps = 12;
  plan.cells = 14;
  plan.spacing_mm = 500.0;
  return plan;
}

const NurserySpot kShelf{{bed::TrayPlace::indoors, 19.0, {}}, 50.0};

TEST(SeedlingAges, AreTheLibrarysInTheUsualCell) {
  for (const auto& [id, crop] : crop::built_in_library().crops) {
    const SeedlingAges ages = seedling_ages(crop, crop.nursery.cell_width_mm);
    EXPECT_DOUBLE_EQ(ages.fit_cd, crop.nursery.ready_thermal_time_cd) << id;
    EXPECT_GE(ages.root_bound_cd + 1e-9, crop.nursery.latest_thermal_time_cd.value) << id;
  }
}

/// Weight at the check is in proportion to volume: eight times the volume holds a plant eight times as heavy,
/// and growth at a relative rate r takes ln(8)/r °C d for that.
TEST(SeedlingAges, TwiceTheWidthHoldsEightTimesTheWeight) {
  const crop::Crop& tomato = crop_named("tomato");
  const double narrow = seedling_ages(tomato, 70.0).root_bound_cd;
  const double wide = seedling_ages(tomato, 140.0).root_bound_cd;
  EXPECT_NEAR(std::exp(tomato.growth.early_relative_rate_per_cd * (wide - narrow)), 8.0, 1e-6);
}

TEST(SeedlingAges, WidthThatHoldsIsTheNarrowestOfTheSteps) {
  for (const auto& [id, crop] : crop::built_in_library().crops) {
    if (!crop.nursery.can_transplant) continue;
    for (const double age_cd : {300.0, 500.0, 800.0}) {
      const double width_mm = width_that_holds_mm(crop, age_cd);
      EXPECT_GE(seedling_ages(crop, width_mm).root_bound_cd + 1e-6, age_cd) << id;
      if (width_mm > 20.0) {
        EXPECT_LT(crop.nursery.latest_thermal_time_cd +
                      3.0 * std::log((width_mm - 10.0) / crop.nursery.cell_width_mm) /
                          crop.growth.early_relative_rate_per_cd,
                  age_cd)
            << id;
      }
    }
  }
}

TEST(NurseryOutlook, StagesFollowEachOther) {
  for (const char* id : {"tomato", "lettuce", "cabbage", "leek", "cucumber", "beet"}) {
    const Nurtured nursery(id);
    const auto made = nursery.outlook(plan_of(id, date_of(2026, 3, 20)), kShelf);
    ASSERT_TRUE(made) << id;
    EXPECT_EQ(made->up.probability, 1.0) << id;
    ASSERT_GT(made->best.probability, 0.5) << id;
    EXPECT_GT(made->up.p50, date_of(2026, 3, 20)) << id;
    EXPECT_LE(made->earliest.p50, made->best.p50) << id;
    EXPECT_GE(made->earliest.p50,
              made->up.p50 + Days{static_cast<int>(crop_named(id).nursery.hardening_days)})
        << id;
    ASSERT_TRUE(made->harden_from && made->set_out);
    EXPECT_EQ((*made->set_out - *made->harden_from).count(),
              std::lround(crop_named(id).nursery.hardening_days.value))
        << id;
  }
}

TEST(NurseryOutlook, WarmCropSownTooEarlyWaitsAndIsPottedOnOrOutgrown) {
  const Nurtured nursery("tomato");
  const auto early = nursery.outlook(plan_of("tomato", date_of(2026, 1, 20)), kShelf);
  const auto timely =
      nursery.outlook(plan_of("tomato", date_of(2026, 4, 10)), {{bed::TrayPlace::indoors, 19.0}, 70.0});
  ASSERT_TRUE(early && timely);
  EXPECT_TRUE(early->pot_on || early->verdict == NurseryVerdict::outgrown ||
              early->verdict == NurseryVerdict::no_safe_day);
  EXPECT_EQ(timely->verdict, NurseryVerdict::in_time);
}

TEST(NurseryOutlook, PotsOnBeforeTheCellIsOutgrown) {
  const Nurtured nursery("tomato");
  StandPlan plan = plan_of("tomato", date_of(2026, 3, 25));
  plan.set_out = date_of(2026, 5, 25);
  const auto made = nursery.outlook(plan, {{bed::TrayPlace::indoors, 19.0}, 40.0});
  ASSERT_TRUE(made);
  ASSERT_TRUE(made->pot_on);
  EXPECT_LE(made->pot_on->from, made->pot_on->latest);
  EXPECT_LT(made->pot_on->latest, *plan.set_out);
  EXPECT_GT(made->pot_on->into_width_mm, 40.0);
  EXPECT_LE(made->pot_on->into_width_mm, kWidestPotMm);
  EXPECT_EQ(made->verdict, NurseryVerdict::in_time);
}

TEST(NurseryOutlook, SmallerCellsAreOutgrownSooner) {
  const Nurtured nursery("cabbage");
  Date before = date_of(2026, 1, 1);
  for (const double width_mm : {25.0, 35.0, 50.0, 70.0, 90.0}) {
    const auto made =
        nursery.outlook(plan_of("cabbage", date_of(2026, 3, 1)), {{bed::TrayPlace::indoors, 18.0}, width_mm});
    ASSERT_TRUE(made);
    EXPECT_GE(made->latest.p50, before) << width_mm;
    before = made->latest.p50;
  }
}

TEST(NurseryOutlook, SaysSowInPlaceWhereTheRootMustNotBeMoved) {
  const Nurtured nursery("carrot");
  ASSERT_FALSE(crop_named("carrot").nursery.can_transplant);
  const auto made = nursery.outlook(plan_of("carrot", date_of(2026, 4, 1)), kShelf);
  ASSERT_TRUE(made);
  EXPECT_EQ(made->verdict, NurseryVerdict::sow_in_place);
}

TEST(NurseryOutlook, DecidedTooEarlyIsSaid) {
  const Nurtured nursery("tomato");
  StandPlan plan = plan_of("tomato", date_of(2026, 4, 10));
  plan.set_out = date_of(2026, 4, 20);
  const auto made = nursery.outlook(plan, {{bed::TrayPlace::indoors, 19.0}, 70.0});
  ASSERT_TRUE(made);
  EXPECT_EQ(made->verdict, NurseryVerdict::too_early);
}

TEST(NurseryOutlook, StillInItsTrayAfterTheLatestDayIsLate) {
  const Nurtured nursery("lettuce");
  StandFacts facts;
  facts.sown = date_of(2026, 4, 1);
  facts.emerged = date_of(2026, 4, 6);
  const auto made =
      nursery.outlook(plan_of("lettuce", date_of(2026, 4, 1)), kShelf, facts, date_of(2026, 8, 1));
  ASSERT_TRUE(made);
  EXPECT_EQ(made->up.p50, date_of(2026, 4, 6));
  EXPECT_EQ(made->verdict, NurseryVerdict::late);
}

TEST(NurseryOutlook, ColdPlaceFindsNoSafeDayForTenderCrops) {
  const Nurtured nursery("melon", {.mean_c = 0.0, .swing_k = 6.0});
  const auto made = nursery.outlook(plan_of("melon", date_of(2026, 5, 1)), kShelf);
  ASSERT_TRUE(made);
  EXPECT_EQ(made->verdict, NurseryVerdict::no_safe_day);
  EXPECT_FALSE(made->set_out);
}

TEST(NurseryOutlook, WorksInTheSouth) {
  const Nurtured nursery("tomato", {.latitude_deg = -40.0});
  const auto made =
      nursery.outlook(plan_of("tomato", date_of(2026, 10, 1)), {{bed::TrayPlace::indoors, 19.0}, 70.0});
  ASSERT_TRUE(made);
  ASSERT_TRUE(made->set_out);
  EXPECT_GT(*made->set_out, date_of(2026, 10, 20));
  EXPECT_LT(*made->set_out, date_of(2027, 2, 1));
}

TEST(NurseryOutlook, RefusesACellOfNoSize) {
  const Nurtured nursery("tomato");
  const auto made =
      nursery.outlook(plan_of("tomato", date_of(2026, 4, 1)), {{bed::TrayPlace::indoors, 19.0}, 0.0});
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().where.field, "cell_width_mm");
}

/// Fruit crops of one season lose by every week that they go out late; the first entry is on time.
TEST(LateSetOut, CostsATomatoMoreEveryWeek) {
  const Nurtured nursery("tomato");
  StandPlan plan = plan_of("tomato", date_of(2026, 4, 5));
  const auto costs = cost_of_setting_out_late(nursery.felt, plan, {}, {bed::TrayPlace::indoors, 19.0}, {},
                                              date_of(2026, 5, 25));
  ASSERT_TRUE(costs);
  ASSERT_EQ(costs->size(), 5U);
  EXPECT_GT(costs->front().harvest_g, 0.0);
  for (std::size_t i = 1; i < costs->size(); ++i) {
    EXPECT_EQ((*costs)[i].set_out - (*costs)[i - 1].set_out, Days{7});
    EXPECT_LT((*costs)[i].harvest_g, (*costs)[i - 1].harvest_g) << i;
  }
}

/// A plan that keeps beans so long in their cell counts as failed; beans that are set out then bear all the
/// same.
TEST(LateSetOut, OfAnOutgrownCellCostsWhatItWouldIfItWereDone) {
  const Nurtured nursery("bush-bean");
  StandPlan plan = plan_of("bush-bean", date_of(2026, 5, 20));
  const Date on_time = date_of(2026, 6, 10);
  const auto costs =
      cost_of_setting_out_late(nursery.felt, plan, {}, {bed::TrayPlace::indoors, 19.0}, {}, on_time);
  ASSERT_TRUE(costs);
  for (const LateSetOut& late : *costs) {
    StandFacts done;
    done.set_out = late.set_out;
    const auto lived = outlook(nursery.felt, plan, done, RaisingPlace{bed::TrayPlace::indoors, 19.0},
                               {.bed = {.sun = bed::SunClass::full}});
    ASSERT_TRUE(lived);
    EXPECT_DOUBLE_EQ(late.success, lived->success) << late.weeks_late;
  }
  EXPECT_GT((*costs)[4].harvest_g, 0.0) << "a month late they are outgrown, and bear still";
}

TEST(Nursery, OffItsMatASeedlingTakesLonger) {
  const Nurtured nursery("tomato");
  const StandPlan plan = plan_of("tomato", date_of(2026, 4, 5));
  const auto stays = nursery.outlook(plan, {{bed::TrayPlace::heat_mat, 24.0, {}}, 50.0});
  const auto leaves = nursery.outlook(plan, {{bed::TrayPlace::heat_mat, 24.0, 18.0}, 50.0});
  ASSERT_TRUE(stays && leaves);
  EXPECT_EQ(leaves->up.p50, stays->up.p50);
  EXPECT_GT(leaves->latest.p50, stays->latest.p50 + Days{5});
}

}  // namespace
}  // namespace sowtide::stand
