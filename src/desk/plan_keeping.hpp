// A plan takes its time, and the garden may change meanwhile: what of the plan can be kept then.
#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "book/garden.hpp"
#include "book/garden_file.hpp"
#include "desk/season.hpp"
#include "plan/plan.hpp"

namespace sowtide::desk {

/// What a garden was when a plan was begun on it.
struct PlannedFor {
  std::vector<stand::StandPlan> stands;
  std::set<std::string, std::less<>> begun;  ///< ids of those of which an entry of the log stands
  std::int64_t last_entry = 0;               ///< of the log
  std::vector<plan::Want> wants = {};
};

[[nodiscard]] PlannedFor planned_for(const book::GardenDescription& garden,
                                     const std::vector<book::Event>& events);

/// A plan as the garden of now can take it.
struct FittedPlan {
  plan::Plan plan;  ///< without what has no room any more, under the names it is kept by
  std::vector<stand::StandPlan>
      by_hand;                        ///< not begun, but moved or put in since the plan was begun: they stay
  std::vector<plan::Note> meanwhile;  ///< what became of the plan for that; also behind the plan's own notes
};

/// Fits a plan to what the garden is now. What was logged, moved or put in by hand since it was begun stays
/// as it is; a new stand whose name was taken gets the next free one; what no longer fits beside that, or
/// into its bed, is left out. Where nothing changed the plan is what it was. Cost: a season, where something
/// changed. Problems: those of make_season.
[[nodiscard]] base::Result<FittedPlan> fit_plan(const crop::CropLibrary& library, const PlannedFor& before,
                                                plan::Plan plan, const book::GardenDescription& now,
                                                const std::vector<book::Event>& events, base::Date today,
                                                SeasonCache* cache = nullptr);

/// Keeps a plan in the garden file, fitted to what the garden is by then; gives what was kept.
[[nodiscard]] base::Result<FittedPlan> keep_plan(book::GardenFile& file, const crop::CropLibrary& library,
                                                 const PlannedFor& before, const plan::Plan& plan,
                                                 base::Date today, SeasonCache* cache = nullptr);

}  // namespace sowtide::desk
