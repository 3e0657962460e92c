// Numbers and days of a query: "?step_days=7&from=2027-04-20".
#pragma once

#include <initializer_list>
#include <limits>
#include <optional>
#include <string>
#include <string_view>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "serve/http_server.hpp"

namespace sowtide::serve::detail {

/// Both are allowed; any finite number unless told.
struct NumberBounds {
  double least = std::numeric_limits<double>::lowest();
  double most = std::numeric_limits<double>::max();
};

/// Nothing is asked but these. Problems: unknown_field, so that a slip in a name does not pass for the usual
/// answer.
[[nodiscard]] base::Result<void> only_asked(const Request& request,
                                            std::initializer_list<std::string_view> names);

/// The number asked under a name; nothing where it is not asked. Problems: out_of_range, also for text that is no number.
[[nodiscard]] base::Result<std::optional<double>> number_asked(const Request& request, const std::string& name,
                                                               NumberBounds bounds = {});
/// The same, or `fallback` where it is not asked.
[[nodiscard]] base::Result<double> number_asked(const Request& request, const std::string& name, double fallback,
                                                NumberBounds bounds);
/// The same for a count, both bounds allowed; a fraction is refused.
[[nodiscard]] base::Result<int> whole_asked(const Request& request, const std::string& name, int fallback, int least,
                                            int most);
/// The day asked under a name; nothing where it is not asked. Problems: those of base::parse_iso_date.
[[nodiscard]] base::Result<std::optional<base::Date>> date_asked(const Request& request, const std::string& name);

}  // namespace sowtide::serve::detail
