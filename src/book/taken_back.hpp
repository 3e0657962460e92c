// Stands that were taken back altogether: put in by hand, or planned, and no entry of them stands any more.
// The log keeps what was written, and nothing of it counts (docs/formats/log.md, "Put in by hand").
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

/// The stands that were taken back: no entry of them stands, and their making is corrected or a correction
/// that `taking_back` made stands. The correction of that correction, or a further entry of theirs, brings
/// them back.
[[nodiscard]] std::set<std::string, std::less<>> taken_back(const std::vector<Event>& events);

/// The correction, dated `day`, that takes a stand back: of its making, or of the note that it was moved, or,
/// where no entry of it stands, of the last one once more. Nothing for a stand that the log never named.
/// Problem: contradiction, where an entry other than those stands.
[[nodiscard]] base::Result<std::optional<Event>> taking_back(const std::string& stand,
                                                             const std::vector<Event>& events,
                                                             base::Date day);

}  // namespace sowtide::book
