// A daily weather record: one entry per calendar day without holes, as structure of arrays; a value that is
// not known is NaN. Every value says where it came from.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Where one value came from.
enum class ValueOrigin : std::uint8_t {
  missing,    ///< not known; the value is NaN
  observed,   ///< as the station reported it
  filled,     ///< put in by gap filling
  estimated,  ///< computed from other observed values of the day (radiation from temperature range …)
  forecast    ///< from an imported forecast; gives way to observation
};

/// The variables of a record, in the order of `WeatherRecord::series`.
enum class Variable : std::uint8_t { tmin, tmax, rain, radiation, sunshine, humidity, wind, count_ };
inline constexpr std::size_t kVariableCount = static_cast<std::size_t>(Variable::count_);

/// One variable over all days of a record.
struct Series {
  std::vector<double> value;         ///< units by variable: °C, °C, mm, MJ/m²/d, h, % (daily mean), m/s at 2 m
  std::vector<ValueOrigin> origin;
};

/// Daily weather of one site from `first`, without holes in time (a missing day holds NaN).
class WeatherRecord {
 public:
  Site site;
  base::Date first{};
  std::array<Series, kVariableCount> series;

  [[nodiscard]] std::size_t day_count() const { return series[0].value.size(); }
  [[nodiscard]] base::Date last() const { return first + base::Days{static_cast<int>(day_count()) - 1}; }
  [[nodiscard]] base::Date date_at(std::size_t index) const { return first + base::Days{static_cast<int>(index)}; }
  [[nodiscard]] Series& of(Variable variable) { return series[static_cast<std::size_t>(variable)]; }
  [[nodiscard]] const Series& of(Variable variable) const { return series[static_cast<std::size_t>(variable)]; }
  [[nodiscard]] const std::vector<double>& values(Variable variable) const { return of(variable).value; }

  /// Makes the record span from `from` to `to` (both included), new days missing.
  void resize(base::Date from, base::Date to);
  /// Sets one value; the day must lie inside the record.
  void set(Variable variable, base::Date date, double value, ValueOrigin origin);
};

/// The station's name for people; "an unnamed station" where the file did not tell it.
[[nodiscard]] std::string station_name(const WeatherRecord& record);

/// One thing that quality control or a reader found.
struct QualityFinding {
  base::Date date{};
  Variable variable = Variable::tmin;
  double value = 0.0;         ///< as read
  /// Stable word. From readers: "source-flag", "duplicate", "several-days", "incomplete-day". From quality control:
  /// "impossible", "naught", "duplicate", "flat-line", "stands-apart", "spike", "tmin-above-tmax", "lagged-range",
  /// "missing-days" (value: days). From gap filling: "gap" (value: days). From merging: "disagreement". From taking a
  /// file in: "typical-year".
  std::string check;
  std::string action;         ///< "removed", "kept", "filled"; "doubtful" where a value that would be removed stands
  std::string detail;         ///< for people
};

}  // namespace sowtide::climate
