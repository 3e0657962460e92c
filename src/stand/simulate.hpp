// One stand lived through every member of the ensemble: what each plant weighs on each day, and what is
// picked when.
//
//     const auto season = std::make_shared<const SeasonWeather>(ensemble);
//     const CropWeather weather(beet, season);
//     const StandLives lives = simulate(weather, plan, {}, {}, {});
// The equations are written down in docs/models/stand.md.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "stand/bed_place.hpp"
#include "stand/crop_weather.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// What ended or spoilt a member's life before a harvest worth having.
enum class Limit : std::uint8_t {
  none,
  soil_too_cold,
  soil_too_hot,
  no_safe_set_out,
  outgrew_tray,
  frost,
  heat,
  bolting,
  season_too_short,
  day_length  ///< bulbs begin too late for the days, or days are still too long to sow for winter
};

inline constexpr std::size_t kLimits = static_cast<std::size_t>(Limit::day_length) + 1;

/// Plain words for a limit, for people: "frost".
[[nodiscard]] std::string_view limit_text(Limit limit) noexcept;

/// Share of the leaf that a cut of a leaf crop takes (common practice: cut half, so that it grows again).
inline constexpr double kCutShare = 0.5;

/// Plants (or leaves) taken by hand on a day, besides what the harvest takes.
struct Removal {
  base::Date date{};
  int largest_per_clump = 0;  ///< so many of the largest of every clump, leaving at least one
  double above_g = 0.0;       ///< and all whose harvested part weighs this or more; 0: none for that reason
  int keep_per_clump = 0;     ///< and the smallest of every clump until so many are left; 0: no thinning
  double leaf_share = 0.0;    ///< and this share of the leaves (of leaf crops: of the top) of those that stay
};

struct SimulationOptions {
  std::size_t sampled_clumps = 32;  ///< clumps that stand for all clumps of the stand
  std::uint64_t seed = 1;
  bool leave_standing = false;  ///< nothing is pulled, cut or picked: how the stand goes on if left alone
  std::optional<Removal> removal = {};
  BedPlace bed = {};            ///< once it is in its bed
  std::vector<base::Date> watch = {};  ///< days on which every plant's weight is kept
  /// Growth as a share of the unstressed, 0..1, laid out as the ensemble is (member * day_count + day);
  /// empty: 1. The worse of the two counts, not their product (Shibu et al. 2010).
  std::vector<double> water_factor = {}, nitrogen_factor = {};
};

/// Seed lots that stand for all: equal shares of their spread about the library's figure (`kEmergenceLogError`).
inline constexpr std::size_t kSeedLots = 5;

/// Life in one member. Days count from the ensemble's first; -1 is never.
struct MemberLife {
  int emerge_day = -1;  ///< half of the plants are up, from the lot in the middle
  /// The same from every lot, the quickest first; only where the lot in the middle comes up.
  std::array<int, kSeedLots> lot_emerge_day = {-1, -1, -1, -1, -1};
  int set_out_day = -1;
  int grown_day = -1;       ///< it is no seedling against frost any more
  int first_pick_day = -1;  ///< one plant in ten has been worth taking, or the first cut or pick
  int last_pick_day = -1;
  int end_day = -1;      ///< the ground is free again
  double taken_g = 0.0;  ///< fresh weight taken, per plant sown for
  bool success = false;
  Limit limit = Limit::none;
};

/// All members' lives. Daily arrays: value of member m on day `first_day + i` is at m * day_count + i.
struct StandLives {
  std::size_t first_day = 0;    ///< day of the sowing
  std::size_t day_count = 0;    ///< to the end of the ensemble
  double plants = 0.0;          ///< in the whole stand, before any was taken out
  double sampled_plants = 0.0;  ///< the same of the sample: one of it stands for plants / sampled_plants
  std::vector<MemberLife> members;
  std::vector<double>
      plant_g;  ///< mean fresh weight of the harvested organ per plant, as in the outlook's fan
  std::vector<double> taken_g;  ///< fresh weight taken that day from the whole stand

  // Of the sample: plant p of clump c is at p * clumps + c, the largest start first in every clump.
  std::size_t clumps = 0, ranks = 0;
  /// Fresh weight of the harvested part of every plant on the watched days: (m * watch + w) * clumps * ranks
  /// + plant. 0 where nothing stands; after the end of a stand, what it weighed at its end.
  std::vector<double> watched_g;
  /// Laid out alike: 1 where the plant is up and neither taken nor killed by a night, whatever it weighs.
  std::vector<std::uint8_t> watched_up;
  std::vector<double> watched_alive;   ///< by member and watched day: share of the plants that frost has left
  std::vector<double> removed_g;       ///< by member: taken out by the removal, g per sampled clump
  std::vector<double> removed_plants;  ///< by member: plants of the sample taken out by the removal
  std::vector<double> greens_g;        ///< by member: fresh leaf taken by the removal, g per sampled clump
  std::vector<std::uint8_t> open_sides;  ///< by sampled clump: sides that face the path, 0 to 2
};

/// Lives one stand. `plan.sow` must lie inside the ensemble (checked by `outlook`; asserted here).
[[nodiscard]] StandLives simulate(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
                                  const std::optional<RaisingPlace>& raising,
                                  const SimulationOptions& options);

/// The outlook that a stand's lives come to.
[[nodiscard]] Outlook outlook_of(const StandLives& lives, const CropWeather& weather, const StandPlan& plan,
                                 const StandFacts& facts);

/// The outlook with the crop's weather already at hand.
[[nodiscard]] base::Result<Outlook> outlook(const CropWeather& weather, const StandPlan& plan,
                                            const StandFacts& facts,
                                            const std::optional<RaisingPlace>& raising,
                                            const SimulationOptions& options = {});

}  // namespace sowtide::stand
