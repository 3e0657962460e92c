#include "stand/stay.hpp"

#include <algorithm>

namespace sowtide::stand {

bool waits_to_go_out(const StandFacts& facts) noexcept {
  return !facts.finished && !facts.set_out && !facts.first_picked;
}

std::optional<base::Date> expected_day(const Outlook& outlook, std::string_view event,
                                       base::Date EventOutlook::*quantile) noexcept {
  const EventOutlook* found = expected_event(outlook, event);
  return found == nullptr ? std::nullopt : std::optional(found->*quantile);
}

std::optional<base::Date> goes_out_on(const StandPlan& plan, const StandFacts& facts,
                                      std::optional<base::Date> expected, base::Date today) {
  if (facts.set_out) return facts.set_out;
  std::optional<base::Date> day = plan.set_out ? plan.set_out : expected;
  if (day && waits_to_go_out(facts)) day = std::max(*day, today);
  return day;
}

std::optional<base::Date> enters_bed_on(const StandPlan& plan, const StandFacts& facts,
                                        std::optional<base::Date> expected_out, base::Date today) {
  if (plan.method == Method::direct_sow) return facts.sown.value_or(plan.sow);
  return goes_out_on(plan, facts, expected_out, today);
}

base::Date leaves_bed_on(base::Date enters, std::optional<base::Date> last_pick) noexcept {
  return std::max(enters, last_pick.value_or(enters + kStayWithoutHarvest));
}

}  // namespace sowtide::stand
