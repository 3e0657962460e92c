// Every figure of a crop in one list, in the order of the crop file, and the page that shows the whole
// library.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "crop/crop.hpp"

namespace sowtide::crop {

/// A figure with its place in the crop file. Points into the crop it was listed from.
struct ListedFigure {
  std::string_view section;  ///< "germination"
  std::string_view name;     ///< "base_c": the unit is the end of the name
  const Figure* figure = nullptr;
};

/// All figures that the crop has; optional ones that are absent are left out.
[[nodiscard]] std::vector<ListedFigure> listed_figures(const Crop& crop);

/// The library as a Markdown page: one table a crop with value, spread, source and note, and the citations at
/// the end. docs/crops.md is this text; a test holds the two together.
[[nodiscard]] std::string library_page(const CropLibrary& library);

}  // namespace sowtide::crop
