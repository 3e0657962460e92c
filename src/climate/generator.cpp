#include "climate/generator.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <span>

#include "base/quantile.hpp"
#include "base/random.hpp"
#include "climate/detail/residual_curves.hpp"
#include "climate/detail/small_matrix.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate {
namespace {

using detail::kClearness;
using detail::kTmax;
using detail::kTmin;
using detail::shaped;
using detail::variable_curves;
using detail::VariableCurves;

/// A day's maximum is at least this far above its minimum.
constexpr double kLeastTemperatureRangeK = 0.4;
/// Daily radiation never falls below this share of the clear sky's, nor above it by more than 5 %.
constexpr double kLeastClearness = 0.05;
constexpr double kMostClearness = 1.05;
/// Days run before the first one, so that the start carries the climate's own correlations.
constexpr int kWarmUpDays = 20;

/// Variances of the residuals, of 1 in all, below this are taken as none.
constexpr double kLeastPivot = 1e-3;
/// Correlations between variables that no series can have are loosened in steps of one in fifty.
constexpr int kLooseningSteps = 50;

struct AutoregressiveMatrices {
  detail::Matrix<3, 3> a{};
  detail::Matrix<3, 3> b{};
};

/// A part of the residuals that outlasts the day: its share of each variable's variance and its correlation with
/// the day before.
struct LastingPart {
  std::array<double, kResidualCount> share{};
  double memory = 0.0;
};

/// Correlations of the fast part, given those of the whole and the lasting parts:
/// x = sqrt(1 - s - y) fast + sqrt(s) slow + sqrt(y) year.
detail::Matrix<3, 3> fast_correlation(const CorrelationMatrix& whole, std::span<const LastingPart> lasting,
                                      double between_variables, bool same_day) {
  detail::Matrix<3, 3> fast{};
  std::array<double, kResidualCount> rest{};
  rest.fill(1.0);
  for (const LastingPart& part : lasting) {
    for (std::size_t i = 0; i < kResidualCount; ++i) rest[i] -= part.share[i];
  }
  for (std::size_t i = 0; i < kResidualCount; ++i) {
    for (std::size_t j = 0; j < kResidualCount; ++j) {
      double left = whole[i][j];
      for (const LastingPart& part : lasting) {
        left -= std::sqrt(part.share[i] * part.share[j]) * (i == j ? 1.0 : between_variables) *
                (same_day ? 1.0 : part.memory);
      }
      fast[i][j] = left / std::sqrt(rest[i] * rest[j]);
      if (same_day && i != j) fast[i][j] = std::clamp(fast[i][j], -0.97, 0.97);
    }
  }
  return fast;
}

/// Correlations between different variables times `share`, those of a variable with itself as they are.
detail::Matrix<3, 3> loosened(detail::Matrix<3, 3> correlation, double share) {
  for (std::size_t i = 0; i < kResidualCount; ++i) {
    for (std::size_t j = 0; j < kResidualCount; ++j) {
      if (i != j) correlation[i][j] *= share;
    }
  }
  return correlation;
}

struct AutoregressiveFit {
  detail::Matrix<3, 3> a{};
  detail::Matrix<3, 3> innovation{};
};

AutoregressiveFit autoregressive_fit(const detail::Matrix<3, 3>& m0, const detail::Matrix<3, 3>& m1) {
  AutoregressiveFit fit;
  // A = M1 M0^-1, so A' solves M0 A' = M1'.
  fit.a = detail::transposed(detail::solve(m0, detail::transposed(m1)));
  fit.innovation = m0;
  const auto explained = detail::product(fit.a, detail::transposed(m1));
  for (std::size_t i = 0; i < kResidualCount; ++i) {
    for (std::size_t j = 0; j < kResidualCount; ++j) fit.innovation[i][j] -= explained[i][j];
  }
  return fit;
}

/// The matrices A and B of C. W. Richardson 1981. Correlations estimated apart from each other may be ones that no
/// series can have; the residuals then grow without end. M0 = A M0 A' + B B' with both M0 and B B' positive
/// definite holds A stable (Lyapunov), so the correlations between variables are loosened until both are.
AutoregressiveMatrices autoregressive(const GeneratorParameters& parameters, std::size_t month) {
  std::array<LastingPart, 2> lasting{};
  lasting[0].memory = std::exp(-1.0 / parameters.slow_days);
  lasting[1].memory = std::exp(-1.0 / parameters.year_days);
  for (std::size_t i = 0; i < kResidualCount; ++i) {
    lasting[0].share[i] = parameters.variable[i].slow_share[month];
    lasting[1].share[i] = parameters.variable[i].year_share;
  }
  const auto m0 = fast_correlation(parameters.lag0[month], lasting, parameters.slow_correlation, true);
  const auto m1 = fast_correlation(parameters.lag1[month], lasting, parameters.slow_correlation, false);
  for (int step = kLooseningSteps; step > 0; --step) {
    const double kept = static_cast<double>(step) / kLooseningSteps;
    const auto same_day = loosened(m0, kept);
    const AutoregressiveFit fit = autoregressive_fit(same_day, loosened(m1, kept));
    if (detail::is_positive_definite(same_day, kLeastPivot) &&
        detail::is_positive_definite(fit.innovation, kLeastPivot)) {
      return {fit.a, detail::cholesky(fit.innovation)};
    }
  }
  const AutoregressiveFit apart = autoregressive_fit(loosened(m0, 0.0), loosened(m1, 0.0));
  return {apart.a, detail::cholesky(apart.innovation)};
}

}  // namespace

