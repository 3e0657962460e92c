// What is said back of an entry. No outside source: the rules stand in docs/formats/log.md.
#include "desk/log_answer.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "made_up_places.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;
using book::Event;
using book::EventKind;

book::GardenDescription us_garden() {
  book::GardenDescription garden;
  garden.units = "us";
  garden.stands.push_back({.id = "s1", .crop = "lettuce", .sow = date_of(2026, 4, 1), .clumps = 16});
  garden.stands.push_back({.id = "s2", .crop = "tomato", .sow = date_of(2026, 4, 1), .clumps = 4, .cells = 9});
  return garden;
}

Event entry(EventKind kind, const char* stand, base::Date date) {
  static int count = 0;
  Event event{.id = "e" + std::to_string(++count), .sequence = count, .date = date, .kind = kind, .stand = stand};
  return event;
}

std::vector<std::string> cautions(const std::vector<Event>& before, const Event& event) {
  return caution_texts(entry_cautions(us_garden(), crop::built_in_library(), before, event), event,
                       Units::us);
}

TEST(LogAnswer, TellsAmountsInTheUnitsOfTheGarden) {
  Event picked = entry(EventKind::picked, "s1", date_of(2026, 6, 10));
  picked.grams = 453.59237;
  picked.count = 2.0;
  const auto& library = crop::built_in_library();
  EXPECT_EQ(entry_text(us_garden(), library, picked), "picked s1 Lettuce, 2 plants, 1 lb");
  auto metric = us_garden();
  metric.units = "metric";
  EXPECT_EQ(entry_text(metric, library, picked), "picked s1 Lettuce, 2 plants, 454 g");
  Event fruit = entry(EventKind::picked, "s2", date_of(2026, 8, 10));
  fruit.count = 1.0;
  EXPECT_EQ(entry_text(metric, library, fruit), "picked s2 Tomato, 1 piece");
  Event water = entry(EventKind::watered, "", date_of(2026, 8, 10));
  water.target = "gate";
  water.litres = 20.0;
  EXPECT_EQ(entry_text(metric, library, water), "watered gate, 20 L");
}

TEST(LogAnswer, ADayThatHasNotComeIsAskedAbout) {
  const base::Date today = date_of(2026, 6, 10);
  const auto said = [&](int days) {
    return caution_of_day_ahead(entry(EventKind::picked, "s1", today + base::Days{days}), today);
  };
  EXPECT_FALSE(said(-400));
  EXPECT_FALSE(said(1)) << "the clock of another time zone";
  ASSERT_TRUE(said(2));
  EXPECT_EQ(
      caution_texts({*said(365)}, entry(EventKind::picked, "s1", date_of(2027, 6, 10)), Units::metric).at(0),
      "its day lies 365 days after 10 Jun 2026, today by the clock of this machine: what is logged was done");
}

TEST(LogAnswer, TubersPickedArePiecesAndNoPlants) {
  book::GardenDescription garden = us_garden();
  garden.stands.push_back({.id = "s3", .crop = "potato", .sow = date_of(2026, 4, 1), .clumps = 12});
  Event picked = entry(EventKind::picked, "s3", date_of(2026, 8, 10));
  picked.count = 60.0;
  const auto& library = crop::built_in_library();
  EXPECT_EQ(entry_text(garden, library, picked), "picked s3 Potato, 60 pieces");
  EXPECT_TRUE(entry_cautions(garden, library, {}, picked).empty());
}

TEST(LogAnswer, MorePlantsThanStandThereIsACaution) {
  std::vector<Event> log{entry(EventKind::picked, "s1", date_of(2026, 6, 1))};
  log[0].count = 14.0;
  Event more = entry(EventKind::picked, "s1", date_of(2026, 6, 10));
  more.count = 2.0;
  EXPECT_TRUE(cautions(log, more).empty());
  more.count = 40.0;
  ASSERT_EQ(cautions(log, more).size(), 1U);
  EXPECT_EQ(cautions(log, more)[0], "40 plants, where by the log 2 are left of the 16 planned");
  Event thrown = entry(EventKind::discarded, "s1", date_of(2026, 6, 10));
  thrown.count = 30.0;
  EXPECT_EQ(cautions({}, thrown).at(0), "30 plants, where by the log 16 are left of the 16 planned");
}

