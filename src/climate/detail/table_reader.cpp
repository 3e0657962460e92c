#include "climate/detail/table_reader.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace sowtide::climate::detail {

using base::Problem;
using base::ProblemCode;

namespace {

constexpr double kNotKnown = std::numeric_limits<double>::quiet_NaN();
constexpr double kLeastShareOfRows = 0.75;

/// Words that stand for "not known".
bool missing_word(std::string_view cell) {
  constexpr std::array<std::string_view, 14> kWords{"na", "n/a", "nan", "null", "none", "missing", "m",
                                                    "-",  "--",  "---", ".",    "nd",   "#n/a",    "?"};
  return cell.empty() ||
         std::ranges::any_of(kWords, [&](std::string_view word) { return same_word(cell, word); });
}

bool trace_word(std::string_view cell) {
  return same_word(cell, "t") || same_word(cell, "tr") || same_word(cell, "trace") ||
         (cell.size() > 1 && cell.front() == '<');
}

/// Figures that programs write for "not known"; believed only where the value cannot be true.
bool missing_code(double raw) {
  constexpr std::array kCodes{-99.0,   -99.9,   -99.99,  -999.0,   -999.9,  -9999.0, -9999.9, -99999.0,
                              -9900.0, 99.9,    99.99,   999.0,    999.9,   9999.0,  9999.9,  99999.0,
                              7777.0,  77777.0, 32767.0, -32768.0, 9999.99, 999.99};
  return std::ranges::find(kCodes, raw) != kCodes.end();
}

PossibleRange range_of(Field field) {
  if (const auto variable = variable_of(field)) return possible_range(*variable);
  switch (kind_of(field)) {
    case Kind::temperature:
      return possible_range(Variable::tmin);
    case Kind::share:
      return possible_range(Variable::humidity);
    case Kind::pressure:
      return {0.0, 20.0};
    case Kind::length:
      return {-20.0, 20000.0};
    default:
      return {-1e9, 1e9};
  }
}

/// Rain of 999 or 999.9 is taken for a code although a tropical cyclone could bring it.
bool coded_missing(Field field, double raw, double value) {
  if (!missing_code(raw)) return false;
  const PossibleRange range = range_of(field);
  const bool impossible = value < range.lowest || value > range.highest;
  return impossible || (field == Field::rain && std::abs(raw) >= 999.0);
}

struct ExtraName {
  std::string_view name;
  std::string_view unit;
};

ExtraName extra_name(Field field) {
  switch (field) {
    case Field::temperature:
      return {"mean-temperature", "°C"};
    case Field::dew_point:
      return {"dew-point", "°C"};
    case Field::vapour_pressure:
      return {"vapour-pressure", "kPa"};
    case Field::humidity_max:
      return {"humidity-maximum", "%"};
    case Field::humidity_min:
      return {"humidity-minimum", "%"};
    case Field::grass_minimum:
      return {"grass-minimum", "°C"};
    case Field::soil_temperature:
      return {"soil-temperature", "°C"};
    case Field::reference_et:
      return {"reference-evapotranspiration", "mm"};
    case Field::snow_depth:
      return {"snow-depth", "mm"};
    default:
      return {"", ""};
  }
}

/// Seconds since 1970 (UTC), as databases of weather stations keep them.
std::optional<WrittenDate> date_of_seconds(std::string_view cell) {
  const auto seconds = number_of(cell);
  if (!seconds || *seconds < -8.5e9 || *seconds > 7.2e9) return std::nullopt;
  const auto whole = static_cast<std::int64_t>(std::floor(*seconds));
  const auto day = std::chrono::floor<base::Days>(std::chrono::sys_seconds{std::chrono::seconds{whole}});
  WrittenDate date;
  date.year = base::year_of(day), date.month = base::month_of(day), date.day = base::day_of_month(day);
  date.minute_of_day = static_cast<int>((whole - day.time_since_epoch().count() * std::int64_t{86400}) / 60);
  return date;
}

bool adds_up(const Column& column) {
  const bool amount = column.field == Field::rain || column.field == Field::radiation ||
                      column.field == Field::sunshine || column.field == Field::reference_et;
  return amount && !column.conversion.mean_power;
}

}  // namespace

