// The formulas of this room for the `figure` verb: inputs as typed, an answer that shows its working and
// source.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "crop/crop.hpp"

namespace sowtide::crop {

/// Every figure of the room with its keys.
[[nodiscard]] const std::vector<base::FigureDescription>& crop_figures();

/// Works out one figure. Problems: not_found for a name or a crop, and those of the keys and formulas.
[[nodiscard]] base::Result<base::Explanation> crop_figure(std::string_view name,
                                                          const base::FigureInputs& inputs,
                                                          const CropLibrary& library);

/// The citation behind a figure: its text in sources.toml, or the phrase itself, with its mark and note.
[[nodiscard]] std::string figure_citation(const CropLibrary& library, const Figure& figure);

}  // namespace sowtide::crop
