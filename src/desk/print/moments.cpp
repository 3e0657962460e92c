#include "desk/print/moments.hpp"

#include <algorithm>
#include <cmath>

#include "desk/stand_stage.hpp"
#include "stand/stay.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::Days;

/// Of the last day of a stay, as for every P90.
constexpr double kLastPresence = 0.1;

bool raised_in_tray(const stand::StandPlan& plan) {
  return plan.method == stand::Method::start_indoors && !plan.tray.empty();
}

/// The day it is set out: done, decided, or as the outlook has it.
std::optional<Date> set_out_day(const Season& season, std::size_t i, Date stand::EventOutlook::*quantile) {
  const book::StandState& state = season.state.stands[i];
  const auto expected = expected_day(season.outlooks[i], "set-out", quantile);
  return stand::goes_out_on(plan_from(state, season.today), state.facts, expected, season.today);
}

std::optional<Stay> tray_stay(const Season& season, std::size_t i) {
  const book::StandState& state = season.state.stands[i];
  if (!raised_in_tray(state.plan)) return std::nullopt;
  const Date sown = state.facts.sown.value_or(state.plan.sow);
  const Date earliest = stand::waits_to_go_out(state.facts) ? std::max(sown, season.today) : sown;
  Stay stay{.stand = i, .in_tray = true, .place = state.plan.tray, .first = sown};
  const auto early = set_out_day(season, i, &stand::EventOutlook::p10);
  stay.may_leave = std::max(earliest, early.value_or(sown + stand::kStayWithoutHarvest));
  const auto late = set_out_day(season, i, &stand::EventOutlook::p90);
  stay.last = std::max(stay.may_leave, late.value_or(stay.may_leave));
  return stay;
}

std::optional<Stay> bed_stay(const Season& season, std::size_t i) {
  const book::StandState& state = season.state.stands[i];
  const stand::Outlook& outlook = season.outlooks[i];
  if (state.plan.bed.empty()) return std::nullopt;
  const bool moved = state.plan.method == stand::Method::start_indoors;
  std::optional<Date> first = state.facts.sown.value_or(state.plan.sow);
  if (moved) first = set_out_day(season, i, &stand::EventOutlook::p50);
  if (!first) return std::nullopt;
  Stay stay{.stand = i, .in_tray = false, .place = state.plan.bed, .first = *first};
  stay.may_leave =
      stand::leaves_bed_on(*first, expected_day(outlook, "last-pick", &stand::EventOutlook::p10));
  stay.last = stand::leaves_bed_on(*first, expected_day(outlook, "last-pick", &stand::EventOutlook::p90));
  return stay;
}

void add_event(std::vector<Moment>& moments, const stand::Outlook& outlook, std::string_view name,
               Moment::Kind kind) {
  const stand::EventOutlook* event = expected_event(outlook, name);
  if (event != nullptr) moments.push_back({kind, event->p10, event->p50, event->p90});
}

void add_setting_out(std::vector<Moment>& moments, const Season& season, std::size_t i) {
  const book::StandState& state = season.state.stands[i];
  const auto early = set_out_day(season, i, &stand::EventOutlook::p10);
  const auto middle = set_out_day(season, i, &stand::EventOutlook::p50);
  const auto late = set_out_day(season, i, &stand::EventOutlook::p90);
  if (!early || !middle || !late) return;
  const auto crop = crop_of(season, state.plan);
  if (crop && !to_be_bought(state.plan, state.facts)) {
    const Days hardening{static_cast<int>(std::lround(crop->nursery.hardening_days))};
    const Date begin = std::max(*middle - hardening, state.facts.sown.value_or(state.plan.sow));
    if (hardening > Days{0}) moments.push_back({Moment::Kind::harden_off, begin, begin, *middle});
  }
  moments.push_back({Moment::Kind::set_out, *early, *middle, *late});
}

}  // namespace

std::string_view moment_word(Moment::Kind kind) noexcept {
  switch (kind) {
    case Moment::Kind::sow:
      return "sow";
    case Moment::Kind::up:
      return "up";
    case Moment::Kind::harden_off:
      return "harden-off";
    case Moment::Kind::set_out:
      return "set-out";
    case Moment::Kind::first_pick:
      return "first-pick";
    case Moment::Kind::last_pick:
      return "last-pick";
  }
  return "";
}

std::vector<Moment> moments_ahead(const Season& season, std::size_t i) {
  const book::StandState& state = season.state.stands[i];
  const stand::Outlook& outlook = season.outlooks[i];
  const StandStage stage = stand_stage(state.facts);
  std::vector<Moment> moments;
  if (stage == StandStage::finished) return moments;
  const bool to_sow = stage == StandStage::planned && !to_be_bought(state.plan, state.facts);
  if (to_sow) {
    moments.push_back({Moment::Kind::sow, state.plan.sow, state.plan.sow, state.plan.sow});
  }
  if (to_sow || stage == StandStage::sown) add_event(moments, outlook, "emerge", Moment::Kind::up);
  if (state.plan.method == stand::Method::start_indoors && stand::waits_to_go_out(state.facts))
    add_setting_out(moments, season, i);
  if (!state.facts.first_picked) add_event(moments, outlook, "first-pick", Moment::Kind::first_pick);
  add_event(moments, outlook, "last-pick", Moment::Kind::last_pick);
  return moments;
}

std::vector<Stay> stays_of(const Season& season, std::size_t stand) {
  std::vector<Stay> stays;
  if (auto stay = tray_stay(season, stand)) stays.push_back(std::move(*stay));
  if (auto stay = bed_stay(season, stand)) stays.push_back(std::move(*stay));
  return stays;
}

double presence(const Stay& stay, base::Date day) {
  if (day < stay.first || day > stay.last) return 0.0;
  if (day <= stay.may_leave) return 1.0;
  const double share = static_cast<double>((day - stay.may_leave).count()) /
                       static_cast<double>((stay.last - stay.may_leave).count());
  return 1.0 - (1.0 - kLastPresence) * share;
}

double ready_chance(const stand::Outlook& outlook, base::Date day) {
  const auto index = (day - outlook.fan_first).count();
  if (index < 0 || index >= static_cast<std::ptrdiff_t>(outlook.ready_probability.size())) return 0.0;
  return outlook.ready_probability[static_cast<std::size_t>(index)];
}

}  // namespace sowtide::desk
