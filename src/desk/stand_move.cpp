#include "desk/stand_move.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "desk/bed_fit.hpp"
#include "desk/stand_stage.hpp"
#include "stand/bought.hpp"

namespace sowtide::desk {
namespace {

using base::ProblemCode;

base::Place field(std::string name) {
  return {.file = {}, .line = 0, .column = 0, .field = std::move(name)};
}

/// Its length in the bed it goes to: its clumps keep their distance, so that in a bed of another width it takes
/// another length.
base::Result<double> length_in_m(const book::GardenDescription& garden, const stand::StandPlan& before,
                                 const std::string& bed_id) {
  const bed::Bed* here = bed_of(garden, before.bed);
  const bed::Bed* there = bed_of(garden, bed_id);
  if (here == nullptr || there == nullptr || here->width_m == there->width_m)
    return before.to_m - before.from_m;
  return fitting_length_m(*there, before, units_of(garden.units), "bed", "Take a longer or wider bed");
}

base::Result<void> check_place(const book::GardenDescription& garden, const stand::StandPlan& plan) {
  const bed::Bed* bed = bed_of(garden, plan.bed);
  if (bed == nullptr) {
    return base::fail(ProblemCode::not_found, fmt::format("there is no bed {}", plan.bed), field("bed"),
                      "Name a bed of the garden by its id.");
  }
  return check_within_bed(*bed, plan.from_m, plan.to_m, units_of(garden.units));
}

/// A day that a move tells: today or later, within two years.
base::Result<void> check_ahead(base::Date day, std::string name, std::string remedy, base::Date today) {
  if (day >= today && day <= today + kFarthestAhead) return {};
  return base::fail(ProblemCode::out_of_range, fmt::format("{} is past or too far ahead", base::to_iso(day)),
                    field(std::move(name)), std::move(remedy));
}

base::Result<void> check_set_out(base::Date day, base::Date today) {
  return check_ahead(day, "set_out", "Set it out today or later, within two years.", today);
}

/// The made-up day of sowing of bought plants goes with that of setting out, whichever of the two is told.
base::Result<void> move_bought(const StandMove& move, stand::StandPlan& plan, base::Date today) {
  if (move.set_out && !*move.set_out) {
    return base::fail(ProblemCode::contradiction, "the day on which bought plants are set out must be told",
                      field("set_out"), "Give the day, or move the stand to another.");
  }
  base::Date day = *plan.set_out;
  if (move.sow) day += *move.sow - plan.sow;
  if (move.set_out) day = **move.set_out;
  if (day == *plan.set_out) return {};
  if (auto ahead = check_set_out(day, today); !ahead) return ahead;
  plan.sow += day - *plan.set_out;
  plan.set_out = day;
  plan.planned_c.reset();  // of another day
  return {};
}

/// Only what is changed is checked: a day that passed without the work is no fault of a move along the bed.
base::Result<void> move_sown(const StandMove& move, stand::StandPlan& plan, base::Date today) {
  const std::optional<base::Date> set_out_before = plan.set_out;
  if (move.sow && *move.sow != plan.sow) {
    auto ahead = check_ahead(*move.sow, "sow", "Sow today or later, within two years.", today);
    if (!ahead) return ahead;
    plan.sow = *move.sow;
    plan.planned_c.reset();  // of another day
  }
  if (move.set_out) plan.set_out = *move.set_out;
  if (plan.set_out && plan.set_out != set_out_before) {
    if (auto ahead = check_set_out(*plan.set_out, today); !ahead) return ahead;
  }
  if (plan.set_out && *plan.set_out <= plan.sow) {
    return base::fail(ProblemCode::contradiction, "it would be set out before it is sown", field("set_out"),
                      "Set it out after sowing, or leave the day open with null.");
  }
  return {};
}

}  // namespace

base::Result<stand::StandPlan> moved_stand(const Season& season, const std::string& id,
                                           const StandMove& move, const TypedAdvice& advice) {
  const auto& stands = season.state.stands;
  const auto found = std::find_if(stands.begin(), stands.end(),
                                  [&](const book::StandState& each) { return each.plan.id == id; });
  if (found == stands.end()) {
    return base::fail(ProblemCode::not_found, fmt::format("there is no stand {} in this garden", id),
                      field("stand"), "Name a stand of the garden by its id.");
  }
  // Whoever counts or picks it has sown it, whether or not that was logged.
  const bool begun = stand_stage(found->facts) != StandStage::planned;
  const bool in_ground = found->facts.set_out || found->facts.first_picked ||
                         (begun && found->plan.method == stand::Method::direct_sow);
  const bool other_place = (move.bed || move.from_m || move.to_m) && !move.put_right;
  if ((begun && move.sow) || (in_ground && (other_place || move.set_out))) {
    return base::fail(ProblemCode::contradiction,
                      fmt::format("stand {} has been sown, so it stays where and when it is", id),
                      field("stand"),
                      std::string(advice.put_right));
  }
  stand::StandPlan plan = found->plan;
  if (move.bed) plan.bed = *move.bed;
  if (move.from_m) plan.from_m = *move.from_m;
  if (move.to_m) {
    plan.to_m = *move.to_m;
  } else if (move.bed || move.from_m) {
    const auto length_m = length_in_m(season.garden, found->plan, plan.bed);
    if (!length_m) return tl::unexpected(length_m.error());
    plan.to_m = plan.from_m + *length_m;
  }
  if (auto placed = check_place(season.garden, plan); !placed) return tl::unexpected(placed.error());
  const bool bought = to_be_bought(found->plan, found->facts);
  const auto dated = bought ? move_bought(move, plan, season.today) : move_sown(move, plan, season.today);
  if (!dated) return tl::unexpected(dated.error());
  return plan;
}

stand::StandPlan plan_to_write(const Season& season, const stand::StandPlan& moved, const StandMove& move) {
  const auto& stands = season.garden.stands;
  const auto stored =
      std::find_if(stands.begin(), stands.end(), [&](const auto& each) { return each.id == moved.id; });
  if (stored == stands.end()) return moved;
  stand::StandPlan plan = *stored;
  plan.bed = moved.bed;
  plan.from_m = moved.from_m;
  plan.to_m = moved.to_m;
  // Of bought plants both days go together, whichever was told.
  const bool both_days = stand::bought_as_plants(*stored);
  if (move.set_out || (both_days && move.sow)) plan.set_out = moved.set_out;
  if ((move.sow || (both_days && move.set_out)) && plan.sow != moved.sow) {
    plan.sow = moved.sow;
    plan.planned_c.reset();  // of another day
  }
  return plan;
}

}  // namespace sowtide::desk
