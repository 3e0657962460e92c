#include "plan/risk.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace sowtide::plan {
namespace {

constexpr std::size_t kYearsToOneBad = 5;
/// Sowings so far apart do not fail together, by our judgement.
constexpr double kWeeksApart = 3.0;

/// Servings wanted in all of the products of a pool.
double wanted_of(const GardenModel& model, const Pool& pool) {
  double wanted = 0.0;
  for (const std::size_t d : pool.demands) {
    const std::vector<double>& servings = model.demands[d].servings;
    wanted += std::accumulate(servings.begin(), servings.end(), 0.0);
  }
  return wanted;
}

}  // namespace

SpreadPrices::SpreadPrices(const GardenModel& model) {
  if (model.prices.spread <= 0.0) return;
  std::vector<double> wanted_of_product(model.products.size(), 0.0);
  for (const Pool& pool : model.pools) {
    const double wanted = wanted_of(model, pool);
    for (const std::size_t product : pool.products) wanted_of_product[product] = wanted;
  }
  for (const Candidate& candidate : model.candidates) {
    const double wanted = wanted_of_product[candidate.product];
    share_.push_back(wanted > 0.0 ? model.prices.spread / wanted * candidate.expected_servings : 0.0);
    near_.emplace_back();
    for (std::size_t d = 0; d < model.candidates.size(); ++d) {
      const Candidate& other = model.candidates[d];
      const double together = 1.0 - std::abs(other.sow_week - candidate.sow_week) / kWeeksApart;
      if (other.product == candidate.product && together > 0.0)
        near_.back().push_back({d, together * other.expected_servings});
    }
  }
}

double SpreadPrices::of_plan(const std::vector<int>& clumps) const {
  double price = 0.0;
  for (std::size_t c = 0; c < share_.size(); ++c) {
    if (clumps[c] == 0) continue;
    double near = 0.0;
    for (const Near& other : near_[c]) near += other.servings * clumps[other.candidate];
    price += share_[c] * clumps[c] * near;
  }
  return price;
}

double SpreadPrices::change(const std::vector<int>& clumps, std::size_t candidate, int more) const {
  if (!matter()) return 0.0;
  double near = 0.0, own = 0.0;
  for (const Near& other : near_[candidate]) {
    near += other.servings * clumps[other.candidate];
    if (other.candidate == candidate) own = other.servings;
  }
  return share_[candidate] * more * (2.0 * near + own * more);
}

double bad_years_excess(std::vector<double>& year_costs) {
  if (year_costs.empty()) return 0.0;
  const auto bad = static_cast<std::ptrdiff_t>(std::max<std::size_t>(1, year_costs.size() / kYearsToOneBad));
  std::nth_element(year_costs.begin(), year_costs.begin() + (bad - 1), year_costs.end(), std::greater<>());
  const double worst = std::accumulate(year_costs.begin(), year_costs.begin() + bad, 0.0);
  const double all = std::accumulate(year_costs.begin() + bad, year_costs.end(), worst);
  return worst / static_cast<double>(bad) - all / static_cast<double>(year_costs.size());
}

}  // namespace sowtide::plan
