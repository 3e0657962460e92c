// Published yields and the places they are looked at in.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "stand/garden_yield.hpp"

namespace sowtide::stand::yields {

/// A published range, from tests/published/garden_yields.csv.
struct Published {
  std::string crop, place, source;
  double low_kg_m2 = 0.0, high_kg_m2 = 0.0;
  double row_kg_m = 0.0;  ///< 0 where no row yield is published
};

[[nodiscard]] std::vector<Published> published_yields();

/// Weather of a built-in place for two years.
struct Place {
  explicit Place(const std::string& name);
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  climate::WeatherEnsemble ensemble;
  std::shared_ptr<const SeasonWeather> season;
};

}  // namespace sowtide::stand::yields
