// stand: what stands in the garden, and stands that the grower puts in or moves by hand.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>

#include "book/words.hpp"
#include "cli/open.hpp"
#include "cli/verbs.hpp"
#include "desk/json.hpp"
#include "desk/own_stand.hpp"
#include "desk/present.hpp"
#include "desk/stand_move.hpp"
#include "desk/stand_room.hpp"
#include "desk/stand_stage.hpp"

namespace sowtide::cli {
namespace {

base::Problem in_file(base::Problem problem, const std::string& garden) {
  if (problem.where.file.empty()) problem.where.file = garden;
  return problem;
}

std::string where_text(const stand::StandPlan& plan, desk::Units units) {
  const auto [from, to] = desk::stretch_texts(plan.from_m, plan.to_m, units);
  return fmt::format("{}, {} to {}", plan.bed, from, to);
}

}  // namespace

base::Result<void> run_stand_list(const StandOptions& options, Output& output) {
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::unexpected(season.error());
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::outlook_json(*season));
    return {};
  }
  const desk::Units units = desk::units_of(season->garden.units);
  using enum desk::TextTable::Align;
  desk::TextTable table({"stand", "what", "where", "plants", "sown", "state"},
                        {left, left, left, right, left, left});
  for (const book::StandState& state : season->state.stands) {
    const stand::StandPlan& plan = state.plan;
    const int planned = static_cast<int>(plan.clumps * plan.plants_per_clump + 0.5);
    const int plants = state.facts.counted_plants.value_or(planned) - state.facts.plants_removed;
    table.add({plan.id, season->library->name_of(plan.crop), where_text(plan, units),
               fmt::format("{}", std::max(0, plants)),
               desk::date_text(state.facts.sown.value_or(plan.sow), units, season->today),
               std::string(desk::stand_stage_text(desk::stand_stage(state.facts)))});
  }
  fmt::print(output.out, "{}", table.text());
  return {};
}

base::Result<void> run_stand_add(const StandOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::unexpected(opened.error());
  desk::OwnStand told = options.told;
  if (told.day == base::Date{}) told.day = options.date;
  const auto made =
      desk::make_own_stand(crop::built_in_library(), opened->garden, opened->events, options.date, told);
  if (!made) return tl::unexpected(in_file(made.error(), options.garden));
  if (auto kept = opened->file.add_stand(made->plan, made->entries); !kept) return kept;
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::own_stand_json(*made));
    return {};
  }
  const desk::Units units = desk::units_of(opened->garden.units);
  const book::Event& entry = made->entries.front();
  const std::string done = entry.kind == book::EventKind::noted ? "to be sown"
                           : entry.text == "bought"             ? "bought and set out"
                                                                : "sown";
  fmt::print(output.out, "Stand {}: {} {}, {} on {}, {}.\n", made->plan.id, made->plan.clumps,
             made->plan.crop, done, desk::date_text(told.day, units, options.date),
             where_text(made->plan, units));
  if (!made->sun_said.empty())
    fmt::print(output.out, "{}\n", desk::sentence_text(made->sun_said, units, options.date));
  return {};
}

base::Result<void> run_stand_move(const StandOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::unexpected(opened.error());
  const auto season =
      desk::make_season(crop::built_in_library(), opened->garden, opened->events, options.date);
  if (!season) return tl::unexpected(season.error());
  desk::StandMove move{.from_m = options.told.from_m, .put_right = options.put_right};
  if (!options.told.bed.empty()) move.bed = options.told.bed;
  if (options.told.day != base::Date{}) move.sow = options.told.day;
  const auto moved = desk::moved_stand(*season, options.stand, move);
  if (!moved) return tl::unexpected(in_file(moved.error(), options.garden));
  if (const auto free = desk::check_room(*season, *moved, move.put_right); !free)
    return tl::unexpected(in_file(free.error(), options.garden));
  if (auto kept = opened->file.update_stand(*moved); !kept) return kept;
  if (output.json) {
    fmt::print(output.out, "{}\n",
               nlohmann::ordered_json{{"stand", moved->id},
                                      {"bed", moved->bed},
                                      {"from_m", moved->from_m},
                                      {"to_m", moved->to_m},
                                      {"sow", base::to_iso(moved->sow)}}
                   .dump());
    return {};
  }
  const desk::Units units = desk::units_of(opened->garden.units);
  fmt::print(output.out, "Stand {}: {}, sown {}.\n", moved->id, where_text(*moved, units),
             desk::date_text(moved->sow, units, options.date));
  return {};
}

}  // namespace sowtide::cli
