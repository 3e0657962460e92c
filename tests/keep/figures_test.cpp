#include "keep/figures.hpp"

#include <gtest/gtest.h>

#include <string>
#include <variant>

namespace sowtide::keep {
namespace {

double result_of(const base::Explanation& answer, const std::string& name) {
  for (const base::ExplainedField& field : answer.result) {
    if (field.name == name) return std::get<double>(field.value);
  }
  ADD_FAILURE() << "no " << name;
  return 0.0;
}

base::Result<base::Explanation> worked_out(const base::FigureInputs& inputs) {
  return keep_figure("storage-life", inputs, crop::built_in_library());
}

// USDA FSIS FoodKeeper data, release of 2018: beets in the refrigerator, 7 to 14 days.
TEST(StorageLifeFigure, GivesThePublishedRangeOfARefrigeratedBeetWithItsSource) {
  const auto answer = worked_out({{"crop", "beet"}, {"place", "fridge"}});
  ASSERT_TRUE(answer) << answer.error().what;
  EXPECT_DOUBLE_EQ(result_of(*answer, "life_days_low"), 7.0);
  EXPECT_DOUBLE_EQ(result_of(*answer, "life_days_high"), 14.0);
  ASSERT_FALSE(answer->source.empty());
  EXPECT_GT(answer->source.front().size(), 20U) << "a full citation, not a key";
}

TEST(StorageLifeFigure, SaysWhatIsLeftGoodAfterSomeDays) {
  const auto answer = worked_out({{"crop", "beet"}, {"place", "fridge"}, {"days", "14"}});
  ASSERT_TRUE(answer) << answer.error().what;
  EXPECT_NEAR(result_of(*answer, "good_share"), 0.5, 1e-12);
}

TEST(StorageLifeFigure, NamesWhatIsWrongWithItsInputs) {
  EXPECT_EQ(worked_out({{"crop", "beet"}, {"place", "attic"}}).error().where.field, "place");
  EXPECT_EQ(worked_out({{"crop", "beet"}, {"place", "fridge"}, {"days", "-1"}}).error().code,
            base::ProblemCode::out_of_range);
  EXPECT_FALSE(worked_out({{"crop", "no-such-crop"}, {"place", "fridge"}}));
  EXPECT_FALSE(keep_figure("no-such-figure", {}, crop::built_in_library()));
}

TEST(StorageLifeFigure, AnswersForEveryCropAndPlace) {
  for (const auto& [id, crop] : crop::built_in_library().crops) {
    for (const char* place : {"kitchen", "fridge", "best"}) {
      const auto answer = worked_out({{"crop", id}, {"place", place}, {"days", "3"}});
      ASSERT_TRUE(answer) << id << ' ' << place << ": " << answer.error().what;
      EXPECT_FALSE(answer->source.empty()) << id;
    }
  }
}

}  // namespace
}  // namespace sowtide::keep
