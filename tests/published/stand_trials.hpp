// What the tests of the stand against published trials share: tables of the project, crops, weather and a plan.
#pragma once

#include <string>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "climate/places.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand::trials {

/// A table kept in the project, by its path from the top; it must be there and readable.
inline base::CsvTable table_of(const std::string& path) {
  return base::parse_csv(base::read_file(std::string(SOWTIDE_SOURCE_DIR) + "/" + path).value(), path).value();
}

/// A crop of the library; it must be there.
inline const crop::Crop& crop_named(const std::string& id) {
  return **crop::built_in_library().find(id);
}

/// Made weather of a built-in place from 1 January 2026 on.
inline climate::WeatherEnsemble ensemble_of(const char* place, std::size_t members) {
  climate::EnsembleOptions options;
  options.first = base::date_of(2026, 1, 1);
  options.member_count = members;
  return climate::ensemble_from_normals(*climate::find_place(place), options);
}

/// 64 single plants on the square, sown in place.
inline StandPlan plan_of(const std::string& crop_id, base::Date sow, double spacing_mm) {
  StandPlan plan;
  plan.id = "trial";
  plan.crop = crop_id;
  plan.sow = sow;
  plan.clumps = 64;
  plan.spacing_mm = spacing_mm;
  return plan;
}

}  // namespace sowtide::stand::trials
