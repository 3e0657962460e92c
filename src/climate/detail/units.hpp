// Units as people write them, and what to do with a value in them.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace sowtide::climate::detail {

/// What kind of quantity a column holds.
enum class Kind { none, temperature, length, radiation, duration, share, speed, pressure };

/// value in our unit = value * scale + shift. Ours: °C, mm, MJ/m² a day, h, %, m/s, kPa.
struct Conversion {
  double scale = 1.0;
  double shift = 0.0;
  bool mean_power = false;  ///< radiation as a mean flux (W/m²): averaged, not summed, over parts of a day
  [[nodiscard]] double apply(double value) const { return value * scale + shift; }
};

/// The conversion of a unit word ("°F", "in", "km/h", "MJ m-2 d-1", "0.1 mm"), or nothing if it is unknown or
/// does not fit the kind.
[[nodiscard]] std::optional<Conversion> conversion_of(Kind kind, std::string_view unit);

/// "°C, °F or K" and the like, for a remedy.
[[nodiscard]] std::string_view known_units(Kind kind);

/// Lower case without blanks, degree signs, brackets, dots of multiplication and carets: "°C" -> "c", "MJ/m²"
/// -> "mj/m2".
[[nodiscard]] std::string plain_unit(std::string_view unit);

inline constexpr double kMetresPerSecondPerMph = 0.44704;           // exact: 1609.344 m / 3600 s
inline constexpr double kMetresPerSecondPerKnot = 1852.0 / 3600.0;  // exact: the nautical mile
inline constexpr double kMegajoulesPerDayPerWatt = 0.0864;          // 86,400 s

/// Wind at 2 m by FAO-56 eq. 47; the wind itself when `height_m` is 2 or cannot be brought to 2 m.
[[nodiscard]] double wind_to_2m(double wind_ms, double height_m);

}  // namespace sowtide::climate::detail
