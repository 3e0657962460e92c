#include "climate/soil_temperature.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <memory>
#include <utility>

#include "base/parallel.hpp"
#include "climate/detail/soil_column.hpp"
#include "climate/detail/soil_surface.hpp"
#include "climate/evapotranspiration.hpp"
#include "climate/hourly.hpp"
#include "climate/radiation.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate {
namespace {

using base::ProblemCode;
using detail::SoilColumn;
using detail::SoilSurface;
using detail::SurfaceDay;
using detail::SurfaceStep;

constexpr std::size_t kStepsPerDay = 12;
constexpr double kStepS = 86400.0 / kStepsPerDay;
constexpr std::size_t kMostDepths = 8;
constexpr double kDeepestMm = 500.0;
constexpr std::size_t kDaysOfYear = 366;
constexpr std::size_t kLeadInYear = 365;
constexpr std::size_t kShortLeadIn = 30;
constexpr double kRoomEvaporationK = 1.5;  // a moist mix lies this far under the room's air (from memory)
constexpr double kMatRiseK = 11.0;  // most that a household mat lifts a tray over the room (common practice)

/// How each step's temperature is made of the day's extremes, and its share of the day's sun: the same for
/// every year, so it is worked out once for a site.
struct StepWeights {
  double tmin = 0.0, tmax = 0.0, previous_tmax = 0.0, next_tmin = 0.0;
  double sun_w_m2_per_mj = 0.0;
};

class DayShapes {
 public:
  explicit DayShapes(const Site& site) {
    const base::Degrees latitude = base::Degrees::of(site.latitude_deg);
    for (int day = 1; day <= static_cast<int>(kDaysOfYear); ++day) {
      Day& made = days_[static_cast<std::size_t>(day - 1)];
      made.clear_sky_mj_m2 = clear_sky_radiation(site, day).value();
      const double length_h = daylight_hours(latitude, day).value();
      const auto tmin = hourly_temperatures(1.0, 0.0, 0.0, 0.0, length_h);
      const auto tmax = hourly_temperatures(0.0, 1.0, 0.0, 0.0, length_h);
      const auto previous_tmax = hourly_temperatures(0.0, 0.0, 1.0, 0.0, length_h);
      const auto next_tmin = hourly_temperatures(0.0, 0.0, 0.0, 1.0, length_h);
      const auto sun = hourly_radiation(base::DailyRadiation::of(1.0), latitude, day).global_mj_m2;
      for (std::size_t step = 0; step < kStepsPerDay; ++step) {
        const auto mean = [step](const auto& hours) { return 0.5 * (hours[2 * step] + hours[2 * step + 1]); };
        made.steps[step] = {mean(tmin), mean(tmax), mean(previous_tmax), mean(next_tmin),
                            mean(sun) * 1e6 / 3600.0};
      }
    }
  }

  struct Day {
    std::array<StepWeights, kStepsPerDay> steps{};
    double clear_sky_mj_m2 = 0.0;
  };
  [[nodiscard]] const Day& of(int day_of_year) const {
    return days_[static_cast<std::size_t>(day_of_year - 1)];
  }

