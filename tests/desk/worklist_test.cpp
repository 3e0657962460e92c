#include "desk/worklist.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "base/parallel.hpp"
#include "desk/judgement.hpp"
#include "desk/pulling.hpp"
#include "desk/season.hpp"
#include "made_up_places.hpp"
#include "stand/bought.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;

/// An invented place with cool springs and warm summers; twelve normals, no record.
book::GardenDescription garden_with(stand::StandPlan plan) {
  book::GardenDescription garden = garden_of_cool_springs("Test");
  garden.beds.push_back({.id = "b", .name = "Test bed", .length_m = 4.0, .width_m = 1.2});
  garden.trays.push_back({.id = "t", .name = "Test tray", .cells = 60, .temp_c = 19.0});
  garden.stands.push_back(std::move(plan));
  return garden;
}

stand::StandPlan beet_in_place() {
  stand::StandPlan plan;
  plan.id = "s1";
  plan.crop = "beet";
  plan.sow = date_of(2026, 4, 20);
  plan.clumps = 40;
  plan.plants_per_clump = 1.0;
  plan.spacing_mm = 140.0;
  plan.bed = "b";
  plan.to_m = 1.0;
  plan.cells = 40;
  plan.seeds_per_cell = 2.0;
  return plan;
}

book::Event event(const char* id, base::Date date, book::EventKind kind) {
  book::Event made;
  made.id = id;
  made.date = date;
  made.kind = kind;
  made.stand = "s1";
  return made;
}

std::vector<Task> tasks_on(const book::GardenDescription& garden, const std::vector<book::Event>& events,
                           base::Date day, int horizon = 7) {
  const auto season = make_season(crop::built_in_library(), garden, events, day);
  EXPECT_TRUE(season) << (season ? "" : base::to_text(season.error()));
  return season ? worklist(*season, horizon) : std::vector<Task>{};
}

const Task* find(const std::vector<Task>& tasks, std::string_view kind) {
  const auto found =
      std::find_if(tasks.begin(), tasks.end(), [kind](const Task& task) { return task.kind == kind; });
  return found == tasks.end() ? nullptr : &*found;
}

bool has(const std::vector<Task>& tasks, std::string_view kind) {
  return find(tasks, kind) != nullptr;
}

TEST(Worklist, NamesASowingOnItsDayWithSeedsPlaceAndReason) {
  const auto tasks = tasks_on(garden_with(beet_in_place()), {}, date_of(2026, 4, 20));
  const Task* sow = find(tasks, "sow");
  ASSERT_NE(sow, nullptr);
  EXPECT_EQ(sow->log_event, "sown");
  EXPECT_EQ(sow->log_count, 80.0);
  EXPECT_NE(sow->place.find("Test bed"), std::string::npos);
  EXPECT_NE(sow->reason.find("first pick"), std::string::npos);
}

TEST(Worklist, SaysEveryPartInPhrasesThatItsEnglishIsMadeOf) {
  const auto garden = garden_with(beet_in_place());
  const auto tasks = tasks_on(garden, {}, date_of(2026, 4, 20));
  ASSERT_EQ(tasks.front().kind, "sow");
  const Task& sow = tasks.front();
  EXPECT_EQ(sow.place, "Test bed, 0.00 m to 1.00 m");
  EXPECT_EQ(sow.amount, "40 places 14 cm apart, 2 seeds each, 13 mm deep");
  EXPECT_EQ(sow.amount, messages_text(sow.amount_said, Units::metric, date_of(2026, 4, 20)));
  EXPECT_EQ(messages_text(sow.amount_said, Units::us, date_of(2026, 4, 20)),
            "40 places 5.5 in apart, 2 seeds each, 0.5 in deep");
  ASSERT_EQ(sow.reason_said.size(), 2U);
  EXPECT_EQ(sow.reason_said.front().key, "half-up");
  EXPECT_EQ(sow.reason_said.back().key, "first-pick");
  EXPECT_TRUE(sow.caution_said.empty());
}

/// Tomato plants to buy for the middle of May.
stand::StandPlan tomatoes_to_buy() {
  stand::StandPlan plan = beet_in_place();
  plan.crop = "tomato";
  plan.method = stand::Method::start_indoors;
  plan.clumps = 6;
  plan.cells = 0;
  plan.spacing_mm = 600.0;
  plan.to_m = 1.8;
  stand::set_out_as_bought(plan, date_of(2026, 5, 25), **crop::built_in_library().find("tomato"));
  return plan;
}

TEST(Worklist, PlantsToBuyAreOneDeedOnTheDayOfSettingOut) {
  const auto garden = garden_with(tomatoes_to_buy());
  for (const base::Date early : {tomatoes_to_buy().sow, date_of(2026, 5, 10)})
    EXPECT_TRUE(tasks_on(garden, {}, early).empty()) << "neither sown nor hardened off here";
  const auto tasks = tasks_on(garden, {}, date_of(2026, 5, 20));
  ASSERT_EQ(tasks.size(), 1U);
  const Task& buy = tasks.front();
  EXPECT_EQ(buy.kind, "set-out");
  EXPECT_EQ(buy.due, date_of(2026, 5, 25));
  EXPECT_EQ(buy.amount, "buy 6 plants and set them out 60 cm apart");
  EXPECT_NE(buy.place.find("Test bed"), std::string::npos);
  EXPECT_EQ(buy.log_event, "set-out");
  EXPECT_EQ(buy.log_text, "bought");
  EXPECT_EQ(buy.log_count, 6.0);
  book::Event done = event("e1", date_of(2026, 5, 23), book::EventKind::set_out);
  done.count = buy.log_count;
  done.text = buy.log_text;
  const auto season = make_season(crop::built_in_library(), garden, {done}, date_of(2026, 5, 24));
  ASSERT_TRUE(season) << base::to_text(season.error());
  const stand::StandFacts& facts = season->state.stands.front().facts;
  EXPECT_EQ(facts.set_out, done.date);
  EXPECT_EQ(facts.counted_plants, 6);
  EXPECT_FALSE(has(worklist(*season, 7), "set-out"));
}

TEST(Worklist, PlantsThatWereNotBoughtAreMissedAsASowingIs) {
  const auto garden = garden_with(tomatoes_to_buy());
  const auto late = tasks_on(garden, {}, date_of(2026, 6, 1));
  ASSERT_EQ(late.size(), 1U);
  EXPECT_EQ(late.front().reason_said.front().key, "first-pick") << "put off to today it still brings some";
  const auto missed = tasks_on(garden, {}, date_of(2026, 6, 25));
  ASSERT_EQ(missed.size(), 1U);
  EXPECT_EQ(missed.front().reason_said.front().key, "missed");
  EXPECT_TRUE(tasks_on(garden, {}, date_of(2026, 8, 1)).empty());
}

