#include <nlohmann/json.hpp>
#include <utility>

#include "serve/detail/body.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

Response start_plan(const RouteContext& context, const Request& request) {
  const auto body = parse_body(request.body);
  if (!body) return problem_response(body.error());
  const auto options = read_plan_options(*body);
  if (!options) return problem_response(options.error());
  auto input = context.garden.plan_input();
  if (!input) return problem_response(input.error());
  if (auto started = context.plans.start(std::move(*input), *options); !started)
    return problem_response(started.error());
  Response accepted = fresh_response(R"({"state":"working"})");
  accepted.status = 202;
  return accepted;
}

}  // namespace

void add_plan_routes(const RouteContext& context) {
  context.server.route("GET", "/api/plan", [context](const Request&) {
    // Whoever asks again and again leaves the server no idle time to keep it in.
    context.keep_finished_plan();
    // The file's, not the last one made here: the command line may have planned since, or keeping it have failed.
    const auto kept = context.garden.file().plan_answer();
    if (!kept) return problem_response(kept.error());
    // Nothing is no problem: a page that asks at its start should not have to report one.
    return kept->empty() ? Response{.status = 204, .body = {}, .headers = {}} : Response{.body = *kept, .headers = {}};
  });
  context.server.route("POST", "/api/plan",
                       [context](const Request& request) { return start_plan(context, request); });
  context.server.route("DELETE", "/api/plan", [context](const Request&) {
    context.plans.cancel();
    return fresh_response(R"({"state":"stopping"})");
  });
}

}  // namespace sowtide::serve::detail
