#include "desk/stand_room.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <string_view>

#include "bed/bed.hpp"
#include "desk/print/moments.hpp"
#include "desk/stand_stage.hpp"
#include "stand/stay.hpp"

namespace sowtide::desk {
namespace {

constexpr double kTouchingM = 1e-6;

/// Where and when the stand is sure to be; nothing when it is over or never gets into a bed.
std::optional<bed::Occupancy> sure_stay(const book::StandState& stand, const stand::Outlook& outlook,
                                        base::Date today) {
  if (stand.facts.finished || stand.plan.bed.empty()) return std::nullopt;
  const auto out = expected_day(outlook, "set-out", &stand::EventOutlook::p50);
  if (stand.plan.method == stand::Method::start_indoors && !out) return std::nullopt;
  const auto first = stand::enters_bed_on(plan_from(stand, today), stand.facts, out, today);
  if (!first) return std::nullopt;
  const auto last = expected_day(outlook, "last-pick", &stand::EventOutlook::p10);
  return bed::Occupancy{stand.plan.bed, stand.plan.from_m, stand.plan.to_m - kTouchingM, *first,
                        stand::leaves_bed_on(*first, last)};
}

std::set<std::string> neighbours(const Season& season, const bed::Occupancy& stay, const std::string& id) {
  std::set<std::string> found;
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const book::StandState& other = season.state.stands[i];
    if (other.plan.id == id) continue;
    const auto its_stay = sure_stay(other, season.outlooks[i], season.today);
    if (its_stay && bed::overlap(stay, *its_stay)) found.insert(other.plan.id);
  }
  return found;
}

bool only_planned(const Season& season, const std::string& id) {
  return std::any_of(season.state.stands.begin(), season.state.stands.end(),
                     [&](const book::StandState& each) {
                       return each.plan.id == id && stand_stage(each.facts) == StandStage::planned;
                     });
}

SharedRoom part(const Season& season, const std::set<std::string>& ids) {
  SharedRoom parted;
  for (const std::string& id : ids) (only_planned(season, id) ? parted.planned : parted.begun).push_back(id);
  return parted;
}

/// Where a stay of that length may begin: at the start of its bed, and where another of the bed ends. What
/// lies between shares room with no fewer.
std::vector<double> starts_m(const Season& season, const std::string& id, const std::string& bed) {
  std::vector<double> starts{0.0};
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const book::StandState& other = season.state.stands[i];
    const auto stay = sure_stay(other, season.outlooks[i], season.today);
    if (other.plan.id != id && stay && stay->bed == bed) starts.push_back(stay->to_m + kTouchingM);
  }
  std::sort(starts.begin(), starts.end());
  return starts;
}

}  // namespace

std::vector<std::string> new_neighbours(const Season& season, const Season& tried) {
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

SharedRoom shared_room(const Season& season, const std::string& id) {
  SharedRoom shared;
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    if (season.state.stands[i].plan.id != id) continue;
    const auto stay = sure_stay(season.state.stands[i], season.outlooks[i], season.today);
    if (stay) shared = part(season, neighbours(season, *stay, id));
  }
  return shared;
}

std::optional<PlaceHolder> place_holder(const Season& season, const std::string& id) {
  const std::vector<std::string> begun = shared_room(season, id).begun;
  std::optional<PlaceHolder> holder;
  for (std::size_t i = 0; i < season.state.stands.size() && !begun.empty(); ++i) {
    const book::StandState& other = season.state.stands[i];
    const bool holds = stands_in_bed(other.plan, other.facts) &&
                       std::find(begun.begin(), begun.end(), other.plan.id) != begun.end();
    const auto stay = holds ? sure_stay(other, season.outlooks[i], season.today) : std::nullopt;
    if (stay && (!holder || stay->last > holder->until)) holder = PlaceHolder{i, stay->last};
  }
  return holder;
}

base::Result<std::vector<std::string>> check_room(const Season& season, const stand::StandPlan& moved,
                                                  bool put_right) {
  const auto tried = with_plan_tried(season, moved);
  if (!tried) return tl::unexpected(tried.error());
  const auto fresh = new_neighbours(season, *tried);
  const SharedRoom shared = part(season, {fresh.begin(), fresh.end()});
  const bool is_fact = put_right && !only_planned(season, moved.id);
  const std::vector<std::string>& taken = is_fact ? shared.begun : fresh;
  if (taken.empty()) return shared.planned;
  return base::fail(
      base::ProblemCode::contradiction,
      fmt::format("stand {} would be where {} stands at that time", moved.id, fmt::join(taken, ", ")),
      {.file = {}, .line = 0, .column = 0, .field = "from_m"},
      "Take another stretch or another time, or move the other first.");
}

std::optional<double> first_room_m(const Season& season, const std::string& id, PlannedRoom planned) {
  const auto& stands = season.state.stands;
  const auto own =
      std::find_if(stands.begin(), stands.end(), [&](const auto& each) { return each.plan.id == id; });
  if (own == stands.end()) return std::nullopt;
  const auto place = static_cast<std::size_t>(own - stands.begin());
  auto stay = sure_stay(*own, season.outlooks[place], season.today);
  if (!stay) return 0.0;
  const bed::Bed* bed = bed_of(season.garden, own->plan.bed);
  if (bed == nullptr) return std::nullopt;
  const double length_m = stay->to_m - stay->from_m;
  std::optional<double> best_m;
  std::size_t fewest = 0;
  for (const double from_m : starts_m(season, id, stay->bed)) {
    if (from_m + length_m > bed->length_m) break;
    stay->from_m = from_m;
    stay->to_m = from_m + length_m;
    const SharedRoom shared = part(season, neighbours(season, *stay, id));
    const bool is_free = shared.begun.empty() && (planned == PlannedRoom::given_up || shared.planned.empty());
    if (!is_free || (best_m && shared.planned.size() >= fewest)) continue;
    best_m = from_m;
    fewest = shared.planned.size();
  }
  return best_m;
}

}  // namespace sowtide::desk
