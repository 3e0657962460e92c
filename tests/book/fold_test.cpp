// The state of a garden is what its log says, however the log reached the book.
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "book/arrangement_word.hpp"
#include "book/event_check.hpp"
#include "book/garden.hpp"
#include "book/sample_garden.hpp"
#include "book/store_place.hpp"
#include "stand/bought.hpp"

namespace sowtide::book {
namespace {

using base::date_of;

/// A library of one crop pulled once, one picked over weeks, and one with several tubers to a plant, so that
/// folding is tested without the real figures.
crop::CropLibrary small_library() {
  crop::CropLibrary library;
  crop::Crop beet;
  beet.id = "beet";
  beet.harvest.style = crop::HarvestStyle::once;
  beet.harvest.shape = crop::RootShape::round;
  beet.harvest.weight_g_per_cm3 = crop::Figure{.value = 0.5};
  beet.harvest.greens_dry_matter_fraction = crop::Figure{.value = 0.09};
  library.crops.emplace("beet", beet);
  crop::Crop tomato;
  tomato.id = "tomato";
  tomato.harvest.style = crop::HarvestStyle::picked;
  library.crops.emplace("tomato", tomato);
  crop::Crop potato;
  potato.id = "potato";
  potato.harvest.style = crop::HarvestStyle::once;
  potato.harvest.part = crop::HarvestedPart::tuber;
  library.crops.emplace("potato", potato);
  return library;
}

GardenDescription two_stands() {
  GardenDescription garden;
  garden.beds.push_back({.id = "gate", .name = "Gate", .length_m = 4.0, .width_m = 1.0});
  garden.stands.push_back({.id = "s1", .crop = "beet", .clumps = 10, .plants_per_clump = 2.0, .bed = "gate"});
  garden.stands.push_back({.id = "s2", .crop = "tomato", .clumps = 4, .bed = "gate"});
  return garden;
}

/// Builds a log entry by entry.
class Log {
 public:
  Event& add(EventKind kind, base::Date date, const std::string& stand = "") {
    Event event;
    event.id = "e" + std::to_string(events.size() + 1);
    event.sequence = static_cast<std::int64_t>(events.size()) + 1;
    event.kind = kind;
    event.date = date;
    event.stand = stand;
    events.push_back(event);
    return events.back();
  }
  std::vector<Event> events;
};

GardenState folded(const Log& log, base::Date day = date_of(2026, 12, 31)) {
  return fold(two_stands(), log.events, day, small_library());
}

std::string text_of(const GardenState& state) {
  std::string text;
  const auto day = [](const std::optional<base::Date>& date) {
    return date ? base::to_iso(*date) : std::string("-");
  };
  for (const StandState& stand : state.stands) {
    const stand::StandFacts& f = stand.facts;
    text += stand.plan.id + " " + day(f.sown) + day(f.emerged) + day(f.set_out) + day(f.first_picked) +
            day(f.measured_on) + std::to_string(f.counted_plants.value_or(-1)) + " " +
            std::to_string(f.picked_g) + " " + std::to_string(f.plants_removed) + " " +
            std::to_string(f.measured_g.value_or(-1)) + (f.finished ? " finished\n" : "\n");
  }
  for (const auto& lot : state.store) {
    text += lot.id + " " + lot.crop + " " + base::to_iso(lot.stored) + " " + std::to_string(lot.grams) + "\n";
  }
  for (const auto& [crop, grams] : state.picked_g) text += crop + " " + std::to_string(grams) + "\n";
  for (const auto& [bed, date] : state.watered) text += bed + " " + base::to_iso(date) + "\n";
  return text;
}

TEST(Kinds, EveryKindReadsBackFromItsWord) {
  for (int i = 0; i <= static_cast<int>(EventKind::tested); ++i) {
    const auto kind = static_cast<EventKind>(i);
    EXPECT_EQ(parse_event_kind(event_kind_text(kind)), kind);
  }
  EXPECT_EQ(event_kind_text(EventKind::set_out), "set-out");
  EXPECT_FALSE(parse_event_kind("set_out"));
  EXPECT_FALSE(parse_event_kind(""));
}

TEST(Fold, AnEmptyLogLeavesEveryStandWithoutFacts) {
  const GardenState state = folded({});
  ASSERT_EQ(state.stands.size(), 2U);
  EXPECT_FALSE(state.stands[0].facts.sown);
  EXPECT_TRUE(state.store.empty());
}

TEST(Fold, FollowsAStandFromSowingToItsEnd) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 30;
  log.add(EventKind::counted, date_of(2026, 3, 9), "s1").count = 4;
  log.add(EventKind::counted, date_of(2026, 3, 12), "s1").count = 24;
  log.add(EventKind::set_out, date_of(2026, 4, 1), "s1");
  log.add(EventKind::thinned, date_of(2026, 4, 10), "s1").count = 4;
  Event& picked = log.add(EventKind::picked, date_of(2026, 6, 10), "s1");
  picked.count = 6;
  picked.grams = 700.0;
  const stand::StandFacts facts = folded(log).stands[0].facts;
  EXPECT_EQ(facts.sown, date_of(2026, 3, 1));
  EXPECT_EQ(facts.emerged, date_of(2026, 3, 12))
      << "half of the 20 plants planned were first seen on the 12th";
  EXPECT_EQ(facts.counted_plants, 24);
  EXPECT_EQ(facts.set_out, date_of(2026, 4, 1));
  EXPECT_EQ(facts.plants_removed, 10);
  EXPECT_EQ(facts.first_picked, date_of(2026, 6, 10));
  EXPECT_DOUBLE_EQ(facts.picked_g, 700.0);
  EXPECT_FALSE(facts.finished);
  Event& rest = log.add(EventKind::picked, date_of(2026, 7, 1), "s1");
  rest.count = 14;
  EXPECT_TRUE(folded(log).stands[0].facts.finished) << "all 24 are gone";
}

TEST(Fold, ACountOfPlantsInTheirBedDatesNoEmergence) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 30;
  log.add(EventKind::set_out, date_of(2026, 4, 1), "s1");
  log.add(EventKind::counted, date_of(2026, 4, 9), "s1").count = 20;
  const stand::StandFacts facts = folded(log).stands[0].facts;
  EXPECT_FALSE(facts.emerged);
  EXPECT_EQ(facts.counted_plants, 20);
}

