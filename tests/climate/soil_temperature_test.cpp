#include "climate/soil_temperature.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <vector>

#include "base/parallel.hpp"
#include "climate/detail/soil_column.hpp"
#include "climate/detail/soil_properties.hpp"

namespace {

using namespace sowtide;
using namespace sowtide::climate;
using base::Millimetres;
using std::numbers::pi;

const std::array<Millimetres, 2> kShallowAndDeep{Millimetres::of(20.0), Millimetres::of(300.0)};

/// Weather with a yearly and nothing else: tmin 6 K under, tmax 6 K over the mean of the day.
struct MadeWeather {
  std::vector<double> tmin_c, tmax_c, rain_mm;
  Site site{"made", 48.0, 0.0, 100.0};

  MadeWeather(std::size_t days, double mean_c, double swing_k, double latitude_deg = 48.0) {
    site.latitude_deg = latitude_deg;
    for (std::size_t day = 0; day < days; ++day) {
      const double season = std::cos(2.0 * pi * (static_cast<double>(day) - 200.0) / 365.25);
      const double mean = mean_c + (latitude_deg < 0.0 ? -swing_k : swing_k) * season;
      tmin_c.push_back(mean - 6.0);
      tmax_c.push_back(mean + 6.0);
      rain_mm.push_back(day % 5 == 0 ? 8.0 : 0.0);
    }
  }
  [[nodiscard]] SoilWeather view() const {
    SoilWeather weather{.site = site, .first = base::date_of(2025, 1, 1)};
    weather.tmin_c = tmin_c;
    weather.tmax_c = tmax_c;
    weather.rain_mm = rain_mm;
    return weather;
  }
};

double mean_over(const std::vector<double>& values, std::size_t from, std::size_t to) {
  return std::accumulate(values.begin() + static_cast<std::ptrdiff_t>(from),
                         values.begin() + static_cast<std::ptrdiff_t>(to), 0.0) /
         static_cast<double>(to - from);
}

SoilTemperatures at_two_centimetres(const MadeWeather& weather, const SoilSetting& setting) {
  return soil_temperature_daily(weather.view(), setting, kShallowAndDeep).value().front();
}

/// A column of one material whose surface follows a daily sine; gives amplitude left and lag in hours at a
/// depth.
struct DailyWave {
  double share_left;
  double lag_h;
};

DailyWave wave_at(double diffusivity_m2_s, double depth_m, double step_s) {
  constexpr double kCapacity = 2.5e6;
  detail::SoilColumn column(detail::ground_grid(), 0.0);
  for (std::size_t i = 0; i < column.grid().count; ++i) {
    column.capacity_j_m2_k[i] = kCapacity * column.grid().thickness_m[i];
    column.conductivity_w_m_k[i] = kCapacity * diffusivity_m2_s;
  }
  column.prepare(step_s, 1e7);
  const detail::DepthWeight weight = detail::depth_weight(column.grid(), depth_m);
  const int steps = static_cast<int>(86400.0 / step_s);
  double sine_part = 0.0;
  double cosine_part = 0.0;
  for (int day = 0; day < 40; ++day) {
    for (int step = 0; step < steps; ++step) {
      const double middle = 2.0 * pi * (step + 0.5) / steps;
      column.step({std::sin(middle), 0.0, 0.0});
      if (day < 30) continue;
      const double end = 2.0 * pi * (step + 1.0) / steps;
      sine_part += weight.of(column.temperature_c()) * std::sin(end) * 0.2 / steps;
      cosine_part += weight.of(column.temperature_c()) * std::cos(end) * 0.2 / steps;
    }
  }
  return {std::hypot(sine_part, cosine_part), std::atan2(-cosine_part, sine_part) * 12.0 / pi};
}

TEST(SoilColumn, DampsAndDelaysTheDailyWaveAsTheExactSolution) {
  // D. Hillel 1982, Introduction to Soil Physics: exp(-z/d) left, z/d later, d = √(2D/ω).
  for (const double diffusivity : {2e-7, 5e-7, 1e-6}) {
    for (const double depth_m : {0.05, 0.10}) {
      const double ratio = depth_m / std::sqrt(2.0 * diffusivity * 86400.0 / (2.0 * pi));
      const DailyWave fine = wave_at(diffusivity, depth_m, 600.0);
      EXPECT_NEAR(fine.share_left, std::exp(-ratio), 0.02) << diffusivity << " " << depth_m;
      EXPECT_NEAR(fine.lag_h, ratio * 12.0 / pi, 0.25) << diffusivity << " " << depth_m;
      const DailyWave coarse = wave_at(diffusivity, depth_m, 7200.0);
      EXPECT_NEAR(coarse.share_left, std::exp(-ratio), 0.05) << diffusivity << " " << depth_m;
      EXPECT_NEAR(coarse.lag_h, ratio * 12.0 / pi, 0.6) << diffusivity << " " << depth_m;
    }
  }
}

TEST(SoilColumn, KeepsItsHeatWhenNothingPassesTheSurface) {
  detail::SoilColumn column(detail::ground_grid(), 10.0);
  for (std::size_t i = 0; i < column.grid().count; ++i) {
    column.capacity_j_m2_k[i] = 2e6 * column.grid().thickness_m[i];
    column.conductivity_w_m_k[i] = 1.0;
  }
  const auto heat = [&column] {
    double sum = 0.0;
    for (std::size_t i = 0; i < column.grid().count; ++i) {
      sum += column.capacity_j_m2_k[i] * column.temperature_c()[i];
    }
    return sum;
  };
  column.prepare(3600.0, 15.0);
  for (int hour = 0; hour < 12; ++hour) column.step({35.0, 0.0, 0.0});
  const double warmed = heat();
  column.prepare(3600.0, 1e-12);
  for (int hour = 0; hour < 500; ++hour) column.step({-40.0, 0.0, 0.0});
  EXPECT_NEAR(heat() / warmed, 1.0, 1e-9);
}

TEST(SoilColumn, ComesToRestAtTheTemperatureOutside) {
  detail::SoilColumn column(detail::tray_grid(0.05), 5.0);
  for (std::size_t i = 0; i < column.grid().count; ++i) {
    column.capacity_j_m2_k[i] = 2e6 * column.grid().thickness_m[i];
    column.conductivity_w_m_k[i] = 0.4;
  }
  column.bottom_w_m2_k = 6.0;
  column.prepare(3600.0, 15.0);
  for (int hour = 0; hour < 2000; ++hour) column.step({21.0, 0.0, 21.0});
  for (std::size_t i = 0; i < column.grid().count; ++i) EXPECT_NEAR(column.temperature_c()[i], 21.0, 1e-6);
}

TEST(SoilProperties, ConductMoreAndHoldMoreHeatWhenWet) {
  for (const SoilTexture texture :
       {SoilTexture::sand, SoilTexture::loam, SoilTexture::clay, SoilTexture::compost_mix}) {
    const auto& soil = detail::properties_of(texture);
    double conductivity = 0.0;
    for (double water = 0.02; water < soil.porosity; water += 0.02) {
      const double here = detail::conductivity_w_m_k(soil, water);
      EXPECT_GE(here, conductivity);
      conductivity = here;
    }
    EXPECT_GT(conductivity, 0.3);
    EXPECT_LT(conductivity, 3.0);
    EXPECT_FALSE(soil.source.empty());
  }
}

TEST(SoilTemperature, SwingsLessAndLaterTheDeeper) {
  const MadeWeather weather(730, 11.0, 8.0);
  const auto both = soil_temperature_daily(weather.view(), {}, kShallowAndDeep).value();
  double shallow = 0.0;
  double deep = 0.0;
  for (std::size_t day = 365; day < 730; ++day) {
    shallow += both[0].tmax_c[day] - both[0].tmin_c[day];
    deep += both[1].tmax_c[day] - both[1].tmin_c[day];
  }
  EXPECT_GT(shallow, 6.0 * deep);
  const auto warmest = [](const std::vector<double>& mean) {
    return std::max_element(mean.begin() + 365, mean.end()) - mean.begin();
  };
  EXPECT_GT(warmest(both[1].tmean_c), warmest(both[0].tmean_c));
}

RC_GTEST_PROP(SoilTemperature, StaysFiniteAndPlausibleAnywhere, ()) {
  const double latitude = *rc::gen::inRange(-80, 81);
  const MadeWeather weather(400, *rc::gen::inRange(-20, 30), *rc::gen::inRange(0, 20), latitude);
  SoilSetting setting;
  setting.place = *rc::gen::element(SoilPlace::ground, SoilPlace::raised_bed, SoilPlace::tray);
  setting.texture =
      *rc::gen::element(SoilTexture::sand, SoilTexture::loam, SoilTexture::clay, SoilTexture::compost_mix);
  setting.cover = *rc::gen::element(SoilCover::bare, SoilCover::grass, SoilCover::straw, SoilCover::leaves,
                                    SoilCover::clear_film, SoilCover::black_film);
  setting.shelter = *rc::gen::element(SoilShelter::none, SoilShelter::row_cover, SoilShelter::cold_frame);
  setting.watered = *rc::gen::arbitrary<bool>();
  const auto [coldest, ignored] = std::minmax_element(weather.tmin_c.begin(), weather.tmin_c.end());
  const auto [unused, hottest] = std::minmax_element(weather.tmax_c.begin(), weather.tmax_c.end());
  const auto series = at_two_centimetres(weather, setting);
  for (std::size_t day = 0; day < series.tmean_c.size(); ++day) {
    RC_ASSERT(std::isfinite(series.tmean_c[day]));
    RC_ASSERT(series.tmin_c[day] <= series.tmean_c[day] && series.tmean_c[day] <= series.tmax_c[day]);
    RC_ASSERT(series.tmin_c[day] > *coldest - 12.0);
    RC_ASSERT(series.tmax_c[day] < *hottest + 45.0);
  }
}

TEST(SoilTemperature, LagsHalfAYearInTheSouth) {
  const auto north = at_two_centimetres(MadeWeather(730, 12.0, 8.0, 45.0), {});
  const auto south = at_two_centimetres(MadeWeather(730, 12.0, 8.0, -45.0), {});
  EXPECT_GT(mean_over(north.tmean_c, 365 + 181, 365 + 212), mean_over(north.tmean_c, 365, 365 + 31) + 10.0);
  EXPECT_LT(mean_over(south.tmean_c, 365 + 181, 365 + 212), mean_over(south.tmean_c, 365, 365 + 31) - 10.0);
}

SoilSetting covered(SoilCover cover) {
  SoilSetting setting;
  setting.cover = cover;
  return setting;
}

TEST(SoilCover, FilmsWarmAndStrawEvensOut) {
  const MadeWeather weather(730, 11.0, 8.0);
  const auto spring = [](const std::vector<double>& values) {
    return mean_over(values, 365 + 90, 365 + 151);
  };
  const auto bare = at_two_centimetres(weather, covered(SoilCover::bare));
  const auto black = at_two_centimetres(weather, covered(SoilCover::black_film));
  const auto clear = at_two_centimetres(weather, covered(SoilCover::clear_film));
  const auto straw = at_two_centimetres(weather, covered(SoilCover::straw));
  EXPECT_GT(spring(black.tmean_c), spring(bare.tmean_c) + 1.0);
  EXPECT_GT(spring(clear.tmean_c), spring(black.tmean_c) + 0.5);
  EXPECT_LT(spring(straw.tmax_c), spring(bare.tmax_c) - 1.0);
  EXPECT_GT(spring(straw.tmin_c), spring(bare.tmin_c));
}

TEST(SoilCover, SummerUnderStrawIsCoolerThanDryBareSoil) {
  const MadeWeather weather(730, 14.0, 9.0);
  SoilSetting bare;
  bare.watered = false;
  SoilSetting straw = covered(SoilCover::straw);
  straw.watered = false;
  const auto summer = [](const std::vector<double>& values) {
    return mean_over(values, 365 + 152, 365 + 243);
  };
  EXPECT_LT(summer(at_two_centimetres(weather, straw).tmax_c),
            summer(at_two_centimetres(weather, bare).tmax_c) - 3.0);
}

TEST(SoilShelter, WarmsTheSoilInSpring) {
  const MadeWeather weather(730, 11.0, 8.0);
  SoilSetting open;
  SoilSetting row;
  row.shelter = SoilShelter::row_cover;
  SoilSetting frame;
  frame.shelter = SoilShelter::cold_frame;
  const auto spring = [&weather](const SoilSetting& setting) {
    return mean_over(at_two_centimetres(weather, setting).tmean_c, 365 + 60, 365 + 120);
  };
  EXPECT_GT(spring(row), spring(open) + 0.5);
  EXPECT_GT(spring(frame), spring(row));
}

TEST(RaisedBed, LosesMoreInAColdSpellThanTheGround) {
  MadeWeather weather(730, 11.0, 8.0);
  for (std::size_t day = 400; day < 420; ++day) {
    weather.tmin_c[day] = -12.0;
    weather.tmax_c[day] = -4.0;
  }
  SoilSetting bed;
  bed.place = SoilPlace::raised_bed;
  bed.bed = {0.4, 0.6};
  const auto in_bed = soil_temperature_daily(weather.view(), bed, kShallowAndDeep).value()[1];
  const auto in_ground = soil_temperature_daily(weather.view(), {}, kShallowAndDeep).value()[1];
  EXPECT_LT(in_bed.tmean_c[419], in_ground.tmean_c[419] - 0.3);
}

TEST(Freezing, HoldsTheSoilNearZeroWhileItsWaterTurnsToIce) {
  MadeWeather weather(730, 8.0, 8.0);
  std::fill(weather.rain_mm.begin() + 380, weather.rain_mm.begin() + 420, 0.0);
  for (std::size_t day = 400; day < 405; ++day) {
    weather.tmin_c[day] = -8.0;
    weather.tmax_c[day] = -3.0;
  }
  const std::array<Millimetres, 1> depth{Millimetres::of(100.0)};
  const auto series = soil_temperature_daily(weather.view(), {}, depth).value().front();
  EXPECT_GT(series.tmean_c[404], -2.5);
}

TEST(Snow, KeepsTheSoilWarmerInFrost) {
  MadeWeather snowy(730, 2.0, 12.0);
  MadeWeather bare = snowy;
  std::fill(snowy.rain_mm.begin(), snowy.rain_mm.end(), 1.5);
  std::fill(bare.rain_mm.begin(), bare.rain_mm.end(), 0.0);
  const auto january = [](const MadeWeather& weather) {
    return mean_over(at_two_centimetres(weather, {}).tmean_c, 365, 365 + 31);
  };
  EXPECT_GT(january(snowy), january(bare) + 2.0);
}

TEST(Tray, IndoorsKeepsToTheRoomWhateverTheWeather) {
  SoilSetting tray;
  tray.place = SoilPlace::tray;
  tray.tray.room_c = 19.0;
  const auto series = at_two_centimetres(MadeWeather(60, -5.0, 5.0), tray);
  for (std::size_t day = 0; day < 60; ++day) {
    EXPECT_NEAR(series.tmean_c[day], 17.5, 1e-9);
    EXPECT_LT(series.tmin_c[day], series.tmax_c[day]);
  }
}

TEST(Tray, OnAMatReachesTheThermostatOnlyAsFarAsItsPowerGoes) {
  SoilSetting tray;
  tray.place = SoilPlace::tray;
  tray.tray.room_c = 16.0;
  tray.tray.mat_c = 24.0;
  const auto warm = at_two_centimetres(MadeWeather(10, 5.0, 0.0), tray);
  EXPECT_NEAR(warm.tmin_c.front(), 23.5, 1e-9);  // 12.5 °C at night and 11 K of mat
  EXPECT_NEAR(warm.tmax_c.front(), 24.0, 1e-9);
  tray.tray.room_c = 5.0;
  const auto cold = at_two_centimetres(MadeWeather(10, 5.0, 0.0), tray);
  EXPECT_LT(cold.tmax_c.front(), 17.0);
}

TEST(SoilTemperature, FromHoursAgreesWithThatFromDays) {
  const MadeWeather weather(400, 12.0, 8.0);
  std::vector<double> air;
  std::vector<double> sun;
  for (std::size_t day = 0; day < 400; ++day) {
    const double top = 10.0 + 8.0 * std::cos(2.0 * pi * (static_cast<double>(day) - 172.0) / 365.25);
    for (int hour = 0; hour < 24; ++hour) {
      const double angle = 2.0 * pi * (hour + 0.5 - 14.0) / 24.0;
      air.push_back(0.5 * (weather.tmin_c[day] + weather.tmax_c[day]) + 6.0 * std::cos(angle));
      sun.push_back(std::max(0.0, std::cos(2.0 * pi * (hour + 0.5 - 12.0) / 24.0)) * top * 1e6 / 86400.0 *
                    pi);
    }
  }
  HourlySoilWeather hourly{.site = weather.site, .first = base::date_of(2025, 1, 1)};
  hourly.air_c = air;
  hourly.radiation_w_m2 = sun;
  std::vector<double> daily_sun;
  for (std::size_t day = 0; day < 400; ++day) {
    daily_sun.push_back(std::accumulate(sun.begin() + static_cast<std::ptrdiff_t>(24 * day),
                                        sun.begin() + static_cast<std::ptrdiff_t>(24 * day + 24), 0.0) *
                        3600e-6);
  }
  SoilWeather daily = weather.view();
  daily.rain_mm = {};
  daily.radiation_mj_m2 = daily_sun;
  const auto by_hours = soil_temperature_hourly(hourly, {}, kShallowAndDeep).value()[1];
  const auto by_days = soil_temperature_daily(daily, {}, kShallowAndDeep).value()[1];
  for (std::size_t day = 30; day < 400; day += 10) {
    const double mean = mean_over(by_hours, 24 * day, 24 * day + 24);
    EXPECT_NEAR(mean, by_days.tmean_c[day], 0.6) << day;
  }
}

WeatherEnsemble made_ensemble(std::size_t members, std::size_t days) {
  WeatherEnsemble ensemble;
  ensemble.site = {"made", 48.0, 0.0, 100.0};
  ensemble.first = base::date_of(2026, 3, 1);
  ensemble.day_count = days;
  ensemble.member_count = members;
  for (std::size_t member = 0; member < members; ++member) {
    const MadeWeather weather(days, 10.0 + static_cast<double>(member), 7.0);
    ensemble.tmin_c.insert(ensemble.tmin_c.end(), weather.tmin_c.begin(), weather.tmin_c.end());
    ensemble.tmax_c.insert(ensemble.tmax_c.end(), weather.tmax_c.begin(), weather.tmax_c.end());
    ensemble.rain_mm.insert(ensemble.rain_mm.end(), weather.rain_mm.begin(), weather.rain_mm.end());
    ensemble.radiation_mj_m2.insert(ensemble.radiation_mj_m2.end(), days, 12.0);
    ensemble.et0_mm.insert(ensemble.et0_mm.end(), days, 2.0);
  }
  return ensemble;
}

TEST(SowingDepthTemperature, IsEachMembersOwnAndTheSameOnAnyNumberOfThreads) {
  const WeatherEnsemble ensemble = made_ensemble(5, 400);
  const auto together = sowing_depth_temperature(ensemble, {}, Millimetres::of(25.0));
  ASSERT_EQ(together.tmin_c.size(), 5U * 400U);
  {
    const base::ThreadLimit one(1);
    const auto alone = sowing_depth_temperature(ensemble, {}, Millimetres::of(25.0));
    EXPECT_EQ(alone.tmin_c, together.tmin_c);
    EXPECT_EQ(alone.tmax_c, together.tmax_c);
  }
  for (std::size_t member = 1; member < 5; ++member) {
    EXPECT_GT(together.tmean_c[ensemble.at(member, 200)], together.tmean_c[ensemble.at(member - 1, 200)]);
  }
}

TEST(SowingDepthTemperature, WorksForASeasonOfAFewDays) {
  const auto series = sowing_depth_temperature(made_ensemble(2, 3), {}, Millimetres::of(10.0));
  for (const double value : series.tmean_c) EXPECT_TRUE(std::isfinite(value));
  EXPECT_TRUE(sowing_depth_temperature(made_ensemble(0, 0), {}, Millimetres::of(10.0)).tmean_c.empty());
}

TEST(SoilTemperature, RefusesBadInputWithTheField) {
  const MadeWeather weather(30, 10.0, 5.0);
  const auto field_of = [](const auto& result) {
    return result ? std::string{"accepted"} : result.error().where.field;
  };
  SoilWeather view = weather.view();
  const std::array<Millimetres, 1> too_deep{Millimetres::of(501.0)};
  EXPECT_EQ(field_of(soil_temperature_daily(view, {}, too_deep)), "depth_mm");
  EXPECT_EQ(field_of(soil_temperature_daily(view, {}, {})), "depth_mm");
  EXPECT_EQ(soil_temperature_daily({}, {}, kShallowAndDeep).error().code, base::ProblemCode::empty);
  MadeWeather gap = weather;
  gap.tmax_c[7] = std::numeric_limits<double>::quiet_NaN();
  const auto gapped = soil_temperature_daily(gap.view(), {}, kShallowAndDeep);
  EXPECT_EQ(field_of(gapped), "tmax");
  EXPECT_NE(gapped.error().what.find(base::to_iso(gap.view().first + base::Days{7})), std::string::npos)
      << gapped.error().what;
  MadeWeather uneven = weather;
  uneven.rain_mm.pop_back();
  EXPECT_EQ(field_of(soil_temperature_daily(uneven.view(), {}, kShallowAndDeep)), "rain");
  SoilSetting bed;
  bed.place = SoilPlace::raised_bed;
  bed.bed.width_m = 0.0;
  EXPECT_EQ(field_of(soil_temperature_daily(view, bed, kShallowAndDeep)), "bed_width_m");
  SoilSetting tray;
  tray.place = SoilPlace::tray;
  tray.tray.mat_c = 90.0;
  EXPECT_EQ(field_of(soil_temperature_daily(view, tray, kShallowAndDeep)), "mat_c");
  HourlySoilWeather hourly;
  const std::vector<double> seven(7, 10.0);
  hourly.air_c = seven;
  EXPECT_EQ(field_of(soil_temperature_hourly(hourly, {}, kShallowAndDeep)), "air temperature");
}

}  // namespace
