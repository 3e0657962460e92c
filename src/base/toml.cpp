#include "base/toml.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/csv.hpp"
#include "base/nearest.hpp"
#include "base/utf8.hpp"

// Debian's toml++ 3.3.0 checks its preconditions only with assertions on, and hostile bytes can break them:
// with NDEBUG that is undefined behaviour. So it is compiled here, and only here, with assertions that throw,
// and it is fed ASCII alone (its handling of other characters outside strings can reach
// __builtin_unreachable).
#undef NDEBUG
namespace sowtide::base {
namespace {
struct ParserPreconditionBroken {};
[[noreturn]] void precondition_broken() {
  throw ParserPreconditionBroken{};
}
}  // namespace
}  // namespace sowtide::base
#define TOML_ASSERT(expression) \
  (static_cast<bool>(expression) ? void() : ::sowtide::base::precondition_broken())
#define TOML_ENABLE_FORMATTERS 0
#define TOML_HEADER_ONLY 1
#include <toml++/toml.h>

namespace sowtide::base {
namespace {

constexpr std::size_t kMaxBytes = 16U << 20U;
constexpr int kMaxNesting = 256;  // as in toml++; dotted keys count here too, which toml++ does not limit

/// A character written as an escape in the text that is fed to the parser.
struct WidenedCharacter {
  int column = 0;  ///< 1-based, in the fed text
  int length = 0;  ///< characters of the escape
};

/// Text that is safe to parse, with what is needed to find columns of the user's own text again.
struct SafeText {
  std::string ascii;
  std::map<int, std::vector<WidenedCharacter>> widened;  ///< by line

  [[nodiscard]] int user_column(int line, int column) const {
    const auto found = widened.find(line);
    if (found == widened.end()) return column;
    int shift = 0;
    for (const auto& escape : found->second) {
      if (escape.column >= column) break;
      shift += std::min(escape.length - 1, column - escape.column);
    }
    return column - shift;
  }
};

/// Follows strings, comments and nesting just far enough to make a text safe for the parser.
class SafeTextMaker {
 public:
  SafeTextMaker(std::string_view text, const std::string& file) : text_(text), file_(file) {}

  Result<SafeText> make() {
    safe_.ascii.reserve(text_.size() + text_.size() / 16);
    while (at_ < text_.size()) {
      const auto character = decode_utf8(text_, at_);
      if (!character) {
        return fail(ProblemCode::syntax, "holds bytes that are not UTF-8 text", here(),
                    "Save the file as UTF-8");
      }
      if (character->code == 0)
        return fail(ProblemCode::syntax, "holds a NUL byte", here(), "Is this a text file?");
      if (auto taken = character->length == 1 ? take_ascii() : take_other(*character); !taken) {
        return tl::make_unexpected(taken.error());
      }
    }
    return std::move(safe_);
  }

 private:
  enum class State { plain, comment, basic, long_basic, literal, long_literal };

  [[nodiscard]] Place here() const {
    return {.file = file_, .line = line_, .column = user_column_, .field = {}};
  }

  void copy(std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
      const char c = text_[at_++];
      safe_.ascii += c;
      ++column_;
      ++user_column_;
      if (c == '\n') {
        ++line_;
        column_ = user_column_ = 1;
      }
    }
  }

  [[nodiscard]] bool triple(char quote) const {
    return at_ + 2 < text_.size() && text_[at_] == quote && text_[at_ + 1] == quote &&
           text_[at_ + 2] == quote;
  }

  Result<void> take_ascii() {
    const char c = text_[at_];
    const bool was_escaped = std::exchange(escaped_, false);
    switch (state_) {
      case State::plain:
        return take_plain(c);
      case State::comment:
        if (c == '\n') state_ = State::plain;
        break;
      case State::basic:
      case State::literal:
        if (c == '\n') {
          return fail(ProblemCode::syntax, "a string is not closed on its line", here(),
                      "Close it with its quote");
        }
        if (!was_escaped && c == (state_ == State::basic ? '"' : '\'')) state_ = State::plain;
        break;
      case State::long_basic:
      case State::long_literal:
        return take_long(c, was_escaped);
    }
    escaped_ = state_ == State::basic && c == '\\' && !was_escaped;
    copy(1);
    return {};
  }

