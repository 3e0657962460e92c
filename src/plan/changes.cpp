#include "plan/changes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>
#include <tuple>

#include "plan/notes.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

/// Two sowings further apart than this are not one that moved.
constexpr int kFarthestMoveDays = 42;

bool same_kind(const stand::StandPlan& a, const stand::StandPlan& b) {
  return a.crop == b.crop && a.variety == b.variety && a.method == b.method && a.size == b.size &&
         stand::bought_as_plants(a) == stand::bought_as_plants(b);
}

int days_between(const stand::StandPlan& a, const stand::StandPlan& b) {
  return static_cast<int>((stand::begins_on(b) - stand::begins_on(a)).count());
}

struct Match {
  std::size_t before = 0, after = 0;
  int days = 0;
};

/// Pairs of the same kind, nearest in date first, each stand once.
std::vector<Match> match_stands(const std::vector<stand::StandPlan>& before,
                                const std::vector<stand::StandPlan>& after) {
  std::vector<Match> possible;
  for (std::size_t i = 0; i < before.size(); ++i) {
    for (std::size_t j = 0; j < after.size(); ++j) {
      const int days = days_between(before[i], after[j]);
      if (same_kind(before[i], after[j]) && std::abs(days) <= kFarthestMoveDays)
        possible.push_back({i, j, days});
    }
  }
  const auto closeness = [&](const Match& m) {
    const bool other_bed = before[m.before].bed != after[m.after].bed;
    return std::make_tuple(std::abs(m.days), other_bed,
                           std::abs(before[m.before].clumps - after[m.after].clumps), m.before, m.after);
  };
  std::sort(possible.begin(), possible.end(),
            [&](const Match& a, const Match& b) { return closeness(a) < closeness(b); });
  std::vector<bool> used_before(before.size(), false), used_after(after.size(), false);
  std::vector<Match> chosen;
  for (const Match& match : possible) {
    if (used_before[match.before] || used_after[match.after]) continue;
    used_before[match.before] = used_after[match.after] = true;
    chosen.push_back(match);
  }
  return chosen;
}

/// What is pulled from when it is ready shifts by a little with every week of new weather; less is no news
/// (chosen).
bool pulled_alike(const stand::StandPlan& a, const stand::StandPlan& b) {
  constexpr int kFeltWeeks = 3;
  constexpr int kFeltDays = 21;
  if (!stand_alike(a.pick_weeks, b.pick_weeks) || a.pick_from.has_value() != b.pick_from.has_value())
    return false;
  const auto days = a.pick_from ? std::abs((*a.pick_from - *b.pick_from).count()) : 0;
  return std::abs(a.pick_weeks - b.pick_weeks) <= kFeltWeeks && days <= kFeltDays;
}

bool differ(const stand::StandPlan& a, const stand::StandPlan& b) {
  return days_between(a, b) != 0 || a.clumps != b.clumps || a.bed != b.bed || a.tray != b.tray ||
         !pulled_alike(a, b);
}

/// The name of a bed or tray for people; its id where there is none.
template <typename Places>
std::string place_name(const Places& places, const std::string& id) {
  const auto found = std::find_if(places.begin(), places.end(), [&](const auto& place) { return place.id == id; });
  return found == places.end() || found->name.empty() ? id : found->name;
}

