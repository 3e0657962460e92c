// What stands of a stand of the garden on a day, by size.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "desk/season.hpp"
#include "stand/standing_sizes.hpp"

namespace sowtide::desk {

/// Whether the plants of the stand of this id can be told of on a day. Problems: out_of_range for one before
/// its sowing or beyond the weather; of a stand that is not there nothing is asked.
[[nodiscard]] base::Result<void> check_standing_day(const Season& season, const std::string& id,
                                                    base::Date day);

/// The plants of a stand that have reached each of its crop's sizes on a day (`stand::reached_sizes`); none
/// of crops picked over weeks, of a stand that is over, and of one without an outlook. Problems: those of
/// `check_standing_day`.
[[nodiscard]] base::Result<std::vector<stand::ReachedSize>> standing_on(const Season& season,
                                                                        std::size_t stand, base::Date day);

}  // namespace sowtide::desk
