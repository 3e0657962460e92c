// Worked examples of FAO Irrigation and Drainage Paper 56 (R. G. Allen, L. S. Pereira, D. Raes, M. Smith
// 1998), to their printed digits.
#include "climate/evapotranspiration.hpp"

#include <gtest/gtest.h>

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

}  // namespace
