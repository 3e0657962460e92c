#include "climate/radiation.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <numeric>

#include "climate/sun.hpp"

namespace {

using namespace sowtide;
using base::DailyRadiation;
using base::Degrees;

RC_GTEST_PROP(HourlyRadiation, AddsUpToTheDayAndIsDarkAtNight, ()) {
  const Degrees latitude = Degrees::of(*rc::gen::inRange(-6500, 6501) / 100.0);
  const int day = *rc::gen::inRange(1, 367);
  const double total = *rc::gen::inRange(0, 350) / 10.0;
  const climate::HourlyRadiation hours = climate::hourly_radiation(DailyRadiation::of(total), latitude, day);
  const double sum = std::accumulate(hours.global_mj_m2.begin(), hours.global_mj_m2.end(), 0.0);
  RC_ASSERT(std::abs(sum - total) < 1e-9);
  const double half_day = 0.5 * climate::daylight_hours(latitude, day).value();
  for (std::size_t hour = 0; hour < 24; ++hour) {
    RC_ASSERT(hours.diffuse_mj_m2[hour] >= 0.0 &&
              hours.diffuse_mj_m2[hour] <= hours.global_mj_m2[hour] + 1e-12);
    const double begin = static_cast<double>(hour);
    if (begin + 1.0 < 12.0 - half_day || begin > 12.0 + half_day) RC_ASSERT(hours.global_mj_m2[hour] == 0.0);
    RC_ASSERT(std::abs(hours.global_mj_m2[hour] - hours.global_mj_m2[23 - hour]) < 1e-9);
  }
}

TEST(HourlyRadiation, IsNothingInThePolarNight) {
  const auto hours = climate::hourly_radiation(DailyRadiation::of(0.0), Degrees::of(80.0), 355);
  for (const double hour : hours.global_mj_m2) EXPECT_DOUBLE_EQ(hour, 0.0);
}

RC_GTEST_PROP(BeamAndDiffuse, AddUpToTheGlobal, ()) {
  const double zenith = *rc::gen::inRange(0, 861) / 10.0;
  const double global = *rc::gen::inRange(0, 1000) / 1.0;
  const auto split = climate::split_beam_and_diffuse(global, Degrees::of(zenith), *rc::gen::inRange(1, 367));
  const double level =
      split.diffuse_level_w_m2 + climate::beam_on_plane_w_m2(split.beam_normal_w_m2, Degrees::of(zenith));
  RC_ASSERT(std::abs(level - global) < 1e-6);
}

TEST(DiffuseShare, FallsAsTheSkyClears) {
  double before = 1.0;
  for (double clearness = 0.0; clearness <= 1.0; clearness += 0.005) {
    const double share = climate::diffuse_share_of_day(clearness);
    EXPECT_LE(share, before + 0.02) << clearness;  // the published pieces meet to within two hundredths
    before = share;
  }
}

TEST(DailyLightIntegral, OfABrightDayIsAboutFortySixMoles) {
  EXPECT_NEAR(climate::daily_light_integral_mol_m2(DailyRadiation::of(20.0)), 45.7, 0.01);
}

}  // namespace
