// Stands that are over: what `today` and `judge` say of them. Places and weather are made up.
#include "desk/stand_end.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "desk/judgement.hpp"
#include "desk/worklist.hpp"
#include "made_up_places.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::date_of;
using base::Days;
using book::EventKind;

book::GardenDescription garden_with(stand::StandPlan plan) {
  book::GardenDescription garden = garden_of_cool_springs("Test");
  garden.beds.push_back({.id = "b", .name = "Test bed", .length_m = 8.0, .width_m = 1.2});
  garden.trays.push_back({.id = "t", .name = "Sill", .cells = 60, .cell_width_mm = 50.0, .temp_c = 19.0});
  plan.id = "s1";
  plan.bed = "b";
  plan.to_m = 2.0;
  garden.stands.push_back(std::move(plan));
  return garden;
}

book::Event entry(const char* id, Date date, EventKind kind, std::optional<double> count = {}) {
  book::Event event{.id = id, .date = date, .kind = kind, .stand = "s1"};
  event.count = count;
  return event;
}

Season season_of(const book::GardenDescription& garden, std::vector<book::Event> events, Date today) {
  for (std::size_t i = 0; i < events.size(); ++i) events[i].sequence = static_cast<std::int64_t>(i) + 1;
  auto season = make_season(crop::built_in_library(), garden, events, today);
  EXPECT_TRUE(season) << (season ? "" : base::to_text(season.error()));
  return std::move(*season);
}

const Task* find(const std::vector<Task>& tasks, std::string_view kind) {
  const auto found = std::find_if(tasks.begin(), tasks.end(), [&](const Task& task) { return task.kind == kind; });
  return found == tasks.end() ? nullptr : &*found;
}

stand::Judgement judged(const Season& season) {
  const auto answer = judged_today(season, 0);
  EXPECT_TRUE(answer) << (answer ? "" : base::to_text(answer.error()));
  return answer ? answer->judgement : stand::Judgement{};
}

/// Tomatoes set out on 1 March, before a month whose nights freeze in every year.
book::GardenDescription frozen_tomatoes() {
  stand::StandPlan plan;
  plan.crop = "tomato";
  plan.method = stand::Method::start_indoors;
  plan.sow = date_of(2026, 1, 5);
  plan.set_out = date_of(2026, 3, 1);
  plan.tray = "t";
  plan.clumps = plan.cells = 6;
  plan.spacing_mm = 500.0;
  book::GardenDescription garden = garden_with(plan);
  garden.normals->tmin_c[2] = -5.0;
  return garden;
}

const std::vector<book::Event> kSetOut{entry("e1", date_of(2026, 1, 5), EventKind::sown),
                                       entry("e2", date_of(2026, 3, 1), EventKind::set_out, 6.0)};

// Too late to sow tomatoes at the end of May, not to set out plants. Work and judgement go by the same rule.
TEST(StandEnd, InPlaceOfBoughtPlantsThatDiedPlantsAreBoughtAgain) {
  book::GardenDescription garden = frozen_tomatoes();
  garden.stands.front().tray.clear();
  std::vector<book::Event> bought{entry("e1", date_of(2026, 3, 1), EventKind::set_out, 6.0)};
  bought.front().text = "bought";
  int times = 0;
  for (const Date day :
       {date_of(2026, 5, 20), date_of(2026, 5, 28), date_of(2026, 6, 5), date_of(2026, 10, 1)}) {
    const Season season = season_of(garden, bought, day);
    const auto tasks = worklist(season);
    const Task* look = find(tasks, "look");
    ASSERT_NE(look, nullptr) << base::to_iso(day);
    EXPECT_EQ(judged(season).reasons.back().key, look->amount_said.front().key);
    const bool still = look->amount_said.front().key == "look-or-buy";
    EXPECT_EQ(look->reason_said.back().key, still ? "buy-again" : "next-days-to-buy") << look->reason;
    EXPECT_FALSE(still && day > date_of(2026, 7, 31)) << "no tomato ripens any more";
    times += still ? 1 : 0;
  }
  EXPECT_GE(times, 1);
}

TEST(StandEnd, WhatANightHasKilledIsLookedAtAndNotTended) {
  const Season season = season_of(frozen_tomatoes(), kSetOut, date_of(2026, 4, 3));
  const auto night = likely_killed(season, 0, season.today);
  ASSERT_TRUE(night);
  EXPECT_GE(night->day, date_of(2026, 3, 1));
  EXPECT_LE(night->day, season.today);
  EXPECT_LT(night->night_c, 1.0);
  const auto tasks = worklist(season);
  const Task* look = find(tasks, "look");
  ASSERT_NE(look, nullptr);
  EXPECT_EQ(find(tasks, "protect"), nullptr);
  EXPECT_EQ(look->reason_said.front().key, "likely-killed");
  // April leaves time to begin again, and it says so.
  ASSERT_GE(look->reason_said.size(), 2U);
  EXPECT_EQ(look->reason_said.at(1).key, "sow-again");
  EXPECT_EQ(look->log_event, "discarded");
  EXPECT_EQ(judged(season).advice, "look");
  EXPECT_EQ(judged(season).reasons.front().key, "likely-killed");
}

