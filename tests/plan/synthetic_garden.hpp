// Made-up gardens of any size for tests and benchmarks of the planner: not real crops, but the same shape of
// numbers.
#pragma once

#include <cstdint>

#include "plan/garden_model.hpp"

namespace sowtide::plan {

struct SyntheticSize {
  std::size_t crops = 12;
  std::size_t beds = 6;
  std::size_t members = 30;
  std::size_t scenarios = 10;
  std::size_t weeks = 52;
  int tray_cells = 168;
  int week_step = 1;  ///< a sowing every so many weeks
  bool rotation = true;
  int mat_cells = 0;  ///< of the tray's cells, those that have room on its mat at once; 0: no mat limits them
  bool group_wants = false;  ///< every third want takes two crops
};

/// A garden that a test can plan many times.
[[nodiscard]] inline SyntheticSize small_size() {
  return {.crops = 5, .beds = 3, .members = 5, .scenarios = 3, .tray_cells = 60, .week_step = 2};
}

/// A finished model; the same seed gives the same garden.
[[nodiscard]] GardenModel synthetic_garden(std::uint64_t seed, const SyntheticSize& size);

}  // namespace sowtide::plan
