// GHCN-Daily in its three forms. Layout and flags: NOAA NCEI, readme of GHCN-Daily.
#include <gtest/gtest.h>

#include <cmath>

#include "base/file.hpp"
#include "climate/readers.hpp"
#include "support/weather_text.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;
using base::ProblemCode;
using test::dly_line;
using test::dly_slot;

double value_on(const WeatherRecord& record, Variable variable, base::Date day) {
  return record.values(variable)[static_cast<std::size_t>((day - record.first).count())];
}

std::string published(const std::string& name) {
  return *base::read_file(std::string(SOWTIDE_SOURCE_DIR) + "/tests/published/weather/" + name);
}

TEST(GhcnDly, ReadsTenthsIntoDegreesAndMillimetres) {
  const std::string text = dly_line("USW00000001", 2020, 2, "TMAX", {dly_slot(-17), dly_slot(105)}) +
                           dly_line("USW00000001", 2020, 2, "TMIN", {dly_slot(-72), dly_slot(3)}) +
                           dly_line("USW00000001", 2020, 2, "PRCP", {dly_slot(191), dly_slot(0, "T Z")});
  const auto read = read_weather(text, "a.dly");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "ghcn-dly");
  EXPECT_EQ(read->record.first, date_of(2020, 2, 1));
  EXPECT_EQ(read->record.day_count(), 2U);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::tmax, date_of(2020, 2, 1)), -1.7);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::tmin, date_of(2020, 2, 2)), 0.3);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::rain, date_of(2020, 2, 1)), 19.1);
  EXPECT_EQ(value_on(read->record, Variable::rain, date_of(2020, 2, 2)), 0.0) << "a trace is no water";
  EXPECT_EQ(read->record.site.name, "USW00000001");
  EXPECT_FALSE(read->site_stated);
}

TEST(GhcnDly, RemovesFlaggedValuesAndListsThem) {
  const std::string text = dly_line("USW00000001", 2020, 7, "TMAX", {dly_slot(250), dly_slot(999, " XZ")});
  const auto read = read_ghcn_dly(text, "a.dly");
  ASSERT_TRUE(read);
  ASSERT_EQ(read->findings.size(), 1U);
  EXPECT_EQ(read->findings[0].check, "source-flag");
  EXPECT_EQ(read->findings[0].action, "removed");
  EXPECT_DOUBLE_EQ(read->findings[0].value, 99.9);
  EXPECT_EQ(read->record.day_count(), 1U);

  const auto kept = read_ghcn_dly(text, "a.dly", {.keep_flagged = true});
  ASSERT_FALSE(kept) << "99.9 °C on one of two days cannot be true";
  EXPECT_EQ(kept.error().code, ProblemCode::wrong_unit);
}

TEST(GhcnDly, SharesTotalsOfSeveralDaysOverThem) {
  const std::string text = dly_line("USC00000001", 2020, 3, "MDPR", {"-9999   ", "-9999   ", dly_slot(90)}) +
                           dly_line("USC00000001", 2020, 3, "DAPR", {"-9999   ", "-9999   ", dly_slot(3)});
  const auto read = read_ghcn_dly(text, "a.dly");
  ASSERT_TRUE(read);
  for (int day = 1; day <= 3; ++day) {
    EXPECT_DOUBLE_EQ(value_on(read->record, Variable::rain, date_of(2020, 3, day)), 3.0);
  }
  EXPECT_EQ(read->record.of(Variable::rain).origin[0], ValueOrigin::estimated);
  EXPECT_EQ(read->findings.at(0).check, "several-days");
}

TEST(GhcnDly, TakesTheStationAskedFor) {
  const std::string text = dly_line("USW00000001", 2020, 2, "TMAX", {dly_slot(100)}) +
                           dly_line("USW00000002", 2020, 2, "TMAX", {dly_slot(200)});
  const auto both = read_weather(text, "a.dly");
  ASSERT_FALSE(both);
  EXPECT_EQ(both.error().code, ProblemCode::ambiguous);
  const auto second = read_weather(text, "a.dly", {.station = "usw00000002"});
  ASSERT_TRUE(second);
  EXPECT_DOUBLE_EQ(second->record.values(Variable::tmax)[0], 20.0);
  const auto third = read_weather(text, "a.dly", {.station = "USW00000003"});
  ASSERT_FALSE(third);
  EXPECT_EQ(third.error().code, ProblemCode::not_found);
}

TEST(GhcnDly, RefusesWhatIsNotWhole) {
  const std::string whole = dly_line("USW00000001", 2020, 2, "TMAX", {dly_slot(100)});
  const auto cut = read_weather(whole + whole.substr(0, 150), "a.dly");
  ASSERT_FALSE(cut);
  EXPECT_EQ(cut.error().code, ProblemCode::syntax);
  EXPECT_EQ(cut.error().where.line, 2);

  std::string letters = whole;
  letters[23] = 'x';
  EXPECT_EQ(read_weather(letters, "a.dly").error().code, ProblemCode::syntax);

  std::vector<std::string> days(30, dly_slot(10));
  EXPECT_EQ(read_weather(dly_line("USW00000001", 2021, 2, "TMAX", days), "a.dly").error().code,
            ProblemCode::out_of_range)
      << "29 February 2021";
  EXPECT_EQ(read_ghcn_dly(dly_line("USW00000001", 2020, 13, "TMAX", {dly_slot(1)}), "a.dly").error().code,
            ProblemCode::out_of_range);
}

