// Imported records against figures worked out from the published files by other means, and against the
// world's records of these stations. Sources: tests/published/weather/README.md and
// tests/published/records/README.md.
//
// Longer series are read in place from the directory named by SOWTIDE_WEATHER_DATA; without it those tests
// are skipped.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <map>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "climate/quality.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;

const std::string kPublished = std::string(SOWTIDE_SOURCE_DIR) + "/tests/published/";

/// Mean over the months' means, year by year, of one calendar month: the convention of the figures' script.
double mean_of_month(const WeatherRecord& record, Variable variable, int month) {
  double sum = 0.0;
  int count = 0;
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    const double value = record.values(variable)[i];
    if (base::month_of(record.date_at(i)) != month || std::isnan(value)) continue;
    sum += value;
    ++count;
  }
  return sum / count;
}

double mean_year_of_rain(const WeatherRecord& record, int years) {
  double sum = 0.0;
  for (const double value : record.values(Variable::rain)) sum += std::isnan(value) ? 0.0 : value;
  return sum / years;
}

TEST(WeatherRecords, GiveTheMonthlyMeansAndYearlyRainOfTheirStations) {
  const auto text = base::read_file(kPublished + "weather/record_values.csv");
  ASSERT_TRUE(text);
  const auto table = base::parse_csv(*text, "record_values.csv");
  ASSERT_TRUE(table);
  std::map<std::string, WeatherRecord> records;
  for (const base::CsvRow& row : table->rows) {
    const std::string& name = row.cells[0];
    if (!records.contains(name)) {
      const auto bytes = base::read_file(kPublished + "records/" + name + ".csv.gz");
      ASSERT_TRUE(bytes) << name;
      const auto read = read_weather(*bytes, name);
      ASSERT_TRUE(read) << to_text(read.error());
      records[name] = read->record;
    }
    const WeatherRecord& record = records[name];
    const std::string& figure = row.cells[1];
    const double expected = *base::parse_number(row.cells[2]);
    if (figure == "rain_year_mean") {
      const int years = base::year_of(record.last()) - base::year_of(record.first) + 1;
      EXPECT_NEAR(mean_year_of_rain(record, years), expected, 0.051) << name;
      continue;
    }
    const Variable variable = figure.starts_with("tmax") ? Variable::tmax : Variable::tmin;
    EXPECT_NEAR(mean_of_month(record, variable, std::stoi(figure.substr(10))), expected, 0.0051)
        << name << " " << figure;
  }
  EXPECT_EQ(records.size(), 4U);
}

struct Extremes {
  const char* file;
  const char* station;
  double highest_c;
  base::Date hottest;
  double lowest_c;
  base::Date coldest;
  double wettest_mm;
  base::Date wettest;
};

std::ostream& operator<<(std::ostream& out, const Extremes& extremes) {
  return out << extremes.file;
}

class WholeSeries : public ::testing::TestWithParam<Extremes> {};

std::size_t place_of_extreme(const std::vector<double>& values, double sign) {
  std::size_t best = 0;
  double highest = -1e300;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (std::isnan(values[i]) || sign * values[i] <= highest) continue;
    highest = sign * values[i];
    best = i;
  }
  return best;
}

/// Highest, lowest and wettest day as found in the published files by an independent script.
TEST_P(WholeSeries, KeepsItsRecordDays) {
  const char* directory = std::getenv("SOWTIDE_WEATHER_DATA");
  if (directory == nullptr) GTEST_SKIP() << "SOWTIDE_WEATHER_DATA names no directory of weather files";
  const std::string path = std::string(directory) + "/" + GetParam().file;
  if (!std::filesystem::exists(path)) GTEST_SKIP() << path << " is not there";
  ReadOptions options{.station = GetParam().station};
  if (path.find("home_export") != std::string::npos)
    options.units = {{"tmin", "F"}, {"tmax", "F"}, {"rain", "in"}};
  const auto bytes = base::read_file(path);
  ASSERT_TRUE(bytes);
  const auto read = read_weather(*bytes, path, options);
  ASSERT_TRUE(read) << to_text(read.error());
  const WeatherRecord& record = read->record;
  const auto check = [&](Variable variable, double sign, double value, base::Date date) {
    const std::size_t at = place_of_extreme(record.values(variable), sign);
    EXPECT_NEAR(record.values(variable)[at], value, 0.051);
    EXPECT_EQ(base::to_iso(record.date_at(at)), base::to_iso(date));
  };
  check(Variable::tmax, 1.0, GetParam().highest_c, GetParam().hottest);
  check(Variable::tmin, -1.0, GetParam().lowest_c, GetParam().coldest);
  check(Variable::rain, 1.0, GetParam().wettest_mm, GetParam().wettest);
  // The record days of checked stations are weather, so quality control must leave the temperatures among
  // them.
  const QualityOutcome checked = control_quality(record);
  EXPECT_FALSE(std::isnan(
      checked.record.values(Variable::tmax)[place_of_extreme(record.values(Variable::tmax), 1.0)]));
  EXPECT_FALSE(std::isnan(
      checked.record.values(Variable::tmin)[place_of_extreme(record.values(Variable::tmin), -1.0)]));
}

