#include "stand/crop_weather.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>
#include <utility>

#include "base/date.hpp"
#include "base/parallel.hpp"
#include "climate/hourly.hpp"
#include "climate/radiation.hpp"
#include "climate/soil_temperature.hpp"
#include "climate/sun.hpp"
#include "crop/curve.hpp"
#include "stand/hardening.hpp"

namespace sowtide::stand {
namespace {

// Share of solar energy that plants can use, 400 to 700 nm (common practice in crop models).
constexpr double kLightShareOfSolar = 0.5;
// One depth stands for all crops: seeds lie 5 to 50 mm deep, most of them 10 to 30.
constexpr double kSeedBedDepthMm = 20.0;
// Days over which a frost after setting out still counts against it.
constexpr std::size_t kFrostLookAheadDays = 21;
// Width of the change from short to long days, hours (a step would make the answer jump with latitude).
constexpr double kDayLengthRampHours = 1.0;

// A rate as clamps only, so that loops over hours become vector instructions. Equal to crop::thermal_rate.
struct Trapezoid {
  double base, top, upper, ceiling, fall;

  explicit Trapezoid(const crop::CardinalTemperatures& cardinal)
      : base(cardinal.base_c),
        top(cardinal.optimum_low_c - cardinal.base_c),
        upper(cardinal.optimum_high_c),
        ceiling(cardinal.ceiling_c),
        fall(top / std::max(1e-9, ceiling - upper)) {}