TEST(GhcnDly, LeapDayIsRead) {
  std::vector<std::string> days(29, dly_slot(10));
  const auto read = read_weather(dly_line("USW00000001", 2020, 2, "TMAX", days), "a.dly");
  ASSERT_TRUE(read);
  EXPECT_EQ(read->record.last(), date_of(2020, 2, 29));
}

TEST(GhcnAccess, ReadsSiteValuesAndFlags) {
  const auto read = read_weather(published("ghcn_access_USW00094728_1869.csv"), "USW00094728.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "ghcn-access");
  EXPECT_TRUE(read->site_stated);
  EXPECT_EQ(read->record.site.name, "NY CITY CENTRAL PARK, NY US");
  EXPECT_DOUBLE_EQ(read->record.site.latitude_deg, 40.77898);
  EXPECT_DOUBLE_EQ(read->record.site.elevation_m, 42.7);
  EXPECT_EQ(read->record.first, date_of(1869, 1, 1));
  EXPECT_EQ(read->record.day_count(), 12U);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::tmax, date_of(1869, 1, 8)), 12.2);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::rain, date_of(1869, 1, 3)), 0.0);
}

TEST(GhcnAccess, AgreesWithTheFixedWidthFormOfTheSameStation) {
  const auto wide = read_weather(published("ghcn_access_USW00094728_1869.csv"), "a.csv");
  const auto fixed = read_weather(published("ghcn_USW00094728_1869.dly"), "a.dly");
  ASSERT_TRUE(wide);
  ASSERT_TRUE(fixed);
  for (std::size_t i = 0; i < wide->record.day_count(); ++i) {
    for (const Variable variable : {Variable::tmin, Variable::tmax, Variable::rain}) {
      EXPECT_EQ(wide->record.values(variable)[i], fixed->record.values(variable)[i]);
    }
  }
}

TEST(GhcnAccess, JudgesUnitsByTheDecimals) {
  const std::string heading = "STATION,DATE,TMAX,TMIN,PRCP\n";
  const auto tenths = read_weather(heading + "X1,2020-07-01,281,150,25\n", "a.csv");
  ASSERT_TRUE(tenths) << to_text(tenths.error());
  EXPECT_DOUBLE_EQ(tenths->record.values(Variable::tmax)[0], 28.1);
  const auto metric = read_weather(heading + "X1,2020-07-01,28.1,15.0,2.5\n", "a.csv");
  ASSERT_TRUE(metric);
  EXPECT_DOUBLE_EQ(metric->record.values(Variable::tmax)[0], 28.1);
  EXPECT_DOUBLE_EQ(metric->record.values(Variable::rain)[0], 2.5);
  const auto us = read_weather(heading + "X1,2020-07-01,86,59,0.10\n", "a.csv");
  ASSERT_TRUE(us);
  EXPECT_NEAR(us->record.values(Variable::tmax)[0], 30.0, 1e-9);
  EXPECT_NEAR(us->record.values(Variable::rain)[0], 2.54, 1e-9);
}

TEST(GhcnAccess, RefusesMonthlySummariesWithTheSameHeading) {
  const auto read = read_weather("STATION,DATE,TMAX,TMIN,PRCP\nX1,2020-07,28.1,15.0,2.5\n", "USW1.csv");
  ASSERT_FALSE(read);
  EXPECT_NE(read.error().remedy.find("monthly"), std::string::npos);
}

TEST(GhcnAccess, RefusesALineCutOff) {
  std::string text = published("ghcn_access_USW00094728_1869.csv");
  text.resize(text.size() - 60);
  const auto read = read_weather(text, "a.csv");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ProblemCode::syntax);
}

TEST(GhcnLong, ReadsWithAHeadingOfTheUsersOwn) {
  const auto read = read_weather(published("ghcn_long_USW00014922_2014.csv"), "a.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "ghcn-long");
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::tmin, date_of(2014, 1, 6)), -30.5);
  EXPECT_TRUE(std::isnan(value_on(read->record, Variable::tmin, date_of(2014, 1, 2))));
}

TEST(GhcnLong, ReadsTheByYearFormWithoutHeading) {
  const auto read = read_weather(
      "USW00000001,20200101,TMAX,56,,,W,2400\nUSW00000001,20200101,TMIN,-33,,I,W,2400\n"
      "USW00000001,20200101,PRCP,30,T,,W,\n",
      "2020.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_DOUBLE_EQ(read->record.values(Variable::tmax)[0], 5.6);
  EXPECT_TRUE(std::isnan(read->record.values(Variable::tmin)[0])) << "failed the internal consistency check";
  EXPECT_EQ(read->findings.size(), 1U);
}

}  // namespace
}  // namespace sowtide::climate
