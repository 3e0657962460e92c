// TOML behind its guard: hostile bytes are problems with a place, and every value knows where it stands.
#include "base/toml.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <string>

namespace sowtide::base {
namespace {

TomlValue parsed(std::string_view text) {
  auto value = parse_toml(text, "t.toml");
  EXPECT_TRUE(value) << to_text(value.error());
  return value.value_or(TomlValue{});
}

const TomlValue& member(const TomlValue& table, std::string_view key) {
  for (const auto& [name, value] : std::get<TomlMembers>(table.data)) {
    if (name == key) return value;
  }
  throw std::out_of_range(std::string(key));
}

void expect_refused(std::string_view text, ProblemCode code, int line, int column) {
  const auto value = parse_toml(text, "t.toml");
  ASSERT_FALSE(value) << text;
  const Problem& problem = value.error();
  EXPECT_EQ(problem.code, code) << to_text(problem);
  EXPECT_EQ(problem.where.line, line) << to_text(problem);
  EXPECT_EQ(problem.where.column, column) << to_text(problem);
  EXPECT_EQ(problem.where.file, "t.toml");
  EXPECT_FALSE(problem.what.empty());
}

TEST(Toml, KeepsKindsKeysAndTheirOrder) {
  const TomlValue root =
      parsed("z = 1\na = 2.5\nm = true\nt = \"x\"\nd = 2026-04-09\nl = [1, 2]\n[b]\nc = 1\n[[w]]\n[[w]]\n");
  std::vector<std::string> keys;
  for (const auto& entry : std::get<TomlMembers>(root.data)) keys.push_back(entry.first);
  EXPECT_EQ(keys, (std::vector<std::string>{"z", "a", "m", "t", "d", "l", "b", "w"}));
  EXPECT_EQ(std::get<std::int64_t>(member(root, "z").data), 1);
  EXPECT_EQ(std::get<double>(member(root, "a").data), 2.5);
  EXPECT_EQ(std::get<bool>(member(root, "m").data), true);
  EXPECT_EQ(std::get<Date>(member(root, "d").data), date_of(2026, 4, 9));
  EXPECT_EQ(std::get<TomlArray>(member(root, "w").data).size(), 2U);
}

TEST(Toml, KnowsLineAndColumnInTheUsersOwnText) {
  const TomlValue root = parsed("name = \"Möhren, Rüben\" # früh\nlist = [\"ä\", \"é\",\n  3]\n");
  EXPECT_EQ(std::get<std::string>(member(root, "name").data), "Möhren, Rüben");
  const auto& list = std::get<TomlArray>(member(root, "list").data);
  EXPECT_EQ(list[0].column, 9);
  EXPECT_EQ(list[1].column, 14) << "columns count characters, not the bytes or escapes behind them";
  EXPECT_EQ(list[2].line, 3);
  EXPECT_EQ(list[2].column, 3);
  EXPECT_EQ(std::get<std::string>(list[1].data), "é");
}

TEST(Toml, ReadsEveryCharacterInBasicStrings) {
  const TomlValue root =
      parsed("a = \"日本 🌱 \\u00e9 \\\\ \\\" \\n\"\nb = \"\"\"\nzwei\nZeilen ö\"\"\"\nc = 'C:\\path'\n");
  EXPECT_EQ(std::get<std::string>(member(root, "a").data), "日本 🌱 é \\ \" \n");
  EXPECT_EQ(std::get<std::string>(member(root, "b").data), "zwei\nZeilen ö");
  EXPECT_EQ(std::get<std::string>(member(root, "c").data), "C:\\path");
  EXPECT_EQ(std::get<std::string>(member(parsed("\xEF\xBB\xBF"
                                                "a = \"b\""),
                                         "a")
                                      .data),
            "b")
      << "a byte-order mark";
}

TEST(Toml, QuotesAtTheEndOfLongStringsBelongToThem) {
  EXPECT_EQ(std::get<std::string>(member(parsed("a = \"\"\"x\"\"\"\"\"\nb = 1\n"), "a").data), "x\"\"");
  EXPECT_EQ(std::get<std::string>(member(parsed("a = '''x'''''\nb = 1\n"), "a").data), "x''");
}

TEST(Toml, PointsAtWhatIsWrong) {
  expect_refused("a = 1\nb = = 2\n", ProblemCode::syntax, 2, 5);
  expect_refused("ä = 1\n", ProblemCode::syntax, 1, 1);
  expect_refused("a = 'ä'\n", ProblemCode::syntax, 1, 6);
  expect_refused("a = \"é\" x\n", ProblemCode::syntax, 1, 9);
  expect_refused("a = \"open\nb = 1\n", ProblemCode::syntax, 1, 10);
  expect_refused("a = \"\\é\"\n", ProblemCode::syntax, 1, 7);
  expect_refused("a = 1\n\xff\n", ProblemCode::syntax, 2, 1);
  expect_refused(std::string_view("a = 1\nb\0 = 2\n", 13), ProblemCode::syntax, 2, 2);
  expect_refused("a = 12:30:00\n", ProblemCode::wrong_type, 1, 5);
  expect_refused("a = \"x\\u0000y\"\n", ProblemCode::syntax, 1, 5);
}

TEST(Toml, RefusesWhatBreaksTheParserItself) {
  // Debian's toml++ 3.3.0: `[` and a byte that cannot begin a key breaks a precondition (upstream issue 294).
  for (const std::string text :
       {"[\x01", "[", "[[", "[\x7f]", "a.", "=", "\"", "'''", "[a]\n[a]", "a = [1,", "a = {b", "a = 1e",
        "[\"", "a = \"\"\"", "\\", "a = 0x", "a = 99999999999999999999"}) {
    const auto value = parse_toml(text, "t.toml");
    EXPECT_FALSE(value) << text;
  }
}

TEST(Toml, LimitsNestingHoweverItIsWritten) {
  const auto repeated = [](std::string_view piece, int count) {
    std::string text;
    for (int i = 0; i < count; ++i) text += piece;
    return text;
  };
  for (const std::string& text :
       {"a = " + repeated("[", 300), "a = " + repeated("{b = ", 300), repeated("a.", 100000) + "a = 1",
        "[" + repeated("a.", 100000) + "a]", "x = " + repeated("[{" + repeated("a.", 200) + "a = ", 200),
        "x = " + repeated("[\n{" + repeated("a . ", 100) + "a = ", 200)}) {
    const auto value = parse_toml(text, "t.toml");
    ASSERT_FALSE(value);
    EXPECT_EQ(value.error().code, ProblemCode::too_large) << to_text(value.error());
  }
  std::string numbers = "a = [";
  for (int i = 0; i < 5000; ++i) numbers += "1.5, ";
  EXPECT_TRUE(parse_toml(numbers + "2.5]", "t.toml")) << "points of numbers are no nesting";
}

TEST(Toml, RefusesTextsThatAreTooLarge) {
  EXPECT_EQ(parse_toml(std::string((16U << 20U) + 1, '\n'), "t.toml").error().code, ProblemCode::too_large);
}

RC_GTEST_PROP(TomlLaws, AnyBytesGiveATreeOrAProblem, (std::string bytes)) {
  const auto value = parse_toml(bytes, "t.toml");
  RC_ASSERT(value.has_value() || !value.error().what.empty());
}

RC_GTEST_PROP(TomlLaws, TextsReadBackAsTheyWere, ()) {
  const auto codes =
      *rc::gen::container<std::vector<std::uint32_t>>(rc::gen::inRange<std::uint32_t>(1, 0x2FFF));
  std::string text;
  for (const std::uint32_t code : codes) {
    if (code < 0x80) {
      text += static_cast<char>(code);
    } else if (code < 0x800) {
      text += static_cast<char>(0xC0U | (code >> 6U));
      text += static_cast<char>(0x80U | (code & 0x3FU));
    } else {
      text += static_cast<char>(0xE0U | (code >> 12U));
      text += static_cast<char>(0x80U | ((code >> 6U) & 0x3FU));
      text += static_cast<char>(0x80U | (code & 0x3FU));
    }
  }
  const auto value = parse_toml("a = " + toml_text(text) + "\n", "t.toml");
  RC_ASSERT(value.has_value());
  RC_ASSERT(std::get<std::string>(member(*value, "a").data) == text);
}

/// A reader over a text, which must outlive it.
struct Read {
  TomlValue value;
  TomlReader reader;
  explicit Read(std::string_view text) : value(parsed(text)), reader(value, "t.toml", "") {}
};

TEST(TomlReader, ReadsFieldsAndFallsBack) {
  Read r(
      "n = 3\nx = 2.5\ns = \"text\"\nf = true\nd = \"2026-04-09\"\nl = [1, 2.5]\nt = [\"a\", \"b\"]\nc = "
      "\"two\"\n");
  EXPECT_EQ(r.reader.number("n"), 3.0);
  EXPECT_EQ(r.reader.number("x"), 2.5);
  EXPECT_EQ(r.reader.integer("n"), 3);
  EXPECT_EQ(r.reader.text("s"), "text");
  EXPECT_TRUE(r.reader.flag_or("f", false));
  EXPECT_EQ(r.reader.date("d"), date_of(2026, 4, 9));
  EXPECT_EQ(r.reader.numbers("l", 2), (std::vector<double>{1.0, 2.5}));
  EXPECT_EQ(r.reader.texts_or_empty("t").size(), 2U);
  EXPECT_EQ(r.reader.choice("c", {"one", "two"}), 1U);
  EXPECT_EQ(r.reader.number_or("absent", 7.0), 7.0);
  EXPECT_EQ(r.reader.text_or("absent", "y"), "y");
  EXPECT_FALSE(r.reader.optional_number("absent"));
  r.reader.reject_unknown();
  EXPECT_FALSE(r.reader.problem()) << to_text(*r.reader.problem());
}

/// What a reading must report: kind of problem, line, and field.
template <class Reading>
void expect_problem(std::string_view text, Reading reading, ProblemCode code, int line,
                    std::string_view field) {
  Read r(text);
  reading(r.reader);
  ASSERT_TRUE(r.reader.problem()) << text;
  EXPECT_EQ(r.reader.problem()->code, code) << to_text(*r.reader.problem());
  EXPECT_EQ(r.reader.problem()->where.line, line) << to_text(*r.reader.problem());
  EXPECT_EQ(r.reader.problem()->where.field, field);
}

TEST(TomlReader, PointsAtTheFieldThatIsWrong) {
  expect_problem(
      "\na = \"1\"", [](auto& r) { r.number("a"); }, ProblemCode::wrong_type, 2, "a");
  expect_problem(
      "\na = 1.5", [](auto& r) { r.integer("a"); }, ProblemCode::wrong_type, 2, "a");
  expect_problem(
      "\na = 0", [](auto& r) { r.number("a", {.above = 0.0}); }, ProblemCode::out_of_range, 2, "a");
  expect_problem(
      "\na = inf", [](auto& r) { r.number("a"); }, ProblemCode::out_of_range, 2, "a");
  expect_problem(
      "\na = nan", [](auto& r) { r.number_or("a", 1.0, {.at_most = 3.0}); }, ProblemCode::out_of_range, 2,
      "a");
  expect_problem(
      "b = 1", [](auto& r) { r.number("a"); }, ProblemCode::missing_field, 1, "a");
  expect_problem(
      "\na = \"\"", [](auto& r) { r.text("a"); }, ProblemCode::empty, 2, "a");
  expect_problem(
      "\na = \"x\"",
      [](auto& r) {
        r.choice("a", {"y", "z"});
      },
      ProblemCode::out_of_range, 2, "a");
  expect_problem(
      "a = [\n1,\n\"x\"]", [](auto& r) { r.numbers("a"); }, ProblemCode::wrong_type, 3, "a[1]");
  expect_problem(
      "a = [1]", [](auto& r) { r.numbers("a", 12); }, ProblemCode::out_of_range, 1, "a");
  expect_problem(
      "\na = \"2026-02-30\"", [](auto& r) { r.date("a"); }, ProblemCode::out_of_range, 2, "a");
  expect_problem(
      "a = 1", [](auto& r) { r.tables("a"); }, ProblemCode::wrong_type, 1, "a");
  expect_problem(
      "a = 1\nbb = 2",
      [](auto& r) {
        r.number("a");
        r.reject_unknown();
      },
      ProblemCode::unknown_field, 2, "bb");
}

TEST(TomlReader, KeepsTheFirstProblemAndSuggestsNames) {
  Read r("a = \"x\"\nb = \"y\"\nlenght = 3\n");
  r.reader.number("a");
  r.reader.number("b");
  EXPECT_EQ(r.reader.problem()->where.field, "a");
  Read unknown("prioritty = 3\n");
  unknown.reader.number_or("priority", 1.0);
  unknown.reader.reject_unknown();
  EXPECT_EQ(unknown.reader.problem()->remedy, "Did you mean priority?");
  Read missing("length_ft = 3\n");
  missing.reader.number("length_m");
  EXPECT_NE(missing.reader.problem()->remedy.find("length_ft"), std::string::npos)
      << missing.reader.problem()->remedy;
}

TEST(TomlReader, NamesNestedFieldsByTheirPath) {
  Read r("[[beds]]\nx = 1\n[[beds]]\nx = -1\n[site]\ny = true\n");
  for (TomlReader& bed : r.reader.tables("beds")) {
    bed.number("x", {.at_least = 0.0});
    r.reader.adopt(bed);
  }
  EXPECT_EQ(r.reader.problem()->where.field, "beds[1].x");
  EXPECT_EQ(r.reader.problem()->where.line, 4);
  auto site = r.reader.table("site");
  site->number("y");
  EXPECT_EQ(site->problem()->where.field, "site.y");
}

}  // namespace
}  // namespace sowtide::base
