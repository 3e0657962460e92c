// What is raised in trays, week by week: who stands where, who is ready, and what is to be done.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "desk/message.hpp"
#include "desk/season.hpp"
#include "stand/nursery.hpp"

namespace sowtide::desk {

/// One stand in the nursery.
struct RaisedStand {
  std::size_t stand = 0;  ///< index into the season's stands
  int cells = 0;
  double cell_width_mm = 0.0;  ///< of its tray, or the crop's usual
  stand::NurseryOutlook outlook;
  std::vector<stand::LateSetOut> late_cost;  ///< empty where it finds no day to be set out
  std::string reason;
};

/// Use of one tray in one week, on its busiest day.
struct TrayUse {
  std::string tray;
  int cells = 0;       ///< in the median year
  int cells_most = 0;  ///< where the slowest tenth of the years has not let them out yet
  int pots = 0;
  double area_m2 = 0.0;
  double light_mj_m2 = 0.0;  ///< PAR a day on the plants
  double mean_c = 0.0;
};

struct NurseryTask {
  base::Date date{}, latest{};
  std::string kind;  ///< "sow", "look", "pot-on", "harden-off", "set-out"
  std::size_t stand = 0;
  Message said;  ///< what to do, with its amounts
};

struct NurseryWeek {
  base::Date week_start{};
  std::vector<TrayUse> use;  ///< trays in use only
  std::vector<NurseryTask> tasks;
};

struct NurseryView {
  std::vector<RaisedStand> stands;  ///< by day of sowing
  std::vector<NurseryWeek> weeks;   ///< from this week on, to the last stand's setting out
};

/// Everything that is in trays or planned to be. Problems: those of the stand model.
[[nodiscard]] base::Result<NurseryView> nursery_view(const Season& season);

/// docs/api/nursery.schema.json.
[[nodiscard]] std::string nursery_json(const Season& season, const NurseryView& view);
/// The same as tables for people.
[[nodiscard]] std::string nursery_text(const Season& season, const NurseryView& view);

}  // namespace sowtide::desk
