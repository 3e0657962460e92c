// Weather files of the world, read into one daily record.
//
//   Result<WeatherImport> w = read_weather(bytes, "USW00014839.dly");
//   QualityOutcome checked = control_quality(w->record);          // climate/quality.hpp
//
// `read_weather` recognises the format by content, or takes the one named in the options. Nothing is dropped
// silently: values that the source itself marks as failed, days given twice and totals of several days are
// listed as findings; what was assumed (units, height of the wind, order of day and month) stands in the
// notes. Readers do no climatological checks; that is `control_quality`.
//
// A variable whose values cannot be true on more than 5 % of its days is a problem of the file, not
// of single days (out_of_range, or wrong_unit when another unit would explain it); so is tmin above tmax on
// more than 5 % of days (contradiction). Below that the values are kept for `control_quality` to find.
//
// Limits: 256 MiB a file, years 1700 to 2200, 4096 columns, 65,536 characters a line. Formats:
// docs/formats/weather.md.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "climate/record.hpp"

namespace sowtide::climate {

/// Order of the parts of a date written in figures.
enum class DateForm {
  automatic,       ///< year first, month by name, or settled by the data; otherwise the file is refused as
                   ///< ambiguous
  year_month_day,  ///< 2024-05-31, 20240531, 2024/5/31
  day_month_year,  ///< 31.5.2024
  month_day_year   ///< 5/31/2024
};

/// Names one column of a table for a field. Fields: date, time, year, month, day, day_of_year, station, tmin,
/// tmax, rain, radiation, sunshine, humidity, wind, temperature (mean or momentary), dew_point,
/// vapour_pressure, humidity_max, humidity_min, and `ignore`.
struct ColumnChoice {
  std::string column;  ///< heading as in the file, any case
  std::string field;
  std::string unit;  ///< "" = from the heading, else the field's default
};

/// Unit of a field whose heading names none: {"tmin","F"}, {"rain","in"}.
struct UnitChoice {
  std::string field;
  std::string unit;
};

/// How to read. The defaults read every format that names itself.
struct ReadOptions {
  std::string format;                 ///< "" = recognise; else one of `weather_formats()`
  std::string station;                ///< needed when a file holds several; case does not matter
  std::vector<ColumnChoice> columns;  ///< tables only
  std::vector<UnitChoice> units;      ///< tables only
  DateForm date_form = DateForm::automatic;
  std::optional<bool> decimal_comma;    ///< absent: "12,5" is read where the comma is not the separator
  std::optional<double> wind_height_m;  ///< height of the anemometer, where the format does not state it
  std::optional<int> typical_year;      ///< year into which a typical year (EPW, TMY) is laid; absent: 2001
  bool keep_flagged = false;            ///< keep values that the source marks as failed
  ValueOrigin origin = ValueOrigin::observed;  ///< `forecast` when the file is a forecast
};

/// A daily quantity beside the seven of the record (soil temperature, dew point, reference evapotranspiration
/// …), one value a day of the record, NaN where not known.
struct ExtraSeries {
  std::string
      name;  ///< "dew-point", "grass-minimum", "soil-temperature-10cm", "reference-evapotranspiration" …
  std::string unit;    ///< "°C", "mm", "kPa", "%", "m³/m³"
  std::string column;  ///< heading in the file
  std::vector<double> value;
};

/// What a file held.
struct WeatherImport {
  WeatherRecord record;
  std::vector<QualityFinding> findings;  ///< in order of date
  std::vector<std::string> notes;        ///< for people: what was assumed or converted
  std::vector<ExtraSeries> extra;
  std::string format;         ///< one of `weather_formats()`
  bool site_stated = false;   ///< latitude and longitude stand in the file
  bool celsius_assumed = false;  ///< no unit of temperature was named, °C was taken
  bool typical_year = false;     ///< months of different years put together; dates are nominal
  [[nodiscard]] const ExtraSeries* find_extra(std::string_view name) const;
};

/// Hourly values of an EPW or TMY file, hour-ending (row 0 is the first hour of the first day), NaN where
/// missing.
struct HourlyWeather {
  Site site;
  double utc_offset_h = 0.0;
  std::vector<base::Date> date;  ///< as written in the file; years may differ by month
  std::vector<int> hour;         ///< 1..24
  std::vector<double> temperature_c, dew_point_c, humidity_pct, wind_ms;  ///< wind at 10 m
  std::vector<double> global_wh_m2, direct_normal_wh_m2, diffuse_wh_m2;   ///< over the hour
  std::vector<double> rain_mm;
  struct GroundTemperature {
    double depth_m = 0.0;
    std::vector<double> month_c;  ///< twelve
  };
  std::vector<GroundTemperature> ground;  ///< EPW only
};

/// A format's stable name and what it is.
struct WeatherFormat {
  std::string_view name;
  std::string_view text;
};

/// All formats, in the order in which they are tried.
[[nodiscard]] const std::vector<WeatherFormat>& weather_formats();

/// Recognises and reads. Problems: empty, too_large, syntax (binary, truncated, not a weather file),
/// missing_field, wrong_type, wrong_unit, out_of_range, contradiction, ambiguous, not_found (station,
/// column), insufficient_data (no value).
[[nodiscard]] base::Result<WeatherImport> read_weather(std::string_view bytes, const std::string& file,
                                                       const ReadOptions& options = {});

// One format each; the same problems.
/// GHCN-Daily fixed width, one line a station, element and month.
[[nodiscard]] base::Result<WeatherImport> read_ghcn_dly(std::string_view bytes, const std::string& file,
                                                        const ReadOptions& options = {});
/// GHCN-Daily wide CSV ("access", and the Access Data Service in tenths, metric or US units).
[[nodiscard]] base::Result<WeatherImport> read_ghcn_access(std::string_view bytes, const std::string& file,
                                                           const ReadOptions& options = {});
/// GHCN-Daily long CSV (by station, by year), with or without a heading.
[[nodiscard]] base::Result<WeatherImport> read_ghcn_long(std::string_view bytes, const std::string& file,
                                                         const ReadOptions& options = {});
/// Global Summary of the Day CSV.
[[nodiscard]] base::Result<WeatherImport> read_gsod(std::string_view bytes, const std::string& file,
                                                    const ReadOptions& options = {});
/// KNMI daily text (etmgeg and the scripts' export).
[[nodiscard]] base::Result<WeatherImport> read_knmi(std::string_view bytes, const std::string& file,
                                                    const ReadOptions& options = {});
/// Met Éireann daily CSV.
[[nodiscard]] base::Result<WeatherImport> read_met_eireann(std::string_view bytes, const std::string& file,
                                                           const ReadOptions& options = {});
/// Deutscher Wetterdienst daily climate (KL), semicolons.
[[nodiscard]] base::Result<WeatherImport> read_dwd_daily(std::string_view bytes, const std::string& file,
                                                         const ReadOptions& options = {});
/// US Climate Reference Network daily01.
[[nodiscard]] base::Result<WeatherImport> read_uscrn_daily(std::string_view bytes, const std::string& file,
                                                           const ReadOptions& options = {});
/// EnergyPlus weather (EPW), TMY3 and TMY2, reduced to days.
[[nodiscard]] base::Result<WeatherImport> read_epw(std::string_view bytes, const std::string& file,
                                                   const ReadOptions& options = {});
[[nodiscard]] base::Result<WeatherImport> read_tmy3(std::string_view bytes, const std::string& file,
                                                    const ReadOptions& options = {});
[[nodiscard]] base::Result<WeatherImport> read_tmy2(std::string_view bytes, const std::string& file,
                                                    const ReadOptions& options = {});
/// The same three, hour by hour.
[[nodiscard]] base::Result<HourlyWeather> read_epw_hours(std::string_view bytes, const std::string& file);
[[nodiscard]] base::Result<HourlyWeather> read_tmy3_hours(std::string_view bytes, const std::string& file);
[[nodiscard]] base::Result<HourlyWeather> read_tmy2_hours(std::string_view bytes, const std::string& file);
/// JSON of public services: an object of equal-long arrays, or an array of objects, wide or long.
[[nodiscard]] base::Result<WeatherImport> read_weather_json(std::string_view bytes, const std::string& file,
                                                            const ReadOptions& options = {});
/// Any table with a heading line: columns, units and date form from the headings, the data, or the options.
[[nodiscard]] base::Result<WeatherImport> read_weather_table(std::string_view bytes, const std::string& file,
                                                             const ReadOptions& options = {});

}  // namespace sowtide::climate
