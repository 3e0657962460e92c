// Recognises weather formats by their content and hands the file to its reader.
#include "climate/readers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "climate/detail/ghcn_rows.hpp"
#include "climate/detail/row_source.hpp"
#include "climate/detail/text_scan.hpp"

namespace sowtide::climate {

using base::fail;
using base::ProblemCode;

namespace {

using Reader = base::Result<WeatherImport> (*)(std::string_view, const std::string&, const ReadOptions&);

/// The first lines of a file, for recognition.
struct Opening {
  std::string_view text;
  std::string_view first;          ///< first line that is not blank
  std::string_view second;         ///< the line after it
  std::vector<std::string> cells;  ///< of the first line, split at commas
};

struct Format {
  WeatherFormat names;
  bool (*recognises)(const Opening&);
  Reader read;
};

bool opening_holds(const Opening& opening, std::string_view words) {
  return opening.text.substr(0, 16384).find(words) != std::string_view::npos;
}

bool looks_like_dly(const Opening& opening) {
  const std::string_view line = opening.first;
  if (line.size() < 21 || line.find(',') != std::string_view::npos) return false;
  const auto element = line.substr(17, 4);
  const bool letters =
      std::ranges::all_of(element, [](char c) { return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); });
  return letters && detail::whole_of(line.substr(11, 6)) && detail::trimmed(line.substr(0, 11)).size() == 11;
}

bool looks_like_access(const Opening& opening) {
  return detail::wide_heading(opening.cells) && !detail::column_named(opening.cells, "MXSPD");
}

bool looks_like_long(const Opening& opening) {
  if (detail::long_heading(opening.cells)) return true;
  return opening.cells.size() >= 4 && opening.cells.size() <= 8 && opening.cells[0].size() == 11 &&
         detail::plain_day_of(opening.cells[1]) && opening.cells[2].size() == 4 &&
         detail::number_of(opening.cells[3]);
}

bool looks_like_json(const Opening& opening) {
  return opening.first.front() == '{' || opening.first.front() == '[';
}

bool looks_like_gsod(const Opening& opening) {
  return detail::column_named(opening.cells, "FRSHTT") ||
         (detail::column_named(opening.cells, "WDSP") && detail::column_named(opening.cells, "MXSPD"));
}

bool looks_like_epw(const Opening& opening) {
  return !opening.cells.empty() && opening.cells[0] == "LOCATION";
}

bool looks_like_tmy3(const Opening& opening) {
  return detail::starts_with_word(opening.second, "Date (MM/DD/YYYY)");
}

bool looks_like_tmy2(const Opening& opening) {
  return opening.second.size() > 100 && opening.second.front() == ' ' &&
         opening.second.find(',') == std::string_view::npos &&
         detail::whole_of(opening.second.substr(1, 8)) && opening.first.size() > 52 &&
         opening.first.size() < 80;
}

bool looks_like_knmi(const Opening& opening) {
  return opening_holds(opening, "STN,") && opening_holds(opening, "YYYYMMDD,");
}

bool looks_like_met_eireann(const Opening& opening) {
  return opening_holds(opening, "date,ind,");
}

bool looks_like_dwd(const Opening& opening) {
  return detail::starts_with_word(opening.first, "STATIONS_ID;MESS_DATUM;");
}

bool looks_like_uscrn(const Opening& opening) {
  std::vector<std::string_view> cells;
  return detail::split_cells(opening.first, ' ', cells) && cells.size() == 28 && detail::whole_of(cells[0]) &&
         detail::plain_day_of(cells[1]);
}

bool any(const Opening&) {
  return true;
}

constexpr std::array kFormats{
    Format{{"ghcn-dly", "GHCN-Daily, fixed width, one file a station"}, looks_like_dly, read_ghcn_dly},
    Format{{"ghcn-access", "GHCN-Daily, wide CSV with attributes, or the Access Data Service"},
           looks_like_access,
           read_ghcn_access},
    Format{{"ghcn-long", "GHCN-Daily, long CSV by station or year"}, looks_like_long, read_ghcn_long},
    Format{{"json", "JSON of public services: arrays by column, or objects by row"},
           looks_like_json,
           read_weather_json},
    Format{{"gsod", "Global Summary of the Day, CSV"}, looks_like_gsod, read_gsod},
    Format{{"epw", "EnergyPlus weather, hourly"}, looks_like_epw, read_epw},
    Format{{"tmy3", "Typical meteorological year, third set, hourly CSV"}, looks_like_tmy3, read_tmy3},
    Format{
        {"tmy2", "Typical meteorological year, second set, hourly, fixed width"}, looks_like_tmy2, read_tmy2},
    Format{{"knmi", "KNMI daily text"}, looks_like_knmi, read_knmi},
    Format{{"met-eireann", "Met Éireann daily CSV"}, looks_like_met_eireann, read_met_eireann},
    Format{{"dwd-daily", "Deutscher Wetterdienst daily climate (KL)"}, looks_like_dwd, read_dwd_daily},
    Format{{"uscrn-daily", "US Climate Reference Network, daily"}, looks_like_uscrn, read_uscrn_daily},
    Format{{"table", "any table with a heading line"}, any, read_weather_table},
};

Opening open_text(std::string_view bytes) {
  Opening opening;
  opening.text = detail::without_byte_order_mark(bytes);
  detail::LineScanner lines(opening.text);
  while (lines.next(opening.first) && detail::trimmed(opening.first).empty()) {
  }
  lines.next(opening.second);
  std::vector<std::string_view> cells;
  if (opening.first.size() <= detail::kMostLineBytes && detail::split_cells(opening.first, ',', cells)) {
    opening.cells.assign(cells.begin(), cells.end());
  }
  return opening;
}

std::optional<base::Problem> refuse_options(const ReadOptions& options) {
  if (options.wind_height_m && !(*options.wind_height_m >= 0.5 && *options.wind_height_m <= 200.0)) {
    return base::Problem{ProblemCode::out_of_range,
                         "a wind height must lie between 0.5 and 200 m",
                         {"", 0, 0, "wind_height_m"},
                         "Give the height of the anemometer above the ground in metres."};
  }
  if (options.typical_year && !detail::day_of(*options.typical_year, 1, 1)) {
    return base::Problem{ProblemCode::out_of_range,
                         "the year for a typical year must lie between 1700 and 2200",
                         {"", 0, 0, "typical_year"},
                         "Give a year with four figures."};
  }
  return std::nullopt;
}

}  // namespace

