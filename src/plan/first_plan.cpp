#include "plan/first_plan.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "plan/layout.hpp"

namespace sowtide::plan {
namespace {

struct Sown {
  std::size_t candidate = 0, group = 0;
  int clumps = 0;
};

std::vector<Sown> sown_in(const Formulation& formulation, const std::vector<double>& values) {
  std::vector<Sown> sown;
  for (const ClumpColumn& column : formulation.clump_columns) {
    const auto clumps = static_cast<int>(std::lround(values[static_cast<std::size_t>(column.column)]));
    if (clumps > 0) sown.push_back({column.candidate, column.group, clumps});
  }
  return sown;
}

}  // namespace

std::vector<PlacedStand> first_plan(const GardenModel& model, const Formulation& formulation,
                                    RelaxationSolver& solver, const std::function<bool()>& stop) {
  const DiveResult dive = solver.dive(stop);
  if (dive.solution.values.empty()) return {};
  std::vector<Sown> sown = sown_in(formulation, dive.solution.values);
  const auto order = [&](const Sown& each) {
    const Candidate& candidate = model.candidates[each.candidate];
    return std::make_tuple(candidate.bed_first_week, -candidate.bed_last_week);
  };
  std::stable_sort(sown.begin(), sown.end(),
                   [&](const Sown& a, const Sown& b) { return order(a) < order(b); });
  Layout layout(model);
  for (const Sown& each : sown) static_cast<void>(layout.grow_split(each.candidate, each.clumps, each.group));
  return layout.stands();
}

}  // namespace sowtide::plan
