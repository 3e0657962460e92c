// How far a stand has come, read off its facts.
#pragma once

#include <string_view>

#include "stand/outlook.hpp"

namespace sowtide::desk {

enum class StandStage { planned, sown, up, growing, finished };

/// planned: nothing done; sown: not seen yet; up: in the tray or just emerged; growing: in its bed; finished: cleared.
[[nodiscard]] StandStage stand_stage(const stand::StandFacts& facts) noexcept;

/// "planned", "sown", "up", "growing", "finished": the word used in JSON.
[[nodiscard]] std::string_view stand_stage_text(StandStage stage) noexcept;

}  // namespace sowtide::desk