TEST(Fold, PlantsSetOutLaterFillGaps) {
  Log log;
  log.add(EventKind::set_out, date_of(2026, 4, 1), "s1");
  log.add(EventKind::set_out, date_of(2026, 4, 3), "s1").count = 3;
  EXPECT_FALSE(folded(log).stands[0].facts.counted_plants) << "nobody has counted";
  log.add(EventKind::counted, date_of(2026, 4, 9), "s1").count = 2;
  log.add(EventKind::set_out, date_of(2026, 4, 12), "s1").count = 5;
  const stand::StandFacts facts = folded(log).stands[0].facts;
  EXPECT_EQ(facts.counted_plants, 7);
  EXPECT_EQ(facts.set_out, date_of(2026, 4, 1));
}

// The spare plants of the tray are given away.
TEST(Fold, AsManyStandAsWereSetOut) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s2").count = 16;
  log.add(EventKind::counted, date_of(2026, 3, 12), "s2").count = 14;
  log.add(EventKind::thinned, date_of(2026, 3, 20), "s2").count = 1;
  const auto facts = [&] { return folded(log).stands[1].facts; };
  log.add(EventKind::set_out, date_of(2026, 4, 1), "s2").count = 8;
  EXPECT_EQ(facts().counted_plants, 8);
  EXPECT_EQ(facts().plants_removed, 0) << "the thinned one stood in the tray";
  log.add(EventKind::set_out, date_of(2026, 4, 3), "s2").count = 4;
  EXPECT_EQ(facts().counted_plants, 12) << "the others two days later";
  log.events[3].count.reset();
  EXPECT_EQ(facts().counted_plants, 18) << "without a number all of them are out, and gaps are filled";
  log.events[3].count = 20.0;
  EXPECT_EQ(facts().counted_plants, 17) << "no more than there were: 13, and 4";
}

TEST(Fold, ClumpsOfSeveralAreSetOutAsClumps) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 30;
  log.add(EventKind::counted, date_of(2026, 3, 12), "s1").count = 19;
  const auto plants = [&] { return folded(log).stands[0].facts.counted_plants; };
  Event& first = log.add(EventKind::set_out, date_of(2026, 4, 1), "s1");
  first.count = 10;
  EXPECT_EQ(plants(), 19) << "all ten clumps of two, of which one has lost a plant";
  log.events[2].count = 6;
  EXPECT_EQ(plants(), 12);
  log.add(EventKind::set_out, date_of(2026, 4, 3), "s1").count = 3;
  EXPECT_EQ(plants(), 18);
}

TEST(Fold, PlantsSetOutAfterAllWereGoneStandAgain) {
  Log log;
  log.add(EventKind::set_out, date_of(2026, 4, 1), "s1");
  log.add(EventKind::discarded, date_of(2026, 4, 8), "s1").count = 5;
  log.add(EventKind::set_out, date_of(2026, 4, 10), "s1").count = 5;
  log.add(EventKind::picked, date_of(2026, 6, 1), "s1").count = 15;
  EXPECT_FALSE(folded(log).stands[0].facts.finished) << "five of the twenty stand";
  Log counted;
  counted.add(EventKind::set_out, date_of(2026, 4, 1), "s1");
  counted.add(EventKind::counted, date_of(2026, 4, 5), "s1").count = 12;
  counted.add(EventKind::discarded, date_of(2026, 4, 8), "s1").count = 12;
  EXPECT_TRUE(folded(counted).stands[0].facts.finished);
  counted.add(EventKind::set_out, date_of(2026, 4, 10), "s1").count = 12;
  EXPECT_FALSE(folded(counted).stands[0].facts.finished);
}

TEST(Fold, ThatPlantsWereBoughtIsReadInAnyCase) {
  for (const char* text : {"bought", "Bought", "bought at the market", "Bought, rows 60 cm"})
    EXPECT_TRUE(says_bought(text)) << text;
  for (const char* text : {"", "boughten", "not bought", "rows 60 cm"})
    EXPECT_FALSE(says_bought(text)) << text;
}

TEST(Fold, BoughtPlantsAreAsOldAsReadySeedlings) {
  const crop::CropLibrary& library = crop::built_in_library();
  GardenDescription garden = two_stands();
  garden.stands[1].sow = date_of(2026, 2, 1);
  garden.stands[1].packet = "p1";
  Log log;
  log.add(EventKind::sown, date_of(2026, 2, 1), "s2");
  log.add(EventKind::counted, date_of(2026, 3, 1), "s2").count = 0;
  Event& bought = log.add(EventKind::set_out, date_of(2026, 5, 20), "s2");
  bought.count = 6;
  bought.text = "bought, rows 60 cm";
  const StandState stand = fold(garden, log.events, date_of(2026, 6, 1), library).stands[1];
  EXPECT_EQ(stand.facts.set_out, bought.date);
  EXPECT_FALSE(stand.facts.sown);
  EXPECT_EQ(stand.facts.counted_plants, 6);
  EXPECT_EQ(stand.plan.method, stand::Method::start_indoors);
  EXPECT_EQ(stand.plan.row_spacing_mm, 600.0);
  EXPECT_TRUE(stand.plan.packet.empty());
  // Tomatoes are raised for five to eight weeks (common practice).
  const auto raised_days = (bought.date - stand.plan.sow).count();
  EXPECT_GE(raised_days, 28);
  EXPECT_LE(raised_days, 63);
}

