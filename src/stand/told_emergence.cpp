#include "stand/told_emergence.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "stand/overdue.hpp"

namespace sowtide::stand {
namespace {

constexpr double kSlowLot = 2.0;    // standard deviations (chosen)
constexpr int kLooksEveryDays = 7;  // a grower looks at a sowing at least once a week (chosen)

}  // namespace

double slow_lot_factor() noexcept {
  return std::exp(kSlowLot * kEmergenceLogError);
}

std::optional<ToldEmergence> told_emergence(const StandFacts& facts, base::Date first, int expected_day,
                                            int slow_day) {
  std::optional<base::Date> up_by;
  for (const auto& day : {facts.emerged, facts.set_out, facts.measured_on, facts.first_picked}) {
    if (day && (!up_by || *day < *up_by)) up_by = day;
  }
  if (!up_by) return std::nullopt;
  // Before the weather begins they were up on its first day; a day below 0 would be never.
  const auto told_day = static_cast<int>(std::max<std::int64_t>(0, (*up_by - first).count()));
  const bool dated = up_by == facts.emerged && (slow_day < 0 || told_day <= slow_day + kLooksEveryDays);
  const bool as_told = dated || expected_day < 0;
  return ToldEmergence{
      .day = as_told ? told_day : std::min(told_day, expected_day), .up_by = told_day, .dated = dated};
}

}  // namespace sowtide::stand
