#include "stand/outlook.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace {

base::Quantiles quantiles_in_place(std::vector<double>& sample) {
  std::sort(sample.begin(), sample.end());
  return {base::quantile_of_sorted(sample, 0.1), base::quantile_of_sorted(sample, 0.5),
          base::quantile_of_sorted(sample, 0.9)};
}

EventOutlook event_of(std::string name, const std::vector<int>& days, base::Date first) {
  EventOutlook event;
  event.name = std::move(name);
  std::vector<double> sample;
  for (const int day : days) {
    if (day >= 0) sample.push_back(day);
  }
  event.probability =
      static_cast<double>(sample.size()) / static_cast<double>(std::max<std::size_t>(1, days.size()));
  if (sample.empty()) return event;
  const auto q = quantiles_in_place(sample);
  const auto date = [&](double day) { return first + base::Days{static_cast<int>(std::lround(day))}; };
  event.p10 = date(q.p10);
  event.p50 = date(q.p50);
  event.p90 = date(q.p90);
  return event;
}

/// Half up: over the weather years and, in each, over seed lots that differ; its chance is that of the years.
EventOutlook emergence_of(const StandLives& lives, base::Date first) {
  std::vector<int> days;
  std::size_t years = 0;
  for (const MemberLife& life : lives.members) {
    days.insert(days.end(), life.lot_emerge_day.begin(), life.lot_emerge_day.end());
    years += life.emerge_day >= 0 ? 1U : 0U;
  }
  EventOutlook event = event_of("emerge", days, first);
  event.probability =
      static_cast<double>(years) / static_cast<double>(std::max<std::size_t>(1, lives.members.size()));
  return event;
}

void observed(EventOutlook& event, const std::optional<base::Date>& date) {
  if (!date) return;
  event.p10 = event.p50 = event.p90 = *date;
  event.probability = 1.0;
}

/// Offset in days from the ensemble's first day to its first Monday.
std::size_t first_monday(base::Date first) {
  const auto days = (first - base::week_start(first)).count();
  return days == 0 ? 0 : static_cast<std::size_t>(7 - days);
}

/// What a member takes in each week, of the days from `from` on: index m * weeks + w.
std::vector<double> weekly_g(const StandLives& lives, std::size_t monday, std::size_t weeks,
                             std::size_t from) {
  std::vector<double> grams(lives.members.size() * weeks, 0.0);
  for (std::size_t m = 0; m < lives.members.size(); ++m) {
    for (std::size_t day = std::max({lives.first_day, monday, from}); day < lives.first_day + lives.day_count;
         ++day)
      grams[m * weeks + (day - monday) / 7] += lives.taken_g[m * lives.day_count + day - lives.first_day];
  }
  return grams;
}

MemberTable member_table(const StandLives& lives, const climate::WeatherEnsemble& ensemble,
                         const StandFacts& facts) {
  MemberTable table;
  const std::size_t monday = first_monday(ensemble.first);
  table.member_count = lives.members.size();
  table.week_count = ensemble.day_count > monday ? (ensemble.day_count - monday + 6) / 7 : 0;
  table.from = std::max(ensemble.first, facts.log_to.value_or(ensemble.first));
  table.weekly_g = weekly_g(lives, monday, table.week_count,
                            static_cast<std::size_t>((table.from - ensemble.first).count()));
  for (const MemberLife& life : lives.members) {
    table.emerge_day.push_back(life.emerge_day);
    table.set_out_day.push_back(life.set_out_day);
    table.first_pick_day.push_back(life.first_pick_day);
    table.last_pick_day.push_back(life.last_pick_day);
    table.killed_day.push_back(!life.success && life.limit == Limit::frost ? life.end_day : -1);
    table.grown_day.push_back(life.grown_day);
  }
  return table;
}

bool pickable_on(const MemberLife& life, int day) {
  return life.first_pick_day >= 0 && day >= life.first_pick_day && day <= life.last_pick_day;
}

void fill_weeks(Outlook& out, const StandLives& lives, base::Date first) {
  const auto& table = out.members;
  const std::size_t monday = first_monday(first);
  const double members = static_cast<double>(std::max<std::size_t>(1, table.member_count));
  std::vector<double> sample(table.member_count);
  const std::vector<double> grams = weekly_g(lives, monday, table.week_count, 0);
  out.weeks.resize(table.week_count);
  for (std::size_t w = 0; w < table.week_count; ++w) {
    auto& week = out.weeks[w];
    const int from = static_cast<int>(monday + 7 * w);
    week.week_start = first + base::Days{from};
    double ready = 0.0;
    double total = 0.0;
    for (std::size_t m = 0; m < table.member_count; ++m) {
      sample[m] = grams[m * table.week_count + w];
      total += sample[m];
      const auto& life = lives.members[m];
      if (life.first_pick_day >= 0 && life.first_pick_day < from + 7 && life.last_pick_day >= from)
        ready += 1.0;
    }
    week.ready_probability = ready / members;
    if (total > 0.0) week.weight_g = quantiles_in_place(sample);
  }
}

