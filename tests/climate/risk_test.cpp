#include "climate/risk.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "climate/figures.hpp"
#include "climate/places.hpp"
#include "climate/risk_figures.hpp"
#include "climate/support/stored_record.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;
using base::MonthDay;

/// Ten years in which tmin is 10 °C but for the days given in every year.
WeatherRecord mild_record(double latitude_deg, const std::vector<MonthDay>& frosts) {
  WeatherRecord record;
  record.site = {"Test", latitude_deg, 0.0, 0.0};
  record.resize(date_of(2001, 1, 1), date_of(2010, 12, 31));
  for (base::Date date = record.first; date <= record.last(); date += base::Days{1}) {
    const bool frost = std::find(frosts.begin(), frosts.end(), base::month_day_of(date)) != frosts.end();
    record.set(Variable::tmin, date, frost ? -1.0 : 10.0, ValueOrigin::observed);
    record.set(Variable::tmax, date, frost ? 5.0 : 20.0, ValueOrigin::observed);
  }
  return record;
}

RiskDate on(int month, int day) {
  return {RiskDate::Kind::on_date, {month, day}};
}

TEST(FreezeDates, OfARecordWithTheSameFrostsEveryYear) {
  const FreezeDates dates =
      freeze_dates(mild_record(50.0, {{3, 5}, {4, 20}, {10, 30}, {12, 1}}), 0.0).value();
  EXPECT_EQ(dates.winters().size(), 11U);  // the first spring and the last autumn count by themselves
  EXPECT_EQ(dates.last(0.5), on(4, 20));
  EXPECT_EQ(dates.first(0.1), on(10, 30));
  EXPECT_EQ(dates.frost_free_days(0.5), 192);  // 21 April to 29 October
  EXPECT_DOUBLE_EQ(dates.chance_on_or_after({4, 20}), 1.0);
  EXPECT_DOUBLE_EQ(dates.chance_on_or_after({4, 21}), 0.0);
  EXPECT_DOUBLE_EQ(dates.chance_on_or_before({10, 29}), 0.0);
  EXPECT_DOUBLE_EQ(dates.chance_on_or_before({11, 2}), 1.0);
}

TEST(FreezeDates, InTheSouthRunFromFebruaryToJanuary) {
  const FreezeDates dates = freeze_dates(mild_record(-38.0, {{5, 10}, {7, 1}, {10, 3}}), 0.0).value();
  EXPECT_TRUE(dates.southern());
  EXPECT_EQ(dates.last(0.5), on(10, 3));
  EXPECT_EQ(dates.first(0.5), on(5, 10));
  EXPECT_EQ(dates.frost_free_days(0.5), 218);  // 4 October to 9 May
}

TEST(FreezeDates, WithoutAnyFrostAreNever) {
  const FreezeDates dates = freeze_dates(mild_record(10.0, {}), 0.0).value();
  EXPECT_EQ(dates.last(0.01).kind, RiskDate::Kind::never);
  EXPECT_EQ(to_text(dates.first(0.5)), "never");
  EXPECT_EQ(dates.frost_free_days(0.5), 365);
  EXPECT_DOUBLE_EQ(dates.share_with_freeze(), 0.0);
}

TEST(FreezeDates, InMidsummerAreAlways) {
  const FreezeDates dates = freeze_dates(mild_record(60.0, {{7, 28}, {8, 3}, {1, 1}}), 0.0).value();
  EXPECT_EQ(dates.last(0.5).kind, RiskDate::Kind::always);
  EXPECT_EQ(to_text(dates.first(0.5)), "always");
  EXPECT_EQ(dates.frost_free_days(0.5), 5);
}

TEST(FreezeDates, BeforeTheNewYearCanBeTheLastOfTheirWinter) {
  const FreezeDates dates = freeze_dates(mild_record(30.0, {{12, 20}}), 0.0).value();
  EXPECT_EQ(dates.last(0.5), on(12, 20));
  EXPECT_EQ(dates.first(0.5), on(12, 20));
}

TEST(FreezeDates, ThatComeInFewYearsAreNeverAtHigherChances) {
  WeatherRecord record = mild_record(40.0, {});
  for (const int year : {2003, 2007})
    record.set(Variable::tmin, date_of(year, 2, 10), -2.0, ValueOrigin::observed);
  const FreezeDates dates = freeze_dates(record, 0.0).value();
  EXPECT_NEAR(dates.share_with_freeze(), 2.0 / 9.0, 1e-12);
  EXPECT_EQ(dates.last(0.1), on(2, 10));
  EXPECT_EQ(dates.last(0.25).kind, RiskDate::Kind::never);
}