 private:
  std::array<Day, kDaysOfYear> days_{};
};

double value_or(std::span<const double> values, std::size_t index, double otherwise) {
  return values.empty() ? otherwise : values[index];
}

// FAO-56 annex 6: where the air is dry, the dew point lies 2 to 3 K under the minimum. Dry by the aridity
// index of UNEP 1992, rain over reference evapotranspiration: arid below 0.2, humid above 0.65.
constexpr double kArid = 0.2;
constexpr double kHumid = 0.65;
constexpr double kAridDepressionK = 3.0;

/// How far the dew point is taken to lie under the minimum, K, from the first year's rain; 0 where the rain,
/// or a year of it, is not known.
double dew_point_depression_k(const SoilWeather& weather) {
  if (!weather.vapour_pressure_kpa.empty() || weather.rain_mm.size() < kLeadInYear) return 0.0;
  double rain_mm = 0.0;
  double et0_mm = 0.0;
  const base::Degrees latitude = base::Degrees::of(weather.site.latitude_deg);
  for (std::size_t i = 0; i < kLeadInYear; ++i) {
    rain_mm += weather.rain_mm[i];
    const int day_of_year = base::day_of_year(weather.first + base::Days{static_cast<int>(i)});
    et0_mm += weather.et0_mm.empty() ? reference_evapotranspiration_hargreaves(
                                           base::Celsius::of(weather.tmin_c[i]),
                                           base::Celsius::of(weather.tmax_c[i]), latitude, day_of_year)
                                           .value()
                                     : weather.et0_mm[i];
  }
  const double index = rain_mm / std::max(1.0, et0_mm);
  return kAridDepressionK * std::clamp((kHumid - index) / (kHumid - kArid), 0.0, 1.0);
}

SurfaceDay surface_day(const SoilWeather& weather, std::size_t index, int day_of_year, double clear_sky_mj_m2,
                       double dew_point_depression) {
  SurfaceDay day;
  day.tmin_c = weather.tmin_c[index];
  day.tmax_c = weather.tmax_c[index];
  day.rain_mm = value_or(weather.rain_mm, index, 0.0);
  day.clear_sky_mj_m2 = clear_sky_mj_m2;
  day.wind_2m_ms = value_or(weather.wind_2m_ms, index, kAssumedWind.value());
  DailyWeather known{.tmin_c = day.tmin_c, .tmax_c = day.tmax_c};
  if (!weather.radiation_mj_m2.empty()) known.radiation_mj_m2 = weather.radiation_mj_m2[index];
  if (!weather.vapour_pressure_kpa.empty())
    known.humidity.vapour_pressure_kpa = weather.vapour_pressure_kpa[index];
  known.humidity.dewpoint_below_tmin_k = dew_point_depression;
  known.wind_2m_ms = day.wind_2m_ms;
  if (!weather.et0_mm.empty() && known.radiation_mj_m2) {
    day.et0_mm = weather.et0_mm[index];
    day.radiation_mj_m2 = *known.radiation_mj_m2;
    day.vapour_kpa =
        known.humidity.vapour_pressure_kpa
            ? *known.humidity.vapour_pressure_kpa
            : saturation_vapour_pressure(base::Celsius::of(day.tmin_c - dew_point_depression)).value();
    return day;
  }
  const EvapotranspirationTerms terms = evapotranspiration_terms(known, weather.site, day_of_year);
  day.et0_mm = std::max(0.0, value_or(weather.et0_mm, index, terms.et0_mm));
  day.radiation_mj_m2 = terms.radiation_mj_m2;
  day.vapour_kpa = terms.vapour.actual.value();
  return day;
}

detail::SoilGrid grid_of(const SoilSetting& setting) {
  return setting.place == SoilPlace::tray ? detail::tray_grid(setting.tray.depth_m) : detail::ground_grid();
}

double mean_air_c(const SoilWeather& weather, std::size_t days) {
  double sum = 0.0;
  for (std::size_t i = 0; i < days; ++i) sum += 0.5 * (weather.tmin_c[i] + weather.tmax_c[i]);
  return sum / static_cast<double>(days);
}

/// A run of one setting through one member's days.
class SoilRun {
 public:
  SoilRun(const SoilWeather& weather, const SoilSetting& setting, const DayShapes& shapes,
          std::span<const double> depths_m)
      : weather_(weather),
        shapes_(shapes),
        dew_point_depression_(dew_point_depression_k(weather)),
        column_(grid_of(setting), mean_air_c(weather, lead_in_days())),
        surface_(setting, column_.grid()) {
    for (const double depth_m : depths_m) weights_.push_back(detail::depth_weight(column_.grid(), depth_m));
  }

