#include "cli/open.hpp"

#include <utility>

namespace sowtide::cli {

base::Result<OpenGarden> open_garden(const std::string& path) {
  auto file = book::GardenFile::open(path);
  if (!file) return tl::make_unexpected(file.error());
  auto garden = file->description();
  if (!garden) return tl::make_unexpected(garden.error());
  auto events = file->events();
  if (!events) return tl::make_unexpected(events.error());
  return OpenGarden{std::move(*file), std::move(*garden), std::move(*events)};
}

base::Result<desk::Season> open_season(const std::string& path, base::Date today) {
  auto opened = open_garden(path);
  if (!opened) return tl::make_unexpected(opened.error());
  return desk::make_season(crop::built_in_library(), std::move(opened->garden), opened->events, today);
}

}  // namespace sowtide::cli
