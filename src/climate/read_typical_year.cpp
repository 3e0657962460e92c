// Hourly files of one year, typical or real: EPW, TMY3, TMY2, and their reduction to days.
// Layouts: EnergyPlus auxiliary programs (EPW data dictionary); NREL/TP-581-43156 (TMY3 user's manual, 2008);
// NSRDB volume "TMY2 user's manual" (1995). The columns used were checked against real files.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <set>

#include "climate/detail/record_builder.hpp"
#include "climate/detail/text_scan.hpp"
#include "climate/detail/units.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {

using base::fail;
using base::Problem;
using base::ProblemCode;

namespace {

constexpr double kNotKnown = std::numeric_limits<double>::quiet_NaN();
constexpr double kMegajoulesPerWattHour = 0.0036;
constexpr int kNominalYear = 2001;
constexpr std::size_t kLeastHours = 20;

/// The values of one hour, NaN where missing.
struct HourValues {
  base::Date date{};
  int hour = 1;
  double temperature_c = kNotKnown, dew_point_c = kNotKnown, humidity_pct = kNotKnown, wind_ms = kNotKnown;
  double global_wh_m2 = kNotKnown, direct_normal_wh_m2 = kNotKnown, diffuse_wh_m2 = kNotKnown,
         rain_mm = kNotKnown;
};

void append(HourlyWeather& hours, const HourValues& one) {
  hours.date.push_back(one.date);
  hours.hour.push_back(one.hour);
  hours.temperature_c.push_back(one.temperature_c);
  hours.dew_point_c.push_back(one.dew_point_c);
  hours.humidity_pct.push_back(one.humidity_pct);
  hours.wind_ms.push_back(one.wind_ms);
  hours.global_wh_m2.push_back(one.global_wh_m2);
  hours.direct_normal_wh_m2.push_back(one.direct_normal_wh_m2);
  hours.diffuse_wh_m2.push_back(one.diffuse_wh_m2);
  hours.rain_mm.push_back(one.rain_mm);
}

Problem at_line(const std::string& file, int line, ProblemCode code, std::string what) {
  return {code, std::move(what), {file, line, 0, ""}, "Give the file as published."};
}

/// A place on earth stated in a heading, or nothing when the figures cannot be one.
std::optional<Site> stated_site(std::string_view name, std::optional<double> latitude,
                                std::optional<double> longitude, std::optional<double> elevation) {
  if (!latitude || !longitude || std::abs(*latitude) > 90.0 || std::abs(*longitude) > 180.0)
    return std::nullopt;
  return Site{std::string(detail::trimmed(name)), *latitude, *longitude, elevation.value_or(0.0)};
}

/// A figure unless it is the code for missing (or beyond it).
double unless(std::string_view cell, double code, bool& bad) {
  const auto value = detail::number_of(cell);
  if (!value) {
    bad |= !detail::trimmed(cell).empty();
    return kNotKnown;
  }
  const bool missing = code > 0.0 ? *value >= code : *value <= code;
  return missing ? kNotKnown : *value;
}

/// Every day must have its 24 hours: a file that was cut off shows it here.
std::optional<Problem> refuse_broken_days(const HourlyWeather& hours, const std::string& file) {
  if (hours.date.empty()) {
    return Problem{ProblemCode::insufficient_data,
                   "the file holds no hours",
                   {file, 0, 0, ""},
                   "Fetch the file again; it is not whole."};
  }
  for (std::size_t begin = 0; begin + 24 <= hours.date.size(); begin += 24) {
    if (hours.hour[begin] == 1 && hours.hour[begin + 23] == 24 && hours.date[begin] == hours.date[begin + 23])
      continue;
    return Problem{ProblemCode::syntax,
                   fmt::format("the hours of {} are not 1 to 24", base::to_iso(hours.date[begin])),
                   {file, 0, 0, ""},
                   "Give the file as published, every day with its 24 hours in order."};
  }
  if (hours.date.size() % 24 == 0) return std::nullopt;
  return Problem{ProblemCode::syntax,
                 fmt::format("{} hours do not make whole days; the last is hour {} of {}", hours.date.size(),
                             hours.hour.back(), base::to_iso(hours.date.back())),
                 {file, 0, 0, ""},
                 "Fetch the file again; it is not whole."};
}

// --- EPW ---

std::vector<HourlyWeather::GroundTemperature> ground_temperatures(
    const std::vector<std::string_view>& cells) {
  std::vector<HourlyWeather::GroundTemperature> out;
  const auto count = cells.size() > 1 ? detail::whole_of(cells[1]) : std::nullopt;
  for (int depth = 0; count && depth < std::min(*count, 20); ++depth) {
    const std::size_t begin = 2 + static_cast<std::size_t>(depth) * 16;
    if (cells.size() < begin + 16) break;
    HourlyWeather::GroundTemperature one;
    one.depth_m = detail::number_of(cells[begin]).value_or(kNotKnown);
    for (std::size_t month = 0; month < 12; ++month) {
      one.month_c.push_back(detail::number_of(cells[begin + 4 + month]).value_or(kNotKnown));
    }
    out.push_back(std::move(one));
  }
  return out;
}

std::optional<Problem> take_epw_hour(const std::vector<std::string_view>& cells, const std::string& file,
                                     int line, std::size_t width, HourlyWeather& hours) {
  if (cells.size() < 22 || cells.size() != width) {
    return at_line(
        file, line, ProblemCode::syntax,
        fmt::format("the line has {} cells, an hour has {}", cells.size(), std::max<std::size_t>(width, 22)));
  }
  const auto year = detail::whole_of(cells[0]), month = detail::whole_of(cells[1]),
             day = detail::whole_of(cells[2]);
  const auto hour = detail::whole_of(cells[3]);
  const auto date = year && month && day ? detail::day_of(*year, *month, *day) : std::nullopt;
  if (!date || !hour || *hour < 1 || *hour > 24) {
    return at_line(file, line, ProblemCode::out_of_range,
                   "the line does not begin with year, month, day and hour 1 to 24");
  }
  bool bad = false;
  HourValues one{.date = *date, .hour = *hour};
  one.temperature_c = unless(cells[6], 99.9, bad);
  one.dew_point_c = unless(cells[7], 99.9, bad);
  one.humidity_pct = unless(cells[8], 999.0, bad);
  one.global_wh_m2 = unless(cells[13], 9999.0, bad);
  one.direct_normal_wh_m2 = unless(cells[14], 9999.0, bad);
  one.diffuse_wh_m2 = unless(cells[15], 9999.0, bad);
  one.wind_ms = unless(cells[21], 999.0, bad);
  if (cells.size() > 33) one.rain_mm = unless(cells[33], 999.0, bad);
  if (bad) return at_line(file, line, ProblemCode::wrong_type, "a cell of the hour is not a number");
  append(hours, one);
  return std::nullopt;
}

// --- reduction to days ---

double mean_or_missing(const std::vector<double>& values, std::size_t begin) {
  double sum = 0.0;
  std::size_t count = 0;
  for (std::size_t i = begin; i < begin + 24; ++i) {
    if (std::isnan(values[i])) continue;
    sum += values[i];
    ++count;
  }
  return count >= kLeastHours ? sum / static_cast<double>(count) : kNotKnown;
}

struct Extremes {
  double lowest = kNotKnown;
  double highest = kNotKnown;
};

Extremes extremes_of(const std::vector<double>& values, std::size_t begin) {
  Extremes out;
  std::size_t count = 0;
  for (std::size_t i = begin; i < begin + 24; ++i) {
    if (std::isnan(values[i])) continue;
    out.lowest = count == 0 ? values[i] : std::min(out.lowest, values[i]);
    out.highest = count == 0 ? values[i] : std::max(out.highest, values[i]);
    ++count;
  }
  return count >= kLeastHours ? out : Extremes{};
}

bool months_of_several_years(const HourlyWeather& hours) {
  std::set<int> years;
  for (const base::Date date : hours.date) years.insert(base::year_of(date));
  return years.size() > 1 && hours.date.size() <= 366 * 24;
}

base::Result<WeatherImport> to_days(const HourlyWeather& hours, const std::string& format,
                                    const std::string& file, const ReadOptions& options) {
  detail::RecordBuilder builder(file, options);
  const bool typical = months_of_several_years(hours) || options.typical_year.has_value();
  const int year = options.typical_year.value_or(kNominalYear);
  const std::size_t dew = builder.extra("dew-point", "°C", "dew point");
  const double height_m = options.wind_height_m.value_or(10.0);
  for (std::size_t begin = 0; begin + 24 <= hours.date.size(); begin += 24) {
    base::Date date = hours.date[begin];
    if (typical) {
      const auto nominal = detail::day_of(year, base::month_of(date), base::day_of_month(date));
      if (!nominal) continue;  // 29 February laid into a common year
      date = *nominal;
    }
    const Extremes temperature = extremes_of(hours.temperature_c, begin);
    builder.put(Variable::tmin, date, temperature.lowest);
    builder.put(Variable::tmax, date, temperature.highest);
    builder.put(Variable::rain, date, 24.0 * mean_or_missing(hours.rain_mm, begin));
    builder.put(Variable::radiation, date,
                24.0 * kMegajoulesPerWattHour * mean_or_missing(hours.global_wh_m2, begin));
    builder.put(Variable::humidity, date, mean_or_missing(hours.humidity_pct, begin));
    builder.put(Variable::wind, date, detail::wind_to_2m(mean_or_missing(hours.wind_ms, begin), height_m));
    builder.put_extra(dew, date, mean_or_missing(hours.dew_point_c, begin));
  }
  if (typical)
    builder.note(
        fmt::format("A typical year: its months come from different years and were laid into {}.", year));
  builder.note(
      "The day's extremes are those of hourly values; a thermometer's own extremes lie a little further "
      "apart.");
  auto made = builder.finish(format, hours.site, true);
  if (made) made->typical_year = typical;
  return made;
}

using HourReader = base::Result<HourlyWeather> (*)(std::string_view, const std::string&);

base::Result<WeatherImport> read_days(HourReader read, const std::string& format, std::string_view bytes,
                                      const std::string& file, const ReadOptions& options) {
  const auto hours = read(bytes, file);
  if (!hours) return tl::unexpected(hours.error());
  return to_days(*hours, format, file, options);
}

/// A fixed-width piece, or "" beyond the line's end. Columns counted from 1, as in the manuals.
std::string_view piece(std::string_view line, std::size_t first, std::size_t last) {
  return first <= line.size() ? line.substr(first - 1, last - first + 1) : std::string_view{};
}

/// Degrees and minutes of a TMY2 heading: "N 25 48".
std::optional<double> degrees_of(std::string_view line, std::size_t letter, std::size_t degrees,
                                 std::size_t width) {
  const auto whole = detail::whole_of(piece(line, degrees, degrees + width - 1));
  const auto minutes = detail::whole_of(piece(line, degrees + width + 1, degrees + width + 2));
  const std::string_view side = piece(line, letter, letter);
  if (!whole || !minutes || side.empty()) return std::nullopt;
  const double value = *whole + *minutes / 60.0;
  return side == "S" || side == "W" ? -value : value;
}

constexpr std::size_t kTmy2LineLength = 142;

std::optional<Problem> take_tmy2_hour(std::string_view line, const std::string& file, int number,
                                      HourlyWeather& hours) {
  const auto year = detail::whole_of(piece(line, 2, 3)), month = detail::whole_of(piece(line, 4, 5));
  const auto day = detail::whole_of(piece(line, 6, 7)), hour = detail::whole_of(piece(line, 8, 9));
  const auto date = year && month && day ? detail::day_of(1900 + *year, *month, *day) : std::nullopt;
  if (line.size() < kTmy2LineLength) return at_line(file, number, ProblemCode::syntax, "the line is cut off");
  if (!date || !hour || *hour < 1 || *hour > 24) {
    return at_line(file, number, ProblemCode::out_of_range,
                   "the line does not begin with year, month, day and hour 1 to 24");
  }
  bool bad = false;
  HourValues one{.date = *date, .hour = *hour};
  one.global_wh_m2 = unless(piece(line, 18, 21), 9999.0, bad);
  one.direct_normal_wh_m2 = unless(piece(line, 24, 27), 9999.0, bad);
  one.diffuse_wh_m2 = unless(piece(line, 30, 33), 9999.0, bad);
  one.temperature_c = unless(piece(line, 68, 71), 9999.0, bad) / 10.0;
  one.dew_point_c = unless(piece(line, 74, 77), 9999.0, bad) / 10.0;
  one.humidity_pct = unless(piece(line, 80, 82), 999.0, bad);
  one.wind_ms = unless(piece(line, 96, 98), 999.0, bad) / 10.0;
  if (bad) return at_line(file, number, ProblemCode::wrong_type, "a field of the hour is not a number");
  append(hours, one);
  return std::nullopt;
}

std::optional<Problem> take_tmy3_hour(const std::vector<std::string_view>& cells, const std::string& file,
                                      int line, HourlyWeather& hours) {
  if (cells.size() != 68) {
    return at_line(file, line, ProblemCode::syntax,
                   fmt::format("the line has {} cells, an hour has 68", cells.size()));
  }
  const std::string_view text = cells[0];
  const auto month = detail::whole_of(text.substr(0, 2));
  const auto day = text.size() == 10 ? detail::whole_of(text.substr(3, 2)) : std::nullopt;
  const auto year = text.size() == 10 ? detail::whole_of(text.substr(6, 4)) : std::nullopt;
  const auto hour = detail::whole_of(cells[1].substr(0, 2));
  const auto date = year && month && day ? detail::day_of(*year, *month, *day) : std::nullopt;
  if (!date || !hour || *hour < 1 || *hour > 24) {
    return at_line(file, line, ProblemCode::out_of_range,
                   "the line does not begin with MM/DD/YYYY and an hour 01:00 to 24:00");
  }
  bool bad = false;
  HourValues one{.date = *date, .hour = *hour};
  one.global_wh_m2 = unless(cells[4], -9900.0, bad);
  one.direct_normal_wh_m2 = unless(cells[7], -9900.0, bad);
  one.diffuse_wh_m2 = unless(cells[10], -9900.0, bad);
  one.temperature_c = unless(cells[31], -9900.0, bad);
  one.dew_point_c = unless(cells[34], -9900.0, bad);
  one.humidity_pct = unless(cells[37], -9900.0, bad);
  one.wind_ms = unless(cells[46], -9900.0, bad);
  one.rain_mm = unless(cells[64], -9900.0, bad);
  if (bad) return at_line(file, line, ProblemCode::wrong_type, "a cell of the hour is not a number");
  append(hours, one);
  return std::nullopt;
}

}  // namespace

