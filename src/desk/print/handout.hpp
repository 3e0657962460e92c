// What the handout draws of each crop, apart from the drawing, so that it is worked out once.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "desk/print/page.hpp"
#include "desk/print/print.hpp"
#include "desk/print/words.hpp"
#include "stand/windows.hpp"

namespace sowtide::desk::print {

/// A crop's year in a place: windows, and the chance of each of 365 days by raising indoors, sowing in place,
/// setting out.
struct CropYear {
  std::string name;
  std::vector<stand::SowingWindow> windows;
  std::array<std::vector<double>, 3> chance;
};

/// By name in the language of `words`. not_found for an unknown crop.
[[nodiscard]] base::Result<std::vector<CropYear>> crop_years(const PlaceWeather& place, const Words& words);

void draw_handout(const PlaceWeather& place, const std::vector<CropYear>& crops, const Words& words,
                  Canvas& canvas, Pages& pages);

}  // namespace sowtide::desk::print
