#include "stand/bought.hpp"

#include <algorithm>
#include <cmath>

#include "crop/emergence.hpp"

namespace sowtide::stand {

bool bought_as_plants(const StandPlan& plan) noexcept {
  return plan.method == Method::start_indoors && plan.tray.empty();
}

int raising_days(const crop::Crop& crop) {
  constexpr double kRoomC = 20.0;
  const auto rate = [](const crop::CardinalTemperatures& cardinal) {
    constexpr double kLeastRate = 1e-6;
    return std::max(kLeastRate, crop::thermal_rate(cardinal, kRoomC));
  };
  const double to_come_up = crop::half_emergence_cd(crop) / rate(crop.germination.cardinal);
  const double to_grow = crop.nursery.ready_thermal_time_cd / rate(crop.growth.cardinal);
  return static_cast<int>(std::ceil(to_come_up + to_grow));
}

void set_out_as_bought(StandPlan& plan, base::Date day, const crop::Crop& crop) {
  plan.set_out = day;
  plan.sow = day - base::Days{raising_days(crop)};
}

base::Date begins_on(const StandPlan& plan) noexcept {
  return bought_as_plants(plan) && plan.set_out ? *plan.set_out : plan.sow;
}

}  // namespace sowtide::stand
