// The outlook of a stand of which nothing is reckoned: it is over, or it cannot be lived through the weather
// at hand.
#pragma once

#include "climate/ensemble.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// What the log tells of a stand, in the shape that `outlook` gives: its events where they are dated, what
/// was weighed in the weeks it was taken, and nothing to come in any weather year. Days before the weather
/// begins are in no week.
[[nodiscard]] Outlook told_outlook(const StandPlan& plan, const StandFacts& facts,
                                   const climate::WeatherEnsemble& weather);

}  // namespace sowtide::stand
