// Diameter and weight of round and long roots and bulbs: W = c·D³ for round organs, W = c·D²·L for long ones,
// W in g, D and L in cm; c by crop (crops/*.toml, weight_g_per_cm3). Where no length was measured, L is D
// times the crop's length_per_diameter. A sphere of density 1 has 0.524, a cylinder 0.785, a cone 0.262.
#pragma once

#include <optional>

#include "base/problem.hpp"
#include "crop/crop.hpp"

namespace sowtide::crop {

inline constexpr double kMostDiameterMm = 500.0;  ///< no root or bulb is thicker

/// Weight of an organ of this diameter. Long organs of another length than the crop's usual need
/// it. Fails insufficient_data where the crop has no constant, or no usual length and none is given,
/// out_of_range for a diameter outside 1 to `kMostDiameterMm`.
[[nodiscard]] base::Result<double> weight_from_diameter(const Crop& crop, double diameter_mm,
                                                        std::optional<double> length_mm = {});

/// Diameter of an organ of this weight, mm; of long ones at the given length, else the usual. Nothing where
/// it cannot be told.
[[nodiscard]] std::optional<double> diameter_from_weight(const Crop& crop, double weight_g,
                                                         std::optional<double> length_mm = {});

/// Whether an organ has a length of its own: cylinders and cones.
[[nodiscard]] bool is_long(const Crop& crop) noexcept;

/// Length of an organ of this diameter as is usual of the crop, mm; of round ones the diameter. Nothing where
/// the crop is long and no usual length is known.
[[nodiscard]] std::optional<double> usual_length_mm(const Crop& crop, double diameter_mm);

}  // namespace sowtide::crop