// By its outlook alone, cloves of May bring a harvest in all years; by the windows they have had no cold.
TEST(Worklist, GarlicThatDidNotShowIsNotPlantedAgainInMay) {
  stand::StandPlan plan = beet_in_place();
  plan.crop = "garlic";
  plan.sow = date_of(2026, 3, 10);
  const auto tasks = tasks_on(garden_with(plan), {event("e1", date_of(2026, 3, 10), book::EventKind::sown)},
                              date_of(2026, 6, 10));
  const auto look = std::find_if(tasks.begin(), tasks.end(),
                                 [](const Task& task) { return task.kind == "check-emergence"; });
  ASSERT_NE(look, tasks.end());
  EXPECT_EQ(look->amount_said.front().key, "look-or-leave");
  EXPECT_EQ(look->again_count, 0.0);
  ASSERT_EQ(look->reason_said.back().key, "next-days-to-plant-again") << look->reason;
  const auto next = std::get<base::Date>(look->reason_said.back().values.front().second);
  EXPECT_GE(next, date_of(2026, 8, 1));
}

stand::StandPlan tubers_in_place() {
  stand::StandPlan plan = beet_in_place();
  plan.crop = "potato";
  plan.clumps = 12;
  plan.cells = 12;
  plan.spacing_mm = 300.0;
  plan.to_m = 1.5;
  return plan;
}

// A plan made before pieces were told from seed says two to a place.
TEST(Worklist, TubersArePlantedOneToAPlace) {
  const auto tasks = tasks_on(garden_with(tubers_in_place()), {}, date_of(2026, 4, 20));
  ASSERT_EQ(tasks.front().kind, "sow");
  EXPECT_EQ(tasks.front().amount, "12 places 30 cm apart, one piece each, 100 mm deep");
  EXPECT_EQ(tasks.front().log_count, 12.0);
}

TEST(Worklist, ASowingFromDoubtfulSeedSaysSo) {
  auto garden = garden_with(beet_in_place());
  garden.packets.push_back({.id = "p1", .crop = "beet", .packed_year = 2012, .seeds = 500.0});
  EXPECT_EQ(tasks_on(garden, {}, date_of(2026, 4, 20)).front().reason_said.size(), 2U)
      << "what is to be renewed is sown only where the plan names it";
  garden.stands[0].packet = "p1";
  const auto doubtful = tasks_on(garden, {}, date_of(2026, 4, 20));
  ASSERT_EQ(doubtful.front().kind, "sow");
  EXPECT_EQ(doubtful.front().reason_said.at(0).key, "packet-comes-up");
  EXPECT_EQ(doubtful.front().reason_said.at(1).key, "renew");
  EXPECT_NE(doubtful.front().reason.find("of packet p1, "), std::string::npos);
  garden.packets[0].packed_year = 2026;
  EXPECT_EQ(tasks_on(garden, {}, date_of(2026, 4, 20)).front().reason_said.size(), 2U);
}

TEST(Worklist, ALotToEatIsNamedByWhereItLiesAndIsTheTargetOfItsEntry) {
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 20), book::EventKind::sown),
                                  event("e2", date_of(2026, 7, 20), book::EventKind::stored)};
  events[1].grams = 900.0;
  events[1].text = "kitchen";
  const auto tasks = tasks_on(garden_with(beet_in_place()), events, date_of(2026, 7, 23), 60);
  const Task* eat = find(tasks, "eat");
  ASSERT_NE(eat, nullptr);
  EXPECT_EQ(eat->target, "e2");
  EXPECT_EQ(eat->place, "in the kitchen, at room temperature");
  EXPECT_EQ(eat->amount, "900 g: look it over, eat what is good and discard the rest") << "three days in a warm kitchen";
}

/// Leeks set out in June that the plan leaves in the ground and pulls over twelve weeks from November on.
book::GardenDescription garden_of_waiting_leeks() {
  stand::StandPlan leeks = beet_in_place();
  leeks.crop = "leek";
  leeks.method = stand::Method::start_indoors;
  leeks.sow = date_of(2026, 3, 10);
  leeks.tray = "t";
  leeks.pick_from = date_of(2026, 11, 2);
  leeks.pick_weeks = 12;
  book::GardenDescription garden = garden_with(leeks);
  plan::Want want;
  want.id = "leeks";
  want.crop = "leek";
  want.amount_per_week = 400.0;
  garden.wants = {want};
  return garden;
}

std::vector<std::string> reason_keys(const stand::Judgement& judgement) {
  std::vector<std::string> keys;
  for (const base::Message& reason : judgement.reasons) keys.push_back(reason.key);
  return keys;
}

// From summer to spring over a stand that waits in the ground, work and judgement say the same.
TEST(Worklist, AndJudgementAgreeOnWhatWaitsInTheGround) {
  const book::GardenDescription garden = garden_of_waiting_leeks();
  const std::vector<book::Event> events{event("e1", date_of(2026, 3, 10), book::EventKind::sown),
                                        event("e2", date_of(2026, 6, 5), book::EventKind::set_out)};
  int times_waited = 0, times_pulled = 0, times_over = 0;
  for (base::Date day = date_of(2026, 7, 6); day < date_of(2027, 5, 1); day += base::Days{14}) {
    const auto season = make_season(crop::built_in_library(), garden, events, day);
    ASSERT_TRUE(season) << base::to_text(season.error());
    const auto tasks = worklist(*season, 7);
    const auto judged = judge_stands(*season, "s1", day);
    ASSERT_TRUE(judged) << base::to_text(judged.error());
    const stand::Judgement& judgement = judged->front().judgement;
    const auto keys = reason_keys(judgement);
    const auto pick = std::find_if(tasks.begin(), tasks.end(), [&](const Task& task) {
      return task.kind == "pick" && task.due <= day;
    });
    const std::string at = base::to_iso(day) + ": " + judgement.advice;
    if (std::count(keys.begin(), keys.end(), "plan-pulls") > 0) {
      ++times_waited;
      EXPECT_EQ(pick, tasks.end()) << at;
      EXPECT_TRUE(judgement.advice == "wait" || judgement.advice == "nothing to judge yet") << at;
      EXPECT_LT(day, date_of(2026, 11, 9)) << at;
    } else if (std::count(keys.begin(), keys.end(), "plan-pulls-now") > 0) {
      ++times_pulled;
      ASSERT_NE(pick, tasks.end()) << at;
      EXPECT_EQ(judgement.advice, "pull the largest") << at;
      const auto& said = *std::find_if(judgement.reasons.begin(), judgement.reasons.end(),
                                       [](const auto& reason) { return reason.key == "plan-pulls-now"; });
      EXPECT_EQ(said.values.front().second, base::Message::Value(pick->log_grams)) << at;
      EXPECT_GE(day, date_of(2026, 11, 2)) << at;
    } else {
      ++times_over;
      const bool takes = judgement.advice == "pull" || judgement.advice == "pull the largest";
      EXPECT_EQ(pick != tasks.end(), takes) << at;
    }
  }
  EXPECT_GE(times_waited, 6);
  EXPECT_GE(times_pulled, 5);
  EXPECT_GE(times_over, 4);
}

