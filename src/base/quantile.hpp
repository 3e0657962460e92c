// Sample quantiles by linear interpolation between order statistics (definition 7 of R. J. Hyndman and
// Y. Fan 1996, Am. Stat. 50:361): position (n-1)p in the sorted sample.
#pragma once

#include <span>
#include <vector>

namespace sowtide::base {

/// The three numbers shown everywhere: one time in ten below, half below, nine times in ten below.
struct Quantiles {
  double p10 = 0.0;
  double p50 = 0.0;
  double p90 = 0.0;
};

/// Quantile of an ascending sample; p in 0..1; the sample must not be empty and holds no NaN.
[[nodiscard]] double quantile_of_sorted(std::span<const double> sorted, double p);

/// P10, P50 and P90 of a sample in any order. Must not be empty.
[[nodiscard]] Quantiles quantiles(std::vector<double> sample);

/// Arithmetic mean; the sample must not be empty.
[[nodiscard]] double mean(std::span<const double> sample);

/// Standard deviation with n-1; needs two values.
[[nodiscard]] double standard_deviation(std::span<const double> sample);

/// Standard normal distribution function and its inverse (p in 0..1, exclusive).
[[nodiscard]] double normal_cdf(double z);
[[nodiscard]] double normal_quantile(double p);

}  // namespace sowtide::base
