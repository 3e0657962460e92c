// Calendar days: leap years, the proleptic calendar, days of the year and of the climatological year.
#include "base/date.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

namespace sowtide::base {
namespace {

/// Any day that has a four-digit year.
Date any_date() {
  const auto first = date_of(1, 1, 1).time_since_epoch().count();
  const auto last = date_of(9999, 12, 31).time_since_epoch().count();
  return Date{Days{*rc::gen::inRange(first, last + 1)}};
}

TEST(Date, LeapYearsAreThoseOfTheGregorianCalendar) {
  for (const int year : {1600, 2000, 2024, 2028, 2400}) EXPECT_EQ(days_in_year(year), 366) << year;
  for (const int year : {1700, 1800, 1900, 2023, 2026, 2100}) EXPECT_EQ(days_in_year(year), 365) << year;
  EXPECT_TRUE(make_date(2024, 2, 29));
  EXPECT_FALSE(make_date(2026, 2, 29));
  EXPECT_FALSE(make_date(1900, 2, 29));
}

TEST(Date, RunsOnBeforeTheCalendarWasMade) {
  // The days 5 to 14 October 1582, left out when the calendar changed, exist in the proleptic calendar.
  EXPECT_TRUE(make_date(1582, 10, 10));
  EXPECT_EQ(date_of(1582, 10, 15) - date_of(1582, 10, 4), Days{11});
  // Year 0 is a leap year of the proleptic calendar (ISO 8601).
  EXPECT_EQ(days_in_year(0), 366);
}

TEST(Date, DaysOfTheWeekAreThoseOfTheCalendarOnTheWall) {
  // 1970-01-01 was a Thursday; 2026-11-25 is a Wednesday. Weeks begin on Monday (ISO 8601).
  EXPECT_EQ(week_start(date_of(1970, 1, 1)), date_of(1969, 12, 29));
  EXPECT_EQ(week_start(date_of(2026, 11, 25)), date_of(2026, 11, 23));
  EXPECT_EQ(week_start(date_of(2026, 11, 23)), date_of(2026, 11, 23));
  EXPECT_EQ(week_start(date_of(2026, 11, 29)), date_of(2026, 11, 23));
}

TEST(Date, DayOfYearAgreesWithTheTableOfFao56) {
  // FAO Irrigation and Drainage Paper 56, annex 2, table 2.5: number of the day in the year.
  EXPECT_EQ(day_of_year(date_of(2023, 1, 1)), 1);
  EXPECT_EQ(day_of_year(date_of(2023, 3, 1)), 60);
  EXPECT_EQ(day_of_year(date_of(2024, 3, 1)), 61);
  EXPECT_EQ(day_of_year(date_of(2023, 9, 3)), 246);
  EXPECT_EQ(day_of_year(date_of(2023, 12, 31)), 365);
  EXPECT_EQ(day_of_year(date_of(2024, 12, 31)), 366);
}

TEST(Date, TheClimatologicalYearHas365DaysAndNoLeapDay) {
  EXPECT_EQ(climatological_day(date_of(2024, 2, 29)), climatological_day(date_of(2024, 2, 28)));
  EXPECT_EQ(climatological_day(date_of(2024, 3, 1)), 60);
  EXPECT_EQ(climatological_day(date_of(2023, 3, 1)), 60);
  EXPECT_EQ(climatological_day(date_of(2024, 12, 31)), 365);
  for (int index = 1; index <= 365; ++index) {
    EXPECT_EQ(climatological_day(month_day_of_climatological_day(index)), index);
  }
}

TEST(Date, TextsThatAreNotDatesAreRefused) {
  for (const char* text :
       {"", "2026-1-1", "2026/01/01", "26-01-01", "2026-01-01 ", "+026-01-01", "2026-0a-01"}) {
    EXPECT_EQ(parse_iso_date(text).error().code, ProblemCode::syntax) << text;
  }
  for (const char* text : {"2026-13-01", "2026-00-10", "2026-04-31", "2026-02-29"}) {
    EXPECT_EQ(parse_iso_date(text).error().code, ProblemCode::out_of_range) << text;
  }
  EXPECT_FALSE(make_date(2026, 257, 1)) << "months must not be cut to a byte";
  EXPECT_FALSE(make_date(2026, 1, 258)) << "days must not be cut to a byte";
  EXPECT_FALSE(make_date(2026, -1, 1));
}

TEST(MonthDayText, AcceptsTheLeapDayOnly) {
  EXPECT_EQ(parse_month_day("02-29").value(), (MonthDay{2, 29}));
  EXPECT_EQ(parse_month_day("02-30").error().code, ProblemCode::out_of_range);
  EXPECT_EQ(parse_month_day("2-9").error().code, ProblemCode::syntax);
  EXPECT_EQ(in_year({2, 29}, 2024), date_of(2024, 2, 29));
  EXPECT_EQ(in_year({2, 29}, 2026), date_of(2026, 2, 28));
}

TEST(YearSpan, WrapsTheNewYear) {
  const YearSpan winter{{11, 1}, {2, 29}};
  EXPECT_TRUE(contains(winter, {11, 1}));
  EXPECT_TRUE(contains(winter, {1, 1}));
  EXPECT_TRUE(contains(winter, {2, 29}));
  EXPECT_FALSE(contains(winter, {3, 1}));
  EXPECT_FALSE(contains(winter, {10, 31}));
  const YearSpan day{{5, 5}, {5, 5}};
  EXPECT_TRUE(contains(day, {5, 5}));
  EXPECT_FALSE(contains(day, {5, 6}));
}

RC_GTEST_PROP(DateLaws, TextReadsBackAsTheSameDay, ()) {
  const Date date = any_date();
  RC_ASSERT(parse_iso_date(to_iso(date)).value() == date);
  RC_ASSERT(make_date(year_of(date), month_of(date), day_of_month(date)).value() == date);
}

RC_GTEST_PROP(DateLaws, TheNextDayIsOneFurtherInTheYearOrTheFirst, ()) {
  const Date date = any_date();
  const Date next = date + Days{1};
  RC_ASSERT(day_of_year(next) ==
            (day_of_year(date) == days_in_year(year_of(date)) ? 1 : day_of_year(date) + 1));
  RC_ASSERT(
      day_of_month(next) ==
      (day_of_month(date) == days_in_month(year_of(date), month_of(date)) ? 1 : day_of_month(date) + 1));
}

RC_GTEST_PROP(DateLaws, WeeksBeginAtMostSixDaysBefore, ()) {
  const Date date = any_date();
  const auto before = (date - week_start(date)).count();
  RC_ASSERT(before >= 0 && before < 7);
  RC_ASSERT(week_start(week_start(date)) == week_start(date));
}

RC_GTEST_PROP(DateLaws, ASpanAndItsRestShareTheYear, ()) {
  const MonthDay from = month_day_of(any_date());
  const MonthDay to = month_day_of(any_date());
  const MonthDay day = month_day_of(any_date());
  RC_PRE(from != to);
  const bool in_both = contains({from, to}, day) && contains({to, from}, day);
  const bool in_one = contains({from, to}, day) || contains({to, from}, day);
  RC_ASSERT(in_one);
  RC_ASSERT(in_both == (day == from || day == to));
}

}  // namespace
}  // namespace sowtide::base
