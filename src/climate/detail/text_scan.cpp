#include "climate/detail/text_scan.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>

#include "base/utf8.hpp"

namespace sowtide::climate::detail {

using base::Problem;
using base::ProblemCode;

std::optional<Problem> refuse_text(std::string_view bytes, const std::string& file) {
  const base::Place where{file, 0, 0, ""};
  const std::string_view text = without_byte_order_mark(bytes);
  if (trimmed(text).empty() || text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return Problem{ProblemCode::empty, "the weather file is empty", where,
                   "Give a file with daily weather in it."};
  }
  if (bytes.size() > kMostBytes) {
    return Problem{ProblemCode::too_large, "the weather file is larger than 256 MiB", where,
                   "Give the file of one station."};
  }
  const auto zero = bytes.find('\0');
  if (zero != std::string_view::npos) {
    const bool wide =
        bytes.size() > 1 && (bytes.substr(0, 2) == "\xFF\xFE" || bytes.substr(0, 2) == "\xFE\xFF");
    if (wide) {
      return Problem{ProblemCode::syntax, "the file is written in UTF-16", where,
                     "Save it as UTF-8 or plain text."};
    }
    const auto line = std::count(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(zero), '\n') + 1;
    return Problem{ProblemCode::syntax,
                   "a zero byte: this is not a text file",
                   {file, static_cast<int>(line), 0, ""},
                   "Unpack the file if it is packed, or export it as text."};
  }
  return std::nullopt;
}

std::string_view without_byte_order_mark(std::string_view bytes) {
  if (bytes.substr(0, 3) == "\xEF\xBB\xBF") bytes.remove_prefix(3);
  return bytes;
}

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

namespace {
char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
bool figure(char c) {
  return c >= '0' && c <= '9';
}
}  // namespace

std::string lower_case(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = lower(c);
  return out;
}

bool same_word(std::string_view a, std::string_view b) {
  return a.size() == b.size() &&
         std::equal(a.begin(), a.end(), b.begin(), [](char x, char y) { return lower(x) == lower(y); });
}

bool starts_with_word(std::string_view text, std::string_view start) {
  return text.size() >= start.size() && same_word(text.substr(0, start.size()), start);
}

std::string shown(std::string_view text) {
  constexpr std::size_t kMost = 40;
  std::string out;
  std::size_t at = 0;
  while (at < text.size() && at < kMost) {
    const auto character = base::decode_utf8(text, at);
    const bool printable = character && character->code >= 0x20 && (character->code < 0x7F || character->code > 0x9F);
    const std::size_t length = character ? character->length : 1;
    out += printable ? text.substr(at, length) : "?";
    at += length;
  }
  if (at < text.size()) out += "...";
  return out;
}

bool LineScanner::next(std::string_view& line) {
  if (position_ >= text_.size()) return false;
  const auto end = text_.find('\n', position_);
  const auto stop = end == std::string_view::npos ? text_.size() : end;
  line = text_.substr(position_, stop - position_);
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  position_ = stop + 1;
  ++number_;
  return true;
}

namespace {

bool split_blanks(std::string_view line, std::vector<std::string_view>& cells) {
  std::size_t i = 0;
  while (i < line.size()) {
    if (line[i] == ' ' || line[i] == '\t') {
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < line.size() && line[end] != ' ' && line[end] != '\t') ++end;
    if (cells.size() == kMostColumns) return false;
    cells.push_back(line.substr(i, end - i));
    i = end;
  }
  return true;
}

/// End of the quoted cell that opens at `begin`, or npos.
std::size_t closing_quote(std::string_view line, std::size_t begin) {
  for (std::size_t i = begin + 1; i < line.size(); ++i) {
    if (line[i] != '"') continue;
    if (i + 1 < line.size() && line[i + 1] == '"') {
      ++i;
      continue;
    }
    return i;
  }
  return std::string_view::npos;
}

}  // namespace

bool split_cells(std::string_view line, char separator, std::vector<std::string_view>& cells) {
  cells.clear();
  if (separator == ' ') return split_blanks(line, cells);
  std::size_t begin = 0;
  while (true) {
    if (cells.size() == kMostColumns) return false;
    std::size_t start = begin;
    while (start < line.size() && (line[start] == ' ' || (line[start] == '\t' && separator != '\t'))) ++start;
    if (start < line.size() && line[start] == '"') {
      const auto close = closing_quote(line, start);
      if (close == std::string_view::npos) return false;
      cells.push_back(trimmed(line.substr(start + 1, close - start - 1)));
      begin = line.find(separator, close);
    } else {
      const auto end = line.find(separator, begin);
      cells.push_back(trimmed(line.substr(begin, end == std::string_view::npos ? end : end - begin)));
      begin = end;
    }
    if (begin == std::string_view::npos) return true;
    ++begin;
  }
}

std::optional<double> number_of(std::string_view text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+') {
    text.remove_prefix(1);
    if (!text.empty() && text.front() == '-') return std::nullopt;
  }
  if (text.empty()) return std::nullopt;
  const char second = text.size() > 1 ? text[1] : ' ';
  const bool numeric =
      figure(text[0]) || text[0] == '.' || (text[0] == '-' && (figure(second) || second == '.'));
  if (!numeric) return std::nullopt;
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<double> number_with_comma(std::string_view text) {
  text = trimmed(text);
  const auto comma = text.find(',');
  if (comma == std::string_view::npos) return number_of(text);
  if (text.size() > 40 || text.find(',', comma + 1) != std::string_view::npos ||
      text.find('.') != std::string_view::npos) {
    return std::nullopt;
  }
  std::string with_point(text);
  with_point[comma] = '.';
  return number_of(with_point);
}

std::optional<int> whole_of(std::string_view text) {
  text = trimmed(text);
  if (text.empty() || text.size() > 9) return std::nullopt;
  int value = 0;
  for (const char c : text) {
    if (!figure(c)) return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

std::optional<base::Date> day_of(int year, int month, int day) {
  if (year < kFirstYear || year > kLastYear || month < 1 || month > 12 || day < 1 || day > 31)
    return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{year},
                                         std::chrono::month{static_cast<unsigned>(month)},
                                         std::chrono::day{static_cast<unsigned>(day)}};
  if (!date.ok()) return std::nullopt;
  return base::Date{date};
}

std::optional<base::Date> plain_day_of(std::string_view text) {
  text = trimmed(text);
  if (text.size() > 10 && (text[10] == 'T' || text[10] == ' ')) text = text.substr(0, 10);
  std::string_view year, month, day;
  if (text.size() == 8) {
    year = text.substr(0, 4), month = text.substr(4, 2), day = text.substr(6, 2);
  } else if (text.size() == 10 && text[4] == '-' && text[7] == '-') {
    year = text.substr(0, 4), month = text.substr(5, 2), day = text.substr(8, 2);
  } else {
    return std::nullopt;
  }
  const auto y = whole_of(year), m = whole_of(month), d = whole_of(day);
  if (!y || !m || !d) return std::nullopt;
  return day_of(*y, *m, *d);
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

}  // namespace sowtide::climate::detail
