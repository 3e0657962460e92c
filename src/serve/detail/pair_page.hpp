// The page on which a device of the home network gives its code. It holds nothing of the garden, so it is
// shown to anyone.
#pragma once

#include <vector>

#include "serve/assets.hpp"

namespace sowtide::serve::detail {

inline constexpr const char* kPairPage = "/pair";

/// The page "/pair" with its script and style. "/pair#CODE" fills the code in.
[[nodiscard]] std::vector<Asset> pair_page();

}  // namespace sowtide::serve::detail
