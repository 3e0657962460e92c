// Fitting the generator to a record.
#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include "base/quantile.hpp"
#include "climate/detail/fit_sample.hpp"
#include "climate/generator.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate {
namespace {

using detail::fit_rain;
using detail::kClearness;
using detail::kTmax;
using detail::kTmin;
using detail::Moments;
using detail::Sample;
using detail::shrunk;
using detail::within_one_month;

constexpr std::size_t kLeastDays = 1095;
constexpr std::size_t kLeastDaysInMonth = 60;

bool trusted(const Series& series, std::size_t i) {
  return !std::isnan(series.value[i]) && (series.origin.empty() || series.origin[i] != ValueOrigin::forecast);
}

Sample take_sample(const WeatherRecord& record, base::Date until) {
  Sample sample;
  const Series& radiation = record.of(Variable::radiation);
  const std::array<const Series*, 2> temperatures = {&record.of(Variable::tmax), &record.of(Variable::tmin)};
  const Series& rain = record.of(Variable::rain);
  for (std::size_t i = 0; i < record.day_count() && record.date_at(i) < until; ++i) {
    const base::Date date = record.date_at(i);
    sample.curve_day.push_back(static_cast<std::size_t>(base::climatological_day(date) - 1));
    sample.year.push_back(base::year_of(date));
    sample.rain_mm.push_back(trusted(rain, i) ? rain.value[i] : std::nan(""));
    for (std::size_t v = 0; v < temperatures.size(); ++v) {
      sample.value[v].push_back(trusted(*temperatures[v], i) ? temperatures[v]->value[i] : std::nan(""));
    }
    const double clear_mj_m2 = clear_sky_radiation(record.site, base::day_of_year(date)).value();
    const bool known = i < radiation.value.size() && trusted(radiation, i) && clear_mj_m2 > 0.5;
    sample.value[kClearness].push_back(known ? radiation.value[i] / clear_mj_m2 : std::nan(""));
  }
  return sample;
}

using StateMoments = std::array<std::array<Moments, 2>, kMonthCount>;

bool is_wet(const Sample& sample, std::size_t i, double threshold_mm) {
  return sample.rain_mm[i] >= threshold_mm;
}

template <class Value>
StateMoments state_moments(const Sample& sample, std::size_t variable, double threshold_mm,
                           const Value& value) {
  StateMoments moments{};
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (!sample.usable(i) || std::isnan(sample.value[variable][i])) continue;
    moments[sample.month(i)][is_wet(sample, i, threshold_mm) ? 1 : 0].add(value(i));
  }
  return moments;
}

/// Monthly means, the gap between wet and dry days, and the spread about the course of each.
VariableParameters fit_moments(const Sample& sample, std::size_t variable, double threshold_mm,
                               const DailyCurve& wet_fraction) {
  constexpr double kLean = 8.0;  // days' worth of the whole year's value in each month's
  VariableParameters p;
  const std::vector<double>& value = sample.value[variable];
  const StateMoments raw =
      state_moments(sample, variable, threshold_mm, [&](std::size_t i) { return value[i]; });
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    Moments both = raw[m][0];
    both.add(raw[m][1]);
    p.mean[m] = both.mean();
  }
  const DailyCurve course = smooth_curve(p.mean);
  const StateMoments anomaly = state_moments(
      sample, variable, threshold_mm, [&](std::size_t i) { return value[i] - course[sample.curve_day[i]]; });
  std::array<Moments, 2> year{};
  for (const auto& month : anomaly) {
    year[0].add(month[0]);
    year[1].add(month[1]);
  }
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    const double few = std::min(anomaly[m][0].count, anomaly[m][1].count);
    p.wet_minus_dry[m] =
        shrunk(anomaly[m][1].mean() - anomaly[m][0].mean(), few, year[1].mean() - year[0].mean(), kLean);
  }
  p.dry_sd.fill(1.0);
  p.wet_sd.fill(1.0);
  for (auto& shape : p.shape) shape = kShapeScores;
  const detail::VariableCurves curves = detail::variable_curves(p, wet_fraction);
  const StateMoments residual = state_moments(sample, variable, threshold_mm, [&](std::size_t i) {
    const std::size_t day = sample.curve_day[i];
    return value[i] - (is_wet(sample, i, threshold_mm) ? curves.wet_mean[day] : curves.dry_mean[day]);
  });
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    Moments both = residual[m][0];
    both.add(residual[m][1]);
    const double all = both.root_mean_square();
    p.dry_sd[m] = shrunk(residual[m][0].root_mean_square(), residual[m][0].count, all, kLean);
    p.wet_sd[m] = shrunk(residual[m][1].root_mean_square(), residual[m][1].count, all, kLean);
  }
  return p;
}