  /// Brings the column into step: through the first year by whole days, or, where there is less, backwards
  /// through the first month.
  void lead_in() {
    const std::size_t days = lead_in_days();
    for (std::size_t i = 0; i < days; ++i) whole_day(days == kLeadInYear ? i : days - 1 - i);
  }

  /// Calls `keep(depth, day, tmin, tmax, tmean)` for every day.
  template <class Keep>
  void run(const Keep& keep) {
    Calendar calendar(weather_.first);
    for (std::size_t day = 0; day < weather_.tmin_c.size(); ++day, calendar.advance()) {
      const DayShapes::Day& shape = shapes_.of(calendar.day_of_year());
      const SurfaceDay surface =
          surface_day(weather_, day, calendar.day_of_year(), shape.clear_sky_mj_m2, dew_point_depression_);
      surface_.begin_day(surface, kStepS, column_);
      const double previous_tmax = weather_.tmax_c[day == 0 ? day : day - 1];
      const double next_tmin = weather_.tmin_c[day + 1 < weather_.tmin_c.size() ? day + 1 : day];
      for (const StepWeights& weight : shape.steps) {
        const double air_c = weight.tmin * surface.tmin_c + weight.tmax * surface.tmax_c +
                             weight.previous_tmax * previous_tmax + weight.next_tmin * next_tmin;
        surface_.step({air_c, weight.sun_w_m2_per_mj * surface.radiation_mj_m2}, column_);
        gather();
      }
      flush(day, keep);
    }
  }

 private:
  struct Range {
    double low = 1e9, high = -1e9, sum = 0.0;
  };

  /// Day of the year of consecutive days without a division a day.
  class Calendar {
   public:
    explicit Calendar(base::Date first)
        : day_of_year_(base::day_of_year(first)),
          year_(base::year_of(first)),
          length_(base::days_in_year(year_)) {}
    [[nodiscard]] int day_of_year() const { return day_of_year_; }
    void advance() {
      if (++day_of_year_ <= length_) return;
      day_of_year_ = 1;
      length_ = base::days_in_year(++year_);
    }

   private:
    int day_of_year_;
    int year_;
    int length_;
  };

  [[nodiscard]] std::size_t lead_in_days() const {
    const std::size_t days = weather_.tmin_c.size();
    return days >= kLeadInYear ? kLeadInYear : std::min(days, kShortLeadIn);
  }

  void whole_day(std::size_t index) {
    const int day_of_year = base::day_of_year(weather_.first + base::Days{static_cast<int>(index)});
    const SurfaceDay day = surface_day(weather_, index, day_of_year, shapes_.of(day_of_year).clear_sky_mj_m2,
                                       dew_point_depression_);
    surface_.begin_day(day, 86400.0, column_);
    surface_.step({0.5 * (day.tmin_c + day.tmax_c), day.radiation_mj_m2 * 1e6 / 86400.0}, column_);
  }

  void gather() {
    for (std::size_t depth = 0; depth < weights_.size(); ++depth) {
      const double here = weights_[depth].of(column_.temperature_c());
      Range& range = ranges_[depth];
      range.low = std::min(range.low, here);
      range.high = std::max(range.high, here);
      range.sum += here;
    }
  }

  template <class Keep>
  void flush(std::size_t day, const Keep& keep) {
    for (std::size_t depth = 0; depth < weights_.size(); ++depth) {
      const Range& range = ranges_[depth];
      keep(depth, day, range.low, range.high, range.sum / static_cast<double>(kStepsPerDay));
      ranges_[depth] = {};
    }
  }

