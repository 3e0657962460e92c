// Quality control of a daily record, in the spirit of the checks of GHCN-Daily (I. Durre, M. J. Menne, B. E.
// Gleason, T. G. Houston, R. S. Vose 2010, "Comprehensive automated quality assurance of daily surface
// observations", J. Appl. Meteorol. Climatol. 49:1615-1633). What fails is removed (made missing) and listed;
// nothing else is changed.
//
// Order as there: impossible values, duplicated stretches, streaks, gaps in the distribution, climatological
// outliers, internal consistency (tmin above tmax), spikes, lagged range. Each check sees only what passed
// those before it. The comparison with neighbouring stations is not possible with one record and is left out.
#pragma once

#include <string>
#include <vector>

#include "climate/record.hpp"

namespace sowtide::climate {

/// Limits of the checks. Source: Durre et al. 2010 where not said otherwise.
struct QualityOptions {
  double lowest_temperature_c = -89.2;  ///< bounds: WMO Archive of Weather and Climate Extremes (Vostok 1983)
  double highest_temperature_c = 56.7;  ///< the same (Furnace Creek 1913)
  double highest_rain_mm = 1825.0;      ///< the same (Foc-Foc, La Réunion, 1966)
  int streak_days = 20;                 ///< equal temperatures this many reported days running
  double outlier_deviations = 6.0;      ///< robust standard deviations from the 15-day climate
  int outlier_values_needed = 100;
  /// Ours, since one station has no neighbours to bear it out: an outlier stays (and is listed) when the day
  /// before or after deviates this far the same way.
  double bearing_out_deviations = 3.0;
  double gap_c = 10.0;                   ///< emptiness in a month's distribution
  double spike_c = 25.0;                 ///< above or below both neighbours
  double lagged_range_c = 40.0;          ///< between a maximum and the minima around it
  double rain_outlier_ratio = 9.0;       ///< times the 95th percentile of wet days around the date
  double rain_outlier_ratio_cold = 5.0;  ///< the same when the day's mean is below 0 °C
};

struct QualityOutcome {
  WeatherRecord record;                  ///< values that failed are missing
  std::vector<QualityFinding> findings;  ///< in order of date, then variable
};

/// Runs all checks. Only observed and estimated values are judged; a forecast or filled value is left as it
/// is. Stretches of missing days are listed as "missing-days" with the number of days as value. About 60 ms
/// for 100 years.
[[nodiscard]] QualityOutcome control_quality(WeatherRecord record, const QualityOptions& options = {});

/// Adds the findings that are not there yet; all stay in order of date, then variable. What is still
/// missing ("missing-days", gaps not filled) is left out: it is seen in the record itself.
void add_findings(std::vector<QualityFinding>& there, const std::vector<QualityFinding>& more);

/// How often a check found something, and what was done.
struct FindingCount {
  std::string check;
  std::string action;
  std::size_t count = 0;
};

/// Findings counted by check and action, most frequent first.
[[nodiscard]] std::vector<FindingCount> count_findings(const std::vector<QualityFinding>& findings);

/// The variable's stable name: "tmin", "tmax", "rain", "radiation", "sunshine", "humidity", "wind".
[[nodiscard]] std::string_view variable_text(Variable variable) noexcept;
/// The unit of a variable in a record: "°C", "mm", "MJ/m²", "h", "%", "m/s".
[[nodiscard]] std::string_view variable_unit(Variable variable) noexcept;

}  // namespace sowtide::climate
