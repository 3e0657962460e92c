// What holds a want back, as the relaxation's prices have it: where the room of a sowing that would meet it
// is dear, something else is worth more there.
#pragma once

#include <vector>

#include "plan/formulate.hpp"
#include "plan/garden_model.hpp"
#include "plan/solver.hpp"

namespace sowtide::plan {

enum class Limiting {
  nothing,  ///< parts of clumps would meet it: whole stands in real stretches do not
  ground,
  cells,
  mat,
  hours,
  seed,
  waste,  ///< more of it would mostly come when there is enough
};

/// By demand: what takes most of the worth of the sowings that would meet it, of those that the relaxation
/// makes, or, where it makes none, of the one nearest to being worth it. `nothing` too where the relaxation
/// misses under half of what the plan misses. `missed` by demand: what the plan misses, servings in the mean
/// of the scenarios.
[[nodiscard]] std::vector<Limiting> limiting_of(const GardenModel& model, const Formulation& formulation,
                                                const LinearSolution& relaxation,
                                                const std::vector<double>& missed);

/// By demand: what a solution of the program misses in the weeks of the plan, servings in the mean of the
/// scenarios.
[[nodiscard]] std::vector<double> missed_by(const GardenModel& model, const Formulation& formulation,
                                            const LinearSolution& solution);

}  // namespace sowtide::plan
