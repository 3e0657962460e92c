// Which packets a sowing can draw on: one rule for the plan, its notes and the seed box.
#pragma once

#include <string_view>

#include "crop/crop.hpp"

namespace sowtide::crop {

/// Whether a sowing of this crop and variety (ids) can draw on the packet; with no variety asked for any will do.
[[nodiscard]] inline bool serves(const Packet& packet, std::string_view crop, std::string_view variety) {
  return packet.crop == crop && (variety.empty() || packet.variety == variety);
}

}  // namespace sowtide::crop
