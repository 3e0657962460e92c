// Quality control finds what was planted, and leaves real records alone.
#include "climate/quality.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "base/file.hpp"
#include "climate/readers.hpp"
#include "support/weather_text.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;
using test::make_record;

/// A made record with the seasons and the scatter of a mid-latitude station.
WeatherRecord lively_record(int years, unsigned seed = 7) {
  std::mt19937 engine(seed);
  std::normal_distribution<double> noise(0.0, 3.0);
  const base::Date first = date_of(2001, 1, 1);
  const auto days = static_cast<std::size_t>((date_of(2001 + years, 1, 1) - first).count());
  std::vector<double> base_c(days), rain(days);
  for (std::size_t i = 0; i < days; ++i) {
    base_c[i] = 8.0 - 10.0 * std::cos(2.0 * M_PI * static_cast<double>(i) / 365.25) + noise(engine);
    rain[i] = noise(engine) > 2.0 ? std::abs(noise(engine)) + 0.1 : 0.0;
  }
  return make_record(
      first, days, [&](std::size_t i) { return base_c[i] - 4.0; },
      [&](std::size_t i) { return base_c[i] + 4.0 + rain[i] / 7.0; }, [&](std::size_t i) { return rain[i]; });
}

std::vector<QualityFinding> of_check(const QualityOutcome& outcome, const std::string& check) {
  std::vector<QualityFinding> out;
  std::ranges::copy_if(outcome.findings, std::back_inserter(out),
                       [&](const QualityFinding& finding) { return finding.check == check; });
  return out;
}

void plant(WeatherRecord& record, Variable variable, base::Date day, double value) {
  record.set(variable, day, value, ValueOrigin::observed);
}

TEST(QualityControl, LeavesASoundRecordAlone) {
  const WeatherRecord record = lively_record(20);
  const QualityOutcome outcome = control_quality(record);
  EXPECT_TRUE(outcome.findings.empty())
      << outcome.findings.front().check << " " << outcome.findings.front().detail;
}

TEST(QualityControl, RemovesTheImpossible) {
  WeatherRecord record = lively_record(20);
  plant(record, Variable::tmax, date_of(2005, 7, 4), 60.0);
  plant(record, Variable::rain, date_of(2005, 7, 5), -1.0);
  const QualityOutcome outcome = control_quality(record);
  EXPECT_EQ(outcome.findings.size(), 4U) << "two values, and for each a stretch of one missing day";
  const auto found = of_check(outcome, "impossible");
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].value, 60.0);
  EXPECT_EQ(found[0].action, "removed");
  const auto at = static_cast<std::size_t>((date_of(2005, 7, 4) - record.first).count());
  EXPECT_TRUE(std::isnan(outcome.record.values(Variable::tmax)[at]));
  EXPECT_EQ(outcome.record.of(Variable::tmax).origin[at], ValueOrigin::missing);
}

TEST(QualityControl, RemovesBothExtremesWhenTheMinimumIsAbove) {
  WeatherRecord record = lively_record(20);
  const auto day = date_of(2005, 5, 4);
  const auto at = static_cast<std::size_t>((day - record.first).count());
  plant(record, Variable::tmin, day, record.values(Variable::tmax)[at] + 2.0);
  EXPECT_EQ(of_check(control_quality(record), "tmin-above-tmax").size(), 2U);
}

TEST(QualityControl, RemovesSpikesAgainstTheClimate) {
  WeatherRecord record = lively_record(20);
  plant(record, Variable::tmax, date_of(2010, 1, 15), 27.5);
  const auto found = of_check(control_quality(record, {.gap_c = 1000.0}), "spike");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].date, date_of(2010, 1, 15));
}

TEST(QualityControl, RemovesWhatStandsApartFromAllOthersOfItsMonth) {
  WeatherRecord record = lively_record(20);
  plant(record, Variable::tmax, date_of(2010, 1, 15), 27.5);
  const auto found = of_check(control_quality(record), "stands-apart");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].date, date_of(2010, 1, 15));
}

TEST(QualityControl, RemovesSpikesAgainstBothNeighboursInAShortRecord) {
  WeatherRecord record = lively_record(1);
  const auto day = date_of(2001, 3, 10);
  const auto at = static_cast<std::size_t>((day - record.first).count());
  plant(record, Variable::tmax, day, record.values(Variable::tmax)[at] + 36.0);
  EXPECT_EQ(of_check(control_quality(record), "spike").size(), 1U);
}

TEST(QualityControl, RemovesFlatLinesOfTwentyDaysAndNotOfNineteen) {
  for (const int length : {19, 20}) {
    WeatherRecord record = lively_record(20);
    for (int day = 0; day < length; ++day)
      plant(record, Variable::tmin, date_of(2008, 6, 1) + base::Days{day}, 8.25);
    EXPECT_EQ(of_check(control_quality(record), "flat-line").size(), length == 20 ? 20U : 0U);
  }
}

TEST(QualityControl, DryMonthsAreNoFlatLine) {
  const WeatherRecord record = make_record(
      date_of(2001, 1, 1), 400,
      [](std::size_t i) { return static_cast<double>(i % 7) + static_cast<double>(i % 11) / 10.0; },
      [](std::size_t i) { return 20.0 + static_cast<double>(i % 5) + static_cast<double>(i % 13) / 10.0; },
      [](std::size_t) { return 0.0; });
  EXPECT_TRUE(of_check(control_quality(record), "flat-line").empty());
}

