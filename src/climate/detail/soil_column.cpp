#include "climate/detail/soil_column.hpp"

#include <algorithm>

namespace sowtide::climate::detail {
namespace {

// Between Crank-Nicolson (0.5) and fully implicit (1): keeps the daily wave and does not ring when the sun
// comes out.
constexpr double kImplicitness = 0.6;

SoilGrid with_centres(SoilGrid grid) {
  double top = 0.0;
  for (std::size_t i = 0; i < grid.count; ++i) {
    grid.centre_m[i] = top + 0.5 * grid.thickness_m[i];
    top += grid.thickness_m[i];
  }
  return grid;
}

}  // namespace

SoilGrid ground_grid() {
  SoilGrid grid;
  grid.count = 16;
  grid.thickness_m = {0.010, 0.015, 0.020, 0.025, 0.030, 0.040, 0.050, 0.070,
                      0.100, 0.140, 0.200, 0.300, 0.450, 0.650, 0.900, 1.000};
  return with_centres(grid);
}

SoilGrid tray_grid(double depth_m) {
  SoilGrid grid;
  grid.count = 5;
  for (std::size_t i = 0; i < grid.count; ++i)
    grid.thickness_m[i] = depth_m / static_cast<double>(grid.count);
  return with_centres(grid);
}

SoilColumn::SoilColumn(const SoilGrid& grid, double start_c) : grid_(grid) {
  temperature_c_.fill(start_c);
}

void SoilColumn::prepare(double step_s, double surface_w_m2_k) {
  const std::size_t last = grid_.count - 1;
  surface_ = 1.0 / (1.0 / surface_w_m2_k + 0.5 * grid_.thickness_m[0] / conductivity_w_m_k[0]);
  for (std::size_t i = 0; i < last; ++i) {
    link_[i] = 2.0 / (grid_.thickness_m[i] / conductivity_w_m_k[i] +
                      grid_.thickness_m[i + 1] / conductivity_w_m_k[i + 1]);
  }
  link_[last] = 0.0;
  for (std::size_t i = 0; i <= last; ++i) {
    storage_[i] = capacity_j_m2_k[i] / step_s;
    const double above = i == 0 ? surface_ : link_[i - 1];
    const double below = i == last ? bottom_w_m2_k : link_[i];
    double diagonal = storage_[i] + kImplicitness * (above + below + side_w_m2_k[i]);
    if (i > 0) diagonal -= kImplicitness * link_[i - 1] * eliminated_[i - 1];
    pivot_[i] = 1.0 / diagonal;
    eliminated_[i] = kImplicitness * link_[i] * pivot_[i];
  }
}

void SoilColumn::step(const SoilSurroundings& around) {
  constexpr double kExplicitness = 1.0 - kImplicitness;
  const std::size_t last = grid_.count - 1;
  std::array<double, kMostCells> forward;  // filled below as far as it is read
  double from_above = surface_ * (around.surface_c - kExplicitness * temperature_c_[0]);
  double known_above = 0.0;
  for (std::size_t i = 0; i <= last; ++i) {
    const double here = temperature_c_[i];
    const double flow_down = i == last ? 0.0 : kExplicitness * link_[i] * (here - temperature_c_[i + 1]);
    double source =
        storage_[i] * here + from_above - flow_down + side_w_m2_k[i] * (around.side_c - kExplicitness * here);
    if (i == last) source += bottom_w_m2_k * (around.bottom_c - kExplicitness * here);
    if (i > 0) source += kImplicitness * link_[i - 1] * known_above;
    known_above = source * pivot_[i];
    forward[i] = known_above;
    from_above = flow_down;
  }
  temperature_c_[last] = forward[last];
  for (std::size_t i = last; i-- > 0;)
    temperature_c_[i] = forward[i] + eliminated_[i] * temperature_c_[i + 1];
}

DepthWeight depth_weight(const SoilGrid& grid, double depth_m) {
  std::size_t upper = 0;
  while (upper + 2 < grid.count && grid.centre_m[upper + 1] <= depth_m) ++upper;
  const double span = grid.centre_m[upper + 1] - grid.centre_m[upper];
  // Above the first centre and below the last the nearest cell stands for the depth.
  return {upper, std::clamp((depth_m - grid.centre_m[upper]) / span, 0.0, 1.0)};
}

}  // namespace sowtide::climate::detail
