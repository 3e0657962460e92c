// Reference evapotranspiration and the sun: the small formulas that run once for every day of every member.
#include <benchmark/benchmark.h>

#include <cstdlib>

#include "base/date.hpp"
#include "climate/evapotranspiration.hpp"
#include "climate/hourly.hpp"
#include "climate/solar_position.hpp"

namespace {

using namespace sowtide;

void reference_evapotranspiration_of_a_year(benchmark::State& state) {
  const climate::Site site{"Uccle", 50.8, 4.35, 100.0};
  for (auto _ : state) {
    double sum = 0.0;
    for (int day = 1; day <= 365; ++day) {
      climate::DailyWeather weather{.tmin_c = 5.0 + 0.01 * day, .tmax_c = 14.0 + 0.01 * day};
      sum += climate::reference_evapotranspiration_daily(weather, site, day).value();
    }
    if (!(sum > 300.0 && sum < 1500.0)) std::abort();
    benchmark::DoNotOptimize(sum);
  }
  state.SetItemsProcessed(state.iterations() * 365);
}
BENCHMARK(reference_evapotranspiration_of_a_year)->Unit(benchmark::kMicrosecond);

void hourly_temperatures_of_a_year(benchmark::State& state) {
  for (auto _ : state) {
    double sum = 0.0;
    for (int day = 1; day <= 365; ++day) {
      sum += climate::hourly_temperatures(5.0, 15.0, 14.0, 6.0, 8.0 + 0.02 * day)[14];
    }
    if (!(sum > 365.0 * 10.0 && sum < 365.0 * 15.1)) std::abort();
    benchmark::DoNotOptimize(sum);
  }
  state.SetItemsProcessed(state.iterations() * 365);
}
BENCHMARK(hourly_temperatures_of_a_year)->Unit(benchmark::kMicrosecond);

void sun_position(benchmark::State& state) {
  const climate::Observer observer{47.5, -122.3, 110.0};
  climate::UtcTime moment{base::date_of(2026, 6, 21)};
  for (auto _ : state) {
    moment += std::chrono::minutes{17};
    const auto sun = climate::sun_position(moment, observer);
    if (!(sun.zenith_deg() >= 0.0 && sun.zenith_deg() <= 180.0)) std::abort();
    benchmark::DoNotOptimize(sun);
  }
}
BENCHMARK(sun_position);

}  // namespace

BENCHMARK_MAIN();
