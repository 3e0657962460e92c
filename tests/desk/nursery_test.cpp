#include "desk/nursery.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "desk/overdue.hpp"
#include "desk/worklist.hpp"
#include "made_up_places.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::date_of;
using base::Days;

book::GardenDescription nursery_garden() {
  book::GardenDescription garden = garden_of_cool_springs("Test");
  garden.beds.push_back({.id = "b", .name = "Test bed", .length_m = 8.0, .width_m = 1.2});
  garden.trays.push_back({.id = "t", .name = "Sill", .cells = 60, .cell_width_mm = 50.0, .temp_c = 19.0});
  garden.trays.push_back(
      {.id = "f", .name = "Frame", .cells = 40, .cell_width_mm = 40.0, .place = bed::TrayPlace::cold_frame});
  return garden;
}

stand::StandPlan raised(const char* id, const char* crop, Date sow, const char* tray, int cells) {
  stand::StandPlan plan;
  plan.id = id;
  plan.crop = crop;
  plan.method = stand::Method::start_indoors;
  plan.sow = sow;
  plan.tray = tray;
  plan.cells = cells;
  plan.clumps = cells;
  plan.spacing_mm = 400.0;
  plan.bed = "b";
  plan.to_m = 4.0;
  return plan;
}

Season season_of(const book::GardenDescription& garden, Date today,
                 const std::vector<book::Event>& events = {}) {
  auto season = make_season(crop::built_in_library(), garden, events, today);
  EXPECT_TRUE(season) << (season ? "" : base::to_text(season.error()));
  return std::move(*season);
}

NurseryView view_of(const Season& season) {
  auto view = nursery_view(season);
  EXPECT_TRUE(view) << (view ? "" : base::to_text(view.error()));
  return view.value_or(NurseryView{});
}

TEST(Nursery, OfAGardenWithoutTraysIsEmpty) {
  auto garden = nursery_garden();
  garden.trays.clear();
  const NurseryView view = view_of(season_of(garden, date_of(2026, 3, 1)));
  EXPECT_TRUE(view.stands.empty());
  EXPECT_TRUE(view.weeks.empty());
}

TEST(Nursery, CellsAreInUseFromSowingToSettingOutAndNoLonger) {
  auto garden = nursery_garden();
  garden.stands.push_back(raised("s1", "lettuce", date_of(2026, 3, 10), "t", 24));
  const NurseryView view = view_of(season_of(garden, date_of(2026, 3, 1)));
  ASSERT_EQ(view.stands.size(), 1U);
  const Date out = *view.stands[0].outlook.set_out;
  bool ended = false;
  for (const NurseryWeek& week : view.weeks) {
    const bool inside = week.week_start + Days{6} >= date_of(2026, 3, 10) && week.week_start < out;
    const int cells = week.use.empty() ? 0 : week.use[0].cells;
    EXPECT_EQ(cells, inside ? 24 : 0) << base::to_iso(week.week_start);
    if (inside) {
      EXPECT_NEAR(week.use[0].area_m2, 24 * 0.05 * 0.05, 1e-9);
    }
    ended = ended || week.week_start >= out;
  }
  EXPECT_TRUE(ended || !view.weeks.empty());
}

// Of one that was to go out days ago the log says nothing: its seedlings still stand in the tray.
TEST(Nursery, CellsStayInUseUntilTheLogSaysThatTheyAreEmpty) {
  auto garden = nursery_garden();
  garden.stands.push_back(raised("s1", "lettuce", date_of(2026, 3, 20), "t", 40));
  garden.stands.back().set_out = date_of(2026, 4, 15);
  const book::Event sown{
      .id = "e1", .date = date_of(2026, 3, 20), .kind = book::EventKind::sown, .stand = "s1", .count = 40};
  const NurseryView view = view_of(season_of(garden, date_of(2026, 4, 27), {sown}));
  ASSERT_FALSE(view.weeks.empty());
  ASSERT_FALSE(view.weeks[0].use.empty());
  EXPECT_EQ(view.weeks[0].use[0].cells, 40);
}

TEST(Nursery, UseOfATrayIsTheSumOfItsStands) {
  auto garden = nursery_garden();
  garden.stands.push_back(raised("s1", "cabbage", date_of(2026, 3, 16), "t", 24));
  garden.stands.push_back(raised("s2", "leek", date_of(2026, 3, 16), "t", 40));
  garden.stands.push_back(raised("s3", "lettuce", date_of(2026, 3, 16), "f", 10));
  const NurseryView view = view_of(season_of(garden, date_of(2026, 3, 16)));
  ASSERT_FALSE(view.weeks.empty());
  const auto& use = view.weeks[0].use;
  ASSERT_EQ(use.size(), 2U);
  EXPECT_EQ(use[0].cells, 64);  // more than the 60 there are: the answer names the tray as over
  EXPECT_EQ(use[1].cells, 10);
  const std::string json = nursery_json(season_of(garden, date_of(2026, 3, 16)), view);
  EXPECT_NE(json.find("\"over\""), std::string::npos);
  EXPECT_LT(use[1].mean_c, use[0].mean_c);
}

