#include <fmt/format.h>

#include "book/moved_by_hand.hpp"
#include "book/words.hpp"
#include "desk/json.hpp"
#include "desk/own_stand.hpp"
#include "desk/qr.hpp"
#include "desk/stand_move.hpp"
#include "desk/stand_room.hpp"
#include "desk/table.hpp"
#include "desk/told_json.hpp"
#include "serve/detail/body.hpp"
#include "serve/detail/json_fields.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

/// A stand as a request would have it moved.
struct Moved {
  const desk::Season& season;
  desk::StandMove move;
  stand::StandPlan plan;
};

base::Result<Moved> moved_by(const RouteContext& context, const Request& request) {
  const auto body = parse_body(request.body);
  if (!body) return tl::unexpected(body.error());
  auto move = desk::read_stand_move(*body);
  if (!move) return tl::unexpected(move.error());
  const auto now = context.garden.season();
  if (!now) return tl::unexpected(now.error());
  auto plan = desk::moved_stand(**now, request.captured.at("stand"), *move);
  if (!plan) return tl::unexpected(plan.error());
  return Moved{**now, std::move(*move), std::move(*plan)};
}

/// The outlook of one stand as it would be after a move; nothing is written.
Response try_move(const RouteContext& context, const Request& request) {
  const auto moved = moved_by(context, request);
  if (!moved) return problem_response(moved.error());
  const auto season = desk::with_plan_tried(moved->season, moved->plan);
  if (!season) return problem_response(season.error());
  return fresh_response(desk::outlook_json(*season, moved->plan.id));
}

/// What the table would get with a stand moved; nothing is written.
Response try_move_at_table(const RouteContext& context, const Request& request) {
  const auto moved = moved_by(context, request);
  if (!moved) return problem_response(moved.error());
  const auto table = desk::moved_table_json(moved->season, moved->plan);
  if (!table) return problem_response(table.error());
  return fresh_response(*table);
}

/// Moves a stand for good, and answers with its outlook.
Response move_stand(const RouteContext& context, const Request& request) {
  const auto moved = moved_by(context, request);
  if (!moved) return problem_response(moved.error());
  if (const auto free = desk::check_room(moved->season, moved->plan, moved->move.put_right); !free)
    return problem_response(free.error());
  const auto events = context.garden.events();
  if (!events) return problem_response(events.error());
  const std::string& id = moved->plan.id;
  const auto note = book::moving_entries(id, *events, context.garden.today());
  const auto to_write = desk::plan_to_write(moved->season, moved->plan, moved->move);
  if (const auto kept = context.garden.file().update_stand(to_write, note); !kept)
    return problem_response(kept.error());
  return context.garden.answer("outlook/" + id,
                               [&id](const desk::Season& season) { return stand_answer(season, id); });
}

base::Result<desk::OwnStand> read_own_stand(const RouteContext& context, std::string_view body) {
  const auto value = parse_body(body);
  if (!value) return tl::unexpected(value.error());
  desk::OwnStand told;
  std::string day;
  JsonFields fields(*value, "");
  fields.text("crop", told.crop, Need::must);
  fields.text("variety", told.variety);
  fields.text("bed", told.bed, Need::must);
  fields.whole("clumps", told.clumps, Need::must);
  fields.text("day", day);
  fields.flag("bought", told.bought);
  fields.text("tray", told.tray);
  fields.number("from_m", told.from_m);
  fields.number("spacing_mm", told.spacing_mm);
  fields.number("plants_per_clump", told.plants_per_clump);
  fields.choice("size", book::kSizeWords, told.size);
  if (auto read = fields.finish(); !read) return tl::unexpected(read.error());
  told.day = context.garden.today();
  if (day.empty()) return told;
  const auto parsed = base::parse_iso_date(day);
  if (!parsed)
    return base::fail(parsed.error().code, parsed.error().what, {.field = "day"},
                      "Write it as \"YYYY-MM-DD\".");
  told.day = *parsed;
  return told;
}

/// A stand without the planner: what was sown, bought or is there already.
Response add(const RouteContext& context, const Request& request) {
  const auto told = read_own_stand(context, request.body);
  if (!told) return problem_response(told.error());
  const auto garden = context.garden.file().description();
  if (!garden) return problem_response(garden.error());
  const auto events = context.garden.events();
  if (!events) return problem_response(events.error());
  const auto made =
      desk::make_own_stand(crop::built_in_library(), *garden, *events, context.garden.today(), *told);
  if (!made) {
    // Here it is the body that names what does not exist; the address is right.
    constexpr int kBadRequest = 400;
    return made.error().code == base::ProblemCode::not_found ? problem_response(kBadRequest, made.error())
                                                             : problem_response(made.error());
  }
  if (const auto kept = context.garden.file().add_stand(made->plan, made->entries); !kept)
    return problem_response(kept.error());
  return fresh_response(desk::own_stand_json(*made));
}

/// Takes a stand back altogether.
Response take_back(const RouteContext& context, const Request& request) {
  const std::string& id = request.captured.at("stand");
  if (const auto gone = context.garden.file().take_back_stand(id, context.garden.today()); !gone)
    return problem_response(gone.error());
  return fresh_response(desk::stand_gone_json(id));
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
  context.server.route("POST", "/api/stands", [context](const Request& request) {
    Response response = add(context, request);
    context.tell_changes();
    return response;
  });
  context.server.route("POST", "/api/stands/{stand}/try",
                       [context](const Request& request) { return try_move(context, request); });
  context.server.route("POST", "/api/stands/{stand}/try/table",
                       [context](const Request& request) { return try_move_at_table(context, request); });
  context.server.route("DELETE", "/api/stands/{stand}", [context](const Request& request) {
    Response response = take_back(context, request);
    context.tell_changes();
    return response;
  });
  context.server.route("PUT", "/api/stands/{stand}", [context](const Request& request) {
    Response response = move_stand(context, request);
    context.tell_changes();
    return response;
  });
}

}  // namespace sowtide::serve::detail
