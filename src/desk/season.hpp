// The season as it stands today: the garden folded to a day, the weather ensemble ahead, and the outlook of every
// stand. Everything that is shown (worklist, pages, sheets) is read off one Season.
#pragma once

#include <string>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "stand/outlook.hpp"

namespace sowtide::desk {

struct Season {
  base::Date today{};
  const crop::CropLibrary* library = nullptr;
  book::GardenDescription garden;
  book::GardenState state;
  climate::WeatherEnsemble weather;            ///< from 1 January of the year of `today`, or of the earliest stand
  std::vector<stand::Outlook> outlooks;        ///< in the order of state.stands
};

/// The ensemble for a garden: record years when the record is long enough, else the generator from normals, with what
/// was observed this season in front. Fails insufficient_data when the garden has neither.
[[nodiscard]] base::Result<climate::WeatherEnsemble> garden_weather(const book::GardenDescription& garden,
                                                                    base::Date first, std::size_t day_count,
                                                                    base::Date today);

/// Folds the log and computes every outlook, in parallel; identical on any number of threads.
[[nodiscard]] base::Result<Season> make_season(const crop::CropLibrary& library, book::GardenDescription garden,
                                               const std::vector<book::Event>& events, base::Date today);

/// The crop of a stand with its variety's deltas.
[[nodiscard]] base::Result<crop::Crop> crop_of(const Season& season, const stand::StandPlan& plan);

}  // namespace sowtide::desk
