#include "stand/crop_weather.hpp"

#include <gtest/gtest.h>

#include <memory>

#include "crop/curve.hpp"
#include "made_weather.hpp"

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
  crop::Crop without = potato;
  without.growth.light_response.clear();
  const CropWeather by_cardinals(without, season);
  EXPECT_EQ(by_cardinals.growth_cd(), weather.growth_cd());
  EXPECT_NE(by_cardinals.light_use(), weather.light_use());
}

}  // namespace
}  // namespace sowtide::stand
