#include "stand/stand_number.hpp"

#include <charconv>
#include <system_error>

namespace sowtide::stand {

int stand_number(std::string_view id) noexcept {
  int number = 0;
  if (!id.starts_with('s')) return 0;
  const auto parsed = std::from_chars(id.data() + 1, id.data() + id.size(), number);
  return parsed.ec == std::errc{} && parsed.ptr == id.data() + id.size() ? number : 0;
}

}  // namespace sowtide::stand
