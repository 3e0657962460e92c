#include "crop/curve.hpp"

#include <cstddef>

namespace sowtide::crop {

double on_curve(std::span<const TemperaturePoint> points, double temp_c) noexcept {
  if (points.empty()) return 0.0;
  if (temp_c <= points.front().temp_c) return points.front().value;
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (temp_c > points[i].temp_c) continue;
    const double along = (temp_c - points[i - 1].temp_c) / (points[i].temp_c - points[i - 1].temp_c);
    return points[i - 1].value + along * (points[i].value - points[i - 1].value);
  }
  return points.back().value;
}

std::vector<TemperaturePoint> light_response_of(const Growth& growth) {
  if (!growth.light_response.empty()) return growth.light_response;
  const CardinalTemperatures& c = growth.cardinal;
  std::vector<TemperaturePoint> points{{c.base_c, 0.0}, {c.optimum_low_c, 1.0}};
  if (c.optimum_high_c > c.optimum_low_c) points.push_back({c.optimum_high_c, 1.0});
  points.push_back({c.ceiling_c, 0.0});
  return points;
}

}  // namespace sowtide::crop
