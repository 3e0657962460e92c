#include "climate/ensemble.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdio>
#include <optional>
#include <utility>

#include "base/parallel.hpp"
#include "climate/detail/complete_record.hpp"
#include "climate/evapotranspiration.hpp"
#include "climate/gaps.hpp"
#include "climate/generator.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate {
namespace {

constexpr std::size_t kLeastYears = 4;
/// Below this many years of its own, a record is helped out by a generator fitted to it.
constexpr std::size_t kEnoughYears = 20;
/// Share of a temperature anomaly that is left a day later, where two stretches of weather are joined:
/// between the lag-1 correlations of tmax and tmin of C. W. Richardson 1981.
constexpr double kAnomalyMemory = 0.65;
constexpr int kBlendDays = 12;
constexpr double kLeastTemperatureRangeK = 0.1;

WeatherEnsemble empty_ensemble(const Site& site, const EnsembleOptions& options, std::size_t member_count) {
  WeatherEnsemble ensemble;
  ensemble.site = site;
  ensemble.first = options.first;
  ensemble.day_count = options.day_count;
  ensemble.member_count = member_count;
  ensemble.member_names.resize(member_count);
  const std::size_t size = member_count * options.day_count;
  for (auto* values :
       {&ensemble.tmin_c, &ensemble.tmax_c, &ensemble.rain_mm, &ensemble.radiation_mj_m2, &ensemble.et0_mm}) {
    values->resize(size);
  }
  return ensemble;
}

base::Date day_of(const WeatherEnsemble& ensemble, std::size_t day) {
  return ensemble.first + base::Days{static_cast<int>(day)};
}

std::string made_name(std::size_t number) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "made %02zu", number);
  return text.data();
}

/// What is known beside the ensemble's own arrays and helps evapotranspiration; NaN where not.
struct AirOfDay {
  double humidity_pct = std::nan("");
  double wind_2m_ms = std::nan("");
};

AirOfDay air_of(const detail::CompleteRecord& record, std::size_t day) {
  return {record.humidity_pct[day], record.wind_2m_ms[day]};
}

double et0_of(const WeatherEnsemble& ensemble, std::size_t at, int day_of_year, const AirOfDay& air) {
  DailyWeather weather;
  weather.tmin_c = ensemble.tmin_c[at];
  weather.tmax_c = ensemble.tmax_c[at];
  weather.radiation_mj_m2 = ensemble.radiation_mj_m2[at];
  if (!std::isnan(air.humidity_pct)) weather.humidity.rh_mean_pct = air.humidity_pct;
  if (!std::isnan(air.wind_2m_ms)) weather.wind_2m_ms = air.wind_2m_ms;
  return reference_evapotranspiration_daily(weather, ensemble.site, day_of_year).value();
}

double range_radiation(const WeatherEnsemble& ensemble, std::size_t at, int day_of_year) {
  return radiation_from_temperature_range(base::Celsius::of(ensemble.tmin_c[at]),
                                          base::Celsius::of(ensemble.tmax_c[at]), ensemble.site, day_of_year)
      .value();
}

/// Shifts a temperature pair and keeps the maximum above the minimum.
void shift(WeatherEnsemble& ensemble, std::size_t at, double tmin_shift, double tmax_shift) {
  double& tmin = ensemble.tmin_c[at];
  double& tmax = ensemble.tmax_c[at];
  tmin += tmin_shift;
  tmax += tmax_shift;
  if (tmax - tmin < kLeastTemperatureRangeK) {
    const double middle = 0.5 * (tmin + tmax);
    tmin = middle - 0.5 * kLeastTemperatureRangeK;
    tmax = middle + 0.5 * kLeastTemperatureRangeK;
  }
}

/// Lets a jump of temperature at `day` fade in over the days from there on.
void blend(WeatherEnsemble& ensemble, std::size_t member, std::size_t day, double tmin_jump,
           double tmax_jump) {
  double left = kAnomalyMemory;
  for (int k = 0; k < kBlendDays && day < ensemble.day_count; ++k, ++day, left *= kAnomalyMemory) {
    shift(ensemble, ensemble.at(member, day), tmin_jump * left, tmax_jump * left);
  }
}

// --- Members from the record's own years
// ---------------------------------------------------------------------

