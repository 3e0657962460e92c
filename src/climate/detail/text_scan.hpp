// Walking through the text of a weather file without copying it: lines, cells, figures.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"

namespace sowtide::climate::detail {

inline constexpr std::size_t kMostBytes = 256U << 20U;
inline constexpr std::size_t kMostJsonBytes = 32U << 20U;
inline constexpr std::size_t kMostLineBytes = 65536;
inline constexpr std::size_t kMostColumns = 4096;
inline constexpr int kFirstYear = 1700;
inline constexpr int kLastYear = 2200;

/// Refuses what no reader can take: nothing in it, too large, NUL bytes (binary or UTF-16).
[[nodiscard]] std::optional<base::Problem> refuse_text(std::string_view bytes, const std::string& file);

/// The text after a UTF-8 byte-order mark, if there is one.
[[nodiscard]] std::string_view without_byte_order_mark(std::string_view bytes);

/// Blanks, tabs and carriage returns off both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

[[nodiscard]] std::string lower_case(std::string_view text);
[[nodiscard]] bool same_word(std::string_view a, std::string_view b);                ///< ignoring case, ASCII
[[nodiscard]] bool starts_with_word(std::string_view text, std::string_view start);  ///< ignoring case

/// What may be shown of a cell in a message: printable, at most 40 characters.
[[nodiscard]] std::string shown(std::string_view text);

/// Lines of a text, numbered from 1, without their CR and LF.
class LineScanner {
 public:
  explicit LineScanner(std::string_view text) : text_(text) {}
  /// The next line, or false at the end.
  bool next(std::string_view& line);
  [[nodiscard]] int number() const { return number_; }
  [[nodiscard]] std::size_t position() const { return position_; }
  void seek(std::size_t position, int number) {
    position_ = position;
    number_ = number;
  }

 private:
  std::string_view text_;
  std::size_t position_ = 0;
  int number_ = 0;
};

/// Splits a line. Separator ' ' means runs of blanks. Cells are trimmed; one pair of quotes round a cell is
/// taken off, doubled quotes inside stay as they are. False when a quote is left open or there are more than
/// `kMostColumns`.
[[nodiscard]] bool split_cells(std::string_view line, char separator, std::vector<std::string_view>& cells);

/// A whole cell as a number: "12.5", "-3", "+4", ".5"; nothing for any other text (also not for inf or nan).
[[nodiscard]] std::optional<double> number_of(std::string_view text);
/// The same with a decimal comma allowed.
[[nodiscard]] std::optional<double> number_with_comma(std::string_view text);
/// A whole cell as a non-negative whole number of at most nine figures.
[[nodiscard]] std::optional<int> whole_of(std::string_view text);

/// The day, when it exists and its year lies inside the limits.
[[nodiscard]] std::optional<base::Date> day_of(int year, int month, int day);

/// "YYYYMMDD" or "YYYY-MM-DD" (what follows a T or a blank is ignored).
[[nodiscard]] std::optional<base::Date> plain_day_of(std::string_view text);

/// "1 day", "3 days".
[[nodiscard]] std::string counted(std::size_t count, std::string_view one, std::string_view many);

}  // namespace sowtide::climate::detail
