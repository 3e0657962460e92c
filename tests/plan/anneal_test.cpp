#include "plan/anneal.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <map>
#include <utility>

#include "plan/annealed.hpp"
#include "plan/synthetic_garden.hpp"

namespace sowtide::plan {
namespace {

GardenModel garden_of(std::uint64_t seed, bool group_wants) {
  SyntheticSize size = small_size();
  size.group_wants = group_wants;
  return synthetic_garden(seed, size);
}

AnnealingOptions quick(std::uint64_t seed) {
  AnnealingOptions options;
  options.changes = 20000;
  options.seed = seed;
  return options;
}

/// Cost of the table and of risk, worked out afresh.
double judged(const GardenModel& model, const std::vector<PlacedStand>& stands) {
  ForwardPass judge(model, model.scenarios);
  const ClumpCounts counts = counts_of(model, stands);
  judge.set_counts(counts);
  return judge.cost() + model.prices.bad_years * judge.bad_years_excess() +
         SpreadPrices(model).of_plan(counts);
}

// No overlap, rotation kept, trays not overfilled; and the cost carried along is that of the plan judged
// afresh.
RC_GTEST_PROP(Annealing, EndsWithASoundPlanAndItsTrueCost, ()) {
  const auto seed = *rc::gen::inRange<std::uint64_t>(0, 300);
  GardenModel model = garden_of(seed, *rc::gen::arbitrary<bool>());
  model.prices.stand = *rc::gen::element(0.0, 0.3);
  model.prices.spread = *rc::gen::element(0.0, 0.2);
  model.prices.bad_years = *rc::gen::element(0.0, 1.0);
  Annealing annealing(model, all_sowings(model));
  annealing.run(quick(seed));
  const std::vector<PlacedStand> stands = annealing.best_stands();
  RC_ASSERT(layout_faults(model, stands).empty());
  // Joining stands that touch may only lessen the bother.
  const double bother = model.prices.stand * static_cast<double>(stands.size());
  const double burden = judged(model, stands) + bother;
  RC_ASSERT(burden <= annealing.best_burden() + 1e-6);
  RC_ASSERT(model.prices.stand > 0.0 || burden >= annealing.best_burden() - 1e-6);
}

TEST(Annealing, GivesTheSamePlanAgain) {
  const GardenModel model = garden_of(11, false);
  Annealing first(model, all_sowings(model)), second(model, all_sowings(model));
  first.run(quick(3));
  second.run(quick(3));
  EXPECT_EQ(first.best_stands(), second.best_stands());
}

TEST(Annealing, KeepsAPromiseThatItIsPaidToKeep) {
  GardenModel model = garden_of(11, false);
  Annealing before(model, all_sowings(model));
  before.run(quick(3));
  model.promised = before.best_stands();
  ASSERT_FALSE(model.promised.empty());
  model.prices.change = 1e6;
  Annealing after(model, all_sowings(model));
  after.start_from(model.promised);
  AnnealingOptions warm = quick(4);
  warm.start_warmth = 5.0;
  after.run(warm);
  for (const PlacedStand& promised : model.promised) {
    const std::vector<PlacedStand> stands = after.best_stands();
    EXPECT_TRUE(std::any_of(stands.begin(), stands.end(), [&](const PlacedStand& stand) {
      return stand.candidate == promised.candidate && stand.bed == promised.bed;
    }));
  }
}

TEST(BrokenShare, IsNoneWhereAsToldAndAllWhereNothingIsLeft) {
  EXPECT_DOUBLE_EQ(broken_share(8, 8), 0.0);
  EXPECT_DOUBLE_EQ(broken_share(8, 0), 1.0);
  EXPECT_DOUBLE_EQ(broken_share(8, 6), 0.25);
  EXPECT_DOUBLE_EQ(broken_share(6, 8), 0.25);
  EXPECT_DOUBLE_EQ(broken_share(0, 0), 0.0);
}

// What the search carries along of promises is what a count of its plan gives.
RC_GTEST_PROP(Annealing, CarriesWhatItBreaksOfAnEarlierPlan, ()) {
  GardenModel model = garden_of(*rc::gen::inRange<std::uint64_t>(0, 300), false);
  Annealing before(model, all_sowings(model));
  before.run(quick(3));
  model.promised = before.best_stands();
  model.prices.change = *rc::gen::element(0.1, 1.0);
  Annealing after(model, all_sowings(model));
  after.start_from(model.promised);
  after.run(quick(4));
  std::map<std::pair<std::size_t, std::size_t>, std::pair<int, int>> clumps;
  for (const PlacedStand& stand : model.promised) clumps[{stand.candidate, stand.bed}].first += stand.clumps;
  for (const PlacedStand& stand : after.best_stands())
    clumps[{stand.candidate, stand.bed}].second += stand.clumps;
  double broken = 0.0;
  for (const auto& [sowing, count] : clumps)
    broken += count.first > 0 ? broken_share(count.first, count.second) : 0.0;
  const double burden = judged(model, after.best_stands()) + model.prices.change * broken;
  RC_ASSERT(std::abs(burden - after.best_burden()) < 1e-6);
}

RC_GTEST_PROP(ForwardPassTrial, PutsEverythingBackExactly, ()) {
  const GardenModel model = garden_of(*rc::gen::inRange<std::uint64_t>(0, 300), *rc::gen::arbitrary<bool>());
  ForwardPass judge(model, model.scenarios);
  for (int round = 0; round < 8; ++round) {
    const double before = judge.cost();
    const ClumpCounts counts = judge.counts();
    judge.begin_trial();
    for (int i = 0; i < 4; ++i) {
      const auto candidate = *rc::gen::inRange<std::size_t>(0, model.candidates.size());
      judge.add(candidate, *rc::gen::inRange(0, 20));
    }
    const double change = judge.trial_change();
    RC_ASSERT(std::abs(judge.cost() - before - change) < 1e-8 * (1.0 + before));
    const bool keep = *rc::gen::arbitrary<bool>();
    judge.end_trial(keep);
    if (keep) continue;
    RC_ASSERT(judge.cost() == before);
    RC_ASSERT(judge.counts() == counts);
  }
}

}  // namespace
}  // namespace sowtide::plan