base::Message changed(const PlanInput& input, const stand::StandPlan& before, const stand::StandPlan& after) {
  base::Message message{
      "stand-changed",
      {{"crop", after.crop}, {"crop_name", crop_name(input, after.crop)}, {"stand", before.id}}};
  const auto add = [&](const char* name, base::Message::Value value) { message.values.emplace_back(name, value); };
  const int days = days_between(before, after);
  if (days > 0) add("days_later", static_cast<double>(days));
  if (days < 0) add("days_earlier", static_cast<double>(-days));
  if (after.clumps != before.clumps) {
    add("clumps", static_cast<double>(after.clumps));
    add("clumps_before", static_cast<double>(before.clumps));
  }
  if (after.bed != before.bed) {
    add("bed", place_name(input.beds, after.bed));
    add("bed_before", place_name(input.beds, before.bed));
  }
  if (after.tray != before.tray) {
    add("tray", place_name(input.trays, after.tray));
    add("tray_before", place_name(input.trays, before.tray));
  }
  if (!pulled_alike(before, after)) {
    add("pick_weeks", static_cast<double>(after.pick_weeks));
    if (after.pick_from) add("pick_from", *after.pick_from);
    add("pick_weeks_before", static_cast<double>(before.pick_weeks));
    if (before.pick_from) add("pick_from_before", *before.pick_from);
  }
  return message;
}

// ---- why

/// The earlier stand in the terms of the new model.
struct Earlier {
  SowingKey key;
  int from_mm = 0, to_mm = 0;
  std::optional<std::size_t> bed, candidate;
};

/// Which tray of the model it is raised in; -1 for a sowing in place.
int tray_place(const GardenModel& model, const stand::StandPlan& stand) {
  const auto found = std::find_if(model.trays.begin(), model.trays.end(),
                                  [&](const bed::Tray& tray) { return tray.id == stand.tray; });
  return found == model.trays.end() ? -1 : static_cast<int>(found - model.trays.begin());
}

Earlier in_the_model(const GardenModel& model, const stand::StandPlan& stand) {
  Earlier earlier;
  const auto days = (base::week_start(stand::begins_on(stand)) - model.first_monday).count();
  earlier.key.week = static_cast<int>(days / 7);
  earlier.key.tray = tray_place(model, stand);
  earlier.key.bought = stand::bought_as_plants(stand);
  earlier.key.pick_weeks = stand.pick_weeks;
  earlier.from_mm = whole_mm(stand.from_m);
  earlier.to_mm = whole_mm(stand.to_m);
  for (std::size_t b = 0; b < model.beds.size(); ++b) {
    if (model.beds[b].id == stand.bed) earlier.bed = b;
  }
  if (earlier.bed) earlier.key.sun = model.beds[*earlier.bed].sun;
  earlier.key.product = sown_product(model, stand.crop, stand.variety, stand.size);
  earlier.candidate = sowing_of(model, earlier.key);
  return earlier;
}

/// Whether any sowing of the product is left standing: which ones are looked at follows the wants.
bool left_standing(const GardenModel& model, std::optional<std::size_t> product) {
  return std::any_of(model.candidates.begin(), model.candidates.end(), [&](const Candidate& candidate) {
    return candidate.product == product && candidate.sowing.pick_weeks > 0;
  });
}

/// Why there is no such sowing among the candidates any more.
base::Message no_candidate(const PreparedGarden& garden, const stand::StandPlan& stand, const Earlier& earlier) {
  if (stand.pick_weeks > 0 && !left_standing(garden.model, earlier.key.product))
    return {"asked-in-other-weeks", {}};
  const RefusedSowing* refused = refused_as(garden, earlier.key);
  if (refused == nullptr) return {"better-sowing-near", {}};
  if (refused->beyond) return {"harvest-after-plan", {}};
  return refused->limits.empty() ? base::Message{"ground-serves-more", {}}
                                 : base::Message{"sowing-then-fails", {{"cause", refused->limits}}};
}

/// What is there already and does not let the earlier stand have its ground.
std::optional<base::Message> held_by(const PlanInput& input, const GardenModel& model, const Earlier& earlier) {
  const Candidate& candidate = model.candidates[*earlier.candidate];
  for (const TakenStretch& taken : model.taken) {
    if (taken.bed != earlier.bed || taken.to_mm <= earlier.from_mm || earlier.to_mm <= taken.from_mm) continue;
    const bool at_once =
        taken.first_week <= candidate.bed_last_week && candidate.bed_first_week <= taken.last_week;
    const bool family = too_soon_after(candidate, taken.family, taken.first_week, taken.last_week);
    if (!at_once && !family) continue;
    return base::Message{at_once ? "ground-held-by" : "family-held-off-by",
                         {{"crop", taken.crop},
                          {"crop_name", crop_name(input, taken.crop)},
                          {"stand", taken.stand},
                          {"until", model.first_monday + base::Days{7 * taken.last_week + 6}}}};
  }
  return {};
}

