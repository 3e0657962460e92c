// The names that stands get: "s1", "s2", …
#pragma once

#include <string_view>

namespace sowtide::stand {

/// The n of an id "sn", or 0 for any other id.
[[nodiscard]] int stand_number(std::string_view id) noexcept;

}  // namespace sowtide::stand
