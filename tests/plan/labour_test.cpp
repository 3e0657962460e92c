#include "plan/labour.hpp"

#include <gtest/gtest.h>

#include "plan/formulate.hpp"
#include "plan/forward_pass.hpp"

namespace sowtide::plan {
namespace {

TEST(PickingHours, SmallThingsTakeLongerThanLargeOnes) {
  const auto hours = [](crop::HarvestedPart part, crop::HarvestStyle style) {
    crop::Harvest harvest;
    harvest.part = part;
    harvest.style = style;
    return picking_hours_per_kg(harvest);
  };
  using crop::HarvestedPart;
  using crop::HarvestStyle;
  EXPECT_GT(hours(HarvestedPart::pod, HarvestStyle::picked),
            hours(HarvestedPart::fruit, HarvestStyle::picked));
  EXPECT_GT(hours(HarvestedPart::leaf, HarvestStyle::repeat_cut),
            hours(HarvestedPart::leaf, HarvestStyle::once));
  EXPECT_GT(hours(HarvestedPart::herb, HarvestStyle::repeat_cut),
            hours(HarvestedPart::root, HarvestStyle::once));
  // Trained pickers are faster: 100 kg of green beans in six hours.
  EXPECT_GT(hours(HarvestedPart::pod, HarvestStyle::picked), 6.0 / 100.0);
}

/// One sowing that bears in weeks 3 and 4, in two weather years: 1 and 3 servings, then nothing and 2.
GardenModel bearing_garden() {
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = 5;
  model.member_count = 2;
  model.scenarios = {0, 1};
  model.prices.waste = 0.0;
  model.prices.easy_hours = 1.0;
  model.beds.push_back({.id = "a", .name = "A", .length_m = 9.0, .width_m = 1.0});
  model.products.push_back({"crop", "", stand::SizeGoal::large, 100.0, 0.5, 52, 0.25});
  model.demands.push_back({"want", 10.0, 100.0, {0.0, 0.0, 0.0, 2.0, 2.0}, {0}});
  Candidate sowing;
  sowing.sow_week = sowing.bed_first_week = 1;
  sowing.bed_last_week = 4;
  sowing.sow_hours = 0.125;
  sowing.servings = {0, 0, 0, 1, 0, 0, 0, 0, 3, 2};
  model.candidates.push_back(sowing);
  finish_model(model);
  return model;
}

TEST(PickingHours, AreCountedInTheWeeksOfTheHarvestAtTheMeanOfTheYears) {
  const GardenModel model = bearing_garden();
  ForwardPass judge(model, model.scenarios);
  // Missing: 2 - 1 and 2 in the first year, none and none in the second; four clumps more than suffice.
  judge.add(0, 1);
  const double missing_one = 10.0 * ((1.0 + 2.0) + 0.0) / 2.0;
  // Hours: sowing 0.125; picking 0.25 * 2 in week 3 and 0.25 * 1 in week 4.
  EXPECT_DOUBLE_EQ(judge.cost(), missing_one + 0.5 * (0.125 + 0.5 + 0.25));
  judge.add(0, 3);
  // Four times the hours: 0.5, 2 of which one is above the easy hour, and 1. Stock of two in year one feeds
  // week 4 half.
  const double missing_four = 10.0 * 1.0 / 2.0;
  EXPECT_DOUBLE_EQ(judge.cost(), missing_four + 0.5 * (0.5 + 1.0 + 1.0) + 2.0 * 1.0);
}

TEST(PickingHours, AreTheSameInTheProgram) {
  const GardenModel model = bearing_garden();
  for (const int clumps : {0, 1, 2, 4, 7}) {
    Formulation formulation = formulate(model);
    add_all_age_rows(model, formulation);
    for (const ClumpColumn& entry : formulation.clump_columns) {
      LinearColumn& column = formulation.program.columns[static_cast<std::size_t>(entry.column)];
      column.lower = column.upper = clumps;
    }
    RelaxationSolver solver(formulation.program);
    const auto solution = solver.solve();
    ASSERT_TRUE(solution.has_value());
    ForwardPass judge(model, model.scenarios);
    judge.set_counts({clumps});
    EXPECT_NEAR(judge.cost(), solution->objective, 1e-9) << clumps;
    EXPECT_NEAR(
        judge.change_by(0, 2),
        [&] {
          ForwardPass more(model, model.scenarios);
          more.set_counts({clumps + 2});
          return more.cost() - judge.cost();
        }(),
        1e-12);
  }
}

}  // namespace
}  // namespace sowtide::plan
