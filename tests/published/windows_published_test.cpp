// Computed sowing windows against published planting calendars: each row's source stands in
// planting_calendars.csv, the climate of each place with its source in planting_places.csv. The project's
// goals are a mean Jaccard of 0.55, 0.75 with a week of tolerance and a recall of 0.80. The first and the
// last are reached over all places, the second is not: what is held here is what is reached
// (docs/models/windows.md says so and why).
#include <fmt/core.h>
#include <gtest/gtest.h>

#include "published/windows_score.hpp"

namespace sowtide::published {
namespace {

const Score& score() {
  static const Score made =
      score_windows(read_calendars(SOWTIDE_SOURCE_DIR "/tests/published"), stand::WindowRules{}, 0.5);
  return made;
}

Means means(bool held_out) {
  std::vector<const PairScore*> pairs;
  for (const auto& pair : score().pairs) {
    if (pair.held_out == held_out) pairs.push_back(&pair);
  }
  return means_of(pairs);
}

TEST(SowingWindowsPublished, OfThePlacesTunedOnAgreeAsFarAsWritten) {
  const Means m = means(false);
  EXPECT_GE(m.pairs, 250);
  EXPECT_GE(m.jaccard, 0.56) << "goal 0.55";
  EXPECT_GE(m.tolerant, 0.69) << "goal 0.75";
  EXPECT_GE(m.recall, 0.80);
}

TEST(SowingWindowsPublished, OfThePlacesHeldOutAgreeAsFarAsWritten) {
  const Means m = means(true);
  EXPECT_GE(m.pairs, 80);
  EXPECT_GE(m.jaccard, 0.53) << "goal 0.55";
  EXPECT_GE(m.tolerant, 0.67) << "goal 0.75";
  EXPECT_GE(m.recall, 0.80);
}

TEST(SowingWindowsPublished, MissFewPrintedWindowsOutright) {
  EXPECT_LE(means(false).missed + means(true).missed, 12) << "each is explained in docs/models/windows.md";
}

}  // namespace
}  // namespace sowtide::published
