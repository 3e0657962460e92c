// Generator and ensembles. Bars: 30 members x 730 days from normals under 20 ms; 1000 generated years a
// second.
#include <benchmark/benchmark.h>

#include <stdexcept>
#include <vector>

#include "climate/ensemble.hpp"
#include "climate/generator.hpp"

namespace {

using namespace sowtide;

climate::PlaceNormals place() {
  climate::PlaceNormals place;
  place.site = {"Bench", 42.955, -87.904, 204.0};
  place.normals.tmax_c = {-0.1, 1.6, 7.0, 12.8, 18.9, 24.7, 27.8, 26.9, 23.1, 16.1, 8.8, 2.6};
  place.normals.tmin_c = {-7.9, -6.3, -1.3, 3.8, 9.1, 14.9, 18.6, 18.3, 14.0, 7.6, 1.2, -4.6};
  place.normals.precip_mm = {46.0, 42.0, 54.0, 97.0, 91.0, 109.0, 87.0, 93.0, 77.0, 72.0, 58.0, 49.0};
  return place;
}

void generate_years(benchmark::State& state) {
  const climate::WeatherGenerator generator(climate::generator_from_normals(place()));
  constexpr std::size_t kDays = 365;
  std::vector<double> tmin(kDays), tmax(kDays), rain(kDays), radiation(kDays);
  std::uint64_t member = 0;
  for (auto _ : state) {
    generator.generate(1, member++, base::date_of(2026, 1, 1), {tmin, tmax, rain, radiation});
    if (!(tmin[200] < tmax[200])) throw std::logic_error("tmin above tmax");
  }
  state.counters["years_per_s"] =
      benchmark::Counter(static_cast<double>(member), benchmark::Counter::kIsRate);
}
BENCHMARK(generate_years)->Unit(benchmark::kMicrosecond);

void make_generator(benchmark::State& state) {
  for (auto _ : state) {
    const climate::WeatherGenerator generator(climate::generator_from_normals(place()));
    benchmark::DoNotOptimize(generator.mean_tmax_c()[0]);
  }
}
BENCHMARK(make_generator)->Unit(benchmark::kMicrosecond);

void ensemble_of_normals(benchmark::State& state) {
  for (auto _ : state) {
    const auto ensemble = climate::ensemble_from_normals(place(), {.first = base::date_of(2026, 3, 1)});
    if (ensemble.et0_mm.size() != 30U * 730U) throw std::logic_error("ensemble has another size");
  }
}
BENCHMARK(ensemble_of_normals)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace

BENCHMARK_MAIN();
