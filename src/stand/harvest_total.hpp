// What a stand still gives in all.
#pragma once

#include "base/quantile.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// Fresh weight over all weeks of the outlook that are still to come, g, over the weather years.
[[nodiscard]] base::Quantiles still_to_come_g(const Outlook& outlook);

}  // namespace sowtide::stand