/// The fan ends with the last stand of any year, but not before the day that the log reaches to.
void fill_fan(Outlook& out, const StandLives& lives, const StandFacts& facts, base::Date first) {
  const auto& emerge = out.events.front();
  if (emerge.probability <= 0.0) return;
  const auto from = static_cast<std::size_t>(
      std::max<std::int64_t>(static_cast<std::int64_t>(lives.first_day), (emerge.p10 - first).count()));
  int last = -1;
  for (const auto& life : lives.members) last = std::max(last, std::max(life.end_day, life.last_pick_day));
  const std::size_t end = lives.first_day + lives.day_count;
  if (last >= 0 && facts.log_to) last = std::max(last, static_cast<int>((*facts.log_to - first).count()));
  const std::size_t to = last >= 0 ? std::min(end, static_cast<std::size_t>(last) + 1) : end;
  out.fan_first = first + base::Days{static_cast<int>(from)};
  const std::size_t members = lives.members.size();
  std::vector<double> sample(members);
  for (std::size_t day = from; day < to; ++day) {
    double ready = 0.0;
    for (std::size_t m = 0; m < members; ++m) {
      sample[m] = lives.plant_g[m * lives.day_count + (day - lives.first_day)];
      if (pickable_on(lives.members[m], static_cast<int>(day))) ready += 1.0;
    }
    out.plant_weight_g.push_back(quantiles_in_place(sample));
    out.ready_probability.push_back(ready / static_cast<double>(std::max<std::size_t>(1, members)));
  }
}

std::string limits_of(const StandLives& lives) {
  std::array<int, kLimits> count{};
  for (const auto& life : lives.members) {
    if (!life.success) ++count[static_cast<std::size_t>(life.limit)];
  }
  std::string text;
  while (true) {
    const auto most = std::max_element(count.begin() + 1, count.end());
    if (*most <= 0) break;
    if (!text.empty()) text += ", ";
    text += limit_text(static_cast<Limit>(most - count.begin()));
    *most = 0;
  }
  return text;
}

base::Result<void> check(const StandPlan& plan, const StandFacts& facts,
                         const climate::WeatherEnsemble& weather) {
  using base::ProblemCode;
  const base::Date sown = facts.sown.value_or(plan.sow);
  const auto day = (sown - weather.first).count();
  if (day < 0 || static_cast<std::size_t>(day) >= weather.day_count) {
    return base::fail(ProblemCode::out_of_range,
                      fmt::format("stand {} is sown on {}, outside the weather from {} over {} days", plan.id,
                                  base::to_iso(sown), base::to_iso(weather.first), weather.day_count),
                      {.field = "sow"}, "Put its day of sowing right, or take the stand out of the garden");
  }
  if (!(plan.spacing_mm > 0.0) || plan.spacing_mm > kWidestSpacingMm) {
    return base::fail(
        ProblemCode::out_of_range, fmt::format("stand {} has a spacing of {} mm", plan.id, plan.spacing_mm),
        {.field = "spacing_mm"}, fmt::format("Give a spacing above 0 and up to {:.0f} mm", kWidestSpacingMm));
  }
  if (plan.clumps < 0 || !(plan.plants_per_clump > 0.0) || plan.plants_per_clump > kMostPlantsPerClump) {
    return base::fail(
        ProblemCode::out_of_range,
        fmt::format("stand {} has {} clumps of {} plants", plan.id, plan.clumps, plan.plants_per_clump),
        {.field = "plants_per_clump"},
        fmt::format("Give clumps from 0 on, with more than 0 and up to {:.0f} plants in each",
                    kMostPlantsPerClump));
  }
  return {};
}

}  // namespace

Outlook outlook_of(const StandLives& lives, const CropWeather& weather, const StandPlan& plan,
                   const StandFacts& facts) {
  const auto& ensemble = weather.ensemble();
  Outlook out;
  out.stand = plan.id;
  out.members = member_table(lives, ensemble, facts);
  out.events.push_back(emergence_of(lives, ensemble.first));
  if (plan.method == Method::start_indoors) {
    out.events.push_back(event_of("set-out", out.members.set_out_day, ensemble.first));
    observed(out.events.back(), facts.set_out);
  }
  out.events.push_back(event_of("first-pick", out.members.first_pick_day, ensemble.first));
  observed(out.events.back(), facts.first_picked);
  out.events.push_back(event_of("last-pick", out.members.last_pick_day, ensemble.first));
  fill_weeks(out, lives, ensemble.first);
  fill_fan(out, lives, facts, ensemble.first);
  double successes = 0.0;
  for (const auto& life : lives.members) successes += life.success ? 1.0 : 0.0;
  out.success = successes / static_cast<double>(std::max<std::size_t>(1, lives.members.size()));
  out.limits = limits_of(lives);
  return out;
}

