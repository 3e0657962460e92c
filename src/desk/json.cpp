#include "desk/json.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "book/words.hpp"
#include "desk/bed_sun.hpp"
#include "desk/json_number.hpp"
#include "desk/message_json.hpp"
#include "desk/observed_json.hpp"
#include "desk/overdue.hpp"
#include "desk/stand_stage.hpp"
#include "desk/standing.hpp"
#include "stand/harvest_total.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kIndent = 2;

/// Three decimals are beyond what any of these figures is known to.
Json number(double value) {
  return json_number(value);
}

Json quantiles(const base::Quantiles& q) {
  return {{"p10", number(q.p10)}, {"p50", number(q.p50)}, {"p90", number(q.p90)}};
}

std::string text(const Json& json) {
  return json.dump(kIndent, ' ', false, Json::error_handler_t::replace);
}

Json optional_date(const std::optional<base::Date>& date) {
  return date ? Json(base::to_iso(*date)) : Json(nullptr);
}

Json stand_plan_json(const stand::StandPlan& plan) {
  return {{"id", plan.id},
          {"crop", plan.crop},
          {"variety", plan.variety},
          {"method", book::word_of(book::kMethodWords, plan.method)},
          {"sow", base::to_iso(plan.sow)},
          {"set_out", optional_date(plan.set_out)},
          {"size", book::word_of(book::kSizeWords, plan.size)},
          {"clumps", plan.clumps},
          {"plants_per_clump", number(plan.plants_per_clump)},
          {"spacing_mm", number(plan.spacing_mm)},
          {"bed", plan.bed},
          {"from_m", number(plan.from_m)},
          {"to_m", number(plan.to_m)},
          {"tray", plan.tray},
          {"cells", plan.cells},
          {"seeds_per_cell", number(plan.seeds_per_cell)},
          {"packet", plan.packet},
          {"pick_from", optional_date(plan.pick_from)},
          {"pick_weeks", plan.pick_weeks}};
}

std::string variety_name(const book::GardenDescription& garden, const std::string& id) {
  for (const crop::Variety& variety : garden.varieties) {
    if (variety.id == id) return variety.name;
  }
  return id;
}

/// What happens in none of the years has no days: null.
Json events_of(const stand::Outlook& outlook) {
  Json list = Json::array();
  for (const stand::EventOutlook& event : outlook.events) {
    const auto day = [&](base::Date date) {
      return event.probability > 0.0 ? Json(base::to_iso(date)) : Json(nullptr);
    };
    list.push_back({{"name", event.name},
                    {"p10", day(event.p10)},
                    {"p50", day(event.p50)},
                    {"p90", day(event.p90)},
                    {"probability", number(event.probability)}});
  }
  return list;
}

/// Weeks from the first to the last in which anything may be picked; a stand without any has none.
Json weeks_of(const stand::Outlook& outlook) {
  const auto holds = [](const stand::WeekOutlook& week) {
    return week.weight_g.p90 > 0.0 || week.ready_probability > 0.0;
  };
  const auto begin = std::find_if(outlook.weeks.begin(), outlook.weeks.end(), holds);
  const auto end = std::find_if(outlook.weeks.rbegin(), outlook.weeks.rend(), holds).base();
  Json list = Json::array();
  for (auto week = begin; week < end; ++week) {
    list.push_back({{"week_start", base::to_iso(week->week_start)},
                    {"weight_g", quantiles(week->weight_g)},
                    {"ready_probability", number(week->ready_probability)}});
  }
  return list;
}

Json facts_json(const stand::StandFacts& facts) {
  return {{"sown", optional_date(facts.sown)},
          {"emerged", optional_date(facts.emerged)},
          {"counted_plants", facts.counted_plants ? Json(*facts.counted_plants) : Json(nullptr)},
          {"set_out", optional_date(facts.set_out)},
          {"first_picked", optional_date(facts.first_picked)},
          {"picked_g", number(facts.picked_g)},
          {"greens_g", number(facts.greens_g)},
          {"plants_removed", facts.plants_removed},
          {"measured_on", optional_date(facts.measured_on)},
          {"measured_g", facts.measured_g ? number(*facts.measured_g) : Json(nullptr)},
          {"finished", facts.finished}};
}

