#include "stand/simulate.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numeric>

#include "base/parallel.hpp"
#include "base/random.hpp"
#include "stand/detail/exponential.hpp"
#include "stand/detail/plant_grid.hpp"

namespace sowtide::stand {
namespace {

using crop::HarvestedPart;
using crop::HarvestStyle;

// Constants of the engine that are no crop's own. Sources and reasons: docs/models/stand.md, "Constants".
constexpr double kLeafShareOfShoot =
    0.6;  // leaf share of vegetative growth: WOFOST and Daisy tables 0.4 to 0.6
constexpr double kVigourLogSpread =
    0.30;                           // start size between seedlings (Benjamin 1987: floor of CV 0.36-0.46)
constexpr double kAsymmetry = 0.7;  // chosen with the next: the spread of the radishes of Heath 1970
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
constexpr double kIndoorLightMjM2 = 3.0;  // PAR under ordinary shelf lights or a bright window (chosen)
constexpr double kSeedlingLightUseGPerMj =
    3.0;  // well-watered seedlings in mild light, shoot and root (from memory)
constexpr double kFrameLightShare = 0.7;  // glazing of a cold frame passes this (common practice)
constexpr double kFrameWarmthK = 3.0;     // a closed frame against the air, daily mean (common practice)
constexpr double kKillWidthK = 0.8;       // width of the frost-death curve (chosen)
constexpr double kHardenedAgeCd = 250.0;  // thermal age at which a plant is as hardy as it gets (chosen)
constexpr double kSafeFrostShare = 0.20;  // frost risk that growers accept when setting out (common practice)
constexpr int kLongestEmergenceDays = 45;  // seed that lies longer in the ground rots (common practice)
constexpr int kLongestWaitDays = 60;       // for a safe day to set out (chosen)
constexpr int kLongestPickDays = 42;       // from the first pull of a once-over crop to clearing (chosen)
constexpr double kBoltingCd = 250.0;     // long days after cold, to a stalk that spoils the harvest (chosen)
constexpr double kJuvenileShare = 0.25;  // of the time to maturity: cold does not count before (chosen)
constexpr double kHeatMemory = 0.8;      // of yesterday's heat (chosen, with the next two)
constexpr double kHeatedAgeShare =
    0.6;  // of the time to maturity: heat spoils heads only as they fill (chosen)
constexpr double kHeatLimit =
    3.5;  // six hot days in a row: a head stands a hot week-end, not a hot week (chosen)
// Of the goal weight, per plant sown for. Chosen: with less than two fifths of what it was sown for a grower
// calls a sowing failed; leaf crops need one and a half times that, so more than one cut.
constexpr double kWorthHavingShare = 0.4;
constexpr double kColdLeafLossCd = 10.0;  // leaves die at full rate from this daily thermal time on
// Of what stands: a logged cut of more than that by the model leaves the rest, since the plant was cut, not
// pulled (chosen).
constexpr double kMostCutShare = 0.9;
constexpr double kFirstPickShare = 0.1;   // of the plants: one in ten is out, nine in ten are (chosen)
constexpr double kClearedShare = 0.9;

/// What one member needs besides the grid; made once per stand, used for every member.
class Simulator {
 public:
  Simulator(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
            const std::optional<RaisingPlace>& raising, const SimulationOptions& options);
  void run(std::size_t member, StandLives& lives);
  [[nodiscard]] double plants() const { return plants_; }
  [[nodiscard]] double sampled_plants() const { return sampled_plants_; }
  [[nodiscard]] const std::vector<std::uint8_t>& open_sides() const { return open_sides_; }
  [[nodiscard]] const detail::PlantGrid& grid() const { return grid_; }

 private:
  // Set-up.
  void draw_plants(std::uint64_t seed);
  void rank_plants();
  void set_constants();

  // One member.
  void reset();
  bool emerge();
  bool find_set_out();
  void live(StandLives& lives);
  [[nodiscard]] double stress(std::size_t day) const;
  void forcing_of(std::size_t day);
  bool endure(std::size_t day);
  void measure();
  void harvest(std::size_t day);
  void leave_as_logged(std::size_t day);
  [[nodiscard]] bool worth_picking() const;
  /// Bulbs, tubers, and fruit that comes in once, which ripens on the plant.
  [[nodiscard]] bool ripens_at_once() const {
    using enum HarvestedPart;
    const HarvestedPart part = crop_.harvest.part;
    return crop_.harvest.style == HarvestStyle::once && (part == bulb || part == tuber || part == fruit);
  }
  [[nodiscard]] double least_wanted_g() const;
  [[nodiscard]] double left_worth_taking_g() const;
  void pull_by_size(std::size_t day);
  void pull_all(std::size_t day, double least_g);
  void cut(std::size_t day);
  void cut_tops(double share, std::size_t day);
  void fill_fruit(std::size_t day);
  void pick_ripe(std::size_t day);
  [[nodiscard]] double gather_ripe();
  void lose_overripe(std::size_t day);
  void finish(std::size_t day, Limit limit);
  void end_unpicked(std::size_t day);
  void judge_success();
  void remove_by_hand();
  void take_leaves(double share);
  void thin_to(int keep);
  void credit_weighed();
  void take_observed(std::size_t day);
  void take_entry(const PlantsTaken& taken, std::size_t day);
  void take_plants(const PlantsTaken& taken, std::size_t day);
  void take_cut(const PlantsTaken& taken, std::size_t day);
  void take_fruit(const PlantsTaken& taken, std::size_t day);
  void take_by_weight(double grams);
  double take_out_one(bool largest);
  void place_clumps();
  [[nodiscard]] std::size_t extreme_plant(bool largest) const;
  void set_zones(double zone_m2, bool in_bed);
  void watch(std::size_t day, StandLives& lives);
  void take(std::size_t day, double grams_per_sample);
  void weigh();
  [[nodiscard]] double mean_fresh_g() const;
  [[nodiscard]] double standing_or_picked_g() const {
    return crop_.harvest.style == HarvestStyle::picked ? ripe_g_ : mean_fresh_g();
  }
  [[nodiscard]] double tray_temp_c(std::size_t at) const;
  [[nodiscard]] std::size_t at(std::size_t day) const { return member_ * days_ + day; }
  [[nodiscard]] base::Date date_of(std::size_t day) const {
    return weather_.ensemble().first + base::Days{static_cast<int>(day)};
  }
  [[nodiscard]] std::int64_t day_of(base::Date date) const {
    return (date - weather_.ensemble().first).count();
  }
  [[nodiscard]] bool in_tray(std::size_t day) const {
    return indoors_ && (life_->set_out_day < 0 || static_cast<int>(day) < life_->set_out_day);
  }

