#include "desk/json.hpp"
#include "desk/site.hpp"
#include "desk/standing.hpp"
#include "desk/worklist.hpp"
#include "serve/detail/query.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {

base::Result<std::string> stand_answer(const desk::Season& season, const std::string& id,
                                       std::optional<base::Date> on) {
  if (on) {
    if (auto checked = desk::check_standing_day(season, id, *on); !checked)
      return tl::unexpected(checked.error());
  }
  for (const book::StandState& state : season.state.stands) {
    if (state.plan.id == id) return desk::outlook_json(season, id, on);
  }
  return base::fail(base::ProblemCode::not_found, "there is no stand " + id + " in this garden",
                    {.file = {}, .line = 0, .column = 0, .field = "stand"},
                    "GET /api/outlook lists all stands.");
}

void add_season_routes(const RouteContext& context) {
  HttpServer& server = context.server;
  server.route("GET", "/api/garden", [context](const Request&) {
    return context.garden.answer("garden",
                                 [](const desk::Season& season) { return desk::garden_json(season); });
  });
  server.route("GET", "/api/outlook", [context](const Request&) {
    return context.garden.answer("outlook",
                                 [](const desk::Season& season) { return desk::outlook_json(season); });
  });
  server.route("GET", "/api/outlook/{stand}", [context](const Request& request) {
    if (auto known = only_asked(request, {"on"}); !known) return problem_response(known.error());
    const auto on = date_asked(request, "on");
    if (!on) return problem_response(on.error());
    const std::string& id = request.captured.at("stand");
    const std::string day = *on ? " on " + base::to_iso(**on) : std::string();
    return context.garden.answer("outlook/" + id + day, [&id, &on](const desk::Season& season) {
      return stand_answer(season, id, *on);
    });
  });
  server.route("GET", "/api/today", [context](const Request&) {
    return context.garden.answer("today", [](const desk::Season& season) {
      return desk::worklist_json(season, desk::worklist(season));
    });
  });
  server.route("GET", "/api/site", [context](const Request&) {
    return context.garden.answer("site", [](const desk::Season& season) { return desk::site_json(season); });
  });
}

}  // namespace sowtide::serve::detail
