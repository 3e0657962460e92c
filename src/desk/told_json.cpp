#include "desk/told_json.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>

namespace sowtide::desk {
namespace {

using base::ProblemCode;
using nlohmann::json;

constexpr std::size_t kMaxEvents = 10'000;

tl::unexpected<base::Problem> bad_event(std::size_t index, std::string_view field, std::string what) {
  return base::fail(base::ProblemCode::wrong_type, std::move(what),
                    {.field = fmt::format("events[{}].{}", index, field)},
                    "See docs/api/events.schema.json for the form of an event");
}

base::Result<std::string> text_member(const json& told, std::size_t index, const char* name,
                                      std::size_t limit) {
  const auto found = told.find(name);
  if (found == told.end()) return std::string{};
  if (!found->is_string()) return bad_event(index, name, "must be a text");
  auto value = found->get<std::string>();
  if (value.size() > limit) return bad_event(index, name, fmt::format("is longer than {} bytes", limit));
  return value;
}

base::Result<std::optional<double>> number_member(const json& told, std::size_t index, const char* name) {
  const auto found = told.find(name);
  if (found == told.end() || found->is_null()) return std::optional<double>{};
  if (!found->is_number()) return bad_event(index, name, "must be a number");
  return std::optional<double>{found->get<double>()};
}

constexpr std::size_t kMaxName = 64;
constexpr std::size_t kMaxNote = 4000;

/// An object that holds no field but those of an event.
base::Result<void> check_fields(const json& told, std::size_t index) {
  static const std::set<std::string, std::less<>> known{
      "id", "date", "kind", "stand", "target", "count", "grams", "litres", "diameter_mm", "text", "sequence"};
  if (!told.is_object()) return bad_event(index, "", "must be an object");
  for (const auto& [name, value] : told.items()) {
    if (!known.contains(name))
      return bad_event(index, name.substr(0, kMaxName), "is not a field of an event");
  }
  return {};
}

base::Result<void> read_texts(const json& told, std::size_t index, book::Event& event, std::string& date,
                              std::string& kind) {
  const std::array<std::tuple<const char*, std::string*, std::size_t>, 6> texts{
      {{"id", &event.id, kMaxName},
       {"date", &date, kMaxName},
       {"kind", &kind, kMaxName},
       {"stand", &event.stand, kMaxName},
       {"target", &event.target, kMaxName},
       {"text", &event.text, kMaxNote}}};
  for (const auto& [name, place, limit] : texts) {
    auto value = text_member(told, index, name, limit);
    if (!value) return tl::make_unexpected(value.error());
    *place = std::move(*value);
  }
  return {};
}

base::Result<void> read_amounts(const json& told, std::size_t index, book::Event& event) {
  const std::array<std::pair<const char*, std::optional<double>*>, 4> numbers{
      {{"count", &event.count},
       {"grams", &event.grams},
       {"litres", &event.litres},
       {"diameter_mm", &event.diameter_mm}}};
  for (const auto& [name, place] : numbers) {
    auto value = number_member(told, index, name);
    if (!value) return tl::make_unexpected(value.error());
    *place = *value;
  }
  return {};
}

base::Place field(std::string name) {
  return {.file = {}, .line = 0, .column = 0, .field = std::move(name)};
}

base::Result<base::Date> read_day(const json& value, const std::string& name) {
  if (!value.is_string())
    return base::fail(ProblemCode::wrong_type, "must be a day", field(name), "Write it as \"YYYY-MM-DD\".");
  auto day = base::parse_iso_date(value.get<std::string>());
  if (!day) return base::fail(day.error().code, day.error().what, field(name), "Write it as \"YYYY-MM-DD\".");
  return *day;
}

base::Result<void> read_field(StandMove& move, const std::string& name, const json& value) {
  if (name == "bed") {
    if (!value.is_string())
      return base::fail(ProblemCode::wrong_type, "must be the id of a bed", field(name));
    move.bed = value.get<std::string>();
  } else if (name == "from_m" || name == "to_m") {
    if (!value.is_number() || !std::isfinite(value.get<double>())) {
      return base::fail(ProblemCode::wrong_type, "must be a number of metres", field(name));
    }
    (name == "from_m" ? move.from_m : move.to_m) = value.get<double>();
  } else if (name == "put_right") {
    if (!value.is_boolean()) return base::fail(ProblemCode::wrong_type, "must be true or false", field(name));
    move.put_right = value.get<bool>();
  } else if (name == "set_out" && value.is_null()) {
    move.set_out.emplace();
  } else if (name == "sow" || name == "set_out") {
    const auto day = read_day(value, name);
    if (!day) return tl::unexpected(day.error());
    if (name == "sow") {
      move.sow = *day;
    } else {
      move.set_out.emplace(*day);
    }
  } else {
    return base::fail(ProblemCode::unknown_field, "is not part of a move", field(name),
                      "A move may hold bed, from_m, to_m, sow, set_out and put_right.");
  }
  return {};
}

}  // namespace

base::Result<book::Event> read_event(const json& told, std::size_t index) {
  if (auto ok = check_fields(told, index); !ok) return tl::make_unexpected(ok.error());
  book::Event event;
  std::string date;
  std::string kind;
  if (auto ok = read_texts(told, index, event, date, kind); !ok) return tl::make_unexpected(ok.error());
  if (auto ok = read_amounts(told, index, event); !ok) return tl::make_unexpected(ok.error());
  const auto day = base::parse_iso_date(date);
  if (!day) return bad_event(index, "date", "must be a date written YYYY-MM-DD");
  event.date = *day;
  const auto parsed = book::parse_event_kind(kind);
  if (!parsed) return bad_event(index, "kind", "is not a kind of event");
  event.kind = *parsed;
  return event;
}

base::Result<std::vector<book::Event>> read_events(const json& told) {
  const bool wrapped = told.is_object() && told.size() == 1 && told.contains("events");
  const json& list = wrapped ? told["events"] : told;
  if (!list.is_array()) {
    return base::fail(base::ProblemCode::wrong_type, "must be an array of events", {.field = "events"},
                      "Send [{\"id\":…,\"date\":…,\"kind\":…}]");
  }
  if (list.size() > kMaxEvents) {
    return base::fail(base::ProblemCode::too_large, "holds more than 10,000 events", {.field = "events"},
                      "Send it in parts");
  }
  std::vector<book::Event> events;
  events.reserve(list.size());
  for (std::size_t i = 0; i < list.size(); ++i) {
    auto event = read_event(list[i], i);
    if (!event) return tl::make_unexpected(event.error());
    events.push_back(std::move(*event));
  }
  return events;
}

base::Result<StandMove> read_stand_move(const json& told) {
  if (!told.is_object()) {
    return base::fail(ProblemCode::syntax, "a move must be a JSON object", {},
                      R"(Send for example {"from_m": 1.2}.)");
  }
  StandMove move;
  for (const auto& [name, each] : told.items()) {
    if (auto read = read_field(move, name, each); !read) return tl::unexpected(read.error());
  }
  return move;
}

}  // namespace sowtide::desk
