// A stand before its first day: places, plants, what a member begins with, emergence and setting out.
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "base/random.hpp"
#include "crop/emergence.hpp"
#include "stand/detail/constants.hpp"
#include "stand/detail/seedling_draw.hpp"
#include "stand/detail/simulator.hpp"
#include "stand/overdue.hpp"

namespace sowtide::stand::detail {
namespace {

// Constants of the engine that are no crop's own. Sources and reasons: docs/models/stand.md, "Constants".
constexpr double kLeafShareOfShoot =
    0.6;  // leaf share of vegetative growth: WOFOST and Daisy tables 0.4 to 0.6
constexpr double kVigourLogSpread =
    0.30;                           // start size between seedlings (Benjamin 1987: floor of CV 0.36-0.46)
// Part of the variance of emergence and of vigour that the mates of a clump have in common, since they lie in
// one hole or cell, at one depth and as wet: chosen, no trial that weighed plants clump by clump was found.
constexpr double kSharedInClump = 0.25;
// Of crops that tell none of their own; chosen with `kReach`: the spread of the radishes of Heath 1970.
constexpr double kTallerFirstShare = 0.7;
// Ground under a clump's leaves, m² a (m² of leaf)^(3/4). The power is that of the metabolic law (G. B. West,
// J. H. Brown and B. J. Enquist 1999 Science 284:1677, from memory; zones of influence use 2/3); the factor
// is chosen on clumps of broccoli, whose loss of head weight shrinks with density (Westcott and Callan 1990).
constexpr double kCrown = 0.55;
constexpr double kReach = 3.0;  // zones over which a clump's leaves lie at most
// Ground beside the bed, in zones, whose light the leaves of an edge clump catch alone: chosen on the edge
// radishes of Heath 1970, 1.59 times as heavy as those inside.
constexpr double kEdgeZones = 0.6;
// Extinction falls with (row spacing / spacing in the row) to this power: leaves of close rows hide behind
// each other. Chosen within the gains of squares over rows: onion 15 to 30 %, bush bean 33 %.
constexpr double kRowPower = 0.2;
// Leaves lie in heaps, plant by plant: the extinction of one leaf area, so that a closed stand has the
// published one.
constexpr double kHeapedExtinction = 1.25;
constexpr double kOutgrown =
    1.5;  // times the age at which a cell is outgrown: then the sowing has failed (chosen)
constexpr int kLongestEmergenceDays = 45;  // seed that lies longer in the ground rots (common practice)
constexpr int kLongestRestDays = 210;      // cloves of autumn wait for spring: October to May (chosen)
constexpr int kLongestWaitDays = 60;       // for a safe day to set out (chosen)

std::size_t ranks_for(double plants_per_clump) {
  return static_cast<std::size_t>(std::clamp(std::ceil(plants_per_clump - 1e-9), 1.0, 12.0));
}

double counted_per_clump(const StandPlan& plan, const StandFacts& facts) {
  const double planned = std::max(plan.plants_per_clump, 0.1);
  if (!facts.counted_plants || plan.clumps <= 0) return planned;
  return static_cast<double>(*facts.counted_plants) / plan.clumps;
}

/// The leaf matter that has a leaf area: A = M·SLA·(1 + (s − 1)/(1 + M/M½)) solved for M.
double leaf_mass_g(double area_m2, const PlantConstants& constants) {
  const double full_g = area_m2 / constants.leaf_area_m2_per_g;
  const double half_g = constants.seedling_leaf_g;
  const double linear = full_g - constants.seedling_leaf_factor * half_g;
  return 0.5 * (linear + std::sqrt(linear * linear + 4.0 * full_g * half_g));
}

/// Thermal time to half emergence of every lot.
std::array<double, kSeedLots> half_of_lots_cd(double half_cd) {
  std::array<double, kSeedLots> lots_cd{};
  for (std::size_t k = 0; k < kSeedLots; ++k) {
    const double place = (static_cast<double>(k) + 0.5) / static_cast<double>(kSeedLots);
    lots_cd[k] = half_cd * std::exp(kEmergenceLogError * base::normal_quantile(place));
  }
  return lots_cd;
}

/// How long what is sown may lie in the ground before it shows.
int days_in_ground(const crop::Crop& crop) {
  const bool rests = crop.seed.planting_piece && crop.sowing.overwinters;
  return rests ? kLongestRestDays : kLongestEmergenceDays;
}

}  // namespace

Simulator::Simulator(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
                     const std::optional<RaisingPlace>& raising, const SimulationOptions& options)
    : weather_(weather),
      crop_(weather.crop()),
      plan_(plan),
      facts_(facts),
      raising_(raising.value_or(RaisingPlace{})),
      options_(options),
      days_(weather.ensemble().day_count),
      grid_(std::max<std::size_t>(1, options.sampled_clumps), ranks_for(counted_per_clump(plan, facts))) {
  indoors_ = plan.method == Method::start_indoors;
  waits_ = waits_in_ground(plan, crop_);
  sow_day_ = static_cast<std::size_t>(day_of(facts.sown.value_or(plan.sow)));
  for (const PlantsTaken& taken : facts.taken) {
    if (taken.largest) last_observed_pick_ = std::max<std::int64_t>(last_observed_pick_, day_of(taken.date));
  }
  if (facts.log_to) rule_from_ = day_of(*facts.log_to);
  in_open_sun_ = options.bed.sun == bed::SunClass::full;
  bed_light_ = bed_light(options.bed.sun);
  set_constants();
  draw_plants(options.seed);
  rank_plants();
  const double per_clump =
      std::accumulate(planted_.begin(), planted_.end(), 0.0) / static_cast<double>(grid_.clumps);
  sampled_plants_ = per_clump * static_cast<double>(grid_.clumps);
  plants_ = std::max(0.0, per_clump * plan.clumps);
  grams_of_sample_ = sampled_plants_ > 0.0 ? plants_ / sampled_plants_ : 0.0;
  set_weight_.reserve(days_);
  set_mass_g_.reserve(days_);
  set_age_cd_.reserve(days_);
  ripe_on_.reserve(days_);
}

void Simulator::set_constants() {
  const auto& growth = crop_.growth;
  constants_.extinction = kHeapedExtinction * growth.extinction;
  constants_.leaf_area_m2_per_g = growth.specific_leaf_area_m2_per_g;
  constants_.leaf_share = kLeafShareOfShoot;
  if (growth.leaf_area_most_m2) constants_.leaf_most_g = leaf_mass_g(*growth.leaf_area_most_m2, constants_);
  constants_.organ_start_cd = growth.organ_start_cd;
  constants_.organ_span_cd = std::max(1.0, growth.organ_full_cd - growth.organ_start_cd);
  constants_.maturity_cd = growth.maturity_cd;
  constants_.decline_cd = std::max(growth.decline_cd.value, growth.maturity_cd + 1.0);
  constants_.asymmetry = growth.taller_first_share ? growth.taller_first_share->value : kTallerFirstShare;
  constants_.crown = kCrown;
  constants_.reach = kReach;
  // An organ that is there from the start is the top itself: leaves, and heads of loose leaves.
  const bool whole_top = growth.organ_start_cd <= 0.0;
  constants_.organ_share_max = whole_top ? 0.0 : growth.organ_share_max.value;
  top_share_ = whole_top ? growth.organ_share_max.value : 0.0;
  dry_to_fresh_g_ = growth.marketable_fraction / std::max(1e-3, growth.dry_matter_fraction.value);
  pick_interval_ = std::max(1, static_cast<int>(std::lround(crop_.harvest.pick_interval_days.value)));
  goal_g_ = plan_.size == SizeGoal::small ? crop_.harvest.small_g : crop_.harvest.large_g;
  place_clumps();
  cell_m2_ = std::min(zone_m2_, crop_.nursery.cell_width_mm * crop_.nursery.cell_width_mm * 1e-6);
}

// The ground of a clump, how much of its light its leaves can find there, and which clumps face the path.
void Simulator::place_clumps() {
  const double spacing_m = plan_.spacing_mm * 1e-3;
  const double other_m = row_distance_mm(plan_) * 1e-3;
  if (plan_.arrangement == Arrangement::rows) {
    constants_.extinction *= std::pow(std::max(other_m / spacing_m, spacing_m / other_m), -kRowPower);
  }
  zone_m2_ = spacing_m * other_m;
  open_sides_.assign(grid_.clumps, 0);
  if (options_.bed.rows_across == 1) open_sides_.assign(grid_.clumps, 2);
  if (options_.bed.rows_across < 2) return;
  const double share = 2.0 / options_.bed.rows_across;
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    const auto place = static_cast<double>(c);
    open_sides_[c] = std::floor((place + 1.0) * share) > std::floor(place * share) ? 1 : 0;
  }
}

