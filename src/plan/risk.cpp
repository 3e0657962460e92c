#include "plan/risk.hpp"

#include <algorithm>
#include <functional>
#include <numeric>

namespace sowtide::plan {
namespace {

constexpr std::size_t kYearsToOneBad = 5;

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
    const double each = candidate.expected_servings;
    per_clump_squared_.push_back(wanted > 0.0 ? model.prices.spread * each * each / wanted : 0.0);
  }
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
