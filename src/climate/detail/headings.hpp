// What a column heading says: which field, which unit, and at what height the wind was measured.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "climate/detail/units.hpp"
#include "climate/record.hpp"

namespace sowtide::climate::detail {

/// What a column of a table can be.
enum class Field {
  none,
  ignored,
  date,
  time,
  year,
  month,
  day,
  day_of_year,
  unix_time,
  unit_system,  ///< a number for the units of the whole row: 1, 16 or 17
  station,
  latitude,
  longitude,
  elevation,
  rain_days,  ///< over how many days the rain was gathered
  tmin,
  tmax,
  rain,
  radiation,
  sunshine,
  humidity,
  wind,
  temperature,  ///< mean of the day, or of the moment
  dew_point,
  vapour_pressure,
  humidity_max,
  humidity_min,
  grass_minimum,
  soil_temperature,
  reference_et,
  snow_depth
};

/// Stable name, as in `ColumnChoice::field`.
[[nodiscard]] std::string_view field_text(Field field);
[[nodiscard]] std::optional<Field> field_named(std::string_view name);
[[nodiscard]] Kind kind_of(Field field);
/// The variable of the record, or nothing.
[[nodiscard]] std::optional<Variable> variable_of(Field field);

/// A heading understood.
struct Heading {
  Field field = Field::none;
  int rank = 0;                          ///< of several columns for one field the lowest rank is taken
  std::optional<Conversion> conversion;  ///< when the heading names a unit
  std::string strange_unit;              ///< a unit was named, but it is unknown or does not fit
  std::optional<double> height_m;        ///< of the anemometer
  std::string depth;                     ///< of a soil temperature, as written: "10cm"
};

/// Reads "tmin_c", "Max Temp (°C)", "rain [in]", "wind_kmh", "Temp, °F (LGR S/N: 1)", "temperature_2m_max".
[[nodiscard]] Heading read_heading(std::string_view text);

}  // namespace sowtide::climate::detail
