#include "desk/packets.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "crop/counts.hpp"
#include "made_up_places.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;

/// An invented garden in the climate of the worklist's tests, with beet in the box and in the plan.
book::GardenDescription beet_garden(int packed_year, double seeds, std::optional<double> stated_pct = {}) {
  book::GardenDescription garden = garden_of_cool_springs("Test");
  garden.beds.push_back({.id = "b", .name = "Test bed", .length_m = 4.0, .width_m = 1.2});
  garden.packets.push_back({.id = "p1",
                            .crop = "beet",
                            .packed_year = packed_year,
                            .seeds = seeds,
                            .germination_pct = stated_pct});
  stand::StandPlan plan;
  plan.id = "s1";
  plan.crop = "beet";
  plan.sow = date_of(2026, 5, 10);
  plan.clumps = 40;
  plan.spacing_mm = 140.0;
  plan.bed = "b";
  plan.to_m = 1.0;
  plan.cells = 40;
  plan.seeds_per_cell = 2.0;
  garden.stands.push_back(plan);
  return garden;
}

book::Event test_of(const char* id, base::Date date, int came_up, const char* text) {
  book::Event event;
  event.id = id;
  event.date = date;
  event.kind = book::EventKind::tested;
  event.target = "p1";
  event.count = came_up;
  event.text = text;
  return event;
}

SeedBox box_of(const book::GardenDescription& garden, const std::vector<book::Event>& events = {},
               const SeedBoxOptions& options = {}) {
  const auto season = make_season(crop::built_in_library(), garden, events, date_of(2026, 3, 1));
  EXPECT_TRUE(season);
  const auto box = season ? seed_box(*season, options) : base::Result<SeedBox>{};
  EXPECT_TRUE(box) << (box ? "" : base::to_text(box.error()));
  return box.value_or(SeedBox{});
}

TEST(SeedBox, FreshSeedIsGoodAndOldSeedIsNot) {
  const SeedBox fresh = box_of(beet_garden(2026, 300.0));
  ASSERT_EQ(fresh.packets.size(), 1U);
  EXPECT_EQ(fresh.packets[0].verdict, PacketVerdict::good);
  const SeedBox old = box_of(beet_garden(2008, 300.0));
  EXPECT_LT(old.packets[0].germination_pct, fresh.packets[0].germination_pct);
  EXPECT_NE(old.packets[0].verdict, PacketVerdict::good);
}

TEST(SeedBox, NextSeasonIsNoBetter) {
  for (const int year : {2012, 2018, 2022, 2026}) {
    const SeedBox box = box_of(beet_garden(year, 300.0));
    EXPECT_LE(box.packets[0].next_season_pct, box.packets[0].germination_pct + 1e-9) << year;
    EXPECT_LE(box.packets[0].germination.p10, box.packets[0].germination.p90);
  }
}

TEST(SeedBox, CoolDrySeedKeepsLonger) {
  const SeedBox room =
      box_of(beet_garden(2018, 300.0), {}, {.keeping = {.temp_c = 22.0, .moisture_pct = 10.0}});
  const SeedBox cool =
      box_of(beet_garden(2018, 300.0), {}, {.keeping = {.temp_c = 8.0, .moisture_pct = 7.0}});
  EXPECT_LT(room.packets[0].germination_pct, cool.packets[0].germination_pct);
}

/// Seed of the first third of its published life is worth sowing, at its end it is doubtful, and nothing is
/// certain: kept in ordinary dry and cool ways, packets differ by a factor of two.
TEST(SeedBox, SeedGrowsOldWithItsPublishedLife) {
  auto garden = beet_garden(2026, 300.0);
  garden.packets = {{.id = "l24", .crop = "lettuce", .packed_year = 2024, .seeds = 400.0},
                    {.id = "l20", .crop = "lettuce", .packed_year = 2020, .seeds = 400.0},
                    {.id = "t19", .crop = "tomato", .packed_year = 2019, .seeds = 40.0}};
  const SeedBox box = box_of(garden);
  EXPECT_EQ(box.packets[0].verdict, PacketVerdict::good);
  EXPECT_EQ(box.packets[1].verdict, PacketVerdict::test_first);  // six years old, and it may still be good
  EXPECT_NEAR(box.packets[1].germination_pct / box.packets[1].fresh_pct, 0.5, 0.06);
  EXPECT_EQ(box.packets[2].verdict, PacketVerdict::renew);
  for (const PacketState& packet : box.packets) {
    EXPECT_GT(packet.germination.p90 - packet.germination.p10, 30.0) << packet.packet.id;
    EXPECT_GT(packet.germination_pct, 10.0) << packet.packet.id;
  }
}

