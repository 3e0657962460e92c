// The ways to raise what is wanted, before the week is chosen: in place, in a tray, bought; pulled as it is
// ready or left standing; in each light of the garden's beds.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "plan/preparation.hpp"

namespace sowtide::plan {

/// A way to raise a product, before the week is chosen.
struct Way {
  std::size_t product = 0;
  stand::StandPlan like;  ///< without its days
  /// It stands for these days of the year; nothing: it is pulled, or from ready on, without them.
  std::optional<base::YearSpan> wanted;
  std::optional<std::size_t> pulled;  ///< place of the way that it is but for standing on
  int tray = -1;
  std::shared_ptr<const std::vector<int>> cells;
  int places = 1;
  stand::BedPlace bed;
};

[[nodiscard]] std::vector<Way> ways_to_raise(const Preparation& garden);

}  // namespace sowtide::plan
