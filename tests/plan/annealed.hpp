// Plans made by the annealing alone, for tests of what steers it.
#pragma once

#include <numeric>
#include <vector>

#include "plan/anneal.hpp"

namespace sowtide::plan {

[[nodiscard]] inline std::vector<std::size_t> all_sowings(const GardenModel& model) {
  std::vector<std::size_t> all(model.candidates.size());
  std::iota(all.begin(), all.end(), 0U);
  return all;
}

/// The best plan that so many changes find.
[[nodiscard]] inline std::vector<PlacedStand> annealed_plan(const GardenModel& model, std::size_t changes) {
  Annealing annealing(model, all_sowings(model));
  AnnealingOptions options;
  options.changes = changes;
  annealing.run(options);
  return annealing.best_stands();
}

}  // namespace sowtide::plan
