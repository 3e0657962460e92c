// GHCN-Daily as comma-separated text. Wide ("access": one row a day, a column an element, each followed by
// its attributes "measurement,quality,source[,time]") and long (one row an element: id, date, element, value,
// flags, time). Source: NOAA NCEI, readme of GHCN-Daily and of its by-year files; Access Data Service API.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "climate/detail/ghcn.hpp"
#include "climate/detail/ghcn_rows.hpp"
#include "climate/detail/station_filter.hpp"
#include "climate/detail/text_scan.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {

using base::Problem;
using base::ProblemCode;

namespace detail {
namespace {

struct ElementColumn {
  GhcnElement element;
  std::size_t value;
  std::optional<std::size_t> attributes;
};

/// The n-th part of an attribute list, or ' ' when it is empty.
char attribute(std::string_view attributes, int part) {
  for (; part > 0; --part) {
    const auto comma = attributes.find(',');
    if (comma == std::string_view::npos) return ' ';
    attributes.remove_prefix(comma + 1);
  }
  const std::string_view one = trimmed(attributes.substr(0, attributes.find(',')));
  return one.empty() ? ' ' : one.front();
}

/// What the figures themselves say about the units.
class UnitEvidence {
 public:
  void see(GhcnElement element, std::string_view cell, double value) {
    const bool point = cell.find('.') != std::string_view::npos;
    if (element == GhcnElement::tmax || element == GhcnElement::tmin) {
      ++temperatures_;
      temperature_points_ += point ? 1 : 0;
      highest_ = std::max(highest_, value);
      lowest_ = std::min(lowest_, value);
    } else if (element == GhcnElement::rain) {
      rain_points_ += point ? 1 : 0;
      ++rains_;
    }
  }

  /// Whole figures throughout are tenths as archived; points in the temperatures are °C; points in the rain
  /// alone are inches beside whole °F.
  [[nodiscard]] base::Result<GhcnUnits> units(const std::string& file, int line) const {
    if (temperature_points_ > 0) return highest_ > 60.0 ? GhcnUnits::us : GhcnUnits::metric;
    if (rain_points_ > 0 && temperatures_ > 0) return GhcnUnits::us;
    if (rain_points_ > 0) {
      return base::fail(ProblemCode::ambiguous,
                        "rain with decimals and no temperatures may be in millimetres or inches",
                        {file, line, 0, "PRCP"},
                        "Fetch the file with TMAX and TMIN, or name the unit by reading it as a table.");
    }
    // Tenths of °C span more than 60 within any year; °F hardly do so below 130.
    if (temperatures_ >= 60 && rains_ == 0 && highest_ <= 130.0 && highest_ - lowest_ < 60.0) {
      return base::fail(ProblemCode::ambiguous, "whole temperatures may be °F or tenths of °C",
                        {file, line, 0, "TMAX"},
                        "Fetch the file with PRCP, or name the unit by reading it as a table.");
    }
    return GhcnUnits::tenths;
  }

 private:
  std::size_t temperatures_ = 0, temperature_points_ = 0, rains_ = 0, rain_points_ = 0;
  double highest_ = -1e9, lowest_ = 1e9;
};

/// Reads the wide form from any rows.
class WideReader {
 public:
  WideReader(RowSource& rows, const std::string& file, const ReadOptions& options)
      : rows_(rows), file_(file), builder_(file, options), stations_(options.station) {}

  base::Result<WeatherImport> read(const std::string& format) {
    if (auto problem = find_columns()) return tl::unexpected(*problem);
    const auto units = look();
    if (!units) return tl::unexpected(units.error());
    if (*units != GhcnUnits::tenths) {
      builder_.note(*units == GhcnUnits::us
                        ? "The figures are in °F, inches and miles an hour, judged by their decimals."
                        : "The figures are in °C and mm, judged by their decimals.");
    }
    GhcnReader reader(builder_, *units);
    rows_.rewind();
    Row row;
    while (rows_.next(row)) {
      if (auto problem = take(row, reader)) return tl::unexpected(*problem);
    }
    reader.finish();
    return builder_.finish(format, site_, site_known_);
  }

 private:
  Problem problem(ProblemCode code, std::string what, int line, std::string field, std::string remedy) const {
    return {code, std::move(what), {file_, line, 0, std::move(field)}, std::move(remedy)};
  }

  std::optional<Problem> find_columns() {
    const auto& heading = rows_.heading();
    station_ = column_named(heading, "STATION");
    date_ = column_named(heading, "DATE");
    if (!station_ || !date_) {
      return problem(ProblemCode::missing_field, "the heading has no STATION or no DATE",
                     rows_.heading_line(), station_ ? "DATE" : "STATION",
                     "Give a GHCN-Daily file with its heading line.");
    }
    for (std::size_t i = 0; i < heading.size(); ++i) {
      if (const auto element = ghcn_element(heading[i])) {
        columns_.push_back({*element, i, column_named(heading, heading[i] + "_ATTRIBUTES")});
      }
    }
    if (columns_.empty()) {
      return problem(
          ProblemCode::missing_field, "the heading names no TMAX, TMIN, PRCP or other daily element",
          rows_.heading_line(), "TMAX",
          "Monthly summaries and normals carry other columns; fetch the daily file of the station.");
    }
    name_ = column_named(heading, "NAME");
    latitude_ = column_named(heading, "LATITUDE");
    longitude_ = column_named(heading, "LONGITUDE");
    elevation_ = column_named(heading, "ELEVATION");
    return std::nullopt;
  }

