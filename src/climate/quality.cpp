#include "climate/quality.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <tuple>

#include "base/quantile.hpp"
#include "climate/detail/record_builder.hpp"
#include "climate/sun.hpp"
#include "climate/told_quantity.hpp"

namespace sowtide::climate {

namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();
constexpr int kClimateDays = 365;
constexpr std::array kAllVariables{Variable::tmin,      Variable::tmax,     Variable::rain,
                                   Variable::radiation, Variable::sunshine, Variable::humidity,
                                   Variable::wind};
constexpr std::array kTemperatures{Variable::tmin, Variable::tmax};

/// Robust centre and spread by the biweight with censoring at 7.5 median deviations (J. R. Lanzante 1996,
/// Int. J. Climatol. 16:1197-1226), as Durre et al. 2010 use it.
struct Biweight {
  double mean = 0.0;
  double deviation = 0.0;  ///< 0 when the sample does not vary
};

double median_of(std::vector<double>& sample) {
  const auto middle = sample.begin() + static_cast<std::ptrdiff_t>(sample.size() / 2);
  std::ranges::nth_element(sample, middle);
  return *middle;
}

Biweight biweight(std::vector<double>& sample, std::vector<double>& work) {
  const double median = median_of(sample);
  work.resize(sample.size());
  std::ranges::transform(sample, work.begin(), [median](double x) { return std::abs(x - median); });
  const double spread = median_of(work);
  if (spread <= 0.0) return {median, 0.0};
  double weights = 0.0, weighted = 0.0, squares = 0.0, balance = 0.0;
  for (const double x : sample) {
    const double u = (x - median) / (7.5 * spread);
    if (std::abs(u) >= 1.0) continue;
    const double w = 1.0 - u * u;
    weights += w * w;
    weighted += (x - median) * w * w;
    squares += (x - median) * (x - median) * w * w * w * w;
    balance += w * (1.0 - 5.0 * u * u);
  }
  const double count = static_cast<double>(sample.size());
  return {median + weighted / weights, std::sqrt(count * squares) / std::abs(balance)};
}

class QualityControl {
 public:
  QualityControl(WeatherRecord record, const QualityOptions& options)
      : made_{std::move(record), {}}, options_(options), count_(made_.record.day_count()) {
    year_.reserve(count_), month_.reserve(count_), climate_day_.reserve(count_);
    for (std::size_t i = 0; i < count_; ++i) {
      const base::Date date = made_.record.date_at(i);
      year_.push_back(base::year_of(date));
      month_.push_back(base::month_of(date));
      climate_day_.push_back(base::climatological_day(date) - 1);
    }
  }

  QualityOutcome run() {
    check_bounds();
    check_sky();
    check_naught();
    check_copies();
    check_streaks();
    check_distribution_gaps();
    check_temperature_outliers();
    check_rain_outliers();
    check_order();
    check_spikes();
    check_lagged_range();
    list_missing();
    std::ranges::stable_sort(made_.findings, [](const QualityFinding& a, const QualityFinding& b) {
      return std::tuple(a.date, a.variable) < std::tuple(b.date, b.variable);
    });
    return std::move(made_);
  }

 private:
  [[nodiscard]] const std::vector<double>& values(Variable variable) const {
    return made_.record.values(variable);
  }

  /// Known and judged: observed or estimated.
  [[nodiscard]] bool judged(Variable variable, std::size_t i) const {
    const ValueOrigin origin = made_.record.of(variable).origin[i];
    return origin == ValueOrigin::observed || origin == ValueOrigin::estimated;
  }

  void remove(Variable variable, std::size_t i, std::string_view check, std::string detail) {
    Series& series = made_.record.of(variable);
    made_.findings.push_back({made_.record.date_at(i), variable, series.value[i], std::string(check),
                              "removed", std::move(detail)});
    series.value[i] = kMissing;
    series.origin[i] = ValueOrigin::missing;
  }

  void check_bounds() {
    for (const Variable variable : kAllVariables) {
      detail::PossibleRange range = detail::possible_range(variable);
      if (variable == Variable::tmin || variable == Variable::tmax) {
        range = {options_.lowest_temperature_c, options_.highest_temperature_c};
      } else if (variable == Variable::rain) {
        range.highest = options_.highest_rain_mm;
      }
      for (std::size_t i = 0; i < count_; ++i) {
        const double value = values(variable)[i];
        if (!judged(variable, i) || (value >= range.lowest && value <= range.highest)) continue;
        remove(variable, i, "impossible",
               fmt::format("possible on earth are {} to {}", quantity(range.lowest, variable),
                           quantity(range.highest, variable)));
      }
    }
  }

