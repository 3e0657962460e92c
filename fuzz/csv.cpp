// Any bytes: the CSV reader gives a table whose rows fit its heading, and cells written again read back the same.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/csv.hpp"

namespace {

using sowtide::base::CsvTable;

void require(bool holds) {
  if (!holds) std::abort();
}

std::string written(const CsvTable& table) {
  std::string text;
  const auto write = [&text](const std::vector<std::string>& cells) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      if (i > 0) text += ',';
      // A row of one empty cell would be a blank line, which the reader leaves out.
      text += cells.size() == 1 && cells[i].empty() ? "\"\"" : sowtide::base::csv_cell(cells[i]);
    }
    text += '\n';
  };
  write(table.header);
  for (const auto& row : table.rows) write(row.cells);
  return text;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto table = sowtide::base::parse_csv(text, "fuzz");
  if (!table) return 0;
  for (const auto& row : table->rows) {
    require(row.cells.size() == table->header.size() && row.line >= 1);
    for (const auto& cell : row.cells) {
      const auto number = sowtide::base::parse_number(cell, true);
      if (number) require(sowtide::base::parse_number(sowtide::base::number_text(*number)) == number);
    }
  }
  const std::string again = written(*table);
  const auto back = sowtide::base::parse_csv(again, "again", {.separator = ','});
  if (!back) return 0;  // a heading or row that is blank when written plainly
  if (back->rows.size() != table->rows.size()) return 0;
  for (std::size_t i = 0; i < table->rows.size(); ++i) require(back->rows[i].cells == table->rows[i].cells);
  return 0;
}
