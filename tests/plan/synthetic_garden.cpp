#include "plan/synthetic_garden.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/random.hpp"

namespace sowtide::plan {
namespace {

/// What is common to all sowings of one made-up crop.
struct MadeCrop {
  int window_first = 0, window_last = 0;  ///< weeks in which it can be sown
  int grow_weeks = 8;
  int pick_weeks = 1;
  int tray_weeks = 0;  ///< 0: sown in place
  int spacing_mm = 100;
  double servings_per_clump = 1.0;
  bool part_shade = false;
};

MadeCrop make_crop(base::RandomStream& random) {
  MadeCrop crop;
  crop.window_first = 8 + static_cast<int>(random.below(14));
  crop.window_last = crop.window_first + 6 + static_cast<int>(random.below(14));
  crop.grow_weeks = 5 + static_cast<int>(random.below(10));
  crop.pick_weeks =
      random.chance(0.4) ? 4 + static_cast<int>(random.below(6)) : 1 + static_cast<int>(random.below(2));
  crop.tray_weeks = random.chance(0.5) ? 3 + static_cast<int>(random.below(3)) : 0;
  crop.spacing_mm = 50 * (1 + static_cast<int>(random.below(9)));
  const double area_m2 = crop.spacing_mm * crop.spacing_mm * 1e-6;
  crop.servings_per_clump = area_m2 * (20.0 + 30.0 * random.uniform());
  crop.part_shade = random.chance(0.3);
  return crop;
}

Candidate make_candidate(const GardenModel& model, const MadeCrop& crop, std::size_t product, int week,
                         base::RandomStream& random) {
  Candidate candidate;
  candidate.product = product;
  candidate.family = "family" + std::to_string(product % 5);
  candidate.spacing_mm = crop.spacing_mm;
  candidate.stands_part_shade = crop.part_shade;
  candidate.sow_week = week;
  candidate.bed_first_week = week + crop.tray_weeks;
  candidate.bed_last_week = candidate.bed_first_week + crop.grow_weeks + crop.pick_weeks - 1;
  if (crop.tray_weeks > 0) {
    candidate.tray = 0;
    candidate.tray_first_week = week;
    candidate.tray_last_week = candidate.bed_first_week - 1;
    if (model.trays.front().mat_cells > 0) candidate.mat_last_week = week + 1;
  }
  candidate.sow_hours = 0.01;
  candidate.bed_hours = 0.005;
  candidate.sowing.crop = model.products[product].crop;
  candidate.sowing.sow = model.first_monday + base::Days{7 * week};
  candidate.servings.assign(model.member_count * model.weeks, 0.0);
  for (std::size_t m = 0; m < model.member_count; ++m) {
    const int shift = static_cast<int>(random.below(3)) - 1;
    const double yield = crop.servings_per_clump * (0.6 + 0.7 * random.uniform()) / crop.pick_weeks;
    candidate.expected_servings += yield * crop.pick_weeks / static_cast<double>(model.member_count);
    for (int k = 0; k < crop.pick_weeks; ++k) {
      const int w = std::min(candidate.bed_last_week, candidate.bed_first_week + crop.grow_weeks + k + shift);
      if (w < static_cast<int>(model.weeks))
        candidate.servings[m * model.weeks + static_cast<std::size_t>(w)] += yield;
    }
  }
  return candidate;
}

Demand make_demand(const GardenModel& model, const MadeCrop& crop, std::size_t product, double bed_metres,
                   std::size_t crops, base::RandomStream& random) {
  Demand demand;
  demand.want = "want" + std::to_string(product);
  demand.price = 0.5 + random.uniform();
  demand.products = {product};
  demand.servings.assign(model.weeks, 0.0);
  const int first = crop.window_first + crop.grow_weeks - 2;
  const int last = std::min<int>(static_cast<int>(model.weeks) - 1, crop.window_last + crop.grow_weeks + 6);
  const double weekly = (0.5 + random.uniform()) * 60.0 * bed_metres / static_cast<double>(crops) /
                        std::max(8.0, static_cast<double>(last - first));
  for (int w = std::max(0, first); w <= last; ++w) demand.servings[static_cast<std::size_t>(w)] = weekly;
  return demand;
}

void add_beds(GardenModel& model, std::size_t count, base::RandomStream& random) {
  for (std::size_t b = 0; b < count; ++b) {
    bed::Bed bed;
    bed.id = "bed" + std::to_string(b);
    bed.length_m = 2.4 + 0.6 * random.below(7);
    bed.width_m = random.chance(0.7) ? 1.2 : 0.8;
    bed.sun = random.chance(0.25) ? bed::SunClass::partial : bed::SunClass::full;
    model.beds.push_back(bed);
  }
}

}  // namespace

GardenModel synthetic_garden(std::uint64_t seed, const SyntheticSize& size) {
  base::RandomStream random(seed, "test.synthetic-garden");
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = size.weeks;
  model.member_count = size.members;
  for (std::size_t s = 0; s < size.scenarios; ++s)
    model.scenarios.push_back(s * size.members / size.scenarios);
  add_beds(model, size.beds, random);
  if (size.tray_cells > 0)
    model.trays.push_back({"tray", "Tray", size.tray_cells, 40.0,
                           size.mat_cells > 0 ? bed::TrayPlace::heat_mat : bed::TrayPlace::indoors, 20.0,
                           size.mat_cells});
  double bed_metres = 0.0;
  for (const bed::Bed& bed : model.beds) bed_metres += bed.length_m * bed.width_m;
  for (std::size_t p = 0; p < size.crops; ++p) {
    MadeCrop crop = make_crop(random);
    if (size.tray_cells <= 0) crop.tray_weeks = 0;
    model.products.push_back(
        {"crop" + std::to_string(p), "", stand::SizeGoal::large, 100.0, 0.55 + 0.44 * random.uniform()});
    model.products.back().pick_hours = 0.01;
    // Nothing older than twice the half-good life, as of real crops.
    const double lives = std::log(0.5) / std::log(model.products.back().keep_share);
    model.products.back().keep_weeks = std::max(1, static_cast<int>(2.0 * lives));
    for (int week = crop.window_first; week <= crop.window_last; week += size.week_step) {
      Candidate candidate = make_candidate(model, crop, p, week, random);
      candidate.rotation_years = size.rotation ? 3.0 : 0.0;
      if (candidate.bed_first_week < static_cast<int>(model.weeks))
        model.candidates.push_back(std::move(candidate));
    }
    model.demands.push_back(make_demand(model, crop, p, bed_metres, size.crops, random));
    if (size.group_wants && p % 3 == 2) model.demands.back().products.push_back(p - 1);
  }
  finish_model(model);
  return model;
}

}  // namespace sowtide::plan
