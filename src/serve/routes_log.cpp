#include <nlohmann/json.hpp>

#include "desk/json.hpp"
#include "desk/log_answer.hpp"
#include "desk/message_json.hpp"
#include "desk/told_json.hpp"
#include "serve/detail/body.hpp"
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
    if (!desk::lies_ahead(event, today)) continue;
    return base::fail(base::ProblemCode::out_of_range,
                      base::to_iso(event.date) + " lies ahead of today, " + base::to_iso(today),
                      {.file = {}, .line = 0, .column = 0, .field = "events[" + std::to_string(i) + "].date"},
                      "Put the date right, or the clock.");
  }
  return {};
}

Response append(const RouteContext& context, const std::string& text) {
  const auto body = parse_body(text);
  if (!body) return problem_response(body.error());
  const auto events = desk::read_events(*body);
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

/// What is odd about an entry that was just taken, in English and as phrases, where anything is; it counts as
/// found from now on.
json cautions_of(Found& found, const book::Event& event) {
  const auto said = desk::entry_cautions(found.garden, crop::built_in_library(), found.events, event);
  // In the order of arrival, as the file numbers them.
  const std::int64_t last = found.events.empty() ? 0 : found.events.back().sequence;
  found.events.push_back(event);
  found.events.back().sequence = last + 1;
  if (said.empty()) return json::object();
  return {{"cautions", desk::caution_texts(said, event, desk::units_of(found.garden.units))},
          {"cautions_said", desk::messages_json(said)}};
}

/// The id that a device gave its entry; empty when it gave none.
json id_told(const json& entry) {
  if (!entry.is_object() || !entry.contains("event")) return "";
  const json& event = entry["event"];
  return event.is_object() && event.contains("id") && event["id"].is_string() ? event["id"] : json("");
}

json refused(const json& entry, const base::Problem& problem) {
  json result{{"id", id_told(entry)}, {"status", "refused"}};
  result.update(json::parse(desk::problem_json(problem)));
  return result;
}

/// One entry of a device that was off the network, as far as it can be understood without the log.
base::Result<book::Event> read_entry(const json& entry, const book::GardenDescription& garden,
                                     base::Date today) {
  JsonFields fields(entry, "");
  std::string crop;
  fields.text("crop", crop);
  const json* told = fields.find("event", Need::must);
  if (auto read = fields.finish(); !read) return tl::unexpected(read.error());
  auto event = desk::read_event(*told);
  if (!event) return event;
  if (auto same = check_same_crop(garden, *event, crop); !same) return tl::unexpected(same.error());
  if (auto known = check_not_ahead({*event}, today); !known) return tl::unexpected(known.error());
  return event;
}

/// The answer to each entry: kept (now or earlier, so that sending it again answers the same), or refused
/// with the reason. Problems: those of the garden file as a whole; the device then sends all of them again.
base::Result<json> keep_entries(const RouteContext& context, const json& entries, Found& found) {
  std::vector<base::Result<book::Event>> told;
  std::vector<book::Event> understood;
  for (const json& entry : entries) {
    told.push_back(read_entry(entry, found.garden, context.garden.today()));
    if (told.back()) understood.push_back(*told.back());
  }
  const auto taken = context.garden.file().append_each(understood);
  if (!taken) return tl::unexpected(taken.error());
  // Each is held against the whole log; nobody reads more cautions of one batch.
  constexpr int kMostLookedAt = 200;
  int looked_at = 0;
  json results = json::array();
  auto next = taken->begin();
  for (std::size_t i = 0; i < told.size(); ++i) {
    const base::Result<bool> is_new = told[i] ? *next++ : tl::unexpected(told[i].error());
    if (!is_new) {
      results.push_back(refused(entries[i], is_new.error()));
      continue;
    }
    json kept{{"id", told[i]->id}, {"status", "kept"}};
    if (*is_new && looked_at++ < kMostLookedAt) kept.update(cautions_of(found, *told[i]));
    results.push_back(std::move(kept));
  }
  return results;
}

/// Takes what it can: an entry that is refused holds up none of the others.
Response sync(const RouteContext& context, const std::string& text) {
  const auto body = parse_body(text);
  if (!body) return problem_response(body.error());
  const bool is_list =
      body->is_object() && body->size() == 1 && body->contains("entries") && (*body)["entries"].is_array();
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
  const auto results = keep_entries(context, (*body)["entries"], found);
  if (!results) return problem_response(results.error());
  const auto revision = context.garden.file().revision();
  if (!revision) return problem_response(revision.error());
  return fresh_response(
      json{{"results", *results}, {"revision", *revision}}.dump(-1, ' ', false, kReplaceBadText));
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
