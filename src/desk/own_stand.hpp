// A stand that the grower puts into the garden without the planner: sown on a whim, bought as plants, or
// there already.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/message.hpp"
#include "desk/season.hpp"

namespace sowtide::desk {

/// What the grower tells of it; what is left out is taken from the crop.
struct OwnStand {
  std::string crop;     ///< id
  std::string variety;  ///< id, or empty
  std::string bed;      ///< id
  int clumps = 0;       ///< plants, or clumps of several
  base::Date day{};     ///< sown, or set out where bought; up to today it is written down as done
  bool bought = false;
  std::string tray;                  ///< id of the tray it is raised in; empty: sown in place, or bought
  std::optional<double> from_m;      ///< along the bed; nothing: where there is room first
  std::optional<double> spacing_mm;  ///< between clumps
  std::optional<double> plants_per_clump;
  stand::SizeGoal size = stand::SizeGoal::large;
};

/// The stand, what is written in the log with it, and the season as it then is.
struct MadeStand {
  stand::StandPlan plan;
  std::vector<book::Event>
      entries;  ///< of the day it was sown or set out; else a note, so that a plan leaves it alone
  std::vector<Message> sun_said;  ///< a caution where its bed has less sun than it asks for
  Season season;
};

/// Makes the stand and finds its place. Crops that wait in the ground are picked as they are wanted, over
/// `own_pick_weeks`. Problems: not_found (crop, variety, bed, tray), contradiction (the crop bears no setting
/// out, or is not sown in place; bought on a day to come), infeasible (no room in the bed for so long), those
/// of the season.
[[nodiscard]] base::Result<MadeStand> make_own_stand(const crop::CropLibrary& library,
                                                     const book::GardenDescription& garden,
                                                     const std::vector<book::Event>& events, base::Date today,
                                                     const OwnStand& told);

/// Weeks over which what waits in the ground is picked when nobody says otherwise: a winter, of leaf until it
/// flowers in spring (both chosen); 0 of what does not wait.
[[nodiscard]] int own_pick_weeks(const crop::Crop& crop);

/// {"stand","crop","bed","from_m","to_m","clumps","spacing_mm","method","day","logged"};
/// docs/api/own-stand.schema.json.
[[nodiscard]] std::string own_stand_json(const MadeStand& made);

}  // namespace sowtide::desk
