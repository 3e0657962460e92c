#include "plan/search.hpp"

#include <gtest/gtest.h>

#include <map>
#include <utility>

#include "plan/annealed.hpp"
#include "plan/synthetic_garden.hpp"

namespace sowtide::plan {
namespace {

GardenModel garden() {
  SyntheticSize size;
  size.crops = 5;
  size.beds = 3;
  size.members = 5;
  size.scenarios = 3;
  size.week_step = 2;
  size.tray_cells = 60;
  return synthetic_garden(11, size);
}

/// By sowing and bed.
std::map<std::pair<std::size_t, std::size_t>, int> clumps_of(const std::vector<PlacedStand>& stands) {
  std::map<std::pair<std::size_t, std::size_t>, int> clumps;
  for (const PlacedStand& stand : stands) clumps[{stand.candidate, stand.bed}] += stand.clumps;
  return clumps;
}

/// The plan after a last look at the promises, begun with one that is as `plan`.
std::vector<PlacedStand> with_promises_restored(const GardenModel& model,
                                                const std::vector<PlacedStand>& plan, double allowance) {
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  PlacedSearch search(model, formulation, *relaxation);
  search.start_from(plan);
  search.restore_promises(allowance);
  EXPECT_TRUE(layout_faults(model, search.stands()).empty());
  return search.stands();
}

/// A plan, and a stand of it that the plan before had a clump smaller.
struct Retold {
  GardenModel model = garden();
  std::vector<PlacedStand> plan;
  std::pair<std::size_t, std::size_t> sowing;
  int told = 0;

  explicit Retold(double change_price) {
    plan = with_promises_restored(model, annealed_plan(model, 20000), 0.0);
    model.prices.change = change_price;
    model.promised = plan;
    for (PlacedStand& stand : model.promised) {
      if (stand.clumps < 6) continue;
      --stand.clumps;
      sowing = {stand.candidate, stand.bed};
      told = clumps_of(model.promised).at(sowing);
      return;
    }
    ADD_FAILURE() << "no stand is large enough";
  }
};

TEST(PlacedSearch, GivesBackAClumpThatNobodyWasToldOf) {
  const Retold garden(1.0);
  const auto stands = with_promises_restored(garden.model, garden.plan, 1e6);
  EXPECT_EQ(clumps_of(stands).at(garden.sowing), garden.told);
}

TEST(PlacedSearch, KeepsAClumpThatIsWorthMoreThanTheNews) {
  const Retold garden(0.0);
  const auto stands = with_promises_restored(garden.model, garden.plan, 0.0);
  EXPECT_EQ(clumps_of(stands).at(garden.sowing), garden.told + 1);
}

}  // namespace
}  // namespace sowtide::plan
