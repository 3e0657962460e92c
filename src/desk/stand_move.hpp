// A wish to move a stand, in space or time, checked against the garden.
#pragma once

#include <optional>
#include <string>

#include "base/problem.hpp"
#include "desk/season.hpp"
#include "desk/typed_advice.hpp"

namespace sowtide::desk {

/// What is to change of a stand; what is absent stays.
struct StandMove {
  std::optional<std::string> bed;
  std::optional<double> from_m, to_m;
  std::optional<base::Date> sow;
  std::optional<std::optional<base::Date>> set_out;  ///< of nothing: when ready and safe
  bool put_right = false;                            ///< the stand is elsewhere than was written down
};

/// The stand `id` of a season after a move. Without to_m its length stays what it is; in a bed of another
/// width its clumps take the length that a plan would give them there. Of plants to be bought both days go
/// together, whichever is told. `advice` is that of its refusals. Problems: not_found (no such stand or bed),
/// contradiction (it was begun, so its day and what is in the ground stay; no day to set out what is bought),
/// infeasible (the bed is too narrow or too short for its clumps), out_of_range (outside the bed, a day
/// before today or more than two years ahead).
[[nodiscard]] base::Result<stand::StandPlan> moved_stand(const Season& season, const std::string& id,
                                                         const StandMove& move, const TypedAdvice& advice = {});

/// What of a moved stand is written down: its plan as the garden file has it, with the place and the days
/// that the move tells. What the log says of it (plants bought, rows sown otherwise) is told by the log
/// alone.
[[nodiscard]] stand::StandPlan plan_to_write(const Season& season, const stand::StandPlan& moved,
                                             const StandMove& move);

}  // namespace sowtide::desk
