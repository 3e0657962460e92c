// Made-up stands that are to be put into beds, with the least length of bed that can hold them: how near
// placement comes to it is measured in tests and in bench/placement.cpp.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "plan/forward_pass.hpp"
#include "plan/garden_model.hpp"

namespace sowtide::plan {

struct PlacementShape {
  std::size_t stands = 30;
  std::size_t beds = 1;
  std::size_t fixed = 0;  ///< standing in the first bed already
  bool rotation = false;  ///< of six families, none comes back to its ground
  bool heights = false;   ///< tall and low crops that need the sun, in beds with an end towards the pole
};

/// Every sowing is wanted just so often: a plan without a cost has placed all of them.
struct PlacementInstance {
  GardenModel model;
  ClumpCounts wanted;  ///< clumps by candidate
  /// No beds of less length, all together, hold what is wanted: the largest total of lengths on the ground in
  /// any one week (the maximum load), or, where families do not come back, the largest total of a family.
  int least_mm = 0;
};

/// The same seed gives the same instance. Its beds have the least length, shared evenly.
[[nodiscard]] PlacementInstance placement_instance(std::uint64_t seed, const PlacementShape& shape);

/// Gives the beds so many times the least length.
void stretch_beds(PlacementInstance& instance, double times);

/// A way to place what is wanted.
using PlacementWay = std::function<std::vector<PlacedStand>(const PlacementInstance&)>;

/// In the order of coming to the beds, as a first plan is laid out; a stand may be split over free stretches
/// or not.
[[nodiscard]] std::vector<PlacedStand> placed_in_order(const PlacementInstance& instance, bool may_split);

/// By the planner, whose search splits stands where that pays; `stand_price` is the bother of one
/// (`PlanPrices::stand`).
[[nodiscard]] std::vector<PlacedStand> placed_by_search(const PlacementInstance& instance, std::size_t rounds,
                                                        double stand_price = 0.0);

/// Of the clumps wanted, those that are placed.
[[nodiscard]] double placed_share(const PlacementInstance& instance, const std::vector<PlacedStand>& stands);

/// The length in which a way places all that is wanted, in shares of the least length, tried up from it in
/// steps of a hundredth; nothing where it does not in three times as much.
[[nodiscard]] std::optional<double> needed_length(PlacementInstance instance, const PlacementWay& way);

}  // namespace sowtide::plan
