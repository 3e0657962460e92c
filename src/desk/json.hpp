// The documented, stable JSON of every answer (docs/api/*.schema.json). One place for `--json` and for the server.
#pragma once

#include <string>
#include <vector>

#include "base/explanation.hpp"
#include "base/problem.hpp"
#include "bed/bed.hpp"
#include "book/garden.hpp"
#include "climate/record.hpp"
#include "desk/garden_windows.hpp"
#include "desk/season.hpp"
#include "desk/worklist.hpp"
#include "plan/plan.hpp"
#include "stand/windows.hpp"

namespace sowtide::desk {

/// {"error":{"code":…,"what":…,"where":{"file","line","column","field"},"remedy":…}}
[[nodiscard]] std::string problem_json(const base::Problem& problem);
/// {"garden":…,"today":…,"stands":[{"id","crop","crop_name","variety","bed","bed_name","from_m","to_m","clumps",
///  "plants_per_clump","spacing_mm","method","tray","cells","sow","set_out","sown","set_out_on" (by the log,
///  or null), "state":"planned"|"sown"|"up"|"growing"|"finished",
///  "events":[{"name","p10","p50","p90","probability"}],  (the days are null where it happens in no year)
///  "weeks":[{"week_start","weight_g":{"p10","p50","p90"},"ready_probability"}],
///  "ready_daily":{"first":date,"probability":[…]},"success","limits","no_outlook" (only where there is
/// none: the error)}]}. `only` limits it to one stand, which then also
/// gets "fan":{"first":date,"p10":[…],"p50":[…],"p90":[…]} (grams per plant by day), "facts" and "standing":
/// {"date","sizes":[{"size","least_g","plants":{…},"grams":{…}}]}, its plants by size on a day, today unless
/// told; null where that day lies before its sowing or beyond the weather.
[[nodiscard]] std::string outlook_json(const Season& season, const std::string& only = {},
                                       std::optional<base::Date> on = {});
/// {"today":…,"tasks":[{every field of Task}]}
[[nodiscard]] std::string worklist_json(const Season& season, const std::vector<Task>& tasks);
/// {"name","units","site":{…},"beds":[…],"trays":[…],"wants":[…],"packets":[…],"varieties":[…],"crops":[{"id","name","family"}]}
[[nodiscard]] std::string garden_json(const Season& season);
/// {"objective","bound","gap","seconds","status","stands":[…],"shortages":[{"want","week_start","grams","probability"}],
///  "wants":[{"want","wanted_g","supplied_g"}],"notes":[…]}
[[nodiscard]] std::string plan_json(const plan::Plan& plan);

/// {"file","bytes"} of the program written for another solver; docs/api/plan-model.schema.json.
[[nodiscard]] std::string written_model_json(const std::string& file, std::size_t bytes);
/// {"place":…,"windows":[{"crop","method","from":"MM-DD","to":"MM-DD","success"}],
///  "without":[{"crop","method","success","limit"}]}
[[nodiscard]] std::string windows_json(const std::string& place,
                                       const std::vector<stand::SowingWindow>& windows,
                                       const std::string& weather_source,
                                       const std::vector<NoWindow>& without = {});
/// {"name","inputs":{…},"result":{…,"unit":{name: unit}},"working":[…],"source":[…]}
[[nodiscard]] std::string explanation_json(const base::Explanation& explanation);
/// [{"id","date","kind",…}]
[[nodiscard]] std::string events_json(const std::vector<book::Event>& events);
/// One entry of that list.
[[nodiscard]] std::string event_json(const book::Event& event);
/// A text as a JSON string, quotes and escapes included.
[[nodiscard]] std::string json_text(const std::string& text);

}  // namespace sowtide::desk
