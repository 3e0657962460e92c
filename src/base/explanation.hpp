// Why a number is what it is: inputs, working, source, uncertainty. Every result a person sees can give one.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace sowtide::base {

using ExplainedValue = std::variant<double, std::string, std::vector<double>, std::vector<std::string>>;

/// One named input or result with its unit ("" for a pure number or a text).
struct ExplainedField {
  std::string name;
  ExplainedValue value;
  std::string unit;
};

struct Explanation {
  std::string name;                    ///< the figure's name, for example "extraterrestrial-radiation"
  std::vector<ExplainedField> inputs;
  std::vector<ExplainedField> result;  ///< the first is the main one
  std::vector<std::string> working;    ///< one step a line, numbers filled in
  std::vector<std::string> source;     ///< full citations
};

}  // namespace sowtide::base
