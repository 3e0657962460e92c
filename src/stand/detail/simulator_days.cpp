// The days of a member, from the first seedling to the end of the stand.
#include <algorithm>
#include <cmath>
#include <utility>

#include "stand/detail/constants.hpp"
#include "stand/detail/exponential.hpp"
#include "stand/detail/simulator.hpp"
#include "stand/hardening.hpp"

namespace sowtide::stand::detail {
namespace {

using crop::HarvestedPart;
using crop::HarvestStyle;

// Constants of the engine that are no crop's own. Sources and reasons: docs/models/stand.md, "Constants".
constexpr double kSeedlingLightUseGPerMj =
    3.0;  // well-watered seedlings in mild light, shoot and root (from memory)
constexpr double kKillWidthK = 0.8;       // width of the frost-death curve (chosen)
constexpr double kGrownAgeCd = 250.0;     // thermal age at which a plant can be as hardy as it gets (chosen)
constexpr double kBoltingCd = 250.0;      // long days after cold, to a stalk that spoils the harvest (chosen)
constexpr double kHeatMemory = 0.8;       // of yesterday's heat (chosen, with the next two)
constexpr double kHeatedAgeShare =
    0.6;  // of the time to maturity: heat spoils heads only as they fill (chosen)
constexpr double kHeatLimit =
    3.5;  // six hot days in a row: a head stands a hot week-end, not a hot week (chosen)
// Chosen: with less than two fifths of what it was sown for a grower calls a sowing failed. Of the goal weight, per
// plant sown for; leaf crops need one and a half times that, so more than one cut. Of fruit picked over weeks, of what
// the plants bore: the rest was not ripe when the stand ended.
constexpr double kWorthHavingShare = 0.4;
constexpr double kColdLeafLossCd = 10.0;  // leaves die at full rate from this daily thermal time on

/// What a share of the open ground's light is worth to what grows in it: more than it is, since leaves of the shade
/// are thinner and larger and dim light is used better. The square root is chosen on a trial of shaded potatoes
/// (docs/models/stand.md, "The light of a bed").
double shade_worth(double light_share) {
  return std::sqrt(light_share);
}

}  // namespace

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
    life_->lot_emerge_day.fill(-1);
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
    grow_day(constants_, forcing_, grid_);
    weigh();
    if (static_cast<int>(day) >= life_->emerge_day) {
      age_cd_ += forcing_.thermal_cd;
      if (life_->grown_day < 0 && age_cd_ >= kGrownAgeCd) life_->grown_day = static_cast<int>(day);
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
  double thermal = tray ? weather_.growth_cd_at(seedling_c_in_place(raising_, air_c(at(day))))
                        : weather_.growth_cd()[at(day)];
  double light = weather_.season().light_mj_m2()[at(day)];
  const double full_rate = growth.cardinal.optimum_low_c - growth.cardinal.base_c;
  const double use = tray ? thermal / full_rate : weather_.light_use()[at(day)];
  if (tray) light = light_in_place(raising_.place, light);
  if (!tray && !in_open_sun_) light *= shade_worth(bed_light_.of_day(weather_.season().diffuse_share()[at(day)]));
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
  forcing_.sink_share = fed * (exponential(growth.early_relative_rate_per_cd * thermal) - 1.0);
  forcing_.leaf_loss_scale = std::min(1.0, thermal / kColdLeafLossCd);
}

// Frost, heat and bolting of one day outdoors; false when the stand has come to its end.
bool Simulator::endure(std::size_t day) {
  const auto& limits = crop_.limits;
  const auto& ensemble = weather_.ensemble();
  if (static_cast<int>(day) < life_->emerge_day) return true;
  const double grown = std::min(1.0, age_cd_ / kGrownAgeCd);
  const double kill_c = half_killed_c(limits, grown, weather_.season().hardening()[at(day)]);
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
  // Of what is picked over weeks (sprouts) only what fills in the heat is lost: `fill_fruit`.
  const bool heading =
      crop_.harvest.style == HarvestStyle::once &&
      (crop_.harvest.part == HarvestedPart::head || crop_.harvest.part == HarvestedPart::flower);
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
  fresh_ = weigh_fresh(forcing_.day, dry_to_fresh_g_, dry_to_fresh_g_ * top_share_, grid_);
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
    for (std::size_t i = 0; i < grid_.size(); ++i) {
      const bool present = grid_.present[i] > 0.0;
      lives.watched_g[place * grid_.size() + i] = present ? grid_.fresh_g[i] : 0.0;
      const bool up = present && !killed_ && forcing_.day >= grid_.emerge_day[i];
      lives.watched_up[place * grid_.size() + i] = up ? 1 : 0;
    }
  }
}

// The end before the rule picks: what could have been taken until then is not in the log.
void Simulator::end_unpicked(std::size_t day) {
  const double left_g = left_worth_taking_g();
  missed_g_ += left_g;
  if (life_->first_pick_day < 0 && left_g > 0.0) life_->first_pick_day = static_cast<int>(day);
  if (life_->first_pick_day >= 0)
    life_->last_pick_day = std::max(life_->last_pick_day, static_cast<int>(day));
}

// What was still to come out little by little of plants already reckoned with comes in on the last day.
void Simulator::bring_in(std::size_t day) {
  if (pull_to_ < 0) return;
  double later_g = 0.0;
  for (std::size_t each = day + 1; each < days_; ++each)
    later_g += std::exchange(taken_g_[each - sow_day_], 0.0);
  taken_g_[day - sow_day_] += later_g;
  if (later_g > 0.0) life_->last_pick_day = static_cast<int>(day);
}

// The end: what stands and is worth taking comes in.
void Simulator::finish(std::size_t day, Limit limit) {
  done_ = true;
  killed_ = limit == Limit::frost;
  life_->end_day = static_cast<int>(day);
  bring_in(day);
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

/// Fruit that hangs on the plants and is not ripe, per plant sown for.
double Simulator::unripe_g() const {
  const std::size_t from = std::max(oldest_set_, ripe_on_.size());
  double grams = 0.0;
  for (std::size_t i = from; i < set_mass_g_.size(); ++i) grams += set_mass_g_[i];
  return grams * alive_;
}

/// Weight per plant sown for from which on a harvest is worth having. What is lifted at once when it is ripe is not
/// chosen by its size, so there the least that is worth taking counts.
double Simulator::worth_having_g(double had_g) const {
  const auto& harvest = crop_.harvest;
  if (ripens_at_once()) return harvest.smallest_g;
  switch (harvest.style) {
    case HarvestStyle::once:
      return std::max(harvest.smallest_g.value * 0.5, kWorthHavingShare * goal_g_);
    case HarvestStyle::repeat_cut:
      return 1.5 * kWorthHavingShare * goal_g_;
    case HarvestStyle::picked:
      break;
  }
  return std::max(harvest.smallest_g.value * 0.5, kWorthHavingShare * (had_g + unripe_g()));
}

void Simulator::judge_success() {
  const double had_g = life_->taken_g + missed_g_;
  const bool enough = had_g >= worth_having_g(had_g);
  const bool could_sow = life_->limit != Limit::soil_too_cold && life_->limit != Limit::soil_too_hot;
  life_->success = enough && could_sow;
  if (life_->success) {
    life_->limit = Limit::none;
  } else if (life_->limit == Limit::none) {
    life_->limit = Limit::season_too_short;
  }
}

}  // namespace sowtide::stand::detail
