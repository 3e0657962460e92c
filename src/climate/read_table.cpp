// Tables with a heading line, wherever in the first lines it stands and whatever separates the cells.
#include <fmt/format.h>

#include <algorithm>

#include "climate/detail/table_reader.hpp"
#include "climate/detail/text_scan.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {

using base::Problem;
using base::ProblemCode;

namespace {

constexpr int kMostPreambleLines = 200;

/// A line that may be the heading.
struct Candidate {
  std::size_t position = 0;
  int line = 0;
  char separator = ',';
  int known = 0;          ///< headings that mean something
  bool complete = false;  ///< a date and some weather
  bool followed = false;  ///< a date stands under the date's heading in one of the next two lines
};

std::vector<std::string> strings(const std::vector<std::string_view>& cells) {
  return {cells.begin(), cells.end()};
}

/// Units that stand in a line of their own under the headings; empty when the next line is none.
std::vector<std::string> units_line(std::string_view text, const Candidate& heading, std::size_t width) {
  detail::LineScanner lines(text);
  lines.seek(heading.position, heading.line - 1);
  std::string_view line;
  std::vector<std::string_view> cells;
  lines.next(line);
  while (lines.next(line) && detail::trimmed(line).empty()) {
  }
  if (!detail::split_cells(line, heading.separator, cells) || cells.size() > width) return {};
  int units = 0;
  for (const std::string_view cell : cells) {
    if (detail::number_of(cell) || detail::scan_date(cell)) return {};
    for (const detail::Kind kind : {detail::Kind::temperature, detail::Kind::length, detail::Kind::speed}) {
      if (detail::conversion_of(kind, cell)) ++units;
    }
  }
  return units > 0 ? strings(cells) : std::vector<std::string>{};
}

bool dated_line(std::string_view line, char separator, const std::vector<detail::Heading>& headings) {
  std::vector<std::string_view> cells;
  if (!detail::split_cells(line, separator, cells) || cells.size() < 2) return false;
  for (std::size_t i = 0; i < headings.size() && i < cells.size(); ++i) {
    switch (headings[i].field) {
      case detail::Field::date:
      case detail::Field::time:
      case detail::Field::day:
        if (detail::scan_date(cells[i])) return true;
        break;
      case detail::Field::year: {
        const auto year = detail::whole_of(cells[i]);
        if (year && *year >= detail::kFirstYear && *year <= detail::kLastYear) return true;
        break;
      }
      case detail::Field::unix_time:
        if (detail::whole_of(cells[i]).value_or(0) > 1000000) return true;
        break;
      default:
        break;
    }
  }
  return false;
}

Candidate judge(std::string_view text, std::string_view line, std::size_t position, int number,
                std::size_t after) {
  Candidate best;
  for (const char separator : {',', ';', '\t', '|', ' '}) {
    std::vector<std::string_view> cells;
    if (!detail::split_cells(line, separator, cells) || cells.size() < 2) continue;
    Candidate one{position, number, separator, 0, false, false};
    std::vector<detail::Heading> headings;
    bool dated = false, weather = false;
    for (const std::string_view cell : cells) {
      headings.push_back(detail::read_heading(cell));
      const detail::Field field = headings.back().field;
      if (field == detail::Field::none) continue;
      ++one.known;
      dated |= field == detail::Field::date || field == detail::Field::time || field == detail::Field::year ||
               field == detail::Field::day || field == detail::Field::unix_time;
      weather |= detail::kind_of(field) != detail::Kind::none;
    }
    one.complete = dated && weather;
    if (one.complete) {
      detail::LineScanner lines(text);
      lines.seek(after, number);
      std::string_view next;
      for (int looked = 0; looked < 2 && lines.next(next);) {
        if (detail::trimmed(next).empty()) continue;
        ++looked;
        one.followed |= dated_line(next, separator, headings);
      }
    }
    if (std::tuple(one.followed, one.complete, one.known) >
        std::tuple(best.followed, best.complete, best.known))
      best = one;
  }
  return best;
}

/// The heading line: the first that names a date and weather and has a date under it.
Candidate find_heading(std::string_view text) {
  detail::LineScanner lines(text);
  std::string_view line;
  Candidate best;
  std::size_t position = lines.position();
  for (int count = 0; count < kMostPreambleLines && lines.next(line); ++count) {
    if (!detail::trimmed(line).empty() && line.size() <= detail::kMostLineBytes) {
      const Candidate one = judge(text, line, position, lines.number(), lines.position());
      if (one.followed) return one;
      if (best.line == 0 || std::tuple(one.complete, one.known) > std::tuple(best.complete, best.known)) {
        best = one;
        best.position = position;
        best.line = lines.number();
        if (one.known == 0) best.separator = detail::likely_separator(line);
      }
    }
    position = lines.position();
  }
  return best;
}

/// The line whose cells hold all columns named in the options, if columns are named.
std::optional<Candidate> heading_of_choices(std::string_view text, const ReadOptions& options) {
  if (options.columns.empty()) return std::nullopt;
  detail::LineScanner lines(text);
  std::string_view line;
  std::size_t position = 0;
  for (int count = 0; count < kMostPreambleLines && lines.next(line); ++count) {
    for (const char separator : {',', ';', '\t', '|', ' '}) {
      std::vector<std::string_view> cells;
      if (!detail::split_cells(line, separator, cells) || cells.size() < 2) continue;
      const auto heading = strings(cells);
      const bool all = std::ranges::all_of(options.columns, [&](const ColumnChoice& choice) {
        return detail::column_named(heading, choice.column).has_value();
      });
      if (all) return Candidate{position, lines.number(), separator, 0, true, true};
    }
    position = lines.position();
  }
  return std::nullopt;
}

/// Rows with the line of units left out.
class RowsUnderUnits : public detail::DelimitedRows {
 public:
  using DelimitedRows::DelimitedRows;
  void skip_units() {
    skip_ = true;
    rewind();
  }
  bool next(detail::Row& row) override {
    if (std::exchange(pending_, false) && !DelimitedRows::next(row)) return false;
    return DelimitedRows::next(row);
  }
  void rewind() override {
    DelimitedRows::rewind();
    pending_ = skip_;
  }

 private:
  bool skip_ = false;
  bool pending_ = false;
};

}  // namespace

base::Result<WeatherImport> read_weather_table(std::string_view bytes, const std::string& file,
                                               const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  const std::string_view text = detail::without_byte_order_mark(bytes);
  const auto chosen = heading_of_choices(text, options);
  const Candidate heading = chosen ? *chosen : find_heading(text);
  RowsUnderUnits rows(text, file, heading.separator, heading.position, heading.line);
  if (rows.problem()) return tl::unexpected(*rows.problem());
  const std::vector<std::string> units = units_line(text, heading, rows.heading().size());
  if (!units.empty()) rows.skip_units();
  auto plan = detail::plan_table(rows.heading(), rows.heading_line(), units, file, options);
  if (!plan) return tl::unexpected(plan.error());
  detail::RecordBuilder builder(file, options);
  return detail::TableReader(rows, builder, std::move(*plan)).read("table");
}

}  // namespace sowtide::climate
