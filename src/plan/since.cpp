#include "plan/since.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "plan/notes.hpp"
#include "plan/preparation.hpp"
#include "stand/places.hpp"

namespace sowtide::plan {
namespace {

/// News is the reason of a change that would be worth less than this share of it without them.
constexpr double kMostWithoutNews = 0.5;

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

/// The last week in which the bed is held, as `standing` reckons it of a stand that brings a harvest.
std::optional<int> last_week_held(const SowingLife& life) {
  const int day = day_quantile(life.end_day, kStayQuantile);
  return day == kNeverDay ? std::nullopt : std::optional(week_of_day(day));
}

}  // namespace

Hindsight::Hindsight(const PlanInput& input, const PreparedGarden& garden,
                     const std::vector<PlacedStand>& placed, const std::vector<stand::StandPlan>& after)
    : input_(input), garden_(garden), placed_(placed), after_(after) {}

std::optional<Hindsight::World> Hindsight::world_without(const StandNews& news) {
  const stand::StandPlan& plan = news.as_planned.plan;
  const auto product = sown_product(garden_.model, plan.crop, plan.variety, plan.size);
  const auto crop = std::find_if(garden_.crops.begin(), garden_.crops.end(), [&](const crop::Crop& each) {
    return each.id == crop_key(plan.crop, plan.variety);
  });
  if (!product || crop == garden_.crops.end() || garden_.source == nullptr) return {};
  const auto tray = std::find_if(input_.trays.begin(), input_.trays.end(),
                                 [&](const bed::Tray& each) { return each.id == plan.tray; });
  const auto lived = [&](const stand::StandFacts& facts) {
    return garden_.source->life(*crop, plan, facts,
                                stand::raising_of(plan, tray == input_.trays.end() ? nullptr : &*tray),
                                stand::bed_place(input_.beds, plan));
  };
  const auto life = lived(news.as_planned.facts);
  if (!life) return {};
  World world{told_of(input_, key_of_kind(news.kind), news), garden_.model};
  std::vector<double>& supply = world.model.base_supply[*product];
  const double serving_g = world.model.products[*product].serving_g;
  for (std::size_t i = 0; i < life->weekly_g.size(); ++i) supply[i] += life->weekly_g[i] / serving_g;
  const auto fixed = std::find_if(input_.fixed.begin(), input_.fixed.end(),
                                  [&](const FixedStand& each) { return each.plan.id == plan.id; });
  if (fixed != input_.fixed.end()) {
    const auto now = lived(fixed->facts);
    if (!now) return {};
    for (std::size_t i = 0; i < now->weekly_g.size(); ++i) supply[i] -= now->weekly_g[i] / serving_g;
  }
  const auto last_week = last_week_held(*life);
  for (std::size_t b = 0; b < input_.beds.size() && news.kind != StandNews::Kind::fewer && last_week; ++b) {
    if (input_.beds[b].id != plan.bed) continue;
    TakenStretch stretch{b, whole_mm(plan.from_m), whole_mm(plan.to_m), 0, *last_week};
    freed_.push_back({told_of(input_, "ground-free-since", news), std::move(stretch)});
  }
  return world;
}

std::optional<Hindsight::World> Hindsight::world_without(const WantNews& news) const {
  const auto want = std::find_if(input_.wants.begin(), input_.wants.end(),
                                 [&](const Want& each) { return each.id == news.id; });
  if (want == input_.wants.end()) return {};
  const double before = news.before ? news.before->amount_per_week : 0.0;
  if (want->amount_per_week <= 0.0 || before == want->amount_per_week) return {};
  World world{{}, garden_.model};
  // All that is asked for, since amounts to be stored are no news (desk/since_plan.hpp) unless the want
  // itself is.
  for (Demand& demand : world.model.demands) {
    if (demand.want != news.id) continue;
    for (double& servings : demand.servings) servings *= before / want->amount_per_week;
  }
  const char* key = !news.before                     ? "want-new-since"
                    : before < want->amount_per_week ? "want-more-since"
                                                     : "want-less-since";
  Note told{{key, {{"want", news.id}, {"want_id", news.id}}}};
  name_wants(input_, told);
  world.told = std::move(told.front());
  return world;
}

std::optional<std::size_t> Hindsight::candidate_before(const StandChange& change) const {
  if (!change.before) return {};
  return sowing_as_it_was(garden_.model, input_.earlier[*change.before]);
}

const Hindsight::FreedGround* Hindsight::freed_for(const StandChange& change) const {
  if (!change.after) return nullptr;
  const PlacedStand& stand = placed_[*change.after];
  const Candidate& candidate = garden_.model.candidates[stand.candidate];
  const int to_mm = whole_mm(after_[*change.after].to_m);
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

std::vector<Hindsight::Asked> Hindsight::asking(ForwardPass& judge, const std::vector<StandChange>& changes,
                                                const std::vector<base::Message>& reasons) const {
  std::vector<Asked> asked;
  for (std::size_t i = 0; i < changes.size(); ++i) {
    const auto before = candidate_before(changes[i]);
    if (!asks_for_a_cause(reasons[i]) || (changes[i].before && !before)) continue;
    asked.push_back(
        {i, before, cost_of_undoing(judge, placed_, changes[i], input_.earlier, before), kFeltServings});
  }
  return asked;
}

void Hindsight::ask(const World& world, const std::vector<StandChange>& changes,
                    std::vector<Asked>& asked) const {
  ForwardPass judge(world.model, world.model.scenarios);
  judge.set_counts(counts_of(garden_.model, placed_));
  for (Asked& each : asked) {
    const double without = cost_of_undoing(judge, placed_, changes[each.change], input_.earlier, each.before);
    const bool worth_it_for_them =
        each.now > 0.0 ? without < kMostWithoutNews * each.now : -each.now < -kMostWithoutNews * without;
    if (!worth_it_for_them || each.now - without < each.most) continue;
    each.most = each.now - without;
    each.cause = world.told;
  }
}

std::vector<std::optional<base::Message>> Hindsight::reasons_since(
    ForwardPass& judge, const std::vector<StandChange>& changes, const std::vector<base::Message>& reasons) {
  std::vector<std::optional<base::Message>> since(changes.size());
  std::vector<Asked> asked = asking(judge, changes, reasons);
  if (asked.empty()) return since;
  for (const StandNews& news : input_.since.stands) {
    if (const auto world = world_without(news)) ask(*world, changes, asked);
  }
  for (const WantNews& news : input_.since.wants) {
    if (const auto world = world_without(news)) ask(*world, changes, asked);
  }
  for (Asked& each : asked) {
    const FreedGround* freed = each.cause ? nullptr : freed_for(changes[each.change]);
    since[each.change] = freed == nullptr ? std::move(each.cause) : std::optional(freed->told);
  }
  return since;
}

}  // namespace sowtide::plan
