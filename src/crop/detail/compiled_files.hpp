// The files of crops/ as texts in the binary; the definitions are written by cmake/embed_crops.cmake at build
// time.
#pragma once

#include <vector>

#include "crop/crop.hpp"

namespace sowtide::crop::detail {

[[nodiscard]] const std::vector<CropFile>& compiled_crop_files();
[[nodiscard]] const CropFile& compiled_sources_file();

}  // namespace sowtide::crop::detail