TEST(FreezeDates, GetEarlierInSpringAndLaterInAutumnAsTheChanceGrows) {
  for (const WeatherRecord& record : {test::milwaukee(), test::hoogeveen()}) {
    const FreezeDates dates = freeze_dates(record, 0.0).value();
    for (const DateLaw law : {DateLaw::counted, DateLaw::normal}) {
      MonthDay last{12, 31};
      MonthDay first{1, 1};
      for (double p = 0.05; p < 1.0; p += 0.05) {
        EXPECT_LE(dates.last(p, law).date, last);
        EXPECT_GE(dates.first(p, law).date, first);
        last = dates.last(p, law).date;
        first = dates.first(p, law).date;
      }
    }
  }
}

TEST(FreezeDates, ComeLaterForAColderThreshold) {
  const WeatherRecord record = test::milwaukee();
  const FreezeDates mild = freeze_dates(record, 0.0).value();
  const FreezeDates hard = freeze_dates(record, -4.0).value();
  EXPECT_LT(hard.last(0.5).date, mild.last(0.5).date);
  EXPECT_GT(hard.first(0.5).date, mild.first(0.5).date);
  EXPECT_GT(hard.frost_free_days(0.5), mild.frost_free_days(0.5));
}

TEST(FreezeDates, NeedFiveWholeWinters) {
  WeatherRecord record = test::milwaukee();
  record.resize(date_of(2017, 1, 1), date_of(2020, 12, 31));
  const auto dates = freeze_dates(record, 0.0);
  ASSERT_FALSE(dates);
  EXPECT_EQ(dates.error().code, base::ProblemCode::insufficient_data);
}

TEST(FreezeDates, SpringsWithHolesDoNotCount) {
  WeatherRecord record = test::milwaukee();
  for (int i = 0; i < 20; ++i) {
    record.set(Variable::tmin, date_of(2004, 4, 1) + base::Days{i}, std::numeric_limits<double>::quiet_NaN(),
               ValueOrigin::missing);
  }
  const FreezeDates dates = freeze_dates(record, 0.0).value();
  const auto known = [&](bool FreezeDates::Winter::*which) {
    return std::count_if(dates.winters().begin(), dates.winters().end(),
                         [&](const FreezeDates::Winter& winter) { return winter.*which; });
  };
  EXPECT_EQ(known(&FreezeDates::Winter::first_known), 30);
  EXPECT_EQ(known(&FreezeDates::Winter::last_known), 29);
}

TEST(FreezeDatesFromNormals, OfTheTropicsAreNeverAndOfTheSouthTurnedRound) {
  const FreezeDates tropics = freeze_dates(find_place("Accra").value(), 0.0);
  EXPECT_EQ(tropics.last(0.05).kind, RiskDate::Kind::never);
  const FreezeDates south = freeze_dates(find_place("Ballarat VIC").value(), 0.0);
  ASSERT_EQ(south.last(0.5).kind, RiskDate::Kind::on_date);
  EXPECT_GE(south.last(0.5).date, (MonthDay{8, 15}));
  EXPECT_LE(south.last(0.5).date, (MonthDay{12, 15}));
  EXPECT_LE(south.first(0.5).date, (MonthDay{7, 15}));
}

TEST(HeatSpells, AreCountedByRunLength) {
  WeatherRecord record = mild_record(45.0, {});
  for (const int year : {2002, 2005}) {
    for (int i = 0; i < 4; ++i)
      record.set(Variable::tmax, date_of(year, 7, 30) + base::Days{i}, 33.0, ValueOrigin::observed);
    record.set(Variable::tmax, date_of(year, 8, 20), 35.0, ValueOrigin::observed);
  }
  const HeatSpells spells = heat_spells(record, 32.0, 3).value();
  EXPECT_EQ(spells.years, 10U);
  EXPECT_DOUBLE_EQ(spells.per_year, 0.2);
  EXPECT_DOUBLE_EQ(spells.share_of_years, 0.2);
  EXPECT_DOUBLE_EQ(spells.days_per_year, 0.8);
  EXPECT_EQ(spells.longest_days, 4);
  EXPECT_DOUBLE_EQ(spells.share_by_month[6], 0.2);
  EXPECT_DOUBLE_EQ(spells.share_by_month[7], 0.2);
  EXPECT_DOUBLE_EQ(spells.share_by_month[5], 0.0);
}

