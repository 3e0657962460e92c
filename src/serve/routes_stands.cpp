#include <utility>

#include "crop/crop.hpp"
#include "desk/json.hpp"
#include "serve/detail/routes.hpp"
#include "serve/detail/stand_move.hpp"

namespace sowtide::serve::detail {
namespace {

base::Result<stand::StandPlan> read_move(const RouteContext& context, const Request& request) {
  const auto season = context.garden.season();
  if (!season) return tl::unexpected(season.error());
  return moved_stand(**season, request.captured.at("stand"), request.body);
}

/// The outlook of one stand as it would be after a move; nothing is written.
Response try_move(const RouteContext& context, const Request& request) {
  auto moved = read_move(context, request);
  if (!moved) return problem_response(moved.error());
  const auto now = context.garden.season();
  if (!now) return problem_response(now.error());
  // Only this stand is of interest, so only it is computed.
  book::GardenDescription garden = (*now)->garden;
  const std::string id = moved->id;
  garden.stands = {std::move(*moved)};
  auto events = context.garden.events();
  if (!events) return problem_response(events.error());
  std::erase_if(*events, [&id](const book::Event& event) { return event.stand != id; });
  const auto season = desk::make_season(crop::built_in_library(), std::move(garden), *events, (*now)->today);
  if (!season) return problem_response(season.error());
  return fresh_response(desk::outlook_json(*season, id));
}

/// Moves a stand for good, and answers with its outlook.
Response move(const RouteContext& context, const Request& request) {
  const auto moved = read_move(context, request);
  if (!moved) return problem_response(moved.error());
  if (const auto kept = context.garden.file().update_stand(*moved); !kept)
    return problem_response(kept.error());
  const std::string& id = moved->id;
  return context.garden.answer("outlook/" + id,
                               [&id](const desk::Season& season) { return stand_answer(season, id); });
}

}  // namespace

void add_stand_routes(const RouteContext& context) {
  context.server.route("POST", "/api/stands/{stand}/try",
                       [context](const Request& request) { return try_move(context, request); });
  context.server.route("PUT", "/api/stands/{stand}", [context](const Request& request) {
    Response response = move(context, request);
    context.tell_changes();
    return response;
  });
}

}  // namespace sowtide::serve::detail
