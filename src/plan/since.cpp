#include "plan/since.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "plan/notes.hpp"
#include "stand/places.hpp"

namespace sowtide::plan {
namespace {

/// Servings below this are not worth a word.
constexpr double kFelt = 0.05;
/// News is the reason of a change that would be worth less than this share of it without them.
constexpr double kMostWithoutNews = 0.5;
/// The ground of a stand is held until so many years have finished with it.
constexpr double kHeldQuantile = 0.9;
constexpr double kMillimetres = 1000.0;

base::Message told_of(const PlanInput& input, const char* key, const StandNews& news) {
  const stand::StandPlan& plan = news.as_planned.plan;
  base::Message message{key,
                        {{"crop", plan.crop},
                         {"crop_name", crop_name(input, plan.crop)},
                         {"stand", plan.id},
                         {"on", news.date}}};
  if (news.kind == StandNews::Kind::fewer) {
    message.values.emplace_back("plants", static_cast<double>(news.plants));
    message.values.emplace_back("planned", static_cast<double>(news.planned));
  }
  return message;
}

const char* key_of_kind(StandNews::Kind kind) {
  switch (kind) {
    case StandNews::Kind::failed:
      return "stand-failed-since";
    case StandNews::Kind::fewer:
      return "stand-fewer-since";
    case StandNews::Kind::over:
      return "stand-over-since";
  }
  return "";
}

/// Reasons that say what a change is worth, not where it comes from.
bool asks_for_a_cause(const base::Message& reason) {
  return reason.key == "missed-without" || reason.key == "as-it-was-loses" ||
         reason.key == "ground-serves-more" || reason.key == "ground-goes-to";
}

/// The last week in which the bed is held, as `standing` reckons it.
std::optional<int> last_week_held(const SowingLife& life) {
  std::vector<int> ends;
  for (const int day : life.end_day) {
    if (day != kNeverDay) ends.push_back(day);
  }
  if (ends.empty()) return {};
  const auto at =
      ends.begin() + static_cast<std::ptrdiff_t>(kHeldQuantile * static_cast<double>(ends.size() - 1));
  std::nth_element(ends.begin(), at, ends.end());
  return *at / 7;
}

}  // namespace

Hindsight::Hindsight(const PlanInput& input, const PreparedGarden& garden,
                     const std::vector<PlacedStand>& placed, const std::vector<stand::StandPlan>& after)
    : input_(input), garden_(garden), placed_(placed), after_(after) {
  for (const StandNews& news : input.since.stands) add_world_without(news);
  for (const WantNews& news : input.since.wants) add_world_without(news);
  const ClumpCounts counts = counts_of(garden.model, placed);
  for (const auto& world : worlds_) {
    world->judge.emplace(world->model, world->model.scenarios);
    world->judge->set_counts(counts);
  }
}

void Hindsight::add_world_without(const StandNews& news) {
  const stand::StandPlan& plan = news.as_planned.plan;
  const auto product = sown_product(garden_.model, plan.crop, plan.variety, plan.size);
  const auto crop = std::find_if(garden_.crops.begin(), garden_.crops.end(), [&](const crop::Crop& each) {
    return each.id == crop_key(plan.crop, plan.variety);
  });
  if (!product || crop == garden_.crops.end() || garden_.source == nullptr) return;
  const auto tray = std::find_if(input_.trays.begin(), input_.trays.end(),
                                 [&](const bed::Tray& each) { return each.id == plan.tray; });
  const auto lived = [&](const stand::StandFacts& facts) {
    return garden_.source->life(*crop, plan, facts,
                                stand::raising_of(plan, tray == input_.trays.end() ? nullptr : &*tray),
                                stand::bed_place(input_.beds, plan));
  };
  const auto life = lived(news.as_planned.facts);
  if (!life) return;
  auto world = std::make_unique<World>();
  world->told = told_of(input_, key_of_kind(news.kind), news);
  world->model = garden_.model;
  std::vector<double>& supply = world->model.base_supply[*product];
  const double serving_g = world->model.products[*product].serving_g;
  for (std::size_t i = 0; i < life->weekly_g.size(); ++i) supply[i] += life->weekly_g[i] / serving_g;
  const auto fixed = std::find_if(input_.fixed.begin(), input_.fixed.end(),
                                  [&](const FixedStand& each) { return each.plan.id == plan.id; });
  if (fixed != input_.fixed.end()) {
    const auto now = lived(fixed->facts);
    if (!now) return;
    for (std::size_t i = 0; i < now->weekly_g.size(); ++i) supply[i] -= now->weekly_g[i] / serving_g;
  }
  worlds_.push_back(std::move(world));
  const auto last_week = last_week_held(*life);
  if (news.kind == StandNews::Kind::fewer || !last_week) return;
  for (std::size_t b = 0; b < input_.beds.size(); ++b) {
    if (input_.beds[b].id != plan.bed) continue;
    TakenStretch stretch{b, static_cast<int>(std::lround(plan.from_m * kMillimetres)),
                         static_cast<int>(std::lround(plan.to_m * kMillimetres)), 0, *last_week};
    freed_.push_back({told_of(input_, "ground-free-since", news), std::move(stretch)});
  }
}

void Hindsight::add_world_without(const WantNews& news) {
  const auto want = std::find_if(input_.wants.begin(), input_.wants.end(),
                                 [&](const Want& each) { return each.id == news.id; });
  if (want == input_.wants.end()) return;
  const double before = news.before ? news.before->amount_per_week : 0.0;
  // A want of another crop, of other weeks or in another unit is not more or less of the same.
  if (want->amount_per_week <= 0.0 || before == want->amount_per_week) return;
  auto world = std::make_unique<World>();
  world->model = garden_.model;
  for (Demand& demand : world->model.demands) {
    if (demand.want != news.id) continue;
    for (double& servings : demand.servings) servings *= before / want->amount_per_week;
  }
  const char* key = !news.before                     ? "want-new-since"
                    : before < want->amount_per_week ? "want-more-since"
                                                     : "want-less-since";
  Note told{{key, {{"want", news.id}, {"want_id", news.id}}}};
  name_wants(input_, told);
  world->told = std::move(told.front());
  worlds_.push_back(std::move(world));
}

std::optional<std::size_t> Hindsight::candidate_before(const StandChange& change) const {
  if (!change.before) return {};
  return sowing_as_it_was(garden_.model, input_.earlier[*change.before]);
}

double Hindsight::cost_of_undoing(ForwardPass& judge, const StandChange& change,
                                  std::optional<std::size_t> before) const {
  const double now = judge.cost();
  const ClumpCounts kept = judge.counts();
  ClumpCounts undone = kept;
  if (change.after) undone[placed_[*change.after].candidate] -= placed_[*change.after].clumps;
  if (before) undone[*before] += input_.earlier[*change.before].clumps;
  judge.set_counts(undone);
  const double cost = judge.cost() - now;
  judge.set_counts(kept);
  return cost;
}

const Hindsight::FreedGround* Hindsight::freed_for(const StandChange& change) const {
  if (!change.after) return nullptr;
  const PlacedStand& stand = placed_[*change.after];
  const Candidate& candidate = garden_.model.candidates[stand.candidate];
  const int to_mm = static_cast<int>(std::lround(after_[*change.after].to_m * kMillimetres));
  // A stand that lay there before, in the bed at that time, has not come for what became free.
  if (change.before && input_.earlier[*change.before].bed == after_[*change.after].bed) return nullptr;
  for (const FreedGround& freed : freed_) {
    const TakenStretch& stretch = freed.stretch;
    if (stretch.bed == stand.bed && stretch.from_mm < to_mm && stand.from_mm < stretch.to_mm &&
        candidate.bed_first_week <= stretch.last_week)
      return &freed;
  }
  return nullptr;
}

std::optional<base::Message> Hindsight::reason_since(ForwardPass& judge, const StandChange& change,
                                                     const base::Message& reason) {
  if (!asks_for_a_cause(reason)) return {};
  const auto before = candidate_before(change);
  if (change.before && !before) return {};
  const double now = cost_of_undoing(judge, change, before);
  const World* cause = nullptr;
  double most = kFelt;
  for (const auto& world : worlds_) {
    const double without = cost_of_undoing(*world->judge, change, before);
    const bool worth_it_for_them =
        now > 0.0 ? without < kMostWithoutNews * now : -now < -kMostWithoutNews * without;
    if (!worth_it_for_them || now - without < most) continue;
    most = now - without;
    cause = world.get();
  }
  if (cause != nullptr) return cause->told;
  const FreedGround* freed = freed_for(change);
  return freed == nullptr ? std::nullopt : std::optional(freed->told);
}

}  // namespace sowtide::plan