struct WeatherGenerator::Curves {
  GeneratorParameters parameters;
  DailyCurve wet_fraction{};
  DailyCurve limit_after_dry{};  ///< normal quantile of P(wet | dry)
  DailyCurve limit_after_wet{};
  DailyCurve light_share{};
  DailyCurve light_mean_mm{};
  DailyCurve heavy_mean_mm{};
  DailyCurve mean_tmax_c{};
  DailyCurve mean_tmin_c{};
  std::array<VariableCurves, kResidualCount> variable;
  std::array<AutoregressiveMatrices, kMonthCount> autoregressive;

  void set_rain();
  void allow_for_least_range();
};

namespace {

/// Mean of max(0, g - D) for normal D.
double mean_shortfall(double least, double mean, double sd) {
  if (sd <= 0.0) return std::max(0.0, least - mean);
  const double z = (least - mean) / sd;
  const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
  return (least - mean) * 0.5 * std::erfc(-z / std::numbers::sqrt2) + sd * density;
}

}  // namespace

/// Days drawn with the maximum below the minimum are drawn apart about their middle, which on average lifts
/// tmax and lowers tmin. The means are moved beforehand by as much the other way, so that the climate's means
/// come out.
void WeatherGenerator::Curves::allow_for_least_range() {
  constexpr int kRounds = 4;
  VariableCurves& tmax = variable[kTmax];
  VariableCurves& tmin = variable[kTmin];
  const auto correct = [&](DailyCurve VariableCurves::*mean, DailyCurve VariableCurves::*sd,
                           std::size_t day) {
    const double correlation = parameters.lag0[month_of_curve_day(day)][kTmax][kTmin];
    const double a = (tmax.*sd)[day];
    const double b = (tmin.*sd)[day];
    const double spread = std::sqrt(std::max(0.0, a * a + b * b - 2.0 * correlation * a * b));
    const double range = (tmax.*mean)[day] - (tmin.*mean)[day];
    double shift = 0.0;
    for (int round = 0; round < kRounds; ++round) {
      shift = 0.5 * mean_shortfall(kLeastTemperatureRangeK, range - 2.0 * shift, spread);
    }
    (tmax.*mean)[day] -= shift;
    (tmin.*mean)[day] += shift;
  };
  for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
    correct(&VariableCurves::dry_mean, &VariableCurves::dry_sd, day);
    correct(&VariableCurves::wet_mean, &VariableCurves::wet_sd, day);
  }
}

namespace {

double normal_limit(double probability) {
  constexpr double kLeast = 1e-9;
  return base::normal_quantile(std::clamp(probability, kLeast, 1.0 - kLeast));
}

/// Mean of exp(a g - a²/2) over wet days, about exp(a m), m the mean of g on them (detail::wet_response over
/// p).
double wet_lift(const RainParameters& rain, double wet_fraction, double persistence) {
  const double p = std::max(wet_fraction, 1e-3);
  return std::exp(rain.slow_amount * detail::wet_response(rain, p, persistence) / p);
}

}  // namespace

void WeatherGenerator::Curves::set_rain() {
  const RainParameters& rain = parameters.rain;
  wet_fraction = smooth_curve_within(rain.wet_fraction, 0.0, 0.98);
  const DailyCurve persistence = smooth_curve_within(rain.wet_persistence, 0.0, 0.95);
  const DailyCurve wet_day_mm = smooth_curve_within(rain.wet_day_mm, rain.threshold_mm + 0.01);
  light_share = smooth_curve_within(rain.light_share, 0.0, 1.0);
  const DailyCurve light_ratio = smooth_curve_within(rain.light_ratio, 0.01, 1.0);
  for (std::size_t day = 0; day < kClimatologicalDayCount; ++day) {
    const double before = wet_fraction[(day + kClimatologicalDayCount - 1) % kClimatologicalDayCount];
    // P(wet) today = P(wet|dry) + persistence x P(wet) yesterday must be the day's wet fraction.
    const double after_dry = std::clamp(wet_fraction[day] - persistence[day] * before, 0.0, 1.0);
    const double after_wet =
        before > 0.0 ? (wet_fraction[day] - after_dry * (1.0 - before)) / before : after_dry;
    limit_after_dry[day] = normal_limit(after_dry);
    limit_after_wet[day] = normal_limit(after_wet);
    // Wet spells are the heavy ones when both follow the slow normal: amounts are lowered by as much as that
    // lifts them.
    const double excess_mm =
        (wet_day_mm[day] - rain.threshold_mm) / wet_lift(rain, wet_fraction[day], persistence[day]);
    light_mean_mm[day] = excess_mm * light_ratio[day];
    const double heavy_share = 1.0 - light_share[day];
    heavy_mean_mm[day] =
        heavy_share < 1e-6 ? excess_mm : (excess_mm - light_share[day] * light_mean_mm[day]) / heavy_share;
  }
}