TEST(SeedBox, AHomeTestOutweighsAge) {
  auto garden = beet_garden(2026, 300.0);
  garden.packets = {{.id = "p1", .crop = "lettuce", .packed_year = 2020, .seeds = 400.0}};
  const PacketState tested =
      box_of(garden, {test_of("t1", date_of(2026, 3, 1), 18, "of 20, on a damp cloth")}).packets[0];
  ASSERT_EQ(tested.tests.size(), 1U);
  EXPECT_EQ(tested.verdict, PacketVerdict::good);
  EXPECT_GT(tested.germination_pct, 80.0);
  EXPECT_LT(tested.germination.p90 - tested.germination.p10, 22.0);
  EXPECT_GT(tested.next_season_pct, tested.germination_pct - 8.0);
  const PacketState poor = box_of(garden, {test_of("t1", date_of(2026, 3, 1), 4, "of 20")}).packets[0];
  EXPECT_NEAR(poor.germination_pct, 20.0, 8.0);
  EXPECT_EQ(poor.verdict, PacketVerdict::renew);
}

/// What is to be renewed is not in the box: all is to be bought.
TEST(SeedBox, DeadSeedCoversNothing) {
  const SeedBox box = box_of(beet_garden(2005, 5000.0));
  ASSERT_EQ(box.packets[0].verdict, PacketVerdict::renew);
  EXPECT_EQ(box.needs[0].covered_seeds, 0.0);
  EXPECT_EQ(box.packets[0].planned_seeds, 0.0);
  ASSERT_TRUE(box.needs[0].buy);
  EXPECT_EQ(box.needs[0].buy->seeds, static_cast<int>(box.needs[0].seeds));
  EXPECT_TRUE(box.needs[0].stands[0].doubt.empty()) << "nothing is sown from it";
  auto named = beet_garden(2005, 5000.0);
  named.stands[0].packet = "p1";
  const auto doubt = box_of(named).needs[0].stands[0].doubt;
  ASSERT_EQ(doubt.size(), 2U) << "its plan names it";
  EXPECT_EQ(doubt[1].key, "renew");
}

/// Of middling seed more is taken, in proportion to what comes up.
TEST(SeedBox, MiddlingSeedCountsForWhatItIsWorth) {
  const SeedBox fresh = box_of(beet_garden(2026, 5000.0));
  const SeedBox middling = box_of(beet_garden(2023, 5000.0));
  ASSERT_EQ(middling.packets[0].verdict, PacketVerdict::sow_thicker);
  EXPECT_GT(middling.needs[0].seeds, 1.1 * fresh.needs[0].seeds);
  EXPECT_EQ(middling.needs[0].stands[0].doubt[0].key, "packet-comes-up");
  EXPECT_EQ(middling.needs[0].stands[0].doubt[1].key, "sow-thicker-than-told");
  EXPECT_TRUE(fresh.needs[0].stands[0].doubt.empty());
}

/// Tubers: one to a place and a few more, though an older plan says two; they are new in the autumn they are
/// lifted in.
TEST(SeedBox, PiecesAreOneToAPlaceAndAFewMore) {
  auto garden = beet_garden(2026, 300.0);
  garden.stands[0].crop = "potato";
  garden.stands[0].clumps = garden.stands[0].cells = 75;
  garden.packets = {{.id = "p1", .crop = "potato", .packed_year = 2026, .seeds = 200.0}};
  const SeedBox box = box_of(garden);
  EXPECT_EQ(box.packets[0].age_years, 0.0);
  EXPECT_GE(box.needs[0].seeds, 75.0);
  EXPECT_LE(box.needs[0].seeds, 86.0);
}

