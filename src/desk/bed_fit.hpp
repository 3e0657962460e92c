// Whether the clumps of a stand fit into a bed; refusals in the units of the garden.
#pragma once

#include <string_view>

#include "base/problem.hpp"
#include "bed/bed.hpp"
#include "desk/present.hpp"
#include "stand/outlook.hpp"

namespace sowtide::desk {

/// Length that the stand's clumps take of a bed, m. Problems (infeasible): the bed is too narrow, told of the
/// field bed; its clumps take more than the whole of it, told of `too_long_field` with `too_long_remedy`.
[[nodiscard]] base::Result<double> fitting_length_m(const bed::Bed& bed, const stand::StandPlan& plan,
                                                    Units units, std::string_view too_long_field,
                                                    std::string_view too_long_remedy);

/// Refuses a stretch that leaves its bed: out_of_range, told of the field from_m.
[[nodiscard]] base::Result<void> check_within_bed(const bed::Bed& bed, double from_m, double to_m,
                                                  Units units);

}  // namespace sowtide::desk
