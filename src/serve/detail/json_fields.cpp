#include "serve/detail/json_fields.hpp"

#include <cmath>

namespace sowtide::serve::detail {

using base::ProblemCode;
using nlohmann::json;

JsonFields::JsonFields(const json& value, std::string path) : value_(value), path_(std::move(path)) {
  if (!value.is_object()) report(ProblemCode::wrong_type, "must be an object", "");
}

const json* JsonFields::find(const std::string& name, Need need) {
  asked_.insert(name);
  if (!value_.is_object()) return nullptr;
  const auto found = value_.find(name);
  if (found != value_.end() && !found->is_null()) return &*found;
  if (need == Need::must) report(ProblemCode::missing_field, "is missing", name);
  return nullptr;
}

void JsonFields::report(ProblemCode code, std::string what, const std::string& name, std::string remedy) {
  if (!result_) return;
  const std::string field = path_.empty() || name.empty() ? path_ + name : path_ + "." + name;
  result_ = base::fail(code, std::move(what), {.file = {}, .line = 0, .column = 0, .field = field},
                       remedy.empty() ? "See docs/api for the form of the body." : std::move(remedy));
}

void JsonFields::text(const std::string& name, std::string& into, Need need) {
  const json* value = find(name, need);
  if (value == nullptr) return;
  if (!value->is_string()) return report(ProblemCode::wrong_type, "must be a text", name);
  into = value->get<std::string>();
}

void JsonFields::number(const std::string& name, double& into, Need need) {
  const json* value = find(name, need);
  if (value == nullptr) return;
  if (!value->is_number() || !std::isfinite(value->get<double>()))
    return report(ProblemCode::wrong_type, "must be a number", name);
  into = value->get<double>();
}

void JsonFields::number(const std::string& name, std::optional<double>& into) {
  double value = into.value_or(0.0);
  number(name, value);
  if (value_.is_object() && value_.contains(name))
    into = value_.at(name).is_null() ? std::nullopt : std::optional(value);
}

void JsonFields::whole(const std::string& name, int& into, Need need) {
  constexpr double kMost = 999'999'999.0;
  double value = into;
  number(name, value, need);
  if (std::abs(value) > kMost || value != std::floor(value))
    return report(ProblemCode::wrong_type, "must be a whole number", name);
  into = static_cast<int>(value);
}

void JsonFields::flag(const std::string& name, bool& into) {
  const json* value = find(name, Need::may);
  if (value == nullptr) return;
  if (!value->is_boolean()) return report(ProblemCode::wrong_type, "must be true or false", name);
  into = value->get<bool>();
}

base::Result<void> JsonFields::finish() {
  if (!value_.is_object()) return result_;
  for (const auto& [name, each] : value_.items()) {
    if (!asked_.contains(name)) report(ProblemCode::unknown_field, "is not known here", name.substr(0, 64));
  }
  return result_;
}

}  // namespace sowtide::serve::detail
