#include "book/weather_findings_csv.hpp"
#include "book/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "base/csv.hpp"

namespace sowtide::book {
namespace {

using base::fail;
using base::ProblemCode;

constexpr std::array<std::string_view, 6> kHeadings{"date", "variable", "value", "check", "action", "detail"};

base::Result<void> check_header(const base::CsvTable& table) {
  if (std::ranges::equal(table.header, kHeadings)) return {};
  return fail(table.header.size() < kHeadings.size() ? ProblemCode::missing_field : ProblemCode::unknown_field,
              "has other columns than a table of findings", {.file = table.file, .line = table.header_line},
              "The columns are date, variable, value, check, action, detail");
}

base::Result<climate::QualityFinding> read_row(const base::CsvTable& table, const base::CsvRow& row) {
  const auto at = [&](std::size_t column) {
    return base::Place{.file = table.file, .line = row.line, .field = std::string(kHeadings[column])};
  };
  climate::QualityFinding finding;
  const auto date = base::parse_iso_date(row.cells[0]);
  if (!date) return fail(date.error().code, date.error().what, at(0), date.error().remedy);
  finding.date = *date;
  const auto variable = place_of(kVariableWords, row.cells[1]);
  if (!variable) {
    return fail(ProblemCode::out_of_range, fmt::format("\"{}\" is no weather variable", row.cells[1].substr(0, 40)), at(1),
                "Write tmin, tmax, rain, radiation, sunshine, humidity or wind");
  }
  finding.variable = static_cast<climate::Variable>(*variable);
  const auto value = base::parse_number(row.cells[2]);
  if (!value && !row.cells[2].empty())
    return fail(ProblemCode::wrong_type, fmt::format("\"{}\" is not a number", row.cells[2].substr(0, 40)), at(2));
  finding.value = value.value_or(std::numeric_limits<double>::quiet_NaN());
  finding.check = row.cells[3];
  finding.action = row.cells[4];
  finding.detail = row.cells[5];
  return finding;
}

}  // namespace

std::string weather_findings_csv(const std::vector<climate::QualityFinding>& findings) {
  std::string text = fmt::format("{}\n", fmt::join(kHeadings, ","));
  for (const climate::QualityFinding& finding : findings) {
    text += fmt::format("{},{},{},{},{},{}\n", base::to_iso(finding.date),
                        word_of(kVariableWords, finding.variable),
                        std::isfinite(finding.value) ? base::number_text(finding.value) : "",
                        base::csv_cell(finding.check), base::csv_cell(finding.action), base::csv_cell(finding.detail));
  }
  return text;
}

base::Result<std::vector<climate::QualityFinding>> read_weather_findings_csv(std::string_view text,
                                                                             const std::string& file) {
  const auto table = base::parse_csv(text, file, {.separator = ','});
  if (!table) return tl::make_unexpected(table.error());
  if (auto checked = check_header(*table); !checked) return tl::make_unexpected(checked.error());
  std::vector<climate::QualityFinding> findings;
  findings.reserve(table->rows.size());
  for (const base::CsvRow& row : table->rows) {
    auto finding = read_row(*table, row);
    if (!finding) return tl::make_unexpected(finding.error());
    findings.push_back(std::move(*finding));
  }
  return findings;
}

}  // namespace sowtide::book
