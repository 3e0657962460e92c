#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "climate/detail/figure_reader.hpp"
#include "climate/evapotranspiration.hpp"
#include "climate/figures.hpp"

namespace sowtide::climate {
namespace {

using base::Explanation;
using base::FigureInputs;
using base::ProblemCode;
using base::Result;
using detail::FigureReader;

constexpr double kMostVapourKpa = 12.0;  // saturation at 50 °C
constexpr double kMostWindMs = 100.0;
constexpr double kMostRadiationMj = 50.0;  // above anything the top of the air gets

Site read_site(FigureReader& in) {
  Site site;
  site.latitude_deg = in.number("lat", -90.0, 90.0);
  site.elevation_m = in.number("elevation_m", detail::kLowestElevationM, detail::kHighestElevationM);
  return site;
}

void read_extremes(FigureReader& in, double& tmin_c, double& tmax_c) {
  tmin_c = in.number("tmin_c", detail::kColdestC, detail::kHottestC);
  tmax_c = in.number("tmax_c", detail::kColdestC, detail::kHottestC);
  if (!in.problem() && tmin_c > tmax_c) {
    in.refuse(ProblemCode::contradiction, "tmin_c", fmt::format("{} is above tmax_c {}", tmin_c, tmax_c),
              "Give the lower temperature as tmin_c");
  }
}

/// Wind at 2 m from wind_2m_ms, or from wind_ms at wind_height_m; not both.
std::optional<double> read_wind(FigureReader& in) {
  const auto at_two = in.maybe("wind_2m_ms", 0.0, kMostWindMs);
  if (at_two && in.has("wind_ms")) {
    in.refuse(ProblemCode::contradiction, "wind_ms", "is given beside wind_2m_ms", "Give one of the two");
  }
  if (in.has("wind_height_m") && !in.has("wind_ms")) {
    in.refuse(ProblemCode::missing_field, "wind_ms", "is needed with wind_height_m");
  }
  if (at_two || !in.has("wind_ms")) return at_two;
  const double wind = in.number("wind_ms", 0.0, kMostWindMs);
  const double height = in.number("wind_height_m", 0.0, 1000.0);
  const auto brought = wind_at_two_metres(base::MetresPerSecond::of(wind), base::Metres::of(height));
  if (!brought) {
    in.refuse(brought.error().code, "wind_height_m", brought.error().what, brought.error().remedy);
    return std::nullopt;
  }
  return brought->value();
}

Humidity read_humidity(FigureReader& in) {
  Humidity humidity;
  humidity.vapour_pressure_kpa = in.maybe("vapour_pressure_kpa", 0.0, kMostVapourKpa);
  humidity.dewpoint_c = in.maybe("dewpoint_c", detail::kColdestC, detail::kHottestC);
  humidity.rh_max_pct = in.maybe("rh_max_pct", 0.0, 100.0);
  humidity.rh_min_pct = in.maybe("rh_min_pct", 0.0, 100.0);
  humidity.rh_mean_pct = in.maybe("rh_mean_pct", 0.0, 100.0);
  if (!in.problem() && humidity.rh_max_pct && humidity.rh_min_pct &&
      *humidity.rh_min_pct > *humidity.rh_max_pct) {
    in.refuse(ProblemCode::contradiction, "rh_min_pct", "is above rh_max_pct",
              "Give the lower one as rh_min_pct");
  }
  return humidity;
}

DailyWeather read_day(FigureReader& in) {
  DailyWeather day;
  read_extremes(in, day.tmin_c, day.tmax_c);
  day.humidity = read_humidity(in);
  day.wind_2m_ms = read_wind(in);
  day.radiation_mj_m2 = in.maybe("radiation_mj_m2", 0.0, kMostRadiationMj);
  day.sunshine_h = in.maybe("sunshine_h", 0.0, 24.0);
  if (!in.problem() && !day.radiation_mj_m2 && !day.sunshine_h)
    day.k_rs = in.number_or("k_rs", 0.1, 0.3, kInlandKrs);
  return day;
}

void refuse_longer_sunshine(FigureReader& in, const DailyWeather& day, const Site& site, int day_of_year) {
  if (in.problem() || !day.sunshine_h) return;
  const double daylight = daylight_hours(base::Degrees::of(site.latitude_deg), day_of_year).value();
  constexpr double kTwilightAllowanceH = 0.75;  // N of eq. 34 is for the sun's centre over a level horizon
  if (*day.sunshine_h > daylight + kTwilightAllowanceH) {
    in.refuse(ProblemCode::out_of_range, "sunshine_h",
              fmt::format("{} h is more than the day has ({:.1f} h)", *day.sunshine_h, daylight));
  }
}

/// A twilight sky lights the ground a little when the sun's centre is down, and instruments err.
constexpr double kDailyAllowanceMj = 0.5;
constexpr double kHourlyAllowanceMj = 0.1;
/// Clouds beside the sun gather light: an hour may have somewhat more than the top of the air's level share.
constexpr double kGatheredLight = 1.2;
/// Air holds no more vapour than its warmest hour allows, but for the digits of its measurement.
constexpr double kVapourAllowance = 1.05;
constexpr double kDewpointAllowanceK = 0.5;

void refuse_stronger_light(FigureReader& in, double radiation_mj_m2, double most_mj_m2) {
  if (radiation_mj_m2 <= most_mj_m2) return;
  in.refuse(ProblemCode::contradiction, "radiation_mj_m2",
            fmt::format("{} MJ/m² is more than the sun gives there then ({:.2f} at most)", radiation_mj_m2, most_mj_m2),
            "Check the unit, the date and the hour");
}

void refuse_moister_air(FigureReader& in, std::optional<double> vapour_kpa, std::optional<double> dewpoint_c, double warmest_c) {
  const double most_kpa = kVapourAllowance * saturation_vapour_pressure(base::Celsius::of(warmest_c)).value();
  if (vapour_kpa && *vapour_kpa > most_kpa) {
    in.refuse(ProblemCode::contradiction, "vapour_pressure_kpa",
              fmt::format("{} kPa is more than air of {} °C holds ({:.2f})", *vapour_kpa, warmest_c, most_kpa));
  }
  if (dewpoint_c && *dewpoint_c > warmest_c + kDewpointAllowanceK) {
    in.refuse(ProblemCode::contradiction, "dewpoint_c", fmt::format("{} is above the air's {} °C", *dewpoint_c, warmest_c));
  }
}

void refuse_impossible_day(FigureReader& in, const DailyWeather& day, const Site& site, int day_of_year) {
  refuse_longer_sunshine(in, day, site, day_of_year);
  if (in.problem()) return;
  refuse_moister_air(in, day.humidity.vapour_pressure_kpa, day.humidity.dewpoint_c, day.tmax_c);
  if (!day.radiation_mj_m2) return;
  const double top = extraterrestrial_radiation(base::Degrees::of(site.latitude_deg), day_of_year).value();
  refuse_stronger_light(in, *day.radiation_mj_m2, top + kDailyAllowanceMj);
}

std::vector<std::string> daily_working(const EvapotranspirationTerms& t) {
  return {
      fmt::format("Tmean = {:.2f} °C; P = {:.2f} kPa; γ = {:.5f} kPa/°C; Δ = {:.4f} kPa/°C", t.tmean_c,
                  t.pressure_kpa, t.gamma_kpa_k, t.slope_kpa_k),
      fmt::format("es = {:.3f} kPa; ea = {:.3f} kPa, {}", t.saturation_kpa, t.vapour.actual.value(),
                  vapour_rule_text(t.vapour.rule)),
      fmt::format("u2 = {:.3f} m/s{}", t.wind_2m_ms,
                  t.wind_assumed ? ", assumed since no wind is known" : ""),
      fmt::format("Ra = {:.2f}, N = {:.2f} h, Rs = {:.2f} MJ/m²/d {}; Rso = {:.2f}", t.extraterrestrial_mj_m2,
                  t.daylight_h, t.radiation_mj_m2, radiation_rule_text(t.radiation_rule), t.clear_sky_mj_m2),
      fmt::format("Rns = 0.77 Rs = {:.2f}; Rnl = {:.2f}; Rn = {:.2f}; G = {:.2f} MJ/m²/d",
                  t.net_shortwave_mj_m2, t.net_longwave_mj_m2, t.net_mj_m2, t.soil_heat_mj_m2),
      fmt::format(
          "ETo = [0.408 Δ (Rn - G) + γ 900/(T + 273) u2 (es - ea)] / [Δ + γ (1 + 0.34 u2)] = {:.3f} mm/d",
          t.et0_mm)};
}

void add_daily_result(const EvapotranspirationTerms& t, Explanation& out) {
  out.result = {{"et0_mm", std::max(0.0, t.et0_mm), "mm/d"},
                {"net_radiation_mj_m2", t.net_mj_m2, "MJ/m²/d"},
                {"radiation_mj_m2", t.radiation_mj_m2, "MJ/m²/d"},
                {"vapour_pressure_kpa", t.vapour.actual.value(), "kPa"},
                {"saturation_vapour_pressure_kpa", t.saturation_kpa, "kPa"},
                {"wind_2m_ms", t.wind_2m_ms, "m/s"}};
  out.working = daily_working(t);
}

}  // namespace

Result<Explanation> explain_et0(const FigureInputs& inputs) {
  FigureReader in(detail::described("et0"), inputs);
  const int day_of_year = base::day_of_year(in.date("date"));
  const Site site = read_site(in);
  const DailyWeather day = read_day(in);
  refuse_impossible_day(in, day, site, day_of_year);
  if (in.problem()) return in.failure();
  Explanation out = in.explanation();
  add_daily_result(evapotranspiration_terms(day, site, day_of_year), out);
  out.source = {fmt::format("{}, eq. 6 and chapter 3", detail::kFao56)};
  return out;
}

Result<Explanation> explain_et0_monthly(const FigureInputs& inputs) {
  FigureReader in(detail::described("et0-monthly"), inputs);
  const double month = in.number("month", 1.0, 12.0);
  if (!in.problem() && month != std::floor(month)) {
    in.refuse(ProblemCode::out_of_range, "month", "must be a whole number from 1 to 12");
  }
  const Site site = read_site(in);
  const DailyWeather day = read_day(in);
  const double previous = in.number("previous_month_c", detail::kColdestC, detail::kHottestC);
  const auto next = in.maybe("next_month_c", detail::kColdestC, detail::kHottestC);
  if (in.problem()) return in.failure();
  const int month_number = static_cast<int>(month);
  refuse_impossible_day(in, day, site, mid_month_day_of_year(month_number));
  if (in.problem()) return in.failure();
  Explanation out = in.explanation();
  add_daily_result(evapotranspiration_terms_monthly(day, site, month_number, previous, next), out);
  out.working.insert(out.working.begin(),
                     fmt::format("mean day of the month: the 15th, J = {}; G by eq. {}",
                                 mid_month_day_of_year(month_number), next ? "43" : "44"));
  out.source = {fmt::format("{}, eq. 6, 43 and 44", detail::kFao56)};
  return out;
}

Result<Explanation> explain_et0_hourly(const FigureInputs& inputs) {
  FigureReader in(detail::described("et0-hourly"), inputs);
  HourOfYear when;
  when.day_of_year = base::day_of_year(in.date("date"));
  when.middle_h = in.number("hour", 0.0, 24.0);
  when.zone_meridian_deg = 15.0 * in.number("utc_offset_h", -12.0, 14.0);
  Site site = read_site(in);
  site.longitude_deg = in.number("lon", -180.0, 180.0);
  HourlyWeather hour;
  hour.air_c = in.number("temp_c", detail::kColdestC, detail::kHottestC);
  hour.vapour_pressure_kpa = in.maybe("vapour_pressure_kpa", 0.0, kMostVapourKpa);
  hour.dewpoint_c = in.maybe("dewpoint_c", detail::kColdestC, detail::kHottestC);
  hour.rh_pct = in.maybe("rh_pct", 0.0, 100.0);
  hour.wind_2m_ms = read_wind(in);
  hour.radiation_mj_m2 = in.number("radiation_mj_m2", 0.0, 6.0);
  hour.clearness_before_sunset = in.number_or("clearness", 0.0, 1.0, hour.clearness_before_sunset);
  if (in.problem()) return in.failure();
  const auto terms = evapotranspiration_terms_hourly(hour, site, when);
  if (!terms) return tl::unexpected<base::Problem>(terms.error());
  refuse_moister_air(in, hour.vapour_pressure_kpa, hour.dewpoint_c, hour.air_c);
  refuse_stronger_light(in, hour.radiation_mj_m2, kGatheredLight * terms->extraterrestrial_mj_m2 + kHourlyAllowanceMj);
  if (in.problem()) return in.failure();
  Explanation out = in.explanation();
  out.result = {{"et0_mm", terms->et0_mm, "mm/h"},
                {"net_radiation_mj_m2", terms->net_mj_m2, "MJ/m²/h"},
                {"vapour_pressure_kpa", terms->vapour_kpa, "kPa"}};
  out.working = {
      fmt::format("Sc = {:.4f} h; ω = {:.3f} rad; Ra = {:.3f}; Rso = {:.3f} MJ/m²/h",
                  terms->seasonal_correction_h, terms->solar_angle_rad, terms->extraterrestrial_mj_m2,
                  terms->clear_sky_mj_m2),
      fmt::format("e° = {:.3f} kPa; ea = {:.3f} kPa; Δ = {:.4f}; γ = {:.5f}; u2 = {:.3f} m/s",
                  terms->saturation_kpa, terms->vapour_kpa, terms->slope_kpa_k, terms->gamma_kpa_k,
                  terms->wind_2m_ms),
      fmt::format("Rs/Rso = {:.3f}; Rnl = {:.3f}; Rn = {:.3f}; G = {:.3f} MJ/m²/h", terms->clearness,
                  terms->net_longwave_mj_m2, terms->net_mj_m2, terms->soil_heat_mj_m2),
      fmt::format(
          "ETo = [0.408 Δ (Rn - G) + γ 37/(T + 273) u2 (e° - ea)] / [Δ + γ (1 + 0.34 u2)] = {:.4f} mm/h",
          terms->et0_mm)};
  out.source = {fmt::format("{}, eq. 28 to 33, 45, 46 and 53", detail::kFao56)};
  return out;
}

Result<Explanation> explain_et0_hargreaves(const FigureInputs& inputs) {
  FigureReader in(detail::described("et0-hargreaves"), inputs);
  const int day_of_year = base::day_of_year(in.date("date"));
  const base::Degrees lat = base::Degrees::of(in.number("lat", -90.0, 90.0));
  double tmin_c = 0.0;
  double tmax_c = 0.0;
  read_extremes(in, tmin_c, tmax_c);
  if (in.problem()) return in.failure();
  Explanation out = in.explanation();
  const double et0 = reference_evapotranspiration_hargreaves(base::Celsius::of(tmin_c),
                                                             base::Celsius::of(tmax_c), lat, day_of_year)
                         .value();
  out.result = {{"et0_mm", et0, "mm/d"}};
  out.working = {fmt::format("J = {}; Ra = {:.3f} MJ/m²/d", day_of_year,
                             extraterrestrial_radiation(lat, day_of_year).value()),
                 fmt::format("ETo = 0.0023 (Tmean + 17.8) √(Tmax - Tmin) · 0.408 Ra = {:.3f} mm/d", et0)};
  out.source = {fmt::format("{}, eq. 52", detail::kFao56),
                "G. H. Hargreaves and Z. A. Samani 1985, Reference crop evapotranspiration from temperature, "
                "Appl. Eng. "
                "Agric. 1:96-99"};
  return out;
}

Result<Explanation> explain_vapour_pressure(const FigureInputs& inputs) {
  FigureReader in(detail::described("vapour-pressure"), inputs);
  double tmin_c = 0.0;
  double tmax_c = 0.0;
  if (in.has("temp_c") && (in.has("tmin_c") || in.has("tmax_c"))) {
    in.refuse(ProblemCode::contradiction, "temp_c", "is given beside tmin_c or tmax_c",
              "Give temp_c alone, or tmin_c and tmax_c");
  } else if (in.has("temp_c")) {
    tmin_c = tmax_c = in.number("temp_c", detail::kColdestC, detail::kHottestC);
  } else {
    read_extremes(in, tmin_c, tmax_c);
  }
  const double elevation_m =
      in.number_or("elevation_m", detail::kLowestElevationM, detail::kHighestElevationM, 0.0);
  Humidity humidity = read_humidity(in);
  humidity.wet_bulb_c = in.maybe("wet_bulb_c", detail::kColdestC, detail::kHottestC);
  if (humidity.wet_bulb_c)
    humidity.dry_bulb_c = in.number("dry_bulb_c", detail::kColdestC, detail::kHottestC);
  if (in.problem()) return in.failure();
  const base::Celsius tmin = base::Celsius::of(tmin_c);
  const base::Celsius tmax = base::Celsius::of(tmax_c);
  const base::Kilopascals pressure = air_pressure(base::Metres::of(elevation_m));
  const double saturation = mean_saturation_vapour_pressure(tmin, tmax).value();
  const VapourPressure vapour = actual_vapour_pressure(humidity, tmin, tmax, pressure);
  Explanation out = in.explanation();
  out.result = {{"saturation_vapour_pressure_kpa", saturation, "kPa"},
                {"vapour_pressure_kpa", vapour.actual.value(), "kPa"},
                {"deficit_kpa", saturation - vapour.actual.value(), "kPa"},
                {"slope_kpa_k", saturation_slope_kpa_k(base::Celsius::of(0.5 * (tmin_c + tmax_c))), "kPa/°C"},
                {"pressure_kpa", pressure.value(), "kPa"},
                {"psychrometric_constant_kpa_k", psychrometric_constant_kpa_k(pressure), "kPa/°C"}};
  if (vapour.actual.value() > 0.0)
    out.result.push_back({"dewpoint_c", dew_point(vapour.actual).value(), "°C"});
  out.working = {fmt::format("e°(Tmin) = {:.4f} kPa, e°(Tmax) = {:.4f} kPa; es = {:.4f} kPa",
                             saturation_vapour_pressure(tmin).value(),
                             saturation_vapour_pressure(tmax).value(), saturation),
                 fmt::format("ea = {:.4f} kPa, {}", vapour.actual.value(), vapour_rule_text(vapour.rule)),
                 fmt::format("P = {:.3f} kPa; γ = 0.665·10⁻³ P = {:.5f} kPa/°C", pressure.value(),
                             psychrometric_constant_kpa_k(pressure))};
  out.source = {fmt::format("{}, eq. 7, 8 and 11 to 19", detail::kFao56)};
  return out;
}

}  // namespace sowtide::climate