TEST(Nursery, EveryTaskFallsIntoItsWeekOnce) {
  auto garden = nursery_garden();
  garden.stands.push_back(raised("s1", "tomato", date_of(2026, 3, 20), "t", 12));
  garden.stands.push_back(raised("s2", "cabbage", date_of(2026, 3, 1), "t", 12));
  const NurseryView view = view_of(season_of(garden, date_of(2026, 2, 20)));
  int sow = 0;
  int set_out = 0;
  for (const NurseryWeek& week : view.weeks) {
    for (const NurseryTask& task : week.tasks) {
      EXPECT_GE(task.date, week.week_start);
      EXPECT_LT(task.date, week.week_start + Days{7});
      EXPECT_GE(task.latest, task.date);
      if (task.kind == "sow") {
        EXPECT_EQ(message_text(task.said, Units::us, task.date).substr(0, 9), "12 cells,");
      }
      sow += task.kind == "sow" ? 1 : 0;
      set_out += task.kind == "set-out" ? 1 : 0;
    }
  }
  EXPECT_EQ(sow, 2);
  EXPECT_EQ(set_out, 2);
}

/// The lines of a text that hold a word.
std::vector<std::string> lines_with(const std::string& text, const std::string& word) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    std::string line = text.substr(at, end - at);
    if (line.find(word) != std::string::npos) lines.push_back(std::move(line));
    at = end + 1;
  }
  return lines;
}

TEST(Nursery, WorkStandsInTheRowOfItsTrayInPlainWords) {
  auto garden = nursery_garden();
  garden.stands.push_back(raised("s1", "lettuce", date_of(2026, 3, 2), "t", 12));
  garden.stands.push_back(raised("s2", "cabbage", date_of(2026, 3, 11), "f", 12));
  const Season season = season_of(garden, date_of(2026, 3, 1));
  const std::string text = nursery_text(season, view_of(season));
  const auto sow = lines_with(text, "11 Mar sow s2");
  ASSERT_EQ(sow.size(), 1U) << text;
  EXPECT_NE(sow.front().find("Frame"), std::string::npos) << sow.front();
  for (const char* words : {"look whether s1 is up", "begin to harden s1 off", "set s1 out"}) {
    const auto lines = lines_with(text, words);
    ASSERT_EQ(lines.size(), 1U) << words << "\n" << text;
    EXPECT_NE(lines.front().find("Sill"), std::string::npos) << lines.front();
  }
  EXPECT_EQ(text.find("harden-off"), std::string::npos);
}

book::Event event(const char* id, Date date, book::EventKind kind) {
  book::Event made;
  made.id = id;
  made.date = date;
  made.kind = kind;
  made.stand = "s1";
  return made;
}

book::GardenDescription carrots() {
  auto garden = nursery_garden();
  stand::StandPlan plan;
  plan.id = "s1";
  plan.crop = "carrot";
  plan.sow = date_of(2026, 5, 1);
  plan.clumps = 60;
  plan.cells = 60;
  plan.seeds_per_cell = 2.0;
  plan.spacing_mm = 110.0;
  plan.bed = "b";
  plan.to_m = 1.0;
  garden.stands.push_back(plan);
  return garden;
}

TEST(Nursery, AnOverdueSowingIsReckonedFromTodayAndAMissedOneIsGone) {
  auto garden = nursery_garden();
  const Date today = date_of(2026, 4, 20);
  garden.stands = {raised("late", "tomato", today - Days{10}, "t", 8),
                   raised("missed", "tomato", today - Days{40}, "t", 8)};
  const Season season = season_of(garden, today);
  const NurseryView view = view_of(season);
  ASSERT_EQ(view.stands.size(), 1U);
  EXPECT_EQ(season.state.stands[view.stands.front().stand].plan.id, "late");
  for (const NurseryWeek& week : view.weeks) {
    for (const NurseryTask& task : week.tasks) {
      if (task.kind == "sow") {
        EXPECT_EQ(task.date, today);
      } else {
        EXPECT_GT(task.date, today + Days{3}) << task.kind << ": not on the day of its sowing";
      }
    }
  }
}

TEST(Awaited, OnlyWhatIsSownAndNotSeen) {
  const auto garden = carrots();
  const auto planned = awaited(season_of(garden, date_of(2026, 5, 3)), 0);
  ASSERT_TRUE(planned);
  EXPECT_FALSE(*planned);
  const std::vector<book::Event> sown{event("e1", date_of(2026, 5, 1), book::EventKind::sown)};
  const auto waiting = awaited(season_of(garden, date_of(2026, 5, 3), sown), 0);
  ASSERT_TRUE(waiting && *waiting);
  EXPECT_EQ((*waiting)->state, WaitState::waiting);
  EXPECT_GT((*waiting)->half_by, date_of(2026, 5, 8));
  auto seen = sown;
  seen.push_back(event("e2", date_of(2026, 5, 14), book::EventKind::counted));
  seen.back().count = 90.0;
  const auto up = awaited(season_of(garden, date_of(2026, 5, 20), seen), 0);
  ASSERT_TRUE(up);
  EXPECT_FALSE(*up);
}

