// Entries that cannot be true together are refused, in whatever order they arrive. No outside source: the
// rules follow from the words of docs/formats/log.md.
#include "book/stand_log.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <array>

#include "book/event_check.hpp"
#include "book/sample_garden.hpp"

namespace sowtide::book {
namespace {

using base::date_of;

/// A stand sown in place with 40 seeds, and one raised in a tray; both of a crop pulled once.
std::vector<stand::StandPlan> two_stands() {
  stand::StandPlan place{.id = "place", .crop = "beet"};
  place.clumps = 20;
  place.cells = 20;
  place.seeds_per_cell = 2.0;
  stand::StandPlan tray = place;
  tray.id = "tray";
  tray.method = stand::Method::start_indoors;
  return {place, tray};
}

/// Takes entries as a book would, on days of May 2026, and tells what it says of the last.
class Book {
 public:
  Book& take(EventKind kind, int day, std::optional<double> count = {}, const std::string& stand = "place") {
    Event event{.id = "e" + std::to_string(++entries_), .date = date_of(2026, 5, day), .kind = kind};
    event.stand = stand;
    event.count = count;
    return take(event);
  }
  Book& correct(const std::string& id) {
    return take(Event{.id = "e" + std::to_string(++entries_),
                      .date = date_of(2026, 5, 31),
                      .kind = EventKind::corrected,
                      .target = id});
  }
  /// Empty when the last entry was taken; else what was said of it.
  [[nodiscard]] const std::string& said() const { return said_; }
  [[nodiscard]] const std::string& field() const { return field_; }

