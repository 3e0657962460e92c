// A file's weather taken into what is there already: checked by itself, merged, and checked again among the
// years it joins, where a short file shows what it cannot show alone.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "climate/merge.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {

struct Intake {
  WeatherRecord record;                  ///< merged; values that failed are missing
  std::vector<QualityFinding> findings;  ///< of the reader, of quality control, of merging
  base::Date first{}, last{};            ///< days of the file
  Site site;                             ///< of the file
  std::size_t added = 0, replaced = 0, kept = 0;  ///< values, as in `MergeOutcome`
};

/// Takes an import in. What quality control finds among all years is removed only where the file brought it: older
/// values stay as they are. A typical year is listed as a finding, check "typical-year".
[[nodiscard]] Intake take_in(const WeatherRecord& base, WeatherImport import,
                             Precedence precedence = Precedence::addition);

/// wrong_unit where an import whose temperatures name no unit lies far above the months expected at the place, and
/// in degrees Fahrenheit would lie near them.
[[nodiscard]] std::optional<base::Problem> unlikely_unit(const WeatherImport& import, const MonthlyNormals& expected);

}  // namespace sowtide::climate
