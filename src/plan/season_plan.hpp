// The whole way from a garden's description to a placed plan, with the growth model exchangeable.
#pragma once

#include "plan/candidates.hpp"
#include "plan/limiting.hpp"
#include "plan/plan.hpp"
#include "plan/search.hpp"

namespace sowtide::plan {

/// A solved model: the placed stands and what was proven.
struct SolvedModel {
  std::vector<PlacedStand> stands;
  double objective = 0.0;
  double bound = 0.0;
  std::string status;
  std::vector<Worth> worths;
  std::vector<Limiting> limiting;  ///< by demand
};

/// (objective − bound) / objective; 0 when the objective is 0 or not above the bound.
[[nodiscard]] double relative_gap(double objective, double bound);

/// Solves a finished model: relaxation, search among placed plans. The result does not depend on the number
/// of threads, nor on the clock unless the time limit is met.
[[nodiscard]] base::Result<SolvedModel> solve_model(const GardenModel& model, const PlanOptions& options,
                                                    std::uint64_t seed = 1);

/// The program that `make_plan` solves for the garden, for other solvers.
[[nodiscard]] base::Result<LinearProgram> program_of(const PlanInput& input, const PlanOptions& options = {});

/// `make_plan` with any source of sowings.
[[nodiscard]] base::Result<Plan> plan_season(const PlanInput& input, const PlanOptions& options,
                                             const SourceMaker& make_source);

}  // namespace sowtide::plan
