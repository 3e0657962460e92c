// What the log and the wants tell since a plan was made.
#include "desk/since_plan.hpp"

#include <gtest/gtest.h>

namespace sowtide::desk {
namespace {

const base::Date kSown = base::date_of(2026, 5, 4), kSeen = base::date_of(2026, 5, 20);

class SincePlanOf : public testing::Test {
 protected:
  SincePlanOf() {
    garden_.stands.push_back(
        {.id = "s1", .crop = "beet", .sow = kSown, .clumps = 40, .bed = "a", .to_m = 1.0});
    garden_.wants.push_back({.id = "w1", .crop = "beet", .amount_per_week = 500.0});
    log(book::EventKind::sown, kSown);
    made_for_ = planned_for(garden_, events_);
  }

  void log(book::EventKind kind, base::Date date, std::optional<double> count = {},
           const std::string& target = "") {
    const auto number = static_cast<std::int64_t>(events_.size()) + 1;
    const bool correction = kind == book::EventKind::corrected;
    events_.push_back({.id = "e" + std::to_string(number),
                       .sequence = number,
                       .date = date,
                       .kind = kind,
                       .stand = correction ? "" : "s1",
                       .target = target,
                       .count = count});
  }

  plan::SincePlan since() { return since_plan(answer_made_for("{}", made_for_), garden_, events_, kSeen); }

  book::GardenDescription garden_;
  std::vector<book::Event> events_;
  PlannedFor made_for_;
};

TEST_F(SincePlanOf, IsNothingWhileNothingWasLogged) {
  const plan::SincePlan none = since();
  EXPECT_TRUE(none.stands.empty() && none.wants.empty());
}

TEST_F(SincePlanOf, TellsWhatFailedUntilThatIsTakenBackOrAPlanKnows) {
  log(book::EventKind::discarded, kSeen);
  const auto news = since().stands;
  ASSERT_EQ(news.size(), 1U);
  EXPECT_EQ(news.front().kind, plan::StandNews::Kind::failed);
  EXPECT_EQ(news.front().date, kSeen);
  EXPECT_EQ(news.front().as_planned.facts.sown, kSown);
  EXPECT_FALSE(news.front().as_planned.facts.finished);
  const PlannedFor before = std::exchange(made_for_, planned_for(garden_, events_));
  EXPECT_TRUE(since().stands.empty()) << "the plan made after it knows of it";
  made_for_ = before;
  log(book::EventKind::corrected, kSeen, {}, "e2");
  EXPECT_TRUE(since().stands.empty());
}

TEST_F(SincePlanOf, TellsOfFewerPlantsThanPlannedOnly) {
  log(book::EventKind::counted, kSeen, 40);
  EXPECT_TRUE(since().stands.empty()) << "as many as planned";
  log(book::EventKind::counted, kSeen, 12);
  const auto news = since().stands;
  ASSERT_EQ(news.size(), 1U);
  EXPECT_EQ(news.front().kind, plan::StandNews::Kind::fewer);
  EXPECT_EQ(news.front().plants, 12);
  EXPECT_EQ(news.front().planned, 40);
}

TEST_F(SincePlanOf, TellsNothingThatThePlanKnewThoughMoreWasLoggedSince) {
  log(book::EventKind::counted, kSown + base::Days{10}, 12);
  made_for_ = planned_for(garden_, events_);
  log(book::EventKind::fed, kSeen);
  EXPECT_TRUE(since().stands.empty());
  log(book::EventKind::counted, kSeen, 12);
  EXPECT_TRUE(since().stands.empty()) << "counted once more";
  log(book::EventKind::counted, kSeen, 3);
  ASSERT_EQ(since().stands.size(), 1U);
  EXPECT_EQ(since().stands.front().plants, 3);
}

TEST_F(SincePlanOf, AWantForOtherThingsIsNotMoreOrLessOfTheSame) {
  garden_.wants.front().amount_per_week = 5.0;
  garden_.wants.front().unit = plan::WantUnit::servings;
  EXPECT_TRUE(since().wants.empty()) << "500 g and 5 servings are not compared";
  garden_.wants.front().unit = plan::WantUnit::grams;
  EXPECT_EQ(since().wants.size(), 1U);
  garden_.wants.front().to = {9, 30};
  EXPECT_TRUE(since().wants.empty()) << "other weeks";
}

TEST_F(SincePlanOf, TellsOfWantsThatChangedOrAreNew) {
  garden_.wants.front().amount_per_week = 800.0;
  garden_.wants.push_back({.id = "w2", .crop = "leek", .amount_per_week = 100.0});
  const auto news = since().wants;
  ASSERT_EQ(news.size(), 2U);
  ASSERT_TRUE(news[0].before.has_value());
  EXPECT_EQ(news[0].before->amount_per_week, 500.0);
  EXPECT_FALSE(news[1].before.has_value());
}

TEST_F(SincePlanOf, IsNothingAfterAPlanThatDoesNotSayWhatItWasMadeFor) {
  log(book::EventKind::discarded, kSeen);
  for (const char* answer : {"", "{}", "[]", "not JSON", R"({"made_for": 3})"}) {
    const plan::SincePlan none = since_plan(answer, garden_, events_, kSeen);
    EXPECT_TRUE(none.stands.empty() && none.wants.empty()) << answer;
  }
}

}  // namespace
}  // namespace sowtide::desk
