// Every row of climate_figures.csv: a published figure, worked out by the engine as the `figure` verb does
// it. The tolerance of a row is half its last printed digit unless its source column says why not.
#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "climate/figures.hpp"
#include "climate/radiation.hpp"
#include "climate/solar_position.hpp"

namespace {

using namespace sowtide;
using base::Degrees;

base::FigureInputs inputs_of(const std::string& text) {
  base::FigureInputs inputs;
  std::istringstream words(text);
  for (std::string word; words >> word;)
    inputs[word.substr(0, word.find('='))] = word.substr(word.find('=') + 1);
  return inputs;
}

std::optional<double> number_of(const base::Explanation& explanation, const std::string& field) {
  for (const base::ExplainedField& result : explanation.result) {
    if (result.name == field && std::holds_alternative<double>(result.value))
      return std::get<double>(result.value);
  }
  return std::nullopt;
}

TEST(ClimateFigures, MatchThePublishedTable) {
  const std::string file = SOWTIDE_SOURCE_DIR "/tests/published/climate_figures.csv";
  const auto table = base::parse_csv(base::read_file(file).value(), file).value();
  ASSERT_GT(table.rows.size(), 80U);
  for (const base::CsvRow& row : table.rows) {
    SCOPED_TRACE(file + ":" + std::to_string(row.line) + ": " + row.cells.at(1) + " " + row.cells.at(2));
    ASSERT_FALSE(row.cells.at(6).empty()) << "a row without a source";
    const auto explanation = climate::climate_figure(row.cells.at(1), inputs_of(row.cells.at(2)));
    ASSERT_TRUE(explanation) << base::to_text(explanation.error());
    const auto computed = number_of(*explanation, row.cells.at(3));
    ASSERT_TRUE(computed) << row.cells.at(3);
    EXPECT_NEAR(*computed, *base::parse_number(row.cells.at(4)), *base::parse_number(row.cells.at(5)));
    EXPECT_FALSE(explanation->source.empty());
    EXPECT_FALSE(explanation->working.empty());
  }
}

struct PublishedSunDay {
  base::Date date;
  climate::Observer observer;
  double utc_offset_h;
  const char* rise;
  const char* transit;
  const char* set;
  int tolerance_s;
  const char* source;
};

int seconds_of_day(climate::UtcTime moment, double utc_offset_h) {
  const auto local = moment + std::chrono::seconds{static_cast<int>(utc_offset_h * 3600.0)};
  const auto day = std::chrono::floor<std::chrono::days>(local);
  return static_cast<int>(std::chrono::round<std::chrono::seconds>(local - day).count());
}

int seconds_of(const std::string& clock) {
  return std::stoi(clock.substr(0, 2)) * 3600 + std::stoi(clock.substr(3, 2)) * 60 +
         std::stoi(clock.substr(6, 2));
}

TEST(SunDay, RisesCrossesAndSetsAsPublished) {
  const climate::Observer golden{39.742476, -105.1786, 1830.14, 820.0, 11.0};
  const char* tables = "Reda and Andreas 2004, tables of sunrise and sunset";
  const PublishedSunDay days[] = {
      {base::date_of(1996, 7, 5), {-35.0, 0.0}, 0.0, "07:08:15", "12:04:36", "17:01:04", 5, tables},
      {base::date_of(2004, 12, 4), {-35.0, 0.0}, 0.0, "04:38:57", "11:50:22", "19:02:02", 5, tables},
      {base::date_of(2015, 1, 2), golden, -7.0, "07:21:55", "12:04:45", "16:47:43", 5,
       "NREL solar position calculator"},
      {base::date_of(2000, 1, 1),
       {40.0, -80.0},
       -5.0,
       "07:41:51",
       "12:23:23",
       "17:05:04",
       15,
       "values of an open solar library's tests, which disagree among themselves by 10 s"},
  };
  for (const PublishedSunDay& published : days) {
    SCOPED_TRACE(base::to_iso(published.date) + ": " + published.source);
    const climate::SunDay day =
        climate::sun_day(published.date, published.observer, base::Hours::of(published.utc_offset_h));
    ASSERT_TRUE(day.rise && day.set);
    EXPECT_NEAR(seconds_of_day(*day.rise, published.utc_offset_h), seconds_of(published.rise),
                published.tolerance_s);
    EXPECT_NEAR(seconds_of_day(day.transit, published.utc_offset_h), seconds_of(published.transit),
                published.tolerance_s);
    EXPECT_NEAR(seconds_of_day(*day.set, published.utc_offset_h), seconds_of(published.set),
                published.tolerance_s);
  }
}

TEST(ClearSky, MatchesHaurwitz1945) {
  // B. Haurwitz 1945, as tabulated in the tests of an open solar library.
  EXPECT_NEAR(climate::clear_sky_global_w_m2(Degrees::of(90.05)), 0.0, 1e-12);
  EXPECT_NEAR(climate::clear_sky_global_w_m2(Degrees::of(85.0)), 48.63, 0.005);
  EXPECT_NEAR(climate::clear_sky_global_w_m2(Degrees::of(80.0)), 135.74, 0.005);
  EXPECT_NEAR(climate::clear_sky_global_w_m2(Degrees::of(40.0)), 778.77, 0.005);
  EXPECT_NEAR(climate::clear_sky_global_w_m2(Degrees::of(0.0)), 1035.09, 0.005);
}

TEST(AirMass, MatchesKastenAndYoung1989) {
  EXPECT_NEAR(climate::relative_air_mass(Degrees::of(80.0)), 5.586, 0.0005);
  EXPECT_NEAR(climate::relative_air_mass(Degrees::of(89.9)), 36.467, 0.0005);
}

TEST(ExtraterrestrialNormal, MatchesSpencer1971) {
  EXPECT_NEAR(climate::extraterrestrial_normal_w_m2(300), 1383.6, 0.3);  // 26 October 2016
}

TEST(BeamAndDiffuse, MatchErbsKleinAndDuffie1982) {
  const auto june = climate::split_beam_and_diffuse(1000.0, Degrees::of(10.0), 180);
  EXPECT_NEAR(june.clearness, 0.76892, 0.00005);
  EXPECT_NEAR(june.beam_normal_w_m2, 842.358, 0.05);
  EXPECT_NEAR(june.diffuse_level_w_m2, 170.439, 0.05);
  const auto low = climate::split_beam_and_diffuse(50.0, Degrees::of(85.0), 1);
  EXPECT_NEAR(low.clearness, 0.405724, 0.00005);
  EXPECT_NEAR(low.beam_normal_w_m2, 96.719, 0.05);
  EXPECT_NEAR(low.diffuse_level_w_m2, 41.570, 0.05);
  const auto january = climate::split_beam_and_diffuse(1000.0, Degrees::of(10.0), 1);
  EXPECT_NEAR(january.clearness, 0.718133, 0.00005);
  EXPECT_NEAR(january.beam_normal_w_m2, 794.206, 0.05);
  EXPECT_NEAR(january.diffuse_level_w_m2, 217.860, 0.05);
}

TEST(SlopeLight, MatchesTheIsotropicSky) {
  // Values of an open solar library's tests.
  EXPECT_NEAR(climate::sky_light_on_slope_w_m2(100.0, Degrees::of(40.0)), 88.302, 0.0005);
  EXPECT_NEAR(climate::ground_light_on_slope_w_m2(900.0, 0.25, Degrees::of(40.0)), 26.320, 0.0005);
}

}  // namespace
