// What several verbs need: an open garden with everything read from it.
#pragma once

#include <string>
#include <vector>

#include "book/garden_file.hpp"
#include "desk/season.hpp"

namespace sowtide::cli {

struct OpenGarden {
  book::GardenFile file;
  book::GardenDescription garden;
  std::vector<book::Event> events;
};

/// Opens a garden file and reads its description and log.
[[nodiscard]] base::Result<OpenGarden> open_garden(const std::string& path);

/// Nothing is observed on a day to come (contradiction); a day is let pass: a station may lie a day ahead of the
/// clock here. Forecasts may lie ahead.
[[nodiscard]] base::Result<void> check_past(const climate::WeatherRecord& record, const std::string& path,
                                            base::Date today);

/// The season of a garden file on a day.
[[nodiscard]] base::Result<desk::Season> open_season(const std::string& path, base::Date today);

/// The id of the stand that was typed as an argument of this name; one that was left out stays empty.
[[nodiscard]] base::Result<std::string> stand_typed(const std::string& typed,
                                                    const book::GardenDescription& garden,
                                                    const std::string& argument);

/// The id of the bed that was typed by its id or its name, for the argument that took it; an empty word stays
/// empty.
[[nodiscard]] base::Result<std::string> bed_typed(const std::string& typed,
                                                  const book::GardenDescription& garden,
                                                  const std::string& argument);

/// The ids of the tray and of the variety (of a crop) that were typed likewise.
[[nodiscard]] base::Result<std::string> tray_typed(const std::string& typed,
                                                   const book::GardenDescription& garden,
                                                   const std::string& argument);
[[nodiscard]] base::Result<std::string> variety_typed(const std::string& typed, const std::string& crop,
                                                      const book::GardenDescription& garden,
                                                      const std::string& argument);

}  // namespace sowtide::cli