  const CropWeather& weather_;
  const crop::Crop& crop_;
  const StandPlan& plan_;
  const StandFacts& facts_;
  const RaisingPlace raising_;
  const SimulationOptions options_;
  const std::size_t days_;
  bool indoors_ = false;
  std::size_t sow_day_ = 0;
  double goal_g_ = 0.0;
  double dry_to_fresh_g_ = 0.0;
  double top_share_ = 0.0;
  double zone_m2_ = 0.0, cell_m2_ = 0.0;
  double plants_ = 0.0, sampled_plants_ = 0.0;
  double grams_of_sample_ = 0.0;  ///< whole stand over sample

  detail::PlantGrid grid_;
  detail::PlantConstants constants_;
  std::vector<double> seed_offset_, start_leaf_g_, planted_;
  std::vector<std::uint8_t> open_sides_;
  std::int64_t last_observed_pick_ = -1;  ///< until then what was really pulled counts, nothing else
  std::int64_t rule_from_ =
      0;  ///< the plan's rule picks from this day on; before it only the log tells of picking

  // State of the member being lived.
  std::size_t member_ = 0;
  MemberLife* life_ = nullptr;
  double* plant_g_ = nullptr;
  double* taken_g_ = nullptr;
  detail::DayForcing forcing_;
  detail::FreshWeights fresh_;
  double age_cd_ = 0.0, organ_age_cd_ = 0.0;  ///< of the median plant
  double alive_ = 1.0;                        ///< share not killed by cold
  double vernal_ = 0.0, bolting_cd_ = 0.0, heat_ = 0.0;
  double shock_cd_ = 0.0;  ///< thermal time still lost to the shock of setting out
  double taken_plants_ = 0.0;
  double by_rule_g_ = 0.0, by_rule_plants_ = 0.0;  ///< of the sample: pulled by the plan's rule
  double missed_g_ = 0.0;  ///< per plant sown for: ready before the rule picks, and not in the log
  double regrowth_ = 0.0;
  double removed_g_ = 0.0, removed_plants_ = 0.0, greens_g_ = 0.0;
  double unthinned_plants_ = 0.0;                             ///< of the sample, less what was thinned away
  std::size_t next_observed_ = 0;                             ///< place in the facts' taken
  double observed_debt_ = 0.0;                                ///< of a sample plant, not yet taken out
  std::vector<double> set_weight_, set_mass_g_, set_age_cd_;  ///< fruit cohorts by day of setting
  std::size_t oldest_set_ = 0;
  std::vector<std::size_t> ripe_on_;  ///< day of ripening of the cohorts that are ripe, in their order
  double ripe_g_ = 0.0;               ///< per plant, picked so far
  int days_since_pick_ = 0;
  int pick_interval_ = 1;
  bool done_ = false;
};

std::size_t ranks_for(double plants_per_clump) {
  return static_cast<std::size_t>(std::clamp(std::ceil(plants_per_clump - 1e-9), 1.0, 12.0));
}

double counted_per_clump(const StandPlan& plan, const StandFacts& facts) {
  const double planned = std::max(plan.plants_per_clump, 0.1);
  if (!facts.counted_plants || plan.clumps <= 0) return planned;
  return static_cast<double>(*facts.counted_plants) / plan.clumps;
}

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
  sow_day_ = static_cast<std::size_t>(day_of(facts.sown.value_or(plan.sow)));
  for (const PlantsTaken& taken : facts.taken) {
    if (taken.largest) last_observed_pick_ = std::max<std::int64_t>(last_observed_pick_, day_of(taken.date));
  }
  if (facts.log_to) rule_from_ = day_of(*facts.log_to);
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
}

void Simulator::set_constants() {
  const auto& growth = crop_.growth;
  constants_.extinction = kHeapedExtinction * growth.extinction;
  constants_.leaf_area_m2_per_g = growth.specific_leaf_area_m2_per_g;
  constants_.leaf_share = kLeafShareOfShoot;
  constants_.organ_start_cd = growth.organ_start_cd;
  constants_.organ_span_cd = std::max(1.0, growth.organ_full_cd - growth.organ_start_cd);
  constants_.maturity_cd = growth.maturity_cd;
  constants_.decline_cd = std::max(growth.decline_cd.value, growth.maturity_cd + 1.0);
  constants_.asymmetry = kAsymmetry;
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
  if (options_.rows_across == 1) open_sides_.assign(grid_.clumps, 2);
  if (options_.rows_across < 2) return;
  const double share = 2.0 / options_.rows_across;
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

// Every sample is balanced: the plants take the middles of equal shares of the distribution, in random order.
void Simulator::draw_plants(std::uint64_t seed) {
  const std::size_t plants = grid_.size();
  std::vector<std::uint32_t> order(plants);
  const auto shuffled = [&](std::string_view name) {
    std::iota(order.begin(), order.end(), 0U);
    base::RandomStream stream(seed, name);
    for (std::size_t i = plants; i > 1; --i)
      std::swap(order[i - 1], order[stream.below(static_cast<std::uint32_t>(i))]);
  };
  const auto normal_of = [plants](std::uint32_t place) {
    return base::normal_quantile((place + 0.5) / static_cast<double>(plants));
  };
  seed_offset_.resize(plants);
  start_leaf_g_.resize(plants);
  planted_.assign(plants, 0.0);
  shuffled("stand.emergence");
  for (std::size_t i = 0; i < plants; ++i) seed_offset_[i] = normal_of(order[i]);
  shuffled("stand.vigour");
  const double start_g = crop_.growth.start_leaf_area_cm2 * 1e-4 /
                         (crop_.growth.specific_leaf_area_m2_per_g * constants_.seedling_leaf_factor);
  for (std::size_t i = 0; i < plants; ++i)
    start_leaf_g_[i] = start_g * std::exp(kVigourLogSpread * normal_of(order[i]));
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
  unthinned_plants_ = sampled_plants_;
  next_observed_ = 0;
  alive_ = 1.0;
  set_weight_.clear();
  set_mass_g_.clear();
  set_age_cd_.clear();
  oldest_set_ = 0;
  ripe_on_.clear();
  days_since_pick_ = 0;
  done_ = false;
}

double Simulator::tray_temp_c(std::size_t place) const {
  const auto& ensemble = weather_.ensemble();
  const double air = 0.5 * (ensemble.tmin_c[place] + ensemble.tmax_c[place]);
  if (raising_.place == bed::TrayPlace::outdoors) return air;
  if (raising_.place == bed::TrayPlace::cold_frame) return air + kFrameWarmthK;
  return raising_.temp_c;
}

// Day of emergence of every plant; false when half of them do not come up in time.
bool Simulator::emerge() {
  const double soil_factor = crop_.germination.soil_factor ? crop_.germination.soil_factor->value : 1.0;
  const double half_cd = soil_factor * crop_.germination.thermal_time_50_cd;
  const double spread = crop_.germination.log_spread;
  const std::size_t last = std::min(days_, sow_day_ + static_cast<std::size_t>(kLongestEmergenceDays) * 3);
  std::fill(grid_.emerge_day.begin(), grid_.emerge_day.end(), 1e9);
  double sum_cd = 0.0;
  double next_cd = half_cd * std::exp(-4.0 * spread);
  for (std::size_t day = sow_day_; day < last; ++day) {
    const double today_cd =
        indoors_ ? weather_.germination_cd_at(tray_temp_c(at(day))) : weather_.germination_cd()[at(day)];
    sum_cd += today_cd;
    if (sum_cd < next_cd) continue;
    if (life_->emerge_day < 0 && sum_cd >= half_cd) life_->emerge_day = static_cast<int>(day);
    const double reached = std::log(sum_cd / half_cd) / spread;
    const double before = sum_cd > today_cd ? std::log((sum_cd - today_cd) / half_cd) / spread : -1e9;
    for (std::size_t i = 0; i < grid_.size(); ++i) {
      if (seed_offset_[i] <= reached && seed_offset_[i] > before)
        grid_.emerge_day[i] = static_cast<double>(day);
    }
    if (reached > 4.0) break;
  }
  if (life_->emerge_day < 0) return false;
  if (facts_.emerged) {
    const int observed = static_cast<int>(day_of(*facts_.emerged));
    for (double& day : grid_.emerge_day) day += observed - life_->emerge_day;
    life_->emerge_day = observed;
    return true;
  }
  return life_->emerge_day - static_cast<int>(sow_day_) <= kLongestEmergenceDays;
}

// The day on which seedlings leave the tray: decided, or the first day on which they are ready and the air is
// fit.
bool Simulator::find_set_out() {
  const auto& nursery = crop_.nursery;
  const auto decided = facts_.set_out ? facts_.set_out : plan_.set_out;
  if (decided) {
    const int day = static_cast<int>(day_of(*decided));
    life_->set_out_day = std::max(day, life_->emerge_day);
    return life_->set_out_day < static_cast<int>(days_);
  }
  double age = 0.0;
  int ready = -1;
  for (auto day = static_cast<std::size_t>(life_->emerge_day); day < days_; ++day) {
    age += weather_.growth_cd_at(tray_temp_c(at(day)));
    const int today = static_cast<int>(day);
    if (ready < 0 && age >= nursery.ready_thermal_time_cd) {
      ready = today + static_cast<int>(std::lround(nursery.hardening_days.value));
    }
    if (ready < 0 || today < ready) continue;
    if (today > ready + kLongestWaitDays) break;
    const bool warm = weather_.season().week_mean_c()[at(day)] >= nursery.set_out_min_temp_c;
    if (warm && weather_.frost_ahead()[day] <= kSafeFrostShare) {
      life_->set_out_day = today;
      if (age > 1.5 * nursery.latest_thermal_time_cd) life_->limit = Limit::outgrew_tray;
      return life_->limit == Limit::none;
    }
  }
  life_->limit = Limit::no_safe_set_out;
  return false;
}

void Simulator::run(std::size_t member, StandLives& lives) {
  member_ = member;
  life_ = &lives.members[member];
  plant_g_ = &lives.plant_g[member * lives.day_count];
  taken_g_ = &lives.taken_g[member * lives.day_count];
  reset();
  credit_weighed();
  const double sowing_soil_c = weather_.season().soil_mean_c()[at(sow_day_)];
  if (!emerge()) {
    life_->limit =
        sowing_soil_c > crop_.germination.cardinal.optimum_low_c ? Limit::soil_too_hot : Limit::soil_too_cold;
    life_->emerge_day = -1;
    return;
  }
  if (!indoors_ && !facts_.sown && !facts_.emerged && sowing_soil_c < crop_.limits.soil_min_sow_c) {
    life_->limit = Limit::soil_too_cold;
  }
  if (indoors_ && !find_set_out()) return;
  live(lives);
  judge_success();
}

void Simulator::live(StandLives& lives) {
  auto day = days_;
  for (const double each : grid_.emerge_day)
    day = std::min(day, static_cast<std::size_t>(std::max(0.0, each)));
  day = std::max(day, sow_day_);
  const bool from_observation = facts_.measured_on && facts_.measured_g;
  const std::int64_t measured = from_observation ? day_of(*facts_.measured_on) : -1;
  for (; day < days_ && !done_; ++day) {
    if (indoors_ && static_cast<int>(day) == life_->set_out_day) {
      set_zones(zone_m2_, true);
      shock_cd_ = crop_.nursery.transplant_check_cd;
    }
    forcing_of(day);
    detail::grow_day(constants_, forcing_, grid_);
    weigh();
    if (static_cast<int>(day) >= life_->emerge_day) {
      age_cd_ += forcing_.thermal_cd;
      if (age_cd_ >= constants_.organ_start_cd) {
        organ_age_cd_ += organ_age_cd_ > 0.0 ? forcing_.thermal_cd : forcing_.organ_thermal_cd;
      }
    }
    take_observed(day);
    if (static_cast<std::int64_t>(day) == measured) measure();
    if (options_.removal && date_of(day) == options_.removal->date) {
      remove_by_hand();
      lives.removed_g[member_] = removed_g_ / static_cast<double>(grid_.clumps);
      lives.removed_plants[member_] = removed_plants_;
      lives.greens_g[member_] = greens_g_ / static_cast<double>(grid_.clumps);
    }
    if (!in_tray(day) && !endure(day)) break;
    const double before_harvest_g = mean_fresh_g();
    harvest(day);
    watch(day, lives);
    plant_g_[day - sow_day_] = crop_.harvest.style == HarvestStyle::picked ? ripe_g_ : before_harvest_g;
  }
  const double standing =
      plant_g_[(life_->end_day >= 0 ? static_cast<std::size_t>(life_->end_day) : days_ - 1) - sow_day_];
  for (; day < days_; ++day) {
    plant_g_[day - sow_day_] = standing;
    watch(day, lives);
  }
}

double Simulator::stress(std::size_t day) const {
  const auto& water = options_.water_factor;
  const auto& nitrogen = options_.nitrogen_factor;
  const double wet = water.empty() ? 1.0 : water[at(day)];
  const double fed = nitrogen.empty() ? 1.0 : nitrogen[at(day)];
  return std::min(wet, fed);
}

void Simulator::forcing_of(std::size_t day) {
  const auto& growth = crop_.growth;
  const bool tray = in_tray(day);
  double thermal = tray ? weather_.growth_cd_at(tray_temp_c(at(day))) : weather_.growth_cd()[at(day)];
  double light = weather_.season().light_mj_m2()[at(day)];
  const double full_rate = growth.cardinal.optimum_low_c - growth.cardinal.base_c;
  const double use = tray ? thermal / full_rate : weather_.light_use()[at(day)];
  if (tray && raising_.place != bed::TrayPlace::outdoors) {
    light = raising_.place == bed::TrayPlace::cold_frame ? light * kFrameLightShare : kIndoorLightMjM2;
  }
  double awake = 1.0;
  if (!tray && shock_cd_ > 0.0) {
    const double lost = std::min(shock_cd_, thermal);
    shock_cd_ -= lost;
    awake = thermal > 0.0 ? 1.0 - lost / thermal : 0.0;
    thermal -= lost;
  }
  forcing_.day = static_cast<double>(day);
  forcing_.thermal_cd = thermal;
  forcing_.organ_thermal_cd = thermal * weather_.organ_day_share()[day];
  const double light_use_g_per_mj =
      tray ? kSeedlingLightUseGPerMj : growth.radiation_use_g_per_mj * growth.field_efficiency;
  const double fed = tray ? 1.0 : stress(day);
  forcing_.light_g_per_m2 = light_use_g_per_mj * light * use * awake * fed;
  forcing_.sink_share = fed * (detail::exponential(growth.early_relative_rate_per_cd * thermal) - 1.0);
  forcing_.leaf_loss_scale = std::min(1.0, thermal / kColdLeafLossCd);
}

// Frost, heat and bolting of one day outdoors; false when the stand has come to its end.
bool Simulator::endure(std::size_t day) {
  const auto& limits = crop_.limits;
  const auto& ensemble = weather_.ensemble();
  if (static_cast<int>(day) < life_->emerge_day) return true;
  const double hardened = std::min(1.0, age_cd_ / kHardenedAgeCd);
  const double kill_c = limits.kill_seedling_c + hardened * (limits.kill_mature_c - limits.kill_seedling_c);
  const double depth = (kill_c - ensemble.tmin_c[at(day)]) / kKillWidthK;
  if (depth > -6.0) {
    const double before = alive_;
    alive_ *= 1.0 - 1.0 / (1.0 + std::exp(-depth));
    if (alive_ < 0.2) {
      alive_ = before;  // a killing night is forecast: what is worth taking comes in before it
      finish(day, Limit::frost);
      return false;
    }
  }
  const bool heading =
      crop_.harvest.part == HarvestedPart::head || crop_.harvest.part == HarvestedPart::flower;
  heat_ = kHeatMemory * heat_ + (ensemble.tmax_c[at(day)] > limits.damage_hot_c ? 1.0 : 0.0);
  if (heading && heat_ > kHeatLimit && age_cd_ >= kHeatedAgeShare * constants_.maturity_cd) {
    finish(day, Limit::heat);
    return false;
  }
  const bool needs_cold = limits.vernal_days.has_value();
  const bool past_juvenile = age_cd_ >= kJuvenileShare * constants_.maturity_cd;
  const bool bulbing =
      crop_.harvest.part == HarvestedPart::bulb && organ_age_cd_ > 0.0;  // suppresses the stalk
  if (needs_cold && past_juvenile && !bulbing) vernal_ += weather_.vernal_days()[at(day)];
  const bool cold_enough = !needs_cold || vernal_ >= limits.vernal_days->value;
  const bool induced = limits.bolt_day_length_h
                           ? weather_.season().day_length_h()[day] >= *limits.bolt_day_length_h
                           : needs_cold;
  if (cold_enough && induced) bolting_cd_ += forcing_.thermal_cd;
  // Crops that bolt in long days without cold do so midway between their maturity and their end.
  const double bolts_at_cd = needs_cold ? kBoltingCd : 0.5 * (constants_.maturity_cd + constants_.decline_cd);
  if (bolting_cd_ > bolts_at_cd) {
    finish(day, Limit::bolting);
    return false;
  }
  return true;
}

void Simulator::weigh() {
  fresh_ = detail::weigh_fresh(forcing_.day, dry_to_fresh_g_, dry_to_fresh_g_ * top_share_, grid_);
}

// Mean over the plants that are up and stand, and over those that the rule has pulled with what they weighed
// then. What the log says was pulled is gone: it tells no more of a plant that stands.
double Simulator::mean_fresh_g() const {
  double plants = by_rule_plants_;
  for (const double weight : grid_.fresh_g) plants += weight > 0.0 ? 1.0 : 0.0;
  return plants > 0.0 ? (fresh_.sum_g + by_rule_g_) / plants : 0.0;
}

// A weighed sample moves every plant that stands by the same factor, leaves included, so that the mean is
// what was weighed. Where those pulled by the rule weigh more than that leaves, the standing ones alone are.
void Simulator::measure() {
  const double computed = mean_fresh_g();
  if (!(computed > 0.0) || !(fresh_.sum_g > 0.0) || !(*facts_.measured_g > 0.0)) return;
  const double left = *facts_.measured_g * (fresh_.sum_g + by_rule_g_) / computed - by_rule_g_;
  const double factor = left > 0.0 ? left / fresh_.sum_g : *facts_.measured_g / computed;
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    grid_.organ_g[i] *= factor;
    grid_.leaf_g[i] *= factor;
    grid_.other_g[i] *= factor;
  }
  weigh();
}

void Simulator::take(std::size_t day, double grams_of_sample) {
  if (!(grams_of_sample > 0.0)) return;
  taken_g_[day - sow_day_] += grams_of_sample * grams_of_sample_ * alive_;
  life_->taken_g += grams_of_sample * alive_ / sampled_plants_;
  life_->last_pick_day = static_cast<int>(day);
}

void Simulator::watch(std::size_t day, StandLives& lives) {
  for (std::size_t w = 0; w < options_.watch.size(); ++w) {
    if (options_.watch[w] != date_of(day)) continue;
    const std::size_t place = member_ * options_.watch.size() + w;
    lives.watched_alive[place] = alive_;
    for (std::size_t i = 0; i < grid_.size(); ++i)
      lives.watched_g[place * grid_.size() + i] = grid_.present[i] > 0.0 ? grid_.fresh_g[i] : 0.0;
  }
}

// The largest of every clump, and all above a weight; the last plant of a clump stays unless it is above the
// weight.
void Simulator::remove_by_hand() {
  const Removal& removal = *options_.removal;
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    for (int taken = 0; taken < removal.largest_per_clump; ++taken) {
      std::size_t largest = grid_.size();
      int standing = 0;
      for (std::size_t i = c; i < grid_.size(); i += grid_.clumps) {
        if (!(grid_.present[i] > 0.0)) continue;
        ++standing;
        if (largest == grid_.size() || grid_.fresh_g[i] > grid_.fresh_g[largest]) largest = i;
      }
      if (standing < 2) break;
      removed_g_ += grid_.fresh_g[largest];
      removed_plants_ += 1.0;
      grid_.present[largest] = 0.0;
    }
    for (std::size_t i = c; i < grid_.size() && removal.above_g > 0.0; i += grid_.clumps) {
      if (!(grid_.present[i] > 0.0) || grid_.fresh_g[i] < removal.above_g) continue;
      removed_g_ += grid_.fresh_g[i];
      removed_plants_ += 1.0;
      grid_.present[i] = 0.0;
    }
  }
  if (removal.keep_per_clump > 0) thin_to(removal.keep_per_clump);
  if (removal.leaf_share > 0.0) take_leaves(removal.leaf_share);
  weigh();
}

