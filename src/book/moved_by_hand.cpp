#include "book/moved_by_hand.hpp"

#include <fmt/format.h>

#include <string_view>

#include "book/corrections.hpp"

namespace sowtide::book {
namespace {

std::string moving_of(std::string_view stand) {
  return fmt::format("moved-{}-", stand);
}

}  // namespace

std::vector<Event> moving_entries(const std::string& stand, const std::vector<Event>& events,
                                  base::Date day) {
  if (stands_of_log(events).contains(stand)) return {};
  return {Event{.id = fmt::format("{}{}", moving_of(stand), events.size()),
                .date = day,
                .kind = EventKind::noted,
                .stand = stand,
                .text = "moved by hand"}};
}

bool is_moving(const Event& event) {
  return event.kind == EventKind::noted && !event.stand.empty() &&
         event.id.starts_with(moving_of(event.stand));
}

base::Result<std::vector<Event>> releasing(const std::string& stand, const std::vector<Event>& events,
                                           base::Date day) {
  const Corrections corrections = corrections_of(events);
  std::vector<Event> releases;
  for (const Event& event : events) {
    if (event.stand != stand || !is_moving(event) || corrections.removed(event.id)) continue;
    releases.push_back(Event{.id = fmt::format("released-{}-{}", stand, events.size() + releases.size()),
                             .date = day,
                             .kind = EventKind::corrected,
                             .target = event.id});
  }
  if (!releases.empty()) return releases;
  const bool in_log = stands_of_log(events).contains(stand);
  return base::fail(
      base::ProblemCode::contradiction, fmt::format("stand {} was not moved by hand", stand),
      {.field = "stand"},
      in_log ? "A plan leaves it alone for what else the log tells of it; take that back, or remove it"
             : "It is only planned: the next plan keeps it, moves it or does without it");
}

}  // namespace sowtide::book
