#include <algorithm>
#include <cstdlib>

#include "plan/candidates.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {

bool stand_alike(int pick_weeks, int other_pick_weeks) {
  return (pick_weeks > 0) == (other_pick_weeks > 0);
}

SowingKey key_of(const Candidate& candidate) {
  return {.product = candidate.product,
          .tray = candidate.tray,
          .bought = stand::bought_as_plants(candidate.sowing),
          .sun = candidate.sun,
          .week = candidate.sow_week,
          .pick_weeks = candidate.sowing.pick_weeks};
}

std::optional<std::size_t> sowing_of(const GardenModel& model, const SowingKey& key) {
  std::optional<std::size_t> nearest;
  int least = 0;
  for (std::size_t c = 0; c < model.candidates.size(); ++c) {
    const SowingKey other = key_of(model.candidates[c]);
    const bool same_light = !key.sun || !other.sun || key.sun == other.sun;
    if (other.product != key.product || other.tray != key.tray || other.bought != key.bought || !same_light ||
        other.week != key.week || !stand_alike(other.pick_weeks, key.pick_weeks))
      continue;
    const int apart = std::abs(other.pick_weeks - key.pick_weeks);
    if (nearest && apart >= least) continue;
    least = apart;
    nearest = c;
  }
  return nearest;
}

const RefusedSowing* refused_as(const PreparedGarden& garden, const SowingKey& key) {
  const auto refused =
      std::find_if(garden.refused.begin(), garden.refused.end(), [&](const RefusedSowing& other) {
        return other.product == key.product && other.tray == key.tray && other.bought == key.bought &&
               (!key.sun || other.sun == key.sun) && other.week == key.week;
      });
  return refused == garden.refused.end() ? nullptr : &*refused;
}

}  // namespace sowtide::plan