// The smallest of every clump go until `keep` are left.
void Simulator::thin_to(int keep) {
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    while (true) {
      std::size_t smallest = grid_.size();
      int standing = 0;
      for (std::size_t i = c; i < grid_.size(); i += grid_.clumps) {
        if (!(grid_.present[i] > 0.0)) continue;
        ++standing;
        if (smallest == grid_.size() || grid_.fresh_g[i] <= grid_.fresh_g[smallest]) smallest = i;
      }
      if (standing <= keep) break;
      removed_g_ += grid_.fresh_g[smallest];
      removed_plants_ += 1.0;
      grid_.present[smallest] = 0.0;
    }
  }
}

// Leaves as greens, or a cut of a leaf crop: the plant grows on with what is left.
void Simulator::take_leaves(double share) {
  const auto& dry_share = crop_.harvest.greens_dry_matter_fraction;
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    const bool up = grid_.present[i] > 0.0 && forcing_.day >= grid_.emerge_day[i];
    if (!up) continue;
    if (top_share_ > 0.0) {
      greens_g_ += share * grid_.fresh_g[i];
      grid_.other_g[i] *= 1.0 - share;
    } else if (dry_share) {
      greens_g_ += share * grid_.leaf_g[i] / dry_share->value;
    }
    grid_.leaf_g[i] *= 1.0 - share;
  }
}

