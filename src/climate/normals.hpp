// Monthly normals computed from a daily record.
#pragma once

#include "base/problem.hpp"
#include "climate/record.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Means of the monthly values over the years of a record. A month of a year counts for temperature when at most 10 of
/// its days are missing, none counts for rain with a day missing (WMO-No. 1203, Guidelines on the Calculation of Climate
/// Normals, 2017, section 4.4: monthly means need fewer than 11 missing days, sums need them all). Filled and forecast
/// values do not count. Every month needs three years (insufficient_data otherwise, naming the month); WMO asks for ten
/// for a published normal, so the number of years stands in `source`.
[[nodiscard]] base::Result<MonthlyNormals> normals_of(const WeatherRecord& record);

}  // namespace sowtide::climate
