// TOML as a tree of our own, behind a guard that makes Debian's parser safe for hostile bytes.
//
// The parser is compiled in one source file only (toml.cpp); nothing else sees its headers. Every value knows
// its line and column in the person's own text, so that a message can point at it.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"

namespace sowtide::base {

class TomlValue;
struct TomlMember;
using TomlArray = std::vector<TomlValue>;
/// Key order is kept as written.
using TomlMembers = std::vector<TomlMember>;

/// One value with its place in the text.
class TomlValue {
 public:
  std::variant<bool, std::int64_t, double, std::string, Date, TomlArray, TomlMembers> data;
  int line = 0;
  int column = 0;
};

/// One key of a table with its value. Not a std::pair: clang 14 cannot complete one inside its own variant.
struct TomlMember {
  std::string first;
  TomlValue second;
};

/// Reads a document; its top is always a table. Problems carry file, line and column. Limits: 16 MiB,
/// nesting 256. Times of day and date-times are refused (nothing here needs them).
[[nodiscard]] Result<TomlValue> parse_toml(std::string_view text, const std::string& file);

/// Typed reading of one table with line-precise problems. Remembers the first problem, so fields can be read
/// one after another and the problem asked for once:
///     TomlReader bed(value, file, "beds[0]");
///     const double length_m = bed.number("length_m", {.above = 0.0});
///     bed.reject_unknown();
///     if (bed.problem()) return fail(*bed.problem());
class TomlReader {
 public:
  struct Range {
    std::optional<double> above;      ///< value must be > this
    std::optional<double> at_least;   ///< value must be >= this
    std::optional<double> at_most;    ///< value must be <= this
  };

  TomlReader(const TomlValue& value, std::string file, std::string path);

  [[nodiscard]] bool has(std::string_view key) const;
  double number(std::string_view key, const Range& range = {});
  double number_or(std::string_view key, double fallback, const Range& range = {});
  std::optional<double> optional_number(std::string_view key, const Range& range = {});
  std::int64_t integer(std::string_view key, const Range& range = {});
  std::int64_t integer_or(std::string_view key, std::int64_t fallback, const Range& range = {});
  std::string text(std::string_view key);                 ///< must not be empty
  std::string text_or(std::string_view key, std::string fallback);
  bool flag_or(std::string_view key, bool fallback);
  std::optional<Date> optional_date(std::string_view key);  ///< a TOML date or a text "YYYY-MM-DD"
  Date date(std::string_view key);
  /// `count` numbers, or any number of them when count is 0.
  std::vector<double> numbers(std::string_view key, std::size_t count = 0, const Range& range = {});
  std::vector<std::string> texts_or_empty(std::string_view key);
  /// One of `allowed`; returns its place in the list.
  std::size_t choice(std::string_view key, const std::vector<std::string_view>& allowed);
  std::size_t choice_or(std::string_view key, const std::vector<std::string_view>& allowed, std::size_t fallback);
  /// The tables of an array of tables; empty when absent.
  std::vector<TomlReader> tables(std::string_view key);
  /// A sub-table, or nothing when absent.
  std::optional<TomlReader> table(std::string_view key);
  /// The raw value, or nullptr. Counts as read.
  const TomlValue* raw(std::string_view key);
  /// All keys, in the order written.
  [[nodiscard]] std::vector<std::string> keys() const;

  /// Records unknown_field for the first key that was not read.
  void reject_unknown();
  /// Records a problem of the caller's own at `key` (or at the table when the key is absent).
  void report(ProblemCode code, std::string what, std::string_view key, std::string remedy = {});
  /// Takes over a sub-reader's problem, if this one has none yet.
  void adopt(const TomlReader& child);
  [[nodiscard]] const std::optional<Problem>& problem() const { return problem_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] int line() const;

 private:
  const TomlValue* find(std::string_view key);
  const TomlValue* require(std::string_view key);
  [[nodiscard]] std::string field(std::string_view key) const;
  double check(double value, const Range& range, std::string_view key);

  const TomlValue* value_;
  std::string file_;
  std::string path_;
  std::set<std::string, std::less<>> read_;
  std::optional<Problem> problem_;
};

/// A TOML basic string with quotes and escapes.
[[nodiscard]] std::string toml_text(std::string_view text);

}  // namespace sowtide::base
