#include "base/figure.hpp"
#include "desk/figures.hpp"
#include "desk/json.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

/// On the command line this key names a file; a browser must not be able to have files read.
constexpr const char* kFileKey = "weather";

Response work_out(const Request& request) {
  const base::FigureInputs inputs(request.query.begin(), request.query.end());
  if (inputs.contains(kFileKey)) {
    const auto refused = base::fail(base::ProblemCode::unknown_field, "files are not read for a browser",
                                    {.file = {}, .line = 0, .column = 0, .field = kFileKey},
                                    "Ask the command line: sowtide figure " + request.captured.at("name"));
    return problem_response(refused.value());
  }
  const auto answer = desk::figure(request.captured.at("name"), inputs);
  if (!answer) return problem_response(answer.error());
  return {.body = desk::explanation_json(*answer), .headers = {}};
}

}  // namespace

void add_figure_routes(const RouteContext& context) {
  context.server.route("GET", "/api/figure/{name}", work_out);
}

}  // namespace sowtide::serve::detail
