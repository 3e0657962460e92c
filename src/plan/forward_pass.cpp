#include "plan/forward_pass.hpp"

#include <algorithm>
#include <utility>

namespace sowtide::plan {

/// What a walk writes down when asked to.
struct ForwardPass::PoolWalk {
  std::vector<std::vector<double>> missing;  ///< by demand of the pool: [member * weeks + week]
  std::vector<double> wasted;                ///< by product of the pool, summed over members
};

namespace {

/// Whether the stock of a product left at the end of the horizon will still be asked for.
bool wanted_at_the_end(const GardenModel& model, const Pool& pool, std::size_t product) {
  return std::any_of(pool.demands.begin(), pool.demands.end(), [&](std::size_t d) {
    const Demand& demand = model.demands[d];
    return demand.servings.back() > 0.0 &&
           std::find(demand.products.begin(), demand.products.end(), product) != demand.products.end();
  });
}

}  // namespace

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
    for (const std::size_t m : members_) {
      const auto row = candidate.servings.begin() + static_cast<std::ptrdiff_t>(m * model.weeks);
      table.insert(table.end(), row + static_cast<std::ptrdiff_t>(first),
                   row + static_cast<std::ptrdiff_t>(last));
    }
    candidate_tables_.push_back(std::move(table));
    table_first_.push_back(first);
    table_last_.push_back(last);
  }
  set_counts(ClumpCounts(model.candidates.size(), 0));
}

void ForwardPass::set_counts(const ClumpCounts& clumps) {
  std::vector<bool> changed(model_->products.size(), counts_.empty());
  for (std::size_t c = 0; c < counts_.size(); ++c) {
    if (counts_[c] != clumps[c]) changed[model_->candidates[c].product] = true;
  }
  counts_ = clumps;
  supply_.resize(model_->products.size());
  pool_costs_.resize(model_->pools.size());
  for (std::size_t p = 0; p < supply_.size(); ++p) {
    if (changed[p]) rebuild_product(p);
  }
  for (std::size_t k = 0; k < pool_costs_.size(); ++k) {
    const auto& products = model_->pools[k].products;
    const bool walk = products.empty() || std::any_of(products.begin(), products.end(),
                                                      [&](std::size_t p) { return changed[p]; });
    if (walk) pool_costs_[k] = pool_cost(k);
  }
  rebuild_hours();
}

void ForwardPass::rebuild_product(std::size_t product) {
  const std::size_t weeks = model_->weeks;
  std::vector<double>& supply = supply_[product];
  supply.clear();
  for (const std::size_t m : members_) {
    const auto row = model_->base_supply[product].begin() + static_cast<std::ptrdiff_t>(m * weeks);
    supply.insert(supply.end(), row, row + static_cast<std::ptrdiff_t>(weeks));
  }
  for (const std::size_t c : candidates_of_product_[product]) {
    if (counts_[c] != 0) add_table(c, counts_[c]);
  }
}

void ForwardPass::rebuild_hours() {
  hours_ = model_->hours_taken;
  for (std::size_t c = 0; c < counts_.size(); ++c) {
    if (counts_[c] != 0) add_hours(c, counts_[c]);
  }
}

void ForwardPass::add_table(std::size_t c, int clumps) {
  const std::size_t first = table_first_[c];
  const std::size_t span = table_last_[c] - first;
  const double* table = candidate_tables_[c].data();
  std::vector<double>& supply = supply_[model_->candidates[c].product];
  const double factor = clumps;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    double* row = supply.data() + m * model_->weeks + first;
    for (std::size_t w = 0; w < span; ++w) row[w] += factor * table[m * span + w];
  }
}

void ForwardPass::add_hours(std::size_t c, int clumps) {
  const Candidate& candidate = model_->candidates[c];
  hours_[static_cast<std::size_t>(candidate.sow_week)] += clumps * candidate.sow_hours;
  hours_[static_cast<std::size_t>(candidate.bed_first_week)] += clumps * candidate.bed_hours;
}

void ForwardPass::add(std::size_t candidate, int clumps) {
  counts_[candidate] += clumps;
  add_table(candidate, clumps);
  add_hours(candidate, clumps);
  const std::size_t pool = pool_of(candidate);
  pool_costs_[pool] = pool_cost(pool);
}

double ForwardPass::change_by(std::size_t candidate, int clumps) {
  const std::size_t pool = pool_of(candidate);
  // The supply is kept and put back whole: adding and subtracting would leave rounding behind.
  std::vector<double>& supply = supply_[model_->candidates[candidate].product];
  const std::vector<double> kept = supply;
  add_table(candidate, clumps);
  const double cost_after = pool_cost(pool);
  supply = kept;
  return cost_after - pool_costs_[pool] + labour_change(model_->candidates[candidate], clumps);
}

double ForwardPass::cost() const {
  double total = 0.0;
  for (const double cost : pool_costs_) total += cost;
  for (const double hours : hours_) total += hours_price(hours);
  return total;
}

double ForwardPass::hours_price(double hours) const {
  const PlanPrices& prices = model_->prices;
  const double easy = std::min(hours, prices.easy_hours);
  return prices.easy_hour * easy + prices.hard_hour * (hours - easy);
}

