#include "climate/seasonal_curve.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace sowtide::climate {
namespace {

MonthlyValues arbitrary_months() {
  MonthlyValues monthly{};
  for (double& value : monthly) value = 0.01 * *rc::gen::inRange(-4000, 4000);
  return monthly;
}

RC_GTEST_PROP(SeasonalCurve, KeepsEveryMonthlyMean, ()) {
  const MonthlyValues monthly = arbitrary_months();
  const MonthlyValues reached = monthly_means(smooth_curve(monthly));
  for (std::size_t m = 0; m < kMonthCount; ++m) RC_ASSERT(std::abs(reached[m] - monthly[m]) < 1e-9);
}

TEST(SeasonalCurve, OfEqualMonthsIsFlat) {
  MonthlyValues monthly{};
  monthly.fill(7.5);
  for (const double value : smooth_curve(monthly)) EXPECT_NEAR(value, 7.5, 1e-9);
}

TEST(SeasonalCurve, GivesBackAYearlyWaveFromItsMonthlyMeans) {
  DailyCurve wave{};
  for (std::size_t day = 0; day < wave.size(); ++day) {
    wave[day] = 10.0 + 12.0 * std::cos(2.0 * std::numbers::pi * (static_cast<double>(day) - 200.0) / 365.0);
  }
  const DailyCurve curve = smooth_curve(monthly_means(wave));
  for (std::size_t day = 0; day < wave.size(); ++day) EXPECT_NEAR(curve[day], wave[day], 0.03) << day;
}

TEST(SeasonalCurve, ClosesOverTheNewYear) {
  const DailyCurve curve = smooth_curve({3, 4, 7, 10, 15, 18, 20, 19, 16, 11, 7, 4});
  const double across = curve.front() - curve.back();
  const double before = curve[364] - curve[363];
  EXPECT_NEAR(across, before, 0.02);
}

TEST(SeasonalCurve, StaysInsideItsBoundsAndKeepsADryMonthNearlyDry) {
  // Monthly rain days of a place with a dry summer.
  const MonthlyValues monthly = {0.35, 0.33, 0.25, 0.12, 0.04, 0.0, 0.0, 0.0, 0.03, 0.14, 0.27, 0.36};
  const DailyCurve curve = smooth_curve_within(monthly, 0.0, 0.98);
  for (const double value : curve) {
    EXPECT_GE(value, 0.0);
    EXPECT_LE(value, 0.98);
  }
  const MonthlyValues reached = monthly_means(curve);
  for (std::size_t m = 0; m < kMonthCount; ++m) EXPECT_NEAR(reached[m], monthly[m], 0.003) << m;
}

}  // namespace
}  // namespace sowtide::climate
