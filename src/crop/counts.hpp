// How many seeds, cells and plants: exact distributions of counts, never sampled.
//
// A "seed" may hold several embryos (a ball of beet). It has M embryos with probability p(m); each gives a
// seedling with the same chance q, independently. The packet's percentage G counts seeds with at least one
// seedling (7 CFR 201.56-1), so q solves sum p(m) (1-q)^m = 1 - G. Seedlings of a seed then have the
// generating function sum p(m) (1-q+qz)^m, and seeds sown together multiply theirs. The embryos of one ball
// share soil and age, so independence is optimistic where counts show more spread.
//     const auto p = seedlings_per_cell(beet.seed, 2, 80.0);   // p[0] = 0.04
#pragma once

#include <optional>
#include <vector>

#include "base/problem.hpp"
#include "base/quantile.hpp"
#include "crop/crop.hpp"

namespace sowtide::crop {

/// Chance that one embryo gives a seedling, from the chance in per cent that the seed gives at least one.
/// 0..1.
[[nodiscard]] double embryo_chance(const SeedFacts& seed, double germination_pct);

/// Probability of 0, 1, 2 … seedlings from one seed.
[[nodiscard]] std::vector<double> seedlings_per_seed(const SeedFacts& seed, double germination_pct);

/// Distribution of the sum of `count` independent draws of `one`. Exact, by repeated squaring; the result has
/// count·(one.size()-1)+1 entries. `one` must not be empty, count >= 0.
[[nodiscard]] std::vector<double> sum_of_draws(const std::vector<double>& one, int count);

/// What is done with the seedlings of a cell once they show.
enum class CellPolicy {
  leave,    ///< all stay together
  thin,     ///< all above `keep` are cut off
  move_one  ///< one seedling above the first is moved into an empty cell, as far as empties and spares go
};

/// What comes of a tray under a policy.
struct TrayOutcome {
  std::vector<double>
      plants_per_cell;           ///< probability of 0, 1, 2 … plants; under move_one of 0, and 1 or more
  double good_cells_mean = 0.0;  ///< cells with at least min_plants
  base::Quantiles good_cells;    ///< p10, p50, p90 of the same
  double seedlings_removed_mean = 0.0;  ///< cut off (thin) or moved (move_one) over the whole tray
};

struct TrayPlan {
  int cells = 1;
  int seeds_per_cell = 1;
  double germination_pct = 80.0;
  int min_plants = 1;  ///< a cell is good with at least so many
  int keep = 1;        ///< most that stay in a cell under `thin`
  CellPolicy policy = CellPolicy::leave;
};

/// Exact outcome of a tray. Problems: out_of_range for counts that make no sense; contradiction when `keep`
/// is below min_plants under `thin`, or when min_plants is above 1 under `move_one`.
[[nodiscard]] base::Result<TrayOutcome> tray_outcome(const SeedFacts& seed, const TrayPlan& plan);

/// Cells to sow when a spare seedling may be moved into an empty cell: the least number n with
/// P(min(n, seedlings in n cells) >= good_clumps) >= service.
[[nodiscard]] base::Result<int> cells_to_sow_with_moving(const SeedFacts& seed, int good_clumps,
                                                         double service, double germination_pct,
                                                         int seeds_per_cell = 1);

/// Seeds to sow so that at least `plants` seedlings come up with probability `service`, where `field_share`
/// (0..1] of those that would germinate come up in the open. Problems: out_of_range, infeasible.
[[nodiscard]] base::Result<int> seeds_to_sow(const SeedFacts& seed, int plants, double service,
                                             double germination_pct, double field_share = 1.0);

/// Grams that hold a number of seeds.
[[nodiscard]] double grams_of_seed(const SeedFacts& seed, double seeds);

}  // namespace sowtide::crop
