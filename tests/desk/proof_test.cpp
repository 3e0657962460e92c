#include "desk/proof.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "desk/figures.hpp"

namespace sowtide::desk {
namespace {

// A miss that is known stands in its file; a new one is a step back, and one that is gone no longer needs its mark.
TEST(Proof, EveryJudgedRowPassesOrIsAKnownMissAndNamesItsSource) {
  const auto rows = prove();
  ASSERT_TRUE(rows) << base::to_text(rows.error());
  for (const ProofRow& row : *rows) {
    EXPECT_FALSE(row.source.empty()) << row.what;
    EXPECT_FALSE(row.mark.empty()) << row.what;
    if (row.judged) {
      EXPECT_EQ(row.pass, !row.known_miss) << row.group << ": " << row.what << " published " << row.published_low << ".."
                                           << row.published_high << " computed " << row.computed;
    } else {
      EXPECT_FALSE(row.known_miss) << row.what;
    }
  }
}

TEST(Proof, TrialsSayWhatWasSetOnThemAndHoldBothKinds) {
  const auto rows = prove("trials");
  ASSERT_TRUE(rows);
  std::map<std::string, int> uses;
  for (const ProofRow& row : *rows) ++uses[row.use];
  EXPECT_EQ(uses.size(), 2U);
  EXPECT_GE(uses["set"], 10);
  EXPECT_GE(uses["held out"], 30);
}

TEST(Proof, GroupsCanBeRunAlone) {
  const auto rows = prove("sun");
  ASSERT_TRUE(rows);
  for (const ProofRow& row : *rows) EXPECT_EQ(row.group, "sun");
  const auto none = prove("no-such-group");
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, base::ProblemCode::not_found);
  EXPECT_NE(none.error().remedy.find("sun"), std::string::npos);
}

TEST(Figures, NamesAreUniqueOverAllRooms) {
  std::set<std::string> names;
  for (const base::FigureDescription& figure : all_figures()) EXPECT_TRUE(names.insert(figure.name).second) << figure.name;
}

TEST(Figures, AnUnknownNameIsAProblem) {
  const auto answer = figure("no-such-figure", {});
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().code, base::ProblemCode::not_found);
}

}  // namespace
}  // namespace sowtide::desk