TEST(HeatSpells, OfMaricopaFillTheSummer) {
  const HeatSpells spells = heat_spells(test::maricopa(), 35.0, 3).value();
  EXPECT_DOUBLE_EQ(spells.share_of_years, 1.0);
  EXPECT_DOUBLE_EQ(spells.share_by_month[6], 1.0);
  EXPECT_LT(spells.share_by_month[0], 0.01);
}

TEST(HoursBelow, OfAConstantClimateAreAllOrNone) {
  const WeatherRecord record = mild_record(45.0, {});
  EXPECT_NEAR(monthly_hours_below(record, 30.0).value()[0], 744.0, 1e-9);
  EXPECT_DOUBLE_EQ(monthly_hours_below(record, 0.0).value()[0], 0.0);
}

TEST(HoursBelow, OfMilwaukeeFollowTheSeason) {
  const auto hours = monthly_hours_below(test::milwaukee(), 0.0).value();
  EXPECT_GT(hours[0], 450.0);
  EXPECT_LT(hours[0], 744.0);
  EXPECT_DOUBLE_EQ(hours[6], 0.0);
}

TEST(WinterChillHours, OfMaricopaAreFewerThanOfCork) {
  const WinterChill desert = winter_chill(test::maricopa()).value();
  const WinterChill ocean = winter_chill(test::cork()).value();
  EXPECT_LT(desert.reached(0.5), ocean.reached(0.5));
  EXPECT_GE(ocean.reached(0.1), ocean.reached(0.9));
}

TEST(FrostDatesFigure, CountsInARecord) {
  const WeatherRecord record = test::milwaukee();
  const auto answer =
      climate_figure("frost-dates", {{"weather", "milwaukee.csv"}, {"probability", "0.5"}}, &record);
  ASSERT_TRUE(answer) << base::to_text(answer.error());
  EXPECT_EQ(std::get<std::string>(answer->result[0].value), "04-23");
  EXPECT_FALSE(answer->source.empty());
}

/// A plain table does not say where it is: the same winters half a year apart must not end in "always".
TEST(FrostDatesFigure, TellsTheHemisphereOfARecordThatDoesNotSayWhereItIs) {
  WeatherRecord north = test::milwaukee();
  north.site = {};
  WeatherRecord south = north;
  south.first += base::Days{181};
  const auto figure_of = [](const WeatherRecord& record, const base::FigureInputs& inputs) {
    const auto answer = climate_figure("frost-dates", inputs, &record);
    EXPECT_TRUE(answer) << base::to_text(answer.error());
    return std::get<std::string>(answer->result[0].value);
  };
  const base::FigureInputs plain{{"weather", "table.csv"}};
  EXPECT_EQ(figure_of(north, plain), "04-23");
  EXPECT_EQ(figure_of(south, plain).substr(0, 2), "10");
  EXPECT_EQ(figure_of(south, {{"weather", "table.csv"}, {"lat", "-43"}}), figure_of(south, plain));
  EXPECT_EQ(figure_of(south, {{"weather", "table.csv"}, {"lat", "43"}}), "always");
  EXPECT_EQ(climate_figure("frost-dates", {{"place", "Accra"}, {"lat", "5"}}).error().where.field, "lat");
}

TEST(FrostDatesFigure, SaysNeverForATropicalPlace) {
  const auto answer = climate_figure("frost-dates", {{"place", "Accra"}});
  ASSERT_TRUE(answer) << base::to_text(answer.error());
  EXPECT_EQ(std::get<std::string>(answer->result[0].value), "never");
  EXPECT_DOUBLE_EQ(std::get<double>(answer->result[2].value), 365.0);
}

TEST(FrostDatesFigure, NamesTheInputThatIsWrong) {
  EXPECT_EQ(climate_figure("frost-dates", {}).error().where.field, "weather");
  EXPECT_EQ(climate_figure("frost-dates", {{"place", "Accra"}, {"probability", "2"}}).error().where.field,
            "probability");
  EXPECT_EQ(climate_figure("frost-dates", {{"place", "Nowhere at all"}}).error().code,
            base::ProblemCode::not_found);
  EXPECT_EQ(climate_figure("frost-dates", {{"place", "Accra"}, {"colour", "red"}}).error().code,
            base::ProblemCode::unknown_field);
}

}  // namespace
}  // namespace sowtide::climate
