// log.csv of an export: the logbook, one row an entry (docs/formats/log.md).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"

namespace sowtide::book {

[[nodiscard]] std::string log_csv(const std::vector<Event>& events);

/// Reads a log for a garden and checks every entry against it. Columns may be left out but for id, date and
/// kind.
[[nodiscard]] base::Result<std::vector<Event>> read_log_csv(std::string_view text, const std::string& file,
                                                            const GardenDescription& garden);

}  // namespace sowtide::book
