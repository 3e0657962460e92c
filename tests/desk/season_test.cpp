// A season made with what an earlier one found must be the same as one made from nothing, whatever changed
// between.
#include "desk/season.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "desk/json.hpp"
#include "desk/judgement.hpp"
#include "desk/nursery.hpp"
#include "made_up_places.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;

/// Round monthly normals of a mild northern place, made up.
book::GardenDescription small_garden() {
  book::GardenDescription garden = garden_of_warm_summers("Kept");
  garden.beds.push_back({"long", "Long bed", 6.0, 1.2});
  garden.trays.push_back({"sill", "Shelf", 100, 40.0, bed::TrayPlace::indoors, 19.0});
  garden.varieties.push_back({.id = "early", .name = "Early", .crop = "beet", .earliness = 1.0});
  for (int i = 0; i < 4; ++i) {
    stand::StandPlan plan;
    plan.id = "s" + std::to_string(i + 1);
    plan.crop = i == 3 ? "lettuce" : "beet";
    plan.variety = i == 0 ? "early" : "";
    plan.method = i == 2 ? stand::Method::start_indoors : stand::Method::direct_sow;
    plan.tray = i == 2 ? "sill" : "";
    plan.sow = date_of(2026, 4, 10 + i);
    plan.clumps = 20;
    plan.cells = 20;
    plan.spacing_mm = 150.0;
    plan.bed = "long";
    plan.from_m = i;
    plan.to_m = i + 1;
    garden.stands.push_back(plan);
  }
  return garden;
}

book::Event sown(const std::string& id, const std::string& stand, base::Date date) {
  book::Event event;
  event.id = id;
  event.date = date;
  event.kind = book::EventKind::sown;
  event.stand = stand;
  event.count = 40.0;
  return event;
}

class SeasonKept : public ::testing::Test {
 protected:
  /// Makes the season both ways, and tells how many outlooks were worked out with what was kept.
  std::size_t expect_same() {
    const auto fresh = make_season(crop::built_in_library(), garden, events, today);
    const auto kept = make_season(crop::built_in_library(), garden, events, today, &cache);
    EXPECT_TRUE(fresh && kept);
    if (!fresh || !kept) return 0;
    EXPECT_EQ(outlook_json(*fresh), outlook_json(*kept));
    for (const stand::StandPlan& plan : garden.stands)
      EXPECT_EQ(outlook_json(*fresh, plan.id), outlook_json(*kept, plan.id));
    EXPECT_EQ(worklist_json(*fresh, worklist(*fresh)), worklist_json(*kept, worklist(*kept)));
    return cache.computed_count();
  }

  book::GardenDescription garden = small_garden();
  std::vector<book::Event> events;
  base::Date today = date_of(2026, 4, 20);
  SeasonCache cache;
};

TEST_F(SeasonKept, WorksOutOnlyTheStandThatAnEntryTouches) {
  EXPECT_EQ(expect_same(), 4U);
  EXPECT_EQ(expect_same(), 0U);
  events.push_back(sown("e1", "s2", date_of(2026, 4, 12)));
  EXPECT_EQ(expect_same(), 1U);
  book::Event undo;
  undo.id = "e2";
  undo.date = today;
  undo.kind = book::EventKind::corrected;
  undo.target = "e1";
  events.push_back(undo);
  EXPECT_EQ(expect_same(), 1U);
}

TEST_F(SeasonKept, WorksOutWhatAChangeOfThePlanTouches) {
  expect_same();
  garden.stands[1].sow += base::Days{9};
  EXPECT_EQ(expect_same(), 0U) << "what is late is sown today at the earliest, whatever day it was planned for";
  garden.stands[1].sow += base::Days{9};
  EXPECT_EQ(expect_same(), 1U);
  garden.trays[0].temp_c = 15.0;
  EXPECT_EQ(expect_same(), 1U) << "only one stand is raised in the tray";
  const auto in_bed = std::count_if(garden.stands.begin(), garden.stands.end(),
                                    [&](const stand::StandPlan& plan) { return plan.bed == garden.beds[0].id; });
  garden.beds[0].sun = bed::SunClass::partial;
  EXPECT_EQ(expect_same(), static_cast<std::size_t>(in_bed)) << "those in the bed that lies in less sun";
  garden.stands.erase(garden.stands.begin());
  EXPECT_EQ(expect_same(), 0U);
}

TEST_F(SeasonKept, WorksOutEverythingUnderOtherWeatherVarietiesOrPlace) {
  expect_same();
  garden.varieties[0].earliness = 0.8;
  EXPECT_EQ(expect_same(), 4U);
  garden.site.latitude_deg = 45.0;
  EXPECT_EQ(expect_same(), 4U);
  garden.normals->tmin_c[4] -= 2.0;
  EXPECT_EQ(expect_same(), 4U);
  garden.weather.site = garden.site;
  garden.weather.resize(date_of(2026, 1, 1), date_of(2026, 4, 25));
  garden.weather.set(climate::Variable::tmin, date_of(2026, 4, 14), 1.5, climate::ValueOrigin::observed);
  garden.weather.set(climate::Variable::tmax, date_of(2026, 4, 14), 9.5, climate::ValueOrigin::observed);
  EXPECT_EQ(expect_same(), 4U);
  garden.weather.set(climate::Variable::tmax, date_of(2026, 4, 24), 30.0, climate::ValueOrigin::observed);
  EXPECT_EQ(expect_same(), 0U) << "what happens after today is not known today";
}