TEST(LogAnswer, SeedlingsThinnedAreHeldAgainstTheSeeds) {
  book::GardenDescription garden = us_garden();
  garden.stands.push_back({.id = "s3",
                           .crop = "carrot",
                           .sow = date_of(2026, 4, 1),
                           .clumps = 68,
                           .seeds_per_cell = 2,
                           .cells = 68});
  std::vector<Event> log{entry(EventKind::thinned, "s3", date_of(2026, 5, 1))};
  log[0].count = 8.0;
  Event more = entry(EventKind::thinned, "s3", date_of(2026, 5, 10));
  const auto said = [&] {
    return caution_texts(entry_cautions(garden, crop::built_in_library(), log, more), more, Units::metric);
  };
  more.count = 60.0;
  EXPECT_TRUE(said().empty()) << "all beyond the 68 that are kept";
  more.count = 61.0;
  ASSERT_EQ(said().size(), 1U);
  EXPECT_EQ(said()[0], "69 seedlings thinned in all, of 136 seeds: at most 67 of the 68 planned are left");
}

TEST(LogAnswer, AWordOfLeavesAtAPickingOfRootsIsACaution) {
  book::GardenDescription garden = us_garden();
  garden.stands.push_back({.id = "s3", .crop = "beet", .sow = date_of(2026, 4, 1), .clumps = 30});
  garden.stands.push_back({.id = "s4", .crop = "carrot", .sow = date_of(2026, 4, 1), .clumps = 30});
  const auto& library = crop::built_in_library();
  const auto keys = [&](const char* stand, const char* text) {
    Event picked = entry(EventKind::picked, stand, date_of(2026, 6, 20));
    picked.grams = 300.0;
    picked.text = text;
    std::string all;
    for (const Message& caution : entry_cautions(garden, library, {}, picked)) all += caution.key + " ";
    return all;
  };
  EXPECT_EQ(keys("s3", "some greens for soup"), "log-greens-as-roots ");
  EXPECT_EQ(keys("s4", "Tops only"), "log-leaves-as-roots ");
  EXPECT_EQ(keys("s3", "leaves, for soup"), "") << "it is taken as leaves";
  EXPECT_EQ(keys("s3", "for the evergreens' party"), "");
  Event picked = entry(EventKind::picked, "s3", date_of(2026, 6, 20));
  picked.grams = 300.0;
  picked.text = "leaves";
  garden.units = "metric";
  EXPECT_EQ(entry_text(garden, library, picked), "picked s3 Beet, 300 g of leaves");
}

TEST(LogAnswer, AMeasureThatTellsNothingOrCannotBeIsACaution) {
  book::GardenDescription garden = garden_of_cool_springs("Test");
  garden.beds.push_back({.id = "b", .name = "Bed", .length_m = 4.0, .width_m = 1.2});
  for (const char* crop : {"beet", "lettuce", "carrot"}) {
    garden.stands.push_back({.id = crop,
                             .crop = crop,
                             .sow = date_of(2026, 5, 1),
                             .clumps = 20,
                             .spacing_mm = 200.0,
                             .bed = "b",
                             .to_m = 0.7});
  }
  const auto& library = crop::built_in_library();
  const auto keys = [&](const char* stand, base::Date date, std::optional<double> grams,
                        std::optional<double> diameter_mm) {
    Event measured = entry(EventKind::measured, stand, date);
    measured.grams = grams;
    measured.diameter_mm = diameter_mm;
    const std::vector<Event> sown{entry(EventKind::sown, stand, date_of(2026, 5, 1))};
    std::string all;
    for (const Message& caution : entry_cautions(garden, library, sown, measured)) all += caution.key + " ";
    return all;
  };
  const base::Date july = date_of(2026, 7, 10);
  EXPECT_EQ(keys("lettuce", july, {}, 50.0), "log-diameter-unread ");
  EXPECT_EQ(keys("carrot", july, {}, 20.0), "") << "long roots have a usual length";
  EXPECT_EQ(keys("beet", date_of(2026, 5, 5), {}, 45.0), "log-measured-early ") << "four days after sowing";
  EXPECT_EQ(keys("beet", date_of(2026, 6, 11), 400.0, {}), "log-measured-heavy ");
  EXPECT_EQ(keys("beet", july, 8000.0, {}), "log-measured-heavy ");
  EXPECT_EQ(keys("beet", july, 60.0, {}), "");
}

