#include "base/date.hpp"

#include <fmt/format.h>

#include <array>
#include <cassert>
#include <charconv>

namespace sowtide::base {
namespace {

constexpr std::array<int, 12> kDaysBeforeMonth{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};

std::chrono::year_month_day civil(Date date) {
  return std::chrono::year_month_day{date};
}

bool is_leap(int year) {
  return std::chrono::year{year}.is_leap();
}

/// Reads `length` digits at `at`; -1 when any is not a digit.
int read_digits(std::string_view text, std::size_t at, std::size_t length) {
  int value = 0;
  for (std::size_t i = at; i < at + length; ++i) {
    if (text[i] < '0' || text[i] > '9') return -1;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

tl::unexpected<Problem> bad_date(std::string_view text, std::string_view form) {
  return fail(ProblemCode::syntax, fmt::format("\"{}\" is not a date", text.substr(0, 40)), {},
              fmt::format("Write dates as {}", form));
}

}  // namespace

Result<Date> make_date(int year, int month, int day) {
  // The calendar types keep months and days in a byte, so larger numbers must not reach them.
  const bool plausible =
      year >= -32767 && year <= 32767 && month >= 1 && month <= 12 && day >= 1 && day <= 31;
  const std::chrono::year_month_day ymd{std::chrono::year{year},
                                        std::chrono::month{static_cast<unsigned>(month)},
                                        std::chrono::day{static_cast<unsigned>(day)}};
  if (!plausible || !ymd.ok()) {
    return fail(ProblemCode::out_of_range,
                fmt::format("{}-{:02}-{:02} is no day of the calendar", year, month, day));
  }
  return Date{ymd};
}

Date date_of(int year, int month, int day) {
  const auto date = make_date(year, month, day);
  assert(date && "date_of is for dates known to exist");
  return *date;
}

Result<Date> parse_iso_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return bad_date(text, "YYYY-MM-DD");
  const int year = read_digits(text, 0, 4);
  const int month = read_digits(text, 5, 2);
  const int day = read_digits(text, 8, 2);
  if (year < 0 || month < 0 || day < 0) return bad_date(text, "YYYY-MM-DD");
  return make_date(year, month, day);
}

Result<MonthDay> parse_month_day(std::string_view text) {
  if (text.size() != 5 || text[2] != '-') return bad_date(text, "MM-DD");
  const int month = read_digits(text, 0, 2);
  const int day = read_digits(text, 3, 2);
  if (month < 0 || day < 0) return bad_date(text, "MM-DD");
  constexpr int kLeapYear = 2000;
  if (auto checked = make_date(kLeapYear, month, day); !checked) return tl::make_unexpected(checked.error());
  return MonthDay{month, day};
}

std::string to_iso(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", year_of(date), month_of(date), day_of_month(date));
}

std::string to_text(MonthDay day) {
  return fmt::format("{:02}-{:02}", day.month, day.day);
}

int year_of(Date date) {
  return static_cast<int>(civil(date).year());
}
int month_of(Date date) {
  return static_cast<int>(static_cast<unsigned>(civil(date).month()));
}
int day_of_month(Date date) {
  return static_cast<int>(static_cast<unsigned>(civil(date).day()));
}

int day_of_year(Date date) {
  const Date first{civil(date).year() / std::chrono::January / 1};
  return static_cast<int>((date - first).count()) + 1;
}

int days_in_year(int year) {
  return is_leap(year) ? 366 : 365;
}

int days_in_month(int year, int month) {
  const auto last =
      std::chrono::year{year} / std::chrono::month{static_cast<unsigned>(month)} / std::chrono::last;
  return static_cast<int>(static_cast<unsigned>(last.day()));
}

MonthDay month_day_of(Date date) {
  return {month_of(date), day_of_month(date)};
}

int climatological_day(MonthDay day) {
  const int day_number = (day.month == 2 && day.day == 29) ? 28 : day.day;
  return kDaysBeforeMonth[static_cast<std::size_t>(day.month - 1)] + day_number;
}

int climatological_day(Date date) {
  return climatological_day(month_day_of(date));
}

MonthDay month_day_of_climatological_day(int index) {
  assert(index >= 1 && index <= 365);
  int month = 12;
  while (kDaysBeforeMonth[static_cast<std::size_t>(month - 1)] >= index) --month;
  return {month, index - kDaysBeforeMonth[static_cast<std::size_t>(month - 1)]};
}

Date in_year(MonthDay day, int year) {
  if (day.month == 2 && day.day == 29 && !is_leap(year)) return date_of(year, 2, 28);
  return date_of(year, day.month, day.day);
}

bool contains(const YearSpan& span, MonthDay day) {
  if (span.from <= span.to) return span.from <= day && day <= span.to;
  return day >= span.from || day <= span.to;
}

Date week_start(Date date) {
  const std::chrono::weekday weekday{date};
  return date - Days{weekday.iso_encoding() - 1};
}

}  // namespace sowtide::base
