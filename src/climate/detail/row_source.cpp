#include "climate/detail/row_source.hpp"

#include <fmt/format.h>

#include <array>

namespace sowtide::climate::detail {

using base::Problem;
using base::ProblemCode;

DelimitedRows::DelimitedRows(std::string_view text, const std::string& file, char separator,
                             std::size_t position, int line)
    : lines_(text),
      position_(position),
      file_(file),
      separator_(separator),
      heading_line_(line),
      begin_line_(line) {
  lines_.seek(position, line - 1);
  std::string_view first;
  std::vector<std::string_view> cells;
  if (lines_.next(first) && !split_cells(first, separator_, cells)) {
    problem_ = Problem{ProblemCode::syntax,
                       "a quote is left open, or there are more than 4096 columns",
                       {file_, line, 0, ""},
                       "Correct the heading line."};
  }
  for (const std::string_view cell : cells) heading_.emplace_back(cell);
  begin_ = lines_.position();
}

void DelimitedRows::use_heading(std::vector<std::string> heading) {
  heading_ = std::move(heading);
  problem_.reset();
  begin_ = position_;
  begin_line_ = heading_line_ - 1;
  rewind();
}

bool DelimitedRows::next(Row& row) {
  std::string_view line;
  while (!problem_ && lines_.next(line)) {
    if (trimmed(line).empty()) continue;
    row.line = lines_.number();
    if (line.size() > kMostLineBytes) {
      problem_ = Problem{ProblemCode::too_large,
                         fmt::format("a line of {} characters", line.size()),
                         {file_, row.line, 0, ""},
                         "Lines of up to 65,536 characters are read."};
    } else if (!split_cells(line, separator_, row.cells)) {
      problem_ = Problem{ProblemCode::syntax,
                         "a quote is left open, or there are more than 4096 columns",
                         {file_, row.line, 0, ""},
                         "Correct the line; if it is the last, fetch the file again."};
    } else {
      return true;
    }
  }
  return false;
}

bool StoredRows::next(Row& row) {
  const std::size_t width = heading_.size();
  if (width == 0 || (at_ + 1) * width > cells_.size()) return false;
  row.cells.assign(cells_.begin() + static_cast<std::ptrdiff_t>(at_ * width),
                   cells_.begin() + static_cast<std::ptrdiff_t>((at_ + 1) * width));
  row.line = 0;
  ++at_;
  return true;
}

char likely_separator(std::string_view line) {
  constexpr std::array kSeparators{',', ';', '\t', '|'};
  std::array<int, kSeparators.size()> count{};
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    for (std::size_t i = 0; i < kSeparators.size(); ++i) count[i] += c == kSeparators[i] ? 1 : 0;
  }
  std::size_t best = 0;
  for (std::size_t i = 1; i < count.size(); ++i) best = count[i] > count[best] ? i : best;
  return count[best] > 0 ? kSeparators[best] : ' ';
}

std::optional<std::size_t> column_named(const std::vector<std::string>& heading, std::string_view name) {
  for (std::size_t i = 0; i < heading.size(); ++i) {
    if (same_word(heading[i], name)) return i;
  }
  return std::nullopt;
}

}  // namespace sowtide::climate::detail