TEST(Awaited, GoesFromWaitingToLookToOverdue) {
  const auto garden = carrots();
  const std::vector<book::Event> sown{event("e1", date_of(2026, 5, 1), book::EventKind::sown)};
  WaitState before = WaitState::waiting;
  for (int day = 0; day < 45; ++day) {
    const auto found = awaited(season_of(garden, date_of(2026, 5, 1) + Days{day}, sown), 0);
    ASSERT_TRUE(found && *found);
    EXPECT_GE((*found)->state, before);
    before = (*found)->state;
    EXPECT_EQ((*found)->state == WaitState::overdue, (*found)->chance_by_today >= stand::kOverdueChance);
  }
  EXPECT_EQ(before, WaitState::overdue);
}

// A plan of before pieces were one to a place may say two.
TEST(Awaited, OfPiecesOneToAPlaceIsPlantedAgain) {
  auto garden = carrots();
  garden.stands[0].crop = "potato";
  garden.stands[0].sow = date_of(2026, 4, 20);
  garden.stands[0].seeds_per_cell = 2.0;
  const std::vector<book::Event> planted{event("e1", date_of(2026, 4, 20), book::EventKind::sown)};
  const auto found = awaited(season_of(garden, date_of(2026, 5, 20), planted), 0);
  ASSERT_TRUE(found && *found);
  EXPECT_EQ((*found)->seeds_again, stand::places_of(garden.stands[0]));
}

TEST(Worklist, SaysThatASowingIsLateAndTillWhenToSowAgain) {
  const auto garden = carrots();
  const std::vector<book::Event> sown{event("e1", date_of(2026, 5, 1), book::EventKind::sown)};
  const Season season = season_of(garden, date_of(2026, 6, 5), sown);
  const auto tasks = worklist(season);
  const auto late = std::find_if(tasks.begin(), tasks.end(),
                                 [](const Task& task) { return task.kind == "check-emergence"; });
  ASSERT_NE(late, tasks.end());
  EXPECT_NE(late->reason.find("should be up since"), std::string::npos) << late->reason;
  EXPECT_NE(late->reason.find("sow again by"), std::string::npos) << late->reason;
  EXPECT_GT(late->latest, season.today);
}

// Seed on the mat, seedlings in the room: the weeks begin as warm as the one and end as warm as the other.
TEST(Nursery, AWeekIsAsWarmAsItsCells) {
  auto garden = nursery_garden();
  garden.trays.push_back({.id = "m",
                          .name = "Mat",
                          .cells = 20,
                          .cell_width_mm = 50.0,
                          .place = bed::TrayPlace::heat_mat,
                          .temp_c = 24.0});
  garden.trays.back().room_c = 18.0;
  garden.stands = {raised("s1", "tomato", date_of(2026, 4, 6), "m", 12)};
  const NurseryView view = view_of(season_of(garden, date_of(2026, 4, 6)));
  std::vector<double> warmth_c;
  for (const NurseryWeek& week : view.weeks) {
    for (const TrayUse& use : week.use)
      if (use.tray == "m") warmth_c.push_back(use.mean_c);
  }
  ASSERT_GE(warmth_c.size(), 4U);
  EXPECT_GT(warmth_c.front(), 20.0);
  EXPECT_TRUE(std::is_sorted(warmth_c.rbegin(), warmth_c.rend()));
  EXPECT_DOUBLE_EQ(warmth_c.back(), 18.0);
}

TEST(Nursery, WhatIsUpIsToBeTakenOffTheMatThatHasNotRoomForAll) {
  auto garden = nursery_garden();
  garden.trays[0].place = bed::TrayPlace::heat_mat;
  garden.stands = {raised("s1", "tomato", date_of(2026, 4, 6), "t", 12)};
  const std::vector<book::Event> sown{
      {.id = "e1", .date = date_of(2026, 4, 6), .kind = book::EventKind::sown, .stand = "s1", .count = 12.0}};
  const auto asked = [&] {
    const Season season = season_of(garden, date_of(2026, 4, 14), sown);
    const NurseryView view = *nursery_view(season);
    const auto& tasks = view.weeks.front().tasks;
    const auto look =
        std::find_if(tasks.begin(), tasks.end(), [](const NurseryTask& task) { return task.kind == "look"; });
    const bool off = look != tasks.end() && look->said.key == "look-and-take-off-mat";
    for (const Task& task : worklist(season, 14)) {
      if (task.kind != "check-emergence") continue;
      const bool also_today =
          std::any_of(task.reason_said.begin(), task.reason_said.end(),
                      [](const base::Message& said) { return said.key == "off-the-mat"; });
      EXPECT_EQ(off, also_today);
      return also_today;
    }
    ADD_FAILURE() << "nothing is to be looked for";
    return false;
  };
  EXPECT_FALSE(asked());
  garden.trays[0].mat_cells = 12;
  EXPECT_TRUE(asked());
}

}  // namespace
}  // namespace sowtide::desk