WeatherGenerator::WeatherGenerator(const GeneratorParameters& parameters) {
  auto curves = std::make_unique<Curves>();
  curves->parameters = parameters;
  curves->set_rain();
  for (std::size_t i = 0; i < kResidualCount; ++i) {
    curves->variable[i] = variable_curves(parameters.variable[i], curves->wet_fraction);
  }
  curves->allow_for_least_range();
  for (std::size_t month = 0; month < kMonthCount; ++month) {
    curves->autoregressive[month] = autoregressive(parameters, month);
  }
  curves->mean_tmax_c = smooth_curve(parameters.variable[kTmax].mean);
  curves->mean_tmin_c = smooth_curve(parameters.variable[kTmin].mean);
  curves_ = std::move(curves);
}

WeatherGenerator::~WeatherGenerator() = default;
WeatherGenerator::WeatherGenerator(WeatherGenerator&&) noexcept = default;
WeatherGenerator& WeatherGenerator::operator=(WeatherGenerator&&) noexcept = default;

const DailyCurve& WeatherGenerator::mean_tmax_c() const {
  return curves_->mean_tmax_c;
}
const DailyCurve& WeatherGenerator::mean_tmin_c() const {
  return curves_->mean_tmin_c;
}

namespace {

/// The chain and the amounts of one run. Draws from its own stream, so rain and temperature do not disturb
/// each other's random numbers.
class RainState {
 public:
  RainState(std::uint64_t seed, std::uint64_t member, const RainParameters& rain)
      : stream_(seed, "climate.generator.rain", member),
        rain_(rain),
        memory_(std::exp(-1.0 / rain.slow_days)),
        innovation_(std::sqrt(1.0 - memory_ * memory_)),
        own_weight_(std::sqrt(1.0 + rain.slow_occurrence * rain.slow_occurrence)),
        slow_(stream_.normal()) {}

  void begin(double wet_fraction) { wet_ = stream_.chance(wet_fraction); }

  /// Goes on by one day; returns its rain, 0 when dry. Limits are normal quantiles of the chain's
  /// probabilities.
  double step(double limit_after_dry, double limit_after_wet, double light_share, double light_mm,
              double heavy_mm) {
    slow_ = memory_ * slow_ + innovation_ * stream_.normal();
    const double limit = wet_ ? limit_after_wet : limit_after_dry;
    wet_ = stream_.normal() < limit * own_weight_ + rain_.slow_occurrence * slow_;
    if (!wet_) return 0.0;
    const double mean_mm = stream_.chance(light_share) ? light_mm : heavy_mm;
    const double factor = std::exp(rain_.slow_amount * (slow_ - 0.5 * rain_.slow_amount));
    return rain_.threshold_mm + mean_mm * factor * stream_.exponential();
  }

  [[nodiscard]] bool wet() const { return wet_; }

 private:
  base::RandomStream stream_;
  const RainParameters& rain_;
  double memory_;
  double innovation_;
  double own_weight_;
  double slow_;
  bool wet_ = false;
};

/// A lasting part of tmax and tmin: two correlated AR(1) series of variance 1. Clearness has none.
class LastingState {
 public:
  LastingState(double e_folding_days, double correlation, base::RandomStream& stream)
      : memory_(std::exp(-1.0 / e_folding_days)),
        innovation_(std::sqrt(1.0 - memory_ * memory_)),
        correlation_(correlation),
        independent_(std::sqrt(1.0 - correlation * correlation)) {
    for (double& series : series_) series = stream.normal();
  }

  void step(base::RandomStream& stream) {
    for (double& series : series_) series = memory_ * series + innovation_ * stream.normal();
  }

  [[nodiscard]] double of(std::size_t variable) const {
    if (variable == kTmax) return series_[0];
    return variable == kTmin ? correlation_ * series_[0] + independent_ * series_[1] : 0.0;
  }

