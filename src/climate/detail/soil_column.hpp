// One column of soil cells and the heat that moves between them: an implicit step, solved by the Thomas
// algorithm.
#pragma once

#include <array>
#include <cstddef>

namespace sowtide::climate::detail {

inline constexpr std::size_t kMostCells = 16;

/// Cells from the surface down.
struct SoilGrid {
  std::size_t count = 0;
  std::array<double, kMostCells> thickness_m{};
  std::array<double, kMostCells> centre_m{};
};

/// Ground to four metres, cells of 10 mm growing downwards.
[[nodiscard]] SoilGrid ground_grid();
/// A tray `depth_m` deep, in five cells.
[[nodiscard]] SoilGrid tray_grid(double depth_m);

/// What the column exchanges heat with, in one step.
struct SoilSurroundings {
  double surface_c = 0.0;  ///< temperature that the surface would take with no soil under it
  double side_c = 0.0;
  double bottom_c = 0.0;
};

class SoilColumn {
 public:
  SoilColumn(const SoilGrid& grid, double start_c);

  std::array<double, kMostCells> capacity_j_m2_k{};
  std::array<double, kMostCells> conductivity_w_m_k{};
  std::array<double, kMostCells> side_w_m2_k{};  ///< exchange of each cell with the side, per plan area
  double bottom_w_m2_k = 0.0;  ///< exchange of the last cell with what lies below; 0 in the ground

  /// Makes the matrix for steps of `step_s` with the given exchange at the surface. Call after changing the
  /// above.
  void prepare(double step_s, double surface_w_m2_k);
  /// One step forward.
  void step(const SoilSurroundings& around);

  [[nodiscard]] const SoilGrid& grid() const { return grid_; }
  [[nodiscard]] const std::array<double, kMostCells>& temperature_c() const { return temperature_c_; }

 private:
  SoilGrid grid_;
  std::array<double, kMostCells> temperature_c_{};
  std::array<double, kMostCells> storage_{};     // capacity over step
  std::array<double, kMostCells> link_{};        // conductance to the cell below
  std::array<double, kMostCells> eliminated_{};  // upper diagonal after elimination
  std::array<double, kMostCells> pivot_{};       // reciprocal of the diagonal after elimination
  double surface_ = 0.0;                         // conductance to the outside, half the first cell included
};

/// A depth as a weighted mean of two neighbouring cells.
struct DepthWeight {
  std::size_t upper = 0;
  double share_of_lower = 0.0;
  [[nodiscard]] double of(const std::array<double, kMostCells>& cells) const {
    return cells[upper] + share_of_lower * (cells[upper + 1] - cells[upper]);
  }
};
[[nodiscard]] DepthWeight depth_weight(const SoilGrid& grid, double depth_m);

}  // namespace sowtide::climate::detail
