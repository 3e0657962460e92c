#include "climate/site.hpp"

#include "base/csv.hpp"
#include "base/date.hpp"
#include "base/toml.hpp"

namespace sowtide::climate {

using base::ProblemCode;
using base::TomlReader;

namespace {

// Ranges as stated for Site; monthly means inside the world's extremes (WMO Archive of Weather and Climate
// Extremes); the wettest month on record is 9300 mm (Cherrapunji, July 1861; WMO).
constexpr double kLowestElevationM = -430.0, kHighestElevationM = 6000.0;
constexpr double kLowestTemperatureC = -89.2, kHighestTemperatureC = 56.7;
constexpr double kWettestMonthMm = 9300.0;

std::array<double, 12> twelve(TomlReader& table, std::string_view key, const TomlReader::Range& range) {
  const std::vector<double> read = table.numbers(key, 12, range);
  std::array<double, 12> out{};
  for (std::size_t i = 0; i < read.size() && i < out.size(); ++i) out[i] = read[i];
  return out;
}

Site read_site(TomlReader& table) {
  Site site;
  site.name = table.text("name");
  site.latitude_deg = table.number("lat", {.at_least = -90.0, .at_most = 90.0});
  site.longitude_deg = table.number("lon", {.at_least = -180.0, .at_most = 180.0});
  site.elevation_m =
      table.number("elevation_m", {.at_least = kLowestElevationM, .at_most = kHighestElevationM});
  return site;
}

std::string month_text(std::size_t month) {
  static constexpr std::array kNames{"January", "February", "March",     "April",   "May",      "June",
                                     "July",    "August",   "September", "October", "November", "December"};
  return kNames.at(month);
}

void check_consistent(TomlReader& table, const MonthlyNormals& normals) {
  for (std::size_t m = 0; m < 12; ++m) {
    if (normals.tmin_c[m] > normals.tmax_c[m]) {
      table.report(ProblemCode::contradiction,
                   "tmin " + base::number_text(normals.tmin_c[m]) + " is above tmax " +
                       base::number_text(normals.tmax_c[m]) + " in " + month_text(m),
                   "tmin_c", "Correct one of the two.");
      return;
    }
    if (!normals.wet_days) continue;
    const double wet = (*normals.wet_days)[m];
    // 28.25 days: the mean February of the normals' years.
    const double days = m == 1 ? 28.25 : base::days_in_month(2001, static_cast<int>(m) + 1);
    if (wet > days) {
      table.report(
          ProblemCode::out_of_range,
          base::number_text(wet) + " wet days in " + month_text(m) + ", which has " + base::number_text(days),
          "wet_days", "Give the mean number of days with at least 1 mm.");
      return;
    }
    if (wet > normals.precip_mm[m]) {
      table.report(ProblemCode::contradiction,
                   base::number_text(wet) + " wet days of at least 1 mm cannot add up to " +
                       base::number_text(normals.precip_mm[m]) + " mm in " + month_text(m),
                   "wet_days", "Check the unit of precip_mm (millimetres a month) and the wet days.");
      return;
    }
  }
}

MonthlyNormals read_normals(TomlReader& table) {
  MonthlyNormals normals;
  const TomlReader::Range temperature{.at_least = kLowestTemperatureC, .at_most = kHighestTemperatureC};
  normals.tmax_c = twelve(table, "tmax_c", temperature);
  normals.tmin_c = twelve(table, "tmin_c", temperature);
  normals.precip_mm = twelve(table, "precip_mm", {.at_least = 0.0, .at_most = kWettestMonthMm});
  if (table.has("wet_days")) normals.wet_days = twelve(table, "wet_days", {.at_least = 0.0, .at_most = 31.0});
  normals.source = table.text_or("source", "");
  table.reject_unknown();
  if (!table.problem()) check_consistent(table, normals);
  return normals;
}

}  // namespace

base::Result<PlaceNormals> read_place(std::string_view text, const std::string& file) {
  const auto document = base::parse_toml(text, file);
  if (!document) return tl::unexpected(document.error());
  TomlReader top(*document, file, "");
  PlaceNormals place;
  for (const std::string_view name : {"site", "normals"}) {
    auto table = top.table(name);
    if (!table) {
      if (top.problem()) break;
      top.report(ProblemCode::missing_field, "has no [" + std::string(name) + "] table", name,
                 name == "site" ? "Add [site] with name, lat, lon and elevation_m."
                                : "Add [normals] with tmax_c, tmin_c and precip_mm, twelve numbers each.");
      break;
    }
    if (name == "site") {
      place.site = read_site(*table);
      place.warming_c = table->number_or("warming_c", 0.0, {.at_least = kLeastWarming_c, .at_most = kMostWarming_c});
      table->reject_unknown();
    } else {
      place.normals = read_normals(*table);
    }
    top.adopt(*table);
  }
  top.reject_unknown();
  if (top.problem()) return tl::unexpected(*top.problem());
  return place;
}

}  // namespace sowtide::climate