 private:
  double memory_;
  double innovation_;
  double correlation_;
  double independent_;
  std::array<double, 2> series_{};
};

/// Normal scores of the three variables, fast and lasting parts. The year part draws from a stream of its own.
class ResidualState {
 public:
  ResidualState(std::uint64_t seed, std::uint64_t member, const GeneratorParameters& p)
      : stream_(seed, "climate.generator.residual", member),
        year_stream_(seed, "climate.generator.year", member),
        slow_(p.slow_days, p.slow_correlation, stream_),
        year_(p.year_days, p.slow_correlation, year_stream_) {}

  void step(const AutoregressiveMatrices& m) {
    const std::array<double, 3> noise = {stream_.normal(), stream_.normal(), stream_.normal()};
    std::array<double, 3> next{};
    for (std::size_t i = 0; i < kResidualCount; ++i) {
      for (std::size_t j = 0; j < kResidualCount; ++j) next[i] += m.a[i][j] * fast_[j];
      for (std::size_t j = 0; j <= i; ++j) next[i] += m.b[i][j] * noise[j];
    }
    fast_ = next;
    slow_.step(stream_);
    year_.step(year_stream_);
  }

  /// Normal score of a variable on a day of the year.
  [[nodiscard]] double score(const VariableCurves& curves, std::size_t variable, std::size_t day) const {
    return curves.fast_weight[day] * fast_[variable] + curves.slow_weight[day] * slow_.of(variable) +
           curves.year_weight * year_.of(variable);
  }

 private:
  base::RandomStream stream_;
  base::RandomStream year_stream_;
  LastingState slow_;
  LastingState year_;
  std::array<double, 3> fast_{};
};

double drawn(const VariableCurves& curves, std::size_t day, bool wet, double score) {
  const double residual = shaped(curves.shape[day], score);
  return wet ? curves.wet_mean[day] + curves.wet_sd[day] * residual
             : curves.dry_mean[day] + curves.dry_sd[day] * residual;
}

}  // namespace

void WeatherGenerator::generate(std::uint64_t seed, std::uint64_t member, base::Date first,
                                const GeneratedWeather& weather) const {
  const Curves& c = *curves_;
  const GeneratorParameters& p = c.parameters;
  const std::size_t day_count = weather.tmin_c.size();
  assert(weather.tmax_c.size() == day_count && weather.rain_mm.size() == day_count &&
         weather.radiation_mj_m2.size() == day_count);
  RainState rain(seed, member, p.rain);
  ResidualState residual(seed, member, p);
  base::Date date = first - base::Days{kWarmUpDays};
  rain.begin(c.wet_fraction[static_cast<std::size_t>(base::climatological_day(date) - 1)]);
  for (int step = -kWarmUpDays; step < static_cast<int>(day_count); ++step, date += base::Days{1}) {
    const auto day = static_cast<std::size_t>(base::climatological_day(date) - 1);
    const double rain_mm = rain.step(c.limit_after_dry[day], c.limit_after_wet[day], c.light_share[day],
                                     c.light_mean_mm[day], c.heavy_mean_mm[day]);
    residual.step(c.autoregressive[month_of_curve_day(day)]);
    if (step < 0) continue;
    const auto out = static_cast<std::size_t>(step);
    const auto value = [&](std::size_t variable) {
      return drawn(c.variable[variable], day, rain.wet(), residual.score(c.variable[variable], variable, day));
    };
    double tmax = value(kTmax);
    double tmin = value(kTmin);
    if (tmax - tmin < kLeastTemperatureRangeK) {
      const double middle = 0.5 * (tmax + tmin);
      tmax = middle + 0.5 * kLeastTemperatureRangeK;
      tmin = middle - 0.5 * kLeastTemperatureRangeK;
    }
    weather.tmax_c[out] = tmax;
    weather.tmin_c[out] = tmin;
    weather.rain_mm[out] = rain_mm;
    if (p.has_clearness) {
      weather.radiation_mj_m2[out] =
          std::clamp(value(kClearness), kLeastClearness, kMostClearness);
    }
  }
  // Radiation last, one call a day of the year: the clear sky belongs to the date, not to the draw.
  date = first;
  for (std::size_t out = 0; out < day_count; ++out, date += base::Days{1}) {
    const int day_of_year = base::day_of_year(date);
    if (p.has_clearness) {
      weather.radiation_mj_m2[out] *= clear_sky_radiation(p.site, day_of_year).value();
    } else {
      weather.radiation_mj_m2[out] =
          radiation_from_temperature_range(base::Celsius::of(weather.tmin_c[out]),
                                           base::Celsius::of(weather.tmax_c[out]), p.site, day_of_year)
              .value();
    }
  }
}

}  // namespace sowtide::climate
