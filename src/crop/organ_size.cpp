#include "crop/organ_size.hpp"

#include <fmt/format.h>

#include <cmath>

namespace sowtide::crop {
namespace {

constexpr double kMmPerCm = 10.0;

/// Length over diameter where no length was measured: 1 of round roots, of long ones the usual of the crop.
std::optional<double> usual_length(const Crop& crop) {
  if (!is_long(crop)) return 1.0;
  const auto& figure = crop.harvest.length_per_diameter;
  return figure ? std::optional(figure->value) : std::nullopt;
}

}  // namespace

bool is_long(const Crop& crop) noexcept {
  return crop.harvest.shape == RootShape::cylindrical || crop.harvest.shape == RootShape::conical;
}

std::optional<double> usual_length_mm(const Crop& crop, double diameter_mm) {
  const auto per_diameter = usual_length(crop);
  return per_diameter ? std::optional(*per_diameter * diameter_mm) : std::nullopt;
}

base::Result<double> weight_from_diameter(const Crop& crop, double diameter_mm,
                                          std::optional<double> length_mm) {
  using base::ProblemCode;
  if (!(diameter_mm >= 1.0 && diameter_mm <= kMostDiameterMm)) {
    return base::fail(ProblemCode::out_of_range, fmt::format("{} mm is no diameter of a root", diameter_mm),
                      {.field = "diameter_mm"},
                      fmt::format("Give a diameter from 1 to {:g} mm", kMostDiameterMm));
  }
  if (!crop.harvest.weight_g_per_cm3 || crop.harvest.shape == RootShape::none) {
    return base::fail(ProblemCode::insufficient_data, "no weight by diameter is known of " + crop.name,
                      {.field = "crop"}, "Weigh one instead");
  }
  const double diameter_cm = diameter_mm / kMmPerCm;
  const double c = *crop.harvest.weight_g_per_cm3;
  if (length_mm && *length_mm > 0.0 && is_long(crop))
    return c * diameter_cm * diameter_cm * *length_mm / kMmPerCm;
  const auto length = usual_length(crop);
  if (!length) {
    return base::fail(ProblemCode::insufficient_data, crop.name + " is long: its weight needs a length too",
                      {.field = "length_mm"}, "Give the length in millimetres");
  }
  return c * diameter_cm * diameter_cm * diameter_cm * *length;
}

std::optional<double> diameter_from_weight(const Crop& crop, double weight_g,
                                           std::optional<double> length_mm) {
  if (!crop.harvest.weight_g_per_cm3 || crop.harvest.shape == RootShape::none || !(weight_g >= 0.0))
    return {};
  const double volume = weight_g / *crop.harvest.weight_g_per_cm3;
  if (length_mm && *length_mm > 0.0 && is_long(crop))
    return kMmPerCm * std::sqrt(volume / (*length_mm / kMmPerCm));
  const auto length = usual_length(crop);
  return length ? std::optional(kMmPerCm * std::cbrt(volume / *length)) : std::nullopt;
}

}  // namespace sowtide::crop