double ForwardPass::labour_change(const Candidate& candidate, int clumps) const {
  const auto sow_week = static_cast<std::size_t>(candidate.sow_week);
  const auto bed_week = static_cast<std::size_t>(candidate.bed_first_week);
  const double sow = clumps * candidate.sow_hours;
  const double bed = clumps * candidate.bed_hours;
  if (sow_week == bed_week) return hours_price(hours_[sow_week] + sow + bed) - hours_price(hours_[sow_week]);
  return hours_price(hours_[sow_week] + sow) - hours_price(hours_[sow_week]) +
         hours_price(hours_[bed_week] + bed) - hours_price(hours_[bed_week]);
}

double ForwardPass::pool_cost(std::size_t pool_place) const {
  const Pool& pool = model_->pools[pool_place];
  const bool simple = pool.products.size() == 1 && pool.demands.size() == 1;
  return simple ? walk_simple_pool(pool) : walk_pool(pool, nullptr);
}

double ForwardPass::walk_simple_pool(const Pool& pool) const {
  const std::size_t weeks = model_->weeks;
  const Demand& demand = model_->demands[pool.demands.front()];
  const std::size_t product = pool.products.front();
  const double keep_share = model_->products[product].keep_share;
  const bool keeps_value = wanted_at_the_end(*model_, pool, product);
  double missed = 0.0, wasted = 0.0;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    const double* supply = supply_[product].data() + m * weeks;
    double stock = 0.0;
    for (std::size_t w = 0; w < weeks; ++w) {
      const double available = keep_share * stock + supply[w];
      const double used = std::min(available, demand.servings[w]);
      missed += demand.servings[w] - used;
      wasted += supply[w] - used;
      stock = available - used;
    }
    if (keeps_value) wasted -= stock;
  }
  return (demand.price * missed + model_->prices.waste * wasted) / static_cast<double>(members_.size());
}

double ForwardPass::walk_pool(const Pool& pool, PoolWalk* details) const {
  const std::size_t weeks = model_->weeks;
  std::vector<double> stock(model_->products.size(), 0.0);
  double cost = 0.0;
  for (std::size_t m = 0; m < members_.size(); ++m) {
    for (const std::size_t product : pool.products) stock[product] = 0.0;
    for (std::size_t w = 0; w < weeks; ++w) {
      for (std::size_t i = 0; i < pool.products.size(); ++i) {
        const std::size_t product = pool.products[i];
        const double supplied = supply_[product][m * weeks + w];
        stock[product] = model_->products[product].keep_share * stock[product] + supplied;
        cost += model_->prices.waste * supplied;
        if (details != nullptr) details->wasted[i] += supplied;
      }
      for (std::size_t i = 0; i < pool.demands.size(); ++i) {
        const Demand& demand = model_->demands[pool.demands[i]];
        double missing = demand.servings[w];
        for (const std::size_t product : demand.products) {
          const double used = std::min(stock[product], missing);
          stock[product] -= used;
          missing -= used;
          cost -= model_->prices.waste * used;
          if (details == nullptr) continue;
          const auto place =
              std::find(pool.products.begin(), pool.products.end(), product) - pool.products.begin();
          details->wasted[static_cast<std::size_t>(place)] -= used;
        }
        cost += demand.price * missing;
        if (details != nullptr) details->missing[i][m * weeks + w] = missing;
      }
    }
    for (std::size_t i = 0; i < pool.products.size(); ++i) {
      if (!wanted_at_the_end(*model_, pool, pool.products[i])) continue;
      cost -= model_->prices.waste * stock[pool.products[i]];
      if (details != nullptr) details->wasted[i] -= stock[pool.products[i]];
    }
  }
  return cost / static_cast<double>(members_.size());
}

std::vector<double> ForwardPass::missing(std::size_t demand) const {
  for (const Pool& pool : model_->pools) {
    const auto found = std::find(pool.demands.begin(), pool.demands.end(), demand);
    if (found == pool.demands.end()) continue;
    PoolWalk details;
    details.missing.assign(pool.demands.size(), std::vector<double>(members_.size() * model_->weeks, 0.0));
    details.wasted.assign(pool.products.size(), 0.0);
    walk_pool(pool, &details);
    return std::move(details.missing[static_cast<std::size_t>(found - pool.demands.begin())]);
  }
  return std::vector<double>(members_.size() * model_->weeks, 0.0);
}

double ForwardPass::wasted(std::size_t product) const {
  const Pool& pool = model_->pools[pool_of_product_[product]];
  PoolWalk details;
  details.missing.assign(pool.demands.size(), std::vector<double>(members_.size() * model_->weeks, 0.0));
  details.wasted.assign(pool.products.size(), 0.0);
  walk_pool(pool, &details);
  const auto place = std::find(pool.products.begin(), pool.products.end(), product) - pool.products.begin();
  return details.wasted[static_cast<std::size_t>(place)] / static_cast<double>(members_.size());
}

double ForwardPass::supplied(std::size_t product) const {
  double sum = 0.0;
  for (const double servings : supply_[product]) sum += servings;
  return sum / static_cast<double>(members_.size());
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
