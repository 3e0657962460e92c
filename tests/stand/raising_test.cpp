#include "stand/raising.hpp"

#include <gtest/gtest.h>

#include <memory>

#include "made_weather.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace {

using base::date_of;
using bed::TrayPlace;

TEST(LightInPlace, GlassTakesSomeAndAShelfKnowsNoWeather) {
  EXPECT_LT(light_in_place(TrayPlace::cold_frame, 8.0), 8.0);
  EXPECT_EQ(light_in_place(TrayPlace::outdoors, 8.0), 8.0);
  EXPECT_EQ(light_in_place(TrayPlace::indoors, 8.0), light_in_place(TrayPlace::heat_mat, 1.0));
}

TEST(WarmthInPlace, FollowsTheWeatherOutsideOnly) {
  EXPECT_EQ(seed_c_in_place({TrayPlace::indoors, 19.0, {}}, 3.0), 19.0);
  EXPECT_EQ(seedling_c_in_place({TrayPlace::indoors, 19.0, {}}, 3.0), 19.0);
  EXPECT_EQ(seedling_c_in_place({TrayPlace::outdoors, 19.0, {}}, 3.0), 3.0);
  EXPECT_GT(seedling_c_in_place({TrayPlace::cold_frame, 19.0, {}}, 3.0), 3.0);
}

TEST(WarmthInPlace, ASeedlingLeavesItsMatForTheRoom) {
  const RaisingPlace stays{TrayPlace::heat_mat, 24.0, {}};
  const RaisingPlace leaves{TrayPlace::heat_mat, 24.0, 18.0};
  EXPECT_EQ(seedling_c_in_place(stays, 3.0), 24.0);
  EXPECT_EQ(seed_c_in_place(leaves, 3.0), 24.0);
  EXPECT_EQ(seedling_c_in_place(leaves, 3.0), 18.0);
}

TEST(RaisingIn, OnlyAMatIsLeft) {
  bed::Tray tray{.id = "t", .name = "T", .cells = 12, .place = TrayPlace::heat_mat, .temp_c = 24.0};
  tray.room_c = 18.0;
  EXPECT_EQ(raising_in(tray), (RaisingPlace{TrayPlace::heat_mat, 24.0, 18.0}));
  tray.place = TrayPlace::indoors;
  EXPECT_EQ(raising_in(tray), (RaisingPlace{TrayPlace::indoors, 24.0, {}}));
}

// Up as soon as on the mat; fit to go out after a shelf's days from then on.
TEST(Outlook, AMatHastensEmergenceAndTheRoomSetsTheRest) {
  const auto years = testing::made_ensemble({}, date_of(2026, 1, 1), 730, 12);
  const CropWeather felt(crop::built_in_library().crops.at("tomato"),
                         std::make_shared<const SeasonWeather>(years));
  StandPlan plan{.id = "s1", .crop = "tomato", .method = Method::start_indoors, .sow = date_of(2026, 5, 25)};
  plan.clumps = 12;
  plan.cells = 14;
  plan.spacing_mm = 500.0;
  const auto lived = [&](const RaisingPlace& place) { return outlook(felt, plan, {}, place)->members; };
  const MemberTable mat = lived({TrayPlace::heat_mat, 24.0, {}});
  const MemberTable left = lived({TrayPlace::heat_mat, 24.0, 17.0});
  const MemberTable shelf = lived({TrayPlace::indoors, 17.0, {}});
  for (std::size_t m = 0; m < left.member_count; ++m) {
    EXPECT_EQ(left.emerge_day[m], mat.emerge_day[m]);
    EXPECT_LT(left.emerge_day[m], shelf.emerge_day[m]);
    EXPECT_GT(left.set_out_day[m], mat.set_out_day[m]);
    EXPECT_LT(left.set_out_day[m], shelf.set_out_day[m]);
  }
}

}  // namespace
}  // namespace sowtide::stand
