// A record without holes in temperature and rain, as arrays, and the calendar years good enough to stand in
// an ensemble.
#pragma once

#include <vector>

#include "climate/record.hpp"

namespace sowtide::climate::detail {

/// What is asked of each calendar year: 31 December of a leap year may lack.
inline constexpr base::MonthDay kNewYear{1, 1};
inline constexpr std::size_t kDaysOfYear = 365;

struct CompleteRecord {
  base::Date first{};
  std::vector<double> tmin_c, tmax_c, rain_mm;  ///< complete
  std::vector<double> radiation_mj_m2;  ///< measured or from sunshine (FAO-56 eq. 35); NaN where neither
  std::vector<double> humidity_pct, wind_2m_ms;  ///< NaN where unknown
  std::vector<int> usable_years;                 ///< ascending

  [[nodiscard]] std::size_t index_of(base::Date date) const {
    return static_cast<std::size_t>((date - first).count());
  }
};

/// Fills holes as climate/gaps.hpp does, and what that leaves open (long holes, the record's ends):
/// temperatures from the mean course through the year and the anomalies before and after, which fade by 0.65
/// a day; rain from the same calendar day of the nearest year. A year is usable when at most a tenth of its days
/// and no 32 running lack an observed tmin, tmax or rain (climate/gaps.hpp).
[[nodiscard]] CompleteRecord complete_record(const WeatherRecord& record);

}  // namespace sowtide::climate::detail
