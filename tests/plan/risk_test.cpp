#include "plan/risk.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "plan/anneal.hpp"
#include "plan/annealed.hpp"
#include "plan/forward_pass.hpp"
#include "plan/synthetic_garden.hpp"

namespace sowtide::plan {
namespace {

constexpr std::size_t kChanges = 150000;

GardenModel garden_of(std::uint64_t seed, bool group_wants) {
  SyntheticSize size;
  size.crops = 6;
  size.beds = 3;
  size.members = 20;
  size.scenarios = 10;
  size.group_wants = group_wants;
  return synthetic_garden(seed, size);
}

/// What each weather year of the model costs, judged one year at a time.
std::vector<double> year_by_year(const GardenModel& model, const ClumpCounts& counts) {
  std::vector<double> costs;
  for (const std::size_t member : model.scenarios) {
    ForwardPass year(model, {member});
    year.set_counts(counts);
    costs.push_back(year.cost());
  }
  return costs;
}

/// The definition, worked out the long way: sorted, the dearest fifth averaged, the mean taken off.
double excess_by_sorting(std::vector<double> costs) {
  std::sort(costs.rbegin(), costs.rend());
  const std::size_t bad = std::max<std::size_t>(1, costs.size() / 5);
  const double worst = std::accumulate(costs.begin(), costs.begin() + static_cast<std::ptrdiff_t>(bad), 0.0) /
                       static_cast<double>(bad);
  return worst - std::accumulate(costs.begin(), costs.end(), 0.0) / static_cast<double>(costs.size());
}

TEST(BadYears, AreTheDearestFifth) {
  std::vector<double> ten{1.0, 9.0, 2.0, 3.0, 7.0, 1.0, 2.0, 2.0, 1.0, 2.0};  // worst two 8, mean 3
  EXPECT_DOUBLE_EQ(bad_years_excess(ten), 5.0);
  std::vector<double> three{4.0, 1.0, 1.0};  // fewer than five years: the dearest one
  EXPECT_DOUBLE_EQ(bad_years_excess(three), 2.0);
  std::vector<double> none;
  EXPECT_DOUBLE_EQ(bad_years_excess(none), 0.0);
}

RC_GTEST_PROP(BadYears, OfTheJudgeAreThoseOfYearsJudgedOneByOne, ()) {
  GardenModel model = garden_of(*rc::gen::inRange<std::uint64_t>(0, 100), *rc::gen::arbitrary<bool>());
  model.prices.bad_years = 1.0;
  ForwardPass judge(model, model.scenarios);
  for (int i = 0; i < 10; ++i) {
    const double before = judge.bad_years_excess();
    const auto candidate = *rc::gen::inRange<std::size_t>(0, model.candidates.size());
    judge.begin_trial();
    judge.add(candidate, *rc::gen::inRange(0, 40));
    static_cast<void>(judge.trial_change());
    const bool keep = *rc::gen::arbitrary<bool>();
    judge.end_trial(keep);
    RC_ASSERT(keep || judge.bad_years_excess() == before);
    const std::vector<double> years = year_by_year(model, judge.counts());
    const std::vector<double> at_once = judge.year_costs();
    for (std::size_t m = 0; m < years.size(); ++m)
      RC_ASSERT(std::abs(at_once[m] - years[m]) < 1e-8 * (1.0 + std::abs(years[m])));
    const double afresh = excess_by_sorting(years);
    RC_ASSERT(std::abs(judge.bad_years_excess() - afresh) < 1e-8 * (1.0 + afresh));
  }
}

TEST(BadYears, ThatCountForMoreAreLessBad) {
  GardenModel model = garden_of(4, false);
  const std::vector<PlacedStand> by_the_mean = annealed_plan(model, kChanges);
  model.prices.bad_years = 2.0;
  const std::vector<PlacedStand> guarded = annealed_plan(model, kChanges);
  const auto excess = [&](const std::vector<PlacedStand>& stands) {
    return excess_by_sorting(year_by_year(model, counts_of(model, stands)));
  };
  EXPECT_TRUE(layout_faults(model, guarded).empty());
  EXPECT_LT(excess(guarded), 0.9 * excess(by_the_mean));
}

/// One crop, sown in weeks that are given; 40 servings are wanted, every clump brings one.
GardenModel sown_in(const std::vector<int>& weeks) {
  GardenModel model;
  model.member_count = 1;
  model.scenarios = {0};
  model.products.push_back({"roots", "", stand::SizeGoal::large, 100.0, 0.5});
  for (const int week : weeks) {
    Candidate sowing;
    sowing.sow_week = sowing.bed_first_week = week;
    sowing.bed_last_week = week + 8;
    sowing.expected_servings = 1.0;
    sowing.servings.assign(model.weeks, 0.0);
    model.candidates.push_back(sowing);
  }
  Demand demand;
  demand.products = {0};
  demand.servings.assign(model.weeks, 0.0);
  demand.servings[20] = 40.0;
  model.demands.push_back(demand);
  model.prices.spread = 0.05;
  finish_model(model);
  return model;
}

TEST(Spread, CostsAnNthOfTheShareWhereNSowingsWellApartShareWhatIsWanted) {
  const SpreadPrices spread(sown_in({1, 5, 9, 13}));
  EXPECT_NEAR(spread.of_plan({40, 0, 0, 0}), 0.05 * 40.0, 1e-12);
  EXPECT_NEAR(spread.of_plan({20, 20, 0, 0}), 0.05 * 40.0 / 2.0, 1e-12);
  EXPECT_NEAR(spread.of_plan({10, 10, 10, 10}), 0.05 * 40.0 / 4.0, 1e-12);
}

TEST(Spread, TakesTwoSowingsOfOneWeekForOneAndThoseAWeekApartNearlySo) {
  EXPECT_NEAR(SpreadPrices(sown_in({4, 4})).of_plan({20, 20}), 0.05 * 40.0, 1e-12);
  // Half the pairs are of a sowing with itself, half a week apart at two thirds.
  EXPECT_NEAR(SpreadPrices(sown_in({4, 5})).of_plan({20, 20}), 0.05 * 40.0 * (1.0 + 2.0 / 3.0) / 2.0, 1e-12);
  EXPECT_FALSE(SpreadPrices(GardenModel{}).matter());
}

RC_GTEST_PROP(Spread, ChangeIsTheDifferenceOfPlans, ()) {
  GardenModel model = garden_of(*rc::gen::inRange<std::uint64_t>(0, 100), *rc::gen::arbitrary<bool>());
  model.prices.spread = 0.1;
  const SpreadPrices spread(model);
  auto clumps = *rc::gen::container<std::vector<int>>(model.candidates.size(), rc::gen::inRange(0, 20));
  const auto candidate = *rc::gen::inRange<std::size_t>(0, clumps.size());
  const int more = *rc::gen::inRange(-clumps[candidate], 20);
  const double before = spread.of_plan(clumps);
  const double change = spread.change(clumps, candidate, more);
  clumps[candidate] += more;
  RC_ASSERT(std::abs(spread.of_plan(clumps) - before - change) < 1e-9 * (1.0 + before));
}

/// Two beds for a single crop that keeps as long as it likes, wanted in every week: one large sowing would
/// do.
GardenModel one_crop_that_keeps() {
  SyntheticSize size;
  size.crops = 1;
  size.beds = 2;
  GardenModel model = synthetic_garden(3, size);
  model.products.front().keep_share = 1.0;
  model.products.front().keep_weeks = static_cast<int>(model.weeks);
  model.prices.stand = 1.0;
  finish_model(model);
  return model;
}

std::size_t sowings_of(const GardenModel& model) {
  const ClumpCounts counts = counts_of(model, annealed_plan(model, kChanges));
  return counts.size() - static_cast<std::size_t>(std::count(counts.begin(), counts.end(), 0));
}

TEST(Spread, MakesThePlanLeanOnMoreThanOneSowing) {
  GardenModel model = one_crop_that_keeps();
  const std::size_t careless = sowings_of(model);
  model.prices.spread = 0.5;
  const std::size_t careful = sowings_of(model);
  EXPECT_LT(careless, 4U);
  EXPECT_GT(careful, careless);
}

}  // namespace
}  // namespace sowtide::plan
