// Worked examples of FAO Irrigation and Drainage Paper 56 (R. G. Allen, L. S. Pereira, D. Raes, M. Smith
// 1998), to their printed digits.
#include "climate/evapotranspiration.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "climate/radiation.hpp"

namespace {

using namespace sowtide::climate;

TEST(PenmanMonteith, MatchesFao56Example18) {
  // Uccle, 6 July: every printed step.
  const Site uccle{"Uccle", 50.8, 4.35, 100.0};
  DailyWeather day{.tmin_c = 12.3, .tmax_c = 21.5};
  day.humidity.rh_max_pct = 84.0;
  day.humidity.rh_min_pct = 63.0;
  day.wind_2m_ms =
      wind_at_two_metres(sowtide::base::MetresPerSecond::of(10.0 / 3.6), sowtide::base::Metres::of(10.0))
          ->value();
  day.sunshine_h = 9.25;
  const EvapotranspirationTerms terms = evapotranspiration_terms(day, uccle, 187);
  EXPECT_NEAR(terms.wind_2m_ms, 2.078, 0.002);
  EXPECT_NEAR(terms.slope_kpa_k, 0.122, 0.0005);
  EXPECT_NEAR(terms.gamma_kpa_k, 0.0666, 0.0001);
  EXPECT_NEAR(terms.saturation_kpa, 1.997, 0.001);
  EXPECT_NEAR(terms.vapour.actual.value(), 1.409, 0.001);
  EXPECT_NEAR(terms.extraterrestrial_mj_m2, 41.09, 0.01);
  EXPECT_NEAR(terms.daylight_h, 16.1, 0.05);
  EXPECT_NEAR(terms.radiation_mj_m2, 22.07, 0.01);
  EXPECT_NEAR(terms.clear_sky_mj_m2, 30.90, 0.01);
  EXPECT_NEAR(terms.net_longwave_mj_m2, 3.71, 0.01);
  EXPECT_NEAR(terms.net_mj_m2, 13.28, 0.01);
  EXPECT_NEAR(terms.et0_mm, 3.88, 0.005);
}

TEST(PenmanMonteith, LongwaveMatchesFao56Example11) {
  const Site rio{"Rio de Janeiro", -22.9, -43.2, 0.0};
  DailyWeather day{.tmin_c = 19.1, .tmax_c = 25.1, .radiation_mj_m2 = 14.5, .clear_sky_mj_m2 = 18.8};
  day.humidity.vapour_pressure_kpa = 2.1;
  EXPECT_NEAR(evapotranspiration_terms(day, rio, 135).net_longwave_mj_m2, 3.5, 0.05);
}

TEST(SoilHeat, OfAMonthMatchesFao56Example13) {
  EXPECT_NEAR(monthly_soil_heat_mj_m2(14.1, 16.1, 18.8), 0.33, 0.005);
  EXPECT_NEAR(monthly_soil_heat_mj_m2(14.1, 16.1, std::nullopt), 0.28, 0.005);
}

TEST(PenmanMonteith, MatchesTheAsceStandardExampleOfFallon) {
  // ASCE-EWRI 2005 standardized short reference, Fallon, Nevada, 1 July 2015, worked in an open reference
  // code.
  const Site fallon{"Fallon", 39.4575, -118.77388, 1208.5};
  const auto vapour = saturation_vapour_pressure(sowtide::base::Celsius::of(9.91));
  const auto pressure = air_pressure(sowtide::base::Metres::of(fallon.elevation_m));
  // That code takes δ = 0.40295 rad where FAO-56 eq. 24 gives 0.40242: 0.07 % more extraterrestrial
  // radiation.
  EXPECT_NEAR(extraterrestrial_radiation(sowtide::base::Degrees::of(39.4575), 182).value(), 41.648,
              41.648 * 0.001);
  EXPECT_NEAR(clear_sky_radiation(fallon, 182).value(), 32.264, 32.264 * 0.001);
  EXPECT_NEAR(clear_sky_radiation_full(fallon, 182, vapour, pressure).value(), 31.566, 31.566 * 0.001);
  DailyWeather day{.tmin_c = 19.25, .tmax_c = 39.3333, .radiation_mj_m2 = 28.222, .clear_sky_mj_m2 = 31.566};
  day.humidity.dewpoint_c = 9.91;
  day.wind_2m_ms =
      wind_at_two_metres(sowtide::base::MetresPerSecond::of(2.146), sowtide::base::Metres::of(3.0))->value();
  const EvapotranspirationTerms terms = evapotranspiration_terms(day, fallon, 182);
  EXPECT_NEAR(terms.vapour.actual.value(), 1.22067, 0.0005);
  EXPECT_NEAR(terms.saturation_kpa, 4.67472, 0.0005);
  EXPECT_NEAR(terms.net_longwave_mj_m2, 6.5565, 0.005);
  EXPECT_NEAR(terms.net_mj_m2, 15.174, 0.005);
  EXPECT_NEAR(terms.wind_2m_ms, 1.9761, 0.001);
  EXPECT_NEAR(terms.et0_mm, 7.942, 0.005);
}

TEST(Wind, FactorsMatchFao56Table29) {
  const std::pair<double, double> published[] = {{1.0, 1.178}, {2.0, 1.000}, {3.0, 0.921},
                                                 {4.0, 0.872}, {6.0, 0.812}, {10.0, 0.748}};
  for (const auto& [height_m, factor] : published) {
    const auto wind =
        wind_at_two_metres(sowtide::base::MetresPerSecond::of(1.0), sowtide::base::Metres::of(height_m));
    EXPECT_NEAR(wind->value(), factor, 0.0006) << height_m;
  }
}

TEST(Hargreaves, MatchesFao56Equation52) {
  // Tmin 19, Tmax 25 °C with Ra 32 MJ/m²/d gives 7.175 MJ/m²/d, or 2.93 mm/d: scaled from the Ra of a day and
  // place.
  const auto latitude = sowtide::base::Degrees::of(-20.0);
  const double ra = extraterrestrial_radiation(latitude, 246).value();
  const double et0 = reference_evapotranspiration_hargreaves(sowtide::base::Celsius::of(19.0),
                                                             sowtide::base::Celsius::of(25.0), latitude, 246)
                         .value();
  EXPECT_NEAR(et0 * 32.0 / ra, 2.93, 0.005);
}

TEST(PenmanMonteith, AgreesWithAnIndependentProgramOnAYearInTheDesert) {
  // AZMET Maricopa, Arizona, 2010 (University of Arizona; CC0 copy in pyfao56, K. Thorp): weather of the
  // network, and the ASCE-EWRI 2005 short reference of an independent program, rounded to 0.01 mm.
  const std::string file = SOWTIDE_SOURCE_DIR "/tests/published/azmet_maricopa_2010.csv";
  const auto table = sowtide::base::parse_csv(sowtide::base::read_file(file).value(), file).value();
  const Site maricopa{"Maricopa", 33.069, -111.976, 361.0};
  double squares = 0.0;
  double bias = 0.0;
  int day_of_year = 0;
  for (const auto& row : table.rows) {
    const auto cell = [&row](std::size_t i) { return *sowtide::base::parse_number(row.cells.at(i)); };
    DailyWeather day{.tmin_c = cell(2), .tmax_c = cell(3), .radiation_mj_m2 = cell(1)};
    day.humidity.dewpoint_c = cell(4);
    day.wind_2m_ms =
        wind_at_two_metres(sowtide::base::MetresPerSecond::of(cell(5)), sowtide::base::Metres::of(3.0))
            ->value();
    const double difference =
        reference_evapotranspiration_daily(day, maricopa, ++day_of_year).value() - cell(6);
    squares += difference * difference;
    bias += difference;
  }
  ASSERT_EQ(day_of_year, 365);
  EXPECT_LT(std::sqrt(squares / 365.0), 0.01);
  EXPECT_LT(std::abs(bias / 365.0), 0.003);
}

}  // namespace
