// Sowing windows: for each crop and method, when sowing works in a place, with probability.
//
// A day belongs to a window when a sowing of that day gives a harvest worth having in enough of the years: it
// comes up in reasonable time, lives through the frosts, ripens while plants still grow and before the heat
// that spoils it, without bolting, and not much later than the crop usually takes. docs/models/windows.md
// says how, and how the answers compare with published planting calendars.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "stand/crop_weather.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {

/// What growers accept, the same for all crops and places; a crop's own limits come from its data. The
/// figures were set on the published calendars of the places that are not held out (docs/models/windows.md).
struct WindowRules {
  // Coming up, outdoors.
  double emergence_days = 35.0;    ///< seed that lies longer rots or is eaten
  double emergence_share = 0.4;    ///< of the best final emergence: hot or cold beds give fewer
  double soil_margin_k = 0.0;      ///< above the coldest soil that growers sow in
  double set_out_margin_k = -1.8;  ///< above the coldest air that growers set out in
  // Frost.
  int frost_days = 35;           ///< after emergence or setting out, while plants are tender
  double tender_margin_k = 0.0;  ///< the same for young plants of tender crops, which nobody risks
  double frost_margin_k = -1.9;  ///< air minimum over the killing one from which a night counts
  // Time.
  double slowest = 2.2;        ///< days in the bed over the days at the best temperatures …
  double slowest_days = 4.0;   ///< … and so many days more
  double start_share = 0.22;   ///< of full growth over the first three weeks in the bed
  double closing_share = 0.3;  ///< of full growth over the last three weeks: later it stands still
  double full_light_mj = 4.5;  ///< PAR a day, MJ/m², below which growth is held back by light
  double picking_share = 0.6;  ///< of the picking season of picked crops, before frost …
  double picking_enough_cd =
      265.0;                  ///< … or so much of it, °C d: plants of a long season are content with less
  double early_kinds = 0.47;  ///< 0: the crop's usual time to maturity, 1: that of its earliest kinds
  // Heat, against the crop's damage limit.
  double heat_margin_k = 1.4;       ///< of the mean maximum about the first pick of roots, leaves, heads
  double set_heat_margin_k = -0.2;  ///< of that while fruit, pods or tubers set …
  int set_days = 7;                 ///< … so many days long
  int heat_before_days = 21;        ///< days before the first pick that count …
  int heat_after_days = 3;          ///< … and after it
  double warm_night_k = 6.0;  ///< a mean temperature so much below a maximum weighs as much: warm nights
  double young_heat_margin_k = 9.0;  ///< of the mean maximum in the first two weeks in the bed
  /// Cold that garlic wants between planting and bulb, in days of 5 °C or colder (half a day at 9, none from
  /// 13 on, none below -2): cloves planted after it make round, undivided bulbs. Trials cooled cloves for 20
  /// (Wu 2015) to 42 days (Bridgemohan 2017) at about 4 °C; which of it was set on the calendars.
  double clove_cold_days = 20.0;
  double bolting_share = 0.93;  ///< of the time to maturity, in long days: then a long-day crop runs up
  // Windows.
  int gap_days = 10;       ///< shorter gaps are closed
  int shortest_days = 10;  ///< shorter windows are dropped
};

struct SowingWindow {
  std::string crop;
  std::string method;          ///< "direct-sow", "start-indoors", "set-out"
  base::YearSpan span;         ///< may wrap the new year
  double success = 0.0;        ///< mean probability of a harvest worth having over the window
  Limit before = Limit::none;  ///< what most often spoils a sowing just before the window; none: all year
  Limit after = Limit::none;   ///< and just after it
};

/// One day of the year as a day to sow or to set out.
struct SowingDay {
  double success = 0.0;       ///< share of the years with a harvest worth having
  Limit limit = Limit::none;  ///< what most often spoils the others
  bool in_window = true;      ///< by `mark_windows`; before it every day is
};

/// Every day of a climatological year (365, 1 January first) by one method: "direct-sow", "start-indoors" or
/// "set-out". Empty where the crop is not grown so. `weather` must begin on a 1 January and cover two years.
[[nodiscard]] std::vector<SowingDay> sowing_year(const CropWeather& weather, std::string_view method,
                                                 const WindowRules& rules = {});

/// The same of sowings indoors from that of setting out (of the same weather): each day is as good as the
/// best on which its seedlings can be set out at the right age. Empty where `set_out` is.
[[nodiscard]] std::vector<SowingDay> indoor_sowing_year(const CropWeather& weather,
                                                        const std::vector<SowingDay>& set_out);

/// Notes of every day of such a year whether `sowing_windows` would have it in a window: a few good days by
/// themselves are none, and a short gap belongs to what lies about it.
void mark_windows(std::vector<SowingDay>& year, double level = 0.5, const WindowRules& rules = {});

/// Windows of one crop over a typical year: every day whose success reaches `level`. Several where two
/// seasons exist. `weather` must begin on a 1 January (any year) and cover two years or more.
[[nodiscard]] std::vector<SowingWindow> sowing_windows(const CropWeather& weather, double level = 0.5,
                                                       const WindowRules& rules = {});

}  // namespace sowtide::stand
