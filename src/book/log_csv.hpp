// log.csv of an export: the logbook, one row an entry (docs/formats/log.md).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"

namespace sowtide::book {

/// The whole log with its heading, every column written; read back it is the same.
[[nodiscard]] std::string log_csv(const std::vector<Event>& events);

/// Reads a log for a garden and checks every entry against it. Columns may be left out but for id, date and
/// kind. Problems name file, line and column; they are those of the entries too (book/event_check.hpp).
[[nodiscard]] base::Result<std::vector<Event>> read_log_csv(std::string_view text, const std::string& file,
                                                            const GardenDescription& garden);

}  // namespace sowtide::book
