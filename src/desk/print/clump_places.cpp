#include "desk/print/clump_places.hpp"

#include <algorithm>

namespace sowtide::desk::print {

ClumpGrid clump_grid(const bed::Bed& bed, const stand::StandPlan& plan) {
  const int across = std::max(1, bed::clumps_across(bed, stand::row_distance_mm(plan)));
  return {across, std::max(1, (plan.clumps + across - 1) / across)};
}

std::vector<Point> clump_places(const bed::Bed& bed, const stand::StandPlan& plan, int most) {
  const auto [across, along] = clump_grid(bed, plan);
  // Half of it to either side, so that all stay in the stretch.
  const double moved = plan.arrangement == stand::Arrangement::offset ? 0.25 : 0.0;
  std::vector<Point> places;
  for (int k = 0; k < std::min(plan.clumps, most); ++k) {
    const int row = k % across;
    const double in_row = k / across + 0.5 + (row % 2 == 0 ? -moved : moved);
    places.push_back({(row + 0.5) / across, in_row / along});
  }
  return places;
}

}  // namespace sowtide::desk::print
