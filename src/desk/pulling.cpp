#include "desk/pulling.hpp"

#include <algorithm>

#include "desk/print/moments.hpp"

namespace sowtide::desk {
namespace {

constexpr double kReadyChance = 0.5;

/// The day of the first picking, seen or expected; nothing where none is expected.
std::optional<base::Date> first_pick(const book::StandState& state, const stand::Outlook& outlook) {
  if (state.facts.first_picked) return state.facts.first_picked;
  const stand::EventOutlook* first = expected_event(outlook, "first-pick");
  return first == nullptr ? std::nullopt : std::optional(first->p50);
}

/// What an average plant weighs on a day, in the middle year; 0 on days that the fan does not hold.
double plant_g(const stand::Outlook& outlook, base::Date day) {
  const auto at = (day - outlook.fan_first).count();
  const bool known = at >= 0 && at < std::ssize(outlook.plant_weight_g);
  return known ? outlook.plant_weight_g[static_cast<std::size_t>(at)].p50 : 0.0;
}

}  // namespace

std::optional<base::Date> pulled_from(const book::StandState& state, const stand::Outlook& outlook) {
  const auto first = first_pick(state, outlook);
  if (!state.plan.pick_from) return first;
  return std::max(*state.plan.pick_from, first.value_or(*state.plan.pick_from));
}

bool is_ready(const stand::Outlook& outlook, base::Date day) {
  return expected_event(outlook, "first-pick") != nullptr &&
         expected_event(outlook, "last-pick") != nullptr && ready_chance(outlook, day) >= kReadyChance;
}

bool is_past(const stand::Outlook& outlook, base::Date day) {
  const stand::EventOutlook* last = expected_event(outlook, "last-pick");
  return last != nullptr && expected_event(outlook, "first-pick") != nullptr && day > last->p50;
}

double picked_on_g(const Season& season, std::size_t stand, base::Date day) {
  double grams = 0.0;
  for (const stand::PlantsTaken& taken : season.state.stands[stand].facts.taken) {
    if (!taken.largest || taken.date != day) continue;
    grams += taken.grams.value_or(taken.plants * plant_g(season.outlooks[stand], day));
  }
  return grams;
}

base::Quantiles left_of_week_g(const Season& season, std::size_t stand, base::Date day) {
  base::Quantiles left = stand::week_ahead_g(season.outlooks[stand], day);
  const double picked_g = picked_on_g(season, stand, day);
  for (double* each : {&left.p10, &left.p50, &left.p90}) *each = std::max(0.0, *each - picked_g);
  return left;
}

std::optional<stand::PlannedPulling> planned_pulling(const Season& season, std::size_t stand,
                                                     base::Date day) {
  const book::StandState& state = season.state.stands[stand];
  const stand::Outlook& outlook = season.outlooks[stand];
  const auto crop = crop_of(season, state.plan);
  if (!crop || !stand::waits_in_ground(state.plan, *crop)) return std::nullopt;
  const auto from = pulled_from(state, outlook);
  const bool now = is_ready(outlook, day);
  const bool over = from && day >= *from + base::Days{7 * state.plan.pick_weeks};
  if (over || (!now && is_past(outlook, day))) return std::nullopt;
  return stand::PlannedPulling{
      .from = from, .weeks = state.plan.pick_weeks, .now = now, .week_g = left_of_week_g(season, stand, day)};
}

}  // namespace sowtide::desk
