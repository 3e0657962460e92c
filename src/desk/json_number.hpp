// How figures are written in answers.
#pragma once

#include <nlohmann/json.hpp>

namespace sowtide::desk {

/// A figure to so many decimals, 0 to 9; null where it is none (NaN, infinity). The digits that are written
/// are those alone: 12.3, never 12.300000000000001.
[[nodiscard]] nlohmann::ordered_json json_number(double value, int decimals = 3);

}  // namespace sowtide::desk
