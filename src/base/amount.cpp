#include "base/amount.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <string>

#include "base/csv.hpp"
#include "base/letters.hpp"
#include "base/quantity.hpp"

namespace sowtide::base {
namespace {

struct Unit {
  std::string_view word;
  Measure measure;
  double size;  ///< in the unit of the measure
};

constexpr double kMillimetresPerFoot = 12.0 * kMillimetresPerInch;
// A US gallon is four quarts or eight pints.
constexpr double kLitresPerUsQuart = kLitresPerUsGallon / 4.0;
constexpr double kLitresPerUsPint = kLitresPerUsGallon / 8.0;

constexpr std::array<Unit, 42> kUnits{{
    {"g", Measure::grams, 1.0},
    {"gram", Measure::grams, 1.0},
    {"grams", Measure::grams, 1.0},
    {"kg", Measure::grams, 1000.0},
    {"kilo", Measure::grams, 1000.0},
    {"kilos", Measure::grams, 1000.0},
    {"oz", Measure::grams, kGramsPerOunce},
    {"ounce", Measure::grams, kGramsPerOunce},
    {"ounces", Measure::grams, kGramsPerOunce},
    {"lb", Measure::grams, kGramsPerPound},
    {"lbs", Measure::grams, kGramsPerPound},
    {"pound", Measure::grams, kGramsPerPound},
    {"pounds", Measure::grams, kGramsPerPound},
    {"mm", Measure::millimetres, 1.0},
    {"cm", Measure::millimetres, 10.0},
    {"m", Measure::millimetres, 1000.0},
    {"in", Measure::millimetres, kMillimetresPerInch},
    {"inch", Measure::millimetres, kMillimetresPerInch},
    {"inches", Measure::millimetres, kMillimetresPerInch},
    {"\"", Measure::millimetres, kMillimetresPerInch},
    {"ft", Measure::millimetres, kMillimetresPerFoot},
    {"foot", Measure::millimetres, kMillimetresPerFoot},
    {"feet", Measure::millimetres, kMillimetresPerFoot},
    {"'", Measure::millimetres, kMillimetresPerFoot},
    {"l", Measure::litres, 1.0},
    {"litre", Measure::litres, 1.0},
    {"litres", Measure::litres, 1.0},
    {"liter", Measure::litres, 1.0},
    {"liters", Measure::litres, 1.0},
    {"ml", Measure::litres, 0.001},
    {"cl", Measure::litres, 0.01},
    {"dl", Measure::litres, 0.1},
    {"gal", Measure::litres, kLitresPerUsGallon},
    {"gals", Measure::litres, kLitresPerUsGallon},
    {"gallon", Measure::litres, kLitresPerUsGallon},
    {"gallons", Measure::litres, kLitresPerUsGallon},
    {"qt", Measure::litres, kLitresPerUsQuart},
    {"quart", Measure::litres, kLitresPerUsQuart},
    {"quarts", Measure::litres, kLitresPerUsQuart},
    {"pt", Measure::litres, kLitresPerUsPint},
    {"pint", Measure::litres, kLitresPerUsPint},
    {"pints", Measure::litres, kLitresPerUsPint},
}};

bool is_of_number(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '+' || c == '-';
}

/// Takes the longest beginning whose letters all fit, and the blanks behind it.
template <class Fits>
std::string_view take_while(std::string_view& text, Fits fits) {
  const auto end = static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), fits) - text.begin());
  const std::string_view taken = text.substr(0, end);
  text = trim(text.substr(end));
  return taken;
}

tl::unexpected<Problem> not_understood(std::string_view text, ProblemCode code, Measure measure) {
  return fail(code, fmt::format("\"{}\" is not understood", text.substr(0, 60)), {},
              fmt::format("Write a number, alone or with its unit: {}", units_known(measure)));
}

std::optional<double> size_of(std::string_view word, Measure measure) {
  const std::string small = small_letters(trim(word));
  for (const Unit& unit : kUnits) {
    if (unit.word == small && unit.measure == measure) return unit.size;
  }
  return std::nullopt;
}

}  // namespace

std::string_view units_known(Measure measure) noexcept {
  switch (measure) {
    case Measure::grams:
      return "g, kg, oz, lb";
    case Measure::millimetres:
      return "mm, cm, m, in, ft";
    case Measure::litres:
      return "l, ml, gal, qt, pt";
  }
  return {};
}

bool is_unit(std::string_view word) {
  const std::string small = small_letters(word);
  return std::any_of(kUnits.begin(), kUnits.end(), [&small](const Unit& unit) { return unit.word == small; });
}

Result<double> read_amount(std::string_view text, Measure measure) {
  if (text.find(',') != std::string_view::npos) {
    return fail(ProblemCode::syntax, fmt::format("\"{}\" is not understood", text.substr(0, 60)), {},
                "Write decimals behind a point, 1.2kg, and thousands without a mark, 1200g");
  }
  std::string_view rest = trim(text);
  double sum = 0.0;
  bool bare = false;
  for (int part = 0; part == 0 || !rest.empty(); ++part) {
    const auto number = parse_number(take_while(rest, is_of_number));
    // A bare number stands alone: in "1 lb 4" it could be anything.
    if (!number || bare || (part > 0 && *number < 0.0))
      return not_understood(text, ProblemCode::syntax, measure);
    const std::string_view word = take_while(rest, [](char c) { return !is_of_number(c); });
    bare = word.empty();
    if (bare && part > 0) return not_understood(text, ProblemCode::syntax, measure);
    const auto size = bare ? std::optional(1.0) : size_of(word, measure);
    if (!size) return not_understood(text, ProblemCode::wrong_unit, measure);
    sum += *number * *size;
  }
  return sum;
}

}  // namespace sowtide::base
