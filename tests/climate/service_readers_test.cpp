// Exports of weather services, hourly years and JSON. Real excerpts stand in tests/published/weather (sources
// in its README); what is made up here follows the layouts in docs/formats/weather.md.
#include <gtest/gtest.h>

#include <cmath>
#include <ostream>

#include "base/file.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;
using base::ProblemCode;

std::string published(const std::string& name) {
  return *base::read_file(std::string(SOWTIDE_SOURCE_DIR) + "/tests/published/weather/" + name);
}

double value_on(const WeatherRecord& record, Variable variable, base::Date day) {
  return record.values(variable)[static_cast<std::size_t>((day - record.first).count())];
}

constexpr const char* kGsodHeading =
    "\"STATION\",\"DATE\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"NAME\",\"TEMP\",\"TEMP_ATTRIBUTES\","
    "\"DEWP\","
    "\"DEWP_ATTRIBUTES\",\"WDSP\",\"WDSP_ATTRIBUTES\",\"MXSPD\",\"GUST\",\"MAX\",\"MAX_ATTRIBUTES\",\"MIN\","
    "\"MIN_ATTRIBUTES\",\"PRCP\",\"PRCP_ATTRIBUTES\",\"SNDP\",\"FRSHTT\"\n";

std::string gsod_day(const std::string& date, const std::string& max, const std::string& min,
                     const std::string& rain) {
  return "\"72793024233\",\"" + date +
         "\",\"47.44467\",\"-122.31442\",\"112.5\",\"SEATTLE, WA US\",\"  45.4\",\"24\",\"  41.0\",\"24\"," +
         "\"  10.0\",\"24\",\" 15.0\",\"999.9\",\"" + max + "\",\" \",\"" + min + "\",\"*\",\"" + rain +
         "\",\"G\",\"999.9\",\"010000\"\n";
}

TEST(Gsod, ReadsFahrenheitInchesAndKnots) {
  const auto read = read_weather(kGsodHeading + gsod_day("2020-01-01", "  50.0", "  41.0", " 0.50") +
                                     gsod_day("2020-01-02", "9999.9", "  32.0", "99.99"),
                                 "g.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "gsod");
  EXPECT_NEAR(read->record.values(Variable::tmax)[0], 10.0, 1e-9);
  EXPECT_NEAR(read->record.values(Variable::tmin)[0], 5.0, 1e-9);
  EXPECT_NEAR(read->record.values(Variable::rain)[0], 12.7, 1e-9);
  EXPECT_TRUE(std::isnan(read->record.values(Variable::tmax)[1]));
  EXPECT_TRUE(std::isnan(read->record.values(Variable::rain)[1]));
  // 10 knots at 10 m: FAO-56 eq. 47 gives 0.748 of it at 2 m.
  EXPECT_NEAR(read->record.values(Variable::wind)[0], 5.144 * 0.748, 0.01);
  EXPECT_EQ(read->record.of(Variable::humidity).origin[0], ValueOrigin::estimated);
  EXPECT_TRUE(read->site_stated);
  EXPECT_DOUBLE_EQ(read->record.site.elevation_m, 112.5);
}

TEST(Knmi, ReadsARealMonth) {
  const auto read = read_weather(published("knmi_279_2019-07.txt"), "etmgeg_279.txt");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "knmi");
  EXPECT_EQ(read->record.first, date_of(2019, 7, 1))
      << "a row of 1989 without values is no day of the record";
  EXPECT_EQ(read->record.day_count(), 31U);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::tmax, date_of(2019, 7, 25)), 39.0);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::tmin, date_of(2019, 7, 25)), 16.6);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::radiation, date_of(2019, 7, 25)), 24.36);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::sunshine, date_of(2019, 7, 25)), 12.3);
  EXPECT_EQ(value_on(read->record, Variable::rain, date_of(2019, 7, 30)), 0.0) << "-1 is less than 0.05 mm";
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::rain, date_of(2019, 7, 31)), 2.6);
  ASSERT_NE(read->find_extra("grass-minimum"), nullptr);
  EXPECT_DOUBLE_EQ(read->find_extra("grass-minimum")->value[24], 15.3);
}

