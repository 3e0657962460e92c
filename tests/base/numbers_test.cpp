// Quantities, quantiles and the normal distribution.
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/quantile.hpp"
#include "base/quantity.hpp"

namespace sowtide::base {
namespace {

TEST(Quantity, TemperaturesAreThoseOfTheTwoFixedPoints) {
  EXPECT_DOUBLE_EQ(Celsius::from_fahrenheit(32.0).value(), 0.0);
  EXPECT_DOUBLE_EQ(Celsius::from_fahrenheit(212.0).value(), 100.0);
  EXPECT_DOUBLE_EQ(Celsius::from_fahrenheit(-40.0).value(), -40.0);
  EXPECT_DOUBLE_EQ((Celsius::of(20.0) - Celsius::of(5.0)).value(), 15.0);
  EXPECT_DOUBLE_EQ((Celsius::of(5.0) + KelvinDifference::of(2.5)).value(), 7.5);
}

TEST(Quantity, FollowsTheDefinitionsOfInchPoundAndGallon) {
  // NIST Handbook 44 (2024), appendix C: 1 inch = 25.4 mm, 1 pound = 453.59237 g, 1 gallon = 3.785411784 L,
  // exactly.
  EXPECT_DOUBLE_EQ(12.0 * kMillimetresPerInch, 1000.0 * kMetresPerFoot);
  EXPECT_DOUBLE_EQ(16.0 * kGramsPerOunce, kGramsPerPound);
  EXPECT_NEAR(231.0 * std::pow(kMillimetresPerInch / 100.0, 3.0), kLitresPerUsGallon, 1e-12);
}

TEST(Quantity, AddsScalesAndDividesByItsLike) {
  const Metres a = Metres::of(1.5);
  EXPECT_DOUBLE_EQ((a + a * 2.0 - a / 3.0).value(), 4.0);
  EXPECT_DOUBLE_EQ(Metres::of(6.0) / Metres::of(1.5), 4.0);
  EXPECT_LT(-a, a);
  EXPECT_EQ(Millimetres::symbol(), "mm");
}

RC_GTEST_PROP(QuantityLaws, FahrenheitAndBackIsTheSameToTheLastDigits, (int tenths)) {
  const double celsius = (tenths % 2000) / 10.0;
  RC_ASSERT(std::abs(Celsius::from_fahrenheit(Celsius::of(celsius).fahrenheit()).value() - celsius) < 1e-12);
}

TEST(Quantile, AgreesWithDefinition7OfHyndmanAndFan) {
  // Python 3.11, statistics.quantiles(sample, n=10, method='inclusive'), which is definition 7.
  const std::array<double, 9> expected{1.0, 2.66, 3.14, 3.3, 3.3, 5.94, 7.98, 8.82, 10.26};
  std::vector<double> sample{9.1, 2.5, 7.7, 3.3, 3.3, 12.0, -1.25};
  const Quantiles three = quantiles(sample);
  std::sort(sample.begin(), sample.end());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    EXPECT_NEAR(quantile_of_sorted(sample, static_cast<double>(i + 1) / 10.0), expected[i], 1e-12);
  }
  EXPECT_NEAR(three.p10, 1.0, 1e-12);
  EXPECT_NEAR(three.p50, 3.3, 1e-12);
  EXPECT_NEAR(three.p90, 10.26, 1e-12);
}

TEST(Quantile, OfOneValueIsThatValue) {
  const std::vector<double> one{4.5};
  for (const double p : {0.0, 0.3, 1.0}) EXPECT_DOUBLE_EQ(quantile_of_sorted(one, p), 4.5);
}

TEST(Moments, AgreeWithPythonsStatistics) {
  // Python 3.11: statistics.fmean and statistics.stdev.
  const std::vector<double> sample{9.1, 2.5, 7.7, 3.3, 3.3, 12.0, -1.25};
  EXPECT_NEAR(mean(sample), 5.235714285714286, 1e-14);
  EXPECT_NEAR(standard_deviation(sample), 4.542458428145333, 1e-14);
}

TEST(NormalDistribution, AgreesWithPythonsNormalDist) {
  // Python 3.11: statistics.NormalDist().inv_cdf and .cdf.
  EXPECT_NEAR(normal_quantile(0.025), -1.9599639845400538, 1e-13);
  EXPECT_NEAR(normal_quantile(0.1), -1.2815515655446008, 1e-13);
  EXPECT_NEAR(normal_quantile(0.5), 0.0, 1e-15);
  EXPECT_NEAR(normal_quantile(0.999), 3.090232306167813, 1e-12);
  EXPECT_NEAR(normal_cdf(-3.0), 0.0013498980316301035, 1e-15);
  EXPECT_NEAR(normal_cdf(0.5), 0.6914624612740131, 1e-14);
}

RC_GTEST_PROP(QuantileLaws, RiseWithTheProbabilityAndStayInsideTheSample,
              (std::vector<std::int16_t> numbers)) {
  RC_PRE(!numbers.empty());
  std::vector<double> sample(numbers.begin(), numbers.end());
  std::sort(sample.begin(), sample.end());
  double last = sample.front();
  for (int step = 0; step <= 20; ++step) {
    const double q = quantile_of_sorted(sample, step / 20.0);
    RC_ASSERT(q >= last && q <= sample.back());
    last = q;
  }
  RC_ASSERT(quantile_of_sorted(sample, 0.0) == sample.front());
  RC_ASSERT(quantile_of_sorted(sample, 1.0) == sample.back());
}

}  // namespace
}  // namespace sowtide::base
