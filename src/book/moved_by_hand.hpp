// A planned stand that the grower moved: a note in the log says so, and as for every stand of which an entry
// stands the next plan leaves it where and when it is (docs/formats/log.md, "Moved by hand").
#pragma once

#include <string>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"

namespace sowtide::book {

/// What is to be written with a move: the note, dated `day`, where no entry of the stand stands yet; else
/// nothing, since a plan leaves it alone already.
[[nodiscard]] std::vector<Event> moving_entries(const std::string& stand, const std::vector<Event>& events,
                                                base::Date day);

/// Whether the entry is such a note.
[[nodiscard]] bool is_moving(const Event& event);

/// The corrections, dated `day`, that leave a stand to the next plan again: one for each such note that
/// stands. Problem: contradiction, where none stands.
[[nodiscard]] base::Result<std::vector<Event>> releasing(const std::string& stand,
                                                         const std::vector<Event>& events, base::Date day);

}  // namespace sowtide::book
