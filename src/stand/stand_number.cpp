#include "stand/stand_number.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <system_error>

namespace sowtide::stand {

int stand_number(std::string_view id) noexcept {
  constexpr int kHighest = 100'000'000;
  int number = 0;
  if (!id.starts_with('s')) return 0;
  const auto parsed = std::from_chars(id.data() + 1, id.data() + id.size(), number);
  const bool is_whole = parsed.ec == std::errc{} && parsed.ptr == id.data() + id.size();
  return is_whole && number > 0 && number <= kHighest ? number : 0;
}

void StandNames::take(std::string_view id) {
  taken_.emplace(id);
  highest_ = std::max(highest_, stand_number(id));
}

std::string StandNames::next() {
  std::string name;
  do {
    name = fmt::format("s{}", ++highest_);
  } while (!taken_.insert(name).second);
  return name;
}

}  // namespace sowtide::stand
