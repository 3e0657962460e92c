#include <nlohmann/json.hpp>

#include "desk/json.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

Response append(const RouteContext& context, const std::string& body) {
  const auto events = desk::parse_events_json(body);
  if (!events) return problem_response(events.error());
  const auto added = context.garden.file().append(*events);
  if (!added) return problem_response(added.error());
  const auto revision = context.garden.file().revision();
  if (!revision) return problem_response(revision.error());
  return fresh_response(nlohmann::json{{"added", *added}, {"revision", *revision}}.dump());
}

}  // namespace

void add_log_routes(const RouteContext& context) {
  context.server.route("GET", "/api/events", [context](const Request&) {
    const auto events = context.garden.events();
    if (!events) return problem_response(events.error());
    return Response{.body = desk::events_json(*events), .headers = {}};
  });
  context.server.route("POST", "/api/events", [context](const Request& request) {
    Response response = append(context, request.body);
    context.tell_changes();
    return response;
  });
}

}  // namespace sowtide::serve::detail
