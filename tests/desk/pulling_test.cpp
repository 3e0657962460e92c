// From when on what waits in the ground is pulled.
#include "desk/pulling.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "desk/season_text.hpp"
#include "made_up_places.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;

TEST(PulledFrom, IsThePlansDayOrThatOfTheFirstPickingWhereThatIsLater) {
  const base::Date june = date_of(2026, 6, 8);
  book::StandState state;
  stand::Outlook outlook;
  EXPECT_EQ(pulled_from(state, outlook), std::nullopt);
  state.plan.pick_from = date_of(2026, 5, 1);
  EXPECT_EQ(pulled_from(state, outlook), date_of(2026, 5, 1)) << "no picking is expected";
  outlook.events.push_back({"first-pick", june, june, june, 1.0});
  EXPECT_EQ(pulled_from(state, outlook), june);
  state.plan.pick_from = date_of(2026, 11, 1);
  EXPECT_EQ(pulled_from(state, outlook), date_of(2026, 11, 1));
  state.plan.pick_from.reset();
  state.facts.first_picked = date_of(2026, 6, 3);
  EXPECT_EQ(pulled_from(state, outlook), date_of(2026, 6, 3)) << "what was seen goes before what was expected";
}

TEST(PulledWeeks, AreThePlansOrThoseToItsEnd) {
  book::StandState state;
  stand::Outlook outlook;
  state.plan.pick_weeks = 22;
  EXPECT_EQ(pulled_weeks(state, outlook), 22) << "no end is known";
  state.plan.pick_from = date_of(2026, 6, 15);
  const auto ends = [&](base::Date last) {
    outlook.events = {{"last-pick", last, last, last, 1.0}};
    return pulled_weeks(state, outlook);
  };
  EXPECT_EQ(ends(date_of(2026, 8, 10)), 8);
  EXPECT_EQ(ends(date_of(2026, 8, 11)), 9) << "into its ninth week";
  EXPECT_EQ(ends(date_of(2027, 8, 11)), 22);
  EXPECT_EQ(ends(date_of(2026, 6, 15)), 1);
  state.plan.pick_weeks = 0;
  EXPECT_EQ(ends(date_of(2026, 8, 10)), 0) << "each as it is ready";
}

/// Leeks that the plan leaves in the ground until a day, by itself until November.
Season season_of_leeks(base::Date today, const std::vector<book::Event>& events,
                       base::Date pick_from = date_of(2026, 11, 2)) {
  book::GardenDescription garden = garden_of_cool_springs("Test");
  garden.beds.push_back({.id = "b", .name = "Test bed", .length_m = 4.0, .width_m = 1.2});
  stand::StandPlan leeks{.id = "s1", .crop = "leek", .sow = date_of(2026, 4, 10)};
  leeks.clumps = leeks.cells = 30;
  leeks.spacing_mm = 150.0;
  leeks.bed = "b";
  leeks.to_m = 1.0;
  leeks.pick_from = pick_from;
  leeks.pick_weeks = 12;
  garden.stands = {leeks};
  return *make_season(crop::built_in_library(), garden, events, today);
}

TEST(ReadyByItself, TellsWhenAStandThatThePlanHoldsBackIsReady) {
  const Season season = season_of_leeks(date_of(2026, 4, 1), {});
  const auto ready = ready_by_itself(season, 0);
  ASSERT_TRUE(ready);
  EXPECT_LT(ready->p10, ready->p90) << "weather spreads it, the plan's day has no spread";
  EXPECT_LT(ready->p50, date_of(2026, 11, 2));
  const std::string one = outlook_text(season, "s1");
  EXPECT_NE(one.find("picked from"), std::string::npos) << one;
  EXPECT_EQ(one.find("first-pick"), std::string::npos) << one;
  EXPECT_NE(outlook_text(season, "").find("from 2 Nov (ready "), std::string::npos)
      << outlook_text(season, "");
  Season free = season;
  free.memos.clear();
  free.state.stands[0].plan.pick_from.reset();
  EXPECT_FALSE(ready_by_itself(free, 0));
}

// What stands there on the plan's day is picked from then on where it is worth taking, though it is not grown
// yet.
TEST(ReadyByItself, TellsThatAStandIsBegunWithBeforeItIsReady) {
  const base::Date early = date_of(2026, 4, 1);
  const auto grown = ready_by_itself(season_of_leeks(early, {}), 0);
  ASSERT_TRUE(grown);
  const base::Date before = grown->p10 - base::Days{7};
  const auto ready = ready_by_itself(season_of_leeks(early, {}, before), 0);
  ASSERT_TRUE(ready);
  EXPECT_GT(ready->p10, before);
  EXPECT_EQ(ready->p50, grown->p50) << "the plan's day changes nothing in how it grows";
  // A day long before it is worth taking decides nothing: the weather does.
  EXPECT_FALSE(ready_by_itself(season_of_leeks(early, {}, date_of(2026, 5, 20)), 0));
}