  /// No more radiation than reaches the top of the air, no more sunshine than daylight (an hour for hills and
  /// clocks).
  void check_sky() {
    const Site& site = made_.record.site;
    if (site.latitude_deg == 0.0 && site.longitude_deg == 0.0) return;
    for (std::size_t i = 0; i < count_; ++i) {
      if (!judged(Variable::radiation, i) && !judged(Variable::sunshine, i)) continue;
      const int day = base::day_of_year(made_.record.date_at(i));
      const auto latitude = base::Degrees::of(site.latitude_deg);
      const double above = extraterrestrial_radiation(latitude, day).value() + 0.5;
      const double daylight = daylight_hours(latitude, day).value() + 1.0;
      if (judged(Variable::radiation, i) && values(Variable::radiation)[i] > above) {
        remove(Variable::radiation, i, "impossible",
               fmt::format("more than the {:.1f} MJ/m² above the air", above));
      }
      if (judged(Variable::sunshine, i) && values(Variable::sunshine)[i] > daylight) {
        remove(Variable::sunshine, i, "impossible",
               fmt::format("more than the {:.1f} h of daylight", daylight - 1.0));
      }
    }
  }

  /// Both extremes 0 °C, or both 0 °F: zeros written for "not observed".
  void check_naught() {
    for (std::size_t i = 0; i < count_; ++i) {
      const double low = values(Variable::tmin)[i], high = values(Variable::tmax)[i];
      const bool zero = low == 0.0 && high == 0.0;
      const bool zero_f = std::abs(low + 17.8) < 0.03 && std::abs(high + 17.8) < 0.03;
      if (!(zero || zero_f) || !judged(Variable::tmin, i) || !judged(Variable::tmax, i)) continue;
      for (const Variable variable : kTemperatures) {
        remove(variable, i, "naught",
               zero ? fmt::format("both extremes are exactly {}", quantity(0.0, ToldUnit::celsius))
                    : std::string("both extremes are exactly 0 °F"));
      }
    }
  }

  /// Starts of the whole months that the record holds.
  [[nodiscard]] std::vector<std::size_t> month_starts() const {
    std::vector<std::size_t> starts;
    for (std::size_t i = 0; i + 28 <= count_; ++i) {
      if (base::day_of_month(made_.record.date_at(i)) != 1) continue;
      starts.push_back(i);
      i += 26;
    }
    return starts;
  }

  /// The first 28 days of a month, or nothing when too little of it is known or it holds too little news.
  [[nodiscard]] std::vector<double> month_picture(Variable variable, std::size_t start) const {
    std::vector<double> picture;
    int known = 0, wet = 0;
    for (std::size_t i = start; i < start + 28; ++i) {
      const double value = judged(variable, i) ? values(variable)[i] : -1e9;
      known += value > -1e8 ? 1 : 0;
      wet += value > 0.0 ? 1 : 0;
      picture.push_back(value);
    }
    const bool telling = known >= 20 && (variable != Variable::rain || wet >= 5);
    return telling ? picture : std::vector<double>{};
  }

  /// The same month twice, in another year or elsewhere in the same year. The first stays.
  void check_copies() {
    const std::vector<std::size_t> starts = month_starts();
    for (const Variable variable : {Variable::tmin, Variable::tmax, Variable::rain}) {
      std::map<std::vector<double>, std::vector<std::size_t>> seen;
      for (const std::size_t start : starts) {
        std::vector<double> picture = month_picture(variable, start);
        if (picture.empty()) continue;
        std::vector<std::size_t>& earlier = seen[std::move(picture)];
        const auto twin = std::ranges::find_if(earlier, [&](std::size_t other) {
          return month_[other] == month_[start] || year_[other] == year_[start];
        });
        if (twin != earlier.end()) remove_month(variable, start, *twin);
        earlier.push_back(start);
      }
    }
    check_equal_extremes(starts);
  }

  void remove_month(Variable variable, std::size_t start, std::size_t twin) {
    for (std::size_t i = start; i < count_ && month_[i] == month_[start]; ++i) {
      if (!judged(variable, i)) continue;
      remove(variable, i, "duplicate",
             fmt::format("the month repeats {}-{:02} value by value", year_[twin], month_[twin]));
    }
  }

