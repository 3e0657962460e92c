// The nursery as JSON and as tables.
#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>

#include "book/words.hpp"
#include "desk/json_number.hpp"
#include "desk/message_json.hpp"
#include "desk/nursery.hpp"
#include "desk/present.hpp"
#include "desk/raising.hpp"
#include "desk/stand_stage.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;

constexpr double kSquareMillimetres = 1e6;

Json number(double value, int decimals = 3) {
  return json_number(value, decimals);
}

Json optional_number(const std::optional<double>& value) {
  return value ? number(*value) : Json(nullptr);
}

std::string variety_name(const Season& season, const std::string& id) {
  for (const crop::Variety& variety : season.garden.varieties) {
    if (variety.id == id) return variety.name;
  }
  return id;
}

std::string crop_name(const Season& season, std::size_t stand) {
  const auto found = season.library->find(season.state.stands[stand].plan.crop);
  return found ? (*found)->name : season.state.stands[stand].plan.crop;
}

Json date_json(const std::optional<base::Date>& date) {
  return date ? Json(base::to_iso(*date)) : Json(nullptr);
}

Json event_json(const stand::EventOutlook& event) {
  if (event.probability <= 0.0) return nullptr;
  return {{"p10", base::to_iso(event.p10)},
          {"p50", base::to_iso(event.p50)},
          {"p90", base::to_iso(event.p90)},
          {"probability", number(event.probability)}};
}

Json ready_json(const stand::NurseryOutlook& o) {
  if (o.up.probability <= 0.0) return nullptr;
  return {{"earliest", event_json(o.earliest)},
          {"best", event_json(o.best)},
          {"latest", event_json(o.latest)},
          {"latest_reason", o.latest_reason == stand::TooOld::bolting ? "bolting" : "root-bound"}};
}

Json pot_on_json(const RaisedStand& raised) {
  const auto& pot_on = raised.outlook.pot_on;
  if (!pot_on) return nullptr;
  return {{"from", base::to_iso(pot_on->from)},
          {"latest", base::to_iso(pot_on->latest)},
          {"into_width_mm", number(pot_on->into_width_mm)},
          {"pots", raised.cells},
          {"reason", "its roots fill the cell before it can go out"}};
}

Json late_cost_json(const RaisedStand& raised) {
  Json list = Json::array();
  for (const stand::LateSetOut& late : raised.late_cost) {
    const double on_time_g = raised.late_cost.front().harvest_g;
    const double lost_g = on_time_g - late.harvest_g;
    list.push_back({{"weeks_late", late.weeks_late},
                    {"set_out", base::to_iso(late.set_out)},
                    {"success", number(late.success)},
                    {"harvest_g", number(late.harvest_g, 0)},
                    {"lost_g", number(lost_g, 0)},
                    {"lost_share", number(on_time_g > 0.0 ? lost_g / on_time_g : 0.0)}});
  }
  return list;
}

Json stand_json(const Season& season, const RaisedStand& raised) {
  const book::StandState& state = season.state.stands[raised.stand];
  const stand::NurseryOutlook& o = raised.outlook;
  const bed::Tray* tray = tray_of(season.garden, state.plan);
  const auto crop = crop_of(season, state.plan);
  const bool mat = tray != nullptr && tray->place == bed::TrayPlace::heat_mat;
  Json harden = nullptr;
  if (o.harden_from && o.set_out)
    harden = {{"from", base::to_iso(*o.harden_from)}, {"days", (*o.set_out - *o.harden_from).count()}};
  std::string caution = crop ? crop->nursery.caution : "";
  if (mat) {
    if (!caution.empty()) caution += " ";
    caution += "Electric heat near water: follow the maker's instructions and use a residual-current device.";
  }
  return {{"stand", state.plan.id},
          {"crop", state.plan.crop},
          {"crop_name", crop_name(season, raised.stand)},
          {"variety", state.plan.variety},
          {"variety_name", variety_name(season, state.plan.variety)},
          {"tray", state.plan.tray},
          {"tray_name", tray != nullptr ? tray->name : ""},
          {"place", book::word_of(book::kTrayPlaceWords, tray != nullptr ? tray->place : bed::TrayPlace::indoors)},
          {"cells", raised.cells},
          {"seeds_per_cell", number(state.plan.seeds_per_cell)},
          {"cell_width_mm", number(raised.cell_width_mm)},
          {"usual_cell_width_mm", crop ? number(crop->nursery.cell_width_mm) : Json(0)},
          {"state", stand_stage_text(stand_stage(state.facts))},
          {"sow", base::to_iso(state.facts.sown.value_or(state.plan.sow))},
          {"up", event_json(o.up)},
          {"pot_on", pot_on_json(raised)},
          {"harden_off", harden},
          {"ready", ready_json(o)},
          {"set_out", date_json(o.set_out)},
          {"set_out_decided", o.set_out_decided},
          {"verdict", stand::nursery_verdict_text(o.verdict)},
          {"reason", raised.reason},
          {"late_cost", late_cost_json(raised)},
          {"caution", caution}};
}

