#include "climate/normals.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace sowtide::climate {
namespace {

constexpr int kMostMissingForMean = 10;
constexpr int kLeastYears = 3;
constexpr double kWetDay_mm = 1.0;

/// What one month of one year amounts to.
struct Month {
  double sum = 0.0;
  int known = 0;
  int wet = 0;
};

/// Months by (month 0..11, year) for one variable; only values that were observed or computed from observations.
std::array<std::map<int, Month>, 12> months_of(const WeatherRecord& record, Variable variable) {
  std::array<std::map<int, Month>, 12> months;
  const Series& series = record.of(variable);
  for (std::size_t i = 0; i < series.value.size(); ++i) {
    if (series.origin[i] != ValueOrigin::observed && series.origin[i] != ValueOrigin::estimated) continue;
    const base::Date date = record.date_at(i);
    Month& month = months[static_cast<std::size_t>(base::month_of(date) - 1)][base::year_of(date)];
    month.sum += series.value[i];
    ++month.known;
    month.wet += series.value[i] >= kWetDay_mm ? 1 : 0;
  }
  return months;
}

/// Twelve means over years, with the fewest years behind any of them.
struct YearMeans {
  std::array<double, 12> value{};
  std::array<double, 12> wet_days{};
  int fewest_years = 0;
};

base::Result<YearMeans> means_over_years(const WeatherRecord& record, Variable variable, std::string_view name) {
  const bool is_total = variable == Variable::rain;
  const auto months = months_of(record, variable);
  YearMeans means;
  means.fewest_years = INT32_MAX;
  for (std::size_t m = 0; m < 12; ++m) {
    int years = 0;
    for (const auto& [year, month] : months[m]) {
      const int missing = base::days_in_month(year, static_cast<int>(m) + 1) - month.known;
      if (missing > (is_total ? 0 : kMostMissingForMean)) continue;
      ++years;
      means.value[m] += is_total ? month.sum : month.sum / month.known;
      means.wet_days[m] += month.wet;
    }
    if (years < kLeastYears) {
      return base::fail(base::ProblemCode::insufficient_data,
                        fmt::format("month {} has {} whole years of {}, normals need {}", m + 1, years, name, kLeastYears),
                        {.field = std::string(name)}, "Import a longer record");
    }
    means.value[m] /= years;
    means.wet_days[m] /= years;
    means.fewest_years = std::min(means.fewest_years, years);
  }
  return means;
}

}  // namespace

base::Result<MonthlyNormals> normals_of(const WeatherRecord& record) {
  const auto tmax = means_over_years(record, Variable::tmax, "tmax");
  if (!tmax) return tl::make_unexpected(tmax.error());
  const auto tmin = means_over_years(record, Variable::tmin, "tmin");
  if (!tmin) return tl::make_unexpected(tmin.error());
  const auto rain = means_over_years(record, Variable::rain, "rain");
  if (!rain) return tl::make_unexpected(rain.error());
  MonthlyNormals normals;
  normals.tmax_c = tmax->value;
  normals.tmin_c = tmin->value;
  normals.precip_mm = rain->value;
  normals.wet_days = rain->wet_days;
  normals.source = fmt::format("{} whole years between {} and {}",
                               std::min({tmax->fewest_years, tmin->fewest_years, rain->fewest_years}),
                               base::year_of(record.first), base::year_of(record.last()));
  return normals;
}

}  // namespace sowtide::climate
