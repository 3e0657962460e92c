// The garden as the planner sees it: what can be sown, what it would bring week by week in every weather
// year, what the table wants, and how much room there is. Everything else in this room works on this one
// value.
//
// Time is cut into weeks from `first_monday`; amounts are servings. The symbols are those of
// docs/models/plan.md.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "bed/bed.hpp"
#include "plan/plan.hpp"
#include "stand/outlook.hpp"

namespace sowtide::plan {

/// What comes out of a bed and what a want can ask for: a crop at a size, of a variety or of any.
struct Product {
  std::string crop;
  std::string variety;  ///< or empty
  stand::SizeGoal size = stand::SizeGoal::large;
  double serving_g = 100.0;  ///< edible weight of a serving
  double keep_share = 0.5;   ///< share of a stock still good a week later
  int keep_weeks = 520;  ///< weeks after that of its picking in which a serving may still be eaten, 1 or more
  double pick_hours = 0.0;  ///< of a serving: pulling, cutting or picking it, and rinsing
  bool store_only = false;  ///< lies in store already and nothing of it is sown
};

/// A want laid on the weeks.
struct Demand {
  std::string want;                   ///< id
  double price = 1.0;                 ///< of one missing serving, in the last weeks
  double serving_g = 100.0;           ///< grams of one serving, for showing
  std::vector<double> servings;       ///< by week
  std::vector<std::size_t> products;  ///< that meet it, in the order to take them
  std::vector<double> week_factor;    ///< by week: price relative to `price`, never rising; empty: 1 in all
  double waste_dislike = 1.0;         ///< price of a wasted serving relative to the usual
};

/// Beds that are the same to the model: one sun class, one width.
struct BedGroup {
  bed::SunClass sun = bed::SunClass::full;
  double width_m = 0.0;
  std::vector<std::size_t> beds;  ///< places in GardenModel::beds
};

/// One sowing that could be made, for one clump.
struct Candidate {
  stand::StandPlan sowing;  ///< crop, variety, method, day, size, plants per clump, spacing, seeds per cell
  std::size_t product = 0;
  std::string family;
  double rotation_years = 0.0;
  bool stands_part_shade = false;
  /// What it brings was reckoned in the light of such beds, and it is for them alone; nothing: for any that
  /// suit it.
  std::optional<bed::SunClass> sun = {};
  crop::FeederClass feeder = crop::FeederClass::medium;
  double height_m = 0.0;
  int spacing_mm = 100;
  int least_clumps = 1;  ///< of one stand: fewer would not be pollinated
  int sow_week = 0;  ///< of bought plants that of setting out: the week in which the garden begins with it
  int bed_first_week = 0;  ///< both included
  int bed_last_week = 0;
  int tray = -1;  ///< place in GardenModel::trays, or -1
  int tray_first_week = 0;
  int tray_last_week = 0;
  int mat_last_week =
      -1;  ///< from `tray_first_week` on it needs the tray's heat mat; -1 where that has room for all
  /// Cells to sow for n good clumps, by n from 0; its length limits the clumps of one sowing. Null: as many
  /// as clumps.
  std::shared_ptr<const std::vector<int>> cells_for_clumps;
  int tray_places = 1;     ///< cells of the tray that one sown cell takes, where the tray's are small
  double sow_hours = 0.0;  ///< a clump, in the week of sowing
  double bed_hours = 0.0;  ///< a clump, in the first week in the bed
  int seed_lot = -1;       ///< place in GardenModel::seed_lots, or -1 where nothing is known of the seed box
  /// A clump draws from it, with cells sown that come to nothing; of bought plants what they are reckoned as.
  double seeds = 0.0;
  double success = 1.0;
  double expected_servings = 0.0;  ///< a clump, mean over all members
  std::vector<double> servings;    ///< member m, week w: [m * weeks + w]; a clump
};

/// The seed of a crop and variety that is in the box; of no crop and empty: what bought plants draw on.
struct SeedLot {
  std::string crop;
  std::string variety;  ///< or empty
  double seeds = 0.0;
};

/// A sowing with its place.
struct PlacedStand {
  std::size_t candidate = 0;
  std::size_t bed = 0;
  int from_mm = 0;
  int clumps = 0;
  friend bool operator==(const PlacedStand&, const PlacedStand&) = default;
};

/// A stretch of a bed that is taken by what stands there already.
struct TakenStretch {
  std::size_t bed = 0;
  int from_mm = 0, to_mm = 0;
  int first_week = 0, last_week = 0;  ///< may lie outside the horizon
  std::string family;
  std::string stand, crop;  ///< what stands there
  crop::FeederClass feeder = crop::FeederClass::medium;
  double height_m = 0.0;
  bool needs_sun = true;
};

/// A family that grew on a stretch before the horizon.
struct PastStretch {
  std::size_t bed = 0;
  int from_mm = 0, to_mm = 0;
  std::string family;
  int year = 0;
};

/// Whether what is sown of a product meets a demand.
[[nodiscard]] bool meets(const Demand& demand, std::size_t product);

/// Products and demands that hang together: they are judged apart from all others.
struct Pool {
  std::vector<std::size_t> products;
  std::vector<std::size_t> demands;  ///< dearest first
  std::size_t first_week = 0;        ///< first week with any supply possible
  double waste_price = 0.0;  ///< of one serving of any of the products: that of the want that minds most
};

/// Price of one serving that a demand misses in a week.
[[nodiscard]] double price_in(const Demand& demand, std::size_t week);

/// What it costs beyond the prices of the weeks that a demand misses more than half of what it asks for in a
/// weather year (`PlanPrices::first_half`).
struct MissingMost {
  double half = 0.0;   ///< servings that may be missing without it
  double price = 0.0;  ///< of a serving more
  [[nodiscard]] double cost_of(double missing) const noexcept {
    return price * std::max(0.0, missing - half);
  }
};

struct GardenModel {
  base::Date first_monday{};
  double latitude_deg = 0.0;
  std::size_t weeks = 52;  ///< of all tables
  std::size_t told_weeks =
      52;  ///< of them, from the first on, those that the plan is for: it sows in no other
  std::size_t member_count = 0;        ///< weather years known
  std::vector<std::size_t> scenarios;  ///< those in the model
  std::vector<Product> products;
  std::vector<Demand> demands;
  std::vector<Candidate> candidates;
  std::vector<bed::Bed> beds;
  std::vector<bed::Tray> trays;
  std::vector<BedGroup> groups;
  std::vector<TakenStretch> taken;
  std::vector<PastStretch> past;
  std::vector<SeedLot> seed_lots;
  std::vector<std::vector<double>>
      base_supply;  ///< by product: [m * weeks + w], from fixed stands, and what was picked this week and lies in store
  /// By product: servings in store and still good as the first week begins, by whole weeks since they were picked, 1
  /// to `keep_weeks` (place 0 stays empty). `keep_share` is above 0 where there are any.
  std::vector<std::vector<double>> stored;
  std::vector<std::vector<int>> tray_taken;  ///< by tray and week
  std::vector<std::vector<int>> mat_taken;   ///< the same of the cells on its heat mat
  std::vector<double> hours_taken;           ///< by week
  PlanPrices prices;
  std::vector<PlacedStand> promised;  ///< stands of an earlier plan; what is not kept of one in its bed costs
                                      ///< its share of `prices.change`
  std::vector<Pool> pools;  ///< made by `finish_model`
};

/// All that a demand asks for in the weeks that the plan is for, servings.
[[nodiscard]] double wanted_servings(const GardenModel& model, const Demand& demand);

/// Of the weeks that the plan is for; what is missing after them counts in no half.
[[nodiscard]] MissingMost missing_most(const GardenModel& model, const Demand& demand);

/// The product of a crop's sowings of a variety (or of none) for a size, if there is one.
[[nodiscard]] std::optional<std::size_t> sown_product(const GardenModel& model, const std::string& crop,
                                                      const std::string& variety, stand::SizeGoal size);

/// Fills `groups`, `pools`, the taking order of each demand, and missing zero tables. Call once all else is
/// there.
void finish_model(GardenModel& model);

/// Mean over the model's years of a table [member * weeks + week] in one week.
[[nodiscard]] double mean_of_years(const GardenModel& model, const std::vector<double>& table, std::size_t week);

/// Servings that a clump of the candidate brings in all weeks, mean over the scenarios.
[[nodiscard]] double mean_supply(const GardenModel& model, const Candidate& candidate);

/// By product: the last week in which any want can take of it; -1 when none ever does.
[[nodiscard]] std::vector<int> last_wanted_weeks(const GardenModel& model);

/// All that lies in store of a product from the weeks before, servings.
[[nodiscard]] double stored_servings(const GardenModel& model, std::size_t product);

/// What of it would be good at the end of a week and not too old yet, if none were eaten.
[[nodiscard]] double stored_still_good(const GardenModel& model, std::size_t product, std::size_t week);

/// The first week at whose end anything of a product can be too old to eat.
[[nodiscard]] std::size_t first_old_week(const GardenModel& model, const Pool& pool, std::size_t product);

/// Whether anything of a product can ever grow too old to eat within the plan's weeks.
[[nodiscard]] bool can_grow_old(const GardenModel& model, const Pool& pool, std::size_t product);

/// Length of a bed in whole millimetres, the unit of placement.
[[nodiscard]] int length_mm(const bed::Bed& bed);
/// A place along a bed, to the whole millimetre.
[[nodiscard]] int whole_mm(double metres);

/// Clumps side by side across a bed; 0 when not even one has room.
[[nodiscard]] int clumps_across(const bed::Bed& bed, const Candidate& candidate);

/// Length of bed that so many clumps take, mm. Every clump has its full area, spacing × width / clumps
/// across; a stand that does not fill one row takes at least half a row, since plants cannot stand closer
/// than that to the next.
[[nodiscard]] int stretch_mm(const Candidate& candidate, int across, int clumps);

/// The most clumps that a length of bed holds: the inverse of `stretch_mm`.
[[nodiscard]] int clumps_in(const Candidate& candidate, int across, int free_mm);

/// Whether the candidate may stand in the bed: sun and width.
[[nodiscard]] bool may_stand(const bed::Bed& bed, const Candidate& candidate);

/// Cells to sow for so many clumps (0 for a direct sowing).
[[nodiscard]] int cells_for(const Candidate& candidate, int clumps);

/// Where cells stand: the trays in their order, then their heat mats. Weeks both included and within the
/// plan; none where the last is before the first.
struct CellStay {
  std::size_t room = 0;
  int first_week = 0, last_week = -1;
};

/// Where and when a sowing's cells stand: in the tray, and on a mat that has not room for all.
[[nodiscard]] std::array<CellStay, 2> cell_stays(const GardenModel& model, const Candidate& candidate);

/// The cells that have room there; as many as an int can be where nothing limits them.
[[nodiscard]] int cells_in_room(const GardenModel& model, std::size_t room);

/// By room and week: the cells that stand there already.
[[nodiscard]] std::vector<std::vector<int>> cells_taken(const GardenModel& model);

/// How far so many clumps are from what an earlier plan told of a sowing in a bed, 0 (as told) to 1 (none of
/// it left): one less the smaller count over the larger.
[[nodiscard]] double broken_share(int promised, int kept);

/// The calendar year in which most days of a week of the model lie: that of its Thursday (ISO 8601).
[[nodiscard]] int year_of_week(const GardenModel& model, int week);

/// Weeks for which a family must stay away from the ground that a sowing of it had.
[[nodiscard]] double rest_weeks_of(const Candidate& candidate);

/// Whether two stays cannot have the same ground: they are there at once, or their family comes back too
/// soon. `Stay` tells first_week and last_week, both included, family and rest_weeks.
template <typename Stay, typename OtherStay>
[[nodiscard]] bool keep_off_each_other(const Stay& a, const OtherStay& b) {
  if (a.first_week <= b.last_week && b.first_week <= a.last_week) return true;
  if (a.family != b.family) return false;
  const double rest_weeks = std::max(a.rest_weeks, b.rest_weeks);
  return a.first_week - b.last_week < rest_weeks && b.first_week - a.last_week < rest_weeks;
}

/// Whether a family that stood on a stretch until `last_week` keeps the candidate off it, or is kept off by
/// it: fewer than rotation_years × 52 weeks lie between them.
[[nodiscard]] bool too_soon_after(const Candidate& candidate, const std::string& family, int first_week,
                                  int last_week);

/// The same for what grew there in an earlier year.
[[nodiscard]] bool too_soon_after(const GardenModel& model, const Candidate& candidate,
                                  const PastStretch& past);

}  // namespace sowtide::plan
