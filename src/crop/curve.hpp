// Curves against temperature, given by points.
#pragma once

#include <span>
#include <vector>

#include "crop/crop.hpp"

namespace sowtide::crop {

/// The value at a temperature, °C: straight between the points (rising temperatures), level outside; 0 of no
/// points.
[[nodiscard]] double on_curve(std::span<const TemperaturePoint> points, double temp_c) noexcept;

/// Share of the light's full worth that the crop makes of it, 0..1, by the mean temperature of the daylight
/// hours: its published points, or those of its growth's cardinal temperatures where it has none.
[[nodiscard]] std::vector<TemperaturePoint> light_response_of(const Growth& growth);

}  // namespace sowtide::crop
