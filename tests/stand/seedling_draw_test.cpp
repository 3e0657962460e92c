// How the seedlings of a sample differ: balanced in all, alike within a clump by the share that is told.
#include "stand/detail/seedling_draw.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/quantile.hpp"

namespace sowtide::stand::detail {
namespace {

constexpr std::size_t kClumps = 400;
constexpr std::size_t kRanks = 3;

/// Intraclass correlation by the analysis of variance of one way (G. W. Snedecor and W. G. Cochran,
/// Statistical Methods, from memory): (between − within) ÷ (between + (n − 1) within), mean squares.
double likeness_of_mates(const std::vector<double>& deviates, std::size_t clumps, std::size_t ranks) {
  double between = 0.0, within = 0.0;
  for (std::size_t c = 0; c < clumps; ++c) {
    double mean = 0.0;
    for (std::size_t p = 0; p < ranks; ++p) mean += deviates[p * clumps + c] / static_cast<double>(ranks);
    between += static_cast<double>(ranks) * mean * mean;
    for (std::size_t p = 0; p < ranks; ++p) within += std::pow(deviates[p * clumps + c] - mean, 2);
  }
  between /= static_cast<double>(clumps - 1);
  within /= static_cast<double>(clumps * (ranks - 1));
  return (between - within) / (between + static_cast<double>(ranks - 1) * within);
}

TEST(SeedlingDraw, IsBalancedWhateverMatesShare) {
  for (const double shared : {0.0, 0.25, 0.9}) {
    std::vector<double> deviates = seedling_deviates(kClumps, kRanks, shared, 7, "test");
    std::sort(deviates.begin(), deviates.end());
    for (std::size_t i = 0; i < deviates.size(); ++i) {
      const double middle = (static_cast<double>(i) + 0.5) / static_cast<double>(deviates.size());
      ASSERT_NEAR(deviates[i], base::normal_quantile(middle), 1e-12) << shared << " at " << i;
    }
  }
}

TEST(SeedlingDraw, MatesAreAsLikeAsTold) {
  // The standard error of an intraclass correlation near a quarter from 400 clumps of three is about 0.035
  // (R. A. Fisher's formula, from memory); the mean of 16 draws lies within three of its own.
  for (const double shared : {0.0, 0.25, 0.5}) {
    double mean = 0.0;
    for (std::uint64_t seed = 1; seed <= 16; ++seed)
      mean +=
          likeness_of_mates(seedling_deviates(kClumps, kRanks, shared, seed, "test"), kClumps, kRanks) / 16.0;
    EXPECT_NEAR(mean, shared, 0.027) << shared;
  }
}

TEST(SeedlingDraw, PlantsThatStandAloneHaveNoMates) {
  EXPECT_EQ(seedling_deviates(kClumps, 1, 0.25, 7, "test"), seedling_deviates(kClumps, 1, 0.0, 7, "test"));
}

TEST(SeedlingDraw, ADrawHangsOnSeedAndName) {
  EXPECT_EQ(seedling_deviates(16, 3, 0.25, 7, "test"), seedling_deviates(16, 3, 0.25, 7, "test"));
  EXPECT_NE(seedling_deviates(16, 3, 0.25, 7, "test"), seedling_deviates(16, 3, 0.25, 8, "test"));
  EXPECT_NE(seedling_deviates(16, 3, 0.25, 7, "test"), seedling_deviates(16, 3, 0.25, 7, "other"));
}

}  // namespace
}  // namespace sowtide::stand::detail
