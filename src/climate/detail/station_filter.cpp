#include "climate/detail/station_filter.hpp"

#include <algorithm>

#include "climate/detail/text_scan.hpp"

namespace sowtide::climate::detail {

using base::Problem;
using base::ProblemCode;

namespace {
constexpr std::size_t kMostShown = 8;
}

void StationFilter::remember(std::string_view name) {
  if (seen_.size() < kMostShown && std::ranges::find(seen_, name) == seen_.end()) seen_.emplace_back(name);
}

bool StationFilter::accepts(std::string_view name) {
  if (name == last_ && !seen_.empty()) return last_accepted_;
  remember(name);
  last_ = name;
  if (!wanted_.empty()) {
    last_accepted_ = same_word(name, wanted_);
  } else {
    last_accepted_ = !any_taken_ || name == taken_;
  }
  if (last_accepted_ && !any_taken_) {
    any_taken_ = true;
    taken_ = name;
  }
  return last_accepted_;
}

std::optional<Problem> StationFilter::problem(const std::string& file) const {
  std::string names;
  for (const std::string& one : seen_) names += (names.empty() ? "" : ", ") + shown(one);
  if (seen_.size() == kMostShown) names += " ...";
  if (!wanted_.empty() && !any_taken_) {
    return Problem{ProblemCode::not_found,
                   "the file holds no station \"" + shown(wanted_) + "\"",
                   {file, 0, 0, "station"},
                   seen_.empty() ? "It names no station." : "It holds: " + names + "."};
  }
  if (wanted_.empty() && seen_.size() > 1) {
    return Problem{ProblemCode::ambiguous,
                   "the file holds several stations: " + names,
                   {file, 0, 0, "station"},
                   "Name the one to read by the station option."};
  }
  return std::nullopt;
}

}  // namespace sowtide::climate::detail