 private:
  Book& take(const Event& event) {
    const auto checked = logs_.check(event);
    said_ = checked ? "" : checked.error().what;
    field_ = checked ? "" : checked.error().where.field;
    if (!checked) {
      EXPECT_EQ(checked.error().code, base::ProblemCode::contradiction);
      EXPECT_FALSE(checked.error().remedy.empty());
    }
    if (checked) logs_.take(event);
    return *this;
  }
  StandLogs logs_ = StandLogs::of(two_stands());
  int entries_ = 0;
  std::string said_;
  std::string field_;
};

TEST(StandLogs, NoMorePlantsAreTakenInAllThanTheSeedsCanGive) {
  // 40 seeds of the plan give 200 plants at most.
  EXPECT_EQ(Book().take(EventKind::picked, 20, 200).said(), "");
  EXPECT_EQ(Book().take(EventKind::picked, 20, 150).take(EventKind::picked, 21, 51).said(),
            "stand \"place\" (beet) cannot have given 201 plants in all from the 40 seeds of the plan");
  EXPECT_EQ(Book().take(EventKind::sown, 1, 10).take(EventKind::discarded, 20, 51).said(),
            "stand \"place\" (beet) cannot have given 51 plants in all from the 10 seeds sown");
  // Bought plants were not sown.
  EXPECT_EQ(Book()
                .take(EventKind::sown, 1, 10, "tray")
                .take(EventKind::set_out, 10, 50, "tray")
                .take(EventKind::set_out, 12, 40, "tray")
                .take(EventKind::picked, 20, 90, "tray")
                .said(),
            "");
}

TEST(StandLogs, SettingOutIsForStandsRaisedInTrays) {
  EXPECT_EQ(Book().take(EventKind::set_out, 1).said(),
            "stand \"place\" (beet) is sown in place and cannot be set out on 2026-05-01");
  EXPECT_EQ(Book().take(EventKind::set_out, 1, {}, "tray").said(), "");
}

TEST(StandLogs, NothingIsDoneToAStandBeforeItsSowing) {
  for (const EventKind kind :
       {EventKind::counted, EventKind::thinned, EventKind::measured, EventKind::picked, EventKind::set_out}) {
    Book after;
    after.take(EventKind::sown, 10, 40, "tray").take(kind, 9, 10, "tray");
    EXPECT_NE(after.said().find("was sown on 2026-05-10"), std::string::npos) << after.said();
    EXPECT_NE(after.said().find("before, on 2026-05-09"), std::string::npos) << after.said();
    EXPECT_EQ(after.field(), "date");
    Book before;
    before.take(kind, 9, 10, "tray").take(EventKind::sown, 10, 40, "tray");
    EXPECT_NE(before.said().find("cannot be sown first on 2026-05-10"), std::string::npos) << before.said();
    EXPECT_EQ(Book().take(EventKind::sown, 10, 40, "tray").take(kind, 10, 10, "tray").said(), "")
        << "on the same day both may be";
  }
  EXPECT_EQ(Book().take(EventKind::sown, 10).take(EventKind::watered, 9).said(), "")
      << "a bed is watered before";
}

TEST(StandLogs, NothingIsPickedBeforeItIsSetOut) {
  EXPECT_EQ(Book().take(EventKind::picked, 5, 2, "tray").take(EventKind::set_out, 20, {}, "tray").said(),
            "stand \"tray\" (beet) was picked on 2026-05-05 and cannot be set out first on 2026-05-20");
  EXPECT_EQ(Book().take(EventKind::set_out, 20, {}, "tray").take(EventKind::picked, 5, 2, "tray").said(),
            "stand \"tray\" (beet) was set out on 2026-05-20 and cannot be picked before, on 2026-05-05");
  Book further;
  further.take(EventKind::set_out, 1, {}, "tray").take(EventKind::picked, 10, 2, "tray");
  EXPECT_EQ(further.take(EventKind::set_out, 20, {}, "tray").said(), "") << "into gaps";
  EXPECT_EQ(Book()
                .take(EventKind::picked, 5, 2, "tray")
                .correct("e1")
                .take(EventKind::set_out, 20, {}, "tray")
                .said(),
            "");
}

TEST(StandLogs, AStandMayBeSownAgainIntoItsGaps) {
  EXPECT_EQ(Book()
                .take(EventKind::sown, 1, 40)
                .take(EventKind::counted, 9, 20)
                .take(EventKind::sown, 12, 20)
                .said(),
            "");
}

TEST(StandLogs, NoMorePlantsComeUpThanTheSeedsCanGive) {
  EXPECT_EQ(Book().take(EventKind::sown, 1, 10).take(EventKind::counted, 9, 50).said(), "");
  EXPECT_EQ(Book().take(EventKind::sown, 1, 10).take(EventKind::counted, 9, 51).said(),
            "stand \"place\" (beet) cannot have 51 plants on 2026-05-09 from the 10 seeds sown");
  EXPECT_EQ(
      Book().take(EventKind::sown, 1, 10).take(EventKind::sown, 2, 1).take(EventKind::counted, 9, 51).said(),
      "")
      << "two sowings give more";
  EXPECT_NE(Book().take(EventKind::counted, 9, 51).take(EventKind::sown, 1, 10).said(), "")
      << "whichever arrives first";
}

TEST(StandLogs, ACountThatFitsThePlanIsTakenThoughFarFewerSeedsWereLogged) {
  EXPECT_EQ(Book().take(EventKind::sown, 1, 1).take(EventKind::counted, 9, 40).said(), "");
  EXPECT_EQ(Book().take(EventKind::sown, 1, 1).take(EventKind::counted, 9, 41).said(),
            "stand \"place\" (beet) cannot have 41 plants on 2026-05-09 from the one seed sown");
}

TEST(StandLogs, WithoutACountOfSeedsThePlanTellsHowManyTheyAre) {
  EXPECT_EQ(Book().take(EventKind::counted, 9, 200).said(), "");
  EXPECT_EQ(Book().take(EventKind::sown, 1).take(EventKind::counted, 9, 200).said(), "");
  EXPECT_EQ(Book().take(EventKind::sown, 1).take(EventKind::counted, 9, 201).said(),
            "stand \"place\" (beet) cannot have 201 plants on 2026-05-09 from the 40 seeds of the plan");
}

TEST(StandLogs, NoMoreIsThinnedThanIsLeftOfTheLastCount) {
  Book book;
  book.take(EventKind::counted, 5, 30).take(EventKind::thinned, 6, 10).take(EventKind::picked, 7, 5);
  EXPECT_EQ(book.take(EventKind::thinned, 8, 16).said(),
            "of the 30 counted in stand \"place\" (beet) on 2026-05-05, 15 were left on 2026-05-08, and 16 "
            "cannot be "
            "thinned");
  EXPECT_EQ(book.take(EventKind::thinned, 8, 15).said(), "");
  EXPECT_NE(book.take(EventKind::thinned, 9, 1).said(), "");
  EXPECT_EQ(book.take(EventKind::counted, 10, 8).take(EventKind::thinned, 11, 8).said(), "")
      << "counted anew";
  EXPECT_EQ(Book().take(EventKind::thinned, 6, 16).said(), "") << "nobody has counted";
}

TEST(StandLogs, NotFarMoreIsPulledThanWasCounted) {
  Book book;
  book.take(EventKind::counted, 5, 30).take(EventKind::picked, 7, 20);
  EXPECT_EQ(book.take(EventKind::picked, 8, 25).said(), "") << "a miscount of half";
  EXPECT_NE(book.take(EventKind::picked, 9, 1).said(), "");
  EXPECT_NE(Book().take(EventKind::counted, 5, 30).take(EventKind::discarded, 6, 46).said(), "");
  EXPECT_EQ(Book().take(EventKind::sown, 1, 40).take(EventKind::counted, 5, 30).take(EventKind::sown, 6, 40)
                .take(EventKind::picked, 20, 60).said(),
            "")
      << "sown into the gaps since";
}

TEST(StandLogs, PullingIsNotHeldAgainstAnOldOrEarlyCount) {
  EXPECT_EQ(Book().take(EventKind::counted, 5, 10, "tray").take(EventKind::set_out, 9, 40, "tray")
                .take(EventKind::picked, 20, 40, "tray").said(),
            "")
      << "set out since";
  EXPECT_EQ(Book().take(EventKind::counted, 5, 3).take(EventKind::picked, 20, 40).said(), "")
      << "three of the twenty planned were up";
  stand::StandPlan potatoes{.id = "p", .crop = "potato"};
  potatoes.clumps = 12;
  StandLogs logs = StandLogs::of({potatoes});
  Event event{.id = "a", .date = date_of(2026, 6, 1), .kind = EventKind::counted};
  event.stand = "p";
  event.count = 12;
  logs.take(event);
  Event picked = event;
  picked.id = "b";
  picked.kind = EventKind::picked;
  picked.count = 90;
  EXPECT_TRUE(logs.check(picked)) << "tubers, not plants";
}

TEST(StandLogs, NotMoreIsSetOutThanTheSeedsGive) {
  EXPECT_NE(Book().take(EventKind::set_out, 20, 5000, "tray").said(), "");
  EXPECT_EQ(Book().take(EventKind::set_out, 20, 40, "tray").said(), "");
}

// 6 x 51 mm and 20 x 450 g: the beet of crops/beet.toml.
TEST(StandLogs, NoPlantIsFarBeyondItsCropsSize) {
  StandLogs logs = StandLogs::of(two_stands());
  Event measured{.id = "m", .date = date_of(2026, 7, 1), .kind = EventKind::measured};
  measured.stand = "place";
  measured.diameter_mm = 1999.0;
  ASSERT_FALSE(logs.check(measured));
  EXPECT_EQ(logs.check(measured).error().where.field, "diameter_mm");
  measured.diameter_mm = 150.0;
  EXPECT_TRUE(logs.check(measured));
  measured.grams = 40'000.0;
  ASSERT_FALSE(logs.check(measured));
  EXPECT_EQ(logs.check(measured).error().where.field, "grams");
}

TEST(StandLogs, AStandHasOnlySoManyEntries) {
  StandLogs logs = StandLogs::of(two_stands());
  Event event{.date = date_of(2026, 7, 1), .kind = EventKind::picked};
  event.stand = "place";
  for (std::size_t i = 0; i < kMostEntriesOfAStand; ++i) {
    event.id = "e" + std::to_string(i);
    logs.take(event);
  }
  event.id = "last";
  ASSERT_FALSE(logs.check(event));
  EXPECT_EQ(logs.check(event).error().code, base::ProblemCode::too_large);
}

TEST(StandLogs, AnEntryThatArrivesLateMustFitTheThinningThatStands) {
  EXPECT_NE(Book().take(EventKind::thinned, 6, 16).take(EventKind::counted, 5, 15).said(), "");
  Book book;
  book.take(EventKind::counted, 5, 30).take(EventKind::thinned, 9, 20);
  EXPECT_NE(book.take(EventKind::thinned, 7, 11).said(), "");
  EXPECT_EQ(book.take(EventKind::thinned, 7, 10).said(), "");
}

TEST(StandLogs, WhatACorrectionHasTakenOutCountsForNothing) {
  Book book;
  book.take(EventKind::sown, 10, 40).take(EventKind::counted, 5, 20);
  EXPECT_NE(book.said(), "");
  EXPECT_EQ(book.correct("e1").take(EventKind::counted, 5, 20).said(), "");
  EXPECT_EQ(book.correct("e3").said(),
            "would bring back the entry e1, but stand \"place\" (beet) was counted on 2026-05-05 and cannot "
            "be sown "
            "first on 2026-05-10");
  EXPECT_EQ(book.field(), "target");
}

/// The order of arrival of two entries decides nothing: they fit each other or they do not.
RC_GTEST_PROP(StandLogLaws, TwoEntriesFitInBothOrdersOrInNone, (std::uint64_t seed)) {
  base::RandomStream random(seed, "tests.book.stand-log");
  constexpr std::array kKinds{EventKind::sown,    EventKind::counted, EventKind::set_out,
                              EventKind::thinned, EventKind::picked,  EventKind::measured};
  std::array<Event, 2> pair;
  for (Event& event : pair) {
    event.id = &event == pair.data() ? "a" : "b";
    event.kind = kKinds[random.below(kKinds.size())];
    event.stand = "tray";
    event.date = date_of(2026, 5, 1) + base::Days{static_cast<int>(random.below(20))};
    event.count = 1 + random.below(39);
  }
  RC_PRE(pair[0].date != pair[1].date);
  const auto fits = [](const Event& first, const Event& second) {
    StandLogs logs = StandLogs::of(two_stands());
    RC_ASSERT(logs.check(first).has_value());
    logs.take(first);
    return logs.check(second).has_value();
  };
  const bool fit = fits(pair[0], pair[1]);
  RC_CLASSIFY(!fit, "contradictions");
  RC_ASSERT(fit == fits(pair[1], pair[0]));
}

TEST(CheckEvent, TakesFromALotOnlyWhatCanBeInIt) {
  GardenDescription garden;
  garden.stands = two_stands();
  EventContext context = EventContext::of(garden);
  context.has_event = [](const std::string&) { return true; };
  const auto event = [](const char* id, int day, EventKind kind, double grams) {
    Event made{.id = id, .date = date_of(2026, 8, day), .kind = kind};
    made.stand = "place";
    made.target = kind == EventKind::stored ? "" : "lot";
    made.grams = grams;
    if (kind == EventKind::stored) made.text = "kitchen";
    return made;
  };
  const Event stored = event("lot", 10, EventKind::stored, 500.0);
  ASSERT_TRUE(check_event(stored, context));
  context.take(stored);
  EXPECT_FALSE(check_event(event("a", 9, EventKind::eaten, 100.0), context)) << "before it was stored";
  EXPECT_FALSE(check_event(event("b", 11, EventKind::eaten, 900'000.0), context));
  const Event eaten = event("c", 11, EventKind::eaten, 500.0);
  ASSERT_TRUE(check_event(eaten, context));
  context.take(eaten);
  EXPECT_FALSE(check_event(event("d", 12, EventKind::discarded, 300.0), context));
  context.take({.id = "x", .date = date_of(2026, 8, 12), .kind = EventKind::corrected, .target = "c"});
  EXPECT_TRUE(check_event(event("e", 12, EventKind::discarded, 300.0), context)) << "nothing was eaten after all";
  EXPECT_EQ(check_event(stored, context).error().code, base::ProblemCode::already_exists);
  context.take({.id = "y", .date = date_of(2026, 8, 12), .kind = EventKind::corrected, .target = "lot"});
  EXPECT_EQ(check_event(event("f", 12, EventKind::eaten, 10.0), context).error().code, base::ProblemCode::not_found);
  EXPECT_EQ(check_event(stored, context).error().code, base::ProblemCode::already_exists) << "a name is used once";
}

TEST(CheckLog, NamesTheLineOfTheContradiction) {
  GardenDescription garden;
  garden.stands = two_stands();
  std::vector<Event> log(2);
  log[0] = {.id = "a", .date = date_of(2026, 5, 10), .kind = EventKind::sown, .stand = "place"};
  log[1] = {.id = "b", .date = date_of(2026, 5, 9), .kind = EventKind::counted, .stand = "place"};
  log[1].count = 3;
  const auto line = [](std::size_t index) {
    return base::Place{.file = "log.csv", .line = static_cast<int>(index) + 2};
  };
  const auto checked = check_log(garden, log, line);
  ASSERT_FALSE(checked);
  EXPECT_EQ(checked.error().where.line, 3);
  EXPECT_EQ(checked.error().code, base::ProblemCode::contradiction);
}

}  // namespace
}  // namespace sowtide::book