// Three cabbages over the weeks to their end: a head now and then, not some grams a week.
TEST(Worklist, AsksForWholeHeadsOfAFewThatWait) {
  stand::StandPlan cabbages = beet_in_place();
  cabbages.crop = "cabbage";
  cabbages.method = stand::Method::start_indoors;
  cabbages.sow = date_of(2026, 3, 10);
  cabbages.tray = "t";
  cabbages.clumps = cabbages.cells = 3;
  cabbages.plants_per_clump = 1.0;
  cabbages.spacing_mm = 450.0;
  cabbages.pick_weeks = 26;
  const std::vector<book::Event> events{event("e1", cabbages.sow, book::EventKind::sown),
                                        event("e2", date_of(2026, 5, 5), book::EventKind::set_out)};
  const base::Date day = date_of(2026, 8, 10);
  const auto season = make_season(crop::built_in_library(), garden_with(cabbages), events, day);
  ASSERT_TRUE(season) << base::to_text(season.error());
  const auto tasks = worklist(*season, 7);
  const Task* pick = find(tasks, "pick");
  ASSERT_NE(pick, nullptr);
  EXPECT_EQ(pick->amount_said.front().key, "pull-one-of-few");
  EXPECT_EQ(pick->log_count, 1.0);
  EXPECT_GT(pick->log_grams, 500.0) << "a head, not a slice";
  const auto judged = judge_stands(*season, "s1", day);
  ASSERT_TRUE(judged);
  const auto keys = reason_keys(judged->front().judgement);
  EXPECT_EQ(std::count(keys.begin(), keys.end(), "plan-pulls-one"), 1);
  EXPECT_EQ(judged->front().judgement.advice, "pull the largest");
}

TEST(Message, SaysHowAStandIsPulled) {
  const base::Date today = date_of(2026, 8, 1);
  EXPECT_EQ(message_text({"plan-pulls", {{"pull_weeks", 12.0}, {"pull_from", date_of(2026, 11, 2)}}},
                         Units::metric, today),
            "The plan leaves it standing and picks it over 12 weeks from 2 Nov.");
  EXPECT_EQ(message_text({"stand-changed",
                          {{"crop_name", std::string("Leek")},
                           {"stand", std::string("s1")},
                           {"pick_weeks", 1.0},
                           {"pick_weeks_before", 0.0}}},
                         Units::metric, today),
            "Leek s1: picked over 1 week once ready instead of as each is ready");
}

TEST(Worklist, AsksToThinWhereMoreCameUpThanTheCountThatItProposed) {
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 20), book::EventKind::sown)};
  const book::GardenDescription garden = garden_with(beet_in_place());
  const auto looked = tasks_on(garden, events, date_of(2026, 6, 1));
  const Task* look = find(looked, "check-emergence");
  ASSERT_NE(look, nullptr);
  events.push_back(event("e2", date_of(2026, 6, 1), book::EventKind::counted));
  events.back().count = look->log_count;
  const auto tasks = tasks_on(garden, events, date_of(2026, 6, 20));
  const Task* thin = find(tasks, "thin");
  ASSERT_NE(thin, nullptr);
  EXPECT_EQ(thin->log_count, look->log_count - garden.stands[0].clumps * garden.stands[0].plants_per_clump);
}

TEST(Message, AnUnknownKeyOrALackingValueIsABrokenInvariant) {
  const base::Date today = date_of(2026, 4, 20);
  EXPECT_THROW((void)message_text({"no-such-phrase", {}}, Units::metric, today), std::logic_error);
  EXPECT_THROW((void)message_text({"half-up", {{"from", today}}}, Units::metric, today), std::logic_error);
  EXPECT_EQ(message_text({"half-up", {{"from", today}, {"to", today}}}, Units::metric, today),
            "half of it shows 20 Apr");
}

TEST(Worklist, ASowingFarAheadIsNotTodaysWork) {
  EXPECT_TRUE(tasks_on(garden_with(beet_in_place()), {}, date_of(2026, 3, 1)).empty());
}

// Beet shows within 5 to 15 days in warm soil and about 20 at 8 °C (Harrington and Minges 1954: 17 d at 10
// °C); six weeks without a seedling is late in any of these years.
TEST(Worklist, WhatWasThinnedIsUpAndNotThinnedAgain) {
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 20), book::EventKind::sown),
                                  event("e2", date_of(2026, 5, 20), book::EventKind::thinned)};
  events[1].count = 40.0;
  const auto tasks = tasks_on(garden_with(beet_in_place()), events, date_of(2026, 6, 1));
  EXPECT_FALSE(has(tasks, "check-emergence"));
  EXPECT_FALSE(has(tasks, "thin"));
}

constexpr int kSowingDay = 20;
const base::Date kLate = date_of(2026, 6, 1);

TEST(Worklist, AsksWhetherASowingIsUpBeforeItSpeaksOfSowingAgain) {
  const std::vector<book::Event> sown{event("e1", date_of(2026, 4, kSowingDay), book::EventKind::sown)};
  EXPECT_EQ(find(tasks_on(garden_with(beet_in_place()), sown, date_of(2026, 4, 22)), "check-emergence"),
            nullptr);
  const auto tasks = tasks_on(garden_with(beet_in_place()), sown, kLate);
  EXPECT_FALSE(has(tasks, "re-sow")) << "nobody has looked";
  const Task* look = find(tasks, "check-emergence");
  ASSERT_NE(look, nullptr);
  EXPECT_EQ(look->log_event, "counted");
  // Two seeds in each of 40 places, most of them clusters: more come up than are to stand, and are thinned.
  EXPECT_GT(look->log_count, 80.0);
  EXPECT_LT(look->log_count, 160.0);
  EXPECT_EQ(look->again_count, 80.0) << "40 places of 2 seeds, should nothing show";
  EXPECT_EQ(
      std::count_if(tasks.begin(), tasks.end(),
                    [](const Task& task) { return task.log_event == "counted" || task.kind == "re-sow"; }),
      1)
      << "one card asks";
}

TEST(Worklist, ASowingThatWasSeenToHaveFailedIsSownAgain) {
  std::vector<book::Event> log{event("e1", date_of(2026, 4, kSowingDay), book::EventKind::sown),
                               event("e2", kLate, book::EventKind::counted)};
  log[1].count = 0.0;
  const auto tasks = tasks_on(garden_with(beet_in_place()), log, kLate);
  EXPECT_FALSE(has(tasks, "check-emergence"));
  const Task* again = find(tasks, "re-sow");
  ASSERT_NE(again, nullptr);
  EXPECT_EQ(again->log_event, "sown");
  EXPECT_EQ(again->log_count, 80.0);
  log.push_back(event("e3", kLate, book::EventKind::sown));
  log.back().count = 80.0;
  const auto after = tasks_on(garden_with(beet_in_place()), log, kLate);
  EXPECT_FALSE(has(after, "re-sow")) << "logged, it is done";
  EXPECT_FALSE(has(after, "check-emergence")) << "on the day of its sowing there is nothing to look for";
  EXPECT_TRUE(has(tasks_on(garden_with(beet_in_place()), log, date_of(2026, 7, 10)), "check-emergence"))
      << "the second sowing is awaited from its own day";
}