void Simulator::set_zones(double zone_m2, bool in_bed) {
  std::fill(grid_.zone_m2.begin(), grid_.zone_m2.end(), zone_m2);
  for (std::size_t c = 0; c < grid_.clumps; ++c)
    grid_.edge_m2[c] = in_bed ? kEdgeZones * zone_m2 * open_sides_[c] : 0.0;
}

void Simulator::draw_plants(std::uint64_t seed) {
  const std::size_t plants = grid_.size();
  seed_offset_ = seedling_deviates(grid_.clumps, grid_.ranks, kSharedInClump, seed, "stand.emergence");
  const std::vector<double> vigour =
      seedling_deviates(grid_.clumps, grid_.ranks, kSharedInClump, seed, "stand.vigour");
  start_leaf_g_.resize(plants);
  planted_.assign(plants, 0.0);
  const double start_g = crop_.growth.start_leaf_area_cm2 * 1e-4 /
                         (crop_.growth.specific_leaf_area_m2_per_g * constants_.seedling_leaf_factor);
  for (std::size_t i = 0; i < plants; ++i)
    start_leaf_g_[i] = start_g * std::exp(kVigourLogSpread * vigour[i]);
  // A mean of 2.4 plants a clump: four clumps in ten hold three, the others two.
  const double per_clump = counted_per_clump(plan_, facts_);
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    const double place = (static_cast<double>(c) + 0.5) / static_cast<double>(grid_.clumps);
    for (std::size_t p = 0; p < grid_.ranks; ++p) {
      planted_[p * grid_.clumps + c] = static_cast<double>(p) + place <= per_clump + 1e-9 ? 1.0 : 0.0;
    }
  }
}