  const SoilWeather& weather_;
  const DayShapes& shapes_;
  double dew_point_depression_;
  SoilColumn column_;
  SoilSurface surface_;
  std::vector<detail::DepthWeight> weights_;
  std::array<Range, kMostDepths> ranges_{};
};

/// A tray in a room, or kept by a thermostat: its own warmth, without weather.
struct TrayRange {
  double low_c, high_c;
};

TrayRange indoor_tray(const TraySetting& tray) {
  const double mean = *tray.room_c - kRoomEvaporationK;
  // A thin layer of mix follows the room with little loss.
  const double low = mean - 0.5 * tray.room_swing_k;
  const double high = mean + 0.5 * tray.room_swing_k;
  if (!tray.mat_c) return {low, high};
  return {std::clamp(*tray.mat_c, low, low + kMatRiseK), std::clamp(*tray.mat_c, high, high + kMatRiseK)};
}

/// What the mat adds to a tray that stands in the weather: up to its set temperature, as far as its power
/// goes.
double on_mat(const SoilSetting& setting, double temp_c) {
  if (setting.place != SoilPlace::tray || !setting.tray.mat_c) return temp_c;
  return std::clamp(*setting.tray.mat_c, temp_c, temp_c + kMatRiseK);
}

bool is_indoor_tray(const SoilSetting& setting) {
  return setting.place == SoilPlace::tray && setting.tray.room_c.has_value();
}

std::vector<double> depths_in_metres(std::span<const base::Millimetres> depths) {
  std::vector<double> metres;
  for (const base::Millimetres depth : depths) metres.push_back(0.001 * depth.value());
  return metres;
}

/// `first` and `a_day` (values a day) serve to name the day of the first gap.
base::Result<void> check_series(std::span<const double> values, std::size_t count, bool may_be_empty,
                                const char* field, base::Date first, std::ptrdiff_t a_day) {
  if (values.empty() && may_be_empty) return {};
  if (values.size() != count) {
    return base::fail(ProblemCode::insufficient_data,
                      fmt::format("has {} values for {} of temperature", values.size(), count),
                      {.field = field});
  }
  const auto bad =
      std::find_if(values.begin(), values.end(), [](double value) { return !std::isfinite(value); });
  if (bad == values.end()) return {};
  return base::fail(ProblemCode::insufficient_data,
                    "is missing on " + base::to_iso(first + base::Days{(bad - values.begin()) / a_day}),
                    {.field = field}, "Fill the gap, or give days without one");
}

base::Result<void> check_depths(std::span<const base::Millimetres> depths) {
  if (depths.empty() || depths.size() > kMostDepths) {
    return base::fail(ProblemCode::out_of_range, fmt::format("{} depths asked for", depths.size()),
                      {.field = "depth_mm"}, fmt::format("Ask for 1 to {}", kMostDepths));
  }
  for (const base::Millimetres depth : depths) {
    if (!(depth.value() >= 0.0 && depth.value() <= kDeepestMm)) {
      return base::fail(ProblemCode::out_of_range,
                        fmt::format("{} is outside 0 to {} mm", depth.value(), kDeepestMm),
                        {.field = "depth_mm"});
    }
  }
  return {};
}

base::Result<void> check_weather(const SoilWeather& weather) {
  const std::size_t days = weather.tmin_c.size();
  if (days == 0) return base::fail(ProblemCode::empty, "the weather has no days");
  const std::pair<std::span<const double>, const char*> needed[] = {{weather.tmin_c, "tmin"},
                                                                    {weather.tmax_c, "tmax"}};
  const std::pair<std::span<const double>, const char*> optional[] = {
      {weather.rain_mm, "rain"},
      {weather.radiation_mj_m2, "radiation"},
      {weather.vapour_pressure_kpa, "vapour pressure"},
      {weather.wind_2m_ms, "wind"},
      {weather.et0_mm, "reference evapotranspiration"}};
  for (const auto& [values, field] : needed) {
    if (auto checked = check_series(values, days, false, field, weather.first, 1); !checked) return checked;
  }
  for (const auto& [values, field] : optional) {
    if (auto checked = check_series(values, days, true, field, weather.first, 1); !checked) return checked;
  }
  return {};
}

void resize(SoilTemperatures& series, std::size_t count) {
  series.tmin_c.resize(count);
  series.tmax_c.resize(count);
  series.tmean_c.resize(count);
}

SoilTemperatures constant_series(const TrayRange& range, std::size_t count) {
  SoilTemperatures series;
  series.tmin_c.assign(count, range.low_c);
  series.tmax_c.assign(count, range.high_c);
  series.tmean_c.assign(count, 0.5 * (range.low_c + range.high_c));
  return series;
}

template <class Enum, std::size_t Count>
std::optional<Enum> word_from(const std::array<std::pair<std::string_view, Enum>, Count>& words,
                              std::string_view text) noexcept {
  for (const auto& [word, value] : words) {
    if (word == text) return value;
  }
  return std::nullopt;
}

base::Result<void> refuse_outside(double value, double low, double high, const char* field) {
  if (value >= low && value <= high) return {};
  return base::fail(ProblemCode::out_of_range, fmt::format("{} is outside {} to {}", value, low, high),
                    {.field = field});
}

/// One day of hourly weather gathered up for the surface.
SurfaceDay day_of_hours(const HourlySoilWeather& weather, std::size_t day, int day_of_year) {
  constexpr std::size_t kHours = 24;
  const auto hours = weather.air_c.subspan(day * kHours, kHours);
  const auto [low, high] = std::minmax_element(hours.begin(), hours.end());
  const auto mean_of = [day](std::span<const double> values) {
    double sum = 0.0;
    for (const double value : values.subspan(day * kHours, kHours)) sum += value;
    return sum / static_cast<double>(kHours);
  };
  DailyWeather known{.tmin_c = *low, .tmax_c = *high};
  known.radiation_mj_m2 = std::max(0.0, mean_of(weather.radiation_w_m2)) * 86400e-6;
  if (!weather.vapour_pressure_kpa.empty())
    known.humidity.vapour_pressure_kpa = mean_of(weather.vapour_pressure_kpa);
  if (!weather.wind_2m_ms.empty()) known.wind_2m_ms = mean_of(weather.wind_2m_ms);
  const EvapotranspirationTerms terms = evapotranspiration_terms(known, weather.site, day_of_year);
  SurfaceDay made;
  made.tmin_c = *low;
  made.tmax_c = *high;
  made.rain_mm = weather.rain_mm.empty() ? 0.0 : mean_of(weather.rain_mm) * static_cast<double>(kHours);
  made.radiation_mj_m2 = terms.radiation_mj_m2;
  made.clear_sky_mj_m2 = terms.clear_sky_mj_m2;
  made.vapour_kpa = terms.vapour.actual.value();
  made.wind_2m_ms = terms.wind_2m_ms;
  made.et0_mm = std::max(0.0, terms.et0_mm);
  return made;
}

}  // namespace

