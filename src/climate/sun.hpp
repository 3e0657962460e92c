// Sun and radiation by FAO Irrigation and Drainage Paper 56 (R. G. Allen, L. S. Pereira, D. Raes, M. Smith 1998),
// chapter 3: day length (eq. 34), extraterrestrial radiation (eq. 21-25), radiation from the temperature range
// (eq. 50), clear-sky radiation (eq. 37), and hourly temperatures from daily extremes.
#pragma once

#include <array>
#include <span>

#include "base/date.hpp"
#include "base/quantity.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Hours from sunrise to sunset of the centre of the sun over a level horizon: FAO-56 eq. 34. 0 in the polar
/// night and 24 in the polar day.
[[nodiscard]] base::Hours daylight_hours(base::Degrees latitude, int day_of_year);

/// Radiation at the top of the atmosphere on a level surface: FAO-56 eq. 21.
[[nodiscard]] base::DailyRadiation extraterrestrial_radiation(base::Degrees latitude, int day_of_year);

/// Daily solar radiation from the temperature range: FAO-56 eq. 50, k_rs 0.16 inland, 0.19 coast; at most the
/// clear-sky radiation of eq. 37.
[[nodiscard]] base::DailyRadiation radiation_from_temperature_range(base::Celsius tmin, base::Celsius tmax,
                                                                    const Site& site, int day_of_year,
                                                                    double k_rs = 0.16);

}  // namespace sowtide::climate
