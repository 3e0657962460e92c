// What is still to come of a stand, and where it stands when: the two readings of an outlook that all sheets
// share.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "desk/season.hpp"

namespace sowtide::desk {

/// Something that happens to a stand, not done yet.
struct Moment {
  enum class Kind { sow, up, harden_off, set_out, first_pick, last_pick };
  Kind kind = Kind::sow;
  base::Date early{}, middle{}, late{};  ///< 1, 5 and 9 years in 10; all the same for what is decided
};

/// "sow", "up", "harden-off", "set-out", "first-pick", "last-pick".
[[nodiscard]] std::string_view moment_word(Moment::Kind kind) noexcept;

/// In the order of life. Empty for a finished stand; what happens in none of the years is left out.
[[nodiscard]] std::vector<Moment> moments_ahead(const Season& season, std::size_t stand);

/// A stay of a stand in one place. It fades between `may_leave` and `last`: gone in 1 and in 9 years of 10.
struct Stay {
  std::size_t stand = 0;  ///< in the order of the season
  bool in_tray = false;
  std::string place;  ///< id of the bed or the tray
  base::Date first{}, may_leave{}, last{};
};

/// Its stays, tray first. A stand that never gets into its bed has none there; one of which nothing is
/// expected is drawn as the month after sowing.
[[nodiscard]] std::vector<Stay> stays_of(const Season& season, std::size_t stand);

/// Chance that the stay still takes its place on a day: 1 until it may leave, then straight down to 0.1 on
/// the last day.
[[nodiscard]] double presence(const Stay& stay, base::Date day);
/// Chance that the stand is ready to pick on a day; 0 outside what is known.
[[nodiscard]] double ready_chance(const stand::Outlook& outlook, base::Date day);

}  // namespace sowtide::desk
