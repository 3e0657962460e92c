// Weeks from sowing to fit for setting out against printed lists.
#include <gtest/gtest.h>

#include <algorithm>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "crop/crop.hpp"
#include "crop/figures.hpp"

namespace sowtide::crop {
namespace {

/// Where a list gives no temperature: that of a house.
constexpr double kHouseC = 18.0;

/// transplant_weeks.csv: extension lists (each row names its own). The rows of the University of Delaware
/// state the raising temperatures, and the library's figures of those crops were set on them, so for them
/// this checks that the thermal times carry the weeks; the other rows are lists without temperatures, checked
/// at 18 °C. The printed ranges are whole weeks: half a week to either side is rounding.
TEST(TransplantWeeks, LieInThePrintedRangeForMostAndWithinAWeekForAll) {
  const std::string path = std::string(SOWTIDE_SOURCE_DIR) + "/tests/published/transplant_weeks.csv";
  const auto text = base::read_file(path);
  ASSERT_TRUE(text);
  const auto table = base::parse_csv(*text, path);
  ASSERT_TRUE(table);
  int inside = 0;
  int rows = 0;
  for (const base::CsvRow& row : table->rows) {
    const double low = *base::parse_number(row.cells[1]);
    const double high = *base::parse_number(row.cells[2]);
    const auto mean_c = base::parse_number(row.cells[3]);
    const auto answer = crop_figure(
        "transplant-ready", {{"crop", row.cells[0]}, {"temp_c", std::to_string(mean_c.value_or(kHouseC))}},
        built_in_library());
    ASSERT_TRUE(answer) << row.cells[0];
    const double weeks = std::get<double>(answer->result.front().value) / 7.0;
    ++rows;
    inside += weeks >= low - 0.5 && weeks <= high + 0.5 ? 1 : 0;
    EXPECT_GE(weeks, low - 1.0) << row.cells[0];
    EXPECT_LE(weeks, high + 1.0) << row.cells[0];
  }
  EXPECT_EQ(rows, 24);
  EXPECT_GE(inside, 21);
  RecordProperty("inside", inside);
}

}  // namespace
}  // namespace sowtide::crop