Json observed_json(const std::vector<book::SizeObserved>& observed) {
  Json list = Json::array();
  for (const book::SizeObserved& each : observed) {
    list.push_back(observed_size_json(each));
  }
  return list;
}

Json fan_json(const stand::Outlook& outlook) {
  Json p10 = Json::array();
  Json p50 = Json::array();
  Json p90 = Json::array();
  for (const base::Quantiles& day : outlook.plant_weight_g) {
    p10.push_back(number(day.p10));
    p50.push_back(number(day.p50));
    p90.push_back(number(day.p90));
  }
  return {{"first", base::to_iso(outlook.fan_first)}, {"p10", p10}, {"p50", p50}, {"p90", p90}};
}

Json error_json(const base::Problem& problem) {
  return {{"code", base::problem_code_text(problem.code)},
          {"what", problem.what},
          {"where",
           {{"file", problem.where.file},
            {"line", problem.where.line},
            {"column", problem.where.column},
            {"field", problem.where.field}}},
          {"remedy", problem.remedy}};
}

Json overdue_json(const Season& season, const Awaited& sowing) {
  const stand::StandPlan& plan = season.state.stands[sowing.stand].plan;
  Json again = nullptr;
  if (sowing.again) {
    again = {{"by", optional_date(sowing.again->by)},
             {"success_today", number(sowing.again->success_today)},
             {"first_pick", optional_date(sowing.again->first_pick)},
             {"seeds", sowing.seeds_again},
             {"method", book::word_of(book::kMethodWords, plan.method)}};
  }
  return {{"state", wait_state_text(sowing.state)},
          {"expected",
           {{"p10", optional_date(sowing.p10)},
            {"p50", optional_date(sowing.p50)},
            {"p90", base::to_iso(sowing.half_by)}}},
          {"half_by", base::to_iso(sowing.half_by)},
          {"chance_by_today", number(sowing.chance_by_today)},
          {"re_sow", again},
          {"reason", awaited_text(season, sowing)}};
}

Json standing_json(const Season& season, std::size_t index, base::Date on) {
  const auto standing = standing_on(season, index, on);
  if (!standing) return nullptr;
  Json sizes = Json::array();
  for (const stand::ReachedSize& each : *standing)
    sizes.push_back({{"size", each.size},
                     {"least_g", number(each.least_g)},
                     {"plants", quantiles(each.plants)},
                     {"grams", quantiles(each.grams)}});
  return {{"date", base::to_iso(on)}, {"sizes", sizes}};
}

/// `whole`: of one stand alone, with its plants by size on that day.
Json stand_json(const Season& season, std::size_t index, std::optional<base::Date> whole) {
  const book::StandState& state = season.state.stands[index];
  const stand::Outlook& outlook = season.outlooks[index];
  Json json = stand_plan_json(state.plan);
  json["arrangement"] = book::word_of(book::kArrangementWords, state.plan.arrangement);
  json["row_spacing_mm"] = number(stand::row_distance_mm(state.plan));
  json["crop_name"] = season.library->name_of(state.plan.crop);
  json["variety_name"] = variety_name(season.garden, state.plan.variety);
  json["bed_name"] = bed_name(season.garden, state.plan.bed);
  json["state"] = stand_stage_text(stand_stage(state.facts));
  json["sown"] = optional_date(state.facts.sown);
  json["set_out_on"] = optional_date(state.facts.set_out);
  json["over_on"] = optional_date(state.over_on);
  json["comes_bought"] = comes_bought(state.plan, state.facts);
  json["events"] = events_of(outlook);
  json["weeks"] = weeks_of(outlook);
  json["to_come_g"] = quantiles(stand::still_to_come_g(outlook));
  Json daily = Json::array();
  for (const double p : outlook.ready_probability) daily.push_back(number(p));
  json["ready_daily"] = {{"first", base::to_iso(outlook.fan_first)}, {"probability", daily}};
  json["success"] = number(outlook.success);
  json["limits"] = outlook.limits;
  if (const auto none = season.no_outlook.find(state.plan.id); none != season.no_outlook.end())
    json["no_outlook"] = error_json(none->second);
  if (const auto crop = season.library->find(state.plan.crop))
    json["sun_said"] = messages_json(sun_said(season.garden, **crop, state.plan));
  // A reckoning that fails leaves the answer out: the stand itself is still to be seen.
  if (const auto sowing = awaited(season, index); sowing && *sowing)
    json["overdue"] = overdue_json(season, **sowing);
  if (whole) {
    json["fan"] = fan_json(outlook);
    json["observed"] = observed_json(state.observed);
    json["facts"] = facts_json(state.facts);
    json["standing"] = standing_json(season, index, *whole);
  }
  return json;
}

