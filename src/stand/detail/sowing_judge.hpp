// One sowing in one weather year, judged without growing every plant: the same thermal times as the stand's
// life, looked up in running sums so that every day of a year can be asked in every member.
#pragma once

#include <cstddef>
#include <vector>

#include "stand/crop_weather.hpp"
#include "stand/simulate.hpp"
#include "stand/windows.hpp"

namespace sowtide::stand::detail {

/// One sowing in one weather year.
struct Judged {
  Limit limit = Limit::none;  ///< what keeps it from a harvest worth having; none when nothing does
  int days = 0;               ///< in the bed to maturity; 0 where it is not reached or not asked
  double picking_cd = 0.0;    ///< thermal time of picking before frost; 0 for crops that are not picked
};

/// Judges days of the season. Days count from the ensemble's first.
class SowingJudge {
 public:
  SowingJudge(const CropWeather& weather, const WindowRules& rules);

  /// A direct sowing of the day.
  [[nodiscard]] Judged direct_sowing(std::size_t member, int day) const;
  /// Ready seedlings that are set out on the day.
  [[nodiscard]] Judged setting_out(std::size_t member, int day) const;

 private:
  /// Running sums of one member: entry d is the sum of the days before d.
  struct Sums {
    std::vector<double> germination_cd, growth_cd, organ_cd, long_day_cd, vernal_days, tmax_c, tmean_c,
        soil_c, cold_days;
    std::vector<int> young_frost, old_frost;  ///< first day from d on with a killing minimum
  };
  struct Stages {
    int organ = 0;     ///< first day on which the harvested organ fills
    int maturity = 0;  ///< first day at harvest maturity
  };

  void add_sums(std::size_t member);
  [[nodiscard]] Judged season(const Sums& sums, int day, int start, double age_cd) const;
  [[nodiscard]] Limit season_limit(const Sums& sums, int day, int start, double age_cd,
                                   const Stages& stages) const;
  [[nodiscard]] Limit pace(const Sums& sums, bool autumn, int start, double age_cd,
                           const Stages& stages) const;
  [[nodiscard]] Limit young(const Sums& sums, int day, int start) const;
  [[nodiscard]] bool days_shorten(int day) const;
  [[nodiscard]] bool too_hot(const Sums& sums, int start, const Stages& stages) const;
  [[nodiscard]] bool rests_in_ground(int day) const;
  [[nodiscard]] bool lacks_cold(const Sums& sums, int day, const Stages& stages) const;
  [[nodiscard]] bool cools(const Sums& sums, int day) const;
  [[nodiscard]] bool bolts(const Sums& sums, int start, double age_cd, const Stages& stages) const;
  [[nodiscard]] bool bulbs_late(const Sums& sums, int start, double age_cd, const Stages& stages) const;
  [[nodiscard]] double picking_cd(const Sums& sums, int start, const Stages& stages) const;
  [[nodiscard]] int picking_days(const Sums& sums, const Stages& stages) const;
  [[nodiscard]] Stages stages_of(const Sums& sums, int start, double age_cd) const;
  [[nodiscard]] double mean(const std::vector<double>& sum, int from, int to) const;

  const CropWeather& weather_;
  const crop::Crop& crop_;
  const WindowRules rules_;
  int days_ = 0;
  double full_rate_cd_ = 1.0;
  double best_emergence_ = 1.0;
  double maturity_cd_ = 0.0;   ///< of the kind that people choose for the season
  double young_heat_c_ = 0.0;  ///< mean daily maximum that the first two weeks must not pass
  std::vector<Sums> sums_;
};

}  // namespace sowtide::stand::detail
