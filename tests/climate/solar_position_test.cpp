// The sun against libnova, a general-purpose astronomy library: its VSOP87 sun in the ecliptic of J2000,
// brought here to the apparent place of date with its own precession and nutation.
#include "climate/solar_position.hpp"

#include <gtest/gtest.h>
#include <libnova/libnova.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace {

using namespace sowtide;
using climate::Observer;
using climate::sun_day;
using climate::sun_position;
using climate::SunDay;
using climate::SunDayKind;
using climate::UtcTime;

constexpr double kDegree = std::numbers::pi / 180.0;

/// Apparent geocentric right ascension and declination of date.
ln_equ_posn apparent_sun(double jde) {
  ln_helio_posn geometric{};
  ln_get_solar_geom_coords(jde, &geometric);
  ln_lnlat_posn ecliptic{geometric.L, geometric.B};
  ln_equ_posn of_j2000{};
  ln_equ_posn of_date{};
  ln_get_equ_from_ecl(&ecliptic, JD2000, &of_j2000);
  ln_get_equ_prec(&of_j2000, jde, &of_date);
  ln_nutation nutation{};
  ln_get_nutation(jde, &nutation);
  const double mean = nutation.ecliptic * kDegree;
  const double right_ascension = of_date.ra * kDegree;
  const double declination = of_date.dec * kDegree;
  const double aberration = -20.4898 / 3600.0 / geometric.R;
  const double longitude =
      std::atan2(std::sin(right_ascension) * std::cos(mean) + std::tan(declination) * std::sin(mean),
                 std::cos(right_ascension)) +
      (nutation.longitude + aberration) * kDegree;
  const double latitude = std::asin(std::sin(declination) * std::cos(mean) -
                                    std::cos(declination) * std::sin(mean) * std::sin(right_ascension));
  const double obliquity = mean + nutation.obliquity * kDegree;
  ln_equ_posn apparent{};
  apparent.ra =
      std::atan2(std::sin(longitude) * std::cos(obliquity) - std::tan(latitude) * std::sin(obliquity),
                 std::cos(longitude)) /
      kDegree;
  apparent.dec = std::asin(std::sin(latitude) * std::cos(obliquity) +
                           std::cos(latitude) * std::sin(obliquity) * std::sin(longitude)) /
                 kDegree;
  return apparent;
}

struct Case {
  UtcTime moment;
  Observer observer;
};

std::vector<Case> cases_over_the_earth_1900_to_2100(int count) {
  std::mt19937_64 bits(20261125);
  std::uniform_int_distribution<std::int64_t> moments(-2'208'988'800'000, 4'133'980'799'000);
  std::uniform_real_distribution<double> sines(-1.0, 1.0);
  std::uniform_real_distribution<double> longitudes(-180.0, 180.0);
  std::vector<Case> cases;
  for (int i = 0; i < count; ++i) {
    const UtcTime moment{std::chrono::milliseconds{moments(bits)}};
    cases.push_back({moment, {std::asin(sines(bits)) / kDegree, longitudes(bits)}});
  }
  return cases;
}

TEST(SunPosition, AgreesWithLibnovaFrom1900To2100) {
  double worst_declination = 0.0;
  double worst_elevation = 0.0;
  double worst_azimuth_arc = 0.0;
  for (const Case& one : cases_over_the_earth_1900_to_2100(3000)) {
    const double jd = climate::julian_day(one.moment);
    const climate::SunPosition sun = sun_position(one.moment, one.observer);
    const ln_equ_posn expected = apparent_sun(ln_get_jde(jd));
    worst_declination = std::max(worst_declination, std::abs(expected.dec - sun.declination_deg));
    const double hour_angle =
        ln_get_apparent_sidereal_time(jd) * 15.0 + one.observer.longitude_deg - expected.ra;
    const double phi = one.observer.latitude_deg * kDegree;
    const double delta = expected.dec * kDegree;
    const double omega = hour_angle * kDegree;
    const double elevation =
        std::asin(std::sin(phi) * std::sin(delta) + std::cos(phi) * std::cos(delta) * std::cos(omega));
    const double azimuth =
        std::atan2(std::sin(omega), std::cos(omega) * std::sin(phi) - std::tan(delta) * std::cos(phi)) /
            kDegree +
        180.0;
    worst_elevation = std::max(worst_elevation, std::abs(elevation / kDegree - sun.geometric_elevation_deg));
    const double arc = std::remainder(azimuth - sun.azimuth_deg, 360.0) * std::cos(elevation);
    worst_azimuth_arc = std::max(worst_azimuth_arc, std::abs(arc));
  }
  EXPECT_LT(worst_declination, 0.005);
  EXPECT_LT(worst_azimuth_arc, 0.005);
  EXPECT_LT(worst_elevation, 0.0075);  // ours is topocentric: parallax takes up to 0.0025°
}

/// Rise and set by libnova for the day of `noon_jd`; nothing where it says the sun does not cross.
std::optional<std::pair<double, double>> libnova_rise_and_set(double midnight_jd, const Observer& observer) {
  ln_lnlat_posn place{observer.longitude_deg, observer.latitude_deg};
  ln_rst_time times{};
  if (ln_get_solar_rst_horizon(midnight_jd, &place, -0.833, &times) != 0) return std::nullopt;
  return std::pair{times.rise, times.set};
}

