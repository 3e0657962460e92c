// Stands, beds, trays, varieties and kinds of entry as people type them: whatever the capitals, what has a
// name also by its name; and for what is not there, what may have been meant.
#pragma once

#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "book/garden.hpp"

namespace sowtide::book {

/// The id of the stand that is meant, capitals or not: "S3" is s3 where no other stand is called so. not_found
/// names the stands of a crop that was typed instead ("carrot"), or what is spelt nearly so.
[[nodiscard]] base::Result<std::string> stand_named(const GardenDescription& garden,
                                                    const crop::CropLibrary& library, std::string_view typed);

/// The id of the bed that is meant, by its id or its name, capitals or not. not_found with the nearest names;
/// ambiguous where two beds share the name.
[[nodiscard]] base::Result<std::string> bed_named(const GardenDescription& garden, std::string_view typed);

/// The id of the tray that is meant, likewise.
[[nodiscard]] base::Result<std::string> tray_named(const GardenDescription& garden, std::string_view typed);

/// The id of the variety of a crop that is meant, likewise. not_found lists the varieties that the garden has
/// of the crop; contradiction where only another crop has one of that name.
[[nodiscard]] base::Result<std::string> variety_named(const GardenDescription& garden, std::string_view crop,
                                                      std::string_view typed);

/// The kind of entry of a word, capitals or not. not_found tells the kinds, and the one that another word for it
/// means ("harvested").
[[nodiscard]] base::Result<EventKind> event_kind_named(std::string_view typed);

}  // namespace sowtide::book
