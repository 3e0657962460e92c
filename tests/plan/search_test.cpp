#include "plan/search.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <optional>
#include <utility>

#include "plan/annealed.hpp"
#include "plan/synthetic_garden.hpp"

namespace sowtide::plan {
namespace {

GardenModel garden() {
  return synthetic_garden(11, small_size());
}

/// By sowing and bed.
std::map<std::pair<std::size_t, std::size_t>, int> clumps_of(const std::vector<PlacedStand>& stands) {
  std::map<std::pair<std::size_t, std::size_t>, int> clumps;
  for (const PlacedStand& stand : stands) clumps[{stand.candidate, stand.bed}] += stand.clumps;
  return clumps;
}

/// The plan as the last touches leave it, begun with one that is as `plan`.
std::vector<PlacedStand> touched(const GardenModel& model, const std::vector<PlacedStand>& plan,
                                 std::optional<double> allowance = {}) {
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  PlacedSearch search(model, formulation, *relaxation);
  search.start_from(plan);
  if (allowance) search.restore_promises(*allowance);
  EXPECT_TRUE(layout_faults(model, search.stands()).empty());
  return search.stands();
}

/// A plan, and one before it in which a large stand had so many clumps more or fewer, a sowing alone in its
/// bed.
struct Retold {
  GardenModel model = garden();
  std::vector<PlacedStand> plan;
  std::pair<std::size_t, std::size_t> sowing;
  int now = 0, told = 0;

  /// `told_of` gives the clumps that were told of so many.
  Retold(double change_price, const std::function<int(int)>& told_of) {
    plan = touched(model, annealed_plan(model, 20000));
    model.prices.change = change_price;
    model.promised = plan;
    for (PlacedStand& stand : model.promised) {
      if (stand.clumps < 6 || clumps_of(plan).at({stand.candidate, stand.bed}) != stand.clumps) continue;
      sowing = {stand.candidate, stand.bed};
      now = stand.clumps;
      told = stand.clumps = told_of(now);
      return;
    }
    ADD_FAILURE() << "no stand is large enough";
  }
  [[nodiscard]] int after(double allowance) const {
    return clumps_of(touched(model, plan, allowance)).at(sowing);
  }
};

TEST(PlacedSearch, GivesBackAClumpThatNobodyWasToldOf) {
  const Retold garden(1.0, [](int now) { return now - 1; });
  EXPECT_EQ(garden.after(1e6), garden.told);
}

TEST(PlacedSearch, KeepsAClumpThatIsWorthMoreThanTheNews) {
  const Retold garden(0.0, [](int now) { return now - 1; });
  EXPECT_EQ(garden.after(0.0), garden.now);
}

TEST(PlacedSearch, LeavesASowingThatHasBecomeQuiteAnother) {
  const Retold garden(1.0, [](int now) { return now / 2; });
  EXPECT_EQ(garden.after(1e6), garden.now);
}

// Where a bed has room that nothing is worth sowing in, a sowing gets the clump that was told; in a full bed
// it cannot.
TEST(PlacedSearch, GivesTheClumpThatIsLackingWhereTheBedHasRoom) {
  GardenModel model = garden();
  const std::vector<PlacedStand> plan = touched(model, annealed_plan(model, 20000));
  model.prices.change = 1.0;
  int given = 0, lacking = 0;
  for (std::size_t i = 0; i < plan.size(); ++i) {
    model.promised = plan;
    ++model.promised[i].clumps;
    const std::pair sowing{plan[i].candidate, plan[i].bed};
    const int now = clumps_of(plan).at(sowing);
    if (now < 6) continue;
    const auto after = clumps_of(touched(model, plan, 1e6));
    ASSERT_TRUE(after.at(sowing) == now || after.at(sowing) == now + 1);
    ++(after.at(sowing) > now ? given : lacking);
    for (const auto& [other, clumps] : clumps_of(plan)) {
      if (other == sowing) continue;
      EXPECT_EQ(after.at(other), clumps);
    }
  }
  EXPECT_GT(given, 0);
  EXPECT_GT(lacking, 0);
}

// A plan whose stands a search has slid about, as it does for nothing, is laid back to where it was told.
TEST(PlacedSearch, LaysStandsBackToWhereTheyWereTold) {
  GardenModel model = garden();
  const std::vector<PlacedStand> now = touched(model, annealed_plan(model, 20000));
  ASSERT_GT(now.size(), 5U);
  // What was told: one stand after the other slid to the first place that is free for it.
  Layout packed(model);
  for (const PlacedStand& stand : now) ASSERT_TRUE(packed.put(stand));
  for (const PlacedStand& stand : now) {
    const auto& stands = packed.stands();
    packed.shrink(static_cast<std::size_t>(std::find(stands.begin(), stands.end(), stand) - stands.begin()),
                  stand.clumps);
    bool put = false;
    for (const auto& [from_mm, to_mm] : packed.free_stretches(stand.candidate, stand.bed)) {
      PlacedStand moved = stand;
      moved.from_mm = from_mm;
      put = to_mm - from_mm >= packed.length_of(moved) && packed.put(moved);
      if (put) break;
    }
    if (!put) {
      ASSERT_TRUE(packed.put(stand));
    }
  }
  model.promised = packed.stands();
  const auto as_told = [&](const std::vector<PlacedStand>& stands) {
    return std::count_if(stands.begin(), stands.end(), [&](const PlacedStand& stand) {
      return std::find(model.promised.begin(), model.promised.end(), stand) != model.promised.end();
    });
  };
  ASSERT_LT(as_told(now), static_cast<std::ptrdiff_t>(now.size()) - 3);
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  PlacedSearch search(model, formulation, *relaxation);
  search.start_from(now);
  ASSERT_EQ(clumps_of(search.stands()), clumps_of(now)) << "the plan is not at rest";
  search.restore_places(0.5);
  EXPECT_TRUE(layout_faults(model, search.stands()).empty());
  EXPECT_EQ(clumps_of(search.stands()), clumps_of(now));
  EXPECT_EQ(as_told(search.stands()), static_cast<std::ptrdiff_t>(now.size()));
}

}  // namespace
}  // namespace sowtide::plan
