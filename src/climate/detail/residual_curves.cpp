#include "climate/detail/residual_curves.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/quantile.hpp"

namespace sowtide::climate::detail {

VariableCurves variable_curves(const VariableParameters& parameters, const DailyCurve& wet_fraction) {
  VariableCurves curves;
  const DailyCurve mean = smooth_curve(parameters.mean);
  const DailyCurve gap = smooth_curve(parameters.wet_minus_dry);
  curves.dry_sd = smooth_curve_within(parameters.dry_sd, 0.0);
  curves.wet_sd = smooth_curve_within(parameters.wet_sd, 0.0);
  const DailyCurve slow_share = smooth_curve_within(parameters.slow_share, 0.0, 0.9 - parameters.year_share);
  curves.year_weight = std::sqrt(parameters.year_share);
  std::array<DailyCurve, kShapeScores.size()> shapes{};
  for (std::size_t k = 0; k < kShapeScores.size(); ++k) {
    MonthlyValues monthly{};
    for (std::size_t month = 0; month < kMonthCount; ++month) monthly[month] = parameters.shape[month][k];
    shapes[k] = smooth_curve(monthly);
  }
  for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
    // The mean over wet and dry days together stays the climate's mean.
    curves.dry_mean[day] = mean[day] - wet_fraction[day] * gap[day];
    curves.wet_mean[day] = mean[day] + (1.0 - wet_fraction[day]) * gap[day];
    curves.fast_weight[day] = std::sqrt(1.0 - parameters.year_share - slow_share[day]);
    curves.slow_weight[day] = std::sqrt(slow_share[day]);
    for (std::size_t k = 0; k < kShapeScores.size(); ++k) curves.shape[day][k] = shapes[k][day];
  }
  return curves;
}

double shaped(const ResidualShape& shape, double score) {
  const double position = (score - kShapeScores.front()) / (kShapeScores[1] - kShapeScores[0]);
  const double last = static_cast<double>(kShapeScores.size() - 2);
  const double below = std::clamp(std::floor(position), 0.0, last);
  const auto index = static_cast<std::size_t>(below);
  return shape[index] + (position - below) * (shape[index + 1] - shape[index]);
}

double score_of(const ResidualShape& shape, double residual) {
  const auto above = std::upper_bound(shape.begin() + 1, shape.end() - 1, residual);
  const auto index = static_cast<std::size_t>(above - shape.begin()) - 1;
  const double fraction = (residual - shape[index]) / (shape[index + 1] - shape[index]);
  return kShapeScores[index] + fraction * (kShapeScores[index + 1] - kShapeScores[index]);
}

ResidualShape standardised(const ResidualShape& shape) {
  constexpr double kStep = 0.01;
  constexpr int kSteps = 1000;
  double weight = 0.0;
  double mean = 0.0;
  double square = 0.0;
  for (int i = 0; i <= kSteps; ++i) {
    const double score = -5.0 + kStep * i;
    const double density = std::exp(-0.5 * score * score);
    const double value = shaped(shape, score);
    weight += density;
    mean += density * value;
    square += density * value * value;
  }
  mean /= weight;
  const double sd = std::sqrt(square / weight - mean * mean);
  ResidualShape result{};
  for (std::size_t k = 0; k < shape.size(); ++k) result[k] = (shape[k] - mean) / sd;
  return result;
}

double wet_response(const RainParameters& rain, double wet_fraction, double persistence) {
  const double limit = base::normal_quantile(std::clamp(wet_fraction, 0.002, 0.998));
  const double density = std::exp(-0.5 * limit * limit) / std::sqrt(2.0 * std::numbers::pi);
  const double weight = rain.slow_occurrence / std::sqrt(1.0 + rain.slow_occurrence * rain.slow_occurrence);
  return density * weight / (1.0 - persistence * std::exp(-1.0 / rain.slow_days));
}

}  // namespace sowtide::climate::detail
