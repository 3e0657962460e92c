// print.
#include <fmt/format.h>
#include <fmt/ostream.h>
#include <unistd.h>

#include <array>
#include <ostream>

#include "base/file.hpp"
#include "cli/open.hpp"
#include "cli/place_weather.hpp"
#include "cli/verbs.hpp"
#include "desk/calendar.hpp"
#include "desk/json.hpp"
#include "desk/print/print.hpp"

namespace sowtide::cli {
namespace {

constexpr std::string_view kCalendar = "calendar";
constexpr int kServePort = 8420;

base::Result<std::optional<desk::Units>> units_from(const std::string& word) {
  if (word.empty()) return std::nullopt;
  if (word == "metric") return desk::Units::metric;
  if (word == "us") return desk::Units::us;
  return base::fail(base::ProblemCode::usage, fmt::format("there are no units \"{}\"", word),
                    {.field = "--units"}, "Give metric or us");
}

/// Where a phone on the same network most likely reaches this machine's `serve`.
std::string own_address() {
  std::array<char, 256> name{};
  if (gethostname(name.data(), name.size() - 1) != 0 || name[0] == '\0') return {};
  return fmt::format("http://{}:{}", name.data(), kServePort);
}

base::Result<desk::print::Options> options_from(const PrintOptions& options, Output& output) {
  desk::print::Options made;
  const auto paper = desk::print::parse_paper(options.paper);
  if (!paper) {
    return base::fail(base::ProblemCode::usage, fmt::format("there is no paper \"{}\"", options.paper),
                      {.field = "--paper"}, "Give a4 or letter");
  }
  const auto units = units_from(options.units);
  if (!units) return tl::make_unexpected(units.error());
  made.paper = *paper;
  made.units = *units;
  made.language = options.language;
  made.label_grid = options.label_size;
  made.first_label = options.first_label;
  made.weeks = options.weeks;
  made.address = options.address;
  if (made.address.empty() && options.kind == "labels") {
    made.address = own_address();
    fmt::print(output.err, "note: the codes open {}; give --address for another\n", made.address);
  }
  while (made.address.ends_with('/')) made.address.pop_back();
  return made;
}

base::Result<std::string> handout(const PrintOptions& options, const desk::print::Options& how,
                                  Output& output) {
  const base::Date first = base::date_of(base::year_of(options.date), 1, 1);
  const auto place = weather_of(options.garden, first, std::nullopt, output);
  if (!place) return tl::make_unexpected(place.error());
  return desk::print::print_handout({.place = place->place,
                                     .weather = &place->weather,
                                     .library = &crop::built_in_library(),
                                     .today = options.date,
                                     .crops = {},
                                     .units = desk::units_of(place->units)},
                                    how);
}

base::Result<std::string> printed(const PrintOptions& options, Output& output) {
  const auto kind = desk::print::parse_kind(options.kind);
  if (!kind && options.kind != kCalendar) {
    return base::fail(base::ProblemCode::usage, fmt::format("there is no sheet \"{}\"", options.kind),
                      {.field = "KIND"},
                      "Give labels, sowing-sheet, bed-sheets, season, table, handout or calendar");
  }
  const auto how = options_from(options, output);
  if (!how) return tl::make_unexpected(how.error());
  if (kind == desk::print::Kind::handout) return handout(options, *how, output);
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::make_unexpected(season.error());
  if (kind) return desk::print::print_season(*season, *kind, *how);
  return desk::calendar_ics(
      *season,
      {.language = how->language, .units = how->units, .address = how->address, .as_todos = options.todos});
}

/// "mine.sowtide" → "mine-labels.pdf", in the directory one is in.
std::string file_name(const PrintOptions& options) {
  std::string stem = options.garden.substr(options.garden.find_last_of('/') + 1);
  stem = stem.substr(0, stem.find_last_of('.'));
  return fmt::format("{}-{}.{}", stem, options.kind, options.kind == kCalendar ? "ics" : "pdf");
}

}  // namespace

base::Result<void> run_print(const PrintOptions& options, Output& output) {
  const auto bytes = printed(options, output);
  if (!bytes) return tl::make_unexpected(bytes.error());
  if (options.out == "-") {
    output.out << *bytes;
    return {};
  }
  const std::string file = options.out.empty() ? file_name(options) : options.out;
  if (auto written = base::write_file(file, *bytes); !written) return written;
  if (output.json) {
    fmt::print(output.out, "{{\"kind\": {}, \"file\": {}, \"bytes\": {}}}\n", desk::json_text(options.kind),
               desk::json_text(file), bytes->size());
  } else {
    fmt::print(output.out, "Wrote {}\n", file);
  }
  return {};
}

}  // namespace sowtide::cli
