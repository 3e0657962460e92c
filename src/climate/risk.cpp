#include "climate/risk.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "base/quantile.hpp"
#include "climate/degree_days.hpp"
#include "climate/generator.hpp"
#include "climate/hourly.hpp"
#include "climate/seasonal_curve.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate {
namespace {

constexpr int kYearDays = 365;
constexpr int kFirstOfAugust = 212;  // place in the year counted from 0
constexpr int kFirstOfFebruary = 31;
constexpr int kNearBoundaryDays = 7;
constexpr int kMostMissingDays = 10;
constexpr std::size_t kLeastYears = 5;

int winter_start(bool southern) {
  return southern ? kFirstOfFebruary : kFirstOfAugust;
}

/// Day in the winter year, 0..364; 29 February counts as the 28th.
int winter_day(base::MonthDay day, bool southern) {
  return (base::climatological_day(day) - 1 - winter_start(southern) + kYearDays) % kYearDays;
}

base::MonthDay calendar_day(int winter_day, bool southern) {
  return base::month_day_of_climatological_day((winter_day + winter_start(southern)) % kYearDays + 1);
}

/// Quantile of an ascending sample at plotting positions (i - 0.5)/n, ends held.
double hazen_quantile(const std::vector<double>& sorted, double p) {
  const auto n = static_cast<double>(sorted.size());
  const double position = std::clamp(p * n - 0.5, 0.0, n - 1.0);
  const auto below = static_cast<std::size_t>(position);
  if (below + 1 >= sorted.size()) return sorted.back();
  return sorted[below] + (position - static_cast<double>(below)) * (sorted[below + 1] - sorted[below]);
}

double date_quantile(std::vector<double> dates, double p, DateLaw law) {
  std::sort(dates.begin(), dates.end());
  if (law == DateLaw::counted || dates.size() < 3) return hazen_quantile(dates, p);
  return base::mean(dates) +
         base::standard_deviation(dates) * base::normal_quantile(std::clamp(p, 1e-6, 1.0 - 1e-6));
}

tl::unexpected<base::Problem> insufficient(const WeatherRecord& record, const char* what, std::size_t found) {
  return base::fail(base::ProblemCode::insufficient_data,
                    "the weather of " + station_name(record) + " has " + std::to_string(found) + " " + what +
                        "; at least " + std::to_string(kLeastYears) + " are needed",
                    {}, "Add more years of weather, or use a place with monthly normals.");
}

}  // namespace

std::string to_text(const RiskDate& date) {
  if (date.kind == RiskDate::Kind::never) return "never";
  return date.kind == RiskDate::Kind::always ? "always" : base::to_text(date.date);
}

namespace {

/// Dates of the winters that tell one (or that there was none), and the share that had any.
struct DateSample {
  std::vector<double> dates;
  double share = 0.0;
};

template <class Known>
DateSample date_sample(const std::vector<FreezeDates::Winter>& winters, int FreezeDates::Winter::*date,
                       Known known) {
  DateSample sample;
  double count = 0.0;
  for (const FreezeDates::Winter& winter : winters) {
    if (!(winter.*known)) continue;
    count += 1.0;
    if (winter.*date >= 0) sample.dates.push_back(winter.*date);
  }
  if (count > 0.0) sample.share = static_cast<double>(sample.dates.size()) / count;
  return sample;
}

}  // namespace

double FreezeDates::share_with_freeze() const {
  return date_sample(winters_, &Winter::last, &Winter::last_known).share;
}

RiskDate FreezeDates::last(double probability, DateLaw law) const {
  const DateSample sample = date_sample(winters_, &Winter::last, &Winter::last_known);
  if (probability >= sample.share) return {};
  const double day = date_quantile(sample.dates, 1.0 - probability / sample.share, law);
  if (day >= kYearDays - kNearBoundaryDays) return {RiskDate::Kind::always, {}};
  return {RiskDate::Kind::on_date, calendar_day(std::max(0, static_cast<int>(std::lround(day))), southern_)};
}