TEST(Worklist, ACountOfNoneBeforeItsTimeSaysNothingYet) {
  std::vector<book::Event> log{event("e1", date_of(2026, 4, kSowingDay), book::EventKind::sown),
                               event("e2", date_of(2026, 4, 24), book::EventKind::counted)};
  log[1].count = 0.0;
  const auto tasks = tasks_on(garden_with(beet_in_place()), log, kLate);
  EXPECT_FALSE(has(tasks, "re-sow"));
  EXPECT_TRUE(has(tasks, "check-emergence"));
}

TEST(Worklist, AFailedSowingTooLateToRepeatIsCleared) {
  const base::Date late_year = date_of(2026, 11, 20);
  auto plan = beet_in_place();
  plan.sow = date_of(2026, 9, 1);
  std::vector<book::Event> log{event("e1", plan.sow, book::EventKind::sown),
                               event("e2", late_year, book::EventKind::counted)};
  log[1].count = 0.0;
  const auto tasks = tasks_on(garden_with(plan), log, late_year);
  EXPECT_FALSE(has(tasks, "re-sow"));
  const Task* clear = find(tasks, "finish");
  ASSERT_NE(clear, nullptr);
  EXPECT_EQ(clear->log_event, "discarded");
  EXPECT_NE(clear->reason.find("too late"), std::string::npos) << clear->reason;
}

TEST(Worklist, ThinningComesAfterEmergenceWhereSeveralStand) {
  const std::vector<book::Event> up{event("e1", date_of(2026, 4, 20), book::EventKind::sown),
                                    event("e2", date_of(2026, 5, 3), book::EventKind::counted)};
  auto counted = up;
  counted[1].count = 95.0;
  EXPECT_TRUE(has(tasks_on(garden_with(beet_in_place()), counted, date_of(2026, 5, 20)), "thin"));
  counted[1].count = 40.0;
  EXPECT_FALSE(has(tasks_on(garden_with(beet_in_place()), counted, date_of(2026, 5, 20)), "thin"));
}

TEST(Worklist, ShootsOfPlantingPiecesAreNotThinned) {
  std::vector<book::Event> log{event("e1", date_of(2026, 4, 20), book::EventKind::sown),
                               event("e2", date_of(2026, 5, 20), book::EventKind::counted)};
  log[0].count = 3.0;
  log[1].count = 9.0;
  for (base::Date day = date_of(2026, 5, 20); day < date_of(2026, 6, 20); day += base::Days{5})
    EXPECT_FALSE(has(tasks_on(garden_with(tubers_in_place()), log, day), "thin")) << base::to_iso(day);
}

TEST(Worklist, PiecesInATrayAreSetOneToACellAndNotAsDeepAsInTheGround) {
  stand::StandPlan plan = tubers_in_place();
  plan.crop = "sweet-potato";
  plan.method = stand::Method::start_indoors;
  plan.tray = "t";
  plan.cells = 3;
  const auto tasks = tasks_on(garden_with(plan), {}, plan.sow);
  ASSERT_EQ(tasks.front().kind, "sow");
  EXPECT_EQ(tasks.front().amount, "3 cells, one rooted slip or piece each");
}

TEST(Worklist, RipeRootsAreToBePickedWithAnAmount) {
  auto events = std::vector<book::Event>{event("e1", date_of(2026, 4, 20), book::EventKind::sown),
                                         event("e2", date_of(2026, 5, 3), book::EventKind::counted)};
  events[1].count = 40.0;
  // Beet is ready 50 to 75 days after sowing, "but it depends on conditions" (common practice); in this cool
  // spring the middle of the outlook's own picking time is asked for.
  const auto season =
      make_season(crop::built_in_library(), garden_with(beet_in_place()), events, date_of(2026, 6, 1));
  ASSERT_TRUE(season);
  const stand::EventOutlook& first = season->outlooks.front().events.at(1);
  ASSERT_EQ(first.name, "first-pick");
  EXPECT_GE((first.p50 - date_of(2026, 4, 20)).count(), 50);
  EXPECT_LE((first.p50 - date_of(2026, 4, 20)).count(), 85);
  const base::Date ready = first.p50 + base::Days{4};
  const auto tasks = tasks_on(garden_with(beet_in_place()), events, ready, 28);
  const Task* pick = find(tasks, "pick");
  ASSERT_NE(pick, nullptr);
  EXPECT_NE(pick->reason.find("chance"), std::string::npos);
  EXPECT_GT(pick->log_grams, 0.0) << "the stepper starts at what is likely";
  EXPECT_EQ(pick->amount_said.front().key, "may-wait") << "nobody lacks them, and they still grow";
  EXPECT_GT(pick->due, ready) << "its best day is the one that the judgement waits for";

  // With a kitchen that lacks some, the same day's answer is so many of the largest, as the stand's own
  // judgement has it.
  auto wanting = garden_with(beet_in_place());
  plan::Want want;
  want.id = "w";
  want.crop = "beet";
  want.amount_per_week = 200.0;
  want.unit = plan::WantUnit::grams;
  wanting.wants = {want};
  const auto asked = make_season(crop::built_in_library(), wanting, events, ready);
  ASSERT_TRUE(asked);
  const auto judged = judge_stands(*asked, "s1", ready);
  ASSERT_TRUE(judged);
  ASSERT_EQ(judged->front().judgement.advice, "pull the largest");
  const auto with_kitchen = worklist(*asked);
  const Task* some = find(with_kitchen, "pick");
  ASSERT_NE(some, nullptr);
  EXPECT_EQ(some->log_count, judged->front().judgement.plants_for_kitchen);
  EXPECT_GT(some->urgency, pick->urgency);
  EXPECT_FALSE(has(with_kitchen, "check-emergence"));
}

const Task* picking_of_today(const std::vector<Task>& tasks, std::string_view stand, base::Date today) {
  const auto found = std::find_if(tasks.begin(), tasks.end(), [&](const Task& task) {
    return task.kind == "pick" && task.stand == stand && task.due <= today;
  });
  return found == tasks.end() ? nullptr : &*found;
}