void DayParts::take(const std::vector<Column>& columns, const std::vector<double>& values, base::Date day) {
  Day& sum = days_[day];
  sum.parts.resize(columns.size());
  ++sum.rows;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (std::isnan(values[i])) continue;
    Part& part = sum.parts[i];
    part.lowest = part.count == 0 ? values[i] : std::min(part.lowest, values[i]);
    part.highest = part.count == 0 ? values[i] : std::max(part.highest, values[i]);
    part.sum += values[i];
    ++part.count;
  }
}

void DayParts::finish(const std::vector<Column>& columns, RecordBuilder& builder) const {
  std::vector<int> rows;
  for (const auto& [day, sum] : days_) rows.push_back(sum.rows);
  std::ranges::nth_element(rows, rows.begin() + static_cast<std::ptrdiff_t>(rows.size() / 2));
  const double expected = rows[rows.size() / 2];
  const auto has = [&](Field field) {
    return std::ranges::any_of(columns, [&](const Column& column) { return column.field == field; });
  };
  const bool extremes = has(Field::tmin) || has(Field::tmax);
  for (const auto& [day, sum] : days_) {
    if (sum.rows < kLeastShareOfRows * expected) {
      builder.find({day, Variable::tmin, static_cast<double>(sum.rows), "incomplete-day", "removed",
                    fmt::format("{} of about {} readings of the day", sum.rows, expected)});
      continue;
    }
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const Column& column = columns[i];
      const Part& part = sum.parts[i];
      if (part.count < kLeastShareOfRows * expected) continue;
      const double mean = part.sum / part.count;
      if (column.field == Field::temperature && !extremes) {
        builder.put(Variable::tmin, day, part.lowest);
        builder.put(Variable::tmax, day, part.highest);
      }
      const auto variable = variable_of(column.field);
      double value = adds_up(column) ? part.sum : mean;
      if (column.field == Field::tmin) value = part.lowest;
      if (column.field == Field::tmax) value = part.highest;
      if (variable) {
        builder.put(*variable, day, value);
      } else {
        builder.put_extra(column.extra, day, value);
      }
    }
  }
}

TableReader::TableReader(RowSource& rows, RecordBuilder& builder, TablePlan plan)
    : rows_(rows),
      builder_(builder),
      plan_(std::move(plan)),
      stations_(builder.options().station),
      form_(builder.options().date_form) {
  for (Column& column : plan_.values) {
    if (variable_of(column.field)) continue;
    const ExtraName extra = extra_name(column.field);
    std::string name(extra.name);
    if (column.field == Field::soil_temperature && !column.heading.empty()) name += "-" + column.heading;
    column.extra = builder_.extra(name, extra.unit, rows_.heading()[column.index]);
  }
}

Problem TableReader::problem(ProblemCode code, std::string what, const Row& row, std::string field,
                             std::string remedy) const {
  return {code, std::move(what), {builder_.file(), row.line, 0, std::move(field)}, std::move(remedy)};
}

bool TableReader::blank(const Row& row) const {
  return std::ranges::all_of(row.cells, [](std::string_view cell) { return cell.empty(); });
}

TableReader::Refusal TableReader::check_width(const Row& row) const {
  const std::size_t width = rows_.heading().size();
  const bool extra = row.cells.size() > width &&
                     std::any_of(row.cells.begin() + static_cast<std::ptrdiff_t>(width), row.cells.end(),
                                 [](std::string_view cell) { return !cell.empty(); });
  if (row.cells.size() >= width && !extra) return std::nullopt;
  return problem(
      ProblemCode::syntax,
      fmt::format("the line has {}, the heading {}", counted(row.cells.size(), "cell", "cells"), width), row,
      "", "Correct the line; if it is the last one, the file is cut off.");
}

base::Result<WrittenDate> TableReader::date_of_parts(const Row& row) const {
  WrittenDate date;
  const auto year = whole_of(row.cell(*plan_.year));
  if (plan_.month && plan_.day) {
    const auto month = whole_of(row.cell(*plan_.month)), day = whole_of(row.cell(*plan_.day));
    if (year && month && day) {
      date.year = *year, date.month = *month, date.day = *day;
      return date;
    }
  } else {
    const auto day = whole_of(row.cell(*plan_.day_of_year));
    const auto start = year ? day_of(*year, 1, 1) : std::nullopt;
    if (start && day && *day >= 1 && *day <= base::days_in_year(*year)) {
      const base::Date found = *start + base::Days{*day - 1};
      date.year = *year, date.month = base::month_of(found), date.day = base::day_of_month(found);
      return date;
    }
  }
  return tl::unexpected(problem(ProblemCode::syntax, "year, month and day are not a date", row, "year",
                                "Give whole numbers, the year with four figures."));
}

