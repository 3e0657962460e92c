#include "serve/detail/body.hpp"

#include <fmt/format.h>

namespace sowtide::serve::detail {

using nlohmann::json;

base::Result<json> parse_body(std::string_view text) {
  bool too_deep = false;
  const auto look = [&too_deep](int depth, json::parse_event_t event, const json&) {
    const bool opens =
        event == json::parse_event_t::object_start || event == json::parse_event_t::array_start;
    if (opens && depth >= kDeepestBody) too_deep = true;
    return !too_deep;
  };
  json body = json::parse(text, look, /*allow_exceptions=*/false);
  if (too_deep) {
    return base::fail(base::ProblemCode::syntax,
                      fmt::format("the body is nested deeper than {} levels", kDeepestBody), {},
                      "Send it as docs/api describes it.");
  }
  if (body.is_discarded())
    return base::fail(base::ProblemCode::syntax, "the body is not JSON", {}, "Send JSON.");
  return body;
}

}  // namespace sowtide::serve::detail
