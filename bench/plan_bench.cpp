// The planner over made-up gardens of growing size: relaxation, dive, placed plan and its proven gap, and
// what judging a given plan costs.
#include <benchmark/benchmark.h>

#include "plan/season_plan.hpp"
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
