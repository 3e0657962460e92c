// Records put together with stated precedence.
#include "climate/merge.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/weather_text.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;

WeatherRecord constant(base::Date first, std::size_t days, double high, ValueOrigin origin) {
  WeatherRecord record;
  record.resize(first, first + base::Days{static_cast<int>(days) - 1});
  for (std::size_t i = 0; i < days; ++i) record.set(Variable::tmax, record.date_at(i), high, origin);
  return record;
}

double high_on(const WeatherRecord& record, base::Date day) {
  return record.values(Variable::tmax)[static_cast<std::size_t>((day - record.first).count())];
}

TEST(Merge, JoinsOverAHoleInTime) {
  const auto merged = merge(constant(date_of(2020, 1, 1), 3, 5.0, ValueOrigin::observed),
                            constant(date_of(2020, 1, 10), 2, 7.0, ValueOrigin::observed));
  EXPECT_EQ(merged.record.day_count(), 11U);
  EXPECT_EQ(high_on(merged.record, date_of(2020, 1, 11)), 7.0);
  EXPECT_TRUE(std::isnan(high_on(merged.record, date_of(2020, 1, 5))));
  EXPECT_EQ(merged.added, 2U);
}

TEST(Merge, PrecedenceDecidesBetweenObservations) {
  const auto a = constant(date_of(2020, 1, 1), 3, 5.0, ValueOrigin::observed);
  const auto b = constant(date_of(2020, 1, 2), 3, 7.0, ValueOrigin::observed);
  EXPECT_EQ(high_on(merge(a, b, Precedence::addition).record, date_of(2020, 1, 2)), 7.0);
  EXPECT_EQ(high_on(merge(a, b, Precedence::base).record, date_of(2020, 1, 2)), 5.0);
  EXPECT_EQ(merge(a, b, Precedence::base).kept, 2U);
}

TEST(Merge, ForecastGivesWayToObservationAndToANewerForecast) {
  const auto forecast = constant(date_of(2020, 1, 1), 3, 5.0, ValueOrigin::forecast);
  const auto newer = constant(date_of(2020, 1, 2), 3, 6.0, ValueOrigin::forecast);
  const auto observed = constant(date_of(2020, 1, 1), 2, 9.0, ValueOrigin::observed);
  const auto first = merge(forecast, observed, Precedence::base).record;
  EXPECT_EQ(high_on(first, date_of(2020, 1, 2)), 9.0);
  EXPECT_EQ(first.of(Variable::tmax).origin[1], ValueOrigin::observed);
  const auto second = merge(first, newer, Precedence::base).record;
  EXPECT_EQ(high_on(second, date_of(2020, 1, 2)), 9.0) << "an observation never gives way to a forecast";
  EXPECT_EQ(high_on(second, date_of(2020, 1, 3)), 6.0);
}

TEST(Merge, TellsObservationsThatDisagree) {
  const auto merged = merge(constant(date_of(2020, 1, 1), 3, 5.0, ValueOrigin::observed),
                            constant(date_of(2020, 1, 2), 1, 15.0, ValueOrigin::observed));
  ASSERT_EQ(merged.findings.size(), 1U);
  EXPECT_EQ(merged.findings[0].check, "disagreement");
  EXPECT_EQ(merged.findings[0].value, 5.0);
}

TEST(Merge, EmptyBaseTakesTheSite) {
  auto record = constant(date_of(2020, 1, 1), 1, 5.0, ValueOrigin::observed);
  record.site = {"Somewhere", 50.0, 5.0, 10.0};
  EXPECT_EQ(merge({}, record).record.site.name, "Somewhere");
  EXPECT_EQ(merge(record, {}).record.day_count(), 1U);
}

TEST(Merge, SeveralRecordsInOrderOfPrecedence) {
  auto record = constant(date_of(2020, 1, 2), 1, 1.0, ValueOrigin::observed);
  for (const auto& next : {constant(date_of(2020, 1, 1), 3, 2.0, ValueOrigin::observed),
                           constant(date_of(2020, 1, 1), 4, 3.0, ValueOrigin::observed)}) {
    record = merge(record, next, Precedence::base).record;
  }
  EXPECT_EQ(record.values(Variable::tmax), (std::vector<double>{2.0, 1.0, 2.0, 3.0}));
}

TEST(Merge, ForecastCanBeTakenOut) {
  auto record = constant(date_of(2020, 1, 1), 2, 5.0, ValueOrigin::forecast);
  record.set(Variable::tmax, date_of(2020, 1, 1), 4.0, ValueOrigin::observed);
  const auto without = without_forecast(record);
  EXPECT_EQ(without.values(Variable::tmax)[0], 4.0);
  EXPECT_TRUE(std::isnan(without.values(Variable::tmax)[1]));
}

}  // namespace
}  // namespace sowtide::climate
