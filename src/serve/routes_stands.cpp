#include <fmt/format.h>

#include "desk/json.hpp"
#include "desk/qr.hpp"
#include "serve/detail/routes.hpp"
#include "serve/detail/stand_move.hpp"
#include "serve/detail/stand_room.hpp"

namespace sowtide::serve::detail {
namespace {

base::Result<stand::StandPlan> read_move(const RouteContext& context, const Request& request) {
  const auto season = context.garden.season();
  if (!season) return tl::unexpected(season.error());
  return moved_stand(**season, request.captured.at("stand"), request.body);
}

/// The outlook of one stand as it would be after a move; nothing is written.
Response try_move(const RouteContext& context, const Request& request) {
  const auto moved = read_move(context, request);
  if (!moved) return problem_response(moved.error());
  const auto now = context.garden.season();
  if (!now) return problem_response(now.error());
  const auto season = desk::with_plan_tried(**now, *moved);
  if (!season) return problem_response(season.error());
  return fresh_response(desk::outlook_json(*season, moved->id));
}

/// A place that another stand is sure to need is refused.
base::Result<void> check_room(const RouteContext& context, const stand::StandPlan& moved) {
  const auto season = context.garden.season();
  if (!season) return tl::unexpected(season.error());
  const auto tried = desk::with_plan_tried(**season, moved);
  if (!tried) return tl::unexpected(tried.error());
  const auto taken = new_neighbours(**season, *tried);
  if (taken.empty()) return {};
  return base::fail(
      base::ProblemCode::contradiction,
      fmt::format("stand {} would be where {} stands at that time", moved.id, fmt::join(taken, ", ")),
      {.file = {}, .line = 0, .column = 0, .field = "from_m"},
      "Take another stretch or another time, or move the other first.");
}

/// Moves a stand for good, and answers with its outlook.
Response move(const RouteContext& context, const Request& request) {
  const auto moved = read_move(context, request);
  if (!moved) return problem_response(moved.error());
  if (const auto free = check_room(context, *moved); !free) return problem_response(free.error());
  if (const auto kept = context.garden.file().update_stand(*moved); !kept)
    return problem_response(kept.error());
  const std::string& id = moved->id;
  return context.garden.answer("outlook/" + id,
                               [&id](const desk::Season& season) { return stand_answer(season, id); });
}

/// A code for a label: it opens the stand's page, on the home network where the garden is served there.
Response code_of(const RouteContext& context, const Request& request) {
  const auto season = context.garden.season();
  if (!season) return problem_response(season.error());
  const std::string& id = request.captured.at("stand");
  if (const auto known = stand_answer(**season, id); !known) return problem_response(known.error());
  const std::string url = fmt::format("{}/#/stand/{}", context.address_for(request), id);
  const auto code = desk::qr_code(url);
  if (!code) return problem_response(code.error());
  return {.content_type = "image/svg+xml", .body = desk::qr_svg(*code, url), .headers = {}};
}

}  // namespace

void add_stand_routes(const RouteContext& context) {
  context.server.route("GET", "/api/stands/{stand}/code",
                       [context](const Request& request) { return code_of(context, request); });
  context.server.route("POST", "/api/stands/{stand}/try",
                       [context](const Request& request) { return try_move(context, request); });
  context.server.route("PUT", "/api/stands/{stand}", [context](const Request& request) {
    Response response = move(context, request);
    context.tell_changes();
    return response;
  });
}

}  // namespace sowtide::serve::detail