std::optional<SoilTexture> soil_texture_from(std::string_view text) noexcept {
  static constexpr std::array<std::pair<std::string_view, SoilTexture>, 4> kWords{
      {{"sand", SoilTexture::sand},
       {"loam", SoilTexture::loam},
       {"clay", SoilTexture::clay},
       {"compost-mix", SoilTexture::compost_mix}}};
  return word_from(kWords, text);
}

std::optional<SoilCover> soil_cover_from(std::string_view text) noexcept {
  static constexpr std::array<std::pair<std::string_view, SoilCover>, 6> kWords{
      {{"bare", SoilCover::bare},
       {"grass", SoilCover::grass},
       {"straw", SoilCover::straw},
       {"leaves", SoilCover::leaves},
       {"clear-film", SoilCover::clear_film},
       {"black-film", SoilCover::black_film}}};
  return word_from(kWords, text);
}

std::optional<SoilShelter> soil_shelter_from(std::string_view text) noexcept {
  static constexpr std::array<std::pair<std::string_view, SoilShelter>, 3> kWords{
      {{"none", SoilShelter::none},
       {"row-cover", SoilShelter::row_cover},
       {"cold-frame", SoilShelter::cold_frame}}};
  return word_from(kWords, text);
}

std::optional<SoilPlace> soil_place_from(std::string_view text) noexcept {
  static constexpr std::array<std::pair<std::string_view, SoilPlace>, 3> kWords{
      {{"ground", SoilPlace::ground}, {"raised-bed", SoilPlace::raised_bed}, {"tray", SoilPlace::tray}}};
  return word_from(kWords, text);
}