/// Seedlings of onion and leek are raised several to a cell: 45 cells of 4 seeds bring 45 clumps now and then
/// only, and the plan sows some more.
TEST(SeedBox, OfClumpsOfSeveralNeverFewerThanThePlanSows) {
  auto garden = beet_garden(2026, 300.0);
  stand::StandPlan& onions = garden.stands[0];
  onions.crop = "onion";
  onions.method = stand::Method::start_indoors;
  onions.clumps = 45;
  onions.cells = 48;
  onions.plants_per_clump = onions.seeds_per_cell = 4.0;
  garden.packets.clear();
  const SeedBox box = box_of(garden);
  ASSERT_TRUE(box.needs[0].buy);
  EXPECT_GE(box.needs[0].buy->seeds, 192);
  EXPECT_EQ(box.needs[0].buy->seeds % 4, 0) << "whole cells";
  const SeedBox sure = box_of(garden, {}, {.service = 0.999});
  EXPECT_GT(sure.needs[0].buy->seeds, 192);
}

/// One rule for all: what is sown from no packet that is named comes off those worth sowing; a dead one gives
/// only what the log says was taken from it.
TEST(SeedBox, WhatIsSownComesOffADeadPacketOnlyWhereItIsNamed) {
  auto garden = beet_garden(2005, 300.0);
  book::Event sown{
      .id = "e1", .date = date_of(2026, 2, 1), .kind = book::EventKind::sown, .stand = "s1", .count = 40.0};
  EXPECT_EQ(box_of(garden, {sown}).packets[0].seeds_left, 300.0);
  garden.packets.push_back({.id = "p2", .crop = "beet", .packed_year = 2026, .seeds = 500.0});
  EXPECT_EQ(box_of(garden, {sown}).packets[1].seeds_left, 460.0);
  sown.target = "p1";
  const SeedBox named = box_of(garden, {sown});
  EXPECT_EQ(named.packets[0].seeds_left, 260.0);
  EXPECT_EQ(named.packets[1].seeds_left, 500.0);
}

TEST(SeedBox, ACorrectedTestIsForgotten) {
  const auto garden = beet_garden(2024, 300.0);
  book::Event correction;
  correction.id = "c1";
  correction.sequence = 2;
  correction.date = date_of(2026, 3, 1);
  correction.kind = book::EventKind::corrected;
  correction.target = "t1";
  const SeedBox box = box_of(garden, {test_of("t1", date_of(2026, 2, 20), 3, "of 10"), correction});
  EXPECT_TRUE(box.packets[0].tests.empty());
}

TEST(SeedBox, WhatIsSownComesOffThePacket) {
  const auto garden = beet_garden(2026, 300.0);
  book::Event sown;
  sown.id = "e1";
  sown.date = date_of(2026, 2, 28);
  sown.kind = book::EventKind::sown;
  sown.stand = "s1";
  EXPECT_EQ(box_of(garden, {sown}).packets[0].seeds_left, 300.0 - 80.0);  // 40 places of 2, as planned
  sown.count = 65.0;
  const SeedBox counted = box_of(garden, {sown});
  EXPECT_EQ(counted.packets[0].seeds_left, 235.0);
  EXPECT_TRUE(counted.needs.empty());
}

TEST(SeedBox, WhatWasSownDoesNotComeBackWhereBoughtPlantsStand) {
  const auto garden = beet_garden(2026, 300.0);
  book::Event sown{
      .id = "e1", .date = date_of(2026, 2, 1), .kind = book::EventKind::sown, .stand = "s1", .count = 40.0};
  book::Event bought{.id = "e2",
                     .date = date_of(2026, 2, 20),
                     .kind = book::EventKind::set_out,
                     .stand = "s1",
                     .text = "bought"};
  EXPECT_EQ(box_of(garden, {sown, bought}).packets[0].seeds_left, 260.0);
}

