#include "climate/ensemble.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/parallel.hpp"
#include "base/random.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;
using base::Days;

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

PlaceNormals mild_place() {
  PlaceNormals place;
  place.site = {"Mildham", 52.2, 0.1, 26.0};
  place.normals.tmax_c = {7.9, 8.5, 11.3, 14.4, 17.7, 20.7, 23.4, 23.1, 19.9, 15.2, 10.9, 8.2};
  place.normals.tmin_c = {1.9, 1.8, 3.2, 4.9, 7.7, 10.6, 12.7, 12.6, 10.3, 7.6, 4.4, 2.2};
  place.normals.precip_mm = {47.5, 36.4, 32.6, 36.1, 45.4, 50.8, 47.8, 55.3, 46.8, 58.4, 54.0, 50.9};
  return place;
}

PlaceNormals southern_place() {
  PlaceNormals place = mild_place();
  place.site = {"Southham", -37.5, 143.8, 435.0};
  for (auto* months : {&place.normals.tmax_c, &place.normals.tmin_c}) {
    std::rotate(months->begin(), months->begin() + 6, months->end());
  }
  return place;
}

/// Value that names its day: tmin = year of the century, tmax = tmin + 5 + day of year / 100.
WeatherRecord marked_record(int from_year, int to_year) {
  WeatherRecord record;
  record.site = {"Marked", 45.0, 5.0, 100.0};
  record.resize(date_of(from_year, 1, 1), date_of(to_year, 12, 31));
  for (base::Date date = record.first; date <= record.last(); date += Days{1}) {
    const double year = base::year_of(date) % 100;
    record.set(Variable::tmin, date, year, ValueOrigin::observed);
    record.set(Variable::tmax, date, year + 5.0 + base::day_of_year(date) / 100.0, ValueOrigin::observed);
    record.set(Variable::rain, date, base::day_of_month(date) == 1 ? 4.0 : 0.0, ValueOrigin::observed);
  }
  return record;
}

/// A record with a season and a wandering anomaly, the same every time.
WeatherRecord seasonal_record(int from_year, int to_year, double latitude_deg = 47.6) {
  WeatherRecord record;
  record.site = {"Seasonham", latitude_deg, -122.3, 50.0};
  record.resize(date_of(from_year, 1, 1), date_of(to_year, 12, 31));
  const double summer = latitude_deg >= 0.0 ? 200.0 : 17.0;
  base::RandomStream stream(7, "seasonal record");
  double wander = 0.0;
  for (base::Date date = record.first; date <= record.last(); date += Days{1}) {
    const double wave = std::cos(2.0 * std::numbers::pi * (base::day_of_year(date) - summer) / 365.25);
    wander = 0.65 * wander + 2.5 * stream.normal();
    record.set(Variable::tmin, date, 6.0 + 5.0 * wave + wander, ValueOrigin::observed);
    record.set(Variable::tmax, date, 15.0 + 8.0 * wave + wander, ValueOrigin::observed);
    record.set(Variable::rain, date, stream.chance(0.3) ? 5.0 : 0.0, ValueOrigin::observed);
  }
  return record;
}

void expect_complete(const WeatherEnsemble& ensemble) {
  const std::size_t size = ensemble.member_count * ensemble.day_count;
  ASSERT_EQ(ensemble.member_names.size(), ensemble.member_count);
  for (const auto* values :
       {&ensemble.tmin_c, &ensemble.tmax_c, &ensemble.rain_mm, &ensemble.radiation_mj_m2, &ensemble.et0_mm}) {
    ASSERT_EQ(values->size(), size);
    EXPECT_TRUE(std::all_of(values->begin(), values->end(), [](double x) { return std::isfinite(x); }));
  }
  for (std::size_t i = 0; i < size; ++i) {
    ASSERT_LT(ensemble.tmin_c[i], ensemble.tmax_c[i]);
    ASSERT_GE(ensemble.rain_mm[i], 0.0);
    ASSERT_GE(ensemble.radiation_mj_m2[i], 0.0);
    ASSERT_LT(ensemble.radiation_mj_m2[i], 45.0);
    ASSERT_GE(ensemble.et0_mm[i], 0.0);
  }
}

double mean_of_month(const WeatherEnsemble& ensemble, const std::vector<double>& values, int month) {
  double sum = 0.0;
  double count = 0.0;
  for (std::size_t d = 0; d < ensemble.day_count; ++d) {
    if (base::month_of(ensemble.first + Days{static_cast<int>(d)}) != month) continue;
    for (std::size_t m = 0; m < ensemble.member_count; ++m) {
      sum += values[ensemble.at(m, d)];
      count += 1.0;
    }
  }
  return sum / count;
}

