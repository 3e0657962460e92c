#include "serve/detail/query.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/csv.hpp"
#include "base/utf8.hpp"

namespace sowtide::serve::detail {
namespace {

/// As much of a text as a problem repeats.
std::string_view repeated(std::string_view text) {
  constexpr std::size_t kMostBytes = 40;
  return base::utf8_prefix(text, kMostBytes);
}

tl::unexpected<base::Problem> refused(const std::string& name, std::string what, std::string remedy) {
  return base::fail(base::ProblemCode::out_of_range, std::move(what), {.field = name}, std::move(remedy));
}

}  // namespace

base::Result<void> only_asked(const Request& request, std::initializer_list<std::string_view> names) {
  for (const auto& [name, value] : request.query) {
    if (std::find(names.begin(), names.end(), name) != names.end()) continue;
    return base::fail(base::ProblemCode::unknown_field, "is not asked for here",
                      {.field = std::string(repeated(name))},
                      names.size() == 0 ? "Leave it out" : fmt::format("Ask for {}", fmt::join(names, ", ")));
  }
  return {};
}

base::Result<std::optional<double>> number_asked(const Request& request, const std::string& name,
                                                 NumberBounds bounds) {
  const auto asked = request.asked(name);
  if (!asked) return std::nullopt;
  const auto number = base::parse_number(*asked);
  if (!number) return refused(name, fmt::format("\"{}\" is not a number", repeated(*asked)), "Give a number");
  if (*number >= bounds.least && *number <= bounds.most) return *number;
  return refused(name,
                 fmt::format("is {}, must be {} to {}", base::number_text(*number), base::number_text(bounds.least),
                             base::number_text(bounds.most)),
                 "Give a number within");
}

base::Result<double> number_asked(const Request& request, const std::string& name, double fallback,
                                  NumberBounds bounds) {
  const auto number = number_asked(request, name, bounds);
  if (!number) return tl::unexpected(number.error());
  return number->value_or(fallback);
}

base::Result<int> whole_asked(const Request& request, const std::string& name, int fallback, int least, int most) {
  const auto number = number_asked(request, name, fallback,
                                   {.least = static_cast<double>(least), .most = static_cast<double>(most)});
  if (!number) return tl::unexpected(number.error());
  if (std::trunc(*number) == *number) return static_cast<int>(*number);
  return refused(name, fmt::format("is {}, must be a whole number", base::number_text(*number)),
                 "Give it without a fraction");
}

base::Result<std::optional<base::Date>> date_asked(const Request& request, const std::string& name) {
  const auto asked = request.asked(name);
  if (!asked) return std::nullopt;
  const auto date = base::parse_iso_date(*asked);
  if (date) return *date;
  base::Problem problem = date.error();
  problem.where.field = name;
  return tl::unexpected(problem);
}

}  // namespace sowtide::serve::detail
