#include "climate/evapotranspiration.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace {

using namespace sowtide::climate;
using sowtide::base::Celsius;
using sowtide::base::Kilopascals;
using sowtide::base::Metres;
using sowtide::base::MetresPerSecond;

RC_GTEST_PROP(Evapotranspiration, IsFiniteAndNotNegativeAnywhereOnEarthWithTemperaturesAlone, ()) {
  const Site site{"", *rc::gen::inRange(-9000, 9001) / 100.0, 0.0,
                  static_cast<double>(*rc::gen::inRange(-400, 6000))};
  DailyWeather day;
  day.tmin_c = *rc::gen::inRange(-600, 350) / 10.0;
  day.tmax_c = day.tmin_c + *rc::gen::inRange(0, 300) / 10.0;
  const double et0 = reference_evapotranspiration_daily(day, site, *rc::gen::inRange(1, 367)).value();
  RC_ASSERT(std::isfinite(et0));
  RC_ASSERT(et0 >= 0.0 && et0 < 25.0);
}

RC_GTEST_PROP(Evapotranspiration, GrowsWithTheDrynessOfTheAir, ()) {
  DailyWeather day{.tmin_c = 10.0, .tmax_c = 24.0, .radiation_mj_m2 = 18.0};
  const Site site{"", 45.0, 0.0, 100.0};
  const double humid = *rc::gen::inRange(50, 120) / 100.0;
  const double drier = humid - *rc::gen::inRange(1, 40) / 100.0;
  day.humidity.vapour_pressure_kpa = humid;
  const double less = evapotranspiration_terms(day, site, 180).et0_mm;
  day.humidity.vapour_pressure_kpa = drier;
  day.wind_2m_ms = 2.0;
  RC_ASSERT(evapotranspiration_terms(day, site, 180).et0_mm > less - 0.35);
}

TEST(Evapotranspiration, AssumesTwoMetresASecondWhereNoWindIsKnown) {
  DailyWeather day{.tmin_c = 10.0, .tmax_c = 24.0, .radiation_mj_m2 = 18.0};
  const Site site{"", 45.0, 0.0, 100.0};
  const EvapotranspirationTerms assumed = evapotranspiration_terms(day, site, 180);
  EXPECT_TRUE(assumed.wind_assumed);
  day.wind_2m_ms = 2.0;
  EXPECT_DOUBLE_EQ(evapotranspiration_terms(day, site, 180).et0_mm, assumed.et0_mm);
}

TEST(Humidity, IsTakenInTheOrderOfTrust) {
  const Kilopascals pressure = air_pressure(Metres::of(0.0));
  const Celsius tmin = Celsius::of(12.0);
  const Celsius tmax = Celsius::of(24.0);
  Humidity known;
  const auto rule = [&] { return actual_vapour_pressure(known, tmin, tmax, pressure).rule; };
  EXPECT_EQ(rule(), VapourRule::minimum_temperature);
  known.rh_mean_pct = 60.0;
  EXPECT_EQ(rule(), VapourRule::rh_mean);
  known.rh_max_pct = 90.0;
  EXPECT_EQ(rule(), VapourRule::rh_maximum);
  known.rh_min_pct = 40.0;
  EXPECT_EQ(rule(), VapourRule::rh_extremes);
  known.wet_bulb_c = 15.0;
  known.dry_bulb_c = 20.0;
  EXPECT_EQ(rule(), VapourRule::psychrometer);
  known.dewpoint_c = 10.0;
  EXPECT_EQ(rule(), VapourRule::dew_point);
  known.vapour_pressure_kpa = 1.2;
  EXPECT_EQ(rule(), VapourRule::measured);
}

RC_GTEST_PROP(DewPoint, UndoesTheSaturationCurve, ()) {
  const double temp = *rc::gen::inRange(-400, 500) / 10.0;
  RC_ASSERT(std::abs(dew_point(saturation_vapour_pressure(Celsius::of(temp))).value() - temp) < 1e-9);
}

TEST(Wind, FromBelowHalfAMetreIsRefused) {
  const auto wind = wind_at_two_metres(MetresPerSecond::of(1.0), Metres::of(0.1));
  ASSERT_FALSE(wind);
  EXPECT_EQ(wind.error().where.field, "wind_height_m");
}

TEST(Evapotranspiration, OfHoursAddsUpNearTheDay) {
  // One clear-ish summer day: 24 hourly values against the daily equation.
  const Site site{"", 45.0, 0.0, 100.0};
  DailyWeather day{.tmin_c = 12.0, .tmax_c = 26.0, .wind_2m_ms = 2.0, .radiation_mj_m2 = 24.0};
  day.humidity.vapour_pressure_kpa = 1.3;
  double sum = 0.0;
  for (int hour = 0; hour < 24; ++hour) {
    HourlyWeather weather;
    const double angle = 3.14159265358979 / 12.0 * (hour + 0.5 - 14.0);
    weather.air_c = 19.0 + 7.0 * std::cos(angle);
    weather.vapour_pressure_kpa = 1.3;
    weather.wind_2m_ms = 2.0;
    const double sun = std::max(0.0, std::cos(3.14159265358979 * (hour + 0.5 - 12.0) / 15.4));
    weather.radiation_mj_m2 = std::abs(hour + 0.5 - 12.0) < 7.7 ? 24.0 * sun / 9.804 : 0.0;
    sum += evapotranspiration_terms_hourly(weather, site, {180, hour + 0.5, 0.0})->et0_mm;
  }
  EXPECT_NEAR(sum, evapotranspiration_terms(day, site, 180).et0_mm, 0.35);
}

TEST(Evapotranspiration, OfAnHourWithoutHumidityIsRefused) {
  const auto terms = evapotranspiration_terms_hourly({.air_c = 20.0}, {}, {});
  ASSERT_FALSE(terms);
  EXPECT_EQ(terms.error().code, sowtide::base::ProblemCode::missing_field);
}

}  // namespace