TEST(EnsembleFromNormals, IsCompleteAndNamed) {
  const WeatherEnsemble ensemble = ensemble_from_normals(mild_place(), {.first = date_of(2027, 3, 1)});
  EXPECT_EQ(ensemble.day_count, 730U);
  EXPECT_EQ(ensemble.member_count, 30U);
  EXPECT_EQ(ensemble.member_names[6], "made 07");
  EXPECT_EQ(ensemble.observed_days, 0U);
  EXPECT_EQ(ensemble.source, "made from monthly normals");
  expect_complete(ensemble);
}

TEST(EnsembleFromNormals, KeepsTheMonthlyMeansWithinSamplingError) {
  const PlaceNormals place = mild_place();
  const WeatherEnsemble ensemble =
      ensemble_from_normals(place, {.first = date_of(2025, 1, 1), .day_count = 365, .member_count = 400});
  for (int month = 1; month <= 12; ++month) {
    const auto m = static_cast<std::size_t>(month - 1);
    // A month's mean varies from year to year by about 2.2 °C, so its mean over 400 years by 0.11 °C; rain by
    // 3 %. Four standard errors.
    EXPECT_NEAR(mean_of_month(ensemble, ensemble.tmax_c, month), place.normals.tmax_c[m], 0.44) << month;
    EXPECT_NEAR(mean_of_month(ensemble, ensemble.tmin_c, month), place.normals.tmin_c[m], 0.44) << month;
    const double rain_mm =
        mean_of_month(ensemble, ensemble.rain_mm, month) * base::days_in_month(2025, month);
    EXPECT_NEAR(rain_mm, place.normals.precip_mm[m], 0.12 * place.normals.precip_mm[m]) << month;
  }
}

TEST(EnsembleFromNormals, KeepsTheCountOfWetDays) {
  PlaceNormals place = mild_place();
  place.normals.wet_days = {10.5, 8.7, 7.9, 8.3, 7.7, 8.3, 8.2, 8.5, 8.2, 9.7, 10.3, 10.7};
  const WeatherEnsemble ensemble =
      ensemble_from_normals(place, {.first = date_of(2025, 1, 1), .day_count = 365, .member_count = 400});
  std::vector<double> wet(ensemble.rain_mm.size());
  std::transform(ensemble.rain_mm.begin(), ensemble.rain_mm.end(), wet.begin(),
                 [](double rain_mm) { return rain_mm >= 1.0 ? 1.0 : 0.0; });
  for (int month = 1; month <= 12; ++month) {
    const double days = mean_of_month(ensemble, wet, month) * base::days_in_month(2025, month);
    EXPECT_NEAR(days, (*place.normals.wet_days)[static_cast<std::size_t>(month - 1)], 0.6) << month;
  }
}

TEST(EnsembleFromNormals, GivesTheSameWeatherOnAnyNumberOfThreads) {
  const EnsembleOptions options{.first = date_of(2027, 3, 1), .seed = 5};
  const WeatherEnsemble many = ensemble_from_normals(mild_place(), options);
  const base::ThreadLimit one(1);
  const WeatherEnsemble single = ensemble_from_normals(mild_place(), options);
  EXPECT_EQ(many.tmin_c, single.tmin_c);
  EXPECT_EQ(many.rain_mm, single.rain_mm);
  EXPECT_EQ(many.et0_mm, single.et0_mm);
}

TEST(EnsembleFromNormals, OfTheSouthHasItsSummerInJanuary) {
  const WeatherEnsemble ensemble = ensemble_from_normals(southern_place(), {.first = date_of(2027, 9, 1)});
  expect_complete(ensemble);
  EXPECT_GT(mean_of_month(ensemble, ensemble.tmax_c, 1), mean_of_month(ensemble, ensemble.tmax_c, 7) + 8.0);
  EXPECT_GT(mean_of_month(ensemble, ensemble.radiation_mj_m2, 1),
            mean_of_month(ensemble, ensemble.radiation_mj_m2, 7) + 8.0);
  EXPECT_GT(mean_of_month(ensemble, ensemble.et0_mm, 1), 2.0 * mean_of_month(ensemble, ensemble.et0_mm, 7));
}

