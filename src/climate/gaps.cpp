#include "climate/gaps.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "climate/quality.hpp"

namespace sowtide::climate {

namespace {

constexpr int kClimateDays = 365;
constexpr std::array kAveraged{Variable::tmin,     Variable::tmax,     Variable::radiation,
                               Variable::sunshine, Variable::humidity, Variable::wind};

/// A run of missing days, `begin` included, `end` not.
struct Hole {
  std::size_t begin = 0;
  std::size_t end = 0;
  [[nodiscard]] std::size_t length() const { return end - begin; }
};

bool known(const Series& series, std::size_t i) {
  return series.origin[i] != ValueOrigin::missing;
}

/// Holes between the first and the last known value.
std::vector<Hole> holes_of(const Series& series) {
  std::vector<Hole> holes;
  std::optional<std::size_t> last;
  for (std::size_t i = 0; i < series.origin.size(); ++i) {
    if (!known(series, i)) continue;
    if (last && i > *last + 1) holes.push_back({*last + 1, i});
    last = i;
  }
  return holes;
}

/// Mean course of a variable through the year, and how its anomalies persist.
struct Climate {
  std::array<double, kClimateDays> mean{};
  double persistence = 0.0;  ///< lag-1 correlation of the anomalies
  double deviation = 0.0;    ///< of the anomalies
};

/// The holes of one record filled.
class GapFiller {
 public:
  GapFiller(WeatherRecord record, const GapOptions& options)
      : made_{std::move(record), {}}, options_(options) {
    for (std::size_t i = 0; i < made_.record.day_count(); ++i) {
      const base::Date date = made_.record.date_at(i);
      climate_day_.push_back(static_cast<std::size_t>(base::climatological_day(date) - 1));
      year_.push_back(base::year_of(date));
    }
  }

  GapOutcome run() {
    // Temperatures first: rain looks at them; both extremes are judged before either is filled.
    tmin_climate_ = climate_of(made_.record.of(Variable::tmin));
    tmax_climate_ = climate_of(made_.record.of(Variable::tmax));
    fill_rain();
    for (const Variable variable : kAveraged) fill_averaged(variable);
    order_extremes();
    std::ranges::stable_sort(made_.findings, {}, &QualityFinding::date);
    return std::move(made_);
  }

 private:
  [[nodiscard]] bool enough_years(const Series& series) const {
    int years = 0;
    for (std::size_t i = 0; i < series.origin.size();) {
      const int year = year_[i];
      int days = 0;
      for (; i < series.origin.size() && year_[i] == year; ++i) days += known(series, i) ? 1 : 0;
      years += days >= 180 ? 1 : 0;
    }
    return years >= options_.least_climate_years;
  }

  /// Mean by day of the year over a window of 15 days, wider where fewer than 20 values lie in it; nothing
  /// when the variable is known in too few years or some date has no value within 30 days.
  [[nodiscard]] std::optional<Climate> climate_of(const Series& series) const {
    if (!enough_years(series)) return std::nullopt;
    std::array<double, kClimateDays> sum{};
    std::array<int, kClimateDays> count{};
    for (std::size_t i = 0; i < series.value.size(); ++i) {
      if (!known(series, i)) continue;
      sum[climate_day_[i]] += series.value[i];
      ++count[climate_day_[i]];
    }
    Climate climate;
    for (int day = 0; day < kClimateDays; ++day) {
      double total = 0.0;
      int values = 0;
      for (const int half_width : {7, 15, 30}) {
        total = 0.0, values = 0;
        for (int offset = -half_width; offset <= half_width; ++offset) {
          const auto at = static_cast<std::size_t>((day + offset + kClimateDays) % kClimateDays);
          total += sum[at];
          values += count[at];
        }
        if (values >= 20) break;
      }
      if (values == 0) return std::nullopt;
      climate.mean[static_cast<std::size_t>(day)] = total / values;
    }
    measure_anomalies(series, climate);
    return climate;
  }

  void measure_anomalies(const Series& series, Climate& climate) const {
    double squares = 0.0, products = 0.0;
    std::size_t values = 0, pairs = 0;
    for (std::size_t i = 0; i < series.value.size(); ++i) {
      if (!known(series, i)) continue;
      const double here = series.value[i] - climate.mean[climate_day_[i]];
      squares += here * here;
      ++values;
      if (i == 0 || !known(series, i - 1)) continue;
      products += here * (series.value[i - 1] - climate.mean[climate_day_[i - 1]]);
      ++pairs;
    }
    if (values < 2 || pairs < 2 || squares <= 0.0) return;
    const double variance = squares / static_cast<double>(values);
    climate.deviation = std::sqrt(variance);
    climate.persistence = std::clamp(products / static_cast<double>(pairs) / variance, 0.0, 0.98);
  }

