// Where seedlings are raised: how warm a tray is before and after its seed is up, and what light it has.
#pragma once

#include <optional>

#include "bed/bed.hpp"

namespace sowtide::stand {

/// Where a stand is raised; nothing for a direct sowing.
struct RaisingPlace {
  bed::TrayPlace place = bed::TrayPlace::indoors;
  double temp_c = 20.0;          ///< of the medium, indoors and on a heat mat
  std::optional<double> room_c;  ///< of where it stands off its heat mat, once up; nothing: as on the mat
  bool operator==(const RaisingPlace&) const = default;
};

/// The place of a tray.
[[nodiscard]] RaisingPlace raising_in(const bed::Tray& tray);
/// A tray on a heat mat whose growth, or whose mat's room, is reckoned with seedlings off the mat.
[[nodiscard]] bool leaves_mat_once_up(const bed::Tray& tray) noexcept;
/// A place whose warmth does not follow the weather: indoors, or on a heat mat.
[[nodiscard]] bool is_inside(bed::TrayPlace place) noexcept;
/// Light for growth that reaches plants in a place, MJ/m²/d of PAR, from the open sky's.
[[nodiscard]] double light_in_place(bed::TrayPlace place, double open_sky_mj_m2) noexcept;
/// Daily mean temperature of a place for seed that is not up yet, °C, from the air's.
[[nodiscard]] double seed_c_in_place(const RaisingPlace& raising, double air_c) noexcept;
/// The same for seedlings.
[[nodiscard]] double seedling_c_in_place(const RaisingPlace& raising, double air_c) noexcept;

}  // namespace sowtide::stand
