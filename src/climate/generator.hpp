// A daily weather generator of Richardson's type: weather that never was, but could have been here.
//
// Rain: a day is wet (at least `threshold_mm`) or dry by a first-order two-state chain; the amount above the
// threshold on a wet day is one of two exponentials, mostly a light and sometimes a heavy one (mixed
// exponential: D. A. Woolhiser and J. Roldán 1982, Water Resour. Res. 18:1461).
//
// Temperature and radiation (C. W. Richardson 1981, Water Resour. Res. 17:182; C. W. Richardson and D. A.
// Wright 1984, WGEN, USDA-ARS ARS-8): with x = (tmax, tmin, clearness) as normal scores,
//     x(t) = A x(t-1) + B ε,    A = M1 M0^-1,    B B' = M0 - M1 M0^-1 M1'
// where M0 and M1 are the correlations on the same day and one day apart, ε independent standard normals; a
// value is mean + standard deviation x shape(x), mean and standard deviation by day of the year and by wet or
// dry. Clearness is daily radiation over clear-sky radiation (FAO-56 eq. 37).
//
// Three things are added to the published scheme, since it makes too even months and wrong frost tails
// (measured before and after in docs/models/weather-generator.md):
//   shape   residuals are not normal: shape() carries normal scores to the record's own quantiles by season;
//           it has mean 0 and variance 1
//   slow    spells of weeks and of years: x = sqrt(1 - s - y) fast + sqrt(s) slow + sqrt(y) year, where slow
//           and year are AR(1) with e-folding times of `slow_days` and `year_days`; s makes the spread of
//           monthly means come out, y that of annual means; M0 and M1 of x stay
//   slow rain  with another slow AR(1) g of 15 days, a day is wet when z < c sqrt(1 + b²) + b g (z a standard
//           normal, c the normal quantile of the chain's probability), and amounts above the threshold are
//           multiplied by exp(a g - a²/2); a and b make the spread of monthly totals and of wet days in the
//           month come out
// All parameters are monthly and laid through the year by smooth_curve, so there are no steps between months.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <string>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "climate/record.hpp"
#include "climate/seasonal_curve.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Order of the three variables in matrices: tmax, tmin, clearness.
inline constexpr std::size_t kResidualCount = 3;
using CorrelationMatrix = std::array<std::array<double, kResidualCount>, kResidualCount>;

/// Richardson's correlations on the same day and with the day before (row today, column yesterday): 1981,
/// mean of 31 stations of the United States. From memory, but they give back the A and B that an open crop
/// model carries to ±0.002.
inline constexpr CorrelationMatrix kRichardsonLag0 = {
    {{1.000, 0.633, 0.186}, {0.633, 1.000, -0.193}, {0.186, -0.193, 1.000}}};
inline constexpr CorrelationMatrix kRichardsonLag1 = {
    {{0.621, 0.445, 0.087}, {0.563, 0.674, -0.100}, {0.015, -0.091, 0.251}}};

/// Rain by month.
struct RainParameters {
  double threshold_mm = 0.25;       ///< a day with at least this is wet
  MonthlyValues wet_fraction{};     ///< share of days that are wet, 0..1
  MonthlyValues wet_persistence{};  ///< P(wet | wet) - P(wet | dry): lag-1 correlation of wetness
  MonthlyValues wet_day_mm{};       ///< mean amount of a wet day, above threshold_mm
  MonthlyValues light_share{};      ///< share of wet days from the lighter exponential, 0..1
  MonthlyValues light_ratio{};      ///< its mean over the mean of both (amounts above the threshold), 0..1
  double slow_days = 15.0;          ///< e-folding time of the slow rain
  double slow_occurrence = 0.0;     ///< b: weight of the slow normal against the day's own in wet or dry
  double slow_amount = 0.0;         ///< a: sd of the logarithm of the slow factor on amounts
};

/// Normal scores at which the shape of residuals is given; between them straight lines, outside the last
/// slope.
inline constexpr std::array<double, 13> kShapeScores = {-3.0, -2.5, -2.0, -1.5, -1.0, -0.5, 0.0,
                                                        0.5,  1.0,  1.5,  2.0,  2.5,  3.0};
using ResidualShape = std::array<double, kShapeScores.size()>;

/// One of tmax (°C), tmin (°C) or clearness (1) by month.
struct VariableParameters {
  MonthlyValues mean{};
  MonthlyValues wet_minus_dry{};
  MonthlyValues dry_sd{};
  MonthlyValues wet_sd{};
  MonthlyValues slow_share{};                      ///< s: share of the variance that lasts weeks, 0..1
  double year_share = 0.0;                         ///< y: share that lasts a year and more, 0..1
  std::array<ResidualShape, kMonthCount> shape{};  ///< standardised residual at kShapeScores
};

/// Everything the generator knows of a climate. Plain values, so that they can be shown and tested.
struct GeneratorParameters {
  Site site;
  RainParameters rain;
  std::array<VariableParameters, kResidualCount> variable;  ///< tmax, tmin, clearness
  std::array<CorrelationMatrix, kMonthCount> lag0{};
  std::array<CorrelationMatrix, kMonthCount> lag1{};
  double slow_days = 45.0;
  double year_days = 365.0;
  double slow_correlation = 0.8;  ///< between the slow parts of tmax and tmin, and between their year parts
  bool has_clearness = false;     ///< false: radiation is computed from the temperature range (FAO-56 eq. 50)
  std::string source;             ///< for people
};

/// How much of the scheme to use; everything by default. The switches are there to show what each part does.
struct FitOptions {
  bool shape = true;
  bool slow = true;
  double wet_threshold_mm =
      0.25;  ///< a day with at least this is wet; about the US reporting step of 0.01 in
};

/// Parameters from a record: needs 3 years' worth (1095) of days with tmin, tmax and rain, and 60 of them in
/// every calendar month; insufficient_data otherwise. Only observed and filled days before `until` are used.
[[nodiscard]] base::Result<GeneratorParameters> fit_generator(const WeatherRecord& record,
                                                              base::Date until = base::Date::max(),
                                                              const FitOptions& options = {});

/// Parameters from twelve monthly normals alone. Means are kept; what normals do not hold comes from
/// published rules and from the pooled records named in docs/models/weather-generator.md.
[[nodiscard]] GeneratorParameters generator_from_normals(const PlaceNormals& place);

/// Where a run writes; all spans have the same length, one entry a day.
struct GeneratedWeather {
  std::span<double> tmin_c;
  std::span<double> tmax_c;
  std::span<double> rain_mm;
  std::span<double> radiation_mj_m2;
};

/// Draws weather. Making one takes about 0.2 ms; drawing a year about 0.1 ms.
class WeatherGenerator {
 public:
  explicit WeatherGenerator(const GeneratorParameters& parameters);
  ~WeatherGenerator();
  WeatherGenerator(WeatherGenerator&&) noexcept;
  WeatherGenerator& operator=(WeatherGenerator&&) noexcept;

  /// Fills `weather` from `first` on. Member and seed choose the streams: the same pair gives the same
  /// weather.
  void generate(std::uint64_t seed, std::uint64_t member, base::Date first,
                const GeneratedWeather& weather) const;

  /// The mean course that the generator varies about.
  [[nodiscard]] const DailyCurve& mean_tmax_c() const;
  [[nodiscard]] const DailyCurve& mean_tmin_c() const;

 private:
  struct Curves;
  std::unique_ptr<const Curves> curves_;
};

}  // namespace sowtide::climate
