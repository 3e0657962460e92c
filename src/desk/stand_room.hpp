// Where a stand has room: whether it would stand where another is sure to be, and which stretches are free.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/season.hpp"

namespace sowtide::desk {

/// The stands that `tried` (a season of one stand, with_plan_tried) would newly share room with, among
/// those of `season`, by id. Two share room when their stretches of one bed overlap on a day on which nine
/// years in ten both are there: from sowing (or setting out, median) to the early end of picking. Those that
/// the stand shares room with as it is do not count: a stand whose place turned out to be still taken must be
/// free to go.
[[nodiscard]] std::vector<std::string> new_neighbours(const Season& season, const Season& tried);

/// Refuses a moved stand where it would newly share room with another: contradiction, with their names. Where
/// it really is (`put_right`) what is only planned there has to give way: the stands that do, by id.
[[nodiscard]] base::Result<std::vector<std::string>> check_room(const Season& season,
                                                                const stand::StandPlan& moved,
                                                                bool put_right = false);

/// Stands of the season that share room with one, by id.
struct SharedRoom {
  std::vector<std::string> begun;
  std::vector<std::string> planned;  ///< nothing of them was done yet
};
[[nodiscard]] SharedRoom shared_room(const Season& season, const std::string& id);

/// A stand in the ground where another is to be.
struct PlaceHolder {
  std::size_t stand = 0;  ///< index into the season's stands
  base::Date until{};     ///< until then it stands there in nine years of ten
};

/// What stands longest of those in their bed that one of the season shares room with; nothing where it has
/// room.
[[nodiscard]] std::optional<PlaceHolder> place_holder(const Season& season, const std::string& id);

/// Whether what is only planned keeps the room of its time or gives it up to what really stands there.
enum class PlannedRoom { kept, given_up };

/// The first place along its bed, m from its start, where a stand of the season has room in that sense for
/// all its time; nothing where it has none. Where planned room is given up it is the first of those on which
/// fewest are planned. A stand that never gets into its bed has room at once.
[[nodiscard]] std::optional<double> first_room_m(const Season& season, const std::string& id,
                                                 PlannedRoom planned);

}  // namespace sowtide::desk
