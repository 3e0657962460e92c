// One site's full climate: all that the Site page and `weather GARDEN show` work out for a garden, from 30
// years of record and from monthly normals alone. Reading and checking the record is not counted (see
// weather_import). The outlooks of stands are not climate: the garden has none.
#include <benchmark/benchmark.h>

#include <string>

#include "climate/gaps.hpp"
#include "climate/normals.hpp"
#include "climate/quality.hpp"
#include "climate/readers.hpp"
#include "crop/crop.hpp"
#include "desk/figures.hpp"
#include "desk/season.hpp"
#include "desk/site.hpp"
#include "desk/weather_report.hpp"

namespace {

using namespace sowtide;

/// Milwaukee 1991-2020, NOAA GHCN-Daily (public domain).
constexpr const char* kRecord = "built-in:milwaukee_1991_2020";

/// The garden with 30 years of record, or with the record's normals alone.
book::GardenDescription garden(bool with_record) {
  book::GardenDescription made;
  made.name = "Bench";
  made.site = {"Bench", 42.955, -87.904, 204.0};
  auto read = climate::read_weather(*desk::weather_bytes(kRecord), kRecord);
  auto record = climate::fill_gaps(climate::control_quality(std::move(read->record)).record).record;
  record.site = made.site;
  made.normals = climate::normals_from_record(record)->place.normals;
  if (with_record) made.weather = std::move(record);
  return made;
}

void site_page(benchmark::State& state, bool with_record) {
  const book::GardenDescription description = garden(with_record);
  std::size_t bytes = 0;
  for (auto _ : state) {
    const auto season =
        desk::make_season(crop::built_in_library(), description, {}, base::date_of(2021, 4, 15));
    const auto page = desk::site_json(*season);
    if (!page) return state.SkipWithError(base::to_text(page.error()).c_str());
    bytes = page->size();
  }
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK_CAPTURE(site_page, from_30_years_of_record, true)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(site_page, from_normals, false)->Unit(benchmark::kMillisecond)->UseRealTime();

void weather_show(benchmark::State& state, bool with_record) {
  const book::GardenDescription description = garden(with_record);
  for (auto _ : state) {
    const desk::WeatherSummary summary = desk::summarise_weather(description);
    if (!summary.normals || !summary.chill || !summary.heat)
      return state.SkipWithError("something is missing");
    benchmark::DoNotOptimize(desk::weather_text(summary, desk::Units::metric));
  }
}
BENCHMARK_CAPTURE(weather_show, from_30_years_of_record, true)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(weather_show, from_normals, false)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace

BENCHMARK_MAIN();
