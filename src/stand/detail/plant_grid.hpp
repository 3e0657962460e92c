// The plants of one stand as arrays, and one day of their growth (equations: docs/models/stand.md).
//
// Plants lie rank by rank: the first plant of every clump, then the second of every clump …; the plant of
// rank p in clump c is at p * clumps + c. Ranks fall with the size at the start, so "larger than I" is
// "before me".
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace sowtide::stand::detail {

struct PlantGrid {
  std::size_t clumps = 0;
  std::size_t ranks = 0;

  // One entry a plant.
  std::vector<double> leaf_g, organ_g,
      other_g;  ///< dry matter: leaf blades, harvested organ, stems and fine roots
  std::vector<double> age_cd, organ_age_cd;  ///< thermal time since emergence, and since the organ began
  std::vector<double> emerge_day;            ///< day number of emergence; it catches light from that day on
  std::vector<double> present;               ///< 1 while it stands, 0 when taken out, dead or never there
  // One entry a clump.
  std::vector<double> zone_m2;
  std::vector<double> edge_m2;  ///< ground beside the bed whose light the clump catches alone

  // Working space of a day. `area_m2` has one entry more than there are plants, of a plant that is not there.
  std::vector<double> area_m2, captured_m2, shade, clump_area_m2, clump_share, clump_edge, organ_growth_g,
      own, above, through, fresh_g;

  PlantGrid() = default;
  PlantGrid(std::size_t clump_count, std::size_t rank_count);
  [[nodiscard]] std::size_t size() const { return clumps * ranks; }
  /// Plants from the largest start to the smallest, each once; as they lie until it is set.
  [[nodiscard]] const std::vector<std::uint32_t>& stand_order() const { return stand_order_; }
  void set_stand_order(std::vector<std::uint32_t> order);
  /// The same order in equal parts side by side: entry j · kParts + b is plant j of part b, or `size()`
  /// behind the last. So the running sums of the parts do not wait for each other.
  [[nodiscard]] const std::vector<std::uint32_t>& contest_order() const { return contest_order_; }
  /// By plant: its entry there.
  [[nodiscard]] const std::vector<std::uint32_t>& contest_place() const { return contest_place_; }
  static constexpr std::size_t kParts = 8;

 private:
  std::vector<std::uint32_t> stand_order_, contest_order_, contest_place_;
};

/// What is the same for all plants of a crop.
struct PlantConstants {
  double extinction = 0.65;
  double leaf_area_m2_per_g = 0.02;  ///< of full-grown plants
  double seedling_leaf_factor =
      3.0;  ///< seedlings catch this many times the light per gram of leaf: thinner, flat, more leaf
  double seedling_leaf_g = 1.0;  ///< leaf dry matter at which half of that has worn off
  double leaf_share = 0.6;       ///< of growth that does not go to the organ
  double leaf_most_g = 1e9;      ///< leaf that a plant carries at most; what would be more goes to its stem
  double organ_start_cd = 0.0;
  double organ_span_cd = 1.0;  ///< from the organ's start to its full share
  double organ_share_max = 0.0;
  double maturity_cd = 1000.0, decline_cd = 2000.0;
  double asymmetry = 0.6;  ///< share of the light contest that the taller wins outright
  double crown = 0.55;     ///< ground under a clump's leaves, m², a (m² of leaf)^(3/4)
  double reach = 3.0;      ///< zones over which a clump's leaves reach when they meet the stand
};

/// What is the same for all plants on a day.
struct DayForcing {
  double day = 0.0;
  double thermal_cd = 0.0;
  double organ_thermal_cd =
      0.0;  ///< thermal time that can start the organ (day length included); once begun it goes on
  double light_g_per_m2 = 0.0;   ///< dry matter that a square metre would make if it caught all light
  double sink_share = 0.0;       ///< most growth of a small plant, as a share of its own weight
  double leaf_loss_scale = 0.0;  ///< 0..1: leaves die slower in the cold
};

/// One day for every plant of the grid. No allocation.
void grow_day(const PlantConstants& constants, const DayForcing& forcing, PlantGrid& grid);

/// Sum and largest of the fresh weights of the standing plants, g.
struct FreshWeights {
  double sum_g = 0.0;
  double most_g = 0.0;
};

/// Fresh weight of the harvested part of every standing plant into `grid.fresh_g`: so many grams a gram of
/// dry organ, and so many a gram of dry top. Not emerged or not present: 0.
FreshWeights weigh_fresh(double day, double grams_per_organ_g, double grams_per_top_g, PlantGrid& grid);

}  // namespace sowtide::stand::detail
