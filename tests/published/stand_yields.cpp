#include "stand_yields.hpp"

#include <fstream>
#include <sstream>

#include "base/csv.hpp"
#include "climate/places.hpp"

namespace sowtide::stand::yields {
namespace {

constexpr std::size_t kMembers = 8;
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
  std::ifstream file(std::string(SOWTIDE_SOURCE_DIR) + "/tests/published/garden_yields.csv");
  std::stringstream text;
  text << file.rdbuf();
  const auto table = base::parse_csv(text.str(), "garden_yields.csv");
  std::vector<Published> list;
  if (!table) return list;
  for (const auto& row : table->rows) {
    list.push_back({row.cells[0], row.cells[1], row.cells[5], *base::parse_number(row.cells[2]),
                    *base::parse_number(row.cells[3]),
                    row.cells[4].empty() ? 0.0 : *base::parse_number(row.cells[4])});
  }
  return list;
}

}  // namespace sowtide::stand::yields