TEST(QualityControl, RemovesAMonthCopiedFromAnotherYear) {
  WeatherRecord record = lively_record(20);
  for (int day = 0; day < 31; ++day) {
    const auto from = static_cast<std::size_t>((date_of(2004, 5, 1) - record.first).count()) +
                      static_cast<std::size_t>(day);
    plant(record, Variable::tmax, date_of(2009, 5, 1) + base::Days{day}, record.values(Variable::tmax)[from]);
  }
  const auto found = of_check(control_quality(record), "duplicate");
  ASSERT_EQ(found.size(), 31U);
  EXPECT_EQ(found.front().date, date_of(2009, 5, 1)) << "the first stays, the copy goes";
}

TEST(QualityControl, RemovesZerosWrittenForMissing) {
  WeatherRecord record = lively_record(20);
  plant(record, Variable::tmin, date_of(2005, 12, 4), 0.0);
  plant(record, Variable::tmax, date_of(2005, 12, 4), 0.0);
  EXPECT_EQ(of_check(control_quality(record), "naught").size(), 2U);
}

TEST(QualityControl, RemovesRainFarAboveTheDatesHeavyRain) {
  WeatherRecord record = lively_record(20);
  plant(record, Variable::rain, date_of(2005, 8, 4), 300.0);
  EXPECT_EQ(of_check(control_quality(record), "spike").size(), 1U);
}

TEST(QualityControl, ListsMissingStretchesOnceForAllVariables) {
  WeatherRecord record = lively_record(20);
  for (int day = 0; day < 12; ++day) {
    for (const Variable variable : {Variable::tmin, Variable::tmax, Variable::rain}) {
      test::forget(record, variable, date_of(2006, 2, 1) + base::Days{day});
    }
  }
  const auto found = of_check(control_quality(record), "missing-days");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].value, 12.0);
  EXPECT_EQ(found[0].date, date_of(2006, 2, 1));
}

TEST(QualityControl, DoesNotJudgeAForecast) {
  WeatherRecord record = lively_record(20);
  record.set(Variable::tmax, date_of(2005, 7, 4), 60.0, ValueOrigin::forecast);
  EXPECT_TRUE(of_check(control_quality(record), "impossible").empty());
}

TEST(QualityControl, RadiationAboveTheAirIsImpossibleWhereTheSiteIsKnown) {
  WeatherRecord record = lively_record(2);
  record.site = {"x", 52.0, 5.0, 0.0};
  plant(record, Variable::radiation, date_of(2001, 12, 21), 20.0);
  plant(record, Variable::radiation, date_of(2001, 6, 21), 20.0);
  const auto found = of_check(control_quality(record), "impossible");
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].date, date_of(2001, 12, 21));
}

TEST(QualityControl, SecondRunFindsNothingToRemove) {
  WeatherRecord record = lively_record(20);
  plant(record, Variable::tmax, date_of(2010, 1, 15), 27.5);
  plant(record, Variable::rain, date_of(2005, 8, 4), 300.0);
  const QualityOutcome once = control_quality(record);
  const QualityOutcome twice = control_quality(once.record);
  EXPECT_TRUE(
      std::ranges::none_of(twice.findings, [](const QualityFinding& f) { return f.action == "removed"; }));
}

TEST(QualityFindings, AreKeptOnceAndInOrder) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const QualityFinding spike{date_of(2026, 4, 21), Variable::tmax, 52.0, "spike", "removed", "a"};
  const QualityFinding duplicate{date_of(2026, 4, 2), Variable::rain, nan, "duplicate", "removed", "b"};
  const QualityFinding missing{date_of(2026, 4, 1), Variable::rain, 3.0, "missing-days", "kept", "c"};
  std::vector<QualityFinding> kept;
  add_findings(kept, {spike, duplicate, missing});
  add_findings(kept, {duplicate, spike});
  ASSERT_EQ(kept.size(), 2U);
  EXPECT_EQ(kept[0].check, "duplicate");
  EXPECT_EQ(kept[1].check, "spike");
  QualityFinding other = spike;
  other.value = 53.0;
  add_findings(kept, {other});
  EXPECT_EQ(kept.size(), 3U);
}

/// Records of stations whose services have already checked them: nearly all that this control removes there
/// is wrongly removed. Durre et al. 2010 report that 0.24 % of values fail their checks as a whole.
TEST(QualityControl, RemovesFewerThanOneInAThousandOfCheckedStations) {
  for (const char* name :
       {"milwaukee_1991_2020", "cork_1991_2020", "hoogeveen_1991_2025", "maricopa_2003_2020"}) {
    const auto bytes =
        base::read_file(std::string(SOWTIDE_SOURCE_DIR) + "/tests/published/records/" + name + ".csv.gz");
    ASSERT_TRUE(bytes) << name;
    const auto read = read_weather(*bytes, name);
    ASSERT_TRUE(read) << to_text(read.error());
    const QualityOutcome outcome = control_quality(read->record);
    const auto removed = std::ranges::count(outcome.findings, "removed", &QualityFinding::action);
    EXPECT_LT(static_cast<double>(removed), 0.001 * 3.0 * static_cast<double>(read->record.day_count()))
        << name;
  }
}

}  // namespace
}  // namespace sowtide::climate
