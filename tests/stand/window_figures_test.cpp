#include "stand/window_figures.hpp"

#include <gtest/gtest.h>

#include <string>

namespace sowtide::stand {
namespace {

base::Result<base::Explanation> asked(const base::FigureInputs& inputs) {
  return window_figure("sowing-window", inputs, crop::built_in_library());
}

double probability_of(const base::Explanation& answer) {
  return std::get<double>(answer.result.front().value);
}

std::string limit_of(const base::Explanation& answer) {
  return std::get<std::string>(answer.result.at(1).value);
}

TEST(SowingWindowFigure, BeansOfEarlySpringAreLimitedAndThoseOfEarlySummerAreNot) {
  const auto early = asked({{"crop", "bush-bean"}, {"place", "Oxford"}, {"date", "03-15"}});
  ASSERT_TRUE(early);
  EXPECT_LT(probability_of(*early), 0.1);
  EXPECT_TRUE(limit_of(*early) == "frost" || limit_of(*early) == "soil too cold") << limit_of(*early);
  const auto summer = asked({{"crop", "bush-bean"}, {"place", "Oxford"}, {"date", "2026-06-10"}});
  ASSERT_TRUE(summer);
  EXPECT_GT(probability_of(*summer), 0.8);
}

TEST(SowingWindowFigure, TheProbabilityIsThatOfTheWindows) {
  const auto answer = asked({{"crop", "beet"}, {"place", "Oxford"}, {"date", "05-01"}, {"level", "0.5"}});
  ASSERT_TRUE(answer);
  EXPECT_GE(probability_of(*answer), 0.5);
  EXPECT_FALSE(answer->working.empty());
  EXPECT_FALSE(answer->source.empty());
}

TEST(SowingWindowFigure, RefusesWhatIsNotThere) {
  EXPECT_FALSE(asked({{"crop", "beet"}, {"place", "Oxford"}}));
  EXPECT_FALSE(asked({{"crop", "beet"}, {"place", "Nowhere at all"}, {"date", "05-01"}}));
  EXPECT_FALSE(asked({{"crop", "carrot"}, {"place", "Oxford"}, {"date", "05-01"}, {"method", "set-out"}}));
  EXPECT_FALSE(asked({{"crop", "beet"}, {"place", "Oxford"}, {"date", "13-41"}}));
}

}  // namespace
}  // namespace sowtide::stand
