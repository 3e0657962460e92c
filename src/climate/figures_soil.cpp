#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "climate/detail/figure_reader.hpp"
#include "climate/figures.hpp"
#include "climate/soil_temperature.hpp"
#include "climate/sun.hpp"
#include "climate/vapour.hpp"

namespace sowtide::climate {
namespace {

using base::Explanation;
using base::FigureInputs;
using base::ProblemCode;
using base::Result;
using detail::FigureReader;

/// A word of a fixed list under a key; refused with the list where it is none of them.
template <class Enum>
Enum word(FigureReader& in, const std::string& key, const char* otherwise,
          std::optional<Enum> (*from)(std::string_view) noexcept, const char* all) {
  const auto value = from(in.text_or(key, otherwise));
  if (!value) in.refuse(ProblemCode::not_found, key, "is not known here", fmt::format("Use one of: {}", all));
  return value.value_or(Enum{});
}

SoilSetting read_setting(FigureReader& in) {
  SoilSetting setting;
  setting.place = word(in, "place", "ground", soil_place_from, "ground, raised-bed, tray");
  setting.texture = word(in, "soil", "loam", soil_texture_from, "sand, loam, clay, compost-mix");
  setting.cover =
      word(in, "cover", "bare", soil_cover_from, "bare, grass, straw, leaves, clear-film, black-film");
  setting.shelter = word(in, "shelter", "none", soil_shelter_from, "none, row-cover, cold-frame");
  const std::string watered = in.text_or("watered", "yes");
  if (watered != "yes" && watered != "no") in.refuse(ProblemCode::wrong_type, "watered", "must be yes or no");
  setting.watered = watered == "yes";
  if (setting.place == SoilPlace::raised_bed) {
    setting.bed.height_m = in.number_or("bed_height_m", 0.05, 1.5, setting.bed.height_m);
    setting.bed.width_m = in.number_or("bed_width_m", 0.2, 5.0, setting.bed.width_m);
  }
  if (setting.place == SoilPlace::tray) {
    setting.tray.depth_m = 0.001 * in.number_or("tray_depth_mm", 10.0, 300.0, 1000.0 * setting.tray.depth_m);
    setting.tray.room_c = in.maybe("room_c", -20.0, 45.0);
    setting.tray.mat_c = in.maybe("mat_c", 0.0, 40.0);
  }
  return setting;
}

/// The arrays of a record as the model wants them: each whole or not at all.
struct OwnedSoilWeather {
  std::vector<double> rain_mm, radiation_mj_m2, vapour_pressure_kpa, wind_2m_ms;
};

bool whole(const std::vector<double>& values) {
  return !values.empty() &&
         std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); });
}

OwnedSoilWeather gather(const WeatherRecord& record) {
  OwnedSoilWeather made;
  made.rain_mm = record.values(Variable::rain);
  for (double& rain : made.rain_mm) rain = std::isfinite(rain) ? rain : 0.0;
  if (whole(record.values(Variable::wind))) made.wind_2m_ms = record.values(Variable::wind);
  if (whole(record.values(Variable::radiation))) {
    made.radiation_mj_m2 = record.values(Variable::radiation);
  } else if (whole(record.values(Variable::sunshine))) {
    for (std::size_t i = 0; i < record.day_count(); ++i) {
      made.radiation_mj_m2.push_back(
          radiation_from_sunshine(base::Hours::of(record.values(Variable::sunshine)[i]),
                                  base::Degrees::of(record.site.latitude_deg),
                                  base::day_of_year(record.date_at(i)))
              .value());
    }
  }
  if (whole(record.values(Variable::humidity))) {
    for (std::size_t i = 0; i < record.day_count(); ++i) {
      const auto saturation =
          mean_saturation_vapour_pressure(base::Celsius::of(record.values(Variable::tmin)[i]),
                                          base::Celsius::of(record.values(Variable::tmax)[i]));
      made.vapour_pressure_kpa.push_back(saturation.value() * record.values(Variable::humidity)[i] / 100.0);
    }
  }
  return made;
}

}  // namespace

Result<Explanation> explain_soil_temperature(const FigureInputs& inputs, const WeatherRecord* record) {
  FigureReader in(detail::described("soil-temperature"), inputs);
  if (!in.problem() && record == nullptr) {
    in.refuse(ProblemCode::file_missing, "weather", "no weather record was read from this file");
  }
  const std::string file = in.text_or("weather", "");
  Site site = record == nullptr ? Site{} : record->site;
  site.latitude_deg = in.number("lat", -90.0, 90.0);
  site.longitude_deg = in.number_or("lon", -180.0, 180.0, site.longitude_deg);
  site.elevation_m =
      in.number_or("elevation_m", detail::kLowestElevationM, detail::kHighestElevationM, site.elevation_m);
  const double depth_mm = in.number("depth_mm", 0.0, 500.0);
  const SoilSetting setting = read_setting(in);
  if (in.problem()) return in.failure();

  WeatherRecord placed = *record;
  placed.site = site;
  const OwnedSoilWeather owned = gather(placed);
  SoilWeather weather{.site = site, .first = placed.first};
  weather.tmin_c = placed.values(Variable::tmin);
  weather.tmax_c = placed.values(Variable::tmax);
  weather.rain_mm = owned.rain_mm;
  weather.radiation_mj_m2 = owned.radiation_mj_m2;
  weather.vapour_pressure_kpa = owned.vapour_pressure_kpa;
  weather.wind_2m_ms = owned.wind_2m_ms;
  const std::array<base::Millimetres, 1> depths{base::Millimetres::of(depth_mm)};
  auto computed = soil_temperature_daily(weather, setting, depths);
  if (!computed) {
    computed.error().where.file = file;
    return tl::unexpected<base::Problem>(computed.error());
  }
  SoilTemperatures& series = computed->front();
  const std::size_t days = series.tmean_c.size();
  const double mean =
      std::accumulate(series.tmean_c.begin(), series.tmean_c.end(), 0.0) / static_cast<double>(days);
  Explanation out = in.explanation();
  const auto source_of = [](const std::vector<double>& values, const char* otherwise) {
    return values.empty() ? otherwise : "from the record";
  };
  out.working = {
      fmt::format("{} days from {}; radiation {}, humidity {}, wind {}", days, base::to_iso(placed.first),
                  source_of(owned.radiation_mj_m2, "from the temperature range"),
                  source_of(owned.vapour_pressure_kpa, "as moist as at the minimum"),
                  source_of(owned.wind_2m_ms, "2 m/s, assumed")),
      "heat conduction in 16 cells to 4 m (a tray: 5), steps of two hours, heat balance of the surface above",
      fmt::format("mean of all days at {} mm = {:.2f} °C", depth_mm, mean)};
  std::vector<std::string> dates;
  for (std::size_t i = 0; i < days; ++i) dates.push_back(base::to_iso(placed.date_at(i)));
  out.result = {{"mean_c", mean, "°C"},
                {"tmean_c", std::move(series.tmean_c), "°C"},
                {"tmin_c", std::move(series.tmin_c), "°C"},
                {"tmax_c", std::move(series.tmax_c), "°C"},
                {"date", std::move(dates), ""}};
  out.source = {
      "Heat conduction with a linear surface balance; S. Lu, T. Ren, Y. Gong and R. Horton 2007, Soil Sci. "
      "Soc. "
      "Am. J. 71:8 (conductivity); D. A. de Vries 1963, in Physics of Plant Environment (heat capacity)",
      fmt::format("{}, eq. 39 and chapter 7 (longwave, evaporation)", detail::kFao56)};
  return out;
}

}  // namespace sowtide::climate