base::Result<void> check(const SoilSetting& setting) {
  if (setting.place == SoilPlace::raised_bed) {
    if (auto sized = refuse_outside(setting.bed.height_m, 0.05, 1.5, "bed_height_m"); !sized) return sized;
    if (auto sized = refuse_outside(setting.bed.width_m, 0.2, 5.0, "bed_width_m"); !sized) return sized;
  }
  if (setting.place != SoilPlace::tray) return {};
  if (auto sized = refuse_outside(setting.tray.depth_m, 0.01, 0.3, "tray_depth_mm"); !sized) return sized;
  if (setting.tray.room_c) {
    if (auto warm = refuse_outside(*setting.tray.room_c, -20.0, 45.0, "room_c"); !warm) return warm;
    if (auto swing = refuse_outside(setting.tray.room_swing_k, 0.0, 30.0, "room_swing_k"); !swing)
      return swing;
  }
  if (setting.tray.mat_c) return refuse_outside(*setting.tray.mat_c, 0.0, 40.0, "mat_c");
  return {};
}

base::Result<std::vector<SoilTemperatures>> soil_temperature_daily(
    const SoilWeather& weather, const SoilSetting& setting, std::span<const base::Millimetres> depths) {
  if (auto checked = check(setting); !checked) return tl::unexpected<base::Problem>(checked.error());
  if (auto checked = check_depths(depths); !checked) return tl::unexpected<base::Problem>(checked.error());
  if (auto checked = check_weather(weather); !checked) return tl::unexpected<base::Problem>(checked.error());
  const std::size_t days = weather.tmin_c.size();
  if (is_indoor_tray(setting)) {
    return std::vector<SoilTemperatures>(depths.size(), constant_series(indoor_tray(setting.tray), days));
  }
  std::vector<SoilTemperatures> all(depths.size());
  for (SoilTemperatures& series : all) resize(series, days);
  const auto shapes = std::make_unique<DayShapes>(weather.site);
  SoilRun run(weather, setting, *shapes, depths_in_metres(depths));
  run.lead_in();
  run.run([&](std::size_t depth, std::size_t day, double low, double high, double mean) {
    all[depth].tmin_c[day] = on_mat(setting, low);
    all[depth].tmax_c[day] = on_mat(setting, high);
    all[depth].tmean_c[day] = on_mat(setting, mean);
  });
  return all;
}