base::Result<WrittenDate> TableReader::date_of(const Row& row) const {
  std::optional<WrittenDate> date;
  if (plan_.date) {
    const std::string_view cell = row.cell(*plan_.date);
    date = scan_date(cell);
    if (!date && cell.size() >= 9) date = date_of_seconds(cell);
    if (!date) {
      return tl::unexpected(problem(ProblemCode::syntax, fmt::format("\"{}\" is not a date", shown(cell)),
                                    row, "date",
                                    "Write dates as YYYY-MM-DD; the last lines of a file must be days too."));
    }
  } else if (plan_.unix_time) {
    date = date_of_seconds(row.cell(*plan_.unix_time));
    if (!date) {
      return tl::unexpected(problem(ProblemCode::syntax, "not a time in seconds since 1970", row, "unix_time",
                                    "Give whole seconds."));
    }
  } else {
    auto parts = date_of_parts(row);
    if (!parts) return parts;
    date = *parts;
  }
  if (plan_.time && !date->minute_of_day) date->minute_of_day = scan_time(row.cell(*plan_.time));
  return *date;
}

bool TableReader::wanted(const Row& row) {
  if (!plan_.station) return true;
  return stations_.accepts(row.cell(*plan_.station));
}

void TableReader::weigh_order(const WrittenDate& date) {
  if (date.short_year) ++short_years_;
  if (date.order != WrittenDate::Order::undecided) return;
  ++undecided_;
  for (Order& order : orders_) {
    order.possible &= may_be(date, order.form);
    const auto day = settle(date, order.form);
    if (day && order.previous && std::abs((*day - *order.previous).count()) == 1) ++order.steps;
    order.previous = day;
  }
}

/// The one order that is possible, or in which dates follow each other day by day while in no other they do.
const TableReader::Order* TableReader::clear_order() const {
  const auto possible = std::ranges::count(orders_, true, &Order::possible);
  for (const Order& order : orders_) {
    if (!order.possible) continue;
    if (possible == 1) return &order;
    const bool follows = order.steps >= 2 && 10 * order.steps >= 8 * (undecided_ - 1);
    const bool alone = std::ranges::all_of(orders_, [&order](const Order& other) {
      return &other == &order || !other.possible || 5 * other.steps <= order.steps;
    });
    if (follows && alone) return &order;
  }
  return nullptr;
}

TableReader::Refusal TableReader::choose_order() {
  if (short_years_ > 0) builder_.note("Years of two figures were read as 1970 to 2069.");
  if (undecided_ == 0 || form_ != DateForm::automatic) return std::nullopt;
  const base::Place where{builder_.file(), rows_.heading_line(), 0, "date"};
  if (std::ranges::none_of(orders_, &Order::possible)) {
    return Problem{ProblemCode::contradiction, "some dates have the day first and some the month first",
                   where, "Write all dates the same way, best as YYYY-MM-DD."};
  }
  const Order* clear = clear_order();
  if (clear == nullptr) {
    return Problem{ProblemCode::ambiguous,
                   fmt::format("dates like \"{}\" may have the day{} first", shown(example_),
                               orders_[2].possible ? ", the month or the year" : " or the month"),
                   where, "State the date form (dmy, mdy or ymd), or write dates as YYYY-MM-DD."};
  }
  form_ = clear->form;
  builder_.note(fmt::format("Dates were read {}.", clear->words));
  return std::nullopt;
}

TableReader::Refusal TableReader::look() {
  Row row;
  std::optional<WrittenDate> previous;
  bool repeated = false;
  while (rows_.next(row)) {
    if (blank(row)) continue;
    if (auto refusal = check_width(row)) return refusal;
    if (!wanted(row)) continue;
    const auto date = date_of(row);
    if (!date) return date.error();
    if (auto refusal = weigh_units(row)) return refusal;
    if (example_.empty() && plan_.date && date->order == WrittenDate::Order::undecided)
      example_ = row.cell(*plan_.date);
    weigh_order(*date);
    timed_ |= date->minute_of_day.has_value();
    repeated |= previous && previous->year == date->year && previous->month == date->month &&
                previous->day == date->day && previous->first == date->first &&
                previous->second == date->second && previous->third == date->third;
    previous = *date;
    ++row_count_;
  }
  if (rows_.problem()) return rows_.problem();
  if (auto refusal = stations_.problem(builder_.file())) return refusal;
  if (row_count_ == 0) {
    return Problem{ProblemCode::insufficient_data,
                   "there is a heading but no day under it",
                   {builder_.file(), rows_.heading_line(), 0, ""},
                   "Give at least one day."};
  }
  parts_of_days_ = timed_ && repeated;
  if (parts_of_days_) parts_ = std::make_unique<DayParts>();
  choose_units();
  return choose_order();
}

