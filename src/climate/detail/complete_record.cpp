#include "climate/detail/complete_record.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "climate/gaps.hpp"
#include "climate/seasonal_curve.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate::detail {
namespace {

constexpr double kAnomalyMemory = 0.65;

std::size_t curve_day(base::Date date) {
  return static_cast<std::size_t>(base::climatological_day(date) - 1);
}

/// Mean course of a series; a month without any value takes the mean of its neighbours by the smooth curve's
/// own closed year, so it is given the year's mean first.
DailyCurve mean_course(const std::vector<double>& values, base::Date first) {
  MonthlyValues sum{};
  MonthlyValues count{};
  double all = 0.0;
  double known = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (std::isnan(values[i])) continue;
    const std::size_t month = month_of_curve_day(curve_day(first + base::Days{static_cast<int>(i)}));
    sum[month] += values[i];
    count[month] += 1.0;
    all += values[i];
    known += 1.0;
  }
  MonthlyValues mean{};
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    mean[m] = count[m] > 0.0 ? sum[m] / count[m] : (known > 0.0 ? all / known : 0.0);
  }
  return smooth_curve(mean);
}

void fill_temperature(std::vector<double>& values, base::Date first) {
  if (std::none_of(values.begin(), values.end(), [](double x) { return std::isnan(x); })) return;
  const DailyCurve course = mean_course(values, first);
  const auto mean_at = [&](std::size_t i) {
    return course[curve_day(first + base::Days{static_cast<int>(i)})];
  };
  for (std::size_t begin = 0; begin < values.size(); ++begin) {
    if (!std::isnan(values[begin])) continue;
    std::size_t end = begin;
    while (end < values.size() && std::isnan(values[end])) ++end;
    const double before = begin > 0 ? values[begin - 1] - mean_at(begin - 1) : 0.0;
    const double after = end < values.size() ? values[end] - mean_at(end) : 0.0;
    for (std::size_t i = begin; i < end; ++i) {
      const double from_before = std::pow(kAnomalyMemory, static_cast<double>(i - begin + 1));
      const double from_after = std::pow(kAnomalyMemory, static_cast<double>(end - i));
      values[i] = mean_at(i) + from_before * before + from_after * after;
    }
    begin = end;
  }
}

/// Rain of the same calendar day in the nearest year that has it; dry where none has.
void fill_rain(std::vector<double>& values, base::Date first) {
  std::map<std::size_t, std::vector<std::size_t>> known_by_day;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!std::isnan(values[i])) known_by_day[curve_day(first + base::Days{static_cast<int>(i)})].push_back(i);
  }
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (!std::isnan(values[i])) continue;
    const auto& known = known_by_day[curve_day(first + base::Days{static_cast<int>(i)})];
    const auto distance = [i](std::size_t j) { return i > j ? i - j : j - i; };
    const auto nearest = std::min_element(
        known.begin(), known.end(), [&](std::size_t a, std::size_t b) { return distance(a) < distance(b); });
    values[i] = nearest == known.end() ? 0.0 : values[*nearest];
  }
}

std::vector<double> measured_radiation(const WeatherRecord& record) {
  std::vector<double> radiation = record.values(Variable::radiation);
  const std::vector<double>& sunshine_h = record.values(Variable::sunshine);
  for (std::size_t i = 0; i < radiation.size(); ++i) {
    if (!std::isnan(radiation[i]) || std::isnan(sunshine_h[i])) continue;
    radiation[i] =
        radiation_from_sunshine(base::Hours::of(sunshine_h[i]), base::Degrees::of(record.site.latitude_deg),
                                base::day_of_year(record.date_at(i)))
            .value();
  }
  return radiation;
}

std::vector<int> whole_years(const WeatherRecord& record) {
  std::vector<int> years;
  for (const SeasonCompleteness& season : season_completeness(record, kNewYear, kDaysOfYear)) {
    if (season.usable) years.push_back(season.year);
  }
  return years;
}

}  // namespace

CompleteRecord complete_record(const WeatherRecord& as_read) {
  CompleteRecord complete;
  complete.usable_years = whole_years(as_read);
  const WeatherRecord record = fill_gaps(as_read).record;
  complete.first = record.first;
  complete.tmin_c = record.values(Variable::tmin);
  complete.tmax_c = record.values(Variable::tmax);
  complete.rain_mm = record.values(Variable::rain);
  complete.radiation_mj_m2 = measured_radiation(record);
  complete.humidity_pct = record.values(Variable::humidity);
  complete.wind_2m_ms = record.values(Variable::wind);
  fill_temperature(complete.tmin_c, record.first);
  fill_temperature(complete.tmax_c, record.first);
  fill_rain(complete.rain_mm, record.first);
  return complete;
}

}  // namespace sowtide::climate::detail
