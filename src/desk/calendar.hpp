// The coming work of a garden as a calendar file (.ics) for any phone or desktop calendar.
//
// RFC 5545 (iCalendar): lines end in CR LF and are folded at 75 octets (3.1), text is escaped (3.3.11), days
// are VALUE=DATE, and an all-day entry ends on the day after (3.6.1). Entries are events, not to-dos: nearly
// every calendar shows a VEVENT, few show a VTODO; those whose program does can ask for VTODO with DUE. Days
// are not busy time (TRANSP:TRANSPARENT). An entry's UID is made of the garden, the stand and the kind of
// work, so that importing again moves an entry instead of doubling it.
#pragma once

#include <optional>
#include <string>

#include "base/problem.hpp"
#include "desk/present.hpp"
#include "desk/season.hpp"

namespace sowtide::desk {

struct CalendarOptions {
  std::string language = "en";
  std::optional<Units> units;  ///< nothing: the garden's own
  std::string address;         ///< where the web app answers, for a link in each entry; or empty
  bool as_todos = false;       ///< VTODO instead of VEVENT
};

/// All work from the season's today on: sowing, coming up, hardening off, setting out, first and last pick.
/// DTSTAMP is the season's today, so that the same input gives the same file. not_found for a language
/// without texts.
[[nodiscard]] base::Result<std::string> calendar_ics(const Season& season, const CalendarOptions& options);

}  // namespace sowtide::desk
