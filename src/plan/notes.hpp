// What limits a plan.
#pragma once

#include <vector>

#include "plan/candidates.hpp"
#include "plan/plan.hpp"

namespace sowtide::plan {

/// The crop's name for people; its id where the library has none.
[[nodiscard]] std::string crop_name(const PlanInput& input, const std::string& id);

/// One note for each want that is short by more than a twentieth, with the limiting reason (no way to grow it
/// here, no sun or room, not ready in those weeks, no trays, room taken by what counts more), and one for
/// each packet with too few seeds.
[[nodiscard]] std::vector<Note> notes_on_limits(const PreparedGarden& garden, const PlanInput& input,
                                                const Plan& plan);

}  // namespace sowtide::plan
