// Stands that the grower puts in by hand: where they find room, what the log says of them, what is refused.
#include "desk/own_stand.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <tuple>

#include "made_up_places.hpp"
#include "stand/bought.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;
using base::ProblemCode;

const base::Date kToday = date_of(2026, 5, 20);

/// Two beds, of which the first metre and a half of the long one is taken all summer.
book::GardenDescription garden_of_two_beds() {
  book::GardenDescription garden = garden_of_warm_summers("Own");
  garden.beds.push_back({"long", "Long bed", 4.0, 1.2});
  garden.beds.push_back({"short", "Short bed", 1.0, 1.2});
  garden.trays.push_back({"sill", "Shelf", 100, 40.0, bed::TrayPlace::indoors, 19.0});
  stand::StandPlan carrots;
  carrots.id = "s7";
  carrots.crop = "carrot";
  carrots.sow = date_of(2026, 5, 1);
  carrots.clumps = 200;
  carrots.spacing_mm = 60.0;
  carrots.bed = "long";
  carrots.to_m = 1.5;
  garden.stands.push_back(carrots);
  return garden;
}

base::Result<MadeStand> made(const OwnStand& told) {
  return make_own_stand(crop::built_in_library(), garden_of_two_beds(), {}, kToday, told);
}

OwnStand radishes() {
  return {.crop = "radish", .variety = {}, .bed = "long", .clumps = 40, .day = kToday, .tray = {}};
}

TEST(OwnStand, IsSownWhereThereIsRoomAndWrittenDown) {
  const auto stand = made(radishes());
  ASSERT_TRUE(stand) << base::to_text(stand.error());
  EXPECT_EQ(stand->plan.id, "s8");
  EXPECT_GE(stand->plan.from_m, 1.5);
  EXPECT_LE(stand->plan.to_m, 4.0);
  ASSERT_EQ(stand->entries.size(), 1U);
  EXPECT_EQ(stand->entries.front().kind, book::EventKind::sown);
  EXPECT_EQ(stand->entries.front().date, kToday);
  EXPECT_EQ(stand->season.state.stands.back().facts.sown, kToday);
  EXPECT_GT(stand->season.outlooks.back().success, 0.5);
}

TEST(OwnStand, TakesTheLengthThatAPlanWouldGiveIt) {
  OwnStand told = radishes();
  told.spacing_mm = 100.0;
  told.clumps = 30;  // twelve beside each other: two rows and a half
  const auto stand = made(told);
  ASSERT_TRUE(stand) << base::to_text(stand.error());
  EXPECT_NEAR(stand->plan.to_m - stand->plan.from_m, 0.25, 1e-9);
  told.spacing_mm = 3000.0;
  const auto wide = made(told);
  ASSERT_FALSE(wide);
  EXPECT_EQ(wide.error().where.field, "bed") << wide.error().what;
}

TEST(OwnStand, OfNumbersThatNoStandHasIsRefused) {
  const auto refused = [](const OwnStand& told) {
    const auto stand = made(told);
    return stand ? std::string("made") : stand.error().where.field;
  };
  for (const double spacing_mm : {1e-3, 9.9, 5001.0, -100.0}) {
    OwnStand told = radishes();
    told.spacing_mm = spacing_mm;
    EXPECT_EQ(refused(told), "spacing_mm") << spacing_mm;
  }
  for (const double plants : {0.0, 1e-3, 0.99, 12.1}) {
    OwnStand told = radishes();
    told.plants_per_clump = plants;
    EXPECT_EQ(refused(told), "plants_per_clump") << plants;
  }
  for (const int clumps : {0, -4, 100001}) {
    OwnStand told = radishes();
    told.clumps = clumps;
    EXPECT_EQ(refused(told), "clumps") << clumps;
  }
}

TEST(OwnStand, IsPutInAsFarAheadAsItCanBeMovedAndNoFarther) {
  OwnStand told = radishes();
  told.day = kToday + kFarthestAhead;
  const auto last = made(told);
  EXPECT_TRUE(last) << base::to_text(last.error());
  told.day += base::Days{1};
  const auto beyond = made(told);
  ASSERT_FALSE(beyond);
  EXPECT_EQ(beyond.error().code, ProblemCode::out_of_range) << beyond.error().what;
  EXPECT_EQ(beyond.error().where.field, "day");
}

TEST(OwnStand, BoughtPlantsAreSetOutAndNotSown) {
  OwnStand told{
      .crop = "leek", .variety = {}, .bed = "long", .clumps = 24, .day = kToday, .bought = true, .tray = {}};
  const auto stand = made(told);
  ASSERT_TRUE(stand) << base::to_text(stand.error());
  const stand::StandFacts& facts = stand->season.state.stands.back().facts;
  EXPECT_EQ(facts.set_out, kToday);
  EXPECT_FALSE(facts.sown);
  EXPECT_EQ(facts.counted_plants, 24);
  EXPECT_EQ(stand->plan.pick_weeks, 20) << "leeks wait in the ground for a winter";
  told.crop = "carrot";
  EXPECT_EQ(made(told).error().code, ProblemCode::contradiction) << "carrots bear no setting out";
}