  [[nodiscard]] double anomaly(const Series& series, const Climate& climate, std::size_t i) const {
    return series.value[i] - climate.mean[climate_day_[i]];
  }

  /// Expected anomaly inside a hole given those at its edges (see the head of gaps.hpp).
  static double bridge(double rho, double before, double after, std::size_t step, std::size_t steps) {
    const auto i = static_cast<double>(step), length = static_cast<double>(steps);
    const double whole = 1.0 - std::pow(rho, 2.0 * length);
    return (std::pow(rho, i) * (1.0 - std::pow(rho, 2.0 * (length - i))) * before +
            std::pow(rho, length - i) * (1.0 - std::pow(rho, 2.0 * i)) * after) /
           whole;
  }

  void report(const Hole& hole, Variable variable, bool filled, std::string detail) {
    made_.findings.push_back({made_.record.date_at(hole.begin), variable, static_cast<double>(hole.length()),
                              "gap", filled ? "filled" : "kept", std::move(detail)});
  }

  [[nodiscard]] bool refuse(const Hole& hole, Variable variable, bool climate_known) {
    if (!climate_known) {
      report(hole, variable, false,
             fmt::format("{} is known in fewer than {} years", variable_text(variable),
                         options_.least_climate_years));
      return true;
    }
    if (hole.length() <= static_cast<std::size_t>(options_.longest_filled_days)) return false;
    report(hole, variable, false, fmt::format("longer than {} days", options_.longest_filled_days));
    return true;
  }

  void fill_averaged(Variable variable) {
    const std::vector<Hole> holes = holes_of(made_.record.of(variable));
    if (holes.empty()) return;
    const bool low = variable == Variable::tmin, high = variable == Variable::tmax;
    const std::optional<Climate> climate = low    ? tmin_climate_
                                           : high ? tmax_climate_
                                                  : climate_of(made_.record.of(variable));
    for (const Hole& hole : holes) {
      if (refuse(hole, variable, climate.has_value())) continue;
      for (std::size_t i = hole.begin; i < hole.end; ++i) fill_day(variable, *climate, hole, i);
      report(hole, variable, true, "climate of the date, with the anomaly of both edges dying away");
    }
  }

  void fill_day(Variable variable, const Climate& climate, const Hole& hole, std::size_t i) {
    Series& series = made_.record.of(variable);
    const double before = anomaly(series, climate, hole.begin - 1),
                 after = anomaly(series, climate, hole.end);
    double expected = bridge(climate.persistence, before, after, i + 1 - hole.begin, hole.length() + 1);
    expected += partner_news(variable, climate, hole, i);
    double value = climate.mean[climate_day_[i]] + expected;
    if (variable != Variable::tmin && variable != Variable::tmax) value = std::max(value, 0.0);
    if (variable == Variable::humidity) value = std::min(value, 100.0);
    if (variable == Variable::sunshine) value = std::min(value, 24.0);
    series.value[i] = value;
    series.origin[i] = ValueOrigin::filled;
  }

  /// What the other extreme of the same day, when it was observed, adds to the expectation: half of how far
  /// it lies from its own bridge over the same hole, scaled to this variable's spread. Half is about the
  /// correlation of the daily changes of the two extremes at mid-latitude stations (0.4 to 0.6; from memory).
  [[nodiscard]] double partner_news(Variable variable, const Climate& climate, const Hole& hole,
                                    std::size_t i) const {
    constexpr double kShared = 0.5;
    if (variable != Variable::tmin && variable != Variable::tmax) return 0.0;
    const bool low = variable == Variable::tmin;
    const Series& partner = made_.record.of(low ? Variable::tmax : Variable::tmin);
    const std::optional<Climate>& usual = low ? tmax_climate_ : tmin_climate_;
    const auto observed = [&](std::size_t at) {
      return known(partner, at) && partner.origin[at] != ValueOrigin::filled;
    };
    if (!usual || usual->deviation <= 0.0 || !observed(i)) return 0.0;
    if (!observed(hole.begin - 1) || !observed(hole.end)) return 0.0;
    const double expected = bridge(usual->persistence, anomaly(partner, *usual, hole.begin - 1),
                                   anomaly(partner, *usual, hole.end), i + 1 - hole.begin, hole.length() + 1);
    return kShared * (anomaly(partner, *usual, i) - expected) * climate.deviation / usual->deviation;
  }

