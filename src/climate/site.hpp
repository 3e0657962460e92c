// A place on earth, and the twelve monthly normals that stand for its climate when there is no record.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "base/problem.hpp"

namespace sowtide::climate {

/// Where a garden or a station lies. Ranges checked by the readers: latitude -90..90, longitude -180..180,
/// elevation -430..6000 m.
struct Site {
  std::string name;
  double latitude_deg = 0.0;   ///< north positive
  double longitude_deg = 0.0;  ///< east positive
  double elevation_m = 0.0;
  bool operator==(const Site&) const = default;
};

/// Monthly climate normals, January first.
struct MonthlyNormals {
  std::array<double, 12> tmax_c{};
  std::array<double, 12> tmin_c{};
  std::array<double, 12> precip_mm{};                     ///< monthly totals
  std::optional<std::array<double, 12>> wet_days;         ///< days with at least 1 mm
  std::string source;                                     ///< where the normals come from; may be empty
};

/// The warming a place may be reckoned with, °C: scenarios of a century stay inside
/// (IPCC 2021, AR6 WG1 SPM, table SPM.1: up to 5.7 °C by 2100; from memory).
/// A colder climate may be asked for too.
inline constexpr double kLeastWarming_c = -5.0;
inline constexpr double kMostWarming_c = 8.0;

/// A site with its normals: what a PLACE file holds.
struct PlaceNormals {
  Site site;
  MonthlyNormals normals;
  double warming_c = 0.0;  ///< added to every temperature, by choice; kLeastWarming_c..kMostWarming_c
};

/// Reads a PLACE file (TOML: [site] name, lat, lon, elevation_m and, optionally, warming_c; [normals] tmax_c, tmin_c, precip_mm and,
/// optionally, wet_days; twelve numbers each). Refuses tmin above tmax, negative rain, more wet days than days.
[[nodiscard]] base::Result<PlaceNormals> read_place(std::string_view text, const std::string& file);

}  // namespace sowtide::climate
