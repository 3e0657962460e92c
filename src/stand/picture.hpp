// The plants of a stand as they should be on any day: what each plant of a sample of clumps would weigh, how
// many are above a size, and what becomes of the rest when some are taken out (nothing is written down).
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/quantile.hpp"
#include "stand/judge.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {

inline constexpr int kMostPictureDays = 400;

/// Days to look at, every `step_days` from `from` to `to` (both included where the step meets it), at most
/// `kMostPictureDays` of them; and how many clumps to draw.
struct PictureQuery {
  base::Date from{}, to{};
  int step_days = 7;
  std::size_t clumps = 12;
};

/// The stand on one day.
struct PictureDay {
  base::Date date{};
  base::Quantiles
      plant_g;  ///< mean weight of the standing plants, over the weather years in which some stand
  base::Quantiles one_plant_g;   ///< single plants, over plants and weather years; 0 where nothing stands
  double standing_plants = 0.0;  ///< up and not taken, of the whole stand, mean over the weather years
  std::array<double, kSizeClasses> class_share{};  ///< of the standing plants
  /// Whether each drawn plant stands in most weather years: plant p of clump c at p * clumps + c.
  std::vector<std::uint8_t> stands;
  /// Laid out alike: the median weight over the years in which it stands; 0 when it is gone, and while it has
  /// nothing yet of what is harvested.
  std::vector<double> weight_g;
};

struct StandPicture {
  std::size_t clumps = 0, ranks = 0;     ///< drawn
  std::vector<std::uint8_t> open_sides;  ///< of each drawn clump: 0 inside, 1 or 2 sides to the path
  std::vector<PictureDay> days;
};

/// What taking plants or leaves out on a day would give and change.
struct Trial {
  StandPicture before, after;
  base::Quantiles taken_g;    ///< whole stand
  double taken_plants = 0.0;  ///< whole stand, mean over the weather years
  base::Quantiles greens_g;   ///< leaves taken, whole stand
  /// By day of the picture: what the plants that stay weigh more (or less) than if nothing had been taken,
  /// whole stand.
  std::vector<base::Quantiles> rest_gain_g;
};

/// The stand left alone from its last entry in the log on. Fails out_of_range for a day outside the weather
/// or a step below 1.
[[nodiscard]] base::Result<StandPicture> picture(const CropWeather& weather, const StandPlan& plan,
                                                 const StandFacts& facts,
                                                 const std::optional<RaisingPlace>& raising,
                                                 const PictureQuery& query,
                                                 const SimulationOptions& options = {});

/// The same with and without a removal, whose date must lie inside the weather.
[[nodiscard]] base::Result<Trial> try_removal(const CropWeather& weather, const StandPlan& plan,
                                              const StandFacts& facts,
                                              const std::optional<RaisingPlace>& raising,
                                              const Removal& removal, const PictureQuery& query,
                                              const SimulationOptions& options = {});

}  // namespace sowtide::stand
