// Tables of any shape: columns by heading, units, dates, stations.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "climate/readers.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;
using base::ProblemCode;

TEST(WeatherTable, ReadsASimpleTable) {
  const auto read = read_weather("date,tmin,tmax,rain\n2020-02-28,1,9.5,0\n2020-02-29,-2,3,12.4\n", "a.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "table");
  EXPECT_EQ(read->record.day_count(), 2U);
  EXPECT_EQ(read->record.values(Variable::tmin)[1], -2.0);
  EXPECT_EQ(read->record.values(Variable::tmax)[0], 9.5);
  EXPECT_EQ(read->record.values(Variable::rain)[1], 12.4);
}

TEST(WeatherTable, ReadsTheSeattleTableWithoutOptions) {
  const auto read = read_weather(
      "date,precipitation,temp_max,temp_min,wind,weather\n2012-01-01,0.0,12.8,5.0,4.7,drizzle\n"
      "2012-01-02,10.9,10.6,2.8,4.5,rain\n",
      "seattle-weather.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->record.values(Variable::rain)[1], 10.9);
  EXPECT_EQ(read->record.values(Variable::wind)[0], 4.7);
  EXPECT_EQ(read->record.values(Variable::tmin)[0], 5.0);
}

TEST(WeatherTable, ReadsOneLocationOfSeveral) {
  const std::string text =
      "location,date,precipitation,temp_max,temp_min,wind,weather\nSeattle,2012-01-01,0.0,12.8,5.0,4.7,"
      "drizzle\n"
      "New York,2012-01-01,0.0,13.3,4.4,2.5,sun\n";
  const auto both = read_weather(text, "weather.csv");
  ASSERT_FALSE(both);
  EXPECT_EQ(both.error().code, ProblemCode::ambiguous);
  EXPECT_NE(both.error().what.find("New York"), std::string::npos);
  const auto one = read_weather(text, "weather.csv", {.station = "new york"});
  ASSERT_TRUE(one);
  EXPECT_EQ(one->record.values(Variable::tmax)[0], 13.3);
}

TEST(WeatherTable, ReadsUnitsInHeadings) {
  const auto us = read_weather(
      "Date,Low Temp (°F),High Temp (°F),Rain [in],Wind (mph),Solar radiation (W/m²)\n"
      "2024-05-01,50,68,0.5,10,100\n",
      "a.csv");
  ASSERT_TRUE(us) << to_text(us.error());
  EXPECT_NEAR(us->record.values(Variable::tmin)[0], 10.0, 1e-9);
  EXPECT_NEAR(us->record.values(Variable::tmax)[0], 20.0, 1e-9);
  EXPECT_NEAR(us->record.values(Variable::rain)[0], 12.7, 1e-9);
  EXPECT_NEAR(us->record.values(Variable::wind)[0], 4.4704, 1e-9);
  EXPECT_NEAR(us->record.values(Variable::radiation)[0], 8.64, 1e-9);
  const auto suffix = read_weather(
      "date,tmin_c,tmax_c,rain_mm,radiation_mj_m2,humidity_pct,wind_kmh,sunshine_h\n"
      "2024-05-01,5,15,1,20,70,36,8\n",
      "b.csv");
  ASSERT_TRUE(suffix) << to_text(suffix.error());
  EXPECT_NEAR(suffix->record.values(Variable::wind)[0], 10.0, 1e-9);
  EXPECT_EQ(suffix->record.values(Variable::humidity)[0], 70.0);
  EXPECT_EQ(suffix->record.values(Variable::radiation)[0], 20.0);
  EXPECT_EQ(suffix->record.values(Variable::sunshine)[0], 8.0);
}

TEST(WeatherTable, BringsWindOfTenMetresToTwo) {
  // FAO-56 example 14: 3.2 m/s at 10 m is 2.4 m/s at 2 m.
  const auto read = read_weather("date,tmin,tmax,wind_speed_10m\n2024-05-01,5,15,3.2\n", "a.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_NEAR(read->record.values(Variable::wind)[0], 2.4, 0.05);
  const auto option =
      read_weather("date,tmin,tmax,wind\n2024-05-01,5,15,3.2\n", "a.csv", {.wind_height_m = 10.0});
  ASSERT_TRUE(option);
  EXPECT_EQ(option->record.values(Variable::wind)[0], read->record.values(Variable::wind)[0]);
}

TEST(WeatherTable, ReadsSemicolonsAndDecimalCommas) {
  const auto read =
      read_weather("Datum;Tmin;Tmax;Rain\n1.5.2024;4,5;15,2;0,0\n13.5.2024;5,5;16;1,2\n", "a.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->record.first, date_of(2024, 5, 1));
  EXPECT_EQ(read->record.values(Variable::tmin)[0], 4.5);
  EXPECT_EQ(read->record.values(Variable::rain)[12], 1.2);
}

TEST(WeatherTable, DayAndMonthAreNotGuessed) {
  const std::string heading = "date,tmin,tmax\n";
  const auto open = read_weather(heading + "1/2/2024,1,5\n3/4/2024,1,5\n", "a.csv");
  ASSERT_FALSE(open);
  EXPECT_EQ(open.error().code, ProblemCode::ambiguous);
  const auto stated =
      read_weather(heading + "1/2/2024,1,5\n", "a.csv", {.date_form = DateForm::day_month_year});
  ASSERT_TRUE(stated);
  EXPECT_EQ(stated->record.first, date_of(2024, 2, 1));
  const auto month_first = read_weather(heading + "1/2/2024,1,5\n1/31/2024,1,5\n", "a.csv");
  ASSERT_TRUE(month_first) << to_text(month_first.error());
  EXPECT_EQ(month_first->record.first, date_of(2024, 1, 2));
  const auto by_steps =
      read_weather(heading + "1/2/2024,1,5\n2/2/2024,1,5\n3/2/2024,1,5\n4/2/2024,1,5\n", "a.csv");
  ASSERT_TRUE(by_steps) << to_text(by_steps.error());
  EXPECT_EQ(by_steps->record.last(), date_of(2024, 2, 4));
  const auto both = read_weather(heading + "13/2/2024,1,5\n2/13/2024,1,5\n", "a.csv");
  ASSERT_FALSE(both);
  EXPECT_EQ(both.error().code, ProblemCode::contradiction);
}

TEST(WeatherTable, AYearOfTwoFiguresIsNotGuessed) {
  const std::string heading = "date,tmin,tmax\n";
  const auto one = read_weather(heading + "24-05-31,1,5\n", "a.csv");
  ASSERT_FALSE(one);
  EXPECT_EQ(one.error().code, ProblemCode::ambiguous);
  const auto stated = read_weather(heading + "24-05-31,1,5\n", "a.csv", {.date_form = DateForm::year_month_day});
  ASSERT_TRUE(stated) << to_text(stated.error());
  EXPECT_EQ(stated->record.first, date_of(2024, 5, 31));
  std::string june = heading;
  for (int day = 1; day <= 25; ++day) june += "15-06-" + std::string(day < 10 ? "0" : "") + std::to_string(day) + ",1,5\n";
  const auto by_steps = read_weather(june, "a.csv");
  ASSERT_TRUE(by_steps) << to_text(by_steps.error());
  EXPECT_EQ(by_steps->record.first, date_of(2015, 6, 1));
  EXPECT_EQ(by_steps->record.last(), date_of(2015, 6, 25));
  const auto only_one_way = read_weather(heading + "5/31/24,1,5\n", "a.csv");
  ASSERT_TRUE(only_one_way) << to_text(only_one_way.error());
  EXPECT_EQ(only_one_way->record.first, date_of(2024, 5, 31));
}

// 86 °F is 30 °C and half an inch 12.7 mm by definition; 16 and 17 are the metric systems of the same databases.
TEST(WeatherTable, AColumnMayNameTheSystemOfUnits) {
  const auto reading = [](const char* system, const char* values) {
    return read_weather(std::string("date,usUnits,tmin,tmax,rain\n2024-07-01,") + system + "," + values + "\n2024-07-02," +
                            system + "," + values + "\n",
                        "a.csv");
  };
  for (const auto& [system, values] : {std::pair{"1", "50,86,0.5"}, {"16", "10,30,1.27"}, {"17", "10,30,12.7"}}) {
    const auto read = reading(system, values);
    ASSERT_TRUE(read) << to_text(read.error());
    EXPECT_NEAR(read->record.values(Variable::tmin)[0], 10.0, 1e-9) << system;
    EXPECT_NEAR(read->record.values(Variable::tmax)[1], 30.0, 1e-9) << system;
    EXPECT_NEAR(read->record.values(Variable::rain)[0], 12.7, 1e-9) << system;
    EXPECT_FALSE(read->celsius_assumed);
  }
  EXPECT_EQ(reading("2", "10,30,1").error().code, ProblemCode::wrong_unit);
  const auto both = read_weather("date,usUnits,tmin,tmax\n2024-07-01,1,50,86\n2024-07-02,17,10,30\n", "a.csv");
  ASSERT_FALSE(both);
  EXPECT_EQ(both.error().code, ProblemCode::contradiction);
}

TEST(WeatherTable, UnitsTakenWithoutAWordAreNoted) {
  const auto read = read_weather("date,tmin,tmax_c,rain\n2024-07-01,10,30,1\n", "a.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_TRUE(read->celsius_assumed);
  EXPECT_EQ(std::ranges::count(read->notes, "No unit is named for tmin, rain: taken as °C and mm."), 1);
}

TEST(WeatherTable, ReadsDatesInManyForms) {
  for (const char* date : {"2024-05-09", "20240509", "2024/05/09", "2024/5/9", "09-may-1924", "May 9, 2024",
                           "9 May 2024", "2024-130", "2024-05-09T00:00:00Z", "2024-05-09 00:00"}) {
    const std::string shown = date;
    const bool quoted = shown.find(',') != std::string::npos;
    const auto read =
        read_weather("date,tmin,tmax\n" + (quoted ? "\"" + shown + "\"" : shown) + ",1,5\n", "a.csv");
    ASSERT_TRUE(read) << shown << ": " << to_text(read.error());
    EXPECT_EQ(base::month_day_of(read->record.first), (base::MonthDay{5, 9})) << shown;
  }
}

TEST(WeatherTable, ReadsYearMonthDayColumnsAndBlanksBetween) {
  const auto read = read_weather(
      "Day       Month     Year      Tmin(C)        Tmax(C)        Prcp(mm)\n"
      "29        2         2024      -21.11         3.33           0.00\n",
      "a.txt");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->record.first, date_of(2024, 2, 29));
  EXPECT_EQ(read->record.values(Variable::tmin)[0], -21.11);
}

TEST(WeatherTable, FindsTheHeadingUnderAPreamble) {
  const auto read = read_weather(
      "My station: rain and date of readings\nSerial "
      "17\n\nDate,Min,Max,Rain\n,degC,degC,mm\n2024-05-01,1,5,0\n",
      "a.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->record.values(Variable::tmax)[0], 5.0);
}

TEST(WeatherTable, ReadsMissingValuesAndTraces) {
  const auto read = read_weather(
      "date,tmin,tmax,rain\n2024-05-01,NA,5,T\n2024-05-02,-9999,--,\n2024-05-03,1,5,-99.9\n2024-05-04,1,,"
      "trace\n",
      "a.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  const auto& tmin = read->record.values(Variable::tmin);
  EXPECT_TRUE(std::isnan(tmin[0]) && std::isnan(tmin[1]));
  EXPECT_EQ(read->record.values(Variable::rain)[0], 0.0);
  EXPECT_TRUE(std::isnan(read->record.values(Variable::rain)[2]));
  EXPECT_EQ(read->record.values(Variable::rain)[3], 0.0);
}

TEST(WeatherTable, OptionsNameColumnsAndUnits) {
  ReadOptions options;
  options.columns = {
      {"when", "date", ""}, {"cold", "tmin", "F"}, {"warm", "tmax", "F"}, {"wet", "rain", "in"}};
  const auto read = read_weather("when,cold,warm,wet\n2024-05-01,32,50,1\n", "a.csv", options);
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_NEAR(read->record.values(Variable::tmin)[0], 0.0, 1e-9);
  EXPECT_NEAR(read->record.values(Variable::rain)[0], 25.4, 1e-9);
  ReadOptions units;
  units.units = {{"tmin", "F"}, {"tmax", "F"}, {"rain", "in"}};
  const auto home = read_weather(
      "year,month,day,date,day_of_year,PRCP,SNOW,SNWD,TMAX,TMIN\n"
      "1938,04,01,1938-04-01,91,NA,NA,NA,35.96,30.02\n1938,04,02,1938-04-02,92,0.1,NA,NA,33.08,26.96\n",
      "home.csv", units);
  ASSERT_TRUE(home) << to_text(home.error());
  EXPECT_NEAR(home->record.values(Variable::tmax)[0], 2.2, 1e-9);
  EXPECT_NEAR(home->record.values(Variable::rain)[1], 2.54, 1e-9);
}

TEST(WeatherTable, PutsReadingsOfOneDayTogether) {
  std::string text = "Date,Time,Temp (°C),Rain (mm),Humidity (%)\n";
  for (int hour = 0; hour < 24; ++hour) {
    text += "2024-05-01," + std::to_string(hour) + ":00," + std::to_string(hour) + ",0.5,60\n";
  }
  for (int hour = 0; hour < 6; ++hour) text += "2024-05-02," + std::to_string(hour) + ":00,3,0,60\n";
  for (int hour = 0; hour < 24; ++hour) text += "2024-05-03," + std::to_string(hour) + ":00,9,0,80\n";
  const auto read = read_weather(text, "logger.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  ASSERT_EQ(read->record.day_count(), 3U);
  EXPECT_EQ(read->record.values(Variable::tmin)[0], 0.0);
  EXPECT_EQ(read->record.values(Variable::tmax)[0], 23.0);
  EXPECT_NEAR(read->record.values(Variable::rain)[0], 12.0, 1e-9);
  EXPECT_TRUE(std::isnan(read->record.values(Variable::tmin)[1])) << "a quarter of a day is no day";
  EXPECT_EQ(read->findings.at(0).check, "incomplete-day");
}

TEST(WeatherTable, ReadsTheCanadianDailyForm) {
  const auto read = read_weather(
      "\xEF\xBB\xBF\"Longitude (x)\",\"Latitude (y)\",\"Station Name\",\"Climate "
      "ID\",\"Date/Time\",\"Year\",\"Month\","
      "\"Day\",\"Data Quality\",\"Max Temp (°C)\",\"Max Temp Flag\",\"Min Temp (°C)\",\"Min Temp "
      "Flag\",\"Mean Temp (°C)\","
      "\"Total Rain (mm)\",\"Total Rain Flag\",\"Total Precip (mm)\",\"Total Precip Flag\",\"Spd of Max Gust "
      "(km/h)\"\n"
      "\"-123.18\",\"49.19\",\"SOMEWHERE "
      "A\",\"1108395\",\"2024-03-01\",\"2024\",\"03\",\"01\",\"\",\"7.1\",\"\",\"-0.4\",\"\","
      "\"3.4\",\"\",\"M\",\"2.2\",\"\",\"33\"\n"
      "\"-123.18\",\"49.19\",\"SOMEWHERE "
      "A\",\"1108395\",\"2024-03-02\",\"2024\",\"03\",\"02\",\"\",\"\",\"M\",\"\",\"M\","
      "\"\",\"\",\"\",\"\",\"\",\"\"\n",
      "en_climate_daily.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->record.day_count(), 1U) << "rows of days to come are empty";
  EXPECT_EQ(read->record.values(Variable::tmin)[0], -0.4);
  EXPECT_EQ(read->record.values(Variable::rain)[0], 2.2) << "total precipitation, not rain alone";
  EXPECT_TRUE(read->site_stated);
}

TEST(WeatherTable, SharesTheAustralianTotalsOfSeveralDays) {
  const auto read = read_weather(
      "Product code,Bureau of Meteorology station number,Year,Month,Day,Rainfall amount (millimetres),Period "
      "over which "
      "rainfall was measured (days),Quality\n"
      "IDCJAC0009,066062,2024,01,01,4.2,1,Y\nIDCJAC0009,066062,2024,01,02,,,\nIDCJAC0009,066062,2024,01,03,9,"
      "2,Y\n",
      "IDCJAC0009.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->record.values(Variable::rain), (std::vector<double>{4.2, 4.5, 4.5}));
  EXPECT_EQ(read->record.of(Variable::rain).origin[2], ValueOrigin::estimated);
}

TEST(WeatherTable, ReadsSecondsSince1970) {
  const auto read = read_weather(
      "dateTime,outTemp_c,rain_mm\n1714521600,10,0\n1714525200,12,1\n1714528800,11,0\n", "a.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->record.first, date_of(2024, 5, 1));
  EXPECT_EQ(read->record.values(Variable::tmax)[0], 12.0);
}

// Found by fuzzing.
TEST(WeatherTable, AByteOrderMarkAloneIsAnEmptyFile) {
  for (const char* bytes : {"\xEF\xBB\xBF", "\xEF\xBB\xBF \n"})
    EXPECT_EQ(read_weather(bytes, "a.csv").error().code, ProblemCode::empty);
}

TEST(WeatherTable, KnowsKelvinFromTenths) {
  const auto remedy = [](const char* row) {
    return read_weather("date,tmin,tmax\n" + std::string(row) + "\n", "a.csv").error().remedy;
  };
  EXPECT_NE(remedy("2024-05-01,278.2,291.4").find("kelvin"), std::string::npos);
  EXPECT_NE(remedy("2024-05-01,235,312").find("tenths"), std::string::npos) << "a warm place";
  EXPECT_NE(remedy("2024-05-01,52,291").find("tenths"), std::string::npos);
  EXPECT_EQ(remedy("2024-05-01,52,291").find("kelvin"), std::string::npos);
}

TEST(WeatherTable, SaysThatALastLineWithoutEndMayBeCutShort) {
  const auto cut = read_weather("date,tmin,tmax,rain\n2024-05-01,1,5,1", "a.csv");
  ASSERT_TRUE(cut);
  EXPECT_NE(cut->notes.back().find("cut short"), std::string::npos);
  const auto whole = read_weather("date,tmin,tmax,rain\n2024-05-01,1,5,12.5\n", "a.csv");
  ASSERT_TRUE(whole);
  for (const std::string& note : whole->notes) EXPECT_EQ(note.find("cut short"), std::string::npos);
}

TEST(WeatherTable, MarksAForecastAsForecast) {
  const auto read =
      read_weather("date,tmin,tmax\n2024-05-01,1,5\n", "a.csv", {.origin = ValueOrigin::forecast});
  ASSERT_TRUE(read);
  EXPECT_EQ(read->record.of(Variable::tmin).origin[0], ValueOrigin::forecast);
}

struct Refused {
  const char* name;
  const char* text;
  ProblemCode code;
};

void PrintTo(const Refused& refused, std::ostream* out) {
  *out << refused.name;
}

class WeatherTableRefuses : public ::testing::TestWithParam<Refused> {};

TEST_P(WeatherTableRefuses, WithOneClearProblem) {
  const auto read = read_weather(GetParam().text, "bad.csv");
  ASSERT_FALSE(read);
  EXPECT_EQ(base::problem_code_text(read.error().code), base::problem_code_text(GetParam().code))
      << to_text(read.error());
  EXPECT_EQ(read.error().where.file, "bad.csv");
  EXPECT_FALSE(read.error().remedy.empty()) << to_text(read.error());
}

INSTANTIATE_TEST_SUITE_P(
    Bad, WeatherTableRefuses,
    ::testing::Values(
        Refused{"Empty", "", ProblemCode::empty}, Refused{"Blank", " \n\r\n", ProblemCode::empty},
        Refused{"HeadingOnly", "date,tmin,tmax\n", ProblemCode::insufficient_data},
        Refused{"NoDate", "tmin,tmax,rain\n1,2,3\n", ProblemCode::missing_field},
        Refused{"NoWeather", "date,mood\n2024-01-01,good\n", ProblemCode::missing_field},
        Refused{"Prose", "It was a dark and stormy night.\n", ProblemCode::missing_field},
        Refused{"BadDate", "date,tmin,tmax\nyesterday,1,2\n", ProblemCode::syntax},
        Refused{"NoSuchDay", "date,tmin,tmax\n2023-02-29,1,2\n", ProblemCode::out_of_range},
        Refused{"BadNumber", "date,tmin,tmax\n2024-01-01,cold,2\n", ProblemCode::wrong_type},
        Refused{"CutOff", "date,tmin,tmax\n2024-01-01,1,2\n2024-01-0", ProblemCode::syntax},
        Refused{"OpenQuote", "date,tmin,tmax\n\"2024-01-01,1,2\n", ProblemCode::syntax},
        Refused{"WrongUnit", "date,tmin (mm),tmax (C)\n2024-01-01,1,2\n", ProblemCode::wrong_unit},
        Refused{"LooksLikeFahrenheit", "date,tmin,tmax\n2024-01-01,50,70\n", ProblemCode::wrong_unit},
        Refused{"RainUnitOpen", "date,tmin_f,tmax_f,rain\n2024-01-01,50,70,1\n", ProblemCode::ambiguous},
        Refused{"TwoMinima", "date,tmin,temp_min,tmax\n2024-01-01,1,2,3\n", ProblemCode::ambiguous},
        Refused{"Swapped", "date,tmin,tmax\n2024-01-01,9,2\n", ProblemCode::contradiction},
        Refused{"NegativeRain", "date,tmin,tmax,rain\n2024-01-01,1,2,-5\n", ProblemCode::out_of_range},
        Refused{"TwiceDifferent", "date,tmin,tmax\n2024-01-01,1,2\n2024-01-01,2,3\n",
                ProblemCode::contradiction},
        Refused{"AllMissing", "date,tmin,tmax\n2024-01-01,,\n", ProblemCode::insufficient_data}),
    [](const ::testing::TestParamInfo<Refused>& refused) { return std::string(refused.param.name); });

TEST(WeatherTable, RefusesBinaryAndUtf16) {
  const std::string binary("date,tmin\0\x01\x02", 12);
  EXPECT_EQ(read_weather(binary, "a.bin").error().code, ProblemCode::syntax);
  const std::string wide(
      "\xFF\xFE"
      "d\0a\0t\0e\0",
      10);
  EXPECT_NE(read_weather(wide, "a.csv").error().what.find("UTF-16"), std::string::npos);
}

TEST(WeatherTable, RefusesStrangeOptions) {
  const std::string text = "date,tmin,tmax\n2024-01-01,1,2\n";
  EXPECT_EQ(read_weather(text, "a", {.format = "nonsense"}).error().code, ProblemCode::not_found);
  EXPECT_EQ(read_weather(text, "a", {.wind_height_m = -1.0}).error().code, ProblemCode::out_of_range);
  EXPECT_EQ(read_weather(text, "a", {.columns = {{"t", "tmin", ""}}}).error().code, ProblemCode::not_found);
  EXPECT_EQ(read_weather(text, "a", {.columns = {{"tmin", "mood", ""}}}).error().code,
            ProblemCode::unknown_field);
  EXPECT_EQ(read_weather(text, "a", {.units = {{"tmin", "furlong"}}}).error().code, ProblemCode::wrong_unit);
}

RC_GTEST_PROP(WeatherTable, AnyOrderOfColumnsReadsTheSame, ()) {
  const auto low = *rc::gen::inRange(-300, 200);
  const auto high = low + *rc::gen::inRange(0, 200);
  const auto rain = *rc::gen::inRange(0, 500);
  const auto tenths = [](int value) { return std::to_string(value / 10.0); };
  const std::vector<std::pair<std::string, std::string>> columns{
      {"date", "2024-02-29"}, {"tmin", tenths(low)}, {"tmax", tenths(high)}, {"rain", tenths(rain)}};
  std::vector<std::size_t> order{0, 1, 2, 3};
  const auto shuffled = *rc::gen::arbitrary<std::uint8_t>();
  for (int i = 0; i < shuffled % 24; ++i) std::next_permutation(order.begin(), order.end());
  std::string heading, row;
  for (const std::size_t i : order) {
    heading += (heading.empty() ? "" : ";") + columns[i].first;
    row += (row.empty() ? "" : ";") + columns[i].second;
  }
  const auto read = read_weather(heading + "\n" + row + "\n", "a.csv");
  RC_ASSERT(read.has_value());
  RC_ASSERT(std::abs(read->record.values(Variable::tmin)[0] - low / 10.0) < 1e-9);
  RC_ASSERT(std::abs(read->record.values(Variable::tmax)[0] - high / 10.0) < 1e-9);
  RC_ASSERT(std::abs(read->record.values(Variable::rain)[0] - rain / 10.0) < 1e-9);
}

RC_GTEST_PROP(WeatherTable, AnyBytesGiveAnAnswer, (const std::string& bytes)) {
  const auto read = read_weather(bytes, "any");
  RC_ASSERT(read.has_value() || !read.error().what.empty());
}

}  // namespace
}  // namespace sowtide::climate
