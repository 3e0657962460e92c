#include "desk/own_stand.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <tuple>
#include <utility>

#include "book/corrections.hpp"
#include "book/taken_back.hpp"
#include "book/words.hpp"
#include "desk/bed_fit.hpp"
#include "desk/bed_sun.hpp"
#include "desk/message_json.hpp"
#include "desk/stand_room.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

using base::ProblemCode;

/// Sown in place two seeds go to a station, since a gap cannot be filled from a spare cell; a tuber or clove
/// is one.
constexpr double kSeedsInPlace = 2.0;

tl::unexpected<base::Problem> problem(ProblemCode code, std::string what, std::string field,
                                      std::string remedy) {
  return base::fail(code, std::move(what), {.field = std::move(field)}, std::move(remedy));
}

base::Result<stand::Method> method_of(const crop::Crop& crop, const OwnStand& told) {
  if (told.bought || !told.tray.empty()) {
    if (!crop.nursery.can_transplant)
      return problem(ProblemCode::contradiction, fmt::format("{} does not bear to be set out", crop.name),
                     told.bought ? "bought" : "tray", "Sow it where it is to grow");
    return stand::Method::start_indoors;
  }
  if (!crop.nursery.can_direct_sow)
    return problem(ProblemCode::contradiction, fmt::format("{} is not sown in place", crop.name), "tray",
                   "Name the tray it is raised in, or say that the plants were bought");
  return stand::Method::direct_sow;
}

base::Result<void> check_numbers(const OwnStand& told, Units units) {
  if (told.clumps < 1 || told.clumps > kMostOwnClumps)
    return problem(ProblemCode::out_of_range,
                   fmt::format("is {}, must be 1 to {}", told.clumps, kMostOwnClumps), "clumps",
                   "Say how many plants, or clumps of several");
  const double spacing_mm = told.spacing_mm.value_or(stand::kClosestSpacingMm);
  if (!(spacing_mm >= stand::kClosestSpacingMm && spacing_mm <= stand::kWidestSpacingMm))
    return problem(ProblemCode::out_of_range,
                   fmt::format("is {}, must be {} to {}", spacing_text(spacing_mm, units),
                               spacing_text(stand::kClosestSpacingMm, units),
                               spacing_text(stand::kWidestSpacingMm, units)),
                   "spacing_mm", "Give the distance from clump to clump");
  const double plants = told.plants_per_clump.value_or(1.0);
  if (!(plants >= 1.0 && plants <= stand::kMostPlantsPerClump))
    return problem(ProblemCode::out_of_range,
                   fmt::format("is {:.4g}, must be 1 to {:.0f}", plants, stand::kMostPlantsPerClump),
                   "plants_per_clump", "Say how many plants stand together");
  return {};
}

base::Result<stand::StandPlan> plan_of(const book::GardenDescription& garden, const crop::Crop& crop,
                                       const OwnStand& told) {
  const auto method = method_of(crop, told);
  if (!method) return tl::unexpected(method.error());
  const bed::Bed* bed = bed_of(garden, told.bed);
  if (bed == nullptr)
    return problem(ProblemCode::not_found, fmt::format("there is no bed \"{}\"", told.bed), "bed",
                   "Name a bed of the garden by its id");
  stand::StandPlan plan;
  plan.crop = crop.id;
  plan.variety = told.variety;
  plan.method = *method;
  plan.sow = told.day;
  if (told.bought) stand::set_out_as_bought(plan, told.day, crop);
  plan.size = told.size;
  plan.clumps = told.clumps;
  const bool in_tray = !told.tray.empty();
  plan.plants_per_clump =
      told.plants_per_clump.value_or(in_tray ? std::max(1.0, crop.nursery.plants_per_clump.value) : 1.0);
  const double usual_mm =
      told.size == stand::SizeGoal::small ? crop.place.spacing_small_mm : crop.place.spacing_large_mm;
  plan.spacing_mm = told.spacing_mm.value_or(std::ceil(usual_mm * std::sqrt(plan.plants_per_clump)));
  plan.bed = told.bed;
  plan.tray = told.tray;
  plan.cells = told.bought ? 0 : told.clumps;
  plan.seeds_per_cell = in_tray ? std::max(1.0, plan.plants_per_clump)
                                : (crop.seed.planting_piece || told.bought ? 1.0 : kSeedsInPlace);
  plan.pick_weeks = own_pick_weeks(crop);
  const Units units = units_of(garden.units);
  const auto length_m = fitting_length_m(*bed, plan, units, "clumps", "Take fewer, closer, or another bed");
  if (!length_m) return tl::unexpected(length_m.error());
  plan.from_m = told.from_m.value_or(0.0);
  plan.to_m = plan.from_m + *length_m;
  if (auto within = check_within_bed(*bed, plan.from_m, plan.to_m, units); !within)
    return tl::unexpected(within.error());
  return plan;
}