/// Which stand of the new plan has the earlier one's ground at its time, of several the one that is worth
/// most, and what would be missing without it; nothing where that would not be felt.
std::optional<base::Message> ground_goes_to(const PlanInput& input, const GardenModel& model,
                                            ForwardPass& judge, const std::vector<PlacedStand>& placed,
                                            const std::vector<stand::StandPlan>& after,
                                            const StandChange& change, const Earlier& earlier) {
  const Candidate& was = model.candidates[*earlier.candidate];
  std::optional<std::size_t> dearest;
  double most = kFeltServings;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const Candidate& candidate = model.candidates[placed[i].candidate];
    const int to_mm = whole_mm(after[i].to_m);
    if (i == change.after || placed[i].bed != earlier.bed || to_mm <= earlier.from_mm ||
        earlier.to_mm <= placed[i].from_mm || was.bed_last_week < candidate.bed_first_week ||
        candidate.bed_last_week < was.bed_first_week)
      continue;
    const double missed = judge.change_by(placed[i].candidate, -placed[i].clumps);
    if (missed < most) continue;
    most = missed;
    dearest = i;
  }
  if (!dearest) return {};
  const stand::StandPlan& other = after[*dearest];
  return base::Message{"ground-goes-to",
                       {{"crop", other.crop},
                        {"crop_name", crop_name(input, other.crop)},
                        {"stand", other.id},
                        {"servings", most}}};
}

/// Less is not felt, and no more than the mean of the weather years wanders by itself.
constexpr double kFeltWarmthK = 1.0;

/// Whether the weather can have moved a stand to which this happened.
bool weather_may_tell(const base::Message& reason, bool moved) {
  if (reason.key == "sowing-then-fails") return true;
  return moved && (reason.key == "as-it-was-loses" || reason.key == "better-sowing-near" ||
                   reason.key == "harvest-after-plan" || reason.key == "ground-serves-more" ||
                   reason.key == "ground-goes-to");
}

}  // namespace

double cost_of_undoing(ForwardPass& judge, const std::vector<PlacedStand>& placed, const StandChange& change,
                       const std::vector<stand::StandPlan>& earlier, std::optional<std::size_t> sowing) {
  const ClumpCounts kept = judge.counts();
  const double now = judge.cost();
  ClumpCounts undone = kept;
  if (change.after) undone[placed[*change.after].candidate] -= placed[*change.after].clumps;
  if (sowing) undone[*sowing] += earlier[*change.before].clumps;
  judge.set_counts(undone);
  const double cost = judge.cost() - now;
  judge.set_counts(kept);
  return cost;
}

std::optional<std::size_t> sowing_as_it_was(const GardenModel& model, const stand::StandPlan& earlier) {
  return in_the_model(model, earlier).candidate;
}

void keep_names(const std::vector<stand::StandPlan>& before, std::vector<stand::StandPlan>& after) {
  for (const Match& match : match_stands(before, after)) after[match.after].id = before[match.before].id;
}

std::vector<StandChange> stand_changes(const std::vector<stand::StandPlan>& before,
                                       const std::vector<stand::StandPlan>& after) {
  std::vector<StandChange> changes;
  std::vector<bool> kept(before.size(), false), known(after.size(), false);
  for (const Match& match : match_stands(before, after)) {
    kept[match.before] = known[match.after] = true;
    if (differ(before[match.before], after[match.after])) changes.push_back({match.before, match.after});
  }
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (!kept[i]) changes.push_back({i, {}});
  }
  for (std::size_t j = 0; j < after.size(); ++j) {
    if (!known[j]) changes.push_back({{}, j});
  }
  return changes;
}

