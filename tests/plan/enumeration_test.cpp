// Tiny gardens of which every placeable plan can be listed: what the planner finds beside the best of them.
// Cost and room are reckoned here once more, straight from docs/models/plan.md, with a book of lots for what
// is kept; nothing of the planner's own reckoning is used.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "base/random.hpp"
#include "plan/season_plan.hpp"

namespace sowtide::plan {
namespace {

// One clump of any candidate takes one slot of its bed: spacing over clumps across, which is the half row
// that the smallest stand takes where there are two. So which counts can be placed hangs on slots alone:
// points a slot apart, laid anywhere along a bed, meet each stand just so often as it has clumps.
constexpr int kSpacingMm = 400;
constexpr double kRounding = 1e-7;

int between(base::RandomStream& random, int least, int most) {
  return least + static_cast<int>(random.below(static_cast<std::uint32_t>(most - least + 1)));
}

int slots_of(const bed::Bed& bed) {
  const int across = static_cast<int>(std::lround(bed.width_m * 1000.0)) / kSpacingMm;
  return across * static_cast<int>(std::lround(bed.length_m * 1000.0)) / kSpacingMm;
}

int slot_mm(const bed::Bed& bed) {
  return static_cast<int>(std::lround(bed.length_m * 1000.0)) / slots_of(bed);
}

// --- Which counts can be placed
// -------------------------------------------------------------------------------------

/// Whether a candidate and something else of a family that stands from week to week can have one slot after
/// each other.
bool can_share(const Candidate& a, const std::string& family, double rest_years, int first, int last) {
  if (a.bed_first_week <= last && first <= a.bed_last_week) return false;
  if (a.family != family) return true;
  const int apart = a.bed_first_week > last ? a.bed_first_week - last : first - a.bed_last_week;
  return apart >= 52.0 * std::max(a.rotation_years, rest_years);
}

using CountSet = std::set<ClumpCounts>;

/// All that may grow in one slot over the plan, as counts of 0 and 1.
CountSet slot_contents(const GardenModel& model, std::size_t bed, int from_mm) {
  const std::size_t size = model.candidates.size();
  CountSet contents;
  for (unsigned code = 0; code < 1U << size; ++code) {
    bool fits = true;
    ClumpCounts counts(size, 0);
    for (std::size_t c = 0; c < size && fits; ++c) {
      if ((code >> c & 1U) == 0) continue;
      counts[c] = 1;
      const Candidate& sowing = model.candidates[c];
      fits = model.beds[bed].sun == bed::SunClass::full || sowing.stands_part_shade;
      for (const TakenStretch& taken : model.taken) {
        if (taken.bed == bed && taken.from_mm <= from_mm && from_mm < taken.to_mm)
          fits = fits && can_share(sowing, taken.family, 0.0, taken.first_week, taken.last_week);
      }
      for (std::size_t d = 0; d < c; ++d) {
        const Candidate& other = model.candidates[d];
        if (counts[d] != 0)
          fits = fits && can_share(sowing, other.family, other.rotation_years, other.bed_first_week,
                                   other.bed_last_week);
      }
    }
    if (fits) contents.insert(counts);
  }
  return contents;
}

bool cells_suffice(const GardenModel& model, const ClumpCounts& counts) {
  for (std::size_t t = 0; t < model.trays.size(); ++t) {
    for (int week = 0; week < static_cast<int>(model.weeks); ++week) {
      int cells = 0;
      for (std::size_t c = 0; c < counts.size(); ++c) {
        const Candidate& sowing = model.candidates[c];
        if (sowing.tray == static_cast<int>(t) && sowing.tray_first_week <= week &&
            week <= sowing.tray_last_week)
          cells += counts[c];
      }
      if (cells > model.trays[t].cells) return false;
    }
  }
  return true;
}

/// Every vector of clumps that some placed plan has.
CountSet placeable_counts(const GardenModel& model) {
  CountSet reached = {ClumpCounts(model.candidates.size(), 0)};
  for (std::size_t b = 0; b < model.beds.size(); ++b) {
    for (int slot = 0; slot < slots_of(model.beds[b]); ++slot) {
      const CountSet contents = slot_contents(model, b, slot * slot_mm(model.beds[b]));
      CountSet further;
      for (const ClumpCounts& counts : reached) {
        for (const ClumpCounts& more : contents) {
          ClumpCounts sum = counts;
          for (std::size_t c = 0; c < sum.size(); ++c) sum[c] += more[c];
          further.insert(std::move(sum));
        }
      }
      reached = std::move(further);
    }
  }
  std::erase_if(reached, [&](const ClumpCounts& counts) { return !cells_suffice(model, counts); });
  return reached;
}

// --- What counts cost
// -----------------------------------------------------------------------------------------------

/// What was picked of a product in one week, or lay in store: servings still good.
struct OwnLot {
  double good = 0.0;
  int age_weeks = 0;
};

double picked(const GardenModel& model, const ClumpCounts& counts, std::size_t product, std::size_t year,
              std::size_t week) {
  double sum = model.base_supply[product][year * model.weeks + week];
  for (std::size_t c = 0; c < counts.size(); ++c) {
    if (model.candidates[c].product == product)
      sum += counts[c] * model.candidates[c].servings[year * model.weeks + week];
  }
  return sum;
}

double waste_price_of(const GardenModel& model, const Pool& pool) {
  double dislike = 0.0;
  for (const std::size_t d : pool.demands) dislike = std::max(dislike, model.demands[d].waste_dislike);
  return dislike * model.prices.waste;
}

/// Wants by price, each taking what fewest others can use, then what spoils soonest; of a product the oldest
/// first.
class Household {
 public:
  Household(const GardenModel& model, const Pool& pool) : model_(&model), pool_(&pool), wants_(pool.demands) {
    std::stable_sort(wants_.begin(), wants_.end(), [&](std::size_t a, std::size_t b) {
      const Demand &first = model.demands[a], &second = model.demands[b];
      return std::make_tuple(-first.price, first.products.size()) <
             std::make_tuple(-second.price, second.products.size());
    });
  }