base::Result<HourlyWeather> read_epw_hours(std::string_view bytes, const std::string& file) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  detail::LineScanner lines(detail::without_byte_order_mark(bytes));
  std::string_view line;
  std::vector<std::string_view> cells;
  HourlyWeather hours;
  bool located = false, data = false;
  std::size_t width = 0;  // of the first hour: older files leave out the last columns
  while (lines.next(line)) {
    if (detail::trimmed(line).empty()) continue;
    if (!detail::split_cells(line, ',', cells)) {
      return tl::unexpected(at_line(file, lines.number(), ProblemCode::syntax, "a quote is left open"));
    }
    if (data) {
      if (width == 0) width = cells.size();
      if (auto problem = take_epw_hour(cells, file, lines.number(), width, hours))
        return tl::unexpected(*problem);
    } else if (detail::same_word(cells[0], "LOCATION") && cells.size() >= 10) {
      const auto site = stated_site(cells[1], detail::number_of(cells[6]), detail::number_of(cells[7]),
                                    detail::number_of(cells[9]));
      if (!site) {
        return tl::unexpected(at_line(file, lines.number(), ProblemCode::out_of_range,
                                      "the LOCATION line holds no latitude and longitude"));
      }
      hours.site = *site;
      hours.utc_offset_h = detail::number_of(cells[8]).value_or(0.0);
      located = true;
    } else if (detail::same_word(cells[0], "GROUND TEMPERATURES")) {
      hours.ground = ground_temperatures(cells);
    } else if (detail::same_word(cells[0], "DATA PERIODS")) {
      data = true;
    }
  }
  if (!located || !data) {
    return fail(ProblemCode::missing_field,
                fmt::format("the file has no {} line", located ? "DATA PERIODS" : "LOCATION"),
                {file, 0, 0, ""}, "Give an EPW file with its eight heading lines.");
  }
  if (auto problem = refuse_broken_days(hours, file)) return tl::unexpected(*problem);
  return hours;
}

