// When a stand goes out and how long it holds its bed.
#include "stand/stay.hpp"

#include <gtest/gtest.h>

namespace sowtide::stand {
namespace {

using base::date_of;

const base::Date kToday = date_of(2026, 4, 27);

StandPlan lettuces() {
  return {.id = "s1",
          .crop = "lettuce",
          .method = Method::start_indoors,
          .sow = date_of(2026, 3, 20),
          .tray = "t"};
}

TEST(GoesOutOn, IsTheDayDoneOrDecidedOrExpected) {
  StandPlan plan = lettuces();
  StandFacts facts;
  EXPECT_FALSE(goes_out_on(plan, facts, {}, kToday));
  const base::Date expected = date_of(2026, 5, 4), decided = date_of(2026, 5, 11),
                   done = date_of(2026, 4, 20);
  EXPECT_EQ(goes_out_on(plan, facts, expected, kToday), expected);
  plan.set_out = decided;
  EXPECT_EQ(goes_out_on(plan, facts, expected, kToday), decided);
  facts.set_out = done;
  EXPECT_EQ(goes_out_on(plan, facts, expected, kToday), done);
}

TEST(GoesOutOn, IsNoDayBeforeTodayWhileItWaits) {
  StandPlan plan = lettuces();
  plan.set_out = date_of(2026, 4, 15);
  StandFacts facts{.sown = plan.sow};
  EXPECT_EQ(goes_out_on(plan, facts, {}, kToday), kToday);
  plan.set_out.reset();
  EXPECT_EQ(goes_out_on(plan, facts, date_of(2026, 4, 15), kToday), kToday);
  facts.first_picked = kToday;  // it was set out, whatever the log says of when
  EXPECT_EQ(goes_out_on(plan, facts, date_of(2026, 4, 15), kToday), date_of(2026, 4, 15));
}

TEST(EntersBedOn, IsTheSowingInPlace) {
  StandPlan plan = lettuces();
  plan.method = Method::direct_sow;
  EXPECT_EQ(enters_bed_on(plan, {}, {}, kToday), plan.sow);
  EXPECT_EQ(enters_bed_on(plan, {.sown = date_of(2026, 3, 22)}, {}, kToday), date_of(2026, 3, 22));
  plan.method = Method::start_indoors;
  EXPECT_FALSE(enters_bed_on(plan, {}, {}, kToday));
}

TEST(LeavesBedOn, HoldsTheGroundForAMonthWithoutAHarvest) {
  EXPECT_EQ(leaves_bed_on(kToday, date_of(2026, 6, 1)), date_of(2026, 6, 1));
  EXPECT_EQ(leaves_bed_on(kToday, date_of(2026, 4, 1)), kToday);
  EXPECT_EQ(leaves_bed_on(kToday, {}), date_of(2026, 5, 27));
}

}  // namespace
}  // namespace sowtide::stand
