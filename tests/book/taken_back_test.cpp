// Stands put in by hand and taken back: nothing of them counts, and the log keeps what was written.
#include "book/taken_back.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "book/garden_file.hpp"
#include "book/sample_garden.hpp"

namespace sowtide::book {
namespace {

using base::date_of;
using base::ProblemCode;
using testing::TemporaryDirectory;
using testing::whole_text;

const base::Date kDay = date_of(2026, 5, 20);

GardenDescription random_garden(std::uint64_t seed) {
  base::RandomStream random(seed, "tests.book.taken_back");
  return testing::random_garden(random);
}

/// A stand of the garden's first bed, as the desk puts one in.
stand::StandPlan own_stand(const GardenDescription& garden) {
  return {.id = "own", .crop = "radish", .sow = kDay, .clumps = 10, .bed = garden.beds.front().id, .to_m = 0.1};
}

Event making() {
  return {.id = making_id("own", kDay), .date = kDay, .kind = EventKind::sown, .stand = "own", .count = 20};
}

bool same(const GardenState& a, const GardenState& b) {
  const auto alike = [](const StandState& x, const StandState& y) {
    return x.plan == y.plan && x.facts == y.facts && x.counted_on == y.counted_on;
  };
  return std::equal(a.stands.begin(), a.stands.end(), b.stands.begin(), b.stands.end(), alike) &&
         a.store.size() == b.store.size() && a.picked_g == b.picked_g && a.watered == b.watered &&
         a.seeds_sown == b.seeds_sown && a.seed_tests.size() == b.seed_tests.size();
}

RC_GTEST_PROP(TakenBackLaws, NothingOfTheStandCounts, (std::uint64_t seed)) {
  const TemporaryDirectory directory;
  const GardenDescription garden = random_garden(seed);
  base::RandomStream random(seed, "tests.book.taken_back.log");
  const auto log = testing::random_log(random, garden, 20);
  auto file = GardenFile::create(directory.file("g"), garden, log);
  RC_ASSERT(file.has_value());
  const auto state = [&] { return fold(*file->description(), *file->events(), kDay + base::Days{400}); };
  const GardenState before = state();
  RC_ASSERT(file->add_stand(own_stand(garden), {making()}).has_value());
  RC_ASSERT(!same(state(), before));
  RC_ASSERT(file->take_back_stand("own", kDay).has_value());
  RC_ASSERT(same(state(), before));
  RC_ASSERT(file->take_back_stand("own", kDay).error().code == ProblemCode::not_found);

  RC_ASSERT(write_export(*file->description(), *file->events(), directory.file("out")).has_value());
  const auto again = read_garden_toml(directory.file("out") + "/garden.toml");
  RC_ASSERT(again.has_value());
  RC_ASSERT(same(fold(again->garden, again->events, kDay + base::Days{400}), before));
}

TEST(TakenBack, ComesBackWithItsMakingOrWithAFurtherEntry) {
  std::vector<Event> log{making()};
  const auto is_gone = [&log] { return taken_back(log).contains("own"); };
  EXPECT_FALSE(is_gone());
  auto back = taking_back("own", log, kDay);
  ASSERT_TRUE(back && *back);
  log.push_back(**back);
  log.back().sequence = 2;
  EXPECT_TRUE(is_gone());
  log.push_back({.id = "c2", .sequence = 3, .date = kDay, .kind = EventKind::corrected, .target = log.back().id});
  EXPECT_FALSE(is_gone());
  back = taking_back("own", log, kDay);
  ASSERT_TRUE(back && *back) << "may be taken back once more";
  log.push_back(**back);
  log.back().sequence = 4;
  EXPECT_TRUE(is_gone());
  log.push_back({.id = "e5", .sequence = 5, .date = kDay, .kind = EventKind::counted, .stand = "own", .count = 9});
  EXPECT_FALSE(is_gone()) << "somebody has seen it";
}

TEST(TakenBack, IsRefusedWhereMoreIsInTheLog) {
  const TemporaryDirectory directory;
  const GardenDescription garden = random_garden(7);
  auto file = GardenFile::create(directory.file("g"), garden, {});
  ASSERT_TRUE(file);
  const Event counted{.id = "e1", .date = kDay, .kind = EventKind::counted, .stand = "own", .count = 9};
  ASSERT_TRUE(file->add_stand(own_stand(garden), {making(), counted}));
  const std::string before = whole_text(*file->description(), *file->events());
  const auto refused = file->take_back_stand("own", kDay);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ProblemCode::contradiction);
  EXPECT_NE(refused.error().what.find("counted on 2026-05-20 (entry e1)"), std::string::npos)
      << refused.error().what;
  EXPECT_EQ(whole_text(*file->description(), *file->events()), before);
  const Event correction{.id = "e2", .date = kDay, .kind = EventKind::corrected, .target = "e1"};
  ASSERT_TRUE(file->append({correction}));
  EXPECT_TRUE(file->take_back_stand("own", kDay)) << "once that is taken back";
}

TEST(TakenBack, OneThatTheLogNeverNamedGoesAndOneOfAPlanWhoseEntriesWereCorrectedCountsForNothing) {
  const TemporaryDirectory directory;
  GardenDescription garden = random_garden(7);
  garden.stands = {own_stand(garden)};
  auto file = GardenFile::create(directory.file("g"), garden, {});
  ASSERT_TRUE(file);
  ASSERT_TRUE(file->take_back_stand("own", kDay));
  EXPECT_TRUE(file->description()->stands.empty());

  Event sown = making();
  sown.id = "e1";
  ASSERT_TRUE(file->add_stand(own_stand(garden), {sown}));
  ASSERT_TRUE(file->append({{.id = "e2", .date = kDay, .kind = EventKind::corrected, .target = "e1"}}));
  ASSERT_EQ(fold(*file->description(), *file->events(), kDay).stands.size(), 1U) << "it is still planned";
  ASSERT_TRUE(file->take_back_stand("own", kDay));
  EXPECT_TRUE(fold(*file->description(), *file->events(), kDay).stands.empty());
  EXPECT_FALSE(file->take_back_stand("own", kDay)) << "it is gone already";
  sown.id = "e3";
  ASSERT_TRUE(file->append({sown}));
  EXPECT_EQ(fold(*file->description(), *file->events(), kDay).stands.size(), 1U) << "it was sown after all";
}

}  // namespace
}  // namespace sowtide::book