TEST(OwnStand, PlantsToBuyOnADayToComeArePlanned) {
  const base::Date day = kToday + base::Days{10};
  const OwnStand told{
      .crop = "leek", .variety = {}, .bed = "long", .clumps = 24, .day = day, .bought = true, .tray = {}};
  const auto stand = made(told);
  ASSERT_TRUE(stand) << base::to_text(stand.error());
  EXPECT_TRUE(stand::bought_as_plants(stand->plan));
  EXPECT_EQ(stand->plan.set_out, day);
  EXPECT_LT(stand->plan.sow, kToday - base::Days{30}) << "leeks are raised for weeks";
  EXPECT_EQ(stand->plan.cells, 0);
  EXPECT_EQ(stand->entries.front().kind, book::EventKind::noted);
  EXPECT_EQ(stand->entries.front().date, kToday);
  EXPECT_EQ(stand->season.state.stands.back().facts, stand::StandFacts{});
  const auto& events = stand->season.outlooks.back().events;
  const auto set_out = std::find_if(events.begin(), events.end(),
                                    [](const stand::EventOutlook& event) { return event.name == "set-out"; });
  ASSERT_NE(set_out, events.end());
  EXPECT_EQ(set_out->p10, day);
  EXPECT_EQ(set_out->p90, day);
  const auto up = std::find_if(events.begin(), events.end(),
                               [](const stand::EventOutlook& event) { return event.name == "emerge"; });
  ASSERT_NE(up, events.end());
  EXPECT_EQ(up->probability, 0.0) << "they come up where they are bought";
  EXPECT_GT(stand->season.outlooks.back().success, 0.5);
}

// A caution, not a refusal: growers try it.
TEST(OwnStand, SaysWhereTheBedHasLessSunThanTheCropAsksFor) {
  book::GardenDescription garden = garden_of_two_beds();
  const auto said = [&](const char* crop, bed::SunClass sun) {
    garden.beds[0].sun = sun;
    OwnStand told = radishes();
    told.crop = crop;
    told.clumps = 4;
    const auto stand = make_own_stand(crop::built_in_library(), garden, {}, kToday, told);
    EXPECT_TRUE(stand) << base::to_text(stand.error());
    return stand && !stand->sun_said.empty() ? messages_text(stand->sun_said, Units::metric, kToday) : std::string();
  };
  EXPECT_EQ(said("bush-bean", bed::SunClass::full), "");
  EXPECT_EQ(said("bush-bean", bed::SunClass::partial),
            "it needs 6 hours of direct sun a day or more, and Long bed has less than 6: it will give less, and later");
  EXPECT_EQ(said("bush-bean", bed::SunClass::shade),
            "it needs 6 hours of direct sun a day or more, and Long bed has less than 3: it will give less, and later");
  EXPECT_EQ(said("lettuce", bed::SunClass::partial), "");
  EXPECT_EQ(said("lettuce", bed::SunClass::shade),
            "it needs 3 hours of direct sun a day or more, and Long bed has less than 3: it will give less, and later");
}

TEST(OwnStand, OfADayToComeIsANoteSoThatAPlanLeavesItAlone) {
  OwnStand told = radishes();
  told.day = kToday + base::Days{10};
  const auto stand = made(told);
  ASSERT_TRUE(stand) << base::to_text(stand.error());
  EXPECT_EQ(stand->entries.front().kind, book::EventKind::noted);
  EXPECT_EQ(stand->entries.front().date, kToday);
  EXPECT_FALSE(stand->season.state.stands.back().facts.sown);
}

TEST(OwnStand, OfAutumnBeforeIsSeenFromThere) {
  OwnStand told{
      .crop = "garlic", .variety = {}, .bed = "long", .clumps = 30, .day = date_of(2025, 10, 15), .tray = {}};
  const auto stand = made(told);
  ASSERT_TRUE(stand) << base::to_text(stand.error());
  EXPECT_EQ(stand->season.state.stands.back().facts.sown, told.day);
}

TEST(OwnStand, TakesTheCropByItsOtherNames) {
  OwnStand told = radishes();
  told.crop = "zucchini";
  told.clumps = 1;
  told.bought = true;
  const auto stand = made(told);
  ASSERT_TRUE(stand) << base::to_text(stand.error());
  EXPECT_EQ(stand->plan.crop, "courgette");
}

TEST(OwnStand, BeginningBeyondItsBedIsToldOfItsPlaceInTheUnitsOfTheGarden) {
  book::GardenDescription garden = garden_of_two_beds();
  garden.units = "us";
  OwnStand told{.crop = "radish", .bed = "long", .clumps = 20, .day = kToday};
  told.from_m = 9.0 * 0.3048 * 2.0;
  const auto beyond = make_own_stand(crop::built_in_library(), garden, {}, kToday, told);
  ASSERT_FALSE(beyond);
  EXPECT_EQ(beyond.error().where.field, "from_m");
  EXPECT_TRUE(beyond.error().what.starts_with("18 ft to 18 ft ")) << beyond.error().what;
  told.from_m.reset();
  told.clumps = 2000;
  const auto many = make_own_stand(crop::built_in_library(), garden, {}, kToday, told);
  ASSERT_FALSE(many);
  EXPECT_EQ(many.error().where.field, "clumps");
  EXPECT_TRUE(many.error().what.ends_with(" ft of Long bed, which is 13 ft 1 in long") ||
              many.error().what.ends_with(" in of Long bed, which is 13 ft 1 in long"))
      << many.error().what;
}

