// How many places a stand is sown in.
#pragma once

#include "stand/outlook.hpp"

namespace sowtide::stand {

/// Cells sown of a stand raised in a tray, or places in the bed: as many as the plan says, else one to a
/// clump.
[[nodiscard]] inline int places_of(const StandPlan& plan) noexcept {
  return plan.cells > 0 ? plan.cells : plan.clumps;
}

}  // namespace sowtide::stand
