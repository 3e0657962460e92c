#include "desk/stand_stage.hpp"

#include <gtest/gtest.h>

namespace sowtide::desk {
namespace {

stand::StandPlan raised_without_a_tray() {
  stand::StandPlan plan;
  plan.crop = "tomato";
  plan.method = stand::Method::start_indoors;
  plan.sow = base::date_of(2026, 3, 2);
  return plan;
}

TEST(ComesBought, NeedsADayOfSettingOut) {
  stand::StandPlan plan = raised_without_a_tray();
  EXPECT_FALSE(comes_bought(plan, {})) << "in a tray that nobody told";
  EXPECT_TRUE(comes_bought(plan, {.set_out = base::date_of(2026, 5, 12)})) << "nobody here sowed it";
  plan.set_out = base::date_of(2026, 5, 12);
  EXPECT_TRUE(comes_bought(plan, {}));
  EXPECT_TRUE(to_be_bought(plan, {}));
}

TEST(ComesBought, NothingThatWasRaisedHere) {
  stand::StandPlan plan = raised_without_a_tray();
  plan.set_out = base::date_of(2026, 5, 12);
  EXPECT_FALSE(comes_bought(plan, {.sown = plan.sow}));
  EXPECT_FALSE(comes_bought(plan, {.emerged = plan.sow}));
  plan.tray = "sill";
  EXPECT_FALSE(comes_bought(plan, {.set_out = base::date_of(2026, 5, 12)}));
}

TEST(ToBeBought, IsOverOnceItIsSetOut) {
  stand::StandPlan plan = raised_without_a_tray();
  plan.set_out = base::date_of(2026, 5, 12);
  const stand::StandFacts set_out{.set_out = base::date_of(2026, 5, 14)};
  EXPECT_TRUE(comes_bought(plan, set_out));
  EXPECT_FALSE(to_be_bought(plan, set_out));
}

}  // namespace
}  // namespace sowtide::desk
