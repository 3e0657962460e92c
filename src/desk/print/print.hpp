// Paper: labels, sowing sheet, bed sheets, the season, the table and a teaching handout, as PDF.
//
//     auto pdf = print::print_season(season, print::Kind::labels, {.paper = print::Paper::letter});
//
// Everything is computed from a Season (or, for the handout, from a place's weather); nothing is read or
// written here.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "desk/present.hpp"
#include "desk/print/canvas.hpp"
#include "desk/print/moments.hpp"
#include "desk/season.hpp"

namespace sowtide::desk::print {

enum class Kind { labels, sowing_sheet, bed_sheets, season, table, handout };

/// "labels", "sowing-sheet", "bed-sheets", "season", "table", "handout".
[[nodiscard]] std::string_view kind_word(Kind kind) noexcept;
[[nodiscard]] std::optional<Kind> parse_kind(std::string_view word) noexcept;
[[nodiscard]] std::optional<Paper> parse_paper(std::string_view word) noexcept;

/// A sheet of self-adhesive labels, mm. The grids are those sold in any stationer's (common practice); check
/// one sheet on plain paper before printing on labels.
struct LabelGrid {
  std::string_view name;  ///< size of a label: "70x37"
  Paper paper = Paper::a4;
  int across = 1, down = 1;
  double width = 0.0, height = 0.0;  ///< of a label
  double left = 0.0, top = 0.0;      ///< of the first one
  double step_x = 0.0, step_y = 0.0;
};
[[nodiscard]] const std::vector<LabelGrid>& label_grids();

struct Options {
  Paper paper = Paper::a4;
  std::optional<Units> units;  ///< nothing: the garden's own
  std::string language = "en";
  std::string address;     ///< labels: where the web app answers, "http://garden.local:8420"; empty: no code
  std::string label_grid;  ///< empty: the first of the paper
  int first_label = 1;     ///< where to begin on a sheet that is partly used
  int weeks = 8;           ///< sowing sheet: how far ahead
};

/// The sheets of a garden. Problems: not_found (language, label grid), out_of_range (first label, weeks),
/// insufficient_data (no font on this machine).
[[nodiscard]] base::Result<std::string> print_season(const Season& season, Kind kind, const Options& options);

/// What the handout is made of: any place's weather, beginning on a 1 January and two years long.
struct PlaceWeather {
  std::string place;
  const climate::WeatherEnsemble* weather = nullptr;
  const crop::CropLibrary* library = nullptr;
  base::Date today{};
  std::vector<std::string> crops;  ///< only these; empty: all
  Units units = Units::metric;
};

/// Sowing windows of a place on one page. Problems as above; not_found for an unknown crop.
[[nodiscard]] base::Result<std::string> print_handout(const PlaceWeather& place, const Options& options);

}  // namespace sowtide::desk::print