/// The seeds asked for are those of the exact count of cells at the packet's germination in the soil; a
/// packet with too few is emptied and the rest is to buy.
TEST(SeedBox, CountsWhatIsShort) {
  const SeedBox enough = box_of(beet_garden(2026, 1000.0));
  ASSERT_EQ(enough.needs.size(), 1U);
  EXPECT_FALSE(enough.needs[0].buy);
  EXPECT_EQ(enough.needs[0].short_seeds, 0.0);
  EXPECT_EQ(enough.packets[0].planned_seeds, enough.needs[0].seeds);
  const SeedBox few = box_of(beet_garden(2026, 20.0));
  ASSERT_TRUE(few.needs[0].buy);
  EXPECT_EQ(few.packets[0].planned_seeds, 20.0);
  EXPECT_NEAR(few.needs[0].short_seeds, few.needs[0].seeds - 20.0, 1e-9);
  EXPECT_EQ(few.needs[0].buy->seeds, static_cast<int>(few.needs[0].short_seeds));
  const auto& beet = crop::built_in_library().crops.at("beet");
  EXPECT_NEAR(few.needs[0].buy->grams, few.needs[0].buy->seeds / beet.seed.seeds_per_gram, 1e-9);
  const SeedBox none = box_of(beet_garden(2026, 0.0));
  EXPECT_EQ(none.needs[0].short_seeds, none.needs[0].seeds);
}

TEST(SeedBox, HigherServiceNeedsMoreSeed) {
  const SeedBox usual = box_of(beet_garden(2026, 1000.0), {}, {.service = 0.6});
  const SeedBox sure = box_of(beet_garden(2026, 1000.0), {}, {.service = 0.99});
  EXPECT_LT(usual.needs[0].seeds, sure.needs[0].seeds);
}

TEST(SeedBox, UsesTheOldestGoodPacketFirst) {
  auto garden = beet_garden(2026, 500.0);
  garden.packets.push_back({.id = "p2", .crop = "beet", .packed_year = 2025, .seeds = 500.0});
  garden.packets.push_back({.id = "p3", .crop = "beet", .packed_year = 1990, .seeds = 500.0});
  const SeedBox box = box_of(garden);
  ASSERT_FALSE(box.needs[0].stands[0].shares.empty());
  EXPECT_EQ(box.needs[0].stands[0].shares[0].packet, "p2");
}

TEST(SeedBox, TakesFromAnotherPacketOfTheKindWhenTheNamedOneIsUsedUp) {
  auto garden = beet_garden(2026, 30.0);
  garden.stands[0].packet = "p1";
  garden.packets.push_back({.id = "p2", .crop = "beet", .packed_year = 2025, .seeds = 500.0});
  garden.packets.push_back({.id = "p3", .crop = "carrot", .packed_year = 2025, .seeds = 500.0});
  const SeedBox box = box_of(garden);
  const std::vector<SeedShare>& shares = box.needs[0].stands[0].shares;
  ASSERT_EQ(shares.size(), 2U);
  EXPECT_EQ(shares[0].packet, "p1");
  EXPECT_EQ(shares[0].seeds, 30.0);
  EXPECT_EQ(shares[1].packet, "p2");
  EXPECT_FALSE(box.needs[0].buy);
}

TEST(SeedsGone, AreWhatTheLogSaysWasSown) {
  auto garden = beet_garden(2026, 300.0);
  garden.packets.push_back({.id = "p2", .crop = "carrot", .packed_year = 2025, .seeds = 500.0});
  book::Event sown;
  sown.id = "e1";
  sown.date = date_of(2026, 2, 28);
  sown.kind = book::EventKind::sown;
  sown.stand = "s1";
  sown.count = 65.0;
  const auto state = book::fold(garden, {sown}, date_of(2026, 3, 1));
  EXPECT_EQ(seeds_gone(crop::built_in_library(), garden, state, date_of(2026, 3, 1)),
            (std::map<std::string, double>{{"p1", 65.0}, {"p2", 0.0}}));
}

TEST(SeedBox, RefusesAServiceThatIsNoChance) {
  const auto season = make_season(crop::built_in_library(), beet_garden(2026, 10.0), {}, date_of(2026, 3, 1));
  ASSERT_TRUE(season);
  const auto box = seed_box(*season, {.service = 1.0});
  ASSERT_FALSE(box);
  EXPECT_EQ(box.error().where.field, "service");
}

}  // namespace
}  // namespace sowtide::desk
