// What is said of a garden's weather, in its units.
#include "desk/weather_report.hpp"

#include <gtest/gtest.h>

#include <set>

#include "climate/quality.hpp"

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
  const std::string detail = "minimum {20 c}, maximum {-10 c}, {25.4 mm} of rain, {25 k} or more below";
  EXPECT_NE(told(detail, Units::metric)
                .find("minimum 20.0 °C, maximum -10.0 °C, 25.4 mm of rain, 25 °C or more below"),
            std::string::npos)
      << told(detail, Units::metric);
  EXPECT_NE(told(detail, Units::us).find("minimum 68.0 °F, maximum 14.0 °F, 1.00 in of rain, 45 °F or more below"),
            std::string::npos)
      << told(detail, Units::us);
}

/// Six years of steady days with what quality control takes out of them.
climate::WeatherRecord with_faults() {
  climate::WeatherRecord record;
  record.site = {.name = "Made up", .latitude_deg = 40.0, .longitude_deg = -90.0, .elevation_m = 300.0};
  record.first = base::date_of(2020, 1, 1);
  record.resize(record.first, base::date_of(2025, 12, 31));
  const auto put = [&record](base::Date day, double low, double high, double rain) {
    record.set(climate::Variable::tmin, day, low, climate::ValueOrigin::observed);
    record.set(climate::Variable::tmax, day, high, climate::ValueOrigin::observed);
    record.set(climate::Variable::rain, day, rain, climate::ValueOrigin::observed);
  };
  for (int i = 0; i < static_cast<int>(record.day_count()); ++i) {
    const double wave = (i * 7) % 10 * 0.3;
    put(record.first + base::Days{i}, 8.0 + wave, 18.0 + wave, i % 3 == 0 ? 4.0 + wave : 0.0);
  }
  put(base::date_of(2020, 3, 5), 9.0, 80.0, 0.0);    // impossible
  put(base::date_of(2020, 5, 5), 9.0, 18.0, 2000.0);  // impossible
  put(base::date_of(2020, 7, 5), 0.0, 0.0, 0.0);     // naught
  put(base::date_of(2020, 9, 5), 16.0, 12.0, 0.0);   // tmin above tmax
  put(base::date_of(2021, 3, 5), 9.0, 34.0, 0.0);    // stands apart
  put(base::date_of(2021, 9, 6), 9.0, 18.0, 900.0);  // rain that is far off
  return record;
}

TEST(WeatherReport, TellsEveryFindingWithoutAMetricUnitInAUsGarden) {
  const auto findings = climate::control_quality(with_faults()).findings;
  std::set<std::string> checks;
  for (const climate::QualityFinding& found : findings) {
    checks.insert(found.check);
    const std::string text = findings_text({found}, Units::us);
    EXPECT_EQ(text.find("°C"), std::string::npos) << text;
    EXPECT_EQ(text.find(" mm"), std::string::npos) << text;
    EXPECT_EQ(text.find('{'), std::string::npos) << text;
  }
  for (const char* check : {"impossible", "naught", "tmin-above-tmax", "stands-apart", "spike"})
    EXPECT_TRUE(checks.contains(check)) << check;
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