namespace {

/// Units that a station database means by its number (from memory, agreeing with docs/formats/weather.md):
/// 1 US customary, 16 metric with rain in cm, 17 metric with mm and m/s.
std::optional<std::string_view> unit_in_system(Kind kind, int system) {
  if (kind == Kind::temperature) return system == 1 ? "F" : "C";
  if (kind == Kind::length) return system == 1 ? "in" : system == 16 ? "cm" : "mm";
  if (kind == Kind::speed) return system == 1 ? "mph" : system == 16 ? "km/h" : "m/s";
  if (kind == Kind::radiation) return "W/m2";
  return std::nullopt;
}

}  // namespace

TableReader::Refusal TableReader::weigh_units(const Row& row) {
  if (!plan_.unit_system) return std::nullopt;
  const std::string_view cell = row.cell(*plan_.unit_system);
  const auto system = whole_of(cell);
  if (!system || (*system != 1 && *system != 16 && *system != 17)) {
    return problem(ProblemCode::wrong_unit, fmt::format("\"{}\" is no system of units", shown(cell)), row,
                   rows_.heading()[*plan_.unit_system], "Known are 1 (US), 16 (metric, rain in cm) and 17 (metric, rain in mm).");
  }
  if (unit_system_ && *unit_system_ != *system) {
    return problem(ProblemCode::contradiction, "the system of units changes within the file", row,
                   rows_.heading()[*plan_.unit_system], "Split the file where it changes.");
  }
  unit_system_ = *system;
  return std::nullopt;
}

void TableReader::choose_units() {
  if (!unit_system_) return;
  for (Column& column : plan_.values) {
    if (!column.bare) continue;
    const auto unit = unit_in_system(kind_of(column.field), *unit_system_);
    const auto conversion = unit ? conversion_of(kind_of(column.field), *unit) : std::nullopt;
    if (!conversion) continue;
    column.conversion = *conversion;
    column.bare = false;
  }
  builder_.note(fmt::format("Units were read as system {} of station databases: {}.", *unit_system_,
                            *unit_system_ == 1    ? "°F, inch, mph"
                            : *unit_system_ == 16 ? "°C, cm, km/h"
                                                  : "°C, mm, m/s"));
}

/// Temperature and rain are what people keep in two units; the others hardly ever.
void TableReader::note_bare_units() {
  std::string names;
  bool temperature = false, length = false;
  for (const Column& column : plan_.values) {
    if (!column.bare) continue;
    const Kind kind = kind_of(column.field);
    if (kind != Kind::temperature && column.field != Field::rain) continue;
    temperature |= kind == Kind::temperature;
    length |= column.field == Field::rain;
    names += (names.empty() ? "" : ", ") + shown(column.heading);
  }
  if (names.empty()) return;
  if (temperature) builder_.assume_celsius();
  builder_.note(fmt::format("No unit is named for {}: taken as {}{}{}.", names, temperature ? "°C" : "",
                            temperature && length ? " and " : "", length ? "mm" : ""));
}

TableReader::Refusal TableReader::take_value(const Row& row, const Column& column, double& value,
                                             bool& estimated) {
  std::string_view cell = row.cell(column.index);
  value = kNotKnown;
  if (missing_word(cell)) return std::nullopt;
  if (column.field == Field::rain && trace_word(cell)) {
    value = 0.0;
    return std::nullopt;
  }
  if (cell.back() == '*' || cell.back() == '#') {  // estimated; another sensor
    estimated = cell.back() == '*';
    cell = trimmed(cell.substr(0, cell.size() - 1));
  }
  const auto& comma = builder_.options().decimal_comma;
  const bool comma_allowed = comma.value_or(rows_.separator() != ',');
  const auto raw = comma_allowed ? number_with_comma(cell) : number_of(cell);
  if (!raw) {
    return problem(
        ProblemCode::wrong_type, fmt::format("\"{}\" is not a number", shown(row.cell(column.index))), row,
        rows_.heading()[column.index], "Correct the cell, or leave it empty if the value is not known.");
  }
  const double converted = column.conversion.apply(*raw);
  if (coded_missing(column.field, *raw, converted)) {
    ++coded_missing_;
    return std::nullopt;
  }
  value =
      column.field == Field::wind
          ? wind_to_2m(converted, column.height_m.value_or(builder_.options().wind_height_m.value_or(2.0)))
          : converted;
  return std::nullopt;
}

