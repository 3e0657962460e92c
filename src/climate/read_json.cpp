// JSON of public weather services, laid out as a table and read as one: an object of equally long arrays (a
// column each, units in a sibling "..._units"), or an array of objects (a row each), wide or in GHCN's long
// form. A value may be an object with "value" and "unitCode".
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/csv.hpp"
#include "climate/detail/ghcn_rows.hpp"
#include "climate/detail/headings.hpp"
#include "climate/detail/table_reader.hpp"
#include "climate/detail/text_scan.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {

using base::fail;
using base::Problem;
using base::ProblemCode;
using Json = nlohmann::json;

namespace {

constexpr int kDeepest = 24;
constexpr std::size_t kMostContainers = 2000000;
constexpr std::size_t kMostJsonColumns = 200;
constexpr std::size_t kMostCells = 8000000;

/// Bounds what the parser may have to build, before it builds it.
std::optional<Problem> refuse_shape(std::string_view text, const std::string& file) {
  const base::Place where{file, 0, 0, ""};
  if (text.size() > detail::kMostJsonBytes) {
    return Problem{ProblemCode::too_large, "the JSON file is larger than 32 MiB", where,
                   "Fetch fewer years at a time."};
  }
  int depth = 0;
  std::size_t containers = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '\\') ++i;
      if (c == '"') quoted = false;
    } else if (c == '"') {
      quoted = true;
    } else if (c == '[' || c == '{') {
      ++depth;
      ++containers;
    } else if (c == ']' || c == '}') {
      --depth;
    }
    if (depth > kDeepest || containers > kMostContainers) {
      return Problem{ProblemCode::too_large,
                     "the JSON is nested deeper or has more parts than any weather file", where,
                     "Give the daily data of one place."};
    }
  }
  return std::nullopt;
}

/// A cell's text; what is no plain value is empty.
std::string cell_of(const Json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_number_integer()) return std::to_string(value.get<std::int64_t>());
  if (value.is_number()) return base::number_text(value.get<double>());
  if (value.is_object() && value.contains("value") && !value["value"].is_structured())
    return cell_of(value["value"]);
  return "";
}

/// Heading, with the unit in brackets when one is known.
std::string heading_with_unit(const std::string& name, const Json& units) {
  if (!units.is_object() || !units.contains(name) || !units[name].is_string()) return name;
  const std::string unit = units[name].get<std::string>();
  const bool told = !unit.empty() && unit != "iso8601" && unit != "undefined" && unit.size() < 40;
  return told ? fmt::format("{} [{}]", name, unit) : name;
}

struct Table {
  std::vector<std::string> heading;
  std::vector<std::string> cells;
  [[nodiscard]] bool empty() const { return heading.empty(); }
};

bool holds_dates(const Json& array) {
  return array.is_array() && !array.empty() && array.front().is_string() &&
         detail::scan_date(array.front().get_ref<const std::string&>()).has_value();
}

/// Seconds since 1970 under a name that means time.
bool holds_seconds(const std::string& name, const Json& array) {
  constexpr double kLeastSeconds = 1e8;  // March 1973: no count of anything else of a day
  const detail::Field field = detail::read_heading(name).field;
  const bool timed = field == detail::Field::date || field == detail::Field::time || field == detail::Field::unix_time;
  return timed && array.is_array() && !array.empty() && array.front().is_number() &&
         array.front().get<double>() >= kLeastSeconds;
}

/// An object of arrays of one length, one of them dates.
Table table_of_arrays(const Json& object, const Json& units) {
  Table table;
  if (!object.is_object()) return table;
  std::size_t length = 0;
  for (const auto& [name, array] : object.items()) {
    if (holds_dates(array) || holds_seconds(name, array)) length = std::max(length, array.size());
  }
  std::vector<const Json*> columns;
  for (const auto& [name, array] : object.items()) {
    if (length == 0 || !array.is_array() || array.size() != length || columns.size() == kMostJsonColumns)
      continue;
    columns.push_back(&array);
    table.heading.push_back(holds_seconds(name, array) ? "unix_time" : heading_with_unit(name, units));
  }
  if (columns.size() * length > kMostCells) return {};
  for (std::size_t row = 0; row < length; ++row) {
    for (const Json* column : columns) table.cells.push_back(cell_of((*column)[row]));
  }
  return columns.size() > 1 ? table : Table{};
}

/// The object that holds a row's values: itself, or the "properties" of a GeoJSON feature.
const Json& row_of(const Json& item) {
  if (item.is_object() && item.contains("properties") && item["properties"].is_object())
    return item["properties"];
  return item;
}

std::string unit_code(const Json& value) {
  if (!value.is_object() || !value.contains("unitCode") || !value["unitCode"].is_string()) return "";
  return value["unitCode"].get<std::string>();
}