  double cost_of_year(const ClumpCounts& counts, std::size_t year) {
    const double waste_price = waste_price_of(*model_, *pool_);
    double cost = 0.0, came = 0.0, used = 0.0;
    std::map<std::size_t, double> missed;
    begin();
    for (const std::size_t p : pool_->products) came += stock_of(p);
    for (std::size_t week = 0; week < model_->weeks; ++week) {
      for (const std::size_t p : pool_->products) came += come(p, picked(*model_, counts, p, year, week));
      for (const std::size_t d : wants_) {
        const Demand& demand = model_->demands[d];
        const double got = eat(d, demand.servings[week]);
        used += got;
        const double missing = demand.servings[week] - got;
        const double factor = demand.week_factor.empty() ? 1.0 : demand.week_factor[week];
        cost += demand.price * factor * missing;
        if (week < model_->told_weeks) missed[d] += missing;
      }
      grow_old(week + 1 == model_->weeks);
    }
    for (const std::size_t d : wants_) cost += price_of_missing_most(model_->demands[d], missed[d]);
    for (const std::size_t p : pool_->products) {
      const bool lasts = std::any_of(wants_.begin(), wants_.end(), [&](std::size_t d) {
        const Demand& demand = model_->demands[d];
        return demand.servings.back() > 0.0 &&
               std::count(demand.products.begin(), demand.products.end(), p) > 0;
      });
      if (lasts) used += stock_of(p);
    }
    return cost + waste_price * (came - used);
  }

 private:
  void begin() {
    lots_.clear();
    for (const std::size_t p : pool_->products) {
      for (std::size_t age = model_->stored[p].size(); age-- > 1;)
        lots_[p].push_back({model_->stored[p][age], static_cast<int>(age)});
    }
  }
  double come(std::size_t product, double servings) {
    lots_[product].push_back({servings, 0});
    return servings;
  }
  double stock_of(std::size_t product) {
    double stock = 0.0;
    for (const OwnLot& lot : lots_[product]) stock += lot.good;
    return stock;
  }
  double eat(std::size_t want, double wanted) {
    std::vector<std::size_t> order = model_->demands[want].products;
    const auto key = [&](std::size_t p) {
      const auto users =
          std::count_if(model_->demands.begin(), model_->demands.end(), [&](const Demand& demand) {
            return std::count(demand.products.begin(), demand.products.end(), p) > 0;
          });
      return std::make_tuple(users, model_->products[p].keep_share, p);
    };
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
    double got = 0.0;
    for (const std::size_t p : order) {
      for (OwnLot& lot : lots_[p]) {
        const double taken = std::min(lot.good, wanted - got);
        lot.good -= taken;
        got += taken;
      }
    }
    return got;
  }
  /// Over into the next week: what may not be eaten then is thrown away, of the rest a share stays good. At
  /// the end of the last week it is counted as it lies.
  void grow_old(bool last) {
    for (auto& [product, lots] : lots_) {
      const int keep_weeks = model_->products[product].keep_weeks;
      std::erase_if(lots, [&](const OwnLot& lot) { return lot.age_weeks >= keep_weeks; });
      for (OwnLot& lot : lots) {
        ++lot.age_weeks;
        if (!last) lot.good *= model_->products[product].keep_share;
      }
    }
  }
  [[nodiscard]] double price_of_missing_most(const Demand& demand, double missed) const {
    double wanted = 0.0;
    for (std::size_t week = 0; week < model_->told_weeks; ++week) wanted += demand.servings[week];
    return model_->prices.first_half * demand.price * std::max(0.0, missed - wanted / 2.0);
  }

