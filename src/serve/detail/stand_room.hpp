// Whether a moved stand would stand where another is sure to be.
#pragma once

#include <string>
#include <vector>

#include "desk/season.hpp"

namespace sowtide::serve::detail {

/// The stands that `tried` (a season of one stand, desk::with_plan_tried) would newly share room with, among
/// those of `season`, by id. Two share room when their stretches of one bed overlap on a day on which nine
/// years in ten both are there: from sowing (or setting out, median) to the early end of picking. Those that
/// the stand shares room with as it is do not count: a stand whose place turned out to be still taken must be
/// free to go.
[[nodiscard]] std::vector<std::string> new_neighbours(const desk::Season& season, const desk::Season& tried);

}  // namespace sowtide::serve::detail