/// Which days of the record a member is made of: one index a day of the season.
std::vector<std::size_t> source_days(const detail::CompleteRecord& record, const std::vector<int>& years,
                                     int year, const WeatherEnsemble& ensemble) {
  std::vector<std::size_t> days(ensemble.day_count);
  int season_year = base::year_of(ensemble.first);
  for (std::size_t day = 0; day < ensemble.day_count; ++day) {
    const base::Date date = day_of(ensemble, day);
    if (base::year_of(date) != season_year) {
      season_year = base::year_of(date);
      // The year after, or where that is not usable the next one that is, from the start again after the
      // last.
      const auto next = std::upper_bound(years.begin(), years.end(), year);
      year = next == years.end() ? years.front() : *next;
    }
    days[day] = record.index_of(base::in_year(base::month_day_of(date), year));
  }
  return days;
}

/// True where the record goes from one source day straight to the other (29 February may lie between or
/// repeat).
bool follows(std::size_t before, std::size_t after) {
  return after >= before && after - before <= 2;
}

void smooth_joins(const detail::CompleteRecord& record, const std::vector<std::size_t>& days,
                  std::size_t member, WeatherEnsemble& ensemble) {
  for (std::size_t day = 1; day < days.size(); ++day) {
    if (follows(days[day - 1], days[day])) continue;
    // What the new stretch had on the day before it; its first day where the record begins with it.
    const std::size_t own = days[day] > 0 ? days[day] - 1 : days[day];
    blend(ensemble, member, day, record.tmin_c[days[day - 1]] - record.tmin_c[own],
          record.tmax_c[days[day - 1]] - record.tmax_c[own]);
  }
}

void fill_from_year(const detail::CompleteRecord& record, const std::vector<std::size_t>& days,
                    std::size_t member, WeatherEnsemble& ensemble) {
  for (std::size_t day = 0; day < days.size(); ++day) {
    const std::size_t at = ensemble.at(member, day);
    ensemble.tmin_c[at] = record.tmin_c[days[day]];
    ensemble.tmax_c[at] = record.tmax_c[days[day]];
    ensemble.rain_mm[at] = record.rain_mm[days[day]];
    ensemble.radiation_mj_m2[at] = record.radiation_mj_m2[days[day]];
  }
  smooth_joins(record, days, member, ensemble);
}

// --- Generated members
// ---------------------------------------------------------------------------------------

void fill_generated(const WeatherGenerator& generator, std::uint64_t seed, std::size_t number,
                    std::size_t member, WeatherEnsemble& ensemble) {
  const auto part = [&](std::vector<double>& values) {
    return std::span<double>(values).subspan(member * ensemble.day_count, ensemble.day_count);
  };
  generator.generate(
      seed, number, ensemble.first,
      {part(ensemble.tmin_c), part(ensemble.tmax_c), part(ensemble.rain_mm), part(ensemble.radiation_mj_m2)});
  ensemble.member_names[member] = made_name(number + 1);
}

// --- The observed season in front
// ------------------------------------------------------------------------------

/// Which day of the record is known to have been, or is forecast for, each day of the season.
struct KnownDays {
  static constexpr std::size_t kUnknown = static_cast<std::size_t>(-1);
  std::vector<std::size_t> record_day;  ///< one a day of the season; kUnknown where the members' own weather stands
  std::size_t observed = 0;             ///< leading days that were observed

  [[nodiscard]] bool knows(std::size_t day) const { return record_day[day] != kUnknown; }
};

/// A short hole between known days is filled like one in the record; in a longer one each member keeps its own.
void bridge_short_holes(std::vector<std::size_t>& record_day) {
  constexpr std::size_t kLongestHole = 5;
  std::size_t hole = kLongestHole + 1;  // before the first known day nothing is bridged
  for (std::size_t day = 0; day < record_day.size(); ++day) {
    if (record_day[day] == KnownDays::kUnknown) {
      ++hole;
      continue;
    }
    for (std::size_t back = 1; hole <= kLongestHole && back <= hole; ++back)
      record_day[day - back] = record_day[day] - back;
    hole = 0;
  }
}