TEST(EnsembleFromNormals, GraftsTheObservedDaysThenTheForecast) {
  WeatherRecord record;
  record.site = mild_place().site;
  record.resize(date_of(2027, 2, 20), date_of(2027, 3, 12));
  for (base::Date date = record.first; date <= record.last(); date += Days{1}) {
    const ValueOrigin origin = date > date_of(2027, 3, 10) ? ValueOrigin::forecast : ValueOrigin::observed;
    record.set(Variable::tmin, date, 1.0, origin);
    record.set(Variable::tmax, date, 20.0 + base::day_of_month(date), origin);
    record.set(Variable::rain, date, 2.5, origin);
  }
  const WeatherEnsemble ensemble =
      ensemble_from_normals(mild_place(), record, {.first = date_of(2027, 3, 1), .warming_c = 3.0});
  EXPECT_EQ(ensemble.observed_days, 10U);
  for (std::size_t m = 0; m < ensemble.member_count; ++m) {
    for (std::size_t d = 0; d < 12; ++d) {
      EXPECT_DOUBLE_EQ(ensemble.tmax_c[ensemble.at(m, d)], 21.0 + static_cast<double>(d));
      EXPECT_DOUBLE_EQ(ensemble.rain_mm[ensemble.at(m, d)], 2.5);
    }
  }
  // 32 °C on 12 March is far above this climate: the day after still feels it, three weeks later nothing is
  // left.
  double next_day = 0.0;
  for (std::size_t m = 0; m < ensemble.member_count; ++m)
    next_day += ensemble.tmax_c[ensemble.at(m, 12)] / 30.0;
  EXPECT_GT(next_day, 11.0 + 3.0 + 8.0);
  const WeatherEnsemble plain = ensemble_from_normals(mild_place(), {.first = date_of(2027, 3, 1)});
  EXPECT_NEAR(ensemble.tmax_c[ensemble.at(4, 60)], plain.tmax_c[plain.at(4, 60)] + 3.0, 1e-9);
}

TEST(EnsembleFromRecord, TakesTheLatestYearsUnchanged) {
  const WeatherRecord record = marked_record(1980, 2026);
  const auto ensemble = ensemble_from_record(record, {.first = date_of(2027, 4, 10), .day_count = 200});
  ASSERT_TRUE(ensemble) << base::to_text(ensemble.error());
  EXPECT_EQ(ensemble->member_count, 30U);
  EXPECT_EQ(ensemble->member_names.front(), "1997");
  EXPECT_EQ(ensemble->member_names.back(), "2026");
  EXPECT_EQ(ensemble->source, "30 years of Marked, 1997-2026");
  expect_complete(*ensemble);
  for (std::size_t m = 0; m < 30; ++m) {
    for (std::size_t d = 0; d < 200; ++d) {
      EXPECT_DOUBLE_EQ(ensemble->tmin_c[ensemble->at(m, d)], static_cast<double>((1997 + m) % 100));
    }
  }
}

TEST(EnsembleFromRecord, JoinsTheNextYearAndWrapsAfterTheLast) {
  const auto ensemble = ensemble_from_record(marked_record(1990, 2019), {.first = date_of(2027, 10, 1)});
  ASSERT_TRUE(ensemble);
  ASSERT_EQ(ensemble->member_names.front(), "1990");
  // 1990's second and third calendar years are 1991 and 1992.
  EXPECT_NEAR(ensemble->tmin_c[ensemble->at(0, 91)], 90.0, 1e-9);
  EXPECT_NEAR(ensemble->tmin_c[ensemble->at(0, 92)], 91.0, 1e-9);
  EXPECT_NEAR(ensemble->tmin_c[ensemble->at(0, 729)], 92.0, 1e-9);
  // 2019 goes over into 1990; the difference of 71 years fades.
  const std::size_t last = 29;
  EXPECT_NEAR(ensemble->tmin_c[ensemble->at(last, 91)], 19.0, 1e-9);
  EXPECT_NEAR(ensemble->tmin_c[ensemble->at(last, 92)], 90.0 - 0.65 * 71.0, 1e-9);
  EXPECT_NEAR(ensemble->tmin_c[ensemble->at(last, 92 + 40)], 90.0, 1e-9);
}

TEST(EnsembleFromRecord, MakesA29FebruaryFromTheMembersOwn28th) {
  const auto ensemble =
      ensemble_from_record(marked_record(1991, 2022), {.first = date_of(2028, 2, 1), .day_count = 60});
  ASSERT_TRUE(ensemble);
  for (std::size_t m = 0; m < ensemble->member_count; ++m) {
    const int year = std::stoi(ensemble->member_names[m]);
    const double expected_day = base::days_in_year(year) == 366 ? 60.0 : 59.0;
    EXPECT_NEAR(ensemble->tmax_c[ensemble->at(m, 28)], year % 100 + 5.0 + expected_day / 100.0, 1e-9);
    EXPECT_NEAR(ensemble->tmax_c[ensemble->at(m, 29)],
                year % 100 + 5.0 + (base::days_in_year(year) == 366 ? 61.0 : 60.0) / 100.0, 1e-9);
  }
}

