// Pull or wait for a garden's stands: what the kitchen and the next stand bring in, and the form of the
// answers.
#include "desk/judgement.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "desk/json.hpp"
#include "desk/pulling.hpp"
#include "desk/season_text.hpp"
#include "desk/standing.hpp"
#include "desk/supply.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::json;

stand::StandPlan stand_of(const char* id, const char* crop, base::Date sow, double spacing_mm) {
  stand::StandPlan plan;
  plan.id = std::string(id) + "-1";
  plan.crop = crop;
  plan.sow = sow;
  plan.clumps = 30;
  plan.spacing_mm = spacing_mm;
  plan.bed = "long";
  plan.from_m = 0.0;
  plan.to_m = 2.0;
  return plan;
}

/// The log of stands that were sown on their days.
std::vector<book::Event> all_sown(const std::vector<stand::StandPlan>& stands) {
  std::vector<book::Event> events;
  for (const stand::StandPlan& plan : stands) {
    book::Event sown;
    sown.id = "sown-" + plan.id;
    sown.kind = book::EventKind::sown;
    sown.stand = plan.id;
    sown.date = plan.sow;
    sown.sequence = static_cast<std::int64_t>(events.size()) + 1;
    events.push_back(sown);
  }
  return events;
}

/// An invented garden: beets in clumps of three, lettuce to follow on the same ground, 600 g of beets wanted
/// a week.
Season season_on(base::Date today, std::vector<book::Event> more = {}) {
  book::GardenDescription garden;
  garden.name = "Judged";
  garden.site.name = "Northmere";
  garden.site.latitude_deg = 47.5;
  climate::MonthlyNormals normals;
  normals.tmax_c = {6, 8, 11, 14, 18, 21, 24, 24, 21, 15, 10, 7};
  normals.tmin_c = {0, 0, 2, 4, 7, 10, 12, 12, 9, 6, 3, 1};
  normals.precip_mm = {60, 50, 50, 45, 55, 50, 30, 30, 45, 75, 80, 80};
  garden.normals = normals;
  bed::Bed bed;
  bed.id = "long";
  bed.length_m = 4.0;
  bed.width_m = 1.2;
  garden.beds = {bed};
  plan::Want want;
  want.id = "roots";
  want.crop = "beet";
  want.amount_per_week = 600.0;
  garden.wants = {want};
  auto beets = stand_of("beets", "beet", base::date_of(2026, 5, 1), 240.0);
  beets.plants_per_clump = 3.0;
  garden.stands = {beets, stand_of("salad", "lettuce", base::date_of(2026, 7, 20), 280.0)};
  std::vector<book::Event> events(1);
  events[0].id = "sown";
  events[0].kind = book::EventKind::sown;
  events[0].stand = "beets-1";
  events[0].date = base::date_of(2026, 5, 1);
  events.insert(events.end(), more.begin(), more.end());
  for (std::size_t i = 0; i < events.size(); ++i) events[i].sequence = static_cast<std::int64_t>(i) + 1;
  return *make_season(crop::built_in_library(), garden, events, today);
}

const base::Date kToday = base::date_of(2026, 7, 10);

TEST(Judgement, KnowsTheKitchenAndWhatWaitsForTheGround) {
  const Season season = season_on(kToday);
  const auto judged = judge_stands(season, {}, kToday);
  ASSERT_TRUE(judged);
  ASSERT_EQ(judged->size(), 1U);  // the lettuce is not sown yet
  const JudgedStand& beets = judged->front();
  EXPECT_NEAR(beets.needs.kitchen_short_g, 600.0, 1e-9);
  EXPECT_EQ(beets.short_wants, std::vector<std::string>{"roots"});
  EXPECT_EQ(beets.next_stand, "salad-1");
  EXPECT_EQ(beets.needs.next_from, base::date_of(2026, 7, 20));
  EXPECT_GE(beets.needs.ground_worth_g_per_week, 0.0);
  EXPECT_DOUBLE_EQ(beets.judgement.options[1].ground_cost_g, 0.0);
}