TEST(MetEireann, ReadsARealMonth) {
  const auto read = read_weather(published("met_eireann_3904_1983-07.csv"), "dly3904.csv");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "met-eireann");
  EXPECT_EQ(read->record.site.name, "CORK AIRPORT");
  EXPECT_DOUBLE_EQ(read->record.site.latitude_deg, 51.847);
  EXPECT_DOUBLE_EQ(read->record.site.longitude_deg, -8.486);
  EXPECT_DOUBLE_EQ(read->record.site.elevation_m, 155.0);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::tmax, date_of(1983, 7, 14)), 28.7);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::tmin, date_of(1983, 7, 14)), 19.0);
  EXPECT_DOUBLE_EQ(value_on(read->record, Variable::rain, date_of(1983, 7, 31)), 0.8);
  ASSERT_NE(read->find_extra("soil-temperature-10cm"), nullptr);
  EXPECT_DOUBLE_EQ(read->find_extra("soil-temperature-10cm")->value[13], 23.125);
  EXPECT_DOUBLE_EQ(read->find_extra("soil-moisture-deficit-well-drained")->value[30], 55.2);
}

TEST(Dwd, ReadsPaddedSemicolons) {
  const auto read = read_weather(
      "STATIONS_ID;MESS_DATUM;QN_3;  FX;  FM;QN_4; RSK;RSKF; SDK;SHK_TAG;  NM; VPM;  PM; TMK; UPM; TXK; TNK; "
      "TGK;eor\n"
      "         44;20200101;    3;   9.2;   3.1;    3;   0.3;   8;  1.200;   0;   6.1;   6.5; 1030.1;   2.2; "
      " 90.00;   "
      "5.3;  -1.2;  -3.4;eor\n"
      "         44;20200102;    3;-999;-999;    3;-999;-999;  1.200;-999;   6.1;   6.5; 1030.1;   2.2;  "
      "90.00;   "
      "5.3;  -999;  -3.4;eor\n",
      "produkt_klima_tag.txt");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "dwd-daily");
  EXPECT_DOUBLE_EQ(read->record.values(Variable::tmin)[0], -1.2);
  EXPECT_TRUE(std::isnan(read->record.values(Variable::tmin)[1]));
  EXPECT_DOUBLE_EQ(read->record.values(Variable::rain)[0], 0.3);
  EXPECT_DOUBLE_EQ(read->find_extra("vapour-pressure")->value[0], 0.65);
}

TEST(UsClimateReference, ReadsTheDailyProduct) {
  const auto read = read_weather(
      "64756 20200101  2.622  -73.74   41.79     5.9    -1.2     2.3     2.5     1.3     4.01 C    12.1    "
      "-5.2     1.1    "
      "93.5    51.2    76.4   0.328   0.329   0.284   0.242   0.239     2.9     3.1     3.8     6.2     8.2\n"
      "64756 20200102  2.622  -73.74   41.79 -9999.0    -1.2     2.3     2.5 -9999.0     4.01 C    12.1    "
      "-5.2     1.1    "
      "93.5    51.2 -9999.0 -99.000   0.329   0.284   0.242   0.239     2.9     3.1     3.8     6.2     "
      "8.2\n",
      "CRND0103-2020-NY_Millbrook_3_W.txt");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "uscrn-daily");
  EXPECT_DOUBLE_EQ(read->record.values(Variable::tmax)[0], 5.9);
  EXPECT_TRUE(std::isnan(read->record.values(Variable::tmax)[1]));
  EXPECT_DOUBLE_EQ(read->record.values(Variable::radiation)[0], 4.01);
  EXPECT_DOUBLE_EQ(read->record.site.latitude_deg, 41.79);
  EXPECT_DOUBLE_EQ(read->find_extra("soil-temperature-10cm")->value[0], 3.1);
}

