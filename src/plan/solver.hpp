// The one narrow door to the linear-programming library: a relaxation with its dual values, and a dive from
// it to whole numbers. One thread, no clock of its own unless a stop is given: the same program gives the
// same answer.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "base/problem.hpp"
#include "plan/linear_program.hpp"

namespace sowtide::plan {

struct LinearSolution {
  double objective = 0.0;          ///< offset included
  std::vector<double> values;      ///< by column
  std::vector<double> row_prices;  ///< dual values: change of the objective per unit of the row's side
};

struct DiveResult {
  bool complete = false;    ///< all integer columns whole; false when stopped before
  LinearSolution solution;  ///< when not complete: integer columns rounded down, the others as they were
  int rounds = 0;
};

/// Holds one program and its basis between calls.
class RelaxationSolver {
 public:
  explicit RelaxationSolver(const LinearProgram& program);
  ~RelaxationSolver();
  RelaxationSolver(const RelaxationSolver&) = delete;
  RelaxationSolver& operator=(const RelaxationSolver&) = delete;

  /// Solves the program without its integrality. Its objective is a lower bound of every whole solution.
  [[nodiscard]] base::Result<LinearSolution> solve();

  /// Takes in the rows that the program got since the last solve and solves from the basis at hand.
  [[nodiscard]] base::Result<LinearSolution> solve_again();

  /// From the last solve: fixes the half of the fractional integer columns that lie nearest to whole numbers,
  /// solves again from the basis, and so on; what cannot be met is loosened downwards. `stop` is asked once a
  /// round. Call `solve` before; bounds are restored afterwards.
  [[nodiscard]] DiveResult dive(const std::function<bool()>& stop = {});

  /// The solution with the upper sides of some rows raised by `more`, from the basis of the last solve: "what
  /// would one more metre bring". The rows are put back. Fails as `solve` does.
  [[nodiscard]] base::Result<LinearSolution> solution_with_more(const std::vector<int>& rows, double more);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace sowtide::plan
