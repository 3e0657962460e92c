#include "desk/print/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "desk/print/handout.hpp"
#include "desk/print/sheets.hpp"

namespace sowtide::desk::print {
namespace {

constexpr std::array<std::string_view, 6> kKindWords{"labels", "sowing-sheet", "bed-sheets",
                                                     "season", "table",        "handout"};
constexpr int kMostWeeks = 60;

Turn turn_of(Kind kind) {
  return kind == Kind::sowing_sheet || kind == Kind::season || kind == Kind::table ? Turn::wide
                                                                                   : Turn::upright;
}

base::Result<const LabelGrid*> grid_for(const Options& options) {
  std::string known;
  for (const LabelGrid& grid : label_grids()) {
    if (grid.paper != options.paper) continue;
    if (options.label_grid.empty() || options.label_grid == grid.name) return &grid;
    known += (known.empty() ? "" : ", ") + std::string(grid.name);
  }
  return base::fail(base::ProblemCode::not_found,
                    fmt::format("there is no label sheet \"{}\" of this paper", options.label_grid),
                    {.field = "--label-size"}, "There are: " + known);
}

base::Result<void> check(const Options& options) {
  if (!has_fonts()) {
    return base::fail(base::ProblemCode::insufficient_data, "this machine has no font to set type with", {},
                      "Install fonts, on Debian: apt install fonts-lato fonts-vollkorn fonts-dejavu-core");
  }
  if (options.weeks < 1 || options.weeks > kMostWeeks) {
    return base::fail(base::ProblemCode::out_of_range, fmt::format("{} weeks", options.weeks),
                      {.field = "--weeks"}, fmt::format("Give 1 to {}", kMostWeeks));
  }
  return {};
}

/// Draws the sheet twice: unseen, to count its pages, and upon paper.
std::string render(const DocumentInfo& info, const Words& words, const PageTexts& texts, const Sheet& sheet) {
  DocumentInfo unseen = info;
  unseen.unseen = true;
  Canvas measuring(unseen);
  Pages counted(measuring, words, texts, 0);
  sheet(measuring, counted);
  Canvas canvas(info, &measuring);
  Pages pages(canvas, words, texts, counted.count());
  sheet(canvas, pages);
  return canvas.finish();
}

Sheet sheet_of(Kind kind, const SeasonSheet& sheet) {
  return [kind, &sheet](Canvas& canvas, Pages& pages) {
    switch (kind) {
      case Kind::sowing_sheet:
        return draw_sowing_sheet(sheet, canvas, pages);
      case Kind::bed_sheets:
        return draw_bed_sheets(sheet, canvas, pages);
      case Kind::season:
        return draw_season(sheet, canvas, pages);
      case Kind::table:
        return draw_table(sheet, canvas, pages);
      case Kind::labels:
      case Kind::handout:
        return;
    }
  };
}

base::Result<std::string> labels_pdf(const SeasonSheet& sheet, const DocumentInfo& info) {
  const auto grid = grid_for(sheet.options);
  if (!grid) return tl::make_unexpected(grid.error());
  const int per_page = (*grid)->across * (*grid)->down;
  if (sheet.options.first_label < 1 || sheet.options.first_label > per_page) {
    return base::fail(base::ProblemCode::out_of_range, fmt::format("label {}", sheet.options.first_label),
                      {.field = "--first-label"}, fmt::format("This sheet has labels 1 to {}", per_page));
  }
  Canvas canvas(info);
  draw_labels(sheet, **grid, canvas);
  return canvas.finish();
}

/// Where the weather of a sheet comes from, and what was added to it by choice.
std::string weather_note(const Words& words, const climate::EnsembleOrigin& origin) {
  std::string source;
  if (origin.place.empty()) {
    source = origin.normals_source.empty()
                 ? words.say("page.normals")
                 : words.say("page.normals_of", {{"source", origin.normals_source}});
  } else {
    source = words.say(origin.record_years == 1 ? "page.one_year" : "page.record",
                       {{"n", std::to_string(origin.record_years)},
                        {"place", origin.place},
                        {"from", std::to_string(origin.first_year)},
                        {"to", std::to_string(origin.last_year)}});
  }
  if (origin.made_years > 0) source += words.say("page.made", {{"n", std::to_string(origin.made_years)}});
  if (origin.warming_c != 0.0) {
    source += words.say(origin.warming_c > 0.0 ? "page.warmer" : "page.colder",
                        {{"degrees", words.temperature_difference(std::abs(origin.warming_c))}});
  }
  if (origin.record_unused) source += words.say("page.record_unused");
  return words.say("page.weather", {{"source", source}});
}

}  // namespace

std::string_view kind_word(Kind kind) noexcept {
  return kKindWords[static_cast<std::size_t>(kind)];
}

std::optional<Kind> parse_kind(std::string_view word) noexcept {
  for (std::size_t i = 0; i < kKindWords.size(); ++i) {
    if (kKindWords[i] == word) return static_cast<Kind>(i);
  }
  return std::nullopt;
}

std::optional<Paper> parse_paper(std::string_view word) noexcept {
  if (word == "a4") return Paper::a4;
  if (word == "letter") return Paper::letter;
  return std::nullopt;
}

base::Result<std::string> print_season(const Season& season, Kind kind, const Options& options) {
  if (const auto checked = check(options); !checked) return tl::make_unexpected(checked.error());
  if (kind == Kind::handout) {
    // The end of a season's ensemble is a whole calendar year; the windows want two that begin on a 1
    // January.
    const base::Date first = base::date_of(base::year_of(season.today), 1, 1);
    const base::Date end = base::date_of(base::year_of(season.today) + 2, 1, 1);
    const auto weather = garden_weather(season.garden, first, static_cast<std::size_t>((end - first).count()),
                                        first - base::Days{1});
    if (!weather) return tl::make_unexpected(weather.error());
    return print_handout({.place = season.garden.name,
                          .weather = &*weather,
                          .library = season.library,
                          .today = season.today,
                          .units = units_of(season.garden.units)},
                         options);
  }
  const auto texts = catalogue(options.language);
  if (!texts) return tl::make_unexpected(texts.error());
  const Words words(**texts, options.units.value_or(units_of(season.garden.units)));
  const SeasonSheet sheet{season, words, options};
  const std::string title = words.say(fmt::format("title.{}", kind_word(kind)));
  const DocumentInfo info{.paper = options.paper,
                          .turn = turn_of(kind),
                          .title = fmt::format("{}: {}", season.garden.name, title),
                          .date = season.today};
  if (kind == Kind::labels) return labels_pdf(sheet, info);
  const PageTexts page{.title = title,
                       .garden = season.garden.name,
                       .note = weather_note(words, season.weather.origin),
                       .day = words.say("page.as_of", {{"day", words.long_day(season.today)}})};
  return render(info, words, page, sheet_of(kind, sheet));
}

base::Result<std::string> print_handout(const PlaceWeather& place, const Options& options) {
  if (const auto checked = check(options); !checked) return tl::make_unexpected(checked.error());
  const auto texts = catalogue(options.language);
  if (!texts) return tl::make_unexpected(texts.error());
  const Words words(**texts, options.units.value_or(place.units));
  const auto crops = crop_years(place, words);
  if (!crops) return tl::make_unexpected(crops.error());
  const std::string title = words.say("title.handout");
  const DocumentInfo info{.paper = options.paper,
                          .turn = Turn::upright,
                          .title = fmt::format("{}: {}", place.place, title),
                          .date = place.today};
  const PageTexts page{
      .title = title, .garden = place.place, .note = weather_note(words, place.weather->origin), .day = {}};
  return render(info, words, page,
                [&](Canvas& canvas, Pages& pages) { draw_handout(place, *crops, words, canvas, pages); });
}

}  // namespace sowtide::desk::print