  /// Minimum and maximum the same on ten days of a month: one was written into both columns.
  void check_equal_extremes(const std::vector<std::size_t>& starts) {
    for (const std::size_t start : starts) {
      std::vector<std::size_t> equal;
      for (std::size_t i = start; i < count_ && month_[i] == month_[start]; ++i) {
        if (judged(Variable::tmin, i) && judged(Variable::tmax, i) &&
            values(Variable::tmin)[i] == values(Variable::tmax)[i]) {
          equal.push_back(i);
        }
      }
      if (equal.size() < 10) continue;
      for (const std::size_t i : equal) {
        for (const Variable variable : kTemperatures) {
          remove(variable, i, "duplicate",
                 "minimum and maximum are the same on ten or more days of the month");
        }
      }
    }
  }

  void check_streaks() {
    for (const Variable variable : kAllVariables) {
      const bool temperature = variable == Variable::tmin || variable == Variable::tmax;
      std::vector<std::size_t> run;
      const auto close = [&] {
        if (static_cast<int>(run.size()) >= options_.streak_days) {
          for (const std::size_t i : run) {
            remove(variable, i, "flat-line",
                   fmt::format("the same value on {} reported days running", run.size()));
          }
        }
        run.clear();
      };
      for (std::size_t i = 0; i < count_; ++i) {
        if (!judged(variable, i)) continue;
        const double value = values(variable)[i];
        // A calm, a dry or an overcast day may repeat; so may air that is saturated.
        const bool may_repeat =
            !temperature && (value == 0.0 || (variable == Variable::humidity && value >= 99.0));
        if (!run.empty() && values(variable)[run.back()] != value) close();
        if (!may_repeat) run.push_back(i);
        if (may_repeat) close();
      }
      close();
    }
  }

  /// Values that stand apart from all others of their calendar month.
  void check_distribution_gaps() {
    for (const Variable variable : kTemperatures) {
      for (int month = 1; month <= 12; ++month) {
        std::vector<double> sorted;
        for (std::size_t i = 0; i < count_; ++i) {
          if (month_[i] == month && judged(variable, i)) sorted.push_back(values(variable)[i]);
        }
        if (sorted.size() < static_cast<std::size_t>(options_.outlier_values_needed)) continue;
        std::ranges::sort(sorted);
        double lowest = -std::numeric_limits<double>::infinity(), highest = -lowest;
        for (std::size_t k = sorted.size() / 2; k > 0; --k) {
          if (sorted[k] - sorted[k - 1] < options_.gap_c) continue;
          lowest = sorted[k];
          break;
        }
        for (std::size_t k = sorted.size() / 2; k + 1 < sorted.size(); ++k) {
          if (sorted[k + 1] - sorted[k] < options_.gap_c) continue;
          highest = sorted[k];
          break;
        }
        for (std::size_t i = 0; i < count_; ++i) {
          if (month_[i] != month || !judged(variable, i)) continue;
          const double value = values(variable)[i];
          if (value >= lowest && value <= highest) continue;
          remove(variable, i, "stands-apart",
                 fmt::format("more than {} beyond every other value of the month",
                             quantity(options_.gap_c, ToldUnit::kelvin)));
        }
      }
    }
  }

  /// Judged values by day of the climatological year.
  [[nodiscard]] std::array<std::vector<double>, kClimateDays> by_climate_day(Variable variable,
                                                                             double above) const {
    std::array<std::vector<double>, kClimateDays> out;
    for (std::size_t i = 0; i < count_; ++i) {
      if (judged(variable, i) && values(variable)[i] > above) {
        out[static_cast<std::size_t>(climate_day_[i])].push_back(values(variable)[i]);
      }
    }
    return out;
  }

  static void gather(const std::array<std::vector<double>, kClimateDays>& days, int centre, int half_width,
                     std::vector<double>& out) {
    out.clear();
    for (int offset = -half_width; offset <= half_width; ++offset) {
      const auto& day = days[static_cast<std::size_t>((centre + offset + kClimateDays) % kClimateDays)];
      out.insert(out.end(), day.begin(), day.end());
    }
  }

