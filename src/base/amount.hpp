// Amounts as people write them, with their unit: "850", "2lb", "1 lb 4 oz", "1.5 kg", "2in".
#pragma once

#include <string_view>

#include "base/problem.hpp"

namespace sowtide::base {

/// What an amount is of; and the unit in which it is kept, which a bare number means.
enum class Measure { grams, millimetres, litres };

/// The amount in the unit of its measure. Units: g, kg, oz, lb; mm, cm, m, in, ft; ml, l, gal, qt, pt (US);
/// with their long names, in any letters, and one after the other ("1 lb 4 oz"). A unit of another measure or
/// of none is wrong_unit; what is no number, or has a comma, which may stand for a point or for thousands, is
/// syntax.
[[nodiscard]] Result<double> read_amount(std::string_view text, Measure measure);

/// Whether a word is one of those units, of whatever measure: "g", "Lb", "gallons".
[[nodiscard]] bool is_unit(std::string_view word);

/// The units that `read_amount` knows, for a help text: "g, kg, oz, lb".
[[nodiscard]] std::string_view units_known(Measure measure) noexcept;

}  // namespace sowtide::base