// What was weighed for the kitchen is known, whatever the model makes of the stand.
void Simulator::credit_weighed() {
  for (const PlantsTaken& taken : facts_.taken) {
    const auto day = std::max<std::int64_t>(day_of(taken.date), static_cast<std::int64_t>(sow_day_));
    if (!taken.grams || !taken.largest || day >= static_cast<std::int64_t>(days_)) continue;
    taken_g_[static_cast<std::size_t>(day) - sow_day_] += *taken.grams;
    if (plants_ > 0.0) life_->taken_g += *taken.grams / plants_;
    if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
    life_->last_pick_day = std::max(life_->last_pick_day, static_cast<int>(day));
  }
}

void Simulator::take_observed(std::size_t day) {
  bool any = false;
  while (next_observed_ < facts_.taken.size() && facts_.taken[next_observed_].date <= date_of(day)) {
    take_entry(facts_.taken[next_observed_++], day);
    any = true;
  }
  if (any) weigh();
}

// What the log says was taken leaves the sample, and where it was not weighed it counts with the model's
// weight.
void Simulator::take_entry(const PlantsTaken& taken, std::size_t day) {
  if (grams_of_sample_ <= 0.0) return;
  const HarvestStyle style = crop_.harvest.style;
  if (taken.before_count) {
    if (taken.largest && !taken.grams) take(day, taken.plants / grams_of_sample_ * mean_fresh_g());
  } else if (!taken.largest || style == HarvestStyle::once) {
    take_plants(taken, day);
  } else if (style == HarvestStyle::repeat_cut) {
    take_cut(taken, day);
  } else if (!options_.leave_standing) {
    take_fruit(taken, day);
  }
}

