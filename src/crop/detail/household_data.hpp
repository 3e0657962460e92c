// data/household.csv as text; made by CMake from that file.
#pragma once

#include <string_view>

namespace sowtide::crop::detail {

extern const std::string_view kHouseholdCsv;

}  // namespace sowtide::crop::detail