void Simulator::rank_plants() {
  const double rate = crop_.growth.early_relative_rate_per_cd;
  const double spread = crop_.germination.log_spread;
  const double half_cd = crop_.germination.thermal_time_50_cd;
  const auto lead = [&](std::size_t i) {
    return std::log(start_leaf_g_[i]) - rate * half_cd * std::exp(spread * seed_offset_[i]);
  };
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    for (std::size_t a = 1; a < grid_.ranks; ++a) {
      for (std::size_t p = a; p > 0; --p) {
        const std::size_t lower = p * grid_.clumps + c;
        const std::size_t upper = lower - grid_.clumps;
        if (planted_[lower] <= 0.0 || lead(lower) <= lead(upper)) break;
        std::swap(seed_offset_[lower], seed_offset_[upper]);
        std::swap(start_leaf_g_[lower], start_leaf_g_[upper]);
      }
    }
  }
  std::vector<std::uint32_t> order = grid_.stand_order();
  std::stable_sort(order.begin(), order.end(),
                   [&](std::uint32_t a, std::uint32_t b) { return lead(a) > lead(b); });
  grid_.set_stand_order(std::move(order));
}

void Simulator::reset() {
  std::copy(start_leaf_g_.begin(), start_leaf_g_.end(), grid_.leaf_g.begin());
  std::copy(planted_.begin(), planted_.end(), grid_.present.begin());
  for (auto* each :
       {&grid_.organ_g, &grid_.other_g, &grid_.age_cd, &grid_.organ_age_cd, &grid_.organ_growth_g}) {
    std::fill(each->begin(), each->end(), 0.0);
  }
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    grid_.other_g[i] = start_leaf_g_[i] * (1.0 - kLeafShareOfShoot) / kLeafShareOfShoot;
  }
  set_zones(indoors_ ? cell_m2_ : zone_m2_, !indoors_);
  age_cd_ = organ_age_cd_ = vernal_ = bolting_cd_ = heat_ = shock_cd_ = 0.0;
  taken_plants_ = by_rule_g_ = by_rule_plants_ = missed_g_ = regrowth_ = ripe_g_ = 0.0;
  removed_g_ = removed_plants_ = greens_g_ = observed_debt_ = 0.0;
  pull_to_ = -1;
  last_cut_day_ = 0;
  left_standing_g_ = 0.0;
  pull_per_day_ = pull_quota_ = 0.0;
  unthinned_plants_ = sampled_plants_;
  next_observed_ = 0;
  alive_ = 1.0;
  set_weight_.clear();
  set_mass_g_.clear();
  set_age_cd_.clear();
  oldest_set_ = 0;
  ripe_on_.clear();
  days_since_pick_ = 0;
  done_ = killed_ = false;
}

double Simulator::air_c(std::size_t place) const {
  const auto& ensemble = weather_.ensemble();
  return ensemble.mean_c(place);
}

