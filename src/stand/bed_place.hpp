// What a stand has of its bed: how it lies across, and how much of the sky's light reaches it.
#pragma once

#include <algorithm>
#include <vector>

#include "bed/bed.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// What a stand has of its bed besides its ground.
struct BedPlace {
  /// Rows of clumps side by side across the bed: the outer ones have light from the path. 0: all are inside a
  /// stand of their kind.
  int rows_across = 0;
  bed::SunClass sun = bed::SunClass::full;
  bool operator==(const BedPlace&) const = default;
};

/// Of the bed that the plan names; open ground without edges when it is none of these.
[[nodiscard]] inline BedPlace bed_place(const std::vector<bed::Bed>& beds, const StandPlan& plan) noexcept {
  for (const bed::Bed& bed : beds) {
    if (bed.id == plan.bed && plan.spacing_mm > 0.0)
      return {std::max(1, bed::clumps_across(bed, row_distance_mm(plan))), bed.sun};
  }
  return {};
}

/// Light that reaches a bed, as shares of that on open ground: of what comes straight from the sun, and of
/// what the sky sends. Equations, figures and reasons: docs/models/stand.md, "The light of a bed".
struct BedLight {
  double direct = 1.0, sky = 1.0;

  /// Share of a day's light, of which so much is diffuse.
  [[nodiscard]] double of_day(double diffuse_share) const noexcept {
    return direct + (sky - direct) * diffuse_share;
  }
};

[[nodiscard]] inline BedLight bed_light(bed::SunClass sun) noexcept {
  constexpr double kMeanDayHours = 12.0;
  constexpr double kPartHours = 4.5, kShadeHours = 1.5;  // the middles of three to six hours, and of less
  // Between one wall at 45 degrees, 0.85, and a lane between two, 0.71; and a lane between walls at 60 degrees.
  constexpr double kPartSky = 0.75, kShadeSky = 0.5;
  switch (sun) {
    case bed::SunClass::full:
      break;
    case bed::SunClass::partial:
      return {kPartHours / kMeanDayHours, kPartSky};
    case bed::SunClass::shade:
      return {kShadeHours / kMeanDayHours, kShadeSky};
  }
  return {};
}

}  // namespace sowtide::stand
