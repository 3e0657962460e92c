// GHCN-Daily `.dly`: 269 characters a line, one line a station, year, month and element.
// Layout (NOAA NCEI readme of GHCN-Daily): 1-11 station, 12-15 year, 16-17 month, 18-21 element; then 31
// slots of 8: value (5, right-aligned, -9999 missing), measurement flag, quality flag, source flag.
#include <fmt/format.h>

#include <string>

#include "climate/detail/ghcn.hpp"
#include "climate/detail/station_filter.hpp"
#include "climate/detail/text_scan.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {

using base::ProblemCode;

namespace {

constexpr std::size_t kSlotsBegin = 21;
constexpr std::size_t kSlotWidth = 8;
constexpr std::size_t kValueWidth = 5;
constexpr std::size_t kShortestLine =
    kSlotsBegin + 30 * kSlotWidth + kValueWidth;  // flags of day 31 may be trimmed
constexpr std::size_t kLongestLine = kSlotsBegin + 31 * kSlotWidth;
constexpr int kMissing = -9999;

/// A right-aligned whole number of five characters; nothing for anything else.
std::optional<int> slot_value(std::string_view text) {
  std::size_t i = 0;
  while (i < text.size() && text[i] == ' ') ++i;
  const bool negative = i < text.size() && text[i] == '-';
  if (negative) ++i;
  if (i == text.size()) return std::nullopt;
  int value = 0;
  for (; i < text.size(); ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = value * 10 + (text[i] - '0');
  }
  return negative ? -value : value;
}

class DlyFile {
 public:
  DlyFile(const std::string& file, const ReadOptions& options)
      : builder_(file, options), reader_(builder_, detail::GhcnUnits::tenths), stations_(options.station) {}

  base::Result<WeatherImport> read(std::string_view bytes) {
    detail::LineScanner lines(bytes);
    std::string_view line;
    while (lines.next(line)) {
      number_ = lines.number();
      if (detail::trimmed(line).empty()) continue;
      if (auto problem = take_line(line)) return tl::unexpected(*problem);
    }
    if (auto problem = stations_.problem(builder_.file())) return tl::unexpected(*problem);
    reader_.finish();
    Site site;
    site.name = stations_.taken();
    return builder_.finish("ghcn-dly", site, false);
  }

 private:
  base::Problem problem(ProblemCode code, std::string what, std::size_t column, std::string remedy) const {
    return {
        code, std::move(what), {builder_.file(), number_, static_cast<int>(column), ""}, std::move(remedy)};
  }

  std::optional<base::Problem> take_line(std::string_view line) {
    if (line.size() < kShortestLine) {
      return problem(ProblemCode::syntax,
                     fmt::format("the line is cut off after {} characters, a line has 269", line.size()),
                     line.size(), "Fetch the file again; it is not whole.");
    }
    if (line.size() > kLongestLine && !detail::trimmed(line.substr(kLongestLine)).empty()) {
      return problem(ProblemCode::syntax, "the line is longer than the 269 characters of the format",
                     kLongestLine + 1, "Give the file as published.");
    }
    if (!stations_.accepts(detail::trimmed(line.substr(0, 11)))) return std::nullopt;
    const auto year = detail::whole_of(line.substr(11, 4));
    const auto month = detail::whole_of(line.substr(15, 2));
    if (!year || !month || !detail::day_of(*year, *month, 1)) {
      return problem(ProblemCode::out_of_range,
                     fmt::format("\"{}\" is not a year and month from 1700-01 to 2200-12",
                                 detail::shown(line.substr(11, 6))),
                     12, "Correct characters 12 to 17.");
    }
    const auto element = detail::ghcn_element(line.substr(17, 4));
    return element ? take_days(line, *year, *month, *element) : std::nullopt;
  }

  std::optional<base::Problem> take_days(std::string_view line, int year, int month,
                                         detail::GhcnElement element) {
    const base::Date first = *detail::day_of(year, month, 1);
    const int length = base::days_in_month(year, month);
    for (int day = 1; day <= 31; ++day) {
      const std::size_t at = kSlotsBegin + static_cast<std::size_t>(day - 1) * kSlotWidth;
      const auto value = slot_value(line.substr(at, kValueWidth));
      if (!value) {
        return problem(
            ProblemCode::syntax,
            fmt::format("\"{}\" is not a whole number", detail::shown(line.substr(at, kValueWidth))), at + 1,
            "Give the file as published.");
      }
      if (*value == kMissing) continue;
      if (day > length) {
        return problem(ProblemCode::out_of_range,
                       fmt::format("a value for day {} of a month with {}", day, length), at + 1,
                       "Give the file as published.");
      }
      reader_.take(element, first + base::Days{day - 1}, *value, flag(line, at + kValueWidth),
                   flag(line, at + kValueWidth + 1));
    }
    return std::nullopt;
  }

  static char flag(std::string_view line, std::size_t at) { return at < line.size() ? line[at] : ' '; }

  detail::RecordBuilder builder_;
  detail::GhcnReader reader_;
  detail::StationFilter stations_;
  int number_ = 0;
};

}  // namespace

base::Result<WeatherImport> read_ghcn_dly(std::string_view bytes, const std::string& file,
                                          const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  return DlyFile(file, options).read(detail::without_byte_order_mark(bytes));
}

}  // namespace sowtide::climate
