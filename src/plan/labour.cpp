#include "plan/labour.hpp"

namespace sowtide::plan {
namespace {

using crop::HarvestedPart;
using crop::HarvestStyle;

/// What a household picks in an hour, kg. Ours, from common practice; for comparison, a whole market crew
/// brought in 66 kg an hour and person of all its crops (V. Grubinger's account of the Food Bank Farm, told
/// in "Strategies for efficient harvesting", Growing for Market), and a worker paid by the piece picked 100
/// kg of green beans in a day of six hours
/// ("Planting and harvesting green beans", Farmer's Weekly, South Africa): four times our pods.
double picked_kg_per_hour(HarvestedPart part, HarvestStyle style) {
  const bool once = style == HarvestStyle::once;
  switch (part) {
    case HarvestedPart::root:  // pulled, tops twisted off, rinsed
      return 12.0;
    case HarvestedPart::bulb:
    case HarvestedPart::tuber:  // lifted with the fork
      return 15.0;
    case HarvestedPart::head:  // one cut each, outer leaves taken off
      return 20.0;
    case HarvestedPart::stem:
      return 10.0;
    case HarvestedPart::leaf:  // whole plants, or leaf by leaf
      return once ? 8.0 : 5.0;
    case HarvestedPart::pod:  // pod by pod, stooping
      return 4.0;
    case HarvestedPart::fruit:  // squashes and the like at once; tomatoes or courgettes on every second day
      return once ? 30.0 : 12.0;
    case HarvestedPart::herb:
      return 2.0;
    case HarvestedPart::flower:
      return 8.0;
  }
  return 10.0;
}

}  // namespace

double picking_hours_per_kg(const crop::Harvest& harvest) {
  return 1.0 / picked_kg_per_hour(harvest.part, harvest.style);
}

}  // namespace sowtide::plan