  /// A filled minimum above the maximum gives way; observed values stay.
  void order_extremes() {
    Series& low = made_.record.of(Variable::tmin);
    Series& high = made_.record.of(Variable::tmax);
    for (std::size_t i = 0; i < low.value.size(); ++i) {
      if (!(low.value[i] > high.value[i])) continue;
      const bool low_filled = low.origin[i] == ValueOrigin::filled,
                 high_filled = high.origin[i] == ValueOrigin::filled;
      const double middle = low_filled && high_filled ? (low.value[i] + high.value[i]) / 2.0
                            : low_filled              ? high.value[i]
                                                      : low.value[i];
      if (low_filled) low.value[i] = middle;
      if (high_filled) high.value[i] = middle;
    }
  }

  void fill_rain() {
    Series& rain = made_.record.of(Variable::rain);
    const std::vector<Hole> holes = holes_of(rain);
    if (holes.empty()) return;
    const bool climate_known = enough_years(rain);
    for (const Hole& hole : holes) {
      if (refuse(hole, Variable::rain, climate_known)) continue;
      const auto donor = best_donor(hole);
      if (!donor) {
        report(hole, Variable::rain, false, "no other year has rain on these days");
        continue;
      }
      for (std::size_t i = hole.begin; i < hole.end; ++i) {
        rain.value[i] = rain.value[*donor + i - hole.begin];
        rain.origin[i] = ValueOrigin::filled;
      }
      report(hole, Variable::rain, true, fmt::format("the rain of the same days of {}", year_[*donor]));
    }
  }

  /// Where the same days of another year begin whose weather around the hole was nearest; the nearest year
  /// among equals.
  [[nodiscard]] std::optional<std::size_t> best_donor(const Hole& hole) const {
    const base::Date start = made_.record.date_at(hole.begin);
    const base::MonthDay day = base::month_day_of(start);
    std::optional<std::size_t> best;
    double best_distance = std::numeric_limits<double>::infinity();
    for (int year = year_.front(); year <= year_.back(); ++year) {
      if (year == base::year_of(start)) continue;
      const auto offset = (base::in_year(day, year) - made_.record.first).count();
      if (offset < 1 || static_cast<std::size_t>(offset) + hole.length() >= year_.size()) continue;
      const auto begin = static_cast<std::size_t>(offset);
      if (!observed_rain(begin, hole.length())) continue;
      const double apart = std::abs(year - base::year_of(start)) * 1e-6;
      const double distance = unlikeness(hole, begin) + apart;
      if (distance >= best_distance) continue;
      best_distance = distance;
      best = begin;
    }
    return best;
  }

  [[nodiscard]] bool observed_rain(std::size_t begin, std::size_t length) const {
    const Series& rain = made_.record.of(Variable::rain);
    for (std::size_t i = begin; i < begin + length; ++i) {
      if (!known(rain, i) || rain.origin[i] == ValueOrigin::filled) return false;
    }
    return true;
  }

  /// Mean difference in temperature over the hole and a week on either side, plus 2 °C for each edge that is
  /// wet in one and dry in the other.
  [[nodiscard]] double unlikeness(const Hole& hole, std::size_t begin) const {
    double sum = 0.0;
    int compared = 0;
    for (const Variable variable : {Variable::tmin, Variable::tmax}) {
      const Series& series = made_.record.of(variable);
      for (std::size_t k = 0; k < hole.length() + 14; ++k) {
        if (hole.begin + k < 7 || begin + k < 7) continue;
        const std::size_t here = hole.begin + k - 7, there = begin + k - 7;
        if (here >= series.value.size() || there >= series.value.size()) break;
        if (!known(series, here) || !known(series, there)) continue;
        sum += std::abs(series.value[here] - series.value[there]);
        ++compared;
      }
    }
    double distance = compared > 0 ? sum / compared : 10.0;
    const Series& rain = made_.record.of(Variable::rain);
    const auto wet = [&](std::size_t i) { return rain.value[i] >= 1.0; };
    if (wet(hole.begin - 1) != wet(begin - 1)) distance += 2.0;
    if (wet(hole.end) != wet(begin + hole.length())) distance += 2.0;
    return distance;
  }

