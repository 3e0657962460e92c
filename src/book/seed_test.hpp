// How an entry of a home test says how many seeds were laid out: its text begins "of 10".
#pragma once

#include <optional>
#include <string_view>

namespace sowtide::book {

/// Seeds laid out, 1 to 100,000; nothing when the text does not begin so. "of 10, on a damp cloth" is 10.
[[nodiscard]] std::optional<int> seeds_tested_of(std::string_view text) noexcept;

}  // namespace sowtide::book
