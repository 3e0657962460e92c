// How a room offers its formulas to the `figure` verb: a description with named keys, and an answer that explains
// itself (base/explanation.hpp). Each room has one function `…_figure(name, inputs)` and one list `…_figures()`.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/problem.hpp"

namespace sowtide::base {

/// One input of a figure.
struct FigureKey {
  std::string name;       ///< with the unit in the name: "tmin_c"
  std::string unit;       ///< "°C"; "" for a text or a pure number
  bool required = true;
  std::string text;       ///< one line for people
};

/// One figure that can be worked out by itself.
struct FigureDescription {
  std::string name;       ///< "extraterrestrial-radiation"
  std::string summary;    ///< one line
  std::vector<FigureKey> keys;
  std::string example;    ///< "lat=-20 date=2026-09-03"
};

/// Inputs as typed: key → text.
using FigureInputs = std::map<std::string, std::string, std::less<>>;

/// Checks that every required key is there and no key is unknown; the problem names the key and lists what is known.
[[nodiscard]] Result<void> check_keys(const FigureDescription& figure, const FigureInputs& inputs);

/// The number under a key, in [low, high]; missing_field, wrong_type or out_of_range otherwise.
[[nodiscard]] Result<double> number_input(const FigureInputs& inputs, const std::string& key, double low, double high);

}  // namespace sowtide::base