// Beet leaves are cooking greens: they are offered for a wish that lacks some, until they were cut this week.
TEST(Judgement, LeavesOfRootsAreOfferedForCookingGreens) {
  const auto greens_said = [](std::vector<book::Event> more, const char* group) {
    Season season = season_on(kToday, std::move(more));
    plan::Want want;
    want.id = "leaf";
    want.group = group;
    want.amount_per_week = 700.0;
    season.garden.wants.push_back(want);
    const JudgedStand judged = judge_stands(season, "beets-1", kToday)->front();
    EXPECT_TRUE(judged.judgement.greens);
    const auto& reasons = judged.judgement.reasons;
    const bool said = std::any_of(reasons.begin(), reasons.end(),
                                  [](const Message& each) { return each.key == "leaves-for-kitchen"; });
    EXPECT_EQ(said, judged.needs.greens_short_g > 0.0);
    return judged.needs.greens_short_g;
  };
  EXPECT_NEAR(greens_said({}, "cooking-greens"), 700.0, 1e-9) << "nothing else gives any";
  EXPECT_EQ(greens_said({}, "heads"), 0.0);
  book::Event cut;
  cut.id = "cut";
  cut.kind = book::EventKind::picked;
  cut.stand = "beets-1";
  cut.text = "leaves";
  cut.grams = 200.0;
  cut.date = kToday - base::Days{1};  // a Thursday
  EXPECT_EQ(greens_said({cut}, "cooking-greens"), 0.0) << "it gave its share this week";
  cut.date = kToday - base::Days{7};
  EXPECT_NEAR(greens_said({cut}, "cooking-greens"), 700.0, 1e-9) << "that was last week";
}

TEST(Judgement, OneLackOfGreensIsAskedOfOneStand) {
  Season season = season_on(kToday);
  book::GardenDescription garden = season.garden;
  garden.stands = {stand_of("a", "beet", base::date_of(2026, 5, 1), 240.0),
                   stand_of("b", "beet", base::date_of(2026, 5, 1), 240.0)};
  garden.stands[1].clumps = 40;
  plan::Want want;
  want.id = "leaf";
  want.group = "cooking-greens";
  want.amount_per_week = 700.0;
  garden.wants.push_back(want);
  season = *make_season(crop::built_in_library(), garden, all_sown(garden.stands), kToday);
  const auto judged = judge_stands(season, {}, kToday);
  ASSERT_TRUE(judged);
  ASSERT_EQ(judged->size(), 2U);
  EXPECT_EQ(judged->at(0).needs.greens_short_g, 0.0);
  EXPECT_NEAR(judged->at(1).needs.greens_short_g, 700.0, 1e-9) << "it has more plants";
}

// Three stands of potatoes that are lifted weeks from now: the lack of this week is one, not three.
TEST(Judgement, ALackIsAskedOfTheReadiestStandAlone) {
  Season season = season_on(kToday);
  book::GardenDescription garden = season.garden;
  garden.stands = {stand_of("a", "potato", base::date_of(2026, 4, 20), 300.0),
                   stand_of("b", "potato", base::date_of(2026, 4, 20), 300.0),
                   stand_of("c", "potato", base::date_of(2026, 4, 20), 300.0)};
  garden.wants.front().crop = "potato";
  season = *make_season(crop::built_in_library(), garden, all_sown(garden.stands), kToday);
  const auto judged = judge_stands(season, {}, kToday);
  ASSERT_TRUE(judged);
  ASSERT_EQ(judged->size(), 3U);
  double short_g = 0.0;
  for (const JudgedStand& each : *judged) short_g += each.needs.kitchen_short_g;
  EXPECT_NEAR(short_g, 600.0, 1e-9) << "a week's want";
  EXPECT_GT(judged->front().needs.kitchen_short_g, 0.0) << "of equals the first";
}

TEST(Judgement, WhatIsRottenInStoreFeedsNobody) {
  const auto lacks = [](base::Date stored) {
    book::Event lot;
    lot.id = "lot";
    lot.kind = book::EventKind::stored;
    lot.stand = "beets-1";
    lot.date = stored;
    lot.grams = 200.0;
    lot.text = "kitchen";
    return judge_stands(season_on(kToday, {lot}), "beets-1", kToday)->front().needs.kitchen_short_g;
  };
  EXPECT_NEAR(lacks(kToday), 400.0, 1e-9) << "of 600 g wanted";
  EXPECT_NEAR(lacks(base::date_of(2026, 5, 2)), 600.0, 5.0)
      << "ten weeks in the kitchen, where beets keep for days";
}

