// How much of a bed's length a stand takes.
#pragma once

#include <algorithm>
#include <cmath>

#include "bed/bed.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// Whole millimetres of a bed's length that clumps take where so many stand side by side: those of a row that is
/// not full take their share of it, and no stand takes less than half a row. 0 without clumps.
[[nodiscard]] inline double stretch_mm(double spacing_mm, int across, int clumps) noexcept {
  if (clumps <= 0 || across <= 0) return 0.0;
  constexpr double kRounding = 1e-9;
  const double rows = std::max(static_cast<double>(clumps) / across, 0.5);
  return std::ceil(spacing_mm * rows - kRounding);
}

/// Length that the stand takes of a bed, m, as a plan reckons it; 0 where the bed is narrower than half the
/// distance of its rows.
[[nodiscard]] inline double length_in_m(const bed::Bed& bed, const StandPlan& plan) noexcept {
  constexpr double kMillimetresPerMetre = 1000.0;
  const int across = bed::clumps_across(bed, row_distance_mm(plan));
  return stretch_mm(plan.spacing_mm, across, plan.clumps) / kMillimetresPerMetre;
}

}  // namespace sowtide::stand
