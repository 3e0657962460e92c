#include "bed/bed.hpp"

#include <cmath>

namespace sowtide::bed {

bool overlap(const Occupancy& a, const Occupancy& b) noexcept {
  const bool same_time = a.first <= b.last && b.first <= a.last;
  const bool same_stretch = a.from_m < b.to_m && b.from_m < a.to_m;
  return a.bed == b.bed && same_time && same_stretch;
}

int clumps_across(const Bed& bed, double spacing_mm) noexcept {
  if (!(spacing_mm > 0.0) || !(bed.width_m > 0.0)) return 0;
  // Widths and spacings are typed decimals: 1.2 m at 300 mm is four, not three by a rounding error.
  constexpr double kRounding = 1e-9;
  const double fit = bed.width_m * 1000.0 / spacing_mm;
  if (fit + kRounding >= 1.0) return static_cast<int>(std::floor(fit + kRounding));
  return fit + kRounding >= 0.5 ? 1 : 0;
}

}  // namespace sowtide::bed
