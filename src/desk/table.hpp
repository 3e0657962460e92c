// The table week by week: what is wanted, what of it reaches the kitchen fresh or out of store, and how often it is short.
#pragma once

#include <string>

#include "desk/season.hpp"

namespace sowtide::desk {

/// {"garden","today","members","wants":[{"want","unit","wanted","mean_reaches","weeks":[{"week_start","wanted",
/// "reaches":{"p10","p50","p90"},"mean_reaches","mean_from_store","short_chance"}]}]}: amounts in the unit of the want
/// (grams, servings or pieces), from the week of today on for at most a year; docs/api/table.schema.json.
[[nodiscard]] std::string table_json(const Season& season);

}  // namespace sowtide::desk
