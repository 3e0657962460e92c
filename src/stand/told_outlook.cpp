#include "stand/told_outlook.hpp"

namespace sowtide::stand {
namespace {

EventOutlook told_event(const char* name, const std::optional<base::Date>& day) {
  EventOutlook event{.name = name, .probability = day ? 1.0 : 0.0};
  if (day) event.p10 = event.p50 = event.p90 = *day;
  return event;
}

/// The last day on which something of it went to the kitchen.
std::optional<base::Date> last_picked(const StandFacts& facts) {
  std::optional<base::Date> last;
  for (const PlantsTaken& taken : facts.taken) {
    if (taken.largest) last = taken.date;
  }
  return last;
}

void add_weighed(const StandFacts& facts, Outlook& out) {
  for (const PlantsTaken& taken : facts.taken) {
    if (!taken.grams || taken.leaves || out.weeks.empty() || taken.date < out.weeks.front().week_start)
      continue;
    const auto week = static_cast<std::size_t>((taken.date - out.weeks.front().week_start).count() / 7);
    if (week >= out.weeks.size()) continue;
    base::Quantiles& weight_g = out.weeks[week].weight_g;
    weight_g.p10 = weight_g.p50 = weight_g.p90 = weight_g.p50 + *taken.grams;
  }
}

}  // namespace

Outlook told_outlook(const StandPlan& plan, const StandFacts& facts,
                     const climate::WeatherEnsemble& weather) {
  constexpr base::Days kWeek{7};
  constexpr int kNever = -1;
  Outlook out;
  out.stand = plan.id;
  out.events.push_back(told_event("emerge", facts.emerged));
  if (plan.method == Method::start_indoors) out.events.push_back(told_event("set-out", facts.set_out));
  out.events.push_back(told_event("first-pick", facts.first_picked));
  out.events.push_back(told_event("last-pick", last_picked(facts)));
  const base::Date end = weather.first + base::Days{static_cast<int>(weather.day_count)};
  for (base::Date monday = base::week_start(weather.first + kWeek - base::Days{1}); monday < end;
       monday += kWeek)
    out.weeks.push_back({.week_start = monday});
  add_weighed(facts, out);
  out.members.member_count = weather.member_count;
  out.members.from = weather.first;
  out.members.week_count = out.weeks.size();
  out.members.weekly_g.assign(weather.member_count * out.weeks.size(), 0.0);
  for (auto* days : {&out.members.emerge_day, &out.members.set_out_day, &out.members.first_pick_day,
                     &out.members.last_pick_day, &out.members.killed_day, &out.members.grown_day})
    days->assign(weather.member_count, kNever);
  out.success = facts.first_picked ? 1.0 : 0.0;
  return out;
}

}  // namespace sowtide::stand
