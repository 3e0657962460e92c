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
#include "plan/solver.hpp"

namespace sowtide::plan {

/// The integer column of a candidate in a bed group: its clumps there.
struct ClumpColumn {
  std::size_t candidate = 0;
  std::size_t group = 0;
  int column = 0;
};

/// The stock of a product at the end of a week in one weather year.
struct StockColumn {
  std::size_t product = 0;
  std::size_t member = 0;
  std::size_t week = 0;
  int column = 0;
  bool limited = false;  ///< the row that holds it to what is not too old is in the program
};

struct Formulation {
  LinearProgram program;
  std::vector<ClumpColumn> clump_columns;
  std::vector<std::vector<int>> bed_rows;     ///< by group and week; -1 where nothing competes
  std::vector<std::vector<int>> tray_rows;    ///< by tray, then by heat mat, and week; -1 likewise
  std::vector<std::vector<int>> family_rows;  ///< by group: one for each family that must not come back
  std::vector<int> labour_rows, seed_rows;    ///< hours of a week; seed of a crop and variety
  std::vector<StockColumn> stock_columns;     ///< those that can hold what is too old
  std::vector<std::vector<int>> missing_columns;  ///< by demand: what it misses in the plan's weeks, from its
                                                  ///< pool's first on, in all scenarios
};

/// The program but for its rows of age: a stock is not held yet to what is still good of the last weeks'
/// picking. There are thousands of such rows and few of them matter, so they are added where a solution
/// breaks them. Without them the relaxation is a bound as well, a little lower.
[[nodiscard]] Formulation formulate(const GardenModel& model);

/// Appends the rows of age that a solution breaks. Gives their number; 0 when the values satisfy all of them.
std::size_t add_broken_age_rows(const GardenModel& model, Formulation& formulation,
                                const std::vector<double>& values);

/// Appends all the rows of age that are missing: the whole program, for other solvers.
void add_all_age_rows(const GardenModel& model, Formulation& formulation);

/// Solves the relaxation and adds rows of age to the program and the solver until it satisfies all of them.
/// `solver` holds the formulation's program.
[[nodiscard]] base::Result<LinearSolution> solve_with_age_rows(const GardenModel& model,
                                                               Formulation& formulation,
                                                               RelaxationSolver& solver);

/// Clumps by candidate of a solution, over all groups, rounded to whole numbers.
[[nodiscard]] ClumpCounts counts_of(const GardenModel& model, const Formulation& formulation,
                                    const std::vector<double>& values);

/// The least number of cells a clump of the candidate can take: a valid underestimate for any count.
[[nodiscard]] double least_cells_per_clump(const Candidate& candidate);

}  // namespace sowtide::plan