// Expected values computed from the excerpts with a few lines of Python, apart from this program.
TEST(TypicalYears, ReduceHoursToDays) {
  const auto epw = read_weather(published("pvgis_45N_8E_two_days.epw"), "a.epw");
  ASSERT_TRUE(epw) << to_text(epw.error());
  EXPECT_EQ(epw->format, "epw");
  EXPECT_DOUBLE_EQ(epw->record.site.latitude_deg, 45.0);
  EXPECT_DOUBLE_EQ(epw->record.site.elevation_m, 250.0);
  EXPECT_DOUBLE_EQ(epw->record.values(Variable::tmin)[0], 0.88);
  EXPECT_DOUBLE_EQ(epw->record.values(Variable::tmax)[1], 12.06);
  EXPECT_NEAR(epw->record.values(Variable::radiation)[1], 7.0704, 1e-9);
  EXPECT_NEAR(epw->record.values(Variable::humidity)[0], 91.16875, 1e-9);
  EXPECT_TRUE(std::isnan(epw->record.values(Variable::rain)[0]));

  const auto tmy3 = read_weather(published("tmy3_703165_two_days.csv"), "a.csv");
  ASSERT_TRUE(tmy3) << to_text(tmy3.error());
  EXPECT_EQ(tmy3->format, "tmy3");
  EXPECT_DOUBLE_EQ(tmy3->record.site.longitude_deg, -160.517);
  EXPECT_DOUBLE_EQ(tmy3->record.values(Variable::tmax)[0], 7.0);
  EXPECT_NEAR(tmy3->record.values(Variable::radiation)[1], 1.4292, 1e-9);

  const auto tmy2 = read_weather(published("tmy2_12839_two_days.tm2"), "a.tm2");
  ASSERT_TRUE(tmy2) << to_text(tmy2.error());
  EXPECT_EQ(tmy2->format, "tmy2");
  EXPECT_NEAR(tmy2->record.site.latitude_deg, 25.8, 1e-9);
  EXPECT_NEAR(tmy2->record.site.longitude_deg, -80.26667, 1e-4);
  EXPECT_DOUBLE_EQ(tmy2->record.values(Variable::tmin)[1], 7.8);
  EXPECT_NEAR(tmy2->record.values(Variable::radiation)[0], 3.942, 1e-9);
  EXPECT_NEAR(tmy2->record.values(Variable::humidity)[0], 86.125, 1e-9);
}

TEST(TypicalYears, AreLaidIntoTheYearAskedFor) {
  const auto read = read_weather(published("tmy2_12839_two_days.tm2"), "a.tm2", {.typical_year = 2030});
  ASSERT_TRUE(read);
  EXPECT_TRUE(read->typical_year);
  EXPECT_EQ(read->record.first, date_of(2030, 1, 1));
}

TEST(TypicalYears, GiveTheirHours) {
  const auto hours = read_epw_hours(published("pvgis_45N_8E_two_days.epw"), "a.epw");
  ASSERT_TRUE(hours);
  EXPECT_EQ(hours->temperature_c.size(), 48U);
  EXPECT_EQ(hours->hour[0], 1);
  EXPECT_DOUBLE_EQ(hours->temperature_c[0], 2.04);
  EXPECT_DOUBLE_EQ(hours->utc_offset_h, 1.0);
}

TEST(TypicalYears, RefuseADayCutOff) {
  std::string text = published("pvgis_45N_8E_two_days.epw");
  text.resize(text.rfind('\n', text.size() - 2) + 1);
  const auto read = read_weather(text, "a.epw");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ProblemCode::syntax);
  EXPECT_EQ(read_weather("LOCATION,x,-,y,z,w,95.0,8.0,1,250\n", "a.epw").error().code,
            ProblemCode::out_of_range);
  EXPECT_EQ(read_weather("LOCATION,x,-,y,z,w,45.0,8.0,1,250\n", "a.epw").error().code,
            ProblemCode::missing_field);
}

