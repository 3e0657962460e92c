// Laws of emergence by thermal time.
#include "crop/emergence.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>

#include "example_crop.hpp"

namespace sowtide::crop {
namespace {

using testing::example_crop;

double number_in(double low, double high) {
  const int step = *rc::gen::inRange(0, 100001);
  return low + (high - low) * step / 100000.0;
}

TEST(ThermalRate, IsZeroAtAndBelowBaseAndFromTheCeilingOn) {
  for (const double t : {-10.0, 0.0, 2.0, 40.0, 41.0, 60.0})
    EXPECT_EQ(thermal_rate(2, 22, 30, 40, t), 0.0) << t;
}

TEST(ThermalRate, RisesToThePlateauAndFallsInAStraightLine) {
  EXPECT_DOUBLE_EQ(thermal_rate(2, 22, 30, 40, 12), 10.0);
  EXPECT_DOUBLE_EQ(thermal_rate(2, 22, 30, 40, 22), 20.0);
  EXPECT_DOUBLE_EQ(thermal_rate(2, 22, 30, 40, 26), 20.0);
  EXPECT_DOUBLE_EQ(thermal_rate(2, 22, 30, 40, 35), 10.0);
}

TEST(ThermalRate, IsZeroForNoNumber) {
  EXPECT_EQ(thermal_rate(2, 22, 30, 40, std::nan("")), 0.0);
}

RC_GTEST_PROP(ThermalRate, IsContinuousAndNeverAboveThePlateau, ()) {
  const double base = number_in(-2, 15);
  const double low = base + number_in(1, 20);
  const double high = low + number_in(0, 10);
  const double ceiling = high + number_in(1, 15);
  const double t = number_in(base - 5, ceiling + 5);
  const double here = thermal_rate(base, low, high, ceiling, t);
  const double beside = thermal_rate(base, low, high, ceiling, t + 1e-6);
  RC_ASSERT(here >= 0.0 && here <= low - base + 1e-12);
  RC_ASSERT(std::abs(here - beside) < 1e-6 * (1.0 + (low - base) / (ceiling - high)) + 1e-9);
}

TEST(DailyThermalTime, IntegratesHoursNotTheMean) {
  // Sine days of seed-and-emergence literature: with a base inside the day's range the mean loses warmth.
  // Worked by hand here: 12 hours at 0 and 12 at 10 °C above a base of 4 give 12 x 6 / 24 = 3, the mean of 5
  // gives 1.
  std::array<double, 24> hours{};
  for (std::size_t h = 12; h < 24; ++h) hours[h] = 10.0;
  CardinalTemperatures cardinal;
  cardinal.base_c.value = 4;
  cardinal.optimum_low_c.value = 25;
  cardinal.optimum_high_c.value = 30;
  cardinal.ceiling_c.value = 40;
  EXPECT_DOUBLE_EQ(daily_thermal_time(cardinal, hours), 3.0);
  EXPECT_DOUBLE_EQ(thermal_rate(cardinal, 5.0), 1.0);
}

TEST(Emergence, AtConstantTemperatureIsThermalTimeOverRate) {
  const auto made = emergence_at(example_crop(), 12.0, 10.0);
  ASSERT_TRUE(made.has_value());
  EXPECT_NEAR(made->days.p50, 10.0, 1e-12);
  EXPECT_NEAR(made->days.p90 / made->days.p50, std::exp(0.25 * 1.2815515655446004), 1e-9);
  EXPECT_NEAR(made->days.p10 * made->days.p90, 100.0, 1e-9);
  EXPECT_NEAR(made->final_pct, 80.0 * 0.85, 1e-9);
}

TEST(Emergence, DeeperTakesLongerAndShallowerLess) {
  const Crop crop = example_crop();
  EXPECT_NEAR(emergence_at(crop, 12.0, 30.0)->days.p50, 11.0, 1e-12);
  EXPECT_NEAR(emergence_at(crop, 12.0, 0.0)->days.p50, 9.5, 1e-12);
}

TEST(Emergence, NeverBelowBaseOrAboveCeiling) {
  const Crop crop = example_crop();
  for (const double t : {-5.0, 2.0, 40.0, 55.0}) {
    const auto made = emergence_at(crop, t, 10.0);
    ASSERT_FALSE(made.has_value()) << t;
    EXPECT_EQ(made.error().code, base::ProblemCode::out_of_range);
  }
}

TEST(Emergence, RefusesImpossibleDepthAndPercentage) {
  const Crop crop = example_crop();
  EXPECT_FALSE(emergence_at(crop, 15.0, -1.0).has_value());
  EXPECT_FALSE(emergence_at(crop, 15.0, std::nan("")).has_value());
  EXPECT_FALSE(emergence_at(crop, 15.0, 10.0, 101.0).has_value());
}

TEST(Emergence, SoilFactorSlowsTheSoilOnly) {
  Crop crop = example_crop();
  crop.germination.soil_factor = Figure{.value = 2.0};
  const auto made = emergence_at(crop, 12.0, 10.0);
  ASSERT_TRUE(made.has_value());
  EXPECT_NEAR(made->days.p50, 10.0, 1e-12);
  EXPECT_NEAR(made->soil_days.p50, 20.0, 1e-12);
  EXPECT_NEAR(emerged_share(crop, 200.0, 10.0), 0.5, 1e-12);
}

TEST(FinalFraction, IsLinearBetweenThePointsAndHeldOutside) {
  const Crop crop = example_crop();
  EXPECT_DOUBLE_EQ(final_fraction_at(crop, 0.0), 0.5);
  EXPECT_DOUBLE_EQ(final_fraction_at(crop, 10.0), 0.75);
  EXPECT_DOUBLE_EQ(final_fraction_at(crop, 20.0), 1.0);
  EXPECT_DOUBLE_EQ(final_fraction_at(crop, 30.0), 0.6);
  EXPECT_DOUBLE_EQ(final_fraction_at(crop, 45.0), 0.2);
}

RC_GTEST_PROP(EmergedShare, RisesFromNoneToAll, ()) {
  const Crop crop = example_crop();
  const double a = number_in(0, 500);
  const double b = a + number_in(0, 500);
  const double depth = number_in(0, 60);
  const double first = emerged_share(crop, a, depth);
  const double second = emerged_share(crop, b, depth);
  RC_ASSERT(first >= 0.0 && second <= 1.0 && first <= second);
  RC_ASSERT(emerged_share(crop, 1e6, depth) > 0.999999);
  RC_ASSERT(emerged_share(crop, 0.0, depth) == 0.0);
}

TEST(EmergenceByDay, AgreesWithTheConstantAnswer) {
  const Crop crop = example_crop();
  const std::vector<double> hours(24 * 40, 12.0);
  const std::vector<double> share = emergence_by_day(crop, hours, 10.0);
  ASSERT_EQ(share.size(), 40U);
  EXPECT_NEAR(share[9], 0.5 * 0.85, 1e-9);  // ten days at 10 °C d a day, 85 % of live seed come up at 12 °C
  EXPECT_NEAR(share[39], 0.85, 1e-6);
}

RC_GTEST_PROP(EmergenceByDay, NeverFallsAndColdDaysAddNothing, ()) {
  const Crop crop = example_crop();
  std::vector<double> hours;
  const int days = *rc::gen::inRange(1, 40);
  for (int h = 0; h < 24 * days; ++h) hours.push_back(number_in(-10, 45));
  std::vector<double> share = emergence_by_day(crop, hours, 10.0);
  for (std::size_t d = 1; d < share.size(); ++d) RC_ASSERT(share[d] >= share[d - 1]);
  hours.insert(hours.end(), 24 * 3, -5.0);
  const std::vector<double> longer = emergence_by_day(crop, hours, 10.0);
  RC_ASSERT(longer.size() == share.size() + 3);
  RC_ASSERT(longer.back() == share.back());
}

TEST(EmergenceByDay, OfNothingIsNothing) {
  EXPECT_TRUE(emergence_by_day(example_crop(), {}, 10.0).empty());
}

}  // namespace
}  // namespace sowtide::crop
