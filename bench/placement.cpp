// How near placement comes to the least length of bed that can hold what is to be placed, over made-up
// instances, as a table (docs/models/plan.md, "Placement beside its lower bound").
//
//   placement INSTANCES [ROUNDS]
//
// The least length is the maximum load, the largest total of lengths on the ground in any one week, or with
// rotation the largest total of a family. By each way: in how many instances the least length is enough, and
// what length is needed, median and worst, in shares of it. Then, in beds of the least length, what the
// planner's search places of all that is wanted with the bother that the garden's planner takes for a stand,
// and in how many stands for each that is wanted.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <limits>
#include <numeric>
#include <span>
#include <string>
#include <vector>

#include "plan/placement_instance.hpp"

namespace {

using namespace sowtide::plan;

/// Servings a stand, as the garden's planner has it.
constexpr double kUsualBother = 0.5;

struct Kind {
  std::string name;
  PlacementShape shape;
};

std::string told(std::vector<double> ratios) {
  std::sort(ratios.begin(), ratios.end());
  const auto within = std::count(ratios.begin(), ratios.end(), 1.0);
  return fmt::format("{:5.0f} % {:5.2f} {:5.2f}",
                     100.0 * static_cast<double>(within) / static_cast<double>(ratios.size()),
                     ratios[ratios.size() / 2], ratios.back());
}

double mean(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

void run(const Kind& kind, std::uint64_t instances, std::size_t rounds) {
  const std::vector<PlacementWay> ways = {
      [](const PlacementInstance& instance) { return placed_in_order(instance, false); },
      [](const PlacementInstance& instance) { return placed_in_order(instance, true); },
      [rounds](const PlacementInstance& instance) { return placed_by_search(instance, rounds); }};
  std::vector<std::vector<double>> needed(ways.size());
  std::vector<double> placed, stands;
  const auto begin = std::chrono::steady_clock::now();
  for (std::uint64_t seed = 1; seed <= instances; ++seed) {
    const PlacementInstance instance = placement_instance(seed, kind.shape);
    for (std::size_t i = 0; i < ways.size(); ++i)
      needed[i].push_back(needed_length(instance, ways[i]).value_or(std::numeric_limits<double>::infinity()));
    const std::vector<PlacedStand> plan = placed_by_search(instance, rounds, kUsualBother);
    placed.push_back(placed_share(instance, plan));
    stands.push_back(static_cast<double>(plan.size()) / static_cast<double>(kind.shape.stands));
  }
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  fmt::print("{:36} {}   {}   {}   {:5.1f} % {:5.2f}  {:6.1f} s\n", kind.name, told(needed[0]),
             told(needed[1]), told(needed[2]), 100.0 * mean(placed), mean(stands), seconds);
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    fmt::print(stderr, "usage: placement INSTANCES [ROUNDS]\n");
    return 2;
  }
  const std::span arguments(words, static_cast<std::size_t>(count));
  const std::uint64_t instances = std::strtoull(arguments[1], nullptr, 10);
  const std::size_t rounds = count > 2 ? std::strtoul(arguments[2], nullptr, 10) : kUsualRounds;
  const std::vector<Kind> kinds = {
      {"10 stands, 1 bed", {.stands = 10}},
      {"30 stands, 1 bed", {.stands = 30}},
      {"100 stands, 1 bed", {.stands = 100}},
      {"30 stands, 3 beds", {.stands = 30, .beds = 3}},
      {"100 stands, 6 beds", {.stands = 100, .beds = 6}},
      {"30 stands, 1 bed, 5 fixed", {.stands = 30, .fixed = 5}},
      {"30 stands, 1 bed, heights", {.stands = 30, .heights = true}},
      {"30 stands, 1 bed, rotation", {.stands = 30, .rotation = true}},
      {"100 stands, 6 beds, rotation", {.stands = 100, .beds = 6, .rotation = true}},
      {"30 stands, 1 bed, 5 fixed, rotation", {.stands = 30, .fixed = 5, .rotation = true}},
  };
  fmt::print("{} instances a row, {} rounds\n{:36} {:^19}   {:^19}   {:^19}   {:^13}\n", instances, rounds,
             "", "in order, whole", "in order, split", "by the search", "with bother");
  fmt::print("{:36}", "");
  for (int way = 0; way < 3; ++way) fmt::print(" {:>7} {:>5} {:>5}  ", "within", "med", "worst");
  fmt::print(" {:>7} {:>5}\n", "placed", "cut");
  for (const Kind& kind : kinds) run(kind, instances, rounds);
  return 0;
}
