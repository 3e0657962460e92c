#include "climate/generator.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <iterator>
#include <map>
#include <string>

#include "base/random.hpp"
#include "climate/sun.hpp"
#include "climate/support/stored_record.hpp"
#include "climate/support/year_statistics.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;
using test::Year;

std::vector<Year> run(const GeneratorParameters& parameters, std::size_t count) {
  const WeatherGenerator generator(parameters);
  std::vector<Year> years(count);
  for (std::size_t i = 0; i < count; ++i) {
    for (auto* values : {&years[i].tmin_c, &years[i].tmax_c, &years[i].rain_mm, &years[i].radiation_mj_m2})
      values->resize(kClimatologicalDayCount);
    generator.generate(1, i, date_of(2025, 1, 1),
                       {years[i].tmin_c, years[i].tmax_c, years[i].rain_mm, years[i].radiation_mj_m2});
  }
  return years;
}

MonthlyValues all_months(double value) {
  MonthlyValues monthly{};
  monthly.fill(value);
  return monthly;
}

/// Variables far apart, of standard deviation 1 (clearness 0.05), in a world without seasons.
GeneratorParameters seasonless() {
  GeneratorParameters p;
  p.site = {"Nowhere", 0.0, 0.0, 0.0};
  p.rain.wet_fraction = all_months(0.3);
  p.rain.wet_persistence = all_months(0.25);
  p.rain.wet_day_mm = all_months(8.0);
  p.rain.light_share = all_months(0.5);
  p.rain.light_ratio = all_months(0.3);
  const std::array<double, 3> mean = {100.0, 0.0, 0.5};
  const std::array<double, 3> sd = {1.0, 1.0, 0.05};
  for (std::size_t v = 0; v < kResidualCount; ++v) {
    p.variable[v].mean = all_months(mean[v]);
    p.variable[v].dry_sd = p.variable[v].wet_sd = all_months(sd[v]);
    p.variable[v].shape.fill(kShapeScores);
  }
  p.lag0.fill(kRichardsonLag0);
  p.lag1.fill(kRichardsonLag1);
  p.has_clearness = true;
  return p;
}

struct LongRun {
  std::array<std::vector<double>, 3> value;  ///< tmax, tmin, clearness
  std::vector<double> rain_mm;
};

LongRun long_run(const GeneratorParameters& parameters, std::size_t days) {
  LongRun result;
  std::vector<double> radiation(days);
  for (auto& values : result.value) values.resize(days);
  result.rain_mm.resize(days);
  const base::Date first = date_of(2001, 1, 1);
  WeatherGenerator(parameters)
      .generate(9, 0, first, {result.value[1], result.value[0], result.rain_mm, radiation});
  for (std::size_t i = 0; i < days; ++i) {
    const int day_of_year = base::day_of_year(first + base::Days{static_cast<int>(i)});
    result.value[2][i] = radiation[i] / clear_sky_radiation(parameters.site, day_of_year).value();
  }
  return result;
}

double correlation(const std::vector<double>& x, const std::vector<double>& y, std::size_t lag) {
  const double mx = base::mean(x), my = base::mean(y);
  double xy = 0.0, xx = 0.0, yy = 0.0;
  for (std::size_t i = lag; i < x.size(); ++i) {
    xy += (x[i] - mx) * (y[i - lag] - my);
    xx += (x[i] - mx) * (x[i] - mx);
    yy += (y[i - lag] - my) * (y[i - lag] - my);
  }
  return xy / std::sqrt(xx * yy);
}

// C. W. Richardson 1981, Water Resour. Res. 17:182: a run of 100 000 days must have the correlations it was
// given.
TEST(Generator, HasRichardsonsCorrelations) {
  const LongRun weather = long_run(seasonless(), 100'000);
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      EXPECT_NEAR(correlation(weather.value[i], weather.value[j], 0), kRichardsonLag0[i][j], 0.02) << i << j;
      EXPECT_NEAR(correlation(weather.value[i], weather.value[j], 1), kRichardsonLag1[i][j], 0.02) << i << j;
    }
  }
}

TEST(Generator, SlowPartsKeepTheCorrelationsOfOneDay) {
  GeneratorParameters p = seasonless();
  p.variable[0].slow_share = p.variable[1].slow_share = all_months(0.15);
  p.variable[0].year_share = p.variable[1].year_share = 0.03;
  const LongRun weather = long_run(p, 200'000);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(correlation(weather.value[i], weather.value[i], 1), kRichardsonLag1[i][i], 0.02);
    EXPECT_GT(correlation(weather.value[i], weather.value[i], 20), 0.06);
  }
  EXPECT_NEAR(correlation(weather.value[0], weather.value[1], 0), kRichardsonLag0[0][1], 0.02);
}

