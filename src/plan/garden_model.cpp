#include "plan/garden_model.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include "stand/bed_length.hpp"

namespace sowtide::plan {
namespace {

constexpr double kWeeksPerYear = 52.0;
constexpr double kMillimetresPerMetre = 1000.0;
void make_groups(GardenModel& model) {
  model.groups.clear();
  for (std::size_t b = 0; b < model.beds.size(); ++b) {
    const bed::Bed& bed = model.beds[b];
    auto found = std::find_if(model.groups.begin(), model.groups.end(), [&](const BedGroup& group) {
      return group.sun == bed.sun && group.width_m == bed.width_m;
    });
    if (found == model.groups.end()) found = model.groups.insert(found, BedGroup{bed.sun, bed.width_m, {}});
    found->beds.push_back(b);
  }
}

/// Smallest place of the set that an element belongs to (disjoint sets with path halving).
std::size_t root_of(std::vector<std::size_t>& parent, std::size_t element) {
  while (parent[element] != element) {
    parent[element] = parent[parent[element]];
    element = parent[element];
  }
  return element;
}

std::vector<std::size_t> pool_of_products(const GardenModel& model) {
  std::vector<std::size_t> parent(model.products.size());
  std::iota(parent.begin(), parent.end(), 0U);
  for (const Demand& demand : model.demands) {
    for (const std::size_t product : demand.products) {
      const std::size_t a = root_of(parent, demand.products.front());
      const std::size_t b = root_of(parent, product);
      parent[std::max(a, b)] = std::min(a, b);
    }
  }
  for (std::size_t p = 0; p < parent.size(); ++p) parent[p] = root_of(parent, p);
  return parent;
}

/// A demand takes first what fewest others can use, then what spoils soonest, then what lies there already.
void order_products(GardenModel& model) {
  std::vector<int> users(model.products.size(), 0);
  for (const Demand& demand : model.demands) {
    for (const std::size_t product : demand.products) ++users[product];
  }
  for (Demand& demand : model.demands) {
    std::sort(demand.products.begin(), demand.products.end(), [&](std::size_t a, std::size_t b) {
      if (users[a] != users[b]) return users[a] < users[b];
      if (model.products[a].keep_share != model.products[b].keep_share) {
        return model.products[a].keep_share < model.products[b].keep_share;
      }
      const bool a_stored = model.products[a].store_only, b_stored = model.products[b].store_only;
      return a_stored != b_stored ? a_stored : a < b;
    });
  }
}

std::size_t first_supply_week(const std::vector<double>& table, std::size_t weeks) {
  std::size_t first = weeks;
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (table[i] > 0.0) first = std::min(first, i % weeks);
  }
  return first;
}

void find_first_weeks(GardenModel& model, const std::vector<std::size_t>& pool_of) {
  for (Pool& pool : model.pools) pool.first_week = model.weeks;
  const auto note = [&](std::size_t product, const std::vector<double>& table) {
    Pool& pool = model.pools[pool_of[product]];
    pool.first_week = std::min(pool.first_week, first_supply_week(table, model.weeks));
  };
  for (const Candidate& candidate : model.candidates) note(candidate.product, candidate.servings);
  for (std::size_t p = 0; p < model.products.size(); ++p) {
    note(p, model.base_supply[p]);
    if (stored_servings(model, p) > 0.0) model.pools[pool_of[p]].first_week = 0;
  }
}

void make_pools(GardenModel& model) {
  const std::vector<std::size_t> roots = pool_of_products(model);
  std::vector<std::size_t> pool_of(model.products.size());
  model.pools.clear();
  for (std::size_t p = 0; p < roots.size(); ++p) {
    if (roots[p] == p) model.pools.emplace_back();
    pool_of[p] = roots[p] == p ? model.pools.size() - 1 : pool_of[roots[p]];
    model.pools[pool_of[p]].products.push_back(p);
  }
  for (std::size_t d = 0; d < model.demands.size(); ++d) {
    const Demand& demand = model.demands[d];
    if (demand.products.empty()) {
      model.pools.push_back({{}, {d}, model.weeks});
    } else {
      model.pools[pool_of[demand.products.front()]].demands.push_back(d);
    }
  }
  find_first_weeks(model, pool_of);
  for (Pool& pool : model.pools) {
    double dislike = pool.demands.empty() ? 1.0 : 0.0;
    for (const std::size_t d : pool.demands) dislike = std::max(dislike, model.demands[d].waste_dislike);
    pool.waste_price = dislike * model.prices.waste;
  }
  for (Pool& pool : model.pools) {
    std::stable_sort(pool.demands.begin(), pool.demands.end(), [&](std::size_t a, std::size_t b) {
      const Demand& first = model.demands[a];
      const Demand& second = model.demands[b];
      return first.price != second.price ? first.price > second.price
                                         : first.products.size() < second.products.size();
    });
  }
}

}  // namespace