/// Beet, lettuce, beans, potatoes and carrots beside each other, some wanted by the kitchen.
book::GardenDescription mixed_garden() {
  book::GardenDescription garden = garden_of_cool_springs("Mixed");
  garden.beds.push_back({.id = "b", .name = "Test bed", .length_m = 12.0, .width_m = 1.2});
  const auto add = [&](const char* id, const char* crop, base::Date sow, double spacing_mm) {
    stand::StandPlan plan = beet_in_place();
    plan.id = id;
    plan.crop = crop;
    plan.sow = sow;
    plan.spacing_mm = spacing_mm;
    plan.from_m = 2.0 * static_cast<double>(garden.stands.size());
    plan.to_m = plan.from_m + 2.0;
    garden.stands.push_back(plan);
  };
  add("beet", "beet", date_of(2026, 4, 20), 140.0);
  add("lettuce", "lettuce", date_of(2026, 4, 20), 280.0);
  add("beans", "bush-bean", date_of(2026, 5, 20), 200.0);
  add("potato", "potato", date_of(2026, 4, 10), 330.0);
  add("carrot", "carrot", date_of(2026, 5, 10), 110.0);
  for (const char* crop : {"lettuce", "bush-bean", "carrot"}) {
    plan::Want want;
    want.id = want.crop = crop;
    want.amount_per_week = 400.0;
    garden.wants.push_back(want);
  }
  return garden;
}

// What the judgement takes is to be picked today and nothing else is; and no stand gets two orders that
// cannot both be done.
TEST(Worklist, AsksForThePickingThatTheJudgementAdvisesAndForNoOther) {
  const book::GardenDescription garden = mixed_garden();
  std::vector<book::Event> events;
  for (const stand::StandPlan& plan : garden.stands) {
    events.push_back(
        {.id = plan.id + "-1", .date = plan.sow, .kind = book::EventKind::sown, .stand = plan.id});
    events.push_back({.id = plan.id + "-2",
                      .date = plan.sow + base::Days{25},
                      .kind = book::EventKind::counted,
                      .stand = plan.id});
    events.back().count = 2.0 * plan.clumps;
  }
  int taken = 0, taken_unready = 0, waited_ready = 0;
  for (base::Date day = date_of(2026, 6, 8); day < date_of(2026, 12, 20); day += base::Days{6}) {
    const auto season = make_season(crop::built_in_library(), garden, events, day);
    ASSERT_TRUE(season) << base::to_text(season.error());
    const auto tasks = worklist(*season);
    const auto judged = judge_stands(*season, {}, day);
    ASSERT_TRUE(judged) << base::to_text(judged.error());
    for (const JudgedStand& each : *judged) {
      const std::string at = base::to_iso(day) + " " + each.plan.id + ": " + each.judgement.advice;
      const bool takes = picking_of(each.judgement) == Picking::now;
      EXPECT_EQ(picking_of_today(tasks, each.plan.id, day) != nullptr, takes) << at;
      const auto& outlook = *std::find_if(season->outlooks.begin(), season->outlooks.end(),
                                          [&](const stand::Outlook& o) { return o.stand == each.plan.id; });
      taken += takes ? 1 : 0;
      taken_unready += takes && !is_ready(outlook, day) ? 1 : 0;
      waited_ready += !takes && is_ready(outlook, day) ? 1 : 0;
      const auto asks = [&](std::string_view kind) {
        return std::any_of(tasks.begin(), tasks.end(),
                           [&](const Task& task) { return task.stand == each.plan.id && task.kind == kind; });
      };
      EXPECT_FALSE(asks("finish") && (takes || asks("protect") || asks("thin"))) << at;
      EXPECT_FALSE(each.judgement.advice == "pull" && (asks("thin") || asks("protect"))) << at;
    }
  }
  EXPECT_GT(taken, 20);
  EXPECT_GT(taken_unready, 0) << "no day of the season was one on which the two could differ";
  EXPECT_GT(waited_ready, 0);
}

/// Hardy crops that the plan leaves in the ground from August on, where November freezes hard.
std::vector<Task> before_the_frost(const char* crop, bool cool_store, base::Date day) {
  stand::StandPlan plan = beet_in_place();
  plan.crop = crop;
  plan.sow = date_of(2026, 5, 20);
  plan.pick_weeks = 30;
  book::GardenDescription garden = garden_with(plan);
  garden.cool_store = cool_store;
  for (const std::size_t month : {10U, 11U}) garden.normals->tmin_c[month] -= 14.0;
  std::vector<book::Event> events{event("e1", plan.sow, book::EventKind::sown),
                                  event("e2", date_of(2026, 6, 15), book::EventKind::counted)};
  events[1].count = 40;
  return tasks_on(garden, events, day);
}

TEST(Worklist, WhatTheFrostWouldEndIsLiftedAndStoredWhereItKeeps) {
  const base::Date day = date_of(2026, 11, 20);
  const auto stored = before_the_frost("carrot", true, day);
  const Task* lift = find(stored, "pick");
  ASSERT_NE(lift, nullptr);
  ASSERT_EQ(lift->amount_said.front().key, "lift-and-store") << lift->amount;
  EXPECT_EQ(base::Message::Value(lift->log_store), lift->amount_said.front().values.at(1).second)
      << "where it says";
  EXPECT_NE(lift->amount.find("in the cool store"), std::string::npos) << lift->amount;
  EXPECT_GT(lift->log_grams, 1000.0) << "all of it, not a week's share";
  EXPECT_EQ(std::get<base::Date>(lift->amount_said.front().values.back().second), day + base::Days{240})
      << "crops/carrot.toml";
  EXPECT_EQ(lift->reason_said.front().key, "frost-by-then");
  EXPECT_NE(lift->handling.find("Cut the tops off"), std::string::npos);
  EXPECT_FALSE(has(stored, "protect")) << "one order";
  EXPECT_NE(find(before_the_frost("carrot", false, day), "pick")->amount.find("in the refrigerator"),
            std::string::npos);
}

TEST(Worklist, LeafThatTheFrostWouldEndIsFrozenOrCovered) {
  const auto tasks = before_the_frost("chard", true, date_of(2026, 11, 4));
  const Task* take = find(tasks, "pick");
  ASSERT_NE(take, nullptr);
  EXPECT_EQ(take->amount_said.front().key, "take-and-freeze") << take->amount;
  EXPECT_FALSE(has(tasks, "protect"));
  EXPECT_TRUE(take->handling.empty());
}

TEST(Worklist, WhatIsSpoiltIsThrownAwayAndComesLast) {
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 20), book::EventKind::sown),
                                  event("e2", date_of(2026, 7, 20), book::EventKind::stored)};
  events[1].grams = 900.0;
  events[1].text = "kitchen";
  const auto tasks = tasks_on(garden_with(beet_in_place()), events, date_of(2026, 9, 25));
  EXPECT_FALSE(has(tasks, "eat"));
  const Task* away = find(tasks, "throw-away");
  ASSERT_NE(away, nullptr);
  EXPECT_EQ(away, &tasks.back());
  EXPECT_EQ(away->log_event, "discarded");
  EXPECT_EQ(away->target, "e2");
  EXPECT_DOUBLE_EQ(away->log_grams, 900.0);
  EXPECT_EQ(away->amount_said.front().key, "weight");
  EXPECT_EQ(away->reason_said.front().key, "kept-until");
  EXPECT_NE(away->reason.find("which is past"), std::string::npos);
}