// So many plants of the sample as stand for those of the log: the largest when they were pulled, else the
// smallest of the fullest clumps.
void Simulator::take_plants(const PlantsTaken& taken, std::size_t day) {
  if (taken.plants == 0 && taken.grams) return take_by_weight(*taken.grams / grams_of_sample_);
  observed_debt_ += taken.plants / grams_of_sample_;
  for (; observed_debt_ >= 0.5; observed_debt_ -= 1.0) {
    const double weight = take_out_one(taken.largest);
    if (!taken.largest || taken.grams) continue;
    take(day, weight);
    if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
  }
}

// Pulled plants that were weighed and not counted: the largest until so much is out, each at least worth
// taking.
void Simulator::take_by_weight(double grams_of_sample) {
  double left = grams_of_sample;
  while (left > 0.0) {
    const double weight = take_out_one(true);
    if (!(weight > 0.0)) return;
    left -= std::max(weight, crop_.harvest.smallest_g.value);
  }
}

// A cut of a leaf crop: its share of what stands, or an ordinary cut where it was not weighed.
void Simulator::take_cut(const PlantsTaken& taken, std::size_t day) {
  const double standing_g = fresh_.sum_g * grams_of_sample_ * alive_;
  double share = kCutShare;
  if (taken.grams) share = standing_g > 0.0 ? std::min(kMostCutShare, *taken.grams / standing_g) : 0.0;
  if (!taken.grams) take(day, share * fresh_.sum_g);
  cut_tops(share, day);
}

