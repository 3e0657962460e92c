// How many places and plants a stand is planned to have.
#pragma once

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

/// Whether its plants stand several together.
[[nodiscard]] inline bool several_to_a_clump(const StandPlan& plan) noexcept {
  constexpr double kMoreThanOne = 1.05;  // below, it is one and rounding
  return plan.plants_per_clump > kMoreThanOne;
}

}  // namespace sowtide::stand
