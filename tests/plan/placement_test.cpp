// Where made-up stands are put, beside the least length of bed that can hold them: nothing overlaps, and
// little more is needed. The table for docs/models/plan.md is printed by bench/placement.cpp.
#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "plan/ground.hpp"
#include "plan/placement_instance.hpp"

namespace sowtide::plan {
namespace {

constexpr std::uint64_t kInstances = 8;
constexpr std::uint64_t kTightInstances = 3;
constexpr std::size_t kRounds = 100;
constexpr double kBotherOfAStand = 0.5;

/// A kind of instance, and what was measured of it, with the last digit's room: medians over the instances.
struct Kind {
  std::string name;
  PlacementShape shape;
  double whole_at_most = 0.0;    ///< length needed in order, none split, in shares of the least
  double split_at_most = 0.0;    ///< the same where stands may be split
  double placed_at_least = 0.0;  ///< of what is wanted, by the search in the least length
};

const std::vector<Kind> kKinds = {{"few", {.stands = 10}, 1.09, 1.03, 0.99},
                                  {"one bed", {.stands = 30}, 1.18, 1.03, 0.98},
                                  {"many", {.stands = 80}, 1.18, 1.03, 0.97},
                                  {"three beds", {.stands = 30, .beds = 3}, 1.27, 1.04, 0.985},
                                  {"fixed", {.stands = 30, .fixed = 5}, 1.21, 1.04, 0.98},
                                  {"heights", {.stands = 20, .heights = true}, 1.19, 1.03, 0.985},
                                  {"rotation", {.stands = 30, .rotation = true}, 1.18, 1.05, 0.98},
                                  {"all at once",
                                   {.stands = 40, .beds = 2, .fixed = 4, .rotation = true, .heights = true},
                                   1.34,
                                   1.05,
                                   0.98}};

void PrintTo(const Kind& kind, std::ostream* out) {
  *out << kind.name;
}

/// Length that every clump's own area comes to, at least half a row.
int own_length_mm(const Candidate& candidate, const bed::Bed& bed, int clumps) {
  const int across = std::max(1, static_cast<int>(bed.width_m * 1000.0 / candidate.spacing_mm + 1e-9));
  const double rows = std::max(0.5, static_cast<double>(clumps) / across);
  return static_cast<int>(std::ceil(rows * candidate.spacing_mm - 1e-9));
}

/// What stands there already and all stands of a bed, only those of one family where one is given: those keep
/// off the ground that any of them had at any time.
void paint_bed(const GardenModel& model, const std::vector<PlacedStand>& stands, std::size_t bed,
               const std::string& family) {
  const bool for_good = !family.empty();
  const auto weeks = static_cast<int>(model.weeks);
  Ground ground(static_cast<int>(std::lround(model.beds[bed].length_m * 1000.0)), weeks);
  const auto paint = [&](const std::string& of, int from, int to, int first, int last,
                         const std::string& what) {
    if (!for_good) return ground.paint(from, to, first, last, what);
    if (of == family) ground.paint(from, to, 0, 0, what + " of " + family);
  };
  for (const TakenStretch& taken : model.taken) {
    if (taken.bed == bed)
      paint(taken.family, taken.from_mm, taken.to_mm, taken.first_week, taken.last_week, "what stands there");
  }
  for (const PlacedStand& stand : stands) {
    if (stand.bed != bed) continue;
    const Candidate& candidate = model.candidates[stand.candidate];
    paint(candidate.family, stand.from_mm,
          stand.from_mm + own_length_mm(candidate, model.beds[bed], stand.clumps), candidate.bed_first_week,
          candidate.bed_last_week, "a stand of " + std::to_string(stand.candidate));
  }
}

void expect_no_overlap(const PlacementInstance& instance, const PlacementShape& shape,
                       const std::vector<PlacedStand>& stands) {
  for (std::size_t bed = 0; bed < instance.model.beds.size(); ++bed) {
    paint_bed(instance.model, stands, bed, "");
    if (!shape.rotation) continue;
    for (int family = 0; family < 6; ++family)
      paint_bed(instance.model, stands, bed, "family" + std::to_string(family));
  }
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

class Placement : public testing::TestWithParam<Kind> {
 protected:
  /// Needed lengths over the instances; every layout met on the way is checked.
  std::vector<double> needed_by(const PlacementWay& way) {
    std::vector<double> needed;
    for (std::uint64_t seed = 1; seed <= kInstances; ++seed) {
      const auto length =
          needed_length(placement_instance(seed, GetParam().shape), [&](const PlacementInstance& instance) {
            std::vector<PlacedStand> stands = way(instance);
            expect_no_overlap(instance, GetParam().shape, stands);
            return stands;
          });
      EXPECT_TRUE(length.has_value()) << "seed " << seed;
      needed.push_back(length.value_or(1e9));
    }
    return needed;
  }
};

// Measured, the medians of the kinds: 1.08 to 1.33 whole, 1.02 to 1.04 where they may be split.
TEST_P(Placement, InOrderNeedsLittleMoreThanTheLeastLength) {
  const std::vector<double> whole =
      needed_by([](const PlacementInstance& instance) { return placed_in_order(instance, false); });
  const std::vector<double> split =
      needed_by([](const PlacementInstance& instance) { return placed_in_order(instance, true); });
  EXPECT_LE(median(whole), GetParam().whole_at_most);
  EXPECT_LE(median(split), GetParam().split_at_most);
}

// In the least length, with the bother of a stand as the garden's planner has it: 97.7 to 99.5 % of what is
// wanted in the median, 97.0 in the worst.
TEST_P(Placement, BySearchPlacesNearlyAllInTheLeastLength) {
  std::vector<double> placed;
  for (std::uint64_t seed = 1; seed <= kInstances; ++seed) {
    const PlacementInstance instance = placement_instance(seed, GetParam().shape);
    const std::vector<PlacedStand> stands = placed_by_search(instance, kRounds, kBotherOfAStand);
    expect_no_overlap(instance, GetParam().shape, stands);
    placed.push_back(placed_share(instance, stands));
  }
  EXPECT_GE(median(placed), GetParam().placed_at_least);
  EXPECT_GE(*std::min_element(placed.begin(), placed.end()), 0.96);
}

INSTANTIATE_TEST_SUITE_P(Kinds, Placement, testing::ValuesIn(kKinds));

// The least length is one: in a fiftieth less something is left out, whichever way. (What stands there
// already may make a bed longer than that.)
TEST(PlacementBound, IsNotUndercutByAnyWay) {
  for (const Kind& kind : kKinds) {
    if (kind.shape.fixed > 0) continue;
    for (std::uint64_t seed = 1; seed <= kTightInstances; ++seed) {
      PlacementInstance instance = placement_instance(seed, kind.shape);
      stretch_beds(instance, 0.98);
      EXPECT_LT(placed_share(instance, placed_in_order(instance, true)), 1.0)
          << kind.name << ", seed " << seed;
      EXPECT_LT(placed_share(instance, placed_by_search(instance, kRounds)), 1.0)
          << kind.name << ", seed " << seed;
    }
  }
}

Ground painted_ground() {
  Ground ground(1000, 52);
  ground.paint(0, 500, -4, 10, "a");
  ground.paint(500, 1000, 5, 60, "b");
  ground.paint(0, 500, 11, 12, "c");
  return ground;
}

TEST(Ground, KnowsAnOverlap) {
  EXPECT_FATAL_FAILURE(painted_ground().paint(499, 501, 12, 13, "d"), "d at 499 mm in week 12");
  EXPECT_FATAL_FAILURE(painted_ground().paint(900, 1001, 0, 1, "e"), "e");
}

}  // namespace
}  // namespace sowtide::plan
