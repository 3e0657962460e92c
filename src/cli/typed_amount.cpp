#include "cli/typed_amount.hpp"

#include <fmt/format.h>

#include "base/csv.hpp"

namespace sowtide::cli {

base::Result<std::optional<double>> amount_of(const TypedAmount& amount, base::Measure measure,
                                              desk::Units units) {
  if (amount.empty()) return std::optional<double>{};
  const bool bare = base::parse_number(amount.text).has_value();
  // In a garden of US units a number alone would be taken for ounces as easily as for grams.
  if (bare && units == desk::Units::us && !amount.option_has_unit) {
    return base::fail(base::ProblemCode::ambiguous,
                      fmt::format("\"{}\" has no unit, and this garden has US units", amount.text),
                      {.field = amount.option},
                      fmt::format("Write the unit behind the number: {}", base::units_known(measure)));
  }
  const auto read = base::read_amount(bare ? amount.text + amount.unit_of_bare : amount.text, measure);
  if (read) return std::optional(*read);
  base::Problem problem = read.error();
  problem.where.field = amount.option;
  return tl::make_unexpected(problem);
}

}  // namespace sowtide::cli
