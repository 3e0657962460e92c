// When a stand is ready, and how what waits in the ground is pulled: the one reading that the worklist and the
// judgement share, so that they say the same.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "desk/season.hpp"
#include "keep/storage.hpp"
#include "stand/judge.hpp"

namespace sowtide::desk {

/// Worth picking on the day with an even chance or better.
[[nodiscard]] bool is_ready(const stand::Outlook& outlook, base::Date day);

/// Past its time in most years; what is still good may stand there.
[[nodiscard]] bool is_past(const stand::Outlook& outlook, base::Date day);

/// Whether something of a stand in its bed may be worth taking, so that it is judged before it is spoken of:
/// it is ready or past its time in some of the years, or its plants are large enough to be food.
[[nodiscard]] bool may_be_picked(const stand::Outlook& outlook, const crop::Crop& crop, base::Date day);

/// What a judgement asks for: to take something today, to wait for it, or neither.
enum class Picking { none, now, later };

[[nodiscard]] Picking picking_of(const stand::Judgement& judgement);

/// Where all of a stand goes that is taken at once.
struct WhereTo {
  keep::StorePlace place = keep::StorePlace::fridge;
  base::Date until{};    ///< half of it is still good
  bool keeps = false;    ///< for three weeks or longer (chosen: as long as the frost is looked ahead)
  bool freezes = false;  ///< it does not keep, and is a cooking green, which is blanched and frozen
};

/// Where what is taken of a crop on a day goes in a household, with a cool store or without.
[[nodiscard]] WhereTo where_to(const crop::Crop& crop, bool cool_store, base::Date day);

/// What of a stand went to the kitchen in so many days that end with `day` by the log, g; nothing of what was
/// neither weighed nor counted.
[[nodiscard]] double picked_in_days_g(const Season& season, std::size_t stand, base::Date day, int days);

/// What each weather year takes in the seven days from `day` on, g, less what was picked on the day itself;
/// of what is left standing and pulled by the week, less what was picked in the seven days that end with it:
/// who has fetched a week's share is told of the next one when it is due. Of the rest new ones are ready.
[[nodiscard]] std::vector<double> taken_in_week_g(const Season& season, std::size_t stand, base::Date day);

/// The same over the weather years.
[[nodiscard]] base::Quantiles left_of_week_g(const Season& season, std::size_t stand, base::Date day);

/// The day on which its weeks begin: the plan's, or that of the first picking, seen or expected, where that is
/// later. Nothing where no picking is expected and the plan names no day.
[[nodiscard]] std::optional<base::Date> pulled_from(const book::StandState& state,
                                                    const stand::Outlook& outlook);

/// Over how many weeks from then on it is picked in most years: the plan's, or as many as its end leaves of
/// them.
[[nodiscard]] int pulled_weeks(const book::StandState& state, const stand::Outlook& outlook);

/// When a stand would be ready by itself whose first picking is the plan's day in most years, held back until
/// then or begun with while it is small: its first picking, were that day not. Nothing for others, and once
/// it has been picked. Cost: one outlook.
[[nodiscard]] std::optional<stand::EventOutlook> ready_by_itself(const Season& season, std::size_t stand);

/// How the plan pulls a stand of the season that waits in the ground, seen from a day; nothing for others, and
/// once its weeks are over: then what is left comes in as of any stand.
[[nodiscard]] std::optional<stand::PlannedPulling> planned_pulling(const Season& season, std::size_t stand,
                                                                   base::Date day);

}  // namespace sowtide::desk