// All that was ripe is picked.
void Simulator::take_fruit(const PlantsTaken& taken, std::size_t day) {
  const double ripe = gather_ripe();
  days_since_pick_ = -1;  // the day itself is counted after what the log tells
  ripe_g_ += taken.grams ? *taken.grams / plants_ : ripe;
  if (!taken.grams) take(day, ripe * sampled_plants_);
  if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
}

/// Takes out the largest or the smallest plant that stands; its weight, 0 when none does.
double Simulator::take_out_one(bool largest) {
  const std::size_t plant = extreme_plant(largest);
  if (plant == grid_.size()) return 0.0;
  const double weight = grid_.fresh_g[plant];
  (largest ? taken_plants_ : unthinned_plants_) += largest ? 1.0 : -1.0;
  grid_.present[plant] = 0.0;
  grid_.fresh_g[plant] = 0.0;
  return weight;
}

// The largest plant that stands, or the smallest of those in the fullest clumps; `size()` when none does.
std::size_t Simulator::extreme_plant(bool largest) const {
  std::size_t found = grid_.size();
  int fullest = 0;
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    int standing = 0;
    for (std::size_t i = c; i < grid_.size(); i += grid_.clumps) standing += grid_.present[i] > 0.0 ? 1 : 0;
    if (standing == 0 || (!largest && standing < fullest)) continue;
    for (std::size_t i = c; i < grid_.size(); i += grid_.clumps) {
      if (!(grid_.present[i] > 0.0)) continue;
      const bool first = found == grid_.size() || (!largest && standing > fullest);
      const bool better = first || (largest ? grid_.fresh_g[i] > grid_.fresh_g[found]
                                            : grid_.fresh_g[i] < grid_.fresh_g[found]);
      if (better) found = i;
      fullest = std::max(fullest, standing);
    }
  }
  return found;
}

void Simulator::harvest(std::size_t day) {
  if (done_ || in_tray(day) || static_cast<int>(day) < life_->emerge_day) return;
  const auto& warmth = crop_.growth.cardinal;
  regrowth_ += forcing_.thermal_cd / (warmth.optimum_low_c - warmth.base_c);
  if (crop_.harvest.style == HarvestStyle::picked && !options_.leave_standing) fill_fruit(day);
  if (options_.leave_standing || static_cast<std::int64_t>(day) < rule_from_) return leave_as_logged(day);
  if (crop_.harvest.style == HarvestStyle::picked) {
    pick_ripe(day);
  } else if (crop_.harvest.style == HarvestStyle::repeat_cut) {
    cut(day);
  } else if (ripens_at_once()) {
    if (organ_age_cd_ >= constants_.maturity_cd - constants_.organ_start_cd) finish(day, Limit::none);
    return;
  } else {
    pull_by_size(day);
  }
  if (!done_ && age_cd_ >= constants_.decline_cd) finish(day, Limit::none);
}

