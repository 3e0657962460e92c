#include "climate/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "climate/detail/figure_reader.hpp"
#include "climate/risk_figures.hpp"

namespace sowtide::climate {
namespace {

using base::FigureDescription;
using base::FigureKey;

FigureKey needed(std::string name, std::string unit, std::string text) {
  return {std::move(name), std::move(unit), true, std::move(text)};
}

FigureKey optional(std::string name, std::string unit, std::string text) {
  return {std::move(name), std::move(unit), false, std::move(text)};
}

FigureKey latitude_key() {
  return needed("lat", "°", "Latitude, north positive, -90 to 90");
}
FigureKey date_key() {
  return needed("date", "", "Day, as 2026-04-09");
}
FigureKey elevation_key() {
  return needed("elevation_m", "m", "Height above the sea");
}

std::vector<FigureKey> joined(std::vector<FigureKey> first, std::vector<FigureKey> second) {
  first.insert(first.end(), std::make_move_iterator(second.begin()), std::make_move_iterator(second.end()));
  return first;
}

std::vector<FigureKey> humidity_keys() {
  return {optional("vapour_pressure_kpa", "kPa", "Actual vapour pressure: the best to have"),
          optional("dewpoint_c", "°C", "Dew point: next best"),
          optional("rh_max_pct", "%", "Highest relative humidity of the day"),
          optional("rh_min_pct", "%", "Lowest relative humidity of the day"),
          optional("rh_mean_pct", "%",
                   "Mean relative humidity; with none of these the dew point is taken as tmin_c")};
}

std::vector<FigureKey> wind_keys() {
  return {optional("wind_2m_ms", "m/s", "Mean wind at 2 m; 2 m/s is assumed where none is known"),
          optional("wind_ms", "m/s", "Mean wind at another height"),
          optional("wind_height_m", "m", "Height of that anemometer, from 0.5 m")};
}

std::vector<FigureKey> day_weather_keys() {
  std::vector<FigureKey> keys{elevation_key(), needed("tmin_c", "°C", "Lowest air temperature"),
                              needed("tmax_c", "°C", "Highest air temperature")};
  keys = joined(std::move(keys), humidity_keys());
  keys = joined(std::move(keys), wind_keys());
  return joined(std::move(keys),
                {optional("radiation_mj_m2", "MJ/m²/d", "Measured solar radiation"),
                 optional("sunshine_h", "h", "Hours of bright sunshine, used where radiation is not known"),
                 optional("k_rs", "",
                          "Coefficient of the temperature range, used where neither is known: 0.16 inland, "
                          "0.19 coast")});
}

std::vector<FigureDescription> sun_figures() {
  return {
      {"daylight",
       "Hours from sunrise to sunset of the sun's centre over a level horizon (FAO-56)",
       {latitude_key(), date_key()},
       "lat=-20 date=2026-09-03"},
      {"day-length",
       "Day length of the almanac, with rise, noon and set",
       {latitude_key(), date_key(), optional("lon", "°", "Longitude, east positive; 0 where not given"),
        optional("utc_offset_h", "h", "Clock ahead of UTC; the mean solar time of the place where not given"),
        optional("horizon_deg", "°",
                 "Elevation of the sun's centre at rise and set; -0.833 where not given")},
       "lat=39.742476 lon=-105.1786 date=2015-01-02 utc_offset_h=-7"},
      {"extraterrestrial-radiation",
       "Daily radiation at the top of the air on a level surface (FAO-56)",
       {latitude_key(), date_key()},
       "lat=-20 date=2026-09-03"},
      {"clear-sky-radiation",
       "Daily radiation on the ground under a clear sky (FAO-56)",
       {latitude_key(), date_key(), optional("elevation_m", "m", "Height above the sea; 0 where not given"),
        optional("vapour_pressure_kpa", "kPa", "Adds the value with moisture and air mass (ASCE-EWRI 2005)")},
       "lat=40 date=2026-06-21 elevation_m=1600"},
      {"sun-position",
       "Where the sun stands at a moment",
       {latitude_key(), needed("lon", "°", "Longitude, east positive, -180 to 180"),
        needed("utc", "", "Moment of universal time, as 2003-10-17T19:30:30Z"),
        optional("elevation_m", "m", "Height above the sea; 0 where not given"),
        optional("pressure_mbar", "mbar", "Air pressure, for refraction; that of the height where not given"),
        optional("temp_c", "°C", "Air temperature, for refraction; 10 where not given"),
        optional("slope_deg", "°", "Slope of a plane, for the angle of incidence; needs aspect_deg"),
        optional("aspect_deg", "°", "Direction the plane faces, from north, eastward: 180 is south")},
       "lat=39.742476 lon=-105.1786 utc=2003-10-17T19:30:30Z elevation_m=1830.14 pressure_mbar=820 "
       "temp_c=11"},
      {"beam-and-diffuse",
       "Sunlight parted into beam and diffuse, and what falls on a sloping plane, as a cold frame's lid",
       {needed("zenith_deg", "°", "Angle of the sun from straight above (`figure sun-position`)"), date_key(),
        optional("global_w_m2", "W/m²", "Light on a level surface; that of a clear sky where not given"),
        optional("slope_deg", "°", "Slope of a plane; needs incidence_deg"),
        optional("incidence_deg", "°", "Angle of the sun to the plane's normal (`figure sun-position`)"),
        optional("albedo", "1", "Share that the ground throws back; 0.23 where not given")},
       "zenith_deg=40 date=2026-04-15 slope_deg=30 incidence_deg=12"},
      {"daily-light",
       "Light of a day that plants use, by energy and in photons",
       {needed("radiation_mj_m2", "MJ/m²", "Solar radiation of the day on the ground"),
        optional("share", "1", "Share of it that plants use; 0.5 where not given")},
       "radiation_mj_m2=20"},
  };
}

std::vector<FigureDescription> evapotranspiration_figures() {
  return {
      {"et0",
       "Reference evapotranspiration of one day, FAO-56 Penman-Monteith with its rules for missing data",
       joined({date_key(), latitude_key()}, day_weather_keys()),
       "date=2026-07-06 lat=50.8 elevation_m=100 tmin_c=12.3 tmax_c=21.5 rh_max_pct=84 rh_min_pct=63 "
       "wind_ms=2.78 "
       "wind_height_m=10 sunshine_h=9.25"},
      {"et0-monthly", "Reference evapotranspiration of the mean day of a month, FAO-56 Penman-Monteith",
       joined(joined({needed("month", "", "1 to 12"), latitude_key()}, day_weather_keys()),
              {needed("previous_month_c", "°C", "Mean temperature of the month before"),
               optional("next_month_c", "°C", "Mean temperature of the month after")}),
       "month=4 lat=13.73 elevation_m=2 tmin_c=25.6 tmax_c=34.8 vapour_pressure_kpa=2.85 wind_2m_ms=2 "
       "sunshine_h=8.5 "
       "previous_month_c=29.2"},
      {"et0-hourly", "Reference evapotranspiration of one hour, FAO-56 Penman-Monteith",
       joined(
           joined({date_key(),
                   needed("hour", "h", "Middle of the hour on the standard clock: 14.5 for 14 to 15"),
                   needed("utc_offset_h", "h", "Standard clock ahead of UTC"), latitude_key(),
                   needed("lon", "°", "Longitude, east positive"), elevation_key(),
                   needed("temp_c", "°C", "Mean air temperature of the hour"),
                   optional("vapour_pressure_kpa", "kPa", "Actual vapour pressure"),
                   optional("dewpoint_c", "°C", "Dew point"),
                   optional("rh_pct", "%", "Mean relative humidity; one of the three must be given")},
                  wind_keys()),
           {needed("radiation_mj_m2", "MJ/m²/h", "Solar radiation of the hour"),
            optional("clearness", "", "Rs/Rso before sunset, for hours without sun; 0.6 where not given")}),
       "date=2026-10-01 hour=14.5 utc_offset_h=-1 lat=16.2167 lon=-16.25 elevation_m=8 temp_c=38 rh_pct=52 "
       "wind_2m_ms=3.3 radiation_mj_m2=2.45"},
      {"et0-hargreaves",
       "Reference evapotranspiration of one day from temperatures alone",
       {date_key(), latitude_key(), needed("tmin_c", "°C", "Lowest air temperature"),
        needed("tmax_c", "°C", "Highest air temperature")},
       "date=2026-07-15 lat=45.72 tmin_c=14.8 tmax_c=26.6"},
      {"vapour-pressure", "Saturation and actual vapour pressure, deficit and dew point",
       joined(joined({optional("temp_c", "°C", "Air temperature; or give both extremes"),
                      optional("tmin_c", "°C", "Lowest air temperature of the day"),
                      optional("tmax_c", "°C", "Highest air temperature of the day"),
                      optional("elevation_m", "m", "Height above the sea; 0 where not given")},
                     humidity_keys()),
              {optional("wet_bulb_c", "°C", "Wet bulb of a ventilated psychrometer; needs dry_bulb_c"),
               optional("dry_bulb_c", "°C", "Dry bulb")}),
       "tmin_c=18 tmax_c=25 rh_max_pct=82 rh_min_pct=54"},
  };
}

std::vector<FigureDescription> thermal_figures() {
  return {
      {"growing-degree-days",
       "Degree-days of one day by a named method",
       {optional("method", "",
                 "average, adjusted-average, meteorological, single-triangle, double-triangle, single-sine "
                 "(where not given) or double-sine"),
        needed("base_c", "°C", "Lower threshold"), optional("upper_c", "°C", "Upper threshold"),
        optional("cutoff", "",
                 "What heat above the upper threshold does: horizontal (where not given), intermediate or "
                 "vertical"),
        needed("tmin_c", "°C", "Lowest air temperature"), needed("tmax_c", "°C", "Highest air temperature"),
        optional("next_tmin_c", "°C", "Lowest of the night after, for the double methods")},
       "method=single-sine base_c=12 upper_c=33 tmin_c=7.8 tmax_c=19.4"},
      {"thermal-time",
       "Thermal time of one day over hourly temperatures",
       {needed("base_c", "°C", "Nothing happens below"), needed("optimum_c", "°C", "Fastest here"),
        needed("ceiling_c", "°C", "Nothing happens above"),
        needed("tmin_c", "°C", "Lowest temperature of the day"),
        needed("tmax_c", "°C", "Highest temperature of the day"),
        optional("day_length_h", "h", "Hours from sunrise to sunset; 12 where not given")},
       "base_c=5 optimum_c=28 ceiling_c=36 tmin_c=8 tmax_c=22"},
      {"chill",
       "Winter chill as hours, Utah units and portions, and heat as growing-degree-hours, over hourly "
       "temperatures",
       {needed("lat", "°", "Latitude, north positive, -90 to 90"),
        optional("weather", "", "Weather file with daily minimum and maximum; or give one day"),
        optional("from", "", "First day of the record that counts; its first where not given"),
        optional("to", "", "Last day that counts; the record's last where not given"),
        optional("tmin_c", "°C", "Lowest temperature of one day"),
        optional("tmax_c", "°C", "Highest temperature of one day"),
        optional("date", "", "That day, as 2026-01-09"),
        optional("days", "", "How often that day comes in a row; once where not given")},
       "lat=51.8 date=2026-01-09 tmin_c=2 tmax_c=8 days=30"},
  };
}

std::vector<FigureDescription> soil_figures() {
  return {
      {"soil-temperature",
       "Daily soil temperature at a depth, from a weather record",
       {needed("weather", "", "Weather file with daily minimum and maximum"), latitude_key(),
        needed("depth_mm", "mm", "Depth, 0 to 500"), optional("lon", "°", "Longitude, east positive"),
        optional("elevation_m", "m", "Height above the sea"),
        optional("place", "", "ground (where not given), raised-bed or tray"),
        optional("soil", "", "sand, loam (where not given), clay or compost-mix"),
        optional("cover", "", "bare (where not given), grass, straw, leaves, clear-film or black-film"),
        optional("shelter", "", "none (where not given), row-cover or cold-frame"),
        optional("watered", "", "yes (where not given): the top is kept from drying out; or no"),
        optional("bed_height_m", "m", "Of a raised bed; 0.3 where not given"),
        optional("bed_width_m", "m", "Of a raised bed; 1.2 where not given"),
        optional("tray_depth_mm", "mm", "Of a tray; 50 where not given"),
        optional("room_c", "°C", "Mean temperature of the room a tray stands in; outdoors where not given"),
        optional("mat_c", "°C", "Thermostat of the mat under a tray")},
       "weather=record.csv lat=47.4 depth_mm=50 cover=bare soil=loam"},
  };
}

using Explainer = base::Result<base::Explanation> (*)(const base::FigureInputs&);

constexpr std::array<std::pair<std::string_view, Explainer>, 14> kExplainers{{
    {"daylight", explain_daylight},
    {"day-length", explain_day_length},
    {"extraterrestrial-radiation", explain_extraterrestrial_radiation},
    {"clear-sky-radiation", explain_clear_sky_radiation},
    {"sun-position", explain_sun_position},
    {"beam-and-diffuse", explain_beam_and_diffuse},
    {"daily-light", explain_daily_light},
    {"et0", explain_et0},
    {"et0-monthly", explain_et0_monthly},
    {"et0-hourly", explain_et0_hourly},
    {"et0-hargreaves", explain_et0_hargreaves},
    {"vapour-pressure", explain_vapour_pressure},
    {"growing-degree-days", explain_growing_degree_days},
    {"thermal-time", explain_thermal_time},
}};

}  // namespace

const std::vector<FigureDescription>& climate_figures() {
  static const std::vector<FigureDescription> kFigures = [] {
    std::vector<FigureDescription> all = sun_figures();
    for (auto* part : {evapotranspiration_figures, thermal_figures, soil_figures, risk_figures}) {
      for (FigureDescription& figure : part()) all.push_back(std::move(figure));
    }
    return all;
  }();
  return kFigures;
}

const FigureDescription& detail::described(std::string_view name) {
  const auto& all = climate_figures();
  return *std::find_if(all.begin(), all.end(),
                       [name](const FigureDescription& figure) { return figure.name == name; });
}

base::Result<base::Explanation> climate_figure(std::string_view name, const base::FigureInputs& inputs,
                                               const WeatherRecord* weather) {
  if (name == "soil-temperature") return explain_soil_temperature(inputs, weather);
  if (name == "chill") return explain_chill(inputs, weather);
  if (name == "frost-dates") return explain_frost_dates(inputs, weather);
  for (const auto& [known, explain] : kExplainers) {
    if (known == name) return explain(inputs);
  }
  return base::fail(base::ProblemCode::not_found, fmt::format("no figure \"{}\" in the climate room", name),
                    {}, "sowtide figure --list shows all of them");
}

}  // namespace sowtide::climate
