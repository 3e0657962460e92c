#include "climate/detail/record_builder.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "base/csv.hpp"
#include "climate/detail/text_scan.hpp"
#include "climate/quality.hpp"
#include "climate/told_quantity.hpp"
#include "climate/vapour.hpp"

namespace sowtide::climate {

const ExtraSeries* WeatherImport::find_extra(std::string_view name) const {
  const auto found = std::ranges::find(extra, name, &ExtraSeries::name);
  return found == extra.end() ? nullptr : &*found;
}

namespace detail {

using base::Problem;
using base::ProblemCode;

namespace {
constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t kMostExtras = 64;
constexpr std::size_t kMostFindings = 300000;
constexpr double kLargestBadShare = 0.05;
constexpr std::array kAllVariables{Variable::tmin,      Variable::tmax,     Variable::rain,
                                   Variable::radiation, Variable::sunshine, Variable::humidity,
                                   Variable::wind};
}  // namespace

PossibleRange possible_range(Variable variable) {
  switch (variable) {
    case Variable::tmin:
    case Variable::tmax:
      return {QualityOptions{}.lowest_temperature_c, QualityOptions{}.highest_temperature_c};
    case Variable::rain:
      return {0.0, QualityOptions{}.highest_rain_mm};
    case Variable::radiation:
      return {0.0,
              48.0};  // the most that reaches the top of the atmosphere in a day (poles in December) is 47.9
    case Variable::sunshine:
      return {0.0, 24.0};
    case Variable::humidity:
      return {0.0, 102.0};  // sensors over-read a little in fog
    case Variable::wind:
    case Variable::count_:
      break;
  }
  return {0.0, 75.0};  // a daily mean; above every daily mean of a tropical cyclone on land (from memory)
}

RecordBuilder::RecordBuilder(std::string file, const ReadOptions& options)
    : file_(std::move(file)), options_(options) {}

std::size_t RecordBuilder::extra(std::string_view name, std::string_view unit, std::string_view column) {
  const auto found = std::ranges::find(made_.extra, name, &ExtraSeries::name);
  if (found != made_.extra.end()) return static_cast<std::size_t>(found - made_.extra.begin());
  if (made_.extra.size() == kMostExtras) return made_.extra.size();
  made_.extra.push_back({std::string(name), std::string(unit), std::string(column),
                         std::vector<double>(made_.record.day_count(), kMissing)});
  return made_.extra.size() - 1;
}

void RecordBuilder::grow(base::Date day) {
  WeatherRecord& record = made_.record;
  const base::Date lowest = *day_of(kFirstYear, 1, 1);
  const base::Date highest = *day_of(kLastYear, 12, 31);
  // Twice the span each time, towards the side that asks for it, so that any order of days costs linear time.
  const base::Days slack{std::max<int>(400, static_cast<int>(record.day_count()))};
  base::Date from = day, to = std::min(highest, day + slack);
  if (record.day_count() > 0) {
    from = day < record.first ? std::max(lowest, day - slack) : record.first;
    to = day > record.last() ? std::min(highest, day + slack) : record.last();
  }
  const auto shift = record.day_count() > 0 ? static_cast<std::size_t>((record.first - from).count()) : 0;
  record.resize(from, to);
  for (ExtraSeries& one : made_.extra) {
    std::vector<double> wider(record.day_count(), kMissing);
    std::ranges::copy(one.value, wider.begin() + static_cast<std::ptrdiff_t>(shift));
    one.value = std::move(wider);
  }
}

std::size_t RecordBuilder::place_of(base::Date day) {
  WeatherRecord& record = made_.record;
  if (record.day_count() == 0 || day < record.first || day > record.last()) grow(day);
  return static_cast<std::size_t>((day - record.first).count());
}

void RecordBuilder::put(Variable variable, base::Date day, double value, ValueOrigin origin) {
  if (std::isnan(value)) return;
  const std::size_t place = place_of(day);
  Series& series = made_.record.of(variable);
  if (series.origin[place] == ValueOrigin::missing) {
    series.value[place] = value;
    series.origin[place] = origin;
    ++taken_;
    return;
  }
  if (repeated_ + contradicted_ == 0) first_repeated_ = day;
  if (series.value[place] == value) {
    ++repeated_;
    return;
  }
  ++contradicted_;
  find({day, variable, value, "duplicate", "removed",
        "the day is given twice; the first value, " + quantity(series.value[place], variable) + ", was kept"});
}

void RecordBuilder::put_extra(std::size_t place, base::Date day, double value) {
  if (std::isnan(value) || place >= made_.extra.size()) return;
  const std::size_t index = place_of(day);
  double& slot = made_.extra[place].value[index];
  if (std::isnan(slot)) slot = value;
}

void RecordBuilder::put_total(Variable variable, base::Date last_day, int days, double total) {
  for (int back = 0; back < days; ++back) {
    const base::Date day = last_day - base::Days{back};
    if (day < *day_of(kFirstYear, 1, 1)) break;
    const std::size_t place = place_of(day);
    if (made_.record.of(variable).origin[place] != ValueOrigin::missing) continue;
    put(variable, day, total / days, ValueOrigin::estimated);
  }
  find({last_day, variable, total, "several-days", "filled",
        "a total of " + std::to_string(days) + " days, shared evenly over them"});
}

void RecordBuilder::put_flagged(Variable variable, base::Date day, double value, std::string detail) {
  const bool keep = options_.keep_flagged;
  if (keep) put(variable, day, value);
  find({day, variable, value, "source-flag", keep ? "kept" : "removed", std::move(detail)});
}

void RecordBuilder::find(QualityFinding finding) {
  if (made_.findings.size() < kMostFindings) {
    made_.findings.push_back(std::move(finding));
  } else {
    ++unlisted_;
  }
}

void RecordBuilder::note(std::string text) {
  if (std::ranges::find(made_.notes, text) == made_.notes.end()) made_.notes.push_back(std::move(text));
}

namespace {

/// Which unit temperatures that cannot be degrees Celsius are likely in.
std::string unit_remedy(const std::string& name, double lowest, double highest) {
  // WMO Archive of Weather and Climate Extremes: -89.2 °C (184 K) and 56.7 °C (134 °F, 330 K).
  constexpr double kColdestKelvin = 180.0;
  constexpr double kHottestKelvin = 335.0;
  constexpr double kHottestFahrenheit = 140.0;
  if (lowest > kColdestKelvin && highest < kHottestKelvin) {
    return "These look like kelvin, or tenths of a degree in a warm place: name the unit, \"K\" or \"0.1 C\", by the "
           "unit option.";
  }
  if (highest < kHottestFahrenheit) {
    return "These look like degrees Fahrenheit: name the unit in the heading, as in \"" + name +
           "_f\", or by the unit option (or tenths of a degree: \"0.1 C\").";
  }
  return "These look like tenths of a degree: name the unit \"0.1 C\" by the unit option.";
}

}  // namespace

std::optional<Problem> RecordBuilder::refuse_impossible(Variable variable) const {
  const PossibleRange range = possible_range(variable);
  std::vector<double> known;
  std::size_t bad = 0;
  double worst = 0.0;
  for (const double value : made_.record.values(variable)) {
    if (std::isnan(value)) continue;
    known.push_back(value);
    if (value >= range.lowest && value <= range.highest) continue;
    ++bad;
    if (std::abs(value) > std::abs(worst)) worst = value;
  }
  if (static_cast<double>(bad) <= kLargestBadShare * static_cast<double>(known.size())) return std::nullopt;
  const std::string name(variable_text(variable)), unit(variable_unit(variable));
  Problem problem{ProblemCode::out_of_range,
                  name + " cannot be true on " + std::to_string(bad) + " of " +
                      counted(known.size(), "day", "days") + ": values up to " + base::number_text(worst) +
                      " " + unit + ", possible are " + base::number_text(range.lowest) + " to " +
                      base::number_text(range.highest),
                  {file_, 0, 0, name},
                  "Check the column and its unit."};
  const bool temperature = variable == Variable::tmin || variable == Variable::tmax;
  if (temperature && worst > 0.0 && worst < 600.0) {
    problem.code = ProblemCode::wrong_unit;
    double lowest = worst;
    for (const Variable either : {Variable::tmin, Variable::tmax}) {
      for (const double value : made_.record.values(either)) lowest = value < lowest ? value : lowest;
    }
    problem.remedy = unit_remedy(name, lowest, worst);
  }
  return problem;
}

std::optional<Problem> RecordBuilder::refuse_swapped() const {
  const auto& tmin = made_.record.values(Variable::tmin);
  const auto& tmax = made_.record.values(Variable::tmax);
  std::size_t both = 0, swapped = 0;
  base::Date first{};
  for (std::size_t i = 0; i < tmin.size(); ++i) {
    if (std::isnan(tmin[i]) || std::isnan(tmax[i])) continue;
    ++both;
    if (tmin[i] <= tmax[i]) continue;
    if (++swapped == 1) first = made_.record.date_at(i);
  }
  if (static_cast<double>(swapped) <= kLargestBadShare * static_cast<double>(both)) return std::nullopt;
  return Problem{ProblemCode::contradiction,
                 "the minimum is above the maximum on " + std::to_string(swapped) + " of " +
                     counted(both, "day", "days") + ", first on " + base::to_iso(first),
                 {file_, 0, 0, "tmin"},
                 "Correct the values, or name the two columns if they are the other way round."};
}

std::optional<Problem> RecordBuilder::refuse() const {
  if (taken_ == 0) {
    return Problem{ProblemCode::insufficient_data,
                   "the file holds no value of temperature, rain or other weather",
                   {file_, 0, 0, ""},
                   "Give a file with at least one day of weather in it."};
  }
  for (const Variable variable : kAllVariables) {
    if (auto problem = refuse_impossible(variable)) return problem;
  }
  if (auto problem = refuse_swapped()) return problem;
  if (static_cast<double>(contradicted_) > kLargestBadShare * static_cast<double>(taken_)) {
    return Problem{ProblemCode::contradiction,
                   counted(contradicted_, "value differs", "values differ") +
                       " from one given before for the same day, first near " + base::to_iso(first_repeated_),
                   {file_, 0, 0, ""},
                   "Give the file of one station, each day once; name the station if there are several."};
  }
  return std::nullopt;
}

void RecordBuilder::trim() {
  WeatherRecord& record = made_.record;
  std::size_t begin = record.day_count(), end = 0;
  for (const Series& series : record.series) {
    for (std::size_t i = 0; i < series.origin.size(); ++i) {
      if (series.origin[i] == ValueOrigin::missing) continue;
      begin = std::min(begin, i);
      end = std::max(end, i + 1);
    }
  }
  const base::Date from = record.date_at(begin), to = record.date_at(end - 1);
  for (ExtraSeries& one : made_.extra) {
    one.value = std::vector<double>(one.value.begin() + static_cast<std::ptrdiff_t>(begin),
                                    one.value.begin() + static_cast<std::ptrdiff_t>(end));
  }
  record.resize(from, to);
  std::erase_if(made_.extra, [](const ExtraSeries& one) {
    return std::ranges::all_of(one.value, [](double value) { return std::isnan(value); });
  });
}

void RecordBuilder::limit_humidity() {
  std::size_t limited = 0;
  for (double& value : made_.record.of(Variable::humidity).value) {
    if (!(value > 100.0 && value <= possible_range(Variable::humidity).highest)) continue;
    value = 100.0;
    ++limited;
  }
  if (limited > 0)
    note("Humidity a little above 100 % on " + counted(limited, "day was", "days was") + " taken as 100 %.");
}

void RecordBuilder::add_humidity() {
  // FAO-56 chapter 3: mean relative humidity as actual over mean saturation vapour pressure of the day.
  WeatherRecord& record = made_.record;
  Series& humidity = record.of(Variable::humidity);
  const ExtraSeries* dew = made_.find_extra("dew-point");
  const ExtraSeries* vapour = made_.find_extra("vapour-pressure");
  const ExtraSeries* highest = made_.find_extra("humidity-maximum");
  const ExtraSeries* lowest = made_.find_extra("humidity-minimum");
  std::size_t made = 0;
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    if (humidity.origin[i] != ValueOrigin::missing) continue;
    const double tmin = record.values(Variable::tmin)[i], tmax = record.values(Variable::tmax)[i];
    double value = kMissing;
    if (highest != nullptr && lowest != nullptr) value = (highest->value[i] + lowest->value[i]) / 2.0;
    if (std::isnan(value) && !std::isnan(tmin) && !std::isnan(tmax)) {
      const auto full = mean_saturation_vapour_pressure(base::Celsius::of(tmin), base::Celsius::of(tmax));
      double actual_kpa = vapour != nullptr ? vapour->value[i] : kMissing;
      if (std::isnan(actual_kpa) && dew != nullptr && dew->value[i] > -90.0 && dew->value[i] < 60.0) {
        actual_kpa = saturation_vapour_pressure(base::Celsius::of(dew->value[i])).value();
      }
      value = 100.0 * actual_kpa / full.value();
    }
    if (!(value >= 0.0 && value <= 110.0)) continue;
    humidity.value[i] = std::min(value, 100.0);
    humidity.origin[i] = ValueOrigin::estimated;
    ++made;
  }
  if (made > 0) {
    note("Humidity of " + counted(made, "day was", "days was") +
         " computed from dew point, vapour pressure or the day's extremes, and is marked as estimated.");
  }
}

base::Result<WeatherImport> RecordBuilder::finish(std::string format, Site site, bool site_stated) {
  if (auto problem = refuse()) return tl::unexpected(*problem);
  trim();
  limit_humidity();
  add_humidity();
  if (repeated_ > 0) {
    find({first_repeated_, Variable::tmin, static_cast<double>(repeated_), "duplicate", "kept",
          counted(repeated_, "value is", "values are") +
              " given twice with the same figure, first near this day"});
  }
  if (unlisted_ > 0) note(counted(unlisted_, "further finding is", "further findings are") + " not listed.");
  std::ranges::stable_sort(made_.findings, {}, &QualityFinding::date);
  made_.record.site = std::move(site);
  made_.site_stated = site_stated;
  made_.format = std::move(format);
  return std::move(made_);
}

}  // namespace detail
}  // namespace sowtide::climate
