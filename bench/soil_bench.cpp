// Soil temperature at sowing depth over an ensemble: 30 members × 365 days should take under 50 ms on one
// core.
#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdlib>
#include <numbers>

#include "base/date.hpp"
#include "base/parallel.hpp"
#include "climate/soil_temperature.hpp"

namespace {

using namespace sowtide;

/// A temperate year with daily noise, in the shape of an ensemble.
climate::WeatherEnsemble made_ensemble(std::size_t members, std::size_t days) {
  climate::WeatherEnsemble ensemble;
  ensemble.site = {"made", 47.5, -122.3, 110.0};
  ensemble.first = base::date_of(2026, 1, 1);
  ensemble.member_count = members;
  ensemble.day_count = days;
  std::uint32_t state = 20261125;
  const auto noise = [&state] {
    state = state * 1664525U + 1013904223U;
    return static_cast<double>(state >> 8U) / 16777216.0 - 0.5;
  };
  for (std::size_t i = 0; i < members * days; ++i) {
    const double season = std::cos(2.0 * std::numbers::pi * (static_cast<double>(i % days) - 200.0) / 365.25);
    const double mean = 11.0 + 8.0 * season + 8.0 * noise();
    ensemble.tmin_c.push_back(mean - 5.0);
    ensemble.tmax_c.push_back(mean + 5.0);
    ensemble.rain_mm.push_back(std::max(0.0, 20.0 * noise() - 5.0));
    ensemble.radiation_mj_m2.push_back(13.0 + 9.0 * season + 3.0 * noise());
    ensemble.et0_mm.push_back(2.5 + 2.0 * season);
  }
  return ensemble;
}

void sowing_depth_over_an_ensemble(benchmark::State& state) {
  const auto ensemble = made_ensemble(30, 365);
  const base::ThreadLimit threads(static_cast<std::size_t>(state.range(0)));
  for (auto _ : state) {
    const auto series = climate::sowing_depth_temperature(ensemble, {}, base::Millimetres::of(20.0));
    if (!(std::abs(series.tmean_c[200] - 15.0) < 25.0)) std::abort();
    benchmark::DoNotOptimize(series.tmin_c.data());
  }
  state.SetItemsProcessed(state.iterations() * 30 * 365);
}
BENCHMARK(sowing_depth_over_an_ensemble)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace

BENCHMARK_MAIN();
