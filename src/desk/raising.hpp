// What the answers on trays and sowings share: where a stand is raised, and the weather as each crop feels
// it.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "desk/season.hpp"
#include "stand/crop_weather.hpp"

namespace sowtide::desk {

/// The tray of a stand; nothing when it names none of the garden's.
[[nodiscard]] const bed::Tray* tray_of(const book::GardenDescription& garden,
                                       const stand::StandPlan& plan) noexcept;

/// Where a stand is raised; nothing for a sowing in place. A stand without a tray is raised indoors.
[[nodiscard]] std::optional<stand::RaisingPlace> raising_of(const book::GardenDescription& garden,
                                                            const stand::StandPlan& plan);

/// Whether planting pieces of a stand are begun in a tray: the crop's depth is that in the ground; in a cell
/// a slip or sprouting piece is set as deep as the cell bears.
[[nodiscard]] bool set_in_cells(const crop::Crop& crop, const stand::StandPlan& plan) noexcept;

/// The season's weather as the crops of some stands feel it, each crop and variety once. Refers to the
/// season.
class CropWeathers {
 public:
  CropWeathers(const Season& season, const std::vector<std::size_t>& stands);
  /// not_found for a crop that is not in the library.
  [[nodiscard]] base::Result<const stand::CropWeather*> of(const stand::StandPlan& plan) const;

 private:
  using Key = std::pair<std::string, std::string>;  // crop and variety
  std::map<Key, base::Result<std::unique_ptr<stand::CropWeather>>> felt_;
};

}  // namespace sowtide::desk