RiskDate FreezeDates::first(double probability, DateLaw law) const {
  const DateSample sample = date_sample(winters_, &Winter::first, &Winter::first_known);
  if (probability >= sample.share) return {};
  const double day = date_quantile(sample.dates, probability / sample.share, law);
  if (day < kNearBoundaryDays) return {RiskDate::Kind::always, {}};
  return {RiskDate::Kind::on_date,
          calendar_day(std::min(kYearDays - 1, static_cast<int>(std::lround(day))), southern_)};
}

int FreezeDates::frost_free_days(double probability) const {
  std::vector<double> lengths;
  for (std::size_t i = 1; i < winters_.size(); ++i) {
    const Winter& before = winters_[i - 1];
    const Winter& after = winters_[i];
    if (after.first_year != before.first_year + 1 || !before.last_known || !after.first_known) continue;
    const int from = before.last >= 0 ? before.last - kYearDays : -kYearDays;
    const int to = after.first >= 0 ? after.first : kYearDays;
    lengths.push_back(std::min(kYearDays, to - from - 1));
  }
  if (lengths.empty()) return share_with_freeze() > 0.0 ? 0 : kYearDays;
  std::sort(lengths.begin(), lengths.end());
  return static_cast<int>(std::lround(hazen_quantile(lengths, 1.0 - probability)));
}

double FreezeDates::chance_on_or_after(base::MonthDay day) const {
  const DateSample sample = date_sample(winters_, &Winter::last, &Winter::last_known);
  if (sample.dates.empty()) return 0.0;
  const int limit = winter_day(day, southern_);
  const auto count =
      std::count_if(sample.dates.begin(), sample.dates.end(), [&](double d) { return d >= limit; });
  return sample.share * static_cast<double>(count) / static_cast<double>(sample.dates.size());
}

double FreezeDates::chance_on_or_before(base::MonthDay day) const {
  const DateSample sample = date_sample(winters_, &Winter::first, &Winter::first_known);
  if (sample.dates.empty()) return 0.0;
  const int limit = winter_day(day, southern_);
  const auto count =
      std::count_if(sample.dates.begin(), sample.dates.end(), [&](double d) { return d <= limit; });
  return sample.share * static_cast<double>(count) / static_cast<double>(sample.dates.size());
}

namespace {

/// One winter as the record shows it.
struct SeenWinter {
  FreezeDates::Winter winter;
  int autumn_days = 0;  ///< days with tmin of the first five months
  int spring_days = 0;
};

constexpr int kAutumnDays = 153;  // 1 August to 31 December
constexpr int kSpringDays = 212;

std::map<int, SeenWinter> seen_winters(const WeatherRecord& record, double threshold_c, bool southern) {
  const std::vector<double>& tmin_c = record.values(Variable::tmin);
  std::map<int, SeenWinter> winters;
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    if (std::isnan(tmin_c[i])) continue;
    const base::Date date = record.date_at(i);
    const int day = winter_day(base::month_day_of(date), southern);
    // A winter year begins in the calendar year of its first day.
    const bool before_start = base::climatological_day(date) - 1 < winter_start(southern);
    const int year = base::year_of(date) - (before_start ? 1 : 0);
    SeenWinter& seen = winters[year];
    seen.winter.first_year = year;
    ++(day < kAutumnDays ? seen.autumn_days : seen.spring_days);
    if (tmin_c[i] > threshold_c) continue;
    if (seen.winter.first < 0) seen.winter.first = day;
    seen.winter.last = day;
  }
  return winters;
}

}  // namespace

