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

/// Somebody looked after half of a sowing should have shown, and nothing had. `stand` is one of the season's.
[[nodiscard]] bool sowing_failed(const Season& season, const book::StandState& stand);

/// What may still stand in the place of a stand that is gone.
struct Replacement {
  std::optional<stand::SowingAgain> sown;  ///< the same once more; nothing of one whose plants were bought
  std::optional<stand::SowingAgain>
      bought;           ///< plants to buy; nothing of a crop that does not bear setting out
  bool pieces = false;  ///< what is sown again are planting pieces
  [[nodiscard]] bool may_be_sown() const noexcept { return sown && sown->by; }
  [[nodiscard]] bool may_be_bought() const noexcept { return bought && bought->by; }
};

/// Whether a stand of the season still brings something when it is sown or bought again from today on, by its
/// outlook and the windows of its crop: the one rule of worklist and judgement.
[[nodiscard]] Replacement replacement_of(const Season& season, std::size_t stand);

/// What is to be done about a stand that is likely dead.
[[nodiscard]] Message look_if_dead_said(const Replacement& replacement);

/// By when it may be sown or bought again, or why not.
[[nodiscard]] std::vector<Message> replacement_said(const Replacement& replacement);

/// Whether sowing once more pays, and by when; of pieces, whether planting does.
[[nodiscard]] Message again_said(const stand::SowingAgain& again, bool pieces);

/// The state with its days and chances, phrase by phrase.
[[nodiscard]] std::vector<Message> awaited_said(const Awaited& sowing);

/// The same in English words.
[[nodiscard]] std::string awaited_text(const Season& season, const Awaited& sowing);

}  // namespace sowtide::desk
