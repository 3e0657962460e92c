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
/// A sowing that fails (slugs, damping off, a hose left off) fails as one, and what was sown within days of
/// it often fails with it. With b(c) servings from each sowing, and S wanted in all from the products that
/// hang together, the price is `PlanPrices::spread` × Σ k(c,d) b(c) b(d) ÷ S over all pairs of sowings of a
/// product, each with itself too; k falls evenly from 1 in the same week to 0 three weeks apart. All from one
/// sowing costs the full share of S, from n equal ones well apart an nth of it.
class SpreadPrices {
 public:
  explicit SpreadPrices(const GardenModel& model);

  /// False when spreading is not asked for.
  [[nodiscard]] bool matter() const { return !share_.empty(); }
  /// Of a whole plan.
  [[nodiscard]] double of_plan(const std::vector<int>& clumps) const;
  /// What more clumps of a sowing (or fewer) would add to a plan.
  [[nodiscard]] double change(const std::vector<int>& clumps, std::size_t candidate, int more) const;

 private:
  struct Near {
    std::size_t candidate = 0;
    double servings = 0.0;  ///< of one clump of it, times k
  };
  std::vector<double> share_;  ///< by candidate: spread ÷ S × servings of one clump; empty when not asked for
  std::vector<std::vector<Near>> near_;  ///< by candidate: it and those sown within days of it
};

/// How much dearer the dearest fifth of the years is than the mean of all, at least one year being in it: the
/// conditional value at risk less the mean (R. T. Rockafellar and S. Uryasev 2000, Journal of Risk 2(3):21).
/// Reorders its input.
[[nodiscard]] double bad_years_excess(std::vector<double>& year_costs);

}  // namespace sowtide::plan
