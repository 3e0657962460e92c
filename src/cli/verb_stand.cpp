// stand: what stands in the garden, and stands that the grower puts in or moves by hand.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <ostream>
#include <string_view>
#include <vector>

#include "book/words.hpp"
#include "cli/open.hpp"
#include "cli/verbs.hpp"
#include "desk/json.hpp"
#include "desk/own_stand.hpp"
#include "desk/present.hpp"
#include "desk/stand_move.hpp"
#include "desk/stand_room.hpp"
#include "desk/stand_stage.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"

namespace sowtide::cli {
namespace {

/// The desk names a field of the stand, "clumps"; the person typed an option, --count.
std::string as_typed(std::string_view field) {
  static const std::map<std::string_view, std::string_view> kTyped{
      {"crop", "CROP"},
      {"stand", "STAND"},
      {"variety", "--variety"},
      {"bed", "--bed"},
      {"clumps", "--count"},
      {"day", "--day"},
      {"sow", "--day"},
      {"set_out", "--day"},
      {"bought", "--bought"},
      {"tray", "--tray"},
      {"from_m", "--from-m"},
      {"put_right", "--put-right"},
      {"spacing_mm", "--spacing-mm"},
      {"plants_per_clump", "--plants-per-clump"}};
  const auto found = kTyped.find(field);
  return std::string(found == kTyped.end() ? field : found->second);
}

base::Problem in_file(base::Problem problem, const std::string& garden) {
  if (problem.where.file.empty()) problem.where.file = garden;
  problem.where.field = as_typed(problem.where.field);
  return problem;
}

/// Which planned stands have lost their room, and what to do about it; nothing where none has.
std::string displaced_text(const std::vector<desk::DisplacedStand>& displaced) {
  std::string planned, by_hand;
  for (const desk::DisplacedStand& each : displaced) {
    std::string& list = each.by_hand ? by_hand : planned;
    list += fmt::format("{}{} ({})", list.empty() ? "" : ", ", each.id,
                        crop::built_in_library().name_of(each.crop));
  }
  std::string text;
  if (!planned.empty())
    text += fmt::format("Planned there and now without room: {}. Plan anew: sowtide plan GARDEN\n", planned);
  if (!by_hand.empty()) {
    text += fmt::format(
        "Put in by hand there and now without room: {}. A plan leaves them alone; move them: "
        "sowtide stand GARDEN move STAND\n",
        by_hand);
  }
  return text;
}

std::string where_text(const stand::StandPlan& plan, desk::Units units) {
  const auto [from, to] = desk::stretch_texts(plan.from_m, plan.to_m, units);
  return fmt::format("{}, {} to {}", plan.bed, from, to);
}

/// The day of sowing; of bought plants that they are, and the day of setting out.
std::string begun_text(const book::StandState& state, desk::Units units, base::Date today) {
  if (!desk::comes_bought(state.plan, state.facts))
    return desk::date_text(state.facts.sown.value_or(state.plan.sow), units, today);
  return "bought, " +
         desk::date_text(state.facts.set_out.value_or(stand::begins_on(state.plan)), units, today);
}

bool to_be_bought(const desk::Season& season, const std::string& id) {
  return std::any_of(season.state.stands.begin(), season.state.stands.end(),
                     [&id](const book::StandState& each) {
                       return each.plan.id == id && desk::to_be_bought(each.plan, each.facts);
                     });
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
    table.add({plan.id, season->library->name_of(plan.crop), where_text(plan, units),
               fmt::format("{}", stand::plants_left(plan, state.facts)),
               begun_text(state, units, season->today),
               std::string(desk::stand_stage_text(desk::stand_stage(state.facts)))});
  }
  fmt::print(output.out, "{}", table.text());
  return {};
}

base::Result<void> run_stand_add(const StandOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::unexpected(opened.error());
  desk::OwnStand told = options.told;
  auto bed = bed_typed(told.bed, opened->garden, "--bed");
  if (!bed) return tl::unexpected(in_file(bed.error(), options.garden));
  told.bed = std::move(*bed);
  if (told.day == base::Date{}) told.day = options.date;
  const auto made = desk::make_own_stand(crop::built_in_library(), opened->garden, opened->events,
                                         options.date, told, desk::kOptionAdvice);
  if (!made) return tl::unexpected(in_file(made.error(), options.garden));
  if (auto kept = opened->file.add_stand(made->plan, made->entries); !kept) return kept;
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::own_stand_json(*made));
    return {};
  }
  const desk::Units units = desk::units_of(opened->garden.units);
  const book::Event& entry = made->entries.front();
  const bool to_come = entry.kind == book::EventKind::noted;
  const std::string done =
      std::string(to_come ? "to be " : "") + (told.bought ? "bought and set out" : "sown");
  fmt::print(output.out, "Stand {}: {} {}, {} on {}, {}.\n", made->plan.id, made->plan.clumps,
             made->plan.crop, done, desk::date_text(told.day, units, options.date),
             where_text(made->plan, units));
  fmt::print(output.out, "{}", displaced_text(made->displaced));
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
  const auto stand = stand_typed(options.stand, opened->garden, "STAND");
  if (!stand) return tl::unexpected(in_file(stand.error(), options.garden));
  const auto bed = bed_typed(options.told.bed, opened->garden, "--bed");
  if (!bed) return tl::unexpected(in_file(bed.error(), options.garden));
  if (!bed->empty()) move.bed = *bed;
  if (options.told.day != base::Date{}) {
    if (to_be_bought(*season, *stand)) {
      move.set_out.emplace(options.told.day);
    } else {
      move.sow = options.told.day;
    }
  }
  const auto moved = desk::moved_stand(*season, *stand, move, desk::kOptionAdvice);
  if (!moved) return tl::unexpected(in_file(moved.error(), options.garden));
  const auto giving_way = desk::check_room(*season, *moved, move.put_right);
  if (!giving_way) return tl::unexpected(in_file(giving_way.error(), options.garden));
  if (auto kept = opened->file.update_stand(desk::plan_to_write(*season, *moved, move)); !kept) return kept;
  const auto displaced = desk::displaced_stands(*season, opened->events, *giving_way);
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::moved_stand_json(*moved, displaced));
    return {};
  }
  const desk::Units units = desk::units_of(opened->garden.units);
  fmt::print(output.out, "Stand {}: {}, {} {}.\n", moved->id, where_text(*moved, units),
             desk::to_be_bought(*moved, {}) ? "bought and set out" : "sown",
             desk::date_text(stand::begins_on(*moved), units, options.date));
  fmt::print(output.out, "{}", displaced_text(displaced));
  return {};
}

base::Result<void> run_stand_remove(const StandOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::unexpected(opened.error());
  const auto stand = stand_typed(options.stand, opened->garden, "STAND");
  if (!stand) return tl::unexpected(in_file(stand.error(), options.garden));
  if (auto gone = opened->file.take_back_stand(*stand, options.date); !gone)
    return tl::unexpected(in_file(gone.error(), options.garden));
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::stand_gone_json(*stand));
    return {};
  }
  fmt::print(output.out, "Stand {} is taken back: nothing of it counts.\n", *stand);
  return {};
}

}  // namespace sowtide::cli