  base::Result<GhcnUnits> look() {
    Row row;
    UnitEvidence evidence;
    while (rows_.next(row)) {
      if (row.cells.size() < rows_.heading().size()) {
        return tl::unexpected(problem(
            ProblemCode::syntax,
            fmt::format("the line has {} cells, the heading {}", row.cells.size(), rows_.heading().size()),
            row.line, "", "Fetch the file again; it is not whole."));
      }
      if (!stations_.accepts(row.cell(*station_))) continue;
      take_site(row);
      for (const ElementColumn& column : columns_) {
        const std::string_view cell = row.cell(column.value);
        if (const auto value = number_of(cell); value && std::abs(*value) < 9990.0) {
          evidence.see(column.element, cell, *value);
        }
      }
    }
    if (rows_.problem()) return tl::unexpected(*rows_.problem());
    if (auto refusal = stations_.problem(file_)) return tl::unexpected(*refusal);
    return evidence.units(file_, rows_.heading_line());
  }

  std::optional<Problem> take(const Row& row, GhcnReader& reader) {
    if (!stations_.accepts(row.cell(*station_))) return std::nullopt;
    const std::string_view date = row.cell(*date_);
    const auto day = plain_day_of(date);
    if (!day) {
      const bool monthly = date.size() == 7;
      return problem(ProblemCode::syntax, fmt::format("\"{}\" is not a day YYYY-MM-DD", shown(date)),
                     row.line, "DATE",
                     monthly ? "This is a monthly summary; fetch the daily file of the station."
                             : "Give the file as published; dates before 1700 are not read.");
    }
    for (const ElementColumn& column : columns_) {
      const std::string_view cell = row.cell(column.value);
      if (cell.empty()) continue;
      const auto value = number_of(cell);
      if (!value) {
        return problem(ProblemCode::wrong_type, fmt::format("\"{}\" is not a number", shown(cell)), row.line,
                       rows_.heading()[column.value], "Give the file as published.");
      }
      if (*value <= -9999.0 || *value == 9999.0) continue;
      const std::string_view attributes =
          column.attributes ? row.cell(*column.attributes) : std::string_view{};
      reader.take(column.element, *day, *value, attribute(attributes, 0), attribute(attributes, 1));
    }
    return std::nullopt;
  }

  void take_site(const Row& row) {
    if (!site_.name.empty()) return;
    site_.name = name_ && !row.cell(*name_).empty() ? row.cell(*name_) : row.cell(*station_);
    if (!latitude_ || !longitude_) return;
    const auto latitude = number_of(row.cell(*latitude_)), longitude = number_of(row.cell(*longitude_));
    if (!latitude || !longitude || std::abs(*latitude) > 90.0 || std::abs(*longitude) > 180.0) return;
    site_.latitude_deg = *latitude;
    site_.longitude_deg = *longitude;
    const auto elevation = elevation_ ? number_of(row.cell(*elevation_)) : std::nullopt;
    if (elevation && *elevation > -999.0) site_.elevation_m = *elevation;
    site_known_ = true;
  }

  RowSource& rows_;
  std::string file_;
  RecordBuilder builder_;
  StationFilter stations_;
  std::vector<ElementColumn> columns_;
  std::optional<std::size_t> station_, date_, name_, latitude_, longitude_, elevation_;
  Site site_;
  bool site_known_ = false;
};

/// Columns of the long form.
struct LongColumns {
  std::optional<std::size_t> station;
  std::size_t date = 0, element = 0, value = 0;
  std::optional<std::size_t> measurement, quality, time;
};

/// Headings that people and services write over the long form.
std::optional<LongColumns> long_columns(const std::vector<std::string>& heading) {
  const auto first_of = [&](std::initializer_list<std::string_view> names) -> std::optional<std::size_t> {
    for (const std::string_view name : names) {
      if (const auto found = column_named(heading, name)) return found;
    }
    return std::nullopt;
  };
  LongColumns out;
  const auto date = first_of({"date", "yearmoda", "yyyymmdd"});
  const auto element = first_of({"element", "attr", "datatype", "elem", "variable", "parameter"});
  const auto value = first_of({"value", "data_value", "data value", "val"});
  if (!date || !element || !value) return std::nullopt;
  out.station = first_of({"id", "station", "station_id"});
  out.date = *date, out.element = *element, out.value = *value;
  out.measurement = first_of({"m_flag", "mflag", "measurement flag", "a"});
  out.quality = first_of({"q_flag", "qflag", "quality flag", "b"});
  out.time = first_of({"obs_time", "obstime", "time", "d"});
  return out;
}

class LongReader {
 public:
  LongReader(RowSource& rows, LongColumns columns, const std::string& file, const ReadOptions& options)
      : rows_(rows), columns_(columns), file_(file), builder_(file, options), stations_(options.station) {}

