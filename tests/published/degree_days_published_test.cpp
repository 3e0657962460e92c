#include <gtest/gtest.h>

#include <vector>

#include "climate/degree_days.hpp"

namespace {

using namespace sowtide::climate;

struct Table7Row {
  DayExtremes day;
  double single_sine, double_sine, single_triangle, double_triangle;
};

TEST(DegreeDays, MatchTable7OfZalomEtAl1983) {
  // Thresholds 55 and 90 °F, horizontal cut-off, °F days. The double triangle of (60, 100, 75) is printed
  // as 24.88, a misprint: its formula gives 27.13.
  const Table7Row rows[] = {
      {{96, 110, 91}, 35, 35, 35, 35},
      {{91, 105, 96}, 35, 35, 35, 35},
      {{45, 54, 38}, 0, 0, 0, 0},
      {{38, 50, 45}, 0, 0, 0, 0},
      {{60, 80, 75}, 15, 18.75, 15, 18.75},
      {{50, 82, 45}, 11.85, 11.31, 11.39, 10.62},
      {{45, 70, 50}, 5.31, 5.70, 4.50, 5.06},
      {{60, 100, 75}, 22.82, 26.26, 23.75, 27.13},
      {{75, 95, 60}, 28.91, 25.30, 29.38, 25.76},
  };
  for (const Table7Row& row : rows) {
    const auto sum = [&row](DegreeDayMethod method) { return degree_days(row.day, {method, 55.0, 90.0}); };
    EXPECT_NEAR(sum(DegreeDayMethod::single_sine), row.single_sine, 0.006);
    EXPECT_NEAR(sum(DegreeDayMethod::double_sine), row.double_sine, 0.006);
    EXPECT_NEAR(sum(DegreeDayMethod::single_triangle), row.single_triangle, 0.006);
    EXPECT_NEAR(sum(DegreeDayMethod::double_triangle), row.double_triangle, 0.006);
  }
}

TEST(DegreeDays, CutOffsMatchTheirFormulas) {
  // Worked by hand from Zalom et al. 1983 for the days of their table 7.
  const auto sum = [](DayExtremes day, UpperCutoff cutoff) {
    return degree_days(day, {DegreeDayMethod::single_sine, 55.0, 90.0, cutoff});
  };
  EXPECT_NEAR(sum({60, 100, 75}, UpperCutoff::vertical), 11.15, 0.006);
  EXPECT_NEAR(sum({60, 100, 75}, UpperCutoff::intermediate), 20.64, 0.006);
  EXPECT_NEAR(sum({75, 95, 60}, UpperCutoff::vertical), 17.24, 0.006);
  EXPECT_NEAR(sum({75, 95, 60}, UpperCutoff::intermediate), 27.82, 0.006);
  EXPECT_NEAR(sum({96, 110, 91}, UpperCutoff::vertical), 0.0, 1e-9);
}

TEST(ChillPortions, MatchTheDynamicModelAtConstantTemperatures) {
  // S. Fishman, A. Erez and G. A. Couvillon 1987 with its published constants: portions after 1000 hours.
  const std::pair<double, double> published[] = {{0, 4.852},  {2, 26.332},  {4, 29.849}, {6, 34.204},
                                                 {8, 34.568}, {12, 25.002}, {14, 0.0}};
  for (const auto& [temp_c, portions] : published) {
    ChillPortions chill;
    for (int hour = 0; hour < 1000; ++hour) chill.add_hour(temp_c);
    EXPECT_NEAR(chill.portions(), portions, 0.0006) << temp_c;
  }
}

TEST(ChillPortions, ComeFirstInThePublishedHour) {
  const std::pair<double, int> published[] = {{0, 35}, {2, 32}, {4, 31}, {6, 30}, {8, 30}, {12, 40}};
  for (const auto& [temp_c, first_hour] : published) {
    ChillPortions chill;
    int hour = 0;
    while (chill.portions() == 0.0 && hour < 1000) {
      chill.add_hour(temp_c);
      ++hour;
    }
    EXPECT_EQ(hour, first_hour) << temp_c;
  }
}

TEST(GrowingDegreeHours, MatchAndersonRichardsonAndKesner1986) {
  const std::pair<double, double> published[] = {{4, 0},   {10, 3.953}, {14.5, 10.5}, {20, 18.197},
                                                 {25, 21}, {30, 7.248}, {36, 0}};
  for (const auto& [temp_c, hours] : published) {
    EXPECT_NEAR(growing_degree_hours(std::vector<double>{temp_c}), hours, 0.0006) << temp_c;
  }
}

TEST(UtahChillUnits, MatchTheWeightsOfRichardsonSeeleyAndWalker1974) {
  const std::pair<double, double> published[] = {{1.4, 0.0},   {1.5, 0.5},   {2.5, 1.0},
                                                 {9.1, 1.0},   {9.2, 0.5},   {12.5, 0.0},
                                                 {16.0, -0.5}, {18.0, -0.5}, {18.1, -1.0}};
  for (const auto& [temp_c, units] : published) {
    EXPECT_DOUBLE_EQ(utah_chill_units(std::vector<double>{temp_c}), units) << temp_c;
  }
}

}  // namespace
