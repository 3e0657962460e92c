// What of a plan is kept where the garden changed while it was made.
#include "desk/plan_keeping.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <utility>

#include "made_up_places.hpp"

namespace sowtide::desk {
namespace {

const base::Date kToday = base::date_of(2026, 4, 20);
const base::Date kSowing = base::date_of(2026, 5, 4);

stand::StandPlan stand_of(const char* id, const char* crop, double from_m, base::Date sow = kSowing) {
  stand::StandPlan stand{
      .id = id, .crop = crop, .sow = sow, .clumps = 40, .spacing_mm = 100.0, .bed = "long"};
  stand.from_m = from_m;
  stand.to_m = from_m + 1.0;
  stand.cells = 40;
  return stand;
}

/// A bed of 6 m in which two stands are planned.
book::GardenDescription planned_garden() {
  book::GardenDescription garden = garden_of_warm_summers("Busy");
  garden.beds.push_back({"long", "Long bed", 6.0, 1.2});
  garden.stands = {stand_of("s1", "radish", 0.0), stand_of("s2", "beet", 1.0)};
  return garden;
}

/// A plan that goes on with the stands there are and adds one.
plan::Plan plan_of(std::vector<stand::StandPlan> stands) {
  plan::Plan plan;
  for (const stand::StandPlan& stand : stands) plan.reasons[stand.id] = {{"metre-in-sun", {}}};
  plan.stands = std::move(stands);
  return plan;
}

const plan::Plan kPlan =
    plan_of({stand_of("s1", "radish", 0.0), stand_of("s2", "beet", 2.0), stand_of("s3", "turnip", 1.0)});

std::vector<std::string> names_of(const std::vector<stand::StandPlan>& stands) {
  std::vector<std::string> names;
  for (const stand::StandPlan& stand : stands) names.push_back(stand.id + " " + stand.crop);
  return names;
}

std::vector<std::string> keys_of(const std::vector<plan::Note>& notes) {
  std::vector<std::string> keys;
  for (const plan::Note& note : notes) keys.push_back(note.front().key);
  return keys;
}

using Names = std::vector<std::string>;

FittedPlan fitted(const book::GardenDescription& now, const std::vector<book::Event>& events) {
  auto fit =
      fit_plan(crop::built_in_library(), planned_for(planned_garden(), {}), kPlan, now, events, kToday);
  EXPECT_TRUE(fit) << base::to_text(fit.error());
  return fit ? std::move(*fit) : FittedPlan{};
}

book::Event sown(const char* stand) {
  return {.id = std::string("e-") + stand,
          .date = kToday,
          .kind = book::EventKind::sown,
          .stand = stand,
          .count = 40.0};
}

TEST(PlanKeeping, APlanStaysWhatItIsWhereNothingChanged) {
  const FittedPlan fit = fitted(planned_garden(), {});
  EXPECT_EQ(fit.plan.stands, kPlan.stands);
  EXPECT_TRUE(fit.by_hand.empty());
  EXPECT_TRUE(fit.meanwhile.empty());
}

TEST(PlanKeeping, WhatWasSownMeanwhileAsPlannedStaysAndTheRestIsKept) {
  const FittedPlan fit = fitted(planned_garden(), {sown("s1")});
  EXPECT_EQ(names_of(fit.plan.stands), (Names{"s2 beet", "s3 turnip"}));
  EXPECT_TRUE(fit.meanwhile.empty()) << "the plan says the same of s1";
}

TEST(PlanKeeping, WhatWasSownMeanwhileElsewhereThanPlannedStaysAndTakesItsGround) {
  // Beet is sown at 1 m, where it was planned before; the new plan has turnip there.
  const FittedPlan fit = fitted(planned_garden(), {sown("s2")});
  EXPECT_EQ(names_of(fit.plan.stands), (Names{"s1 radish"}));
  EXPECT_EQ(keys_of(fit.meanwhile), (Names{"stand-changed-meanwhile", "place-taken-meanwhile"}));
  EXPECT_EQ(keys_of(fit.plan.notes), keys_of(fit.meanwhile));
  EXPECT_EQ(fit.plan.reasons.size(), 1U);
}

TEST(PlanKeeping, AStandMovedByHandMeanwhileStaysWhereItIsNow) {
  book::GardenDescription now = planned_garden();
  now.stands[1].from_m = 4.0;
  now.stands[1].to_m = 5.0;
  const FittedPlan fit = fitted(now, {});
  EXPECT_EQ(fit.by_hand, (std::vector{now.stands[1]}));
  EXPECT_EQ(names_of(fit.plan.stands), (Names{"s1 radish", "s3 turnip"}));
  EXPECT_EQ(keys_of(fit.meanwhile), (Names{"stand-changed-meanwhile"}));
}

TEST(PlanKeeping, ANewStandWhoseNameWasTakenMeanwhileGetsTheNextFreeOne) {
  book::GardenDescription now = planned_garden();
  now.stands.push_back(stand_of("s3", "carrot", 5.0));
  const FittedPlan fit = fitted(now, {sown("s3")});
  EXPECT_EQ(names_of(fit.plan.stands), (Names{"s1 radish", "s2 beet", "s4 turnip"}));
  EXPECT_TRUE(fit.plan.reasons.contains("s4"));
  EXPECT_FALSE(fit.plan.reasons.contains("s3"));
  EXPECT_TRUE(fit.by_hand.empty()) << "the log names it, so it stays anyhow";
  EXPECT_TRUE(fit.meanwhile.empty()) << "nothing was lost";
}

TEST(PlanKeeping, WhatNoLongerFitsBesideAStandPutInMeanwhileIsLeftOut) {
  book::GardenDescription now = planned_garden();
  now.stands.push_back(stand_of("s3", "carrot", 2.5));
  const FittedPlan fit = fitted(now, {});
  EXPECT_EQ(fit.by_hand, (std::vector{now.stands[2]}));
  EXPECT_EQ(names_of(fit.plan.stands), (Names{"s1 radish", "s4 turnip"})) << "beet lay from 2 to 3 m";
  EXPECT_EQ(keys_of(fit.meanwhile), (Names{"place-taken-meanwhile"}));
}

TEST(PlanKeeping, WhatNoLongerFitsIntoItsBedIsLeftOut) {
  book::GardenDescription now = planned_garden();
  now.beds[0].length_m = 2.5;
  const FittedPlan fit = fitted(now, {});
  EXPECT_EQ(names_of(fit.plan.stands), (Names{"s1 radish", "s3 turnip"}));
  EXPECT_EQ(keys_of(fit.meanwhile), (Names{"no-longer-fits"}));
}

}  // namespace
}  // namespace sowtide::desk