std::string stand_line(const Season& season, std::size_t index, std::optional<base::Date> whole) {
  return stand_json(season, index, whole).dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json json_of(const book::Event& event) {
  Json json = {{"id", event.id},
               {"sequence", event.sequence},
               {"date", base::to_iso(event.date)},
               {"kind", book::event_kind_text(event.kind)}};
  if (!event.stand.empty()) json["stand"] = event.stand;
  if (!event.target.empty()) json["target"] = event.target;
  if (event.count) json["count"] = *event.count;
  if (event.grams) json["grams"] = *event.grams;
  if (event.litres) json["litres"] = *event.litres;
  if (event.diameter_mm) json["diameter_mm"] = *event.diameter_mm;
  if (!event.text.empty()) json["text"] = event.text;
  return json;
}

/// Notes as English sentences, and phrase by phrase.
struct Told {
  Json sentences = Json::array(), said = Json::array();
};

Told told(const std::vector<plan::Note>& notes) {
  Told all;
  for (const plan::Note& note : notes) {
    all.sentences.push_back(sentence_text(note, Units::metric, {}));
    all.said.push_back(messages_json(note));
  }
  return all;
}

}  // namespace

std::string problem_json(const base::Problem& problem) {
  return text({{"error", error_json(problem)}});
}

std::string outlook_json(const Season& season, const std::string& only, std::optional<base::Date> on) {
  // A line a stand, put together from texts that are made once for each: of many stands few change at a time.
  std::string stands;
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    if (!only.empty() && season.state.stands[i].plan.id != only) continue;
    if (!stands.empty()) stands += ",\n";
    stands += only.empty()
                  ? season.remember<std::string>(i, "outlook_json", [&] { return stand_line(season, i, {}); })
                  : stand_line(season, i, on.value_or(season.today));
  }
  const std::string head = text({{"garden", season.garden.name},
                                 {"today", base::to_iso(season.today)},
                                 {"weather", season.weather.source},
                                 {"members", season.weather.member_count}});
  return head.substr(0, head.rfind('\n')) + ",\n  \"stands\": [" + stands + "]\n}";
}

Json messages_json(const std::vector<Message>& messages) {
  Json list = Json::array();
  for (const Message& message : messages) {
    Json values = Json::object();
    for (const auto& [name, value] : message.values) {
      if (const double* plain = std::get_if<double>(&value)) values[name] = number(*plain);
      if (const base::Date* date = std::get_if<base::Date>(&value)) values[name] = base::to_iso(*date);
      if (const std::string* word = std::get_if<std::string>(&value)) values[name] = *word;
    }
    list.push_back({{"key", message.key}, {"values", values}});
  }
  return list;
}

namespace {

Json said_json(const Task& task) {
  return {{"place", messages_json(task.place_said)},
          {"amount", messages_json(task.amount_said)},
          {"reason", messages_json(task.reason_said)},
          {"caution", messages_json(task.caution_said)}};
}

}  // namespace

std::string worklist_json(const Season& season, const std::vector<Task>& tasks) {
  Json list = Json::array();
  for (const Task& task : tasks) {
    list.push_back({{"kind", task.kind},
                    {"stand", task.stand},
                    {"crop", task.crop},
                    {"crop_name", task.crop_name},
                    {"variety", task.variety},
                    {"target", task.target},
                    {"place", task.place},
                    {"amount", task.amount},
                    {"reason", task.reason},
                    {"caution", task.caution},
                    {"handling", task.handling},
                    {"said", said_json(task)},
                    {"due", base::to_iso(task.due)},
                    {"latest", base::to_iso(task.latest)},
                    {"urgency", number(task.urgency)},
                    {"log_event", task.log_event},
                    {"log_text", task.log_text},
                    {"log_store", task.log_store},
                    {"log_count", number(task.log_count)},
                    {"log_grams", number(task.log_grams)},
                    {"again_count", number(task.again_count)}});
  }
  return text({{"garden", season.garden.name}, {"today", base::to_iso(season.today)}, {"tasks", list}});
}

