#include "stand/detail/sowing_judge.hpp"

#include <algorithm>

#include "crop/emergence.hpp"

namespace sowtide::stand::detail {
namespace {

constexpr int kNever = 1 << 20;
constexpr int kWeek = 7;
constexpr int kThreeWeeks = 21;
constexpr int kTwoWeeks = 14;
constexpr double kLongestWinterDays = 300.0;  // from autumn sowing to harvest (chosen)
constexpr double kJuvenileShare = 0.25;       // as in the stand's life (docs/models/stand.md)
constexpr double kBoltingCd = 250.0;          // the same
constexpr double kPieceFactor = 2.0;          // tubers and cloves lie longer unharmed than seed (chosen)
constexpr double kPiecesPerGram = 0.5;        // fewer in a gram: a tuber or a clove, no seed
constexpr double kTenderC = -1.0;             // seedlings that die in a light frost
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
  piece_ = crop_.seed.seeds_per_gram < kPiecesPerGram;
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
                     &sums.vernal_days, &sums.tmean_c, &sums.soil_c}) {
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
    add(sums.tmean_c, 0.5 * (ensemble.tmin_c[at] + ensemble.tmax_c[at]));
    add(sums.soil_c, weather_.season().soil_mean_c()[at]);
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

Limit SowingJudge::direct_sowing(std::size_t member, int day) const {
  const Sums& sums = sums_[member];
  const double soil_c = mean(sums.soil_c, day, day + kWeek);
  if (soil_c < crop_.limits.soil_min_sow_c + rules_.soil_margin_k) return Limit::soil_too_cold;
  const bool warm = soil_c > crop_.germination.cardinal.optimum_low_c;
  if (crop::final_fraction_at(crop_, soil_c) < rules_.emergence_share * best_emergence_)
    return warm ? Limit::soil_too_hot : Limit::soil_too_cold;
  const double soil_factor = crop_.germination.soil_factor ? crop_.germination.soil_factor->value : 1.0;
  const int up = reached(sums.germination_cd, day, soil_factor * crop_.germination.thermal_time_50_cd);
  if (up - day > rules_.emergence_days * (piece_ ? kPieceFactor : 1.0))
    return warm ? Limit::soil_too_hot : Limit::soil_too_cold;
  return season(sums, up, 0.0);
}

Limit SowingJudge::setting_out(std::size_t member, int day) const {
  const Sums& sums = sums_[member];
  const double air_c = mean(sums.tmean_c, day, day + kWeek);
  if (air_c < crop_.nursery.set_out_min_temp_c + rules_.set_out_margin_k) return Limit::no_safe_set_out;
  return season(sums, day,
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

// Everything after the plants stand in the bed, `age_cd` old.
Limit SowingJudge::season(const Sums& sums, int start, double age_cd) const {
  if (start >= days_) return Limit::season_too_short;
  if (sums.young_frost[static_cast<std::size_t>(start)] - start <= rules_.frost_days) return Limit::frost;
  if (mean(sums.tmax_c, start, start + kTwoWeeks) > crop_.limits.damage_hot_c + rules_.young_heat_margin_k)
    return Limit::heat;
  const Stages stages = stages_of(sums, start, age_cd);
  if (stages.maturity >= days_ || bulbs_late(stages)) return Limit::season_too_short;
  const int end = stages.maturity + picking_days(sums, stages);
  if (sums.old_frost[static_cast<std::size_t>(start)] < end) return Limit::frost;
  if (const Limit slow = pace(sums, start, age_cd, stages); slow != Limit::none) return slow;
  if (bolts(sums, start, age_cd, stages)) return Limit::bolting;
  return too_hot(sums, start, stages) ? Limit::heat : Limit::none;
}

// Bulbs of long-day crops that begin well after the longest day stay small: the days run away from them.
bool SowingJudge::bulbs_late(const Stages& stages) const {
  constexpr int kAroundDays = 20;        // as long as so many days ago: ten days after the longest day
  constexpr double kShorterHours = 0.3;  // near the equator days tell nothing
  if (crop_.harvest.part != crop::HarvestedPart::bulb ||
      crop_.place.day_length != crop::DayLengthClass::long_day)
    return false;
  if (stages.organ < kAroundDays) return false;
  const auto& hours = weather_.season().day_length_h();
  const auto organ = static_cast<std::size_t>(stages.organ);
  return hours[organ] < hours[organ - kAroundDays] - kShorterHours;
}

// Days of picking without which a picked crop is not worth its ground.
int SowingJudge::picking_days(const Sums& sums, const Stages& stages) const {
  if (crop_.harvest.style != crop::HarvestStyle::picked) return 0;
  const double wanted_cd =
      std::min(rules_.picking_enough_cd, rules_.picking_share * crop_.harvest.picking_days);
  const int end = reached(sums.growth_cd, stages.maturity, wanted_cd);
  return std::min(end, days_) - stages.maturity;
}

Limit SowingJudge::pace(const Sums& sums, int start, double age_cd, const Stages& stages) const {
  const auto& habit = crop_.sowing;
  const double taken = stages.maturity - start;
  const double full = std::max(1.0, (maturity_cd_ - age_cd) / full_rate_cd_);
  const double longest = habit.slowest.value_or(general(rules_.slowest)) * full + rules_.slowest_days;
  if (taken > (crop_.sowing.overwinters ? std::max(longest, kLongestWinterDays) : longest))
    return Limit::season_too_short;
  if (mean(sums.growth_cd, stages.maturity - kThreeWeeks, stages.maturity) <
      habit.closing_share.value_or(general(rules_.closing_share)) * full_rate_cd_)
    return Limit::season_too_short;
  if (!crop_.sowing.overwinters &&
      mean(sums.growth_cd, start, start + kThreeWeeks) <
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
  return heat_c > (hottest ? hottest->value : crop_.limits.damage_hot_c + margin_k);
}

bool SowingJudge::bolts(const Sums& sums, int start, double age_cd, const Stages& stages) const {
  const auto& limits = crop_.limits;
  if (!limits.vernal_days && !limits.bolt_day_length_h) return false;
  if (crop_.harvest.part == crop::HarvestedPart::bulb && stages.organ < kNever) return false;
  int induced = start;
  double bolts_at_cd = rules_.bolting_share * crop_.growth.maturity_cd;
  if (limits.vernal_days) {
    const int grown = reached(sums.growth_cd, start, kJuvenileShare * crop_.growth.maturity_cd - age_cd);
    if (grown >= days_) return false;
    induced = reached(sums.vernal_days, grown, *limits.vernal_days);
    if (induced >= days_) return false;
    bolts_at_cd = kBoltingCd;
  }
  return reached(sums.long_day_cd, induced, bolts_at_cd) < stages.maturity;
}

}  // namespace sowtide::stand::detail
