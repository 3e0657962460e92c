// Twelve monthly values as a smooth course through the year.
//
// A monthly normal is the mean of its days, so a line drawn through mid-months clips every peak. The curve
// here is the smoothest one (least integral of the squared second derivative over a closed year) whose mean
// over each calendar month is exactly the monthly value: a periodic spline found from the kernel -B4(x)
// (Bernoulli polynomial, the reproducing kernel of periodic functions with square-integrable second
// derivative; G. Wahba 1990, Spline Models for Observational Data, SIAM, ch. 2). Same aim as E. S. Epstein
// 1991, J. Climate 4:365.
#pragma once

#include <array>
#include <cstddef>
#include <limits>

namespace sowtide::climate {

inline constexpr std::size_t kMonthCount = 12;
inline constexpr std::size_t kClimatologicalDayCount = 365;

using MonthlyValues = std::array<double, kMonthCount>;           ///< January first
using DailyCurve = std::array<double, kClimatologicalDayCount>;  ///< index: climatological day - 1

/// Month 0..11 of a climatological day index 0..364.
[[nodiscard]] std::size_t month_of_curve_day(std::size_t day_index);

/// Mean over the days of each calendar month.
[[nodiscard]] MonthlyValues monthly_means(const DailyCurve& curve);

/// The smoothest closed course whose monthly means are `monthly` (to rounding).
[[nodiscard]] DailyCurve smooth_curve(const MonthlyValues& monthly);

/// The same, held inside [low, high]; the monthly means are kept to 0.1 % of their range where they can be at
/// all.
[[nodiscard]] DailyCurve smooth_curve_within(const MonthlyValues& monthly, double low,
                                             double high = std::numeric_limits<double>::infinity());

}  // namespace sowtide::climate
