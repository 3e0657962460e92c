#include "stand/harvest_total.hpp"

#include <gtest/gtest.h>

namespace sowtide::stand {
namespace {

TEST(StillToCome, AddsTheWeeksOfEveryYear) {
  Outlook outlook;
  outlook.members.member_count = 3;
  outlook.members.week_count = 2;
  outlook.members.weekly_g = {100.0, 50.0, 0.0, 0.0, 300.0, 0.0};
  const base::Quantiles total_g = still_to_come_g(outlook);
  EXPECT_DOUBLE_EQ(total_g.p50, 150.0);
  EXPECT_LT(total_g.p10, 150.0);
  EXPECT_GT(total_g.p90, 150.0);
  EXPECT_EQ(still_to_come_g({}).p50, 0.0);
}

}  // namespace
}  // namespace sowtide::stand
