// Windows, plans, outlooks and the worklist as tables for a terminal.
#pragma once

#include <string>
#include <vector>

#include "crop/crop.hpp"
#include "desk/garden_windows.hpp"
#include "desk/season.hpp"
#include "desk/worklist.hpp"
#include "plan/plan.hpp"
#include "stand/windows.hpp"

namespace sowtide::desk {

[[nodiscard]] std::string windows_text(const std::string& place, const std::string& weather_source,
                                       const std::vector<stand::SowingWindow>& windows,
                                       const std::vector<NoWindow>& without, double level);
[[nodiscard]] std::string plan_text(const plan::Plan& plan, const book::GardenDescription& garden,
                                    const crop::CropLibrary& library, base::Date today);
/// All stands in a table, or one stand in full when `only` names it.
[[nodiscard]] std::string outlook_text(const Season& season, const std::string& only);
[[nodiscard]] std::string worklist_text(const Season& season, const std::vector<Task>& tasks, int days);

}  // namespace sowtide::desk
