// How the clumps of a stand are set, as the text of a `sown` or `set-out` entry tells it
// (docs/formats/log.md).
#pragma once

#include <string_view>

#include "base/problem.hpp"
#include "stand/outlook.hpp"

namespace sowtide::book {

/// "square", "offset", or "rows 30 cm" (also mm or in) from row to row; more may follow after a comma.
struct ArrangementTold {
  stand::Arrangement arrangement = stand::Arrangement::square;
  double row_spacing_mm = 0.0;  ///< of rows
};

/// Whether the text of a `set-out` begins with the word "bought" ("bought, rows 30 cm", "Bought at the
/// market"): the plants were raised elsewhere, so that no sowing of the garden's own dates them.
[[nodiscard]] bool says_bought(std::string_view text) noexcept;

/// What the text begins with, after "bought,"; nothing for a text that tells of something else. out_of_range
/// for "rows" with a number that is no distance from 20 to 5000 mm, or without its unit.
[[nodiscard]] base::Result<std::optional<ArrangementTold>> arrangement_told(std::string_view text);

}  // namespace sowtide::book
