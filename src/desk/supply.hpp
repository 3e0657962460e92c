// Week by week, what reaches the table against what is wanted: a walk through the weeks in every weather
// year.
//
// In each week, what becomes ready is added to what is left of the weeks before (which keeps where a
// household would let it lie, keep::weekly_keep_share, and is thrown away when it is older than
// keep::most_weeks); then every want takes its share, the most important first, each from what spoils
// soonest. Of the week of today all of it counts: what was picked in it and neither stored nor thrown away,
// and what was eaten out of the store, has met its want. This is the rule of the planner's judge
// (plan/forward_pass.hpp), here for the stands as they are.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/quantile.hpp"
#include "desk/season.hpp"
#include "plan/plan.hpp"

namespace sowtide::desk {

struct SupplyWeek {
  base::Date monday{};
  double wanted = 0.0;      ///< in the want's unit: grams, servings or pieces
  double to_store = 0.0;    ///< of that, the total that is to lie in store then (plan::Want::total)
  base::Quantiles reaches;  ///< of the weather years, never above `wanted`
  double mean_reaches = 0.0;
  double mean_from_store = 0.0;  ///< of that, what was picked or stored before this week
  double short_chance = 0.0;  ///< share of the years that miss a tenth or more of it
};

struct WantSupply {
  const plan::Want* want = nullptr;  ///< in the season's garden
  std::vector<SupplyWeek> weeks;     ///< from the week of today on
  double wanted = 0.0;               ///< sums over the weeks
  double mean_reaches = 0.0;
};

/// In the order of the garden's wants. At most `weeks` weeks, fewer where the weather ends before. `without`:
/// the id of a stand that brings nothing more than was picked of it already.
[[nodiscard]] std::vector<WantSupply> supply_of_wants(const Season& season, std::size_t weeks,
                                                      std::string_view without = {});

/// What each of the wants lacks in the week of a day, in its unit: the middle of the weather years. Less than
/// a tenth of what is wanted is no lack; 0 beyond the weather; a day before today counts as today.
[[nodiscard]] std::vector<double> lacking_in_week(const Season& season, base::Date day,
                                                  std::string_view without);

}  // namespace sowtide::desk
