// Why the plan is as it is: for each stand, and for room that would be worth having.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "plan/candidates.hpp"
#include "plan/formulate.hpp"
#include "plan/forward_pass.hpp"
#include "plan/layout.hpp"
#include "plan/plan.hpp"
#include "plan/solver.hpp"

namespace sowtide::plan {

/// Why this date, this number, this bed: what the stand feeds and when, what would be missing without it,
/// what a week earlier or later would change (room apart), and what stood there before. `judge` holds the
/// whole plan's counts; `placed` and `stands` are in the same order. `outlook`: what the stand is told to
/// bring on every page; nothing: as its choice was reckoned.
[[nodiscard]] Note reason_for_stand(const PlanInput& input, const GardenModel& model, ForwardPass& judge,
                                    const std::vector<PlacedStand>& placed, std::size_t which,
                                    const std::vector<stand::StandPlan>& stands,
                                    const std::optional<stand::Outlook>& outlook);

/// The outlook of every stand of a plan, beside each other; nothing where the garden's source has none.
[[nodiscard]] std::vector<std::optional<stand::Outlook>> outlooks_of(
    const PlanInput& input, const PreparedGarden& garden, const std::vector<PlacedStand>& placed,
    const std::vector<stand::StandPlan>& stands);

/// What one more metre of each kind of bed (in all weeks) and ten more cells of each tray would save, and
/// which wants get most of it (by their ids), dearest first: the relaxation solved again with them. `solver`
/// has solved the formulation's program.
[[nodiscard]] std::vector<Worth> worths_of(const GardenModel& model, const Formulation& formulation,
                                           const LinearSolution& relaxation, RelaxationSolver& solver);

/// What it would save at most to sow the wants that miss most (three of them) a week before their first day:
/// the program solved afresh with that sowing, which needs bed and tray a week earlier and bears a week
/// earlier. `judge` holds the whole plan's counts, `bound` is the relaxation's value. Nothing where no
/// weather spoils a sowing of the week before: it is past, or a later one is as good in every way. `go_on` is
/// asked before each program, from several threads: false, and no more is solved.
[[nodiscard]] std::vector<Worth> worths_of_an_earlier_week(const PlanInput& input,
                                                           const PreparedGarden& garden,
                                                           const ForwardPass& judge, double bound,
                                                           const std::function<bool()>& go_on);

}  // namespace sowtide::plan
