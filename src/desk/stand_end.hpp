// Stands that are over though nobody has cleared them: killed by a night that the weather holds, or so long
// past their end that nothing good is left. What is said of them is to look, not to tend or to pick them.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "desk/message.hpp"
#include "desk/season.hpp"

namespace sowtide::desk {

/// The night that has likely killed a stand: the coldest of the week in which it died.
struct KillingNight {
  base::Date day{};
  double night_c = 0.0;  ///< how cold it was
};

/// Of a stand in its bed: the cold that has killed it by `date` in at least four of five weather years, before
/// anything worth having came of it. Nothing where somebody counted, measured or picked it since. For days gone
/// by all years are what was observed.
[[nodiscard]] std::optional<KillingNight> likely_killed(const Season& season, std::size_t stand,
                                                        base::Date date);

/// The day from which nothing good is likely left of a stand in its bed: after its end in nine of ten years
/// two weeks for leaf, pods, fruit, radishes and the like, six for bulbs, tubers, and roots and stems that
/// stand in the ground. Nothing where no picking is expected.
[[nodiscard]] std::optional<base::Date> past_eating_from(const Season& season, std::size_t stand);

/// The same day, when it has come by `date`.
[[nodiscard]] std::optional<base::Date> past_eating_since(const Season& season, std::size_t stand,
                                                          base::Date date);

/// Why the stand is to be looked at or cleared instead of picked; empty for one that lives on.
[[nodiscard]] std::vector<Message> over_said(const Season& season, std::size_t stand, base::Date date);

/// Below this chance of a harvest worth having no work is done for it any more (chosen).
inline constexpr double kHopeless = 0.1;

/// Of a stand in its tray by the log of which nothing comes any more, overgrown there or too late for the
/// season: that it is so; empty else.
[[nodiscard]] std::vector<Message> tray_too_late_said(const Season& season, std::size_t stand);

}  // namespace sowtide::desk
