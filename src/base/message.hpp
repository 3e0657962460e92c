// What the program says, as a key and its values: a page or a sheet can say it in its own language and units.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/date.hpp"

namespace sowtide::base {

/// One phrase. The keys and the names of their values stand in the schemas of docs/api (today, outlook,
/// nursery, judge, plan, packets); a name ends in the unit of its value (_g, _mm, _m, _c, and _k for a difference of
/// temperatures), a share is 0..1. English is said by the desk.
struct Message {
  using Value = std::variant<double, Date, std::string>;
  std::string key;
  std::vector<std::pair<std::string, Value>> values;
};

/// A value of a message by its name; nothing where there is no message, or none of the name in it. A value of
/// another type throws std::bad_variant_access.
template <typename T>
[[nodiscard]] std::optional<T> value_in(const Message* message, std::string_view name) {
  if (message == nullptr) return {};
  for (const auto& [own, value] : message->values) {
    if (own == name) return std::get<T>(value);
  }
  return {};
}

}  // namespace sowtide::base
