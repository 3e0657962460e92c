#include <nlohmann/json.hpp>

#include "desk/json.hpp"
#include "desk/log_answer.hpp"
#include "desk/message_json.hpp"
#include "serve/detail/json_fields.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

using nlohmann::json;

constexpr auto kReplaceBadText = json::error_handler_t::replace;

/// A plan made since may have given the stand's name to another crop; then the entry means another stand than
/// this one.
base::Result<void> check_same_crop(const book::GardenDescription& garden, const book::Event& event,
                                   const std::string& crop) {
  for (const stand::StandPlan& plan : garden.stands) {
    if (plan.id != event.stand || crop.empty() || plan.crop == crop) continue;
    return base::fail(
        base::ProblemCode::contradiction,
        "stand " + plan.id + " was " + crop + " when this was written, and is " + plan.crop + " now",
        {.file = {}, .line = 0, .column = 0, .field = "stand"},
        "The garden was planned anew since: write the entry again for the stand that is meant.");
  }
  return {};
}

/// Nothing is done on a day to come. The clock of a device in another time zone may be a day ahead.
base::Result<void> check_not_ahead(const std::vector<book::Event>& events, base::Date today) {
  for (std::size_t i = 0; i < events.size(); ++i) {
    const book::Event& event = events[i];
    if (event.date <= today + base::Days{1}) continue;
    return base::fail(base::ProblemCode::out_of_range,
                      base::to_iso(event.date) + " lies ahead of today, " + base::to_iso(today),
                      {.file = {}, .line = 0, .column = 0, .field = "events[" + std::to_string(i) + "].date"},
                      "Put the date right, or the clock.");
  }
  return {};
}

Response append(const RouteContext& context, const std::string& body) {
  const auto events = desk::parse_events_json(body);
  if (!events) return problem_response(events.error());
  if (auto known = check_not_ahead(*events, context.garden.today()); !known) return problem_response(known.error());
  const auto added = context.garden.file().append(*events);
  if (!added) return problem_response(added.error());
  const auto revision = context.garden.file().revision();
  if (!revision) return problem_response(revision.error());
  return fresh_response(json{{"added", *added}, {"revision", *revision}}.dump());
}

/// The garden as the entries of a device find it.
struct Found {
  book::GardenDescription garden;
  std::vector<book::Event> events;  ///< with those of the device that were taken
};

/// What is odd about an entry that was just taken, in English and as phrases; nothing where nothing is. It counts
/// as found from now on.
json cautions_of(Found& found, const book::Event& event) {
  const auto said = desk::entry_cautions(found.garden, crop::built_in_library(), found.events, event);
  found.events.push_back(event);
  if (said.empty()) return json::object();
  return {{"cautions", desk::caution_texts(said, event, desk::units_of(found.garden.units))},
          {"cautions_said", desk::messages_json(said)}};
}

/// One entry of a device that was off the network: kept (now or earlier, so that sending it again answers the
/// same), or refused with the reason.
json sync_entry(const RouteContext& context, const json& entry, Found& found) {
  const auto outcome = [&entry](const char* status) {
    const json& event = entry.contains("event") ? entry["event"] : json();
    const bool has_id = event.is_object() && event.contains("id") && event["id"].is_string();
    return json{{"id", has_id ? event["id"] : json("")}, {"status", status}};
  };
  const auto refused = [&outcome](const base::Problem& problem) {
    json result = outcome("refused");
    result.update(json::parse(desk::problem_json(problem)));
    return result;
  };
  JsonFields fields(entry, "");
  std::string crop;
  fields.text("crop", crop);
  const json* event = fields.find("event", Need::must);
  if (auto read = fields.finish(); !read) return refused(read.error());
  const auto events = desk::parse_events_json(json::array({*event}).dump(-1, ' ', false, kReplaceBadText));
  if (!events) return refused(events.error());
  if (auto same = check_same_crop(found.garden, events->front(), crop); !same) return refused(same.error());
  if (auto known = check_not_ahead(*events, context.garden.today()); !known) return refused(known.error());
  const auto added = context.garden.file().append(*events);
  if (!added) return refused(added.error());
  json kept = outcome("kept");
  if (*added > 0) kept.update(cautions_of(found, events->front()));
  return kept;
}

/// Takes what it can: an entry that is refused holds up none of the others.
Response sync(const RouteContext& context, const std::string& text) {
  const json body = json::parse(text, nullptr, false);
  const bool is_list =
      body.is_object() && body.size() == 1 && body.contains("entries") && body["entries"].is_array();
  if (!is_list) {
    return problem_response({.code = base::ProblemCode::syntax,
                             .what = "the body must hold a list of entries",
                             .where = {.file = {}, .line = 0, .column = 0, .field = "entries"},
                             .remedy = R"(Send {"entries": [{"event": {…}, "crop": "beet"}]}.)"});
  }
  auto garden = context.garden.file().description();
  if (!garden) return problem_response(garden.error());
  auto events = context.garden.events();
  if (!events) return problem_response(events.error());
  Found found{std::move(*garden), std::move(*events)};
  json results = json::array();
  for (const json& entry : body["entries"]) results.push_back(sync_entry(context, entry, found));
  const auto revision = context.garden.file().revision();
  if (!revision) return problem_response(revision.error());
  return fresh_response(
      json{{"results", results}, {"revision", *revision}}.dump(-1, ' ', false, kReplaceBadText));
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
  context.server.route("POST", "/api/events/sync", [context](const Request& request) {
    Response response = sync(context, request.body);
    context.tell_changes();
    return response;
  });
}

}  // namespace sowtide::serve::detail
