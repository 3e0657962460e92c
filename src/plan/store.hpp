// What lies in store on the day of the plan, as the planner's model sees it.
#pragma once

#include "plan/candidates.hpp"
#include "plan/plan.hpp"

namespace sowtide::plan {

/// Enters what is still good of the lots in store: to the crop's own product where it has one only and the lot keeps
/// as the plan lets it keep, else to a product of its own for the crop and place, which every want of the crop may
/// take. Lots of a crop that no want asks for are left out. Call after all other products and candidates are there
/// and hours of picking are counted, before `finish_model`. Notes what is counted on, and until when.
void add_store(const PlanInput& input, PreparedGarden& garden);

}  // namespace sowtide::plan
