// What was found when the weather came in, as a table: the export's weather-findings.csv.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "climate/record.hpp"

namespace sowtide::book {

/// One row a finding: date, variable, value (empty where there was none), check, action, detail.
[[nodiscard]] std::string weather_findings_csv(const std::vector<climate::QualityFinding>& findings);

/// Reads what `weather_findings_csv` wrote. Problems: missing_field, unknown_field, wrong_type, out_of_range, and
/// those of `parse_csv`.
[[nodiscard]] base::Result<std::vector<climate::QualityFinding>> read_weather_findings_csv(std::string_view text,
                                                                                           const std::string& file);

}  // namespace sowtide::book
