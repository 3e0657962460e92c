// Reads what a request tells as JSON: entries of the log, and moves of a stand. For the server only: it knows
// the JSON library, which no other public header does but message_json.hpp and json_number.hpp.
#pragma once

#include <cstddef>
#include <nlohmann/json.hpp>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"
#include "desk/stand_move.hpp"

namespace sowtide::desk {

/// Reads one entry, strictly: unknown fields, wrong types and sizes are problems. `index` is its place in a
/// list, which the field of a problem names ("events[3].date").
[[nodiscard]] base::Result<book::Event> read_event(const nlohmann::json& told, std::size_t index = 0);

/// Reads an array of entries, or {"events":[…]}.
[[nodiscard]] base::Result<std::vector<book::Event>> read_events(const nlohmann::json& told);

/// Reads {"bed","from_m","to_m","sow","set_out","put_right"}, each of which may be left out; set_out may be
/// null. Problems: syntax, unknown_field, wrong_type, and those of a day.
[[nodiscard]] base::Result<StandMove> read_stand_move(const nlohmann::json& told);

}  // namespace sowtide::desk