// kToday is a Friday: what was picked from its Monday on has fed the week, what was stored of it lies in
// store.
TEST(Judgement, WhatWasPickedThisWeekMeetsItsWant) {
  const auto lacks = [](const std::vector<book::Event>& events) {
    const Season season = season_on(kToday, events);
    const JudgedStand judged = judge_stands(season, "beets-1", kToday)->front();
    // The walk of the table has one rule with it.
    EXPECT_NEAR(lacking_in_week(season, kToday, "beets-1").front(), judged.needs.kitchen_short_g, 1e-9);
    return judged.needs.kitchen_short_g;
  };
  const auto entry = [](const char* id, book::EventKind kind, int day, double grams) {
    book::Event made{.id = id, .date = base::date_of(2026, 7, day), .kind = kind, .stand = "beets-1"};
    made.grams = grams;
    if (kind == book::EventKind::stored) made.text = "fridge";
    return made;
  };
  using book::EventKind;
  EXPECT_NEAR(lacks({entry("p", EventKind::picked, 10, 250.0)}), 350.0, 1e-9) << "today";
  EXPECT_NEAR(lacks({entry("p", EventKind::picked, 6, 250.0)}), 350.0, 1e-9) << "on Monday";
  EXPECT_NEAR(lacks({entry("p", EventKind::picked, 5, 250.0)}), 600.0, 1e-9) << "the week before";
  EXPECT_NEAR(lacks({entry("p", EventKind::picked, 10, 250.0), entry("s", EventKind::stored, 10, 250.0)}),
              350.0, 1e-9)
      << "once, not twice";
  EXPECT_NEAR(lacks({entry("p", EventKind::picked, 8, 250.0), entry("d", EventKind::discarded, 8, 250.0)}),
              600.0, 1e-9)
      << "thrown away";
  EXPECT_NEAR(lacks({entry("p", EventKind::picked, 8, 250.0), entry("s", EventKind::stored, 8, 250.0),
                     entry("e", EventKind::eaten, 9, 250.0)}),
              350.0, 1e-9)
      << "eaten out of the store this week";
}

TEST(Judgement, AWeighedSampleAndAPullInTheLogShiftIt) {
  const auto now = [](const std::vector<book::Event>& events) {
    return judge_stands(season_on(kToday, events), "beets-1", kToday)->front().judgement.options.front();
  };
  const auto before = now({});
  book::Event measured;
  measured.id = "m";
  measured.kind = book::EventKind::measured;
  measured.stand = "beets-1";
  measured.date = kToday;
  measured.grams = 2.0 * before.plant_g.p50;
  const auto heavier = now({measured});
  EXPECT_NEAR(heavier.plant_g.p50 / before.plant_g.p50, 2.0, 0.2);
  book::Event picked = measured;
  picked.id = "p";
  picked.kind = book::EventKind::picked;
  picked.count = 30.0;
  EXPECT_LT(now({picked}).usable_g, before.usable_g);
}

/// Mean weight of a plant today by every answer that tells it: outlook, judgement, picture.
void expect_one_weight(const std::vector<book::Event>& more, base::Date today) {
  const Season season = season_on(today, more);
  const Json outlook = Json::parse(outlook_json(season, "beets-1"));
  const Json& fan = outlook.at("stands").at(0).at("fan");
  const base::Date first = *base::parse_iso_date(fan.at("first").get<std::string>());
  const double by_outlook = fan.at("p50").at(static_cast<std::size_t>((today - first).count()));
  const Json judged = Json::parse(judge_json(season, *judge_stands(season, "beets-1", today), today));
  const Json picture = Json::parse(*picture_json(season, "beets-1", {.from = today, .to = today}));
  ASSERT_GT(by_outlook, 0.0);
  EXPECT_NEAR(judged.at("stands").at(0).at("options").at(0).at("plant_g").at("p50"), by_outlook, 0.02);
  EXPECT_NEAR(picture.at("days").at(0).at("plant_g").at("p50"), by_outlook, 0.02);
}

book::Event entry_of_beets(book::EventKind kind, base::Date date) {
  book::Event event;
  event.id = "told";
  event.kind = kind;
  event.stand = "beets-1";
  event.date = date;
  return event;
}

TEST(Judgement, APlantWeighsTheSameByEveryAnswer) {
  const base::Date today = base::date_of(2026, 8, 20);
  expect_one_weight({}, today);
  book::Event picked = entry_of_beets(book::EventKind::picked, base::date_of(2026, 8, 1));
  picked.count = 40.0;
  picked.grams = 3000.0;
  expect_one_weight({picked}, today);
  expect_one_weight({picked}, base::date_of(2026, 8, 1));
}

TEST(Judgement, RowsFurtherApartThanTheSpacingGiveLargerPlants) {
  book::Event sown = entry_of_beets(book::EventKind::sown, base::date_of(2026, 5, 2));
  sown.text = "rows 40 cm";
  const auto weight = [](const Season& season) {
    return judge_stands(season, "beets-1", season.today)->front().judgement.options[0].plant_g.p50;
  };
  const base::Date today = base::date_of(2026, 7, 20);
  const Season rows = season_on(today, {sown});
  EXPECT_GT(weight(rows), 1.05 * weight(season_on(today)));
  EXPECT_EQ(bed_place(rows.garden, rows.state.stands[0].plan).rows_across, 3);  // 1.2 m at 40 cm
  const Json told = Json::parse(outlook_json(rows, "beets-1")).at("stands").at(0);
  EXPECT_EQ(told.at("arrangement"), "rows");
  EXPECT_DOUBLE_EQ(told.at("row_spacing_mm"), 400.0);
  expect_one_weight({sown}, today);
}

