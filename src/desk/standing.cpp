#include "desk/standing.hpp"

#include <fmt/format.h>

#include <memory>

#include "desk/raising.hpp"

namespace sowtide::desk {

namespace {

base::Result<void> check_day(const Season& season, const book::StandState& state, base::Date day) {
  const base::Date sown = state.facts.sown.value_or(state.plan.sow);
  const base::Date end = season.weather.first + base::Days{static_cast<int>(season.weather.day_count)};
  if (day >= sown && day < end) return {};
  return base::fail(
      base::ProblemCode::out_of_range,
      fmt::format("{} lies before the sowing of stand {} or beyond the weather", base::to_iso(day),
                  state.plan.id),
      {.field = "on"},
      fmt::format("Ask for a day from {} to {}", base::to_iso(sown), base::to_iso(end - base::Days{1})));
}

}  // namespace

base::Result<void> check_standing_day(const Season& season, const std::string& id, base::Date day) {
  for (const book::StandState& state : season.state.stands) {
    if (state.plan.id == id) return check_day(season, as_seen(season, state), day);
  }
  return {};
}

base::Result<std::vector<stand::ReachedSize>> standing_on(const Season& season, std::size_t stand,
                                                          base::Date day) {
  const book::StandState state = as_seen(season, season.state.stands[stand]);
  if (auto checked = check_day(season, state, day); !checked) return tl::unexpected(checked.error());
  const auto crop = crop_of(season, state.plan);
  if (!crop || state.facts.finished || season.no_outlook.contains(state.plan.id))
    return std::vector<stand::ReachedSize>{};
  const stand::CropWeather felt(*crop, felt_weather_of(season));
  return stand::reached_sizes(felt, state.plan, state.facts, raising_of(season.garden, state.plan), day,
                              {.bed = bed_place(season.garden, state.plan)});
}

}  // namespace sowtide::desk