/// Standardised residuals of one variable, NaN where unknown.
std::vector<double> standardised_residuals(const Sample& sample, std::size_t variable, double threshold_mm,
                                           const detail::VariableCurves& curves) {
  std::vector<double> residuals(sample.size(), std::nan(""));
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (!sample.usable(i) || std::isnan(sample.value[variable][i])) continue;
    const std::size_t day = sample.curve_day[i];
    const double value = sample.value[variable][i];
    residuals[i] = is_wet(sample, i, threshold_mm) ? (value - curves.wet_mean[day]) / curves.wet_sd[day]
                                                   : (value - curves.dry_mean[day]) / curves.dry_sd[day];
  }
  return residuals;
}

/// Sorted residuals of the months for which `wanted` holds.
template <class Wanted>
std::vector<double> sorted_residuals(const Sample& sample, const std::vector<double>& residuals,
                                     const Wanted& wanted) {
  std::vector<double> sorted;
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (!std::isnan(residuals[i]) && wanted(sample.month(i))) sorted.push_back(residuals[i]);
  }
  std::sort(sorted.begin(), sorted.end());
  return sorted;
}

/// Quantiles of the month's residuals at the normal scores, leaning on those of three months, and these on
/// the normal law, where there are few.
ResidualShape fit_shape(const Sample& sample, const std::vector<double>& residuals, std::size_t month) {
  constexpr double kLean = 300.0;     // days' worth of the wider one in the narrower
  constexpr double kLeastRise = 0.1;  // between scores half a unit apart
  const std::vector<double> own =
      sorted_residuals(sample, residuals, [&](std::size_t m) { return m == month; });
  const std::vector<double> three =
      sorted_residuals(sample, residuals, [&](std::size_t m) { return within_one_month(m, month); });
  if (own.size() < 30) return kShapeScores;
  ResidualShape shape{};
  for (std::size_t k = 0; k < shape.size(); ++k) {
    const double p = base::normal_cdf(kShapeScores[k]);
    const double wider =
        shrunk(base::quantile_of_sorted(three, p), static_cast<double>(three.size()), kShapeScores[k], kLean);
    shape[k] = shrunk(base::quantile_of_sorted(own, p), static_cast<double>(own.size()), wider, kLean);
    if (k > 0) shape[k] = std::max(shape[k], shape[k - 1] + kLeastRise);
  }
  return detail::standardised(shape);
}

std::vector<double> normal_scores(const Sample& sample, const std::vector<double>& residuals,
                                  const detail::VariableCurves& curves) {
  std::vector<double> scores(residuals.size(), std::nan(""));
  for (std::size_t i = 0; i < residuals.size(); ++i) {
    if (!std::isnan(residuals[i]))
      scores[i] = detail::score_of(curves.shape[sample.curve_day[i]], residuals[i]);
  }
  return scores;
}

using Scores = std::array<std::vector<double>, kResidualCount>;

/// Correlation of scores `i` today with scores `j` `lag` days before, over the three months around `month`.
double correlation(const Sample& sample, const Scores& scores, std::size_t i, std::size_t j, std::size_t lag,
                   std::size_t month, double fallback) {
  double count = 0.0, x_sum = 0.0, y_sum = 0.0, xx = 0.0, yy = 0.0, xy = 0.0;
  for (std::size_t day = lag; day < sample.size(); ++day) {
    const double x = scores[i][day];
    const double y = scores[j][day - lag];
    if (std::isnan(x) || std::isnan(y) || !within_one_month(sample.month(day), month)) continue;
    count += 1.0;
    x_sum += x;
    y_sum += y;
    xx += x * x;
    yy += y * y;
    xy += x * y;
  }
  constexpr double kLean = 60.0;
  if (count < 2.0) return fallback;
  const double x_var = xx / count - x_sum * x_sum / (count * count);
  const double y_var = yy / count - y_sum * y_sum / (count * count);
  if (!(x_var > 0.0) || !(y_var > 0.0)) return fallback;
  const double own = (xy / count - x_sum * y_sum / (count * count)) / std::sqrt(x_var * y_var);
  return shrunk(own, count, fallback, kLean);
}

