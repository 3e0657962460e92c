#include "stand/nursery.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/quantile.hpp"
#include "crop/emergence.hpp"
#include "stand/detail/constants.hpp"
#include "stand/simulate.hpp"
#include "stand/told_emergence.hpp"

namespace sowtide::stand {
namespace {

using base::Date;
using base::Days;
using base::ProblemCode;

constexpr double kNarrowestMm = 5.0;
constexpr double kWidestMm = 500.0;
constexpr double kPotStepMm = 10.0;
using detail::kJuvenileShare;
using detail::kSafeFrostShare;
constexpr int kLongestTrayDays = 300;
constexpr int kPotBeforeDays = 7;  // roots hold the ball, and are not yet wound round it (common practice)
constexpr int kWeek = 7;
constexpr double kLikely = 0.5;

/// Days from the ensemble's first on which a member's seedlings reach each stage; -1 is never.
struct TrayLife {
  int up = -1, earliest = -1, best = -1, root_bound = -1, bolting = -1;
};

/// The weeks in a tray of one member after another.
class Nursery {
 public:
  Nursery(const CropWeather& weather, const StandFacts& facts, const NurserySpot& spot, std::size_t sown)
      : weather_(weather),
        crop_(weather.crop()),
        facts_(facts),
        spot_(spot),
        sown_(sown),
        end_(std::min(weather.ensemble().day_count, sown + kLongestTrayDays)),
        ages_(seedling_ages(weather.crop(), spot.cell_width_mm)) {
    const auto& n = crop_.nursery;
    least_fit_cd_ =
        std::min(ages_.fit_cd, n.ready_thermal_time_cd.low.value_or(n.ready_thermal_time_cd.value));
  }

  [[nodiscard]] TrayLife life(std::size_t member) const {
    TrayLife life;
    life.up = emergence(member);
    if (life.up < 0) return life;
    double age_cd = 0.0;
    double vernal = 0.0;
    int least_fit = -1;
    int fit = -1;
    for (auto day = static_cast<std::size_t>(life.up); day < end_; ++day) {
      const int today = static_cast<int>(day);
      age_cd += growth_cd(member, day);
      vernal += vernal_days(member, day, age_cd);
      if (least_fit < 0 && age_cd >= least_fit_cd_) least_fit = today;
      if (fit < 0 && age_cd >= ages_.fit_cd) fit = today;
      if (life.root_bound < 0 && age_cd >= ages_.root_bound_cd) life.root_bound = today;
      if (life.bolting < 0 && crop_.limits.vernal_days && vernal >= *crop_.limits.vernal_days)
        life.bolting = today;
      if (!mild(member, day)) continue;
      if (life.earliest < 0 && hardened(least_fit, today)) life.earliest = today;
      if (life.best < 0 && hardened(fit, today)) life.best = today;
    }
    return life;
  }

  /// Age of a member's seedlings on a day, °C d; 0 before they are up.
  [[nodiscard]] double age_on(std::size_t member, int up, std::size_t day) const {
    double age_cd = 0.0;
    if (up < 0) return age_cd;
    for (auto d = static_cast<std::size_t>(up); d <= day && d < weather_.ensemble().day_count; ++d)
      age_cd += growth_cd(member, d);
    return age_cd;
  }

 private:
  [[nodiscard]] double air_c(std::size_t member, std::size_t day) const {
    const auto& e = weather_.ensemble();
    const std::size_t at = e.at(member, day);
    return e.mean_c(at);
  }
  [[nodiscard]] double growth_cd(std::size_t member, std::size_t day) const {
    return weather_.growth_cd_at(seedling_c_in_place(spot_.raising, air_c(member, day)));
  }
  [[nodiscard]] bool hardened(int fit, int today) const {
    return fit >= 0 && today >= fit + static_cast<int>(std::lround(crop_.nursery.hardening_days.value));
  }
  [[nodiscard]] bool mild(std::size_t member, std::size_t day) const {
    return weather_.season().week_mean_c()[weather_.ensemble().at(member, day)] >=
               crop_.nursery.set_out_min_temp_c &&
           weather_.frost_ahead()[day] <= kSafeFrostShare;
  }
  /// Cold counts out of doors only, and after the juvenile weeks.
  [[nodiscard]] double vernal_days(std::size_t member, std::size_t day, double age_cd) const {
    if (is_inside(spot_.raising.place) || weather_.vernal_days().empty()) return 0.0;
    if (age_cd < kJuvenileShare * crop_.growth.maturity_cd) return 0.0;
    return weather_.vernal_days()[weather_.ensemble().at(member, day)];
  }