// Published wetness of Tifton, Georgia, 1996-2020 (open crop-model climate file): P(wet|dry) and wet days;
// the spread of the number of wet days in a month of a two-state chain is sqrt(n p (1-p) (1+r)/(1-r)), r =
// P(wet|wet) - P(wet|dry).
TEST(Generator, ChainGivesTiftonsWetDaysAndTheirSpread) {
  struct Month {
    double after_dry, days, sd;
  };
  for (const Month month :
       {Month{.260, 9.7, 3.06}, Month{.215, 8.0, 2.95}, Month{.317, 12.8, 3.47}, Month{.130, 6.5, 3.38}}) {
    GeneratorParameters p = seasonless();
    const double wet = month.days / 30.5;
    const double after_wet = 1.0 - month.after_dry * (1.0 - wet) / wet;
    p.rain.wet_fraction = all_months(wet);
    p.rain.wet_persistence = all_months(after_wet - month.after_dry);
    const auto rain = test::rain_by_month(run(p, 400), p.rain.threshold_mm);
    double days = 0.0;
    double variance = 0.0;
    for (const auto& m : rain) {
      days += m.wet_days / 12.0;
      variance += m.sd_wet_days * m.sd_wet_days / 12.0;
    }
    EXPECT_NEAR(days, wet * 365.0 / 12.0, 0.15);
    EXPECT_NEAR(std::sqrt(variance), month.sd, 0.05 * month.sd);
  }
}

