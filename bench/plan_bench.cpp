// The planner over made-up gardens of growing size: relaxation, dive, placed plan and its proven gap, and
// what judging a given plan costs. And the candidates of a year of real crops, anew and when they were asked
// for before, and the sowings of a year of all crops.
#include <benchmark/benchmark.h>

#include "base/parallel.hpp"
#include "climate/places.hpp"
#include "plan/season_plan.hpp"
#include "plan/sowing_memory.hpp"
#include "plan/synthetic_garden.hpp"

namespace {

using namespace sowtide::plan;

SyntheticSize size_of(const benchmark::State& state) {
  SyntheticSize size;
  size.beds = static_cast<std::size_t>(state.range(0));
  size.crops = static_cast<std::size_t>(state.range(1));
  size.tray_cells = 28 * static_cast<int>(size.beds);
  return size;
}

void relaxation(benchmark::State& state) {
  const Formulation formulation = formulate(synthetic_garden(7, size_of(state)));
  double bound = 0.0;
  for (auto _ : state) {
    RelaxationSolver solver(formulation.program);
    const auto solution = solver.solve();
    if (!solution) return state.SkipWithError("the relaxation was not solved");
    bound = solution->objective;
  }
  state.counters["rows"] = static_cast<double>(formulation.program.rows.size());
  state.counters["columns"] = static_cast<double>(formulation.program.columns.size());
  state.counters["bound"] = bound;
}

void whole_plan(benchmark::State& state) {
  const GardenModel model = synthetic_garden(7, size_of(state));
  PlanOptions options;
  options.time_limit_s = 60.0;
  options.rounds = 500;
  double gap = 0.0;
  for (auto _ : state) {
    const auto solved = solve_model(model, options);
    if (!solved || !layout_faults(model, solved->stands).empty())
      return state.SkipWithError("the plan is not sound");
    gap = relative_gap(solved->objective, solved->bound);
  }
  state.counters["candidates"] = static_cast<double>(model.candidates.size());
  state.counters["gap_pct"] = 100.0 * gap;
}

void judging(benchmark::State& state) {
  const GardenModel model = synthetic_garden(7, size_of(state));
  ForwardPass judge(model, model.scenarios);
  std::size_t candidate = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(judge.change_by(candidate, 1));
    candidate = (candidate + 1) % model.candidates.size();
  }
}

/// Twenty wants of the library in thirty made-up years of Trier; range: whether a plan was made before.
void candidates(benchmark::State& state) {
  using namespace sowtide;
  climate::EnsembleOptions years;
  years.first = base::date_of(2026, 2, 9);
  years.day_count = 365 + 371;
  const auto weather = climate::ensemble_from_normals(*climate::find_place("Trier"), years);
  years.first = base::date_of(2026, 1, 1);
  years.day_count = 730;
  const auto typical = climate::ensemble_from_normals(*climate::find_place("Trier"), years);
  PlanInput input;
  input.library = &crop::built_in_library();
  input.beds.push_back({.id = "b1", .length_m = 6.0, .width_m = 1.2});
  input.trays.push_back({.id = "t1", .cells = 80, .cell_width_mm = 40.0});
  for (const auto& [id, crop] : input.library->crops) {
    if (input.wants.size() == 20) break;
    input.wants.push_back({.id = id, .crop = id, .amount_per_week = 500.0});
  }
  input.weather = &weather;
  input.today = base::date_of(2026, 2, 15);
  SowingMemory memory;
  const bool again = state.range(0) != 0;
  const SourceMaker source = [&](const std::vector<crop::Crop>& crops, const WeekGrid& grid) {
    return growing_source(weather, grid, crops, 1, &typical, again ? &memory : nullptr);
  };
  std::size_t count = 0;
  if (again) benchmark::DoNotOptimize(prepare_garden(input, {}, source));
  for (auto _ : state) {
    const auto garden = prepare_garden(input, {}, source);
    if (!garden) return state.SkipWithError("no candidates");
    count = garden->model.candidates.size();
  }
  state.counters["candidates"] = static_cast<double>(count);
  state.counters["kept_mb"] = static_cast<double>(memory.tally().bytes) / (1 << 20);
}

/// Thirty sowings through the year of every crop of the library, each lived anew in thirty made-up years.
/// Goal: DESIGN section 7 (3 s on two cores).
void sowings_of_a_year(benchmark::State& state) {
  using namespace sowtide;
  climate::EnsembleOptions years;
  years.first = base::date_of(2026, 1, 1);
  const auto weather = climate::ensemble_from_normals(*climate::find_place("Olympia WA"), years);
  std::vector<crop::Crop> crops;
  for (const auto& [id, crop] : crop::built_in_library().crops) crops.push_back(crop);
  constexpr std::size_t kSowings = 30;
  for (auto _ : state) {
    const auto source = growing_source(weather, {years.first, 52}, crops, 1, nullptr, nullptr);
    base::parallel_for(kSowings * crops.size(), [&](std::size_t i) {
      const crop::Crop& crop = crops[i / kSowings];
      stand::StandPlan plan;
      plan.id = plan.crop = crop.id;
      plan.clumps = 10;
      plan.spacing_mm = crop.place.spacing_large_mm;
      plan.method = crop.nursery.can_direct_sow ? stand::Method::direct_sow : stand::Method::start_indoors;
      plan.sow = base::date_of(2026, 1, 15) + base::Days{12 * static_cast<int>(i % kSowings)};
      benchmark::DoNotOptimize(source->life(crop, plan, {}, stand::RaisingPlace{}, {}));
    });
  }
  state.counters["crops"] = static_cast<double>(crops.size());
}

BENCHMARK(sowings_of_a_year)->Unit(benchmark::kSecond)->MeasureProcessCPUTime()->UseRealTime();
BENCHMARK(candidates)->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime();
BENCHMARK(relaxation)
    ->Args({3, 10})
    ->Args({6, 20})
    ->Args({12, 30})
    ->Args({24, 45})
    ->Unit(benchmark::kSecond)
    ->Iterations(1);
BENCHMARK(whole_plan)
    ->Args({3, 10})
    ->Args({6, 20})
    ->Args({12, 30})
    ->Args({24, 45})
    ->Unit(benchmark::kSecond)
    ->Iterations(1);
BENCHMARK(judging)->Args({6, 20})->Unit(benchmark::kMicrosecond);

}  // namespace

BENCHMARK_MAIN();
