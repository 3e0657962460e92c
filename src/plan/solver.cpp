#include "plan/solver.hpp"

#include <ClpSimplex.hpp>
#include <ClpSolve.hpp>
#include <CoinPackedMatrix.hpp>
#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace sowtide::plan {
namespace {

/// Nearer than this to a whole number counts as whole (the library's own primal tolerance is 1e-7).
constexpr double kIntegerTolerance = 1e-6;
/// Share of the fractional columns fixed in one round; a half measured best in speed and result.
constexpr double kFixedShare = 0.5;

struct Fractional {
  int column = 0;
  double value = 0.0;
  double distance = 0.0;
};

std::vector<Fractional> fractional_columns(const LinearProgram& program, const double* values) {
  std::vector<Fractional> found;
  for (std::size_t j = 0; j < program.columns.size(); ++j) {
    if (!program.columns[j].integer) continue;
    const double distance = std::abs(values[j] - std::round(values[j]));
    if (distance > kIntegerTolerance) found.push_back({static_cast<int>(j), values[j], distance});
  }
  std::sort(found.begin(), found.end(), [](const Fractional& a, const Fractional& b) {
    return a.distance != b.distance ? a.distance < b.distance : a.column < b.column;
  });
  return found;
}

/// What a dive that was stopped is worth: whole numbers from below, which keep every packing row satisfied.
void round_down(const LinearProgram& program, LinearSolution& solution) {
  for (std::size_t j = 0; j < program.columns.size(); ++j) {
    if (program.columns[j].integer) solution.values[j] = std::floor(solution.values[j] + kIntegerTolerance);
  }
}

void load(ClpSimplex& simplex, const LinearProgram& program) {
  std::vector<int> rows, columns;
  std::vector<double> values;
  for (const LinearElement& element : program.elements) {
    rows.push_back(element.row);
    columns.push_back(element.column);
    values.push_back(element.value);
  }
  CoinPackedMatrix matrix(true, rows.data(), columns.data(), values.data(),
                          static_cast<CoinBigIndex>(values.size()));
  matrix.setDimensions(static_cast<int>(program.rows.size()), static_cast<int>(program.columns.size()));
  std::vector<double> column_lower, column_upper, cost, row_lower, row_upper;
  for (const LinearColumn& column : program.columns) {
    column_lower.push_back(column.lower);
    column_upper.push_back(column.upper);
    cost.push_back(column.cost);
  }
  for (const LinearRow& row : program.rows) {
    row_lower.push_back(row.lower);
    row_upper.push_back(row.upper);
  }
  simplex.setLogLevel(0);
  simplex.loadProblem(matrix, column_lower.data(), column_upper.data(), cost.data(), row_lower.data(),
                      row_upper.data());
}

tl::unexpected<base::Problem> unsolved(int status) {
  return base::fail(base::ProblemCode::infeasible,
                    "the plan's linear program could not be solved (status " + std::to_string(status) + ")", {},
                    "This is a defect of the program; please report the garden that shows it.");
}

}  // namespace

struct RelaxationSolver::State {
  explicit State(const LinearProgram& given) : program(&given), known_elements(given.elements.size()) {
    load(simplex, given);
  }

  /// Hands on the rows that were appended to the program; their elements were appended with them.
  void take_new_rows() {
    const auto known_rows = static_cast<std::size_t>(simplex.getNumRows());
    std::vector<CoinBigIndex> starts(program->rows.size() - known_rows + 1, 0);
    std::vector<int> columns;
    std::vector<double> values, lower, upper;
    for (std::size_t k = known_elements; k < program->elements.size(); ++k) {
      const LinearElement& element = program->elements[k];
      columns.push_back(element.column);
      values.push_back(element.value);
      starts[static_cast<std::size_t>(element.row) - known_rows + 1] =
          static_cast<CoinBigIndex>(columns.size());
    }
    for (std::size_t r = known_rows; r < program->rows.size(); ++r) {
      lower.push_back(program->rows[r].lower);
      upper.push_back(program->rows[r].upper);
    }
    simplex.addRows(static_cast<int>(lower.size()), lower.data(), upper.data(), starts.data(), columns.data(),
                    values.data());
    known_elements = program->elements.size();
  }