namespace {

Json beds_json(const std::vector<bed::Bed>& beds) {
  Json list = Json::array();
  for (const bed::Bed& bed : beds) {
    list.push_back({{"id", bed.id},
                    {"name", bed.name},
                    {"length_m", number(bed.length_m)},
                    {"width_m", number(bed.width_m)},
                    {"sun", book::word_of(book::kSunWords, bed.sun)},
                    {"kind", book::word_of(book::kBedKindWords, bed.kind)},
                    {"fed", bed.fed},
                    {"pole_end", book::word_of(book::kPoleEndWords, bed.pole_end)}});
  }
  return list;
}

Json trays_json(const std::vector<bed::Tray>& trays) {
  Json list = Json::array();
  for (const bed::Tray& tray : trays) {
    list.push_back({{"id", tray.id},
                    {"name", tray.name},
                    {"cells", tray.cells},
                    {"cell_width_mm", number(tray.cell_width_mm)},
                    {"place", book::word_of(book::kTrayPlaceWords, tray.place)},
                    {"temp_c", number(tray.temp_c)},
                    {"mat_cells", tray.mat_cells},
                    {"room_c", tray.room_c ? number(*tray.room_c) : Json(nullptr)}});
  }
  return list;
}

Json crops_taken(const plan::Want& want, const crop::CropLibrary& library) {
  Json list = Json::array();
  for (const auto& [id, crop] : library.crops) {
    if (plan::takes_crop(want, crop)) list.push_back(id);
  }
  return list;
}

Json wants_json(const std::vector<plan::Want>& wants, const crop::CropLibrary& library) {
  Json list = Json::array();
  for (const plan::Want& want : wants) {
    list.push_back({{"id", want.id},
                    {"crop", want.crop},
                    {"group", want.group},
                    {"crops", crops_taken(want, library)},
                    {"variety", want.variety},
                    {"amount_per_week", number(want.amount_per_week)},
                    {"unit", book::word_of(book::kWantUnitWords, want.unit)},
                    {"from", base::to_text(want.from)},
                    {"to", base::to_text(want.to)},
                    {"priority", number(want.priority)},
                    {"size", book::word_of(book::kSizeWords, want.size)},
                    {"early", want.early},
                    {"total", number(want.total)},
                    {"waste_dislike", number(want.waste_dislike)},
                    {"bought", want.bought}});
  }
  return list;
}

Json packets_of(const std::vector<crop::Packet>& packets) {
  Json list = Json::array();
  for (const crop::Packet& packet : packets) {
    list.push_back(
        {{"id", packet.id},
         {"crop", packet.crop},
         {"variety", packet.variety},
         {"packed_year", packet.packed_year},
         {"seeds", number(packet.seeds)},
         {"germination_pct", packet.germination_pct ? number(*packet.germination_pct) : Json(nullptr)}});
  }
  return list;
}

Json varieties_json(const std::vector<crop::Variety>& varieties) {
  Json list = Json::array();
  for (const crop::Variety& variety : varieties) {
    list.push_back({{"id", variety.id},
                    {"crop", variety.crop},
                    {"name", variety.name},
                    {"colour", variety.colour},
                    {"notes", variety.notes}});
  }
  return list;
}

Json crops_json(const crop::CropLibrary& library) {
  Json list = Json::array();
  for (const auto& [id, crop] : library.crops) {
    list.push_back({{"id", id}, {"name", crop.name}, {"family", crop.family}});
  }
  return list;
}

}  // namespace

std::string garden_json(const Season& season) {
  const book::GardenDescription& garden = season.garden;
  return text({{"name", garden.name},
               {"units", garden.units},
               {"today", base::to_iso(season.today)},
               {"site",
                {{"name", garden.site.name},
                 {"latitude_deg", garden.site.latitude_deg},
                 {"longitude_deg", garden.site.longitude_deg},
                 {"elevation_m", garden.site.elevation_m}}},
               {"weather", season.weather.source},
               {"beds", beds_json(garden.beds)},
               {"trays", trays_json(garden.trays)},
               {"wants", wants_json(garden.wants, *season.library)},
               {"packets", packets_of(garden.packets)},
               {"varieties", varieties_json(garden.varieties)},
               {"crops", crops_json(*season.library)}});
}

