// Figures by which published trials are looked at: the course of a trial in its own weather, a plant at one
// density, grouping or distance of rows over one at another, and the spread of sizes.
#pragma once

#include <string_view>
#include <vector>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "climate/record.hpp"
#include "crop/crop.hpp"

namespace sowtide::stand {

/// These figures with their keys.
[[nodiscard]] const std::vector<base::FigureDescription>& trial_figures();

/// Works out one of them. `record` as in stand_figure. Problems: not_found for a figure, crop, place or
/// trial, infeasible where nothing is harvested to compare, and those of the keys and of the weather.
[[nodiscard]] base::Result<base::Explanation> trial_figure(std::string_view name,
                                                           const base::FigureInputs& inputs,
                                                           const crop::CropLibrary& library,
                                                           const climate::WeatherRecord* record = nullptr);

}  // namespace sowtide::stand
