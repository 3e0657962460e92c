// The worklist as a terminal shows it: work of one kind and day in one block, what is shared said once.
#include <gtest/gtest.h>

#include "desk/season_text.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;

Season empty_season() {
  Season season;
  season.today = date_of(2026, 4, 20);
  season.garden.name = "Test";
  season.state.stands.emplace_back();
  return season;
}

Task task_of(const char* kind, const char* stand, const char* crop, int due_day) {
  Task task;
  task.kind = kind;
  task.stand = stand;
  task.crop_name = crop;
  task.place = "Bed";
  task.amount = "some";
  task.reason = "because";
  task.due = date_of(2026, 4, due_day);
  task.latest = date_of(2026, 4, 27);
  task.log_event = "sown";
  task.log_count = 12.0;
  return task;
}

TEST(WorklistText, WorkOfTheSameKindAndDayStandsInOneBlock) {
  const std::vector<Task> tasks{task_of("sow", "s1", "Beet", 20), task_of("pick", "s2", "Kale", 20),
                                task_of("sow", "s3", "Carrot", 20)};
  EXPECT_EQ(worklist_text(empty_season(), tasks, 7),
            "Test, 2026-04-20: work for 7 days, what costs most to leave first\n"
            "\n"
            "Sow: best 20 Apr, at the latest 27 Apr\n"
            "  s1 Beet, Bed: some\n"
            "  s3 Carrot, Bed: some\n"
            "  why: because\n"
            "  done: log GARDEN sown STAND --count N, of s1 12, s3 12\n"
            "\n"
            "Pick: best 20 Apr, at the latest 27 Apr\n"
            "  s2 Kale, Bed: some\n"
            "  why: because\n"
            "  done: log GARDEN sown s2 --count 12\n");
}

TEST(WorklistText, WhatIsPlantedInPiecesIsPlantedAgain) {
  std::vector<Task> tasks{task_of("re-sow", "s1", "Potato", 20)};
  tasks.front().amount_said = {{"plant-places", {}}};
  const std::string planted = worklist_text(empty_season(), tasks, 7);
  EXPECT_NE(planted.find("\nPlant again: best 20 Apr"), std::string::npos) << planted;
  tasks.front().amount_said = {{"sow-places", {}}};
  const std::string sown = worklist_text(empty_season(), tasks, 7);
  EXPECT_NE(sown.find("\nSow again: best 20 Apr"), std::string::npos) << sown;
}

TEST(WorklistText, WhatTakesAllOfAStandIsLoggedSo) {
  Task task = task_of("pick", "s2", "Lettuce", 20);
  task.log_event = "picked";
  task.log_text = "all";
  const std::string text = worklist_text(empty_season(), {task}, 7);
  EXPECT_NE(text.find("  done: log GARDEN picked s2 --count 12 --weight … --all\n"), std::string::npos)
      << text;
}

TEST(WorklistText, WhatGoesIntoStoreIsLoggedAfterItWasTaken) {
  Task task = task_of("pick", "s2", "Onion", 20);
  task.log_event = "picked";
  task.log_text = "all";
  task.log_store = "best";
  const std::string text = worklist_text(empty_season(), {task}, 7);
  EXPECT_NE(text.find("  done: log GARDEN picked s2 --count 12 --weight … --all\n"
                      "  done: log GARDEN stored s2 --weight … --text best\n"),
            std::string::npos)
      << text;
  Task other = task;
  other.stand = "s3";
  const std::string both = worklist_text(empty_season(), {task, other}, 7);
  EXPECT_NE(both.find("  done: log GARDEN stored STAND --weight … --text best, of s2, s3\n"),
            std::string::npos)
      << both;
}

TEST(WorklistText, WhatDiffersWithinABlockIsSaidOfEach) {
  std::vector<Task> tasks{task_of("sow", "s1", "Beet", 20), task_of("sow", "s3", "Carrot", 20)};
  tasks[1].reason = "otherwise";
  tasks[1].latest = date_of(2026, 4, 30);
  tasks[0].caution = "mind";
  EXPECT_EQ(worklist_text(empty_season(), tasks, 1),
            "Test, 2026-04-20: work for 1 day, what costs most to leave first\n"
            "\n"
            "Sow: best 20 Apr\n"
            "  s1 Beet, Bed: some (at the latest 27 Apr)\n"
            "      why: because\n"
            "      care: mind\n"
            "  s3 Carrot, Bed: some (at the latest 30 Apr)\n"
            "      why: otherwise\n"
            "  done: log GARDEN sown STAND --count N, of s1 12, s3 12\n");
}

TEST(WorklistText, AnotherDayIsAnotherBlockAndTubersArePlanted) {
  std::vector<Task> tasks{task_of("sow", "s1", "Beet", 20), task_of("sow", "s3", "Beet", 21),
                          task_of("sow", "s4", "Potato", 20)};
  tasks[2].amount_said = {{"plant-places", {}}};
  const std::string text = worklist_text(empty_season(), tasks, 7);
  EXPECT_NE(text.find("Sow: best 20 Apr"), std::string::npos);
  EXPECT_NE(text.find("Sow: best 21 Apr"), std::string::npos);
  EXPECT_NE(text.find("Plant: best 20 Apr"), std::string::npos);
}

}  // namespace
}  // namespace sowtide::desk