TEST(SunDay, RisesAndSetsWithLibnovaOverManyPlacesAndDates) {
  // libnova's own rise and set use its coordinates of J2000, so the comparison stays near 2000.
  int compared = 0;
  for (double latitude = -60.0; latitude <= 60.0; latitude += 15.0) {
    for (int month = 1; month <= 12; ++month) {
      const Observer observer{latitude, 0.0};
      const base::Date date = base::date_of(2000, month, 11);
      const SunDay day = sun_day(date, observer, base::Hours::of(0.0));
      const auto expected = libnova_rise_and_set(climate::julian_day(UtcTime{date}), observer);
      ASSERT_TRUE(expected && day.rise && day.set) << latitude << " " << month;
      constexpr double kMinute = 1.0 / 1440.0;
      EXPECT_NEAR(climate::julian_day(*day.rise), expected->first, kMinute) << latitude << " " << month;
      EXPECT_NEAR(climate::julian_day(*day.set), expected->second, kMinute) << latitude << " " << month;
      ++compared;
    }
  }
  EXPECT_EQ(compared, 9 * 12);
}

/// Between the last night and the midnight sun stands a day with a rise and no set, and after it one with a
/// set and no rise: the day must go on growing to 24 h (and shrinking again), not drop to nothing.
TEST(SunDay, GrowsToTwentyFourHoursWithoutAHole) {
  Observer tromso;
  tromso.latitude_deg = 69.65;
  tromso.longitude_deg = 18.96;
  double before_h = 0.0;
  int lacking = 0;
  for (int day = 0; day <= 65; ++day) {  // 1 April to 5 June
    const SunDay sun = sun_day(base::date_of(2026, 4, 1) + base::Days{day}, tromso, base::Hours::of(2.0));
    EXPECT_GE(sun.length().value(), before_h) << day;
    EXPECT_LE(sun.length().value(), 24.0) << day;
    before_h = sun.length().value();
    if (sun.rise.has_value() != sun.set.has_value()) ++lacking;
  }
  EXPECT_DOUBLE_EQ(before_h, 24.0);
  for (int day = 0; day <= 60; ++day) {  // 5 July to 3 September
    const SunDay sun = sun_day(base::date_of(2026, 7, 5) + base::Days{day}, tromso, base::Hours::of(2.0));
    EXPECT_LE(sun.length().value(), before_h + 1e-9) << day;
    before_h = sun.length().value();
    if (sun.rise.has_value() != sun.set.has_value()) ++lacking;
  }
  EXPECT_LT(before_h, 16.0);
  EXPECT_GE(lacking, 1);
}

TEST(SunDay, KnowsPolarDayAndNightAsLibnovaDoes) {
  for (const double latitude : {-85.0, -75.0, 75.0, 85.0}) {
    for (const int month : {6, 12}) {
      const Observer observer{latitude, 0.0};
      const base::Date date = base::date_of(2000, month, 21);
      const SunDay day = sun_day(date, observer, base::Hours::of(0.0));
      EXPECT_FALSE(libnova_rise_and_set(climate::julian_day(UtcTime{date}), observer))
          << latitude << " " << month;
      const bool summer = (month == 6) == (latitude > 0.0);
      EXPECT_EQ(day.kind, summer ? SunDayKind::polar_day : SunDayKind::polar_night)
          << latitude << " " << month;
      EXPECT_DOUBLE_EQ(day.length().value(), summer ? 24.0 : 0.0);
    }
  }
}

RC_GTEST_PROP(SunDay, StandsOnTheHorizonAtRiseAndSet, ()) {
  const Observer observer{*rc::gen::inRange(-8900, 8901) / 100.0, *rc::gen::inRange(-18000, 18001) / 100.0};
  const base::Date date = base::date_of(2026, 1, 1) + base::Days{*rc::gen::inRange(0, 3650)};
  const SunDay day = sun_day(date, observer, base::Hours::of(observer.longitude_deg / 15.0));
  for (const auto& moment : {day.rise, day.set}) {
    // Geocentric at the crossing, topocentric in the position: parallax moves it by up to 0.0025°.
    if (moment) RC_ASSERT(std::abs(sun_position(*moment, observer).geometric_elevation_deg + 0.833) < 0.003);
  }
  if (day.rise && day.set) RC_ASSERT(*day.rise < day.transit && day.transit < *day.set);
}

RC_GTEST_PROP(SunPosition, MirrorsAcrossTheNoonMeridian, ()) {
  const Observer observer{*rc::gen::inRange(-6000, 6001) / 100.0, 0.0};
  const base::Date date = base::date_of(2026, 1, 1) + base::Days{*rc::gen::inRange(0, 365)};
  const SunDay day = sun_day(date, observer, base::Hours::of(0.0));
  const auto shift = std::chrono::minutes{*rc::gen::inRange(1, 240)};
  const double before = sun_position(day.transit - shift, observer).geometric_elevation_deg;
  const double after = sun_position(day.transit + shift, observer).geometric_elevation_deg;
  RC_ASSERT(std::abs(before - after) < 0.15);  // declination moves by up to 0.13° in eight hours
}

}  // namespace