  GapOutcome made_;
  GapOptions options_;
  std::vector<std::size_t> climate_day_;
  std::vector<int> year_;
  std::optional<Climate> tmin_climate_, tmax_climate_;
};

/// Days of one season on which a variable was not observed, and the longest run of them.
struct Unknown {
  std::size_t days = 0;
  int longest = 0;
};

Unknown unknown_days(const WeatherRecord& record, Variable variable, std::size_t begin, std::size_t count) {
  Unknown unknown;
  int run = 0;
  const Series& series = record.of(variable);
  for (std::size_t i = begin; i < begin + count; ++i) {
    const ValueOrigin origin = i < series.origin.size() ? series.origin[i] : ValueOrigin::missing;
    if (origin == ValueOrigin::observed || origin == ValueOrigin::estimated) {
      run = 0;
      continue;
    }
    ++unknown.days;
    unknown.longest = std::max(unknown.longest, ++run);
  }
  return unknown;
}

void judge(SeasonCompleteness& season, std::size_t day_count, const CompletenessLimits& limits) {
  const auto most = limits.largest_unknown_share * static_cast<double>(day_count);
  const std::array<std::pair<std::string_view, std::size_t>, 3> counts{
      {{"tmin", season.tmin_unknown}, {"tmax", season.tmax_unknown}, {"rain", season.rain_unknown}}};
  for (const auto& [name, days] : counts) {
    if (static_cast<double>(days) <= most) continue;
    season.reason = fmt::format("{} of {} days without observed {}", days, day_count, name);
    return;
  }
  if (season.longest_run_days > limits.longest_unknown_run_days) {
    season.reason = fmt::format("{} days running without observation", season.longest_run_days);
    return;
  }
  season.usable = true;
}

}  // namespace

GapOutcome fill_gaps(WeatherRecord record, const GapOptions& options) {
  if (record.day_count() == 0) return {std::move(record), {}};
  return GapFiller(std::move(record), options).run();
}

std::vector<SeasonCompleteness> season_completeness(const WeatherRecord& record, base::MonthDay start,
                                                    std::size_t day_count, const CompletenessLimits& limits) {
  std::vector<SeasonCompleteness> seasons;
  if (record.day_count() == 0 || day_count == 0) return seasons;
  for (int year = base::year_of(record.first); year <= base::year_of(record.last()); ++year) {
    const base::Date first = base::in_year(start, year);
    if (first < record.first || first > record.last()) continue;
    const auto begin = static_cast<std::size_t>((first - record.first).count());
    SeasonCompleteness season{.year = year};
    const Unknown low = unknown_days(record, Variable::tmin, begin, day_count);
    const Unknown high = unknown_days(record, Variable::tmax, begin, day_count);
    const Unknown rain = unknown_days(record, Variable::rain, begin, day_count);
    season.tmin_unknown = low.days, season.tmax_unknown = high.days, season.rain_unknown = rain.days;
    season.longest_run_days = std::max({low.longest, high.longest, rain.longest});
    judge(season, day_count, limits);
    seasons.push_back(std::move(season));
  }
  return seasons;
}

base::Result<std::vector<int>> usable_years(const WeatherRecord& record, base::MonthDay start,
                                            std::size_t day_count, std::size_t least,
                                            const CompletenessLimits& limits) {
  std::vector<int> years;
  std::string reasons;
  std::size_t refused = 0;
  for (const SeasonCompleteness& season : season_completeness(record, start, day_count, limits)) {
    if (season.usable) {
      years.push_back(season.year);
    } else if (++refused <= 5) {
      reasons += fmt::format("{}{}: {}", reasons.empty() ? "" : "; ", season.year, season.reason);
    }
  }
  if (years.size() >= least) return years;
  if (refused > 5) reasons += fmt::format("; and {} more", refused - 5);
  return base::fail(base::ProblemCode::insufficient_data,
                    fmt::format("{} of {} needed years are whole enough{}{}", years.size(), least,
                                reasons.empty() ? "" : " (", reasons.empty() ? "" : reasons + ")"),
                    {"", 0, 0, "weather"},
                    "Add more years of daily tmin, tmax and rain, or give the place's monthly normals.");
}

}  // namespace sowtide::climate