// Nothing is taken but what the log tells; a stand that was picked on a day had not come to its end by then.
void Simulator::leave_as_logged(std::size_t day) {
  if (!options_.leave_standing && crop_.harvest.style == HarvestStyle::picked) lose_overripe(day);
  if (!options_.leave_standing && life_->first_pick_day < 0 && worth_picking())
    life_->first_pick_day = static_cast<int>(day);
  if (age_cd_ >= constants_.decline_cd && static_cast<std::int64_t>(day) > last_observed_pick_)
    finish(day, Limit::none);
}

/// Whether the plan's rule would begin to pick.
bool Simulator::worth_picking() const {
  if (crop_.harvest.style == HarvestStyle::picked) return oldest_set_ < ripe_on_.size();
  if (crop_.harvest.style == HarvestStyle::repeat_cut) return mean_fresh_g() >= goal_g_;
  if (ripens_at_once()) return organ_age_cd_ >= constants_.maturity_cd - constants_.organ_start_cd;
  const double least_g = least_wanted_g();
  if (fresh_.most_g < least_g) return false;
  const auto large = std::count_if(grid_.fresh_g.begin(), grid_.fresh_g.end(),
                                   [&](double weight) { return weight > 0.0 && weight >= least_g; });
  return static_cast<double>(large) >= kFirstPickShare * sampled_plants_;
}

/// What stands at the end and is worth taking, per plant sown for.
double Simulator::left_worth_taking_g() const {
  const double least_g = crop_.harvest.smallest_g;
  double grams = 0.0;
  if (crop_.harvest.style == HarvestStyle::repeat_cut) grams = mean_fresh_g() >= least_g ? fresh_.sum_g : 0.0;
  if (crop_.harvest.style == HarvestStyle::once) {
    for (const double weight : grid_.fresh_g) grams += weight >= least_g ? weight : 0.0;
  }
  return grams * alive_ / sampled_plants_;
}

// Once the stand is past its maturity growers wait less and less: the goal falls to the smallest size worth
// taking when the crop declines.
double Simulator::least_wanted_g() const {
  const double past = std::clamp(
      (age_cd_ - constants_.maturity_cd) / (constants_.decline_cd - constants_.maturity_cd), 0.0, 1.0);
  return goal_g_ + past * (std::min(goal_g_, crop_.harvest.smallest_g.value) - goal_g_);
}

// Pulls what has reached the goal.
void Simulator::pull_by_size(std::size_t day) {
  if (static_cast<std::int64_t>(day) <= last_observed_pick_) return;
  pull_all(day, least_wanted_g());
  if (life_->first_pick_day < 0) {
    if (taken_plants_ >= kFirstPickShare * sampled_plants_) life_->first_pick_day = static_cast<int>(day);
    return;
  }
  const bool cleared = taken_plants_ >= kClearedShare * unthinned_plants_;
  const auto began = std::max<std::int64_t>(life_->first_pick_day, rule_from_);
  if (cleared || static_cast<std::int64_t>(day) - began >= kLongestPickDays) finish(day, Limit::none);
}

void Simulator::pull_all(std::size_t day, double least_g) {
  if (fresh_.most_g < least_g || !(fresh_.most_g > 0.0)) return;
  double grams = 0.0;
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    const double weight = grid_.fresh_g[i];
    if (weight < least_g || !(weight > 0.0)) continue;
    grams += weight;
    taken_plants_ += 1.0;
    by_rule_plants_ += 1.0;
    grid_.present[i] = 0.0;
  }
  by_rule_g_ += grams;
  take(day, grams);
  weigh();
}

void Simulator::cut(std::size_t day) {
  const bool rested = life_->first_pick_day < 0 || regrowth_ >= crop_.harvest.picking_days;
  if (!rested) return;
  if (mean_fresh_g() < goal_g_) return;
  take(day, kCutShare * fresh_.sum_g);
  cut_tops(kCutShare, day);
  weigh();
}

// The plants go on with what is left of their tops; regrowth begins.
void Simulator::cut_tops(double share, std::size_t day) {
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    grid_.leaf_g[i] *= 1.0 - share;
    grid_.other_g[i] *= 1.0 - share;
  }
  regrowth_ = 0.0;
  if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
}

// Fruit and pods: each day's flowers are a cohort that shares the organ's growth while it fills, until it is
// picked. Flowers that open on hot days set in part.
void Simulator::fill_fruit(std::size_t day) {
  if (organ_age_cd_ <= 0.0) return;
  const double ripening_cd = std::max(1.0, constants_.maturity_cd - constants_.organ_start_cd);
  const double over_c = weather_.ensemble().tmax_c[at(day)] - crop_.limits.damage_hot_c;
  const double set =
      std::clamp(1.0 - 0.2 * over_c, 0.0, 1.0);  // none sets five degrees above the damage limit
  double made = 0.0;
  for (std::size_t i = 0; i < grid_.size(); ++i) made += grid_.organ_growth_g[i];
  made *= dry_to_fresh_g_ / sampled_plants_;
  set_weight_.push_back(set * forcing_.organ_thermal_cd);
  set_mass_g_.push_back(0.0);
  set_age_cd_.push_back(0.0);
  double filling = 0.0;
  for (std::size_t i = oldest_set_; i < set_weight_.size(); ++i) filling += set_weight_[i];
  for (std::size_t i = oldest_set_; i < set_weight_.size(); ++i) {
    if (filling > 0.0) set_mass_g_[i] += made * set_weight_[i] / filling;
    set_age_cd_[i] += forcing_.organ_thermal_cd;
  }
  while (ripe_on_.size() < set_age_cd_.size() && set_age_cd_[ripe_on_.size()] >= ripening_cd)
    ripe_on_.push_back(day);
  ++days_since_pick_;
}

/// Takes all that is ripe, g per plant.
double Simulator::gather_ripe() {
  double ripe = 0.0;
  while (oldest_set_ < ripe_on_.size()) ripe += set_mass_g_[oldest_set_++];
  return ripe;
}