TEST(Judgement, PastWeeksOfAnOutlookShowWhatWasLogged) {
  book::Event picked = entry_of_beets(book::EventKind::picked, base::date_of(2026, 8, 5));
  picked.grams = 700.0;
  const base::Date today = base::date_of(2026, 8, 20);
  const Json outlook = Json::parse(outlook_json(season_on(today, {picked}), "beets-1"));
  double before = 0.0;
  double after = 0.0;
  for (const Json& week : outlook.at("stands").at(0).at("weeks")) {
    const bool past = week.at("week_start").get<std::string>() < "2026-08-17";
    (past ? before : after) += week.at("weight_g").at("p50").get<double>();
  }
  EXPECT_NEAR(before, 700.0, 0.1);
  EXPECT_GT(after, 0.0);
}

TEST(Judgement, TheRestOfAWeekLeavesOutWhatWasPickedToday) {
  const base::Date today = base::date_of(2026, 8, 5);
  book::Event picked = entry_of_beets(book::EventKind::picked, today);
  picked.count = 10.0;
  picked.grams = 700.0;
  const Season season = season_on(today, {picked});
  const base::Quantiles whole = stand::week_ahead_g(season.outlooks[0], today);
  EXPECT_DOUBLE_EQ(picked_in_days_g(season, 0, today, 1), 700.0);
  EXPECT_DOUBLE_EQ(picked_in_days_g(season, 0, today - base::Days{1}, 1), 0.0);
  EXPECT_DOUBLE_EQ(picked_in_days_g(season, 0, today + base::Days{6}, 7), 700.0);
  EXPECT_DOUBLE_EQ(picked_in_days_g(season, 0, today + base::Days{7}, 7), 0.0);
  EXPECT_GE(whole.p50, 700.0) << "the week of an outlook has in it what was picked on its day";
  EXPECT_NEAR(left_of_week_g(season, 0, today).p50, whole.p50 - 700.0, 1e-9);
}

TEST(Judgement, AnOutlookTellsTheDayOfSowingByTheLog) {
  const Json before = Json::parse(outlook_json(season_on(kToday), "salad-1")).at("stands").at(0);
  EXPECT_TRUE(before.at("sown").is_null());
  EXPECT_TRUE(before.at("set_out_on").is_null());
  book::Event sown = entry_of_beets(book::EventKind::sown, base::date_of(2026, 7, 9));
  sown.stand = "salad-1";
  const Json told = Json::parse(outlook_json(season_on(kToday, {sown}), "salad-1")).at("stands").at(0);
  EXPECT_EQ(told.at("sown"), "2026-07-09");
  EXPECT_NE(told.at("sow"), told.at("sown")) << "the planned day stays what it was";
}

TEST(Outlook, TellsThePlantsBySizeOnAnyDay) {
  const Season season = season_on(kToday);
  const auto large = [&](std::optional<base::Date> on) {
    const Json standing = Json::parse(outlook_json(season, "beets-1", on)).at("stands").at(0).at("standing");
    EXPECT_EQ(standing.at("date"), base::to_iso(on.value_or(kToday)));
    EXPECT_EQ(standing.at("sizes").size(), 4U);
    return standing.at("sizes").at(2).at("plants").at("p50").get<double>();
  };
  EXPECT_GT(large(kToday + base::Days{28}), large({}));
  const std::string text = outlook_text(season, "beets-1", kToday + base::Days{28});
  EXPECT_NE(text.find("On 7 Aug, left alone until then"), std::string::npos) << text;
  EXPECT_NE(text.find("over-size"), std::string::npos) << text;
  EXPECT_TRUE(Json::parse(outlook_json(season, "beets-1", base::date_of(2026, 4, 1)))
                  .at("stands")
                  .at(0)
                  .at("standing")
                  .is_null());
  EXPECT_FALSE(standing_on(season, 0, base::date_of(2026, 4, 1))) << "before its sowing";
  EXPECT_FALSE(Json::parse(outlook_json(season)).at("stands").at(0).contains("standing"));
}

