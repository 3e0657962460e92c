// Groups of crops that the program itself knows by name; the others are only what the crop files say.
#pragma once

#include <string_view>

namespace sowtide::crop {

/// Leaves to cook. Leaves of root crops that are eaten too (`greens_share`) count among them.
inline constexpr std::string_view kCookingGreens = "cooking-greens";

}  // namespace sowtide::crop
