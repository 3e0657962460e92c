#include "stand/windows.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "made_weather.hpp"

namespace sowtide::stand {
namespace {

using testing::made_ensemble;
using testing::MadeClimate;

std::vector<SowingWindow> windows_of(const char* crop_id, const MadeClimate& climate) {
  const auto ensemble = made_ensemble(climate, base::date_of(2026, 1, 1), 730, 12);
  return sowing_windows(
      CropWeather(**crop::built_in_library().find(crop_id), std::make_shared<const SeasonWeather>(ensemble)));
}

bool any_holds(const std::vector<SowingWindow>& windows, const char* method, base::MonthDay day) {
  for (const auto& window : windows) {
    if (window.method == method && base::contains(window.span, day)) return true;
  }
  return false;
}

TEST(SowingWindows, BeansAreNotSownBeforeTheLastFrosts) {
  const auto windows = windows_of("bush-bean", {.mean_c = 10.0, .swing_k = 11.0});
  EXPECT_FALSE(any_holds(windows, "direct-sow", {3, 15}));
  EXPECT_TRUE(any_holds(windows, "direct-sow", {6, 10}));
  EXPECT_FALSE(any_holds(windows, "direct-sow", {9, 15}));
}

TEST(SowingWindows, TheSouthHasItsSeasonsTurned) {
  const auto windows = windows_of("bush-bean", {.latitude_deg = -40.0, .mean_c = 10.0, .swing_k = 11.0});
  EXPECT_TRUE(any_holds(windows, "direct-sow", {12, 10}));
  EXPECT_FALSE(any_holds(windows, "direct-sow", {6, 10}));
}

TEST(SowingWindows, AFrostFreeMildPlaceSowsAllYear) {
  const auto windows = windows_of("carrot", {.latitude_deg = 20.0,
                                             .mean_c = 19.0,
                                             .swing_k = 2.0,
                                             .noise_k = 1.0,
                                             .radiation_mean_mj = 18.0,
                                             .radiation_swing_mj = 4.0});
  for (int month = 1; month <= 12; ++month)
    EXPECT_TRUE(any_holds(windows, "direct-sow", {month, 15})) << month;
}

TEST(SowingWindows, BeetOfAMaritimeClimateIsNotSownInWinter) {
  const auto windows = windows_of("beet", {});
  for (const base::MonthDay day : {base::MonthDay{11, 1}, {11, 20}, {12, 10}, {1, 5}, {1, 28}})
    EXPECT_FALSE(any_holds(windows, "direct-sow", day)) << base::to_text(day);
  EXPECT_TRUE(any_holds(windows, "direct-sow", {5, 1}));
}

constexpr MadeClimate kHotSummer{.latitude_deg = 33.0,
                                 .mean_c = 18.0,
                                 .swing_k = 10.0,
                                 .daily_range_k = 12.0,
                                 .radiation_mean_mj = 17.0,
                                 .radiation_swing_mj = 7.0};

TEST(SowingWindows, EveryDayIsMarkedAsTheWindowsHaveIt) {
  for (const char* crop : {"spinach", "garlic", "bush-bean", "carrot"}) {
    for (const MadeClimate& climate : {MadeClimate{}, kHotSummer}) {
      const auto ensemble = made_ensemble(climate, base::date_of(2026, 1, 1), 730, 12);
      const CropWeather weather(**crop::built_in_library().find(crop),
                                std::make_shared<const SeasonWeather>(ensemble));
      const auto windows = sowing_windows(weather);
      auto year = sowing_year(weather, "direct-sow");
      mark_windows(year);
      for (int day = 0; day < 365; ++day) {
        const base::MonthDay date = base::month_day_of_climatological_day(day + 1);
        EXPECT_EQ(year[static_cast<std::size_t>(day)].in_window, any_holds(windows, "direct-sow", date))
            << crop << " " << base::to_text(date);
      }
    }
  }
}

// Three good days among bad ones are the luck of a few years, no time to sow.
TEST(SowingWindows, AFewGoodDaysAreNoWindowAndAShortGapIsNone) {
  std::vector<SowingDay> year(365);
  const auto set = [&year](int from, int to, double success) {
    for (int day = from; day < to; ++day) year[static_cast<std::size_t>(day)].success = success;
  };
  set(60, 63, 0.6);
  set(100, 160, 0.8);
  set(120, 125, 0.4);
  mark_windows(year);
  EXPECT_FALSE(year[61].in_window);
  EXPECT_TRUE(year[122].in_window);
  EXPECT_FALSE(year[99].in_window);
  EXPECT_FALSE(year[160].in_window);
}

TEST(SowingWindows, AHotSummerPartsSpinachInTwo) {
  const auto windows = windows_of("spinach", kHotSummer);
  EXPECT_TRUE(any_holds(windows, "direct-sow", {3, 1}));
  EXPECT_FALSE(any_holds(windows, "direct-sow", {6, 20}));
  EXPECT_TRUE(any_holds(windows, "direct-sow", {9, 25}));
}

TEST(SowingWindows, TheTropicsHaveWindowsOfTenderCrops) {
  const MadeClimate tropical{.latitude_deg = 5.0,
                             .mean_c = 26.0,
                             .swing_k = 1.0,
                             .daily_range_k = 8.0,
                             .noise_k = 1.0,
                             .radiation_mean_mj = 18.0,
                             .radiation_swing_mj = 1.0};
  EXPECT_FALSE(windows_of("okra", tropical).empty());
  EXPECT_FALSE(windows_of("sweet-potato", tropical).empty());
  EXPECT_TRUE(windows_of("brussels-sprouts", tropical).empty());  // warm nights
}

TEST(SowingWindows, GarlicIsPlantedInAutumnForTheNextSummer) {
  const auto windows = windows_of("garlic", {});
  EXPECT_TRUE(any_holds(windows, "direct-sow", {10, 20}));
  EXPECT_FALSE(any_holds(windows, "direct-sow", {6, 20}));
}

TEST(SowingWindows, GarlicIsNotPlantedWhileAutumnDaysAreLong) {
  const auto windows = windows_of("garlic", {});
  EXPECT_FALSE(any_holds(windows, "direct-sow", {8, 25}));
  EXPECT_FALSE(any_holds(windows, "direct-sow", {5, 20}));
}

// January at -10 °C and nights below -20: the clove lies in the ground and shows in spring.
constexpr MadeClimate kColdWinter{.latitude_deg = 44.0,
                                  .mean_c = 6.5,
                                  .swing_k = 16.5,
                                  .daily_range_k = 11.0,
                                  .noise_k = 4.0,
                                  .radiation_mean_mj = 14.0,
                                  .radiation_swing_mj = 8.0};

TEST(SowingWindows, GarlicIsPlantedInOctoberWhereWintersAreCold) {
  const auto windows = windows_of("garlic", kColdWinter);
  EXPECT_TRUE(any_holds(windows, "direct-sow", {10, 10}));
  EXPECT_FALSE(any_holds(windows, "direct-sow", {1, 15}));  // the ground is frozen
  EXPECT_FALSE(any_holds(windows, "direct-sow", {8, 1}));
}

TEST(SowingWindows, OnionsAndBroadBeansDoNotStandAColdWinter) {
  for (const char* crop : {"onion", "broad-bean"}) {
    const auto windows = windows_of(crop, kColdWinter);
    for (const base::MonthDay day : {base::MonthDay{9, 25}, {10, 10}, {11, 5}}) {
      EXPECT_FALSE(any_holds(windows, "direct-sow", day)) << crop << base::to_text(day);
      EXPECT_FALSE(any_holds(windows, "set-out", day)) << crop << base::to_text(day);
    }
  }
}

// Beyond the coldest zone that growers tell of.
TEST(SowingWindows, GarlicDoesNotStandEveryWinter) {
  MadeClimate arctic = kColdWinter;
  arctic.mean_c = -6.0;
  arctic.swing_k = 29.0;
  EXPECT_FALSE(any_holds(windows_of("garlic", arctic), "direct-sow", {10, 1}));
}

TEST(SowingWindows, OnionsSetOutAfterTheLongestDayGiveNoBulbs) {
  const auto windows = windows_of("onion", {.mean_c = 14.0, .swing_k = 9.0});
  EXPECT_TRUE(any_holds(windows, "set-out", {3, 25}));
  EXPECT_FALSE(any_holds(windows, "set-out", {7, 5}));
}

TEST(SowingWindows, OnionsOfLowLatitudesBulbEarlierAndAreSetOutEarlier) {
  const MadeClimate mild{.latitude_deg = 30.0, .mean_c = 20.0, .swing_k = 9.0};
  MadeClimate far = mild;
  far.latitude_deg = 45.0;
  EXPECT_TRUE(any_holds(windows_of("onion", mild), "set-out", {2, 1}));
  EXPECT_FALSE(any_holds(windows_of("onion", mild), "set-out", {4, 20}));  // short-day kinds bulb by then
  EXPECT_TRUE(any_holds(windows_of("onion", far), "set-out", {4, 20}));
}

// Kinds of a latitude, straight between those of the crop file and level outside them: half a ramp above the
// critical length, half of the day counts.
TEST(SowingWindows, KindsOfOnionFollowTheLatitude) {
  const auto share_at_critical = [](double latitude_deg, double critical_h) {
    const auto ensemble = made_ensemble({.latitude_deg = latitude_deg}, base::date_of(2026, 1, 1), 365, 1);
    const CropWeather weather(**crop::built_in_library().find("onion"),
                              std::make_shared<const SeasonWeather>(ensemble));
    const auto& hours = weather.season().day_length_h();
    const auto day =
        static_cast<std::size_t>(std::min_element(hours.begin(), hours.end(),
                                                  [middle = critical_h + 0.5](double one, double other) {
                                                    return std::abs(one - middle) < std::abs(other - middle);
                                                  }) -
                                 hours.begin());
    return weather.organ_day_share()[day];
  };
  EXPECT_NEAR(share_at_critical(10.0, 11.0), 0.5, 0.05);
  EXPECT_NEAR(share_at_critical(15.0, 11.0), 0.5, 0.05);
  EXPECT_NEAR(share_at_critical(23.5, 11.5), 0.5, 0.05);
  EXPECT_NEAR(share_at_critical(31.9, 12.0), 0.5, 0.05);
  EXPECT_NEAR(share_at_critical(35.0, 13.0), 0.5, 0.05);
  EXPECT_NEAR(share_at_critical(41.5, 14.5), 0.5, 0.05);
  EXPECT_NEAR(share_at_critical(-35.0, 13.0), 0.5, 0.05);
}

TEST(SowingWindows, GarlicWithoutAWinterFormsNoCloves) {
  EXPECT_TRUE(windows_of("garlic", {.latitude_deg = 20.0, .mean_c = 24.0, .swing_k = 4.0}).empty());
}

TEST(SowingWindows, SayWhatClosesThem) {
  const auto windows = windows_of("bush-bean", {.mean_c = 10.0, .swing_k = 11.0});
  ASSERT_FALSE(windows.empty());
  EXPECT_NE(windows.front().before, Limit::none);
  EXPECT_NE(windows.front().after, Limit::none);
}

TEST(SowingWindows, SuccessLiesBetweenTheLevelAndOne) {
  for (const auto& window : windows_of("beet", {})) {
    EXPECT_GE(window.success, 0.5);
    EXPECT_LE(window.success, 1.0);
  }
}

TEST(SowingWindows, TomatoGoesOutAfterItIsSownIndoors) {
  const auto windows = windows_of("tomato", {.mean_c = 12.0, .swing_k = 10.0});
  EXPECT_TRUE(any_holds(windows, "start-indoors", {4, 20}));
  EXPECT_TRUE(any_holds(windows, "set-out", {6, 1}));
  EXPECT_FALSE(any_holds(windows, "set-out", {3, 15}));
}

}  // namespace
}  // namespace sowtide::stand
