// Today's work: what to do, where, how much, and why, ordered by the consequence of not doing it.
#pragma once

#include <string>
#include <vector>

#include "desk/message.hpp"
#include "desk/season.hpp"

namespace sowtide::desk {

/// One line of the worklist.
struct Task {
  std::string kind;  ///< "sow", "check-emergence", "re-sow", "harden-off", "set-out", "thin", "pick", "look",
                     ///< "finish", "eat", "throw-away", "protect"
  std::string stand;       ///< or empty
  std::string crop;        ///< id
  std::string crop_name;
  std::string variety;     ///< name, or empty
  std::string target;      ///< lot in store that it concerns, or empty
  std::string place;       ///< bed or tray name with stretch, or where a lot lies, for people
  std::string amount;      ///< "34 cells, 1 seed each"
  std::string reason;      ///< why, with numbers
  std::string caution;     ///< or empty
  std::string handling = {};  ///< how what goes into store is made ready, in the crop's own words; or empty
  /// The same four, phrase by phrase, for other languages and units. A caution of the crop's data has none.
  std::vector<Message> place_said, amount_said, reason_said, caution_said;
  base::Date due{};        ///< best day
  base::Date latest{};     ///< after this it costs
  double urgency = 0.0;    ///< 0..1, for ordering
  std::string log_event;   ///< event kind that logs it done ("sown", …), or empty
  std::string
      log_text;  ///< text of that event: "bought" of plants to buy, "all" where nothing is left, else empty
  std::string log_store;  ///< place of a `stored` entry that follows that event: "kitchen", "fridge", "best",
                          ///< or empty
  double log_count = 0.0;  ///< proposed count for that event, or 0
  double log_grams = 0.0;  ///< proposed weight for that event, or 0
  /// Of a sowing that should be up: seeds to sow once more should nothing show; 0 where that is of no use.
  double again_count = 0.0;
};

/// Tasks due within `horizon_days` of the season's today, most urgent first.
[[nodiscard]] std::vector<Task> worklist(const Season& season, int horizon_days = 7);

}  // namespace sowtide::desk