base::Message change_said(const PlanInput& input, const std::vector<stand::StandPlan>& after,
                          const StandChange& change) {
  if (change.before && change.after) return changed(input, input.earlier[*change.before], after[*change.after]);
  const stand::StandPlan& stand = change.before ? input.earlier[*change.before] : after[*change.after];
  const bool bought = stand::bought_as_plants(stand);
  const char* key = change.before ? "stand-left-out" : "stand-new";
  if (bought) key = change.before ? "bought-left-out" : "bought-new";
  base::Message said{key,
                     {{"crop", stand.crop},
                      {"crop_name", crop_name(input, stand.crop)},
                      {"clumps", static_cast<double>(stand.clumps)},
                      {bought ? "set_out" : "sow", stand::begins_on(stand)},
                      {"bed", place_name(input.beds, stand.bed)}}};
  // The number of a new stand may have been another's in the plan before.
  if (change.before) said.values.emplace_back("stand", stand.id);
  return said;
}

base::Message reason_of_change(const PlanInput& input, const PreparedGarden& garden, ForwardPass& judge,
                               const std::vector<PlacedStand>& placed,
                               const std::vector<stand::StandPlan>& after, const StandChange& change) {
  const GardenModel& model = garden.model;
  if (!change.before) {
    const PlacedStand& stand = placed[*change.after];
    return {"missed-without", {{"servings", judge.change_by(stand.candidate, -stand.clumps)}}};
  }
  const stand::StandPlan& before = input.earlier[*change.before];
  const Earlier earlier = in_the_model(model, before);
  if (!earlier.key.product) return {"nobody-asks", {}};
  if (stand::begins_on(before) < input.today)
    return {stand::bought_as_plants(before) ? "day-to-buy-is-past" : "day-is-past", {}};
  if (!earlier.bed) return {"bed-is-gone", {}};
  if (!earlier.candidate) return no_candidate(garden, before, earlier);
  if (auto held = held_by(input, model, earlier)) return *held;
  const double lost = cost_of_undoing(judge, placed, change, input.earlier, earlier.candidate);
  if (lost >= kFeltServings) return {"as-it-was-loses", {{"servings", lost}}};
  if (auto other = ground_goes_to(input, model, judge, placed, after, change, earlier)) return *other;
  return {"ground-serves-more", {}};
}

std::optional<base::Message> weather_of_change(const PlanInput& input, const PreparedGarden& garden,
                                               const std::vector<stand::StandPlan>& after,
                                               const StandChange& change, const base::Message& reason) {
  if (!change.before || *change.before >= garden.earlier_c.size()) return {};
  const stand::StandPlan& before = input.earlier[*change.before];
  const std::optional<double>& planned_c = before.planned_c;
  const std::optional<double>& now_c = garden.earlier_c[*change.before];
  if (!planned_c || !now_c || std::abs(*now_c - *planned_c) < kFeltWarmthK) return {};
  const bool moved = change.after && days_between(before, after[*change.after]) != 0;
  if (!weather_may_tell(reason, moved)) return {};
  if (moved && reason.key != "sowing-then-fails") {
    const std::optional<double>& then_c = after[*change.after].planned_c;
    if (!then_c || std::abs(*then_c - *planned_c) >= std::abs(*now_c - *planned_c)) return {};
  }
  const std::string where = before.method == stand::Method::direct_sow ? "soil" : "air";
  const std::string how = *now_c < *planned_c ? "-colder" : "-warmer";
  return base::Message{where + how + "-than-planned",
                       {{"by_k", std::abs(*now_c - *planned_c)}, {"planned_c", *planned_c}}};
}

}  // namespace sowtide::plan
