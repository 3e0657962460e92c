#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "climate/places.hpp"
#include "crop/crop.hpp"
#include "crop/household.hpp"
#include "desk/place_list.hpp"
#include "serve/assets.hpp"
#include "serve/detail/body.hpp"
#include "serve/detail/garden_parts.hpp"
#include "serve/detail/http_text.hpp"
#include "serve/detail/query.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

using base::ProblemCode;

constexpr int kPreconditionFailed = 412;

base::Result<std::string> setup_answer(const RouteContext& context) {
  const auto garden = context.garden.file().description();
  if (!garden) return tl::unexpected(garden.error());
  const auto events = context.garden.events();
  if (!events) return tl::unexpected(events.error());
  return setup_json(*garden, events->size());
}

Response answered(base::Result<std::string> body) {
  if (!body) return problem_response(body.error());
  return {.body = std::move(*body), .headers = {}};
}

/// Whoever changes a part says by If-Match which state was seen; another one since is not written over
/// unseen.
base::Result<void> refuse_unseen(const std::string& seen, const std::string& now) {
  if (seen.empty()) return {};
  const std::string tag = entity_tag(now);
  const std::string packed_tag = tag.substr(0, tag.size() - 1) + "-gz\"";
  if (names_tag(seen, tag) || names_tag(seen, packed_tag)) return {};
  return base::fail(ProblemCode::contradiction, "the garden was changed elsewhere since you read it", {},
                    "Read GET /api/setup again and make the change on that.");
}

/// Puts the part that is sent into what the garden file holds now. Where it is refused, `refusal` is the answer.
base::Result<void> put_part(const Request& request, book::GardenDescription& garden, std::size_t event_count,
                            std::optional<Response>& refusal) {
  if (auto seen = refuse_unseen(request.header("if-match"), setup_json(garden, event_count)); !seen) {
    refusal = problem_response(kPreconditionFailed, seen.error());
    return seen;
  }
  const auto body = parse_body(request.body);
  if (!body) {
    refusal = problem_response(body.error());
    return tl::unexpected(body.error());
  }
  if (auto read = read_garden_part(garden, request.captured.at("part"), *body); !read) {
    refusal = problem_response(read.error());
    return read;
  }
  // Here it is the body that names what does not exist; the address is right.
  constexpr int kBadRequest = 400;
  auto known = book::check_against(crop::built_in_library(), garden);
  if (!known) refusal = problem_response(kBadRequest, known.error());
  return known;
}

Response change_part(const RouteContext& context, const Request& request) {
  std::optional<Response> refusal;
  const auto kept = context.garden.file().change_description(
      [&](book::GardenDescription& garden, std::size_t event_count) {
        return put_part(request, garden, event_count, refusal);
      });
  if (refusal) return std::move(*refusal);
  if (kept) return answered(setup_answer(context));
  // What is still referred to cannot go: again it is not the address that is wrong.
  constexpr int kConflict = 409;
  return kept.error().code == ProblemCode::not_found ? problem_response(kConflict, kept.error())
                                                     : problem_response(kept.error());
}

/// Nothing for what is no number within the bounds, or was not asked.
std::optional<double> number_within(const Request& request, const std::string& name, NumberBounds bounds) {
  const auto number = number_asked(request, name, bounds);
  return number ? *number : std::nullopt;
}

Response nearest(const Request& request) {
  constexpr double kPole = 90.0;
  constexpr double kHalfRound = 180.0;
  if (auto known = only_asked(request, {"lat", "lon", "elevation_m"}); !known)
    return problem_response(known.error());
  const auto latitude_deg = number_within(request, "lat", {-kPole, kPole});
  const auto longitude_deg = number_within(request, "lon", {-kHalfRound, kHalfRound});
  const auto elevation_m = number_asked(request, "elevation_m");
  if (!latitude_deg || !longitude_deg || !elevation_m) {
    return problem_response({.code = ProblemCode::out_of_range,
                             .what = "lat, lon and elevation_m must be numbers of a place on earth",
                             .where = {.file = {}, .line = 0, .column = 0, .field = "lat"},
                             .remedy = "Ask for example /api/places/nearest?lat=47.4&lon=-122.3."});
  }
  const climate::NearestPlace found = climate::nearest_place(
      *latitude_deg, *longitude_deg, elevation_m->value_or(std::numeric_limits<double>::quiet_NaN()));
  const nlohmann::ordered_json answer{{"station", found.station},
                                      {"distance_km", found.distance_km},
                                      {"elevation_difference_m", found.elevation_difference_m},
                                      {"temperature_shift_k", found.temperature_shift_k},
                                      {"far", found.distance_km >= climate::kFarClimateKm},
                                      {"other", found.distance_km >= climate::kOtherClimateKm},
                                      {"source", found.place.normals.source},
                                      {"warning", found.warning}};
  return {.body = answer.dump(), .headers = {}};
}

Response household(const Request& request) {
  constexpr double kMostPeople = 1000.0;
  if (auto known = only_asked(request, {"people"}); !known) return problem_response(known.error());
  const auto people = number_within(request, "people", {0.0, kMostPeople});
  if (!people) {
    return problem_response({.code = ProblemCode::out_of_range,
                             .what = "people must be a number from 0 to 1000",
                             .where = {.file = {}, .line = 0, .column = 0, .field = "people"},
                             .remedy = "Ask for example /api/household?people=2."});
  }
  nlohmann::ordered_json amounts = nlohmann::ordered_json::array();
  for (const crop::HouseholdAmount& each : crop::household_amounts()) {
    amounts.push_back({{"crop", each.crop},
                       {"grams_per_week", *people * each.grams_per_person_week()},
                       {"source", each.source},
                       {"note", each.note}});
  }
  const nlohmann::ordered_json answer{{"people", *people}, {"amounts", std::move(amounts)}};
  return {.body = answer.dump(), .headers = {}};
}

}  // namespace

void add_setup_routes(const RouteContext& context) {
  HttpServer& server = context.server;
  server.route("GET", "/api/places",
               [](const Request&) { return Response{.body = desk::places_json(), .headers = {}}; });
  server.route("GET", "/api/places/nearest", [](const Request& request) { return nearest(request); });
  server.route("GET", "/api/household", [](const Request& request) { return household(request); });
  server.route("GET", "/api/setup", [context](const Request&) { return answered(setup_answer(context)); });
  server.route("PUT", "/api/setup/{part}", [context](const Request& request) {
    Response response = change_part(context, request);
    context.tell_changes();
    return response;
  });
}

}  // namespace sowtide::serve::detail
