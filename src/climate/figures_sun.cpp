#include <fmt/format.h>

#include <cmath>

#include "base/csv.hpp"
#include "climate/detail/figure_reader.hpp"
#include "climate/figures.hpp"
#include "climate/radiation.hpp"
#include "climate/solar_position.hpp"
#include "climate/sun.hpp"
#include "climate/vapour.hpp"

namespace sowtide::climate {
namespace {

using base::Explanation;
using base::FigureInputs;
using base::Result;
using detail::FigureReader;

/// Reads exactly "YYYY-MM-DDTHH:MM:SS", a final Z allowed, seconds may carry a fraction.
std::optional<UtcTime> parse_utc(std::string_view text) {
  if (!text.empty() && (text.back() == 'Z' || text.back() == 'z')) text.remove_suffix(1);
  if (text.size() < 16 || (text[10] != 'T' && text[10] != ' ') || text[13] != ':') return std::nullopt;
  const auto date = base::parse_iso_date(text.substr(0, 10));
  const auto digits = [](std::string_view part) {
    return part.find_first_not_of("0123456789.") == std::string_view::npos ? base::parse_number(part)
                                                                           : std::nullopt;
  };
  const auto hour = digits(text.substr(11, 2));
  const auto minute = digits(text.substr(14, 2));
  std::optional<double> second = 0.0;
  if (text.size() > 16) second = text[16] == ':' ? digits(text.substr(17)) : std::nullopt;
  if (!date || !hour || !minute || !second) return std::nullopt;
  if (*hour > 23.0 || *minute > 59.0 || *second >= 60.0) return std::nullopt;
  const double seconds = *hour * 3600.0 + *minute * 60.0 + *second;
  return UtcTime{*date} + std::chrono::milliseconds{std::llround(seconds * 1000.0)};
}

/// "07:21:55" on a clock `utc_offset_h` ahead of UTC.
std::string clock_text(UtcTime moment, double utc_offset_h) {
  const auto shifted = moment + std::chrono::milliseconds{std::llround(utc_offset_h * 3'600'000.0)};
  const auto day = std::chrono::floor<std::chrono::days>(shifted);
  const auto seconds = std::chrono::round<std::chrono::seconds>(shifted - day).count();
  return fmt::format("{:02}:{:02}:{:02}", seconds / 3600 % 24, seconds / 60 % 60, seconds % 60);
}

double latitude(FigureReader& in) {
  return in.number("lat", -90.0, 90.0);
}
double longitude(FigureReader& in) {
  return in.number("lon", -180.0, 180.0);
}
double elevation_or_sea_level(FigureReader& in) {
  return in.number_or("elevation_m", detail::kLowestElevationM, detail::kHighestElevationM, 0.0);
}

std::string distance_and_declination(int day_of_year) {
  return fmt::format(
      "J = {}; dr = 1 + 0.033 cos(2π J/365) = {:.4f}; δ = 0.409 sin(2π J/365 - 1.39) = {:.4f} rad",
      day_of_year, inverse_relative_distance(day_of_year), solar_declination_rad(day_of_year));
}

std::string sunset_angle(double lat, int day_of_year) {
  return fmt::format("ωs = arccos(-tan φ tan δ) = {:.4f} rad",
                     sunset_hour_angle_rad(base::Degrees::of(lat), day_of_year));
}

void add_day_events(const SunDay& day, double utc_offset_h, Explanation& out) {
  out.result.push_back({"transit", clock_text(day.transit, utc_offset_h), "local clock"});
  out.result.push_back({"noon_elevation_deg", day.transit_elevation_deg, "°"});
  if (day.rise) out.result.push_back({"rise", clock_text(*day.rise, utc_offset_h), "local clock"});
  if (day.set) out.result.push_back({"set", clock_text(*day.set, utc_offset_h), "local clock"});
}

std::string kind_text(const SunDay& day) {
  switch (day.kind) {
    case SunDayKind::rises_and_sets:
      if (!day.set) return "The sun rises and is still up half a day after noon";
      return day.rise ? "The sun rises and sets" : "The sun is up half a day before noon already, and sets";
    case SunDayKind::polar_day:
      return "The sun stays above the horizon all day";
    case SunDayKind::polar_night:
      return "The sun stays below the horizon all day";
  }
  return "";
}

}  // namespace

Result<Explanation> explain_daylight(const FigureInputs& inputs) {
  FigureReader in(detail::described("daylight"), inputs);
  const double lat = latitude(in);
  const int day = base::day_of_year(in.date("date"));
  if (in.problem()) return in.failure();
  Explanation out = in.explanation();
  const double hours = daylight_hours(base::Degrees::of(lat), day).value();
  out.result.push_back({"daylight_h", hours, "h"});
  out.working = {distance_and_declination(day), sunset_angle(lat, day),
                 fmt::format("N = 24 ωs/π = {:.3f} h, centre of the sun over a level horizon", hours)};
  out.source = {fmt::format("{}, eq. 24, 25 and 34", detail::kFao56)};
  return out;
}

Result<Explanation> explain_day_length(const FigureInputs& inputs) {
  FigureReader in(detail::described("day-length"), inputs);
  Observer observer;
  observer.latitude_deg = latitude(in);
  const base::Date date = in.date("date");
  observer.longitude_deg = in.number_or("lon", -180.0, 180.0, 0.0);
  const double offset = in.number_or("utc_offset_h", -12.0, 14.0, observer.longitude_deg / 15.0);
  const double horizon = in.number_or("horizon_deg", -18.0, 45.0, kAlmanacHorizon.value());
  if (in.problem()) return in.failure();
  const SunDay day = sun_day(date, observer, base::Hours::of(offset), base::Degrees::of(horizon));
  Explanation out = in.explanation();
  out.result.push_back({"day_length_h", day.length().value(), "h"});
  add_day_events(day, offset, out);
  out.working = {
      fmt::format("{}; rise and set are where its centre passes {}°", kind_text(day), horizon),
      fmt::format("set less rise, 12 h from noon where there is none = {:.4f} h", day.length().value())};
  out.source = {detail::kMeeus, detail::kRedaAndreas};
  return out;
}

Result<Explanation> explain_extraterrestrial_radiation(const FigureInputs& inputs) {
  FigureReader in(detail::described("extraterrestrial-radiation"), inputs);
  const double lat = latitude(in);
  const int day = base::day_of_year(in.date("date"));
  if (in.problem()) return in.failure();
  Explanation out = in.explanation();
  const double radiation = extraterrestrial_radiation(base::Degrees::of(lat), day).value();
  out.result.push_back({"extraterrestrial_radiation_mj_m2", radiation, "MJ/m²/d"});
  out.result.push_back({"evaporation_equivalent_mm", 0.408 * radiation, "mm/d"});
  out.working = {
      distance_and_declination(day), sunset_angle(lat, day),
      fmt::format("Ra = 24·60/π · 0.0820 dr (ωs sin φ sin δ + cos φ cos δ sin ωs) = {:.3f} MJ/m²/d",
                  radiation)};
  out.source = {fmt::format("{}, eq. 21 to 25", detail::kFao56)};
  return out;
}

Result<Explanation> explain_clear_sky_radiation(const FigureInputs& inputs) {
  FigureReader in(detail::described("clear-sky-radiation"), inputs);
  Site site;
  site.latitude_deg = latitude(in);
  const int day = base::day_of_year(in.date("date"));
  site.elevation_m = elevation_or_sea_level(in);
  const auto vapour = in.maybe("vapour_pressure_kpa", 0.0, 10.0);
  if (in.problem()) return in.failure();
  Explanation out = in.explanation();
  const double top = extraterrestrial_radiation(base::Degrees::of(site.latitude_deg), day).value();
  const double clear = clear_sky_radiation(site, day).value();
  out.result.push_back({"clear_sky_radiation_mj_m2", clear, "MJ/m²/d"});
  out.working = {fmt::format("J = {}; Ra = {:.3f} MJ/m²/d", day, top),
                 fmt::format("Rso = (0.75 + 2·10⁻⁵ z) Ra = {:.3f} MJ/m²/d", clear)};
  out.source = {fmt::format("{}, eq. 21 and 37", detail::kFao56)};
  if (vapour) {
    const base::Kilopascals pressure = air_pressure(base::Metres::of(site.elevation_m));
    const double full = clear_sky_radiation_full(site, day, base::Kilopascals::of(*vapour), pressure).value();
    out.result.push_back({"with_moisture_mj_m2", full, "MJ/m²/d"});
    out.working.push_back(fmt::format(
        "with moisture and air mass, P = {:.2f} kPa: (KB + KD) Ra = {:.3f} MJ/m²/d", pressure.value(), full));
    out.source.emplace_back(
        "ASCE-EWRI 2005, The ASCE standardized reference evapotranspiration equation, appendix D");
  }
  return out;
}

Result<Explanation> explain_sun_position(const FigureInputs& inputs) {
  FigureReader in(detail::described("sun-position"), inputs);
  Observer observer;
  observer.latitude_deg = latitude(in);
  observer.longitude_deg = longitude(in);
  const auto moment = parse_utc(in.text_or("utc", ""));
  if (!moment) {
    in.refuse(base::ProblemCode::syntax, "utc", "is not a moment of universal time",
              "Write it as 2003-10-17T19:30:30Z");
  }
  observer.elevation_m = elevation_or_sea_level(in);
  const double standard_mbar = 10.0 * air_pressure(base::Metres::of(observer.elevation_m)).value();
  observer.pressure_mbar = in.number_or("pressure_mbar", 300.0, 1100.0, standard_mbar);
  observer.air_c = in.number_or("temp_c", detail::kColdestC, detail::kHottestC, 10.0);
  const auto slope = in.maybe("slope_deg", 0.0, 180.0);
  const double aspect = slope ? in.number("aspect_deg", 0.0, 360.0) : 180.0;
  if (in.problem()) return in.failure();
  const SunPosition sun = sun_position(*moment, observer);
  Explanation out = in.explanation();
  out.result = {{"elevation_deg", sun.elevation_deg, "°"},
                {"azimuth_deg", sun.azimuth_deg, "° from north, eastward"},
                {"zenith_deg", sun.zenith_deg(), "°"},
                {"geometric_elevation_deg", sun.geometric_elevation_deg, "°"},
                {"declination_deg", sun.declination_deg, "°"},
                {"right_ascension_deg", sun.right_ascension_deg, "°"},
                {"hour_angle_deg", sun.hour_angle_deg, "°"},
                {"equation_of_time_min", sun.equation_of_time_min, "min"},
                {"distance_au", sun.distance_au, "au"}};
  if (slope) {
    const auto angle = incidence_angle(sun, base::Degrees::of(*slope), base::Degrees::of(aspect));
    out.result.push_back({"incidence_deg", angle.value(), "°"});
  }
  out.working = {fmt::format("Julian day {:.6f}", julian_day(*moment)),
                 fmt::format("apparent place α = {:.5f}°, δ = {:.5f}°, distance {:.7f} au",
                             sun.right_ascension_deg, sun.declination_deg, sun.distance_au),
                 fmt::format("hour angle {:.5f}°; elevation without air {:.5f}°, with refraction {:.5f}°",
                             sun.hour_angle_deg, sun.geometric_elevation_deg, sun.elevation_deg)};
  out.source = {detail::kMeeus, detail::kRedaAndreas};
  return out;
}

}  // namespace sowtide::climate
