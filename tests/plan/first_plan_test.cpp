#include "plan/first_plan.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "plan/forward_pass.hpp"
#include "plan/layout.hpp"
#include "plan/synthetic_garden.hpp"

namespace sowtide::plan {
namespace {

GardenModel garden_of(std::uint64_t seed) {
  SyntheticSize size = small_size();
  size.crops = 4;
  size.beds = 2;
  size.week_step = 4;
  return synthetic_garden(seed, size);
}

double cost_of(const GardenModel& model, const std::vector<PlacedStand>& stands) {
  ForwardPass judge(model, model.scenarios);
  judge.set_counts(counts_of(model, stands));
  return judge.cost();
}

struct Begun {
  std::vector<PlacedStand> stands;
  double bound = 0.0;
};

Begun begun(const GardenModel& model, const std::function<bool()>& stop = {}) {
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  EXPECT_TRUE(relaxation.has_value());
  return {first_plan(model, formulation, solver, stop), relaxation->objective};
}

// It can be placed, and most of what the relaxation saves of an empty table's cost is in it.
RC_GTEST_PROP(FirstPlan, IsSoundAndFeedsTheTable, ()) {
  const GardenModel model = garden_of(*rc::gen::inRange<std::uint64_t>(0, 300));
  const Begun plan = begun(model);
  RC_ASSERT(layout_faults(model, plan.stands).empty());
  const double nothing = cost_of(model, {});
  RC_ASSERT(nothing - cost_of(model, plan.stands) >= 0.5 * (nothing - plan.bound));
}

RC_GTEST_PROP(FirstPlan, IsSoundWhenStopped, ()) {
  const GardenModel model = garden_of(*rc::gen::inRange<std::uint64_t>(0, 300));
  int steps = *rc::gen::inRange(0, 4);
  RC_ASSERT(layout_faults(model, begun(model, [&] { return steps-- <= 0; }).stands).empty());
}

TEST(FirstPlan, IsEmptyWhereNothingCanBeSown) {
  GardenModel model = garden_of(3);
  model.candidates.clear();
  model.promised.clear();
  EXPECT_TRUE(begun(model).stands.empty());
}

}  // namespace
}  // namespace sowtide::plan