  [[nodiscard]] double at(double temp_c) const {
    const double rising = temp_c - base;
    const double falling = (ceiling - temp_c) * fall;
    double rate = rising < falling ? rising : falling;
    rate = rate < top ? rate : top;
    return rate > 0.0 ? rate : 0.0;
  }
};

// Whole hours before sunrise, as many as follow sunset; at least two hours count as day even in the polar
// night.
std::size_t dark_hours_before_dawn(double day_length_h) {
  return static_cast<std::size_t>(std::clamp(std::lround(12.0 - 0.5 * day_length_h), 0L, 11L));
}

double triangle(double low, double best, double high, double value) {
  if (value <= low || value >= high) return 0.0;
  return value < best ? (value - low) / (best - low) : (high - value) / (high - best);
}

// Varieties differ, and people grow those that answer to the days of their place: within the spread of the
// crop, the length that is passed about a month before the solstice.
constexpr double kBeforeSolsticeHours = 0.6;

double general_day_length_h(const crop::Figure& figure, const std::vector<double>& day_length_h,
                            bool long_day) {
  const auto [shortest, longest] = std::minmax_element(day_length_h.begin(), day_length_h.end());
  const double here = long_day ? *longest - kBeforeSolsticeHours : *shortest + kBeforeSolsticeHours;
  return std::clamp(here, figure.low.value_or(figure.value), figure.high.value_or(figure.value));
}

// Where growers choose kinds by latitude, the published lengths of those, straight between them.
double critical_day_length_h(const crop::Place& place, double latitude_deg,
                             const std::vector<double>& day_length_h, bool long_day) {
  const auto& kinds = place.kinds_by_latitude;
  if (kinds.empty()) return general_day_length_h(*place.critical_day_length_h, day_length_h, long_day);
  const double latitude = std::abs(latitude_deg);
  const auto next = std::find_if(kinds.begin(), kinds.end(),
                                 [latitude](const auto& kind) { return kind.latitude_deg > latitude; });
  if (next == kinds.begin()) return next->day_length_h;
  const auto& before = *std::prev(next);
  if (next == kinds.end()) return before.day_length_h;
  const double share = (latitude - before.latitude_deg) / (next->latitude_deg - before.latitude_deg);
  return before.day_length_h + share * (next->day_length_h - before.day_length_h);
}

}  // namespace

SeasonWeather::SeasonWeather(const climate::WeatherEnsemble& weather, const climate::SoilSetting& seed_bed)
    : weather_(&weather) {
  const std::size_t entries = weather.member_count * weather.day_count;
  air_hours_c_.resize(entries);
  soil_swing_k_.resize(entries);
  light_mj_m2_.resize(entries);
  diffuse_share_.resize(entries);
  daylight_mean_c_.resize(entries);
  week_mean_c_.resize(entries);
  hardening_.resize(entries);
  day_length_h_.resize(weather.day_count);
  for (std::size_t d = 0; d < weather.day_count; ++d) {
    const base::Date date = weather.first + base::Days{static_cast<int>(d)};
    day_length_h_[d] =
        climate::daylight_hours(base::Degrees::of(weather.site.latitude_deg), base::day_of_year(date))
            .value();
    light_of_day(d);
  }
  auto soil = climate::sowing_depth_temperature(weather, seed_bed, base::Millimetres::of(kSeedBedDepthMm));
  soil_mean_c_ = std::move(soil.tmean_c);
  for (std::size_t at = 0; at < entries; ++at) soil_swing_k_[at] = 0.5 * (soil.tmax_c[at] - soil.tmin_c[at]);
  base::parallel_for(weather.member_count, [this](std::size_t member) {
    air_of_member(member);
    weeks_of_member(member);
    hardening_of_member(member);
  });
}

void SeasonWeather::air_of_member(std::size_t member) {
  const auto& weather = *weather_;
  const std::size_t days = weather.day_count;
  for (std::size_t d = 0; d < days; ++d) {
    const std::size_t at = weather.at(member, d);
    const std::size_t before = d > 0 ? at - 1 : at;
    const std::size_t after = d + 1 < days ? at + 1 : at;
    const auto hours =
        climate::hourly_temperatures(weather.tmin_c[at], weather.tmax_c[at], weather.tmax_c[before],
                                     weather.tmin_c[after], day_length_h_[d]);
    for (std::size_t h = 0; h < kHours; ++h) air_hours_c_[at][h] = static_cast<float>(hours[h]);
    const std::size_t dawn = dark_hours_before_dawn(day_length_h_[d]);
    double light_hours_c = 0.0;
    for (std::size_t h = dawn; h < kHours - dawn; ++h) light_hours_c += hours[h];
    daylight_mean_c_[at] = light_hours_c / static_cast<double>(kHours - 2 * dawn);
  }
}

void SeasonWeather::light_of_day(std::size_t day) {
  const auto& weather = *weather_;
  const base::Date date = weather.first + base::Days{static_cast<int>(day)};
  const double above_air_mj_m2 =
      climate::extraterrestrial_radiation(base::Degrees::of(weather.site.latitude_deg), base::day_of_year(date))
          .value();
  for (std::size_t m = 0; m < weather.member_count; ++m) {
    const std::size_t at = weather.at(m, day);
    const double solar_mj_m2 = weather.radiation_mj_m2[at];
    light_mj_m2_[at] = kLightShareOfSolar * solar_mj_m2;
    diffuse_share_[at] = climate::diffuse_share_of_day(solar_mj_m2 / std::max(1e-6, above_air_mj_m2));
  }
}

void SeasonWeather::weeks_of_member(std::size_t member) {
  const auto& weather = *weather_;
  double week = 0.0;
  for (std::size_t d = 0; d < weather.day_count; ++d) {
    const std::size_t at = weather.at(member, d);
    week += weather.mean_c(at);
    if (d >= 7) week -= weather.mean_c(at - 7);
    week_mean_c_[at] = week / static_cast<double>(std::min<std::size_t>(d + 1, 7));
  }
}

// The days before are taken to have been like the first.
void SeasonWeather::hardening_of_member(std::size_t member) {
  double hardening = hardening_at(weather_->mean_c(weather_->at(member, 0)));
  for (std::size_t d = 0; d < weather_->day_count; ++d) {
    const std::size_t at = weather_->at(member, d);
    hardening_[at] = hardening;
    hardening = hardening_after(hardening, weather_->mean_c(at));
  }
}

CropWeather::CropWeather(const crop::Crop& crop, std::shared_ptr<const SeasonWeather> season)
    : crop_(crop), season_(std::move(season)) {
  thermal_times();
  cold_and_day_length();
  frost();
}

double CropWeather::growth_cd_at(double temp_c) const {
  return Trapezoid(crop_.growth.cardinal).at(temp_c);
}

double CropWeather::germination_cd_at(double temp_c) const {
  return Trapezoid(crop_.germination.cardinal).at(temp_c);
}

void CropWeather::thermal_times() {
  const auto& weather = ensemble();
  const Trapezoid growth(crop_.growth.cardinal);
  const Trapezoid germination(crop_.germination.cardinal);
  const std::vector<crop::TemperaturePoint> light_response = crop::light_response_of(crop_.growth);
  std::array<double, SeasonWeather::kSoilSamples> wave{};
  for (std::size_t i = 0; i < wave.size(); ++i) {
    wave[i] =
        std::sin(2.0 * std::numbers::pi * (static_cast<double>(i) + 0.5) / static_cast<double>(wave.size()));
  }
  const std::size_t entries = weather.member_count * weather.day_count;
  growth_cd_.resize(entries);
  usual_growth_cd_.assign(weather.day_count, 0.0);
  light_use_.resize(entries);
  germination_cd_.resize(entries);
  for (std::size_t at = 0; at < entries; ++at) {
    const auto& hours = season_->air_hours_c(at);
    double rates = 0.0;
    for (const float hour : hours) rates += growth.at(static_cast<double>(hour));
    growth_cd_[at] = rates / static_cast<double>(SeasonWeather::kHours);
    usual_growth_cd_[at % weather.day_count] += growth_cd_[at] / static_cast<double>(weather.member_count);
    light_use_[at] = crop::on_curve(light_response, season_->daylight_mean_c()[at]);
    double soil = 0.0;
    for (const double w : wave)
      soil += germination.at(season_->soil_mean_c()[at] + w * season_->soil_swing_k()[at]);
    germination_cd_[at] = soil / static_cast<double>(wave.size());
  }
}

void CropWeather::cold_and_day_length() {
  const auto& weather = ensemble();
  const auto& limits = crop_.limits;
  organ_day_share_.assign(weather.day_count, 1.0);
  if (crop_.place.critical_day_length_h && crop_.place.day_length != crop::DayLengthClass::neutral) {
    const bool long_day = crop_.place.day_length == crop::DayLengthClass::long_day;
    const double critical =
        critical_day_length_h(crop_.place, weather.site.latitude_deg, season_->day_length_h(), long_day);
    for (std::size_t d = 0; d < weather.day_count; ++d) {
      const double over = season_->day_length_h()[d] - critical;
      organ_day_share_[d] = std::clamp((long_day ? over : -over) / kDayLengthRampHours, 0.0, 1.0);
    }
  }
  if (!limits.vernal_days) return;
  const double low = limits.vernal_base_c ? limits.vernal_base_c->value : -1.0;
  const double best = limits.vernal_best_c ? limits.vernal_best_c->value : 6.0;
  const double high = limits.vernal_ceiling_c ? limits.vernal_ceiling_c->value : 15.0;
  const std::size_t entries = weather.member_count * weather.day_count;
  vernal_days_.resize(entries);
  for (std::size_t at = 0; at < entries; ++at) {
    vernal_days_[at] = triangle(low, best, high, weather.mean_c(at));
  }
}

void CropWeather::frost() {
  const auto& weather = ensemble();
  const double kill = crop_.limits.kill_seedling_c;
  std::vector<double> members(weather.day_count, 0.0);
  for (std::size_t m = 0; m < weather.member_count; ++m) {
    std::size_t clear = kFrostLookAheadDays + 1;  // days until the next killing night, walking backwards
    for (std::size_t d = weather.day_count; d-- > 0;) {
      clear = weather.tmin_c[weather.at(m, d)] <= kill ? 0 : clear + 1;
      if (clear <= kFrostLookAheadDays) members[d] += 1.0;
    }
  }
  for (double& each : members) each /= static_cast<double>(std::max<std::size_t>(1, weather.member_count));
  frost_ahead_ = std::move(members);
}

}  // namespace sowtide::stand
