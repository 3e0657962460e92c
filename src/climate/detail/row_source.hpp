// Rows of cells, whatever they came from: delimited text, or JSON laid out as a table.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "climate/detail/text_scan.hpp"

namespace sowtide::climate::detail {

/// One row; the cells stay valid until the next row is asked for.
struct Row {
  int line = 0;
  std::vector<std::string_view> cells;
  [[nodiscard]] std::string_view cell(std::size_t column) const {
    return column < cells.size() ? cells[column] : std::string_view{};
  }
};

/// Data rows under a heading, read as often as wanted.
class RowSource {
 public:
  virtual ~RowSource() = default;
  [[nodiscard]] virtual const std::vector<std::string>& heading() const = 0;
  [[nodiscard]] virtual int heading_line() const = 0;
  /// The next row that is not blank; false at the end or at a problem.
  virtual bool next(Row& row) = 0;
  virtual void rewind() = 0;
  [[nodiscard]] virtual const std::optional<base::Problem>& problem() const = 0;
  [[nodiscard]] virtual char separator() const = 0;
};

/// Rows of delimited text. The heading is the line at `position`, whose number is `line`.
class DelimitedRows : public RowSource {
 public:
  DelimitedRows(std::string_view text, const std::string& file, char separator, std::size_t position = 0,
                int line = 1);
  [[nodiscard]] const std::vector<std::string>& heading() const override { return heading_; }
  [[nodiscard]] int heading_line() const override { return heading_line_; }
  bool next(Row& row) override;
  void rewind() override { lines_.seek(begin_, begin_line_); }
  [[nodiscard]] const std::optional<base::Problem>& problem() const override { return problem_; }
  [[nodiscard]] char separator() const override { return separator_; }
  /// For files without a heading line: these are the headings, and the rows begin with the line at
  /// `position`.
  void use_heading(std::vector<std::string> heading);

 private:
  LineScanner lines_;
  std::size_t position_;
  std::string file_;
  char separator_;
  std::vector<std::string> heading_;
  int heading_line_ = 1;
  std::size_t begin_ = 0;  ///< where the rows begin, and how many lines lie before
  int begin_line_ = 1;
  std::optional<base::Problem> problem_;
};

/// Rows held in memory, row by row.
class StoredRows : public RowSource {
 public:
  StoredRows(std::vector<std::string> heading, std::vector<std::string> cells)
      : heading_(std::move(heading)), cells_(std::move(cells)) {}
  [[nodiscard]] const std::vector<std::string>& heading() const override { return heading_; }
  [[nodiscard]] int heading_line() const override { return 0; }
  bool next(Row& row) override;
  void rewind() override { at_ = 0; }
  [[nodiscard]] const std::optional<base::Problem>& problem() const override { return problem_; }
  [[nodiscard]] char separator() const override { return '\0'; }

 private:
  std::vector<std::string> heading_;
  std::vector<std::string> cells_;
  std::size_t at_ = 0;
  std::optional<base::Problem> problem_;
};

/// The separator of a heading line: the one of , ; tab | that occurs most outside quotes; ' ' when none does.
[[nodiscard]] char likely_separator(std::string_view line);

/// Place of a heading (exact, ignoring case), or nothing.
[[nodiscard]] std::optional<std::size_t> column_named(const std::vector<std::string>& heading,
                                                      std::string_view name);

}  // namespace sowtide::climate::detail