std::string written_model_json(const std::string& file, std::size_t bytes) {
  return Json{{"file", file}, {"bytes", bytes}}.dump();
}

std::string plan_json(const plan::Plan& plan) {
  Json stands = Json::array();
  for (const stand::StandPlan& stand : plan.stands) stands.push_back(stand_plan_json(stand));
  Json shortages = Json::array();
  for (const plan::Shortage& shortage : plan.shortages) {
    shortages.push_back({{"want", shortage.want},
                         {"week_start", base::to_iso(shortage.week_start)},
                         {"grams", number(shortage.grams)},
                         {"probability", number(shortage.probability)}});
  }
  Json worths = Json::array();
  for (const plan::Worth& worth : plan.worths)
    worths.push_back({{"what", messages_text(worth.what, Units::metric, {})},
                      {"said", messages_json(worth.what)},
                      {"servings", number(worth.servings)}});
  Json wants = Json::array();
  for (const auto& [want, wanted_g] : plan.wanted_g) {
    const auto supplied = plan.supplied_g.find(want);
    wants.push_back({{"want", want},
                     {"wanted_g", number(wanted_g)},
                     {"supplied_g", number(supplied == plan.supplied_g.end() ? 0.0 : supplied->second)}});
  }
  const Told notes = told(plan.notes), changes = told(plan.changes);
  Json reasons = Json::object(), reasons_said = Json::object();
  for (const auto& [stand, reason] : plan.reasons) {
    reasons[stand] = sentence_text(reason, Units::metric, {});
    reasons_said[stand] = messages_json(reason);
  }
  return text({{"objective", plan.objective},
               {"bound", plan.bound},
               {"gap", plan.gap},
               {"seconds", number(plan.seconds)},
               {"status", plan.status},
               {"stands", stands},
               {"shortages", shortages},
               {"wants", wants},
               {"wanted_value", number(plan.wanted_value)},
               {"unseen_objective", number(plan.unseen_objective)},
               {"bad_years_objective", number(plan.bad_years_objective)},
               {"reasons", reasons},
               {"reasons_said", reasons_said},
               {"worths", worths},
               {"changes", changes.sentences},
               {"changes_said", changes.said},
               {"notes", notes.sentences},
               {"notes_said", notes.said}});
}

std::string windows_json(const std::string& place, const std::vector<stand::SowingWindow>& windows,
                         const std::string& weather_source, const std::vector<NoWindow>& without) {
  Json list = Json::array();
  for (const stand::SowingWindow& window : windows) {
    list.push_back({{"crop", window.crop},
                    {"method", window.method},
                    {"from", base::to_text(window.span.from)},
                    {"to", base::to_text(window.span.to)},
                    {"success", json_number(window.success, 2)}});
    if (window.before == stand::Limit::none && window.after == stand::Limit::none) continue;
    list.back()["limits"] = {{"before", stand::limit_text(window.before)},
                             {"after", stand::limit_text(window.after)}};
  }
  Json none = Json::array();
  for (const NoWindow& crop : without) {
    none.push_back({{"crop", crop.crop},
                    {"method", crop.method},
                    {"success", json_number(crop.success, 2)},
                    {"limit", stand::limit_text(crop.limit)}});
  }
  return text({{"place", place}, {"weather", weather_source}, {"windows", list}, {"without", none}});
}

std::string explanation_json(const base::Explanation& explanation) {
  const auto value = [](const base::ExplainedField& field) {
    return std::visit([](const auto& held) { return Json(held); }, field.value);
  };
  Json inputs = Json::object();
  for (const base::ExplainedField& field : explanation.inputs) inputs[field.name] = value(field);
  Json result = Json::object();
  Json units = Json::object();
  for (const base::ExplainedField& field : explanation.result) {
    result[field.name] = value(field);
    units[field.name] = field.unit;
  }
  result["unit"] = units;
  return text({{"name", explanation.name},
               {"inputs", inputs},
               {"result", result},
               {"working", explanation.working},
               {"source", explanation.source}});
}

std::string json_text(const std::string& value) {
  return text(Json(value));
}

std::string events_json(const std::vector<book::Event>& events) {
  Json list = Json::array();
  for (const book::Event& event : events) list.push_back(json_of(event));
  return text(list);
}

std::string event_json(const book::Event& event) {
  return text(json_of(event));
}

}  // namespace sowtide::desk
