#include "climate/normals.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace sowtide::climate {
namespace {

constexpr int kMostMissing = 10;
constexpr int kMostMissingInARow = 4;
constexpr double kLeastShareOfYears = 0.8;
constexpr double kWetDayMm = 1.0;
constexpr std::array<const char*, 12> kMonthNames = {"January",   "February", "March",    "April",
                                                     "May",       "June",     "July",     "August",
                                                     "September", "October",  "November", "December"};

/// One month of one year of one variable.
struct MonthSummary {
  double mean = 0.0;
  double wet_share = 0.0;  ///< of days with at least 1 mm; for rain
  double least = std::numeric_limits<double>::infinity();
  double most = -std::numeric_limits<double>::infinity();
};

bool known(const WeatherRecord& record, Variable variable, std::size_t i) {
  const Series& series = record.of(variable);
  return !std::isnan(series.value[i]) && series.origin[i] != ValueOrigin::forecast;
}

/// Nothing when too much is missing.
std::optional<MonthSummary> summarise(const WeatherRecord& record, Variable variable, int year, int month) {
  const int days = base::days_in_month(year, month);
  MonthSummary summary;
  int missing = 0, in_a_row = 0, count = 0;
  for (int day = 1; day <= days; ++day) {
    const base::Date date = base::date_of(year, month, day);
    const bool inside = date >= record.first && date <= record.last();
    const auto i = inside ? static_cast<std::size_t>((date - record.first).count()) : 0;
    if (!inside || !known(record, variable, i)) {
      ++missing;
      if (++in_a_row > kMostMissingInARow || missing > kMostMissing) return std::nullopt;
      continue;
    }
    in_a_row = 0;
    ++count;
    const double value = record.values(variable)[i];
    summary.mean += value;
    summary.wet_share += value >= kWetDayMm ? 1.0 : 0.0;
    summary.least = std::min(summary.least, value);
    summary.most = std::max(summary.most, value);
  }
  summary.mean /= count;
  summary.wet_share /= count;
  return summary;
}

/// All years of one calendar month together.
struct MonthNormal {
  int years = 0;
  MonthSummary value;
};

MonthNormal normal_of(const WeatherRecord& record, Variable variable, int month, int from_year, int to_year) {
  MonthNormal normal;
  for (int year = from_year; year <= to_year; ++year) {
    const auto summary = summarise(record, variable, year, month);
    if (!summary) continue;
    ++normal.years;
    normal.value.mean += summary->mean;
    normal.value.wet_share += summary->wet_share;
    normal.value.least = std::min(normal.value.least, summary->least);
    normal.value.most = std::max(normal.value.most, summary->most);
  }
  if (normal.years > 0) {
    normal.value.mean /= normal.years;
    normal.value.wet_share /= normal.years;
  }
  return normal;
}

double days_of(int month) {
  return month == 2 ? 28.25 : base::days_in_month(2025, month);
}

}  // namespace

base::Result<RecordNormals> normals_from_record(const WeatherRecord& record, int from_year, int to_year) {
  if (from_year > to_year) {
    return base::fail(
        base::ProblemCode::out_of_range,
        fmt::format("normals from {} to {}: the years are in the wrong order", from_year, to_year));
  }
  if (record.day_count() == 0) {
    return base::fail(base::ProblemCode::insufficient_data, "the record is empty");
  }
  RecordNormals result;
  result.from_year = std::max(from_year, base::year_of(record.first));
  result.to_year = std::min(to_year, base::year_of(record.last()));
  const int needed =
      std::max(1, static_cast<int>(std::ceil(kLeastShareOfYears * (result.to_year - result.from_year + 1))));
  MonthlyNormals& normals = result.place.normals;
  normals.wet_days.emplace();
  for (std::size_t m = 0; m < 12; ++m) {
    const int month = static_cast<int>(m) + 1;
    const auto of = [&](Variable variable) {
      return normal_of(record, variable, month, result.from_year, result.to_year);
    };
    const MonthNormal tmin = of(Variable::tmin);
    const MonthNormal tmax = of(Variable::tmax);
    const MonthNormal rain = of(Variable::rain);
    result.years[m] = std::min({tmin.years, tmax.years, rain.years});
    if (result.years[m] < needed) {
      return base::fail(base::ProblemCode::insufficient_data,
                        fmt::format("{} of {} to {} is known in {} years; a normal needs {}", kMonthNames[m],
                                    result.from_year, result.to_year, result.years[m], needed),
                        {}, "Choose other years, or add the missing ones.");
    }
    normals.tmin_c[m] = tmin.value.mean;
    normals.tmax_c[m] = tmax.value.mean;
    normals.precip_mm[m] = rain.value.mean * days_of(month);
    (*normals.wet_days)[m] = rain.value.wet_share * days_of(month);
    result.record_low_c[m] = tmin.value.least;
    result.record_high_c[m] = tmax.value.most;
  }
  result.place.site = record.site;
  normals.source = fmt::format("computed from the record of {}, {}-{}", station_name(record), result.from_year,
                               result.to_year);
  return result;
}

base::Result<RecordNormals> normals_from_record(const WeatherRecord& record) {
  constexpr int kNormalYears = 30;
  if (record.day_count() == 0) {
    return base::fail(base::ProblemCode::insufficient_data, "the record is empty");
  }
  // The latest years that are over; a year just begun would only count as missing.
  const bool ends_a_year = base::month_of(record.last()) == 12 && base::day_of_month(record.last()) == 31;
  const bool starts_a_year = base::day_of_year(record.first) == 1;
  int to = base::year_of(record.last()) - (ends_a_year ? 0 : 1);
  int from = std::max(base::year_of(record.first) + (starts_a_year ? 0 : 1), to - kNormalYears + 1);
  if (from > to) {
    from = base::year_of(record.first);
    to = base::year_of(record.last());
  }
  return normals_from_record(record, from, to);
}

}  // namespace sowtide::climate
