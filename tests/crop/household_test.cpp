#include "crop/household.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "crop/crop.hpp"
#include "crop/figures.hpp"

namespace sowtide::crop {
namespace {

constexpr double kKilogramsPerPound = 0.45359237;

TEST(HouseholdAmounts, AreThoseOfThePublishedTable) {
  // USDA Economic Research Service, food availability, fresh use per head 2019: carrots 13.61 lb, tomatoes 20.30 lb,
  // onions 20.39 lb, lettuce 12.72 lb of heads and 12.33 lb of cos and leaf.
  const std::pair<const char*, double> published_lb[] = {
      {"carrot", 13.61}, {"tomato", 20.30}, {"onion", 20.39}, {"lettuce", 12.72 + 12.33}};
  for (const auto& [crop, pounds] : published_lb) {
    const HouseholdAmount* amount = household_amount(crop);
    ASSERT_NE(amount, nullptr) << crop;
    EXPECT_NEAR(amount->kg_per_person_year, pounds * kKilogramsPerPound, 0.001) << crop;
    EXPECT_FALSE(amount->source.empty());
  }
}

TEST(HouseholdAmounts, NameCropsOfTheLibraryMostEatenFirst) {
  const auto& all = household_amounts();
  ASSERT_GE(all.size(), 20U);
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_TRUE(built_in_library().find(all[i].crop)) << all[i].crop;
    if (i > 0) {
      EXPECT_GE(all[i - 1].kg_per_person_year, all[i].kg_per_person_year);
    }
  }
}

TEST(HouseholdAmounts, AFigureScalesThemAndSaysWhereNoneIsKnown) {
  const auto four = crop_figure("household-amount", {{"crop", "carrot"}, {"people", "4"}}, built_in_library());
  ASSERT_TRUE(four) << four.error().what;
  // 6.173 kg a year is 118.3 g in each of 52.18 weeks.
  EXPECT_NEAR(std::get<double>(four->result[0].value), 4 * 118.31, 0.05);
  const auto none = crop_figure("household-amount", {{"crop", "beet"}, {"people", "4"}}, built_in_library());
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().where.field, "crop");
}

}  // namespace
}  // namespace sowtide::crop
