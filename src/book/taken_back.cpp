#include "book/taken_back.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string_view>

#include "book/corrections.hpp"
#include "book/moved_by_hand.hpp"

namespace sowtide::book {
namespace {

using base::ProblemCode;

std::string making_of(std::string_view stand) { return fmt::format("own-{}-", stand); }

/// Stands before the name of the stand that a correction takes back.
constexpr std::string_view kBack = "back-";

std::string back_of(std::string_view stand) {
  return fmt::format("{}{}-", kBack, stand);
}

bool is_taking_back(const Event& event) {
  return event.kind == EventKind::corrected && event.id.starts_with(kBack);
}

bool is_making(const Event& event) {
  return !event.stand.empty() && event.id.starts_with(making_of(event.stand));
}

base::Result<std::optional<Event>> refused(const std::string& stand, const Event& other) {
  return base::fail(
      ProblemCode::contradiction,
      fmt::format("stand {} has more in the log than that it was put in: {} on {} (entry {})", stand,
                  event_kind_text(other.kind), base::to_iso(other.date), other.id),
      {.field = "stand"},
      "Take back every other entry of it first, or, where it really stood there, log it as discarded");
}

}  // namespace

std::string making_id(std::string_view stand, base::Date day) {
  return making_of(stand) + base::to_iso(day);
}

std::set<std::string, std::less<>> taken_back(const std::vector<Event>& events) {
  const Corrections corrections = corrections_of(events);
  std::map<std::string_view, std::string_view> stand_of;  // of no use where nothing was taken back
  if (std::any_of(events.begin(), events.end(), is_taking_back)) {
    for (const Event& event : events) stand_of.emplace(event.id, event.stand);
  }
  std::set<std::string, std::less<>> gone;
  for (const Event& event : events) {
    const bool removed = corrections.removed(event.id);
    if (removed && is_making(event)) gone.insert(event.stand);
    if (removed || !is_taking_back(event)) continue;
    const auto stand = stand_of.find(event.target);
    if (stand != stand_of.end() && event.id.starts_with(back_of(stand->second))) gone.emplace(stand->second);
  }
  for (const std::string& stand : stands_of_log(events)) gone.erase(stand);
  return gone;
}

base::Result<std::optional<Event>> taking_back(const std::string& stand, const std::vector<Event>& events,
                                               base::Date day) {
  const Corrections corrections = corrections_of(events);
  const Event* last = nullptr;
  const Event* making = nullptr;
  for (const Event& event : events) {
    if (event.stand != stand || event.kind == EventKind::corrected) continue;
    last = &event;
    if (corrections.removed(event.id)) continue;
    if (!is_making(event) && !is_moving(event)) return refused(stand, event);
    making = &event;
  }
  if (last == nullptr) return std::nullopt;
  return Event{.id = fmt::format("{}{}", back_of(stand), events.size()),
               .date = day,
               .kind = EventKind::corrected,
               .target = (making != nullptr ? making : last)->id};
}

}  // namespace sowtide::book