TEST_F(SeasonKept, LooksAtGardensLongAfterAndLongBeforeTheirStands) {
  for (const int year : {2022, 2029, 2076}) {
    const auto season = make_season(crop::built_in_library(), garden, {}, date_of(year, 6, 1));
    ASSERT_TRUE(season) << year << ": " << base::to_text(season.error());
    EXPECT_LE(season->weather.day_count, 9U * 366U) << year;
    for (const auto& outlook : season->outlooks) {
      for (const auto& event : outlook.events) {
        if (event.probability <= 0.0) continue;
        EXPECT_GE(event.p10, date_of(std::min(year, 2026), 1, 1)) << event.name;
      }
    }
  }
}

TEST_F(SeasonKept, AStandThatIsOverDoesNotHoldUpTheYearAfter) {
  events = {sown("e1", "s1", date_of(2026, 4, 12))};
  events.push_back({.id = "e2",
                    .date = date_of(2026, 7, 1),
                    .kind = book::EventKind::picked,
                    .stand = "s1",
                    .grams = 800.0});
  events.push_back(
      {.id = "e3", .date = date_of(2026, 8, 1), .kind = book::EventKind::discarded, .stand = "s1"});
  today = date_of(2026, 12, 31);
  expect_same();
  const auto before = make_season(crop::built_in_library(), garden, events, today);
  ASSERT_TRUE(before);
  const stand::Outlook& over = before->outlooks[0];
  double taken_g = 0.0;
  for (const stand::WeekOutlook& week : over.weeks) taken_g += week.weight_g.p50;
  EXPECT_DOUBLE_EQ(taken_g, 800.0) << "what was picked is told on";
  ASSERT_FALSE(over.members.weekly_g.empty());
  for (const double grams : over.members.weekly_g) ASSERT_EQ(grams, 0.0) << "nothing more comes";
  for (const int year : {2027, 2029, 2040}) {
    today = date_of(year, 1, 1);
    expect_same();
    const auto season = make_season(crop::built_in_library(), garden, events, today);
    ASSERT_TRUE(season) << year << ": " << base::to_text(season.error());
    EXPECT_TRUE(season->no_outlook.empty()) << year;
  }
}

TEST_F(SeasonKept, AStandThatWasOnlyCountedIsSeenFromLongAfter) {
  events.push_back({.id = "e1",
                    .date = date_of(2026, 5, 9),
                    .kind = book::EventKind::counted,
                    .stand = "s1",
                    .count = 20.0});
  events.push_back({.id = "e2",
                    .date = date_of(2026, 5, 9),
                    .kind = book::EventKind::counted,
                    .stand = "s2",
                    .count = 3.0});
  today = date_of(2029, 1, 1);
  const auto season = make_season(crop::built_in_library(), garden, events, today);
  ASSERT_TRUE(season) << base::to_text(season.error());
  EXPECT_TRUE(season->no_outlook.empty());
  EXPECT_EQ(as_seen(*season, season->state.stands[1]).plan.sow, season->weather.first)
      << "counted: it was sown";
  EXPECT_DOUBLE_EQ(season->outlooks[0].events.front().probability, 1.0) << "what was counted came up";
}

TEST_F(SeasonKept, OneStandOfFarYearsHoldsUpNoOther) {
  garden.stands[1].sow = date_of(2050, 4, 1);
  expect_same();
  const auto season = make_season(crop::built_in_library(), garden, events, today);
  ASSERT_TRUE(season) << base::to_text(season.error());
  ASSERT_EQ(season->no_outlook.size(), 1U);
  EXPECT_NE(season->no_outlook.at("s2").what.find("2050-04-01"), std::string::npos);
  EXPECT_LE(season->weather.day_count, 2U * 366U) << "no weather is made up for it";
  EXPECT_GT(season->outlooks[0].success, 0.5);
  EXPECT_NE(outlook_json(*season, "s2").find("\"no_outlook\""), std::string::npos);
  EXPECT_EQ(outlook_json(*season, "s1").find("\"no_outlook\""), std::string::npos);
  const auto refused = check_reach(garden, today);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().where.field, "stands[1].sow");
  garden.stands[2].sow = date_of(2050, 3, 1);
  const auto raised = make_season(crop::built_in_library(), garden, events, today);
  ASSERT_TRUE(raised);
  EXPECT_TRUE(nursery_view(*raised)) << "one that would be raised in a tray";
  EXPECT_TRUE(judge_stands(*raised, "", today));
  garden.stands[2].sow = date_of(2026, 4, 12);
  garden.stands[1].sow = farthest_sowing(today);
  EXPECT_TRUE(check_reach(garden, today));
}

TEST_F(SeasonKept, TriesAPlanAsItWouldComeOut) {
  const auto season = make_season(crop::built_in_library(), garden, events, today);
  ASSERT_TRUE(season);
  stand::StandPlan moved = garden.stands[3];
  moved.sow += base::Days{30};
  const auto tried = with_plan_tried(*season, moved);
  ASSERT_TRUE(tried);
  garden.stands[3] = moved;
  const auto kept = make_season(crop::built_in_library(), garden, events, today);
  ASSERT_TRUE(kept);
  EXPECT_EQ(outlook_json(*tried, "s4"), outlook_json(*kept, "s4"));
  moved.id = "nobody";
  EXPECT_EQ(with_plan_tried(*season, moved).error().code, base::ProblemCode::not_found);
}

}  // namespace
}  // namespace sowtide::desk