/// An array of objects: the columns are all names met.
Table table_of_objects(const Json& array) {
  Table table;
  if (!array.is_array() || array.empty() || !array.front().is_object()) return table;
  std::vector<std::string> names, units;
  for (const Json& item : array) {
    const Json& row = row_of(item);
    if (!row.is_object()) return {};
    for (const auto& [name, value] : row.items()) {
      const auto found = std::ranges::find(names, name);
      if (found == names.end() && names.size() < kMostJsonColumns) {
        names.push_back(name);
        units.push_back(unit_code(value));
      } else if (found != names.end() && units[static_cast<std::size_t>(found - names.begin())].empty()) {
        units[static_cast<std::size_t>(found - names.begin())] = unit_code(value);
      }
    }
  }
  if (names.size() * array.size() > kMostCells) return {};
  for (const Json& item : array) {
    const Json& row = row_of(item);
    for (const std::string& name : names) {
      const auto value = row.find(name);
      table.cells.push_back(value == row.end() ? "" : cell_of(*value));
    }
  }
  for (std::size_t i = 0; i < names.size(); ++i) {
    table.heading.push_back(units[i].empty() ? names[i] : fmt::format("{} [{}]", names[i], units[i]));
  }
  return table;
}

/// The first table in the document: itself, or one of its members ("daily" before "hourly"), two levels down
/// at most.
Table find_table(const Json& document, int level) {
  if (document.is_array()) return table_of_objects(document);
  if (!document.is_object()) return {};
  Table table = table_of_arrays(document, document.value("units", Json()));
  if (!table.empty() || level == 2) return table;
  if (document.contains("daily")) {
    table = table_of_arrays(document["daily"], document.value("daily_units", Json()));
  }
  for (auto member = document.begin(); table.empty() && member != document.end(); ++member) {
    if (!member.value().is_structured()) continue;
    table = table_of_arrays(member.value(), document.value(member.key() + "_units", Json()));
    if (table.empty()) table = find_table(member.value(), level + 1);
  }
  return table;
}

/// Latitude, longitude and elevation, when the document states them beside the data.
std::optional<Site> site_of(const Json& document) {
  const auto figure = [&](const char* name) -> std::optional<double> {
    if (!document.is_object() || !document.contains(name) || !document[name].is_number()) return std::nullopt;
    return document[name].get<double>();
  };
  const auto latitude = figure("latitude"), longitude = figure("longitude");
  if (!latitude || !longitude || std::abs(*latitude) > 90.0 || std::abs(*longitude) > 180.0)
    return std::nullopt;
  return Site{"", *latitude, *longitude, figure("elevation").value_or(0.0)};
}

base::Result<WeatherImport> read_rows(Table table, const std::string& file, const ReadOptions& options) {
  detail::StoredRows rows(std::move(table.heading), std::move(table.cells));
  const bool plain = options.columns.empty() && options.units.empty();
  if (plain && detail::long_heading(rows.heading()))
    return detail::read_long_rows(rows, "json", file, options);
  if (plain && detail::wide_heading(rows.heading()))
    return detail::read_wide_rows(rows, "json", file, options);
  auto plan = detail::plan_table(rows.heading(), 0, {}, file, options);
  if (!plan) return tl::unexpected(plan.error());
  detail::RecordBuilder builder(file, options);
  return detail::TableReader(rows, builder, std::move(*plan)).read("json");
}

}  // namespace

base::Result<WeatherImport> read_weather_json(std::string_view bytes, const std::string& file,
                                              const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  const std::string_view text = detail::without_byte_order_mark(bytes);
  if (auto problem = refuse_shape(text, file)) return tl::unexpected(*problem);
  Json document;
  try {
    document = Json::parse(text);
  } catch (const Json::parse_error& error) {
    const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(error.byte, text.size()));
    const auto line = std::count(text.begin(), end, '\n') + 1;
    return fail(ProblemCode::syntax, "the JSON is broken or cut off here",
                {file, static_cast<int>(line), 0, ""}, "Fetch the file again.");
  } catch (const Json::exception&) {
    return fail(ProblemCode::out_of_range, "the JSON holds a number too large for any weather", {file, 0, 0, ""},
                "Fetch the file again.");
  }
  Table table = find_table(document, 0);
  if (table.empty()) {
    return fail(
        ProblemCode::missing_field, "the JSON holds no table of days", {file, 0, 0, ""},
        "Give an object of equally long arrays with one of dates, or an array of objects with a date each.");
  }
  auto made = read_rows(std::move(table), file, options);
  const auto site = site_of(document);
  if (made && site && !made->site_stated) {
    const std::string name = made->record.site.name;
    made->record.site = *site;
    made->record.site.name = name;
    made->site_stated = true;
  }
  return made;
}

}  // namespace sowtide::climate
