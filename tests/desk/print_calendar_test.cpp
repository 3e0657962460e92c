// Form of the calendar against RFC 5545 itself; an independent reader (python3-icalendar) reads it in
// tests/e2e/print.test.mjs.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "desk/calendar.hpp"
#include "desk/print/moments.hpp"
#include "desk/print_garden.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;
using ::testing::HasSubstr;

const Season& season() {
  static const Season made = print_season_of(print_garden(1, 4), {}, date_of(2026, 4, 1));
  return made;
}

std::vector<std::string> physical_lines(const std::string& text) {
  std::vector<std::string> lines;
  std::size_t from = 0;
  for (std::size_t end = text.find("\r\n"); end != std::string::npos; end = text.find("\r\n", from)) {
    lines.push_back(text.substr(from, end - from));
    from = end + 2;
  }
  EXPECT_EQ(from, text.size()) << "the last line ends in CR LF";
  return lines;
}

std::vector<std::string> unfolded(const std::string& text) {
  std::vector<std::string> lines;
  for (const std::string& line : physical_lines(text)) {
    if (line.starts_with(' ')) {
      lines.back() += line.substr(1);
    } else {
      lines.push_back(line);
    }
  }
  return lines;
}

TEST(Calendar, LinesEndInCrLfAndHoldAtMost75Octets) {
  // RFC 5545, 3.1: "Lines of text SHOULD NOT be longer than 75 octets, excluding the line break."
  const auto ics = calendar_ics(
      season(), {.language = "de", .address = "http://a-rather-long-name-of-a-machine.example:8420"});
  ASSERT_TRUE(ics);
  for (const std::string& line : physical_lines(*ics)) {
    EXPECT_LE(line.size(), 75U) << line;
    EXPECT_EQ(line.find_first_of("\r\n"), std::string::npos);
    // No character is torn: a line never begins inside one.
    const auto first = static_cast<unsigned char>(line[line.starts_with(' ') && line.size() > 1 ? 1 : 0]);
    EXPECT_NE(first & 0xC0U, 0x80U);
  }
}

TEST(Calendar, TextIsEscaped) {
  // RFC 5545, 3.3.11: backslash, semicolon, comma and line break.
  book::GardenDescription garden = print_garden(1, 1);
  garden.name = "A; b, c\\d";
  const auto ics = calendar_ics(print_season_of(garden, {}, date_of(2026, 4, 1)), {});
  ASSERT_TRUE(ics);
  EXPECT_THAT(*ics, HasSubstr("NAME:A\\; b\\, c\\\\d: garden work\r\n"));
}

TEST(Calendar, EveryEntryHasItsOwnLastingName) {
  const auto names = [](const Season& of) {
    std::multiset<std::string> found;
    for (const std::string& line : unfolded(calendar_ics(of, {}).value())) {
      if (line.starts_with("UID:")) found.insert(line);
    }
    return found;
  };
  const std::multiset<std::string> before = names(season());
  EXPECT_EQ(std::set<std::string>(before.begin(), before.end()).size(), before.size());
  EXPECT_GE(before.size(), 12U);
  // A week later, a stand sown a little later: the same names, so that importing again moves the entries.
  book::GardenDescription moved = print_garden(1, 4);
  moved.stands[3].sow += base::Days{3};
  EXPECT_EQ(names(print_season_of(moved, {}, date_of(2026, 4, 1))), before);
}

TEST(Calendar, AnOverdueSowingIsToBeSownTodayAndAMissedOneIsNot) {
  book::GardenDescription garden = print_garden(1, 4);
  garden.stands[1].sow = date_of(2026, 4, 1);   // lettuce in the tray, three weeks and more ago
  garden.stands[2].sow = date_of(2026, 4, 20);  // beans, overdue by five days
  garden.stands[3].sow = date_of(2026, 5, 10);
  const auto ics = calendar_ics(print_season_of(garden, {}, date_of(2026, 4, 25)), {});
  ASSERT_TRUE(ics);
  std::vector<std::string> names;
  std::string day_of_sowing;
  bool of_beans = false;
  for (const std::string& line : unfolded(*ics)) {
    if (line.starts_with("UID:")) {
      names.push_back(line);
      of_beans = line.find("-s3-sow@") != std::string::npos;
    }
    if (of_beans && line.starts_with("DTSTART;VALUE=DATE:")) day_of_sowing = line.substr(19);
  }
  EXPECT_EQ(day_of_sowing, "20260425");
  EXPECT_TRUE(std::none_of(names.begin(), names.end(),
                           [](const std::string& name) { return name.find("-s2-") != std::string::npos; }));
}