base::Result<FreezeDates> freeze_dates(const WeatherRecord& record, double threshold_c) {
  constexpr int kMostMissingInPart = 5;
  FreezeDates dates(threshold_c, record.site.latitude_deg < 0.0);
  std::size_t first_known = 0;
  std::size_t last_known = 0;
  for (auto& [year, seen] : seen_winters(record, threshold_c, dates.southern())) {
    const bool autumn = seen.autumn_days >= kAutumnDays - kMostMissingInPart;
    const bool spring = seen.spring_days >= kSpringDays - kMostMissingInPart;
    FreezeDates::Winter winter = seen.winter;
    const bool in_autumn = winter.first >= 0 && winter.first < kAutumnDays;
    winter.first_known = autumn && (in_autumn || spring);
    winter.last_known = spring && (winter.last >= kAutumnDays || autumn);
    if (!winter.first_known && !winter.last_known) continue;
    first_known += winter.first_known ? 1 : 0;
    last_known += winter.last_known ? 1 : 0;
    dates.add(winter);
  }
  const std::size_t least = std::min(first_known, last_known);
  if (least < kLeastYears) return insufficient(record, "known first and last freezes", least);
  return dates;
}

WeatherRecord generated_record(const PlaceNormals& place, int years, std::uint64_t seed) {
  constexpr int kFirstYear = 1601;
  WeatherRecord record;
  record.site = place.site;
  record.resize(base::date_of(kFirstYear, 1, 1), base::date_of(kFirstYear + years - 1, 12, 31));
  const auto values = [&](Variable variable) -> std::span<double> {
    Series& series = record.of(variable);
    std::fill(series.origin.begin(), series.origin.end(), ValueOrigin::estimated);
    return series.value;
  };
  WeatherGenerator(generator_from_normals(place))
      .generate(seed, 0, record.first,
                {values(Variable::tmin), values(Variable::tmax), values(Variable::rain),
                 values(Variable::radiation)});
  return record;
}

FreezeDates freeze_dates(const PlaceNormals& place, double threshold_c, std::uint64_t seed) {
  constexpr int kYears = 301;  // 300 whole winters
  return freeze_dates(generated_record(place, kYears, seed), threshold_c).value();
}

namespace {

/// Calendar years of a variable with few enough days missing: year -> index of 1 January.
std::vector<int> whole_years(const WeatherRecord& record, Variable variable) {
  std::map<int, int> known;
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    if (!std::isnan(record.values(variable)[i])) ++known[base::year_of(record.date_at(i))];
  }
  std::vector<int> years;
  for (const auto& [year, days] : known) {
    if (days >= base::days_in_year(year) - kMostMissingDays) years.push_back(year);
  }
  return years;
}

struct Run {
  base::Date from{};
  int days = 0;
};

/// Runs of hot days that begin in the year; a run over the new year belongs to the year it began in.
std::vector<Run> hot_runs(const WeatherRecord& record, int year, double threshold_c) {
  const std::vector<double>& tmax_c = record.values(Variable::tmax);
  const auto hot = [&](base::Date date) {
    if (date < record.first || date > record.last()) return false;
    return tmax_c[static_cast<std::size_t>((date - record.first).count())] >= threshold_c;
  };
  std::vector<Run> runs;
  for (base::Date date = base::date_of(year, 1, 1); base::year_of(date) == year; date += base::Days{1}) {
    if (!hot(date) || hot(date - base::Days{1})) continue;
    Run run{date, 0};
    while (hot(run.from + base::Days{run.days})) ++run.days;
    runs.push_back(run);
  }
  return runs;
}

}  // namespace

base::Result<HeatSpells> heat_spells(const WeatherRecord& record, double threshold_c, int least_days) {
  const std::vector<int> years = whole_years(record, Variable::tmax);
  if (years.size() < kLeastYears) {
    return insufficient(record, "whole years of tmax", years.size());
  }
  HeatSpells spells;
  spells.threshold_c = threshold_c;
  spells.least_days = least_days;
  spells.years = years.size();
  const double weight = 1.0 / static_cast<double>(years.size());
  for (const int year : years) {
    bool any = false;
    std::array<bool, 12> months{};
    for (const Run& run : hot_runs(record, year, threshold_c)) {
      if (run.days < least_days) continue;
      any = true;
      spells.per_year += weight;
      spells.days_per_year += weight * run.days;
      spells.longest_days = std::max(spells.longest_days, run.days);
      for (int i = 0; i < run.days; ++i) {
        months[static_cast<std::size_t>(base::month_of(run.from + base::Days{i}) - 1)] = true;
      }
    }
    spells.share_of_years += any ? weight : 0.0;
    for (std::size_t m = 0; m < months.size(); ++m) spells.share_by_month[m] += months[m] ? weight : 0.0;
  }
  return spells;
}

