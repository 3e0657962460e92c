// Hours of work in the garden, as the planner counts them.
//
// Nearly all of these figures are our judgement of a home gardener's pace from common practice; where a
// published one was seen it stands beside the figure. Market growers' crews are several times as fast as a
// household that picks a meal.
#pragma once

#include "crop/crop.hpp"

namespace sowtide::plan {

// A clump: two stations sown and thinned in a minute; three cells sown and minded in two minutes; three
// clumps set out and watered in two minutes.
inline constexpr double kSowInPlaceHours = 0.5 / 60.0;
inline constexpr double kSowCellHours = 0.7 / 60.0;
inline constexpr double kSetOutHours = 0.7 / 60.0;

/// Hours to pick a kilogram as it comes from the bed, with pulling or cutting it, taking off what stays
/// there, and rinsing: by the part that is harvested, and by whether it is taken once, cut again and again,
/// or picked over weeks.
[[nodiscard]] double picking_hours_per_kg(const crop::Harvest& harvest);

}  // namespace sowtide::plan