bool stands_in_ground(const crop::Crop& crop) noexcept {
  using enum crop::HarvestedPart;
  constexpr double kLightFrostC = -6.0;
  constexpr double kFarFromItsEndCd = 700.0;
  const crop::HarvestedPart part = crop.harvest.part;
  const bool pulled_once =
      crop.harvest.style == crop::HarvestStyle::once && part != bulb && part != tuber && part != fruit;
  const bool leaf_cut_again = crop.harvest.style == crop::HarvestStyle::repeat_cut;
  return (pulled_once || leaf_cut_again) && crop.limits.kill_mature_c <= kLightFrostC &&
         crop.growth.decline_cd - crop.growth.maturity_cd >= kFarFromItsEndCd;
}

bool waits_in_ground(const StandPlan& plan, const crop::Crop& crop) noexcept {
  return plan.pick_weeks > 0 && stands_in_ground(crop);
}

double row_distance_mm(const StandPlan& plan) noexcept {
  constexpr double kOffsetRows = 0.8660254037844386;  // √3/2
  if (plan.arrangement == Arrangement::offset) return kOffsetRows * plan.spacing_mm;
  return plan.arrangement == Arrangement::rows && plan.row_spacing_mm > 0.0 ? plan.row_spacing_mm
                                                                            : plan.spacing_mm;
}

const EventOutlook* expected_event(const Outlook& outlook, std::string_view name) noexcept {
  for (const EventOutlook& event : outlook.events) {
    if (event.name == name && event.probability > 0.0) return &event;
  }
  return nullptr;
}

bool is_grown(const Outlook& outlook, std::int64_t day) {
  const std::vector<int>& days = outlook.members.grown_day;
  const auto grown =
      std::count_if(days.begin(), days.end(), [day](int each) { return each >= 0 && each <= day; });
  return 2 * static_cast<std::size_t>(grown) >= days.size() && grown > 0;
}

base::Quantiles plant_on_g(const Outlook& outlook, base::Date day) noexcept {
  const auto at = (day - outlook.fan_first).count();
  const bool known = at >= 0 && at < std::ssize(outlook.plant_weight_g);
  return known ? outlook.plant_weight_g[static_cast<std::size_t>(at)] : base::Quantiles{};
}

std::vector<double> taken_ahead_g(const Outlook& outlook, base::Date day, int days) {
  const MemberTable& table = outlook.members;
  std::vector<double> grams(table.member_count, 0.0);
  const base::Date end = day + base::Days{days};
  for (std::size_t w = 0; w < std::min(outlook.weeks.size(), table.week_count); ++w) {
    const base::Date monday = outlook.weeks[w].week_start;
    const base::Date sunday_over = monday + base::Days{7};
    const base::Date counted_from = std::max(monday, table.from);
    const auto counted = (sunday_over - counted_from).count();
    const auto within = (std::min(end, sunday_over) - std::max(day, counted_from)).count();
    if (counted <= 0 || within <= 0) continue;
    const double share = static_cast<double>(within) / static_cast<double>(counted);
    for (std::size_t m = 0; m < table.member_count; ++m)
      grams[m] += share * table.weekly_g[m * table.week_count + w];
  }
  return grams;
}

base::Quantiles week_ahead_g(const Outlook& outlook, base::Date day) {
  constexpr int kWeekDays = 7;
  std::vector<double> grams = taken_ahead_g(outlook, day, kWeekDays);
  return grams.empty() ? base::Quantiles{} : base::quantiles(std::move(grams));
}

std::optional<RaisingPlace> raising_of(const StandPlan& plan, const bed::Tray* tray) {
  if (plan.method == Method::direct_sow) return std::nullopt;
  return tray == nullptr ? RaisingPlace{} : raising_in(*tray);
}

base::Result<Outlook> outlook(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
                              const std::optional<RaisingPlace>& raising, const SimulationOptions& options) {
  if (auto ok = check(plan, facts, weather.ensemble()); !ok) return tl::unexpected(ok.error());
  return outlook_of(simulate(weather, plan, facts, raising, options), weather, plan, facts);
}

base::Result<Outlook> outlook(const crop::Crop& crop, const StandPlan& plan, const StandFacts& facts,
                              const std::optional<RaisingPlace>& raising,
                              const climate::WeatherEnsemble& weather, std::uint64_t seed) {
  const CropWeather crop_weather(crop, std::make_shared<const SeasonWeather>(weather));
  SimulationOptions options;
  options.seed = seed;
  return outlook(crop_weather, plan, facts, raising, options);
}

}  // namespace sowtide::stand
