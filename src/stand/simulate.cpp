#include "stand/simulate.hpp"

#include <cassert>

#include "stand/detail/simulator.hpp"

namespace sowtide::stand {

std::string_view limit_text(Limit limit) noexcept {
  switch (limit) {
    case Limit::none:
      return "";
    case Limit::soil_too_cold:
      return "soil too cold";
    case Limit::soil_too_hot:
      return "soil too hot";
    case Limit::no_safe_set_out:
      return "no safe day to set out";
    case Limit::outgrew_tray:
      return "outgrows its tray before it can go out";
    case Limit::frost:
      return "frost";
    case Limit::heat:
      return "heat";
    case Limit::bolting:
      return "bolting";
    case Limit::season_too_short:
      return "season too short";
    case Limit::day_length:
      return "day length";
  }
  return "";
}

StandLives simulate(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
                    const std::optional<RaisingPlace>& raising, const SimulationOptions& options) {
  const auto& ensemble = weather.ensemble();
  const auto sown = (facts.sown.value_or(plan.sow) - ensemble.first).count();
  assert(sown >= 0 && static_cast<std::size_t>(sown) < ensemble.day_count);
  detail::Simulator simulator(weather, plan, facts, raising, options);
  StandLives lives;
  lives.first_day = static_cast<std::size_t>(sown);
  lives.day_count = ensemble.day_count - lives.first_day;
  lives.plants = simulator.plants();
  lives.sampled_plants = simulator.sampled_plants();
  lives.open_sides = simulator.open_sides();
  lives.clumps = simulator.grid().clumps;
  lives.ranks = simulator.grid().ranks;
  lives.watched_g.assign(ensemble.member_count * options.watch.size() * simulator.grid().size(), 0.0);
  lives.watched_up.assign(lives.watched_g.size(), 0);
  lives.watched_alive.assign(ensemble.member_count * options.watch.size(), 1.0);
  for (auto* each : {&lives.removed_g, &lives.removed_plants, &lives.greens_g})
    each->assign(ensemble.member_count, 0.0);
  lives.members.resize(ensemble.member_count);
  lives.plant_g.assign(ensemble.member_count * lives.day_count, 0.0);
  lives.taken_g.assign(ensemble.member_count * lives.day_count, 0.0);
  for (std::size_t m = 0; m < ensemble.member_count; ++m) simulator.run(m, lives);
  return lives;
}

}  // namespace sowtide::stand
