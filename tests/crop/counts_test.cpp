// Counts of seedlings against brute-force enumeration.
#include "crop/counts.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numeric>

#include "crop/emergence.hpp"
#include "example_crop.hpp"

namespace sowtide::crop {
namespace {

SeedFacts seed_of(std::vector<double> embryos) {
  SeedFacts seed;
  seed.embryos = std::move(embryos);
  seed.seeds_per_gram.value = 50.0;
  seed.life_years.value = 3.0;
  return seed;
}

SeedFacts any_seed() {
  std::vector<double> weights = *rc::gen::container<std::vector<double>>(
      static_cast<std::size_t>(*rc::gen::inRange(1, 5)),
      rc::gen::map(rc::gen::inRange(0, 20), [](int w) { return 1.0 * w; }));
  weights.back() += 1.0;
  const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
  for (double& w : weights) w /= sum;
  return seed_of(weights);
}

/// Every way that `seeds` seeds can turn out, embryo by embryo.
void enumerate(const SeedFacts& seed, double q, int seeds, double probability, int seedlings,
               std::vector<double>& into) {
  if (seeds == 0) {
    into[static_cast<std::size_t>(seedlings)] += probability;
    return;
  }
  for (std::size_t m = 1; m <= seed.embryos.size(); ++m) {
    for (unsigned pattern = 0; pattern < (1U << m); ++pattern) {
      double chance = probability * seed.embryos[m - 1];
      int up = 0;
      for (std::size_t e = 0; e < m; ++e) {
        const bool comes = (pattern >> e & 1U) != 0;
        chance *= comes ? q : 1.0 - q;
        up += comes ? 1 : 0;
      }
      enumerate(seed, q, seeds - 1, chance, seedlings + up, into);
    }
  }
}

RC_GTEST_PROP(SeedlingsPerCell, EqualsEnumeration, ()) {
  const SeedFacts seed = any_seed();
  const int seeds = *rc::gen::inRange(1, 4);
  const double pct = *rc::gen::inRange(0, 101);
  std::vector<double> slow(static_cast<std::size_t>(seeds) * seed.embryos.size() + 1, 0.0);
  enumerate(seed, embryo_chance(seed, pct), seeds, 1.0, 0, slow);
  const std::vector<double> fast = seedlings_per_cell(seed, seeds, pct);
  RC_ASSERT(fast.size() == slow.size());
  for (std::size_t k = 0; k < slow.size(); ++k) RC_ASSERT(std::abs(fast[k] - slow[k]) < 1e-12);
}

RC_GTEST_PROP(SeedlingsPerSeed, EmptyShareIsWhatThePacketSays, ()) {
  const SeedFacts seed = any_seed();
  const double pct = *rc::gen::inRange(0, 101);
  const std::vector<double> one = seedlings_per_seed(seed, pct);
  RC_ASSERT(std::abs(one[0] - (1.0 - pct / 100.0)) < 1e-12);
  RC_ASSERT(std::abs(std::accumulate(one.begin(), one.end(), 0.0) - 1.0) < 1e-12);
}

/// P(at least `good` of `cells`) by adding up every pattern of good and bad cells.
double service_by_enumeration(double p, int cells, int good) {
  double sum = 0.0;
  for (unsigned pattern = 0; pattern < (1U << cells); ++pattern) {
    int up = 0;
    double chance = 1.0;
    for (int c = 0; c < cells; ++c) {
      const bool fine = (pattern >> c & 1U) != 0;
      up += fine ? 1 : 0;
      chance *= fine ? p : 1.0 - p;
    }
    if (up >= good) sum += chance;
  }
  return sum;
}

RC_GTEST_PROP(CellsToSow, IsTheLeastNumberByEnumeration, ()) {
  const SeedFacts seed = any_seed();
  const int good = *rc::gen::inRange(1, 5);
  const int seeds = *rc::gen::inRange(1, 3);
  const int min_plants = *rc::gen::inRange(1, 3);
  const double pct = *rc::gen::inRange(55, 100);
  const double service = 0.01 * *rc::gen::inRange(50, 96);
  const std::vector<double> per = seedlings_per_cell(seed, seeds, pct);
  double p = 0.0;
  for (std::size_t k = static_cast<std::size_t>(min_plants); k < per.size(); ++k) p += per[k];
  RC_PRE(service_by_enumeration(p, 14, good) > service + 1e-9);
  const auto cells = cells_to_sow(seed, good, service, pct, seeds, min_plants);
  RC_ASSERT(cells.has_value());
  RC_ASSERT(service_by_enumeration(p, *cells, good) >= service - 1e-9);
  if (*cells > good) RC_ASSERT(service_by_enumeration(p, *cells - 1, good) < service + 1e-9);
}

TEST(CellsToSow, NeedsExactlyAsManyWhenEverySeedComes) {
  EXPECT_EQ(cells_to_sow(seed_of({1.0}), 24, 0.99, 100.0).value(), 24);
}

TEST(CellsToSow, SaysWhenItCannotBe) {
  const auto dead = cells_to_sow(seed_of({1.0}), 5, 0.9, 0.0);
  ASSERT_FALSE(dead.has_value());
  EXPECT_EQ(dead.error().code, base::ProblemCode::infeasible);
  const auto too_many = cells_to_sow(seed_of({1.0}), 5, 0.9, 80.0, 1, 2);
  ASSERT_FALSE(too_many.has_value());
  EXPECT_EQ(too_many.error().code, base::ProblemCode::infeasible);
}

TEST(CellsToSow, RefusesWhatMakesNoSense) {
  const SeedFacts seed = seed_of({1.0});
  EXPECT_FALSE(cells_to_sow(seed, 0, 0.9, 80.0).has_value());
  EXPECT_FALSE(cells_to_sow(seed, 5, 1.0, 80.0).has_value());
  EXPECT_FALSE(cells_to_sow(seed, 5, std::nan(""), 80.0).has_value());
  EXPECT_FALSE(cells_to_sow(seed, 5, 0.9, 120.0).has_value());
  EXPECT_FALSE(cells_to_sow(seed, 5, 0.9, 80.0, 0).has_value());
}

/// P(min(cells, all seedlings) >= good), cell by cell.
double moving_by_enumeration(const std::vector<double>& per, int cells, int good, int seedlings = 0,
                             int done = 0) {
  if (done == cells) return std::min(cells, seedlings) >= good ? 1.0 : 0.0;
  double sum = 0.0;
  for (std::size_t k = 0; k < per.size(); ++k) {
    sum += per[k] * moving_by_enumeration(per, cells, good, seedlings + static_cast<int>(k), done + 1);
  }
  return sum;
}

RC_GTEST_PROP(MovingSeedlings, IsTheLeastNumberByEnumeration, ()) {
  const SeedFacts seed = any_seed();
  const int good = *rc::gen::inRange(1, 4);
  const double pct = *rc::gen::inRange(60, 100);
  const double service = 0.01 * *rc::gen::inRange(50, 90);
  const std::vector<double> per = seedlings_per_cell(seed, 1, pct);
  RC_PRE(moving_by_enumeration(per, 7, good) > service + 1e-9);
  const auto cells = cells_to_sow_with_moving(seed, good, service, pct);
  RC_ASSERT(cells.has_value());
  RC_ASSERT(moving_by_enumeration(per, *cells, good) >= service - 1e-9);
  if (*cells > good) RC_ASSERT(moving_by_enumeration(per, *cells - 1, good) < service + 1e-9);
  RC_ASSERT(*cells <= cells_to_sow(seed, good, service, pct).value());
}

RC_GTEST_PROP(SumOfDraws, KeepsTheMeanAndTheWhole, ()) {
  const SeedFacts seed = any_seed();
  const std::vector<double> one = seedlings_per_seed(seed, 70.0);
  const int count = *rc::gen::inRange(0, 60);
  const std::vector<double> sum = sum_of_draws(one, count);
  double mean_one = 0.0, mean_sum = 0.0, whole = 0.0;
  for (std::size_t k = 0; k < one.size(); ++k) mean_one += static_cast<double>(k) * one[k];
  for (std::size_t k = 0; k < sum.size(); ++k) mean_sum += static_cast<double>(k) * sum[k];
  for (const double p : sum) whole += p;
  RC_ASSERT(std::abs(whole - 1.0) < 1e-12);
  RC_ASSERT(std::abs(mean_sum - count * mean_one) < 1e-9);
}

TEST(TrayOutcome, ThinningKeepsGoodCellsAndCutsTheRest) {
  const SeedFacts seed = seed_of({0, 1.0});
  TrayPlan plan{.cells = 10, .germination_pct = 75.0, .keep = 1, .policy = CellPolicy::thin};
  const auto thinned = tray_outcome(seed, plan);
  plan.policy = CellPolicy::leave;
  const auto left = tray_outcome(seed, plan);
  ASSERT_TRUE(thinned.has_value() && left.has_value());
  // Two embryos at 0.5 each: 0.25, 0.5, 0.25.
  EXPECT_NEAR(left->plants_per_cell[2], 0.25, 1e-12);
  EXPECT_NEAR(thinned->plants_per_cell[1], 0.75, 1e-12);
  EXPECT_NEAR(thinned->seedlings_removed_mean, 2.5, 1e-9);
  EXPECT_NEAR(left->good_cells_mean, 7.5, 1e-9);
  EXPECT_NEAR(thinned->good_cells_mean, left->good_cells_mean, 1e-12);
}

TEST(TrayOutcome, MovingFillsEmptyCells) {
  const SeedFacts seed = seed_of({0, 1.0});
  const TrayPlan plan{.cells = 2, .germination_pct = 75.0, .policy = CellPolicy::move_one};
  const auto moved = tray_outcome(seed, plan);
  ASSERT_TRUE(moved.has_value());
  // Four embryos at 0.5: 0 seedlings 1/16, 1: 4/16, 2 or more: 11/16. Filled cells: 4/16 + 2 x 11/16 = 26/16.
  EXPECT_NEAR(moved->good_cells_mean, 26.0 / 16.0, 1e-12);
  EXPECT_NEAR(moved->seedlings_removed_mean, 26.0 / 16.0 - 1.5, 1e-12);
}

TEST(TrayOutcome, RefusesContradictions) {
  const SeedFacts seed = seed_of({0, 1.0});
  EXPECT_FALSE(
      tray_outcome(seed, {.cells = 5, .min_plants = 3, .keep = 2, .policy = CellPolicy::thin}).has_value());
  EXPECT_FALSE(tray_outcome(seed, {.cells = 5, .min_plants = 2, .policy = CellPolicy::move_one}).has_value());
  EXPECT_FALSE(tray_outcome(seed, {.cells = 0}).has_value());
}

RC_GTEST_PROP(SeedsToSow, IsTheLeastNumberForSingleGermSeed, ()) {
  const SeedFacts seed = seed_of({1.0});
  const int plants = *rc::gen::inRange(1, 5);
  const double pct = *rc::gen::inRange(50, 100);
  const double service = 0.01 * *rc::gen::inRange(50, 96);
  const double p = pct / 100.0;
  RC_PRE(service_by_enumeration(p, 14, plants) > service + 1e-9);
  const int seeds = seeds_to_sow(seed, plants, service, pct).value();
  RC_ASSERT(service_by_enumeration(p, seeds, plants) >= service - 1e-9);
  if (seeds > plants) RC_ASSERT(service_by_enumeration(p, seeds - 1, plants) < service + 1e-9);
}

TEST(SeedsToSow, FewerBallsThanPlantsForMultigermSeed) {
  const SeedFacts beet = seed_of({0, 0.25, 0.25, 0.25, 0.25});
  EXPECT_LT(seeds_to_sow(beet, 100, 0.9, 80.0).value(), seeds_to_sow(seed_of({1.0}), 100, 0.9, 80.0).value());
}

TEST(SeedsToSow, PoorFieldTakesMore) {
  const SeedFacts seed = seed_of({1.0});
  EXPECT_GT(seeds_to_sow(seed, 50, 0.9, 80.0, 0.5).value(), seeds_to_sow(seed, 50, 0.9, 80.0).value());
  EXPECT_FALSE(seeds_to_sow(seed, 50, 0.9, 80.0, 0.0).has_value());
}

TEST(GramsOfSeed, DividesBySeedsPerGram) {
  EXPECT_DOUBLE_EQ(grams_of_seed(seed_of({1.0}), 125.0), 2.5);
}

}  // namespace
}  // namespace sowtide::crop
