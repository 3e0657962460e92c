// The names that stands get: "s1", "s2", …
#pragma once

#include <set>
#include <string>
#include <string_view>

namespace sowtide::stand {

/// The n of an id "sn", or 0 for any other id and where n is above a hundred million: nobody has sown so
/// often, and counting on from there would end somewhere.
[[nodiscard]] int stand_number(std::string_view id) noexcept;

/// Gives names to new stands, each above the highest that a stand has or had.
class StandNames {
 public:
  /// A stand has or had this name, of whatever kind it is.
  void take(std::string_view id);
  /// "s1", "s2", …: one that is not taken, and is from here on.
  [[nodiscard]] std::string next();

 private:
  std::set<std::string, std::less<>> taken_;
  int highest_ = 0;
};

}  // namespace sowtide::stand
