// Judging a given set of sowings: what reaches the table in every weather year, by one walk through the
// weeks.
//
// Of a product the oldest is eaten first, and what is older than it keeps (`Product::keep_weeks`) is thrown
// away: so the stock is never more than what is still good of the last weeks' picking, and needs no book of
// ages. What lies in store as the plan begins was picked in the weeks before it, of which nothing else is known.
//
// With stocks that only decay and prices that never rise from week to week, taking stock as soon as it is
// wanted is the best anyone can do, so for a pool of one product and one want the walk gives exactly the
// value of the linear program with the clumps fixed. Where several wants share several products the walk
// follows a fixed order (dearest want first; what fewest others can use first): a rule a household can
// follow, never better than the program.
#pragma once

#include <utility>
#include <vector>

#include "plan/garden_model.hpp"

namespace sowtide::plan {

/// Clumps by candidate.
using ClumpCounts = std::vector<int>;

/// What placed stands come to.
[[nodiscard]] ClumpCounts counts_of(const GardenModel& model, const std::vector<PlacedStand>& stands);

class ForwardPass {
 public:
  /// Judges over the given weather years, at least one. `model` must outlive this.
  ForwardPass(const GardenModel& model, std::vector<std::size_t> members);

  /// Sets all counts; only what changes is worked out afresh, and without any rounding left from `add`.
  void set_counts(const ClumpCounts& clumps);
  /// Adds (or takes away) clumps of one candidate.
  void add(std::size_t candidate, int clumps);
  /// Change of the cost that `add` would make.
  [[nodiscard]] double change_by(std::size_t candidate, int clumps);
  /// From here on `add` only notes what changes, until `end_trial`.
  void begin_trial();
  /// Change of the cost by all that was added since `begin_trial`.
  [[nodiscard]] double trial_change();
  /// Keeps what was added (call `trial_change` before), or puts everything back exactly as it was.
  void end_trial(bool keep);
  /// Mean cost over the members: missing servings by price, waste, labour, seed to buy.
  [[nodiscard]] double cost() const;
  /// The same of every member by itself, in their order.
  [[nodiscard]] std::vector<double> year_costs() const;
  /// What the dearest fifth of the members costs beyond the mean. Kept up only where the model's prices mind
  /// it
  /// (`PlanPrices::bad_years`); 0 otherwise.
  [[nodiscard]] double bad_years_excess() const;
  [[nodiscard]] const ClumpCounts& counts() const { return counts_; }
  [[nodiscard]] std::size_t pool_of(std::size_t candidate) const {
    return pool_of_product_[model_->candidates[candidate].product];
  }

  /// What a demand misses: [m * weeks + w] in servings.
  [[nodiscard]] std::vector<double> missing(std::size_t demand) const;
  [[nodiscard]] std::size_t member_count() const { return members_.size(); }

 private:
  /// What a walk writes down of what is missing: by demand of the pool, [member * weeks + week].
  using MissingTables = std::vector<std::vector<double>>;
  struct SavedSupply {
    std::size_t product = 0;
    std::vector<double> supply;
  };
  void note_for_rollback(std::size_t candidate, std::size_t pool, int clumps);
  struct SavedPool {
    std::size_t pool = 0;
    double cost = 0.0;
    std::vector<double> year_costs;
  };
  /// `missing`: nothing where that is not asked for.
  double walk_pool(const Pool& pool, MissingTables* missing) const;
  double walk_simple_pool(const Pool& pool) const;
  void begin_walk(const Pool& pool) const;
  void meet_demand(const Pool& pool, std::size_t place, std::size_t week, MissingTables* missing) const;
  /// What was picked so long before a week that it may be eaten in it for the last time, by member.
  [[nodiscard]] const double* leaving_in(std::size_t product, std::size_t week) const;
  double pool_cost(std::size_t pool) const;
  void walk_and_keep(std::size_t pool);
  void add_table(std::size_t candidate, int clumps);
  /// Gives the change of their price.
  double add_hours(std::size_t candidate, int clumps, std::vector<double>& hours) const;
  void learn_picking_hours();
  void learn_store();
  void rebuild_product(std::size_t product);
  void rebuild_work();
  /// Gives the change of what is to pay for seed.
  double draw_seeds(std::size_t candidate, int clumps);
  [[nodiscard]] double seed_change(std::size_t candidate, int clumps) const;
  [[nodiscard]] double hours_price(double hours) const;
  [[nodiscard]] double work_cost() const;
  [[nodiscard]] double labour_change(std::size_t candidate, int clumps) const;

  const GardenModel* model_;
  std::vector<std::size_t> members_;
  std::vector<std::size_t> pool_of_product_;
  std::vector<std::vector<std::size_t>> candidates_of_product_;
  std::vector<std::vector<double>>
      candidate_tables_;  ///< by candidate, [week * members + member], from its first week
  std::vector<std::size_t> table_first_;               ///< first week of those tables
  std::vector<std::vector<double>> supply_;            ///< by product: [week * members + member]
  std::vector<double> pool_costs_;
  std::vector<std::vector<double>>
      pool_year_costs_;  ///< by pool and member; empty where bad years do not matter
  std::vector<double> hours_;  ///< by week
  std::vector<double> seeds_;  ///< drawn, by seed lot
  std::vector<std::vector<double>>
      picking_hours_;  ///< by candidate, for a clump: by week, the mean of the model's years
  std::vector<std::size_t> first_picking_;  ///< by candidate: the first of those weeks
  ClumpCounts counts_;
  std::vector<MissingMost> missing_most_;  ///< by demand
  std::vector<bool> wanted_at_end_;  ///< by product
  std::vector<std::size_t> place_in_pool_;  ///< by product: which of its pool's it is
  std::vector<bool> grows_old_;      ///< by product: some of it can be too old to eat
  bool in_trial_ = false;
  double trial_work_change_ = 0.0;  ///< of hours and seed to buy, since `begin_trial`
  std::vector<bool> pool_stale_;  ///< by pool: changed in the trial, not walked since
  int saved_supply_count_ = 0;    ///< of `saved_supplies_`, whose memory is used again
  std::vector<SavedSupply> saved_supplies_;
  std::vector<SavedPool> saved_pools_;
  std::vector<double> saved_hours_, saved_seeds_;  ///< before the trial's first change
  std::vector<std::pair<std::size_t, int>> saved_counts_;
  std::vector<double> leaving_share_;  ///< by product: still good in the last week in which it may be eaten
  std::vector<double> no_supply_;      ///< a week of nothing
  std::vector<double> stored_before_;  ///< by product: what lies in store, as it was a week before the plan's first
  std::vector<double> stored_;         ///< by product: what lies in store
  std::vector<std::vector<double>>
      past_picking_;  ///< by product: what lies in store, as picked, [week * members + member] of the `keep_weeks`
                      ///< weeks before the plan; empty where nothing lies there
  mutable std::vector<double> scratch_stock_;  ///< of the pool walked: [product of the pool * members + member]
  mutable std::vector<double> scratch_missing_;
  mutable std::vector<double>
      scratch_missed_;  ///< of the pool walked, over all weeks: [demand of the pool * members + member]
  mutable std::vector<double>
      scratch_fresh_;  ///< what of the last weeks' picking were good, if none were eaten
  mutable std::vector<double> scratch_cost_;  ///< by member: of the pool walked last
  mutable std::vector<double> scratch_years_;
  mutable std::vector<double> scratch_hours_;
};

/// The members that are not scenarios of the model: the weather years it has not seen.
[[nodiscard]] std::vector<std::size_t> unseen_members(const GardenModel& model);

}  // namespace sowtide::plan