INSTANTIATE_TEST_SUITE_P(
    Stations, WholeSeries,
    ::testing::Values(Extremes{"daily/knmi_249_berkhout_etmgeg.txt.gz", "", 35.7, date_of(2019, 7, 25), -21.9,
                               date_of(2012, 2, 4), 56.9, date_of(2004, 8, 20)},
                      Extremes{"daily/knmi_251_terschelling_etmgeg.txt.gz", "", 33.0, date_of(2018, 7, 26),
                               -12.3, date_of(2021, 2, 11), 84.0, date_of(1995, 7, 9)},
                      Extremes{"daily/knmi_257_wijk_aan_zee_etmgeg.txt.gz", "", 37.3, date_of(2022, 7, 19),
                               -15.9, date_of(2012, 2, 4), 96.6, date_of(2014, 7, 28)},
                      Extremes{"daily/knmi_279_hoogeveen_etmgeg.txt.gz", "", 39.0, date_of(2019, 7, 25),
                               -19.7, date_of(2005, 3, 4), 62.2, date_of(2014, 5, 26)},
                      Extremes{"daily/knmi_356_herwijnen_etmgeg.txt.gz", "", 37.6, date_of(2019, 7, 26),
                               -21.4, date_of(2012, 2, 4), 99.1, date_of(2011, 6, 28)},
                      Extremes{"daily/ghcn_USW00014839_milwaukee_home_export.csv.gz", "", 39.4,
                               date_of(1988, 8, 1), -32.2, date_of(1982, 1, 17), 173.0, date_of(1986, 8, 6)},
                      Extremes{"daily/vega_seattle_weather_2012-2015.csv", "", 35.6, date_of(2014, 8, 11),
                               -7.1, date_of(2013, 12, 7), 55.9, date_of(2015, 3, 15)},
                      Extremes{"daily/vega_weather_seattle_newyork_2012-2015.csv", "New York", 37.8,
                               date_of(2013, 7, 18), -16.0, date_of(2014, 1, 4), 118.9, date_of(2014, 4, 30)},
                      Extremes{"soil/meteireann_3904_cork_airport_dly.csv.gz", "", 28.7, date_of(1983, 7, 14),
                               -8.6, date_of(1969, 2, 17), 87.0, date_of(1997, 8, 3)},
                      Extremes{"et/azmet_maricopa_2003-2020_ETo.wth.gz", "", 48.0, date_of(2017, 6, 20), -8.7,
                               date_of(2011, 2, 4), 56.9, date_of(2006, 3, 11)},
                      Extremes{"et/daily_eto_tunis.txt.gz", "", 46.6, date_of(1982, 8, 1), -2.0,
                               date_of(1979, 1, 18), 84.0, date_of(1996, 2, 27)},
                      Extremes{"et/daily_eto_brussels.txt.gz", "", 35.4, date_of(1976, 7, 3), -16.8,
                               date_of(1985, 1, 8), 56.7, date_of(1996, 8, 29)},
                      Extremes{"et/daily_eto_champion.txt.gz", "", 43.74, date_of(1990, 7, 1), -37.1,
                               date_of(1989, 12, 22), 85.0, date_of(2005, 6, 10)},
                      Extremes{"et/daily_eto_hyderabad.txt.gz", "", 42.8, date_of(2003, 6, 2), 5.0,
                               date_of(2003, 1, 17), 263.6, date_of(2000, 8, 23)},
                      Extremes{"et/daily_eto_cordoba.txt.gz", "", 42.4, date_of(2017, 12, 16), -6.21,
                               date_of(2007, 7, 10), 102.43, date_of(2001, 3, 10)}));

/// NOAA NCEI, GHCN-Daily USW00094728 of 1869: flag I stands on TMAX of 22 June (17.2 °C beside TMIN 16.1 °C).
TEST(WeatherRecords, TheFlaggedMaximumOfNewYork1869IsTakenOut) {
  const auto bytes = base::read_file(kPublished + "weather/ghcn_USW00094728_1869.dly");
  ASSERT_TRUE(bytes);
  const auto read = read_weather(*bytes, "USW00094728.dly");
  ASSERT_TRUE(read) << to_text(read.error());
  ASSERT_EQ(read->findings.size(), 1U);
  EXPECT_EQ(base::to_iso(read->findings[0].date), "1869-06-22");
  EXPECT_EQ(read->findings[0].variable, Variable::tmax);
  EXPECT_NEAR(read->findings[0].value, 17.2, 1e-9);
  const auto at = static_cast<std::size_t>((date_of(1869, 6, 22) - read->record.first).count());
  EXPECT_TRUE(std::isnan(read->record.values(Variable::tmax)[at]));
  EXPECT_NEAR(read->record.values(Variable::tmin)[at], 16.1, 1e-9);
}

}  // namespace
}  // namespace sowtide::climate
