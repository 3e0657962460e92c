// Raising in trays: how long a cell holds a seedling, when it can go out, and what going out late costs.
//
// A seedling's age is the thermal time since it came up. The library gives, for the cell that is usual for
// the crop, the age at which it is fit to go out and the age from which it is root-bound. Another cell is
// outgrown at another size: plants are checked at a weight in proportion to the volume they root in (H.
// Poorter et al. 2012, Functional Plant Biology 39:839-850, who put the limit in grams a litre), and a young
// plant grows by the same share each °C d, so
//   latest(V) = latest(V0) + ln(V / V0) / r
// r the crop's early relative rate, V in proportion to the cube of the cell's width, as cells are about as
// deep as wide. docs/models/nursery.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "bed/bed.hpp"
#include "crop/crop.hpp"
#include "stand/bed_place.hpp"
#include "stand/crop_weather.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// Where a stand is raised.
struct NurserySpot {
  RaisingPlace raising;
  double cell_width_mm = 40.0;
};

/// The widest pot that a household raises food plants in, mm (common practice).
inline constexpr double kWidestPotMm = 130.0;

/// Ages of a seedling in °C d from emergence above the growth base.
struct SeedlingAges {
  double fit_cd = 0.0;         ///< strong enough to go out
  double root_bound_cd = 0.0;  ///< its cell is outgrown
};

/// Ages in a cell of a width. Never root-bound before half of the usual age for going out.
[[nodiscard]] SeedlingAges seedling_ages(const crop::Crop& crop, double cell_width_mm);

/// The narrowest cell or pot that holds a seedling to an age, mm, rounded up to 10 mm.
[[nodiscard]] double width_that_holds_mm(const crop::Crop& crop, double age_cd);

/// What makes a seedling too old.
enum class TooOld { root_bound, bolting };

/// What to think of a stand's raising.
enum class NurseryVerdict {
  in_time,      ///< goes out fit and in time, potted on where said
  too_early,    ///< is to go out before it is fit or before the air is
  late,         ///< is still in its tray and too old for it
  no_safe_day,  ///< finds no day fit for going out in most years
  outgrown,     ///< waits longer than the widest pot can hold it
  sow_in_place  ///< the crop does not stand being moved
};
[[nodiscard]] std::string_view nursery_verdict_text(NurseryVerdict verdict) noexcept;

/// A move into a larger pot.
struct PottingOn {
  base::Date from{};    ///< roots hold the ball together: a week before the cell is outgrown
  base::Date latest{};  ///< the cell is outgrown, median
  double into_width_mm = 0.0;
};

/// A seedling's weeks in the nursery, over the weather years.
struct NurseryOutlook {
  EventOutlook up, earliest, best,
      latest;  ///< probability 0: never. `earliest` fit by the least published age
  TooOld latest_reason = TooOld::root_bound;
  std::optional<base::Date> set_out;  ///< done, decided, or the median of `best`
  bool set_out_decided = false;
  std::optional<base::Date> harden_from;
  std::optional<PottingOn> pot_on;
  NurseryVerdict verdict = NurseryVerdict::in_time;
};

/// The weeks of one stand raised in trays. Problems: out_of_range for a sowing outside the ensemble or a cell
/// outside 5 to 500 mm.
[[nodiscard]] base::Result<NurseryOutlook> nursery_outlook(const CropWeather& weather, const StandPlan& plan,
                                                           const StandFacts& facts, const NurserySpot& spot,
                                                           base::Date today);

/// The harvest when a stand is set out so many weeks late.
struct LateSetOut {
  int weeks_late = 0;
  base::Date set_out{};
  double success = 0.0;
  double harvest_g = 0.0;  ///< mean over the weather years, whole stand
};

/// The stand lived through with setting out on `on_time` and 1 … `most_weeks` weeks later; entry 0 is on
/// time; `bed` is where it comes. The check of a root-bound plant after setting out is not in the growth
/// model, so the cost is a lower bound. Problems: those of `outlook`.
[[nodiscard]] base::Result<std::vector<LateSetOut>> cost_of_setting_out_late(
    const CropWeather& weather, const StandPlan& plan, const StandFacts& facts, const RaisingPlace& raising,
    const BedPlace& bed, base::Date on_time, int most_weeks = 4);

}  // namespace sowtide::stand