  Result<void> take_long(char c, bool was_escaped) {
    const char quote = state_ == State::long_basic ? '"' : '\'';
    if (!was_escaped && triple(quote)) {
      // Up to two more quotes may belong to the text before the closing three.
      copy(3);
      for (int extra = 0; extra < 2 && at_ < text_.size() && text_[at_] == quote; ++extra) copy(1);
      state_ = State::plain;
      return {};
    }
    escaped_ = state_ == State::long_basic && c == '\\' && !was_escaped;
    copy(1);
    return {};
  }

  Result<void> take_plain(char c) {
    if (c == '"' || c == '\'') {
      const bool is_long = triple(c);
      if (c == '"') state_ = is_long ? State::long_basic : State::basic;
      if (c == '\'') state_ = is_long ? State::long_literal : State::literal;
      copy(is_long ? 3 : 1);
      return {};
    }
    if (c == '#') state_ = State::comment;
    if (auto deep = follow_nesting(c); !deep) return deep;
    copy(1);
    return {};
  }

  /// Counts brackets and the dots of keys, since a document of nothing but dots would nest without limit.
  Result<void> follow_nesting(char c) {
    if (c == '[' || c == '{') {
      open_dots_.push_back(dots_);
      outer_dots_ += dots_;
      dots_ = 0;
    } else if (c == ']' || c == '}') {
      if (!open_dots_.empty()) {
        outer_dots_ -= open_dots_.back();
        open_dots_.pop_back();
      }
      dots_ = 0;
    } else if (c == '.') {
      ++dots_;
    } else if (c == ',' || (c == '\n' && open_dots_.empty())) {
      dots_ = 0;
    }
    if (static_cast<int>(open_dots_.size()) + outer_dots_ + dots_ > kMaxNesting) {
      return fail(ProblemCode::too_large, fmt::format("is nested deeper than {} levels", kMaxNesting),
                  here());
    }
    return {};
  }

  Result<void> take_other(const Utf8Character& character) {
    if (state_ == State::comment) {
      safe_.ascii += '?';
      ++column_;
    } else if ((state_ == State::basic || state_ == State::long_basic) && !escaped_) {
      const auto code = static_cast<std::uint32_t>(character.code);
      const std::string escape =
          code < 0x10000 ? fmt::format("\\u{:04X}", code) : fmt::format("\\U{:08X}", code);
      safe_.widened[line_].push_back({column_, static_cast<int>(escape.size())});
      safe_.ascii += escape;
      column_ += static_cast<int>(escape.size());
    } else {
      return fail(ProblemCode::syntax, "a character beyond ASCII stands outside a text in double quotes",
                  here(), "Put the text in double quotes");
    }
    ++user_column_;
    at_ += character.length;
    return {};
  }

  std::string_view text_;
  const std::string& file_;
  SafeText safe_;
  State state_ = State::plain;
  bool escaped_ = false;
  std::size_t at_ = 0;
  int line_ = 1;
  int column_ = 1;       // in the fed text
  int user_column_ = 1;  // in the user's text
  int dots_ = 0;
  int outer_dots_ = 0;
  std::vector<int> open_dots_;
};

/// Turns the parser's tree into ours.
class TreeConverter {
 public:
  TreeConverter(const SafeText& safe, const std::string& file) : safe_(safe), file_(file) {}

  Result<TomlValue> convert(const toml::node& node) const {
    TomlValue value;
    place(node.source().begin, value);
    auto filled = fill(node, value);
    if (!filled) return tl::make_unexpected(filled.error());
    return value;
  }

 private:
  void place(const toml::source_position& position, TomlValue& value) const {
    value.line = static_cast<int>(position.line);
    value.column = safe_.user_column(value.line, static_cast<int>(position.column));
  }

