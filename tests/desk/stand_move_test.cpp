// Moves of stands by hand: what a stand takes of a bed of another width.
#include "desk/stand_move.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace sowtide::desk {
namespace {

using base::date_of;
using base::ProblemCode;

/// A stand that was sown in a bed of 1.2 m, and another bed as told.
Season season_of(int clumps, int spacing_mm, double other_width_m, double other_length_m) {
  Season season;
  season.today = date_of(2026, 5, 20);
  season.garden.beds.push_back({"here", "Here", 100.0, 1.2});
  season.garden.beds.push_back({"there", "There", other_length_m, other_width_m});
  book::StandState state;
  state.plan = {.id = "s1", .crop = "leek", .sow = date_of(2026, 5, 1), .clumps = clumps};
  state.plan.spacing_mm = spacing_mm;
  state.plan.bed = "here";
  state.plan.from_m = 1.0;
  state.plan.to_m = 2.5;
  state.facts.sown = state.plan.sow;
  season.state.stands.push_back(state);
  return season;
}

const StandMove kThere{.bed = "there", .from_m = 0.25, .put_right = true};

RC_GTEST_PROP(StandMoveLaws, ClumpsTakeTheLengthThatAPlanGivesThem, ()) {
  const int clumps = *rc::gen::inRange(1, 300);
  const int spacing_mm = *rc::gen::inRange(20, 600);
  const int width_mm = *rc::gen::inRange(300, 2000);
  const Season season = season_of(clumps, spacing_mm, width_mm / 1000.0, 200.0);
  const auto moved = moved_stand(season, "s1", kThere);
  RC_ASSERT(moved.has_value());
  RC_ASSERT(moved->clumps == clumps);
  if (width_mm == 1200) return;  // of the same width it keeps its length
  const int across = std::max(1, width_mm / spacing_mm);
  // Rows share what is left over; no stand takes less than half a row. In whole numbers, rounded up.
  const int twice = std::max(2 * clumps, across);
  const int length_mm = (spacing_mm * twice + 2 * across - 1) / (2 * across);
  RC_ASSERT(std::lround((moved->to_m - moved->from_m) * 1000.0) == length_mm);
}

TEST(StandMove, KeepsItsLengthInABedOfItsWidth) {
  const auto moved = moved_stand(season_of(24, 300, 1.2, 8.0), "s1", kThere);
  ASSERT_TRUE(moved) << base::to_text(moved.error());
  EXPECT_DOUBLE_EQ(moved->to_m - moved->from_m, 1.5);
}

TEST(StandMove, SaysWhereABedHasNoRoomForItsClumps) {
  const auto too_short = moved_stand(season_of(24, 300, 0.6, 3.5), "s1", kThere);
  ASSERT_FALSE(too_short);
  EXPECT_EQ(too_short.error().code, ProblemCode::infeasible);
  EXPECT_EQ(too_short.error().what, "24 at 30 cm take 3.60 m of There, which is 3.50 m long");
  const auto too_narrow = moved_stand(season_of(24, 300, 0.14, 30.0), "s1", kThere);
  ASSERT_FALSE(too_narrow);
  EXPECT_EQ(too_narrow.error().where.field, "bed");
  const auto beyond = moved_stand(season_of(24, 300, 0.6, 3.7), "s1", kThere);
  ASSERT_FALSE(beyond) << "3.6 m from 0.25 m on";
  EXPECT_EQ(beyond.error().code, ProblemCode::out_of_range);
  EXPECT_EQ(beyond.error().what, "0.25 m to 3.85 m does not lie in There, which is 3.70 m long");
  Season feet = season_of(24, 300, 0.6, 3.7);
  feet.garden.units = "us";
  EXPECT_EQ(moved_stand(feet, "s1", kThere).error().what,
            "0 ft 10 in to 12 ft 8 in does not lie in There, which is 12 ft 2 in long");
}

// The day of sowing of bought plants is made up: whichever day is told, both go along.
TEST(StandMove, TheDaysOfBoughtPlantsGoTogether) {
  Season season = season_of(24, 300, 1.2, 8.0);
  book::StandState& leeks = season.state.stands.front();
  leeks.facts = {};
  leeks.plan.method = stand::Method::start_indoors;
  leeks.plan.sow = date_of(2026, 3, 20);
  leeks.plan.set_out = date_of(2026, 6, 1);
  leeks.plan.planned_c = 12.0;
  const base::Date later = date_of(2026, 6, 15);
  StandMove told_set_out, left_open;
  told_set_out.set_out.emplace(later);
  left_open.set_out.emplace();
  for (const StandMove& move : {StandMove{.sow = date_of(2026, 4, 3)}, told_set_out}) {
    const auto moved = moved_stand(season, "s1", move);
    ASSERT_TRUE(moved) << base::to_text(moved.error());
    EXPECT_EQ(moved->sow, date_of(2026, 4, 3));
    EXPECT_EQ(moved->set_out, later);
    EXPECT_FALSE(moved->planned_c) << "of another day";
  }
  const auto past = moved_stand(season, "s1", {.sow = date_of(2026, 3, 1)});
  ASSERT_FALSE(past);
  EXPECT_EQ(past.error().code, ProblemCode::out_of_range);
  const auto open = moved_stand(season, "s1", left_open);
  ASSERT_FALSE(open);
  EXPECT_EQ(open.error().code, ProblemCode::contradiction);
  const auto stays = moved_stand(season, "s1", {.from_m = 2.0});
  ASSERT_TRUE(stays);
  EXPECT_EQ(stays->sow, leeks.plan.sow);
  EXPECT_EQ(stays->planned_c, leeks.plan.planned_c);
}

/// The season with its one stand only planned.
Season planned_season() {
  Season season = season_of(24, 300, 1.2, 8.0);
  season.state.stands.front().facts = {};
  season.state.stands.front().plan.sow = date_of(2026, 6, 1);
  season.garden.stands = {season.state.stands.front().plan};
  return season;
}

TEST(StandMove, SetsOutWithinTwoYears) {
  const Season season = planned_season();
  const auto set_out = [&season](base::Date day) { return moved_stand(season, "s1", {.set_out = {{day}}}); };
  EXPECT_TRUE(set_out(date_of(2026, 7, 1)));
  for (const base::Date day : {date_of(2150, 1, 1), date_of(2026, 5, 19)}) {
    const auto moved = set_out(day);
    ASSERT_FALSE(moved) << base::to_iso(day);
    EXPECT_EQ(moved.error().code, ProblemCode::out_of_range);
    EXPECT_EQ(moved.error().where.field, "set_out");
  }
}

TEST(StandMove, WhatStandsInTheGroundStaysThoughItsSowingWasNotLogged) {
  for (const auto& take : {+[](stand::StandFacts& facts) { facts.counted_plants = 20; },
                           +[](stand::StandFacts& facts) { facts.emerged = date_of(2026, 5, 10); },
                           +[](stand::StandFacts& facts) { facts.first_picked = date_of(2026, 5, 10); }}) {
    Season season = planned_season();
    take(season.state.stands.front().facts);
    for (const StandMove& move : {StandMove{.bed = "there"}, {.from_m = 3.0}, {.sow = date_of(2026, 6, 9)}}) {
      const auto moved = moved_stand(season, "s1", move);
      ASSERT_FALSE(moved);
      EXPECT_EQ(moved.error().code, ProblemCode::contradiction);
    }
    EXPECT_TRUE(moved_stand(season, "s1", {.from_m = 3.0, .put_right = true}));
  }
}

TEST(StandMove, SeedlingsCountedInTheirTrayMayStillGoElsewhere) {
  Season season = planned_season();
  season.state.stands.front().plan.method = stand::Method::start_indoors;
  season.state.stands.front().facts.counted_plants = 20;
  EXPECT_TRUE(moved_stand(season, "s1", {.from_m = 3.0}));
}

TEST(StandMove, WritesOnlyThePlaceAndTheDaysThatItTells) {
  Season season = planned_season();
  stand::StandPlan& stored = season.garden.stands.front();
  stored.packet = "packet";
  stored.planned_c = 12.0;
  stand::StandPlan& seen = season.state.stands.front().plan;
  // As the log has it: bought as plants, older than the sowing that was planned.
  seen.method = stand::Method::start_indoors;
  seen.sow = date_of(2026, 4, 1);
  season.state.stands.front().facts.set_out = date_of(2026, 5, 10);
  const StandMove move{.bed = "there", .from_m = 0.5, .put_right = true};
  const auto moved = moved_stand(season, "s1", move);
  ASSERT_TRUE(moved) << base::to_text(moved.error());
  EXPECT_EQ(moved->method, stand::Method::start_indoors);
  stand::StandPlan written = stored;
  written.bed = "there";
  written.from_m = 0.5;
  written.to_m = moved->to_m;
  EXPECT_EQ(plan_to_write(season, *moved, move), written);
}

TEST(StandMove, WritesAnotherDayWithoutTheWarmthOfTheOldOne) {
  Season season = planned_season();
  season.garden.stands.front().planned_c = 12.0;
  season.state.stands.front().plan.planned_c = 12.0;
  const StandMove move{.sow = date_of(2026, 6, 9)};
  const auto moved = moved_stand(season, "s1", move);
  ASSERT_TRUE(moved);
  const stand::StandPlan written = plan_to_write(season, *moved, move);
  EXPECT_EQ(written.sow, date_of(2026, 6, 9));
  EXPECT_FALSE(written.planned_c);
}

}  // namespace
}  // namespace sowtide::desk
