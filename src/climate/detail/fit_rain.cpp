// Rain: the chain, the amounts, and their spells of weeks.
#include <map>
#include <utility>

#include "climate/detail/fit_sample.hpp"

namespace sowtide::climate::detail {
namespace {

constexpr double kHalfReportingStepMm = 0.12;

struct RainCounts {
  double days = 0.0, wet = 0.0, total_mm = 0.0;
  double after_dry = 0.0, wet_after_dry = 0.0, after_wet = 0.0, wet_after_wet = 0.0;

  void add(const RainCounts& other) {
    days += other.days;
    wet += other.wet;
    total_mm += other.total_mm;
    after_dry += other.after_dry;
    wet_after_dry += other.wet_after_dry;
    after_wet += other.after_wet;
    wet_after_wet += other.wet_after_wet;
  }
  [[nodiscard]] double persistence() const {
    return after_wet > 0.0 && after_dry > 0.0 ? wet_after_wet / after_wet - wet_after_dry / after_dry : 0.0;
  }
};

std::array<RainCounts, kMonthCount> count_rain(const Sample& sample, double threshold_mm) {
  std::array<RainCounts, kMonthCount> counts{};
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (std::isnan(sample.rain_mm[i])) continue;
    RainCounts& month = counts[sample.month(i)];
    const bool wet = sample.rain_mm[i] >= threshold_mm;
    month.days += 1.0;
    month.wet += wet ? 1.0 : 0.0;
    month.total_mm += sample.rain_mm[i];
    if (i == 0 || std::isnan(sample.rain_mm[i - 1])) continue;
    const bool wet_before = sample.rain_mm[i - 1] >= threshold_mm;
    (wet_before ? month.after_wet : month.after_dry) += 1.0;
    if (wet) (wet_before ? month.wet_after_wet : month.wet_after_dry) += 1.0;
  }
  return counts;
}

struct MixedExponential {
  double light_share = 1.0;
  double light_ratio = 1.0;
};

/// Maximum likelihood by expectation and maximisation, for amounts scaled to mean 1. Amounts are reported in
/// steps of 0.1 to 0.25 mm, so the many at the threshold itself count as half a step above it (`least`): else
/// the light exponential would shrink onto them and the heavy one would have to do all the rest.
MixedExponential fit_mixed_exponential(std::vector<double> amounts, double least) {
  constexpr int kRounds = 80;
  double sum = 0.0;
  for (double& x : amounts) {
    x = std::max(x, least);
    sum += x;
  }
  const auto count = static_cast<double>(amounts.size());
  double share = 0.6;
  double light = 0.4;
  double heavy = 1.9;
  for (int round = 0; round < kRounds; ++round) {
    double weight = 0.0;
    double light_sum = 0.0;
    for (const double x : amounts) {
      const double a = share / light * std::exp(-x / light);
      const double b = (1.0 - share) / heavy * std::exp(-x / heavy);
      const double from_light = a / (a + b);
      weight += from_light;
      light_sum += from_light * x;
    }
    share = std::clamp(weight / count, 0.02, 0.98);
    light = std::max(light_sum / std::max(weight, 1e-9), least);
    heavy = std::max((sum - light_sum) / std::max(count - weight, 1e-9), light);
  }
  return {share, std::min(light * count / sum, 1.0)};
}

/// Amounts above the threshold over their month's mean, of the months around `month`; all months when few.
std::vector<double> scaled_amounts(const Sample& sample, const RainParameters& rain, std::size_t month) {
  constexpr std::size_t kEnough = 80;
  std::vector<double> near_amounts;
  std::vector<double> all;
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (std::isnan(sample.rain_mm[i]) || sample.rain_mm[i] < rain.threshold_mm) continue;
    const std::size_t own = sample.month(i);
    const double scaled =
        (sample.rain_mm[i] - rain.threshold_mm) / (rain.wet_day_mm[own] - rain.threshold_mm);
    all.push_back(scaled);
    if (within_one_month(own, month)) near_amounts.push_back(scaled);
  }
  return near_amounts.size() >= kEnough ? near_amounts : all;
}

// Spells of weeks. Given the slow normal g(t), a day is wet when z < c sqrt(1 + b²) + b g with z standard
// normal and c the normal quantile of its probability, so that over all g the probability stays; amounts get
// exp(a g - a²/2).

/// Numbers of wet days and totals above the threshold of every whole month of the record.
struct MonthTotals {
  Moments amount_mm;
  Moments wet_days;
  Moments total_mm;
};

std::array<MonthTotals, kMonthCount> month_totals(const Sample& sample, double threshold_mm) {
  constexpr double kLeastDaysOfMonth = 28.0;
  struct Own {
    double days = 0.0, wet = 0.0, total_mm = 0.0;
  };
  std::array<std::map<int, Own>, kMonthCount> by_year;
  std::array<MonthTotals, kMonthCount> result{};
  for (std::size_t i = 0; i < sample.size(); ++i) {
    if (std::isnan(sample.rain_mm[i])) continue;
    Own& own = by_year[sample.month(i)][sample.year[i]];
    own.days += 1.0;
    if (sample.rain_mm[i] < threshold_mm) continue;
    own.wet += 1.0;
    own.total_mm += sample.rain_mm[i] - threshold_mm;
    result[sample.month(i)].amount_mm.add(sample.rain_mm[i] - threshold_mm);
  }
  for (std::size_t month = 0; month < kMonthCount; ++month) {
    for (const auto& [year, own] : by_year[month]) {
      if (own.days < kLeastDaysOfMonth) continue;
      result[month].wet_days.add(own.wet);
      result[month].total_mm.add(own.total_mm);
    }
  }
  return result;
}