// As planned needs no word for it; what was raised, in a tray that nobody told, is not bought by being set
// out.
TEST(Fold, PlantsThatWerePlannedToBeBoughtAreBoughtWhenSetOut) {
  const crop::CropLibrary& library = crop::built_in_library();
  GardenDescription garden = two_stands();
  stand::StandPlan& plan = garden.stands[1];
  plan.method = stand::Method::start_indoors;
  plan.tray.clear();
  plan.packet.clear();
  stand::set_out_as_bought(plan, date_of(2026, 5, 20), **library.find(plan.crop));
  Log log;
  log.add(EventKind::set_out, date_of(2026, 5, 27), "s2").count = 5;
  const StandState late = fold(garden, log.events, date_of(2026, 6, 1), library).stands[1];
  EXPECT_EQ(late.facts.set_out, date_of(2026, 5, 27));
  EXPECT_EQ(late.facts.counted_plants, 5);
  EXPECT_EQ(late.plan.sow, plan.sow + base::Days{7});
  Log raised;
  raised.add(EventKind::sown, date_of(2026, 3, 1), "s2");
  raised.add(EventKind::set_out, date_of(2026, 5, 27), "s2").count = 5;
  const StandState own = fold(garden, raised.events, date_of(2026, 6, 1), library).stands[1];
  EXPECT_EQ(own.facts.sown, date_of(2026, 3, 1));
  EXPECT_EQ(own.plan.sow, plan.sow) << "no day of sowing is made up";
}

TEST(Fold, AStandIsFinishedWhenAsManyAsPlannedArePulledThoughNobodyCounted) {
  const auto finished = [](std::optional<double> sown, double thinned, double picked, double discarded) {
    Log log;
    log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = sown;
    log.add(EventKind::thinned, date_of(2026, 4, 1), "s1").count = thinned;
    log.add(EventKind::discarded, date_of(2026, 5, 1), "s1").count = discarded;
    log.add(EventKind::picked, date_of(2026, 6, 1), "s1").count = picked;
    return folded(log).stands[0].facts.finished;
  };
  // The sample's s1 is of 20 beets.
  EXPECT_TRUE(finished({}, 0, 20, 0));
  EXPECT_TRUE(finished({}, 0, 17, 3)) << "thrown away or picked, they are gone";
  EXPECT_FALSE(finished({}, 0, 19, 0));
  EXPECT_FALSE(finished({}, 15, 10, 0)) << "seedlings thinned are none of those planned";
  EXPECT_FALSE(finished(1000, 0, 20, 0)) << "more was sown than planned: more may stand";
}

// The sample's s1 is of 20 beets, here of one seedling to a seed.
TEST(Fold, SeedlingsThinnedThatNobodyCountedAreThoseBeyondThePlantsPlanned) {
  const auto facts = [](double thinned, bool counted) {
    Log log;
    log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 60;
    if (counted) log.add(EventKind::counted, date_of(2026, 3, 20), "s1").count = 60;
    log.add(EventKind::thinned, date_of(2026, 4, 1), "s1").count = 10;
    log.add(EventKind::thinned, date_of(2026, 4, 4), "s1").count = thinned - 10.0;
    return folded(log).stands[0].facts;
  };
  EXPECT_EQ(facts(40, false).plants_removed, 0) << "60 came up at most, and 20 are kept";
  EXPECT_EQ(facts(45, false).plants_removed, 5) << "of 60 seeds no more than 15 can be left";
  EXPECT_EQ(facts(40, true).plants_removed, 40) << "of those counted";
  EXPECT_EQ(facts(40, false).taken.size(), 2U) << "they were seen";
  Log out;
  out.add(EventKind::set_out, date_of(2026, 3, 1), "s1");
  out.add(EventKind::thinned, date_of(2026, 4, 1), "s1").count = 5;
  EXPECT_EQ(folded(out).stands[0].facts.plants_removed, 5) << "of those set out";
}

TEST(Fold, KeepsEverySizeThatWasObserved) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 30;
  log.add(EventKind::measured, date_of(2026, 6, 1), "s1").diameter_mm = 40.0;
  log.add(EventKind::measured, date_of(2026, 6, 8), "s1").text = "large";
  log.add(EventKind::measured, date_of(2026, 6, 15), "s1").grams = 90.0;
  const std::vector<SizeObserved> seen = folded(log).stands[0].observed;
  ASSERT_EQ(seen.size(), 3U);
  EXPECT_EQ(seen[0].told, SizeTold::felt);
  EXPECT_NEAR(seen[0].weight_g, 0.5 * 64.0, 1e-9) << "c·D³ of 4 cm";
  EXPECT_EQ(seen[1].told, SizeTold::by_eye);
  EXPECT_EQ(seen[2].told, SizeTold::weighed);
  EXPECT_DOUBLE_EQ(seen[2].weight_g, 90.0);
}

TEST(Fold, LeavesPickedOfARootCropAreNoRoots) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 30;
  log.add(EventKind::counted, date_of(2026, 3, 20), "s1").count = 20;
  Event& leaves = log.add(EventKind::picked, date_of(2026, 6, 1), "s1");
  leaves.grams = 300.0;
  leaves.count = 2.0;  // bunches
  for (const char* text : {"leaves", "greens, for soup"}) {
    log.events.back().text = text;
    const GardenState state = folded(log, date_of(2026, 6, 1));
    const stand::StandFacts& facts = state.stands[0].facts;
    EXPECT_EQ(facts.plants_removed, 0);
    EXPECT_DOUBLE_EQ(facts.picked_g, 0.0);
    EXPECT_DOUBLE_EQ(facts.greens_g, 300.0);
    EXPECT_FALSE(facts.first_picked);
    ASSERT_EQ(facts.taken.size(), 1U);
    EXPECT_TRUE(facts.taken[0].leaves);
    EXPECT_TRUE(state.food_of_week.empty()) << "they feed no want of roots";
  }
  log.events.back().text = "for soup";
  EXPECT_EQ(folded(log).stands[0].facts.plants_removed, 2);
}

