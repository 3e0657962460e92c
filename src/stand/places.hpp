// How many places and plants a stand is planned to have.
#pragma once

#include <algorithm>
#include <cmath>

#include "stand/outlook.hpp"

namespace sowtide::stand {

/// Cells sown of a stand raised in a tray, or places in the bed: as many as the plan says, else one to a
/// clump.
[[nodiscard]] inline int places_of(const StandPlan& plan) noexcept {
  return plan.cells > 0 ? plan.cells : plan.clumps;
}

/// Plants that the plan keeps or sets out in all, a mean: not always a whole number.
[[nodiscard]] inline double planned_plants(const StandPlan& plan) noexcept {
  return plan.clumps * plan.plants_per_clump;
}

/// Whether its plants stand several together, so that they are counted and told as clumps.
[[nodiscard]] inline bool several_to_a_clump(const StandPlan& plan) noexcept {
  constexpr double kSeveral = 1.5;  // a mean: in most cells more than one
  return plan.plants_per_clump > kSeveral;
}

/// Plants that are left by the log: of those counted, else of those planned, less what was taken since.
[[nodiscard]] inline int plants_left(const StandPlan& plan, const StandFacts& facts) noexcept {
  const int planned = static_cast<int>(std::lround(planned_plants(plan)));
  return std::max(0, facts.counted_plants.value_or(planned) - facts.plants_removed);
}

}  // namespace sowtide::stand
