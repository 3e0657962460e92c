#include "desk/stand_end.hpp"

#include <algorithm>

#include "base/quantile.hpp"
#include "desk/print/moments.hpp"
#include "desk/stand_stage.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::Days;

constexpr double kLikelyDead = 0.8;
// How long after its end something good may still be found (from memory): leaf and pods are bitter, tough or
// gone within two weeks, and so are the roots that grow fast and old fast (radish, turnip); other roots,
// bulbs, tubers and stems grow woody or sprout over more than a month.
constexpr Days kSoftKeeps{14};
constexpr Days kFirmKeeps{42};

bool seen_alive_after(const book::StandState& state, Date night) {
  const bool counted = state.counted_on && *state.counted_on > night && state.facts.counted_plants > 0;
  const bool measured = state.facts.measured_on && *state.facts.measured_on > night;
  const bool picked = !state.facts.taken.empty() && state.facts.taken.back().date > night;
  return counted || measured || picked;
}

/// The middle of what the weather years have for the night of a day of the ensemble.
double night_c(const climate::WeatherEnsemble& weather, std::size_t day) {
  std::vector<double> nights;
  for (std::size_t m = 0; m < weather.member_count; ++m) nights.push_back(weather.tmin_c[weather.at(m, day)]);
  return base::quantiles(std::move(nights)).p50;
}

/// The coldest night of the week that began with the killing one, as far as the days go.
KillingNight coldest_from(const climate::WeatherEnsemble& weather, std::size_t day, std::size_t last) {
  constexpr std::size_t kWeek = 7;
  KillingNight coldest{weather.first + Days{static_cast<int>(day)}, night_c(weather, day)};
  for (std::size_t each = day + 1; each <= std::min(last, day + kWeek - 1); ++each) {
    const double cold_c = night_c(weather, each);
    if (cold_c < coldest.night_c) coldest = {weather.first + Days{static_cast<int>(each)}, cold_c};
  }
  return coldest;
}

Days keeps_past_its_end(const crop::Crop& crop) {
  using enum crop::HarvestedPart;
  const crop::HarvestedPart part = crop.harvest.part;
  const bool stands = (part == root || part == stem) && stand::stands_in_ground(crop);
  return part == bulb || part == tuber || stands ? kFirmKeeps : kSoftKeeps;
}

}  // namespace

std::optional<KillingNight> likely_killed(const Season& season, std::size_t stand, Date date) {
  const book::StandState& state = season.state.stands[stand];
  if (!stands_in_bed(state.plan, state.facts)) return std::nullopt;
  const std::vector<int>& killed_day = season.outlooks[stand].members.killed_day;
  const auto today = (date - season.weather.first).count();
  std::vector<double> days;
  for (const int day : killed_day) {
    if (day >= 0 && day <= today) days.push_back(day);
  }
  if (days.empty() || static_cast<double>(days.size()) < kLikelyDead * static_cast<double>(killed_day.size()))
    return std::nullopt;
  const auto day = static_cast<std::size_t>(base::quantiles(std::move(days)).p50);
  const KillingNight night = coldest_from(season.weather, day, static_cast<std::size_t>(today));
  return seen_alive_after(state, night.day) ? std::nullopt : std::optional(night);
}

std::optional<Date> past_eating_from(const Season& season, std::size_t stand) {
  const book::StandState& state = season.state.stands[stand];
  const stand::EventOutlook* last = expected_event(season.outlooks[stand], "last-pick");
  const auto crop = crop_of(season, state.plan);
  if (!stands_in_bed(state.plan, state.facts) || last == nullptr || !crop) return std::nullopt;
  return last->p90 + keeps_past_its_end(*crop) + Days{1};
}

std::optional<Date> past_eating_since(const Season& season, std::size_t stand, Date date) {
  const auto from = past_eating_from(season, stand);
  return from && date >= *from ? from : std::nullopt;
}

std::vector<Message> over_said(const Season& season, std::size_t stand, Date date) {
  if (const auto night = likely_killed(season, stand, date))
    return {{"likely-killed", {{"night_c", night->night_c}, {"day", night->day}}}};
  if (const auto since = past_eating_since(season, stand, date)) return {{"past-eating", {{"day", *since}}}};
  return {};
}

std::vector<Message> tray_too_late_said(const Season& season, std::size_t stand) {
  const double success = season.outlooks[stand].success;
  if (!stands_in_tray(season.state.stands[stand].plan, season.state.stands[stand].facts) ||
      success >= kHopeless)
    return {};
  return {{"tray-too-late", {{"success_share", success}}}};
}

}  // namespace sowtide::desk
