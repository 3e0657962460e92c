#include "book/arrangement_word.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "book/words.hpp"

namespace sowtide::book {
namespace {

constexpr double kLeast_mm = 20.0;
constexpr double kMost_mm = 5000.0;

/// Millimetres of a unit; 0 for a word that is none.
double unit_mm(std::string_view word) noexcept {
  constexpr std::array<std::pair<std::string_view, double>, 3> kUnits{
      {{"mm", 1.0}, {"cm", 10.0}, {"in", 25.4}}};
  for (const auto& [unit, mm] : kUnits) {
    if (word == unit) return mm;
  }
  return 0.0;
}

std::string_view without_spaces(std::string_view text) noexcept {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return text;
}

}  // namespace

bool says_bought(std::string_view text) noexcept {
  return begins_with_word(without_spaces(text), "bought", ", ");
}

base::Result<std::optional<ArrangementTold>> arrangement_told(std::string_view text) {
  if (says_bought(text)) text.remove_prefix(std::min(text.size(), text.find(',') + 1));
  const std::string_view said = without_spaces(text.substr(0, text.find(',')));
  for (const auto each : {stand::Arrangement::square, stand::Arrangement::offset}) {
    if (said == word_of(kArrangementWords, each)) return ArrangementTold{.arrangement = each};
  }
  const std::string_view rows = word_of(kArrangementWords, stand::Arrangement::rows);
  if (!said.starts_with(rows) || !said.substr(rows.size()).starts_with(' ')) return std::optional<ArrangementTold>{};
  const std::string_view amount = without_spaces(said.substr(rows.size()));
  double number = 0.0;
  const auto [end, error] = std::from_chars(amount.data(), amount.data() + amount.size(), number);
  if (error == std::errc::invalid_argument) return std::optional<ArrangementTold>{};  // "rows look fine"
  const double mm =
      number * unit_mm(without_spaces(amount.substr(static_cast<std::size_t>(end - amount.data()))));
  if (error == std::errc{} && mm >= kLeast_mm && mm <= kMost_mm)
    return ArrangementTold{.arrangement = stand::Arrangement::rows, .row_spacing_mm = mm};
  return base::fail(base::ProblemCode::out_of_range,
                    fmt::format("\"{}\" does not say how far the rows are apart", said.substr(0, 60)),
                    {.field = "text"}, "Write it like \"rows 30 cm\", from 2 cm to 5 m");
}

}  // namespace sowtide::book
