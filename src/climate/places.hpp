// Places of the world with monthly normals, built in: what a garden without a weather record starts from.
//
// The table is data/places.csv (106 stations; period and source beside each). Counts of wet days at the 0.01
// in of the United States are brought to the 1 mm of `MonthlyNormals` by 0.77 (mean of 12 daily records: 0.69
// to 0.83 by month and place); counts whose threshold the source does not tell are left out.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// One row of the table. `normals.source` holds period and source; `site.name` the place with its region.
struct BuiltInPlace {
  PlaceNormals place;
  std::string country;
  bool elevation_from_memory = false;  ///< the source gives none
};

/// All of them, by country and name.
[[nodiscard]] const std::vector<BuiltInPlace>& built_in_places();

/// The place of that name, in any case: "Olympia WA", "Olympia, WA", "olympia", "Córdoba, Spain" as "Cordoba,
/// Spain". ambiguous when several begin so; not_found names the ones most like it.
[[nodiscard]] base::Result<PlaceNormals> find_place(std::string_view name);

/// Free air cools by this much with height: ISO 2533:1975 (ICAO standard atmosphere), 6.5 K/km.
inline constexpr double kStandardLapseKPerKm = 6.5;

/// Nearer than the first a station's height and climate stand for a spot; from the second on coasts and hills
/// make other climates; from the third on it is another one (choices of ours).
inline constexpr double kSameClimateKm = 25.0;
inline constexpr double kFarClimateKm = 100.0;
inline constexpr double kOtherClimateKm = 500.0;

/// Normals for a spot, taken from the station nearest to it.
struct NearestPlace {
  PlaceNormals place;   ///< at the spot: its coordinates, temperatures moved to its elevation
  std::string station;  ///< "Olympia WA, United States"
  double distance_km = 0.0;
  double elevation_difference_m = 0.0;  ///< spot less station; 0 where the spot's elevation is not given
  double temperature_shift_k = 0.0;     ///< added to the station's temperatures
  std::string warning;                  ///< how far off that is, in plain words
};

/// Nearest by distance over the globe plus 0.1 km for each metre of height between (100 m of height change a
/// climate about as much as 10 km of way, a choice of ours). Without an elevation, heights are left out.
[[nodiscard]] NearestPlace nearest_place(double latitude_deg, double longitude_deg,
                                         double elevation_m = std::numeric_limits<double>::quiet_NaN());

/// The built-in station from which a garden has its normals.
struct NormalsStation {
  std::string name;  ///< "Olympia WA, United States"
  double distance_km = 0.0;
  double height_difference_m = 0.0;  ///< station less garden
};

/// Known again by their source and rain, which lending leaves as it is; absent for normals of the grower's
/// own.
[[nodiscard]] std::optional<NormalsStation> station_of_normals(const MonthlyNormals& normals,
                                                               const Site& garden);

/// Distance over the sphere of 6371 km, by the haversine formula.
[[nodiscard]] double distance_km(double latitude_a_deg, double longitude_a_deg, double latitude_b_deg,
                                 double longitude_b_deg);

}  // namespace sowtide::climate
