// What holds a want back, by the prices of the relaxation: one crop and one thing that is scarce.
#include "plan/limiting.hpp"

#include <gtest/gtest.h>

namespace sowtide::plan {
namespace {

/// Ten servings wanted in each of four weeks; a clump takes 10 cm of the bed for three weeks, and where it is
/// raised one cell, and gives a serving in each of the four weeks.
GardenModel garden_of_one_crop() {
  constexpr std::size_t kWeeks = 8;
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = model.told_weeks = kWeeks;
  model.member_count = 1;
  model.scenarios = {0};
  model.beds.push_back({.id = "a", .name = "A", .length_m = 20.0, .width_m = 0.1});
  model.trays.push_back({"tray", "Tray", 1000, 40.0, bed::TrayPlace::indoors, 20.0});
  model.products.push_back({"crop", "", stand::SizeGoal::large, 100.0, 0.0});
  Candidate sowing;
  sowing.sowing.crop = "crop";
  sowing.spacing_mm = 100;
  sowing.tray = 0;
  sowing.tray_first_week = sowing.tray_last_week = 0;
  sowing.bed_first_week = 1;
  sowing.bed_last_week = 7;
  sowing.servings.assign(kWeeks, 0.0);
  Demand demand;
  demand.want = "w";
  demand.price = 1.0;
  demand.products = {0};
  demand.servings.assign(kWeeks, 0.0);
  for (std::size_t w = 4; w < kWeeks; ++w) {
    sowing.servings[w] = 1.0;
    demand.servings[w] = 10.0;
  }
  sowing.expected_servings = 4.0;
  model.candidates = {sowing};
  model.demands = {demand};
  return model;
}

Limiting limit_of(GardenModel model, double missed = 30.0) {
  finish_model(model);
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  EXPECT_TRUE(relaxation.has_value());
  return limiting_of(model, formulation, *relaxation, {missed}).front();
}

TEST(Limiting, IsWhatIsScarce) {
  GardenModel little_ground = garden_of_one_crop();
  little_ground.beds.front().length_m = 0.5;
  EXPECT_EQ(limit_of(little_ground), Limiting::ground);

  GardenModel few_cells = garden_of_one_crop();
  few_cells.trays.front().cells = 4;
  EXPECT_EQ(limit_of(few_cells), Limiting::cells);

  GardenModel dear_seed = garden_of_one_crop();
  dear_seed.prices.seed = 1.0;
  dear_seed.seed_lots.push_back({"crop", "", 0.0});
  dear_seed.candidates.front().seed_lot = 0;
  dear_seed.candidates.front().seeds = 5.0;
  EXPECT_EQ(limit_of(dear_seed), Limiting::seed);

  GardenModel much_work = garden_of_one_crop();
  much_work.prices.easy_hours = 0.0;
  much_work.prices.hard_hour = 100.0;
  much_work.candidates.front().sow_hours = 1.0;
  EXPECT_EQ(limit_of(much_work), Limiting::hours);

  // All comes in one week in which a little is wanted, and waste is hated.
  GardenModel all_at_once = garden_of_one_crop();
  all_at_once.prices.waste = 5.0;
  all_at_once.candidates.front().servings = {0, 0, 0, 0, 40.0, 0, 0, 0};
  EXPECT_EQ(limit_of(all_at_once), Limiting::waste);
}

TEST(Limiting, IsNothingWhereTheRelaxationMeetsTheWant) {
  EXPECT_EQ(limit_of(garden_of_one_crop()), Limiting::nothing);
}

// By hand: five clumps have room, so five of ten servings are missed in each of four weeks.
TEST(Limiting, CountsWhatASolutionMisses) {
  GardenModel model = garden_of_one_crop();
  model.beds.front().length_m = 0.5;
  finish_model(model);
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  ASSERT_TRUE(relaxation.has_value());
  EXPECT_NEAR(missed_by(model, formulation, *relaxation).front(), 20.0, 1e-6);
}

}  // namespace
}  // namespace sowtide::plan
