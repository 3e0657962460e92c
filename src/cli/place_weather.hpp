// The weather of whatever a person names as a place: a garden, a description, a station of the built-in
// table, coordinates.
#pragma once

#include <optional>
#include <string>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "cli/verbs.hpp"
#include "climate/ensemble.hpp"
#include "climate/site.hpp"

namespace sowtide::cli {

/// Days that the sowing windows of a year look at: a sowing of December is followed to its end.
inline constexpr std::size_t kWindowDays = 730;

/// The normals of a built-in place by its name, or of the one nearest to "LAT,LON" or "LAT,LON,ELEVATION_M"; how far
/// off that lies goes to stderr.
[[nodiscard]] base::Result<climate::PlaceNormals> place_named(const std::string& text, Output& output);

struct NamedWeather {
  std::string place;
  climate::WeatherEnsemble weather;
  std::string units = "metric";  ///< as the garden keeps them
};

/// A PLACE is a garden file, a TOML file, coordinates, or the name of a built-in place. `first` is the
/// ensemble's first day; `warming_c` is added to every temperature, in place of what a garden or a PLACE file states. How far off a nearest station lies goes to stderr.
[[nodiscard]] base::Result<NamedWeather> weather_of(const std::string& place, base::Date first,
                                                    std::optional<double> warming_c, Output& output);

}  // namespace sowtide::cli