Json week_json(const Season& season, const NurseryWeek& week) {
  Json use = Json::array();
  Json over = Json::array();
  for (const TrayUse& u : week.use) {
    for (const bed::Tray& tray : season.garden.trays) {
      if (tray.id != u.tray) continue;
      use.push_back({{"tray", u.tray},
                     {"tray_name", tray.name},
                     {"place", book::word_of(book::kTrayPlaceWords, tray.place)},
                     {"cells", u.cells},
                     {"cells_most", u.cells_most},
                     {"cells_there", tray.cells},
                     {"pots", u.pots},
                     {"area_m2", number(u.area_m2, 4)},
                     {"light_mj_m2", number(u.light_mj_m2)},
                     {"mean_c", number(u.mean_c, 1)}});
      if (u.cells > tray.cells) over.push_back(u.tray);
    }
  }
  Json tasks = Json::array();
  for (const NurseryTask& task : week.tasks) {
    tasks.push_back({{"date", base::to_iso(task.date)},
                     {"latest", base::to_iso(task.latest)},
                     {"kind", task.kind},
                     {"stand", season.state.stands[task.stand].plan.id},
                     {"crop_name", crop_name(season, task.stand)},
                     {"text", message_text(task.said, units_of(season.garden.units), season.today)},
                     {"said", messages_json({task.said})}});
  }
  return {{"week_start", base::to_iso(week.week_start)}, {"use", use}, {"over", over}, {"tasks", tasks}};
}

}  // namespace

std::string nursery_json(const Season& season, const NurseryView& view) {
  Json trays = Json::array();
  for (const bed::Tray& tray : season.garden.trays) {
    const bool inside = stand::is_inside(tray.place);
    trays.push_back(
        {{"id", tray.id},
         {"name", tray.name},
         {"place", book::word_of(book::kTrayPlaceWords, tray.place)},
         {"cells", tray.cells},
         {"cell_width_mm", number(tray.cell_width_mm)},
         {"area_m2", number(tray.cells * tray.cell_width_mm * tray.cell_width_mm / kSquareMillimetres, 4)},
         {"temp_c", inside ? number(tray.temp_c) : Json(nullptr)},
         {"room_c", optional_number(stand::raising_in(tray).room_c)}});
  }
  Json weeks = Json::array();
  for (const NurseryWeek& week : view.weeks) weeks.push_back(week_json(season, week));
  Json stands = Json::array();
  for (const RaisedStand& raised : view.stands) stands.push_back(stand_json(season, raised));
  const Json answer = {{"garden", season.garden.name},
                       {"today", base::to_iso(season.today)},
                       {"trays", trays},
                       {"weeks", weeks},
                       {"stands", stands}};
  return answer.dump(2, ' ', false, Json::error_handler_t::replace);
}

