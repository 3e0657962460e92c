// What stands of a stand of the garden on a day, by size.
#pragma once

#include <cstddef>
#include <vector>

#include "desk/season.hpp"
#include "stand/standing_sizes.hpp"

namespace sowtide::desk {

/// The plants of a stand that have reached each of its crop's sizes on a day (`stand::reached_sizes`); none
/// of crops picked over weeks, of a stand that is over, and of one without an outlook. Problems: out_of_range
/// for a day before its sowing or beyond the weather.
[[nodiscard]] base::Result<std::vector<stand::ReachedSize>> standing_on(const Season& season,
                                                                        std::size_t stand, base::Date day);

}  // namespace sowtide::desk
