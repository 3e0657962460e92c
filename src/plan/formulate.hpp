// The garden model as a mixed-integer linear program (docs/models/plan.md has every symbol).
//
// Its relaxation is a valid lower bound of every plan that can be placed: parts of clumps are allowed, cells
// count at their least number a clump, and a group's beds count as if they were one long bed in which stands
// may be cut anywhere.
#pragma once

#include <vector>

#include "plan/forward_pass.hpp"
#include "plan/garden_model.hpp"
#include "plan/linear_program.hpp"

namespace sowtide::plan {

/// The integer column of a candidate in a bed group: its clumps there.
struct ClumpColumn {
  std::size_t candidate = 0;
  std::size_t group = 0;
  int column = 0;
};

struct Formulation {
  LinearProgram program;
  std::vector<ClumpColumn> clump_columns;
  std::vector<std::vector<int>> bed_rows;     ///< by group and week; -1 where nothing competes
  std::vector<std::vector<int>> tray_rows;    ///< by tray and week; -1 likewise
  std::vector<std::vector<int>> family_rows;  ///< by group: one for each family that must not come back
};

[[nodiscard]] Formulation formulate(const GardenModel& model);

/// Clumps by candidate of a solution, over all groups, rounded to whole numbers.
[[nodiscard]] ClumpCounts counts_of(const GardenModel& model, const Formulation& formulation,
                                    const std::vector<double>& values);

/// The least number of cells a clump of the candidate can take: a valid underestimate for any count.
[[nodiscard]] double least_cells_per_clump(const Candidate& candidate);

}  // namespace sowtide::plan