KnownDays known_days(const WeatherRecord& record, const EnsembleOptions& options) {
  KnownDays known;
  known.record_day.assign(options.day_count, KnownDays::kUnknown);
  const Series& tmin = record.of(Variable::tmin);
  const Series& tmax = record.of(Variable::tmax);
  bool leading = true;
  for (std::size_t day = 0; day < options.day_count; ++day) {
    const base::Date date = options.first + base::Days{static_cast<int>(day)};
    if (record.day_count() == 0 || date < record.first || date > record.last()) continue;
    const auto i = static_cast<std::size_t>((date - record.first).count());
    if (std::isnan(tmin.value[i]) || std::isnan(tmax.value[i])) continue;
    const bool forecast = tmin.origin[i] == ValueOrigin::forecast || tmax.origin[i] == ValueOrigin::forecast;
    if (date > options.known_to && !forecast) continue;
    known.record_day[day] = i;
    leading = leading && !forecast;
    if (leading) known.observed = day + 1;
  }
  bridge_short_holes(known.record_day);
  const auto unknown = std::find(known.record_day.begin(), known.record_day.end(), KnownDays::kUnknown);
  known.observed = std::min(known.observed, static_cast<std::size_t>(unknown - known.record_day.begin()));
  return known;
}

/// Puts the known days into one member and, where they end, lets the jump to the member's own weather fade. A day whose
/// rain is not known keeps the member's.
void graft_member(const detail::CompleteRecord& record, const std::vector<double>& known_rain_mm,
                  const KnownDays& known, std::size_t member, WeatherEnsemble& ensemble) {
  double tmin_jump = 0.0;
  double tmax_jump = 0.0;
  for (std::size_t day = 0; day < ensemble.day_count; ++day) {
    const std::size_t at = ensemble.at(member, day);
    if (known.knows(day)) {
      const std::size_t i = known.record_day[day];
      tmin_jump = record.tmin_c[i] - ensemble.tmin_c[at];
      tmax_jump = record.tmax_c[i] - ensemble.tmax_c[at];
      ensemble.tmin_c[at] = record.tmin_c[i];
      ensemble.tmax_c[at] = record.tmax_c[i];
      if (!std::isnan(known_rain_mm[i])) ensemble.rain_mm[at] = known_rain_mm[i];
      ensemble.radiation_mj_m2[at] = record.radiation_mj_m2[i];
    } else if (day > 0 && known.knows(day - 1)) {
      blend(ensemble, member, day, tmin_jump, tmax_jump);
    }
  }
}

void graft(const detail::CompleteRecord& record, const std::vector<double>& known_rain_mm, const KnownDays& known,
           WeatherEnsemble& ensemble) {
  ensemble.observed_days = known.observed;
  for (std::size_t member = 0; member < ensemble.member_count; ++member)
    graft_member(record, known_rain_mm, known, member, ensemble);
}

/// What the person chose to add, said with the weather's source.
std::string warming_text(double warming_c) {
  if (warming_c == 0.0) return {};
  return fmt::format(", {:g} °C {} by choice", std::abs(warming_c), warming_c > 0.0 ? "warmer" : "colder");
}

void warm(WeatherEnsemble& ensemble, const KnownDays& known, double warming_c) {
  if (warming_c == 0.0) return;
  for (std::size_t member = 0; member < ensemble.member_count; ++member) {
    for (std::size_t day = 0; day < ensemble.day_count; ++day) {
      if (!known.knows(day)) shift(ensemble, ensemble.at(member, day), warming_c, warming_c);
    }
  }
}

/// Radiation where none was measured, and evapotranspiration. `air(member, day)` tells humidity and wind.
template <class Air>
void finish(WeatherEnsemble& ensemble, const Air& air) {
  base::parallel_for(ensemble.member_count, [&](std::size_t member) {
    for (std::size_t day = 0; day < ensemble.day_count; ++day) {
      const std::size_t at = ensemble.at(member, day);
      const int day_of_year = base::day_of_year(day_of(ensemble, day));
      if (std::isnan(ensemble.radiation_mj_m2[at])) {
        ensemble.radiation_mj_m2[at] = range_radiation(ensemble, at, day_of_year);
      }
      ensemble.et0_mm[at] = et0_of(ensemble, at, day_of_year, air(member, day));
    }
  });
}

std::string years_text(const std::string& site, const std::vector<int>& years, std::size_t made) {
  std::string text = std::to_string(years.size()) + " years of " + site + ", " +
                     std::to_string(years.front()) + "-" + std::to_string(years.back());
  if (made > 0) text += ", and " + std::to_string(made) + " made by a generator fitted to them";
  return text;
}