  [[nodiscard]] int emergence(std::size_t member) const {
    const double half_cd = crop::half_emergence_cd(crop_);
    double sum_cd = 0.0;
    int expected_day = -1, slow_day = -1;
    for (std::size_t day = sown_; day < end_ && slow_day < 0; ++day) {
      sum_cd += weather_.germination_cd_at(seed_c_in_place(spot_.raising, air_c(member, day)));
      if (expected_day < 0 && sum_cd >= half_cd) expected_day = static_cast<int>(day);
      if (sum_cd >= slow_lot_factor() * half_cd) slow_day = static_cast<int>(day);
    }
    const auto told = told_emergence(facts_, weather_.ensemble().first, expected_day, slow_day);
    return told ? told->day : expected_day;
  }

  const CropWeather& weather_;
  const crop::Crop& crop_;
  const StandFacts& facts_;
  const NurserySpot& spot_;
  std::size_t sown_, end_;
  SeedlingAges ages_;
  double least_fit_cd_ = 0.0;
};

EventOutlook event_of(std::string name, const std::vector<TrayLife>& lives, int TrayLife::*stage,
                      Date first) {
  EventOutlook event{.name = std::move(name)};
  std::vector<double> days;
  for (const TrayLife& life : lives) {
    if (life.*stage >= 0) days.push_back(life.*stage);
  }
  event.probability =
      static_cast<double>(days.size()) / static_cast<double>(std::max<std::size_t>(1, lives.size()));
  if (days.empty()) return event;
  std::sort(days.begin(), days.end());
  const auto date = [&](double p) {
    return first + Days{static_cast<int>(std::lround(base::quantile_of_sorted(days, p)))};
  };
  event.p10 = date(0.1);
  event.p50 = date(0.5);
  event.p90 = date(0.9);
  return event;
}

/// The event that ends a seedling's good time: the roots, or the cold where that comes first in most years.
void find_latest(NurseryOutlook& out, std::vector<TrayLife>& lives, Date first) {
  std::size_t bolting_first = 0;
  for (TrayLife& life : lives) {
    if (life.bolting >= 0 && (life.root_bound < 0 || life.bolting < life.root_bound)) {
      ++bolting_first;
      life.root_bound = life.bolting;
    }
  }
  out.latest = event_of("latest", lives, &TrayLife::root_bound, first);
  if (2 * bolting_first > lives.size()) out.latest_reason = TooOld::bolting;
}

/// Age that nine years in ten do not exceed on a day.
double old_age_on(const Nursery& nursery, const std::vector<TrayLife>& lives, std::size_t day) {
  std::vector<double> ages;
  for (std::size_t m = 0; m < lives.size(); ++m) ages.push_back(nursery.age_on(m, lives[m].up, day));
  std::sort(ages.begin(), ages.end());
  return base::quantile_of_sorted(ages, 0.9);
}

void judge(NurseryOutlook& out, const crop::Crop& crop, const StandFacts& facts, double age_at_set_out_cd,
           Date today) {
  if (!crop.nursery.can_transplant) {
    out.verdict = NurseryVerdict::sow_in_place;
    return;
  }
  if (!out.set_out || (!out.set_out_decided && out.best.probability < kLikely)) {
    out.verdict = NurseryVerdict::no_safe_day;
    return;
  }
  if (facts.set_out) return;
  if (out.latest.probability >= kLikely && *out.set_out > out.latest.p50) {
    const double width_mm = width_that_holds_mm(crop, age_at_set_out_cd);
    if (out.latest_reason == TooOld::bolting || width_mm > kWidestPotMm) {
      out.verdict = NurseryVerdict::outgrown;
      return;
    }
    out.pot_on = PottingOn{std::max(out.up.p50 + Days{kPotBeforeDays}, out.latest.p50 - Days{kPotBeforeDays}),
                           out.latest.p50, width_mm};
  }
  if (out.latest.probability >= kLikely && today > out.latest.p50) {
    out.verdict = NurseryVerdict::late;
  } else if (out.set_out_decided && (out.earliest.probability < kLikely || *out.set_out < out.earliest.p10)) {
    out.verdict = NurseryVerdict::too_early;
  }
}

}  // namespace

std::string_view nursery_verdict_text(NurseryVerdict verdict) noexcept {
  constexpr std::array<std::string_view, 6> kWords{"in-time",     "too-early", "late",
                                                   "no-safe-day", "outgrown",  "sow-in-place"};
  return kWords[static_cast<std::size_t>(verdict)];
}

SeedlingAges seedling_ages(const crop::Crop& crop, double cell_width_mm) {
  const auto& n = crop.nursery;
  const double longer_cd =
      3.0 * std::log(cell_width_mm / n.cell_width_mm) / crop.growth.early_relative_rate_per_cd;
  return {n.ready_thermal_time_cd,
          std::max(0.5 * n.ready_thermal_time_cd, n.latest_thermal_time_cd + longer_cd)};
}

double width_that_holds_mm(const crop::Crop& crop, double age_cd) {
  const double longer_cd = age_cd - crop.nursery.latest_thermal_time_cd;
  const double width_mm =
      crop.nursery.cell_width_mm * std::exp(crop.growth.early_relative_rate_per_cd * longer_cd / 3.0);
  return kPotStepMm * std::ceil(width_mm / kPotStepMm - 1e-9);
}

base::Result<NurseryOutlook> nursery_outlook(const CropWeather& weather, const StandPlan& plan,
                                             const StandFacts& facts, const NurserySpot& spot, Date today) {
  const auto& ensemble = weather.ensemble();
  const auto day = (facts.sown.value_or(plan.sow) - ensemble.first).count();
  if (day < 0 || static_cast<std::size_t>(day) >= ensemble.day_count) {
    return base::fail(ProblemCode::out_of_range, fmt::format("stand {} is sown outside the weather", plan.id),
                      {.field = "sow"}, "Make an ensemble that holds the sowing");
  }
  if (!(spot.cell_width_mm >= kNarrowestMm && spot.cell_width_mm <= kWidestMm)) {
    return base::fail(ProblemCode::out_of_range,
                      fmt::format("{} mm is not the width of a cell", spot.cell_width_mm),
                      {.field = "cell_width_mm"}, "Give a width from 5 to 500 mm");
  }
  const Nursery nursery(weather, facts, spot, static_cast<std::size_t>(day));
  std::vector<TrayLife> lives;
  for (std::size_t m = 0; m < ensemble.member_count; ++m) lives.push_back(nursery.life(m));

  NurseryOutlook out;
  out.up = event_of("up", lives, &TrayLife::up, ensemble.first);
  out.earliest = event_of("earliest", lives, &TrayLife::earliest, ensemble.first);
  out.best = event_of("best", lives, &TrayLife::best, ensemble.first);
  find_latest(out, lives, ensemble.first);
  out.set_out = facts.set_out ? facts.set_out : plan.set_out;
  out.set_out_decided = out.set_out.has_value();
  if (!out.set_out && out.best.probability > 0.0) out.set_out = out.best.p50;
  double age_cd = 0.0;
  if (out.set_out) {
    out.harden_from =
        *out.set_out - Days{static_cast<int>(std::lround(weather.crop().nursery.hardening_days.value))};
    const auto last = std::max<std::int64_t>(0, (*out.set_out - ensemble.first).count());
    age_cd = old_age_on(nursery, lives, static_cast<std::size_t>(last));
  }
  judge(out, weather.crop(), facts, age_cd, today);
  return out;
}

base::Result<std::vector<LateSetOut>> cost_of_setting_out_late(const CropWeather& weather,
                                                               const StandPlan& plan, const StandFacts& facts,
                                                               const RaisingPlace& raising,
                                                               const BedPlace& bed, Date on_time,
                                                               int most_weeks) {
  StandFacts set_out = facts;
  std::vector<LateSetOut> costs;
  const SimulationOptions options{.bed = bed};
  const Date end = weather.ensemble().first + Days{static_cast<int>(weather.ensemble().day_count)};
  for (int week = 0; week <= most_weeks; ++week) {
    LateSetOut cost{.weeks_late = week, .set_out = on_time + Days{kWeek * week}};
    if (cost.set_out >= end) break;
    // As if it were done: a plan that waits so long in the cell counts as failed, seedlings set out do not.
    set_out.set_out = cost.set_out;
    const auto lived = outlook(weather, plan, set_out, raising, options);
    if (!lived) return tl::unexpected(lived.error());
    cost.success = lived->success;
    for (const double grams : lived->members.weekly_g) cost.harvest_g += grams;
    cost.harvest_g /= static_cast<double>(std::max<std::size_t>(1, lived->members.member_count));
    costs.push_back(cost);
  }
  return costs;
}

}  // namespace sowtide::stand
