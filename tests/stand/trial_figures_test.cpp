#include "stand/trial_figures.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "base/quantile.hpp"
#include "made_weather.hpp"
#include "stand/simulate.hpp"
#include "stand/trials.hpp"

namespace sowtide::stand {
namespace {

base::Result<base::Explanation> worked(std::string_view name, const base::FigureInputs& inputs) {
  return trial_figure(name, inputs, crop::built_in_library());
}

double number(const base::Explanation& answer, std::string_view field) {
  for (const auto& each : answer.result)
    if (each.name == field) return std::get<double>(each.value);
  ADD_FAILURE() << "no " << field;
  return 0.0;
}

const base::FigureInputs kOnions{
    {"crop", "onion"}, {"date", "2026-03-20"}, {"plants_per_m2", "60"}, {"days", "120"}};

TEST(TrialFigures, AStandAgainstItselfIsOne) {
  const auto same = worked("stand-ratio", kOnions);
  ASSERT_TRUE(same) << base::to_text(same.error());
  EXPECT_DOUBLE_EQ(number(*same, "plant_ratio"), 1.0);
  EXPECT_GT(number(*same, "plant_g"), 1.0);
}

TEST(TrialFigures, TheOtherStandTurnedRoundIsTheReciprocal) {
  auto dense = kOnions, wide = kOnions;
  dense["plants_per_m2"] = wide["against_plants_per_m2"] = "120";
  dense["against_plants_per_m2"] = "60";
  const auto forth = worked("stand-ratio", dense), back = worked("stand-ratio", wide);
  ASSERT_TRUE(forth && back);
  EXPECT_LT(number(*forth, "plant_ratio"), 1.0);
  EXPECT_NEAR(number(*forth, "plant_ratio") * number(*back, "plant_ratio"), 1.0, 1e-12);
  EXPECT_NEAR(number(*forth, "yield_ratio"), 2.0 * number(*forth, "plant_ratio"), 1e-12);
}

TEST(TrialFigures, SpreadNeedsADayOrAWeight) {
  base::FigureInputs inputs{{"crop", "radish"}, {"date", "2026-05-01"}, {"plants_per_m2", "400"}};
  const auto neither = worked("size-spread", inputs);
  ASSERT_FALSE(neither);
  EXPECT_EQ(neither.error().where.field, "weight_g");
  inputs["weight_g"] = "90000";
  EXPECT_EQ(worked("size-spread", inputs).error().code, base::ProblemCode::infeasible);
  inputs["weight_g"] = "5";
  const auto grown = worked("size-spread", inputs);
  ASSERT_TRUE(grown);
  EXPECT_GT(number(*grown, "variation"), 0.1);
  inputs.erase("weight_g");
  inputs["days"] = std::to_string(static_cast<int>(number(*grown, "day")));
  EXPECT_DOUBLE_EQ(number(*worked("size-spread", inputs), "variation"), number(*grown, "variation"));
}

TEST(TrialFigures, PullingTheLargestHelpsTheOthersOnlyOnceTheyTouch) {
  base::FigureInputs inputs{{"crop", "beet"},          {"date", "2026-05-10"}, {"spacing_mm", "240"},
                            {"plants_per_clump", "3"}, {"pull_days", "70"},    {"days", "70"}};
  EXPECT_DOUBLE_EQ(number(*worked("pulling-the-largest", inputs), "ratio"), 1.0);
  inputs["days"] = "84";
  EXPECT_GT(number(*worked("pulling-the-largest", inputs), "ratio"), 1.05);
  inputs["pull_days"] = "200";
  EXPECT_EQ(worked("pulling-the-largest", inputs).error().code, base::ProblemCode::out_of_range);
}

TEST(TrialFigures, AnUnknownTrialNamesTheKnownOnes) {
  const auto none = worked("trial-course", {{"trial", "Nowhere 1900"}});
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, base::ProblemCode::not_found);
  EXPECT_NE(none.error().remedy.find("Paterson 1993 potato"), std::string::npos);
}

// On a shelf as warm as any, the weather does not count.
double whole_seedling_g(const TrialCourse& course, base::Date sown, base::Date on) {
  crop::Crop crop = **crop::built_in_library().find(course.crop);
  crop.growth.organ_start_cd.value = 0.0;
  for (auto* share :
       {&crop.growth.organ_share_max, &crop.growth.dry_matter_fraction, &crop.growth.marketable_fraction})
    share->value = 1.0;
  const auto ensemble = testing::made_ensemble({}, sown - base::Days{5}, 200, 1);
  const CropWeather weather(crop, std::make_shared<const SeasonWeather>(ensemble));
  StandPlan plan;
  plan.crop = crop.id;
  plan.clumps = 64;
  plan.sow = sown;
  plan.set_out = course.set_out;
  plan.method = Method::start_indoors;
  plan.spacing_mm = 1000.0 / std::sqrt(course.plants_per_m2);
  SimulationOptions options;
  options.sampled_clumps = 64;
  options.leave_standing = true;
  options.watch = {on};
  return base::mean(simulate(weather, plan, {}, RaisingPlace{}, options).watched_g);
}

TEST(Trials, TransplantsGoOutAsHeavyAsTheTrialsWere) {
  for (const TrialCourse& course : trial_courses()) {
    if (!course.transplant_dry_g) continue;
    const base::Date sown = agreement_with(course).sown;
    EXPECT_GE(whole_seedling_g(course, sown, *course.set_out - base::Days{1}), *course.transplant_dry_g)
        << course.name;
    EXPECT_LT(whole_seedling_g(course, sown, *course.set_out - base::Days{2}), *course.transplant_dry_g)
        << course.name;
  }
}

TEST(Trials, HeavierTransplantsWereSownEarlier) {
  std::size_t weighed = 0;
  for (TrialCourse course : trial_courses()) {
    if (!course.transplant_dry_g) continue;
    ++weighed;
    const base::Date sown = agreement_with(course).sown;
    EXPECT_LT(sown, *course.set_out - base::Days{20}) << course.name;
    course.transplant_dry_g = 0.5 * *course.transplant_dry_g;
    EXPECT_GT(agreement_with(course).sown, sown) << course.name;
  }
  EXPECT_EQ(weighed, 11U);
}

TEST(Trials, SomeWereUsedForSettingAndMostNot) {
  std::size_t used = 0;
  for (const TrialCourse& course : trial_courses()) {
    used += course.used_for_setting ? 1 : 0;
    EXPECT_GE(course.points.size(), 2U) << course.name;
    for (std::size_t i = 1; i < course.points.size(); ++i)
      EXPECT_LT(course.points[i - 1].date, course.points[i].date) << course.name;
  }
  EXPECT_EQ(trial_courses().size(), 33U);
  EXPECT_EQ(used, 4U);
}

}  // namespace
}  // namespace sowtide::stand
