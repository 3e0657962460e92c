// Filling holes, and judging which years are whole.
#include "climate/gaps.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/file.hpp"
#include "climate/readers.hpp"
#include "support/weather_text.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;

WeatherRecord station(const std::string& name) {
  const auto bytes =
      base::read_file(std::string(SOWTIDE_SOURCE_DIR) + "/tests/published/records/" + name + ".csv.gz");
  return read_weather(*bytes, name)->record;
}

std::size_t place(const WeatherRecord& record, base::Date day) {
  return static_cast<std::size_t>((day - record.first).count());
}

TEST(GapFilling, LeavesKnownValuesAndMarksFilledOnes) {
  const WeatherRecord whole = station("milwaukee_1991_2020");
  WeatherRecord record = whole;
  for (int day = 0; day < 10; ++day)
    test::forget(record, Variable::tmin, date_of(2000, 3, 5) + base::Days{day});
  const GapOutcome outcome = fill_gaps(record);
  ASSERT_EQ(outcome.findings.size(), 1U);
  EXPECT_EQ(outcome.findings[0].action, "filled");
  EXPECT_EQ(outcome.findings[0].value, 10.0);
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    const ValueOrigin origin = outcome.record.of(Variable::tmin).origin[i];
    if (origin == ValueOrigin::observed) {
      ASSERT_EQ(outcome.record.values(Variable::tmin)[i], whole.values(Variable::tmin)[i]);
    } else {
      EXPECT_EQ(origin, ValueOrigin::filled);
      EXPECT_LE(outcome.record.values(Variable::tmin)[i], outcome.record.values(Variable::tmax)[i]);
    }
  }
}

/// Every 40th day is hidden and filled: one missing day must come out clearly nearer than the climate of the
/// date.
TEST(GapFilling, OneDayHolesBeatTheClimateOfTheDate) {
  for (const char* name : {"milwaukee_1991_2020", "cork_1991_2020"}) {
    const WeatherRecord whole = station(name);
    WeatherRecord record = whole;
    for (std::size_t i = 20; i + 20 < record.day_count(); i += 40) {
      test::forget(record, Variable::tmin, record.date_at(i));
      test::forget(record, Variable::tmax, record.date_at(i));
    }
    const GapOutcome filled = fill_gaps(record);
    double error = 0.0, climate_error = 0.0;
    std::array<double, 366> sum{}, count{};
    for (std::size_t i = 0; i < whole.day_count(); ++i) {
      const auto day = static_cast<std::size_t>(base::climatological_day(whole.date_at(i)));
      if (std::isnan(whole.values(Variable::tmax)[i])) continue;
      sum[day] += whole.values(Variable::tmax)[i], count[day] += 1.0;
    }
    for (std::size_t i = 20; i + 20 < whole.day_count(); i += 40) {
      const double truth = whole.values(Variable::tmax)[i];
      if (std::isnan(truth)) continue;
      const auto day = static_cast<std::size_t>(base::climatological_day(whole.date_at(i)));
      error += std::pow(filled.record.values(Variable::tmax)[i] - truth, 2);
      climate_error += std::pow(sum[day] / count[day] - truth, 2);
    }
    EXPECT_LT(std::sqrt(error), 0.75 * std::sqrt(climate_error)) << name;
  }
}

TEST(GapFilling, RainOfAHoleIsRainOfOneRealYear) {
  const WeatherRecord whole = station("milwaukee_1991_2020");
  WeatherRecord record = whole;
  for (int day = 0; day < 20; ++day)
    test::forget(record, Variable::rain, date_of(2000, 3, 5) + base::Days{day});
  const GapOutcome outcome = fill_gaps(record);
  ASSERT_EQ(outcome.findings.size(), 1U);
  const std::string& detail = outcome.findings[0].detail;
  const int donor = std::stoi(detail.substr(detail.size() - 4));
  for (int day = 0; day < 20; ++day) {
    EXPECT_EQ(
        outcome.record.values(
            Variable::rain)[place(record, date_of(2000, 3, 5)) + static_cast<std::size_t>(day)],
        whole.values(Variable::rain)[place(record, date_of(donor, 3, 5)) + static_cast<std::size_t>(day)]);
  }
}