const std::vector<WeatherFormat>& weather_formats() {
  static const std::vector<WeatherFormat> formats = [] {
    std::vector<WeatherFormat> out;
    for (const Format& format : kFormats) out.push_back(format.names);
    return out;
  }();
  return formats;
}

namespace {

base::Result<WeatherImport> read_recognised(std::string_view bytes, const std::string& file,
                                            const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  if (!options.format.empty()) {
    const auto named =
        std::ranges::find_if(kFormats, [&](const Format& f) { return f.names.name == options.format; });
    if (named != kFormats.end()) return named->read(bytes, file, options);
    std::string names;
    for (const Format& format : kFormats)
      names += fmt::format("{}{}", names.empty() ? "" : ", ", format.names.name);
    return fail(ProblemCode::not_found,
                fmt::format("there is no weather format \"{}\"", detail::shown(options.format)),
                {file, 0, 0, "format"}, "Formats are " + names + ".");
  }
  // Columns named in the options mean: read it as a table.
  const Opening opening = open_text(bytes);
  const bool chosen = !options.columns.empty() || !options.units.empty();
  if (chosen)
    return looks_like_json(opening) ? read_weather_json(bytes, file, options)
                                    : read_weather_table(bytes, file, options);
  const auto known =
      std::ranges::find_if(kFormats, [&](const Format& format) { return format.recognises(opening); });
  return known->read(bytes, file, options);
}

}  // namespace

base::Result<WeatherImport> read_weather(std::string_view bytes, const std::string& file,
                                         const ReadOptions& options) {
  if (auto problem = refuse_options(options)) return tl::unexpected(*problem);
  auto read = read_recognised(bytes, file, options);
  // A file cut short within its last figure still reads well: "12.5" becomes "1".
  if (read && bytes.find('\n') != std::string_view::npos && bytes.back() != '\n' && bytes.back() != '}' &&
      bytes.back() != ']') {
    read->notes.push_back("The last line has no end: the file may have been cut short, so look at its last day.");
  }
  return read;
}

}  // namespace sowtide::climate
