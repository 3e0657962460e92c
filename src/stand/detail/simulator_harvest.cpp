// The plan's rule of picking: by size, by cuts, as fruit ripens.
#include <algorithm>
#include <cmath>

#include "stand/detail/simulator.hpp"

namespace sowtide::stand::detail {
namespace {

using crop::HarvestStyle;

// Constants of the engine that are no crop's own. Sources and reasons: docs/models/stand.md, "Constants".
constexpr int kLongestPickDays = 42;     // from the first pull of a once-over crop to clearing (chosen)
constexpr double kFirstPickShare = 0.1;  // of the plants: one in ten is out, nine in ten are (chosen)
constexpr double kClearedShare = 0.9;
/// What a plant that was left standing has grown to beyond this is coarser than was wanted: it counts half
/// (chosen), as an over-size plant does with the judge.
constexpr double kMostOfGoal = 2.0;
constexpr double kCoarseWorth = 0.5;
/// Of what leaf that is picked every week has grown since: the plants go on growing (chosen; common practice
/// is to take the outer leaves and leave the middle).
constexpr double kGrownShareTaken = 0.5;
constexpr std::int64_t kWeekDays = 7;

}  // namespace

void Simulator::harvest(std::size_t day) {
  if (done_ || in_tray(day) || static_cast<int>(day) < life_->emerge_day) return;
  const auto& warmth = crop_.growth.cardinal;
  regrowth_ += forcing_.thermal_cd / (warmth.optimum_low_c - warmth.base_c);
  if (crop_.harvest.style == HarvestStyle::picked && !options_.leave_standing) fill_fruit(day);
  if (options_.leave_standing || static_cast<std::int64_t>(day) < rule_from_) return leave_as_logged(day);
  if (crop_.harvest.style == HarvestStyle::picked) {
    pick_ripe(day);
  } else if (crop_.harvest.style == HarvestStyle::repeat_cut && waits_) {
    cut_as_wanted(day);
  } else if (crop_.harvest.style == HarvestStyle::repeat_cut) {
    cut(day);
  } else if (ripens_at_once()) {
    if (organ_age_cd_ >= constants_.maturity_cd - constants_.organ_start_cd) finish(day, Limit::none);
    return;
  } else if (waits_) {
    pull_as_wanted(day);
  } else {
    pull_by_size(day);
  }
  if (!done_ && age_cd_ >= constants_.decline_cd) finish(day, Limit::none);
}

// Nothing is taken but what the log tells; a stand that was picked on a day had not come to its end by then.
void Simulator::leave_as_logged(std::size_t day) {
  if (!options_.leave_standing && crop_.harvest.style == HarvestStyle::picked) lose_overripe(day);
  const bool waits = waits_ && plan_.pick_from && static_cast<std::int64_t>(day) < day_of(*plan_.pick_from);
  if (!options_.leave_standing && life_->first_pick_day < 0 && !waits && worth_picking())
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

// A stand that waits in the ground until it is wanted gives its largest, evenly over the plan's weeks. A
// plant of the sample stands for several, which come out one after the other.
void Simulator::pull_as_wanted(std::size_t day) {
  const auto today = static_cast<std::int64_t>(day);
  if (today <= last_observed_pick_) return;
  if (plan_.pick_from && today < day_of(*plan_.pick_from)) return;
  if (pull_to_ < 0) begin_to_pull(day);
  if (pull_to_ < 0) return;
  const auto days_each = static_cast<std::size_t>(std::max(1.0, std::round(1.0 / pull_per_day_)));
  for (pull_quota_ += pull_per_day_; pull_quota_ >= 1.0; pull_quota_ -= 1.0) {
    const std::size_t plant = extreme_plant(true);
    if (plant == grid_.size() || grid_.fresh_g[plant] < crop_.harvest.smallest_g) break;
    const double weight = take_out_one(true);
    by_rule_plants_ += 1.0;
    by_rule_g_ += weight;
    take_over_days(day, days_each, counted_g(weight));
    weigh();
  }
  if (today >= pull_to_) finish(day, Limit::none);
}

/// Where the plan tells the day: leaf is large enough at half of the goal, since a cut leaves as much; what
/// is pulled when the mean is a small one, and where it hardly grows any more, when it is worth taking at
/// all.
bool Simulator::large_enough_to_begin(std::size_t day) const {
  constexpr double kLeafToBegin = 0.5;
  constexpr std::size_t kDaysAhead = 21;
  constexpr double kHardlyGrows = 0.25;  // of the thermal time of days at full warmth (chosen)
  if (crop_.harvest.style == HarvestStyle::repeat_cut) return mean_fresh_g() >= kLeafToBegin * goal_g_;
  if (mean_fresh_g() >= std::min(goal_g_, crop_.harvest.small_g.value)) return true;
  if (mean_fresh_g() < crop_.harvest.smallest_g) return false;
  const auto& usual_cd = weather_.usual_growth_cd();
  const std::size_t end = std::min(days_, day + 1 + kDaysAhead);
  double ahead_cd = 0.0;
  for (std::size_t each = day + 1; each < end; ++each) ahead_cd += usual_cd[each];
  const auto& warmth = crop_.growth.cardinal;
  // Near the end of the weather fewer days are known.
  const auto known_days = static_cast<double>(end - day - 1);
  return ahead_cd < kHardlyGrows * known_days * (warmth.optimum_low_c - warmth.base_c);
}

/// The day by which it is past its end by age where the weather goes on as usual; the end of the weather
/// where that comes first.
std::int64_t Simulator::likely_end_by_age(std::size_t day) const {
  const auto& usual_cd = weather_.usual_growth_cd();
  double age_cd = age_cd_;
  std::size_t each = day;
  while (each + 1 < days_ && age_cd < constants_.decline_cd) age_cd += usual_cd[++each];
  return static_cast<std::int64_t>(each);
}

// The first come out when one in ten is ready, of leaf when the goal stands, or from the plan's day on. They
// are spread over the plan's weeks, or over those to its end by age where that is likely to come first: what
// would be past eating by then is eaten before.
void Simulator::begin_to_pull(std::size_t day) {
  const bool begins = plan_.pick_from && large_enough_to_begin(day);
  if (life_->first_pick_day < 0 && !begins && !worth_picking()) return;
  const auto today = static_cast<std::int64_t>(day);
  if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
  std::int64_t first = life_->first_pick_day;
  if (plan_.pick_from) first = std::max<std::int64_t>(first, day_of(*plan_.pick_from));
  const std::int64_t last = std::min(first + kWeekDays * plan_.pick_weeks, likely_end_by_age(day));
  pull_to_ = std::max(last, today + 1);
  const double standing = std::max(1.0, unthinned_plants_ - taken_plants_);
  pull_per_day_ = standing / static_cast<double>(pull_to_ - today);
  pull_quota_ = 1.0 - pull_per_day_;  // the first comes out at once
}

// The weight of a plant of the sample, which stands for several, over the days on which those come out.
void Simulator::take_over_days(std::size_t day, std::size_t days, double grams_of_sample) {
  const std::size_t end = std::min(day + days, days_);
  for (std::size_t each = day; each < end; ++each)
    take(each, grams_of_sample / static_cast<double>(end - day));
}

/// What counts of a plant that is pulled: of what was left standing only half of what is beyond twice the
/// goal.
double Simulator::counted_g(double weight_g) const {
  const double coarse_g = waits_ ? std::max(0.0, weight_g - kMostOfGoal * goal_g_) : 0.0;
  return weight_g - (1.0 - kCoarseWorth) * coarse_g;
}

void Simulator::pull_all(std::size_t day, double least_g) {
  if (fresh_.most_g < least_g || !(fresh_.most_g > 0.0)) return;
  double grams = 0.0;
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    const double weight = grid_.fresh_g[i];
    if (weight < least_g || !(weight > 0.0)) continue;
    grams += counted_g(weight);
    taken_plants_ += 1.0;
    by_rule_plants_ += 1.0;
    by_rule_g_ += weight;
    grid_.present[i] = 0.0;
  }
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

// Hardy leaf that was left standing: every week half of what has grown since the last, and in any case an
// even share of what stands, by the weeks that are left: so it gives as it grows, and lasts where nothing
// grows. The last week takes all.
void Simulator::cut_as_wanted(std::size_t day) {
  const auto today = static_cast<std::int64_t>(day);
  if (plan_.pick_from && today < day_of(*plan_.pick_from)) return;
  if (pull_to_ < 0) begin_to_pull(day);
  if (pull_to_ < 0) return;
  if (today + kWeekDays > pull_to_) return finish(day, Limit::none);
  if (today - last_cut_day_ < kWeekDays || mean_fresh_g() < crop_.harvest.smallest_g) return;
  const auto weeks_left = static_cast<double>((pull_to_ - today + kWeekDays - 1) / kWeekDays);
  const double grown_g = last_cut_day_ > 0 ? std::max(0.0, fresh_.sum_g - left_standing_g_) : 0.0;
  const double share = std::max(1.0 / weeks_left, kGrownShareTaken * grown_g / fresh_.sum_g);
  take(day, share * fresh_.sum_g);
  cut_tops(share, day);
  weigh();
  left_standing_g_ = fresh_.sum_g;
}

// The plants go on with what is left of their tops; regrowth begins.
void Simulator::cut_tops(double share, std::size_t day) {
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    grid_.leaf_g[i] *= 1.0 - share;
    grid_.other_g[i] *= 1.0 - share;
  }
  regrowth_ = 0.0;
  last_cut_day_ = static_cast<std::int64_t>(day);
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

}  // namespace sowtide::stand::detail
