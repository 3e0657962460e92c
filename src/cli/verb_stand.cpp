// stand: what stands in the garden, and stands that the grower puts in or moves by hand.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "book/moved_by_hand.hpp"
#include "book/words.hpp"
#include "cli/open.hpp"
#include "cli/typed_amount.hpp"
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

/// A problem as the person meets it: of the garden's file, and of the option that was typed.
base::Problem as_told(base::Problem problem, const StandOptions& options) {
  if (problem.where.file.empty()) problem.where.file = options.garden;
  std::string& field = problem.where.field;
  // The garden's check tells a part by its path, "stands[4].tray".
  if (field.starts_with("stands[")) field.erase(0, field.find_last_of('.') + 1);
  if (field == "from_m" && !options.from.empty()) {
    field = options.from.option;
  } else if (field == "spacing_mm" && !options.spacing.empty()) {
    field = options.spacing.option;
  } else {
    field = as_typed(field);
  }
  return problem;
}

constexpr double kMillimetresPerMetre = 1000.0;

/// Where in its bed, m; nothing where that was not told.
base::Result<std::optional<double>> from_m_told(const StandOptions& options, desk::Units units) {
  auto from = amount_of(options.from, base::Measure::millimetres, units);
  if (from && *from) **from /= kMillimetresPerMetre;
  return from;
}

/// The stand as it was told, with what people call by its name as its id, and lengths in their own units.
base::Result<desk::OwnStand> stand_told(const StandOptions& options, const book::GardenDescription& garden) {
  desk::OwnStand told = options.told;
  told.day = options.day.value_or(options.date);
  const crop::Crop* crop = crop::built_in_library().named(told.crop);
  const desk::Units units = desk::units_of(garden.units);
  const auto bed = bed_typed(told.bed, garden, "--bed");
  if (!bed) return tl::unexpected(bed.error());
  const auto tray = tray_typed(told.tray, garden, "--tray");
  if (!tray) return tl::unexpected(tray.error());
  // Without a crop of that name there is no stand, whatever its variety.
  const auto variety = crop == nullptr ? base::Result<std::string>(told.variety)
                                       : variety_typed(told.variety, crop->id, garden, "--variety");
  if (!variety) return tl::unexpected(variety.error());
  const auto from_m = from_m_told(options, units);
  if (!from_m) return tl::unexpected(from_m.error());
  const auto spacing_mm = amount_of(options.spacing, base::Measure::millimetres, units);
  if (!spacing_mm) return tl::unexpected(spacing_mm.error());
  told.bed = *bed;
  told.tray = *tray;
  told.variety = *variety;
  told.from_m = *from_m;
  told.spacing_mm = *spacing_mm;
  return told;
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
        "Put in or moved by hand there and now without room: {}. A plan leaves them alone; move them: "
        "sowtide stand GARDEN move STAND\n",
        by_hand);
  }
  return text;
}

std::string where_text(const stand::StandPlan& plan, const book::GardenDescription& garden) {
  const auto [from, to] = desk::stretch_texts(plan.from_m, plan.to_m, desk::units_of(garden.units));
  return fmt::format("{}, {} to {}", desk::bed_name(garden, plan.bed), from, to);
}

/// The day of sowing; of bought plants that they are, and the day of setting out.
std::string begun_text(const book::StandState& state, desk::Units units, base::Date today) {
  if (!desk::comes_bought(state.plan, state.facts))
    return desk::date_text(state.facts.sown.value_or(state.plan.sow), units, today);
  return "bought, " +
         desk::date_text(state.facts.set_out.value_or(stand::begins_on(state.plan)), units, today);
}

/// How and when a stand begins, or began by the log: "sown 3 May", "to be bought and set out 20 May".
std::string begun_in_words(const book::StandState& state, desk::Units units, base::Date today) {
  const bool bought = desk::comes_bought(state.plan, state.facts);
  const std::optional<base::Date>& done = bought ? state.facts.set_out : state.facts.sown;
  const bool to_come = desk::stand_stage(state.facts) == desk::StandStage::planned;
  return fmt::format("{}{} {}", to_come ? "to be " : "", bought ? "bought and set out" : "sown",
                     desk::date_text(done.value_or(stand::begins_on(state.plan)), units, today));
}

