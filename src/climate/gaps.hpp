// Holes in a record: which there are, how they are filled, and which years are whole enough to stand for the
// climate.
//
// Temperature, radiation, sunshine, humidity and wind are filled with the climate of the day of the year plus
// an anomaly that persists from both edges of the hole. The anomaly is the mean of a first-order
// autoregressive process given its values at the edges (a and b, hole of length L-1, day i of it, rho the
// record's own lag-1 correlation):
//     [ rho^i (1 - rho^(2(L-i))) a + rho^(L-i) (1 - rho^(2i)) b ] / (1 - rho^(2L))
// so that it joins both edges and dies away to the climate in the middle. Rain cannot be averaged (a mean day
// is a drizzle that never falls): a hole takes the rain of the same days in the year whose temperatures
// around the hole were nearest.
#pragma once

#include <string>
#include <vector>

#include "base/date.hpp"
#include "climate/record.hpp"

namespace sowtide::climate {

struct GapOptions {
  int longest_filled_days = 31;  ///< longer holes stay missing
  int least_climate_years = 2;   ///< a variable known in fewer years is not filled
};

struct GapOutcome {
  WeatherRecord record;
  std::vector<QualityFinding> findings;  ///< one a hole: check "gap", action "filled" or "kept", value = days
};

/// Fills holes inside each variable's own first and last value; never beyond them, and never changes a known
/// value.
[[nodiscard]] GapOutcome fill_gaps(WeatherRecord record, const GapOptions& options = {});

/// How much may be missing from a season for it to be used.
struct CompletenessLimits {
  double largest_unknown_share = 0.10;  ///< of days missing or filled, per variable (tmin, tmax, rain)
  int longest_unknown_run_days = 31;
};

/// One season of the record, from the same calendar day each year.
struct SeasonCompleteness {
  int year = 0;  ///< year of the first day
  bool usable = false;
  std::size_t tmin_unknown = 0, tmax_unknown = 0, rain_unknown = 0;  ///< days missing or filled
  int longest_run_days = 0;
  std::string reason;  ///< why not, for people; "" when usable
};

/// Every season that begins inside the record. Days beyond its end count as missing.
[[nodiscard]] std::vector<SeasonCompleteness> season_completeness(const WeatherRecord& record,
                                                                  base::MonthDay start, std::size_t day_count,
                                                                  const CompletenessLimits& limits = {});

/// The years whose season is usable, ascending, or insufficient_data naming what is missing when there are
/// fewer than `least`.
[[nodiscard]] base::Result<std::vector<int>> usable_years(const WeatherRecord& record, base::MonthDay start,
                                                          std::size_t day_count, std::size_t least,
                                                          const CompletenessLimits& limits = {});

}  // namespace sowtide::climate
