// How a stand lies across its bed.
#pragma once

#include <algorithm>
#include <vector>

#include "bed/bed.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// Rows of clumps side by side across the stand's bed, the outer ones at its edges; 0 when it is none of these
/// beds.
[[nodiscard]] inline int rows_across(const std::vector<bed::Bed>& beds, const StandPlan& plan) noexcept {
  for (const bed::Bed& bed : beds) {
    if (bed.id == plan.bed && plan.spacing_mm > 0.0)
      return std::max(1, bed::clumps_across(bed, row_distance_mm(plan)));
  }
  return 0;
}

}  // namespace sowtide::stand