TEST(WeatherJson, ReadsArraysByColumnWithUnits) {
  const auto read = read_weather(
      R"({"latitude":47.4,"longitude":-122.3,"elevation":110.0,"daily_units":{"time":"iso8601","temperature_2m_max":"°F",
          "temperature_2m_min":"°F","precipitation_sum":"inch","wind_speed_10m_mean":"mp/h"},
          "daily":{"time":["2024-05-01","2024-05-02"],"temperature_2m_max":[68.0,null],"temperature_2m_min":[50.0,41.0],
          "precipitation_sum":[0.5,0],"wind_speed_10m_mean":[10,10]}})",
      "a.json");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->format, "json");
  EXPECT_NEAR(read->record.values(Variable::tmax)[0], 20.0, 1e-9);
  EXPECT_TRUE(std::isnan(read->record.values(Variable::tmax)[1]));
  EXPECT_NEAR(read->record.values(Variable::rain)[0], 12.7, 1e-9);
  EXPECT_NEAR(read->record.values(Variable::wind)[0], 4.4704 * 0.748, 0.01);
  EXPECT_TRUE(read->site_stated);
  EXPECT_DOUBLE_EQ(read->record.site.elevation_m, 110.0);
}

TEST(WeatherJson, ReadsHoursIntoDays) {
  std::string times, values;
  for (int hour = 0; hour < 24; ++hour) {
    times += (hour ? "," : "") + std::string("\"2024-05-01T") + (hour < 10 ? "0" : "") +
             std::to_string(hour) + ":00\"";
    values += (hour ? "," : "") + std::to_string(hour);
  }
  const auto read = read_weather(R"({"hourly_units":{"temperature_2m":"°C"},"hourly":{"time":[)" + times +
                                     R"(],"temperature_2m":[)" + values + "]}}",
                                 "a.json");
  ASSERT_TRUE(read) << to_text(read.error());
  EXPECT_EQ(read->record.values(Variable::tmax)[0], 23.0);
}

TEST(WeatherJson, ReadsObjectsByRowWideAndLong) {
  const auto wide = read_weather(
      R"([{"DATE":"2020-07-01","STATION":"USW1","TMAX":"281","TMIN":"150","PRCP":"25"},{"DATE":"2020-07-02","STATION":"USW1","TMAX":"290"}])",
      "a.json");
  ASSERT_TRUE(wide) << to_text(wide.error());
  EXPECT_DOUBLE_EQ(wide->record.values(Variable::tmax)[1], 29.0);
  const auto plain =
      read_weather(R"({"days":[{"date":"2020-07-01","tmin":15,"tmax":28.1,"rain":2.5}]})", "a.json");
  ASSERT_TRUE(plain) << to_text(plain.error());
  EXPECT_DOUBLE_EQ(plain->record.values(Variable::rain)[0], 2.5);
  const auto long_form = read_weather(
      R"({"results":[{"date":"2001-01-01T00:00:00","datatype":"TMAX","station":"GHCND:USW00094728","attributes":",,0,2400","value":56},
                     {"date":"2001-01-01T00:00:00","datatype":"TMIN","station":"GHCND:USW00094728","attributes":",I,0,2400","value":-33}]})",
      "a.json");
  ASSERT_TRUE(long_form) << to_text(long_form.error());
  EXPECT_DOUBLE_EQ(long_form->record.values(Variable::tmax)[0], 5.6);
  EXPECT_EQ(long_form->findings.size(), 1U) << "flag I";
}

