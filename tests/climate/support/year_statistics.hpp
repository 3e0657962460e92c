// Statistics of a set of whole years of weather, computed plainly, so that a generator can be held against a
// record.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/quantile.hpp"
#include "climate/record.hpp"
#include "climate/seasonal_curve.hpp"

namespace sowtide::climate::test {

/// One year of 365 days (29 February left out).
struct Year {
  std::vector<double> tmin_c, tmax_c, rain_mm;
  std::vector<double> radiation_mj_m2;  ///< NaN where not known
};

/// The calendar years of a record in [from, to] that miss at most `most_missing` days; those days take the
/// value of the day before.
inline std::vector<Year> whole_years(const WeatherRecord& record, int from, int to, int most_missing = 5) {
  std::vector<Year> years;
  for (int y = from; y <= to; ++y) {
    if (base::date_of(y, 1, 1) < record.first || base::date_of(y, 12, 31) > record.last()) continue;
    Year year;
    int missing = 0;
    for (base::Date date = base::date_of(y, 1, 1); date <= base::date_of(y, 12, 31); date += base::Days{1}) {
      if (base::month_of(date) == 2 && base::day_of_month(date) == 29) continue;
      const auto i = static_cast<std::size_t>((date - record.first).count());
      const auto take = [&](std::vector<double>& into, Variable variable) {
        double value = record.values(variable)[i];
        if (std::isnan(value)) {
          ++missing;
          value = into.empty() ? 0.0 : into.back();
        }
        into.push_back(value);
      };
      take(year.tmin_c, Variable::tmin);
      take(year.tmax_c, Variable::tmax);
      take(year.rain_mm, Variable::rain);
      year.radiation_mj_m2.push_back(record.values(Variable::radiation)[i]);
    }
    if (missing <= most_missing) years.push_back(std::move(year));
  }
  return years;
}

struct MonthStatistics {
  double mean = 0.0;         ///< of all days
  double daily_sd = 0.0;     ///< of days about their calendar month's mean
  double sd_of_means = 0.0;  ///< of the month's mean from year to year
};

using DayValues = std::vector<double> Year::*;

inline std::array<MonthStatistics, kMonthCount> by_month(const std::vector<Year>& years, DayValues values) {
  std::array<MonthStatistics, kMonthCount> result{};
  for (std::size_t month = 0; month < kMonthCount; ++month) {
    std::vector<double> days;
    std::vector<double> means;
    for (const Year& year : years) {
      std::vector<double> own;
      for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
        if (month_of_curve_day(day) == month) own.push_back((year.*values)[day]);
      }
      days.insert(days.end(), own.begin(), own.end());
      means.push_back(base::mean(own));
    }
    result[month] = {base::mean(days), base::standard_deviation(days), base::standard_deviation(means)};
  }
  return result;
}

/// Standard deviation of annual means from year to year.
inline double sd_of_annual_means(const std::vector<Year>& years, DayValues values) {
  std::vector<double> means;
  for (const Year& year : years) means.push_back(base::mean(year.*values));
  return base::standard_deviation(means);
}

struct RainStatistics {
  double wet_days = 0.0, sd_wet_days = 0.0;  ///< in the month
  double total_mm = 0.0, sd_total_mm = 0.0;
};

inline std::array<RainStatistics, kMonthCount> rain_by_month(const std::vector<Year>& years,
                                                             double threshold_mm) {
  std::array<RainStatistics, kMonthCount> result{};
  for (std::size_t month = 0; month < kMonthCount; ++month) {
    std::vector<double> counts;
    std::vector<double> totals;
    for (const Year& year : years) {
      double count = 0.0;
      double total = 0.0;
      for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
        if (month_of_curve_day(day) != month) continue;
        count += year.rain_mm[day] >= threshold_mm ? 1.0 : 0.0;
        total += year.rain_mm[day];
      }
      counts.push_back(count);
      totals.push_back(total);
    }
    result[month] = {base::mean(counts), base::standard_deviation(counts), base::mean(totals),
                     base::standard_deviation(totals)};
  }
  return result;
}

/// Lengths of unbroken runs of wet (or dry) days inside the years, in the season of months [from, to]
/// (0..11).
inline std::vector<double> spells(const std::vector<Year>& years, double threshold_mm, bool wet,
                                  std::size_t from = 0, std::size_t to = 11) {
  std::vector<double> lengths;
  for (const Year& year : years) {
    double run = 0.0;
    for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
      const std::size_t month = month_of_curve_day(day);
      const bool counts = month >= from && month <= to && (year.rain_mm[day] >= threshold_mm) == wet;
      if (counts) {
        run += 1.0;
      } else if (run > 0.0) {
        lengths.push_back(run);
        run = 0.0;
      }
    }
  }
  return lengths;
}

struct FrostStatistics {
  double years_without = 0.0;              ///< share of years
  double mean = 0.0, sd = 0.0;             ///< of the others, day of year 1..365
  double p10 = 0.0, p50 = 0.0, p90 = 0.0;  ///< early to late
};

/// Last day up to 31 July (or first from 1 August) with tmin at or below `threshold_c`: northern years.
inline FrostStatistics frost(const std::vector<Year>& years, double threshold_c, bool last) {
  constexpr std::size_t kFirstOfAugust = 212;
  std::vector<double> dates;
  for (const Year& year : years) {
    double found = -1.0;
    for (std::size_t day = last ? 0 : kFirstOfAugust; day < (last ? kFirstOfAugust : kClimatologicalDayCount);
         ++day) {
      if (year.tmin_c[day] > threshold_c) continue;
      found = static_cast<double>(day + 1);
      if (!last) break;
    }
    if (found > 0.0) dates.push_back(found);
  }
  FrostStatistics result;
  result.years_without = 1.0 - static_cast<double>(dates.size()) / static_cast<double>(years.size());
  if (dates.size() < 3) return result;
  result.mean = base::mean(dates);
  result.sd = base::standard_deviation(dates);
  std::sort(dates.begin(), dates.end());
  result.p10 = base::quantile_of_sorted(dates, 0.1);
  result.p50 = base::quantile_of_sorted(dates, 0.5);
  result.p90 = base::quantile_of_sorted(dates, 0.9);
  return result;
}

}  // namespace sowtide::climate::test