TEST(Judgement, ThePictureReachesToTheLastPicking) {
  const Season season = season_on(kToday);
  const Json last = Json::parse(outlook_json(season, "beets-1")).at("stands").at(0).at("events").back();
  ASSERT_EQ(last.at("name"), "last-pick");
  const Json picture = Json::parse(*picture_json(season, "beets-1", {.step_days = 1}));
  EXPECT_EQ(picture.at("days").back().at("date"), last.at("p90"));
  EXPECT_EQ(picture.at("style"), "once");
  EXPECT_EQ(picture.at("days").at(0).at("stands").size(), picture.at("days").at(0).at("weight_g").size());
}

TEST(Judgement, AnswersInJson) {
  const Season season = season_on(kToday);
  const auto judged = judge_stands(season, "beets-1", kToday);
  ASSERT_TRUE(judged);
  const Json answer = Json::parse(judge_json(season, *judged, kToday));
  const Json& stand = answer.at("stands").at(0);
  EXPECT_EQ(stand.at("options").size(), 4U);
  EXPECT_EQ(stand.at("next").at("stand"), "salad-1");
  EXPECT_TRUE(stand.at("options").at(0).at("diameter_mm").at("p50").is_number());
  const std::string text = judge_text(season, *judged, kToday);
  EXPECT_NE(text.find("Of a clump the heaviest first: "), std::string::npos) << text;
  EXPECT_NE(text.find("means over the weather years"), std::string::npos) << text;

  const Json picture = Json::parse(*picture_json(season, "beets-1", {.clumps = 6}));
  EXPECT_EQ(picture.at("clumps"), 6);
  EXPECT_EQ(picture.at("days").at(0).at("date"), "2026-07-10");
  EXPECT_EQ(picture.at("days").at(0).at("weight_g").size(), 18U);

  const Json trial =
      Json::parse(*trial_json(season, "beets-1", {.date = kToday, .largest_per_clump = 1}, {}));
  EXPECT_NEAR(trial.at("taken_plants").get<double>(), 30.0, 0.01);
  EXPECT_EQ(trial.at("before").size(), trial.at("rest_gain_g").size());
}

TEST(Judgement, WhatIsOverByTheLogIsNotJudged) {
  book::Event gone;
  gone.id = "gone";
  gone.stand = "beets-1";
  gone.date = base::date_of(2026, 7, 1);
  const auto said = [&] {
    const Season season = season_on(kToday, {gone});
    const auto judged = judge_stands(season, "beets-1", kToday);
    EXPECT_TRUE(Json::parse(judge_json(season, *judged, kToday)).at("stands").at(0).at("options").empty());
    return judge_text(season, *judged, kToday);
  };
  gone.kind = book::EventKind::discarded;
  EXPECT_EQ(said(), "beets-1 Beet, long: over\n  Over since 1 Jul.\n");
  gone.kind = book::EventKind::picked;
  gone.text = "all";
  EXPECT_EQ(said(), "beets-1 Beet, long: over\n  Over since 1 Jul.\n");
}

TEST(Judgement, WhatStandsInItsTrayIsJudgedAsSetOutOrAsTooLate) {
  const Season season = season_on(kToday);
  book::GardenDescription garden = season.garden;
  garden.trays.push_back({.id = "t", .name = "Tray", .cells = 60, .temp_c = 19.0});
  for (stand::StandPlan& plan : garden.stands) {
    plan.method = stand::Method::start_indoors;
    plan.tray = "t";
    plan.cells = plan.clumps;
  }
  book::Event sown;
  sown.id = "sown";
  sown.sequence = 1;
  sown.kind = book::EventKind::sown;
  sown.stand = "beets-1";
  sown.date = base::date_of(2026, 5, 1);
  const auto judged_on = [&](base::Date day) {
    const Season tray = *make_season(crop::built_in_library(), garden, {sown}, day);
    return judge_stands(tray, "beets-1", day)->front().judgement;
  };
  EXPECT_EQ(judged_on(base::date_of(2026, 5, 10)).reasons.front().key, "judged-as-set-out");
  const stand::Judgement late = judged_on(base::date_of(2026, 9, 20));
  EXPECT_EQ(late.advice, "clear");
  EXPECT_EQ(late.reasons.front().key, "tray-too-late") << "as today's work has it";
}

TEST(Judgement, RefusesWhatIsNotThere) {
  const Season season = season_on(kToday);
  EXPECT_EQ(judge_stands(season, "none", kToday).error().code, base::ProblemCode::not_found);
  EXPECT_FALSE(judge_stands(season, "beets-1", base::date_of(2026, 4, 1)));
  EXPECT_FALSE(picture_json(season, "beets-1", {.clumps = 500}));
  EXPECT_TRUE(judge_stands(season, {}, base::date_of(2026, 4, 1))->empty());
}

}  // namespace
}  // namespace sowtide::desk