TEST(Generator, AmountsKeepTheirMeanWithAndWithoutSlowRain) {
  for (const double slow : {0.0, 0.35}) {
    GeneratorParameters p = seasonless();
    p.rain.slow_occurrence = slow;
    p.rain.slow_amount = slow;
    const LongRun weather = long_run(p, 400'000);
    const auto wet = static_cast<double>(
        std::count_if(weather.rain_mm.begin(), weather.rain_mm.end(), [](double x) { return x > 0.0; }));
    // Slow rain leaves about 13 000 independent months: four standard errors of the share of wet days are
    // 0.006.
    EXPECT_NEAR(wet / 400'000.0, 0.3, 0.006) << slow;
    EXPECT_NEAR(base::mean(weather.rain_mm), 0.3 * 8.0, 0.03 * 0.3 * 8.0) << slow;
    const auto least =
        std::min_element(weather.rain_mm.begin(), weather.rain_mm.end(),
                         [](double a, double b) { return (a > 0.0 ? a : 1e9) < (b > 0.0 ? b : 1e9); });
    EXPECT_GE(*least, p.rain.threshold_mm);
  }
}

TEST(Generator, NeverPutsTheMinimumAboveTheMaximum) {
  GeneratorParameters p = seasonless();
  p.variable[0].mean = all_months(3.0);
  p.variable[0].dry_sd = p.variable[1].dry_sd = all_months(4.0);
  const LongRun weather = long_run(p, 50'000);
  for (std::size_t i = 0; i < weather.rain_mm.size(); ++i)
    ASSERT_GT(weather.value[0][i], weather.value[1][i]);
  // Drawing pairs apart must not move the climate's means.
  EXPECT_NEAR(base::mean(weather.value[0]), 3.0, 0.12);
  EXPECT_NEAR(base::mean(weather.value[1]), 0.0, 0.12);
}

// Correlations fitted apart from each other need not be those of any series; the weather must not run away. A
// residual has a standard deviation of 1 here, and nine of them are not met in a century.
TEST(Generator, StaysWithinBoundsWhateverTheCorrelations) {
  for (const double same_day : {-0.9, 0.0, 0.7, 0.9, 0.95, 0.99}) {
    for (const double next_day : {0.1, 0.5, 0.8, 0.95}) {
      GeneratorParameters p = seasonless();
      for (std::size_t month = 0; month < 12; ++month) {
        p.lag0[month][0][1] = p.lag0[month][1][0] = same_day;
        p.lag1[month][0][0] = p.lag1[month][1][1] = next_day;
        p.lag1[month][0][1] = 0.9 * next_day;
        p.lag1[month][1][0] = 0.4 * next_day;
      }
      const LongRun weather = long_run(p, 36'500);
      for (std::size_t variable : {std::size_t{0}, std::size_t{1}}) {
        const double mean = base::mean(weather.value[variable]);
        for (const double value : weather.value[variable])
          ASSERT_LT(std::abs(value - mean), 9.0) << same_day << " " << next_day;
      }
    }
  }
}

TEST(Generator, IsTheSameForTheSameSeedAndDiffersForAnother) {
  const WeatherGenerator generator(seasonless());
  const auto draw = [&](std::uint64_t seed, std::uint64_t member) {
    std::vector<double> a(40), b(40), r(40), q(40);
    generator.generate(seed, member, date_of(2028, 2, 10), {a, b, r, q});
    return b;
  };
  EXPECT_EQ(draw(1, 4), draw(1, 4));
  EXPECT_NE(draw(1, 4), draw(1, 5));
  EXPECT_NE(draw(1, 4), draw(2, 4));
}

TEST(Generator, NeedsThreeYearsAndEveryMonth) {
  WeatherRecord record = test::milwaukee();
  record.resize(date_of(2015, 1, 1), date_of(2017, 11, 30));
  const auto fitted = fit_generator(record);
  ASSERT_FALSE(fitted);
  EXPECT_EQ(fitted.error().code, base::ProblemCode::insufficient_data);
}

TEST(Generator, FitIgnoresForecastsAndWhatComesAfterTheDateGiven) {
  WeatherRecord record = test::milwaukee();
  record.resize(date_of(1991, 1, 1), date_of(2000, 12, 31));
  const GeneratorParameters clean = fit_generator(record).value();
  WeatherRecord more = record;
  more.resize(date_of(1991, 1, 1), date_of(2001, 6, 30));
  for (base::Date date = date_of(2001, 1, 1); date <= more.last(); date += base::Days{1}) {
    const ValueOrigin origin = base::month_of(date) < 3 ? ValueOrigin::forecast : ValueOrigin::observed;
    for (const Variable variable : {Variable::tmin, Variable::tmax, Variable::rain})
      more.set(variable, date, 30.0, origin);
  }
  const GeneratorParameters fitted = fit_generator(more, date_of(2001, 3, 1)).value();
  EXPECT_EQ(fitted.variable[1].mean, clean.variable[1].mean);
  EXPECT_EQ(fitted.rain.wet_fraction, clean.rain.wet_fraction);
}

// --- Against real records
// -------------------------------------------------------------------------------------------

struct Station {
  const char* name;
  std::function<WeatherRecord()> record;
  int from;
  int to;
};

void PrintTo(const Station& station, std::ostream* out) {
  *out << station.name;
}

constexpr std::size_t kYears = 200;

/// A record and 200 years of the generator fitted to it; made once a station.
struct Comparison {
  std::vector<Year> observed;
  std::vector<Year> generated;
};

const Comparison& comparison(const Station& station) {
  static std::map<std::string, Comparison> made;
  const auto [at, is_new] = made.try_emplace(station.name);
  if (is_new) {
    const WeatherRecord record = station.record();
    at->second = {test::whole_years(record, station.from, station.to, 60),
                  run(fit_generator(record).value(), kYears)};
  }
  return at->second;
}

class GeneratorAgainstRecord : public testing::TestWithParam<Station> {
 protected:
  [[nodiscard]] double count() const { return static_cast<double>(observed_.size()); }

  const std::vector<Year>& observed_ = comparison(GetParam()).observed;
  const std::vector<Year>& generated_ = comparison(GetParam()).generated;
};

// Means: the generator is given the record's, so only its own 200 years err: four standard errors of a
// monthly mean.
TEST_P(GeneratorAgainstRecord, KeepsMonthlyMeansOfTemperature) {
  for (const auto values : {&Year::tmax_c, &Year::tmin_c}) {
    const auto observed = test::by_month(observed_, values);
    const auto generated = test::by_month(generated_, values);
    for (std::size_t m = 0; m < kMonthCount; ++m) {
      EXPECT_NEAR(generated[m].mean, observed[m].mean,
                  4.0 * generated[m].sd_of_means / std::sqrt(200.0) + 0.05)
          << m;
    }
  }
}

// Daily spread: about 200 x 30 / 5 independent days, a standard error of 2 %: four of them, and 2 % for the
// smoothing of the year's course.
TEST_P(GeneratorAgainstRecord, KeepsTheDailySpreadOfTemperature) {
  for (const auto values : {&Year::tmax_c, &Year::tmin_c}) {
    const auto observed = test::by_month(observed_, values);
    const auto generated = test::by_month(generated_, values);
    for (std::size_t m = 0; m < kMonthCount; ++m) {
      EXPECT_NEAR(generated[m].daily_sd / observed[m].daily_sd, 1.0, 0.10) << m;
    }
  }
}

// Year-to-year spread of monthly means: each month's observed value has a standard error of 1/sqrt(2 n) (13 %
// for 30 years); three of them, and for the mean over the months three of 1/sqrt(24 n).
TEST_P(GeneratorAgainstRecord, KeepsTheYearToYearSpreadOfMonthlyMeans) {
  for (const auto values : {&Year::tmax_c, &Year::tmin_c}) {
    const auto observed = test::by_month(observed_, values);
    const auto generated = test::by_month(generated_, values);
    double mean_log = 0.0;
    for (std::size_t m = 0; m < kMonthCount; ++m) {
      const double ratio = std::log(generated[m].sd_of_means / observed[m].sd_of_means);
      EXPECT_LT(std::abs(ratio), 3.0 * std::sqrt(1.0 / (2.0 * count()) + 1.0 / 400.0)) << m;
      mean_log += ratio / kMonthCount;
    }
    // Neighbouring months of one year go together a little: ten of twelve are taken as independent.
    EXPECT_LT(std::abs(mean_log), 3.0 * std::sqrt((1.0 / (2.0 * count()) + 1.0 / 400.0) / 10.0));
  }
}

// Annual means: the record's spread has a standard error of 1/sqrt(2 n), the run's of 1/sqrt(400); three of both.
TEST_P(GeneratorAgainstRecord, KeepsTheYearToYearSpreadOfAnnualMeans) {
  for (const auto values : {&Year::tmax_c, &Year::tmin_c}) {
    const double ratio = test::sd_of_annual_means(generated_, values) / test::sd_of_annual_means(observed_, values);
    EXPECT_LT(std::abs(std::log(ratio)), 3.0 * std::sqrt(1.0 / (2.0 * count()) + 1.0 / 400.0));
  }
}

TEST_P(GeneratorAgainstRecord, KeepsWetDaysAndRain) {
  const double threshold_mm = RainParameters{}.threshold_mm;
  const auto observed = test::rain_by_month(observed_, threshold_mm);
  const auto generated = test::rain_by_month(generated_, threshold_mm);
  double days_log = 0.0, rain_log = 0.0, months = 0.0;
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    EXPECT_NEAR(generated[m].wet_days, observed[m].wet_days,
                4.0 * generated[m].sd_wet_days / std::sqrt(200.0) + 0.2)
        << m;
    // Totals: the fit leans on the whole year in months with hardly a wet day.
    EXPECT_NEAR(generated[m].total_mm, observed[m].total_mm,
                4.0 * generated[m].sd_total_mm / std::sqrt(200.0) + 1.0)
        << m;
    if (observed[m].wet_days < 1.5) continue;
    months += 1.0;
    days_log += std::log(generated[m].sd_wet_days / observed[m].sd_wet_days);
    rain_log += std::log(generated[m].sd_total_mm / observed[m].sd_total_mm);
  }
  // Spread over the years, mean over months: three standard errors, those of rain half as large again (heavy
  // tails).
  EXPECT_LT(std::abs(days_log / months), 3.0 / std::sqrt(2.0 * months * count()) + 0.05);
  EXPECT_LT(std::abs(rain_log / months), 4.5 / std::sqrt(2.0 * months * count()) + 0.05);
}

double long_spell(std::vector<double> lengths) {
  std::sort(lengths.begin(), lengths.end());
  return base::quantile_of_sorted(lengths, 0.95);
}

/// Standard error of the 95th percentile by drawing the sample anew (B. Efron 1979, Ann. Statist. 7:1).
double error_of_long_spell(const std::vector<double>& lengths) {
  constexpr int kDraws = 200;
  base::RandomStream random(7, "tests.generator.spells");
  std::vector<double> quantiles;
  for (int draw = 0; draw < kDraws; ++draw) {
    std::vector<double> drawn;
    for (std::size_t i = 0; i < lengths.size(); ++i)
      drawn.push_back(lengths[random.below(static_cast<std::uint32_t>(lengths.size()))]);
    quantiles.push_back(long_spell(std::move(drawn)));
  }
  return base::standard_deviation(quantiles);
}

class GeneratorAgainstRadiation : public GeneratorAgainstRecord {};

// Radiation, of the records that have it: means as of temperature, and the daily spread.
TEST_P(GeneratorAgainstRadiation, KeepsItsMeansAndSpread) {
  const auto known = [](const Year& year) {
    return std::none_of(year.radiation_mj_m2.begin(), year.radiation_mj_m2.end(),
                        [](double value) { return std::isnan(value); });
  };
  std::vector<Year> measured;
  std::copy_if(observed_.begin(), observed_.end(), std::back_inserter(measured), known);
  ASSERT_GE(measured.size(), 10U);
  const auto observed = test::by_month(measured, &Year::radiation_mj_m2);
  const auto generated = test::by_month(generated_, &Year::radiation_mj_m2);
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    const double error = std::hypot(generated[m].sd_of_means / std::sqrt(200.0),
                                    observed[m].sd_of_means / std::sqrt(static_cast<double>(measured.size())));
    EXPECT_NEAR(generated[m].mean, observed[m].mean, 4.0 * error) << m;
    EXPECT_NEAR(generated[m].daily_sd / observed[m].daily_sd, 1.0, 0.10) << m;
  }
}

TEST_P(GeneratorAgainstRecord, KeepsWetAndDrySpells) {
  const double threshold_mm = RainParameters{}.threshold_mm;
  for (const bool wet : {true, false}) {
    auto observed = test::spells(observed_, threshold_mm, wet);
    auto generated = test::spells(generated_, threshold_mm, wet);
    const auto squared_error = [](const std::vector<double>& lengths) {
      const double sd = base::standard_deviation(lengths);
      return sd * sd / static_cast<double>(lengths.size());
    };
    const double error = std::sqrt(squared_error(observed) + squared_error(generated));
    EXPECT_NEAR(base::mean(generated), base::mean(observed), 4.0 * error) << wet;
    // The 95th percentile of whole days: three standard errors, and the day that it is counted in.
    const double long_error = std::hypot(error_of_long_spell(observed), error_of_long_spell(generated));
    EXPECT_NEAR(long_spell(generated), long_spell(observed), 1.0 + 3.0 * long_error) << wet;
  }
}

/// How many standard errors the generated mean date of the last (first) frost lies off, where most years have
/// one.
std::vector<double> frost_errors(const std::vector<Year>& observed, const std::vector<Year>& generated) {
  std::vector<double> errors;
  for (const double threshold_c : {-2.0, 0.0, 2.0}) {
    for (const bool last : {true, false}) {
      const auto o = test::frost(observed, threshold_c, last);
      const auto g = test::frost(generated, threshold_c, last);
      if (o.years_without > 0.3) continue;
      const double n_observed = static_cast<double>(observed.size()) * (1.0 - o.years_without);
      const double n_generated = static_cast<double>(generated.size()) * (1.0 - g.years_without);
      errors.push_back((g.mean - o.mean) / std::sqrt(o.sd * o.sd / n_observed + g.sd * g.sd / n_generated));
    }
  }
  return errors;
}

// About 45 comparisons over the stations: one of them beyond 3.3 standard errors has a chance of 4 %
// (Bonferroni). The known weakness, first frosts of mild autumns some days early, is near that limit
// (docs/models/weather-generator.md).
TEST_P(GeneratorAgainstRecord, KeepsTheDatesOfLastAndFirstFrost) {
  constexpr double kErrors = 3.3;
  for (const double error : frost_errors(observed_, generated_)) EXPECT_LT(std::abs(error), kErrors);
  for (const double threshold_c : {-2.0, 0.0}) {
    for (const bool last : {true, false}) {
      const auto o = test::frost(observed_, threshold_c, last);
      const auto g = test::frost(generated_, threshold_c, last);
      // Share of years without, of at least one year in ten.
      const double share = std::clamp(0.5 * (o.years_without + g.years_without), 0.1, 0.9);
      const double variance = share * (1.0 - share) * (1.0 / count() + 1.0 / static_cast<double>(kYears));
      // Frosts that come in fewer than three years of ten are bunched in the few severe seasons of a record
      // (Cork below -2 °C by the year's end: 6 of 30 years); the generator spreads them over half of the years.
      // Known (docs/models/weather-generator.md): held at four standard errors.
      const double errors = o.years_without > 0.7 ? 4.0 : kErrors;
      EXPECT_NEAR(g.years_without, o.years_without, errors * std::sqrt(variance)) << threshold_c << last;
      if (o.years_without > 0.3) continue;
      // Spread from year to year, of a sample with fat tails (kurtosis up to 5: variance of its logarithm
      // 1/n).
      EXPECT_LT(std::abs(std::log(g.sd / o.sd)), kErrors / std::sqrt(count())) << threshold_c << last;
    }
  }
}

const std::vector<Station>& stations() {
  static const std::vector<Station> kStations = {{"Milwaukee", test::milwaukee, 1991, 2020},
                                                 {"Cork", test::cork, 1991, 2020},
                                                 {"Maricopa", test::maricopa, 2003, 2020},
                                                 {"Hoogeveen", test::hoogeveen, 1991, 2025}};
  return kStations;
}

INSTANTIATE_TEST_SUITE_P(Stations, GeneratorAgainstRadiation,
                         testing::Values(Station{"Maricopa", test::maricopa, 2003, 2020},
                                         Station{"Hoogeveen", test::hoogeveen, 1991, 2025}),
                         [](const auto& station) { return station.param.name; });
INSTANTIATE_TEST_SUITE_P(Stations, GeneratorAgainstRecord, testing::ValuesIn(stations()),
                         [](const auto& station) { return station.param.name; });

// The four records together: about four independent samples (tmax and tmin of a year go together) of 28 years, so the
// mean logarithm of the ratios has a standard error of 1/sqrt(2 x 4 x 28) = 0.067; two of them. Without a part that
// lasts a year the generator lies at -0.18.
TEST(GeneratorYears, KeepTheSpreadOfAnnualMeansOverTheRecords) {
  double mean_log = 0.0;
  for (const Station& station : stations()) {
    const Comparison& both = comparison(station);
    for (const auto values : {&Year::tmax_c, &Year::tmin_c}) {
      mean_log += std::log(test::sd_of_annual_means(both.generated, values) /
                           test::sd_of_annual_means(both.observed, values)) /
                  8.0;
    }
  }
  EXPECT_LT(std::abs(mean_log), 2.0 * 0.067);
}

TEST(GeneratorFrost, AdditionsBringFrostDatesCloserThanThePublishedScheme) {
  double plain = 0.0, full = 0.0;
  const auto add = [](double& sum, const std::vector<double>& errors) {
    for (const double error : errors) sum += error * error;
  };
  for (const Station& station : stations()) {
    const Comparison& both = comparison(station);
    const FitOptions published{.shape = false, .slow = false};
    const auto parameters = fit_generator(station.record(), base::Date::max(), published).value();
    add(plain, frost_errors(both.observed, run(parameters, kYears)));
    add(full, frost_errors(both.observed, both.generated));
  }
  RecordProperty("sum_of_squared_errors_plain", std::to_string(plain));
  RecordProperty("sum_of_squared_errors_full", std::to_string(full));
  EXPECT_LT(full, 0.7 * plain);
}

// --- From normals alone
// -----------------------------------------------------------------------------------------------

PlaceNormals normals_of(const WeatherRecord& record, int from, int to) {
  const auto years = test::whole_years(record, from, to, 60);
  const auto tmax = test::by_month(years, &Year::tmax_c);
  const auto tmin = test::by_month(years, &Year::tmin_c);
  const auto rain = test::rain_by_month(years, 1.0);
  PlaceNormals place;
  place.site = record.site;
  place.normals.wet_days.emplace();
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    place.normals.tmax_c[m] = tmax[m].mean;
    place.normals.tmin_c[m] = tmin[m].mean;
    place.normals.precip_mm[m] = rain[m].total_mm;
    (*place.normals.wet_days)[m] = rain[m].wet_days;
  }
  return place;
}

// What normals alone can do at the stations the rules were fitted with: daily spread within 30 % in every
// month.
TEST(GeneratorFromNormals, DailySpreadIsWithinThirtyPercentOfTheRecord) {
  for (const Station& station : stations()) {
    const auto observed = test::by_month(comparison(station).observed, &Year::tmin_c);
    const PlaceNormals place = normals_of(station.record(), station.from, station.to);
    const auto generated = test::by_month(run(generator_from_normals(place), kYears), &Year::tmin_c);
    for (std::size_t m = 0; m < kMonthCount; ++m) {
      EXPECT_NEAR(generated[m].daily_sd / observed[m].daily_sd, 1.0, 0.30) << station.name << m;
    }
  }
}

}  // namespace
}  // namespace sowtide::climate
