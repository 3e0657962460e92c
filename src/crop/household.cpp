#include "crop/household.hpp"

#include <algorithm>
#include <cassert>

#include "base/csv.hpp"
#include "crop/detail/household_data.hpp"

namespace sowtide::crop {
namespace {

constexpr double kWeeksPerYear = 365.25 / 7.0;
constexpr double kGramsPerKilogram = 1000.0;

/// The table is ours and checked by a test, so a cell that is not there or not a number is a defect.
std::vector<HouseholdAmount> read_amounts() {
  const base::CsvTable table = base::parse_csv(detail::kHouseholdCsv, "data/household.csv").value();
  const auto text = [&table](const base::CsvRow& row, std::string_view column) {
    const auto index = table.column(column);
    assert(index);
    return row.cells[*index];
  };
  std::vector<HouseholdAmount> amounts;
  for (const base::CsvRow& row : table.rows) {
    amounts.push_back({text(row, "crop"), base::parse_number(text(row, "kg_per_person_year")).value(),
                       text(row, "source"), text(row, "note")});
  }
  std::stable_sort(amounts.begin(), amounts.end(), [](const HouseholdAmount& a, const HouseholdAmount& b) {
    return a.kg_per_person_year > b.kg_per_person_year;
  });
  return amounts;
}

}  // namespace

double HouseholdAmount::grams_per_person_week() const {
  return kg_per_person_year * kGramsPerKilogram / kWeeksPerYear;
}

const std::vector<HouseholdAmount>& household_amounts() {
  static const std::vector<HouseholdAmount> kAmounts = read_amounts();
  return kAmounts;
}

const HouseholdAmount* household_amount(std::string_view crop) {
  const auto& all = household_amounts();
  const auto found = std::find_if(all.begin(), all.end(), [crop](const HouseholdAmount& each) { return each.crop == crop; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace sowtide::crop