  void check_temperature_outliers() {
    std::vector<double> sample, work;
    for (const Variable variable : kTemperatures) {
      const auto days = by_climate_day(variable, -1e9);
      std::array<Biweight, kClimateDays> climate{};
      for (int day = 0; day < kClimateDays; ++day) {
        gather(days, day, 7, sample);
        if (static_cast<int>(sample.size()) < options_.outlier_values_needed) continue;
        climate[static_cast<std::size_t>(day)] = biweight(sample, work);
      }
      const auto deviations = [&](std::size_t i) {
        const Biweight& usual = climate[static_cast<std::size_t>(climate_day_[i])];
        if (!judged(variable, i) || usual.deviation <= 0.0) return 0.0;
        return (values(variable)[i] - usual.mean) / usual.deviation;
      };
      std::vector<double> z(count_);
      for (std::size_t i = 0; i < count_; ++i) z[i] = deviations(i);
      for (std::size_t i = 0; i < count_; ++i) {
        if (std::abs(z[i]) < options_.outlier_deviations) continue;
        const double side = z[i] > 0.0 ? 1.0 : -1.0;
        const bool before = i > 0 && side * z[i - 1] >= options_.bearing_out_deviations;
        const bool after = i + 1 < count_ && side * z[i + 1] >= options_.bearing_out_deviations;
        report_outlier(variable, i, z[i], climate[static_cast<std::size_t>(climate_day_[i])].mean,
                       before || after);
      }
    }
  }

  /// A spell that begins and ends is weather; a single day far off is an error.
  void report_outlier(Variable variable, std::size_t i, double z, double usual_c, bool borne_out) {
    std::string detail =
        fmt::format("{:.1f} standard deviations from the {} usual for the date", z,
                    quantity(usual_c, ToldUnit::celsius));
    if (!borne_out) {
      remove(variable, i, "spike", std::move(detail));
      return;
    }
    detail += "; kept, as the day before or after was far off the same way";
    made_.findings.push_back(
        {made_.record.date_at(i), variable, values(variable)[i], "spike", "kept", std::move(detail)});
  }

  void check_rain_outliers() {
    const auto days = by_climate_day(Variable::rain, 0.0);
    std::array<double, kClimateDays> heavy{};
    std::vector<double> sample;
    for (int day = 0; day < kClimateDays; ++day) {
      gather(days, day, 14, sample);
      if (sample.size() < 20) continue;
      std::ranges::sort(sample);
      heavy[static_cast<std::size_t>(day)] = base::quantile_of_sorted(sample, 0.95);
    }
    for (std::size_t i = 0; i < count_; ++i) {
      const double usual = heavy[static_cast<std::size_t>(climate_day_[i])];
      if (!judged(Variable::rain, i) || usual <= 0.0) continue;
      const double mean = (values(Variable::tmin)[i] + values(Variable::tmax)[i]) / 2.0;
      const double ratio = mean < 0.0 ? options_.rain_outlier_ratio_cold : options_.rain_outlier_ratio;
      if (values(Variable::rain)[i] <= ratio * usual) continue;
      remove(Variable::rain, i, "spike",
             fmt::format("more than {:g} times the {} that 1 wet day in 20 brings around the date", ratio,
                         quantity(usual, ToldUnit::millimetres)));
    }
  }

  void check_order() {
    for (std::size_t i = 0; i < count_; ++i) {
      const double low = values(Variable::tmin)[i], high = values(Variable::tmax)[i];
      if (!(low > high) || !judged(Variable::tmin, i) || !judged(Variable::tmax, i)) continue;
      for (const Variable variable : kTemperatures) {
        remove(variable, i, "tmin-above-tmax",
               fmt::format("minimum {}, maximum {}", quantity(low, ToldUnit::celsius),
                           quantity(high, ToldUnit::celsius)));
      }
    }
  }

  void check_spikes() {
    for (const Variable variable : kTemperatures) {
      const std::vector<double> before = values(variable);
      for (std::size_t i = 1; i + 1 < count_; ++i) {
        const double rise = before[i] - before[i - 1], fall = before[i] - before[i + 1];
        const bool spike = std::min(rise, fall) >= options_.spike_c,
                   dip = std::max(rise, fall) <= -options_.spike_c;
        if (!(spike || dip) || !judged(variable, i)) continue;
        remove(variable, i, "spike",
               fmt::format("{} or more {} than the day before and the day after",
                           quantity(options_.spike_c, ToldUnit::kelvin), spike ? "warmer" : "colder"));
      }
    }
  }

