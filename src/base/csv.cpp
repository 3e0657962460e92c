#include "base/csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/utf8.hpp"

namespace sowtide::base {
namespace {

bool is_space(char c) noexcept {
  return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\v' || c == '\f';
}

char lower(char c) noexcept {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_ignoring_case(std::string_view a, std::string_view b) noexcept {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

/// The most frequent of tab, ; and , outside quotes in the first line that is not blank. Of two as frequent
/// it is the one named first: a comma is far more often part of a heading ("rain, mm") than the others.
char guess_separator(std::string_view text) {
  constexpr std::array<char, 3> kSeparators{'\t', ';', ','};
  std::array<std::size_t, 3> counts{};
  bool quoted = false;
  bool blank = true;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '\n' || c == '\r') {
      if (!blank) break;
      counts = {};
    }
    blank = blank && is_space(c);
    for (std::size_t i = 0; i < kSeparators.size(); ++i) counts[i] += c == kSeparators[i] ? 1U : 0U;
  }
  const auto most = std::max_element(counts.begin(), counts.end());
  if (blank || *most == 0) return ',';
  return kSeparators[static_cast<std::size_t>(most - counts.begin())];
}

/// Walks over the text row by row, counting lines (LF, CRLF and a lone CR all end one).
class CsvScanner {
 public:
  CsvScanner(std::string_view text, std::string file, char separator)
      : text_(text), file_(std::move(file)), separator_(separator) {}

  [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }

  /// The next row, blank ones included (one empty cell).
  Result<CsvRow> next() {
    CsvRow row;
    row.line = line_;
    for (;;) {
      auto cell = at_ < text_.size() && text_[at_] == '"' ? quoted_cell() : Result<std::string>(plain_cell());
      if (!cell) return tl::make_unexpected(cell.error());
      row.cells.push_back(std::move(*cell));
      if (at_end()) return row;
      if (text_[at_] != separator_) break;
      ++at_;
    }
    end_line();
    return row;
  }

 private:
  [[nodiscard]] bool at_cell_end() const {
    return at_end() || text_[at_] == separator_ || text_[at_] == '\n' || text_[at_] == '\r';
  }

  void end_line() {
    const bool carriage_return = text_[at_] == '\r';
    ++at_;
    if (carriage_return && !at_end() && text_[at_] == '\n') ++at_;
    ++line_;
    line_start_ = at_;
  }

  std::string plain_cell() {
    const std::size_t start = at_;
    while (!at_cell_end()) ++at_;
    return std::string(text_.substr(start, at_ - start));
  }

  Result<std::string> quoted_cell() {
    const Place opened = here();
    std::string cell;
    ++at_;
    while (!at_end()) {
      const char c = text_[at_];
      if (c == '"' && (at_ + 1 >= text_.size() || text_[at_ + 1] != '"')) {
        ++at_;
        if (at_cell_end()) return cell;
        return fail(ProblemCode::syntax, "text follows a closing quote", here(),
                    "Double the quotes that belong to the text");
      }
      if (c == '\n' || c == '\r') {
        const std::size_t start = at_;
        end_line();
        cell += text_.substr(start, at_ - start);
        continue;
      }
      cell += c;
      at_ += c == '"' ? 2 : 1;
    }
    return fail(ProblemCode::syntax, "a quote is opened and never closed", opened, "Close the quote");
  }

  [[nodiscard]] Place here() const {
    return {.file = file_, .line = line_, .column = static_cast<int>(at_ - line_start_) + 1, .field = {}};
  }

  std::string_view text_;
  std::string file_;
  char separator_;
  std::size_t at_ = 0;
  std::size_t line_start_ = 0;
  int line_ = 1;
};

bool is_blank(const CsvRow& row) {
  return row.cells.size() == 1 && trim(row.cells[0]).empty();
}

tl::unexpected<Problem> holds_nul(std::string_view text, std::size_t offset, const std::string& file) {
  const auto before = text.substr(0, offset);
  const auto line = 1 + static_cast<int>(std::count(before.begin(), before.end(), '\n'));
  return fail(ProblemCode::syntax, "holds a NUL byte, so it is not a text table",
              {.file = file, .line = line, .field = {}}, "Save the table as CSV text");
}

}  // namespace

std::optional<std::size_t> CsvTable::column(std::string_view name) const {
  const auto same = [name](const std::string& cell) { return same_ignoring_case(cell, name); };
  const auto found = std::find_if(header.begin(), header.end(), same);
  if (found == header.end()) return std::nullopt;
  return static_cast<std::size_t>(found - header.begin());
}

Result<CsvTable> parse_csv(std::string_view text, std::string file, const CsvOptions& options) {
  const Place whole{.file = file, .field = {}};
  if (text.size() > options.max_bytes) {
    return fail(ProblemCode::too_large, fmt::format("is larger than {} bytes", options.max_bytes), whole);
  }
  text = without_byte_order_mark(text);
  if (const auto nul = text.find('\0'); nul != std::string_view::npos) return holds_nul(text, nul, file);
  CsvTable table;
  table.file = file;
  table.separator = options.separator != '\0' ? options.separator : guess_separator(text);
  CsvScanner scanner(text, std::move(file), table.separator);
  while (!scanner.at_end()) {
    auto row = scanner.next();
    if (!row) return tl::make_unexpected(row.error());
    if (is_blank(*row)) continue;
    if (table.header_line == 0) {
      table.header_line = row->line;
      for (const std::string& cell : row->cells) table.header.emplace_back(trim(cell));
      continue;
    }
    if (!options.allow_ragged_rows && row->cells.size() != table.header.size()) {
      return fail(ProblemCode::syntax,
                  fmt::format("has {} cells where the header has {}", row->cells.size(), table.header.size()),
                  {.file = table.file, .line = row->line, .field = {}},
                  "Give every row as many cells as the header");
    }
    table.rows.push_back(std::move(*row));
  }
  if (table.header_line == 0)
    return fail(ProblemCode::empty, "holds no table", whole, "Begin with a header line");
  return table;
}

std::string csv_cell(std::string_view text) {
  const bool spaced = !text.empty() && (is_space(text.front()) || is_space(text.back()));
  if (!spaced && text.find_first_of("\",;\t\r\n") == std::string_view::npos) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::optional<double> parse_number(std::string_view text, bool decimal_comma) {
  text = trim(text);
  if (text.starts_with('+')) {
    text.remove_prefix(1);
    if (text.starts_with('-')) return std::nullopt;
  }
  std::string with_point;
  if (decimal_comma && text.find('.') == std::string_view::npos &&
      std::count(text.begin(), text.end(), ',') == 1) {
    with_point = text;
    std::replace(with_point.begin(), with_point.end(), ',', '.');
    text = with_point;
  }
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::string number_text(double value) {
  // Plain digits for everyday sizes: the bare std::to_chars would write 100000 as 1e+05.
  constexpr double kPlainFrom = 1e-5;
  constexpr double kPlainBelow = 1e15;
  const double size = std::abs(value);
  const bool plain = size == 0.0 || (size >= kPlainFrom && size < kPlainBelow);
  std::array<char, 64> buffer{};
  const auto end =
      plain ? std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed)
            : std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), end.ptr};
}

std::string_view trim(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

}  // namespace sowtide::base
