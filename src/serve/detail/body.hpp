// The only place where the body of a request is taken apart: what no route asks for is refused before any of
// them.
#pragma once

#include <nlohmann/json.hpp>
#include <string_view>

#include "base/problem.hpp"

namespace sowtide::serve::detail {

/// Lists and objects within one another. No body that a route takes needs more than six; copying and writing
/// JSON call themselves once a level, so that what is nested without end would take the whole stack.
inline constexpr int kDeepestBody = 32;

/// Reads a body as JSON. Problems: syntax, also for what is nested deeper than kDeepestBody.
[[nodiscard]] base::Result<nlohmann::json> parse_body(std::string_view text);

}  // namespace sowtide::serve::detail
