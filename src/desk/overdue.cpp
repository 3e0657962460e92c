#include "desk/overdue.hpp"

#include <array>
#include <cmath>

#include "desk/raising.hpp"
#include "desk/stand_stage.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::Days;

constexpr double kLikely = 0.5;

stand::SownPlace sown_place(const Season& season, const stand::StandPlan& plan, const crop::Crop& crop) {
  stand::SownPlace place{
      .depth_mm = crop.germination.depth_mm, .soil = {}, .raising = raising_of(season.garden, plan)};
  if (const bed::Bed* bed = bed_of(season.garden, plan.bed)) place.soil = stand::soil_of(*bed);
  return place;
}

bool is_awaited(const book::StandState& stand) {
  return stand_stage(stand.facts) == StandStage::sown;
}

base::Result<Awaited> reckon(const Season& season, std::size_t index, const crop::Crop& crop) {
  const book::StandState& stand = season.state.stands[index];
  const Date sown = *stand.facts.sown;
  const auto place = sown_place(season, stand.plan, crop);
  const auto shown = stand::half_shown(crop, sown, place, season.weather);
  if (!shown) return tl::unexpected(shown.error());
  Awaited sowing{.stand = index, .p10 = shown->p10, .p50 = shown->p50, .pieces = crop.seed.planting_piece};
  sowing.half_by = shown->p90.value_or(sown + Days{static_cast<int>(shown->chance.size())});
  sowing.chance_by_today = stand::chance_on(*shown, sown, season.today);
  sowing.state = sowing.chance_by_today >= stand::kOverdueChance ? WaitState::overdue
                 : sowing.chance_by_today >= kLikely             ? WaitState::look
                                                                 : WaitState::waiting;
  // Of planting pieces one to a place, whatever an older plan says.
  const double each = sowing.pieces ? 1.0 : stand.plan.seeds_per_cell;
  sowing.seeds_again = static_cast<int>(std::lround(stand::places_of(stand.plan) * each));
  if (sowing.state == WaitState::waiting) return sowing;
  const auto again = sown_again(season, index);
  if (!again) return tl::unexpected(again.error());
  sowing.again = *again;
  return sowing;
}

}  // namespace

std::string_view wait_state_text(WaitState state) noexcept {
  constexpr std::array<std::string_view, 3> kWords{"waiting", "look", "overdue"};
  return kWords[static_cast<std::size_t>(state)];
}

base::Result<std::optional<Awaited>> awaited(const Season& season, std::size_t stand) {
  const book::StandState& state = season.state.stands[stand];
  if (!is_awaited(state)) return std::optional<Awaited>{};
  using Found = base::Result<Awaited>;
  auto sowing = season.remember<Found>(stand, "awaited", [&]() -> Found {
    const auto crop = crop_of(season, state.plan);
    if (!crop) return tl::unexpected(crop.error());
    return reckon(season, stand, *crop);
  });
  if (!sowing) return tl::unexpected(sowing.error());
  sowing->stand = stand;  // the stand may have had another place in the list when this was reckoned
  return std::optional<Awaited>{*sowing};
}

base::Result<stand::SowingAgain> sown_again(const Season& season, std::size_t stand) {
  const stand::StandPlan& plan = season.state.stands[stand].plan;
  const CropWeathers weathers(season, {stand});
  const auto weather = weathers.of(plan);
  if (!weather) return tl::unexpected(weather.error());
  const auto again = stand::sowing_again(**weather, plan, raising_of(season.garden, plan),
                                         bed_place(season.garden, plan), season.today);
  if (!again) return tl::unexpected(again.error());
  const auto windows = season.windows->of(season, plan);
  if (!windows) return tl::unexpected(windows.error());
  return stand::hold_to_windows(*again, *windows, plan.method, season.today);
}

bool sowing_failed(const Season& season, const book::StandState& stand) {
  const stand::StandFacts& facts = stand.facts;
  if (facts.finished || facts.set_out || facts.counted_plants != 0 || !stand.counted_on || !facts.sown)
    return false;
  const auto crop = crop_of(season, stand.plan);
  if (!crop) return false;
  const Date sown = std::max(*facts.sown, season.weather.first);
  const auto shown = stand::half_shown(*crop, sown, sown_place(season, stand.plan, *crop), season.weather);
  return shown && stand::chance_on(*shown, sown, *stand.counted_on) >= stand::kOverdueChance;
}