bool meets(const Demand& demand, std::size_t product) {
  return std::find(demand.products.begin(), demand.products.end(), product) != demand.products.end();
}

void finish_model(GardenModel& model) {
  model.told_weeks = std::min(model.told_weeks, model.weeks);
  model.base_supply.resize(model.products.size());
  for (std::vector<double>& table : model.base_supply) table.resize(model.member_count * model.weeks, 0.0);
  model.stored.resize(model.products.size());
  model.tray_taken.resize(model.trays.size());
  for (std::vector<int>& table : model.tray_taken) table.resize(model.weeks, 0);
  model.mat_taken.resize(model.trays.size());
  for (std::vector<int>& table : model.mat_taken) table.resize(model.weeks, 0);
  model.hours_taken.resize(model.weeks, 0.0);
  make_groups(model);
  order_products(model);
  make_pools(model);
}

double price_in(const Demand& demand, std::size_t week) {
  return demand.week_factor.empty() ? demand.price : demand.price * demand.week_factor[week];
}

std::optional<std::size_t> sown_product(const GardenModel& model, const std::string& crop,
                                        const std::string& variety, stand::SizeGoal size) {
  const auto found = std::find_if(model.products.begin(), model.products.end(), [&](const Product& product) {
    return !product.store_only && product.crop == crop && product.variety == variety && product.size == size;
  });
  if (found == model.products.end()) return {};
  return static_cast<std::size_t>(found - model.products.begin());
}

double wanted_servings(const GardenModel& model, const Demand& demand) {
  const auto told = demand.servings.begin() + static_cast<std::ptrdiff_t>(model.told_weeks);
  return std::accumulate(demand.servings.begin(), told, 0.0);
}

MissingMost missing_most(const GardenModel& model, const Demand& demand) {
  return {wanted_servings(model, demand) / 2.0, model.prices.first_half * demand.price};
}

double mean_of_years(const GardenModel& model, const std::vector<double>& table, std::size_t week) {
  double sum = 0.0;
  for (const std::size_t m : model.scenarios) sum += table[m * model.weeks + week];
  return sum / static_cast<double>(model.scenarios.size());
}

double mean_supply(const GardenModel& model, const Candidate& candidate) {
  double sum = 0.0;
  for (const std::size_t m : model.scenarios) {
    for (std::size_t w = 0; w < model.weeks; ++w) sum += candidate.servings[m * model.weeks + w];
  }
  return sum / static_cast<double>(model.scenarios.size());
}

std::vector<int> last_wanted_weeks(const GardenModel& model) {
  std::vector<int> last(model.products.size(), -1);
  for (const Demand& demand : model.demands) {
    for (std::size_t w = 0; w < model.weeks; ++w) {
      if (demand.servings[w] <= 0.0) continue;
      for (const std::size_t p : demand.products) last[p] = std::max(last[p], static_cast<int>(w));
    }
  }
  return last;
}

double stored_servings(const GardenModel& model, std::size_t product) {
  return std::accumulate(model.stored[product].begin(), model.stored[product].end(), 0.0);
}

double stored_still_good(const GardenModel& model, std::size_t product, std::size_t week) {
  const Product& of = model.products[product];
  const std::vector<double>& by_age = model.stored[product];
  const auto now = static_cast<int>(week);
  double good = 0.0;
  for (int age = 1; age < static_cast<int>(by_age.size()) && age + now < of.keep_weeks; ++age)
    good += by_age[static_cast<std::size_t>(age)];
  return good > 0.0 ? good * std::pow(of.keep_share, now) : 0.0;
}

std::size_t first_old_week(const GardenModel& model, const Pool& pool, std::size_t product) {
  const auto keep_weeks = static_cast<std::size_t>(model.products[product].keep_weeks);
  const std::vector<double>& by_age = model.stored[product];
  // Sown or picked from the first week on; what lies in store has its age already.
  return by_age.size() > 1 ? keep_weeks + 1 - std::min(by_age.size(), keep_weeks + 1)
                           : pool.first_week + keep_weeks;
}

