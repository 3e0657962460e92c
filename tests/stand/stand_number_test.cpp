#include "stand/stand_number.hpp"

#include <gtest/gtest.h>

namespace sowtide::stand {
namespace {

TEST(StandNumber, IsThatOfOurOwnNamesOnly) {
  EXPECT_EQ(stand_number("s17"), 17);
  for (const char* other : {"", "s", "17", "s17b", "s-3", "stand", "s2147483647", "s99999999999"})
    EXPECT_EQ(stand_number(other), 0) << other;
}

TEST(StandNames, CountOnFromTheHighestThatIsTaken) {
  StandNames names;
  EXPECT_EQ(names.next(), "s1");
  for (const char* taken : {"s4", "s2", "north"}) names.take(taken);
  EXPECT_EQ(names.next(), "s5");
  EXPECT_EQ(names.next(), "s6");
}

TEST(StandNames, GiveNoNameTwiceBesideNumbersThatNobodyCountsTo) {
  StandNames names;
  for (const char* taken : {"s2147483647", "s100000000", "s100000001"}) names.take(taken);
  EXPECT_EQ(names.next(), "s100000002");
  EXPECT_EQ(names.next(), "s100000003");
}

}  // namespace
}  // namespace sowtide::stand
