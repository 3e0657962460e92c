#include "plan/layout.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "plan/synthetic_garden.hpp"

namespace sowtide::plan {
namespace {

GardenModel one_bed_garden() {
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = 30;
  model.member_count = 1;
  model.scenarios = {0};
  model.beds.push_back({"b", "Bed", 2.0, 1.0, bed::SunClass::full, bed::BedKind::raised, false});
  model.products.push_back({"crop", "", stand::SizeGoal::large, 100.0, 0.9});
  return model;
}

Candidate candidate_in(const GardenModel& model, const std::string& family, int first_week, int last_week,
                       int spacing_mm) {
  Candidate candidate;
  candidate.family = family;
  candidate.rotation_years = 3.0;
  candidate.spacing_mm = spacing_mm;
  candidate.sow_week = candidate.bed_first_week = first_week;
  candidate.bed_last_week = last_week;
  candidate.servings.assign(model.member_count * model.weeks, 1.0);
  return candidate;
}

TEST(Layout, FillsABedToItsEndAndNotBeyond) {
  GardenModel model = one_bed_garden();
  model.candidates.push_back(candidate_in(model, "a", 3, 9, 250));
  finish_model(model);
  Layout layout(model);
  EXPECT_EQ(layout.grow_split(0, 100), 8 * 4);
  EXPECT_FALSE(layout.grow(0, 1));
  EXPECT_TRUE(layout_faults(model, layout.stands()).empty());
}

TEST(Layout, LetsAnotherFamilyFollowOnTheSameStretchButNotTheSameOne) {
  GardenModel model = one_bed_garden();
  model.candidates.push_back(candidate_in(model, "a", 0, 9, 500));
  model.candidates.push_back(candidate_in(model, "a", 10, 19, 500));
  model.candidates.push_back(candidate_in(model, "b", 10, 19, 500));
  finish_model(model);
  Layout layout(model);
  ASSERT_EQ(layout.grow_split(0, 6), 6);
  EXPECT_EQ(layout.grow_split(1, 8), 2);
  EXPECT_EQ(layout.grow_split(2, 8), 6);
  EXPECT_TRUE(layout_faults(model, layout.stands()).empty());
}

TEST(Layout, KeepsAFamilyOffAStretchUntilItsYearsOfRestAreOver) {
  GardenModel model = one_bed_garden();
  model.candidates.push_back(candidate_in(model, "a", 3, 9, 500));
  model.past.push_back({0, 0, 1500, "a", 2025});
  finish_model(model);
  EXPECT_EQ(Layout(model).grow_split(0, 100), 2);
  model.past.front().year = 2024;
  EXPECT_EQ(Layout(model).grow_split(0, 100), 8);
}

TEST(Layout, LeavesWhatStandsAlready) {
  GardenModel model = one_bed_garden();
  model.candidates.push_back(candidate_in(model, "a", 3, 9, 500));
  model.taken.push_back({0, 500, 2000, -4, 5, "b"});
  finish_model(model);
  EXPECT_EQ(Layout(model).grow_split(0, 100), 2);
  model.taken.front().last_week = 2;
  EXPECT_EQ(Layout(model).grow_split(0, 100), 8);
}

TEST(Layout, NeverPutsACropOfFullSunIntoShade) {
  GardenModel model = one_bed_garden();
  model.candidates.push_back(candidate_in(model, "a", 3, 9, 500));
  model.candidates.push_back(candidate_in(model, "b", 3, 9, 500));
  model.candidates[1].stands_part_shade = true;
  model.beds.front().sun = bed::SunClass::partial;
  finish_model(model);
  EXPECT_EQ(Layout(model).grow_split(0, 4), 0);
  EXPECT_EQ(Layout(model).grow_split(1, 4), 4);
  model.beds.front().sun = bed::SunClass::shade;
  EXPECT_EQ(Layout(model).grow_split(1, 4), 0);
}

TEST(Layout, NeverOverfillsATray) {
  GardenModel model = one_bed_garden();
  model.trays.push_back({"t", "Tray", 10, 40.0, bed::TrayPlace::indoors, 20.0});
  Candidate raised = candidate_in(model, "a", 6, 12, 100);
  raised.sow_week = 2;
  raised.tray = 0;
  raised.tray_first_week = 2;
  raised.tray_last_week = 5;
  raised.cells_for_clumps =
      std::make_shared<const std::vector<int>>(std::vector<int>{0, 2, 3, 4, 6, 7, 9, 10});
  model.candidates.push_back(raised);
  finish_model(model);
  Layout layout(model);
  EXPECT_EQ(layout.grow_split(0, 50), 7);
  EXPECT_EQ(layout.free_cells(0), 0);
  layout.shrink(0, 3);
  EXPECT_EQ(layout.free_cells(0), 4);
}

TEST(LayoutFaults, SeesAnOverlapAndAStandOutOfItsBed) {
  GardenModel model = one_bed_garden();
  model.candidates.push_back(candidate_in(model, "a", 0, 9, 500));
  model.candidates.push_back(candidate_in(model, "b", 9, 19, 500));
  finish_model(model);
  EXPECT_EQ(layout_faults(model, {{0, 0, 0, 2}, {1, 0, 0, 2}}).size(), 1U);
  EXPECT_EQ(layout_faults(model, {{0, 0, 1600, 2}}).size(), 1U);
  EXPECT_TRUE(layout_faults(model, {{0, 0, 0, 2}, {1, 0, 500, 2}}).empty());
}

// Whatever is added and taken away in whatever order: nothing overlaps, no bed or tray overflows, rotation
// holds.
RC_GTEST_PROP(Layout, StaysFreeOfFaultsUnderAnySequenceOfChanges, ()) {
  SyntheticSize size;
  size.crops = 6;
  size.beds = *rc::gen::inRange<std::size_t>(1, 5);
  size.members = size.scenarios = 2;
  const GardenModel model = synthetic_garden(*rc::gen::inRange<std::uint64_t>(0, 1000), size);
  Layout layout(model);
  const int steps = *rc::gen::inRange(1, 60);
  for (int i = 0; i < steps; ++i) {
    const auto candidate = *rc::gen::inRange<std::size_t>(0, model.candidates.size());
    const int clumps = *rc::gen::inRange(1, 40);
    switch (*rc::gen::inRange(0, 3)) {
      case 0:
        layout.grow(candidate, clumps);
        break;
      case 1:
        layout.grow_split(candidate, clumps);
        break;
      default:
        if (!layout.stands().empty())
          layout.shrink(*rc::gen::inRange<std::size_t>(0, layout.stands().size()), clumps);
        break;
    }
  }
  RC_ASSERT(layout_faults(model, layout.stands()).empty());
}

}  // namespace
}  // namespace sowtide::plan
