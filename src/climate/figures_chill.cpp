#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "climate/degree_days.hpp"
#include "climate/detail/figure_reader.hpp"
#include "climate/figures.hpp"
#include "climate/hourly.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate {
namespace {

using base::Explanation;
using base::FigureInputs;
using base::ProblemCode;
using base::Result;
using detail::FigureReader;

/// Days in a row with what the hourly course needs.
struct DayRun {
  base::Date first{};
  std::vector<double> tmin_c, tmax_c;
};

struct ChillSums {
  double hours = 0.0, utah_units = 0.0, growing_degree_hours = 0.0;
  ChillPortions portions;
};

/// One day, as often as asked.
DayRun read_one_day(FigureReader& in) {
  DayRun run;
  for (const char* key : {"from", "to"}) {
    if (in.has(key))
      in.refuse(ProblemCode::contradiction, key, "is for a record", "Give weather=FILE, or leave it out.");
  }
  run.first = in.date("date");
  const double tmin_c = in.number("tmin_c", detail::kColdestC, detail::kHottestC);
  const double tmax_c = in.number("tmax_c", detail::kColdestC, detail::kHottestC);
  const double days = in.number_or("days", 1.0, 366.0, 1.0);
  if (in.problem()) return run;
  if (tmin_c > tmax_c) in.refuse(ProblemCode::contradiction, "tmin_c", "is above tmax_c");
  if (days != std::floor(days)) in.refuse(ProblemCode::wrong_type, "days", "must be a whole number");
  run.tmin_c.assign(static_cast<std::size_t>(days), tmin_c);
  run.tmax_c.assign(static_cast<std::size_t>(days), tmax_c);
  return run;
}

/// The days of the record that were asked for; all must lie in it and be known.
DayRun read_record_days(FigureReader& in, const WeatherRecord& record) {
  DayRun run;
  for (const char* key : {"date", "tmin_c", "tmax_c", "days"}) {
    if (in.has(key))
      in.refuse(ProblemCode::contradiction, key, "is for one day", "Leave it out, or leave weather out.");
  }
  run.first = in.has("from") ? in.date("from") : record.first;
  const base::Date last = in.has("to") ? in.date("to") : record.last();
  if (in.problem()) return run;
  if (run.first < record.first || run.first > record.last()) {
    in.refuse(ProblemCode::out_of_range, "from", "is not a day of the record");
  } else if (last > record.last() || last < run.first) {
    in.refuse(ProblemCode::out_of_range, "to", "is not a day of the record from `from` on");
  }
  if (in.problem()) return run;
  const auto begin = static_cast<std::size_t>((run.first - record.first).count());
  const std::size_t end = begin + static_cast<std::size_t>((last - run.first).count()) + 1;
  for (std::size_t i = begin; i < end; ++i) {
    run.tmin_c.push_back(record.values(Variable::tmin)[i]);
    run.tmax_c.push_back(record.values(Variable::tmax)[i]);
    if (std::isfinite(run.tmin_c.back()) && std::isfinite(run.tmax_c.back())) continue;
    in.refuse(ProblemCode::insufficient_data, "weather",
              fmt::format("has no temperatures on {}", base::to_iso(record.date_at(i))),
              "Choose days without gaps by from and to.");
    break;
  }
  return run;
}

ChillSums chill_of(const DayRun& run, double latitude_deg) {
  ChillSums sums;
  const std::size_t days = run.tmin_c.size();
  for (std::size_t i = 0; i < days; ++i) {
    const int day = base::day_of_year(run.first + base::Days{static_cast<int>(i)});
    const double day_length_h = daylight_hours(base::Degrees::of(latitude_deg), day).value();
    // At the ends the day stands for its missing neighbour.
    const HourlyTemperatures hours =
        hourly_temperatures(run.tmin_c[i], run.tmax_c[i], run.tmax_c[i == 0 ? 0 : i - 1],
                            run.tmin_c[std::min(i + 1, days - 1)], day_length_h);
    sums.hours += chilling_hours(hours);
    sums.utah_units += utah_chill_units(hours);
    sums.growing_degree_hours += growing_degree_hours(hours);
    for (const double temp_c : hours) sums.portions.add_hour(temp_c);
  }
  return sums;
}

}  // namespace

Result<Explanation> explain_chill(const FigureInputs& inputs, const WeatherRecord* record) {
  FigureReader in(detail::described("chill"), inputs);
  const double latitude_deg = in.number("lat", -detail::kDegreesLatitude, detail::kDegreesLatitude);
  const std::string file = in.text_or("weather", "");
  const DayRun run = record != nullptr ? read_record_days(in, *record) : read_one_day(in);
  if (in.problem()) return in.failure();
  const ChillSums sums = chill_of(run, latitude_deg);
  Explanation out = in.explanation();
  out.result = {{"chill_hours", sums.hours, "h"},
                {"utah_units", sums.utah_units, ""},
                {"chill_portions", sums.portions.portions(), ""},
                {"growing_degree_hours", sums.growing_degree_hours, "°C h"},
                {"days", static_cast<double>(run.tmin_c.size()), "d"}};
  out.working = {
      fmt::format("{} days from {}{}, 24 temperatures each: a sine by day, an exponential fall by night",
                  run.tmin_c.size(), base::to_iso(run.first), file.empty() ? "" : " of " + file),
      "chill hours: those from 0 to 7.2 °C; Utah units: hours weighted -1 to 1, best from 2.5 to 9.1 °C",
      "chill portions: made and unmade by temperature, fixed once whole; they need a day or more to begin",
      "growing-degree-hours: from 4 °C, fullest at 25 °C, none from 36 °C"};
  out.source = {
      "W. J. Parton and J. A. Logan 1981, Agric. Meteorol. 23:205-216 (hours)",
      "E. A. Richardson, S. D. Seeley and D. R. Walker 1974, HortScience 9:331-332 (Utah units)",
      "S. Fishman, A. Erez and G. A. Couvillon 1987, J. Theor. Biol. 124:473-483 (portions)",
      "J. L. Anderson, E. A. Richardson and C. D. Kesner 1986, Acta Hort. 184:71-78 (growing-degree-hours)"};
  return out;
}

}  // namespace sowtide::climate
