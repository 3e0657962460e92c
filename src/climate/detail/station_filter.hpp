// Which station's rows to take from a file that may hold several.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace sowtide::climate::detail {

/// Without a wish the first station met is taken, and a second one is a problem.
class StationFilter {
 public:
  explicit StationFilter(std::string wanted) : wanted_(std::move(wanted)) {}

  /// True when rows of this station are wanted. Cheap when called with the same name again and again.
  bool accepts(std::string_view name);

  /// ambiguous (several stations, none named), not_found (none of them is the wanted one), or nothing.
  [[nodiscard]] std::optional<base::Problem> problem(const std::string& file) const;

  /// The station taken; "" when none was.
  [[nodiscard]] const std::string& taken() const { return taken_; }

 private:
  void remember(std::string_view name);

  std::string wanted_;
  std::string taken_;
  std::string last_;
  bool last_accepted_ = false;
  bool any_taken_ = false;
  std::vector<std::string> seen_;  ///< the first few, for the message
};

}  // namespace sowtide::climate::detail
