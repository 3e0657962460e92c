// Published yields and the places they are looked at in.
#pragma once

#include <array>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "stand/garden_yield.hpp"

namespace sowtide::stand::yields {

/// What the figures of tests/published/garden_yields.csv span for one crop: from the lowest to the highest,
/// nothing widened.
struct Published {
  std::string crop;
  std::string place;  ///< of a climate like that of the sources
  double low_kg_m2 = 0.0;
  double high_kg_m2 = 0.0;  ///< a yield a metre of row counts at its row spacings, where they are printed
  double row_low_kg_m = 0.0;
  double row_high_kg_m = 0.0;         ///< of the figures printed a length of row; 0 where there is none
  std::set<std::string> row_sources;  ///< who printed those
  std::size_t figures = 0;
};

/// Where the yields a length of row are looked at: most are from Kansas, between North Platte and Norman, so
/// crops that are looked at in Norman otherwise stay there and all others go to North Platte.
[[nodiscard]] const char* row_place(const Published& published);

/// How the plants of a crop stand in the rows of a garden: the middle of what the planting charts and the
/// sources of the yields print (tests/published/row_spacings.csv). The crop must be there.
[[nodiscard]] RowPlanting charted_row(const std::string& crop);

/// One range a crop, in the order of the file.
[[nodiscard]] std::vector<Published> published_yields();

/// Places whose weather nothing was set on.
inline constexpr std::array<const char*, 2> kHeldOutPlaces{"Rochester NY", "Newark University Farm DE"};

/// True when the yield lies inside the range.
[[nodiscard]] bool inside(const Published& published, double kg_m2);

/// Weather of a built-in place for two years.
struct Place {
  explicit Place(const std::string& name);
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  climate::WeatherEnsemble ensemble;
  std::shared_ptr<const SeasonWeather> season;
};

}  // namespace sowtide::stand::yields