stand::StandPlan lettuce_in_tray() {
  stand::StandPlan plan = beet_in_place();
  plan.crop = "lettuce";
  plan.method = stand::Method::start_indoors;
  plan.tray = "t";
  plan.sow = date_of(2026, 4, 5);
  plan.clumps = plan.cells = 19;
  plan.seeds_per_cell = 1.0;
  plan.spacing_mm = 280.0;
  return plan;
}

// In a warm tray lettuce is up within days.
TEST(Worklist, OfASowingOfWhichNothingCameOneThingIsAsked) {
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 5), book::EventKind::sown),
                                  event("e2", date_of(2026, 4, 20), book::EventKind::counted)};
  events[1].count = 0;
  const auto season =
      make_season(crop::built_in_library(), garden_with(lettuce_in_tray()), events, date_of(2026, 4, 21));
  ASSERT_TRUE(season) << base::to_text(season.error());
  const auto tasks = worklist(*season, 7);
  ASSERT_EQ(tasks.size(), 1U);
  EXPECT_EQ(tasks.front().kind, "re-sow");
  EXPECT_EQ(season->outlooks.front().success, 0.0);
  for (const stand::EventOutlook& each : season->outlooks.front().events)
    EXPECT_EQ(each.probability, 0.0) << each.name;
}

TEST(Worklist, OfWhatSlugsHaveEatenItIsAskedOnceWhetherToBeginAgain) {
  stand::StandPlan plan = lettuce_in_tray();
  std::vector<book::Event> events{event("e1", plan.sow, book::EventKind::sown),
                                  event("e2", date_of(2026, 5, 8), book::EventKind::set_out),
                                  event("e3", date_of(2026, 5, 12), book::EventKind::counted)};
  events[2].count = 0;
  const auto tasks = tasks_on(garden_with(plan), events, date_of(2026, 5, 13));
  ASSERT_EQ(tasks.size(), 1U);
  EXPECT_EQ(tasks.front().kind, "re-sow");
  EXPECT_EQ(tasks.front().reason_said.front().key, "none-left");
  plan.tray.clear();
  stand::set_out_as_bought(plan, date_of(2026, 5, 8), **crop::built_in_library().find("lettuce"));
  events.erase(events.begin());
  const auto bought = tasks_on(garden_with(plan), events, date_of(2026, 5, 13));
  ASSERT_EQ(bought.size(), 1U);
  EXPECT_EQ(bought.front().kind, "set-out");
  EXPECT_EQ(bought.front().log_text, "bought");
  EXPECT_TRUE(tasks_on(garden_with(plan), events, date_of(2026, 7, 1)).empty()) << "nobody wanted to";
  events.push_back(event("e4", date_of(2026, 5, 13), book::EventKind::discarded));
  EXPECT_TRUE(tasks_on(garden_with(plan), events, date_of(2026, 5, 14)).empty());
  EXPECT_EQ(tasks_on(garden_with(lettuce_in_tray()), events, date_of(2026, 11, 20)).size(), 0U);
}

TEST(Worklist, SettingOutThatWasLeftUndoneIsOverdue) {
  const book::GardenDescription garden = garden_with(lettuce_in_tray());
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 5), book::EventKind::sown),
                                  event("e2", date_of(2026, 4, 12), book::EventKind::counted)};
  events[1].count = 19;
  const auto set_out_on = [&](base::Date today) {
    const auto tasks = tasks_on(garden, events, today, 30);
    const Task* out = find(tasks, "set-out");
    return out == nullptr ? std::pair(today, today) : std::pair(out->due, out->latest);
  };
  const auto in_time = set_out_on(date_of(2026, 4, 20));
  const base::Date late = in_time.second + base::Days{5};
  EXPECT_LT(set_out_on(late).second, late) << "it went along with today, day after day";
  EXPECT_EQ(set_out_on(late), set_out_on(late + base::Days{3})) << "the day it was due stays that day";
}

TEST(Worklist, WhatIsSetOutOntoAPlaceThatIsTakenSaysByWhat) {
  book::GardenDescription garden = garden_with(lettuce_in_tray());
  stand::StandPlan carrots = beet_in_place();
  carrots.id = "s2";
  carrots.crop = "carrot";
  garden.stands.push_back(carrots);
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 5), book::EventKind::sown),
                                  event("e2", date_of(2026, 4, 12), book::EventKind::counted),
                                  event("e3", carrots.sow, book::EventKind::sown)};
  events[1].count = 19;
  const auto reason = [&] {
    const auto tasks = tasks_on(garden, events, date_of(2026, 5, 4), 14);
    const Task* out = find(tasks, "set-out");
    return out == nullptr ? std::string() : out->reason_said.front().key;
  };
  EXPECT_EQ(reason(), "fit-to-set-out") << "the carrots are only planned";
  events[2].stand = "s2";
  EXPECT_EQ(reason(), "place-taken");
}

// Its weights add up to what they may: without it the stand would go on by the log as long as the model has
// years in which something is left.
TEST(Worklist, TheEntryOfAPickingOfAllOfItSaysSoAndCountsThePlants) {
  stand::StandPlan plan = beet_in_place();
  plan.crop = "lettuce";
  plan.clumps = plan.cells = 19;
  plan.spacing_mm = 280.0;
  std::vector<book::Event> events{event("e1", plan.sow, book::EventKind::sown),
                                  event("e2", date_of(2026, 5, 20), book::EventKind::counted),
                                  event("e3", date_of(2026, 6, 20), book::EventKind::picked)};
  events[1].count = 19;
  events[2].count = 5;
  int times = 0;
  for (base::Date day = date_of(2026, 6, 22); day < date_of(2026, 8, 15); day += base::Days{2}) {
    const auto tasks = tasks_on(garden_with(plan), events, day);
    const Task* pick = find(tasks, "pick");
    if (pick == nullptr || pick->amount_said.front().key != "pull-all") continue;
    ++times;
    EXPECT_EQ(pick->log_text, "all");
    EXPECT_EQ(pick->log_count, 14.0);
    std::vector<book::Event> done = events;
    done.push_back(event("e4", day, book::EventKind::picked));
    done.back().grams = 0.5 * pick->log_grams;
    done.back().text = pick->log_text;
    EXPECT_TRUE(tasks_on(garden_with(plan), done, day + base::Days{7}).empty()) << base::to_iso(day);
  }
  EXPECT_GT(times, 0);
}

