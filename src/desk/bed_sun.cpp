#include "desk/bed_sun.hpp"

#include "desk/season.hpp"

namespace sowtide::desk {
namespace {

// The classes of a bed's sun, in hours of direct sun a day (bed/bed.hpp).
constexpr double kFullSunHours = 6.0;
constexpr double kPartSunHours = 3.0;

}  // namespace

std::vector<Message> sun_said(const book::GardenDescription& garden, const crop::Crop& crop,
                              const stand::StandPlan& plan) {
  const bed::Bed* bed = bed_of(garden, plan.bed);
  if (bed == nullptr || bed->sun == bed::SunClass::full) return {};
  const bool bears_part_shade = crop.place.sun == crop::SunNeed::partial;
  if (bed->sun == bed::SunClass::partial && bears_part_shade) return {};
  return {{"too-little-sun",
           {{"needed_h", bears_part_shade ? kPartSunHours : kFullSunHours},
            {"less_than_h", bed->sun == bed::SunClass::partial ? kFullSunHours : kPartSunHours},
            {"bed", bed->name}}}};
}

}  // namespace sowtide::desk