TEST(GapFilling, LongHolesStayAndAreTold) {
  WeatherRecord record = station("milwaukee_1991_2020");
  for (int day = 0; day < 40; ++day)
    test::forget(record, Variable::tmax, date_of(2000, 3, 5) + base::Days{day});
  const GapOutcome outcome = fill_gaps(record);
  ASSERT_EQ(outcome.findings.size(), 1U);
  EXPECT_EQ(outcome.findings[0].action, "kept");
  EXPECT_TRUE(std::isnan(outcome.record.values(Variable::tmax)[place(record, date_of(2000, 3, 20))]));
}

TEST(GapFilling, NothingIsInventedBeforeTheFirstOrAfterTheLastValue) {
  WeatherRecord record = station("milwaukee_1991_2020");
  record.resize(record.first - base::Days{5}, record.last() + base::Days{5});
  const GapOutcome outcome = fill_gaps(record);
  EXPECT_TRUE(std::isnan(outcome.record.values(Variable::tmin).front()));
  EXPECT_TRUE(std::isnan(outcome.record.values(Variable::tmin).back()));
}

TEST(GapFilling, AShortRecordIsNotFilled) {
  WeatherRecord record = station("milwaukee_1991_2020");
  record.resize(date_of(2000, 1, 1), date_of(2000, 12, 31));
  test::forget(record, Variable::tmin, date_of(2000, 6, 1));
  const GapOutcome outcome = fill_gaps(record);
  ASSERT_EQ(outcome.findings.size(), 1U);
  EXPECT_EQ(outcome.findings[0].action, "kept");
}

RC_GTEST_PROP(GapFilling, FilledExtremesNeverCross, ()) {
  static const WeatherRecord whole = [] {
    WeatherRecord record = station("milwaukee_1991_2020");
    record.resize(date_of(2000, 1, 1), date_of(2003, 12, 31));
    return record;
  }();
  WeatherRecord record = whole;
  for (const Variable variable : {Variable::tmin, Variable::tmax}) {
    const int begin = *rc::gen::inRange(1, 1400), length = *rc::gen::inRange(1, 31);
    for (int i = begin; i < begin + length; ++i) test::forget(record, variable, record.first + base::Days{i});
  }
  const GapOutcome outcome = fill_gaps(record);
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    const double low = outcome.record.values(Variable::tmin)[i],
                 high = outcome.record.values(Variable::tmax)[i];
    RC_ASSERT(!std::isnan(low) && !std::isnan(high));
    RC_ASSERT(low <= high);
  }
}

TEST(UsableYears, CountsSeasonsThatCrossTheNewYear) {
  const WeatherRecord record = station("milwaukee_1991_2020");
  const auto seasons = season_completeness(record, {10, 1}, 365);
  ASSERT_EQ(seasons.size(), 30U);
  EXPECT_TRUE(seasons.front().usable);
  EXPECT_FALSE(seasons.back().usable) << "the season from October 2020 runs out of the record";
  const auto years = usable_years(record, {10, 1}, 365, 4);
  ASSERT_TRUE(years);
  EXPECT_EQ(years->size(), 29U);
  EXPECT_EQ(years->front(), 1991);
}

TEST(UsableYears, SaysWhyTooFew) {
  WeatherRecord record = station("milwaukee_1991_2020");
  record.resize(date_of(2000, 1, 1), date_of(2003, 12, 31));
  for (int day = 0; day < 40; ++day)
    test::forget(record, Variable::rain, date_of(2001, 3, 5) + base::Days{day});
  const auto years = usable_years(record, {1, 1}, 365, 4);
  ASSERT_FALSE(years);
  EXPECT_EQ(years.error().code, base::ProblemCode::insufficient_data);
  EXPECT_NE(years.error().what.find("2001: 40 of 365 days without observed rain"), std::string::npos)
      << years.error().what;
}

TEST(UsableYears, FilledDaysAreNotObservedOnes) {
  WeatherRecord record = station("milwaukee_1991_2020");
  for (int hole = 0; hole < 4; ++hole) {
    for (int day = 0; day < 12; ++day) {
      test::forget(record, Variable::tmin, date_of(2001, 3 + 2 * hole, 1) + base::Days{day});
    }
  }
  const GapOutcome filled = fill_gaps(record);
  const auto seasons = season_completeness(filled.record, {1, 1}, 365);
  EXPECT_EQ(seasons.at(10).year, 2001);
  EXPECT_EQ(seasons.at(10).tmin_unknown, 48U);
  EXPECT_FALSE(seasons.at(10).usable);
}

}  // namespace
}  // namespace sowtide::climate
