#include "desk/season_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "desk/bed_sun.hpp"
#include "desk/message.hpp"
#include "desk/present.hpp"
#include "desk/print/moments.hpp"
#include "desk/pulling.hpp"
#include "desk/stand_stage.hpp"
#include "desk/standing.hpp"
#include "stand/bought.hpp"
#include "stand/harvest_total.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

using Align = TextTable::Align;

std::string variety_name(const book::GardenDescription& garden, const std::string& id) {
  for (const crop::Variety& variety : garden.varieties) {
    if (variety.id == id) return variety.name;
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
  if (to_be_bought(plan, {})) return counted(std::lround(stand::planned_plants(plan)), "plant") + " to buy";
  for (const bed::Tray& tray : garden.trays) {
    if (tray.id == plan.tray)
      return fmt::format("{}, {}", counted(stand::places_of(plan), "cell"), tray.name);
  }
  return "in trays";
}

std::string set_text(const stand::StandPlan& plan, Units units) {
  std::string text = fmt::format("{}", plan.clumps);
  if (stand::several_to_a_clump(plan)) text += fmt::format(" x {:.3g}", plan.plants_per_clump);
  return fmt::format("{} at {}", text, spacing_text(plan.spacing_mm, units));
}

/// An id as people read it: "cooking-greens" is "cooking greens".
std::string in_words(std::string id) {
  std::replace(id.begin(), id.end(), '-', ' ');
  return id;
}

/// Over which weeks a stand that waits in the ground is pulled, from which day on; empty for others.
std::string pulled_over_text(const book::StandState& state, const stand::Outlook& outlook, Units units,
                             base::Date today) {
  if (state.plan.pick_weeks == 0) return {};
  const std::string weeks = "over " + counted(pulled_weeks(state, outlook), "week");
  const auto from = pulled_from(state, outlook);
  if (!from) return weeks + " once ready";
  return fmt::format("{} from {}", weeks, date_text(*from, units, today));
}

std::string any_of_group(const std::string& group) {
  return fmt::format("any {}", in_words(group));
}

/// What is wanted, by its name: "Carrot", "any cooking greens".
std::string wanted_name(const plan::Want& want, const crop::CropLibrary& library) {
  return want.crop.empty() ? any_of_group(want.group) : library.name_of(want.crop);
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
    const std::string name = wanted_name(want, library);
    const int weeks = short_weeks[want.id];
    table.add({name, weight_text(wanted->second, units), weight_text(supplied, units),
               wanted->second > 0.0 ? percent_text(supplied / wanted->second) : "-",
               weeks == 0 ? "" : counted(weeks, "week")});
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

/// The first picking; of a stand that the plan holds back the plan's day, and when it would be ready.
std::string first_pick_text(const Season& season, std::size_t index) {
  const Units units = units_of(season.garden.units);
  const auto ready = ready_by_itself(season, index);
  const std::string day = event_text(season.outlooks[index], "first-pick", units, season.today);
  if (!ready || day == "-") return day;
  return fmt::format("from {} (ready {} to {})", day, date_text(ready->p10, units, season.today),
                     date_text(ready->p90, units, season.today));
}

/// The events of a stand's life; of one that the plan holds back, when it would be ready and the plan's day.
std::vector<stand::EventOutlook> told_events(const Season& season, std::size_t index) {
  std::vector<stand::EventOutlook> events = season.outlooks[index].events;
  auto ready = ready_by_itself(season, index);
  const auto first = std::find_if(events.begin(), events.end(), [](const stand::EventOutlook& event) {
    return event.name == "first-pick";
  });
  if (!ready || first == events.end()) return events;
  first->name = "picked from";
  ready->name = "ready";
  events.insert(first, *ready);
  return events;
}

/// What is still to come in all, what was picked, and how many plants stand by the last count.
std::string total_text(const book::StandState& state, const stand::Outlook& outlook, Units units) {
  const base::Quantiles total_g = stand::still_to_come_g(outlook);
  std::string text = fmt::format("\nIn all still to come: {} (1 in 10 less than {}, 1 in 10 more than {}).",
                                 weight_text(total_g.p50, units), weight_text(total_g.p10, units),
                                 weight_text(total_g.p90, units));
  if (state.facts.picked_g > 0.0)
    text += fmt::format(" Picked so far: {}.", weight_text(state.facts.picked_g, units));
  if (state.facts.greens_g > 0.0)
    text += fmt::format(" Leaves picked so far: {}.", weight_text(state.facts.greens_g, units));
  if (state.facts.counted_plants) {
    text += fmt::format(" Plants by the last count and what was taken since: {}.",
                        stand::plants_left(state.plan, state.facts));
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

/// Why nothing is reckoned of a stand; empty where it is.
std::string no_outlook_text(const Season& season, const std::string& stand) {
  const auto none = season.no_outlook.find(stand);
  if (none == season.no_outlook.end()) return {};
  return fmt::format("No outlook: {}. {}.", none->second.what, none->second.remedy);
}

/// In how many of the weather years it is worth having, and what keeps it from that; nothing of a stand that
/// is over.
std::string chance_text(const Season& season, const book::StandState& state, const stand::Outlook& outlook) {
  if (std::string none = no_outlook_text(season, state.plan.id); !none.empty()) return " " + none;
  if (state.facts.finished) return " It is over; this is what the log tells of it.";
  return fmt::format(" Worth having in {} of the weather years{}.", percent_text(outlook.success),
                     outlook.limits.empty() ? std::string{} : fmt::format("; limited by {}", outlook.limits));
}

/// How many plants have reached which size on a day; empty where nothing of that is known, or none has.
std::string standing_text(const Season& season, std::size_t index, base::Date on) {
  const Units units = units_of(season.garden.units);
  const auto standing = standing_on(season, index, on);
  if (!standing || standing->empty() || !(standing->front().plants.p90 > 0.0)) return {};
  TextTable table({"size", "from", "plants: low", "middle", "high", "weight: low", "middle", "high"},
                  {Align::left, Align::right, Align::right, Align::right, Align::right, Align::right,
                   Align::right, Align::right});
  const auto count = [](double plants) { return fmt::format("{:.0f}", plants); };
  for (const stand::ReachedSize& each : *standing) {
    table.add({each.size == "over_size" ? "over-size" : std::string(each.size),
               weight_text(each.least_g, units), count(each.plants.p10), count(each.plants.p50),
               count(each.plants.p90), weight_text(each.grams.p10, units), weight_text(each.grams.p50, units),
               weight_text(each.grams.p90, units)});
  }
  return fmt::format("\nOn {}, left alone until then, this size or larger:\n\n{}",
                     date_text(on, units, season.today), table.text());
}

std::string one_outlook_text(const Season& season, std::size_t index, base::Date on) {
  const Units units = units_of(season.garden.units);
  const book::StandState& state = season.state.stands[index];
  const stand::Outlook& outlook = season.outlooks[index];
  const std::string waits = pulled_over_text(state, outlook, units, season.today);
  std::string text = fmt::format(
      "{}: {}, {}, {}{}.{}\n\n", state.plan.id, what_text(*season.library, season.garden, state.plan),
      stretch_text(season.garden, state.plan), set_text(state.plan, units),
      waits.empty() ? waits : ", picked " + waits, chance_text(season, state, outlook));
  text += sun_text(season, state.plan);
  TextTable events({"what", "1 in 10 by", "half by", "9 in 10 by", "chance"});
  for (const stand::EventOutlook& event : told_events(season, index)) {
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
  if (any) text += weeks.text() + total_text(state, outlook, units);
  return text + standing_text(season, index, on);
}

/// What a garden lacks to be planned, and how it gets it.
std::string no_stands_text(const book::GardenDescription& garden) {
  const bool no_beds = garden.beds.empty(), no_wants = garden.wants.empty();
  if (!no_beds && !no_wants) return "No stand helps with what is wanted; the reasons stand below.\n\n";
  const std::string_view what = no_beds && no_wants ? "beds or wants" : no_beds ? "beds" : "wants";
  constexpr std::string_view kBed =
      "  [[beds]]\n  id = \"south\"\n  name = \"South bed\"\n  length_m = 3.0\n  width_m = 1.2\n";
  constexpr std::string_view kWant =
      "  [[wants]]\n  id = \"carrots\"\n  crop = \"carrot\"\n  amount_per_week = 500\n  unit = \"grams\"\n";
  return fmt::format(
      "Nothing can be planned: the garden has no {}. Enter them in the browser with `sowtide serve GARDEN`, "
      "or "
      "let\n`sowtide export GARDEN DIR` write its description, add to DIR/garden.toml for "
      "example\n\n{}{}\nand "
      "make a garden from that: `sowtide new NEW.sowtide --from DIR/garden.toml`.\n\n",
      what, no_beds ? kBed : "", no_wants ? kWant : "");
}

/// The share of all that is at stake that a plan of this cost keeps.
std::string kept_share_text(const plan::Plan& plan, double cost) {
  return percent_text(std::max(0.0, 1.0 - cost / plan.wanted_value));
}

/// What of it is kept in years the plan was not made with, and in bad ones.
std::string kept_text(const plan::Plan& plan) {
  if (!(plan.wanted_value > 0.0)) return {};
  return fmt::format(
      "\nOf what the wants are worth, {} is kept in years the plan has not seen, {} in the worst fifth of "
      "all.\n",
      kept_share_text(plan, plan.unseen_objective), kept_share_text(plan, plan.bad_years_objective));
}

/// What it comes to in one line: what it keeps, what any plan could, and how it ended.
std::string headline(const plan::Plan& plan, const book::GardenDescription& garden) {
  const std::string stands = counted(plan.stands.size(), "stand");
  if (!(plan.wanted_value > 0.0))
    return fmt::format("{}: {} ({}; {:.1f} s).\n\n", garden.name, stands, plan.status, plan.seconds);
  return fmt::format(
      "{}: {} {} {} of what the wants are worth. No plan of the {} sowings looked at could keep more "
      "than {}\n"
      "(proven; of what is lost at most {:.1f} % could be saved; {}; {:.1f} s).\n\n",
      garden.name, stands, plan.stands.size() == 1 ? "that keeps" : "that keep",
      kept_share_text(plan, plan.objective), plan.candidates, kept_share_text(plan, plan.bound),
      100.0 * plan.gap, plan.status, plan.seconds);
}

/// Whether a note says that one want is short, and then why.
bool tells_a_short_want(const plan::Note& note) {
  return note.size() == 2 && note.front().key == "want-short";
}

/// The short want by its name, and by its id where two are called the same: the note has a group by the
/// group's id.
std::string short_want(const plan::Note& note, const book::GardenDescription& garden) {
  std::string name = base::value_in<std::string>(&note.front(), "want").value_or("");
  const auto id = base::value_in<std::string>(&note.front(), "want_id");
  for (const plan::Want& want : garden.wants) {
    if (want.id == id && want.crop.empty() && name.starts_with(want.group))
      return any_of_group(want.group) + name.substr(want.group.size());
  }
  return name;
}

/// What limits the plan. Wants that one thing holds back stand in one line; their numbers are in the table
/// above.
std::string limits_text(const plan::Plan& plan, const book::GardenDescription& garden, Units units,
                        base::Date today) {
  std::vector<std::pair<std::string, std::string>> reasons;  // and the wants it holds back
  std::string others;
  for (const plan::Note& note : plan.notes) {
    if (!tells_a_short_want(note)) {
      others += fmt::format("\n- {}", sentence_text(note, units, today));
      continue;
    }
    const std::string reason = message_text(note.back(), units, today);
    const std::string want = short_want(note, garden);
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

/// What a stand's reasons say of it, by key; nothing where they do not.
const base::Message* reason_of(const plan::Plan& plan, const std::string& stand, std::string_view key) {
  const auto note = plan.reasons.find(stand);
  if (note == plan.reasons.end()) return nullptr;
  const auto found = std::find_if(note->second.begin(), note->second.end(),
                                  [key](const base::Message& message) { return message.key == key; });
  return found == note->second.end() ? nullptr : &*found;
}

/// The likely day on which a stand from a tray goes out, or the day of bought plants.
std::string set_out_text(const plan::Plan& plan, const stand::StandPlan& stand, Units units, base::Date today) {
  if (to_be_bought(stand, {})) return date_text(stand::begins_on(stand), units, today);
  const base::Message* goes_out = reason_of(plan, stand.id, "goes-out");
  if (const auto day = base::value_in<base::Date>(goes_out, "set_out")) return date_text(*day, units, today);
  const auto week = base::value_in<base::Date>(goes_out, "week");
  return week ? "week of " + date_text(*week, units, today) : "-";
}

/// In how many of the years a stand is worth having, where that is no matter of course.
std::optional<double> doubtful_share(const plan::Plan& plan, const std::string& stand) {
  constexpr double kMatterOfCourse = 0.9;
  const auto share = base::value_in<double>(reason_of(plan, stand, "succeeds"), "success_share");
  return share && *share < kMatterOfCourse ? share : std::nullopt;
}

/// What the shares in the table's last column are, with the first of them; empty where there are none.
std::string shares_text(const plan::Plan& plan, const std::vector<const stand::StandPlan*>& stands) {
  for (const stand::StandPlan* stand : stands) {
    if (const auto share = doubtful_share(plan, stand->id)) {
      return fmt::format("({}): in so many of the weather years it is worth having.\n", percent_text(*share));
    }
  }
  return {};
}

/// From when to when it is picked or pulled, weeks by their Mondays, and how often that succeeds where it is no
/// matter of course.
std::string picked_text(const plan::Plan& plan, const stand::StandPlan& stand, Units units,
                        base::Date today) {
  const base::Message* brings = reason_of(plan, stand.id, "stand-brings");
  const auto from = base::value_in<base::Date>(brings, "from"), to = base::value_in<base::Date>(brings, "to");
  if (!from || !to) return "-";
  std::string text = date_text(*from, units, today);
  if (*to != *from) text += " to " + date_text(*to, units, today);
  if (const auto share = doubtful_share(plan, stand.id)) text += fmt::format(" ({})", percent_text(*share));
  return text;
}

/// The day of sowing; of bought plants, which are sown elsewhere, that they are.
std::string sow_text(const stand::StandPlan& stand, Units units, base::Date today) {
  return to_be_bought(stand, {}) ? "bought" : date_text(stand.sow, units, today);
}

/// The plan's stands by the day on which the garden begins with them.
std::vector<const stand::StandPlan*> by_day(const plan::Plan& plan) {
  std::vector<const stand::StandPlan*> stands;
  for (const stand::StandPlan& stand : plan.stands) stands.push_back(&stand);
  std::stable_sort(stands.begin(), stands.end(), [](const stand::StandPlan* a, const stand::StandPlan* b) {
    return stand::begins_on(*a) < stand::begins_on(*b);
  });
  return stands;
}

std::string plan_reasons_text(const plan::Plan& plan, const book::GardenDescription& garden,
                              const crop::CropLibrary& library, base::Date today) {
  const Units units = units_of(garden.units);
  std::string text;
  for (const stand::StandPlan* stand : by_day(plan)) {
    const auto reason = plan.reasons.find(stand->id);
    if (reason == plan.reasons.end()) continue;
    text += fmt::format("{} {}, {}: {}\n", stand->id, what_text(library, garden, *stand),
                        stretch_text(garden, *stand), sentence_text(reason->second, units, today));
  }
  return text;
}

std::string plan_text(const plan::Plan& plan, const book::GardenDescription& garden,
                      const crop::CropLibrary& library, base::Date today) {
  const Units units = units_of(garden.units);
  std::string text = headline(plan, garden);
  if (garden.warming_c != 0.0) {
    text += fmt::format("Reckoned with a climate {:g} °C {}, as the garden states.\n\n",
                        std::abs(garden.warming_c), garden.warming_c > 0.0 ? "warmer" : "colder");
  }
  if (plan.stands.empty()) text += no_stands_text(garden);
  const std::vector<const stand::StandPlan*> stands = by_day(plan);
  TextTable table({"stand", "sow", "what", "how", "set out", "set", "where", "picked, weeks of"});
  for (const stand::StandPlan* stand : stands) {
    table.add({stand->id, sow_text(*stand, units, today), what_text(library, garden, *stand),
               how_text(*stand, garden), set_out_text(plan, *stand, units, today), set_text(*stand, units),
               stretch_text(garden, *stand), picked_text(plan, *stand, units, today)});
  }
  if (!stands.empty()) text += table.text() + shares_text(plan, stands) + "\n";
  if (!garden.wants.empty()) text += wants_table(plan, garden, library) + kept_text(plan);
  text += limits_text(plan, garden, units, today);
  if (!plan.changes.empty()) text += "\n\nAgainst the plan before:";
  for (const plan::Note& change : plan.changes)
    text += fmt::format("\n- {}", sentence_text(change, units, today));
  if (!plan.worths.empty())
    text += "\n\nAny one of these would bring at most so many servings more over the whole plan:";
  for (const plan::Worth& worth : plan.worths)
    text += fmt::format("\n- {:.1f}: {}", worth.servings, messages_text(worth.what, units, today));
  return plan.notes.empty() && plan.changes.empty() && plan.worths.empty() ? text : text + "\n";
}

std::string outlook_text(const Season& season, const std::string& only, std::optional<base::Date> on) {
  const Units units = units_of(season.garden.units);
  std::string text = fmt::format("{} on {} (weather: {})\n\n", season.garden.name, base::to_iso(season.today),
                                 season.weather.source);
  if (!only.empty()) {
    for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
      if (season.state.stands[i].plan.id == only)
        return text + one_outlook_text(season, i, on.value_or(season.today));
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
         first_pick_text(season, i), event_text(outlook, "last-pick", units, season.today),
         state.facts.finished || season.no_outlook.contains(state.plan.id) ? "-"
                                                                           : percent_text(outlook.success)});
  }
  text += table.text();
  for (const book::StandState& state : season.state.stands) {
    if (const std::string none = no_outlook_text(season, state.plan.id); !none.empty())
      text += "\n" + none + "\n";
  }
  return text;
}

}  // namespace sowtide::desk