namespace {

base::Result<stand::SowingAgain> bought_again(const Season& season, std::size_t stand) {
  stand::StandPlan plan = season.state.stands[stand].plan;
  const CropWeathers weathers(season, {stand});
  const auto weather = weathers.of(plan);
  if (!weather) return tl::unexpected(weather.error());
  const auto again = stand::buying_again(**weather, plan, {}, bed_place(season.garden, plan), season.today);
  if (!again) return tl::unexpected(again.error());
  const auto windows = season.windows->of(season, plan);
  if (!windows) return tl::unexpected(windows.error());
  return stand::hold_to_windows(*again, *windows, "set-out", season.today);
}

}  // namespace

Replacement replacement_of(const Season& season, std::size_t stand) {
  return season.remember<Replacement>(stand, "replacement", [&] {
    Replacement replacement;
    const stand::StandPlan& plan = season.state.stands[stand].plan;
    const auto crop = crop_of(season, plan);
    if (!crop) return replacement;
    replacement.pieces = crop->seed.planting_piece;
    if (!stand::bought_as_plants(plan)) {
      if (const auto sown = sown_again(season, stand)) replacement.sown = *sown;
    }
    if (!crop->nursery.can_transplant) return replacement;
    if (const auto bought = bought_again(season, stand)) replacement.bought = *bought;
    return replacement;
  });
}

Message look_if_dead_said(const Replacement& replacement) {
  const bool sown = replacement.may_be_sown();
  const bool bought = replacement.may_be_bought();
  return {sown && bought ? "look-if-dead"
          : bought       ? "look-or-buy"
          : sown         ? (replacement.pieces ? "look-if-planted-dead" : "look-or-resow")
                         : "look-and-clear",
          {}};
}

std::vector<Message> replacement_said(const Replacement& replacement) {
  std::vector<Message> said;
  if (replacement.sown) said.push_back(again_said(*replacement.sown, replacement.pieces));
  if (replacement.may_be_bought()) {
    said.push_back({"buy-again",
                    {{"by", *replacement.bought->by}, {"success_share", replacement.bought->success_today}}});
  } else if (replacement.bought && replacement.bought->next) {
    said.push_back({"next-days-to-buy",
                    {{"from", replacement.bought->next->from}, {"to", replacement.bought->next->to}}});
  } else if (replacement.bought && !replacement.sown) {
    said.push_back({"too-late-to-buy", {}});
  }
  return said;
}

Message again_said(const stand::SowingAgain& again, bool pieces) {
  if (again.next) {
    return {pieces ? "next-days-to-plant-again" : "next-days-again",
            {{"from", again.next->from}, {"to", again.next->to}}};
  }
  if (!again.by && again.success_today >= stand::kWorthSowing) return {"no-days-again", {}};
  if (!again.by) {
    return {pieces ? "too-late-to-plant-again" : "too-late-again", {{"success_share", again.success_today}}};
  }
  Message said{pieces ? "plant-again" : "sow-again",
               {{"by", *again.by}, {"success_share", again.success_today}}};
  if (again.first_pick) said.values.emplace_back("first_pick", *again.first_pick);
  return said;
}

std::vector<Message> awaited_said(const Awaited& sowing) {
  std::vector<Message> said;
  if (sowing.state == WaitState::overdue) {
    said.push_back({"should-be-up", {{"by", sowing.half_by}}});
  } else {
    said.push_back({"should-show", {{"by", sowing.half_by}, {"today_share", sowing.chance_by_today}}});
  }
  said.push_back(sowing.again ? again_said(*sowing.again, sowing.pieces) : Message{"nothing-yet", {}});
  return said;
}

std::string awaited_text(const Season& season, const Awaited& sowing) {
  return messages_text(awaited_said(sowing), units_of(season.garden.units), season.today);
}

}  // namespace sowtide::desk
