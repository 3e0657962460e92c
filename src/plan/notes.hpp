// What limits a plan.
#pragma once

#include <vector>

#include "plan/candidates.hpp"
#include "plan/limiting.hpp"
#include "plan/plan.hpp"

namespace sowtide::plan {

/// The crop's name for people; its id where the library has none.
[[nodiscard]] std::string crop_name(const PlanInput& input, const std::string& id);

/// Puts the name for people in the place of the id under "want" of every phrase that has one.
void name_wants(const PlanInput& input, Note& note);

/// Weeks in which some sowing of the model brings a demand something on average, or what is kept from an
/// earlier week still counts.
[[nodiscard]] std::vector<bool> reachable_weeks(const GardenModel& model, const Demand& demand);

/// Weeks in which half of all that some sowing of the model brings a demand can lie there, still good, on
/// average.
[[nodiscard]] std::vector<bool> weeks_with_half(const GardenModel& model, const Demand& demand);

/// One note for each bed that the plan leaves empty, or nearly so, over its weeks, with what stands there
/// already reckoned as use.
[[nodiscard]] std::vector<Note> notes_on_empty_beds(const GardenModel& model,
                                                    const std::vector<PlacedStand>& stands);

/// One note for each want that is short by more than a twentieth, with the limiting reason (no way to grow it
/// here, no sun or room, not ready in those weeks, no trays, or what `limiting`, by demand, tells), and one
/// for each packet with too few seeds.
[[nodiscard]] std::vector<Note> notes_on_limits(const PreparedGarden& garden, const PlanInput& input,
                                                const Plan& plan, const std::vector<Limiting>& limiting);

}  // namespace sowtide::plan