TEST(Worklist, WhatIsToLeaveTheBedTodayIsNotToBeCovered) {
  stand::StandPlan plan = beet_in_place();
  plan.crop = "potato";
  plan.sow = date_of(2026, 4, 10);
  plan.clumps = plan.cells = 12;
  plan.seeds_per_cell = 1.0;
  plan.spacing_mm = 350.0;
  plan.to_m = 1.5;
  book::GardenDescription garden = garden_with(plan);
  for (const std::size_t month : {8U, 9U, 10U}) garden.normals->tmin_c[month] -= 8.0;
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 10), book::EventKind::sown),
                                  event("e2", date_of(2026, 5, 15), book::EventKind::counted)};
  events[1].count = 12;
  int lifted_before_frost = 0;
  for (base::Date day = date_of(2026, 8, 25); day < date_of(2026, 11, 1); day += base::Days{3}) {
    const auto tasks = tasks_on(garden, events, day);
    const Task* pick = find(tasks, "pick");
    const bool all =
        pick != nullptr && !pick->amount_said.empty() &&
        (pick->amount_said.front().key == "pull-all" || pick->amount_said.front().key == "lift-and-store");
    if (!all && !has(tasks, "finish")) continue;
    EXPECT_FALSE(has(tasks, "protect")) << base::to_iso(day);
    if (all && pick->reason.find("kills half") != std::string::npos) ++lifted_before_frost;
  }
  EXPECT_GT(lifted_before_frost, 0);
}

TEST(Worklist, GrownPlantsAreCoveredAgainstTheColdThatKillsGrownPlants) {
  stand::StandPlan plan = beet_in_place();
  plan.crop = "kale";
  plan.clumps = plan.cells = 10;
  plan.spacing_mm = 360.0;
  plan.to_m = 1.2;
  const auto colder = [&](std::size_t month) {
    book::GardenDescription garden = garden_with(plan);
    garden.normals->tmin_c[month] -= 12.0;
    return garden;
  };
  std::vector<book::Event> sown{event("e1", plan.sow, book::EventKind::sown),
                                event("e2", date_of(2026, 5, 10), book::EventKind::counted)};
  sown[1].count = 10;
  const auto cold_said = [](const std::vector<Task>& tasks, std::string_view kind) {
    const Task* task = find(tasks, kind);
    return task == nullptr ? std::string() : task->reason;
  };
  const auto in_may = tasks_on(colder(4), sown, date_of(2026, 5, 12));
  EXPECT_NE(cold_said(in_may, "protect").find("-6 °C"), std::string::npos) << "seedlings";
  // What is all picked before such a night need not be covered; the night is the reason then.
  const auto in_december = tasks_on(colder(11), sown, date_of(2026, 12, 12));
  EXPECT_NE(cold_said(in_december, "pick").find("-12 °C"), std::string::npos) << "never picked, but grown";
  EXPECT_FALSE(has(in_december, "protect"));
}

TEST(Worklist, AnOccasionalPickingIsToldByTheYearsThatBringSomething) {
  // Courgettes are picked over weeks; after the peak most weeks of most years bring nothing, some bring much.
  // Whatever the day, a picking is never told as "about 0 g", and the proposal is the middle of the years
  // that have some.
  auto plan = beet_in_place();
  plan.crop = "courgette";
  plan.clumps = 1;
  plan.sow = date_of(2026, 5, 20);
  const std::vector<book::Event> sown{event("e1", plan.sow, book::EventKind::sown),
                                      event("e2", date_of(2026, 6, 10), book::EventKind::set_out)};
  plan.method = stand::Method::start_indoors;
  plan.tray = "t";
  int occasional = 0;
  for (base::Date day = date_of(2026, 7, 1); day < date_of(2026, 11, 15); day += base::Days{9}) {
    const auto season = make_season(crop::built_in_library(), garden_with(plan), sown, day);
    ASSERT_TRUE(season);
    const auto tasks = worklist(*season);
    const Task* pick = find(tasks, "pick");
    if (pick == nullptr || pick->amount_said.front().key == "pick-ready") continue;
    EXPECT_GE(pick->log_grams, 1.0) << pick->amount;
    EXPECT_EQ(pick->amount.find("about 0 g"), std::string::npos) << pick->amount;
    if (pick->amount_said.front().key != "pick-perhaps") continue;
    ++occasional;
    EXPECT_NE(pick->amount.find("of the years"), std::string::npos) << pick->amount;
  }
  EXPECT_GT(occasional, 0) << "no day of the season was such a one";
}

TEST(Worklist, ClearingABedIsDoneOnceItsEntryIsMade) {
  std::vector<book::Event> events{event("e1", date_of(2026, 4, 20), book::EventKind::sown)};
  const base::Date autumn = date_of(2026, 12, 20);
  const auto finish_on = [&](base::Date day) {
    const auto tasks = tasks_on(garden_with(beet_in_place()), events, day);
    const auto found =
        std::find_if(tasks.begin(), tasks.end(), [](const Task& task) { return task.kind == "finish"; });
    return found == tasks.end() ? std::optional<Task>{} : std::optional<Task>{*found};
  };
  const auto finish = finish_on(autumn);
  ASSERT_TRUE(finish);
  // What one tap sends: the kind alone.
  events.push_back(event("e2", autumn, book::parse_event_kind(finish->log_event).value()));
  EXPECT_FALSE(finish_on(autumn));
  EXPECT_FALSE(finish_on(autumn + base::Days{1}));
}

TEST(Worklist, WhatIsNotUpInMostYearsNeedsNoCover) {
  stand::StandPlan beans = beet_in_place();
  beans.crop = "bush-bean";
  beans.sow = date_of(2026, 5, 1);
  book::GardenDescription garden = garden_with(beans);
  garden.normals->tmin_c[4] = 1.0;
  const std::vector<book::Event> sown{event("e1", beans.sow, book::EventKind::sown)};
  // Beans take a week or more to show in soil so cold, so that a cover on the first nights serves nothing.
  EXPECT_FALSE(has(tasks_on(garden, sown, date_of(2026, 5, 1), 5), "protect"));
  std::vector<book::Event> seen = sown;
  seen.push_back(event("e2", date_of(2026, 5, 3), book::EventKind::counted));
  seen.back().count = 40;
  EXPECT_TRUE(has(tasks_on(garden, seen, date_of(2026, 5, 3), 5), "protect")) << "it was seen up";
}

