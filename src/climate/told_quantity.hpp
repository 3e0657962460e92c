// Quantities within a text for people: kept as number and unit, "{25.4 mm}", so that whoever tells the text puts
// each into the units of its reader.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "climate/record.hpp"

namespace sowtide::climate {

/// What a quantity measures, by the word that stands after its number: a temperature in °C ("c"), a difference of
/// temperatures in K ("k"), a depth of water in mm ("mm").
enum class ToldUnit { celsius, kelvin, millimetres };

/// A quantity as it stands in a text, rounded to a hundredth: "{25.4 mm}".
[[nodiscard]] std::string quantity(double value, ToldUnit unit);

/// A value of a variable likewise; of those that have one unit everywhere the number with it: "12 h".
[[nodiscard]] std::string quantity(double value, Variable variable);

/// The text with every quantity as `say` tells it; braces that hold no quantity stay as they are.
[[nodiscard]] std::string tell_quantities(std::string_view text,
                                          const std::function<std::string(double value, ToldUnit unit)>& say);

}  // namespace sowtide::climate