  Result<void> fill(const toml::node& node, TomlValue& value) const {
    switch (node.type()) {
      case toml::node_type::table:
        return fill_table(*node.as_table(), value);
      case toml::node_type::array:
        return fill_array(*node.as_array(), value);
      case toml::node_type::string:
        return fill_text(node.as_string()->get(), value);
      case toml::node_type::integer:
        value.data = node.as_integer()->get();
        return {};
      case toml::node_type::floating_point:
        value.data = node.as_floating_point()->get();
        return {};
      case toml::node_type::boolean:
        value.data = node.as_boolean()->get();
        return {};
      case toml::node_type::date:
        return fill_date(node.as_date()->get(), value);
      default:
        return fail(ProblemCode::wrong_type, "a time of day is not read here", at(value),
                    "Write a date as 2026-04-09");
    }
  }

  Result<void> fill_text(const std::string& text, TomlValue& value) const {
    if (text.find('\0') != std::string::npos) {
      return fail(ProblemCode::syntax, "holds the character U+0000", at(value), "Leave it out");
    }
    value.data = text;
    return {};
  }

  Result<void> fill_date(const toml::date& date, TomlValue& value) const {
    const auto made = make_date(date.year, date.month, date.day);
    if (!made) return fail(made.error().code, made.error().what, at(value));
    value.data = *made;
    return {};
  }

  Result<void> fill_array(const toml::array& array, TomlValue& value) const {
    TomlArray items;
    items.reserve(array.size());
    for (const toml::node& item : array) {
      auto converted = convert(item);
      if (!converted) return tl::make_unexpected(converted.error());
      items.push_back(std::move(*converted));
    }
    value.data = std::move(items);
    return {};
  }

  /// The parser sorts keys by name; the places of the keys give the order back.
  Result<void> fill_table(const toml::table& table, TomlValue& value) const {
    std::vector<std::pair<const toml::key*, const toml::node*>> entries;
    for (auto it = table.cbegin(); it != table.cend(); ++it) entries.emplace_back(&it->first, &it->second);
    const auto order = [](const auto& entry) {
      const toml::source_position& begin = entry.first->source().begin;
      return std::pair(begin.line, begin.column);
    };
    std::stable_sort(entries.begin(), entries.end(),
                     [&order](const auto& a, const auto& b) { return order(a) < order(b); });
    TomlMembers members;
    members.reserve(entries.size());
    for (const auto& [key, node] : entries) {
      auto converted = convert(*node);
      if (!converted) return tl::make_unexpected(converted.error());
      members.push_back({std::string(key->str()), std::move(*converted)});
    }
    value.data = std::move(members);
    return {};
  }

  [[nodiscard]] Place at(const TomlValue& value) const {
    return {.file = file_, .line = value.line, .column = value.column, .field = {}};
  }

  const SafeText& safe_;
  const std::string& file_;
};

Result<TomlValue> parse_safe(const SafeText& safe, const std::string& file) {
  try {
    const toml::table table = toml::parse(std::string_view(safe.ascii));
    auto root = TreeConverter(safe, file).convert(table);
    if (root) root->line = root->column = 1;
    return root;
  } catch (const toml::parse_error& error) {
    const toml::source_position& begin = error.source().begin;
    const auto line = static_cast<int>(begin.line);
    const Place place{.file = file,
                      .line = line,
                      .column = safe.user_column(line, static_cast<int>(begin.column)),
                      .field = {}};
    return fail(ProblemCode::syntax, std::string(error.description()), place,
                "See https://toml.io for the form");
  } catch (const ParserPreconditionBroken&) {
    return fail(ProblemCode::syntax, "is not TOML", {.file = file, .field = {}},
                "See https://toml.io for the form");
  } catch (const std::exception& error) {
    return fail(ProblemCode::syntax, fmt::format("cannot be read ({})", error.what()),
                {.file = file, .field = {}});
  }
}

std::string_view kind_text(const TomlValue& value) {
  constexpr std::array<std::string_view, 7> kKinds{"true or false", "a whole number", "a number", "a text",
                                                   "a date",        "a list",         "a table"};
  return kKinds[value.data.index()];
}

std::string list_text(const std::vector<std::string_view>& allowed) {
  std::string list;
  for (std::size_t i = 0; i < allowed.size(); ++i) {
    if (i > 0) list += i + 1 == allowed.size() ? " or " : ", ";
    list += fmt::format("\"{}\"", allowed[i]);
  }
  return list;
}

std::optional<double> number_of(const TomlValue& value) {
  if (const auto* whole = std::get_if<std::int64_t>(&value.data)) return static_cast<double>(*whole);
  if (const auto* real = std::get_if<double>(&value.data)) return *real;
  return std::nullopt;
}

}  // namespace