book::Event entry_of(const stand::StandPlan& plan, const OwnStand& told, base::Date today) {
  book::Event entry;
  entry.id = book::making_id(plan.id, told.day);
  entry.stand = plan.id;
  entry.date = std::min(told.day, today);
  if (told.day > today) {
    entry.kind = book::EventKind::noted;
    entry.text = "put in by hand";
  } else if (told.bought) {
    entry.kind = book::EventKind::set_out;
    entry.count = stand::planned_plants(plan);
    entry.text = "bought";
  } else {
    entry.kind = book::EventKind::sown;
    entry.count = std::round(plan.cells * plan.seeds_per_cell);
  }
  return entry;
}

tl::unexpected<base::Problem> no_room(const book::GardenDescription& garden, const stand::StandPlan& plan,
                                      bool is_fact) {
  return problem(ProblemCode::infeasible,
                 fmt::format("{} has no {} free for as long as they stand there", bed_name(garden, plan.bed),
                             length_text(plan.to_m - plan.from_m, units_of(garden.units))),
                 "bed",
                 is_fact ? "Take another bed or fewer, or first log what no longer stands there as discarded"
                         : "Take another bed or fewer, or move what is planned there");
}

/// Gives the last stand of the season its place along its bed, there and in its plan: the outlook of a stand
/// knows its bed and not where in it.
base::Result<void> place(Season& season, const OwnStand& told, stand::StandPlan& plan,
                         const TypedAdvice& advice) {
  // What stands there already is a fact; what is only planned has to give way to one.
  const bool is_fact = told.day <= season.today;
  if (told.from_m) {
    SharedRoom others = shared_room(season, plan.id);
    if (!is_fact) others.begun.insert(others.begun.end(), others.planned.begin(), others.planned.end());
    if (others.begun.empty()) return {};
    return problem(
        ProblemCode::contradiction,
        fmt::format("{} stands there at that time", fmt::join(others.begun, ", ")), "from_m",
        std::string(advice.other_stretch));
  }
  const auto from_m =
      first_room_m(season, plan.id, is_fact ? PlannedRoom::given_up : PlannedRoom::kept);
  if (!from_m) return no_room(season.garden, plan, is_fact);
  plan.to_m += *from_m - plan.from_m;
  plan.from_m = *from_m;
  season.garden.stands.back() = plan;
  stand::StandPlan& standing = season.state.stands.back().plan;
  std::tie(standing.from_m, standing.to_m) = std::tie(plan.from_m, plan.to_m);
  return {};
}

nlohmann::ordered_json displaced_json(const std::vector<DisplacedStand>& displaced) {
  nlohmann::ordered_json list = nlohmann::ordered_json::array();
  for (const DisplacedStand& each : displaced)
    list.push_back({{"stand", each.id}, {"crop", each.crop}, {"by_hand", each.by_hand}});
  return list;
}

}  // namespace

stand::StandNames names_ever_given(const book::GardenDescription& garden,
                                   const std::vector<book::Event>& events) {
  stand::StandNames names;
  for (const stand::StandPlan& plan : garden.stands) names.take(plan.id);
  for (const book::Event& event : events) names.take(event.stand);
  return names;
}

