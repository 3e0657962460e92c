// What the logbook accepts: each kind of entry with what it needs (docs/formats/log.md).
#pragma once

#include <functional>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"
#include "book/stand_log.hpp"

namespace sowtide::book {

/// A lot in store: the entry that put it there, and what was taken from it.
struct LotLog {
  std::string entry;
  base::Date stored{};
  double grams = 0.0;
  std::vector<std::pair<std::string, double>> taken_g;  ///< by entry
};

/// What entries may refer to. Grows with the entries taken: a "stored" entry makes a lot, every entry can be
/// corrected.
struct EventContext {
  std::map<std::string, std::string, std::less<>> stands;  ///< and their crops
  std::set<std::string, std::less<>> beds;
  std::map<std::string, LotLog, std::less<>> lots;  ///< by name
  std::map<std::string, std::string, std::less<>> packets;  ///< and their crops
  StandLogs stand_logs;  ///< what was taken of each stand; entries that do not fit it are refused
  std::function<bool(const std::string& id)> has_event;  ///< true when the book holds the entry

  /// The context of a garden without entries; `has_event` is left to the caller.
  [[nodiscard]] static EventContext of(const GardenDescription& garden);
  /// Takes an entry unchecked; entries are to be taken in the order of arrival.
  void take(const Event& event);
};

/// Checks one entry. The problem's field is the name of the field of the entry ("grams").
[[nodiscard]] base::Result<void> check_event(const Event& event, const EventContext& context);

/// Checks a whole log and gives every entry its place in it: entries without a sequence follow in the order
/// given. Entries said twice are left out once; the same id with other content is a contradiction. `place`
/// names where an entry stands (its line in a file).
[[nodiscard]] base::Result<std::vector<Event>> check_log(
    const GardenDescription& garden, std::vector<Event> events,
    const std::function<base::Place(std::size_t index)>& place = {});

}  // namespace sowtide::book
