// Parton and Logan 1981, worked by hand from the paper's formula and its parameters for air at 150 cm: Tmax
// 30, Tmin 10 °C on all days, sun from 6 to 18 h.
#include <gtest/gtest.h>

#include "climate/hourly.hpp"

namespace {

TEST(PartonLogan, MatchesTheFormulaAtThreeHours) {
  // Hours stand at the half: the neighbours of 3, 11 and 20 h must enclose and nearly average the printed
  // values.
  const auto hours = sowtide::climate::hourly_temperatures(10.0, 30.0, 30.0, 10.0, 12.0);
  EXPECT_NEAR(0.5 * (hours[2] + hours[3]), 12.50, 0.02);
  EXPECT_NEAR(0.5 * (hours[10] + hours[11]), 27.18, 0.1);
  EXPECT_NEAR(0.5 * (hours[19] + hours[20]), 19.03, 0.05);
}

}  // namespace