namespace {

/// Hours of day `i`, or nothing where it or a neighbour's extreme is not known.
std::optional<HourlyTemperatures> hours_of(const WeatherRecord& record, std::size_t i) {
  const std::vector<double>& tmin_c = record.values(Variable::tmin);
  const std::vector<double>& tmax_c = record.values(Variable::tmax);
  if (i == 0 || i + 1 >= record.day_count()) return std::nullopt;
  if (std::isnan(tmin_c[i]) || std::isnan(tmax_c[i]) || std::isnan(tmax_c[i - 1]) ||
      std::isnan(tmin_c[i + 1])) {
    return std::nullopt;
  }
  const base::Hours day_length =
      daylight_hours(base::Degrees::of(record.site.latitude_deg), base::day_of_year(record.date_at(i)));
  return hourly_temperatures(tmin_c[i], tmax_c[i], tmax_c[i - 1], tmin_c[i + 1], day_length.value());
}

}  // namespace

base::Result<std::array<double, 12>> monthly_hours_below(const WeatherRecord& record, double threshold_c) {
  std::array<double, 12> hours{};
  std::array<std::size_t, 12> days{};
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    const auto day = hours_of(record, i);
    if (!day) continue;
    const auto month = static_cast<std::size_t>(base::month_of(record.date_at(i)) - 1);
    ++days[month];
    hours[month] += static_cast<double>(
        std::count_if(day->begin(), day->end(), [&](double t) { return t < threshold_c; }));
  }
  const std::size_t least = *std::min_element(days.begin(), days.end());
  constexpr std::size_t kDaysOfMonth = 28;
  if (least < kLeastYears * kDaysOfMonth) {
    return insufficient(record, "years of its thinnest month", least / kDaysOfMonth);
  }
  for (std::size_t m = 0; m < hours.size(); ++m) {
    const double month_days = m == 1 ? 28.25 : base::days_in_month(2025, static_cast<int>(m) + 1);
    hours[m] *= month_days / static_cast<double>(days[m]);
  }
  return hours;
}

double WinterChill::reached(double probability) const {
  return hazen_quantile(hours, 1.0 - probability);
}

base::Result<WinterChill> winter_chill(const WeatherRecord& record) {
  const bool southern = record.site.latitude_deg < 0.0;
  struct Sum {
    double hours = 0.0;
    int days = 0;
  };
  std::map<int, Sum> winters;
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    const base::Date date = record.date_at(i);
    const int month = base::month_of(date);
    const bool winter = southern ? month >= 4 && month <= 9 : month <= 3 || month >= 10;
    if (!winter) continue;
    const auto day = hours_of(record, i);
    if (!day) continue;
    Sum& sum = winters[base::year_of(date) - (!southern && month <= 3 ? 1 : 0)];
    sum.hours += chilling_hours(*day);
    ++sum.days;
  }
  constexpr int kWinterDays = 182;
  WinterChill chill;
  for (const auto& [year, sum] : winters) {
    if (sum.days >= kWinterDays - kMostMissingDays) chill.hours.push_back(sum.hours * kWinterDays / sum.days);
  }
  if (chill.hours.size() < kLeastYears) {
    return insufficient(record, "whole winters", chill.hours.size());
  }
  std::sort(chill.hours.begin(), chill.hours.end());
  return chill;
}

}  // namespace sowtide::climate