// Fifteen tubers are none of the twelve plants; plants that are thrown away are.
TEST(Fold, APickingOfAllOfItEndsAStandWhateverItWeighs) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 4, 1), "s1");
  log.add(EventKind::counted, date_of(2026, 4, 20), "s1").count = 19.0;
  log.add(EventKind::picked, date_of(2026, 6, 24), "s1").count = 5.0;
  Event& last = log.add(EventKind::picked, date_of(2026, 7, 1), "s1");
  last.grams = 3400.0;
  EXPECT_FALSE(folded(log).stands[0].facts.finished) << "a weight alone does not tell that it was all";
  last.text = "All, the slugs came first";
  const GardenState state = folded(log);
  EXPECT_TRUE(state.stands[0].facts.finished);
  EXPECT_EQ(state.stands[0].over_on, date_of(2026, 7, 1));
  EXPECT_EQ(state.stands[0].facts.plants_removed, 19) << "the fourteen that were left by the log";
  last.text = "all good";
  EXPECT_FALSE(folded(log).stands[0].facts.finished) << "another word with it says something else";
}

TEST(Fold, APickingOfAllOfItEndsWhatIsPickedOverWeeks) {
  Log log;
  log.add(EventKind::set_out, date_of(2026, 5, 20), "s2");
  log.add(EventKind::picked, date_of(2026, 9, 30), "s2").text = "all";
  EXPECT_TRUE(folded(log).stands[1].facts.finished);
  log.add(EventKind::counted, date_of(2026, 10, 2), "s2").count = 1.0;
  EXPECT_FALSE(folded(log).stands[1].facts.finished) << "somebody has seen one";
}

TEST(Fold, AStandIsOverOnTheDayOnWhichTheLastWasTaken) {
  Log log;
  log.add(EventKind::counted, date_of(2026, 5, 1), "s1").count = 6;
  log.add(EventKind::picked, date_of(2026, 7, 1), "s1").count = 2;
  EXPECT_FALSE(folded(log).stands[0].over_on);
  log.add(EventKind::picked, date_of(2026, 7, 8), "s1").count = 4;
  log.add(EventKind::watered, date_of(2026, 7, 20), "s1");
  EXPECT_EQ(folded(log).stands[0].over_on, date_of(2026, 7, 8));
  log.add(EventKind::discarded, date_of(2026, 9, 2), "s2");
  EXPECT_EQ(folded(log).stands[1].over_on, date_of(2026, 9, 2));
}

TEST(Fold, TubersPickedLeaveThePlantsStanding) {
  GardenDescription garden = two_stands();
  garden.stands.push_back({.id = "s3", .crop = "potato", .clumps = 12, .bed = "gate"});
  Log log;
  log.add(EventKind::sown, date_of(2026, 4, 1), "s3");
  log.add(EventKind::counted, date_of(2026, 5, 1), "s3").count = 12;
  Event& picked = log.add(EventKind::picked, date_of(2026, 8, 1), "s3");
  picked.count = 15;
  picked.grams = 1500.0;
  const auto facts = [&] {
    return fold(garden, log.events, date_of(2026, 12, 31), small_library()).stands[2].facts;
  };
  EXPECT_FALSE(facts().finished);
  EXPECT_EQ(facts().plants_removed, 0);
  EXPECT_DOUBLE_EQ(facts().picked_g, 1500.0);
  ASSERT_EQ(facts().taken.size(), 1U);
  EXPECT_EQ(facts().taken.front().plants, 0);
  EXPECT_EQ(facts().taken.front().grams, 1500.0);
  log.add(EventKind::discarded, date_of(2026, 8, 2), "s3").count = 12;
  EXPECT_TRUE(facts().finished);
}

TEST(Fold, ASowingAfterNothingCameBeginsTheStandAnew) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 30;
  log.add(EventKind::sown, date_of(2026, 3, 5), "s1").count = 10;
  EXPECT_EQ(folded(log).stands[0].facts.sown, date_of(2026, 3, 1)) << "sown into gaps";
  log.add(EventKind::counted, date_of(2026, 4, 2), "s1").count = 0;
  EXPECT_EQ(folded(log).stands[0].counted_on, date_of(2026, 4, 2));
  log.add(EventKind::sown, date_of(2026, 4, 2), "s1").count = 30;
  const GardenState state = folded(log);
  EXPECT_EQ(state.stands[0].facts.sown, date_of(2026, 4, 2));
  EXPECT_FALSE(state.stands[0].facts.counted_plants);
  EXPECT_FALSE(state.stands[0].counted_on);
  EXPECT_DOUBLE_EQ(state.seeds_sown.at("s1").at(""), 70.0) << "the packet gave the seeds of all three";
}

TEST(Fold, OfADeadSowingNothingCountsTowardsTheEndOfTheNext) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 10;
  log.add(EventKind::counted, date_of(2026, 4, 2), "s1").count = 0;
  log.add(EventKind::sown, date_of(2026, 4, 3), "s1").count = 10;
  log.add(EventKind::picked, date_of(2026, 7, 1), "s1").count = 20;
  EXPECT_TRUE(folded(log).stands[0].facts.finished) << "all that were planned are picked";
}

TEST(Fold, SeedThatWasSownIsGoneWhateverStandsThereNow) {
  GardenDescription garden = two_stands();
  garden.stands[0].packet = "old";
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 40;
  log.add(EventKind::sown, date_of(2026, 3, 9), "s1");
  Event& of_another = log.add(EventKind::sown, date_of(2026, 3, 12), "s1");
  of_another.count = 7;
  of_another.target = "new";
  log.add(EventKind::set_out, date_of(2026, 5, 1), "s1").text = "bought";
  const GardenState state = fold(garden, log.events, date_of(2026, 12, 31), small_library());
  EXPECT_EQ(state.stands[0].plan.packet, "") << "what stands there now came from no packet";
  EXPECT_EQ(state.seeds_sown.at("s1"), (SeedsSown{{"new", 7.0}, {"old", 50.0}}))
      << "an entry without a number: as planned; one that names its packet: from that";
}

