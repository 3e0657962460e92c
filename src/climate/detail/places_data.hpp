// data/places.csv as text; made by CMake from that file.
#pragma once

#include <string_view>

namespace sowtide::climate::detail {

extern const std::string_view kPlacesCsv;

}  // namespace sowtide::climate::detail