Result<TomlValue> parse_toml(std::string_view text, const std::string& file) {
  if (text.size() > kMaxBytes) {
    return fail(ProblemCode::too_large, "is larger than 16 MiB", {.file = file, .field = {}},
                "Is this the right file?");
  }
  auto safe = SafeTextMaker(without_byte_order_mark(text), file).make();
  if (!safe) return tl::make_unexpected(safe.error());
  return parse_safe(*safe, file);
}

TomlReader::TomlReader(const TomlValue& value, std::string file, std::string path)
    : value_(&value), file_(std::move(file)), path_(std::move(path)) {
  if (!std::holds_alternative<TomlMembers>(value.data)) {
    report(ProblemCode::wrong_type, fmt::format("is {}, must be a table", kind_text(value)), "");
  }
}

std::string TomlReader::field(std::string_view key) const {
  if (key.empty()) return path_;
  return path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key);
}

const TomlValue* TomlReader::find(std::string_view key) {
  const auto* members = std::get_if<TomlMembers>(&value_->data);
  if (members == nullptr) return nullptr;
  // Keys that were asked for and are absent are kept too: they are the names to suggest for a misspelt one.
  read_.emplace(key);
  const auto found =
      std::find_if(members->begin(), members->end(), [key](const auto& m) { return m.first == key; });
  return found == members->end() ? nullptr : &found->second;
}

const TomlValue* TomlReader::require(std::string_view key) {
  const TomlValue* value = find(key);
  if (value != nullptr || problem_) return value;
  std::vector<std::string> unread;
  constexpr std::size_t kMostUnread = 100;  // a table of hostile size is not searched through
  for (std::string& name : keys()) {
    if (unread.size() == kMostUnread) break;
    if (!read_.contains(name)) unread.push_back(std::move(name));
  }
  // A field of nearly this name is most likely this one in another unit or spelling.
  constexpr std::size_t kSlipEdits = 3;
  const auto near = nearest_names(key, unread, 1);
  const bool slip = !near.empty() && edit_distance(key, near.front()) <= kSlipEdits;
  report(ProblemCode::missing_field, "is missing", key,
         slip ? fmt::format("Did you write it as {}? Use the name {}, and its unit", near.front(), key) : "");
  return value;
}

bool TomlReader::has(std::string_view key) const {
  const auto* members = std::get_if<TomlMembers>(&value_->data);
  return members != nullptr &&
         std::any_of(members->begin(), members->end(), [key](const auto& m) { return m.first == key; });
}

void TomlReader::report(ProblemCode code, std::string what, std::string_view key, std::string remedy) {
  if (problem_) return;
  const TomlValue* place = key.empty() ? nullptr : find(key);
  if (place == nullptr) place = value_;
  problem_ = Problem{code,
                     std::move(what),
                     {.file = file_, .line = place->line, .column = place->column, .field = field(key)},
                     std::move(remedy)};
}

double TomlReader::check(double value, const Range& range, std::string_view key) {
  std::string bounds;
  const auto also = [&bounds](std::string_view word, double bound) {
    bounds += fmt::format("{}{} {}", bounds.empty() ? "" : " and ", word, number_text(bound));
  };
  if (range.above) also("above", *range.above);
  if (range.at_least) also("at least", *range.at_least);
  if (range.at_most) also("at most", *range.at_most);
  const bool inside = std::isfinite(value) && (!range.above || value > *range.above) &&
                      (!range.at_least || value >= *range.at_least) &&
                      (!range.at_most || value <= *range.at_most);
  if (!inside) {
    report(ProblemCode::out_of_range,
           fmt::format("is {}, must be {}", number_text(value), bounds.empty() ? "a finite number" : bounds),
           key);
  }
  return value;
}