void TableReader::take_day(const Row& row, base::Date day, const std::vector<double>& values,
                           const std::vector<bool>& estimated) {
  std::optional<int> rain_days;
  if (plan_.rain_days) rain_days = whole_of(row.cell(*plan_.rain_days));
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Column& column = plan_.values[i];
    const auto variable = variable_of(column.field);
    if (!variable) {
      builder_.put_extra(column.extra, day, values[i]);
    } else if (*variable == Variable::rain && rain_days && *rain_days > 1 && *rain_days < 63 &&
               !std::isnan(values[i])) {
      builder_.put_total(Variable::rain, day, *rain_days, values[i]);
    } else {
      builder_.put(*variable, day, values[i],
                   estimated[i] ? ValueOrigin::estimated : builder_.options().origin);
    }
  }
}

void TableReader::take_site(const Row& row) {
  if (site_known_ || !plan_.latitude || !plan_.longitude) return;
  const auto latitude = number_of(row.cell(*plan_.latitude)),
             longitude = number_of(row.cell(*plan_.longitude));
  if (!latitude || !longitude || std::abs(*latitude) > 90.0 || std::abs(*longitude) > 180.0) return;
  site_.latitude_deg = *latitude;
  site_.longitude_deg = *longitude;
  if (plan_.elevation) site_.elevation_m = number_of(row.cell(*plan_.elevation)).value_or(0.0);
  site_known_ = true;
}

TableReader::Refusal TableReader::take_row(const Row& row) {
  if (!wanted(row)) return std::nullopt;
  take_site(row);
  const auto written = date_of(row);
  if (!written) return written.error();
  const auto day = settle(*written, form_);
  if (!day) {
    return problem(ProblemCode::out_of_range,
                   "the day does not exist, or its year is not between 1700 and 2200", row, "date",
                   "Correct the date.");
  }
  std::vector<double> values(plan_.values.size(), kNotKnown);
  std::vector<bool> estimated(plan_.values.size(), false);
  for (std::size_t i = 0; i < values.size(); ++i) {
    bool marked = false;
    if (auto refusal = take_value(row, plan_.values[i], values[i], marked)) return refusal;
    estimated[i] = marked;
  }
  if (parts_) {
    parts_->take(plan_.values, values, *day);
  } else {
    take_day(row, *day, values, estimated);
  }
  return std::nullopt;
}

TableReader::Refusal TableReader::take_rows() {
  rows_.rewind();
  Row row;
  while (rows_.next(row)) {
    if (blank(row)) continue;
    if (auto refusal = take_row(row)) return refusal;
  }
  return rows_.problem();
}

base::Result<WeatherImport> TableReader::read(const std::string& format) {
  if (auto refusal = look()) return tl::unexpected(*refusal);
  if (auto refusal = take_rows()) return tl::unexpected(*refusal);
  if (parts_) {
    parts_->finish(plan_.values, builder_);
    builder_.note(
        "Several readings a day were put together: lowest and highest temperature, sums of rain, means of "
        "the "
        "rest; a day is the calendar day of its time stamps.");
  }
  if (coded_missing_ > 0) {
    builder_.note(counted(coded_missing_, "value", "values") +
                  " like -9999 or 99.9 that cannot be true: taken as missing.");
  }
  for (const Column& column : plan_.values) {
    if (column.field == Field::wind && !column.height_m && !builder_.options().wind_height_m) {
      builder_.note("No height of the wind was found in its heading; it was taken as measured at 2 m; state another "
          "where it is known.");
    }
  }
  note_bare_units();
  if (plan_.unix_time && !plan_.date) builder_.note("Days are those of universal time (seconds since 1970).");
  if (!plan_.unread.empty()) {
    std::string names;
    for (std::size_t i = 0; i < plan_.unread.size() && i < 12; ++i)
      names += (i ? ", " : "") + shown(plan_.unread[i]);
    builder_.note("Columns not read: " + names + (plan_.unread.size() > 12 ? ", ..." : "") + ".");
  }
  if (site_.name.empty()) site_.name = stations_.taken();
  return builder_.finish(format, site_, site_known_);
}

}  // namespace sowtide::climate::detail