TEST(Fold, ACountOfNoneEndsWhatStoodThere) {
  Log log;
  log.add(EventKind::set_out, date_of(2026, 4, 12), "s2").count = 4;
  log.add(EventKind::counted, date_of(2026, 4, 20), "s2").count = 0;
  const StandState slugs = folded(log).stands[1];
  EXPECT_TRUE(slugs.facts.finished);
  EXPECT_TRUE(slugs.none_left);
  EXPECT_EQ(slugs.over_on, date_of(2026, 4, 20));
  log.add(EventKind::set_out, date_of(2026, 4, 25), "s2").count = 3;
  const StandState again = folded(log).stands[1];
  EXPECT_FALSE(again.facts.finished);
  EXPECT_EQ(again.facts.set_out, date_of(2026, 4, 25)) << "the new plants date it";
  EXPECT_EQ(again.facts.counted_plants, 3);
  log.events.pop_back();
  log.add(EventKind::discarded, date_of(2026, 4, 25), "s2");
  EXPECT_FALSE(folded(log).stands[1].none_left) << "its place is given up";
  Log picked;
  picked.add(EventKind::set_out, date_of(2026, 4, 12), "s2").count = 4;
  picked.add(EventKind::picked, date_of(2026, 8, 1), "s2").grams = 300;
  picked.add(EventKind::counted, date_of(2026, 9, 1), "s2").count = 0;
  EXPECT_EQ(folded(picked).stands[1].over_on, date_of(2026, 9, 1)) << "the tomatoes are gone that day";
  Log unseen;
  unseen.add(EventKind::sown, date_of(2026, 4, 1), "s1").count = 30;
  unseen.add(EventKind::counted, date_of(2026, 4, 3), "s1").count = 0;
  EXPECT_FALSE(folded(unseen).stands[0].facts.finished) << "it may still come";
}

TEST(Fold, ACountOfPlantsUndoesAnEnd) {
  Log log;
  log.add(EventKind::counted, date_of(2026, 5, 1), "s1").count = 20;
  log.add(EventKind::picked, date_of(2026, 7, 1), "s1").count = 20;
  EXPECT_TRUE(folded(log).stands[0].facts.finished);
  log.add(EventKind::counted, date_of(2026, 7, 2), "s1").count = 15;
  EXPECT_FALSE(folded(log).stands[0].facts.finished) << "there are 15";
  log.add(EventKind::discarded, date_of(2026, 7, 3), "s1");
  EXPECT_TRUE(folded(log).stands[0].facts.finished);
  log.add(EventKind::counted, date_of(2026, 7, 4), "s1").count = 3;
  EXPECT_FALSE(folded(log).stands[0].facts.finished) << "not all of them were thrown away";
  log.add(EventKind::counted, date_of(2026, 7, 5), "s1").count = 0;
  EXPECT_TRUE(folded(log).stands[0].facts.finished) << "nothing is left of what was picked";
}

TEST(Fold, ShootsOfAPlantingPieceAreOnePlant) {
  crop::CropLibrary library = small_library();
  library.crops.at("potato").seed.planting_piece = true;
  GardenDescription garden = two_stands();
  garden.stands.push_back({.id = "s3", .crop = "potato", .clumps = 4, .bed = "gate"});
  Log log;
  const auto counted = [&] {
    return fold(garden, log.events, date_of(2026, 12, 31), library).stands[2].facts.counted_plants;
  };
  log.add(EventKind::counted, date_of(2026, 5, 1), "s3").count = 9;
  EXPECT_EQ(counted(), 4) << "no more than were planned";
  log.add(EventKind::sown, date_of(2026, 4, 1), "s3").count = 3;
  EXPECT_EQ(counted(), 3) << "no more than were planted";
  log.add(EventKind::counted, date_of(2026, 5, 9), "s3").count = 2;
  EXPECT_EQ(counted(), 2);
}

TEST(Fold, APlantingWithoutACountIsAsPlannedBesideTheNext) {
  crop::CropLibrary library = small_library();
  library.crops.at("potato").seed.planting_piece = true;
  GardenDescription garden = two_stands();
  garden.stands.push_back({.id = "s3", .crop = "potato", .clumps = 4, .bed = "gate"});
  Log log;
  log.add(EventKind::sown, date_of(2026, 4, 1), "s3");
  log.add(EventKind::sown, date_of(2026, 4, 8), "s3").count = 3;
  log.add(EventKind::counted, date_of(2026, 5, 9), "s3").count = 9;
  const GardenState state = fold(garden, log.events, date_of(2026, 12, 31), library);
  EXPECT_EQ(state.stands[2].facts.counted_plants, 7) << "the four planned and three more";
}

TEST(Fold, WhatWasSetOutIsBegunAnewByASowingOnlyWhereNoneIsLeft) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1").count = 30;
  log.add(EventKind::set_out, date_of(2026, 4, 1), "s1");
  log.add(EventKind::counted, date_of(2026, 4, 20), "s1").count = 1;
  log.add(EventKind::sown, date_of(2026, 4, 21), "s1").count = 30;
  EXPECT_EQ(folded(log).stands[0].facts.sown, date_of(2026, 3, 1)) << "into gaps";
  log.events[2].count = 0.0;
  const stand::StandFacts anew = folded(log).stands[0].facts;
  EXPECT_EQ(anew.sown, date_of(2026, 4, 21));
  EXPECT_FALSE(anew.set_out);
}

TEST(Fold, PickingFruitTakesNoPlants) {
  Log log;
  log.add(EventKind::counted, date_of(2026, 5, 1), "s2").count = 4;
  log.add(EventKind::picked, date_of(2026, 8, 1), "s2").count = 30;
  const auto facts = folded(log).stands[1].facts;
  EXPECT_EQ(facts.plants_removed, 0);
  EXPECT_FALSE(facts.finished);
  log.add(EventKind::discarded, date_of(2026, 10, 1), "s2");
  EXPECT_TRUE(folded(log).stands[1].facts.finished) << "clearing a stand ends it";
}

TEST(Fold, ANewCountStartsTheRemovedPlantsAgain) {
  Log log;
  log.add(EventKind::thinned, date_of(2026, 4, 1), "s1").count = 5;
  log.add(EventKind::counted, date_of(2026, 4, 2), "s1").count = 18;
  EXPECT_EQ(folded(log).stands[0].facts.plants_removed, 0);
  EXPECT_EQ(folded(log, date_of(2026, 4, 1)).stands[0].facts.plants_removed, 5);
}

