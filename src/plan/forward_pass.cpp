#include "plan/forward_pass.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>
#include <utility>

#include "base/vector_copies.hpp"
#include "plan/risk.hpp"

namespace sowtide::plan {

namespace {

/// Whether the stock of a product left at the end of the horizon will still be asked for.
bool wanted_at_the_end(const GardenModel& model, const Pool& pool, std::size_t product) {
  return std::any_of(pool.demands.begin(), pool.demands.end(), [&](std::size_t d) {
    const Demand& demand = model.demands[d];
    return demand.servings.back() > 0.0 && meets(demand, product);
  });
}

/// One product and one want in a week.
struct WalkedWeek {
  double missing = 0.0, waste = 0.0, wanted = 0.0, keep_share = 0.0;
  double leaving_share = 0.0;  ///< still good of what may be eaten in this week for the last time
  double counts = 1.0;  ///< 1 in the weeks of the plan, 0 after them, when nothing counts as missed in all
};

/// One week of one product and one want, in all weather years side by side. Every year keeps its own sum, so
/// that the copies for wider registers give the same result to the last bit.
SOWTIDE_VECTOR_COPIES
void walk_week(const WalkedWeek& week, const double* __restrict supply, std::size_t members,
               double* __restrict stock, double* __restrict missed, double* __restrict cost) {
  for (std::size_t m = 0; m < members; ++m) {
    const double available = week.keep_share * stock[m] + supply[m];
    const double used = std::min(available, week.wanted);
    stock[m] = available - used;
    missed[m] += week.counts * (week.wanted - used);
    cost[m] += week.missing * (week.wanted - used) + week.waste * (supply[m] - used);
  }
}

/// The same where stock can grow too old. `fresh` is what of the last weeks' picking were still good if none
/// of it were eaten: the stock is never more, since the oldest is eaten first and what is older is thrown
/// away. `leaving` was picked so long ago that it may be eaten in this week for the last time.
SOWTIDE_VECTOR_COPIES
void walk_week_with_ages(const WalkedWeek& week, const double* __restrict supply,
                         const double* __restrict leaving, std::size_t members, double* __restrict fresh,
                         double* __restrict stock, double* __restrict missed, double* __restrict cost) {
  for (std::size_t m = 0; m < members; ++m) {
    const double available = week.keep_share * stock[m] + supply[m];
    const double used = std::min(available, week.wanted);
    // Sums and differences leave a trace of rounding: no stock is below nothing.
    fresh[m] = std::max(0.0, week.keep_share * fresh[m] + supply[m] - week.leaving_share * leaving[m]);
    stock[m] = std::min(available - used, fresh[m]);
    missed[m] += week.counts * (week.wanted - used);
    cost[m] += week.missing * (week.wanted - used) + week.waste * (supply[m] - used);
  }
}

/// A pool of several products or wants, a product or want at a time, likewise.
SOWTIDE_VECTOR_COPIES
void add_to_stock(double keep_share, double waste_price, const double* __restrict supply, std::size_t members,
                  double* __restrict stock, double* __restrict cost) {
  for (std::size_t m = 0; m < members; ++m) {
    stock[m] = keep_share * stock[m] + supply[m];
    cost[m] += waste_price * supply[m];
  }
}

SOWTIDE_VECTOR_COPIES
void take_from_stock(double waste_price, std::size_t members, double* __restrict stock,
                     double* __restrict missing, double* __restrict cost) {
  for (std::size_t m = 0; m < members; ++m) {
    const double used = std::min(stock[m], missing[m]);
    stock[m] -= used;
    missing[m] -= used;
    cost[m] -= waste_price * used;
  }
}

SOWTIDE_VECTOR_COPIES
void throw_old_away(double keep_share, const double* __restrict supply, double leaving_share,
                    const double* __restrict leaving, std::size_t members, double* __restrict fresh,
                    double* __restrict stock) {
  for (std::size_t m = 0; m < members; ++m) {
    fresh[m] = std::max(0.0, keep_share * fresh[m] + supply[m] - leaving_share * leaving[m]);
    stock[m] = std::min(stock[m], fresh[m]);
  }
}

}  // namespace

ClumpCounts counts_of(const GardenModel& model, const std::vector<PlacedStand>& stands) {
  ClumpCounts counts(model.candidates.size(), 0);
  for (const PlacedStand& stand : stands) counts[stand.candidate] += stand.clumps;
  return counts;
}

ForwardPass::ForwardPass(const GardenModel& model, std::vector<std::size_t> members)
    : model_(&model), members_(std::move(members)), pool_of_product_(model.products.size(), 0) {
  for (std::size_t k = 0; k < model.pools.size(); ++k) {
    for (const std::size_t product : model.pools[k].products) pool_of_product_[product] = k;
  }
  candidates_of_product_.resize(model.products.size());
  for (std::size_t c = 0; c < model.candidates.size(); ++c) {
    const Candidate& candidate = model.candidates[c];
    candidates_of_product_[candidate.product].push_back(c);
    std::size_t first = model.weeks, last = 0;
    for (std::size_t m = 0; m < members_.size(); ++m) {
      for (std::size_t w = 0; w < model.weeks; ++w) {
        if (candidate.servings[members_[m] * model.weeks + w] <= 0.0) continue;
        first = std::min(first, w);
        last = std::max(last, w + 1);
      }
    }
    first = std::min(first, last);
    std::vector<double> table;
    for (std::size_t w = first; w < last; ++w) {
      for (const std::size_t m : members_) table.push_back(candidate.servings[m * model.weeks + w]);
    }
    candidate_tables_.push_back(std::move(table));
    table_first_.push_back(first);
  }
  learn_picking_hours();
  wanted_at_end_.assign(model.products.size(), false);
  grows_old_.assign(model.products.size(), false);
  place_in_pool_.assign(model.products.size(), 0);
  for (const Pool& pool : model.pools) {
    for (std::size_t i = 0; i < pool.products.size(); ++i) {
      const std::size_t product = pool.products[i];
      place_in_pool_[product] = i;
      wanted_at_end_[product] = wanted_at_the_end(model, pool, product);
      grows_old_[product] = can_grow_old(model, pool, product);
    }
  }
  for (const Demand& demand : model.demands) missing_most_.push_back(missing_most(model, demand));
  pool_stale_.assign(model.pools.size(), false);
  no_supply_.assign(members_.size(), 0.0);
  for (const Product& product : model.products)
    leaving_share_.push_back(std::pow(product.keep_share, product.keep_weeks));
  learn_store();
  set_counts(ClumpCounts(model.candidates.size(), 0));
}

void ForwardPass::learn_picking_hours() {
  const std::size_t weeks = model_->weeks;
  for (const Candidate& candidate : model_->candidates) {
    std::vector<double> hours(weeks, 0.0);
    const double each = model_->products[candidate.product].pick_hours;
    for (std::size_t w = 0; w < weeks; ++w) hours[w] = each * mean_of_years(*model_, candidate.servings, w);
    const auto works = [](double in_week) { return in_week > 0.0; };
    const auto first = std::find_if(hours.begin(), hours.end(), works);
    const auto last = std::find_if(hours.rbegin(), std::make_reverse_iterator(first), works).base();
    first_picking_.push_back(static_cast<std::size_t>(first - hours.begin()));
    picking_hours_.emplace_back(first, last);
  }
}

void ForwardPass::learn_store() {
  past_picking_.resize(model_->products.size());
  for (std::size_t p = 0; p < past_picking_.size(); ++p) {
    const Product& product = model_->products[p];
    const std::vector<double>& by_age = model_->stored[p];
    const double servings = stored_servings(*model_, p);
    stored_.push_back(servings);
    stored_before_.push_back(servings > 0.0 ? servings / product.keep_share : 0.0);
    if (servings <= 0.0) continue;
    const auto keep_weeks = static_cast<std::size_t>(product.keep_weeks);
    for (std::size_t w = 0; w < std::min(keep_weeks, model_->weeks); ++w) {
      const std::size_t age = keep_weeks - w;
      const double good = age < by_age.size() ? by_age[age] : 0.0;
      const double picked = good > 0.0 ? good / std::pow(product.keep_share, age) : 0.0;
      past_picking_[p].insert(past_picking_[p].end(), members_.size(), picked);
    }
  }
}

void ForwardPass::set_counts(const ClumpCounts& clumps) {
  std::vector<bool> changed(model_->products.size(), counts_.empty());
  for (std::size_t c = 0; c < counts_.size(); ++c) {
    if (counts_[c] != clumps[c]) changed[model_->candidates[c].product] = true;
  }
  counts_ = clumps;
  supply_.resize(model_->products.size());
  pool_costs_.resize(model_->pools.size());
  if (model_->prices.bad_years > 0.0) pool_year_costs_.resize(model_->pools.size());
  for (std::size_t p = 0; p < supply_.size(); ++p) {
    if (changed[p]) rebuild_product(p);
  }
  for (std::size_t k = 0; k < pool_costs_.size(); ++k) {
    const auto& products = model_->pools[k].products;
    const bool walk = products.empty() || std::any_of(products.begin(), products.end(),
                                                      [&](std::size_t p) { return changed[p]; });
    if (walk) walk_and_keep(k);
  }
  rebuild_work();
}

void ForwardPass::rebuild_product(std::size_t product) {
  const std::size_t weeks = model_->weeks;
  std::vector<double>& supply = supply_[product];
  supply.clear();
  for (std::size_t w = 0; w < weeks; ++w) {
    for (const std::size_t m : members_) supply.push_back(model_->base_supply[product][m * weeks + w]);
  }
  for (const std::size_t c : candidates_of_product_[product]) {
    if (counts_[c] != 0) add_table(c, counts_[c]);
  }
}

void ForwardPass::rebuild_work() {
  hours_ = model_->hours_taken;
  seeds_.assign(model_->seed_lots.size(), 0.0);
  for (std::size_t c = 0; c < counts_.size(); ++c) {
    if (counts_[c] == 0) continue;
    add_hours(c, counts_[c], hours_);
    draw_seeds(c, counts_[c]);
  }
}

void ForwardPass::add_table(std::size_t c, int clumps) {
  const std::vector<double>& table = candidate_tables_[c];
  double* supply = supply_[model_->candidates[c].product].data() + table_first_[c] * members_.size();
  const double factor = clumps;
  for (std::size_t i = 0; i < table.size(); ++i) supply[i] += factor * table[i];
}

double ForwardPass::add_hours(std::size_t c, int clumps, std::vector<double>& hours) const {
  const Candidate& candidate = model_->candidates[c];
  double change = 0.0;
  const auto work = [&](std::size_t week, double more) {
    change -= hours_price(hours[week]);
    hours[week] += clumps * more;
    change += hours_price(hours[week]);
  };
  work(static_cast<std::size_t>(candidate.sow_week), candidate.sow_hours);
  work(static_cast<std::size_t>(candidate.bed_first_week), candidate.bed_hours);
  const std::vector<double>& picking = picking_hours_[c];
  for (std::size_t i = 0; i < picking.size(); ++i) work(first_picking_[c] + i, picking[i]);
  return change;
}

void ForwardPass::add(std::size_t candidate, int clumps) {
  const std::size_t pool = pool_of(candidate);
  if (in_trial_) note_for_rollback(candidate, pool, clumps);
  counts_[candidate] += clumps;
  add_table(candidate, clumps);
  trial_work_change_ += add_hours(candidate, clumps, hours_) + draw_seeds(candidate, clumps);
  if (in_trial_) {
    pool_stale_[pool] = true;
  } else {
    walk_and_keep(pool);
  }
}

void ForwardPass::note_for_rollback(std::size_t candidate, std::size_t pool, int clumps) {
  const std::size_t product = model_->candidates[candidate].product;
  const auto known = [&](const SavedSupply& saved) { return saved.product == product; };
  if (std::none_of(saved_supplies_.begin(), saved_supplies_.begin() + saved_supply_count_, known)) {
    if (static_cast<std::size_t>(saved_supply_count_) == saved_supplies_.size())
      saved_supplies_.emplace_back();
    SavedSupply& saved = saved_supplies_[static_cast<std::size_t>(saved_supply_count_++)];
    saved.product = product;
    saved.supply = supply_[product];
  }
  const auto is_pool = [&](const SavedPool& saved) { return saved.pool == pool; };
  if (std::none_of(saved_pools_.begin(), saved_pools_.end(), is_pool)) {
    saved_pools_.push_back({pool, pool_costs_[pool], {}});
    if (!pool_year_costs_.empty()) saved_pools_.back().year_costs = pool_year_costs_[pool];
  }
  if (saved_counts_.empty()) {
    saved_hours_ = hours_;
    saved_seeds_ = seeds_;
  }
  saved_counts_.emplace_back(candidate, clumps);
}

void ForwardPass::begin_trial() {
  in_trial_ = true;
  saved_supply_count_ = 0;
  saved_pools_.clear();
  saved_counts_.clear();
  trial_work_change_ = 0.0;
}

double ForwardPass::trial_change() {
  double change = trial_work_change_;
  for (const SavedPool& saved : saved_pools_) {
    if (pool_stale_[saved.pool]) walk_and_keep(saved.pool);
    pool_stale_[saved.pool] = false;
    change += pool_costs_[saved.pool] - saved.cost;
  }
  return change;
}

void ForwardPass::end_trial(bool keep) {
  in_trial_ = false;
  if (keep) return;
  for (int i = 0; i < saved_supply_count_; ++i) {
    SavedSupply& saved = saved_supplies_[static_cast<std::size_t>(i)];
    std::swap(supply_[saved.product], saved.supply);
  }
  for (SavedPool& saved : saved_pools_) {
    pool_costs_[saved.pool] = saved.cost;
    if (!pool_year_costs_.empty()) std::swap(pool_year_costs_[saved.pool], saved.year_costs);
    pool_stale_[saved.pool] = false;
  }
  if (!saved_counts_.empty()) {
    std::swap(hours_, saved_hours_);
    std::swap(seeds_, saved_seeds_);
  }
  for (const auto& [candidate, clumps] : saved_counts_) counts_[candidate] -= clumps;
}

double ForwardPass::change_by(std::size_t candidate, int clumps) {
  const std::size_t pool = pool_of(candidate);
  // The supply is kept and put back whole: adding and subtracting would leave rounding behind.
  std::vector<double>& supply = supply_[model_->candidates[candidate].product];
  const std::vector<double> kept = supply;
  add_table(candidate, clumps);
  const double cost_after = pool_cost(pool);
  supply = kept;
  return cost_after - pool_costs_[pool] + labour_change(candidate, clumps) + seed_change(candidate, clumps);
}

double ForwardPass::cost() const {
  double total = 0.0;
  for (const double cost : pool_costs_) total += cost;
  return total + work_cost();
}

std::vector<double> ForwardPass::year_costs() const {
  std::vector<double> costs(members_.size(), work_cost());
  for (std::size_t k = 0; k < model_->pools.size(); ++k) {
    static_cast<void>(pool_cost(k));  // leaves the costs of the members behind
    for (std::size_t m = 0; m < costs.size(); ++m) costs[m] += scratch_cost_[m];
  }
  return costs;
}

double ForwardPass::bad_years_excess() const {
  if (pool_year_costs_.empty()) return 0.0;
  // Hours and seed are the same in all years and do not set them apart.
  scratch_years_.assign(members_.size(), 0.0);
  for (const std::vector<double>& costs : pool_year_costs_) {
    for (std::size_t m = 0; m < costs.size(); ++m) scratch_years_[m] += costs[m];
  }
  return plan::bad_years_excess(scratch_years_);
}

double ForwardPass::hours_price(double hours) const {
  const PlanPrices& prices = model_->prices;
  return prices.easy_hour * hours +
         (prices.hard_hour - prices.easy_hour) * std::max(0.0, hours - prices.easy_hours);
}

double ForwardPass::work_cost() const {
  double cost = 0.0;
  for (const double hours : hours_) cost += hours_price(hours);
  double bought = 0.0;
  for (std::size_t lot = 0; lot < seeds_.size(); ++lot)
    bought += std::max(0.0, seeds_[lot] - model_->seed_lots[lot].seeds);
  return cost + model_->prices.seed * bought;
}

double ForwardPass::draw_seeds(std::size_t candidate, int clumps) {
  const double change = seed_change(candidate, clumps);
  const Candidate& sowing = model_->candidates[candidate];
  if (sowing.seed_lot >= 0) seeds_[static_cast<std::size_t>(sowing.seed_lot)] += clumps * sowing.seeds;
  return change;
}

double ForwardPass::seed_change(std::size_t candidate, int clumps) const {
  const Candidate& sowing = model_->candidates[candidate];
  if (sowing.seed_lot < 0) return 0.0;
  const auto lot = static_cast<std::size_t>(sowing.seed_lot);
  const double free = model_->seed_lots[lot].seeds;
  const double after = seeds_[lot] + clumps * sowing.seeds;
  return model_->prices.seed * (std::max(0.0, after - free) - std::max(0.0, seeds_[lot] - free));
}

double ForwardPass::labour_change(std::size_t candidate, int clumps) const {
  scratch_hours_ = hours_;
  return add_hours(candidate, clumps, scratch_hours_);
}

double ForwardPass::pool_cost(std::size_t pool_place) const {
  const Pool& pool = model_->pools[pool_place];
  const bool simple = pool.products.size() == 1 && pool.demands.size() == 1;
  return simple ? walk_simple_pool(pool) : walk_pool(pool, nullptr);
}

void ForwardPass::walk_and_keep(std::size_t pool) {
  pool_costs_[pool] = pool_cost(pool);
  if (!pool_year_costs_.empty()) pool_year_costs_[pool] = scratch_cost_;
}

double ForwardPass::walk_simple_pool(const Pool& pool) const {
  const std::size_t weeks = model_->weeks;
  const std::size_t members = members_.size();
  const Demand& demand = model_->demands[pool.demands.front()];
  const std::size_t product = pool.products.front();
  const double keep_share = model_->products[product].keep_share;
  const double* supply = supply_[product].data() + pool.first_week * members;
  std::vector<double>& stock = scratch_stock_;
  std::vector<double>& cost = scratch_cost_;
  stock.assign(members, stored_before_[product]);
  // Before anything can be had all is missed, in every year alike.
  double missed_before = 0.0, price_before = 0.0;
  for (std::size_t w = 0; w < pool.first_week; ++w) {
    if (w < model_->told_weeks) missed_before += demand.servings[w];
    price_before += price_in(demand, w) * demand.servings[w];
  }
  std::vector<double>& missed = scratch_missed_;
  missed.assign(members, missed_before);
  cost.assign(members, price_before + pool.waste_price * stored_[product]);
  scratch_fresh_.assign(members, stored_before_[product]);
  const bool grows_old = grows_old_[product];
  for (std::size_t w = pool.first_week; w < weeks; ++w, supply += members) {
    const WalkedWeek week{price_in(demand, w), pool.waste_price,        demand.servings[w],
                          keep_share,          leaving_share_[product], w < model_->told_weeks ? 1.0 : 0.0};
    if (!grows_old) {
      walk_week(week, supply, members, stock.data(), missed.data(), cost.data());
      continue;
    }
    walk_week_with_ages(week, supply, leaving_in(product, w), members, scratch_fresh_.data(), stock.data(),
                        missed.data(), cost.data());
  }
  double total = 0.0;
  const MissingMost& most = missing_most_[pool.demands.front()];
  for (std::size_t m = 0; m < members; ++m) {
    if (wanted_at_end_[product]) cost[m] -= pool.waste_price * stock[m];
    cost[m] += most.cost_of(missed[m]);
    total += cost[m];
  }
  return total / static_cast<double>(members);
}

const double* ForwardPass::leaving_in(std::size_t product, std::size_t week) const {
  const std::size_t members = members_.size();
  const auto keep_weeks = static_cast<std::size_t>(model_->products[product].keep_weeks);
  if (week >= keep_weeks) return supply_[product].data() + (week - keep_weeks) * members;
  return past_picking_[product].empty() ? no_supply_.data() : past_picking_[product].data() + week * members;
}

/// The pool's products and members side by side, as they stand before the plan's first week.
void ForwardPass::begin_walk(const Pool& pool) const {
  const std::size_t members = members_.size();
  scratch_stock_.clear();
  scratch_cost_.assign(members, 0.0);
  for (const std::size_t product : pool.products) {
    scratch_stock_.insert(scratch_stock_.end(), members, stored_before_[product]);
    for (double& cost : scratch_cost_) cost += pool.waste_price * stored_[product];
  }
  scratch_fresh_ = scratch_stock_;
  scratch_missed_.assign(pool.demands.size() * members, 0.0);
}

void ForwardPass::meet_demand(const Pool& pool, std::size_t place, std::size_t week,
                              MissingTables* missing) const {
  const std::size_t members = members_.size();
  const Demand& demand = model_->demands[pool.demands[place]];
  scratch_missing_.assign(members, demand.servings[week]);
  for (const std::size_t product : demand.products) {
    double* stock = scratch_stock_.data() + place_in_pool_[product] * members;
    take_from_stock(pool.waste_price, members, stock, scratch_missing_.data(), scratch_cost_.data());
  }
  const double price = price_in(demand, week);
  double* missed = scratch_missed_.data() + place * members;
  for (std::size_t m = 0; m < members; ++m) {
    if (week < model_->told_weeks) missed[m] += scratch_missing_[m];
    scratch_cost_[m] += price * scratch_missing_[m];
    if (missing != nullptr) (*missing)[place][m * model_->weeks + week] = scratch_missing_[m];
  }
}

double ForwardPass::walk_pool(const Pool& pool, MissingTables* missing) const {
  const std::size_t members = members_.size();
  begin_walk(pool);
  for (std::size_t w = 0; w < model_->weeks; ++w) {
    for (std::size_t i = 0; i < pool.products.size(); ++i) {
      const std::size_t product = pool.products[i];
      const double* supply = supply_[product].data() + w * members;
      add_to_stock(model_->products[product].keep_share, pool.waste_price, supply, members,
                   scratch_stock_.data() + i * members, scratch_cost_.data());
    }
    for (std::size_t i = 0; i < pool.demands.size(); ++i) meet_demand(pool, i, w, missing);
    for (std::size_t i = 0; i < pool.products.size(); ++i) {
      const std::size_t product = pool.products[i];
      if (!grows_old_[product]) continue;
      throw_old_away(model_->products[product].keep_share, supply_[product].data() + w * members,
                     leaving_share_[product], leaving_in(product, w), members, scratch_fresh_.data() + i * members,
                     scratch_stock_.data() + i * members);
    }
  }
  for (std::size_t i = 0; i < pool.products.size(); ++i) {
    if (!wanted_at_end_[pool.products[i]]) continue;
    const double* stock = scratch_stock_.data() + i * members;
    for (std::size_t m = 0; m < members; ++m) scratch_cost_[m] -= pool.waste_price * stock[m];
  }
  for (std::size_t i = 0; i < pool.demands.size(); ++i) {
    const MissingMost& most = missing_most_[pool.demands[i]];
    for (std::size_t m = 0; m < members; ++m)
      scratch_cost_[m] += most.cost_of(scratch_missed_[i * members + m]);
  }
  return std::accumulate(scratch_cost_.begin(), scratch_cost_.end(), 0.0) / static_cast<double>(members);
}

std::vector<double> ForwardPass::missing(std::size_t demand) const {
  for (const Pool& pool : model_->pools) {
    const auto found = std::find(pool.demands.begin(), pool.demands.end(), demand);
    if (found == pool.demands.end()) continue;
    MissingTables tables(pool.demands.size(), std::vector<double>(members_.size() * model_->weeks, 0.0));
    walk_pool(pool, &tables);
    return std::move(tables[static_cast<std::size_t>(found - pool.demands.begin())]);
  }
  return std::vector<double>(members_.size() * model_->weeks, 0.0);
}

std::vector<std::size_t> unseen_members(const GardenModel& model) {
  std::vector<std::size_t> unseen;
  for (std::size_t m = 0; m < model.member_count; ++m) {
    if (std::find(model.scenarios.begin(), model.scenarios.end(), m) == model.scenarios.end())
      unseen.push_back(m);
  }
  return unseen;
}

}  // namespace sowtide::plan
