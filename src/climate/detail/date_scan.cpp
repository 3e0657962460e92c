#include "climate/detail/date_scan.hpp"

#include <array>

namespace sowtide::climate::detail {

namespace {

bool figure(char c) {
  return c >= '0' && c <= '9';
}
bool letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// 1..12 for an English month name or its first three letters (or more), 0 otherwise.
int month_named(std::string_view word) {
  constexpr std::array<std::string_view, 12> kMonths{"january",   "february", "march",    "april",
                                                     "may",       "june",     "july",     "august",
                                                     "september", "october",  "november", "december"};
  if (word.size() < 3) return 0;
  for (std::size_t m = 0; m < kMonths.size(); ++m) {
    if (starts_with_word(kMonths[m], word)) return static_cast<int>(m) + 1;
  }
  return 0;
}

/// One run of figures or of letters.
struct Token {
  std::string_view text;
  bool number = false;
};

/// The date part of the text, cut into at most four tokens; false when anything else stands in it.
struct DateTokens {
  std::array<Token, 4> token;
  std::size_t count = 0;
};

std::optional<DateTokens> tokens_of(std::string_view text) {
  DateTokens out;
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    if (c == '-' || c == '/' || c == '.' || c == ' ' || c == ',') {
      ++i;
      continue;
    }
    const bool number = figure(c);
    if (!number && !letter(c)) return std::nullopt;
    std::size_t end = i;
    while (end < text.size() && (number ? figure(text[end]) : letter(text[end]))) ++end;
    if (out.count == out.token.size()) return std::nullopt;
    out.token[out.count++] = {text.substr(i, end - i), number};
    i = end;
  }
  return out;
}

int expanded_year(int year) {
  return year + (year < 70 ? 2000 : 1900);
}

/// Three tokens of which one is a month's name.
std::optional<WrittenDate> with_named_month(const DateTokens& parts) {
  WrittenDate date;
  std::string_view day, year;
  for (const std::size_t at : {std::size_t{0}, std::size_t{1}}) {
    if (parts.token[at].number) continue;
    date.month = month_named(parts.token[at].text);
    day = parts.token[1 - at].text;
    year = parts.token[2].text;
  }
  if (date.month == 0 || !parts.token[2].number) return std::nullopt;
  if (day.size() == 4) std::swap(day, year);
  const auto d = whole_of(day), y = whole_of(year);
  if (!d || !y || (year.size() != 4 && year.size() != 2) || day.size() > 2) return std::nullopt;
  date.day = *d;
  date.short_year = year.size() == 2;
  date.year = date.short_year ? expanded_year(*y) : *y;
  return date;
}

std::optional<WrittenDate> with_three_figures(const DateTokens& parts) {
  const std::string_view a = parts.token[0].text, b = parts.token[1].text, c = parts.token[2].text;
  const auto x = whole_of(a), y = whole_of(b), z = whole_of(c);
  if (!x || !y || !z) return std::nullopt;
  WrittenDate date;
  if (a.size() == 4 && b.size() <= 2 && c.size() <= 2) {
    date.year = *x, date.month = *y, date.day = *z;
    return date;
  }
  if (a.size() > 2 || b.size() > 2 || (c.size() != 4 && c.size() != 2)) return std::nullopt;
  date.order = WrittenDate::Order::undecided;
  date.first = *x, date.second = *y, date.third = *z;
  date.short_year = c.size() == 2;
  date.year = date.short_year ? expanded_year(*z) : *z;
  return date;
}

std::optional<WrittenDate> from_day_of_year(int year, int day_of_year) {
  const auto start = day_of(year, 1, 1);
  if (!start || day_of_year < 1 || day_of_year > base::days_in_year(year)) return std::nullopt;
  const base::Date day = *start + base::Days{day_of_year - 1};
  WrittenDate date;
  date.year = year, date.month = base::month_of(day), date.day = base::day_of_month(day);
  return date;
}

std::optional<WrittenDate> with_one_or_two_figures(const DateTokens& parts) {
  const std::string_view a = parts.token[0].text;
  WrittenDate date;
  if (parts.count == 1 && a.size() == 8) {
    date.year = *whole_of(a.substr(0, 4)), date.month = *whole_of(a.substr(4, 2)),
    date.day = *whole_of(a.substr(6, 2));
    return date;
  }
  if (parts.count == 2 && a.size() == 4 && parts.token[1].text.size() == 3) {
    return from_day_of_year(*whole_of(a), *whole_of(parts.token[1].text));
  }
  return std::nullopt;
}

/// Where the time of day begins: after a T between figures, or the last blank before a colon or after the
/// date.
std::size_t time_begin(std::string_view text) {
  const auto colon = text.find(':');
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    if (text[i] == 'T' && figure(text[i - 1]) && figure(text[i + 1])) return i;
  }
  if (colon == std::string_view::npos) return std::string_view::npos;
  return text.rfind(' ', colon);
}

}  // namespace