TEST(LogAnswer, WorkOfAnotherYearIsACautionWhateverItIs) {
  Event begun = entry(EventKind::set_out, "s2", date_of(2026, 5, 20));
  begun.count = 4.0;
  for (const EventKind kind :
       {EventKind::set_out, EventKind::counted, EventKind::thinned, EventKind::watered, EventKind::fed,
        EventKind::measured, EventKind::picked, EventKind::discarded}) {
    const auto said = [&](base::Date date) {
      Event work = entry(kind, "s2", date);
      work.count = 1.0;
      std::vector<std::string> keys;
      for (const Message& each : entry_cautions(us_garden(), crop::built_in_library(), {begun}, work))
        keys.push_back(each.key);
      return keys;
    };
    const auto has = [](const std::vector<std::string>& keys, const char* key) {
      return std::find(keys.begin(), keys.end(), key) != keys.end();
    };
    const std::string what(book::event_kind_text(kind));
    EXPECT_TRUE(has(said(date_of(2020, 5, 20)), "log-before-stand")) << what;
    EXPECT_TRUE(has(said(date_of(2028, 5, 20)), "log-long-after")) << what;
    for (const base::Date day : {date_of(2026, 6, 10), date_of(2026, 10, 3)}) {
      EXPECT_FALSE(has(said(day), "log-before-stand")) << what;
      EXPECT_FALSE(has(said(day), "log-long-after")) << what;
    }
  }
}

// The entry of 2020 stands until it is corrected; it excuses no other.
TEST(LogAnswer, AnEntryOfAWrongYearMakesTheNextNoBetter) {
  const Event wrong = entry(EventKind::set_out, "s2", date_of(2020, 5, 20));
  Event next = entry(EventKind::picked, "s2", date_of(2020, 8, 1));
  next.grams = 300.0;
  ASSERT_EQ(cautions({wrong}, next).size(), 1U);
  EXPECT_NE(cautions({wrong}, next)[0].find("before stand s2"), std::string::npos);
}

TEST(LogAnswer, GroundThatAnotherHoldsIsACaution) {
  book::GardenDescription garden = us_garden();
  for (stand::StandPlan& plan : garden.stands) {
    plan.bed = "b";
    plan.to_m = 2.0;
  }
  const auto& library = crop::built_in_library();
  const Event sown = entry(EventKind::sown, "s1", date_of(2026, 4, 1));
  const Event out = entry(EventKind::set_out, "s2", date_of(2026, 5, 20));
  const auto said = entry_cautions(garden, library, {sown}, out);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said[0].key, "log-place-taken");
  EXPECT_EQ(entry_cautions(garden, library, {out}, entry(EventKind::sown, "s1", date_of(2026, 5, 21))).size(),
            1U);
  EXPECT_TRUE(entry_cautions(garden, library, {}, out).empty()) << "the other is only planned";
  const Event cleared = entry(EventKind::discarded, "s1", date_of(2026, 5, 1));
  EXPECT_TRUE(entry_cautions(garden, library, {sown, cleared}, out).empty());
  garden.stands[1].from_m = 2.0;
  garden.stands[1].to_m = 4.0;
  EXPECT_TRUE(entry_cautions(garden, library, {sown}, out).empty()) << "beside it";
}

TEST(LogAnswer, FarMoreSeedOrAnotherYearIsACaution) {
  Event sown = entry(EventKind::sown, "s2", date_of(2026, 4, 3));
  sown.count = 18.0;
  EXPECT_TRUE(cautions({}, sown).empty());
  sown.count = 900.0;
  EXPECT_EQ(cautions({}, sown).at(0), "900 seeds, where the plan has 9");
  Event early = entry(EventKind::sown, "s2", date_of(2025, 4, 1));
  EXPECT_EQ(cautions({}, early).at(0), "Apr 1, 2025 is 365 days before the day planned, Apr 1");
  EXPECT_EQ(cautions({early}, entry(EventKind::sown, "s2", date_of(2026, 4, 1))).at(0),
            "stand s2 was sown already on Apr 1, 2025: the seeds of both add up");
}