TEST(EnsembleFromRecord, SkipsA29FebruaryThatTheSeasonDoesNotHave) {
  const auto ensemble =
      ensemble_from_record(marked_record(1991, 2022), {.first = date_of(2027, 2, 1), .day_count = 60});
  ASSERT_TRUE(ensemble);
  const auto member_2020 = static_cast<std::size_t>(
      std::find(ensemble->member_names.begin(), ensemble->member_names.end(), "2020") -
      ensemble->member_names.begin());
  // 1 March 2020 is day 61 of its year and follows 28 February, day 59, without a jump being mended.
  EXPECT_NEAR(ensemble->tmax_c[ensemble->at(member_2020, 27)], 20.0 + 5.0 + 0.59, 1e-9);
  EXPECT_NEAR(ensemble->tmax_c[ensemble->at(member_2020, 28)], 20.0 + 5.0 + 0.61, 1e-9);
}

TEST(EnsembleFromRecord, HelpsAShortRecordWithAGeneratorAndSaysSo) {
  const auto ensemble = ensemble_from_record(seasonal_record(2012, 2015), {.first = date_of(2027, 3, 1)});
  ASSERT_TRUE(ensemble) << base::to_text(ensemble.error());
  EXPECT_EQ(ensemble->member_count, 30U);
  EXPECT_EQ(ensemble->member_names[3], "2015");
  EXPECT_EQ(ensemble->member_names[4], "made 01");
  EXPECT_EQ(ensemble->source, "4 years of Seasonham, 2012-2015, and 26 made by a generator fitted to them");
  expect_complete(*ensemble);
  EXPECT_GT(mean_of_month(*ensemble, ensemble->tmax_c, 7),
            mean_of_month(*ensemble, ensemble->tmax_c, 1) + 12.0);
}

TEST(EnsembleFromRecord, NeedsFourYears) {
  const auto ensemble = ensemble_from_record(seasonal_record(2013, 2015), {.first = date_of(2027, 3, 1)});
  ASSERT_FALSE(ensemble);
  EXPECT_EQ(ensemble.error().code, base::ProblemCode::insufficient_data);
  EXPECT_NE(ensemble.error().what.find("3 of 4 needed years"), std::string::npos) << ensemble.error().what;
}

TEST(EnsembleFromRecord, OfAnEmptyRecordIsAProblemNotACrash) {
  EXPECT_FALSE(ensemble_from_record(WeatherRecord{}, {.first = date_of(2027, 3, 1)}));
}

TEST(EnsembleFromRecord, FillsHolesAndLeavesOutYearsThatAreMostlyHoles) {
  WeatherRecord record = seasonal_record(1990, 2019);
  for (int i = 0; i < 10; ++i) {
    for (const Variable variable : {Variable::tmin, Variable::tmax, Variable::rain}) {
      record.set(variable, date_of(2001, 5, 3) + Days{i}, kMissing, ValueOrigin::missing);
    }
  }
  for (int i = 0; i < 120; ++i) {
    record.set(Variable::tmin, date_of(2004, 2, 3) + Days{i}, kMissing, ValueOrigin::missing);
  }
  const auto ensemble = ensemble_from_record(record, {.first = date_of(2027, 3, 1)});
  ASSERT_TRUE(ensemble);
  EXPECT_EQ(ensemble->member_count, 29U);
  EXPECT_EQ(std::count(ensemble->member_names.begin(), ensemble->member_names.end(), "2004"), 0);
  EXPECT_EQ(std::count(ensemble->member_names.begin(), ensemble->member_names.end(), "2001"), 1);
  expect_complete(*ensemble);
}

TEST(EnsembleFromRecord, DoesNotUseTheSeasonItIsAskedAboutAsAMember) {
  const auto ensemble =
      ensemble_from_record(seasonal_record(1990, 2019), {.first = date_of(2015, 3, 1), .day_count = 400});
  ASSERT_TRUE(ensemble);
  EXPECT_EQ(ensemble->member_names.back(), "2014");
  EXPECT_EQ(ensemble->observed_days, 400U);
}