  [[nodiscard]] LinearSolution solution() const {
    LinearSolution result;
    const double* values = simplex.primalColumnSolution();
    const double* prices = simplex.dualRowSolution();
    result.values.assign(values, values + program->columns.size());
    result.row_prices.assign(prices, prices + program->rows.size());
    result.objective = objective_of(*program, result.values);
    return result;
  }

  /// Solves from the basis at hand; true when optimal.
  bool resolve() {
    simplex.dual(0, 0);
    return simplex.status() == 0;
  }

  /// Fixes the first `count` of the fractional columns at their nearest whole numbers and solves again.
  /// Columns that went up and cannot be met are loosened to at most one less; as a last resort all are
  /// rounded down, which keeps every row of the plan's model satisfied.
  bool fix_and_resolve(const std::vector<Fractional>& fractional, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
      const double whole = std::round(fractional[i].value);
      simplex.setColumnBounds(fractional[i].column, whole, whole);
    }
    if (resolve()) return true;
    for (std::size_t i = 0; i < count; ++i) {
      const double whole = std::round(fractional[i].value);
      const double lower = program->columns[static_cast<std::size_t>(fractional[i].column)].lower;
      const double upper = whole > fractional[i].value ? std::max(lower, whole - 1.0) : whole;
      simplex.setColumnBounds(fractional[i].column, lower, upper);
    }
    return resolve();
  }

  void restore_bounds() {
    for (std::size_t j = 0; j < program->columns.size(); ++j) {
      simplex.setColumnBounds(static_cast<int>(j), program->columns[j].lower, program->columns[j].upper);
    }
  }

  const LinearProgram* program;
  std::size_t known_elements = 0;  ///< of the program's elements, those that the library has
  ClpSimplex simplex;
};

RelaxationSolver::RelaxationSolver(const LinearProgram& program) : state_(std::make_unique<State>(program)) {}
RelaxationSolver::~RelaxationSolver() = default;

base::Result<LinearSolution> RelaxationSolver::solve() {
  if (state_->program->columns.empty()) {
    return LinearSolution{
        state_->program->offset, {}, std::vector<double>(state_->program->rows.size(), 0.0)};
  }
  ClpSolve how;
  how.setSolveType(ClpSolve::useDual);
  how.setPresolveType(ClpSolve::presolveOn);
  state_->simplex.initialSolve(how);
  if (state_->simplex.status() != 0) return unsolved(state_->simplex.status());
  return state_->solution();
}

base::Result<LinearSolution> RelaxationSolver::solve_again() {
  state_->take_new_rows();
  if (!state_->resolve()) return unsolved(state_->simplex.status());
  return state_->solution();
}

DiveResult RelaxationSolver::dive(const std::function<bool()>& stop) {
  DiveResult result;
  if (state_->program->columns.empty()) {
    result.complete = true;
    result.solution.objective = state_->program->offset;
    return result;
  }
  bool solved = true;
  std::vector<Fractional> fractional =
      fractional_columns(*state_->program, state_->simplex.primalColumnSolution());
  while (solved && !fractional.empty()) {
    if (stop && stop()) break;
    const auto share = static_cast<std::size_t>(static_cast<double>(fractional.size()) * kFixedShare);
    solved = state_->fix_and_resolve(fractional, std::max<std::size_t>(1, share));
    fractional = fractional_columns(*state_->program, state_->simplex.primalColumnSolution());
    ++result.rounds;
  }
  result.complete = solved && fractional.empty();
  result.solution = state_->solution();
  if (!result.complete) round_down(*state_->program, result.solution);
  state_->restore_bounds();
  return result;
}

base::Result<LinearSolution> RelaxationSolver::solution_with_more(const std::vector<int>& rows, double more) {
  const auto raise = [&](double by) {
    for (const int row : rows) {
      const LinearRow& own = state_->program->rows[static_cast<std::size_t>(row)];
      state_->simplex.setRowBounds(row, own.lower, own.upper + by);
    }
  };
  raise(more);
  const bool solved = state_->resolve();
  LinearSolution with_more = state_->solution();
  raise(0.0);
  if (!solved) return unsolved(state_->simplex.status());
  return with_more;
}

}  // namespace sowtide::plan
