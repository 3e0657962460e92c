// Comma-separated text as in RFC 4180, with the dialects people really have: a byte-order mark, CRLF or LF,
// `;` or tab as separator, quotes with doubled quotes inside. Keeps line numbers for messages.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace sowtide::base {

struct CsvRow {
  int line = 0;  ///< 1-based line where the row begins
  std::vector<std::string> cells;
};

struct CsvTable {
  std::string file;
  char separator = ',';
  std::vector<std::string> header;  ///< trimmed
  int header_line = 0;
  std::vector<CsvRow> rows;         ///< blank lines left out

  /// Column of a header name (exact, case-insensitive), or nothing.
  [[nodiscard]] std::optional<std::size_t> column(std::string_view name) const;
};

struct CsvOptions {
  char separator = '\0';            ///< '\0': the most frequent of , ; tab in the header line
  bool allow_ragged_rows = false;   ///< rows with more or fewer cells than the header
  std::size_t max_bytes = 256U << 20U;
};

/// Reads a table with a header line. Problems: empty, syntax (open quote, ragged row, NUL byte), too_large.
[[nodiscard]] Result<CsvTable> parse_csv(std::string_view text, std::string file, const CsvOptions& options = {});

/// One cell, quoted when it must be.
[[nodiscard]] std::string csv_cell(std::string_view text);

/// A number as people write it: "12.5", "-3"; with `decimal_comma` also "12,5". Nothing for any other text.
[[nodiscard]] std::optional<double> parse_number(std::string_view text, bool decimal_comma = false);

/// Shortest text that reads back as the same double: 47.4, 0.1, 1e+300.
[[nodiscard]] std::string number_text(double value);

[[nodiscard]] std::string_view trim(std::string_view text);

}  // namespace sowtide::base
