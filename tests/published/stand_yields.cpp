#include "stand_yields.hpp"

#include <algorithm>

#include "base/csv.hpp"
#include "climate/places.hpp"
#include "stand_trials.hpp"

namespace sowtide::stand::yields {
namespace {

constexpr std::size_t kMembers = 8;

void widen(double low, double high, double& range_low, double& range_high) {
  range_low = range_high > 0.0 ? std::min(range_low, low) : low;
  range_high = std::max(range_high, high);
}

void add_figure(const base::CsvRow& row, Published& range) {
  const double low = *base::parse_number(row.cells[2]), high = *base::parse_number(row.cells[3]);
  ++range.figures;
  if (row.cells[4] == "kg/m2") {
    widen(low, high, range.low_kg_m2, range.high_kg_m2);
    return;
  }
  widen(low, high, range.row_low_kg_m, range.row_high_kg_m);
  range.row_sources.insert(row.cells[8]);
  if (row.cells[5].empty()) return;  // no row spacing printed: nothing is said of the area
  const double close_m = *base::parse_number(row.cells[5]) * 1e-3;
  const double far_m = *base::parse_number(row.cells[6]) * 1e-3;
  widen(low / far_m, high / close_m, range.low_kg_m2, range.high_kg_m2);
}

/// From the lowest to the highest that the rows of a crop print in two neighbouring cells, and the middle of
/// it.
double middle_mm(const base::CsvTable& table, const std::string& crop, std::size_t cell) {
  double low = 0.0, high = 0.0;
  for (const auto& row : table.rows) {
    if (row.cells[0] == crop && !row.cells.at(cell).empty())
      widen(*base::parse_number(row.cells[cell]), *base::parse_number(row.cells.at(cell + 1)), low, high);
  }
  return 0.5 * (low + high);
}

}  // namespace

Place::Place(const std::string& name) {
  climate::EnsembleOptions options;
  options.first = base::date_of(2026, 1, 1);
  options.day_count = 730;
  options.member_count = kMembers;
  ensemble = climate::ensemble_from_normals(*climate::find_place(name), options);
  season = std::make_shared<const SeasonWeather>(ensemble);
}

std::vector<Published> published_yields() {
  const auto table = trials::table_of("tests/published/garden_yields.csv");
  std::vector<Published> list;
  for (const auto& row : table.rows) {
    if (list.empty() || list.back().crop != row.cells[0])
      list.push_back({.crop = row.cells[0], .place = row.cells[1]});
    add_figure(row, list.back());
  }
  return list;
}

const char* row_place(const Published& published) {
  return published.place == "Norman 3SSE OK" ? "Norman 3SSE OK" : "North Platte NE";
}

RowPlanting charted_row(const std::string& crop) {
  const auto table = trials::table_of("tests/published/row_spacings.csv");
  return {.in_row_mm = middle_mm(table, crop, 1), .row_mm = middle_mm(table, crop, 3)};
}

// The ranges are printed with two decimals, here and in proof/stand.csv.
bool inside(const Published& published, double kg_m2) {
  constexpr double kHalfDigit = 0.005;
  return kg_m2 >= published.low_kg_m2 - kHalfDigit && kg_m2 <= published.high_kg_m2 + kHalfDigit;
}

}  // namespace sowtide::stand::yields
