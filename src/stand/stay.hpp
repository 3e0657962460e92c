// When a stand leaves its tray and holds its bed: one rule for the planner, the pages and the sheets, so that
// none sets a stand where another says that something still stands. The page has the same
// (web/src/domain/season.ts).
#pragma once

#include <optional>
#include <string_view>

#include "base/date.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// A stand of which no harvest is expected holds its bed so long, and is then given up; one that is never
/// expected to be set out, its tray. Our judgement.
inline constexpr base::Days kStayWithoutHarvest{30};

/// Whether it is only planned, or still in its tray: by the log neither set out nor picked, and not over.
[[nodiscard]] bool waits_to_go_out(const StandFacts& facts) noexcept;

/// A day of an event at a quantile; nothing where it is expected in none of the years.
[[nodiscard]] std::optional<base::Date> expected_day(const Outlook& outlook, std::string_view event,
                                                     base::Date EventOutlook::*quantile) noexcept;

/// The day on which a stand raised in a tray, or bought, goes out: done, decided, or as `expected`. While it
/// waits that is no day before today, whatever was decided. Nothing where no day is known.
[[nodiscard]] std::optional<base::Date> goes_out_on(const StandPlan& plan, const StandFacts& facts,
                                                    std::optional<base::Date> expected, base::Date today);

/// The day on which a stand comes into its bed: that of its sowing in place, else that on which it goes out.
[[nodiscard]] std::optional<base::Date> enters_bed_on(const StandPlan& plan, const StandFacts& facts,
                                                      std::optional<base::Date> expected_out,
                                                      base::Date today);

/// The last day on which it holds its bed, by a day on which it is picked last; nothing: it is never picked.
[[nodiscard]] base::Date leaves_bed_on(base::Date enters, std::optional<base::Date> last_pick) noexcept;

}  // namespace sowtide::stand
