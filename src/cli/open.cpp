#include "cli/open.hpp"

#include <fmt/format.h>

#include <utility>

#include "book/naming.hpp"

namespace sowtide::cli {
namespace {

/// What was found for a word, or its problem told of the argument that took it.
base::Result<std::string> of_argument(base::Result<std::string> found, const std::string& argument) {
  if (!found) found.error().where.field = argument;
  return found;
}

}  // namespace

base::Result<OpenGarden> open_garden(const std::string& path) {
  auto file = book::GardenFile::open(path);
  if (!file) return tl::make_unexpected(file.error());
  auto garden = file->description();
  if (!garden) return tl::make_unexpected(garden.error());
  auto events = file->events();
  if (!events) return tl::make_unexpected(events.error());
  return OpenGarden{std::move(*file), std::move(*garden), std::move(*events)};
}

base::Result<void> check_past(const climate::WeatherRecord& record, const std::string& path, base::Date today) {
  constexpr base::Days kClockSlack{1};
  if (record.day_count() == 0 || record.last() <= today + kClockSlack) return {};
  for (const climate::Series& series : record.series) {
    for (std::size_t i = 0; i < series.origin.size(); ++i) {
      const bool seen = series.origin[i] == climate::ValueOrigin::observed || series.origin[i] == climate::ValueOrigin::estimated;
      if (!seen || record.date_at(i) <= today + kClockSlack) continue;
      return base::fail(base::ProblemCode::contradiction,
                        fmt::format("has weather observed on {}, after today ({})", base::to_iso(record.date_at(i)),
                                    base::to_iso(today)),
                        {.file = path}, "Mend the dates, or the clock; a forecast is added with --forecast");
    }
  }
  return {};
}

base::Result<desk::Season> open_season(const std::string& path, base::Date today) {
  auto opened = open_garden(path);
  if (!opened) return tl::make_unexpected(opened.error());
  return desk::make_season(crop::built_in_library(), std::move(opened->garden), opened->events, today);
}

base::Result<std::string> stand_typed(const std::string& typed, const book::GardenDescription& garden,
                                      const std::string& argument) {
  if (typed.empty()) return typed;
  return of_argument(book::stand_named(garden, crop::built_in_library(), typed), argument);
}

base::Result<std::string> bed_typed(const std::string& typed, const book::GardenDescription& garden,
                                    const std::string& argument) {
  if (typed.empty()) return typed;
  return of_argument(book::bed_named(garden, typed), argument);
}

base::Result<std::string> tray_typed(const std::string& typed, const book::GardenDescription& garden,
                                     const std::string& argument) {
  if (typed.empty()) return typed;
  return of_argument(book::tray_named(garden, typed), argument);
}

base::Result<std::string> variety_typed(const std::string& typed, const std::string& crop,
                                        const book::GardenDescription& garden, const std::string& argument) {
  if (typed.empty()) return typed;
  return of_argument(book::variety_named(garden, crop, typed), argument);
}

}  // namespace sowtide::cli