TEST(EnsembleFromNormals, TakesARecordThatBeginsInTheSeasonAndHasAHole) {
  WeatherRecord record;
  record.site = mild_place().site;
  record.resize(date_of(2027, 3, 10), date_of(2027, 4, 30));
  for (base::Date date = record.first; date <= record.last(); date += Days{1}) {
    // A hole of three days, and one of two weeks.
    if (date >= date_of(2027, 3, 15) && date < date_of(2027, 3, 18)) continue;
    if (date >= date_of(2027, 4, 1) && date < date_of(2027, 4, 15)) continue;
    record.set(Variable::tmin, date, 1.0, ValueOrigin::observed);
    record.set(Variable::tmax, date, 31.0, ValueOrigin::observed);
    record.set(Variable::rain, date, 0.0, ValueOrigin::observed);
  }
  const WeatherEnsemble ensemble = ensemble_from_normals(mild_place(), record, {.first = date_of(2027, 1, 1)});
  expect_complete(ensemble);
  EXPECT_EQ(ensemble.observed_days, 0U);
  const auto same_in_all = [&](base::Date date) {
    const auto day = static_cast<std::size_t>((date - ensemble.first).count());
    for (std::size_t m = 1; m < ensemble.member_count; ++m)
      if (ensemble.tmax_c[ensemble.at(m, day)] != ensemble.tmax_c[ensemble.at(0, day)]) return false;
    return true;
  };
  EXPECT_FALSE(same_in_all(date_of(2027, 3, 9)));
  for (base::Date date = date_of(2027, 3, 10); date <= date_of(2027, 3, 31); date += Days{1})
    EXPECT_TRUE(same_in_all(date)) << base::to_iso(date);
  EXPECT_FALSE(same_in_all(date_of(2027, 4, 8)));
  EXPECT_TRUE(same_in_all(date_of(2027, 4, 15)));
  EXPECT_FALSE(same_in_all(date_of(2027, 5, 1)));
}

TEST(EnsembleFromNormals, DoesNotKnowWhatIsObservedLaterThanToday) {
  WeatherRecord record;
  record.site = mild_place().site;
  record.resize(date_of(2027, 3, 1), date_of(2027, 3, 31));
  for (base::Date date = record.first; date <= record.last(); date += Days{1}) {
    record.set(Variable::tmin, date, 1.0, ValueOrigin::observed);
    record.set(Variable::tmax, date, 31.0, ValueOrigin::observed);
  }
  const EnsembleOptions options{.first = date_of(2027, 3, 1), .known_to = date_of(2027, 3, 10)};
  const WeatherEnsemble ensemble = ensemble_from_normals(mild_place(), record, options);
  EXPECT_EQ(ensemble.observed_days, 10U);
  EXPECT_DOUBLE_EQ(ensemble.tmax_c[ensemble.at(0, 9)], 31.0);
  EXPECT_NE(ensemble.tmax_c[ensemble.at(0, 20)], ensemble.tmax_c[ensemble.at(1, 20)]);
  double rain_mm = 0.0;
  for (std::size_t m = 0; m < ensemble.member_count; ++m)
    for (std::size_t d = 0; d < 10; ++d) rain_mm += ensemble.rain_mm[ensemble.at(m, d)];
  EXPECT_GT(rain_mm, 0.0) << "a record of temperature alone does not make the days dry";
}

TEST(EnsembleFromRecord, UsesMeasuredRadiation) {
  WeatherRecord record = seasonal_record(1990, 2019);
  for (base::Date date = record.first; date <= record.last(); date += Days{1}) {
    record.set(Variable::radiation, date, 7.25, ValueOrigin::observed);
  }
  const auto ensemble = ensemble_from_record(record, {.first = date_of(2027, 3, 1), .day_count = 100});
  ASSERT_TRUE(ensemble);
  EXPECT_TRUE(std::all_of(ensemble->radiation_mj_m2.begin(), ensemble->radiation_mj_m2.end(),
                          [](double x) { return x == 7.25; }));
}

TEST(EnsembleFromRecord, OutlookNarrowsAsTheSeasonIsObserved) {
  const WeatherRecord all = seasonal_record(1990, 2020);
  const auto spread_of_first_half = [&](int observed_days) {
    WeatherRecord record = all;
    record.resize(record.first, date_of(2020, 3, 1) + Days{observed_days - 1});
    const auto ensemble =
        ensemble_from_record(record, {.first = date_of(2020, 3, 1), .day_count = 120}).value();
    std::vector<double> sums(ensemble.member_count);
    for (std::size_t m = 0; m < ensemble.member_count; ++m) {
      for (std::size_t d = 0; d < 120; ++d) sums[m] += ensemble.tmax_c[ensemble.at(m, d)];
    }
    const auto [least, most] = std::minmax_element(sums.begin(), sums.end());
    return *most - *least;
  };
  EXPECT_LT(spread_of_first_half(100), 0.7 * spread_of_first_half(5));
}

}  // namespace
}  // namespace sowtide::climate
