// What becomes of the sun's radiation: clear sky, its course through the day, beam and diffuse light, slopes,
// and the part that plants use. Daily totals at the top of the air and on the ground are in sun.hpp.
#pragma once

#include <array>

#include "base/quantity.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Radiation on a plane facing the sun at the top of the air, W/m²: solar constant 1366.1 W/m² and the
/// eccentricity series of J. W. Spencer 1971, Search 2:172.
[[nodiscard]] double extraterrestrial_normal_w_m2(int day_of_year);

/// Relative optical air mass: F. Kasten and A. T. Young 1989, Applied Optics 28:4735. `zenith` is apparent,
/// 0..90°; beyond the horizon it is that of the horizon.
[[nodiscard]] double relative_air_mass(base::Degrees zenith);

/// Global radiation on a level surface under a clear sky, W/m²: B. Haurwitz 1945, J. Meteorol. 2:154;
/// 1098 cos z exp(-0.059/cos z), 0 below the horizon.
[[nodiscard]] double clear_sky_global_w_m2(base::Degrees zenith);

/// Daily clear-sky radiation with the turbidity, moisture and sun angle of the ASCE-EWRI 2005 standard
/// (appendix D): Rso = (KB + KD) Ra. `turbidity` is 1 for clean air, 0.5 for very dusty air.
[[nodiscard]] base::DailyRadiation clear_sky_radiation_full(const Site& site, int day_of_year,
                                                            base::Kilopascals vapour,
                                                            base::Kilopascals pressure,
                                                            double turbidity = 1.0);

/// Share of a day's radiation that is diffuse, from its clearness Rs/Ra: C. J. T. Spitters, H. A. J. M.
/// Toussaint and J. Goudriaan 1986, Agric. For. Meteorol. 38:217.
[[nodiscard]] double diffuse_share_of_day(double clearness);

/// Beam light on a plane facing the sun and diffuse light on a level surface, W/m².
struct BeamAndDiffuse {
  double clearness = 0.0;
  double beam_normal_w_m2 = 0.0;
  double diffuse_level_w_m2 = 0.0;
};

/// Splits the global radiation of an hour: D. G. Erbs, S. A. Klein and J. A. Duffie 1982, Solar Energy
/// 28:293. With the sun within about 3° of the horizon (cos z < 0.065) all of it counts as diffuse once z
/// passes 87°.
[[nodiscard]] BeamAndDiffuse split_beam_and_diffuse(double global_w_m2, base::Degrees zenith,
                                                    int day_of_year);

/// The 24 hours of a day in true solar time, MJ/m² each; they add up to the day.
struct HourlyRadiation {
  std::array<double, 24> global_mj_m2{};
  std::array<double, 24> diffuse_mj_m2{};
};

/// A day's radiation spread over its hours in proportion to sin β (1 + 0.4 sin β), β the elevation of the
/// sun, and its diffuse share by `diffuse_share_of_day` (Spitters et al. 1986). All zero in the polar night.
[[nodiscard]] HourlyRadiation hourly_radiation(base::DailyRadiation day, base::Degrees latitude,
                                               int day_of_year);

/// Diffuse light of an even sky on a plane tilted by `slope`: DHI (1 + cos s)/2.
[[nodiscard]] double sky_light_on_slope_w_m2(double diffuse_level_w_m2, base::Degrees slope);

/// Light thrown back by level ground onto a plane tilted by `slope`: GHI · albedo (1 - cos s)/2.
[[nodiscard]] double ground_light_on_slope_w_m2(double global_w_m2, double albedo, base::Degrees slope);

/// Beam light on a plane: DNI cos(incidence), 0 when the sun is behind it.
[[nodiscard]] double beam_on_plane_w_m2(double beam_normal_w_m2, base::Degrees incidence);

/// Photosynthetically active share of solar radiation, by energy: 0.45 to 0.50 by sky; the usual round
/// figure.
inline constexpr double kPhotosyntheticShare = 0.50;
/// Photons per energy of daylight between 400 and 700 nm (K. J. McCree 1972, Agric. Meteorol. 10:443; from
/// memory).
inline constexpr double kPhotonsMolPerMegajoule = 4.57;

/// Photosynthetically active radiation of a day, MJ/m².
[[nodiscard]] base::DailyRadiation photosynthetically_active(base::DailyRadiation solar,
                                                             double share = kPhotosyntheticShare);

/// The same counted in photons, mol/m²/d: the daily light integral.
[[nodiscard]] double daily_light_integral_mol_m2(base::DailyRadiation solar,
                                                 double share = kPhotosyntheticShare);

}  // namespace sowtide::climate
