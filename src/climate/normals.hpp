// Monthly normals computed from a record, by the rules of the World Meteorological Organization (Guidelines
// on the Calculation of Climate Normals, WMO-No. 1203, 2017; rules from memory): a month of a year counts
// when fewer than 11 of its days are missing and no 5 in a row; a calendar month has a normal when at least
// 80 % of the years give it.
#pragma once

#include <array>

#include "base/problem.hpp"
#include "climate/record.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Normals with what stands behind them.
struct RecordNormals {
  PlaceNormals place;  ///< wet days: at least 1 mm; source names site and years
  int from_year = 0, to_year = 0;
  std::array<int, 12> years{};  ///< years that gave each month, the fewest of tmin, tmax and rain
  std::array<double, 12> record_high_c{}, record_low_c{};  ///< highest tmax and lowest tmin of the month
};

/// Normals of the years from `from_year` to `to_year`, both included and cut to the record. Forecasts are
/// left out. insufficient_data where a calendar month has too few years, naming it; out_of_range for years in
/// the wrong order.
[[nodiscard]] base::Result<RecordNormals> normals_from_record(const WeatherRecord& record, int from_year,
                                                              int to_year);

/// Normals of the latest 30 calendar years of the record (all of them where it has fewer).
[[nodiscard]] base::Result<RecordNormals> normals_from_record(const WeatherRecord& record);

}  // namespace sowtide::climate
