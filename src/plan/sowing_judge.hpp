// Whether a way to raise something, begun in a week, is worth considering, and what the planner must know of
// it then.
#pragma once

#include <optional>
#include <string>

#include "plan/ways.hpp"

namespace sowtide::plan {

inline constexpr int kNeverReady = -1;

/// What was found out about a sowing, be it worth considering or not.
struct SowingNote {
  double success = 0.0;
  std::string limits;
  bool beyond = false;
  bool looked_at = false;
  int ready_week = kNeverReady;  ///< in which half of those that give something have begun
};

/// Lives the sowing through all weather years. `ready_week_pulled`: when the same sowing, pulled as it is
/// ready, was ready; of no matter for others. Nothing where it fails too often or brings nothing within the
/// grid; `note` tells.
[[nodiscard]] std::optional<Candidate> judge_sowing(const Preparation& garden, const Way& way,
                                                    std::size_t week, int ready_week_pulled,
                                                    SowingNote& note);

/// Fills in what decides in which beds the candidate may stand, and beside what.
void describe_needs(const crop::Crop& crop, Candidate& candidate);

}  // namespace sowtide::plan
