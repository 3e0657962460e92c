#include "keep/storage.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <numeric>

namespace sowtide::keep {
namespace {

crop::Crop keeping_crop(const std::string& id, double kitchen_days, double fridge_days, double best_days) {
  crop::Crop crop;
  crop.id = id;
  crop.keeping.kitchen_days.value = kitchen_days;
  crop.keeping.fridge_days.value = fridge_days;
  crop.keeping.best_days.value = best_days;
  return crop;
}

crop::CropLibrary library_with_lives(const std::vector<int>& lives_days) {
  crop::CropLibrary library;
  for (std::size_t i = 0; i < lives_days.size(); ++i) {
    const std::string id = "crop" + std::to_string(i);
    const double life = lives_days[i];
    library.crops.emplace(id, keeping_crop(id, life, life, life));
  }
  return library;
}

TEST(StorageLife, IsReadFromThePlaceWhereTheLotLies) {
  const crop::Crop beet = keeping_crop("beet", 1.0, 10.0, 150.0);
  EXPECT_DOUBLE_EQ(storage_life_days(beet, StorePlace::kitchen), 1.0);
  EXPECT_DOUBLE_EQ(storage_life_days(beet, StorePlace::fridge), 10.0);
  EXPECT_DOUBLE_EQ(storage_life_days(beet, StorePlace::best), 150.0);
}

TEST(LotLeft, IsWhatIsGoodTodayAndNeverOlderThanItMayBeEaten) {
  const crop::Crop beet = keeping_crop("beet", 1.0, 14.0, 150.0);
  const base::Date today = base::date_of(2026, 6, 30);
  const auto left = [&](int days) {
    return left_of(beet, {"l", "beet", StorePlace::fridge, today - base::Days{days}, 800.0}, today);
  };
  EXPECT_EQ(left(0).weeks_old, 0);
  EXPECT_EQ(left(6).weeks_old, 0);
  EXPECT_EQ(left(14).weeks_old, 2);
  EXPECT_DOUBLE_EQ(left(14).good_g, 400.0);
  EXPECT_DOUBLE_EQ(left(28).good_g, 200.0);
  EXPECT_EQ(left(28).weeks_old, most_weeks(beet, StorePlace::fridge));
  EXPECT_EQ(left(300).weeks_old, most_weeks(beet, StorePlace::fridge));
  EXPECT_DOUBLE_EQ(left(-3).good_g, 800.0);
}

TEST(StorageLife, ACropThatColdInjuresLiesInTheKitchen) {
  EXPECT_EQ(household_place(keeping_crop("tomato", 9.0, 4.0, 14.0), false), StorePlace::kitchen);
  EXPECT_EQ(household_place(keeping_crop("beet", 1.0, 10.0, 150.0), false), StorePlace::fridge);
}

TEST(StorageLife, ACoolStoreIsUsedWhereItKeepsLonger) {
  EXPECT_EQ(household_place(keeping_crop("potato", 40.0, 14.0, 200.0), true), StorePlace::best);
  EXPECT_EQ(household_place(keeping_crop("tomato", 9.0, 4.0, 8.0), true), StorePlace::kitchen);
}

TEST(GoodShare, IsOneAtHarvestAndHalfAtTheStorageLife) {
  const crop::Crop beet = keeping_crop("beet", 1.0, 10.0, 150.0);
  EXPECT_DOUBLE_EQ(good_share(beet, StorePlace::fridge, 0.0), 1.0);
  EXPECT_DOUBLE_EQ(good_share(beet, StorePlace::fridge, -3.0), 1.0);
  EXPECT_DOUBLE_EQ(good_share(beet, StorePlace::fridge, 10.0), 0.5);
  EXPECT_DOUBLE_EQ(good_share(beet, StorePlace::fridge, 20.0), 0.25);
}

TEST(GoodShare, IsNothingForACropThatDoesNotKeep) {
  const crop::Crop herb = keeping_crop("herb", 0.0, -1.0, 0.0);
  EXPECT_DOUBLE_EQ(good_share(herb, StorePlace::kitchen, 7.0), 0.0);
  EXPECT_DOUBLE_EQ(weekly_keep_share(herb, StorePlace::fridge), 0.0);
}

RC_GTEST_PROP(GoodShare, FallsWithTimeAndWeeksMultiply, ()) {
  const double life = 1.0 + *rc::gen::inRange(0, 3000) / 10.0;
  const crop::Crop any = keeping_crop("any", life, life, life);
  const int weeks = *rc::gen::inRange(0, 30);
  const double share = weekly_keep_share(any, StorePlace::fridge);
  RC_ASSERT(share > 0.0);
  RC_ASSERT(share < 1.0);
  double product = 1.0;
  for (int w = 0; w < weeks; ++w) product *= share;
  RC_ASSERT(std::abs(product - good_share(any, StorePlace::fridge, 7.0 * weeks)) < 1e-12);
}

TEST(MostWeeks, AreTwiceTheLifeInWholeWeeksAndAtLeastOne) {
  const auto weeks = [](double days) {
    return most_weeks(keeping_crop("any", days, days, days), StorePlace::fridge);
  };
  EXPECT_EQ(weeks(0.0), 1);
  EXPECT_EQ(weeks(6.9), 1);
  EXPECT_EQ(weeks(7.0), 2);
  EXPECT_EQ(weeks(60.0), 17);
}

TEST(EatFirst, KeepsEveryLotAndPutsTheUnknownCropOnTheDayItWasStored) {
  const crop::CropLibrary library = library_with_lives({10});
  const base::Date day = base::date_of(2027, 2, 28);
  const std::vector<LotAdvice> advice = eat_first(
      {{"a", "crop0", StorePlace::fridge, day, 100.0}, {"b", "nobody", StorePlace::fridge, day, 50.0}},
      library);
  ASSERT_EQ(advice.size(), 2U);
  EXPECT_EQ(advice[0].lot.id, "b");
  EXPECT_EQ(advice[0].eat_by, day);
  EXPECT_EQ(advice[1].eat_by, base::date_of(2027, 3, 10));
  EXPECT_TRUE(eat_first({}, library).empty());
}

/// Weight eaten in time when lots are eaten whole in the given order, one a day from `today`: each lot is one
/// day's food, and is lost when its day comes after its eat-by date.
int lots_saved(const std::vector<LotAdvice>& order, base::Date today) {
  int saved = 0;
  base::Date day = today;
  for (const LotAdvice& advice : order) {
    if (advice.eat_by < day) continue;
    ++saved;
    day += base::Days{1};
  }
  return saved;
}

// Earliest due date first decides whether all lots can be saved: compared with every order of up to six lots.
RC_GTEST_PROP(EatFirst, SavesAllLotsWheneverSomeOrderDoes, ()) {
  const auto lives = *rc::gen::container<std::vector<int>>(*rc::gen::inRange(1, 7), rc::gen::inRange(0, 8));
  const crop::CropLibrary library = library_with_lives(lives);
  const base::Date today = base::date_of(2028, 2, 27);
  std::vector<Lot> lots;
  for (std::size_t i = 0; i < lives.size(); ++i) {
    const base::Date stored = today - base::Days{*rc::gen::inRange(0, 3)};
    lots.push_back(
        {"lot" + std::to_string(i), "crop" + std::to_string(i), StorePlace::fridge, stored, 100.0});
  }
  const std::vector<LotAdvice> ours = eat_first(lots, library);
  std::vector<std::size_t> order(ours.size());
  std::iota(order.begin(), order.end(), 0U);
  bool possible = false;
  do {
    std::vector<LotAdvice> tried;
    for (const std::size_t i : order) tried.push_back(ours[i]);
    possible = possible || lots_saved(tried, today) == static_cast<int>(tried.size());
  } while (std::next_permutation(order.begin(), order.end()));
  RC_ASSERT((lots_saved(ours, today) == static_cast<int>(ours.size())) == possible);
}

}  // namespace
}  // namespace sowtide::keep
