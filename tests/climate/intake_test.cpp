#include "climate/intake.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/stored_record.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;

/// Two weeks of a plausible July, but for one day.
WeatherImport july(double ninth_c) {
  WeatherImport import;
  import.record.resize(date_of(2021, 7, 1), date_of(2021, 7, 14));
  for (int day = 1; day <= 14; ++day) {
    const base::Date date = date_of(2021, 7, day);
    import.record.set(Variable::tmin, date, 12.0 + day % 3, ValueOrigin::observed);
    import.record.set(Variable::tmax, date, day == 9 ? ninth_c : 21.0 + day % 4, ValueOrigin::observed);
    import.record.set(Variable::rain, date, day % 2, ValueOrigin::observed);
  }
  return import;
}

bool has_removed(const std::vector<QualityFinding>& findings, base::Date date, Variable variable) {
  return std::ranges::any_of(findings, [&](const QualityFinding& finding) {
    return finding.action == "removed" && finding.date == date && finding.variable == variable;
  });
}

// Among 30 years of Cork Airport (never above 31 °C) a maximum of 42 °C stands out; alone it would only lie within 25 °C
// of its neighbours (both checks: I. Durre and others 2010).
TEST(Intake, AShortFileIsCheckedAmongTheYearsItJoins) {
  const base::Date ninth = date_of(2021, 7, 9);
  const Intake alone = take_in({}, july(42.0));
  EXPECT_FALSE(has_removed(alone.findings, ninth, Variable::tmax));
  const Intake joined = take_in(test::cork(), july(42.0));
  EXPECT_TRUE(has_removed(joined.findings, ninth, Variable::tmax));
  const auto at = static_cast<std::size_t>((ninth - joined.record.first).count());
  EXPECT_TRUE(std::isnan(joined.record.values(Variable::tmax)[at]));
  EXPECT_EQ(joined.record.values(Variable::tmin)[at], 12.0);
  const Intake usual = take_in(test::cork(), july(22.0));
  EXPECT_FALSE(has_removed(usual.findings, ninth, Variable::tmax));
  EXPECT_EQ(usual.added, 14U * 3U);
}

TEST(Intake, WhatWasThereStays) {
  WeatherRecord there = test::cork();
  there.set(Variable::tmax, date_of(2003, 7, 9), 45.0, ValueOrigin::observed);
  const Intake intake = take_in(there, july(22.0));
  EXPECT_FALSE(has_removed(intake.findings, date_of(2003, 7, 9), Variable::tmax));
  const auto at = static_cast<std::size_t>((date_of(2003, 7, 9) - intake.record.first).count());
  EXPECT_EQ(intake.record.values(Variable::tmax)[at], 45.0);
}

TEST(Intake, ATypicalYearIsAFinding) {
  WeatherImport import = july(22.0);
  import.typical_year = true;
  const Intake intake = take_in({}, std::move(import));
  EXPECT_EQ(std::ranges::count(intake.findings, "typical-year", &QualityFinding::check), 1);
}

// Means of Cork Airport 1991-2020 (Met Éireann): July 12 to 19 °C.
TEST(UnlikelyUnit, IsFahrenheitWithoutItsName) {
  MonthlyNormals cork;
  cork.tmin_c.fill(12.0);
  cork.tmax_c.fill(19.0);
  WeatherImport import = july(22.0);
  import.celsius_assumed = true;
  EXPECT_FALSE(unlikely_unit(import, cork));
  for (const Variable variable : {Variable::tmin, Variable::tmax}) {
    for (double& value : import.record.of(variable).value) value = value * 1.8 + 32.0;
  }
  const auto problem = unlikely_unit(import, cork);
  ASSERT_TRUE(problem);
  EXPECT_EQ(problem->code, base::ProblemCode::wrong_unit);
  import.celsius_assumed = false;
  EXPECT_FALSE(unlikely_unit(import, cork)) << "said is said";
}

}  // namespace
}  // namespace sowtide::climate
