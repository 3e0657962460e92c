// The table week by week: what is wanted, what of it reaches the kitchen fresh or out of store, and how often it is short.
#pragma once

#include <string>

#include "desk/season.hpp"

namespace sowtide::desk {

/// {"garden","today","members","wants":[{"want","unit","wanted","mean_reaches","weeks":[{"week_start","wanted",
/// "reaches":{"p10","p50","p90"},"mean_reaches","mean_from_store","short_chance"}]}]}: amounts in the unit of the want
/// (grams, servings or pieces), from the week of today on for at most a year; docs/api/table.schema.json.
[[nodiscard]] std::string table_json(const Season& season);

/// {"members","wants":[{"want","unit","wanted","before","after"}]}: what of each want reaches the table over
/// the same weeks in the mean of the weather years, fresh or out of store, as it is and with another plan for
/// one stand; docs/api/moved-table.schema.json. Cost: one outlook. Problems: those of with_plan_tried.
[[nodiscard]] base::Result<std::string> moved_table_json(const Season& season, const stand::StandPlan& plan);

}  // namespace sowtide::desk
