#include "climate/hourly.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sowtide::climate {
namespace {

using std::numbers::pi;

// Beyond these the two-piece curve has no room for its day or its night: in the polar night the air still has
// a daily range that came from somewhere, in the polar day the low sun still makes a night.
constexpr double kShortestDayH = 4.0;
constexpr double kLongestDayH = 20.0;

}  // namespace

HourlyTemperatures hourly_temperatures(double tmin_c, double tmax_c, double previous_tmax_c,
                                       double next_tmin_c, double day_length_h, const DailyCourse& course) {
  const double day = std::clamp(day_length_h, kShortestDayH, kLongestDayH);
  const double night = 24.0 - day;
  const double sunrise = 12.0 - 0.5 * day;
  const double sunset = 12.0 + 0.5 * day;
  const double minimum_at = sunrise + course.minimum_lag_h;
  const double wave = pi / (day + 2.0 * course.maximum_lag_h);
  const double at_sunset = std::sin(wave * (sunset - minimum_at));
  const double evening_start_c = tmin_c + (tmax_c - tmin_c) * at_sunset;
  const double morning_start_c = tmin_c + (previous_tmax_c - tmin_c) * at_sunset;
  const double fall = course.night_fall / night;

  HourlyTemperatures hours{};
  for (std::size_t i = 0; i < hours.size(); ++i) {
    const double hour = static_cast<double>(i) + 0.5;
    if (hour > sunset) {
      hours[i] = next_tmin_c + (evening_start_c - next_tmin_c) * std::exp(-fall * (hour - sunset));
    } else if (hour >= minimum_at) {
      hours[i] = tmin_c + (tmax_c - tmin_c) * std::sin(wave * (hour - minimum_at));
    } else {
      const double since_sunset = hour + 24.0 - sunset;
      hours[i] = tmin_c + (morning_start_c - tmin_c) * std::exp(-fall * since_sunset);
    }
  }
  return hours;
}

}  // namespace sowtide::climate
