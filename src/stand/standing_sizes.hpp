// How many plants of a stand have reached which size on a day, and what they weigh together.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/quantile.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {

/// The plants that have reached one of the crop's sizes, of the whole stand, over the weather years.
struct ReachedSize {
  std::string_view size;  ///< "smallest" worth taking, "small", "large" or "over_size"
  double least_g = 0.0;   ///< from this weight of the harvested part on
  base::Quantiles plants, grams;
};

/// The plants of each size on a day, from the smallest size to the largest; each holds those that follow. The
/// stand is left alone but for what the log tells was taken; a year whose frost has ended it by then has
/// none. The day lies in the ensemble, not before the sowing. Of crops picked over weeks a size is that of a
/// fruit: nothing.
[[nodiscard]] std::vector<ReachedSize> reached_sizes(const CropWeather& weather, const StandPlan& plan,
                                                     const StandFacts& facts,
                                                     const std::optional<RaisingPlace>& raising,
                                                     base::Date day, SimulationOptions options = {});

}  // namespace sowtide::stand
