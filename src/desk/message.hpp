// What the program says, as a key and its values: a page or a sheet can say it in its own language and units.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/date.hpp"
#include "desk/present.hpp"

namespace sowtide::desk {

/// One phrase. The keys and the names of their values stand in docs/api/today.schema.json and nursery.schema.json; a name ends in the unit of
/// its value (_g, _mm, _m, _c), a share is 0..1.
struct Message {
  using Value = std::variant<double, base::Date, std::string>;
  std::string key;
  std::vector<std::pair<std::string, Value>> values;
};

/// The phrase in English, in the given units; days of another year than that of `today` with their year. A key that
/// is not known, or one of its values missing, is a broken invariant (std::logic_error).
[[nodiscard]] std::string message_text(const Message& message, Units units, base::Date today);

/// Phrases one after the other, parted by "; ".
[[nodiscard]] std::string messages_text(const std::vector<Message>& messages, Units units, base::Date today);

}  // namespace sowtide::desk
