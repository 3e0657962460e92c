// When is a sowing late? The day by which half of it should have shown, and whether sowing again still pays.
//
// Half of a sowing that comes up at all is up when the thermal time of its seed bed has reached H, the crop's
// thermal time to half emergence at that depth. H itself is not known exactly: seed lots, moisture and the
// published figures differ. With ln H normal about the library's figure, the chance that half would have
// shown by the end of day d is the mean over the weather years m of
//   Phi( ln(S(m, d) / H) / sigma ),     S the thermal time since sowing
// Observed days are the same in all years, so the chance rests on sigma alone where the weather is known, and
// on both where it is still to come. docs/models/emergence.md.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "climate/ensemble.hpp"
#include "climate/soil_temperature.hpp"
#include "crop/crop.hpp"
#include "stand/crop_weather.hpp"
#include "stand/outlook.hpp"
#include "stand/windows.hpp"

namespace sowtide::stand {

/// sigma: standard deviation of ln(thermal time to half emergence) of one sowing about the library's figure.
/// Chosen. Against the printed table it was partly set on, the library errs by 0.09 (87 cells of Harrington
/// and Minges 1954); independent figures for one crop lie further apart, and garden soil is not kept moist as
/// a test is.
inline constexpr double kEmergenceLogError = 0.2;

/// The certainty at which a sowing is called overdue.
inline constexpr double kOverdueChance = 0.9;

/// The chance of a harvest worth having from which sowing again pays, as that of a window.
inline constexpr double kWorthSowing = 0.5;

/// Where the seed lies.
struct SownPlace {
  double depth_mm = 10.0;
  climate::SoilSetting soil;            ///< of a sowing in the open
  std::optional<RaisingPlace> raising;  ///< of a sowing in a tray; then `soil` does not count
};

/// The soil of a bed, watered and bare, or of a tray outside; as `climate` computes it.
[[nodiscard]] climate::SoilSetting soil_of(const bed::Bed& bed);

/// Thermal time for germination since sowing at the end of every day from the day of sowing on, °C d, laid
/// out member by member: value of member m on day i at m * days + i. At most `most_days` of them. The day of
/// sowing counts half. Problems: out_of_range for a sowing outside the ensemble or a depth outside 0 to 300
/// mm.
struct GerminationTime {
  base::Date sown{};
  std::size_t days = 0;
  std::vector<double> sum_cd;
};
[[nodiscard]] base::Result<GerminationTime> germination_time(const crop::Crop& crop, base::Date sown,
                                                             const SownPlace& place,
                                                             const climate::WeatherEnsemble& weather,
                                                             std::size_t most_days = 180);

/// When half shows.
struct HalfShown {
  std::vector<double> chance;  ///< by day from the day of sowing: half would have shown by its end
  std::optional<base::Date> p10, p50,
      p90;  ///< first days on which the chance reaches it; nothing: not in time
};

/// The chance for each day. `log_error` above 0. Problems: those of germination_time.
[[nodiscard]] base::Result<HalfShown> half_shown(const crop::Crop& crop, base::Date sown,
                                                 const SownPlace& place,
                                                 const climate::WeatherEnsemble& weather,
                                                 double log_error = kEmergenceLogError);

/// Chance on a day; 0 before the sowing, that of the last day after it.
[[nodiscard]] double chance_on(const HalfShown& shown, base::Date sown, base::Date day) noexcept;

/// Days on which a crop may be sown, both ends included.
struct DaysToSow {
  base::Date from{}, to{};
};

/// The same stand sown again.
struct SowingAgain {
  double success_today = 0.0;            ///< chance of a harvest worth having when sown again today
  std::optional<base::Date> first_pick;  ///< its median when sown again today
  std::optional<base::Date> by;          ///< last day in a row from today on whose chance reaches `level`
  std::optional<DaysToSow>
      next;  ///< its next days by the windows, where today lies in none (`hold_to_windows`)
};

/// Lives the stand once more from `today` on and from later days, up to half a year ahead. What was decided
/// of its setting out does not bind; `bed` is where it stands or comes. Problems: those of `outlook`.
[[nodiscard]] base::Result<SowingAgain> sowing_again(const CropWeather& weather, const StandPlan& plan,
                                                     const std::optional<RaisingPlace>& raising,
                                                     const BedPlace& bed, base::Date today,
                                                     double level = kWorthSowing);

/// The same of plants that are bought and set out from `today` on, in place of the stand. Problems: those of
/// `outlook`.
[[nodiscard]] base::Result<SowingAgain> buying_again(const CropWeather& weather, const StandPlan& plan,
                                                     const RaisingPlace& raising, const BedPlace& bed,
                                                     base::Date today, double level = kWorthSowing);

/// The windows judge a sowing by more than its harvest: garlic planted in May makes round bulbs, lettuce of
/// July runs up. `again` is held to them: no longer than the window that today lies in, and where it lies in
/// none, not at all; then the next window is told. `windows` are those of the crop, `how` the word of the
/// method in them: "direct-sow", "start-indoors" or "set-out".
[[nodiscard]] SowingAgain hold_to_windows(SowingAgain again, const std::vector<SowingWindow>& windows,
                                          std::string_view how, base::Date today);
/// The same of sowing.
[[nodiscard]] SowingAgain hold_to_windows(SowingAgain again, const std::vector<SowingWindow>& windows,
                                          Method method, base::Date today);

}  // namespace sowtide::stand
