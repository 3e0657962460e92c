// Phrases as JSON. For the rooms' own answers only: it knows the JSON library, which no other
// public header does but told_json.hpp and json_number.hpp.
#pragma once

#include <nlohmann/json.hpp>
#include <vector>

#include "desk/message.hpp"

namespace sowtide::desk {

/// A list of {"key": …, "values": {…}}: numbers to a thousandth, days as YYYY-MM-DD.
[[nodiscard]] nlohmann::ordered_json messages_json(const std::vector<Message>& messages);

}  // namespace sowtide::desk