TEST(Calendar, WorkOnSeedlingsIsAtTheirTray) {
  book::GardenDescription garden = print_garden(1, 4);
  const auto ics = calendar_ics(print_season_of(garden, {}, date_of(2026, 4, 1)), {});
  ASSERT_TRUE(ics);
  std::string kind;
  std::size_t at_tray = 0;
  for (const std::string& line : unfolded(*ics)) {
    if (line.starts_with("UID:"))
      kind = line.find("-s2-") == std::string::npos ? "" : line.substr(line.find("-s2-") + 4);
    if (!line.starts_with("LOCATION:") || kind.empty()) continue;
    const bool young = kind.starts_with("sow") || kind.starts_with("up") || kind.starts_with("harden");
    at_tray += young ? 1U : 0U;
    EXPECT_EQ(line.find("Shelf") != std::string::npos, young) << kind << ' ' << line;
  }
  EXPECT_EQ(at_tray, 3U);
}

TEST(Calendar, WhatIsPastOrDoneIsLeftOut) {
  book::Event sown;
  sown.id = "e1";
  sown.date = date_of(2026, 4, 1);
  sown.kind = book::EventKind::sown;
  sown.stand = "s1";
  const Season later = print_season_of(print_garden(1, 4), {sown}, date_of(2026, 4, 10));
  std::size_t entries = 0, of_sown = 0;
  for (const std::string& line : unfolded(calendar_ics(later, {}).value())) {
    if (line.starts_with("DTSTART")) {
      EXPECT_GE(line.substr(line.find(':') + 1), "20260410");
      ++entries;
    }
    EXPECT_EQ(line.find("-s1-sow@"), std::string::npos);
    of_sown += line.starts_with("UID:") && line.find("-s1-") != std::string::npos ? 1U : 0U;
  }
  EXPECT_GE(entries, 8U);
  EXPECT_GE(of_sown, 2U);  // it is still to come up and to be picked
}

// RFC 5545, 3.8.2.3: DUE is the day itself, and later than DTSTART where both are there.
TEST(Calendar, ToDosAreDueOnTheirLastGoodDay) {
  const std::string ics = calendar_ics(season(), {.as_todos = true}).value();
  EXPECT_EQ(ics.find("BEGIN:VEVENT"), std::string::npos);
  std::map<std::string, base::Date> last_good;
  for (std::size_t i = 0; i < season().state.stands.size(); ++i) {
    for (const Moment& moment : moments_ahead(season(), i))
      last_good[fmt::format("{}-{}", season().state.stands[i].plan.id, moment_word(moment.kind))] =
          std::max(moment.late, moment.middle);
  }
  std::string name, start;
  std::size_t todos = 0;
  for (const std::string& line : unfolded(ics)) {
    if (line == "BEGIN:VTODO") name = start = "";
    if (line.starts_with("UID:")) {
      const std::size_t begin = line.find('-') + 1;
      name = line.substr(begin, line.find('@') - begin);
    }
    if (line.starts_with("DTSTART;VALUE=DATE:")) start = line.substr(19);
    if (!line.starts_with("DUE;VALUE=DATE:")) continue;
    ASSERT_TRUE(last_good.contains(name)) << name;
    std::string day = base::to_iso(last_good.at(name));
    std::erase(day, '-');
    EXPECT_EQ(line.substr(15), day) << name;
    EXPECT_LT(start, day) << name;
    ++todos;
  }
  EXPECT_EQ(todos, last_good.size());
}

}  // namespace
}  // namespace sowtide::desk
