// When sowing works in a garden: the windows of every crop in its own weather.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "stand/crop_weather.hpp"
#include "stand/windows.hpp"

namespace sowtide::desk {

struct Season;

/// Two typical years of the garden's record or normals, from a 1 January on: what `windows` is judged in. Problems:
/// those of garden_weather.
[[nodiscard]] base::Result<climate::WeatherEnsemble> typical_years(const book::GardenDescription& garden);

/// Windows of a typical year of the garden's record, or of its normals; all crops of the library, by name of
/// the crop. Weather of the season under way does not count. Problems: out_of_range for a level that is no
/// chance, those of garden_weather.
[[nodiscard]] base::Result<std::vector<stand::SowingWindow>> garden_windows(
    const crop::CropLibrary& library, const book::GardenDescription& garden, double level = 0.5);

/// The windows of single crops of a season's garden, each worked out when it is first asked for: a season
/// keeps one for all its answers. From any thread.
class CropWindows {
 public:
  using Windows = std::vector<stand::SowingWindow>;

  /// The windows of the crop of a plan, with its variety's deltas. Problems: those of typical_years;
  /// not_found for a crop that is not in the library.
  [[nodiscard]] base::Result<Windows> of(const Season& season, const stand::StandPlan& plan);

 private:
  using Felt = std::shared_ptr<const stand::SeasonWeather>;

  base::Result<Felt> felt(const book::GardenDescription& garden);

  std::mutex mutex_;
  std::optional<climate::WeatherEnsemble> years_;  ///< that `felt_` stands on
  Felt felt_;
  std::map<std::pair<std::string, std::string>, Windows> known_;  ///< by crop and variety
};

/// A crop that no day of the year suits, and how near the best one comes.
struct NoWindow {
  std::string crop;
  std::string method;                       ///< of the best day
  double success = 0.0;                     ///< of the best day
  stand::Limit limit = stand::Limit::none;  ///< what most often spoils the best days
};

/// What to say of a crop for which `sowing_windows` found nothing.
[[nodiscard]] NoWindow no_window(const stand::CropWeather& weather);

}  // namespace sowtide::desk