double TomlReader::number(std::string_view key, const Range& range) {
  require(key);
  return optional_number(key, range).value_or(0.0);
}

double TomlReader::number_or(std::string_view key, double fallback, const Range& range) {
  return optional_number(key, range).value_or(fallback);
}

std::optional<double> TomlReader::optional_number(std::string_view key, const Range& range) {
  const TomlValue* value = find(key);
  if (value == nullptr) return std::nullopt;
  const auto number = number_of(*value);
  if (!number) {
    report(ProblemCode::wrong_type, fmt::format("is {}, must be a number", kind_text(*value)), key);
    return std::nullopt;
  }
  return check(*number, range, key);
}

std::int64_t TomlReader::integer(std::string_view key, const Range& range) {
  require(key);
  return integer_or(key, 0, range);
}

std::int64_t TomlReader::integer_or(std::string_view key, std::int64_t fallback, const Range& range) {
  const TomlValue* value = find(key);
  if (value == nullptr) return fallback;
  if (const auto* whole = std::get_if<std::int64_t>(&value->data)) {
    check(static_cast<double>(*whole), range, key);
    return *whole;
  }
  report(ProblemCode::wrong_type, fmt::format("is {}, must be a whole number", kind_text(*value)), key);
  return fallback;
}

std::string TomlReader::text(std::string_view key) {
  if (require(key) == nullptr) return {};
  auto text = text_or(key, "");
  if (text.empty()) report(ProblemCode::empty, "is empty", key);
  return text;
}

std::string TomlReader::text_or(std::string_view key, std::string fallback) {
  const TomlValue* value = find(key);
  if (value == nullptr) return fallback;
  if (const auto* text = std::get_if<std::string>(&value->data)) return *text;
  report(ProblemCode::wrong_type, fmt::format("is {}, must be a text in quotes", kind_text(*value)), key);
  return fallback;
}

bool TomlReader::flag_or(std::string_view key, bool fallback) {
  const TomlValue* value = find(key);
  if (value == nullptr) return fallback;
  if (const auto* flag = std::get_if<bool>(&value->data)) return *flag;
  report(ProblemCode::wrong_type, fmt::format("is {}, must be true or false", kind_text(*value)), key);
  return fallback;
}

std::optional<Date> TomlReader::optional_date(std::string_view key) {
  const TomlValue* value = find(key);
  if (value == nullptr) return std::nullopt;
  if (const auto* date = std::get_if<Date>(&value->data)) return *date;
  if (const auto* text = std::get_if<std::string>(&value->data)) {
    auto date = parse_iso_date(*text);
    if (date) return *date;
    report(date.error().code, date.error().what, key, date.error().remedy);
    return std::nullopt;
  }
  report(ProblemCode::wrong_type, fmt::format("is {}, must be a date", kind_text(*value)), key,
         "Write it as 2026-04-09");
  return std::nullopt;
}

Date TomlReader::date(std::string_view key) {
  require(key);
  return optional_date(key).value_or(Date{});
}

std::vector<double> TomlReader::numbers(std::string_view key, std::size_t count, const Range& range) {
  std::vector<double> result(count, 0.0);
  const TomlValue* value = require(key);
  if (value == nullptr) return result;
  const auto* array = std::get_if<TomlArray>(&value->data);
  if (array == nullptr) {
    report(ProblemCode::wrong_type, fmt::format("is {}, must be a list of numbers", kind_text(*value)), key);
    return result;
  }
  if (count != 0 && array->size() != count) {
    report(ProblemCode::out_of_range, fmt::format("has {} numbers, must have {}", array->size(), count), key);
    return result;
  }
  result.assign(array->size(), 0.0);
  for (std::size_t i = 0; i < array->size(); ++i) {
    const TomlValue& item = (*array)[i];
    const bool had_problem = problem_.has_value();
    const auto number = number_of(item);
    if (!number)
      report(ProblemCode::wrong_type, fmt::format("is {}, must be a number", kind_text(item)), key);
    if (number) result[i] = check(*number, range, key);
    if (!had_problem && problem_) {
      problem_->where.line = item.line;
      problem_->where.column = item.column;
      problem_->where.field += fmt::format("[{}]", i);
    }
  }
  return result;
}

