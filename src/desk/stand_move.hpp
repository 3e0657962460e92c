// Reads a wish to move a stand, in space or time, and checks it against the garden.
#pragma once

#include <optional>
#include <string>
#include <string_view>

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

/// Reads {"bed","from_m","to_m","sow","set_out","put_right"}, each of which may be left out; set_out may be
/// null. Problems: syntax, unknown_field, wrong_type, and those of a day.
[[nodiscard]] base::Result<StandMove> read_stand_move(std::string_view body);

/// The stand `id` of a season after a move. Without to_m its length stays what it is; in a bed of another
/// width its clumps take the length that a plan would give them there. Of plants to be bought both days go
/// together, whichever is told. `advice` is that of its refusals. Problems: not_found (no such stand or bed),
/// contradiction (it was sown, so its day and what is in the ground stay; no day to set out what is bought),
/// infeasible (the bed is too narrow or too short for its clumps), out_of_range (outside the bed, a day
/// before today or more than two years ahead).
[[nodiscard]] base::Result<stand::StandPlan> moved_stand(const Season& season, const std::string& id,
                                                         const StandMove& move, const TypedAdvice& advice = {});

}  // namespace sowtide::desk
