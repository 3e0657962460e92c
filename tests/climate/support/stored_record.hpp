// The daily records kept under tests/published/records (sources in its README).
#pragma once

#include <cstdlib>
#include <limits>
#include <stdexcept>
#include <string>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "climate/record.hpp"

namespace sowtide::climate::test {

inline WeatherRecord stored_record(const std::string& name, const Site& site) {
  const std::string path = std::string(SOWTIDE_SOURCE_DIR) + "/tests/published/records/" + name + ".csv.gz";
  const auto text = base::read_file(path);
  if (!text) throw std::runtime_error(base::to_text(text.error()));
  const auto table = base::parse_csv(*text, path);
  if (!table) throw std::runtime_error(base::to_text(table.error()));
  const auto date_of_row = [](const base::CsvRow& row) { return base::parse_iso_date(row.cells[0]).value(); };
  WeatherRecord record;
  record.site = site;
  record.resize(date_of_row(table->rows.front()), date_of_row(table->rows.back()));
  for (const base::CsvRow& row : table->rows) {
    const base::Date date = date_of_row(row);
    const Variable columns[] = {Variable::tmin, Variable::tmax, Variable::rain, Variable::radiation};
    for (std::size_t c = 0; c + 1 < row.cells.size(); ++c) {
      const auto value = base::parse_number(row.cells[c + 1]);
      if (value) record.set(columns[c], date, *value, ValueOrigin::observed);
    }
  }
  return record;
}

inline WeatherRecord milwaukee() {
  return stored_record("milwaukee_1991_2020", {"Milwaukee", 42.955, -87.904, 204.0});
}
inline WeatherRecord cork() {
  return stored_record("cork_1991_2020", {"Cork", 51.847, -8.486, 155.0});
}
inline WeatherRecord maricopa() {
  return stored_record("maricopa_2003_2020", {"Maricopa", 33.069, -111.97, 361.0});
}
inline WeatherRecord hoogeveen() {
  return stored_record("hoogeveen_1991_2025", {"Hoogeveen", 52.75, 6.52, 15.8});
}

}  // namespace sowtide::climate::test
