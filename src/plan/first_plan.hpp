// A plan for the search to begin with: the whole clumps of a dive from the relaxation, put into beds.
#pragma once

#include <functional>
#include <vector>

#include "plan/formulate.hpp"
#include "plan/solver.hpp"

namespace sowtide::plan {

/// Dives from the relaxation that `solver` has solved last and puts what is to be sown into beds of its
/// group, or else where there is room, in the order of coming to the bed; what finds no room is left out.
/// `stop`, asked between the steps of the dive, ends it early: what is fractional then is rounded down.
[[nodiscard]] std::vector<PlacedStand> first_plan(const GardenModel& model, const Formulation& formulation,
                                                  RelaxationSolver& solver,
                                                  const std::function<bool()>& stop);

}  // namespace sowtide::plan