TEST(Fold, TakesASizeByEyeForItsWeight) {
  auto library = small_library();
  auto& harvest = library.crops.at("beet").harvest;
  harvest.smallest_g.value = 10.0;
  harvest.small_g.value = 27.0;
  harvest.large_g.value = 82.0;
  harvest.over_size_g.value = 170.0;
  const auto grams_of = [&](const char* size) {
    Log log;
    log.add(EventKind::measured, date_of(2026, 6, 1), "s1").text = size;
    return fold(two_stands(), log.events, date_of(2026, 12, 31), library).stands[0].facts.measured_g;
  };
  EXPECT_EQ(grams_of("too small"), 5.0);
  EXPECT_EQ(grams_of("small"), 27.0);
  EXPECT_EQ(grams_of("large"), 82.0);
  EXPECT_EQ(grams_of("over-size"), 170.0);
  EXPECT_EQ(grams_of("larger than last week"), std::nullopt);
}

TEST(Fold, SettingOutTellsHowTheClumpsStand) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 4, 1), "s1").text = "offset, by hand";
  EXPECT_EQ(folded(log).stands[0].plan.arrangement, stand::Arrangement::offset);
  log.add(EventKind::set_out, date_of(2026, 5, 1), "s1").text = "rows 30 cm";
  const stand::StandPlan plan = folded(log).stands[0].plan;
  EXPECT_EQ(plan.arrangement, stand::Arrangement::rows);
  EXPECT_DOUBLE_EQ(plan.row_spacing_mm, 300.0);
  log.add(EventKind::set_out, date_of(2026, 5, 2), "s1").text = "rows look straight";
  EXPECT_EQ(folded(log).stands[0].plan, plan);
}

TEST(Arrangement, IsReadInTheUnitsThatGrowersUse) {
  const auto rows_mm = [](const char* text) {
    const auto told = arrangement_told(text);
    return told && *told ? (*told)->row_spacing_mm : -1.0;
  };
  EXPECT_DOUBLE_EQ(rows_mm("rows 300 mm"), 300.0);
  EXPECT_DOUBLE_EQ(rows_mm("rows 12.5cm, soaked"), 125.0);
  EXPECT_DOUBLE_EQ(rows_mm("rows 10 in"), 254.0);
  EXPECT_DOUBLE_EQ(rows_mm("square"), 0.0);
  EXPECT_DOUBLE_EQ(rows_mm("squares of cardboard"), -1.0);
  for (const char* wrong :
       {"rows 30", "rows 30 feet", "rows 0 cm", "rows -4 cm", "rows 90 m", "rows 1e999 mm"})
    EXPECT_FALSE(arrangement_told(wrong)) << wrong;
  for (const char* note : {"", "rows", "rows nan mm by mistake, sorry", "row covers on"}) {
    const auto told = arrangement_told(note);
    EXPECT_TRUE(!told || !*told) << note;
  }
}

TEST(Fold, ADiameterThatTellsNoWeightForgetsNoWeighing) {
  Log log;
  log.add(EventKind::measured, date_of(2026, 6, 1), "s2").grams = 90.0;
  log.add(EventKind::measured, date_of(2026, 6, 8), "s2").diameter_mm = 50.0;
  const auto facts = folded(log).stands[1].facts;
  EXPECT_EQ(facts.measured_g, 90.0);
  EXPECT_EQ(facts.measured_on, date_of(2026, 6, 1));
}

TEST(Fold, TurnsTheDiameterOfARoundRootIntoItsWeight) {
  Log log;
  log.add(EventKind::measured, date_of(2026, 6, 1), "s1").diameter_mm = 60.0;
  EXPECT_DOUBLE_EQ(folded(log).stands[0].facts.measured_g.value(), 0.5 * 6.0 * 6.0 * 6.0);
  log.add(EventKind::measured, date_of(2026, 6, 8), "s1").grams = 150.0;
  EXPECT_DOUBLE_EQ(folded(log).stands[0].facts.measured_g.value(), 150.0);
  EXPECT_EQ(folded(log).stands[0].facts.measured_on, date_of(2026, 6, 8));
}

TEST(Fold, KeepsTheStoreOfLots) {
  Log log;
  Event& stored = log.add(EventKind::stored, date_of(2026, 7, 1), "s1");
  stored.grams = 1000.0;
  stored.text = "best, in damp sand";
  stored.target = "crate";
  Event& eaten = log.add(EventKind::eaten, date_of(2026, 7, 8));
  eaten.target = "crate";
  eaten.grams = 400.0;
  ASSERT_EQ(folded(log).store.size(), 1U);
  EXPECT_EQ(folded(log).store[0].crop, "beet");
  EXPECT_EQ(folded(log).store[0].place, keep::StorePlace::best);
  EXPECT_DOUBLE_EQ(folded(log).store[0].grams, 600.0);
  log.add(EventKind::discarded, date_of(2026, 9, 1)).target = "crate";
  EXPECT_TRUE(folded(log).store.empty()) << "thrown away without a weight: all of it";
  EXPECT_EQ(folded(log, date_of(2026, 8, 1)).store.size(), 1U) << "the past is unchanged";
}

