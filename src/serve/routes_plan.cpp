#include <nlohmann/json.hpp>
#include <utility>

#include "serve/detail/body.hpp"
#include "serve/detail/json_fields.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

/// Here it is the body that names what does not exist or cannot be; the address is right.
Response trial_refused(const base::Problem& problem) {
  constexpr int kBadRequest = 400;
  return problem_response(kBadRequest, problem);
}

Response keep_trial(const RouteContext& context, const Request& request) {
  const auto body = parse_body(request.body);
  if (!body) return problem_response(body.error());
  if (auto nothing = JsonFields(*body, "").finish(); !nothing) return problem_response(nothing.error());
  // Also where it has come to its end in this moment.
  context.keep_finished_plan();
  const auto kept = context.garden.keep_tried_plan();
  if (!kept) return problem_response(kept.error());
  const std::string end = plan_end_json(kept);
  context.server.publish(kChanges, "plan", end);
  context.tell_changes();
  return fresh_response(end);
}

Response start_plan(const RouteContext& context, const Request& request) {
  auto body = parse_body(request.body);
  if (!body) return problem_response(body.error());
  // One that has just come to its end belongs to the garden that is planned for.
  context.keep_finished_plan();
  auto input = context.garden.plan_input();
  // What is wrong with the request itself is told first.
  book::GardenDescription unknown;
  auto trial = take_plan_trial(*body, input ? input->garden : unknown);
  if (!trial) return trial_refused(trial.error());
  const auto options = read_plan_options(*body);
  if (!options) return problem_response(options.error());
  if (!input) return problem_response(input.error());
  input->trial = std::move(*trial);
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
  context.server.route("GET", "/api/plan/trial", [context](const Request&) {
    context.keep_finished_plan();
    const std::string& tried = context.garden.tried_plan();
    return tried.empty() ? Response{.status = 204, .body = {}, .headers = {}}
                         : Response{.body = tried, .headers = {}};
  });
  context.server.route("POST", "/api/plan/trial",
                       [context](const Request& request) { return keep_trial(context, request); });
  context.server.route("DELETE", "/api/plan/trial", [context](const Request&) {
    context.garden.forget_tried_plan();
    return fresh_response(R"({"state":"forgotten"})");
  });
}

}  // namespace sowtide::serve::detail
