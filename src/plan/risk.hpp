// Not all eggs in one basket: what it costs to have much of a product from a single sowing, and what bad
// years cost beyond the mean.
//
// Like the bother of a stand these steer the search; the bound and the objective leave them out
// (docs/models/plan.md, "Risk").
#pragma once

#include <vector>

#include "plan/garden_model.hpp"

namespace sowtide::plan {

/// Prices of sowings that carry much of what is wanted of their product, in servings of priority 1.
///
/// A sowing that fails (slugs, damping off, a hose left off) fails as one. With y(c) clumps of a servings
/// each, and S wanted in all from the products that hang together, the price is `PlanPrices::spread` × Σ (a
/// y)² ÷ S: all from one sowing costs the full share of S, from n equal ones an nth of it.
class SpreadPrices {
 public:
  explicit SpreadPrices(const GardenModel& model);

  /// False when spreading is not asked for.
  [[nodiscard]] bool matter() const { return !per_clump_squared_.empty(); }
  /// Of one sowing with so many clumps, in all beds.
  [[nodiscard]] double of(std::size_t candidate, int clumps) const {
    if (!matter()) return 0.0;
    return per_clump_squared_[candidate] * static_cast<double>(clumps) * static_cast<double>(clumps);
  }
  /// What more clumps (or fewer) would add.
  [[nodiscard]] double change(std::size_t candidate, int clumps, int more) const {
    return of(candidate, clumps + more) - of(candidate, clumps);
  }

 private:
  std::vector<double> per_clump_squared_;  ///< by candidate; empty when spreading is not asked for
};

/// How much dearer the dearest fifth of the years is than the mean of all, at least one year being in it: the
/// conditional value at risk less the mean (R. T. Rockafellar and S. Uryasev 2000, Journal of Risk 2(3):21).
/// Reorders its input.
[[nodiscard]] double bad_years_excess(std::vector<double>& year_costs);

}  // namespace sowtide::plan
