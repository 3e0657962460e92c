#include "desk/pulling.hpp"

#include <algorithm>
#include <string_view>

#include "crop/groups.hpp"
#include "desk/print/moments.hpp"

namespace sowtide::desk {
namespace {

constexpr int kWeekDays = 7;

constexpr double kReadyChance = 0.5;

/// The day of the first picking, seen or expected; nothing where none is expected.
std::optional<base::Date> first_pick(const book::StandState& state, const stand::Outlook& outlook) {
  if (state.facts.first_picked) return state.facts.first_picked;
  const stand::EventOutlook* first = expected_event(outlook, "first-pick");
  return first == nullptr ? std::nullopt : std::optional(first->p50);
}

}  // namespace

std::optional<base::Date> pulled_from(const book::StandState& state, const stand::Outlook& outlook) {
  const auto first = first_pick(state, outlook);
  if (!state.plan.pick_from) return first;
  return std::max(*state.plan.pick_from, first.value_or(*state.plan.pick_from));
}

int pulled_weeks(const book::StandState& state, const stand::Outlook& outlook) {
  const auto from = pulled_from(state, outlook);
  const stand::EventOutlook* last = expected_event(outlook, "last-pick");
  if (!from || last == nullptr) return state.plan.pick_weeks;
  const auto days = (last->p50 - *from).count();
  const auto weeks = static_cast<int>((days + kWeekDays - 1) / kWeekDays);
  return std::clamp(weeks, std::min(1, state.plan.pick_weeks), state.plan.pick_weeks);
}

bool is_ready(const stand::Outlook& outlook, base::Date day) {
  return expected_event(outlook, "first-pick") != nullptr &&
         expected_event(outlook, "last-pick") != nullptr && ready_chance(outlook, day) >= kReadyChance;
}

bool is_past(const stand::Outlook& outlook, base::Date day) {
  const stand::EventOutlook* last = expected_event(outlook, "last-pick");
  return last != nullptr && expected_event(outlook, "first-pick") != nullptr && day > last->p50;
}

bool may_be_picked(const stand::Outlook& outlook, const crop::Crop& crop, base::Date day) {
  if (ready_chance(outlook, day) > 0.0 || is_past(outlook, day)) return true;
  if (crop.harvest.style == crop::HarvestStyle::picked) return false;
  return stand::plant_on_g(outlook, day).p90 >= crop.harvest.smallest_g;
}

Picking picking_of(const stand::Judgement& judgement) {
  const std::string_view advice = judgement.advice;
  const bool takes = advice == "pull" || advice == "pull the largest" || advice == "cut" || advice == "pick";
  return takes ? Picking::now : advice == "wait" ? Picking::later : Picking::none;
}

WhereTo where_to(const crop::Crop& crop, bool cool_store, base::Date day) {
  constexpr double kLongDays = 7.0 * stand::kWeeksJudged;
  const keep::StorePlace place = keep::household_place(crop, cool_store);
  const double days = keep::storage_life_days(crop, place);
  const auto& groups = crop.groups;
  const bool greens = std::find(groups.begin(), groups.end(), crop::kCookingGreens) != groups.end();
  return {.place = place,
          .until = day + base::Days{static_cast<int>(days)},
          .keeps = days >= kLongDays,
          .freezes = days < kLongDays && greens};
}

std::optional<stand::EventOutlook> ready_by_itself(const Season& season, std::size_t stand) {
  const book::StandState& state = season.state.stands[stand];
  const auto crop = crop_of(season, state.plan);
  const stand::EventOutlook* picked = expected_event(season.outlooks[stand], "first-pick");
  const bool by_the_plan = crop && stand::waits_in_ground(state.plan, *crop) && picked != nullptr &&
                           state.plan.pick_from == picked->p50 && !state.facts.first_picked &&
                           !state.facts.finished;
  if (!by_the_plan) return std::nullopt;
  using Ready = std::optional<stand::EventOutlook>;
  return season.remember<Ready>(stand, "ready by itself", [&]() -> Ready {
    stand::StandPlan free = state.plan;
    free.pick_from.reset();
    const auto tried = with_plan_tried(season, free);
    const stand::EventOutlook* first =
        tried ? expected_event(tried->outlooks.front(), "first-pick") : nullptr;
    return first != nullptr ? Ready(*first) : Ready();
  });
}

double picked_in_days_g(const Season& season, std::size_t stand, base::Date day, int days) {
  double grams = 0.0;
  for (const stand::PlantsTaken& taken : season.state.stands[stand].facts.taken) {
    if (!taken.largest || taken.date > day || taken.date <= day - base::Days{days}) continue;
    grams += taken.grams.value_or(taken.plants * stand::plant_on_g(season.outlooks[stand], taken.date).p50);
  }
  return grams;
}

std::vector<double> taken_in_week_g(const Season& season, std::size_t stand, base::Date day) {
  std::vector<double> taken_g = stand::taken_ahead_g(season.outlooks[stand], day, kWeekDays);
  const book::StandState& state = season.state.stands[stand];
  const auto crop = crop_of(season, state.plan);
  const bool by_the_week = crop && stand::waits_in_ground(state.plan, *crop);
  const double picked_g = picked_in_days_g(season, stand, day, by_the_week ? kWeekDays : 1);
  for (double& each : taken_g) each = std::max(0.0, each - picked_g);
  return taken_g;
}

base::Quantiles left_of_week_g(const Season& season, std::size_t stand, base::Date day) {
  std::vector<double> taken_g = taken_in_week_g(season, stand, day);
  return taken_g.empty() ? base::Quantiles{} : base::quantiles(std::move(taken_g));
}

std::optional<stand::PlannedPulling> planned_pulling(const Season& season, std::size_t stand,
                                                     base::Date day) {
  const book::StandState& state = season.state.stands[stand];
  const stand::Outlook& outlook = season.outlooks[stand];
  const auto crop = crop_of(season, state.plan);
  if (!crop || !stand::waits_in_ground(state.plan, *crop)) return std::nullopt;
  stand::PlannedPulling pulling{.from = pulled_from(state, outlook),
                                .weeks = pulled_weeks(state, outlook),
                                .begun = state.plan.pick_from && day >= *state.plan.pick_from,
                                .week_g = left_of_week_g(season, stand, day)};
  // A week whose share is out already has none left.
  pulling.now = is_ready(outlook, day) && pulling.week_g.p90 > 0.0;
  const bool over = pulling.from && day >= *pulling.from + base::Days{7 * state.plan.pick_weeks};
  if (over || (!pulling.now && is_past(outlook, day))) return std::nullopt;
  for (std::size_t wait = 0; wait < pulling.by_wait_g.size(); ++wait)
    pulling.by_wait_g[wait] = base::mean(stand::taken_ahead_g(outlook, day, 7 * static_cast<int>(wait + 1)));
  return pulling;
}

}  // namespace sowtide::desk
