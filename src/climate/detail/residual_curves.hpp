// What the generator and its fitting share: the daily course of one variable's mean, spread and shape.
#pragma once

#include "climate/generator.hpp"

namespace sowtide::climate::detail {

inline constexpr std::size_t kTmax = 0;
inline constexpr std::size_t kTmin = 1;
inline constexpr std::size_t kClearness = 2;

/// Mean, spread and shape of one variable on each day.
struct VariableCurves {
  DailyCurve dry_mean{};
  DailyCurve wet_mean{};
  DailyCurve dry_sd{};
  DailyCurve wet_sd{};
  DailyCurve fast_weight{};
  DailyCurve slow_weight{};
  double year_weight = 0.0;
  std::array<ResidualShape, kClimatologicalDayCount> shape{};
};

/// Lays monthly parameters through the year. `wet_fraction` is the course of the share of wet days.
[[nodiscard]] VariableCurves variable_curves(const VariableParameters& parameters,
                                             const DailyCurve& wet_fraction);

/// Standardised residual at a normal score, and back. A shape rises strictly.
[[nodiscard]] double shaped(const ResidualShape& shape, double score);
[[nodiscard]] double score_of(const ResidualShape& shape, double residual);

/// The shape moved and scaled so that a standard normal score gives mean 0 and variance 1.
[[nodiscard]] ResidualShape standardised(const ResidualShape& shape);

/// How far the probability of a wet day moves with the slow normal g (change for one unit of g): density at
/// its normal quantile times b/sqrt(1 + b²), and through the days before 1/(1 - persistence x
/// exp(-1/slow_days)) of it.
[[nodiscard]] double wet_response(const RainParameters& rain, double wet_fraction, double persistence);

}  // namespace sowtide::climate::detail