/// Years that may stand for the season: those that ended before it, or all where too few did.
std::vector<int> member_years(const detail::CompleteRecord& record, base::Date first) {
  std::vector<int> past;
  for (const int year : record.usable_years) {
    if (year < base::year_of(first)) past.push_back(year);
  }
  return past.size() >= kLeastYears ? past : record.usable_years;
}

/// Says of each year that was refused why.
tl::unexpected<base::Problem> too_few_years(const WeatherRecord& record) {
  base::Problem problem = usable_years(record, detail::kNewYear, detail::kDaysOfYear, kLeastYears).error();
  problem.what = "the weather of " + station_name(record) + ": " + problem.what;
  problem.where = {};
  return tl::make_unexpected(std::move(problem));
}

}  // namespace

base::Result<WeatherEnsemble> ensemble_from_record(const WeatherRecord& record,
                                                   const EnsembleOptions& options) {
  const detail::CompleteRecord complete = detail::complete_record(record);
  std::vector<int> years = member_years(complete, options.first);
  if (years.size() < kLeastYears) return too_few_years(record);
  const std::vector<int> successors = years;
  const bool generated = years.size() < kEnoughYears && years.size() < options.member_count;
  if (years.size() > options.member_count) {
    years.erase(years.begin(), years.end() - static_cast<std::ptrdiff_t>(options.member_count));
  }
  const std::size_t made = generated ? options.member_count - years.size() : 0;
  WeatherEnsemble ensemble = empty_ensemble(record.site, options, years.size() + made);
  std::vector<std::vector<std::size_t>> days(years.size());
  for (std::size_t member = 0; member < years.size(); ++member) {
    days[member] = source_days(complete, successors, years[member], ensemble);
    fill_from_year(complete, days[member], member, ensemble);
    ensemble.member_names[member] = std::to_string(years[member]);
  }
  if (made > 0) {
    const bool past_only = years.back() < base::year_of(options.first);
    const auto parameters = fit_generator(record, past_only ? options.first : base::Date::max());
    if (!parameters) return tl::unexpected(parameters.error());
    const WeatherGenerator generator(*parameters);
    for (std::size_t number = 0; number < made; ++number) {
      fill_generated(generator, options.seed, number, years.size() + number, ensemble);
    }
  }
  const KnownDays known = known_days(record, options);
  graft(complete, record.values(Variable::rain), known, ensemble);
  warm(ensemble, known, options.warming_c);
  finish(ensemble, [&](std::size_t member, std::size_t day) -> AirOfDay {
    if (known.knows(day)) return air_of(complete, known.record_day[day]);
    if (member >= days.size()) return {};
    return air_of(complete, days[member][day]);
  });
  ensemble.origin = {.place = station_name(record),
                     .record_years = years.size(),
                     .first_year = years.front(),
                     .last_year = years.back(),
                     .made_years = made,
                     .warming_c = options.warming_c};
  ensemble.source = years_text(ensemble.origin.place, years, made) + warming_text(options.warming_c);
  return ensemble;
}

WeatherEnsemble ensemble_from_normals(const PlaceNormals& place, const EnsembleOptions& options) {
  return ensemble_from_normals(place, WeatherRecord{}, options);
}

WeatherEnsemble ensemble_from_normals(const PlaceNormals& place, const WeatherRecord& record,
                                      const EnsembleOptions& options) {
  WeatherEnsemble ensemble = empty_ensemble(place.site, options, options.member_count);
  const WeatherGenerator generator(generator_from_normals(place));
  base::parallel_for(options.member_count, [&](std::size_t member) {
    fill_generated(generator, options.seed, member, member, ensemble);
  });
  const KnownDays known = known_days(record, options);
  const detail::CompleteRecord complete = detail::complete_record(record);
  graft(complete, record.values(Variable::rain), known, ensemble);
  warm(ensemble, known, options.warming_c);
  finish(ensemble, [&](std::size_t, std::size_t day) -> AirOfDay {
    return known.knows(day) ? air_of(complete, known.record_day[day]) : AirOfDay{};
  });
  ensemble.origin = {.normals_source = place.normals.source, .warming_c = options.warming_c};
  ensemble.source = place.normals.source.empty() ? "made from monthly normals"
                                                 : "made from monthly normals (" + place.normals.source + ")";
  ensemble.source += warming_text(options.warming_c);
  return ensemble;
}

}  // namespace sowtide::climate
