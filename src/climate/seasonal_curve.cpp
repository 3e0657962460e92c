#include "climate/seasonal_curve.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "climate/detail/small_matrix.hpp"

namespace sowtide::climate {
namespace {

constexpr std::array<int, kMonthCount> kMonthDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// -B4 of the periodic distance x in years: up to a factor the sum over k of cos(2 pi k x) / k^4.
double periodic_kernel(double x) {
  x -= std::floor(x);
  return -(x * x * x * x - 2.0 * x * x * x + x * x - 1.0 / 30.0);
}

using Basis = detail::Matrix<kClimatologicalDayCount, kMonthCount>;

/// Entry (day, month): the kernel centred on each day of the month, averaged.
Basis averaged_kernel() {
  Basis spread{};
  for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
    for (std::size_t other = 0; other < kClimatologicalDayCount; ++other) {
      const std::size_t month = month_of_curve_day(other);
      const double x = (static_cast<double>(day) - static_cast<double>(other)) / kClimatologicalDayCount;
      spread[day][month] += periodic_kernel(x) / kMonthDays[month];
    }
  }
  return spread;
}

/// Column m is the curve for a year that has 1 in month m and 0 elsewhere; every curve is a sum of these.
Basis make_basis() {
  const Basis spread = averaged_kernel();
  // Unknown: one weight a month and a constant; the weights sum to zero, since a constant costs nothing.
  detail::Matrix<kMonthCount + 1, kMonthCount + 1> system{};
  detail::Matrix<kMonthCount + 1, kMonthCount> targets{};
  for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
    const std::size_t row = month_of_curve_day(day);
    for (std::size_t month = 0; month < kMonthCount; ++month) {
      system[row][month] += spread[day][month] / kMonthDays[row];
    }
  }
  for (std::size_t month = 0; month < kMonthCount; ++month) {
    system[month][kMonthCount] = 1.0;
    system[kMonthCount][month] = 1.0;
    targets[month][month] = 1.0;
  }
  const auto weights = detail::solve(system, targets);
  Basis basis{};
  for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
    for (std::size_t column = 0; column < kMonthCount; ++column) {
      double sum = weights[kMonthCount][column];
      for (std::size_t month = 0; month < kMonthCount; ++month)
        sum += spread[day][month] * weights[month][column];
      basis[day][column] = sum;
    }
  }
  return basis;
}

}  // namespace

std::size_t month_of_curve_day(std::size_t day_index) {
  static const auto months = [] {
    std::array<std::uint8_t, kClimatologicalDayCount> table{};
    std::size_t day = 0;
    for (std::size_t month = 0; month < kMonthCount; ++month) {
      for (int i = 0; i < kMonthDays[month]; ++i) table[day++] = static_cast<std::uint8_t>(month);
    }
    return table;
  }();
  return months[day_index];
}

MonthlyValues monthly_means(const DailyCurve& curve) {
  MonthlyValues sums{};
  for (std::size_t day = 0; day < curve.size(); ++day) sums[month_of_curve_day(day)] += curve[day];
  for (std::size_t month = 0; month < kMonthCount; ++month) sums[month] /= kMonthDays[month];
  return sums;
}

DailyCurve smooth_curve(const MonthlyValues& monthly) {
  static const Basis basis = make_basis();
  DailyCurve curve{};
  for (std::size_t day = 0; day < curve.size(); ++day) {
    for (std::size_t month = 0; month < kMonthCount; ++month)
      curve[day] += basis[day][month] * monthly[month];
  }
  return curve;
}

DailyCurve smooth_curve_within(const MonthlyValues& monthly, double low, double high) {
  constexpr int kMaximumRounds = 40;
  const auto [least, most] = std::minmax_element(monthly.begin(), monthly.end());
  const double tolerance = 1e-3 * (*most - *least) + 1e-12;
  MonthlyValues aim = monthly;
  DailyCurve curve{};
  for (int round = 0; round < kMaximumRounds; ++round) {
    curve = smooth_curve(aim);
    for (double& value : curve) value = std::clamp(value, low, high);
    // What clamping cut off in one part of a month is given back to the rest of it.
    const MonthlyValues reached = monthly_means(curve);
    double worst = 0.0;
    for (std::size_t month = 0; month < kMonthCount; ++month) {
      const double missing = std::clamp(monthly[month], low, high) - reached[month];
      worst = std::max(worst, std::abs(missing));
      aim[month] += missing;
    }
    if (worst <= tolerance) break;
  }
  return curve;
}

}  // namespace sowtide::climate
