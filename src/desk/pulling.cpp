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

/// Its weeks begin on the plan's day, or once it is ready where that is later.
bool weeks_over(const stand::StandPlan& plan, std::optional<base::Date> first_pick, base::Date day) {
  if (!first_pick) return false;
  const base::Date begin = plan.pick_from ? std::max(*plan.pick_from, *first_pick) : *first_pick;
  return day >= begin + base::Days{7 * plan.pick_weeks};
}

}  // namespace

bool is_ready(const stand::Outlook& outlook, base::Date day) {
  return expected_event(outlook, "first-pick") != nullptr &&
         expected_event(outlook, "last-pick") != nullptr && ready_chance(outlook, day) >= kReadyChance;
}

bool is_past(const stand::Outlook& outlook, base::Date day) {
  const stand::EventOutlook* last = expected_event(outlook, "last-pick");
  return last != nullptr && expected_event(outlook, "first-pick") != nullptr && day > last->p50;
}

std::optional<stand::PlannedPulling> planned_pulling(const Season& season, std::size_t stand,
                                                     base::Date day) {
  const book::StandState& state = season.state.stands[stand];
  const stand::Outlook& outlook = season.outlooks[stand];
  const auto crop = crop_of(season, state.plan);
  if (!crop || !stand::waits_in_ground(state.plan, *crop)) return std::nullopt;
  const auto first = first_pick(state, outlook);
  const bool now = is_ready(outlook, day);
  if (weeks_over(state.plan, first, day) || (!now && is_past(outlook, day))) return std::nullopt;
  return stand::PlannedPulling{.from = state.plan.pick_from ? state.plan.pick_from : first,
                               .weeks = state.plan.pick_weeks,
                               .now = now,
                               .week_g = stand::week_ahead_g(outlook, day)};
}

}  // namespace sowtide::desk
