// Where the clumps of a stand are drawn in its stretch of the bed.
#pragma once

#include <vector>

#include "bed/bed.hpp"
#include "desk/print/canvas.hpp"
#include "stand/outlook.hpp"

namespace sowtide::desk::print {

struct ClumpGrid {
  int across = 1;  ///< rows beside each other in the bed (`stand::row_distance_mm`)
  int along = 1;   ///< clumps in the longest of them
};

[[nodiscard]] ClumpGrid clump_grid(const bed::Bed& bed, const stand::StandPlan& plan);

/// The middles of the first `most` clumps, x as a share of the bed's width and y of the stretch's length.
/// Rows run along the bed, as many as fit beside each other (`stand::row_distance_mm`); of offset rows every
/// second is moved by half the distance in the row.
[[nodiscard]] std::vector<Point> clump_places(const bed::Bed& bed, const stand::StandPlan& plan, int most);

}  // namespace sowtide::desk::print