bool can_grow_old(const GardenModel& model, const Pool& pool, std::size_t product) {
  return first_old_week(model, pool, product) < model.weeks;
}

int length_mm(const bed::Bed& bed) {
  // A bed of 3.6 m has 3600 mm, though 3.6 × 1000 is a little less than 3600 in binary.
  return static_cast<int>(std::floor(bed.length_m * kMillimetresPerMetre + 1e-6));
}

int whole_mm(double metres) {
  return static_cast<int>(std::lround(metres * kMillimetresPerMetre));
}

int clumps_across(const bed::Bed& bed, const Candidate& candidate) {
  return bed::clumps_across(bed, static_cast<double>(candidate.spacing_mm));
}

int stretch_mm(const Candidate& candidate, int across, int clumps) {
  return static_cast<int>(stand::stretch_mm(candidate.spacing_mm, across, clumps));
}

int clumps_in(const Candidate& candidate, int across, int free_mm) {
  if (across <= 0 || free_mm < stretch_mm(candidate, across, 1)) return 0;
  return static_cast<int>(static_cast<std::int64_t>(free_mm) * across / candidate.spacing_mm);
}

namespace {

/// By the crop's wish alone, where the light was not reckoned with.
bool bears_light_of(bed::SunClass sun, const Candidate& candidate) {
  return sun == bed::SunClass::full || (sun == bed::SunClass::partial && candidate.stands_part_shade);
}

}  // namespace

bool may_stand(const bed::Bed& bed, const Candidate& candidate) {
  const bool lit = candidate.sun ? *candidate.sun == bed.sun : bears_light_of(bed.sun, candidate);
  return lit && clumps_across(bed, candidate) > 0 && candidate.spacing_mm <= length_mm(bed);
}

int cells_for(const Candidate& candidate, int clumps) {
  if (candidate.tray < 0 || clumps <= 0) return 0;
  if (!candidate.cells_for_clumps) return clumps;
  const auto& table = *candidate.cells_for_clumps;
  const auto n = static_cast<std::size_t>(clumps);
  constexpr int kTooMany = 1 << 28;
  return n < table.size() ? table[n] : kTooMany;
}

std::array<CellStay, 2> cell_stays(const GardenModel& model, const Candidate& candidate) {
  std::array<CellStay, 2> stays;
  if (candidate.tray < 0) return stays;
  const int first = std::max(0, candidate.tray_first_week);
  const int end = static_cast<int>(model.weeks) - 1;
  const auto tray = static_cast<std::size_t>(candidate.tray);
  stays[0] = {tray, first, std::min(candidate.tray_last_week, end)};
  stays[1] = {model.trays.size() + tray, first, std::min(candidate.mat_last_week, end)};
  return stays;
}

int cells_in_room(const GardenModel& model, std::size_t room) {
  const std::size_t trays = model.trays.size();
  if (room < trays) return model.trays[room].cells;
  const int on_mat = model.trays[room - trays].mat_cells;
  return on_mat > 0 ? on_mat : std::numeric_limits<int>::max();
}

std::vector<std::vector<int>> cells_taken(const GardenModel& model) {
  std::vector<std::vector<int>> taken = model.tray_taken;
  taken.insert(taken.end(), model.mat_taken.begin(), model.mat_taken.end());
  return taken;
}

double broken_share(int promised, int kept) {
  const int more = std::max(promised, kept);
  return more <= 0 ? 0.0 : 1.0 - static_cast<double>(std::min(promised, kept)) / static_cast<double>(more);
}

int year_of_week(const GardenModel& model, int week) {
  constexpr int kThursday = 3;
  return base::year_of(model.first_monday + base::Days{7 * week + kThursday});
}

double rest_weeks_of(const Candidate& candidate) {
  return candidate.rotation_years * kWeeksPerYear;
}

bool too_soon_after(const Candidate& candidate, const std::string& family, int first_week, int last_week) {
  if (candidate.rotation_years <= 0.0 || candidate.family != family) return false;
  const double rest_weeks = rest_weeks_of(candidate);
  return candidate.bed_first_week - last_week < rest_weeks &&
         first_week - candidate.bed_last_week < rest_weeks;
}

bool too_soon_after(const GardenModel& model, const Candidate& candidate, const PastStretch& past) {
  if (candidate.family != past.family) return false;
  return year_of_week(model, candidate.bed_first_week) < past.year + candidate.rotation_years;
}

}  // namespace sowtide::plan
