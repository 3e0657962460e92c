#include "stand/detail/sowing_judge.hpp"

#include <algorithm>

#include "crop/emergence.hpp"
#include "stand/detail/constants.hpp"

namespace sowtide::stand::detail {
namespace {

constexpr int kNever = 1 << 20;
constexpr int kWeek = 7;
constexpr int kThreeWeeks = 21;
constexpr int kTwoWeeks = 14;
constexpr double kLongestWinterDays = 300.0;  // from autumn sowing to harvest (chosen)
constexpr double kBoltingCd = 250.0;          // as in the stand's life (docs/models/stand.md)
constexpr double kPieceFactor = 2.0;          // tubers and cloves lie longer unharmed than seed (chosen)
constexpr double kTenderC = -1.0;             // seedlings that die in a light frost
constexpr int kMidHarvestDays = 12;           // from the first day that heat counts (chosen)
constexpr int kLongestPickingDays = 200;      // of a year that brings no frost (chosen)
constexpr double kOrganStartedCd = 0.5;       // in days of the right length

// First day from `from` on at whose end the running sum has risen by `amount`.
int reached(const std::vector<double>& sum, int from, double amount) {
  if (amount <= 0.0) return from;
  const double goal = sum[static_cast<std::size_t>(from)] + amount;
  const auto found = std::lower_bound(sum.begin() + from + 1, sum.end(), goal);
  return found == sum.end() ? kNever : static_cast<int>(found - sum.begin()) - 1;
}

double risen(const std::vector<double>& sum, int from, int to) {
  return sum[static_cast<std::size_t>(to)] - sum[static_cast<std::size_t>(from)];
}

// Share of a day of cold, for cloves. Chosen: garlic takes its cold between freezing and some 10 °C, best
// near 5 °C (from memory), and rests when the ground is frozen.
double cold_day(double mean_c) {
  constexpr double kFrozenC = -2.0, kFullC = 5.0, kNoneC = 13.0;
  if (mean_c <= kFrozenC) return 0.0;
  return std::clamp((kNoneC - mean_c) / (kNoneC - kFullC), 0.0, 1.0);
}

crop::Figure general(double value) {
  crop::Figure figure;
  figure.value = value;
  return figure;
}

std::vector<int> next_frost(const climate::WeatherEnsemble& weather, std::size_t member, double kill_c) {
  std::vector<int> next(weather.day_count + 1, kNever);
  for (std::size_t d = weather.day_count; d-- > 0;) {
    next[d] = weather.tmin_c[weather.at(member, d)] <= kill_c ? static_cast<int>(d) : next[d + 1];
  }
  return next;
}

}  // namespace

SowingJudge::SowingJudge(const CropWeather& weather, const WindowRules& rules)
    : weather_(weather),
      crop_(weather.crop()),
      rules_(rules),
      days_(static_cast<int>(weather.ensemble().day_count)),
      sums_(weather.ensemble().member_count) {
  full_rate_cd_ = std::max(1e-6, crop_.growth.cardinal.optimum_low_c - crop_.growth.cardinal.base_c);
  const auto& maturity = crop_.growth.maturity_cd;
  maturity_cd_ = maturity - rules_.early_kinds * (maturity - maturity.low.value_or(maturity));
  const auto& young_heat = crop_.sowing.young_hottest_c;
  young_heat_c_ = young_heat ? young_heat->value : crop_.limits.damage_hot_c + rules_.young_heat_margin_k;
  best_emergence_ = 0.0;
  for (const auto& point : crop_.germination.final_fraction)
    best_emergence_ = std::max(best_emergence_, point.value);
  for (std::size_t member = 0; member < sums_.size(); ++member) add_sums(member);
}

void SowingJudge::add_sums(std::size_t member) {
  const auto& ensemble = weather_.ensemble();
  const auto& limits = crop_.limits;
  Sums& sums = sums_[member];
  for (auto* each : {&sums.germination_cd, &sums.growth_cd, &sums.organ_cd, &sums.long_day_cd, &sums.tmax_c,
                     &sums.vernal_days, &sums.tmean_c, &sums.soil_c, &sums.cold_days}) {
    each->reserve(ensemble.day_count + 1);
    each->push_back(0.0);
  }
  const auto add = [](std::vector<double>& sum, double value) { sum.push_back(sum.back() + value); };
  for (std::size_t d = 0; d < ensemble.day_count; ++d) {
    const std::size_t at = ensemble.at(member, d);
    const double lit = std::min(1.0, weather_.season().light_mj_m2()[at] / rules_.full_light_mj);
    const double growth = weather_.growth_cd()[at] * lit;
    const bool long_day =
        limits.bolt_day_length_h && weather_.season().day_length_h()[d] >= *limits.bolt_day_length_h;
    add(sums.germination_cd, weather_.germination_cd()[at]);
    add(sums.growth_cd, growth);
    add(sums.organ_cd, growth * weather_.organ_day_share()[d]);
    add(sums.long_day_cd, long_day || (!limits.bolt_day_length_h && limits.vernal_days) ? growth : 0.0);
    add(sums.vernal_days, limits.vernal_days ? weather_.vernal_days()[at] : 0.0);
    add(sums.tmax_c, ensemble.tmax_c[at]);
    add(sums.tmean_c, ensemble.mean_c(at));
    add(sums.soil_c, weather_.season().soil_mean_c()[at]);
    add(sums.cold_days, cold_day(ensemble.mean_c(at)));
  }
  const auto& habit = crop_.sowing;
  const bool tender = limits.kill_seedling_c >= kTenderC;
  const double margin_k = tender ? rules_.tender_margin_k : rules_.frost_margin_k;
  const double coldest_c =
      habit.coldest_night_c ? habit.coldest_night_c->value : limits.kill_seedling_c + margin_k;
  sums.young_frost = next_frost(ensemble, member, coldest_c);
  sums.old_frost = next_frost(ensemble, member, limits.kill_mature_c + rules_.frost_margin_k);
}

double SowingJudge::mean(const std::vector<double>& sum, int from, int to) const {
  const int first = std::clamp(from, 0, days_ - 1);
  const int last = std::clamp(to, first + 1, days_);
  return risen(sum, first, last) / (last - first);
}

Judged SowingJudge::direct_sowing(std::size_t member, int day) const {
  const Sums& sums = sums_[member];
  const double soil_c = mean(sums.soil_c, day, day + kWeek);
  if (soil_c < crop_.limits.soil_min_sow_c + rules_.soil_margin_k) return {Limit::soil_too_cold};
  const bool warm = soil_c > crop_.germination.cardinal.optimum_low_c;
  const Judged unborn{warm ? Limit::soil_too_hot : Limit::soil_too_cold};
  if (crop::final_fraction_at(crop_, soil_c) < rules_.emergence_share * best_emergence_) return unborn;
  const int up = reached(sums.germination_cd, day, crop::half_emergence_cd(crop_));
  const double longest_days = rules_.emergence_days * (crop_.seed.planting_piece ? kPieceFactor : 1.0);
  if (!rests_in_ground(day) && up - day > longest_days) return unborn;
  return season(sums, day, up, 0.0);
}

Judged SowingJudge::setting_out(std::size_t member, int day) const {
  const Sums& sums = sums_[member];
  const double air_c = mean(sums.tmean_c, day, day + kWeek);
  if (air_c < crop_.nursery.set_out_min_temp_c + rules_.set_out_margin_k) return {Limit::no_safe_set_out};
  return season(sums, day, day,
                std::max(0.0, crop_.nursery.ready_thermal_time_cd - crop_.nursery.transplant_check_cd));
}

SowingJudge::Stages SowingJudge::stages_of(const Sums& sums, int start, double age_cd) const {
  const auto& growth = crop_.growth;
  const int grown = reached(sums.growth_cd, start, growth.organ_start_cd - age_cd);
  if (grown >= days_) return {kNever, kNever};
  // Days of the right length start the organ; once started it goes on.
  Stages stages;
  stages.organ = reached(sums.organ_cd, grown, kOrganStartedCd);
  if (stages.organ >= days_) return {kNever, kNever};
  const double ahead_cd = std::max(0.0, age_cd - growth.organ_start_cd);
  stages.maturity = reached(sums.growth_cd, stages.organ, maturity_cd_ - growth.organ_start_cd - ahead_cd);
  return stages;
}

// Everything after the plants stand in the bed, `age_cd` old, from the day they were sown or set out.
Judged SowingJudge::season(const Sums& sums, int day, int start, double age_cd) const {
  if (start >= days_) return {Limit::season_too_short};
  if (const Limit spoilt = young(sums, day, start); spoilt != Limit::none) return {spoilt};
  const Stages stages = stages_of(sums, start, age_cd);
  if (stages.maturity >= days_) return {Limit::season_too_short};
  return {season_limit(sums, day, start, age_cd, stages), stages.maturity - start,
          picking_cd(sums, start, stages)};
}

Limit SowingJudge::young(const Sums& sums, int day, int start) const {
  const auto& longest = crop_.sowing.autumn_day_length_h;
  const bool autumn = crop_.sowing.overwinters && days_shorten(day);
  if (autumn && longest && weather_.season().day_length_h()[static_cast<std::size_t>(day)] > *longest)
    return Limit::day_length;
  if (sums.young_frost[static_cast<std::size_t>(start)] - start <= rules_.frost_days) return Limit::frost;
  return mean(sums.tmax_c, start, start + kTwoWeeks) > young_heat_c_ ? Limit::heat : Limit::none;
}

Limit SowingJudge::season_limit(const Sums& sums, int day, int start, double age_cd,
                                const Stages& stages) const {
  if (bulbs_late(sums, start, age_cd, stages)) return Limit::day_length;
  if (lacks_cold(sums, day, stages)) return Limit::season_too_short;
  const int end = stages.maturity + picking_days(sums, stages);
  if (sums.old_frost[static_cast<std::size_t>(start)] < end) return Limit::frost;
  const bool autumn = crop_.sowing.overwinters && days_shorten(day);
  if (const Limit slow = pace(sums, autumn, start, age_cd, stages); slow != Limit::none) return slow;
  if (bolts(sums, start, age_cd, stages)) return Limit::bolting;
  return too_hot(sums, start, stages) ? Limit::heat : Limit::none;
}

// Cloves planted in autumn root, lie through the winter and show when it ends.
bool SowingJudge::rests_in_ground(int day) const {
  return crop_.seed.planting_piece && crop_.sowing.overwinters && days_shorten(day);
}

// Cloves without a winter behind them do not part into new ones.
bool SowingJudge::lacks_cold(const Sums& sums, int day, const Stages& stages) const {
  return crop_.seed.planting_piece && crop_.sowing.overwinters &&
         risen(sums.cold_days, day, stages.organ) < rules_.clove_cold_days;
}

// Between the longest and the shortest day; never at the equator, where days do not change.
bool SowingJudge::days_shorten(int day) const {
  const auto& hours = weather_.season().day_length_h();
  const auto next = static_cast<std::size_t>(day) + 1;
  return hours[next] < hours[next - 1];
}

// Bulbs of long-day crops that begin well after the longest day, or on plants with few leaves, stay small.
bool SowingJudge::bulbs_late(const Sums& sums, int start, double age_cd, const Stages& stages) const {
  constexpr int kAroundDays = 20;  // as long as so many days ago: ten days after the longest day (chosen)
  constexpr double kShorterHours = 0.3;  // near the equator days tell nothing (chosen)
  if (crop_.harvest.part != crop::HarvestedPart::bulb ||
      crop_.place.day_length != crop::DayLengthClass::long_day)
    return false;
  const auto& leaves = crop_.sowing.leaf_growth_cd;
  if (leaves && age_cd + risen(sums.growth_cd, start, stages.organ) < *leaves) return true;
  if (stages.organ < kAroundDays) return false;
  const auto& hours = weather_.season().day_length_h();
  const auto organ = static_cast<std::size_t>(stages.organ);
  return hours[organ] < hours[organ - kAroundDays] - kShorterHours;
}

// Thermal time over which fruit or pods can be picked: to the first killing night or the end of the plants.
double SowingJudge::picking_cd(const Sums& sums, int start, const Stages& stages) const {
  if (crop_.harvest.style != crop::HarvestStyle::picked || !crop_.sowing.picking_here) return 0.0;
  const int end = std::min(
      {days_, sums.old_frost[static_cast<std::size_t>(start)], stages.maturity + kLongestPickingDays});
  if (end <= stages.maturity) return 0.0;
  const double lasts_cd =
      std::max<double>(crop_.harvest.picking_days, crop_.growth.decline_cd - maturity_cd_);
  return std::min(lasts_cd, risen(sums.growth_cd, stages.maturity, end));
}

// Days of picking without which a picked crop is not worth its ground.
int SowingJudge::picking_days(const Sums& sums, const Stages& stages) const {
  if (crop_.harvest.style != crop::HarvestStyle::picked) return 0;
  const double wanted_cd =
      std::min(rules_.picking_enough_cd, rules_.picking_share * crop_.harvest.picking_days);
  const int end = reached(sums.growth_cd, stages.maturity, wanted_cd);
  return std::min(end, days_) - stages.maturity;
}

Limit SowingJudge::pace(const Sums& sums, bool autumn, int start, double age_cd, const Stages& stages) const {
  const auto& habit = crop_.sowing;
  const double taken = stages.maturity - start;
  const double full = std::max(1.0, (maturity_cd_ - age_cd) / full_rate_cd_);
  const double longest = habit.slowest.value_or(general(rules_.slowest)) * full + rules_.slowest_days;
  if (taken > (autumn ? std::max(longest, kLongestWinterDays) : longest)) return Limit::season_too_short;
  if (mean(sums.growth_cd, stages.maturity - kThreeWeeks, stages.maturity) <
      habit.closing_share.value_or(general(rules_.closing_share)) * full_rate_cd_)
    return Limit::season_too_short;
  if (!autumn && mean(sums.growth_cd, start, start + kThreeWeeks) <
                     habit.start_share.value_or(general(rules_.start_share)) * full_rate_cd_)
    return Limit::soil_too_cold;
  return Limit::none;
}

// Heat spoils flowers and the setting of tubers early in the filling, and heads, leaves and roots at its end.
bool SowingJudge::too_hot(const Sums& sums, int start, const Stages& stages) const {
  const auto part = crop_.harvest.part;
  if (part == crop::HarvestedPart::bulb) return false;  // ripens in heat
  const bool early = crop_.harvest.style == crop::HarvestStyle::picked ||
                     part == crop::HarvestedPart::tuber || part == crop::HarvestedPart::fruit;
  const int from = early ? stages.organ : std::max(start, stages.maturity - rules_.heat_before_days);
  const int to = early ? stages.organ + rules_.set_days : stages.maturity + rules_.heat_after_days;
  const double margin_k = early ? rules_.set_heat_margin_k : rules_.heat_margin_k;
  const auto& hottest = crop_.sowing.hottest_c;
  const double heat_c =
      std::max(mean(sums.tmax_c, from, to), mean(sums.tmean_c, from, to) + rules_.warm_night_k);
  if (heat_c > (hottest ? hottest->value : crop_.limits.damage_hot_c + margin_k)) return true;
  const auto& cooling = crop_.sowing.autumn_hottest_c;
  return cooling && heat_c > *cooling && cools(sums, from + kMidHarvestDays);
}

// Whether the month after the day is cooler than the month before it.
bool SowingJudge::cools(const Sums& sums, int day) const {
  constexpr int kMonth = 30;
  return mean(sums.tmax_c, day, day + kMonth) < mean(sums.tmax_c, day - kMonth, day);
}

bool SowingJudge::bolts(const Sums& sums, int start, double age_cd, const Stages& stages) const {
  const auto& limits = crop_.limits;
  if (!limits.vernal_days && !limits.bolt_day_length_h) return false;
  const bool bulb = crop_.harvest.part == crop::HarvestedPart::bulb;
  int induced = start;
  double bolts_at_cd = rules_.bolting_share * crop_.growth.maturity_cd;
  if (limits.vernal_days) {
    const int grown = reached(sums.growth_cd, start, kJuvenileShare * crop_.growth.maturity_cd - age_cd);
    if (grown >= days_) return false;
    induced = reached(sums.vernal_days, grown, *limits.vernal_days);
    if (bulb) return induced < stages.organ;  // a bulb that has begun runs up no more
    if (induced >= days_) return false;
    bolts_at_cd = kBoltingCd;
  }
  if (bulb) return false;
  return reached(sums.long_day_cd, induced, bolts_at_cd) < stages.maturity;
}

}  // namespace sowtide::stand::detail
