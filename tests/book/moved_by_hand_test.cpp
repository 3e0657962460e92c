// A planned stand that was moved by hand is held by a note, until that is taken back.
#include "book/moved_by_hand.hpp"

#include <gtest/gtest.h>

#include "book/corrections.hpp"
#include "book/taken_back.hpp"

namespace sowtide::book {
namespace {

const base::Date kDay = base::date_of(2026, 5, 20);

TEST(MovedByHand, IsHeldByOneNoteUntilItIsReleased) {
  std::vector<Event> log = moving_entries("s3", {}, kDay);
  ASSERT_EQ(log.size(), 1U);
  EXPECT_TRUE(is_moving(log.front()));
  EXPECT_TRUE(stands_of_log(log).contains("s3"));
  EXPECT_TRUE(moving_entries("s3", log, kDay).empty()) << "one note is enough";
  EXPECT_EQ(moving_entries("s4", log, kDay).size(), 1U);

  const auto releases = releasing("s3", log, kDay);
  ASSERT_TRUE(releases.has_value());
  ASSERT_EQ(releases->size(), 1U);
  log.push_back(releases->front());
  EXPECT_FALSE(stands_of_log(log).contains("s3"));
  EXPECT_FALSE(taken_back(log).contains("s3")) << "it is planned as before";
  EXPECT_EQ(releasing("s3", log, kDay).error().code, base::ProblemCode::contradiction);

  const std::vector<Event> again = moving_entries("s3", log, kDay);
  ASSERT_EQ(again.size(), 1U);
  EXPECT_NE(again.front().id, log.front().id);
}

TEST(MovedByHand, IsTakenBackWithItsNote) {
  std::vector<Event> log = moving_entries("s3", {}, kDay);
  const auto back = taking_back("s3", log, kDay);
  ASSERT_TRUE(back.has_value() && back->has_value());
  log.push_back(**back);
  EXPECT_TRUE(taken_back(log).contains("s3"));
}

TEST(MovedByHand, IsNotWhatTheLogTellsOtherwise) {
  const std::vector<Event> log{{.id = "a", .date = kDay, .kind = EventKind::sown, .stand = "s3"}};
  EXPECT_TRUE(moving_entries("s3", log, kDay).empty()) << "a plan leaves it alone already";
  EXPECT_EQ(releasing("s3", log, kDay).error().code, base::ProblemCode::contradiction);
}

}  // namespace
}  // namespace sowtide::book
