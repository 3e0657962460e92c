// What differs between an earlier plan and a new one, and why.
#pragma once

#include <optional>
#include <vector>

#include "plan/candidates.hpp"
#include "plan/forward_pass.hpp"

namespace sowtide::plan {

/// A difference of the table smaller than this is not worth a word (chosen).
inline constexpr double kFeltServings = 0.05;

/// A stand of the earlier plan, of the new one, or of both where it moved or changed.
struct StandChange {
  std::optional<std::size_t> before, after;
};

/// What differs: first what changed, then what went, then what came. Stands are matched by crop, variety,
/// method (bought plants apart) and size, nearest in date first.
[[nodiscard]] std::vector<StandChange> stand_changes(const std::vector<stand::StandPlan>& before,
                                                     const std::vector<stand::StandPlan>& after);

/// Gives each stand of the new plan the name of the earlier one that it is, matched so, and leaves the others without:
/// labels, notes and what was said of a stand stay true.
void keep_names(const std::vector<stand::StandPlan>& before, std::vector<stand::StandPlan>& after);

/// The change as a phrase ("stand-changed", "stand-left-out", "stand-new"; of bought plants
/// "bought-left-out", "bought-new"), without its reason.
[[nodiscard]] base::Message change_said(const PlanInput& input, const std::vector<stand::StandPlan>& after,
                                        const StandChange& change);

/// What the table would lose, or below 0 gain, were a change undone, its ground apart: without what came of
/// the earlier stand, and with that stand again as `sowing` of the model, where there was one. `judge` holds
/// the new plan's counts, then as before.
[[nodiscard]] double cost_of_undoing(ForwardPass& judge, const std::vector<PlacedStand>& placed,
                                     const StandChange& change, const std::vector<stand::StandPlan>& earlier,
                                     std::optional<std::size_t> sowing);

/// The sowing of the model that an earlier stand was; nothing where there is none any more.
[[nodiscard]] std::optional<std::size_t> sowing_as_it_was(const GardenModel& model,
                                                          const stand::StandPlan& earlier);

/// Why the earlier stand is not there as it was, seen from the new plan: its day is past; a sowing then would
/// fail; a stand that is there keeps its ground or its family off it; nobody asks for it; what it would cost
/// to have it as it was; or what has its ground now. `judge` holds the new plan's counts.
[[nodiscard]] base::Message reason_of_change(const PlanInput& input, const PreparedGarden& garden,
                                             ForwardPass& judge, const std::vector<PlacedStand>& placed,
                                             const std::vector<stand::StandPlan>& after,
                                             const StandChange& change);

/// That the weather ahead is colder or warmer than the earlier stand was planned for, by a degree or more and how
/// much ("soil-colder-than-planned", "air-warmer-than-planned" …), where that tells why: the stand moved to a day on
/// which it meets more nearly what it was planned for, or a sowing on its old day would fail now. `reason` is that
/// of `reason_of_change`; a stand that nobody asks for or whose ground is taken needs no weather to move.
[[nodiscard]] std::optional<base::Message> weather_of_change(const PlanInput& input,
                                                             const PreparedGarden& garden,
                                                             const std::vector<stand::StandPlan>& after,
                                                             const StandChange& change,
                                                             const base::Message& reason);

}  // namespace sowtide::plan
