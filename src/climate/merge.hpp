// Several records of one site put together, and a forecast that gives way to observation.
#pragma once

#include <cstddef>
#include <vector>

#include "climate/record.hpp"

namespace sowtide::climate {

/// Which value stands where both records have one of the same rank.
enum class Precedence {
  addition,  ///< the newer import
  base       ///< what was there
};

struct MergeOutcome {
  WeatherRecord record;
  std::size_t added = 0;     ///< values where the base had none
  std::size_t replaced = 0;  ///< values of the base that gave way
  std::size_t kept = 0;      ///< values of the addition that were not taken though they differ
  std::vector<QualityFinding>
      findings;  ///< "disagreement": both observed and apart by more than 5 °C or 25 mm
};

/// Merges day by day and value by value. Rank first: observed before estimated before forecast before filled
/// before missing; then `precedence`. A newer forecast replaces an older one whatever the precedence. The
/// site is the base's, unless the base is empty.
[[nodiscard]] MergeOutcome merge(const WeatherRecord& base, const WeatherRecord& addition,
                                 Precedence precedence = Precedence::addition);

/// The record without its forecast values (before a new forecast is taken in).
[[nodiscard]] WeatherRecord without_forecast(WeatherRecord record);

}  // namespace sowtide::climate