void fit_correlations(const Sample& sample, const Scores& scores, GeneratorParameters& p) {
  for (std::size_t month = 0; month < kMonthCount; ++month) {
    for (std::size_t i = 0; i < kResidualCount; ++i) {
      for (std::size_t j = 0; j < kResidualCount; ++j) {
        p.lag0[month][i][j] =
            i == j ? 1.0 : correlation(sample, scores, i, j, 0, month, kRichardsonLag0[i][j]);
        p.lag1[month][i][j] = correlation(sample, scores, i, j, 1, month, kRichardsonLag1[i][j]);
      }
    }
  }
}

/// Variance of the mean of `days` values of an AR(1) series of variance 1.
double variance_of_mean(double lag1, int days) {
  double sum = 1.0;
  double power = 1.0;
  for (int k = 1; k < days; ++k) {
    power *= lag1;
    sum += 2.0 * (1.0 - static_cast<double>(k) / days) * power;
  }
  return sum / days;
}

constexpr int kMonthOfDays = 30;
constexpr int kYearOfDays = 365;

/// A variable's variance in parts: the lasting ones with their lag-1 correlations, and that of the whole.
struct VarianceParts {
  double lag1 = 0.0;
  double slow_memory = 0.0;
  double year_memory = 0.0;
  double year_share = 0.0;

  /// Variance of the mean of `days` days when the slow part has `slow_share`.
  [[nodiscard]] double of_mean(double slow_share, int days) const {
    const double rest = 1.0 - slow_share - year_share;
    const double fast = (lag1 - slow_share * slow_memory - year_share * year_memory) / rest;
    return slow_share * variance_of_mean(slow_memory, days) + year_share * variance_of_mean(year_memory, days) +
           rest * variance_of_mean(fast, days);
  }

  /// Most that slow may have so that the fast part still follows the day before a little.
  [[nodiscard]] double most_slow_share() const {
    constexpr double kMost = 0.6;
    return std::min(kMost, std::max(0.0, (lag1 - year_share * year_memory) / slow_memory - 0.05));
  }
};