// Who has fetched a week's share is asked for no more of what waits until the next one is due.
TEST(LeftOfTheWeek, OfWhatWaitsIsWhatWasNotFetchedInTheLastSevenDays) {
  const base::Date day = date_of(2026, 12, 1);
  book::Event sown{.id = "e1", .date = date_of(2026, 4, 10), .kind = book::EventKind::sown, .stand = "s1"};
  book::Event picked{.id = "e2", .date = day, .kind = book::EventKind::picked, .stand = "s1"};
  const double share_g = left_of_week_g(season_of_leeks(day, {sown}), 0, day).p50;
  ASSERT_GT(share_g, 0.0);
  picked.count = 3.0;
  picked.grams = share_g;
  const auto left_g = [&](int days) {
    const base::Date later = day + base::Days{days};
    return left_of_week_g(season_of_leeks(later, {sown, picked}), 0, later).p50;
  };
  EXPECT_LT(left_g(3), 0.3 * share_g);
  EXPECT_LT(left_g(6), 0.3 * share_g);
  EXPECT_GT(left_g(7), 0.5 * share_g) << "a leek less each week, since three were taken at once";
}

TEST(Outlook, OfAFinishedStandEndsWithWhatWasPicked) {
  book::Event sown{.id = "e1", .date = date_of(2026, 4, 10), .kind = book::EventKind::sown, .stand = "s1"};
  book::Event picked{.id = "e2", .date = date_of(2026, 9, 3), .kind = book::EventKind::picked, .stand = "s1"};
  picked.grams = 900.0;
  book::Event cleared{
      .id = "e3", .date = date_of(2026, 9, 5), .kind = book::EventKind::discarded, .stand = "s1"};
  const Season season = season_of_leeks(date_of(2026, 9, 20), {sown, picked, cleared});
  const auto last = [](const Season& each) {
    return *std::find_if(each.outlooks[0].events.begin(), each.outlooks[0].events.end(),
                         [](const stand::EventOutlook& event) { return event.name == "last-pick"; });
  };
  EXPECT_EQ(last(season).p50, date_of(2026, 9, 3));
  EXPECT_EQ(last(season).p90, date_of(2026, 9, 3));
  EXPECT_EQ(last(season_of_leeks(date_of(2026, 9, 20), {sown, cleared})).probability, 0.0)
      << "nothing was picked";
}

TEST(PlanText, ExplainsItsSharesAndTellsTheLikelyDayOfSettingOut) {
  const book::GardenDescription garden = garden_of_cool_springs("Test");
  plan::Plan plan;
  stand::StandPlan leeks{.id = "s1", .crop = "leek", .sow = date_of(2026, 4, 20)};
  leeks.method = stand::Method::start_indoors;
  leeks.tray = "t";
  leeks.clumps = 8;
  leeks.plants_per_clump = 4.0;
  leeks.spacing_mm = 440.0;
  plan.stands = {leeks};
  plan.reasons["s1"] = {{"stand-brings", {{"from", date_of(2026, 10, 5)}, {"to", date_of(2026, 11, 2)}}},
                        {"goes-out", {{"week", date_of(2026, 6, 15)}, {"set_out", date_of(2026, 6, 18)}}},
                        {"succeeds", {{"success_share", 0.47}}}};
  const auto text_of = [&] { return plan_text(plan, garden, crop::built_in_library(), date_of(2026, 4, 1)); };
  EXPECT_NE(text_of().find(" 18 Jun   8 x 4 at 44 cm"), std::string::npos) << text_of();
  EXPECT_NE(text_of().find("5 Oct to 2 Nov (47 %)"), std::string::npos) << text_of();
  EXPECT_NE(text_of().find("\n(47 %): in so many of the weather years it is worth having.\n"),
            std::string::npos)
      << text_of();
  std::get<double>(plan.reasons["s1"].back().values.front().second) = 0.95;
  EXPECT_EQ(text_of().find("worth having."), std::string::npos) << "a matter of course";
}

TEST(PlanText, NamesAGroupThatIsShortAsItsTableDoes) {
  book::GardenDescription garden = garden_of_cool_springs("Test");
  plan::Want want;
  want.id = "w1";
  want.group = "cooking-greens";
  garden.wants = {want};
  plan::Plan plan;
  plan.wanted_g["w1"] = 1000.0;
  plan.notes = {{{"want-short",
                  {{"want", std::string("cooking-greens")},
                   {"want_id", std::string("w1")},
                   {"met_share", 0.2},
                   {"wanted_g", 1000.0}}},
                 {"beds-taken", {}}}};
  const std::string text = plan_text(plan, garden, crop::built_in_library(), date_of(2026, 4, 1));
  EXPECT_NE(text.find("by what counts more: any cooking greens."), std::string::npos) << text;
  EXPECT_EQ(text.find("cooking-greens"), std::string::npos) << text;
}

}  // namespace
}  // namespace sowtide::desk
