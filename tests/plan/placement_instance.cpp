#include "plan/placement_instance.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <tuple>
#include <vector>

#include "base/random.hpp"
#include "plan/layout.hpp"
#include "plan/season_plan.hpp"

namespace sowtide::plan {
namespace {

constexpr double kBedWidthM = 1.0;
constexpr int kFamilies = 6;
constexpr double kYearsOfRest = 3.0;
constexpr double kStep = 0.01;
constexpr int kMostSteps = 200;

int between(base::RandomStream& random, int least, int most) {
  return least + static_cast<int>(random.below(static_cast<std::uint32_t>(most - least + 1)));
}

std::string family_of(std::size_t number) {
  return "family" + std::to_string(number % kFamilies);
}

int across_of(const Candidate& candidate) {
  return clumps_across({.width_m = kBedWidthM}, candidate);
}

Candidate made_stand(const GardenModel& model, std::size_t number, const PlacementShape& shape,
                     base::RandomStream& random) {
  Candidate candidate;
  candidate.product = number;
  candidate.family = shape.rotation ? family_of(number) : std::to_string(number);
  candidate.rotation_years = shape.rotation ? kYearsOfRest : 0.0;
  candidate.spacing_mm = 50 * between(random, 1, 10);
  candidate.bed_first_week = candidate.sow_week = between(random, 0, 40);
  candidate.bed_last_week =
      std::min(static_cast<int>(model.weeks) - 1, candidate.bed_first_week + between(random, 3, 19));
  candidate.height_m = shape.heights ? 0.2 * between(random, 1, 10) : 0.0;
  candidate.servings.assign(model.weeks, 0.0);
  candidate.servings[static_cast<std::size_t>(candidate.bed_last_week)] = 1.0;
  return candidate;
}

void add_stand(PlacementInstance& instance, std::size_t number, const PlacementShape& shape,
               base::RandomStream& random) {
  GardenModel& model = instance.model;
  const Candidate candidate = made_stand(model, number, shape, random);
  const int clumps = across_of(candidate) * between(random, 1, 6) + between(random, 0, 3);
  const std::string name = "crop" + std::to_string(number);
  model.products.push_back({name, "", stand::SizeGoal::large, 100.0, 0.5});
  Demand demand{"want-" + name, 1.0, 100.0, std::vector<double>(model.weeks, 0.0), {number}};
  demand.servings[static_cast<std::size_t>(candidate.bed_last_week)] = clumps;
  model.demands.push_back(std::move(demand));
  model.candidates.push_back(candidate);
  instance.wanted.push_back(clumps);
}

int length_wanted(const PlacementInstance& instance, std::size_t candidate) {
  const Candidate& sowing = instance.model.candidates[candidate];
  return stretch_mm(sowing, across_of(sowing), instance.wanted[candidate]);
}

/// Side by side from the start of the bed on, with holes between: where they stand is as chance had it.
void add_fixed(GardenModel& model, const PlacementShape& shape, base::RandomStream& random) {
  int at_mm = 0;
  for (std::size_t i = 0; i < shape.fixed; ++i) {
    at_mm += 100 * between(random, 0, 6);
    TakenStretch taken;
    taken.from_mm = at_mm;
    taken.to_mm = at_mm += 100 * between(random, 2, 8);
    taken.first_week = -4;
    taken.last_week = between(random, 4, 30);
    taken.family = family_of(i);
    model.taken.push_back(taken);
  }
}

int maximum_load_mm(const PlacementInstance& instance) {
  const GardenModel& model = instance.model;
  std::vector<int> load(model.weeks, 0);
  const auto add = [&](int first, int last, int length) {
    for (int w = std::max(0, first); w <= last; ++w) load[static_cast<std::size_t>(w)] += length;
  };
  for (std::size_t c = 0; c < model.candidates.size(); ++c)
    add(model.candidates[c].bed_first_week, model.candidates[c].bed_last_week, length_wanted(instance, c));
  for (const TakenStretch& taken : model.taken)
    add(taken.first_week, taken.last_week, taken.to_mm - taken.from_mm);
  return *std::max_element(load.begin(), load.end());
}

int largest_family_mm(const PlacementInstance& instance) {
  const GardenModel& model = instance.model;
  std::map<std::string, int> length;
  for (std::size_t c = 0; c < model.candidates.size(); ++c)
    length[model.candidates[c].family] += length_wanted(instance, c);
  for (const TakenStretch& taken : model.taken) length[taken.family] += taken.to_mm - taken.from_mm;
  int largest = 0;
  for (const auto& [family, total] : length) largest = std::max(largest, total);
  return largest;
}

/// Nothing has a price but what is missing and, much less, what is too much and the shade that tall crops
/// throw: a clump must be worth its place.
PlanPrices placement_prices(bool heights) {
  PlanPrices prices;
  prices.easy_hour = prices.hard_hour = 0.0;
  prices.shade = heights ? 0.05 : 0.0;
  return prices;
}

std::vector<std::size_t> order_of_coming(const GardenModel& model) {
  std::vector<std::size_t> order(model.candidates.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto key = [&](std::size_t c) {
    return std::make_tuple(model.candidates[c].bed_first_week, -model.candidates[c].bed_last_week);
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return key(a) < key(b); });
  return order;
}

}  // namespace

PlacementInstance placement_instance(std::uint64_t seed, const PlacementShape& shape) {
  base::RandomStream random(seed, "test.placement");
  PlacementInstance instance;
  GardenModel& model = instance.model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.latitude_deg = 47.5;
  model.member_count = 1;
  model.scenarios = {0};
  model.prices = placement_prices(shape.heights);
  for (std::size_t b = 0; b < shape.beds; ++b) {
    bed::Bed bed{.id = "bed" + std::to_string(b), .width_m = kBedWidthM};
    if (shape.heights) bed.pole_end = bed::PoleEnd::start;
    model.beds.push_back(bed);
  }
  for (std::size_t number = 0; number < shape.stands; ++number) add_stand(instance, number, shape, random);
  add_fixed(model, shape, random);
  instance.least_mm = maximum_load_mm(instance);
  if (shape.rotation) instance.least_mm = std::max(instance.least_mm, largest_family_mm(instance));
  stretch_beds(instance, 1.0);
  finish_model(model);
  return instance;
}

void stretch_beds(PlacementInstance& instance, double times) {
  const auto beds = static_cast<double>(instance.model.beds.size());
  double each_mm = std::ceil(times * instance.least_mm / beds);
  // What stands already has its place.
  for (const TakenStretch& taken : instance.model.taken) each_mm = std::max(each_mm, 1.0 * taken.to_mm);
  for (bed::Bed& bed : instance.model.beds) bed.length_m = each_mm / 1000.0;
}

std::vector<PlacedStand> placed_in_order(const PlacementInstance& instance, bool may_split) {
  Layout layout(instance.model);
  for (const std::size_t c : order_of_coming(instance.model)) {
    if (may_split) {
      static_cast<void>(layout.grow_split(c, instance.wanted[c]));
    } else {
      static_cast<void>(layout.grow(c, instance.wanted[c]));
    }
  }
  return layout.stands();
}

std::vector<PlacedStand> placed_by_search(const PlacementInstance& instance, std::size_t rounds,
                                          double stand_price) {
  GardenModel model = instance.model;
  model.prices.stand = stand_price;
  PlanOptions options;
  options.rounds = rounds;
  options.gap_goal = 0.0;
  options.time_limit_s = 3600.0;
  return solve_model(model, options).value().stands;
}

double placed_share(const PlacementInstance& instance, const std::vector<PlacedStand>& stands) {
  const ClumpCounts counts = counts_of(instance.model, stands);
  int placed = 0;
  for (std::size_t c = 0; c < counts.size(); ++c) placed += std::min(counts[c], instance.wanted[c]);
  return static_cast<double>(placed) / std::accumulate(instance.wanted.begin(), instance.wanted.end(), 0);
}

std::optional<double> needed_length(PlacementInstance instance, const PlacementWay& way) {
  for (int step = 0; step <= kMostSteps; ++step) {
    const double times = 1.0 + kStep * step;
    stretch_beds(instance, times);
    if (placed_share(instance, way(instance)) == 1.0) return times;
  }
  return {};
}

}  // namespace sowtide::plan