TEST(Fold, WhatIsEatenOfAStandComesFromItsOldestLot) {
  Log log;
  const auto store = [&log](int day, const char* stand, const char* lot, double grams) {
    Event& stored = log.add(EventKind::stored, date_of(2026, 7, day), stand);
    stored.target = lot;
    stored.grams = grams;
  };
  store(8, "s1", "young", 500.0);
  store(1, "s1", "old", 300.0);
  store(1, "s2", "other", 700.0);
  const auto left = [&log](const std::string& lot) {
    for (const keep::Lot& each : folded(log).store) {
      if (each.id == lot) return each.grams;
    }
    return 0.0;
  };
  log.add(EventKind::eaten, date_of(2026, 7, 10), "s1").grams = 100.0;
  EXPECT_DOUBLE_EQ(left("old"), 200.0);
  EXPECT_DOUBLE_EQ(left("young"), 500.0);
  log.add(EventKind::eaten, date_of(2026, 7, 11), "s1").grams = 350.0;
  EXPECT_DOUBLE_EQ(left("old"), 0.0);
  EXPECT_DOUBLE_EQ(left("young"), 350.0) << "what the oldest lot does not hold comes from the next";
  log.add(EventKind::eaten, date_of(2026, 7, 12), "s1");
  EXPECT_DOUBLE_EQ(left("young"), 0.0) << "without a weight all of the oldest lot";
  EXPECT_DOUBLE_EQ(left("other"), 700.0);
  log.add(EventKind::eaten, date_of(2026, 7, 13), "s1").grams = 50.0;
  EXPECT_DOUBLE_EQ(left("other"), 700.0) << "of another stand nothing is taken";
}

TEST(StorePlace, GoesByTheNamesThatPeopleUse) {
  using keep::StorePlace;
  const std::vector<std::pair<std::string_view, StorePlace>> told{
      {"", StorePlace::fridge},        {"Refrigerator, top", StorePlace::fridge},
      {"pantry", StorePlace::kitchen}, {"larder", StorePlace::kitchen},
      {"cellar", StorePlace::best},    {"Clamp by the hedge", StorePlace::best},
      {"cold room", StorePlace::best}, {"root cellar: crate 2", StorePlace::best},
      {"best", StorePlace::best}};
  for (const auto& [text, place] : told) EXPECT_EQ(store_place_of(text), place) << text;
  for (const std::string_view text : {"cellarium", "cold", "shelf", "the fridge"})
    EXPECT_FALSE(store_place_of(text)) << text;
}

TEST(Fold, RemembersTheLastWateringOfEachBed) {
  Log log;
  log.add(EventKind::watered, date_of(2026, 5, 9)).target = "gate";
  log.add(EventKind::watered, date_of(2026, 5, 3), "s1");
  EXPECT_EQ(folded(log).watered.at("gate"), date_of(2026, 5, 9));
}

TEST(Fold, ACorrectionTakesItsTargetAwayEvenFromThePast) {
  Log log;
  log.add(EventKind::picked, date_of(2026, 6, 1), "s2").grams = 5000.0;
  log.add(EventKind::corrected, date_of(2026, 6, 20)).target = "e1";
  log.add(EventKind::picked, date_of(2026, 6, 1), "s2").grams = 500.0;
  EXPECT_DOUBLE_EQ(folded(log).picked_g.at("tomato"), 500.0);
  EXPECT_DOUBLE_EQ(folded(log, date_of(2026, 6, 2)).picked_g.at("tomato"), 500.0);
}

TEST(Fold, CorrectingACorrectionBringsTheEntryBack) {
  Log log;
  log.add(EventKind::sown, date_of(2026, 3, 1), "s1");
  log.add(EventKind::corrected, date_of(2026, 3, 2)).target = "e1";
  EXPECT_FALSE(folded(log).stands[0].facts.sown);
  log.add(EventKind::corrected, date_of(2026, 3, 3)).target = "e2";
  EXPECT_EQ(folded(log).stands[0].facts.sown, date_of(2026, 3, 1));
}

TEST(Fold, CorrectionsThatPointAtEachOtherDoNotHang) {
  Log log;
  log.add(EventKind::corrected, date_of(2026, 3, 2)).target = "e2";
  log.add(EventKind::corrected, date_of(2026, 3, 2)).target = "e1";
  EXPECT_EQ(folded(log).stands.size(), 2U);
}

RC_GTEST_PROP(FoldLaws, TheOrderOfTheListDoesNotMatter, (std::uint64_t seed)) {
  base::RandomStream random(seed, "tests.book.fold");
  const GardenDescription garden = testing::random_garden(random);
  std::vector<Event> log = testing::random_log(random, garden, 40);
  const base::Date day = date_of(2025, 6, 1);
  const std::string before = text_of(fold(garden, log, day));
  for (std::size_t i = log.size(); i > 1; --i)
    std::swap(log[i - 1], log[random.below(static_cast<std::uint32_t>(i))]);
  RC_ASSERT(text_of(fold(garden, log, day)) == before);
}

RC_GTEST_PROP(FoldLaws, EntriesAfterTheDayChangeNothingButByCorrection, (std::uint64_t seed)) {
  base::RandomStream random(seed, "tests.book.fold");
  const GardenDescription garden = testing::random_garden(random);
  const std::vector<Event> log = testing::random_log(random, garden, 40);
  const base::Date day = date_of(2025, 3, 1);
  std::vector<Event> known;
  for (const Event& event : log) {
    if (event.date <= day || event.kind == EventKind::corrected) known.push_back(event);
  }
  RC_ASSERT(text_of(fold(garden, known, day)) == text_of(fold(garden, log, day)));
}

RC_GTEST_PROP(FoldLaws, ArrivalOrderDoesNotMatterForEntriesOfDifferentDays, (std::uint64_t seed)) {
  base::RandomStream random(seed, "tests.book.fold");
  const GardenDescription garden = testing::random_garden(random);
  std::vector<Event> log = testing::random_log(random, garden, 25);
  for (std::size_t i = 0; i < log.size(); ++i)
    log[i].date = date_of(2025, 1, 1) + base::Days{static_cast<int>(i)};
  log.erase(
      std::remove_if(log.begin(), log.end(), [](const Event& e) { return e.kind == EventKind::corrected; }),
      log.end());
  const std::string before = text_of(fold(garden, log, date_of(2026, 1, 1)));
  for (std::size_t i = 0; i < log.size(); ++i) log[i].sequence = static_cast<std::int64_t>(log.size() - i);
  RC_ASSERT(text_of(fold(garden, log, date_of(2026, 1, 1))) == before);
}

