#include "climate/hourly.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <numeric>

namespace {

using sowtide::climate::hourly_temperatures;
using sowtide::climate::HourlyTemperatures;

RC_GTEST_PROP(HourlyTemperatures, StayBetweenTheExtremesGiven, ()) {
  const double tmin = *rc::gen::inRange(-400, 300) / 10.0;
  const double tmax = tmin + *rc::gen::inRange(0, 300) / 10.0;
  const double previous_tmax = *rc::gen::inRange(-400, 450) / 10.0;
  const double next_tmin = *rc::gen::inRange(-400, 300) / 10.0;
  const double day_length = *rc::gen::inRange(0, 241) / 10.0;
  const HourlyTemperatures hours = hourly_temperatures(tmin, tmax, previous_tmax, next_tmin, day_length);
  const auto [low, high] = std::minmax({tmin, tmax, previous_tmax, next_tmin});
  for (const double hour : hours) {
    RC_ASSERT(hour >= low - 1e-9);
    RC_ASSERT(hour <= high + 1e-9);
  }
}

TEST(HourlyTemperatures, AreConstantWhenTheExtremesAreOne) {
  for (const double hour : hourly_temperatures(7.0, 7.0, 7.0, 7.0, 13.0)) EXPECT_NEAR(hour, 7.0, 1e-12);
}

TEST(HourlyTemperatures, AreWarmestInTheEarlyAfternoonAndColdestBeforeSunrise) {
  const HourlyTemperatures hours = hourly_temperatures(10.0, 30.0, 30.0, 10.0, 12.0);
  const auto warmest = std::max_element(hours.begin(), hours.end()) - hours.begin();
  const auto coldest = std::min_element(hours.begin(), hours.end()) - hours.begin();
  EXPECT_EQ(warmest, 13);
  EXPECT_EQ(coldest, 5);
  EXPECT_GT(hours[13], 29.8);
}

TEST(HourlyTemperatures, HoldInThePolarDayAndNight) {
  for (const double day_length : {0.0, 24.0}) {
    const HourlyTemperatures hours = hourly_temperatures(-5.0, 5.0, 5.0, -5.0, day_length);
    EXPECT_GT(*std::max_element(hours.begin(), hours.end()), 3.0);
    EXPECT_LT(*std::min_element(hours.begin(), hours.end()), -3.5);
  }
}

}  // namespace