// What hangs for longer than from one picking day to the next is past its best, and was not picked by the
// log.
void Simulator::lose_overripe(std::size_t day) {
  const auto good_days = static_cast<std::size_t>(pick_interval_);
  while (oldest_set_ < ripe_on_.size() && ripe_on_[oldest_set_] + good_days <= day)
    missed_g_ += set_mass_g_[oldest_set_++] * alive_;
}

// On a picking day what is ripe is picked.
void Simulator::pick_ripe(std::size_t day) {
  if (organ_age_cd_ <= 0.0 || oldest_set_ >= ripe_on_.size() || days_since_pick_ < pick_interval_) return;
  const double ripening_cd = std::max(1.0, constants_.maturity_cd - constants_.organ_start_cd);
  const double ripe = gather_ripe();
  if (!(ripe > 0.0)) return;
  days_since_pick_ = 0;
  ripe_g_ += ripe;
  take(day, ripe * sampled_plants_);
  if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
  if (organ_age_cd_ >= ripening_cd + crop_.harvest.picking_days) finish(day, Limit::none);
}

// The end before the rule picks: what could have been taken until then is not in the log.
void Simulator::end_unpicked(std::size_t day) {
  const double left_g = left_worth_taking_g();
  missed_g_ += left_g;
  if (life_->first_pick_day < 0 && left_g > 0.0) life_->first_pick_day = static_cast<int>(day);
  if (life_->first_pick_day >= 0)
    life_->last_pick_day = std::max(life_->last_pick_day, static_cast<int>(day));
}

// The end: what stands and is worth taking comes in.
void Simulator::finish(std::size_t day, Limit limit) {
  done_ = true;
  life_->end_day = static_cast<int>(day);
  if (options_.leave_standing || static_cast<std::int64_t>(day) < rule_from_) {
    if (life_->limit == Limit::none) life_->limit = limit;
    plant_g_[day - sow_day_] = options_.leave_standing ? mean_fresh_g() : standing_or_picked_g();
    if (!options_.leave_standing) end_unpicked(day);
    return;
  }
  if (crop_.harvest.style == HarvestStyle::once) {
    const double least_g = crop_.harvest.smallest_g;
    const double before = taken_plants_;
    pull_all(day, least_g);
    if (life_->first_pick_day < 0 && taken_plants_ > before) life_->first_pick_day = static_cast<int>(day);
  }
  // The last leaves of a crop that is cut again come in whole.
  if (crop_.harvest.style == HarvestStyle::repeat_cut && mean_fresh_g() >= crop_.harvest.smallest_g) {
    take(day, fresh_.sum_g);
    if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
  }
  if (life_->limit == Limit::none) life_->limit = limit;
  plant_g_[day - sow_day_] = standing_or_picked_g();
}

void Simulator::judge_success() {
  const auto& harvest = crop_.harvest;
  const double had_g = life_->taken_g + missed_g_;
  bool enough = false;
  if (harvest.style == HarvestStyle::once) {
    enough = had_g >= std::max(harvest.smallest_g.value * 0.5, kWorthHavingShare * goal_g_);
  } else if (harvest.style == HarvestStyle::repeat_cut) {
    enough = had_g >= 1.5 * kWorthHavingShare * goal_g_;
  } else {
    const double ripening_cd = constants_.maturity_cd - constants_.organ_start_cd;
    enough = had_g > 0.0 && organ_age_cd_ >= ripening_cd + kWorthHavingShare * harvest.picking_days;
  }
  const bool could_sow = life_->limit != Limit::soil_too_cold && life_->limit != Limit::soil_too_hot;
  life_->success = enough && could_sow;
  if (life_->success) {
    life_->limit = Limit::none;
  } else if (life_->limit == Limit::none) {
    life_->limit = Limit::season_too_short;
  }
}

}  // namespace

std::string_view limit_text(Limit limit) noexcept {
  switch (limit) {
    case Limit::none:
      return "";
    case Limit::soil_too_cold:
      return "soil too cold";
    case Limit::soil_too_hot:
      return "soil too hot";
    case Limit::no_safe_set_out:
      return "no safe day to set out";
    case Limit::outgrew_tray:
      return "outgrows its tray before it can go out";
    case Limit::frost:
      return "frost";
    case Limit::heat:
      return "heat";
    case Limit::bolting:
      return "bolting";
    case Limit::season_too_short:
      return "season too short";
    case Limit::day_length:
      return "day length";
  }
  return "";
}

StandLives simulate(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
                    const std::optional<RaisingPlace>& raising, const SimulationOptions& options) {
  const auto& ensemble = weather.ensemble();
  const auto sown = (facts.sown.value_or(plan.sow) - ensemble.first).count();
  assert(sown >= 0 && static_cast<std::size_t>(sown) < ensemble.day_count);
  Simulator simulator(weather, plan, facts, raising, options);
  StandLives lives;
  lives.first_day = static_cast<std::size_t>(sown);
  lives.day_count = ensemble.day_count - lives.first_day;
  lives.plants = simulator.plants();
  lives.sampled_plants = simulator.sampled_plants();
  lives.open_sides = simulator.open_sides();
  lives.clumps = simulator.grid().clumps;
  lives.ranks = simulator.grid().ranks;
  lives.watched_g.assign(ensemble.member_count * options.watch.size() * simulator.grid().size(), 0.0);
  lives.watched_alive.assign(ensemble.member_count * options.watch.size(), 1.0);
  for (auto* each : {&lives.removed_g, &lives.removed_plants, &lives.greens_g})
    each->assign(ensemble.member_count, 0.0);
  lives.members.resize(ensemble.member_count);
  lives.plant_g.assign(ensemble.member_count * lives.day_count, 0.0);
  lives.taken_g.assign(ensemble.member_count * lives.day_count, 0.0);
  for (std::size_t m = 0; m < ensemble.member_count; ++m) simulator.run(m, lives);
  return lives;
}

}  // namespace sowtide::stand
