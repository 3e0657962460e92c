#include "book/log_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/csv.hpp"
#include "base/nearest.hpp"
#include "base/utf8.hpp"
#include "book/event_check.hpp"

namespace sowtide::book {
namespace {

using base::fail;
using base::ProblemCode;

enum class Column { sequence, id, date, kind, stand, target, count, grams, litres, diameter_mm, text };
constexpr std::array<std::string_view, 11> kHeadings{
    "sequence", "id", "date", "kind", "stand", "target", "count", "grams", "litres", "diameter_mm", "text"};

std::string_view heading_of(Column column) {
  return kHeadings[static_cast<std::size_t>(column)];
}

class LogReader {
 public:
  explicit LogReader(const base::CsvTable& table) : table_(table) {
    for (std::size_t i = 0; i < kHeadings.size(); ++i) columns_[i] = table.column(kHeadings[i]);
  }

  base::Result<std::vector<Event>> read() {
    if (auto checked = check_header(); !checked) return tl::make_unexpected(checked.error());
    std::vector<Event> events;
    events.reserve(table_.rows.size());
    for (const base::CsvRow& row : table_.rows) {
      auto event = read_row(row);
      if (!event) return tl::make_unexpected(event.error());
      events.push_back(std::move(*event));
    }
    return events;
  }

 private:
  [[nodiscard]] base::Result<void> check_header() const {
    const base::Place place{.file = table_.file, .line = table_.header_line};
    for (const Column needed : {Column::id, Column::date, Column::kind}) {
      if (columns_[static_cast<std::size_t>(needed)]) continue;
      return fail(ProblemCode::missing_field, fmt::format("has no column {}", heading_of(needed)), place,
                  "A log needs the columns id, date and kind");
    }
    for (const std::string& heading : table_.header) {
      if (std::find(kHeadings.begin(), kHeadings.end(), heading) != kHeadings.end()) continue;
      return fail(ProblemCode::unknown_field, fmt::format("has a column \"{}\"", heading.substr(0, 60)),
                  place, base::did_you_mean(heading, {kHeadings.begin(), kHeadings.end()}));
    }
    return {};
  }

  [[nodiscard]] std::string cell(const base::CsvRow& row, Column column) const {
    const auto index = columns_[static_cast<std::size_t>(column)];
    return index ? row.cells[*index] : std::string();
  }

  [[nodiscard]] base::Place at(const base::CsvRow& row, Column column) const {
    return {.file = table_.file, .line = row.line, .field = std::string(heading_of(column))};
  }

  base::Result<std::optional<double>> number(const base::CsvRow& row, Column column) const {
    const std::string text = cell(row, column);
    if (text.empty()) return std::optional<double>();
    if (const auto value = base::parse_number(text)) return std::optional(*value);
    return fail(ProblemCode::wrong_type, fmt::format("\"{}\" is not a number", text.substr(0, 40)),
                at(row, column), "Write a number without its unit");
  }

  base::Result<std::int64_t> sequence(const base::CsvRow& row) const {
    constexpr double kLargestExact = 9007199254740992.0;  // 2^53
    const auto value = number(row, Column::sequence);
    if (!value) return tl::make_unexpected(value.error());
    if (!*value) return 0;
    if (**value < 1.0 || **value > kLargestExact || **value != std::floor(**value)) {
      return fail(ProblemCode::out_of_range, "must be a whole number from 1 on", at(row, Column::sequence));
    }
    return static_cast<std::int64_t>(**value);
  }

  base::Result<Event> read_row(const base::CsvRow& row) const {
    Event event;
    event.id = cell(row, Column::id);
    event.stand = cell(row, Column::stand);
    event.target = cell(row, Column::target);
    event.text = cell(row, Column::text);
    const auto date = base::parse_iso_date(cell(row, Column::date));
    if (!date) return fail(date.error().code, date.error().what, at(row, Column::date), date.error().remedy);
    event.date = *date;
    const std::string word = cell(row, Column::kind);
    const auto kind = parse_event_kind(word);
    if (!kind) {
      return fail(ProblemCode::not_found, fmt::format("\"{}\" is no kind of entry", word.substr(0, 40)),
                  at(row, Column::kind), base::did_you_mean(word, kind_words()));
    }
    event.kind = *kind;
    const auto place = sequence(row);
    if (!place) return tl::make_unexpected(place.error());
    event.sequence = *place;
    return with_amounts(row, std::move(event));
  }

  base::Result<Event> with_amounts(const base::CsvRow& row, Event event) const {
    const std::array<std::pair<Column, std::optional<double>*>, 4> amounts{
        {{Column::count, &event.count},
         {Column::grams, &event.grams},
         {Column::litres, &event.litres},
         {Column::diameter_mm, &event.diameter_mm}}};
    for (const auto& [column, amount] : amounts) {
      const auto value = number(row, column);
      if (!value) return tl::make_unexpected(value.error());
      *amount = *value;
    }
    return event;
  }

  static std::vector<std::string> kind_words() {
    std::vector<std::string> words;
    for (int kind = 0; kind <= static_cast<int>(EventKind::tested); ++kind) {
      words.emplace_back(event_kind_text(static_cast<EventKind>(kind)));
    }
    return words;
  }

  const base::CsvTable& table_;
  std::array<std::optional<std::size_t>, kHeadings.size()> columns_;
};

std::string amount_cell(const std::optional<double>& amount) {
  return amount ? base::number_text(*amount) : "";
}

}  // namespace

std::string log_csv(const std::vector<Event>& events) {
  std::string text;
  for (const std::string_view heading : kHeadings)
    text += fmt::format("{}{}", text.empty() ? "" : ",", heading);
  text += '\n';
  for (const Event& event : events) {
    text += fmt::format("{},{},{},{},{},{},{},{},{},{},{}\n", event.sequence, event.id,
                        base::to_iso(event.date), event_kind_text(event.kind), event.stand, event.target,
                        amount_cell(event.count), amount_cell(event.grams), amount_cell(event.litres),
                        amount_cell(event.diameter_mm), base::csv_cell(event.text));
  }
  return text;
}

base::Result<std::vector<Event>> read_log_csv(std::string_view text, const std::string& file,
                                              const GardenDescription& garden) {
  if (const auto bad = base::first_bad_utf8(text)) {
    const auto before = text.substr(0, *bad);
    const auto line = 1 + static_cast<int>(std::count(before.begin(), before.end(), '\n'));
    return fail(ProblemCode::syntax, "holds bytes that are not UTF-8 text", {.file = file, .line = line},
                "Save the file as UTF-8");
  }
  const auto table = base::parse_csv(text, file, {.separator = ','});
  if (!table) return tl::make_unexpected(table.error());
  auto events = LogReader(*table).read();
  if (!events) return tl::make_unexpected(events.error());
  const auto place = [&](std::size_t index) {
    return base::Place{.file = file, .line = table->rows[index].line};
  };
  return check_log(garden, std::move(*events), place);
}

}  // namespace sowtide::book
