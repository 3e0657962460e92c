// Text: CSV and its dialects, numbers, UTF-8, near names, problems in words.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <set>

#include "base/csv.hpp"
#include "base/nearest.hpp"
#include "base/hash.hpp"
#include "base/utf8.hpp"

namespace sowtide::base {
namespace {

using Cells = std::vector<std::string>;

TEST(Csv, ReadsTheExamplesOfRfc4180) {
  // RFC 4180, section 2, points 5 to 7.
  const auto table = parse_csv(
      "a,b,c\r\n\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\n"
      "\"aaa\",\"b\"\"bb\",\"ccc\"",
      "rfc.csv");
  ASSERT_TRUE(table) << to_text(table.error());
  ASSERT_EQ(table->rows.size(), 4U);
  EXPECT_EQ(table->rows[0].cells, (Cells{"aaa", "bbb", "ccc"}));
  EXPECT_EQ(table->rows[1].cells, (Cells{"zzz", "yyy", "xxx"}));
  EXPECT_EQ(table->rows[2].cells, (Cells{"aaa", "b\r\nbb", "ccc"}));
  EXPECT_EQ(table->rows[3].cells, (Cells{"aaa", "b\"bb", "ccc"}));
  EXPECT_EQ(table->rows[3].line, 6) << "the row before holds a line break";
}

TEST(Csv, ReadsTheDialectsPeopleHave) {
  const auto semicolons = parse_csv(
      "\xEF\xBB\xBF"
      "Datum;Regen, mm\n2026-01-01;1,5\n\n2026-01-02;0\n",
      "de.csv");
  ASSERT_TRUE(semicolons);
  EXPECT_EQ(semicolons->separator, ';');
  EXPECT_EQ(semicolons->header, (Cells{"Datum", "Regen, mm"}));
  EXPECT_EQ(semicolons->rows.size(), 2U);
  EXPECT_EQ(semicolons->rows[1].line, 4);
  EXPECT_EQ(parse_csv("a\tb\n1\t2\n", "t")->rows[0].cells, (Cells{"1", "2"}));
  EXPECT_EQ(parse_csv("a,b\r1,2\r", "mac")->rows[0].cells, (Cells{"1", "2"})) << "line ends of old Macs";
  EXPECT_EQ(parse_csv("\"a;b;c\",d\n1,2\n", "q")->separator, ',') << "separators inside quotes do not count";
  EXPECT_EQ(parse_csv("only\n1\n2\n", "one")->rows.size(), 2U);
  EXPECT_EQ(parse_csv("a,b\n1,\n", "e")->rows[0].cells, (Cells{"1", ""}));
}

TEST(Csv, FindsColumnsWhateverTheirCase) {
  const auto table = parse_csv(" Date ,TMAX\n1,2\n", "c");
  EXPECT_EQ(table->column("date"), 0U);
  EXPECT_EQ(table->column("tmax"), 1U);
  EXPECT_FALSE(table->column("tmin"));
}

TEST(Csv, NamesTheLineOfWhatIsWrong) {
  const auto refuse = [](std::string_view text, ProblemCode code, int line) {
    const auto table = parse_csv(text, "bad.csv");
    ASSERT_FALSE(table) << text;
    EXPECT_EQ(table.error().code, code) << to_text(table.error());
    EXPECT_EQ(table.error().where.line, line) << to_text(table.error());
    EXPECT_EQ(table.error().where.file, "bad.csv");
  };
  refuse("", ProblemCode::empty, 0);
  refuse(" \n\n\t\n", ProblemCode::empty, 0);
  refuse("a,b\n1,2\n3\n", ProblemCode::syntax, 3);
  refuse("a,b\n1,2,3\n", ProblemCode::syntax, 2);
  refuse("a,b\n1,\"2\n3,4\n", ProblemCode::syntax, 2);
  refuse("a,b\n1,\"2\"x\n", ProblemCode::syntax, 2);
  refuse(std::string_view("a,b\n1,\0\n", 9), ProblemCode::syntax, 2);
  EXPECT_EQ(parse_csv("a,b\n1,2\n", "x", {.max_bytes = 4}).error().code, ProblemCode::too_large);
  EXPECT_TRUE(parse_csv("a,b\n1\n", "x", {.allow_ragged_rows = true}));
}

RC_GTEST_PROP(CsvLaws, CellsReadBackAsTheyWere, (std::vector<std::vector<std::string>> rows)) {
  std::string text = "first,second,third\n";
  std::vector<Cells> expected;
  for (auto& row : rows) {
    row.resize(3);
    for (std::string& cell : row) std::erase(cell, '\0');
    text += csv_cell(row[0]) + "," + csv_cell(row[1]) + "," + csv_cell(row[2]) + "\n";
    expected.push_back(row);
  }
  const auto table = parse_csv(text, "laws.csv");
  RC_ASSERT(table.has_value());
  RC_ASSERT(table->rows.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) RC_ASSERT(table->rows[i].cells == expected[i]);
}

TEST(Numbers, AreReadAsPeopleWriteThemAndNothingElse) {
  EXPECT_EQ(parse_number("12.5"), 12.5);
  EXPECT_EQ(parse_number(" -3 "), -3.0);
  EXPECT_EQ(parse_number("+4"), 4.0);
  EXPECT_EQ(parse_number("1e3"), 1000.0);
  EXPECT_EQ(parse_number("12,5", true), 12.5);
  EXPECT_EQ(parse_number("12.5", true), 12.5);
  for (const char* text : {"", " ", "12,5", "1,234.5", "12 mm", "0x10", "nan", "inf", "-inf", "1e999", "--1",
                           "+-1", "1.2.3", "1_000", "."}) {
    EXPECT_FALSE(parse_number(text)) << text;
  }
  EXPECT_FALSE(parse_number("1,234,567", true));
  EXPECT_FALSE(parse_number("1.234,5", true)) << "either sign could be the decimal one";
}

TEST(Numbers, AreWrittenInTheShortestText) {
  EXPECT_EQ(number_text(47.4), "47.4");
  EXPECT_EQ(number_text(0.1), "0.1");
  EXPECT_EQ(number_text(100000.0), "100000");
  EXPECT_EQ(number_text(0.00012), "0.00012");
  EXPECT_EQ(number_text(1e300), "1e+300");
  EXPECT_EQ(number_text(0.0), "0");
  EXPECT_EQ(number_text(-2.50), "-2.5");
}

RC_GTEST_PROP(NumberLaws, EveryDoubleReadsBackAsItself, (double value)) {
  RC_PRE(std::isfinite(value));
  RC_ASSERT(parse_number(number_text(value)) == value);
}

TEST(Utf8, APrefixTearsNoCharacterApart) {
  EXPECT_EQ(utf8_prefix("\u00fcber", 0), "");
  EXPECT_EQ(utf8_prefix("\u00fcber", 1), "");
  EXPECT_EQ(utf8_prefix("\u00fcber", 2), "\u00fc");
  EXPECT_EQ(utf8_prefix("\u00fcber", 3), "\u00fcb");
  EXPECT_EQ(utf8_prefix("ab\U0001F331", 5), "ab");
  EXPECT_EQ(utf8_prefix("ab\U0001F331", 6), "ab\U0001F331");
  EXPECT_EQ(utf8_prefix("short", 60), "short");
  EXPECT_EQ(utf8_prefix(std::string(9, '\x80'), 6).size(), 6U) << "no UTF-8: cut as it comes";
}

TEST(Fnv1a, GivesThePublishedHashes) {
  // Of Noll's test suite for 64 bits.
  EXPECT_EQ(fnv1a(""), 0xcbf29ce484222325U);
  EXPECT_EQ(fnv1a("a"), 0xaf63dc4c8601ec8cU);
  EXPECT_EQ(fnv1a("foobar"), 0x85944171f73967e8U);
  EXPECT_EQ(fnv1a("bar", fnv1a("foo")), fnv1a("foobar"));
}

TEST(Utf8, AcceptsAndRefusesAsTheUnicodeStandardSays) {
  // The Unicode Standard, version 15, table 3-7 and the ill-formed sequences of section 3.9.
  for (const char* good : {"", "a", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                           "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF", "M\xC3\xB6hren"}) {
    EXPECT_FALSE(first_bad_utf8(good)) << good;
  }
  for (const char* bad : {"\x80", "\xC0\xAF", "\xC1\xBF", "\xC2", "\xC2\x20", "\xE0\x9F\xBF", "\xED\xA0\x80",
                          "\xE2\x82", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF"}) {
    EXPECT_EQ(first_bad_utf8(bad), 0U) << bad;
  }
  EXPECT_EQ(first_bad_utf8("ab\xFF"), 2U);
  EXPECT_EQ(decode_utf8("\xF0\x9F\x8C\xB1", 0)->code, U'\U0001F331');
}

TEST(NearestNames, PutTheLikelyOneFirst) {
  const std::vector<std::string> crops{"beet",      "bush-bean", "carrot",  "chard",
                                       "courgette", "kale",      "lettuce", "pea"};
  EXPECT_EQ(nearest_names("bete", crops).front(), "beet");
  EXPECT_EQ(nearest_names("courgete", crops).front(), "courgette");
  EXPECT_EQ(nearest_names("bean", crops).front(), "bush-bean");
  EXPECT_EQ(did_you_mean("letuce", {"lettuce"}), "Did you mean lettuce?");
  EXPECT_EQ(did_you_mean("zzz", {"pea"}), "");
  EXPECT_EQ(did_you_mean("melbourne", {"gisborne", "milwaukee"}), "") << "other words, not slips";
  EXPECT_LE(nearest_names("a", crops, 2).size(), 2U);
}

TEST(EditDistance, IsThatOfTheTextbook) {
  // R. A. Wagner and M. J. Fischer 1974, J. ACM 21:168 (kitten and sitting: the usual example, from memory);
  // F. J. Damerau 1964, Commun. ACM 7:171 counts a swap of neighbours as one edit.
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3U);
  EXPECT_EQ(edit_distance("", "abc"), 3U);
  EXPECT_EQ(edit_distance("ab", "ba"), 1U);
}

RC_GTEST_PROP(EditDistanceLaws, IsSymmetricAndZeroOnlyForTheSame, (std::string a, std::string b)) {
  RC_ASSERT(edit_distance(a, b) == edit_distance(b, a));
  RC_ASSERT((edit_distance(a, b) == 0) == (a == b));
  RC_ASSERT(edit_distance(a, b) <= std::max(a.size(), b.size()));
}

TEST(Problem, SaysWhatWhereAndWhatToDo) {
  const Problem problem{ProblemCode::out_of_range,
                        "is -1, must be above 0",
                        {"garden.toml", 12, 3, "beds[2].length_m"},
                        "Give the length in metres"};
  EXPECT_EQ(to_text(problem),
            "garden.toml:12:3: beds[2].length_m: is -1, must be above 0. Give the length in metres");
  EXPECT_EQ(to_text({ProblemCode::usage, "no such verb", {}, ""}), "no such verb");
}

TEST(Problem, EveryCodeHasAWordOfItsOwn) {
  std::set<std::string_view> words;
  for (int code = 0; code <= static_cast<int>(ProblemCode::internal); ++code) {
    words.insert(problem_code_text(static_cast<ProblemCode>(code)));
  }
  EXPECT_EQ(words.size(), static_cast<std::size_t>(ProblemCode::internal) + 1);
}

}  // namespace
}  // namespace sowtide::base
