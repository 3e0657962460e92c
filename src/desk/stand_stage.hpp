// How far a stand has come, read off its facts.
#pragma once

#include <string_view>

#include "base/date.hpp"
#include "stand/outlook.hpp"

namespace sowtide::desk {

enum class StandStage { planned, sown, up, growing, finished };

/// planned: nothing done; sown: not seen yet; up: in the tray or just emerged; growing: in its bed; finished:
/// cleared.
[[nodiscard]] StandStage stand_stage(const stand::StandFacts& facts) noexcept;

/// Whether it stands in the ground of its bed by the log, and not in a tray.
[[nodiscard]] bool stands_in_bed(const stand::StandPlan& plan, const stand::StandFacts& facts) noexcept;

/// Whether it stands in a tray by the log: sown or up, and not set out.
[[nodiscard]] bool stands_in_tray(const stand::StandPlan& plan, const stand::StandFacts& facts) noexcept;

/// A sowing missed by more than this is a reason to plan again, not work: the plan chooses among weekly
/// sowings, and the neighbours in time of one that long past have passed too.
inline constexpr base::Days kStillWork{21};

/// Whether it came or is to come into its bed as plants that were bought, on a day that is decided. Without
/// such a day, and of one that was seen before it was set out, it is raised in a tray that nobody told.
[[nodiscard]] bool comes_bought(const stand::StandPlan& plan, const stand::StandFacts& facts) noexcept;

/// The same of one that is only planned: its plants are still to be bought.
[[nodiscard]] bool to_be_bought(const stand::StandPlan& plan, const stand::StandFacts& facts) noexcept;

/// True for a sowing (or bought plants) only planned and so long past its day that it is no work any more.
[[nodiscard]] bool sowing_missed(const stand::StandPlan& plan, const stand::StandFacts& facts,
                                 base::Date today) noexcept;

/// "planned", "sown", "up", "growing", "finished": the word used in JSON.
[[nodiscard]] std::string_view stand_stage_text(StandStage stage) noexcept;

}  // namespace sowtide::desk