  const GardenModel* model_;
  const Pool* pool_;
  std::vector<std::size_t> wants_;
  std::map<std::size_t, std::vector<OwnLot>> lots_;  ///< by product, oldest first
};

double work_cost(const GardenModel& model, const ClumpCounts& counts) {
  const PlanPrices& prices = model.prices;
  double cost = 0.0;
  for (std::size_t week = 0; week < model.weeks; ++week) {
    double hours = model.hours_taken[week];
    for (std::size_t c = 0; c < counts.size(); ++c) {
      const Candidate& sowing = model.candidates[c];
      if (sowing.sow_week == static_cast<int>(week)) hours += counts[c] * sowing.sow_hours;
      if (sowing.bed_first_week == static_cast<int>(week)) hours += counts[c] * sowing.bed_hours;
      for (const std::size_t year : model.scenarios)
        hours += counts[c] * model.products[sowing.product].pick_hours *
                 sowing.servings[year * model.weeks + week] / static_cast<double>(model.scenarios.size());
    }
    const double easy = std::min(hours, prices.easy_hours);
    cost += prices.easy_hour * easy + prices.hard_hour * (hours - easy);
  }
  for (std::size_t lot = 0; lot < model.seed_lots.size(); ++lot) {
    double seeds = 0.0;
    for (std::size_t c = 0; c < counts.size(); ++c) {
      if (model.candidates[c].seed_lot == static_cast<int>(lot))
        seeds += counts[c] * model.candidates[c].seeds;
    }
    cost += prices.seed * std::max(0.0, seeds - model.seed_lots[lot].seeds);
  }
  return cost;
}

double own_cost(const GardenModel& model, const ClumpCounts& counts) {
  double cost = work_cost(model, counts);
  for (const Pool& pool : model.pools) {
    Household household(model, pool);
    for (const std::size_t year : model.scenarios)
      cost += household.cost_of_year(counts, year) / static_cast<double>(model.scenarios.size());
  }
  return cost;
}

// --- Tiny gardens
// ---------------------------------------------------------------------------------------------------

void add_beds(GardenModel& model, base::RandomStream& random) {
  const int beds = between(random, 1, 2);
  for (int b = 0; b < beds; ++b) {
    bed::Bed bed{.id = "bed" + std::to_string(b),
                 .length_m = 0.4 * between(random, 1, 3),
                 .width_m = 0.4 * between(random, 1, 2)};
    if (beds > 1 && random.chance(0.3)) bed.sun = bed::SunClass::partial;
    model.beds.push_back(bed);
  }
  if (random.chance(0.4))
    model.trays.push_back({"tray", "Tray", between(random, 1, 3), 40.0, bed::TrayPlace::indoors, 20.0});
  if (random.chance(0.3))
    model.taken.push_back({0, 0, slot_mm(model.beds[0]), -3, between(random, 1, 5), "family0"});
}

void add_want(GardenModel& model, std::size_t number, base::RandomStream& random) {
  model.products.push_back(
      {"crop" + std::to_string(number), "", stand::SizeGoal::large, 100.0, 0.5 + 0.45 * random.uniform()});
  model.products.back().keep_weeks = between(random, 1, 5);
  model.products.back().pick_hours = 0.05 * random.uniform();
  Demand demand{"want" + std::to_string(number),
                0.5 + random.uniform(),
                100.0,
                std::vector<double>(model.weeks, 0.0),
                {number}};
  const int first = between(random, 2, 7), last = first + between(random, 1, 6);
  const double weekly = 0.3 + random.uniform();
  for (int week = first; week <= std::min(last, static_cast<int>(model.weeks) - 1); ++week)
    demand.servings[static_cast<std::size_t>(week)] = weekly;
  demand.waste_dislike = random.chance(0.3) ? 4.0 : 1.0;
  if (number > 0 && random.chance(0.3)) demand.products.push_back(number - 1);
  if (random.chance(0.3)) {
    for (std::size_t week = 0; week < model.weeks; ++week)
      demand.week_factor.push_back(1.0 + 0.5 * std::max(0.0, 1.0 - static_cast<double>(week) / 8.0));
  }
  model.demands.push_back(std::move(demand));
}

void add_candidate(GardenModel& model, std::size_t product, base::RandomStream& random) {
  Candidate candidate;
  candidate.product = product;
  candidate.family = "family" + std::to_string(between(random, 0, 2));
  candidate.rotation_years = random.chance(0.5) ? 3.0 : 0.0;
  candidate.stands_part_shade = random.chance(0.5);
  candidate.spacing_mm = kSpacingMm;
  candidate.sow_week = candidate.bed_first_week = between(random, 0, 6);
  candidate.sow_hours = 0.1 * random.uniform();
  if (!model.trays.empty() && random.chance(0.5)) {
    candidate.tray = 0;
    candidate.tray_first_week = candidate.sow_week;
    candidate.tray_last_week = candidate.sow_week + 1;
    candidate.bed_first_week += 2;
    candidate.bed_hours = 0.05;
  }
  candidate.bed_last_week =
      std::min(static_cast<int>(model.weeks) - 1, candidate.bed_first_week + between(random, 1, 5));
  candidate.servings.assign(model.member_count * model.weeks, 0.0);
  for (std::size_t year = 0; year < model.member_count; ++year) {
    const int picks = between(random, 1, 2);
    for (int k = 0; k < picks; ++k)
      candidate.servings[year * model.weeks + static_cast<std::size_t>(std::max(
                                                  candidate.bed_first_week, candidate.bed_last_week - k))] =
          0.2 + 2.0 * random.uniform();
  }
  if (!model.seed_lots.empty() && random.chance(0.5)) {
    candidate.seed_lot = 0;
    candidate.seeds = between(random, 1, 4);
  }
  model.candidates.push_back(std::move(candidate));
}

GardenModel tiny_garden(std::uint64_t seed) {
  base::RandomStream random(seed, "test.tiny-garden");
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = static_cast<std::size_t>(between(random, 8, 12));
  model.told_weeks = random.chance(0.3) ? model.weeks - 2 : model.weeks;
  model.member_count = static_cast<std::size_t>(between(random, 2, 3));
  for (std::size_t year = 0; year < model.member_count; ++year) model.scenarios.push_back(year);
  model.prices.first_half = random.chance(0.5) ? 1.0 : 0.0;
  model.prices.easy_hours = 0.3;
  model.prices.seed = 0.02;
  if (random.chance(0.5)) model.seed_lots.push_back({"crop0", "", 3.0});
  add_beds(model, random);
  const auto wants = static_cast<std::size_t>(between(random, 1, 3));
  for (std::size_t number = 0; number < wants; ++number) add_want(model, number, random);
  for (std::size_t product = 0; product < wants; ++product) {
    add_candidate(model, product, random);
    if (random.chance(wants < 3 ? 0.8 : 0.4)) add_candidate(model, product, random);
  }
  model.stored.resize(wants);
  if (random.chance(0.3)) {
    model.stored[0] = {0.0, 0.5, 0.4};
    model.products[0].keep_weeks = std::max(model.products[0].keep_weeks, 2);
  }
  finish_model(model);
  return model;
}

struct Compared {
  double best = 0.0, bound = 0.0, found = 0.0;
  std::size_t plans = 0;
};

Compared compared(const GardenModel& model) {
  Compared result;
  result.best = 1e300;
  for (const ClumpCounts& counts : placeable_counts(model)) {
    result.best = std::min(result.best, own_cost(model, counts));
    ++result.plans;
  }
  PlanOptions options;
  options.rounds = 300;
  options.gap_goal = 0.0;
  const auto solved = solve_model(model, options);
  EXPECT_TRUE(solved.has_value());
  result.bound = solved->bound;
  result.found = solved->objective;
  EXPECT_NEAR(solved->objective, own_cost(model, counts_of(model, solved->stands)), 1e-9)
      << "what the plan is said to cost";
  EXPECT_TRUE(placeable_counts(model).contains(counts_of(model, solved->stands)))
      << "no such plan can be placed";
  return result;
}

// Measured on 2026-12-01: 37 377 plans, the best of them found in all 150 gardens; the gap that is stated
// is 5.0 % in the mean, all of it the bound's, which lies low in gardens of a few clumps.
TEST(Enumeration, FindsNoBetterPlanThanThePlannerDoes) {
  constexpr std::uint64_t kGardens = 150;
  std::size_t plans = 0, found_best = 0, worth_sowing = 0;
  double stated_gaps = 0.0;
  for (std::uint64_t seed = 1; seed <= kGardens; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const GardenModel model = tiny_garden(seed);
    const Compared result = compared(model);
    EXPECT_LE(result.bound, result.best + kRounding);
    EXPECT_GE(result.found, result.best - kRounding);
    plans += result.plans;
    if (result.found <= result.best + kRounding) ++found_best;
    if (result.best < own_cost(model, ClumpCounts(model.candidates.size(), 0)) - kRounding) ++worth_sowing;
    stated_gaps += relative_gap(result.found, result.bound);
  }
  EXPECT_GT(plans, 100 * kGardens) << "gardens in which there is nothing to choose";
  EXPECT_GE(worth_sowing, 130U) << "gardens in which nothing is worth sowing";
  // All, but for the random path that a change of the search may take.
  EXPECT_GE(found_best, 147U);
  EXPECT_LT(stated_gaps / kGardens, 0.06);
}

}  // namespace
}  // namespace sowtide::plan