base::Result<HourlyWeather> read_tmy3_hours(std::string_view bytes, const std::string& file) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  detail::LineScanner lines(detail::without_byte_order_mark(bytes));
  std::string_view line;
  std::vector<std::string_view> cells;
  HourlyWeather hours;
  lines.next(line);
  const bool split = detail::split_cells(line, ',', cells);
  const auto site = split && cells.size() >= 7
                        ? stated_site(cells[1], detail::number_of(cells[4]), detail::number_of(cells[5]),
                                      detail::number_of(cells[6]))
                        : std::nullopt;
  if (!site) {
    return tl::unexpected(
        at_line(file, 1, ProblemCode::missing_field,
                "the first line is not station, name, state, zone, latitude, longitude, elevation"));
  }
  hours.site = *site;
  hours.utc_offset_h = detail::number_of(cells[3]).value_or(0.0);
  lines.next(line);  // headings
  while (lines.next(line)) {
    if (detail::trimmed(line).empty()) continue;
    if (!detail::split_cells(line, ',', cells)) {
      return tl::unexpected(at_line(file, lines.number(), ProblemCode::syntax, "a quote is left open"));
    }
    if (auto problem = take_tmy3_hour(cells, file, lines.number(), hours)) return tl::unexpected(*problem);
  }
  if (auto problem = refuse_broken_days(hours, file)) return tl::unexpected(*problem);
  return hours;
}

