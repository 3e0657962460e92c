// From a garden to its plan: gathers what the planner needs and keeps what already stands.
#pragma once

#include <string>
#include <vector>

#include "book/garden.hpp"
#include "plan/plan.hpp"
#include "plan/sowing_memory.hpp"

namespace sowtide::desk {

/// Plans the garden from `today` on. Stands of which an entry of the log stands, be it a note, are fixed; all
/// others are planned anew. Takes from `memory` what an earlier plan found of the same sowings, and leaves
/// there what this one finds; the plan is the same. Fails insufficient_data without weather, and with the
/// planner's own problems. `answer_before` is the answer of the plan that is kept, as the garden file has it:
/// what has come to pass since is told where it is the reason of a change.
[[nodiscard]] base::Result<plan::Plan> plan_garden(const crop::CropLibrary& library,
                                                   const book::GardenDescription& garden,
                                                   const std::vector<book::Event>& events, base::Date today,
                                                   const plan::PlanOptions& options,
                                                   plan::SowingMemory* memory = nullptr,
                                                   const std::string& answer_before = {});

/// Texts of the program that `plan_garden` solves, in the two open exchange formats.
enum class ProgramText { mps, lp };

/// The program for the garden as text, to be given to any other solver. Fails as `plan_garden` does.
[[nodiscard]] base::Result<std::string> plan_program_text(const crop::CropLibrary& library,
                                                          const book::GardenDescription& garden,
                                                          const std::vector<book::Event>& events,
                                                          base::Date today, const plan::PlanOptions& options,
                                                          ProgramText format);

}  // namespace sowtide::desk
