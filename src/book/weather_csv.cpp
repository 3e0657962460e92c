#include "book/weather_csv.hpp"
#include "book/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "base/csv.hpp"
#include "base/utf8.hpp"

namespace sowtide::book {
namespace {

using base::fail;
using base::ProblemCode;

constexpr std::string_view kDateHeading = "date";
constexpr std::string_view kOriginEnding = "_origin";

std::string origin_heading(std::size_t variable) {
  return fmt::format("{}{}", kVariableWords[variable], kOriginEnding);
}

bool is_all_missing(const climate::Series& series) {
  return std::all_of(series.origin.begin(), series.origin.end(),
                     [](climate::ValueOrigin origin) { return origin == climate::ValueOrigin::missing; });
}

/// Where the value and the origin of a variable stand in the table.
struct Columns {
  std::size_t variable = 0;
  std::size_t value = 0;
  std::size_t origin = 0;
};

base::Result<std::vector<Columns>> find_columns(const base::CsvTable& table) {
  const base::Place heading{.file = table.file, .line = table.header_line};
  std::vector<Columns> found;
  for (std::size_t v = 0; v < climate::kVariableCount; ++v) {
    const auto value = table.column(kVariableColumns[v]);
    const auto origin = table.column(origin_heading(v));
    if (!value && !origin) continue;
    if (!value || !origin) {
      return fail(ProblemCode::missing_field,
                  fmt::format("has only one of the columns {} and {}", kVariableColumns[v],
                              origin_heading(v)),
                  heading, "Give both or neither");
    }
    found.push_back({v, *value, *origin});
  }
  if (found.size() * 2 + 1 != table.header.size()) {
    return fail(ProblemCode::unknown_field, "has columns that are not known in a weather export", heading,
                "Import other tables with `sowtide weather GARDEN add`");
  }
  return found;
}

class RecordReader {
 public:
  RecordReader(const base::CsvTable& table, const climate::Site& site) : table_(table) {
    record_.site = site;
  }

  base::Result<climate::WeatherRecord> read() {
    auto columns = find_columns(table_);
    if (!columns) return tl::make_unexpected(columns.error());
    for (climate::Series& series : record_.series) {
      series.value.assign(table_.rows.size(), std::numeric_limits<double>::quiet_NaN());
      series.origin.assign(table_.rows.size(), climate::ValueOrigin::missing);
    }
    for (std::size_t day = 0; day < table_.rows.size(); ++day) {
      if (auto taken = take_date(day); !taken) return tl::make_unexpected(taken.error());
      for (const Columns& column : *columns) {
        if (auto taken = take_value(day, column); !taken) return tl::make_unexpected(taken.error());
      }
    }
    return std::move(record_);
  }

 private:
  [[nodiscard]] base::Place at(std::size_t day, std::string_view field) const {
    return {.file = table_.file, .line = table_.rows[day].line, .field = std::string(field)};
  }

  base::Result<void> take_date(std::size_t day) {
    const auto date = base::parse_iso_date(table_.rows[day].cells[0]);
    if (!date) return fail(date.error().code, date.error().what, at(day, kDateHeading), date.error().remedy);
    if (day == 0) record_.first = *date;
    if (*date == record_.date_at(day)) return {};
    return fail(ProblemCode::contradiction,
                fmt::format("is {}, must be {}", base::to_iso(*date), base::to_iso(record_.date_at(day))),
                at(day, kDateHeading),
                "Give every day once, in order; leave the cells of a missing day empty");
  }

  base::Result<void> take_value(std::size_t day, const Columns& column) {
    const auto& cells = table_.rows[day].cells;
    const std::string_view heading = kVariableColumns[column.variable];
    const auto origin = place_of(kOriginWords, cells[column.origin]);
    if (!origin) {
      return fail(
          ProblemCode::out_of_range, fmt::format("\"{}\" is no origin", cells[column.origin].substr(0, 40)),
          at(day, origin_heading(column.variable)), "Write missing, observed, filled, estimated or forecast");
    }
    const bool missing = *origin == static_cast<std::size_t>(climate::ValueOrigin::missing);
    const auto value = base::parse_number(cells[column.value]);
    if (missing ? !cells[column.value].empty() : !value) {
      return fail(missing ? ProblemCode::contradiction : ProblemCode::wrong_type,
                  fmt::format("\"{}\" does not fit the origin \"{}\"", cells[column.value].substr(0, 40),
                              cells[column.origin]),
                  at(day, heading), "Give a number, or leave the cell empty with the origin missing");
    }
    if (value) record_.series[column.variable].value[day] = *value;
    record_.series[column.variable].origin[day] = static_cast<climate::ValueOrigin>(*origin);
    return {};
  }

  const base::CsvTable& table_;
  climate::WeatherRecord record_;
};

}  // namespace

std::string weather_csv(const climate::WeatherRecord& record) {
  std::vector<std::size_t> variables;
  std::string text(kDateHeading);
  for (std::size_t v = 0; v < climate::kVariableCount; ++v) {
    const bool last_chance = variables.empty() && v + 1 == climate::kVariableCount;
    if (is_all_missing(record.series[v]) && !last_chance) continue;
    variables.push_back(v);
    text += fmt::format(",{},{}", kVariableColumns[v], origin_heading(v));
  }
  text += '\n';
  for (std::size_t day = 0; day < record.day_count(); ++day) {
    text += base::to_iso(record.date_at(day));
    for (const std::size_t v : variables) {
      const climate::Series& series = record.series[v];
      text += ',';
      if (series.origin[day] != climate::ValueOrigin::missing) text += base::number_text(series.value[day]);
      text += ',';
      text += word_of(kOriginWords, series.origin[day]);
    }
    text += '\n';
  }
  return text;
}

bool is_weather_csv(std::string_view text) {
  text = base::without_byte_order_mark(text);
  const std::string_view heading = text.substr(0, text.find('\n'));
  return heading.starts_with(kDateHeading) && heading.find(kOriginEnding) != std::string_view::npos;
}

base::Result<climate::WeatherRecord> read_weather_csv(std::string_view text, const std::string& file,
                                                      const climate::Site& site) {
  const auto table = base::parse_csv(text, file, {.separator = ','});
  if (!table) return tl::make_unexpected(table.error());
  if (table->header[0] != kDateHeading) {
    return fail(ProblemCode::missing_field, "must begin with a column date",
                {.file = file, .line = table->header_line});
  }
  return RecordReader(*table, site).read();
}

}  // namespace sowtide::book