base::Result<HourlyWeather> read_tmy2_hours(std::string_view bytes, const std::string& file) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  detail::LineScanner lines(bytes);
  std::string_view line;
  lines.next(line);
  const auto site = stated_site(piece(line, 8, 29), degrees_of(line, 38, 40, 2), degrees_of(line, 46, 48, 3),
                                detail::number_of(piece(line, 54, 60)));
  if (!site) {
    return tl::unexpected(
        at_line(file, 1, ProblemCode::missing_field, "the first line is not a TMY2 station heading"));
  }
  HourlyWeather hours;
  hours.site = *site;
  hours.utc_offset_h = detail::number_of(piece(line, 34, 36)).value_or(0.0);
  while (lines.next(line)) {
    if (detail::trimmed(line).empty() || line == "\x1A") continue;  // an old end-of-file mark
    if (auto problem = take_tmy2_hour(line, file, lines.number(), hours)) return tl::unexpected(*problem);
  }
  if (auto problem = refuse_broken_days(hours, file)) return tl::unexpected(*problem);
  return hours;
}

base::Result<WeatherImport> read_epw(std::string_view bytes, const std::string& file,
                                     const ReadOptions& options) {
  return read_days(read_epw_hours, "epw", bytes, file, options);
}

base::Result<WeatherImport> read_tmy3(std::string_view bytes, const std::string& file,
                                      const ReadOptions& options) {
  return read_days(read_tmy3_hours, "tmy3", bytes, file, options);
}

base::Result<WeatherImport> read_tmy2(std::string_view bytes, const std::string& file,
                                      const ReadOptions& options) {
  return read_days(read_tmy2_hours, "tmy2", bytes, file, options);
}

}  // namespace sowtide::climate
