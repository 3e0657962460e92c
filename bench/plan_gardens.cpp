// The planner over made-up gardens, as a table: how near to the best, how fast, and beside what a grower does
// by hand.
//
//   plan_gardens BEDS CROPS FIRST_SEED SEEDS [DIRECTORY]
//
// For each garden: the relaxation; whole clumps without places (the dive); the placed plan; the plan by hand;
// each plan's cost on the weather years of the model and on those that were not in it. With a directory, the
// program of every garden is written there as MPS and LP text, for other solvers
// (bench/compare/made-up-gardens).
//
// By hand: for every wanted week in order, whatever the table will miss is counted back to the sowing whose
// harvest is largest then, as many clumps as make up for it, put where there is room first. No looking ahead
// at what room is worth.
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <numeric>
#include <span>
#include <string>

#include "plan/season_plan.hpp"
#include "plan/synthetic_garden.hpp"

namespace {

using namespace sowtide::plan;

class Clock {
 public:
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
  }

 private:
  std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
};

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

double cost_of(const GardenModel& model, const std::vector<std::size_t>& members,
               const std::vector<PlacedStand>& stands) {
  ForwardPass judge(model, members);
  judge.set_counts(counts_of(model, stands));
  return judge.cost();
}

double cost_of_nothing(const GardenModel& model) {
  double cost = 0.0;
  for (const Demand& demand : model.demands) {
    for (std::size_t w = 0; w < model.weeks; ++w) cost += price_in(demand, w) * demand.servings[w];
  }
  return cost;
}

/// The sowing that is at its largest in the week; nothing when none bears then.
std::optional<std::size_t> sowing_for(const GardenModel& model, const Demand& demand, std::size_t week) {
  std::optional<std::size_t> best;
  double most = 0.0;
  for (std::size_t c = 0; c < model.candidates.size(); ++c) {
    const Candidate& candidate = model.candidates[c];
    const double mean =
        meets(demand, candidate.product) ? mean_of_years(model, candidate.servings, week) : 0.0;
    if (mean <= most) continue;
    most = mean;
    best = c;
  }
  return best;
}

std::vector<PlacedStand> plan_by_hand(const GardenModel& model) {
  constexpr double kFeltShare = 0.1;
  Layout layout(model);
  ForwardPass judge(model, model.scenarios);
  for (std::size_t week = 0; week < model.weeks; ++week) {
    for (std::size_t d = 0; d < model.demands.size(); ++d) {
      const Demand& demand = model.demands[d];
      const std::vector<double> missing = judge.missing(d);
      double mean = 0.0;
      for (std::size_t m = 0; m < judge.member_count(); ++m) mean += missing[m * model.weeks + week];
      mean /= static_cast<double>(judge.member_count());
      if (mean <= kFeltShare * demand.servings[week]) continue;
      const auto sowing = sowing_for(model, demand, week);
      if (!sowing) continue;
      const double each = mean_of_years(model, model.candidates[*sowing].servings, week);
      const int placed = layout.grow_split(*sowing, static_cast<int>(std::ceil(mean / each)));
      judge.add(*sowing, placed);
    }
  }
  return layout.stands();
}

void write_text(const std::string& path, const std::string& text) {
  std::ofstream(path) << text;
}

struct Options {
  SyntheticSize size;
  std::uint64_t first_seed = 1, seeds = 1;
  std::string directory;
};

void run_garden(const Options& options, std::uint64_t seed) {
  const GardenModel model = synthetic_garden(seed, options.size);
  Formulation formulation = formulate(model);
  if (!options.directory.empty()) {
    const std::string path =
        fmt::format("{}/{}x{}-{}", options.directory, options.size.beds, options.size.crops, seed);
    Formulation whole = formulation;
    add_all_age_rows(model, whole);
    write_text(path + ".mps", to_mps(whole.program, "garden"));
    write_text(path + ".lp", to_lp_text(whole.program, "garden"));
  }
  const Clock relaxing;
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  if (!relaxation) return fmt::print("{:5} the relaxation was not solved\n", seed);
  const double relaxed_s = relaxing.seconds();
  const DiveResult dive = solver.dive();
  const double dived_s = relaxing.seconds();
  // Judged by the walk through the weeks: the dive may break rows of age that the relaxation did not need.
  ForwardPass judge(model, model.scenarios);
  judge.set_counts(counts_of(model, formulation, dive.solution.values));
  const double dive_cost = judge.cost();
  PlanOptions how;
  how.time_limit_s = 60.0;
  const Clock planning;
  const auto solved = solve_model(model, how);
  const double planned_s = planning.seconds();
  if (!solved || !layout_faults(model, solved->stands).empty())
    return fmt::print("{:5} the plan is not sound\n", seed);
  const std::vector<PlacedStand> by_hand = plan_by_hand(model);
  if (!layout_faults(model, by_hand).empty()) return fmt::print("{:5} the plan by hand is not sound\n", seed);
  const double nothing = cost_of_nothing(model);
  const std::vector<std::size_t> unseen = unseen_members(model);
  const auto saved = [&](const std::vector<std::size_t>& members, const std::vector<PlacedStand>& stands) {
    return 100.0 * (nothing - cost_of(model, members, stands)) / nothing;
  };
  fmt::print(
      "{:5} {:6} {:7.2f} {:7.2f} {:6.2f} {:7.2f} {:6.2f} {:6} {:7.1f} {:7.1f} {:7.1f} {:7.1f} {:6.0f}\n",
      seed, model.candidates.size(), relaxed_s, dived_s,
      100.0 * relative_gap(dive_cost, relaxation->objective), planned_s,
      100.0 * relative_gap(solved->objective, relaxation->objective), solved->stands.size(),
      saved(model.scenarios, solved->stands), saved(unseen, solved->stands), saved(model.scenarios, by_hand),
      saved(unseen, by_hand), peak_megabytes());
}

}  // namespace

int main(int count, char** words) {
  if (count < 5) {
    fmt::print(stderr, "usage: plan_gardens BEDS CROPS FIRST_SEED SEEDS [DIRECTORY]\n");
    return 2;
  }
  const std::span arguments(words, static_cast<std::size_t>(count));
  Options options;
  options.size.beds = std::strtoul(arguments[1], nullptr, 10);
  options.size.crops = std::strtoul(arguments[2], nullptr, 10);
  options.size.tray_cells = 28 * static_cast<int>(options.size.beds);
  options.first_seed = std::strtoull(arguments[3], nullptr, 10);
  options.seeds = std::strtoull(arguments[4], nullptr, 10);
  if (count > 5) options.directory = arguments[5];
  fmt::print(
      "{} beds, {} wants. gap: to the relaxation, %. met: what of the cost of an empty table is saved, %\n",
      options.size.beds, options.size.crops);
  fmt::print("{:>5} {:>6} {:>7} {:>14} {:>14} {:>6} {:>15} {:>15} {:>6}\n", "", "", "relaxed", "whole clumps",
             "placed", "", "met by the plan", "met by hand", "memory");
  fmt::print("{:>5} {:>6} {:>7} {:>7} {:>6} {:>7} {:>6} {:>6} {:>7} {:>7} {:>7} {:>7} {:>6}\n", "seed",
             "cands", "s", "s", "gap", "s", "gap", "stands", "seen", "unseen", "seen", "unseen", "MB");
  for (std::uint64_t k = 0; k < options.seeds; ++k) run_garden(options, options.first_seed + k);
  return 0;
}
