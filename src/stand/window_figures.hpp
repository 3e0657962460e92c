// The figures about sowing windows: how likely a sowing of a day gives a harvest worth having in a place and
// what limits it (stand/windows.hpp), and how the windows agree with published calendars
// (stand/calendar_score.hpp). docs/models/windows.md describes both.
#pragma once

#include <string_view>
#include <vector>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "crop/crop.hpp"

namespace sowtide::stand {

/// The figures about sowing windows with their keys.
[[nodiscard]] const std::vector<base::FigureDescription>& window_figures();

/// Works out one of them. Problems: not_found for a figure, crop, place or group that does not exist,
/// out_of_range for a method by which the crop is not grown, and those of the keys.
[[nodiscard]] base::Result<base::Explanation> window_figure(std::string_view name,
                                                            const base::FigureInputs& inputs,
                                                            const crop::CropLibrary& library);

}  // namespace sowtide::stand
