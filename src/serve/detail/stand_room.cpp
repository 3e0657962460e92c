#include "serve/detail/stand_room.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <string_view>

#include "bed/bed.hpp"

namespace sowtide::serve::detail {
namespace {

/// A stand that never comes to a harvest is given up after a month: our judgement, as on the season sheet.
constexpr base::Days kStayWithoutHarvest{30};
constexpr double kTouchingM = 1e-6;

const stand::EventOutlook* event_of(const stand::Outlook& outlook, std::string_view name) {
  for (const stand::EventOutlook& event : outlook.events) {
    if (event.name == name && event.probability > 0.0) return &event;
  }
  return nullptr;
}

/// Where and when the stand is sure to be; nothing when it is over or never gets into a bed.
std::optional<bed::Occupancy> sure_stay(const book::StandState& stand, const stand::Outlook& outlook,
                                        base::Date today) {
  if (stand.facts.finished || stand.plan.bed.empty()) return std::nullopt;
  base::Date first = stand.facts.sown.value_or(stand.plan.sow);
  if (stand.plan.method == stand::Method::start_indoors) {
    const stand::EventOutlook* out = event_of(outlook, "set-out");
    if (out == nullptr) return std::nullopt;
    first = stand.facts.set_out.value_or(std::max(today, out->p50));
  }
  const stand::EventOutlook* last = event_of(outlook, "last-pick");
  const base::Date leaves = std::max(first, last == nullptr ? first + kStayWithoutHarvest : last->p10);
  return bed::Occupancy{stand.plan.bed, stand.plan.from_m, stand.plan.to_m - kTouchingM, first, leaves};
}

std::set<std::string> neighbours(const desk::Season& season, const bed::Occupancy& stay,
                                 const std::string& id) {
  std::set<std::string> found;
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const book::StandState& other = season.state.stands[i];
    if (other.plan.id == id) continue;
    const auto its_stay = sure_stay(other, season.outlooks[i], season.today);
    if (its_stay && bed::overlap(stay, *its_stay)) found.insert(other.plan.id);
  }
  return found;
}

}  // namespace

std::vector<std::string> new_neighbours(const desk::Season& season, const desk::Season& tried) {
  const book::StandState& moved = tried.state.stands.front();
  const auto after = sure_stay(moved, tried.outlooks.front(), season.today);
  if (!after) return {};
  std::set<std::string> fresh = neighbours(season, *after, moved.plan.id);
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    if (season.state.stands[i].plan.id != moved.plan.id) continue;
    const auto before = sure_stay(season.state.stands[i], season.outlooks[i], season.today);
    if (!before) break;
    for (const std::string& id : neighbours(season, *before, moved.plan.id)) fresh.erase(id);
  }
  return {fresh.begin(), fresh.end()};
}

}  // namespace sowtide::serve::detail
