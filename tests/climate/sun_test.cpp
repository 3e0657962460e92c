#include "climate/sun.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace {

using namespace sowtide;
using base::Celsius;
using base::Degrees;
using base::Hours;
using climate::daylight_hours;
using climate::extraterrestrial_radiation;

TEST(Daylight, IsTwelveHoursAtTheEquatorOnEveryDay) {
  for (int day = 1; day <= 366; ++day) EXPECT_NEAR(daylight_hours(Degrees::of(0.0), day).value(), 12.0, 1e-9);
}

TEST(Daylight, IsNothingInThePolarNightAndAllDayInThePolarDay) {
  EXPECT_DOUBLE_EQ(daylight_hours(Degrees::of(80.0), 355).value(), 0.0);
  EXPECT_DOUBLE_EQ(daylight_hours(Degrees::of(80.0), 172).value(), 24.0);
  EXPECT_DOUBLE_EQ(daylight_hours(Degrees::of(-80.0), 355).value(), 24.0);
  EXPECT_DOUBLE_EQ(daylight_hours(Degrees::of(90.0), 172).value(), 24.0);
  EXPECT_DOUBLE_EQ(daylight_hours(Degrees::of(-90.0), 172).value(), 0.0);
}

RC_GTEST_PROP(Daylight, OfNorthAndSouthFillsTheDay, ()) {
  const double latitude = *rc::gen::inRange(-9000, 9001) / 100.0;
  const int day = *rc::gen::inRange(1, 367);
  const double north = daylight_hours(Degrees::of(latitude), day).value();
  const double south = daylight_hours(Degrees::of(-latitude), day).value();
  RC_ASSERT(std::abs(north + south - 24.0) < 1e-9);
}

RC_GTEST_PROP(HoursAbove, GrowAsTheHorizonSinks, ()) {
  const double latitude = *rc::gen::inRange(-9000, 9001) / 100.0;
  const int day = *rc::gen::inRange(1, 367);
  double shorter = climate::hours_above(climate::kGeometricHorizon, Degrees::of(latitude), day).value();
  for (const Degrees horizon :
       {climate::kAlmanacHorizon, climate::kPhotoperiodHorizon, climate::kCivilTwilightHorizon}) {
    const double longer = climate::hours_above(horizon, Degrees::of(latitude), day).value();
    RC_ASSERT(longer >= shorter);
    shorter = longer;
  }
}

RC_GTEST_PROP(Radiation, OnTheGroundIsNeverAboveClearSkyNorThatAboveTheTopOfTheAir, ()) {
  const climate::Site site{"", *rc::gen::inRange(-9000, 9001) / 100.0, 0.0,
                           static_cast<double>(*rc::gen::inRange(-400, 6000))};
  const int day = *rc::gen::inRange(1, 367);
  const double tmin = *rc::gen::inRange(-500, 300) / 10.0;
  const double range = *rc::gen::inRange(-50, 500) / 10.0;
  const double ground =
      climate::radiation_from_temperature_range(Celsius::of(tmin), Celsius::of(tmin + range), site, day, 0.19)
          .value();
  const double clear = climate::clear_sky_radiation(site, day).value();
  const double top = extraterrestrial_radiation(Degrees::of(site.latitude_deg), day).value();
  RC_ASSERT(ground >= 0.0);
  RC_ASSERT(ground <= clear);
  RC_ASSERT(clear <= top);
}

TEST(Radiation, FromSunshineBeyondTheDayCountsAsTheWholeDay) {
  const Degrees rio = Degrees::of(-22.9);
  EXPECT_DOUBLE_EQ(climate::radiation_from_sunshine(Hours::of(30.0), rio, 135).value(),
                   0.75 * extraterrestrial_radiation(rio, 135).value());
  EXPECT_DOUBLE_EQ(climate::radiation_from_sunshine(Hours::of(0.0), Degrees::of(85.0), 355).value(), 0.0);
}

}  // namespace
