// Whether a bed has the sun that a crop asks for.
#pragma once

#include <vector>

#include "bed/bed.hpp"
#include "book/garden.hpp"
#include "crop/crop.hpp"
#include "desk/message.hpp"
#include "stand/outlook.hpp"

namespace sowtide::desk {

/// A caution where the stand's bed has less direct sun than the crop asks for; empty where it has enough, or
/// the bed is not known. No refusal: growers try it, and what it brings there is reckoned in that light.
[[nodiscard]] std::vector<Message> sun_said(const book::GardenDescription& garden, const crop::Crop& crop,
                                            const stand::StandPlan& plan);

}  // namespace sowtide::desk
