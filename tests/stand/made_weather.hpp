// Ensembles made by hand for tests: a smooth year with a little day-to-day change, the same in every run.
#pragma once

#include <cmath>
#include <numbers>

#include "base/date.hpp"
#include "base/random.hpp"
#include "climate/ensemble.hpp"

namespace sowtide::stand::testing {

struct MadeClimate {
  double latitude_deg = 47.5;
  double mean_c = 11.0;  ///< of the year
  double swing_k = 7.5;  ///< half the difference of the warmest and the coldest month
  double daily_range_k = 9.0;
  double noise_k = 2.5;
  double radiation_mean_mj = 12.0, radiation_swing_mj = 9.0;
};

inline climate::WeatherEnsemble made_ensemble(const MadeClimate& climate, base::Date first, std::size_t days,
                                              std::size_t members) {
  climate::WeatherEnsemble made;
  made.site.name = "made";
  made.site.latitude_deg = climate.latitude_deg;
  made.first = first;
  made.day_count = days;
  made.member_count = members;
  for (std::size_t m = 0; m < members; ++m) {
    base::RandomStream stream(7, "test.weather", m);
    double anomaly = 0.0;
    for (std::size_t d = 0; d < days; ++d) {
      const base::Date date = first + base::Days{static_cast<int>(d)};
      const double season = (base::day_of_year(date) - 200.0) / 365.25 * 2.0 * std::numbers::pi;
      const double wave = std::cos(season) * (climate.latitude_deg >= 0.0 ? 1.0 : -1.0);
      anomaly = 0.7 * anomaly + climate.noise_k * 0.7 * stream.normal();
      const double mean = climate.mean_c + climate.swing_k * wave + anomaly;
      made.tmin_c.push_back(mean - 0.5 * climate.daily_range_k);
      made.tmax_c.push_back(mean + 0.5 * climate.daily_range_k);
      made.rain_mm.push_back(0.0);
      made.radiation_mj_m2.push_back(climate.radiation_mean_mj + climate.radiation_swing_mj * wave);
      made.et0_mm.push_back(2.0);
    }
    made.member_names.push_back("made");
  }
  made.source = "made for a test";
  return made;
}

}  // namespace sowtide::stand::testing
