// What has come to pass since the plan that is kept: a new plan tells it where it is the reason of a change.
#pragma once

#include <string>
#include <vector>

#include "book/garden.hpp"
#include "desk/plan_keeping.hpp"
#include "plan/plan.hpp"

namespace sowtide::desk {

/// The answer of a plan (`plan_json`) with what it was made for: "made_for": {"log_entry", "wants": [{"want",
/// "amount_per_week", "asks_for"}]}.
[[nodiscard]] std::string answer_made_for(const std::string& answer, const PlannedFor& before);

/// What the log up to a day and the wants tell that the plan of `answer_before` could not know (of a want
/// more or less a week of the same; amounts to be stored are not looked at); nothing where that does not say
/// what it was made for (older versions), or where there was none.
[[nodiscard]] plan::SincePlan since_plan(const std::string& answer_before,
                                         const book::GardenDescription& garden,
                                         const std::vector<book::Event>& events, base::Date today);

}  // namespace sowtide::desk
