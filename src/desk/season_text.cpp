#include "desk/season_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "desk/bed_sun.hpp"
#include "desk/harvest_total.hpp"
#include "desk/message.hpp"
#include "desk/present.hpp"
#include "desk/print/moments.hpp"
#include "desk/stand_stage.hpp"

namespace sowtide::desk {
namespace {

using Align = TextTable::Align;

std::string variety_name(const book::GardenDescription& garden, const std::string& id) {
  for (const crop::Variety& variety : garden.varieties) {
    if (variety.id == id) return variety.name;
  }
  return id;
}

std::string bed_name(const book::GardenDescription& garden, const std::string& id) {
  for (const bed::Bed& bed : garden.beds) {
    if (bed.id == id) return bed.name;
  }
  return id;
}

std::string what_text(const crop::CropLibrary& library, const book::GardenDescription& garden,
                      const stand::StandPlan& plan) {
  std::string text = library.name_of(plan.crop);
  if (plan.variety.empty()) return text;
  return fmt::format("{} {}", text, variety_name(garden, plan.variety));
}

std::string stretch_text(const book::GardenDescription& garden, const stand::StandPlan& plan) {
  if (plan.bed.empty()) return "-";
  const Units units = units_of(garden.units);
  const auto [from, to] = stretch_texts(plan.from_m, plan.to_m, units);
  return fmt::format("{} {} to {}", bed_name(garden, plan.bed), from, to);
}

std::string how_text(const stand::StandPlan& plan, const book::GardenDescription& garden) {
  if (plan.method == stand::Method::direct_sow) return "in place";
  for (const bed::Tray& tray : garden.trays) {
    if (tray.id == plan.tray) return fmt::format("{} cells, {}", plan.cells, tray.name);
  }
  return "in trays";
}

std::string set_text(const stand::StandPlan& plan, Units units) {
  std::string text = fmt::format("{}", plan.clumps);
  if (plan.plants_per_clump > 1.05) text += fmt::format(" x {:.3g}", plan.plants_per_clump);
  return fmt::format("{} at {}", text, spacing_text(plan.spacing_mm, units));
}

/// Over which weeks a stand that waits in the ground is picked; empty for others.
std::string standing_text(const stand::StandPlan& plan, Units units, base::Date today) {
  if (plan.pick_weeks == 0) return {};
  const std::string weeks = fmt::format("over {} weeks", plan.pick_weeks);
  if (!plan.pick_from) return weeks + " once ready";
  return fmt::format("{} from {}", weeks, date_text(*plan.pick_from, units, today));
}

std::string wants_table(const plan::Plan& plan, const book::GardenDescription& garden,
                        const crop::CropLibrary& library) {
  const Units units = units_of(garden.units);
  TextTable table({"want", "wanted", "reaches the table", "share", "short in"},
                  {Align::left, Align::right, Align::right, Align::right, Align::left});
  std::map<std::string, int> short_weeks;
  for (const plan::Shortage& shortage : plan.shortages) ++short_weeks[shortage.want];
  for (const plan::Want& want : garden.wants) {
    const auto wanted = plan.wanted_g.find(want.id);
    if (wanted == plan.wanted_g.end()) continue;
    const auto found = plan.supplied_g.find(want.id);
    const double supplied = found == plan.supplied_g.end() ? 0.0 : found->second;
    const std::string name =
        want.crop.empty() ? fmt::format("any {}", want.group) : library.name_of(want.crop);
    const int weeks = short_weeks[want.id];
    table.add({name, weight_text(wanted->second, units), weight_text(supplied, units),
               wanted->second > 0.0 ? percent_text(supplied / wanted->second) : "-",
               weeks == 0 ? "" : fmt::format("{} week{}", weeks, weeks == 1 ? "" : "s")});
  }
  return table.text();
}

std::string event_text(const stand::Outlook& outlook, std::string_view name, Units units, base::Date today) {
  const stand::EventOutlook* event = expected_event(outlook, name);
  if (event == nullptr) return "-";
  if (event->p10 == event->p90) return date_text(event->p50, units, today);
  return fmt::format("{} ({} to {})", date_text(event->p50, units, today),
                     date_text(event->p10, units, today), date_text(event->p90, units, today));
}

/// What is still to come in all, what was picked, and how many plants stand by the last count.
std::string total_text(const book::StandState& state, const stand::Outlook& outlook, Units units) {
  const base::Quantiles total_g = still_to_come_g(outlook);
  std::string text = fmt::format("\nIn all still to come: {} (1 in 10 less than {}, 1 in 10 more than {}).",
                                 weight_text(total_g.p50, units), weight_text(total_g.p10, units),
                                 weight_text(total_g.p90, units));
  if (state.facts.picked_g > 0.0)
    text += fmt::format(" Picked so far: {}.", weight_text(state.facts.picked_g, units));
  if (state.facts.counted_plants) {
    text += fmt::format(" Plants by the last count and what was taken since: {}.",
                        std::max(0, *state.facts.counted_plants - state.facts.plants_removed));
  }
  return text + "\n";
}

/// A paragraph where its bed has less sun than the crop asks for.
std::string sun_text(const Season& season, const stand::StandPlan& plan) {
  const auto crop = season.library->find(plan.crop);
  const std::vector<Message> said = crop ? sun_said(season.garden, **crop, plan) : std::vector<Message>{};
  return said.empty() ? std::string{}
                      : sentence_text(said, units_of(season.garden.units), season.today) + "\n\n";
}

std::string one_outlook_text(const Season& season, std::size_t index) {
  const Units units = units_of(season.garden.units);
  const book::StandState& state = season.state.stands[index];
  const stand::Outlook& outlook = season.outlooks[index];
  const std::string waits = standing_text(state.plan, units, season.today);
  std::string text = fmt::format(
      "{}: {}, {}, {}{}. Worth having in {} of the weather years{}.\n\n", state.plan.id,
      what_text(*season.library, season.garden, state.plan), stretch_text(season.garden, state.plan),
      set_text(state.plan, units), waits.empty() ? waits : ", picked " + waits, percent_text(outlook.success),
      outlook.limits.empty() ? std::string{} : fmt::format("; limited by {}", outlook.limits));
  text += sun_text(season, state.plan);
  TextTable events({"what", "1 in 10 by", "half by", "9 in 10 by", "chance"});
  for (const stand::EventOutlook& event : outlook.events) {
    const auto day = [&](base::Date date) {
      return event.probability > 0.0 ? date_text(date, units, season.today) : std::string("-");
    };
    events.add({event.name, day(event.p10), day(event.p50), day(event.p90), percent_text(event.probability)});
  }
  text += events.text() + "\n";
  TextTable weeks({"week of", "low", "middle", "high", "something ready"},
                  {Align::left, Align::right, Align::right, Align::right, Align::right});
  bool any = false;
  for (const stand::WeekOutlook& week : outlook.weeks) {
    if (week.weight_g.p90 <= 0.0) continue;
    any = true;
    weeks.add({date_text(week.week_start, units, season.today), weight_text(week.weight_g.p10, units),
               weight_text(week.weight_g.p50, units), weight_text(week.weight_g.p90, units),
               percent_text(week.ready_probability)});
  }
  return any ? text + weeks.text() + total_text(state, outlook, units) : text;
}

/// What a garden lacks to be planned, and how it gets it.
std::string no_stands_text(const book::GardenDescription& garden) {
  const bool no_beds = garden.beds.empty(), no_wants = garden.wants.empty();
  if (!no_beds && !no_wants) return "No stand helps with what is wanted; the reasons stand below.\n\n";
  const std::string_view what = no_beds && no_wants ? "beds or wants" : no_beds ? "beds" : "wants";
  return fmt::format(
      "Nothing can be planned: the garden has no {}. Write them into its description and make the garden "
      "from that with `sowtide new GARDEN --from FILE.toml`, or enter them in the browser with "
      "`sowtide serve GARDEN`.\n\n",
      what);
}

std::string empty_worklist_text(const Season& season, int days) {
  if (season.state.stands.empty()) return "Nothing is planned yet. Next: sowtide plan GARDEN\n";
  return fmt::format("Nothing to do within {} days.\n", days);
}

/// How the work is logged once it is done: here the id of the stand is wanted.
std::string log_line(const Task& task) {
  if (task.log_event.empty()) return {};
  std::string words = task.log_event;
  if (!task.stand.empty()) words += " " + task.stand;
  if (!task.target.empty()) words += " --target " + task.target;
  if (task.log_count >= 1.0) words += fmt::format(" --count {:.0f}", task.log_count);
  if (task.log_event == "picked" || task.log_event == "eaten") words += " --grams …";
  return fmt::format("                 done: log GARDEN {}\n", words);
}

/// What of all that is at stake the plan keeps, in the years it was made with, in others, and in bad ones.
std::string kept_text(const plan::Plan& plan) {
  if (!(plan.wanted_value > 0.0)) return {};
  const auto kept = [&](double objective) {
    return percent_text(std::max(0.0, 1.0 - objective / plan.wanted_value));
  };
  return fmt::format(
      "\nKept of what the wants are worth: {} in the weather years planned with, {} in years the plan has "
      "not seen, "
      "{} in the worst fifth of all.\n",
      kept(plan.objective), kept(plan.unseen_objective), kept(plan.bad_years_objective));
}

/// Whether a note says that one want is short, and then why.
bool tells_a_short_want(const plan::Note& note) {
  return note.size() == 2 && note.front().key == "want-short";
}

std::string short_want(const plan::Note& note) {
  for (const auto& [name, value] : note.front().values) {
    if (name == "want") return std::get<std::string>(value);
  }
  return {};
}

/// What limits the plan. Wants that one thing holds back stand in one line; their numbers are in the table
/// above.
std::string limits_text(const plan::Plan& plan, Units units, base::Date today) {
  std::vector<std::pair<std::string, std::string>> reasons;  // and the wants it holds back
  std::string others;
  for (const plan::Note& note : plan.notes) {
    if (!tells_a_short_want(note)) {
      others += fmt::format("\n- {}", sentence_text(note, units, today));
      continue;
    }
    const std::string reason = message_text(note.back(), units, today);
    const std::string want = short_want(note);
    auto found = std::find_if(reasons.begin(), reasons.end(),
                              [&](const auto& known) { return known.first == reason; });
    if (found == reasons.end()) found = reasons.insert(found, {reason, ""});
    found->second += (found->second.empty() ? "" : ", ") + want;
  }
  std::string text;
  for (const auto& [reason, wants] : reasons) text += fmt::format("\n- Short, since {}: {}.", reason, wants);
  return text + others;
}

}  // namespace

std::string windows_text(const std::string& place, const std::string& weather_source,
                         const std::vector<stand::SowingWindow>& windows,
                         const std::vector<NoWindow>& without, double level) {
  std::string text = fmt::format("{}: sowing days with a chance of {} or more (weather: {})\n\n", place,
                                 percent_text(level), weather_source);
  TextTable table({"crop", "how", "from", "to", "chance"},
                  {Align::left, Align::left, Align::right, Align::right, Align::right});
  for (const stand::SowingWindow& window : windows) {
    table.add({window.crop, window.method, base::to_text(window.span.from), base::to_text(window.span.to),
               percent_text(window.success)});
  }
  if (!windows.empty()) text += table.text();
  if (without.empty()) return text;
  if (!windows.empty()) text += "\n";
  for (const NoWindow& crop : without) {
    if (crop.success >= level) {
      text += fmt::format("No window for {}: it has too few good days in a row.\n", crop.crop);
      continue;
    }
    text += fmt::format("No window for {}: its best days have a chance of {}; most in the way: {}.\n",
                        crop.crop, percent_text(crop.success), stand::limit_text(crop.limit));
  }
  return text + "Ask for less with --level.\n";
}

std::string plan_text(const plan::Plan& plan, const book::GardenDescription& garden,
                      const crop::CropLibrary& library, base::Date today) {
  const Units units = units_of(garden.units);
  const bool cut = std::any_of(plan.notes.begin(), plan.notes.end(), [](const plan::Note& note) {
    return !note.empty() && note.front().key == "choices-cut-short";
  });
  std::string text = fmt::format("{}: {} stands. Within {:.2f} % of the best {} ({}; {:.1f} s).\n\n", garden.name,
                                 plan.stands.size(), 100.0 * plan.gap,
                                 cut ? "of the sowings that were looked at" : "possible", plan.status, plan.seconds);
  if (garden.warming_c != 0.0) {
    text += fmt::format("Reckoned with a climate {:g} °C {}, as the garden states.\n\n",
                        std::abs(garden.warming_c), garden.warming_c > 0.0 ? "warmer" : "colder");
  }
  if (plan.stands.empty()) text += no_stands_text(garden);
  std::vector<const stand::StandPlan*> stands;
  for (const stand::StandPlan& stand : plan.stands) stands.push_back(&stand);
  std::stable_sort(stands.begin(), stands.end(),
                   [](const stand::StandPlan* a, const stand::StandPlan* b) { return a->sow < b->sow; });
  const bool any_waits =
      std::any_of(stands.begin(), stands.end(), [](const auto* s) { return s->pick_weeks > 0; });
  std::vector<std::string> heading{"stand", "sow", "what", "how", "set", "where"};
  if (any_waits) heading.emplace_back("picked");
  TextTable table(heading);
  for (const stand::StandPlan* stand : stands) {
    std::vector<std::string> row{stand->id,
                                 date_text(stand->sow, units, today),
                                 what_text(library, garden, *stand),
                                 how_text(*stand, garden),
                                 set_text(*stand, units),
                                 stretch_text(garden, *stand)};
    if (any_waits) row.push_back(standing_text(*stand, units, today));
    table.add(std::move(row));
  }
  if (!stands.empty()) text += table.text() + "\n";
  if (!garden.wants.empty()) text += wants_table(plan, garden, library) + kept_text(plan);
  text += limits_text(plan, units, today);
  if (!plan.changes.empty()) text += "\n\nAgainst the plan before:";
  for (const plan::Note& change : plan.changes)
    text += fmt::format("\n- {}", sentence_text(change, units, today));
  if (!plan.worths.empty())
    text += "\n\nAny one of these would bring at most so many servings more over the whole plan:";
  for (const plan::Worth& worth : plan.worths)
    text += fmt::format("\n- {:.1f}: {}", worth.servings, message_text(worth.what, units, today));
  return plan.notes.empty() && plan.changes.empty() && plan.worths.empty() ? text : text + "\n";
}

std::string outlook_text(const Season& season, const std::string& only) {
  const Units units = units_of(season.garden.units);
  std::string text = fmt::format("{} on {} (weather: {})\n\n", season.garden.name, base::to_iso(season.today),
                                 season.weather.source);
  if (!only.empty()) {
    for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
      if (season.state.stands[i].plan.id == only) return text + one_outlook_text(season, i);
    }
  }
  if (season.state.stands.empty())
    return text + "Nothing is planned or sown yet. Next: sowtide plan GARDEN\n";
  TextTable table({"stand", "what", "where", "state", "up", "set out", "first pick", "last pick", "chance"});
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const book::StandState& state = season.state.stands[i];
    const stand::Outlook& outlook = season.outlooks[i];
    table.add(
        {state.plan.id, what_text(*season.library, season.garden, state.plan),
         stretch_text(season.garden, state.plan), std::string(stand_stage_text(stand_stage(state.facts))),
         event_text(outlook, "emerge", units, season.today),
         state.plan.method == stand::Method::direct_sow ? "-"
                                                        : event_text(outlook, "set-out", units, season.today),
         event_text(outlook, "first-pick", units, season.today),
         event_text(outlook, "last-pick", units, season.today), percent_text(outlook.success)});
  }
  return text + table.text();
}

std::string worklist_text(const Season& season, const std::vector<Task>& tasks, int days) {
  const Units units = units_of(season.garden.units);
  std::string text = fmt::format("{}, {}: work for {} days, what costs most to leave first\n\n",
                                 season.garden.name, base::to_iso(season.today), days);
  if (tasks.empty()) return text + empty_worklist_text(season, days);
  for (const Task& task : tasks) {
    const std::string what =
        task.variety.empty() ? task.crop_name : fmt::format("{} {}", task.crop_name, task.variety);
    text += fmt::format("{:<16} {}, {}\n", task.kind, what, task.place);
    text += fmt::format("                 {}\n", task.amount);
    text +=
        fmt::format("                 best {}, at the latest {}\n", date_text(task.due, units, season.today),
                    date_text(task.latest, units, season.today));
    text += fmt::format("                 why: {}\n", task.reason);
    if (!task.caution.empty()) text += fmt::format("                 care: {}\n", task.caution);
    text += log_line(task) + "\n";
  }
  return text;
}

}  // namespace sowtide::desk
