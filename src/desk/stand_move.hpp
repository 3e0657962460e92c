// Reads a wish to move a stand, in space or time, and checks it against the garden.
#pragma once

#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "desk/season.hpp"

namespace sowtide::desk {

/// The stand `id` of a season, changed by {"bed","from_m","to_m","sow","set_out","put_right"} (each may be
/// left out; set_out may be null: when ready and safe; put_right: the stand is elsewhere than was written
/// down). Its length stays what it is when only from_m is given. Problems: not_found (no such stand or bed),
/// contradiction (it was sown, so its day and what is in the ground stay), out_of_range (outside the bed, a
/// day before today or more than two years ahead), syntax, unknown_field, wrong_type.
[[nodiscard]] base::Result<stand::StandPlan> moved_stand(const Season& season, const std::string& id,
                                                         std::string_view body);

/// Whether such a body says that the stand is elsewhere than was written down.
[[nodiscard]] bool puts_right(std::string_view body);

}  // namespace sowtide::desk
