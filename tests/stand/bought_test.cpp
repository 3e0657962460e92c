#include "stand/bought.hpp"

#include <gtest/gtest.h>

namespace sowtide::stand {
namespace {

using base::date_of;

// By the notes of ready_thermal_time_cd in crops/*.toml, from two weeks (beans, sweet corn) to twelve
// (celery, celeriac).
TEST(RaisingDays, AreThoseOfCommonPracticeForEveryCropThatIsSetOut) {
  int raised = 0;
  for (const auto& [id, crop] : crop::built_in_library().crops) {
    if (!crop.nursery.can_transplant) continue;
    ++raised;
    EXPECT_GE(raising_days(crop), 14) << id;
    EXPECT_LE(raising_days(crop), 84) << id;
  }
  EXPECT_GT(raised, 30);
  EXPECT_LT(raising_days(**crop::built_in_library().find("lettuce")),
            raising_days(**crop::built_in_library().find("tomato")));
}

TEST(BoughtAsPlants, IsWhatNeitherIsSownInPlaceNorRaisedInATray) {
  StandPlan plan{.id = "s1", .crop = "tomato"};
  EXPECT_FALSE(bought_as_plants(plan)) << "sown in place";
  plan.method = Method::start_indoors;
  EXPECT_TRUE(bought_as_plants(plan));
  plan.tray = "shelf";
  EXPECT_FALSE(bought_as_plants(plan));
}

TEST(SetOutAsBought, MakesUpTheDayOfSowingAcrossAYearAndALeapDay) {
  const crop::Crop& tomato = **crop::built_in_library().find("tomato");
  for (const base::Date day : {date_of(2027, 1, 1), date_of(2028, 2, 29), date_of(2028, 3, 1)}) {
    StandPlan plan{.id = "s1", .crop = "tomato", .method = Method::start_indoors, .sow = date_of(2020, 1, 1)};
    EXPECT_EQ(begins_on(plan), plan.sow) << "no day of setting out is decided";
    set_out_as_bought(plan, day, tomato);
    EXPECT_EQ(plan.set_out, day);
    EXPECT_EQ((day - plan.sow).count(), raising_days(tomato));
    EXPECT_EQ(begins_on(plan), day);
    plan.tray = "shelf";
    EXPECT_EQ(begins_on(plan), plan.sow) << "raised here, it begins with its sowing";
  }
}

}  // namespace
}  // namespace sowtide::stand
