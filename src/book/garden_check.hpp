// What a garden description must be to make sense: names, ranges, references, and things that cannot both be
// true.
//
// Problems name the field as a path ("beds[2].length_m"); a reader that knows lines adds them (`locate`).
#pragma once

#include "base/problem.hpp"
#include "book/garden.hpp"

namespace sowtide::book {

/// Checks all but the weather: unique ids, ranges, references between the parts, stretches inside their beds.
[[nodiscard]] base::Result<void> check_description(const GardenDescription& garden);

/// Checks one stand against the beds, trays, varieties and packets of a garden. `path` begins the field's
/// name.
[[nodiscard]] base::Result<void> check_stand_plan(const GardenDescription& garden,
                                                  const stand::StandPlan& plan, const std::string& path);

/// Checks that a record is whole: equal lengths, NaN exactly where the origin is missing, dates of this era.
[[nodiscard]] base::Result<void> check_weather(const climate::WeatherRecord& record);

}  // namespace sowtide::book
