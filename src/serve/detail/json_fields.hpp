// Reads one JSON object strictly: every field by name and kind, and none that nobody asked for.
//
//     JsonFields fields(value, "beds[2]");
//     fields.text("name", bed.name, Need::must);
//     fields.number("length_m", bed.length_m, Need::must);
//     if (auto read = fields.finish(); !read) …
#pragma once

#include <array>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "base/problem.hpp"

namespace sowtide::serve::detail {

enum class Need { must, may };

/// The first problem found is kept; fields that may be left out keep the value they had.
class JsonFields {
 public:
  /// `path` begins the names of fields in problems; empty for the body itself.
  JsonFields(const nlohmann::json& value, std::string path);

  void text(const std::string& name, std::string& into, Need need = Need::may);
  void number(const std::string& name, double& into, Need need = Need::may);
  /// May be left out; null takes it away.
  void number(const std::string& name, std::optional<double>& into);
  /// Whole numbers of up to nine digits.
  void whole(const std::string& name, int& into, Need need = Need::may);
  void flag(const std::string& name, bool& into);
  /// One of the words, which stand in the order of the enumeration (book/words.hpp).
  template <class Enumeration, std::size_t N>
  void choice(const std::string& name, const std::array<std::string_view, N>& words, Enumeration& into) {
    const nlohmann::json* value = find(name, Need::may);
    if (value == nullptr) return;
    std::string list;
    for (std::size_t i = 0; i < N; ++i) {
      if (value->is_string() && value->get_ref<const std::string&>() == words[i]) {
        into = static_cast<Enumeration>(i);
        return;
      }
      list += (list.empty() ? "" : ", ") + std::string(words[i]);
    }
    report(base::ProblemCode::wrong_type, "is not one of the words it may be", name, "One of " + list + ".");
  }
  /// The raw value for what none of these reads; nothing when it is absent or null.
  [[nodiscard]] const nlohmann::json* find(const std::string& name, Need need);
  void report(base::ProblemCode code, std::string what, const std::string& name, std::string remedy = {});

  /// Nothing, or the first problem; a field that was never asked for is one.
  [[nodiscard]] base::Result<void> finish();

 private:
  const nlohmann::json& value_;
  std::string path_;
  std::set<std::string, std::less<>> asked_;
  base::Result<void> result_;
};

}  // namespace sowtide::serve::detail
