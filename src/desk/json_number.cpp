#include "desk/json_number.hpp"

#include <cmath>

namespace sowtide::desk {

nlohmann::ordered_json json_number(double value, int decimals) {
  if (!std::isfinite(value)) return nullptr;
  const double steps_per_unit = std::pow(10.0, decimals);
  const double steps = std::round(value * steps_per_unit);
  // Divided by a whole number, not multiplied by its share: 0.1 has no exact double. And no zero below
  // nothing.
  return steps == 0.0 ? 0.0 : steps / steps_per_unit;
}

}  // namespace sowtide::desk
