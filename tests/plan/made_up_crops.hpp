// A made-up crop library and a source of sowings that needs no weather model: for tests of the planner's
// frame.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "climate/ensemble.hpp"
#include "plan/candidates.hpp"

namespace sowtide::plan {

/// Four crops of four families: "greens" (quick, part shade), "roots" (keeps), "fruits" (tray, picked for
/// weeks) and "bulbs" (tray or place). Groups: greens and roots are "soup".
[[nodiscard]] crop::CropLibrary made_up_library();

/// An ensemble with nothing but its shape: the made-up source does not look at the weather.
[[nodiscard]] climate::WeatherEnsemble blank_weather(base::Date first, std::size_t days, std::size_t members);

/// Of what a sowing brings in full sun, by the made-up source.
inline constexpr double kPartShadeShare = 0.5;

/// How a crop of the made-up source lives, in days; every second member is `kLaterDays` behind.
struct MadeUpLife {
  int raised = 0;         ///< from sowing to setting out; 0 in place
  int to_first_pick = 0;  ///< from sowing
  int picks = 0;          ///< one a week
};
inline constexpr int kLaterDays = 7;
[[nodiscard]] MadeUpLife made_up_life(const std::string& crop, bool raised);

/// Sowings succeed from March to August; each crop has its weeks to harvest, later in every second member.
/// Soil and air are a tenth of the day of the year, °C, less `colder_k`; what is colder is ten days behind
/// for each degree, and so is the season of sowing. In part shade they bring `kPartShadeShare` of it.
[[nodiscard]] SourceMaker made_up_source(std::size_t members, double colder_k = 0.0);

/// A garden of three beds and a tray with the four crops wanted through summer.
[[nodiscard]] PlanInput made_up_input(const crop::CropLibrary& library,
                                      const climate::WeatherEnsemble& weather);

}  // namespace sowtide::plan
