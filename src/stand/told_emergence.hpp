// The day on which half of a sowing was up, as far as the log tells it.
#pragma once

#include <optional>

#include "base/date.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// Thermal time to half emergence of a slow lot of seed, over that of the lot in the middle: two standard
/// deviations of `kEmergenceLogError`.
[[nodiscard]] double slow_lot_factor() noexcept;

struct ToldEmergence {
  int day = 0;         ///< half up
  int up_by = 0;       ///< at the latest
  bool dated = false;  ///< the log dates it; else it only bounds what the weather gives
};

/// Days counted from `first`. A count of half and more that was made while a slow lot would still come up
/// (`slow_day`, and a week more, since nobody looks every day) dates emergence. Plants that were counted
/// later, set out, measured or picked were up by then: such days only bound the day that the weather gives
/// (`expected_day`). Negative days: it does not happen in that weather. Nothing where the log does not tell.
[[nodiscard]] std::optional<ToldEmergence> told_emergence(const StandFacts& facts, base::Date first,
                                                          int expected_day, int slow_day);

}  // namespace sowtide::stand
