#include "climate/told_quantity.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "base/csv.hpp"
#include "climate/quality.hpp"

namespace sowtide::climate {
namespace {

constexpr std::array<std::pair<std::string_view, ToldUnit>, 3> kUnits{
    {{"c", ToldUnit::celsius}, {"k", ToldUnit::kelvin}, {"mm", ToldUnit::millimetres}}};

std::string hundredths_text(double value) {
  constexpr double kHundredths = 100.0;
  return base::number_text(std::round(value * kHundredths) / kHundredths);
}

std::optional<std::pair<double, ToldUnit>> read_quantity(std::string_view text) {
  const std::size_t space = text.find(' ');
  if (space == std::string_view::npos) return std::nullopt;
  const auto value = base::parse_number(text.substr(0, space));
  for (const auto& [word, unit] : kUnits) {
    if (value && text.substr(space + 1) == word) return std::pair(*value, unit);
  }
  return std::nullopt;
}

}  // namespace

std::string quantity(double value, ToldUnit unit) {
  return fmt::format("{{{} {}}}", hundredths_text(value), kUnits[static_cast<std::size_t>(unit)].first);
}

std::string quantity(double value, Variable variable) {
  switch (variable) {
    case Variable::tmin:
    case Variable::tmax:
      return quantity(value, ToldUnit::celsius);
    case Variable::rain:
      return quantity(value, ToldUnit::millimetres);
    default:
      return fmt::format("{} {}", hundredths_text(value), variable_unit(variable));
  }
}

std::string tell_quantities(std::string_view text,
                            const std::function<std::string(double value, ToldUnit unit)>& say) {
  std::string told;
  while (!text.empty()) {
    const std::size_t open = text.find('{');
    told += text.substr(0, open);
    if (open == std::string_view::npos) break;
    const std::size_t close = text.find('}', open);
    const auto held = close == std::string_view::npos
                          ? std::nullopt
                          : read_quantity(text.substr(open + 1, close - open - 1));
    if (held) told += say(held->first, held->second);
    else told += '{';
    text.remove_prefix(held ? close + 1 : open + 1);
  }
  return told;
}

}  // namespace sowtide::climate
