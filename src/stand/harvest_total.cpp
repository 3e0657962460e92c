#include "stand/harvest_total.hpp"

#include <numeric>
#include <utility>
#include <vector>

namespace sowtide::stand {

base::Quantiles still_to_come_g(const Outlook& outlook) {
  const MemberTable& table = outlook.members;
  std::vector<double> totals_g;
  for (std::size_t m = 0; m < table.member_count; ++m) {
    const auto first = table.weekly_g.begin() + static_cast<std::ptrdiff_t>(m * table.week_count);
    totals_g.push_back(std::accumulate(first, first + static_cast<std::ptrdiff_t>(table.week_count), 0.0));
  }
  return totals_g.empty() ? base::Quantiles{} : base::quantiles(std::move(totals_g));
}

}  // namespace sowtide::stand