  base::Result<WeatherImport> read(const std::string& format) {
    GhcnReader reader(builder_, GhcnUnits::tenths);
    Row row;
    while (rows_.next(row)) {
      if (auto problem = take(row, reader)) return tl::unexpected(*problem);
    }
    if (rows_.problem()) return tl::unexpected(*rows_.problem());
    if (auto problem = stations_.problem(file_)) return tl::unexpected(*problem);
    reader.finish();
    Site site;
    site.name = stations_.taken();
    return builder_.finish(format, site, false);
  }

 private:
  Problem problem(ProblemCode code, std::string what, const Row& row, std::string field) const {
    return {code, std::move(what), {file_, row.line, 0, std::move(field)}, "Give the file as published."};
  }
  [[nodiscard]] char flag(const Row& row, const std::optional<std::size_t>& column) const {
    if (!column) return ' ';
    const std::string_view cell = row.cell(*column);
    return cell.empty() || same_word(cell, "nan") || same_word(cell, "na") ? ' ' : cell.front();
  }

  std::optional<Problem> take(const Row& row, GhcnReader& reader) {
    const std::size_t needed = std::max({columns_.date, columns_.element, columns_.value}) + 1;
    if (row.cells.size() < needed) return problem(ProblemCode::syntax, "the line is cut off", row, "");
    if (columns_.station && !stations_.accepts(row.cell(*columns_.station))) return std::nullopt;
    const auto day = plain_day_of(row.cell(columns_.date));
    if (!day) {
      return problem(ProblemCode::syntax,
                     fmt::format("\"{}\" is not a day YYYYMMDD", shown(row.cell(columns_.date))), row,
                     "date");
    }
    const auto value = number_of(row.cell(columns_.value));
    if (!value) {
      return problem(ProblemCode::wrong_type,
                     fmt::format("\"{}\" is not a number", shown(row.cell(columns_.value))), row, "value");
    }
    const auto element = ghcn_element(row.cell(columns_.element));
    if (!element || *value <= -9999.0) return std::nullopt;
    char measurement = flag(row, columns_.measurement), quality = flag(row, columns_.quality);
    if (columns_.measurement && row.cell(*columns_.measurement).find(',') != std::string_view::npos) {
      measurement = attribute(row.cell(*columns_.measurement), 0);
      quality = attribute(row.cell(*columns_.measurement), 1);
    }
    reader.take(*element, *day, *value, measurement, quality);
    return std::nullopt;
  }

  RowSource& rows_;
  LongColumns columns_;
  std::string file_;
  RecordBuilder builder_;
  StationFilter stations_;
};

}  // namespace

bool long_heading(const std::vector<std::string>& heading) {
  return long_columns(heading).has_value();
}

bool wide_heading(const std::vector<std::string>& heading) {
  return column_named(heading, "STATION") && column_named(heading, "DATE") &&
         std::ranges::any_of(heading, [](const std::string& name) { return ghcn_element(name).has_value(); });
}

base::Result<WeatherImport> read_wide_rows(RowSource& rows, const std::string& format,
                                           const std::string& file, const ReadOptions& options) {
  return WideReader(rows, file, options).read(format);
}

base::Result<WeatherImport> read_long_rows(RowSource& rows, const std::string& format,
                                           const std::string& file, const ReadOptions& options) {
  auto columns = long_columns(rows.heading());
  if (!columns) {
    return base::fail(ProblemCode::missing_field, "the heading names no date, element and value",
                      {file, 1, 0, ""}, "Head the columns id, date, element, value, m_flag, q_flag.");
  }
  // The web service packs all flags into one cell.
  if (const auto packed = column_named(rows.heading(), "attributes")) columns->measurement = packed;
  return LongReader(rows, *columns, file, options).read(format);
}

}  // namespace detail

base::Result<WeatherImport> read_ghcn_access(std::string_view bytes, const std::string& file,
                                             const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  detail::DelimitedRows rows(detail::without_byte_order_mark(bytes), file, ',');
  if (rows.problem()) return tl::unexpected(*rows.problem());
  return detail::read_wide_rows(rows, "ghcn-access", file, options);
}

base::Result<WeatherImport> read_ghcn_long(std::string_view bytes, const std::string& file,
                                           const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  const std::string_view text = detail::without_byte_order_mark(bytes);
  detail::DelimitedRows rows(text, file, ',');
  if (rows.problem()) return tl::unexpected(*rows.problem());
  if (detail::long_heading(rows.heading())) return detail::read_long_rows(rows, "ghcn-long", file, options);
  rows.use_heading({"id", "date", "element", "value", "m_flag", "q_flag", "s_flag", "obs_time"});
  return detail::read_long_rows(rows, "ghcn-long", file, options);
}

}  // namespace sowtide::climate
