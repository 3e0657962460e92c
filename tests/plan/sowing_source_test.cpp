#include "plan/sowing_source.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "climate/places.hpp"
#include "stand/bought.hpp"
#include "stand/simulate.hpp"

namespace sowtide::plan {
namespace {

climate::WeatherEnsemble weather_of_trier() {
  climate::EnsembleOptions options;
  options.first = base::date_of(2026, 1, 1);
  options.day_count = 730;
  options.member_count = 6;
  return climate::ensemble_from_normals(*climate::find_place("Trier"), options);
}

stand::StandPlan april_sowing(const crop::Crop& crop) {
  stand::StandPlan plan;
  plan.id = "s1";
  plan.crop = crop.id;
  plan.sow = base::date_of(2026, 4, 15);
  plan.clumps = 100;
  plan.spacing_mm = crop.place.spacing_large_mm;
  return plan;
}

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

// The planner lives few clumps; of a bed with any number of rows the right share of them must be at the edge.
// The outlook of a stand, which counts its bed's edges, is the measure; here with so many clumps that its
// shares are exact.
TEST(SowingSource, CountsTheEdgesOfABedAsTheOutlookOfAStandDoes) {
  const auto weather = weather_of_trier();
  const auto season = std::make_shared<const stand::SeasonWeather>(weather);
  const WeekGrid grid{base::date_of(2026, 1, 5), 100};
  for (const char* id : {"beet", "lettuce", "carrot"}) {
    const crop::Crop& crop = **crop::built_in_library().find(id);
    const auto source = growing_source(weather, grid, {crop}, 1);
    const stand::CropWeather felt(crop, season);
    const stand::StandPlan plan = april_sowing(crop);
    for (int rows = 0; rows <= 24; ++rows) {
      const auto life = source->life(crop, plan, {}, {}, {.rows_across = rows});
      ASSERT_TRUE(life.has_value());
      stand::SimulationOptions many;
      many.sampled_clumps = static_cast<std::size_t>(rows == 0 ? 96 : rows * (1 + 96 / rows));
      many.bed.rows_across = rows;
      const double expected = sum(stand::simulate(felt, plan, {}, {}, many).taken_g);
      EXPECT_NEAR(sum(life->weekly_g) / expected, 1.0, 0.04) << id << ", " << rows << " rows";
    }
  }
}

TEST(SowingSource, ClumpsAtAnEdgeGiveMore) {
  const auto weather = weather_of_trier();
  const WeekGrid grid{base::date_of(2026, 1, 5), 100};
  const crop::Crop& crop = **crop::built_in_library().find("beet");
  const auto source = growing_source(weather, grid, {crop}, 1);
  const auto total = [&](int rows) {
    return sum(source->life(crop, april_sowing(crop), {}, {}, {.rows_across = rows})->weekly_g);
  };
  EXPECT_GT(total(2), 1.02 * total(8));
  EXPECT_GT(total(8), total(0));
  EXPECT_EQ(total(60), total(0)) << "hardly any clump of so many rows is at an edge";
}

TEST(SowingSource, GivesLessInPartShadeThanInFullSun) {
  const auto weather = weather_of_trier();
  const WeekGrid grid{base::date_of(2026, 1, 5), 100};
  const crop::Crop& crop = **crop::built_in_library().find("lettuce");
  const auto source = growing_source(weather, grid, {crop}, 1);
  const auto total = [&](bed::SunClass sun) {
    return sum(source->life(crop, april_sowing(crop), {}, {}, {.rows_across = 4, .sun = sun})->weekly_g);
  };
  EXPECT_LT(total(bed::SunClass::partial), total(bed::SunClass::full));
  EXPECT_GT(total(bed::SunClass::partial), 0.0);
}

/// Tomatoes that are bought for a day.
stand::StandPlan bought_for(base::Date day, const crop::Crop& crop) {
  stand::StandPlan plan = april_sowing(crop);
  plan.method = stand::Method::start_indoors;
  stand::set_out_as_bought(plan, day, crop);
  return plan;
}

// A plan made on 1 January: the plants that can be bought then were sown in the year before.
TEST(SowingSource, LivesBoughtPlantsFromBeforeThePlansFirstDay) {
  climate::EnsembleOptions options;
  options.first = base::date_of(2025, 9, 1);
  options.day_count = 850;
  options.member_count = 6;
  const auto weather = climate::ensemble_from_normals(*climate::find_place("Trier"), options);
  const WeekGrid grid{base::week_start(base::date_of(2026, 1, 1)), 100};
  const crop::Crop& crop = **crop::built_in_library().find("tomato");
  const auto source = growing_source(weather, grid, {crop}, 1);
  for (const base::Date day : {base::date_of(2026, 1, 1), base::date_of(2026, 5, 25)}) {
    const auto life = source->life(crop, bought_for(day, crop), {}, stand::RaisingPlace{}, {});
    ASSERT_TRUE(life.has_value());
    ASSERT_EQ(life->set_out_day.size(), weather.member_count);
    for (const int set_out : life->set_out_day)
      EXPECT_EQ(set_out, static_cast<int>((day - grid.first_monday).count())) << base::to_iso(day);
    const bool in_winter = base::month_of(day) == 1;
    EXPECT_GE(life->success, in_winter ? 0.0 : 0.5) << base::to_iso(day);
    EXPECT_LE(life->success, in_winter ? 0.0 : 1.0) << base::to_iso(day);
  }
}

// On the made-up day of their sowing they stood in somebody's warm house: March is no day to sow tomatoes
// out.
TEST(SowingSource, JudgesBoughtPlantsOnTheDayOfSettingOut) {
  const auto weather = weather_of_trier();
  const WeekGrid grid{base::date_of(2026, 1, 5), 100};
  const crop::Crop& crop = **crop::built_in_library().find("tomato");
  const auto source = growing_source(weather, grid, {crop}, 1, &weather);
  const stand::CropWeather felt(crop, std::make_shared<const stand::SeasonWeather>(weather));
  const auto set_out = stand::sowing_year(felt, "set-out");
  const auto in_trays = stand::sowing_year(felt, "start-indoors");
  for (const int day_of_year : {1, 60, 100, 145, 200, 260, 365}) {
    const base::Date day = base::date_of(2026, 1, 1) + base::Days{day_of_year - 1};
    const auto place = static_cast<std::size_t>(day_of_year - 1);
    EXPECT_EQ(source->sowing_day(crop, bought_for(day, crop)).success, set_out[place].success);
    stand::StandPlan raised = april_sowing(crop);
    raised.method = stand::Method::start_indoors;
    raised.tray = "shelf";
    raised.sow = day;
    EXPECT_EQ(source->sowing_day(crop, raised).success, in_trays[place].success);
  }
  EXPECT_LT(source->sowing_day(crop, bought_for(base::date_of(2026, 4, 5), crop)).success, 0.2);
  EXPECT_GT(source->sowing_day(crop, bought_for(base::date_of(2026, 5, 25), crop)).success, 0.5);
}

}  // namespace
}  // namespace sowtide::plan
