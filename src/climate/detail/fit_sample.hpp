// What the parts of the generator's fitting share: the record as they see it, and small sums.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "climate/detail/residual_curves.hpp"
#include "climate/generator.hpp"

namespace sowtide::climate::detail {

/// The record as the fit sees it: one entry a day, with holes.
struct Sample {
  std::vector<std::size_t> curve_day;  ///< 0..364
  std::vector<int> year;
  std::vector<double> rain_mm;                            ///< NaN where unknown
  std::array<std::vector<double>, kResidualCount> value;  ///< tmax, tmin, clearness; NaN where unknown

  [[nodiscard]] std::size_t size() const { return curve_day.size(); }
  [[nodiscard]] std::size_t month(std::size_t i) const { return month_of_curve_day(curve_day[i]); }
  [[nodiscard]] bool usable(std::size_t i) const {
    return !std::isnan(rain_mm[i]) && !std::isnan(value[kTmax][i]) && !std::isnan(value[kTmin][i]);
  }
};

/// A mean that leans on another where there is little to go by.
[[nodiscard]] inline double shrunk(double own, double count, double other, double weight) {
  return (own * count + other * weight) / (count + weight);
}

/// True for a month, the one before and the one after (0..11).
[[nodiscard]] inline bool within_one_month(std::size_t a, std::size_t b) {
  const std::size_t apart = a > b ? a - b : b - a;
  return apart <= 1 || apart == kMonthCount - 1;
}

/// Running sums of a sample.
struct Moments {
  double count = 0.0, sum = 0.0, square = 0.0;
  void add(double x) {
    count += 1.0;
    sum += x;
    square += x * x;
  }
  void add(const Moments& other) {
    count += other.count;
    sum += other.sum;
    square += other.square;
  }
  [[nodiscard]] double mean() const { return count > 0.0 ? sum / count : 0.0; }
  /// With count - 1.
  [[nodiscard]] double variance() const {
    return count > 1.0 ? std::max(0.0, square - count * mean() * mean()) / (count - 1.0) : 0.0;
  }
  /// About zero: for residuals whose mean has been taken off already.
  [[nodiscard]] double root_mean_square() const { return count > 0.0 ? std::sqrt(square / count) : 0.0; }
};

/// Rain parameters; the slow ones only when `slow`.
[[nodiscard]] RainParameters fit_rain(const Sample& sample, double threshold_mm, bool slow);

}  // namespace sowtide::climate::detail
