// Constants of the engine that more than one of its parts reckons with. Sources and reasons:
// docs/models/stand.md, "Constants".
#pragma once

namespace sowtide::stand::detail {

/// Of the thermal time to maturity: cold does not count towards flowering before (chosen).
inline constexpr double kJuvenileShare = 0.25;
/// Frost risk that growers accept when setting out (common practice).
inline constexpr double kSafeFrostShare = 0.20;

}  // namespace sowtide::stand::detail