TEST(LogAnswer, MoreStoredThanPickedIsACaution) {
  Event stored = entry(EventKind::stored, "s2", date_of(2026, 9, 1));
  stored.grams = 40.0 * 453.59237;
  EXPECT_NE(cautions({}, stored).at(0).find("nothing was picked of stand s2"), std::string::npos);
  Event picked = entry(EventKind::picked, "s2", date_of(2026, 8, 30));
  picked.grams = 30.0 * 453.59237;
  EXPECT_EQ(cautions({picked}, stored).at(0), "with this 40 lb of stand s2 were stored, and 30 lb picked");
  stored.grams = *picked.grams;
  EXPECT_TRUE(cautions({picked}, stored).empty());
  // What was counted and not weighed may weigh anything.
  Event counted = picked;
  counted.grams.reset();
  counted.count = 3.0;
  EXPECT_TRUE(cautions({counted}, stored).empty());
}

TEST(LogAnswer, EatingWhatIsNotInStoreIsACaution) {
  Event stored = entry(EventKind::stored, "s2", date_of(2026, 9, 1));
  stored.grams = 453.59237;
  Event eaten = entry(EventKind::eaten, "s2", date_of(2026, 9, 3));
  EXPECT_TRUE(cautions({stored}, eaten).empty());
  EXPECT_NE(cautions({}, eaten).at(0).find("nothing of stand s2 lies in store"), std::string::npos);
  eaten.grams = 2.0 * 453.59237;
  EXPECT_EQ(cautions({stored}, eaten).at(0), "only 1 lb of stand s2 lay in store");
}

TEST(LogAnswer, TendingWhatIsOverIsACaution) {
  const Event over = entry(EventKind::discarded, "s1", date_of(2026, 6, 1));
  Event watered = entry(EventKind::watered, "s1", date_of(2026, 6, 2));
  EXPECT_TRUE(cautions({}, watered).empty());
  EXPECT_EQ(cautions({over}, watered).at(0), "by the log stand s1 is over: all of it was picked or cleared");
}

/// Potatoes and leek in a metric garden with a bed of 2 m by 1 m.
book::GardenDescription pieces_and_seedlings() {
  book::GardenDescription garden;
  garden.beds.push_back({.id = "gate", .name = "Gate", .length_m = 2.0, .width_m = 1.0});
  garden.stands.push_back(
      {.id = "s1", .crop = "potato", .sow = date_of(2026, 4, 1), .clumps = 12, .bed = "gate", .to_m = 1.0});
  garden.stands.push_back({.id = "s2",
                           .crop = "leek",
                           .method = stand::Method::start_indoors,
                           .sow = date_of(2026, 3, 1),
                           .clumps = 20,
                           .bed = "gate",
                           .from_m = 1.0,
                           .to_m = 2.0,
                           .cells = 24});
  garden.stands.push_back(
      {.id = "s3", .crop = "beet", .sow = date_of(2026, 4, 1), .clumps = 20, .cells = 20});
  return garden;
}

std::vector<std::string> said_of(const std::vector<Event>& before, const Event& event,
                                 const char* units = "metric") {
  book::GardenDescription garden = pieces_and_seedlings();
  garden.units = units;
  return caution_texts(entry_cautions(garden, crop::built_in_library(), before, event), event,
                       units_of(units));
}

Event counted_entry(EventKind kind, const char* stand, base::Date date, double count) {
  Event event = entry(kind, stand, date);
  event.count = count;
  return event;
}

TEST(LogAnswer, PlantingPiecesAreNoSeeds) {
  const auto& library = crop::built_in_library();
  const Event planted = counted_entry(EventKind::sown, "s1", date_of(2026, 4, 1), 3.0);
  EXPECT_EQ(entry_text(pieces_and_seedlings(), library, planted), "sown s1 Potato, 3 pieces");
  EXPECT_EQ(said_of({}, planted).at(0), "3 pieces, where the plan has 12");
  EXPECT_EQ(said_of({}, counted_entry(EventKind::sown, "s1", date_of(2026, 4, 1), 0.0)).at(0),
            "no pieces, where the plan has 12: where nothing was planted no entry is needed");
  EXPECT_EQ(said_of({}, counted_entry(EventKind::sown, "s1", date_of(2026, 4, 1), 60.0)).at(0),
            "60 pieces, where the plan has 12");
  EXPECT_EQ(said_of({planted}, counted_entry(EventKind::sown, "s1", date_of(2026, 4, 5), 9.0)).at(0),
            "stand s1 was planted already on 1 Apr: the pieces of both add up");
}

