// Any bytes: the TOML reader gives a tree or a problem with a place, and what it gives can be read by a TomlReader.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/toml.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

void walk(const sowtide::base::TomlValue& value) {
  require(value.line >= 1 && value.column >= 1);
  if (const auto* items = std::get_if<sowtide::base::TomlArray>(&value.data)) {
    for (const auto& item : *items) walk(item);
  }
  const auto* members = std::get_if<sowtide::base::TomlMembers>(&value.data);
  if (members == nullptr) return;
  sowtide::base::TomlReader reader(value, "fuzz", "top");
  for (const auto& [key, member] : *members) {
    reader.number_or(key, 0.0, {.above = 0.0});
    reader.texts_or_empty(key);
    reader.numbers(key);
    reader.optional_date(key);
    reader.tables(key);
    walk(member);
  }
  reader.reject_unknown();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto tree = sowtide::base::parse_toml(text, "fuzz");
  if (tree) {
    walk(*tree);
  } else {
    require(!tree.error().what.empty());
  }
  return 0;
}
