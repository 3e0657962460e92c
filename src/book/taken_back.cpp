#include "book/taken_back.hpp"

#include <fmt/format.h>

#include "book/corrections.hpp"

namespace sowtide::book {
namespace {

using base::ProblemCode;

std::string making_of(std::string_view stand) { return fmt::format("own-{}-", stand); }

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
  std::set<std::string, std::less<>> gone, kept;
  for (const Event& event : events) {
    if (event.kind == EventKind::corrected) continue;
    if (!corrections.removed(event.id)) {
      kept.insert(event.stand);
    } else if (is_making(event)) {
      gone.insert(event.stand);
    }
  }
  std::erase_if(gone, [&kept](const std::string& stand) { return kept.contains(stand); });
  return gone;
}

base::Result<std::optional<Event>> taking_back(const std::string& stand, const std::vector<Event>& events,
                                               base::Date day) {
  const Corrections corrections = corrections_of(events);
  const Event* making = nullptr;
  bool named = false;
  for (const Event& event : events) {
    if (event.stand != stand || event.kind == EventKind::corrected) continue;
    named = true;
    if (corrections.removed(event.id)) continue;
    if (!is_making(event)) return refused(stand, event);
    making = &event;
  }
  if (making != nullptr) {
    return Event{.id = fmt::format("back-{}-{}", stand, events.size()),
                 .date = day,
                 .kind = EventKind::corrected,
                 .target = making->id};
  }
  if (!named) return std::nullopt;
  return base::fail(ProblemCode::contradiction,
                    fmt::format("stand {} was not put in by hand, and the log names it", stand),
                    {.field = "stand"}, "Log it as discarded, so that nothing more is expected of it");
}

}  // namespace sowtide::book
