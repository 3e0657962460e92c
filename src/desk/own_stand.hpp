// A stand that the grower puts into the garden without the planner: sown on a whim, bought as plants, or
// there already.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/message.hpp"
#include "desk/season.hpp"
#include "desk/typed_advice.hpp"
#include "stand/stand_number.hpp"

namespace sowtide::desk {

/// Plants, or clumps, that one stand by hand may have: more than any garden here has room for.
inline constexpr int kMostOwnClumps = 100000;

/// What the grower tells of it; what is left out is taken from the crop.
struct OwnStand {
  std::string crop;     ///< id
  std::string variety;  ///< id, or empty
  std::string bed;      ///< id
  int clumps = 0;       ///< plants, or clumps of several
  base::Date day{};  ///< sown, or set out where bought; up to today it is written down as done, later planned
  bool bought = false;
  std::string tray;                  ///< id of the tray it is raised in; empty: sown in place, or bought
  std::optional<double> from_m;      ///< along the bed; nothing: where there is room first
  std::optional<double> spacing_mm;  ///< between clumps
  std::optional<double> plants_per_clump;
  stand::SizeGoal size = stand::SizeGoal::large;
};

/// A planned stand that has lost its room to one that really stands there.
struct DisplacedStand {
  std::string id;
  std::string crop;      ///< id
  bool by_hand = false;  ///< put in or moved so: the log names it, and a new plan leaves it where it is
};

/// The stand, what is written in the log with it, and the season as it then is.
struct MadeStand {
  stand::StandPlan plan;
  std::vector<book::Event>
      entries;  ///< of the day it was sown or set out; else a note, so that a plan leaves it alone
  std::vector<Message> sun_said;  ///< a caution where its bed has less sun than it asks for
  Season season;
  std::vector<DisplacedStand> displaced;
};

/// The names of all stands of the garden and of its log: no new stand takes one of them.
[[nodiscard]] stand::StandNames names_ever_given(const book::GardenDescription& garden,
                                                 const std::vector<book::Event>& events);

/// Stands of a season that have lost their room, with what a person is told of each.
[[nodiscard]] std::vector<DisplacedStand> displaced_stands(const Season& season,
                                                           const std::vector<book::Event>& events,
                                                           const std::vector<std::string>& ids);

/// Makes the stand and finds its place: where nothing else is or will be at that time; for what was sown or
/// bought up to today, else where fewest stands are planned, which it displaces. Crops that wait in the
/// ground are picked as they are wanted, over `own_pick_weeks`. `advice` is that of its refusals. Problems:
/// out_of_range (a number that no stand can have; farther ahead than `kFarthestAhead`), not_found (crop,
/// variety, bed, tray), contradiction (the crop bears no setting out, or is not sown in place), infeasible
/// (no room in the bed for so long), those of the season.
[[nodiscard]] base::Result<MadeStand> make_own_stand(const crop::CropLibrary& library,
                                                     const book::GardenDescription& garden,
                                                     const std::vector<book::Event>& events, base::Date today,
                                                     const OwnStand& told, const TypedAdvice& advice = {});

/// Weeks over which what waits in the ground is picked when nobody says otherwise: a winter, of leaf until it
/// flowers in spring (both chosen); 0 of what does not wait.
[[nodiscard]] int own_pick_weeks(const crop::Crop& crop);

/// {"stand","crop","bed","from_m","to_m","clumps","spacing_mm","method","day","logged","displaced"};
/// docs/api/own-stand.schema.json.
[[nodiscard]] std::string own_stand_json(const MadeStand& made);

/// {"stand","bed","from_m","to_m","sow","displaced"} of a stand that was moved; docs/api/stand-move.schema.json.
[[nodiscard]] std::string moved_stand_json(const stand::StandPlan& moved,
                                           const std::vector<DisplacedStand>& displaced);

/// {"stand","released":true}; docs/api/stand-released.schema.json.
[[nodiscard]] std::string stand_released_json(const std::string& stand);

/// {"stand","removed":true}; docs/api/stand-gone.schema.json.
[[nodiscard]] std::string stand_gone_json(const std::string& stand);

}  // namespace sowtide::desk
