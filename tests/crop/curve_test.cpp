#include "crop/curve.hpp"

#include <gtest/gtest.h>

#include "example_crop.hpp"

namespace sowtide::crop {
namespace {

TEST(Curve, IsStraightBetweenItsPointsAndLevelOutside) {
  const std::vector<TemperaturePoint> points{{5.0, 0.2}, {15.0, 1.0}, {40.0, 0.0}};
  EXPECT_DOUBLE_EQ(on_curve(points, -3.0), 0.2);
  EXPECT_DOUBLE_EQ(on_curve(points, 5.0), 0.2);
  EXPECT_DOUBLE_EQ(on_curve(points, 10.0), 0.6);
  EXPECT_DOUBLE_EQ(on_curve(points, 15.0), 1.0);
  EXPECT_DOUBLE_EQ(on_curve(points, 27.5), 0.5);
  EXPECT_DOUBLE_EQ(on_curve(points, 50.0), 0.0);
  EXPECT_DOUBLE_EQ(on_curve({}, 20.0), 0.0);
}

TEST(LightResponse, FollowsTheCardinalTemperaturesWhereNothingIsPublished) {
  Crop crop = testing::example_crop();
  ASSERT_TRUE(crop.growth.light_response.empty());
  const auto fallback = light_response_of(crop.growth);  // growth: 5, 20, 30, 40 °C
  EXPECT_DOUBLE_EQ(on_curve(fallback, 5.0), 0.0);
  EXPECT_DOUBLE_EQ(on_curve(fallback, 12.5), 0.5);
  EXPECT_DOUBLE_EQ(on_curve(fallback, 25.0), 1.0);
  EXPECT_DOUBLE_EQ(on_curve(fallback, 35.0), 0.5);
  crop.growth.cardinal.optimum_high_c.value = 20.0;
  EXPECT_DOUBLE_EQ(on_curve(light_response_of(crop.growth), 30.0), 0.5);
  crop.growth.light_response = {{0.0, 0.1}, {10.0, 0.9}};
  EXPECT_EQ(light_response_of(crop.growth), crop.growth.light_response);
}

}  // namespace
}  // namespace sowtide::crop