std::vector<std::string> TomlReader::texts_or_empty(std::string_view key) {
  std::vector<std::string> result;
  const TomlValue* value = find(key);
  if (value == nullptr) return result;
  const auto* array = std::get_if<TomlArray>(&value->data);
  if (array == nullptr) {
    report(ProblemCode::wrong_type, fmt::format("is {}, must be a list of texts", kind_text(*value)), key);
    return result;
  }
  for (const TomlValue& item : *array) {
    const auto* text = std::get_if<std::string>(&item.data);
    if (text == nullptr) {
      report(ProblemCode::wrong_type, fmt::format("holds {}, must hold only texts", kind_text(item)), key);
      return result;
    }
    result.push_back(*text);
  }
  return result;
}

std::size_t TomlReader::choice(std::string_view key, const std::vector<std::string_view>& allowed) {
  require(key);
  return choice_or(key, allowed, 0);
}

std::size_t TomlReader::choice_or(std::string_view key, const std::vector<std::string_view>& allowed,
                                  std::size_t fallback) {
  if (find(key) == nullptr) return fallback;
  const std::string text = text_or(key, "");
  const auto found = std::find(allowed.begin(), allowed.end(), text);
  if (found != allowed.end()) return static_cast<std::size_t>(found - allowed.begin());
  report(ProblemCode::out_of_range,
         fmt::format("is \"{}\", must be {}", text.substr(0, 60), list_text(allowed)), key);
  return fallback;
}

std::vector<TomlReader> TomlReader::tables(std::string_view key) {
  std::vector<TomlReader> result;
  const TomlValue* value = find(key);
  if (value == nullptr) return result;
  const auto* array = std::get_if<TomlArray>(&value->data);
  if (array == nullptr) {
    report(ProblemCode::wrong_type, fmt::format("is {}, must be a list of tables", kind_text(*value)), key,
           fmt::format("Begin each with [[{}]]", key));
    return result;
  }
  result.reserve(array->size());
  for (std::size_t i = 0; i < array->size(); ++i) {
    result.emplace_back((*array)[i], file_, fmt::format("{}[{}]", field(key), i));
  }
  return result;
}

std::optional<TomlReader> TomlReader::table(std::string_view key) {
  const TomlValue* value = find(key);
  if (value == nullptr) return std::nullopt;
  return TomlReader(*value, file_, field(key));
}

const TomlValue* TomlReader::raw(std::string_view key) {
  return find(key);
}

std::vector<std::string> TomlReader::keys() const {
  std::vector<std::string> names;
  const auto* members = std::get_if<TomlMembers>(&value_->data);
  if (members == nullptr) return names;
  for (const auto& member : *members) names.push_back(member.first);
  return names;
}

void TomlReader::reject_unknown() {
  for (const std::string& key : keys()) {
    if (read_.contains(key)) continue;
    const std::string near = did_you_mean(key, {read_.begin(), read_.end()});
    report(ProblemCode::unknown_field, "is not a field that is known here", key,
           near.empty() ? "Check its spelling, or take it out" : near);
    return;
  }
}

void TomlReader::adopt(const TomlReader& child) {
  if (!problem_) problem_ = child.problem_;
}

int TomlReader::line() const {
  return value_->line;
}

std::string toml_text(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (c == '\n') {
      quoted += "\\n";
    } else if (c == '\t') {
      quoted += "\\t";
    } else if (byte < 0x20 || byte == 0x7F) {
      quoted += fmt::format("\\u{:04X}", byte);
    } else {
      quoted += c;
    }
  }
  return quoted + '"';
}

}  // namespace sowtide::base