/// The stand as the season has it; null where there is none of that id.
const book::StandState* state_of(const desk::Season& season, const std::string& id) {
  const auto& stands = season.state.stands;
  const auto found =
      std::find_if(stands.begin(), stands.end(), [&id](const auto& each) { return each.plan.id == id; });
  return found == stands.end() ? nullptr : &*found;
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
    table.add({plan.id, season->library->name_of(plan.crop), where_text(plan, season->garden),
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
  const auto told = stand_told(options, opened->garden);
  if (!told) return tl::unexpected(as_told(told.error(), options));
  const auto made = desk::make_own_stand(crop::built_in_library(), opened->garden, opened->events,
                                         options.date, *told, desk::kOptionAdvice);
  if (!made) return tl::unexpected(as_told(made.error(), options));
  if (auto kept = opened->file.add_stand(made->plan, made->entries); !kept)
    return tl::unexpected(as_told(kept.error(), options));
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::own_stand_json(*made));
    return {};
  }
  const desk::Units units = desk::units_of(opened->garden.units);
  const book::Event& entry = made->entries.front();
  const bool to_come = entry.kind == book::EventKind::noted;
  const std::string done =
      std::string(to_come ? "to be " : "") + (told->bought ? "bought and set out" : "sown");
  fmt::print(output.out, "Stand {}: {} {}, {} on {}, {}.\n", made->plan.id, made->plan.clumps,
             made->plan.crop, done, desk::date_text(told->day, units, options.date),
             where_text(made->plan, opened->garden));
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
  const desk::Units units = desk::units_of(opened->garden.units);
  const auto from_m = from_m_told(options, units);
  if (!from_m) return tl::unexpected(as_told(from_m.error(), options));
  desk::StandMove move{.from_m = *from_m, .put_right = options.put_right};
  const auto stand = stand_typed(options.stand, opened->garden, "STAND");
  if (!stand) return tl::unexpected(as_told(stand.error(), options));
  const auto bed = bed_typed(options.told.bed, opened->garden, "--bed");
  if (!bed) return tl::unexpected(as_told(bed.error(), options));
  if (!bed->empty()) move.bed = *bed;
  const book::StandState* standing = state_of(*season, *stand);
  if (options.day) {
    if (standing != nullptr && desk::to_be_bought(standing->plan, standing->facts)) {
      move.set_out.emplace(options.day);
    } else {
      move.sow = options.day;
    }
  }
  const auto moved = desk::moved_stand(*season, *stand, move, desk::kOptionAdvice);
  if (!moved) return tl::unexpected(as_told(moved.error(), options));
  const auto giving_way = desk::check_room(*season, *moved, move.put_right);
  if (!giving_way) return tl::unexpected(as_told(giving_way.error(), options));
  const auto note = book::moving_entries(moved->id, opened->events, options.date);
  if (auto kept = opened->file.update_stand(desk::plan_to_write(*season, *moved, move), note); !kept)
    return tl::unexpected(as_told(kept.error(), options));
  const auto displaced = desk::displaced_stands(*season, opened->events, *giving_way);
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::moved_stand_json(*moved, displaced));
    return {};
  }
  fmt::print(output.out, "Stand {}: {}, {}.\n", moved->id, where_text(*moved, opened->garden),
             begun_in_words({*moved, standing->facts, {}, {}}, units, options.date));
  if (!note.empty())
    fmt::print(
        output.out,
        "The next plan leaves it there; to leave it to the plan again: sowtide stand GARDEN release {}\n",
        moved->id);
  fmt::print(output.out, "{}", displaced_text(displaced));
  return {};
}

base::Result<void> run_stand_release(const StandOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::unexpected(opened.error());
  const auto stand = stand_typed(options.stand, opened->garden, "STAND");
  if (!stand) return tl::unexpected(as_told(stand.error(), options));
  const auto corrections = book::releasing(*stand, opened->events, options.date);
  if (!corrections) return tl::unexpected(as_told(corrections.error(), options));
  if (auto taken = opened->file.append(*corrections); !taken)
    return tl::unexpected(as_told(taken.error(), options));
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::stand_released_json(*stand));
    return {};
  }
  fmt::print(output.out, "Stand {} is left to the next plan: it keeps it, moves it or does without it.\n",
             *stand);
  return {};
}

base::Result<void> run_stand_remove(const StandOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::unexpected(opened.error());
  const auto stand = stand_typed(options.stand, opened->garden, "STAND");
  if (!stand) return tl::unexpected(as_told(stand.error(), options));
  if (auto gone = opened->file.take_back_stand(*stand, options.date); !gone)
    return tl::unexpected(as_told(gone.error(), options));
  if (output.json) {
    fmt::print(output.out, "{}\n", desk::stand_gone_json(*stand));
    return {};
  }
  fmt::print(output.out, "Stand {} is taken back: nothing of it counts.\n", *stand);
  return {};
}

}  // namespace sowtide::cli
