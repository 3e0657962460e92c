// Stands that were put in by hand and taken back altogether: the log keeps their entries, and nothing of them
// counts (docs/formats/log.md, "Put in by hand").
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"

namespace sowtide::book {

/// Id of the entry by which a stand is put in by hand: its sowing, its setting out, or a note of a day to come.
[[nodiscard]] std::string making_id(std::string_view stand, base::Date day);

/// The stands that were taken back: their making is corrected, and no other entry of them stands. The
/// correction of that correction, or a further entry of theirs, brings them back.
[[nodiscard]] std::set<std::string, std::less<>> taken_back(const std::vector<Event>& events);

/// The correction, dated `day`, that takes a stand back; nothing for one that the log does not name. Problem:
/// contradiction, where an entry other than its making stands, or where it was not put in by hand and the log
/// names it.
[[nodiscard]] base::Result<std::optional<Event>> taking_back(const std::string& stand,
                                                             const std::vector<Event>& events,
                                                             base::Date day);

}  // namespace sowtide::book
