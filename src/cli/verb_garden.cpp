// new, copy, export.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <filesystem>
#include <ostream>

#include "cli/open.hpp"
#include "cli/place_weather.hpp"
#include "cli/verbs.hpp"
#include "climate/places.hpp"
#include "desk/json.hpp"
#include "desk/present.hpp"
#include "desk/season.hpp"
#include "desk/weather_report.hpp"

namespace sowtide::cli {
namespace {

base::Result<book::GardenText> description_for(const NewOptions& options, Output& output) {
  if (!options.from.empty() && !options.place.empty()) {
    return base::fail(base::ProblemCode::usage, "cannot stand beside --from, which names its own place",
                      {.field = "--place"}, "Give one of the two");
  }
  if (!options.from.empty()) return book::read_garden_toml(options.from);
  book::GardenText text;
  text.garden.name = std::filesystem::path(options.garden).stem().string();
  if (options.place.empty()) return text;
  auto place = place_named(options.place, output);
  if (!place) return tl::make_unexpected(place.error());
  text.garden.site = place->site;
  text.garden.normals = place->normals;
  return text;
}

/// What was assumed of a weather file that the description names, and what was found in it.
void tell_weather(const book::GardenText& text, Output& output) {
  if (text.garden.weather.day_count() == 0) return;
  for (const std::string& note : text.weather_notes) fmt::print(output.out, "  note: {}\n", note);
  fmt::print(output.out, "Weather {} to {}; quality control and gaps:\n{}",
             base::to_iso(text.garden.weather.first), base::to_iso(text.garden.weather.last()),
             desk::findings_text(text.garden.weather_findings, desk::units_of(text.garden.units)));
}

}  // namespace

base::Result<void> run_new(const NewOptions& options, Output& output) {
  auto text = description_for(options, output);
  if (!text) return tl::make_unexpected(text.error());
  if (auto past = check_past(text->garden.weather, options.from, options.today); !past) return past;
  auto checked = book::check_against(crop::built_in_library(), text->garden);
  if (checked) checked = desk::check_reach(text->garden, options.today);
  if (!checked) {
    base::Problem problem = book::locate(checked.error(), *text);
    if (problem.where.file.empty()) problem.where.file = options.from;
    return tl::make_unexpected(problem);
  }
  auto file = book::GardenFile::create(options.garden, text->garden, text->events);
  if (!file) return tl::make_unexpected(file.error());
  const book::GardenDescription& garden = text->garden;
  if (output.json) {
    fmt::print(output.out,
               "{{\"garden\":{},\"beds\":{},\"trays\":{},\"wants\":{},\"packets\":{},\"stands\":{},"
               "\"events\":{}}}\n",
               desk::json_text(garden.name), garden.beds.size(), garden.trays.size(), garden.wants.size(),
               garden.packets.size(), garden.stands.size(), text->events.size());
    return {};
  }
  fmt::print(output.out, "Made {}: {}, {}, {} of tray, {}, {} of seed, {}, {}.\n", options.garden,
             garden.name, desk::counted(std::ssize(garden.beds), "bed"),
             desk::counted(std::ssize(garden.trays), "kind"), desk::counted(std::ssize(garden.wants), "want"),
             desk::counted(std::ssize(garden.packets), "packet"),
             desk::counted(std::ssize(garden.stands), "stand"),
             desk::counted(std::ssize(text->events), "log entry", "log entries"));
  tell_weather(*text, output);
  if (!garden.place_told()) {
    fmt::print(output.out,
               "The place is not told yet. Next: sowtide serve {}, and tell it on the page that opens.\n",
               options.garden);
  } else if (garden.weather.day_count() == 0) {
    fmt::print(output.out, "Next: sowtide weather {} add FILE\n", options.garden);
  }
  return {};
}

base::Result<void> run_household(const HouseholdOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  const crop::CropLibrary& library = crop::built_in_library();
  std::vector<desk::ProposedWant> wants;
  const auto propose = [&](const book::GardenDescription& garden) -> base::Result<void> {
    auto proposed = desk::proposed_wants(library, garden, options.asked);
    if (!proposed) return tl::make_unexpected(proposed.error());
    wants = std::move(*proposed);
    return {};
  };
  const auto done = options.add
                        ? opened->file.change_description([&](book::GardenDescription& garden, std::size_t) {
                            auto proposed = propose(garden);
                            for (const desk::ProposedWant& each : wants) garden.wants.push_back(each.want);
                            return proposed;
                          })
                        : propose(opened->garden);
  if (!done) return done;
  output.out
      << (output.json
              ? desk::household_json(library, opened->garden, options.asked.people, wants, options.add) + "\n"
              : desk::household_text(library, opened->garden, options.asked.people, wants, options.add));
  return {};
}

base::Result<void> run_copy(const CopyOptions& options, Output& output) {
  auto file = book::GardenFile::open(options.garden);
  if (!file) return tl::make_unexpected(file.error());
  if (auto copied = file->backup(options.copy); !copied) return copied;
  if (output.json) {
    fmt::print(output.out, "{{\"garden\":{},\"copy\":{}}}\n", desk::json_text(options.garden),
               desk::json_text(options.copy));
  } else {
    fmt::print(output.out, "Copied {} to {}.\n", options.garden, options.copy);
  }
  return {};
}

base::Result<void> run_export(const ExportOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  auto written = book::write_export(opened->garden, opened->events, options.directory);
  if (!written) return written;
  if (output.json) {
    fmt::print(output.out, "{{\"directory\":{},\"events\":{},\"weather_days\":{}}}\n",
               desk::json_text(options.directory), opened->events.size(), opened->garden.weather.day_count());
  } else {
    fmt::print(output.out,
               "Wrote {0} ({1} log entries, {2} days of weather). Read it back with: sowtide new FILE --from "
               "{0}/garden.toml\n",
               options.directory, opened->events.size(), opened->garden.weather.day_count());
  }
  return {};
}

}  // namespace sowtide::cli
