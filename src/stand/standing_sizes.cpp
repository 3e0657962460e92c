#include "stand/standing_sizes.hpp"

namespace sowtide::stand {
namespace {

/// One size in every weather year.
ReachedSize reached(const StandLives& lives, std::string_view size, double least_g) {
  const double whole = lives.sampled_plants > 0.0 ? lives.plants / lives.sampled_plants : 0.0;
  const std::size_t sample = lives.clumps * lives.ranks;
  std::vector<double> plants, grams;
  for (std::size_t m = 0; m < lives.members.size(); ++m) {
    double count = 0.0, sum_g = 0.0;
    for (std::size_t i = m * sample; i < (m + 1) * sample; ++i) {
      if (lives.watched_up[i] == 0 || !(lives.watched_g[i] > 0.0) || lives.watched_g[i] < least_g) continue;
      count += 1.0;
      sum_g += lives.watched_g[i];
    }
    plants.push_back(count * lives.watched_alive[m] * whole);
    grams.push_back(sum_g * lives.watched_alive[m] * whole);
  }
  return {size, least_g, base::quantiles(std::move(plants)), base::quantiles(std::move(grams))};
}

}  // namespace

std::vector<ReachedSize> reached_sizes(const CropWeather& weather, const StandPlan& plan,
                                       const StandFacts& facts, const std::optional<RaisingPlace>& raising,
                                       base::Date day, SimulationOptions options) {
  const crop::Harvest& harvest = weather.crop().harvest;
  if (harvest.style == crop::HarvestStyle::picked) return {};
  options.leave_standing = true;
  options.watch = {day};
  const StandLives lives = simulate(weather, plan, facts, raising, options);
  return {reached(lives, "smallest", harvest.smallest_g), reached(lives, "small", harvest.small_g),
          reached(lives, "large", harvest.large_g), reached(lives, "over_size", harvest.over_size_g)};
}

}  // namespace sowtide::stand