TEST(LogAnswer, SaysHowShootsOfPiecesWereTaken) {
  const Event planted = counted_entry(EventKind::sown, "s1", date_of(2026, 4, 1), 3.0);
  EXPECT_EQ(said_of({planted}, counted_entry(EventKind::counted, "s1", date_of(2026, 5, 9), 9.0)).at(0),
            "9 shoots are taken as 3 plants: a piece sends up several, and no more were planted");
  EXPECT_TRUE(said_of({planted}, counted_entry(EventKind::counted, "s1", date_of(2026, 5, 9), 3.0)).empty());
}

TEST(LogAnswer, FarFewerSeedsOrNoneIsACaution) {
  const auto sown = [](double count) {
    return counted_entry(EventKind::sown, "s2", date_of(2026, 3, 1), count);
  };
  EXPECT_TRUE(said_of({}, sown(9.0)).empty());
  EXPECT_EQ(said_of({}, sown(8.0)).at(0), "8 seeds, where the plan has 24");
  EXPECT_EQ(said_of({}, sown(1.0)).at(0), "1 seed, where the plan has 24");
  EXPECT_EQ(said_of({}, sown(0.0)).at(0),
            "no seeds, where the plan has 24: where nothing was sown no entry is needed");
  Event gaps = sown(3.0);
  gaps.date = date_of(2026, 3, 9);
  EXPECT_EQ(said_of({sown(24.0)}, gaps).size(), 1U) << "only that the seeds of both add up: gaps take few";
}

TEST(LogAnswer, MoreCountedThanSownIsACautionUnlessASeedIsABallOfSeveral) {
  const auto log = [](const char* stand) {
    return std::vector<Event>{counted_entry(EventKind::sown, stand, date_of(2026, 4, 1), 10.0)};
  };
  EXPECT_EQ(said_of(log("s2"), counted_entry(EventKind::counted, "s2", date_of(2026, 4, 20), 18.0)).at(0),
            "18 plants, where by the log 10 seeds were sown");
  EXPECT_TRUE(said_of(log("s3"), counted_entry(EventKind::counted, "s3", date_of(2026, 4, 20), 18.0)).empty())
      << "beet";
}

TEST(LogAnswer, MoreSetOutThanRaisedOrPlannedIsACaution) {
  std::vector<Event> log{counted_entry(EventKind::sown, "s2", date_of(2026, 3, 1), 24.0)};
  const auto out = [](int day, double count) {
    return counted_entry(EventKind::set_out, "s2", date_of(2026, 5, day), count);
  };
  EXPECT_TRUE(said_of(log, out(1, 24.0)).empty());
  EXPECT_EQ(said_of(log, out(1, 30.0)).at(0), "30 plants, where by the log 24 were raised");
  Event bought = out(1, 30.0);
  bought.text = "bought";
  EXPECT_TRUE(said_of(log, bought).empty());
  log.push_back(counted_entry(EventKind::counted, "s2", date_of(2026, 4, 1), 15.0));
  EXPECT_EQ(said_of(log, out(1, 18.0)).at(0), "18 plants, where by the log 15 were raised");
  log.push_back(out(1, 14.0));
  EXPECT_TRUE(said_of(log, out(9, 6.0)).empty());
  EXPECT_EQ(said_of(log, out(9, 10.0)).at(0), "with this 24 plants were set out, where the plan has 20");
}

TEST(LogAnswer, MoreThanTheGroundGivesIsACaution) {
  Event first = entry(EventKind::picked, "s1", date_of(2026, 8, 1));
  first.grams = 9000.0;
  EXPECT_TRUE(said_of({}, first).empty());
  Event second = entry(EventKind::picked, "s1", date_of(2026, 8, 2));
  second.grams = 7000.0;
  EXPECT_EQ(said_of({first}, second).at(0),
            "with this 16 kg of stand s1 were picked, and its ground gives hardly more than 15 kg");
}

TEST(LogAnswer, AFewGramsForManyPlantsAreACaution) {
  Event picked = counted_entry(EventKind::picked, "s2", date_of(2026, 9, 1), 12.0);
  picked.grams = 1800.0;
  EXPECT_TRUE(said_of({}, picked).empty());
  picked.grams = 5.0;
  EXPECT_EQ(said_of({}, picked).at(0), "5 g is little for 12 plants: look at the weight once more");
  EXPECT_NE(said_of({}, picked, "us").at(0).find("and its unit"), std::string::npos);
}

}  // namespace
}  // namespace sowtide::desk
