// An amount typed for an option, read in the unit of its measure.
#pragma once

#include <optional>

#include "base/amount.hpp"
#include "base/problem.hpp"
#include "cli/verbs.hpp"
#include "desk/present.hpp"

namespace sowtide::cli {

/// What was typed for an amount; nothing when it was not given. A bare number is refused (ambiguous) where
/// its option tells no unit and the garden has US units; other problems are those of `base::read_amount`,
/// with the option as their field.
[[nodiscard]] base::Result<std::optional<double>> amount_of(const TypedAmount& amount, base::Measure measure,
                                                            desk::Units units);

}  // namespace sowtide::cli
