// Speed of the stand: one outlook (30 years × 32 clumps × 3 plants), the shared weather, windows. Goal:
// DESIGN section 7 (an outlook ≤ 5 ms on one core).
#include <benchmark/benchmark.h>

#include <memory>

#include "base/memory.hpp"
#include "climate/places.hpp"
#include "stand/simulate.hpp"
#include "stand/windows.hpp"
#include "tests/stand/plain_growth.hpp"

namespace sowtide::stand {
namespace {

const climate::WeatherEnsemble& ensemble() {
  static const climate::WeatherEnsemble made = [] {
    climate::EnsembleOptions options;
    options.first = base::date_of(2026, 1, 1);
    return climate::ensemble_from_normals(*climate::find_place("Olympia WA"), options);
  }();
  return made;
}

std::shared_ptr<const SeasonWeather> season() {
  static const auto made = std::make_shared<const SeasonWeather>(ensemble());
  return made;
}

StandPlan beets() {
  StandPlan plan;
  plan.id = "beets";
  plan.crop = "beet";
  plan.sow = base::date_of(2026, 4, 10);
  plan.clumps = 32;
  plan.plants_per_clump = 3;
  plan.spacing_mm = 240;
  return plan;
}

void one_outlook(benchmark::State& state) {
  const CropWeather weather(**crop::built_in_library().find("beet"), season());
  double plant_days = 0.0;
  for (auto _ : state) {
    const StandLives lives = simulate(weather, beets(), {}, {}, {});
    for (const auto& life : lives.members) plant_days += 96.0 * (life.end_day - life.emerge_day);
    benchmark::DoNotOptimize(outlook_of(lives, weather, beets(), {}));
  }
  state.counters["plant-days/s"] = benchmark::Counter(plant_days, benchmark::Counter::kIsRate);
}
BENCHMARK(one_outlook)->Unit(benchmark::kMillisecond);

// A day of growth alone, by the kernel and by the plain form it must equal: 32 clumps of 3 over 120 days.
template <typename Day>
void days_of_growth(benchmark::State& state, Day&& day_of_growth) {
  const detail::PlantConstants constants = detail::beet_like();
  double plant_days = 0.0;
  for (auto _ : state) {
    detail::PlantGrid grid = detail::made_grid(32, 3, 0.04);
    for (int day = 0; day < 120; ++day) day_of_growth(constants, detail::warm_day(day), grid);
    benchmark::DoNotOptimize(grid.leaf_g.data());
    plant_days += 120.0 * 96.0;
  }
  state.counters["plant-days/s"] = benchmark::Counter(plant_days, benchmark::Counter::kIsRate);
}
void growth_by_the_kernel(benchmark::State& state) {
  days_of_growth(state, detail::grow_day);
}
BENCHMARK(growth_by_the_kernel)->Unit(benchmark::kMicrosecond);
void growth_plainly(benchmark::State& state) {
  days_of_growth(state, detail::grow_day_plainly);
}
BENCHMARK(growth_plainly)->Unit(benchmark::kMicrosecond);

void shared_weather(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(SeasonWeather(ensemble()));
}
BENCHMARK(shared_weather)->Unit(benchmark::kMillisecond);

void crop_weather(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(CropWeather(**crop::built_in_library().find("beet"), season()));
}
BENCHMARK(crop_weather)->Unit(benchmark::kMillisecond);

void windows_of_one_crop(benchmark::State& state) {
  const CropWeather weather(**crop::built_in_library().find("beet"), season());
  for (auto _ : state) benchmark::DoNotOptimize(sowing_windows(weather));
}
BENCHMARK(windows_of_one_crop)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace sowtide::stand

// As the program begins, so that a stand's memory costs here what it costs there.
int main(int argc, char** argv) {
  sowtide::base::keep_freed_memory();
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
}