/// Share of the variance of the slow AR(1) of 15 days that is left in a mean of 30 days.
constexpr double kLeftInAMonth = 0.57;
constexpr double kDaysOfMonth = 30.4;

/// Variance of the number of wet days of a stationary chain (K. R. Gabriel 1959, Biometrika 46:454, long
/// series).
double chain_variance(double wet_fraction, double persistence) {
  return kDaysOfMonth * wet_fraction * (1.0 - wet_fraction) * (1.0 + persistence) / (1.0 - persistence);
}

/// b from the spread of the numbers of wet days that the chain alone does not give. The slow part also makes
/// neighbouring days alike, so the chain's own persistence is lowered to keep that of the record.
void fit_slow_occurrence(const std::array<MonthTotals, kMonthCount>& months, RainParameters& rain) {
  constexpr double kMost = 0.6;
  constexpr int kRounds = 25;
  const MonthlyValues observed = rain.wet_persistence;
  const auto lower_persistence = [&] {
    for (std::size_t m = 0; m < kMonthCount; ++m) {
      const double p = rain.wet_fraction[m];
      const double slope = wet_response(rain, p, rain.wet_persistence[m]);
      const double from_slow = std::min(0.5, slope * slope / std::max(p * (1.0 - p), 1e-3));
      rain.wet_persistence[m] = std::max(0.0, (observed[m] - from_slow) / (1.0 - from_slow));
    }
  };
  const auto missing = [&](double b) {
    rain.slow_occurrence = b;
    rain.wet_persistence = observed;
    lower_persistence();
    double sum = 0.0;
    for (std::size_t m = 0; m < kMonthCount; ++m) {
      const double p = rain.wet_fraction[m];
      const double slope = wet_response(rain, p, rain.wet_persistence[m]);
      sum += months[m].wet_days.variance() - chain_variance(p, rain.wet_persistence[m]) -
             kLeftInAMonth * kDaysOfMonth * kDaysOfMonth * slope * slope;
    }
    return sum;
  };
  double low = 0.0;
  double high = kMost;
  for (int round = 0; round < kRounds; ++round) {
    const double middle = 0.5 * (low + high);
    (missing(middle) > 0.0 ? low : high) = middle;
  }
  missing(low);
}

/// a from the spread of monthly totals that amounts drawn one by one on the chain's wet days do not give.
void fit_slow_amount(const std::array<MonthTotals, kMonthCount>& months, RainParameters& rain) {
  constexpr double kMost = 0.6;
  const auto missing = [&](double a) {
    double sum = 0.0;
    for (std::size_t m = 0; m < kMonthCount; ++m) {
      const double p = rain.wet_fraction[m];
      const double mean_mm = months[m].amount_mm.mean();
      const double total_mm = months[m].total_mm.mean();
      const double fast = months[m].wet_days.mean() * months[m].amount_mm.variance() +
                          chain_variance(p, rain.wet_persistence[m]) * mean_mm * mean_mm;
      const double slow = wet_response(rain, p, rain.wet_persistence[m]) / std::max(p, 0.01) + a;
      sum += months[m].total_mm.variance() - fast - kLeftInAMonth * total_mm * total_mm * slow * slow;
    }
    return sum;
  };
  double low = 0.0;
  double high = kMost;
  if (missing(low) <= 0.0) return;
  for (int round = 0; round < 40; ++round) {
    const double middle = 0.5 * (low + high);
    (missing(middle) > 0.0 ? low : high) = middle;
  }
  rain.slow_amount = low;
}

void fit_slow_rain(const Sample& sample, RainParameters& rain) {
  const auto months = month_totals(sample, rain.threshold_mm);
  for (const MonthTotals& month : months) {
    if (month.total_mm.count < 5.0) return;
  }
  fit_slow_occurrence(months, rain);
  fit_slow_amount(months, rain);
}

}  // namespace

RainParameters fit_rain(const Sample& sample, double threshold_mm, bool slow) {
  RainParameters rain;
  rain.threshold_mm = threshold_mm;
  const auto counts = count_rain(sample, rain.threshold_mm);
  RainCounts year;
  for (const RainCounts& month : counts) year.add(month);
  const double year_mm = year.wet > 0.0 ? year.total_mm / year.wet : 2.0;
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    const RainCounts& month = counts[m];
    rain.wet_fraction[m] = (month.wet + 0.1) / (month.days + 0.2);
    rain.wet_persistence[m] = std::max(0.0, shrunk(month.persistence(), month.wet, year.persistence(), 10.0));
    rain.wet_day_mm[m] =
        std::max(rain.threshold_mm + 0.2,
                 shrunk(month.wet > 0.0 ? month.total_mm / month.wet : 0.0, month.wet, year_mm, 1.0));
  }
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    const std::vector<double> amounts = scaled_amounts(sample, rain, m);
    const double least = kHalfReportingStepMm / (rain.wet_day_mm[m] - rain.threshold_mm);
    const MixedExponential mixed =
        amounts.size() > 20 ? fit_mixed_exponential(amounts, least) : MixedExponential{0.6, 0.4};
    rain.light_share[m] = mixed.light_share;
    rain.light_ratio[m] = mixed.light_ratio;
  }
  if (slow) fit_slow_rain(sample, rain);
  return rain;
}

}  // namespace sowtide::climate::detail
