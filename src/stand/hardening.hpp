// Frost hardiness: what cold kills half of the plants, by their age and by the warmth of the days before.
#pragma once

#include "crop/crop.hpp"

namespace sowtide::stand {

/// How hardened plants are, 0 (none) to 1 (as hardy as the crop gets), after one day more of this mean air
/// temperature. In the cold they harden within days, in warmth they lose it sooner: spinach gained most in
/// its first three days at 5 °C by day and 2 °C by night and little after the 14th, and lost all it loses
/// within three days at 20 and 17 °C ("Freezing tolerance and rapid cold acclimation of spinach", four
/// cultivars; its abstract was read, A. Fennell and P. H. Li as authors are from memory). First-order steps
/// of 3 and 1.5 days; that hardening is complete at a mean of 4 °C, none at 15 °C and even between is chosen.
[[nodiscard]] double hardening_after(double hardening, double mean_c) noexcept;

/// The hardening that lasting days of this mean air temperature bring, 0 to 1.
[[nodiscard]] double hardening_at(double mean_c) noexcept;

/// Air minimum that kills half of the plants, °C: the crop's figure for young plants, towards that of
/// hardened grown ones as far as they are grown and hardened (each 0 to 1). Tender crops, that stand no 2 °C
/// of frost when grown, do not harden (common practice): of them age alone counts.
[[nodiscard]] double half_killed_c(const crop::Limits& limits, double grown, double hardening) noexcept;

}  // namespace sowtide::stand
