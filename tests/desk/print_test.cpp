#include "desk/print/print.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "desk/print/clump_places.hpp"
#include "desk/print/moments.hpp"
#include "desk/print/page.hpp"
#include "desk/print/words.hpp"
#include "desk/print_garden.hpp"
#include "desk/supply.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;
using ::testing::HasSubstr;

/// One garden for all tests of this file: making a season takes a while.
const Season& small_season() {
  static const Season season = print_season_of(print_garden(2, 4), {}, date_of(2026, 4, 1));
  return season;
}

std::size_t count_of(const std::string& text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

std::string pdf(print::Kind kind, const print::Options& options = {}) {
  const auto made = print::print_season(small_season(), kind, options);
  EXPECT_TRUE(made) << (made ? "" : base::to_text(made.error()));
  return made.value_or("");
}

constexpr std::array kSeasonKinds{print::Kind::labels, print::Kind::sowing_sheet, print::Kind::bed_sheets,
                                  print::Kind::season, print::Kind::table};

TEST(Print, EveryKindIsAPdfAndTheSameInputGivesTheSameBytes) {
  for (const print::Kind kind : kSeasonKinds) {
    const std::string once = pdf(kind);
    EXPECT_TRUE(once.starts_with("%PDF-")) << print::kind_word(kind);
    EXPECT_EQ(once, pdf(kind)) << print::kind_word(kind);
  }
}

TEST(Print, PagesHaveTheSizeOfTheirPaper) {
  // A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in; a point is 1/72 in. 297 mm = 841.89 points.
  EXPECT_THAT(pdf(print::Kind::bed_sheets), HasSubstr("/MediaBox [ 0 0 595.275591 841.889764 ]"));
  EXPECT_THAT(pdf(print::Kind::bed_sheets, {.paper = print::Paper::letter}),
              HasSubstr("/MediaBox [ 0 0 612 792 ]"));
}

TEST(Print, OnePageABed) {
  EXPECT_EQ(count_of(pdf(print::Kind::bed_sheets), "/Type /Page %"), small_season().garden.beds.size());
}

TEST(ClumpPlaces, RowsStandAsTheyWereSet) {
  const bed::Bed bed{.id = "b", .name = "Bed", .length_m = 4.0, .width_m = 1.2};
  stand::StandPlan plan{.id = "s1", .clumps = 12, .spacing_mm = 100.0};
  const auto columns = [&] {
    std::set<double> xs;
    for (const print::Point& place : print::clump_places(bed, plan, 600)) xs.insert(place.x);
    return xs.size();
  };
  EXPECT_EQ(columns(), 12U) << "on the square as many across as the bed takes";
  plan.arrangement = stand::Arrangement::rows;
  plan.row_spacing_mm = 300.0;
  EXPECT_EQ(columns(), 4U) << "rows 30 cm apart: four in 1.2 m";
  plan.arrangement = stand::Arrangement::offset;
  plan.spacing_mm = 300.0;
  const auto offset = print::clump_places(bed, plan, 600);
  EXPECT_NEAR(offset[1].y - offset[0].y, 0.5 / 3.0, 1e-9) << "every second row moved by half of a third";
  for (const print::Point& place : offset) {
    EXPECT_GT(place.y, 0.0);
    EXPECT_LT(place.y, 1.0);
  }
  EXPECT_EQ(print::clump_places(bed, plan, 5).size(), 5U);
}

TEST(Print, WordsOfAnUnknownLanguageLabelOrPaperAreProblemsThatNameTheChoices) {
  const auto language = print::print_season(small_season(), print::Kind::table, {.language = "xx"});
  ASSERT_FALSE(language);
  EXPECT_THAT(language.error().remedy, HasSubstr("de, en"));
  const auto label = print::print_season(small_season(), print::Kind::labels, {.label_grid = "9x9"});
  ASSERT_FALSE(label);
  EXPECT_THAT(label.error().remedy, HasSubstr("70x37"));
  EXPECT_FALSE(print::print_season(small_season(), print::Kind::labels, {.first_label = 25}));
  EXPECT_FALSE(print::print_season(small_season(), print::Kind::sowing_sheet, {.weeks = 0}));
  EXPECT_FALSE(print::parse_paper("a5"));
  EXPECT_FALSE(print::parse_kind("poster"));
}

TEST(Print, AnEmptyGardenStillGivesASheetThatSaysWhy) {
  book::GardenDescription bare = print_garden(0, 0);
  bare.wants.clear();
  const Season season = print_season_of(bare, {}, date_of(2026, 4, 1));
  for (const print::Kind kind : kSeasonKinds) {
    const auto made = print::print_season(season, kind, {});
    ASSERT_TRUE(made) << print::kind_word(kind);
    EXPECT_EQ(count_of(*made, "/Type /Page %"), 1U) << print::kind_word(kind);
  }
}

TEST(LabelGrids, LieOnTheirPaperWithoutOverlap) {
  for (const print::LabelGrid& grid : print::label_grids()) {
    const print::Extent paper = print::paper_extent(grid.paper, print::Turn::upright);
    EXPECT_LE(grid.left + grid.step_x * (grid.across - 1) + grid.width, paper.width + 0.01) << grid.name;
    EXPECT_LE(grid.top + grid.step_y * (grid.down - 1) + grid.height, paper.height + 0.01) << grid.name;
    EXPECT_GE(grid.step_x, grid.width) << grid.name;
    EXPECT_GE(grid.step_y, grid.height) << grid.name;
  }
}

TEST(Words, EveryLanguageHasTheSameKeysAndTheSamePlaces) {
  const auto english = print::catalogue("en");
  ASSERT_TRUE(english);
  const auto places = [](const std::string& text) {
    std::multiset<std::string> found;
    for (std::size_t at = text.find('{'); at != std::string::npos; at = text.find('{', at + 1)) {
      found.insert(text.substr(at, text.find('}', at) - at + 1));
    }
    return found;
  };
  const auto optional = [](const std::string& key) {
    return key.starts_with("crops.") || key.starts_with("cautions.");
  };
  for (const std::string& language : print::languages()) {
    const auto other = print::catalogue(language);
    ASSERT_TRUE(other);
    for (const auto& [key, text] : **english) {
      if (optional(key)) continue;
      ASSERT_TRUE((*other)->contains(key)) << language << " lacks " << key;
      if (!key.starts_with("date.")) {
        EXPECT_EQ(places((*other)->at(key)), places(text)) << language << " " << key;
      }
    }
    for (const auto& [key, text] : **other)
      EXPECT_TRUE(optional(key) || (*english)->contains(key)) << language << " " << key;
  }
}

TEST(Words, GermanNamesEveryCropAndTranslatesEveryCaution) {
  const auto german = print::catalogue("de");
  ASSERT_TRUE(german);
  for (const auto& [id, crop] : crop::built_in_library().crops) {
    EXPECT_TRUE((*german)->contains("crops." + id)) << id;
    for (const std::string& caution : {crop.nursery.caution, crop.limits.caution}) {
      if (!caution.empty()) {
        EXPECT_TRUE((*german)->contains("cautions." + caution)) << id << ": " << caution;
      }
    }
  }
}

TEST(Words, DatesAndNumbersTakeTheFormOfTheReader) {
  const print::Words metric(**print::catalogue("en"), Units::metric);
  const print::Words us(**print::catalogue("en"), Units::us);
  const print::Words german(**print::catalogue("de"), Units::metric);
  const base::Date day = date_of(2026, 4, 3);
  EXPECT_EQ(metric.day(day, day), "3 Apr");
  EXPECT_EQ(us.day(day, day), "Apr 3");
  EXPECT_EQ(german.day(day, day), "3. April");
  EXPECT_EQ(metric.days(day, date_of(2026, 4, 14), day), "3–14 Apr");
  EXPECT_EQ(us.days(day, date_of(2026, 4, 14), day), "Apr 3–14");
  EXPECT_EQ(german.days(day, date_of(2026, 5, 14), day), "3. April – 14. Mai");
  EXPECT_EQ(metric.days(date_of(2026, 12, 30), date_of(2027, 1, 2), day), "30 Dec – 2 Jan 2027");
  EXPECT_EQ(german.weight(1240.0), "1,2 kg");
  EXPECT_EQ(german.weight(0.2), "unter 1 g");
  EXPECT_EQ(print::Words(**print::catalogue("de"), Units::us).weight(0.2), "unter 0,1 oz");
  EXPECT_EQ(metric.stretch(0.66, 1.414), "0.66 – 1.41 m");
  EXPECT_EQ(us.stretch(0.3048, 0.6096), "12 – 24 in");
  EXPECT_EQ(us.stretch(0.3048, 1.2192), "1 – 4 ft");
  EXPECT_EQ(us.stretch(0.5334, 1.016), "1 ft 9 in – 3 ft 4 in");
  EXPECT_EQ(german.stretch(0.66, 1.414), "0,66 – 1,41 m");
  EXPECT_EQ(metric.say("no.such"), "⟦no.such⟧");
}

TEST(Words, ClumpsAreToldWithTheirPlants) {
  const print::Words english(**print::catalogue("en"), Units::metric);
  stand::StandPlan plan;
  plan.clumps = 45;
  plan.plants_per_clump = 4.0;
  plan.spacing_mm = 230.0;
  EXPECT_EQ(print::plants_of(english, plan), "45 x 4, 23 cm apart");
  plan.plants_per_clump = 3.5;
  EXPECT_EQ(print::plants_of(print::Words(**print::catalogue("de"), Units::metric), plan),
            "45 x 3,5, alle 23 cm");
  plan.plants_per_clump = 1.0;
  EXPECT_EQ(print::plants_of(english, plan), "45, 23 cm apart");
  plan.clumps = 1;
  EXPECT_EQ(print::plants_of(english, plan), "1");
}

TEST(Moments, AStandGoesThroughItsLifeInOrder) {
  for (std::size_t i = 0; i < small_season().state.stands.size(); ++i) {
    const std::vector<Moment> moments = moments_ahead(small_season(), i);
    ASSERT_FALSE(moments.empty());
    EXPECT_EQ(moments.front().kind, Moment::Kind::sow);
    for (const Moment& moment : moments) {
      EXPECT_LE(moment.early, moment.middle);
      EXPECT_LE(moment.middle, moment.late);
      EXPECT_GE(moment.early, moments.front().early);
    }
  }
}

TEST(Moments, AStayIsCertainAtFirstAndNineTimesInTenOverAtItsEnd) {
  for (std::size_t i = 0; i < small_season().state.stands.size(); ++i) {
    for (const Stay& stay : stays_of(small_season(), i)) {
      EXPECT_EQ(presence(stay, stay.first - base::Days{1}), 0.0);
      EXPECT_EQ(presence(stay, stay.first), 1.0);
      if (stay.last > stay.may_leave) {
        EXPECT_NEAR(presence(stay, stay.last), 0.1, 1e-12);
      }
      EXPECT_EQ(presence(stay, stay.last + base::Days{1}), 0.0);
    }
  }
}

TEST(Supply, NeverReachesMoreThanIsWantedNorMoreThanGrew) {
  const Season& season = small_season();
  double grown_g = 0.0;
  for (std::size_t i = 0; i < season.outlooks.size(); ++i) {
    if (season.state.stands[i].plan.crop != "beet") continue;
    const stand::MemberTable& table = season.outlooks[i].members;
    for (const double grams : table.weekly_g) grown_g += grams / static_cast<double>(table.member_count);
  }
  const std::vector<WantSupply> wants = supply_of_wants(season, 52);
  ASSERT_EQ(wants.size(), 2U);
  EXPECT_GT(wants[0].mean_reaches, 0.0);
  EXPECT_LE(wants[0].mean_reaches, grown_g + 1e-6);
  for (const WantSupply& want : wants) {
    for (const SupplyWeek& week : want.weeks) {
      EXPECT_LE(week.reaches.p90, week.wanted + 1e-9);
      EXPECT_LE(week.reaches.p10, week.reaches.p90);
      EXPECT_GE(week.reaches.p10, 0.0);
      EXPECT_GE(week.mean_from_store, 0.0);
      EXPECT_LE(week.mean_from_store, week.mean_reaches + 1e-9);
    }
  }
}

/// No stand at all, and 500 g of beet wanted every week.
Season season_of_beet_wanted_all_year() {
  book::GardenDescription garden = print_garden(1, 0);
  garden.wants.resize(1);
  garden.wants[0].from = {1, 1};
  garden.wants[0].to = {12, 31};
  return print_season_of(garden, {}, date_of(2026, 6, 1));
}

TEST(Supply, WhatIsTooOldIsThrownAway) {
  Season season = season_of_beet_wanted_all_year();
  const crop::Crop& beet = *crop::built_in_library().find("beet").value();
  const int weeks = keep::most_weeks(beet, keep::household_place(beet, false));
  season.state.store.push_back({"l1", "beet", keep::StorePlace::fridge, date_of(2026, 6, 1), 1e6});
  const auto plenty = supply_of_wants(season, static_cast<std::size_t>(weeks) + 3);
  const auto reaches = [&](int week) { return plenty[0].weeks[static_cast<std::size_t>(week)].mean_reaches; };
  EXPECT_NEAR(reaches(weeks), 500.0, 1e-9);
  EXPECT_EQ(reaches(weeks + 1), 0.0);
  // A lot that has lain twice its life is eaten in this week or never.
  season.state.store[0].stored -= base::Days{7 * weeks + 14};
  const auto old = supply_of_wants(season, 2);
  EXPECT_NEAR(old[0].weeks[0].mean_reaches, 500.0, 1e-9);
  EXPECT_EQ(old[0].weeks[1].mean_reaches, 0.0);
}

TEST(Supply, WhatLiesInStoreIsEatenFirstAndSpoils) {
  // No stand at all, 1 kg of beet in store, 500 g wanted a week: the walk is short enough to do by hand.
  Season season = season_of_beet_wanted_all_year();
  season.state.store.push_back({"l1", "beet", keep::StorePlace::fridge, date_of(2026, 6, 1), 1000.0});
  const crop::Crop& beet = *crop::built_in_library().find("beet").value();
  const double keeps = keep::weekly_keep_share(beet, keep::household_place(beet, false));
  const std::vector<WantSupply> wants = supply_of_wants(season, 4);
  EXPECT_NEAR(wants[0].weeks[0].reaches.p50, 500.0, 1e-9);
  EXPECT_NEAR(wants[0].weeks[1].reaches.p50, 500.0 * keeps, 1e-9);
  EXPECT_NEAR(wants[0].weeks[2].reaches.p50, 0.0, 1e-9);
  EXPECT_NEAR(wants[0].weeks[0].mean_from_store, 500.0, 1e-9);
  EXPECT_NEAR(wants[0].weeks[1].mean_from_store, wants[0].weeks[1].mean_reaches, 1e-9);
}

TEST(Supply, ALotKeepsAsItDoesWhereItLies) {
  Season season = season_of_beet_wanted_all_year();
  season.state.store.push_back({"l1", "beet", keep::StorePlace::best, date_of(2026, 6, 1), 1e6});
  const crop::Crop& beet = *crop::built_in_library().find("beet").value();
  const int weeks = keep::most_weeks(beet, keep::StorePlace::best);
  ASSERT_GT(weeks, keep::most_weeks(beet, keep::household_place(beet, false)));
  const auto supply = supply_of_wants(season, 52);
  const auto last = static_cast<std::size_t>(std::min(weeks, 51));
  EXPECT_NEAR(supply[0].weeks[last].mean_reaches, 500.0, 1e-9);
}

TEST(Supply, ATotalIsWantedInTheWeekOfItsLastDayAndKeptUntilThen) {
  // No stand at all, 1 kg of beet in store, 2 kg to lie there on 15 June and nothing wanted a week.
  Season season = season_of_beet_wanted_all_year();
  plan::Want& want = season.garden.wants[0];
  want.amount_per_week = 0.0;
  want.total = 2000.0;
  want.to = {6, 15};
  season.state.store.push_back({"l1", "beet", keep::StorePlace::fridge, date_of(2026, 6, 1), 1000.0});
  const crop::Crop& beet = *crop::built_in_library().find("beet").value();
  const double keeps = keep::weekly_keep_share(beet, keep::household_place(beet, false));
  const WantSupply supply = supply_of_wants(season, 52)[0];
  EXPECT_NEAR(supply.wanted, 2000.0, 1e-9);
  EXPECT_NEAR(supply.mean_reaches, 1000.0 * keeps * keeps, 1e-6);
  EXPECT_NEAR(supply.weeks[2].to_store, 2000.0, 1e-9) << "15 June 2026 is the Monday of the third week";
  EXPECT_NEAR(supply.weeks[2].reaches.p50, 1000.0 * keeps * keeps, 1e-6);
  for (std::size_t w = 0; w < supply.weeks.size(); ++w) {
    if (w != 2) {
      EXPECT_EQ(supply.weeks[w].wanted, 0.0) << w;
    }
  }
}

}  // namespace
}  // namespace sowtide::desk
