// Where a stand has room along its bed: against a plain search of every place.
#include "desk/stand_room.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cstdint>

namespace sowtide::desk {
namespace {

using base::date_of;
using base::Days;

const base::Date kToday = date_of(2026, 5, 20);
constexpr int kBedQuarters = 12;  // a bed of 3 m
constexpr double kQuarterM = 0.25;

/// A stand in quarters of a metre and days from today.
struct Block {
  int from = 0, length = 1;
  int first_day = 0, days = 1;
  bool begun = false;
};

bool meet(const Block& a, const Block& b) {
  return a.from < b.from + b.length && b.from < a.from + a.length && a.first_day <= b.first_day + b.days &&
         b.first_day <= a.first_day + a.days;
}

/// A season in which stands lie as told; nothing but where and when they are is known of them.
Season season_of(const std::vector<Block>& blocks) {
  Season season;
  season.today = kToday;
  season.garden.beds.push_back({"b1", "Bed", kBedQuarters * kQuarterM, 1.2});
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const Block& block = blocks[i];
    book::StandState state;
    state.plan.id = fmt::format("s{}", i + 1);
    state.plan.bed = "b1";
    state.plan.sow = kToday + Days{block.first_day};
    state.plan.from_m = block.from * kQuarterM;
    state.plan.to_m = (block.from + block.length) * kQuarterM;
    if (block.begun) state.facts.sown = state.plan.sow;
    const base::Date last = state.plan.sow + Days{block.days};
    stand::Outlook outlook;
    outlook.events.push_back({"last-pick", last, last, last, 1.0});
    season.state.stands.push_back(state);
    season.outlooks.push_back(outlook);
  }
  return season;
}

Block block_of(std::uint32_t bits) {
  const auto take = [&bits](int most) {
    const int value = static_cast<int>(bits % static_cast<std::uint32_t>(most));
    bits /= static_cast<std::uint32_t>(most);
    return value;
  };
  Block block;
  block.length = 1 + take(6);
  block.from = take(kBedQuarters - block.length + 1);
  block.first_day = take(60);
  block.days = 1 + take(60);
  block.begun = take(2) == 1;
  return block;
}

RC_GTEST_PROP(StandRoomLaws, TheFirstPlaceIsThatOfAPlainSearch, (const std::vector<std::uint32_t>& bits)) {
  std::vector<Block> blocks;
  for (const std::uint32_t each : bits) blocks.push_back(block_of(each));
  Block asked = block_of(*rc::gen::arbitrary<std::uint32_t>());
  asked.begun = true;
  std::optional<int> free, fewest_at;
  std::ptrdiff_t fewest = 0;
  for (asked.from = 0; asked.from + asked.length <= kBedQuarters; ++asked.from) {
    const auto count = [&](bool begun) {
      return std::count_if(blocks.begin(), blocks.end(),
                           [&](const Block& each) { return each.begun == begun && meet(each, asked); });
    };
    if (count(true) > 0) continue;
    if (count(false) == 0 && !free) free = asked.from;
    if (!fewest_at || count(false) < fewest) {
      fewest_at = asked.from;
      fewest = count(false);
    }
  }
  asked.from = 0;
  blocks.push_back(asked);
  const Season season = season_of(blocks);
  const std::string& id = season.state.stands.back().plan.id;
  const auto quarters = [](std::optional<double> metres) {
    return metres ? std::optional(static_cast<int>(std::lround(*metres / kQuarterM))) : std::nullopt;
  };
  RC_ASSERT(quarters(first_room_m(season, id, PlannedRoom::kept)) == free);
  RC_ASSERT(quarters(first_room_m(season, id, PlannedRoom::given_up)) == fewest_at);
}

TEST(StandRoom, WhatIsPlannedIsToldApartFromWhatWasBegun) {
  const Season season = season_of({{.from = 0, .length = 4, .days = 30, .begun = true},
                                   {.from = 0, .length = 2, .days = 30, .begun = true},
                                   {.from = 3, .length = 2, .days = 30},
                                   {.from = 4, .length = 2, .days = 30}});
  const SharedRoom shared = shared_room(season, "s1");
  EXPECT_EQ(shared.begun, std::vector<std::string>{"s2"});
  EXPECT_EQ(shared.planned, std::vector<std::string>{"s3"});
}

}  // namespace
}  // namespace sowtide::desk
