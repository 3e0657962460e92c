// One sowing's life over the weather ensemble: emergence, seedlings, setting out, growth, harvest -> an
// Outlook.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/quantile.hpp"
#include "bed/bed.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "stand/raising.hpp"

namespace sowtide::stand {

enum class Method { direct_sow, start_indoors };
enum class SizeGoal { small, large };

/// How the clumps stand to each other.
enum class Arrangement : std::uint8_t {
  square,  ///< `spacing_mm` both ways
  offset,  ///< every second row moved by half a spacing: the same distance to six neighbours
  rows     ///< `spacing_mm` in the row, `row_spacing_mm` from row to row
};

/// What has been decided (or already done) about one sowing.
struct StandPlan {
  std::string id;  ///< "s17"
  std::string crop;
  std::string variety;  ///< or empty
  Method method = Method::direct_sow;
  base::Date sow{};
  std::optional<base::Date> set_out;  ///< decided or done; nothing: when ready and safe
  SizeGoal size = SizeGoal::large;
  int clumps = 1;
  double plants_per_clump = 1.0;  ///< planned mean of plants kept
  double spacing_mm = 100.0;
  Arrangement arrangement = Arrangement::square;
  double row_spacing_mm = 0.0;      ///< of Arrangement::rows
  std::string bed;                  ///< id of the bed
  double from_m = 0.0, to_m = 0.0;  ///< stretch along the bed
  std::string tray;                 ///< id of the tray it is raised in, or empty
  double seeds_per_cell = 1.0;
  int cells = 0;       ///< cells sown, or seed stations direct
  std::string packet;  ///< id of the packet, or empty
  /// What the plan that set it reckoned with: the mean of the weather years, of the soil at sowing depth in
  /// the week from the sowing on, in place; of the air in the eight weeks from it on, in a tray, of bought
  /// plants from setting out on. Nothing: not known.
  std::optional<double> planned_c;
  /// Of what stands well in the ground (`stands_in_ground`): nothing is picked before this day, and from
  /// then, or from when the first are ready, the largest come out little by little over `pick_weeks`; of leaf
  /// every week half of what has grown since the last picking, at least an even share. 0 weeks: each plant is
  /// pulled as it reaches its size, and the ground is cleared six weeks after the first; leaf is cut as soon
  /// as it is ready.
  std::optional<base::Date> pick_from;
  int pick_weeks = 0;
  bool operator==(const StandPlan&) const = default;
};

/// What a stand may be: the growth model ranks the plants of a clump one by one, and a clump is a plant or
/// more.
inline constexpr double kMostPlantsPerClump = 12.0;
inline constexpr double kWidestSpacingMm = 5000.0;
/// Closer than seed by seed nobody sows what is to grow (chosen).
inline constexpr double kClosestSpacingMm = 10.0;

/// Most weeks over which a stand is picked: a winter and a spring.
inline constexpr int kMostPickWeeks = 40;

/// Whether the crop, once ready, waits in the ground until it is wanted, into the winter where that is mild:
/// of what is pulled once and is no bulb or tuber, and of leaf that is cut again and again, what stands light
/// frost and is far from its end when it is ready. Common practice for leek, parsnip, carrot, celeriac, swede,
/// cabbage, kale, collards, chard and parsley; the bounds are chosen and take in beet, kohlrabi and scallion too.
[[nodiscard]] bool stands_in_ground(const crop::Crop& crop) noexcept;

/// Whether the plan leaves the stand in the ground until it is wanted.
[[nodiscard]] bool waits_in_ground(const StandPlan& plan, const crop::Crop& crop) noexcept;

/// Distance from row to row, mm: the spacing on the square, √3/2 of it where rows are offset.
[[nodiscard]] double row_distance_mm(const StandPlan& plan) noexcept;

/// What the log says was taken of a stand on a day: the largest of the clumps, leaf or fruit for the kitchen;
/// or the smallest plants, thinned away.
struct PlantsTaken {
  base::Date date{};
  int plants =
      0;  ///< that are gone; 0 of crops that stay when they are picked, and where only a weight is known
  bool largest = false;              ///< for the kitchen
  std::optional<double> grams = {};  ///< of what went to the kitchen, where it was weighed
  bool before_count = false;         ///< a later count tells already how many are left
  bool leaves = false;  ///< only leaves of a root crop, as greens: `grams` of leaf, and no plant is gone
  bool operator==(const PlantsTaken&) const = default;
};

/// What was observed of a stand; later facts replace model output before them.
struct StandFacts {
  std::optional<base::Date> sown;
  std::optional<base::Date> emerged;  ///< half up
  std::optional<int> counted_plants;
  std::optional<base::Date> set_out;
  std::optional<base::Date> first_picked;
  double picked_g = 0.0;
  double greens_g = 0.0;  ///< leaves picked of a root crop, which are none of `picked_g`
  int plants_removed = 0;
  std::optional<base::Date> measured_on;
  std::optional<double> measured_g;  ///< mean fresh weight of the harvested organ of one plant
  bool finished = false;
  std::vector<PlantsTaken> taken;  ///< in order of date; those since the last count sum to plants_removed
  /// Before this day only what the log tells was taken; from it on the plan's rule picks. Nothing: the rule
  /// picks from the beginning, as for a sowing that is only planned.
  std::optional<base::Date> log_to;
  bool operator==(const StandFacts&) const = default;
};

struct EventOutlook {
  std::string name;  ///< "emerge", "set-out", "first-pick", "last-pick"
  base::Date p10{}, p50{}, p90{};  ///< over the members; "emerge" also over seed lots, which differ
  double probability = 1.0;        ///< share of members in which it happens
};

struct WeekOutlook {
  base::Date week_start{};
  base::Quantiles
      weight_g;  ///< fresh weight taken in the week: what was logged, and from log_to on as planned
  double ready_probability = 0.0;  ///< share of members in which there is something worth picking
};

/// Per-member results kept for the planner: index m*weeks+w.
struct MemberTable {
  std::size_t member_count = 0;
  std::size_t week_count = 0;
  /// Fresh weight that becomes pickable in each week, whole stand; what was taken before log_to is not in it.
  std::vector<double> weekly_g;
  base::Date from{};  ///< from this day on `weekly_g` counts: the ensemble's first, or log_to
  std::vector<int> emerge_day, set_out_day, first_pick_day,
      last_pick_day;  ///< days from ensemble first; -1 never
  /// The day of the night that killed it before a harvest worth having; -1: the cold has not.
  std::vector<int> killed_day;
  std::vector<int> grown_day;  ///< the same: no seedling against frost any more (hardening.hpp)
};

struct Outlook {
  std::string stand;
  std::vector<EventOutlook> events;
  std::vector<WeekOutlook> weeks;  ///< from the ensemble's first Monday on, all weeks
  MemberTable members;
  /// Fan of mean fresh weight of the harvested organ per plant by day, one entry a day from emergence p10: of
  /// the plants that stand, and of those that the plan's rule has picked with what they weighed then; of leaf
  /// before the day's cut; of crops picked over weeks, what a plant has given so far.
  base::Date fan_first{};
  std::vector<base::Quantiles> plant_weight_g;
  std::vector<double> ready_probability;  ///< by day from fan_first: chance that it is worth picking that day
  double success = 0.0;                   ///< share of members with a harvest worth having
  std::string limits;  ///< what limits it when success < 1: "frost", "heat", "season too short", "bolting"
};

/// The event of that name, or nullptr when it happens in none of the years.
[[nodiscard]] const EventOutlook* expected_event(const Outlook& outlook, std::string_view name) noexcept;

/// Whether in half of the members the stand is so old on a day, counted from the ensemble's first, that it
/// can be as hardy against frost as grown plants are; before it the crop's figure for seedlings is the safe
/// one.
[[nodiscard]] bool is_grown(const Outlook& outlook, std::int64_t day);

/// What an average plant weighs on a day, g; all 0 on days that the fan does not hold.
[[nodiscard]] base::Quantiles plant_on_g(const Outlook& outlook, base::Date day) noexcept;

/// What of the stand each weather year takes in so many days from `day` on, g; of a week that lies in them in
/// part its even share by days. Nothing of days before the log's end.
[[nodiscard]] std::vector<double> taken_ahead_g(const Outlook& outlook, base::Date day, int days);

/// What of the stand is to be taken in the seven days from `day` on, g.
[[nodiscard]] base::Quantiles week_ahead_g(const Outlook& outlook, base::Date day);

/// Where a stand of a plan is raised; nothing for a sowing in place. Without a tray it is raised indoors.
[[nodiscard]] std::optional<RaisingPlace> raising_of(const StandPlan& plan, const bed::Tray* tray);

/// Computes the outlook of one stand over all members. `plan.sow` must lie inside the ensemble.
[[nodiscard]] base::Result<Outlook> outlook(const crop::Crop& crop, const StandPlan& plan,
                                            const StandFacts& facts,
                                            const std::optional<RaisingPlace>& raising,
                                            const climate::WeatherEnsemble& weather, std::uint64_t seed = 1);

}  // namespace sowtide::stand
