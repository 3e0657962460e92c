// Hourly temperatures from daily extremes. Every thermal-time sum integrates hours, since a daily mean loses
// the warm hours of a cold day.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "base/quantity.hpp"

namespace sowtide::climate {

using HourlyTemperatures = std::array<double, 24>;  ///< °C at 0:30, 1:30 … 23:30 local solar time

/// Hours of one day from its minimum and maximum, the maximum of the day before, the minimum of the day after and
/// the day length: a sine by day and an exponential fall by night (W. J. Parton and J. A. Logan 1981,
/// Agric. Meteorol. 23:205-216). Never outside [min, max] of the values given.
[[nodiscard]] HourlyTemperatures hourly_temperatures(double tmin_c, double tmax_c, double previous_tmax_c,
                                                     double next_tmin_c, double day_length_h);

}  // namespace sowtide::climate
