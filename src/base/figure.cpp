#include "base/figure.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "base/csv.hpp"

namespace sowtide::base {
namespace {

std::string key_list(const FigureDescription& figure) {
  std::string list;
  for (const FigureKey& key : figure.keys) {
    if (!list.empty()) list += ", ";
    list += key.required ? key.name : "[" + key.name + "]";
  }
  return list;
}

}  // namespace

Result<void> check_keys(const FigureDescription& figure, const FigureInputs& inputs) {
  const auto known = [&figure](const std::string& name) {
    return std::any_of(figure.keys.begin(), figure.keys.end(), [&](const FigureKey& key) { return key.name == name; });
  };
  for (const auto& [name, text] : inputs) {
    if (!known(name)) {
      return fail(ProblemCode::unknown_field, fmt::format("figure {} has no key of this name", figure.name),
                  {.field = name}, fmt::format("Its keys are: {}", key_list(figure)));
    }
  }
  for (const FigureKey& key : figure.keys) {
    if (key.required && !inputs.contains(key.name)) {
      return fail(ProblemCode::missing_field, fmt::format("figure {} needs this key", figure.name),
                  {.field = key.name}, fmt::format("For example: sowtide figure {} {}", figure.name, figure.example));
    }
  }
  return {};
}

Result<double> number_input(const FigureInputs& inputs, const std::string& key, double low, double high) {
  const auto found = inputs.find(key);
  if (found == inputs.end()) return fail(ProblemCode::missing_field, "is needed", {.field = key});
  const auto value = parse_number(found->second);
  if (!value) {
    return fail(ProblemCode::wrong_type, fmt::format("\"{}\" is not a number", found->second.substr(0, 40)),
                {.field = key}, "Write a plain number, for example 12.5");
  }
  if (!(*value >= low && *value <= high)) {
    return fail(ProblemCode::out_of_range, fmt::format("{} is outside {} to {}", *value, low, high), {.field = key});
  }
  return *value;
}

}  // namespace sowtide::base
