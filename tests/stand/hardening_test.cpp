// Frost hardiness by age and by the days before.
#include "stand/hardening.hpp"

#include <gtest/gtest.h>

#include "made_weather.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace {

using testing::made_ensemble;
using testing::MadeClimate;

/// The hardening after so many days at one mean temperature.
double after_days(double hardening, double mean_c, int days) {
  for (int day = 0; day < days; ++day) hardening = hardening_after(hardening, mean_c);
  return hardening;
}

// "Freezing tolerance and rapid cold acclimation of spinach" (abstract read): at 5 °C by day and 2 °C by
// night, a mean near 3.5 °C, the greatest change comes in the first 3 days and little after the 14th; after
// that, at 20 and 17 °C, much is lost within a day and nothing more after the 3rd.
TEST(Hardening, FollowsSpinachInTheColdAndBack) {
  const double third = after_days(0.0, 3.5, 3), fourteenth = after_days(0.0, 3.5, 14),
               last = after_days(0.0, 3.5, 21);
  EXPECT_GT(third, 0.5 * last);
  EXPECT_LT(last - fourteenth, 0.05 * last);
  EXPECT_GT(after_days(0.0, 3.5, 1), third - after_days(0.0, 3.5, 2)) << "fastest at first";
  EXPECT_LT(after_days(last, 18.5, 1), 0.7 * last);
  EXPECT_LT(after_days(last, 18.5, 3) - after_days(last, 18.5, 7), 0.15 * last);
}

TEST(Hardening, StaysWithinItsBoundsAndGoesWithTheCold) {
  for (double mean_c = -20.0; mean_c <= 35.0; mean_c += 1.0) {
    EXPECT_GE(hardening_at(mean_c), 0.0);
    EXPECT_LE(hardening_at(mean_c), 1.0);
    EXPECT_GE(hardening_at(mean_c), hardening_at(mean_c + 1.0));
    EXPECT_NEAR(after_days(0.5, mean_c, 100), hardening_at(mean_c), 1e-9);
  }
}

TEST(Hardening, OnlyGrownAndHardenedPlantsStandTheFigureOfGrownOnes) {
  const crop::Limits& limits = (*crop::built_in_library().find("kale"))->limits;
  EXPECT_DOUBLE_EQ(half_killed_c(limits, 1.0, 1.0), limits.kill_mature_c);
  EXPECT_DOUBLE_EQ(half_killed_c(limits, 0.0, 1.0), limits.kill_seedling_c);
  EXPECT_DOUBLE_EQ(half_killed_c(limits, 1.0, 0.0), limits.kill_seedling_c);
  EXPECT_LT(half_killed_c(limits, 1.0, 0.6), half_killed_c(limits, 1.0, 0.3));
  const crop::Limits& tender = (*crop::built_in_library().find("cucumber"))->limits;
  EXPECT_DOUBLE_EQ(half_killed_c(tender, 1.0, 0.0), tender.kill_mature_c) << "does not harden";
}

/// The days from 1 November, a night of frost, to the last picking of kale sown on 1 July, in a year of 14 °C
/// without any other frost, after a week of so many degrees: 0 where the frost ends it, which the grower
/// forestalls.
int kale_ends(double week_before_c, double night_c) {
  climate::WeatherEnsemble weather = made_ensemble(
      MadeClimate{.mean_c = 14.0, .swing_k = 0.0, .noise_k = 0.0}, base::date_of(2026, 1, 1), 365, 1);
  const auto night = static_cast<std::size_t>((base::date_of(2026, 11, 1) - weather.first).count());
  for (std::size_t day = night - 7; day < night; ++day) {
    weather.tmin_c[day] = week_before_c - 3.0;
    weather.tmax_c[day] = week_before_c + 3.0;
  }
  weather.tmin_c[night] = night_c;
  StandPlan plan;
  plan.id = "s1";
  plan.crop = "kale";
  plan.sow = base::date_of(2026, 7, 1);
  plan.clumps = 10;
  plan.spacing_mm = 400;
  const CropWeather felt{**crop::built_in_library().find("kale"),
                         std::make_shared<const SeasonWeather>(weather)};
  const StandLives lives = simulate(felt, plan, {}, {}, {});
  return lives.members.front().last_pick_day - static_cast<int>(night);
}

TEST(Hardening, ASuddenFrostAfterWarmDaysKillsWhatOutlivesItAfterCoolOnes) {
  EXPECT_EQ(kale_ends(14.0, -9.5), 0) << "from the warmth";
  EXPECT_GT(kale_ends(4.0, -9.5), 7) << "hardened for a week";
  EXPECT_EQ(kale_ends(4.0, -15.0), 0) << "beyond what hardened kale stands";
}

}  // namespace
}  // namespace sowtide::stand
