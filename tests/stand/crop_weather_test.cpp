#include "stand/crop_weather.hpp"

#include <gtest/gtest.h>

#include <memory>
#include <utility>

#include "crop/curve.hpp"
#include "made_weather.hpp"
#include "stand/bed_place.hpp"

namespace sowtide::stand {
namespace {

TEST(SeasonWeather, DaylightIsWarmerThanTheDayAndCoolerThanItsHottestHour) {
  const auto ensemble = testing::made_ensemble({}, base::date_of(2026, 1, 1), 365, 2);
  const SeasonWeather season(ensemble);
  for (std::size_t at = 0; at < season.daylight_mean_c().size(); ++at) {
    double day_c = 0.0;
    for (const float hour : season.air_hours_c(at)) day_c += static_cast<double>(hour) / 24.0;
    EXPECT_GT(season.daylight_mean_c()[at], day_c);
    EXPECT_LT(season.daylight_mean_c()[at], ensemble.tmax_c[at]);
  }
}

TEST(CropWeather, LightIsWorthWhatTheCropsResponseSaysOfItsDay) {
  const auto ensemble = testing::made_ensemble({}, base::date_of(2026, 1, 1), 365, 1);
  const auto season = std::make_shared<const SeasonWeather>(ensemble);
  const crop::Crop& potato = **crop::built_in_library().find("potato");
  const CropWeather weather(potato, season);
  for (std::size_t at = 0; at < weather.light_use().size(); ++at)
    EXPECT_DOUBLE_EQ(weather.light_use()[at],
                     crop::on_curve(potato.growth.light_response, season->daylight_mean_c()[at]));
}

// A year of one temperature, day and night: what is made of light then can be read off the published points.
TEST(CropWeather, LightAndLeavesAnswerApart) {
  const auto made = [](double temp_c) {
    return testing::made_ensemble({.mean_c = temp_c, .swing_k = 0.0, .daily_range_k = 0.0, .noise_k = 0.0},
                                  base::date_of(2026, 1, 1), 365, 1);
  };
  const crop::Crop& beet = **crop::built_in_library().find("beet");
  const auto light_and_leaves = [&](double temp_c) {
    const auto ensemble = made(temp_c);
    const CropWeather weather(beet, std::make_shared<const SeasonWeather>(ensemble));
    return std::pair{weather.light_use()[180], weather.growth_cd()[180]};
  };
  // M. Mollerup and others 2004-05: 0.75 of the light's worth at 10 °C, all of it at 20 °C; leaves grow above
  // 5 °C, so three times as fast at 20 °C.
  const auto [light_at_10, leaves_at_10] = light_and_leaves(10.0);
  EXPECT_NEAR(light_at_10, 0.75, 1e-6);
  EXPECT_NEAR(leaves_at_10, 5.0, 1e-6);
  const auto [light_at_20, leaves_at_20] = light_and_leaves(20.0);
  EXPECT_NEAR(light_at_20, 1.0, 1e-6);
  EXPECT_NEAR(leaves_at_20, 15.0, 1e-6);
}

// Spitters, Toussaint and Goudriaan 1986: all of a dull day's light comes from the sky, 0.23 of a clear one's.
TEST(SeasonWeather, SharesTheLightOfADayBetweenSunAndSky) {
  const auto diffuse_of = [](double radiation_mj) {
    const auto ensemble = testing::made_ensemble(
        {.noise_k = 0.0, .radiation_mean_mj = radiation_mj, .radiation_swing_mj = 0.0}, base::date_of(2026, 6, 21), 1, 1);
    return SeasonWeather(ensemble).diffuse_share().front();
  };
  EXPECT_DOUBLE_EQ(diffuse_of(1.0), 1.0);
  EXPECT_DOUBLE_EQ(diffuse_of(40.0), 0.23);
  EXPECT_GT(diffuse_of(15.0), diffuse_of(25.0));
}

TEST(BedLight, IsThatOfOpenGroundInFullSunAndLessInShade) {
  for (const double diffuse : {0.23, 0.6, 1.0}) {
    const double full = bed_light(bed::SunClass::full).of_day(diffuse);
    const double part = bed_light(bed::SunClass::partial).of_day(diffuse);
    const double shade = bed_light(bed::SunClass::shade).of_day(diffuse);
    EXPECT_DOUBLE_EQ(full, 1.0);
    EXPECT_LT(part, full);
    EXPECT_LT(shade, part);
    EXPECT_GT(shade, 0.0);
  }
  EXPECT_GT(bed_light(bed::SunClass::partial).of_day(1.0), bed_light(bed::SunClass::partial).of_day(0.23))
      << "a dull day is much the same everywhere";
}

}  // namespace
}  // namespace sowtide::stand
