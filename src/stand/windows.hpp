// Sowing windows: for each crop and method, when sowing works in a place, with probability.
#pragma once

#include <string>
#include <vector>

#include "base/date.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "stand/crop_weather.hpp"

namespace sowtide::stand {

struct SowingWindow {
  std::string crop;
  std::string method;    ///< "direct-sow", "start-indoors", "set-out"
  base::YearSpan span;   ///< may wrap the new year
  double success = 0.0;  ///< mean probability of a harvest worth having over the window
};

/// Windows of one crop over a typical year: every day whose success reaches `level`. Several where two
/// seasons exist. `weather` must begin on a 1 January (any year) and cover two years or more.
[[nodiscard]] std::vector<SowingWindow> sowing_windows(const crop::Crop& crop,
                                                       const climate::WeatherEnsemble& weather,
                                                       double level = 0.5);

/// The same with the crop's weather already at hand: cheaper for many crops of one place.
[[nodiscard]] std::vector<SowingWindow> sowing_windows(const CropWeather& weather, double level = 0.5);

}  // namespace sowtide::stand
