#include "stand/raising.hpp"

namespace sowtide::stand {
namespace {

// Constants of the engine that are no crop's own. Sources and reasons: docs/models/stand.md, "Constants".
constexpr double kFrameWarmthK = 3.0;     // a closed frame against the air, daily mean (common practice)
constexpr double kFrameLightShare = 0.7;  // its glazing passes this (common practice)
constexpr double kIndoorLightMjM2 = 3.0;  // PAR under ordinary shelf lights or a bright window (chosen)

}  // namespace

RaisingPlace raising_in(const bed::Tray& tray) {
  return {tray.place, tray.temp_c, tray.place == bed::TrayPlace::heat_mat ? tray.room_c : std::nullopt};
}

bool leaves_mat_once_up(const bed::Tray& tray) noexcept {
  return tray.place == bed::TrayPlace::heat_mat && (tray.room_c || tray.mat_cells > 0);
}

bool is_inside(bed::TrayPlace place) noexcept {
  return place == bed::TrayPlace::indoors || place == bed::TrayPlace::heat_mat;
}

double light_in_place(bed::TrayPlace place, double open_sky_mj_m2) noexcept {
  if (is_inside(place)) return kIndoorLightMjM2;
  return place == bed::TrayPlace::cold_frame ? kFrameLightShare * open_sky_mj_m2 : open_sky_mj_m2;
}

double seed_c_in_place(const RaisingPlace& raising, double air_c) noexcept {
  if (is_inside(raising.place)) return raising.temp_c;
  return raising.place == bed::TrayPlace::cold_frame ? air_c + kFrameWarmthK : air_c;
}

double seedling_c_in_place(const RaisingPlace& raising, double air_c) noexcept {
  if (raising.place == bed::TrayPlace::heat_mat && raising.room_c) return *raising.room_c;
  return seed_c_in_place(raising, air_c);
}

}  // namespace sowtide::stand
