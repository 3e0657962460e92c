// Sowings that are made and not yet seen up: when half should have shown, and whether to sow again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "desk/message.hpp"
#include "desk/season.hpp"
#include "stand/overdue.hpp"

namespace sowtide::desk {

enum class WaitState {
  waiting,  ///< not due yet
  look,     ///< more likely up than not
  overdue   ///< 9 sowings in 10 would have shown half by now
};
[[nodiscard]] std::string_view wait_state_text(WaitState state) noexcept;

/// One sowing under the ground.
struct Awaited {
  std::size_t stand = 0;  ///< index into the season's stands
  WaitState state = WaitState::waiting;
  std::optional<base::Date> p10, p50;
  base::Date half_by{};  ///< the day of kOverdueChance; where it is never reached, the last day reckoned
  double chance_by_today = 0.0;  ///< that half would have shown
  std::optional<stand::SowingAgain> again;  ///< reckoned once it may be needed: not while waiting
  int seeds_again = 0;
  bool pieces = false;  ///< tubers, cloves or slips, which are planted and not sown
};

/// The sowing of one stand; nothing when it is not sown, or has been seen up. Problems: those of the
/// reckoning.
[[nodiscard]] base::Result<std::optional<Awaited>> awaited(const Season& season, std::size_t stand);

/// Whether a stand sown once more from today on still brings something, by its outlook and by the windows of
/// its crop here. Problems: those of stand::sowing_again and of the windows.
[[nodiscard]] base::Result<stand::SowingAgain> sown_again(const Season& season, std::size_t stand);

/// Whether sowing once more pays, and by when; of pieces, whether planting does.
[[nodiscard]] Message again_said(const stand::SowingAgain& again, bool pieces);

/// The state with its days and chances, phrase by phrase.
[[nodiscard]] std::vector<Message> awaited_said(const Awaited& sowing);

/// The same in English words.
[[nodiscard]] std::string awaited_text(const Season& season, const Awaited& sowing);

}  // namespace sowtide::desk
