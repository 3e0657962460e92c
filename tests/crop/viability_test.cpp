// Laws of seed ageing and of the home test.
#include "crop/viability.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace sowtide::crop {
namespace {

const ViabilityConstants kRice{8.242, 4.345, 0.0307, 0.000501};

TEST(Viability, AtTheStartIsTheTest) {
  EXPECT_NEAR(viability_after(kRice, {10.0, 10.0}, 90.0, 0.0).value(), 90.0, 1e-9);
}

RC_GTEST_PROP(Viability, FallsWithTimeWarmthAndDamp, ()) {
  const double temp = *rc::gen::inRange(-10, 40);
  const double moisture = *rc::gen::inRange(6, 20);
  const double days = *rc::gen::inRange(1, 3000);
  const double here = viability_after(kRice, {temp, moisture}, 90.0, days).value();
  RC_ASSERT(here <= 90.0 + 1e-9);
  RC_ASSERT(viability_after(kRice, {temp, moisture}, 90.0, days + 100).value() <= here + 1e-9);
  RC_ASSERT(viability_after(kRice, {temp + 5, moisture}, 90.0, days).value() <= here + 1e-9);
  RC_ASSERT(viability_after(kRice, {temp, moisture + 1}, 90.0, days).value() <= here + 1e-9);
}

TEST(Viability, DryerThanFivePercentIsNoBetter) {
  EXPECT_EQ(days_per_probit(kRice, {20.0, 3.0}).value(), days_per_probit(kRice, {20.0, 5.0}).value());
}

TEST(Viability, RefusesWhatTheEquationDoesNotCover) {
  EXPECT_FALSE(days_per_probit(kRice, {-30.0, 8.0}).has_value());
  EXPECT_FALSE(days_per_probit(kRice, {20.0, 30.0}).has_value());
  EXPECT_FALSE(viability_after(kRice, {20.0, 8.0}, 100.0, 10.0).has_value());
  EXPECT_FALSE(viability_after(kRice, {20.0, 8.0}, 90.0, -1.0).has_value());
  EXPECT_FALSE(moisture_from_humidity(100.0, 20.0, 0.1).has_value());
}

TEST(HomeTest, WithoutSeedsChangesNothing) {
  EXPECT_NEAR(after_home_test(80.0, {0, 0})->mean_pct, 80.0, 1e-9);
}

TEST(HomeTest, MeanIsTheWeighedMean) {
  // Conjugate updating by hand: (0.8 x 10 + 7) / (10 + 10) = 0.75.
  const auto tested = after_home_test(80.0, {10, 7});
  ASSERT_TRUE(tested.has_value());
  EXPECT_NEAR(tested->mean_pct, 75.0, 1e-9);
  EXPECT_LT(tested->pct.p10, tested->pct.p50);
  EXPECT_LT(tested->pct.p50, tested->pct.p90);
}

TEST(HomeTest, QuantilesAreThoseOfTheBetaDistribution) {
  // A prior of two seeds at 50 % is uniform; after 1 of 1 the belief has density 2x, so its quantiles are
  // sqrt(p).
  const auto tested = after_home_test(50.0, {1, 1}, 2.0);
  ASSERT_TRUE(tested.has_value());
  EXPECT_NEAR(tested->pct.p10, 100.0 * std::sqrt(0.1), 1e-6);
  EXPECT_NEAR(tested->pct.p50, 100.0 * std::sqrt(0.5), 1e-6);
  EXPECT_NEAR(tested->pct.p90, 100.0 * std::sqrt(0.9), 1e-6);
}

RC_GTEST_PROP(HomeTest, MoreSeedsBringItNearerToTheTest, ()) {
  const int tens = *rc::gen::inRange(1, 50);
  const auto tested = after_home_test(80.0, {10 * tens, 3 * tens});
  const auto larger = after_home_test(80.0, {10 * (tens + 1), 3 * (tens + 1)});
  RC_ASSERT(tested.has_value() && larger.has_value());
  RC_ASSERT(larger->mean_pct < tested->mean_pct && larger->mean_pct > 30.0);
}

TEST(HomeTest, RefusesMoreThanWereSown) {
  EXPECT_FALSE(after_home_test(80.0, {10, 11}).has_value());
  EXPECT_FALSE(after_home_test(80.0, {-1, 0}).has_value());
  EXPECT_FALSE(after_home_test(0.0, {10, 5}).has_value());
}

}  // namespace
}  // namespace sowtide::crop