std::optional<int> scan_time(std::string_view text) {
  text = trimmed(text);
  // A zone or an offset after the time (Z, +02:00) does not move the day here: days are those of the stamps.
  for (std::size_t i = 1; i < text.size(); ++i) {
    if (text[i] == 'Z' || text[i] == '+' || (text[i] == '-' && i >= 4)) {
      text = text.substr(0, i);
      break;
    }
  }
  int half = -1;
  if (text.size() > 2) {
    const std::string_view end = text.substr(text.size() - 2);
    if (same_word(end, "am")) half = 0;
    if (same_word(end, "pm")) half = 1;
    if (half >= 0) text = trimmed(text.substr(0, text.size() - 2));
  }
  const auto colon = text.find(':');
  std::optional<int> hour, minute = 0;
  if (colon != std::string_view::npos) {
    hour = whole_of(text.substr(0, colon));
    minute = whole_of(text.substr(colon + 1, 2));
  } else if (text.size() == 4) {
    hour = whole_of(text.substr(0, 2));
    minute = whole_of(text.substr(2, 2));
  } else if (text.size() <= 2) {
    hour = whole_of(text);
  }
  if (!hour || !minute || *minute > 59 || *hour > 24 || (*hour == 24 && *minute > 0)) return std::nullopt;
  if (half >= 0) {
    if (*hour < 1 || *hour > 12) return std::nullopt;
    *hour = *hour % 12 + 12 * half;
  }
  return *hour * 60 + *minute;
}

std::optional<WrittenDate> scan_date(std::string_view text) {
  text = trimmed(text);
  if (text.size() < 5 || text.size() > 40) return std::nullopt;
  std::optional<int> minute;
  const auto split = time_begin(text);
  if (split != std::string_view::npos) {
    minute = scan_time(text.substr(split + 1));
    if (!minute) return std::nullopt;
    text = trimmed(text.substr(0, split));
  }
  const auto parts = tokens_of(text);
  if (!parts) return std::nullopt;
  std::optional<WrittenDate> date;
  if (parts->count == 3) {
    const bool figures = parts->token[0].number && parts->token[1].number && parts->token[2].number;
    date = figures ? with_three_figures(*parts) : with_named_month(*parts);
  } else if (parts->count > 0 && parts->token[0].number && (parts->count == 1 || parts->token[1].number)) {
    date = with_one_or_two_figures(*parts);
  }
  if (date) date->minute_of_day = minute;
  return date;
}

bool may_be(const WrittenDate& date, DateForm form) {
  constexpr int kMonths = 12, kDays = 31;
  if (form == DateForm::day_month_year) return date.first <= kDays && date.second <= kMonths;
  if (form == DateForm::month_day_year) return date.first <= kMonths && date.second <= kDays;
  return form == DateForm::year_month_day && date.short_year && date.second <= kMonths && date.third <= kDays;
}

std::optional<base::Date> settle(const WrittenDate& date, DateForm form) {
  if (date.order == WrittenDate::Order::settled) return day_of(date.year, date.month, date.day);
  if (form == DateForm::day_month_year) return day_of(date.year, date.second, date.first);
  if (form == DateForm::month_day_year) return day_of(date.year, date.first, date.second);
  if (form == DateForm::year_month_day && date.short_year)
    return day_of(expanded_year(date.first), date.second, date.third);
  return std::nullopt;
}

}  // namespace sowtide::climate::detail