  void check_lagged_range() {
    const std::vector<double> low = values(Variable::tmin), high = values(Variable::tmax);
    for (std::size_t i = 1; i + 1 < count_; ++i) {
      // With a neighbour missing the comparisons are with NaN and nothing is removed.
      const double warmest_night = std::max({low[i - 1], low[i], low[i + 1]});
      const double coolest_day = std::min({high[i - 1], high[i], high[i + 1]});
      const bool known = !std::isnan(low[i - 1] + low[i] + low[i + 1] + high[i - 1] + high[i] + high[i + 1]);
      if (!known) continue;
      if (high[i] >= warmest_night + options_.lagged_range_c && judged(Variable::tmax, i)) {
        remove(Variable::tmax, i, "lagged-range",
               fmt::format("{} or more above the minima of three days",
                           quantity(options_.lagged_range_c, ToldUnit::kelvin)));
      }
      if (low[i] <= coolest_day - options_.lagged_range_c && judged(Variable::tmin, i)) {
        remove(Variable::tmin, i, "lagged-range",
               fmt::format("{} or more below the maxima of three days",
                           quantity(options_.lagged_range_c, ToldUnit::kelvin)));
      }
    }
  }

  /// Runs of missing days between the first and last value of each variable; the same run of several is one
  /// finding.
  void list_missing() {
    std::map<std::pair<std::size_t, std::size_t>, std::vector<Variable>> runs;
    for (const Variable variable : kAllVariables) {
      std::size_t begin = 0;
      bool started = false;
      for (std::size_t i = 0; i < count_; ++i) {
        if (made_.record.of(variable).origin[i] == ValueOrigin::missing) continue;
        if (started && i > begin) runs[{begin, i - begin}].push_back(variable);
        started = true;
        begin = i + 1;
      }
    }
    for (const auto& [run, variables] : runs) {
      std::string names;
      for (const Variable variable : variables) {
        names += fmt::format("{}{}", names.empty() ? "" : ", ", variable_text(variable));
      }
      made_.findings.push_back(
          {made_.record.date_at(run.first), variables.front(), static_cast<double>(run.second),
           "missing-days", "kept",
           fmt::format("{} {} with no record of {}", run.second, run.second == 1 ? "day" : "days", names)});
    }
  }

  QualityOutcome made_;
  QualityOptions options_;
  std::size_t count_;
  std::vector<int> year_, month_, climate_day_;
};

}  // namespace

QualityOutcome control_quality(WeatherRecord record, const QualityOptions& options) {
  return QualityControl(std::move(record), options).run();
}

void add_findings(std::vector<QualityFinding>& there, const std::vector<QualityFinding>& more) {
  const auto before = [](const QualityFinding& a, const QualityFinding& b) {
    // A value that is not known stands before all others, so that the order is one.
    constexpr double kUnknown = -std::numeric_limits<double>::infinity();
    const double value_a = std::isnan(a.value) ? kUnknown : a.value;
    const double value_b = std::isnan(b.value) ? kUnknown : b.value;
    return std::tie(a.date, a.variable, a.check, a.action, value_a) <
           std::tie(b.date, b.variable, b.check, b.action, value_b);
  };
  const auto lasts = [](const QualityFinding& finding) {
    return finding.check != "missing-days" && (finding.check != "gap" || finding.action == "filled");
  };
  std::copy_if(more.begin(), more.end(), std::back_inserter(there), lasts);
  std::stable_sort(there.begin(), there.end(), before);
  const auto same = [&](const QualityFinding& a, const QualityFinding& b) { return !before(a, b) && !before(b, a); };
  there.erase(std::unique(there.begin(), there.end(), same), there.end());
}

std::vector<FindingCount> count_findings(const std::vector<QualityFinding>& findings) {
  std::map<std::pair<std::string, std::string>, std::size_t> counts;
  for (const QualityFinding& finding : findings) ++counts[{finding.check, finding.action}];
  std::vector<FindingCount> out;
  for (const auto& [key, count] : counts) out.push_back({key.first, key.second, count});
  std::ranges::stable_sort(out, std::ranges::greater{}, &FindingCount::count);
  return out;
}

std::string_view variable_text(Variable variable) noexcept {
  switch (variable) {
    case Variable::tmin:
      return "tmin";
    case Variable::tmax:
      return "tmax";
    case Variable::rain:
      return "rain";
    case Variable::radiation:
      return "radiation";
    case Variable::sunshine:
      return "sunshine";
    case Variable::humidity:
      return "humidity";
    case Variable::wind:
      return "wind";
    case Variable::count_:
      break;
  }
  return "";
}

std::string_view variable_unit(Variable variable) noexcept {
  switch (variable) {
    case Variable::tmin:
    case Variable::tmax:
      return "°C";
    case Variable::rain:
      return "mm";
    case Variable::radiation:
      return "MJ/m²";
    case Variable::sunshine:
      return "h";
    case Variable::humidity:
      return "%";
    case Variable::wind:
      return "m/s";
    case Variable::count_:
      break;
  }
  return "";
}

}  // namespace sowtide::climate
