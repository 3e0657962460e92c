// The logbook as a list to be read: which entries, of which stand, in which days.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "book/garden.hpp"

namespace sowtide::desk {

/// Which entries of a log are asked for.
struct LogChoice {
  std::string stand;  ///< id; empty: of all stands and of none
  std::optional<base::Date> from, to;
  std::size_t most = 20;  ///< the latest so many
};

/// An entry, and whether a correction has taken it out.
struct LoggedEntry {
  const book::Event* event = nullptr;
  bool corrected = false;
};

/// The entries chosen, the latest last; and how many the choice would give without `most`.
struct LogList {
  std::vector<LoggedEntry> entries;
  std::size_t matching = 0;
};

/// By date, then by order of arrival. Points into `events`. Cost: n log n.
[[nodiscard]] LogList chosen_entries(const std::vector<book::Event>& events, const LogChoice& choice);

/// A table: date, kind, what it concerns, count, weight, other measures, text and id; corrected ones marked.
[[nodiscard]] std::string log_text(const book::GardenDescription& garden, const crop::CropLibrary& library,
                                   const LogList& list);
/// {"garden","matching","entries":[{every field of the entry,"crop","crop_name","corrected"}]};
/// docs/api/logbook.schema.json.
[[nodiscard]] std::string log_json(const book::GardenDescription& garden, const crop::CropLibrary& library,
                                   const LogList& list);

}  // namespace sowtide::desk