/// The x in [0, most] where the rising `reached` comes to `aim`; the nearer end where it does not.
template <class Reached>
double share_reaching(double aim, double most, const Reached& reached) {
  if (aim <= reached(0.0)) return 0.0;
  double low = 0.0;
  double high = most;
  for (int round = 0; round < 40; ++round) {
    const double middle = 0.5 * (low + high);
    (reached(middle) < aim ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// Variance of the means of scores over the years, each calendar month by itself.
MonthlyValues variance_of_monthly_means(const Sample& sample, const std::vector<double>& scores) {
  constexpr double kLeastDaysOfMonth = 25.0;
  std::array<std::map<int, Moments>, kMonthCount> by_year;
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (!std::isnan(scores[i])) by_year[sample.month(i)][sample.year[i]].add(scores[i]);
  }
  MonthlyValues variance{};
  for (std::size_t month = 0; month < kMonthCount; ++month) {
    Moments means;
    for (const auto& [year, moments] : by_year[month]) {
      if (moments.count >= kLeastDaysOfMonth) means.add(moments.mean());
    }
    variance[month] = means.variance();
  }
  return variance;
}

/// Variance of the annual means of scores; 0 with fewer than ten years that have eleven months' worth of days.
double variance_of_annual_means(const Sample& sample, const std::vector<double>& scores) {
  constexpr double kLeastDaysOfYear = 335.0;
  constexpr double kLeastYears = 10.0;
  std::map<int, Moments> by_year;
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (!std::isnan(scores[i])) by_year[sample.year[i]].add(scores[i]);
  }
  Moments means;
  for (const auto& [year, moments] : by_year) {
    if (moments.count >= kLeastDaysOfYear) means.add(moments.mean());
  }
  return means.count >= kLeastYears ? means.variance() : 0.0;
}

/// The slow and the year share of one variable, in turns, since each adds to what the other is fitted to.
void fit_lasting_shares(const MonthlyValues& month_aim, double year_aim, const MonthlyValues& lag1,
                        const GeneratorParameters& p, VariableParameters& variable) {
  constexpr int kTurns = 6;
  constexpr double kMostYearShare = 0.2;
  VarianceParts parts;
  parts.slow_memory = std::exp(-1.0 / p.slow_days);
  parts.year_memory = std::exp(-1.0 / p.year_days);
  for (int turn = 0; turn < kTurns; ++turn) {
    parts.year_share = variable.year_share;
    for (std::size_t month = 0; month < kMonthCount; ++month) {
      parts.lag1 = lag1[month];
      variable.slow_share[month] =
          share_reaching(month_aim[month], parts.most_slow_share(),
                         [&](double share) { return parts.of_mean(share, kMonthOfDays); });
    }
    variable.year_share = share_reaching(year_aim, kMostYearShare, [&](double share) {
      double mean = 0.0;
      parts.year_share = share;
      for (std::size_t month = 0; month < kMonthCount; ++month) {
        parts.lag1 = lag1[month];
        mean += parts.of_mean(variable.slow_share[month], kYearOfDays) / kMonthCount;
      }
      return mean;
    });
  }
}

void fit_lasting_parts(const Sample& sample, const Scores& scores, GeneratorParameters& p) {
  for (const std::size_t variable : {kTmax, kTmin}) {
    const MonthlyValues variance = variance_of_monthly_means(sample, scores[variable]);
    MonthlyValues aim{};
    MonthlyValues lag1{};
    for (std::size_t month = 0; month < kMonthCount; ++month) {
      const double before = variance[(month + kMonthCount - 1) % kMonthCount];
      const double after = variance[(month + 1) % kMonthCount];
      aim[month] = 0.25 * before + 0.5 * variance[month] + 0.25 * after;
      lag1[month] = p.lag1[month][variable][variable];
    }
    fit_lasting_shares(aim, variance_of_annual_means(sample, scores[variable]), lag1, p, p.variable[variable]);
  }
}

base::Result<void> check_enough(const Sample& sample) {
  std::array<std::size_t, kMonthCount> days{};
  std::size_t total = 0;
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (!sample.usable(i)) continue;
    ++days[sample.month(i)];
    ++total;
  }
  const std::size_t least = *std::min_element(days.begin(), days.end());
  if (total >= kLeastDays && least >= kLeastDaysInMonth) return {};
  return base::fail(base::ProblemCode::insufficient_data,
                    "the record has " + std::to_string(total) + " days with tmin, tmax and rain (" +
                        std::to_string(least) + " in its thinnest month); a generator needs " +
                        std::to_string(kLeastDays) + " and " + std::to_string(kLeastDaysInMonth),
                    {}, "Add more years of weather, or use monthly normals.");
}

bool has_enough_clearness(const Sample& sample) {
  std::array<std::size_t, kMonthCount> days{};
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (sample.usable(i) && !std::isnan(sample.value[kClearness][i])) ++days[sample.month(i)];
  }
  return *std::min_element(days.begin(), days.end()) >= kLeastDaysInMonth;
}

}  // namespace

base::Result<GeneratorParameters> fit_generator(const WeatherRecord& record, base::Date until,
                                                const FitOptions& options) {
  const Sample sample = take_sample(record, until);
  if (const auto enough = check_enough(sample); !enough) return tl::unexpected(enough.error());
  GeneratorParameters p;
  p.site = record.site;
  p.has_clearness = has_enough_clearness(sample);
  p.rain = fit_rain(sample, options.wet_threshold_mm, options.slow);
  const DailyCurve wet_fraction = smooth_curve_within(p.rain.wet_fraction, 0.0, 0.98);
  Scores scores;
  for (std::size_t v = 0; v < kResidualCount; ++v) {
    if (v == kClearness && !p.has_clearness) {
      scores[v].assign(sample.size(), std::nan(""));
      continue;
    }
    p.variable[v] = fit_moments(sample, v, p.rain.threshold_mm, wet_fraction);
    const std::vector<double> residuals = standardised_residuals(
        sample, v, p.rain.threshold_mm, detail::variable_curves(p.variable[v], wet_fraction));
    if (options.shape) {
      for (std::size_t m = 0; m < kMonthCount; ++m) p.variable[v].shape[m] = fit_shape(sample, residuals, m);
    }
    scores[v] = normal_scores(sample, residuals, detail::variable_curves(p.variable[v], wet_fraction));
  }
  fit_correlations(sample, scores, p);
  if (options.slow) fit_lasting_parts(sample, scores, p);
  p.source = "generator fitted to the record of " + station_name(record);
  return p;
}

}  // namespace sowtide::climate