TEST(WeatherJson, RefusesBrokenDeepAndEmptyDocuments) {
  EXPECT_EQ(read_weather(R"({"daily":{"time":["2024-05-01")", "a.json").error().code, ProblemCode::syntax);
  EXPECT_EQ(read_weather(std::string(100, '['), "a.json").error().code, ProblemCode::too_large);
  EXPECT_EQ(read_weather(R"([{"date":"2024-05-01","tmin":1e999}])", "a.json").error().code, ProblemCode::out_of_range);
  EXPECT_EQ(read_weather("{}", "a.json").error().code, ProblemCode::missing_field);
  EXPECT_EQ(read_weather("[]", "a.json").error().code, ProblemCode::missing_field);
  EXPECT_EQ(read_weather(R"({"daily":{"time":["2024-05-01"],"mood":[1]}})", "a.json").error().code,
            ProblemCode::missing_field);
  EXPECT_EQ(read_weather(R"([{"date":"2024-05-01","tmin":"cold","tmax":1}])", "a.json").error().code,
            ProblemCode::wrong_type);
}

struct Format {
  const char* name;
  std::string good;
  std::string wrong_value;  ///< the good file with one figure that is none
};

void PrintTo(const Format& format, std::ostream* out) {
  *out << format.name;
}

class EveryFixedFormat : public ::testing::TestWithParam<Format> {};

TEST_P(EveryFixedFormat, RefusesEmptyBinaryAndCutOffFiles) {
  const std::string format = GetParam().name;
  ASSERT_TRUE(read_weather(GetParam().good, "f")) << to_text(read_weather(GetParam().good, "f").error());
  EXPECT_EQ(read_weather("", "f", {.format = format}).error().code, ProblemCode::empty);
  EXPECT_EQ(read_weather(std::string("\0\1\2\3", 4), "f", {.format = format}).error().code,
            ProblemCode::syntax);
  EXPECT_FALSE(read_weather("some words\nand more words\n", "f", {.format = format}));
  const std::string cut = GetParam().good.substr(0, GetParam().good.size() - 40);
  const auto read = read_weather(cut, "f", {.format = format});
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ProblemCode::syntax) << to_text(read.error());
  EXPECT_FALSE(read.error().remedy.empty());
}

TEST_P(EveryFixedFormat, NamesTheLineOfAFigureThatIsNone) {
  const auto read = read_weather(GetParam().wrong_value, "f", {.format = GetParam().name});
  ASSERT_FALSE(read);
  EXPECT_GT(read.error().where.line, 0) << to_text(read.error());
}

std::string with(std::string text, std::string_view from, std::string_view to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

INSTANTIATE_TEST_SUITE_P(
    Readers, EveryFixedFormat,
    ::testing::Values(Format{"gsod", kGsodHeading + gsod_day("2020-01-01", "  50.0", "  41.0", " 0.50"),
                             kGsodHeading + gsod_day("2020-01-01", "  warm", "  41.0", " 0.50")},
                      Format{"knmi", published("knmi_279_2019-07.txt"),
                             with(published("knmi_279_2019-07.txt"), "4,  390,   16,", "4,  3x0,   16,")},
                      Format{"met-eireann", published("met_eireann_3904_1983-07.csv"),
                             with(published("met_eireann_3904_1983-07.csv"), ",28.7,", ",2B.7,")},
                      Format{"epw", published("pvgis_45N_8E_two_days.epw"),
                             with(published("pvgis_45N_8E_two_days.epw"), ",2.04,", ",2,04x,")},
                      Format{"tmy3", published("tmy3_703165_two_days.csv"),
                             with(published("tmy3_703165_two_days.csv"), "4.0,E,9,3.0", "4.0x,E,9,3.0")},
                      Format{"tmy2", published("tmy2_12839_two_days.tm2"),
                             with(published("tmy2_12839_two_days.tm2"), "0200A7", "02x0A7")}),
    [](const ::testing::TestParamInfo<Format>& format) {
      std::string name = format.param.name;
      std::erase(name, '-');
      return name;
    });

}  // namespace
}  // namespace sowtide::climate
