#include "climate/degree_days.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace {

using namespace sowtide::climate;

constexpr int kSteps = 20000;

/// Brute force: the curve itself, hour by hour, held between the thresholds.
double by_adding_up(double tmin, double tmax, double base, double upper, bool sine) {
  double sum = 0.0;
  for (int i = 0; i < kSteps; ++i) {
    const double phase = (i + 0.5) / kSteps;
    const double share =
        sine ? 0.5 + 0.5 * std::sin(2.0 * std::numbers::pi * phase) : 1.0 - std::abs(2.0 * phase - 1.0);
    const double temp = tmin + (tmax - tmin) * share;
    sum += std::max(0.0, std::min(temp, upper) - base);
  }
  return sum / kSteps;
}

RC_GTEST_PROP(DegreeDays, OfSineAndTriangleAreTheAreaUnderTheCurve, ()) {
  const double tmin = *rc::gen::inRange(-200, 300) / 10.0;
  const double tmax = tmin + *rc::gen::inRange(1, 250) / 10.0;
  const double base = *rc::gen::inRange(-50, 150) / 10.0;
  const double upper = base + *rc::gen::inRange(10, 300) / 10.0;
  const DayExtremes day{tmin, tmax, tmin};
  const double sine = degree_days(day, {DegreeDayMethod::single_sine, base, upper});
  const double triangle = degree_days(day, {DegreeDayMethod::single_triangle, base, upper});
  RC_ASSERT(std::abs(sine - by_adding_up(tmin, tmax, base, upper, true)) < 0.01);
  RC_ASSERT(std::abs(triangle - by_adding_up(tmin, tmax, base, upper, false)) < 0.01);
}

RC_GTEST_PROP(DegreeDays, AreNeverNegativeAndGrowWithTheMaximum, ()) {
  const double tmin = *rc::gen::inRange(-200, 300) / 10.0;
  const double tmax = tmin + *rc::gen::inRange(0, 250) / 10.0;
  const double warmer = tmax + *rc::gen::inRange(0, 50) / 10.0;
  const DegreeDayRule rule{
      *rc::gen::element(DegreeDayMethod::average, DegreeDayMethod::adjusted_average,
                        DegreeDayMethod::meteorological, DegreeDayMethod::single_triangle,
                        DegreeDayMethod::double_triangle, DegreeDayMethod::single_sine,
                        DegreeDayMethod::double_sine),
      5.0, std::nullopt};
  const double cool = degree_days({tmin, tmax, tmin}, rule);
  RC_ASSERT(cool >= 0.0);
  RC_ASSERT(degree_days({tmin, warmer, tmin}, rule) >= cool - 1e-9);
}

TEST(DegreeDays, HoldWhenTheNightAfterIsWarmerThanTheDay) {
  EXPECT_GE(degree_days({2.0, 8.0, 11.0}, {DegreeDayMethod::double_sine, 5.0, std::nullopt}), 0.0);
}

TEST(DegreeDays, KnowTheirMethodsByName) {
  for (const char* name : {"average", "adjusted-average", "meteorological", "single-triangle",
                           "double-triangle", "single-sine", "double-sine"}) {
    ASSERT_TRUE(degree_day_method_from(name));
    EXPECT_EQ(degree_day_method_text(*degree_day_method_from(name)), name);
  }
  EXPECT_FALSE(degree_day_method_from("guess"));
}

TEST(ThermalTime, OfAConstantDayIsTheHeightAboveTheBase) {
  const std::vector<double> hours(24, 18.0);
  EXPECT_DOUBLE_EQ(triangular_thermal_time_cd(hours, 5.0, 28.0, 36.0), 13.0);
}

TEST(ThermalTime, IsNothingBelowBaseAndAboveCeiling) {
  EXPECT_DOUBLE_EQ(triangular_thermal_time_cd(std::vector<double>(24, 5.0), 5.0, 28.0, 36.0), 0.0);
  EXPECT_DOUBLE_EQ(triangular_thermal_time_cd(std::vector<double>(24, 36.0), 5.0, 28.0, 36.0), 0.0);
  EXPECT_NEAR(triangular_thermal_time_cd(std::vector<double>(24, 32.0), 5.0, 28.0, 36.0), 11.5, 1e-12);
}

TEST(ChillingHours, CountFromZeroToSevenPointTwo) {
  EXPECT_DOUBLE_EQ(chilling_hours(std::vector<double>{-0.1, 0.0, 3.0, 7.2, 7.3}), 3.0);
}

}  // namespace