namespace {

/// "9 May to 20 May"; where a plant in this tray is too old before the ground is fit for it, that.
std::string fit_text(const stand::NurseryOutlook& outlook, const std::function<std::string(base::Date)>& day) {
  if (outlook.earliest.probability <= 0.0 || outlook.latest.probability <= 0.0) return "-";
  if (outlook.latest.p50 < outlook.earliest.p50)
    return fmt::format("too old on {}, before {}", day(outlook.latest.p50), day(outlook.earliest.p50));
  return fmt::format("{} to {}", day(outlook.earliest.p50), day(outlook.latest.p50));
}

/// "sow s4", "look whether s4 is up": what is done, to which stand.
std::string work_words(const Season& season, const NurseryTask& task) {
  const std::string& stand = season.state.stands[task.stand].plan.id;
  if (task.kind == "sow") return (task.said.key == "plant-cells" ? "plant " : "sow ") + stand;
  if (task.kind == "look") return fmt::format("look whether {} is up", stand);
  if (task.kind == "pot-on") return fmt::format("pot {} on", stand);
  if (task.kind == "harden-off") return fmt::format("begin to harden {} off", stand);
  return fmt::format("set {} out", stand);
}

/// The work of a week in one tray, by day: "5 Aug sow s4; 9 Aug set s2 out".
std::string work_in(const Season& season, const NurseryWeek& week, const std::string& tray) {
  const Units units = units_of(season.garden.units);
  std::string work;
  for (const NurseryTask& task : week.tasks) {
    if (season.state.stands[task.stand].plan.tray != tray) continue;
    work += fmt::format("{}{} {}", work.empty() ? "" : "; ", date_text(task.date, units, season.today),
                        work_words(season, task));
  }
  return work;
}

/// A row for each tray that is in use in the week or has work, and one for work in none.
void add_week(const Season& season, const NurseryWeek& week, TextTable& weeks) {
  const Units units = units_of(season.garden.units);
  const std::string day = date_text(week.week_start, units, season.today);
  for (const bed::Tray& tray : season.garden.trays) {
    const std::string work = work_in(season, week, tray.id);
    const auto use = std::find_if(week.use.begin(), week.use.end(),
                                  [&](const TrayUse& each) { return each.tray == tray.id; });
    if (use != week.use.end()) {
      weeks.add({day, tray.name, std::to_string(use->cells), std::to_string(tray.cells),
                 std::to_string(use->pots), fmt::format("{:.1f}", use->light_mj_m2),
                 temperature_text(use->mean_c, units), work});
    } else if (!work.empty()) {
      weeks.add({day, tray.name, "0", std::to_string(tray.cells), "0", "", "", work});
    }
  }
  if (const std::string work = work_in(season, week, ""); !work.empty())
    weeks.add({day, "", "", "", "", "", "", work});
}

/// The day it was sown; what is only planned is told as due, on its day or since.
std::string sown_text(const book::StandState& state, const std::function<std::string(base::Date)>& day) {
  return state.facts.sown ? day(*state.facts.sown) : fmt::format("due {}", day(state.plan.sow));
}

}  // namespace

std::string nursery_text(const Season& season, const NurseryView& view) {
  using Align = TextTable::Align;
  const Units units = units_of(season.garden.units);
  const auto day = [&](base::Date date) { return date_text(date, units, season.today); };
  std::string text = fmt::format("Nursery of {} on {}\n\n", season.garden.name, base::to_iso(season.today));
  if (view.stands.empty()) return text + "Nothing is in trays or planned for them.\n";
  TextTable stands(
      {"stand", "what", "cells", "in", "sown", "up", "fit to go out", "set out", "what to know"});
  for (const RaisedStand& raised : view.stands) {
    const book::StandState& state = season.state.stands[raised.stand];
    const stand::NurseryOutlook& o = raised.outlook;
    const bed::Tray* tray = tray_of(season.garden, state.plan);
    stands.add({state.plan.id, crop_name(season, raised.stand), std::to_string(raised.cells),
                tray != nullptr ? tray->name : "indoors", sown_text(state, day),
                o.up.probability > 0.0 ? day(o.up.p50) : "-",
                fit_text(o, day),
                o.set_out ? day(*o.set_out) : "-", raised.reason});
  }
  text += stands.text() + "\n";
  TextTable weeks({"week of", "tray", "cells", "of", "pots", "light MJ/m² a day", "mean", "work"},
                  {Align::left, Align::left, Align::right, Align::right, Align::right, Align::right,
                   Align::right, Align::left});
  for (const NurseryWeek& week : view.weeks) add_week(season, week, weeks);
  return text + weeks.text();
}

}  // namespace sowtide::desk
