// Calendar days: proleptic Gregorian, leap-safe, no clock and no time zone.
//
// `Date` is std::chrono::sys_days, so `date + std::chrono::days{7}` and `b - a` work. "Today" is always an
// argument; nothing here reads a clock.
#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "base/problem.hpp"

namespace sowtide::base {

using Date = std::chrono::sys_days;
using Days = std::chrono::days;

/// A day of the year without a year, for example 02-29. Ordered through the year.
struct MonthDay {
  int month = 1;  ///< 1..12
  int day = 1;    ///< 1..31
  friend constexpr auto operator<=>(const MonthDay&, const MonthDay&) noexcept = default;
};

/// A stretch of the year, both ends included; `from` after `to` means it wraps the new year.
struct YearSpan {
  MonthDay from;
  MonthDay to;
  friend constexpr bool operator==(const YearSpan&, const YearSpan&) noexcept = default;
};

/// The date, or out_of_range when the day does not exist (31 April, 29 February of a common year).
[[nodiscard]] Result<Date> make_date(int year, int month, int day);

/// The date for values known to be valid; asserts. For literals in code and tests.
[[nodiscard]] Date date_of(int year, int month, int day);

/// Reads exactly "YYYY-MM-DD". Fails with syntax or out_of_range.
[[nodiscard]] Result<Date> parse_iso_date(std::string_view text);

/// Reads exactly "MM-DD"; 02-29 is allowed.
[[nodiscard]] Result<MonthDay> parse_month_day(std::string_view text);

[[nodiscard]] std::string to_iso(Date date);          ///< "2026-04-09"
[[nodiscard]] std::string to_text(MonthDay day);      ///< "04-09"

[[nodiscard]] int year_of(Date date);
[[nodiscard]] int month_of(Date date);                ///< 1..12
[[nodiscard]] int day_of_month(Date date);            ///< 1..31
[[nodiscard]] int day_of_year(Date date);             ///< 1..366
[[nodiscard]] int days_in_year(int year);             ///< 365 or 366
[[nodiscard]] int days_in_month(int year, int month); ///< 28..31
[[nodiscard]] MonthDay month_day_of(Date date);

/// Place of the day in a 365-day climatological year, 1..365. 29 February counts as 28 February, so the
/// same calendar day has the same index in every year.
[[nodiscard]] int climatological_day(Date date);
[[nodiscard]] int climatological_day(MonthDay day);
/// The calendar day of a climatological index 1..365 (never 29 February).
[[nodiscard]] MonthDay month_day_of_climatological_day(int index);

/// The day in `year`; 29 February becomes 28 February in a common year.
[[nodiscard]] Date in_year(MonthDay day, int year);

/// True when the day lies in the span, wrapping the new year where the span does.
[[nodiscard]] bool contains(const YearSpan& span, MonthDay day);

/// Monday of the ISO week that holds the date.
[[nodiscard]] Date week_start(Date date);

}  // namespace sowtide::base