std::vector<DisplacedStand> displaced_stands(const Season& season, const std::vector<book::Event>& events,
                                             const std::vector<std::string>& ids) {
  const auto in_log = book::stands_of_log(events);
  std::vector<DisplacedStand> displaced;
  for (const book::StandState& state : season.state.stands) {
    const std::string& id = state.plan.id;
    if (std::find(ids.begin(), ids.end(), id) == ids.end()) continue;
    displaced.push_back({id, state.plan.crop, in_log.contains(id)});
  }
  return displaced;
}

int own_pick_weeks(const crop::Crop& crop) {
  constexpr int kWinterWeeks = 20;
  if (!stand::stands_in_ground(crop)) return 0;
  return crop.harvest.style == crop::HarvestStyle::once ? kWinterWeeks : stand::kMostPickWeeks;
}

base::Result<MadeStand> make_own_stand(const crop::CropLibrary& library,
                                       const book::GardenDescription& garden,
                                       const std::vector<book::Event>& events, base::Date today,
                                       const OwnStand& told, const TypedAdvice& advice) {
  if (auto checked = check_numbers(told, units_of(garden.units)); !checked)
    return tl::unexpected(checked.error());
  if (told.day > today + kFarthestAhead)
    return problem(ProblemCode::out_of_range, fmt::format("{} is too far ahead", base::to_iso(told.day)),
                   "day", "Put it in for a day within two years");
  const auto crop = library.find(told.crop);
  if (!crop) return tl::unexpected(crop.error());
  auto plan = plan_of(garden, **crop, told);
  if (!plan) return tl::unexpected(plan.error());
  plan->id = names_ever_given(garden, events).next();
  MadeStand made;
  made.entries = {entry_of(*plan, told, today)};
  book::GardenDescription with = garden;
  with.stands.push_back(*plan);
  if (auto checked = book::check_against(library, with); !checked) return tl::unexpected(checked.error());
  std::vector<book::Event> log = events;
  log.push_back(made.entries.front());
  auto season = make_season(library, std::move(with), log, today);
  if (!season) return tl::unexpected(season.error());
  if (const auto none = season->no_outlook.find(plan->id); none != season->no_outlook.end())
    return tl::unexpected(none->second);
  if (auto placed = place(*season, told, *plan, advice); !placed) return tl::unexpected(placed.error());
  made.displaced = displaced_stands(*season, events, shared_room(*season, plan->id).planned);
  made.season = std::move(*season);
  made.sun_said = sun_said(made.season.garden, **crop, *plan);
  made.plan = *plan;
  return made;
}

std::string own_stand_json(const MadeStand& made) {
  const stand::StandPlan& plan = made.plan;
  const nlohmann::ordered_json answer{
      {"stand", plan.id},
      {"crop", plan.crop},
      {"bed", plan.bed},
      {"from_m", plan.from_m},
      {"to_m", plan.to_m},
      {"clumps", plan.clumps},
      {"spacing_mm", plan.spacing_mm},
      {"method", book::word_of(book::kMethodWords, plan.method)},
      {"day", base::to_iso(made.entries.front().date)},
      {"logged", std::string(book::event_kind_text(made.entries.front().kind))},
      {"displaced", displaced_json(made.displaced)},
      {"sun_said", messages_json(made.sun_said)}};
  return answer.dump();
}

std::string moved_stand_json(const stand::StandPlan& moved, const std::vector<DisplacedStand>& displaced) {
  const nlohmann::ordered_json answer{{"stand", moved.id},
                                      {"bed", moved.bed},
                                      {"from_m", moved.from_m},
                                      {"to_m", moved.to_m},
                                      {"sow", base::to_iso(moved.sow)},
                                      {"displaced", displaced_json(displaced)}};
  return answer.dump();
}

std::string stand_released_json(const std::string& stand) {
  return nlohmann::ordered_json{{"stand", stand}, {"released", true}}.dump();
}

std::string stand_gone_json(const std::string& stand) {
  return nlohmann::ordered_json{{"stand", stand}, {"removed", true}}.dump();
}

}  // namespace sowtide::desk