// Day of emergence of every plant; false when half of them do not come up in time.
bool Simulator::emerge() {
  const double half_cd = crop::half_emergence_cd(crop_);
  const double spread = crop_.germination.log_spread;
  const int longest_days = days_in_ground(crop_);
  const std::size_t last = std::min(days_, sow_day_ + static_cast<std::size_t>(longest_days) * 3);
  std::fill(grid_.emerge_day.begin(), grid_.emerge_day.end(), 1e9);
  double sum_cd = 0.0;
  double next_cd = half_cd * std::exp(-4.0 * spread);
  const std::array<double, kSeedLots> lots_cd = half_of_lots_cd(half_cd);
  const double slow_cd = half_cd * slow_lot_factor();
  std::size_t lot = 0;
  int slow_day = -1;
  for (std::size_t day = sow_day_; day < last; ++day) {
    const double today_cd = indoors_ ? weather_.germination_cd_at(seed_c_in_place(raising_, air_c(at(day))))
                                     : weather_.germination_cd()[at(day)];
    sum_cd += today_cd;
    while (lot < kSeedLots && sum_cd >= lots_cd[lot]) life_->lot_emerge_day[lot++] = static_cast<int>(day);
    if (slow_day < 0 && sum_cd >= slow_cd) slow_day = static_cast<int>(day);
    if (sum_cd < next_cd) continue;
    if (life_->emerge_day < 0 && sum_cd >= half_cd) life_->emerge_day = static_cast<int>(day);
    const double reached = std::log(sum_cd / half_cd) / spread;
    const double before = sum_cd > today_cd ? std::log((sum_cd - today_cd) / half_cd) / spread : -1e9;
    for (std::size_t i = 0; i < grid_.size(); ++i) {
      if (seed_offset_[i] <= reached && seed_offset_[i] > before)
        grid_.emerge_day[i] = static_cast<double>(day);
    }
    if (reached > 4.0 && lot == kSeedLots && slow_day >= 0) break;
  }
  if (const auto told = told_emergence(facts_, weather_.ensemble().first, life_->emerge_day, slow_day)) {
    move_emergence(*told);
    return true;
  }
  if (life_->emerge_day < 0) return false;
  return life_->emerge_day - static_cast<int>(sow_day_) <= longest_days;
}

// The plants keep their order and distance; where the weather would have brought none, all come on the day
// told. Seed lots differ still where the log only bounds the day.
void Simulator::move_emergence(const ToldEmergence& told) {
  if (life_->emerge_day < 0) std::fill(grid_.emerge_day.begin(), grid_.emerge_day.end(), told.day);
  const int by = life_->emerge_day < 0 ? 0 : told.day - life_->emerge_day;
  for (double& day : grid_.emerge_day) day += by;
  for (int& lot : life_->lot_emerge_day) lot = told.dated || lot < 0 ? told.day : std::min(lot, told.up_by);
  life_->emerge_day = told.day;
}

// Setting out that the log does not tell did not happen before the day to which it tells, unless it tells of
// the plants in their bed.
int Simulator::earliest_set_out() const {
  const bool in_bed = facts_.set_out || facts_.measured_on || facts_.first_picked;
  return facts_.log_to && !in_bed ? static_cast<int>(day_of(*facts_.log_to)) : 0;
}

// Thermal age of the seedlings on a day if they are in their tray until then.
double Simulator::tray_age_cd(int day) const {
  double age_cd = 0.0;
  for (auto each = static_cast<std::size_t>(std::max(0, life_->emerge_day));
       each < std::min(days_, static_cast<std::size_t>(std::max(0, day))); ++each)
    age_cd += weather_.growth_cd_at(seedling_c_in_place(raising_, air_c(at(each))));
  return age_cd;
}

// The day on which seedlings leave the tray: decided, or the first day on which they are ready and the air is
// fit.
bool Simulator::find_set_out() {
  const auto& nursery = crop_.nursery;
  const int earliest = earliest_set_out();
  const auto decided = facts_.set_out ? facts_.set_out : plan_.set_out;
  if (decided) {
    const int day = std::max(static_cast<int>(day_of(*decided)), earliest);
    life_->set_out_day = std::max(day, life_->emerge_day);
    if (!facts_.set_out && tray_age_cd(life_->set_out_day) > kOutgrown * nursery.latest_thermal_time_cd)
      life_->limit = Limit::outgrew_tray;
    return life_->limit == Limit::none && life_->set_out_day < static_cast<int>(days_);
  }
  double age = 0.0;
  int ready = -1;
  for (auto day = static_cast<std::size_t>(life_->emerge_day); day < days_; ++day) {
    age += weather_.growth_cd_at(seedling_c_in_place(raising_, air_c(at(day))));
    const int today = static_cast<int>(day);
    if (ready < 0 && age >= nursery.ready_thermal_time_cd) {
      ready = today + static_cast<int>(std::lround(nursery.hardening_days.value));
    }
    if (ready < 0 || today < std::max(ready, earliest)) continue;
    if (today > std::max(ready + kLongestWaitDays, earliest)) break;
    const bool warm = weather_.season().week_mean_c()[at(day)] >= nursery.set_out_min_temp_c;
    if (warm && weather_.frost_ahead()[day] <= kSafeFrostShare) {
      life_->set_out_day = today;
      if (age > kOutgrown * nursery.latest_thermal_time_cd) life_->limit = Limit::outgrew_tray;
      return life_->limit == Limit::none;
    }
  }
  life_->limit = Limit::no_safe_set_out;
  return false;
}

}  // namespace sowtide::stand::detail