TEST(OwnStand, IsNotPutOntoAnother) {
  book::GardenDescription garden = garden_of_two_beds();
  book::Event sown{.id = "e1", .date = date_of(2026, 5, 1), .kind = book::EventKind::sown, .stand = "s7"};
  OwnStand told = radishes();
  told.from_m = 0.5;
  const auto onto = make_own_stand(crop::built_in_library(), garden, {sown}, kToday, told);
  ASSERT_FALSE(onto);
  EXPECT_EQ(onto.error().where.field, "from_m");
  EXPECT_TRUE(make_own_stand(crop::built_in_library(), garden, {}, kToday, told))
      << "what is only planned gives way";
}

/// The garden of two beds with the rest of the long bed planned full: s7 for carrots, s8 and s9 for beet.
book::GardenDescription planned_full() {
  book::GardenDescription garden = garden_of_two_beds();
  for (const auto& [id, from_m, to_m] : {std::tuple{"s8", 1.5, 3.0}, std::tuple{"s9", 3.0, 4.0}}) {
    stand::StandPlan beet = garden.stands.front();
    beet.id = id;
    beet.crop = "beet";
    beet.sow = date_of(2026, 5, 22);
    beet.clumps = 60;
    beet.from_m = from_m;
    beet.to_m = to_m;
    garden.stands.push_back(beet);
  }
  return garden;
}

TEST(OwnStand, ThatIsAFactTakesTheRoomOfFewestThatAreOnlyPlanned) {
  const book::Event sown{
      .id = "e1", .date = date_of(2026, 5, 1), .kind = book::EventKind::sown, .stand = "s7"};
  const auto& library = crop::built_in_library();
  const auto stand = make_own_stand(library, planned_full(), {sown}, kToday, radishes());
  ASSERT_TRUE(stand) << base::to_text(stand.error());
  EXPECT_DOUBLE_EQ(stand->plan.from_m, 1.5) << "carrots stand before";
  ASSERT_EQ(stand->displaced.size(), 1U);
  EXPECT_EQ(stand->displaced.front().id, "s8");
  EXPECT_EQ(stand->displaced.front().crop, "beet");
  EXPECT_FALSE(stand->displaced.front().by_hand);
  const book::Event noted{
      .id = "e2", .date = kToday, .kind = book::EventKind::noted, .stand = "s8", .text = "put in by hand"};
  const auto onto_noted = make_own_stand(library, planned_full(), {sown, noted}, kToday, radishes());
  ASSERT_TRUE(onto_noted);
  EXPECT_TRUE(onto_noted->displaced.at(0).by_hand) << "a plan leaves it where it is";
}

TEST(OwnStand, OfADayToComeRespectsWhatIsPlanned) {
  OwnStand told = radishes();
  told.day = kToday + base::Days{1};
  const auto refused = make_own_stand(crop::built_in_library(), planned_full(), {}, kToday, told);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ProblemCode::infeasible);
  EXPECT_THAT(refused.error().remedy, testing::HasSubstr("move what is planned there"));
}

TEST(OwnStand, NamesInItsAdviceWhatWasTyped) {
  const book::Event sown{
      .id = "e1", .date = date_of(2026, 5, 1), .kind = book::EventKind::sown, .stand = "s7"};
  OwnStand told = radishes();
  told.from_m = 0.5;
  const auto remedy = [&](const TypedAdvice& advice) {
    return make_own_stand(crop::built_in_library(), planned_full(), {sown}, kToday, told, advice)
        .error()
        .remedy;
  };
  EXPECT_THAT(remedy({}), testing::HasSubstr("leave from_m out"));
  EXPECT_THAT(remedy(kOptionAdvice), testing::HasSubstr("leave the place out"));
}

TEST(OwnStand, SaysWhatIsWrong) {
  OwnStand told = radishes();
  told.bed = "short";
  told.clumps = 4000;
  EXPECT_EQ(made(told).error().code, ProblemCode::infeasible);
  told = radishes();
  told.bed = "nowhere";
  EXPECT_EQ(made(told).error().where.field, "bed");
  told = radishes();
  told.crop = "thistle";
  EXPECT_EQ(made(told).error().code, ProblemCode::not_found);
  told = radishes();
  told.clumps = 0;
  EXPECT_EQ(made(told).error().where.field, "clumps");
  told = radishes();
  told.crop = "tomato";
  EXPECT_EQ(made(told).error().where.field, "tray") << "tomatoes are not sown in place";
}

}  // namespace
}  // namespace sowtide::desk
