// Which entries stand, after corrections and corrections of corrections.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace sowtide::book {

struct Event;

/// A correction takes its target out. One that is itself taken out counts for nothing, so that its target stands
/// again. Later ones win, as in the fold: a correction only ever aims at an entry that came before it.
class Corrections {
 public:
  /// Takes a correction; they are to be taken in the order of arrival. Time: the length of its chain.
  void take(const std::string& id, const std::string& target);

  /// True when the entry does not stand.
  [[nodiscard]] bool removed(std::string_view id) const;

  /// The entries that stand again once a further correction of `target` is taken; `target` itself falls.
  [[nodiscard]] std::vector<std::string> restored_by(const std::string& target) const;

 private:
  /// Entries along the chain of a further correction of `target`, which fall and stand again by turns.
  [[nodiscard]] std::vector<std::string> turned_by(const std::string& target) const;

  std::map<std::string, std::string, std::less<>> target_of_;  ///< by the correction's id
  std::map<std::string, int, std::less<>> standing_against_;   ///< corrections that stand, by target
};

/// The corrections of a log, whatever the order of its list.
[[nodiscard]] Corrections corrections_of(const std::vector<Event>& events);

/// The stands of which an entry stands, be it a note: they are the grower's own, and no plan takes them away.
/// Corrections name no stand.
[[nodiscard]] std::set<std::string, std::less<>> stands_of_log(const std::vector<Event>& events);

}  // namespace sowtide::book
