// The figures of this room that can be worked out by themselves.
#pragma once

#include <string_view>
#include <vector>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "base/problem.hpp"
#include "crop/crop.hpp"

namespace sowtide::keep {

/// "storage-life": how long a crop keeps in a place, and what is left good of a lot after some days.
[[nodiscard]] const std::vector<base::FigureDescription>& keep_figures();

/// Works one out. Problems: not_found (no such figure, crop or place), and those of the inputs.
[[nodiscard]] base::Result<base::Explanation> keep_figure(std::string_view name,
                                                          const base::FigureInputs& inputs,
                                                          const crop::CropLibrary& library);

}  // namespace sowtide::keep