base::Result<std::vector<std::vector<double>>> soil_temperature_hourly(
    const HourlySoilWeather& weather, const SoilSetting& setting, std::span<const base::Millimetres> depths) {
  constexpr std::size_t kHours = 24;
  if (auto checked = check(setting); !checked) return tl::unexpected<base::Problem>(checked.error());
  if (auto checked = check_depths(depths); !checked) return tl::unexpected<base::Problem>(checked.error());
  const std::size_t count = weather.air_c.size();
  if (count == 0 || count % kHours != 0) {
    return base::fail(ProblemCode::insufficient_data, fmt::format("{} hours are not whole days", count),
                      {.field = "air temperature"});
  }
  const std::pair<std::span<const double>, const char*> series[] = {
      {weather.air_c, "air temperature"},
      {weather.radiation_w_m2, "radiation"},
      {weather.rain_mm, "rain"},
      {weather.vapour_pressure_kpa, "vapour pressure"},
      {weather.wind_2m_ms, "wind"}};
  for (const auto& [values, field] : series) {
    const bool may_be_empty =
        values.data() != weather.air_c.data() && values.data() != weather.radiation_w_m2.data();
    if (auto checked = check_series(values, count, may_be_empty, field, weather.first, 24); !checked) {
      return tl::unexpected<base::Problem>(checked.error());
    }
  }
  std::vector<std::vector<double>> all(depths.size(), std::vector<double>(count));
  if (is_indoor_tray(setting)) {
    const TrayRange range = indoor_tray(setting.tray);
    for (auto& hours : all) std::fill(hours.begin(), hours.end(), 0.5 * (range.low_c + range.high_c));
    return all;
  }
  double sum = 0.0;
  for (const double air_c : weather.air_c) sum += air_c;
  SoilColumn column(grid_of(setting), sum / static_cast<double>(count));
  SoilSurface surface(setting, column.grid());
  std::vector<detail::DepthWeight> weights;
  for (const double depth_m : depths_in_metres(depths))
    weights.push_back(detail::depth_weight(column.grid(), depth_m));
  const std::size_t days = count / kHours;
  const std::size_t lead_in = days >= kLeadInYear ? kLeadInYear : std::min(days, kShortLeadIn);
  for (std::size_t turn = 0; turn < lead_in + days; ++turn) {
    const bool leading = turn < lead_in;
    const std::size_t day = leading ? (lead_in == kLeadInYear ? turn : lead_in - 1 - turn) : turn - lead_in;
    const int day_of_year = base::day_of_year(weather.first + base::Days{static_cast<int>(day)});
    surface.begin_day(day_of_hours(weather, day, day_of_year), 3600.0, column);
    for (std::size_t hour = 0; hour < kHours; ++hour) {
      const std::size_t at = day * kHours + hour;
      surface.step({weather.air_c[at], std::max(0.0, weather.radiation_w_m2[at])}, column);
      if (leading) continue;
      for (std::size_t depth = 0; depth < weights.size(); ++depth) {
        all[depth][at] = on_mat(setting, weights[depth].of(column.temperature_c()));
      }
    }
  }
  return all;
}

SoilTemperatures sowing_depth_temperature(const WeatherEnsemble& ensemble, const SoilSetting& setting,
                                          base::Millimetres depth) {
  assert(check(setting).has_value() && depth.value() >= 0.0 && depth.value() <= kDeepestMm);
  const std::size_t days = ensemble.day_count;
  if (is_indoor_tray(setting)) {
    return constant_series(indoor_tray(setting.tray), ensemble.member_count * days);
  }
  SoilTemperatures all;
  resize(all, ensemble.member_count * days);
  const auto shapes = std::make_unique<DayShapes>(ensemble.site);
  const std::array<double, 1> depth_m{0.001 * depth.value()};
  base::parallel_for(ensemble.member_count, [&](std::size_t member) {
    const std::size_t from = member * days;
    const auto days_of = [from, days](const std::vector<double>& values) {
      return values.empty() ? std::span<const double>{} : std::span<const double>(values).subspan(from, days);
    };
    SoilWeather weather{.site = ensemble.site, .first = ensemble.first};
    weather.tmin_c = days_of(ensemble.tmin_c);
    weather.tmax_c = days_of(ensemble.tmax_c);
    weather.rain_mm = days_of(ensemble.rain_mm);
    weather.radiation_mj_m2 = days_of(ensemble.radiation_mj_m2);
    weather.et0_mm = days_of(ensemble.et0_mm);
    if (days == 0) return;
    SoilRun run(weather, setting, *shapes, depth_m);
    run.lead_in();
    run.run([&](std::size_t, std::size_t day, double low, double high, double mean) {
      all.tmin_c[from + day] = on_mat(setting, low);
      all.tmax_c[from + day] = on_mat(setting, high);
      all.tmean_c[from + day] = on_mat(setting, mean);
    });
  });
  return all;
}

}  // namespace sowtide::climate
