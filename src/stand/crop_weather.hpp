// The weather ensemble as a crop feels it: everything that depends on the weather but not on the sowing,
// computed once and shared by all stands of a crop (and, where it does not depend on the crop, by all crops).
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "climate/ensemble.hpp"
#include "climate/soil_temperature.hpp"
#include "crop/crop.hpp"

namespace sowtide::stand {

/// Hourly air and seed-bed temperatures and the light of every day of every member, for all crops of a place.
/// Arrays are laid out as in the ensemble: value of member m on day d at `weather.at(m, d)`. Holds a
/// reference to the ensemble, which must outlive it.
class SeasonWeather {
 public:
  static constexpr std::size_t kHours = 24;
  static constexpr std::size_t kSoilSamples = 8;  ///< per day, evenly over the daily wave

  /// `seed_bed` is where direct sowings lie: open ground, bare and watered, unless said otherwise.
  explicit SeasonWeather(const climate::WeatherEnsemble& weather, const climate::SoilSetting& seed_bed = {});

  [[nodiscard]] const climate::WeatherEnsemble& ensemble() const { return *weather_; }
  [[nodiscard]] const std::array<float, kHours>& air_hours_c(std::size_t at) const {
    return air_hours_c_[at];
  }
  /// Mean temperature of the seed bed at 20 mm, °C (climate/soil_temperature.hpp).
  [[nodiscard]] const std::vector<double>& soil_mean_c() const { return soil_mean_c_; }
  /// Half the daily range of the seed bed, K.
  [[nodiscard]] const std::vector<double>& soil_swing_k() const { return soil_swing_k_; }
  /// Photosynthetically active radiation, half of the sun's, MJ/m²/d.
  [[nodiscard]] const std::vector<double>& light_mj_m2() const { return light_mj_m2_; }
  /// Share of the day's light that comes from the sky, not straight from the sun, 0..1.
  [[nodiscard]] const std::vector<double>& diffuse_share() const { return diffuse_share_; }
  /// Hours of daylight by day of the season (the same in all members).
  [[nodiscard]] const std::vector<double>& day_length_h() const { return day_length_h_; }
  /// Mean air temperature of the hours of daylight, whole hours, °C.
  [[nodiscard]] const std::vector<double>& daylight_mean_c() const { return daylight_mean_c_; }
  /// Mean air temperature of the week that ends with the day, °C.
  [[nodiscard]] const std::vector<double>& week_mean_c() const { return week_mean_c_; }
  /// How hardened against frost plants in the open are at the night of the day, 0..1 (hardening.hpp).
  [[nodiscard]] const std::vector<double>& hardening() const { return hardening_; }

 private:
  void air_of_member(std::size_t member);
  void weeks_of_member(std::size_t member);
  void hardening_of_member(std::size_t member);
  void light_of_day(std::size_t day);

  const climate::WeatherEnsemble* weather_;
  std::vector<std::array<float, kHours>> air_hours_c_;
  std::vector<double> soil_mean_c_, soil_swing_k_, light_mj_m2_, diffuse_share_, daylight_mean_c_,
      day_length_h_, week_mean_c_, hardening_;
};

/// The season as one crop feels it. Holds a copy of the crop and shares the season.
class CropWeather {
 public:
  CropWeather(const crop::Crop& crop, std::shared_ptr<const SeasonWeather> season);

  [[nodiscard]] const crop::Crop& crop() const { return crop_; }
  [[nodiscard]] const SeasonWeather& season() const { return *season_; }
  [[nodiscard]] const climate::WeatherEnsemble& ensemble() const { return season_->ensemble(); }
  /// Thermal time of each day for growth (air) and for germination (seed bed), °C d above the base of each.
  [[nodiscard]] const std::vector<double>& growth_cd() const { return growth_cd_; }
  /// The mean of it over the weather years, by day of the season: what a grower reckons with ahead.
  [[nodiscard]] const std::vector<double>& usual_growth_cd() const { return usual_growth_cd_; }
  [[nodiscard]] const std::vector<double>& germination_cd() const { return germination_cd_; }
  /// Share of its full worth that the crop makes of the day's light, 0..1: its response at the mean
  /// temperature of the daylight hours.
  [[nodiscard]] const std::vector<double>& light_use() const { return light_use_; }
  /// Progress of vernalisation of each day, in days at the best cold; empty where the crop needs none.
  [[nodiscard]] const std::vector<double>& vernal_days() const { return vernal_days_; }
  /// Share of a day's thermal time that counts for the harvested organ, by the day's length; by day of the
  /// season.
  [[nodiscard]] const std::vector<double>& organ_day_share() const { return organ_day_share_; }
  /// Share of members in which young plants would be killed by frost on the day or in the three weeks after
  /// it.
  [[nodiscard]] const std::vector<double>& frost_ahead() const { return frost_ahead_; }
  /// °C d above base of one day at a constant temperature.
  [[nodiscard]] double growth_cd_at(double temp_c) const;
  [[nodiscard]] double germination_cd_at(double temp_c) const;

 private:
  void thermal_times();
  void cold_and_day_length();
  void frost();

  crop::Crop crop_;
  std::shared_ptr<const SeasonWeather> season_;
  std::vector<double> growth_cd_, usual_growth_cd_, light_use_, germination_cd_, vernal_days_,
      organ_day_share_, frost_ahead_;
};

}  // namespace sowtide::stand