TEST(Worklist, TonightsCoverGoesBeforeALateSowing) {
  stand::StandPlan beans = beet_in_place();
  beans.id = "beans";
  beans.crop = "bush-bean";
  beans.sow = date_of(2026, 4, 1);
  beans.from_m = 1.0;
  beans.to_m = 2.0;
  book::GardenDescription garden = garden_with(beet_in_place());  // to be sown on 20 April
  garden.stands.push_back(beans);
  for (const std::size_t month : {4U, 5U}) garden.normals->tmin_c[month] = 2.0;
  std::vector<book::Event> events{event("e1", beans.sow, book::EventKind::sown),
                                  event("e2", date_of(2026, 5, 4), book::EventKind::counted)};
  for (book::Event& each : events) each.stand = "beans";
  events[1].count = 40;
  const auto tasks = tasks_on(garden, events, date_of(2026, 5, 6));
  ASSERT_TRUE(has(tasks, "protect"));
  ASSERT_TRUE(has(tasks, "sow"));
  const auto place = [&](std::string_view kind) {
    return std::find_if(tasks.begin(), tasks.end(), [kind](const Task& task) { return task.kind == kind; });
  };
  EXPECT_LT(place("protect"), place("sow"));
}

TEST(Worklist, ASowingPressesLessOnceItsBestDaysAreGone) {
  const auto urgency_on = [](base::Date day) {
    const auto tasks = tasks_on(garden_with(beet_in_place()), {}, day);
    return tasks.empty() ? -1.0 : tasks.front().urgency;
  };
  const double at_its_latest = urgency_on(date_of(2026, 4, 27));
  EXPECT_GT(at_its_latest, urgency_on(date_of(2026, 4, 20)));
  EXPECT_LT(urgency_on(date_of(2026, 5, 5)), at_its_latest);
  EXPECT_LT(urgency_on(date_of(2026, 5, 10)), urgency_on(date_of(2026, 5, 5)));
}

TEST(Worklist, SeedlingsThatBringNothingAnyMoreAreNotSetOutInFull) {
  stand::StandPlan plan = beet_in_place();
  plan.crop = "tomato";
  plan.method = stand::Method::start_indoors;
  plan.tray = "t";
  plan.sow = date_of(2026, 4, 1);
  plan.clumps = plan.cells = 6;
  plan.seeds_per_cell = 1.0;
  plan.spacing_mm = 500.0;
  plan.to_m = 3.0;
  std::vector<book::Event> events{event("e1", plan.sow, book::EventKind::sown),
                                  event("e2", date_of(2026, 4, 20), book::EventKind::counted)};
  events[1].count = 6;
  EXPECT_TRUE(has(tasks_on(garden_with(plan), events, date_of(2026, 6, 1), 30), "set-out"));
  const auto tasks = tasks_on(garden_with(plan), events, date_of(2026, 9, 20), 30);
  EXPECT_FALSE(has(tasks, "set-out"));
  EXPECT_FALSE(has(tasks, "harden-off"));
  const Task* late = find(tasks, "finish");
  ASSERT_NE(late, nullptr);
  EXPECT_EQ(late->amount_said.at(0).key, "compost-or-try");
  EXPECT_EQ(late->reason_said.at(0).key, "tray-too-late");
  EXPECT_EQ(late->reason.find("before sowing"), std::string::npos);
  EXPECT_EQ(late->log_event, "discarded");
}

TEST(Worklist, TubersAreLookedForAsShoots) {
  stand::StandPlan plan = tubers_in_place();
  plan.sow = date_of(2026, 3, 15);
  const std::vector<book::Event> events{event("e1", plan.sow, book::EventKind::sown)};
  std::vector<std::string> keys;
  for (base::Date day = date_of(2026, 4, 1); day < date_of(2026, 6, 20); day += base::Days{3}) {
    for (const Task& task : tasks_on(garden_with(plan), events, day)) {
      if (task.kind == "check-emergence") keys.push_back(task.amount_said.at(0).key);
    }
  }
  EXPECT_NE(std::find(keys.begin(), keys.end(), "look-for-shoots"), keys.end());
  EXPECT_NE(std::find(keys.begin(), keys.end(), "look-or-plant"), keys.end());
  EXPECT_EQ(std::find(keys.begin(), keys.end(), "look-and-count"), keys.end());
  EXPECT_EQ(std::find(keys.begin(), keys.end(), "look-or-sow"), keys.end());
}

TEST(Message, OneIsSaidAsOne) {
  const base::Date today = date_of(2026, 4, 20);
  const auto said = [today](const char* key, const char* name, double count) {
    return message_text({key, {{name, count}, {"spacing_mm", 590.0}, {"tray", "Shelf"}}}, Units::metric,
                        today);
  };
  EXPECT_EQ(said("set-plants", "count", 1.0), "1 plant") << "from what would it stand apart?";
  EXPECT_EQ(said("set-plants", "count", 2.0), "2 plants 59 cm apart");
  EXPECT_EQ(said("set-clumps", "count", 1.0), "1 clump");
  EXPECT_EQ(said("buy-plants", "count", 1.0), "buy 1 plant and set it out");
  EXPECT_EQ(said("cells-of-tray", "cells", 1.0).substr(0, 6), "1 cell");
  EXPECT_EQ(said("look-or-sow", "seeds", 1.0), "look; if nothing shows, 1 seed again");
  const auto weighed = [today](const char* key, const char* name, double grams) {
    return message_text({key, {{name, grams}}}, Units::metric, today);
  };
  EXPECT_EQ(weighed("pull-all", "weight_g", 0.2), "all of it, under 1 g");
  EXPECT_EQ(weighed("pull-all", "weight_g", 20.0), "all of it, about 20 g");
  EXPECT_EQ(weighed("ripe-by-today", "now_g", 0.2), "Under 1 g are ripe by today.");
  EXPECT_EQ(said("largest-meet", "plants", 1.0), "The largest one meets what the kitchen lacks.");
  EXPECT_EQ(said("largest-meet", "plants", 3.0), "3 of the largest meet what the kitchen lacks.");
}

TEST(Worklist, IsOrderedByUrgency) {
  const auto tasks = tasks_on(garden_with(beet_in_place()), {}, date_of(2026, 4, 20), 60);
  EXPECT_TRUE(std::is_sorted(tasks.begin(), tasks.end(),
                             [](const Task& a, const Task& b) { return a.urgency > b.urgency; }));
}

TEST(Season, IsTheSameOnOneAndTwoThreads) {
  const auto garden = garden_with(beet_in_place());
  const auto weekly_on = [&](std::size_t threads) {
    const base::ThreadLimit limit(threads);
    const auto season = make_season(crop::built_in_library(), garden, {}, date_of(2026, 4, 1));
    return season->outlooks.front().members.weekly_g;
  };
  EXPECT_EQ(weekly_on(1), weekly_on(2));
}

TEST(Season, WithoutWeatherIsAProblemThatSaysWhatToDo) {
  auto garden = garden_with(beet_in_place());
  garden.normals.reset();
  const auto season = make_season(crop::built_in_library(), garden, {}, date_of(2026, 4, 1));
  ASSERT_FALSE(season);
  EXPECT_EQ(season.error().code, base::ProblemCode::insufficient_data);
  EXPECT_NE(season.error().remedy.find("weather"), std::string::npos);
}

}  // namespace
}  // namespace sowtide::desk