TEST(StandEnd, BeforeTheNightItLives) {
  const Season season = season_of(frozen_tomatoes(), kSetOut, date_of(2026, 3, 1));
  EXPECT_FALSE(likely_killed(season, 0, season.today));
  EXPECT_EQ(find(worklist(season), "look"), nullptr);
}

TEST(StandEnd, WhatWasCountedAfterTheNightLives) {
  auto events = kSetOut;
  events.push_back(entry("e3", date_of(2026, 4, 2), EventKind::counted, 5.0));
  const Season season = season_of(frozen_tomatoes(), events, date_of(2026, 4, 3));
  EXPECT_FALSE(likely_killed(season, 0, season.today));
  EXPECT_NE(judged(season).advice, "look");
}

TEST(StandEnd, AForgottenStandIsPickedThenClearedAndNeverBothAtOnce) {
  stand::StandPlan plan;
  plan.crop = "lettuce";
  plan.sow = date_of(2026, 4, 20);
  plan.clumps = plan.cells = 20;
  plan.spacing_mm = 280.0;
  const book::GardenDescription garden = garden_with(plan);
  const std::vector<book::Event> events{entry("e1", plan.sow, EventKind::sown),
                                        entry("e2", date_of(2026, 5, 10), EventKind::counted, 20.0)};
  int picked = 0;
  int cleared = 0;
  for (Date day = date_of(2026, 6, 1); day < date_of(2026, 10, 1); day += Days{7}) {
    const Season season = season_of(garden, events, day);
    const auto tasks = worklist(season);
    const Task* pick = find(tasks, "pick");
    const Task* finish = find(tasks, "finish");
    EXPECT_FALSE(pick != nullptr && finish != nullptr) << base::to_iso(day);
    picked += pick != nullptr ? 1 : 0;
    cleared += finish != nullptr ? 1 : 0;
    EXPECT_FALSE(cleared > 0 && pick != nullptr) << "food again after it was over, " << base::to_iso(day);
  }
  EXPECT_GT(picked, 0);
  EXPECT_GT(cleared, 0);
  const Season autumn = season_of(garden, events, date_of(2026, 10, 1));
  ASSERT_TRUE(past_eating_since(autumn, 0, autumn.today));
  const auto tasks = worklist(autumn);
  const Task* finish = find(tasks, "finish");
  ASSERT_NE(finish, nullptr);
  EXPECT_EQ(finish->reason_said.front().key, "past-eating");
  EXPECT_EQ(judged(autumn).advice, "clear");
  for (const stand::WaitOption& option : judged(autumn).options) EXPECT_EQ(option.usable_g, 0.0);
}

TEST(StandEnd, RootsArePastEatingLaterThanLeaves) {
  const auto weeks_after_end = [](const char* crop, double spacing_mm) {
    stand::StandPlan plan;
    plan.crop = crop;
    plan.sow = date_of(2026, 4, 20);
    plan.clumps = plan.cells = 20;
    plan.spacing_mm = spacing_mm;
    const auto garden = garden_with(plan);
    const std::vector<book::Event> events{entry("e1", plan.sow, EventKind::sown)};
    for (Date day = date_of(2026, 6, 1); day < date_of(2027, 6, 1); day += Days{7}) {
      const Season season = season_of(garden, events, day);
      if (past_eating_since(season, 0, day))
        return (day - expected_event(season.outlooks[0], "last-pick")->p90).count() / 7;
    }
    return std::int64_t{-1};
  };
  const auto leaf = weeks_after_end("lettuce", 280.0);
  const auto tuber = weeks_after_end("potato", 330.0);
  EXPECT_GE(leaf, 2);
  EXPECT_GE(tuber, leaf + 3);
  const auto beet = weeks_after_end("beet", 150.0);
  const auto radish = weeks_after_end("radish", 50.0);
  EXPECT_GE(beet, leaf + 3);
  EXPECT_LE(radish, leaf + 1) << "fast roots are pithy soon";
  EXPECT_GE(radish, 2);
}

// The day before says until when, the day itself says since when: it is the same day.
TEST(StandEnd, PastEatingBeginsOnTheDayThatWasToldBefore) {
  stand::StandPlan plan;
  plan.crop = "beet";
  plan.sow = date_of(2026, 4, 20);
  plan.clumps = plan.cells = 20;
  plan.spacing_mm = 150.0;
  const auto garden = garden_with(plan);
  const std::vector<book::Event> events{entry("e1", plan.sow, EventKind::sown)};
  Date day = date_of(2026, 8, 1);
  while (!past_eating_since(season_of(garden, events, day), 0, day)) day += Days{1};
  const Season before = season_of(garden, events, day - Days{1});
  const auto said_before = judged(before);
  EXPECT_EQ(said_before.advice, "pull");
  ASSERT_EQ(said_before.reasons.back().key, "good-until") << "and nothing of a store";
  EXPECT_EQ(base::value_in<Date>(&said_before.reasons.back(), "day"), day);
  const auto said = judged(season_of(garden, events, day));
  EXPECT_EQ(said.advice, "clear");
  ASSERT_EQ(said.reasons.front().key, "past-eating");
  EXPECT_EQ(base::value_in<Date>(&said.reasons.front(), "day"), day);
}

}  // namespace
}  // namespace sowtide::desk
