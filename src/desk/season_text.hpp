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

/// The windows of sowing of a place, a line each, those of a crop together; below them why a crop has none.
/// `level` is the share of weather years that they were asked for.
[[nodiscard]] std::string windows_text(const std::string& place, const std::string& weather_source,
                                       const std::vector<stand::SowingWindow>& windows,
                                       const std::vector<NoWindow>& without, double level);
/// A plan: what it keeps of the wants, its stands, then notes, changes and what would bring more.
[[nodiscard]] std::string plan_text(const plan::Plan& plan, const book::GardenDescription& garden,
                                    const crop::CropLibrary& library, base::Date today);

/// Of every stand of a plan, in the order of its days: why that day, that number and that bed.
[[nodiscard]] std::string plan_reasons_text(const plan::Plan& plan, const book::GardenDescription& garden,
                                            const crop::CropLibrary& library, base::Date today);
/// All stands in a table, or one stand in full when `only` names it, with its plants by size on a day, today
/// unless told; of a stand without an outlook, why.
[[nodiscard]] std::string outlook_text(const Season& season, const std::string& only,
                                       std::optional<base::Date> on = {});
/// The tasks of the next `days` days, those of one kind and day in one block, each with the command that logs
/// it.
[[nodiscard]] std::string worklist_text(const Season& season, const std::vector<Task>& tasks, int days);

}  // namespace sowtide::desk