RC_GTEST_PROP(FoldLaws, FoldingTheCheckedLogInPiecesIsFoldingItAtOnce, (std::uint64_t seed)) {
  base::RandomStream random(seed, "tests.book.fold");
  const GardenDescription garden = testing::random_garden(random);
  const std::vector<Event> log = testing::random_log(random, garden, 30);
  const auto at = static_cast<std::ptrdiff_t>(random.below(31));
  std::vector<Event> pieces(log.begin() + at, log.end());
  pieces.insert(pieces.end(), log.begin(), log.begin() + at);
  pieces.insert(pieces.end(), log.begin(), log.begin() + at);  // the first piece was sent twice
  const auto checked = check_log(garden, pieces);
  RC_ASSERT(checked.has_value());
  RC_ASSERT(checked->size() == log.size());
  const base::Date day = date_of(2026, 1, 1);
  RC_ASSERT(text_of(fold(garden, *checked, day)) == text_of(fold(garden, log, day)));
}

/// Each row: what is wrong, and the field that the problem must name.
struct BadEvent {
  const char* name;
  Event event;
  const char* field;
  base::ProblemCode code;
};

TEST(EventCheck, RefusesWhatCannotBeTrueAndNamesTheField) {
  const base::Date day = date_of(2026, 5, 1);
  using base::ProblemCode;
  const auto event = [day](EventKind kind, const std::string& stand) {
    return Event{.id = "x", .date = day, .kind = kind, .stand = stand};
  };
  std::vector<BadEvent> bad;
  bad.push_back({"empty id", event(EventKind::sown, "s1"), "id", ProblemCode::out_of_range});
  bad.back().event.id = "";
  bad.push_back({"id with a slash", event(EventKind::sown, "s1"), "id", ProblemCode::out_of_range});
  bad.back().event.id = "a/b";
  bad.push_back({"long id", event(EventKind::sown, "s1"), "id", ProblemCode::out_of_range});
  bad.back().event.id = std::string(65, 'a');
  bad.push_back({"no stand", event(EventKind::sown, ""), "stand", ProblemCode::missing_field});
  bad.push_back({"unknown stand", event(EventKind::sown, "s9"), "stand", ProblemCode::not_found});
  bad.push_back({"count missing", event(EventKind::counted, "s1"), "count", ProblemCode::missing_field});
  bad.push_back({"half a plant", event(EventKind::counted, "s1"), "count", ProblemCode::out_of_range});
  bad.back().event.count = 1.5;
  bad.push_back({"negative", event(EventKind::picked, "s1"), "grams", ProblemCode::out_of_range});
  bad.back().event.grams = -1.0;
  bad.push_back({"not a number", event(EventKind::picked, "s1"), "grams", ProblemCode::out_of_range});
  bad.back().event.grams = std::nan("");
  bad.push_back({"a mountain", event(EventKind::picked, "s1"), "grams", ProblemCode::out_of_range});
  bad.back().event.grams = 1e9;
  bad.push_back(
      {"measured of nothing", event(EventKind::measured, "s1"), "grams", ProblemCode::out_of_range});
  bad.back().event.grams = 0.0;
  bad.push_back({"picked nothing", event(EventKind::picked, "s1"), "kind", ProblemCode::missing_field});
  bad.push_back({"watered nowhere", event(EventKind::watered, ""), "kind", ProblemCode::missing_field});
  bad.push_back({"unknown bed", event(EventKind::watered, ""), "target", ProblemCode::not_found});
  bad.back().event.target = "moon";
  bad.push_back({"unknown lot", event(EventKind::eaten, ""), "target", ProblemCode::not_found});
  bad.back().event.target = "crate";
  bad.push_back({"no place of storage", event(EventKind::stored, "s1"), "text", ProblemCode::out_of_range});
  bad.back().event.grams = 10.0;
  bad.back().event.text = "attic";
  bad.push_back({"corrects nothing", event(EventKind::corrected, ""), "target", ProblemCode::not_found});
  bad.back().event.target = "e77";
  bad.push_back({"empty note", event(EventKind::noted, ""), "kind", ProblemCode::missing_field});
  bad.push_back({"not UTF-8", event(EventKind::noted, ""), "text", ProblemCode::syntax});
  bad.back().event.text = "\xff\xfe";
  bad.push_back({"another age", event(EventKind::sown, "s1"), "date", ProblemCode::out_of_range});
  bad.back().event.date = date_of(1066, 10, 14);
  EventContext context = EventContext::of(two_stands());
  context.has_event = [](const std::string&) { return false; };
  for (const BadEvent& row : bad) {
    const auto checked = check_event(row.event, context);
    ASSERT_FALSE(checked) << row.name;
    EXPECT_EQ(checked.error().where.field, row.field) << row.name << ": " << checked.error().what;
    EXPECT_EQ(checked.error().code, row.code) << row.name << ": " << checked.error().what;
  }
}

TEST(Fold, TellsTheFoodOfTheWeek) {
  Log log;
  const auto add = [&log](base::Date date, EventKind kind, double grams) {
    log.add(kind, date, "s1").grams = grams;
  };
  add(date_of(2026, 7, 12), EventKind::picked, 900.0);  // a Sunday
  add(date_of(2026, 7, 13), EventKind::picked, 300.0);
  add(date_of(2026, 7, 13), EventKind::stored, 250.0);
  add(date_of(2026, 7, 14), EventKind::eaten, 400.0);
  add(date_of(2026, 7, 15), EventKind::discarded, 20.0);
  log.add(EventKind::picked, date_of(2026, 7, 15), "s1").count = 2;
  const auto food = folded(log, date_of(2026, 7, 15)).food_of_week;
  ASSERT_EQ(food.size(), 5U);
  EXPECT_EQ(food[0].grams, 300.0);
  EXPECT_EQ(food[1].kind, EventKind::stored);
  EXPECT_EQ(food[2].kind, EventKind::eaten);
  EXPECT_DOUBLE_EQ(food[2].grams, 250.0) << "no more than lay in store";
  EXPECT_EQ(food[3].kind, EventKind::discarded);
  EXPECT_EQ(food[4].plants, 2);
  EXPECT_TRUE(folded(log, date_of(2026, 7, 20)).food_of_week.empty()) << "the next Monday";
}

}  // namespace
}  // namespace sowtide::book
