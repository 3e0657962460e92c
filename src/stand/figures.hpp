// The formulas of this room for the `figure` verb: growth of a stand in a place, weight by diameter, yield by
// density, light caught by a canopy.
#pragma once

#include <string_view>
#include <vector>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "climate/record.hpp"
#include "crop/crop.hpp"

namespace sowtide::stand {

/// Every figure of the room with its keys.
[[nodiscard]] const std::vector<base::FigureDescription>& stand_figures();

/// Works out one figure. `record` is what the input `weather` names, without holes; none: the weather of a
/// place. Problems: not_found for a name, a crop or a place, contradiction for a place beside a record,
/// insufficient_data for a record of less than four years, infeasible where the crop fails, and those of the
/// keys and formulas.
[[nodiscard]] base::Result<base::Explanation> stand_figure(std::string_view name,
                                                           const base::FigureInputs& inputs,
                                                           const crop::CropLibrary& library,
                                                           const climate::WeatherRecord* record = nullptr);

/// Share of light that a canopy catches: 1 - e^(-k·LAI), Beer's law (Shibu et al. 2010).
[[nodiscard]] double light_interception(double leaf_area_index, double extinction) noexcept;

}  // namespace sowtide::stand
