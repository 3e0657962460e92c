// What is said of a garden's weather, in its units.
#include "desk/weather_report.hpp"

#include <gtest/gtest.h>

namespace sowtide::desk {
namespace {

climate::QualityFinding finding(std::string detail) {
  climate::QualityFinding made;
  made.date = base::date_of(2025, 7, 1);
  made.variable = climate::Variable::tmax;
  made.check = "made-up";
  made.action = "removed";
  made.detail = std::move(detail);
  return made;
}

std::string told(std::string detail, Units units) {
  return findings_text({finding(std::move(detail))}, units);
}

TEST(WeatherReport, TellsFindingsInTheUnitsOfTheGarden) {
  const std::string detail = "minimum 20.0 °C, maximum -10.0 °C";
  EXPECT_NE(told(detail, Units::metric).find(detail), std::string::npos);
  EXPECT_NE(told(detail, Units::us).find("minimum 68.0 °F, maximum 14.0 °F"), std::string::npos)
      << told(detail, Units::us);
  EXPECT_NE(told("more than 3 times the 25.4 mm usual", Units::us).find("the 1.00 in usual"),
            std::string::npos);
}

TEST(WeatherReport, TellsADifferenceOfTemperaturesWithoutItsZero) {
  EXPECT_NE(told("25 °C or more below the day before", Units::us).find("45 °F or more below"),
            std::string::npos);
  EXPECT_NE(told("more than 10 °C beyond every other", Units::us).find("18 °F beyond"), std::string::npos);
}

TEST(WeatherReport, ShowsNoMetricUnitInAUsGarden) {
  book::GardenDescription garden;
  garden.name = "Yard";
  garden.units = "us";
  garden.site = {.name = "Yard", .latitude_deg = 40.0, .longitude_deg = -90.0, .elevation_m = 304.8};
  garden.normals = climate::MonthlyNormals{};
  garden.normals->tmax_c.fill(20.0);
  garden.normals->tmin_c.fill(10.0);
  garden.normals->precip_mm.fill(50.8);
  garden.weather.first = base::date_of(2025, 1, 1);
  for (climate::Series& series : garden.weather.series) {
    series.value.assign(3, 5.0);
    series.origin.assign(3, climate::ValueOrigin::observed);
  }
  garden.weather.site = garden.site;
  garden.weather.site.elevation_m = 914.4;
  const std::string text = weather_text(summarise_weather(garden), Units::us);
  EXPECT_EQ(text.find("°C"), std::string::npos) << text;
  EXPECT_EQ(text.find(" mm"), std::string::npos) << text;
  EXPECT_NE(text.find("1000 ft)"), std::string::npos) << text;
  EXPECT_NE(text.find("2000 ft higher"), std::string::npos) << text;
  EXPECT_NE(text.find("2.0 in"), std::string::npos) << text;
}

}  // namespace
}  // namespace sowtide::desk
