#include "bed/bed.hpp"

#include <gtest/gtest.h>

namespace sowtide::bed {
namespace {

Bed bed_of(double length_m, double width_m) {
  Bed bed;
  bed.id = "a";
  bed.length_m = length_m;
  bed.width_m = width_m;
  return bed;
}

Occupancy taken(double from_m, double to_m, base::Date first, base::Date last) {
  return {.bed = "a", .from_m = from_m, .to_m = to_m, .first = first, .last = last};
}

TEST(Overlap, StretchesThatOnlyTouchDoNotMeet) {
  const base::Date day = base::date_of(2026, 5, 1);
  EXPECT_FALSE(overlap(taken(0.0, 1.0, day, day), taken(1.0, 2.0, day, day)));
  EXPECT_TRUE(overlap(taken(0.0, 1.0, day, day), taken(0.99, 2.0, day, day)));
}

TEST(Overlap, TheLastDayIsIncluded) {
  const base::Date day = base::date_of(2026, 5, 1);
  EXPECT_TRUE(overlap(taken(0.0, 1.0, day, day), taken(0.0, 1.0, day, day + base::Days{9})));
  EXPECT_FALSE(overlap(taken(0.0, 1.0, day, day), taken(0.0, 1.0, day + base::Days{1}, day + base::Days{9})));
}

TEST(Overlap, AnotherBedIsNeverInTheWay) {
  const base::Date day = base::date_of(2026, 5, 1);
  Occupancy other = taken(0.0, 1.0, day, day);
  other.bed = "b";
  EXPECT_FALSE(overlap(taken(0.0, 1.0, day, day), other));
}

TEST(ClumpsAcross, CountsWholeSpacings) {
  EXPECT_EQ(clumps_across(bed_of(3, 1.2), 300), 4);
  EXPECT_EQ(clumps_across(bed_of(3, 1.2), 130), 9);
  EXPECT_EQ(clumps_across(bed_of(3, 1.2), 100), 12);
}

TEST(ClumpsAcross, OneFitsInABedOfHalfTheSpacing) {
  EXPECT_EQ(clumps_across(bed_of(3, 0.45), 900), 1);
  EXPECT_EQ(clumps_across(bed_of(3, 0.40), 900), 0);
}

}  // namespace
}  // namespace sowtide::bed
