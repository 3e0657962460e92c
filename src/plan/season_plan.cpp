#include "plan/season_plan.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <functional>
#include <memory>
#include <mutex>
#include <numeric>
#include <optional>
#include <set>
#include <utility>

#include "base/parallel.hpp"
#include "plan/anneal.hpp"
#include "plan/changes.hpp"
#include "plan/explain.hpp"
#include "plan/first_plan.hpp"
#include "plan/notes.hpp"
#include "plan/risk.hpp"
#include "plan/since.hpp"
#include "stand/bought.hpp"
#include "stand/stand_number.hpp"

namespace sowtide::plan {
namespace {

/// Two searches from different random streams; more would wait for a core on a usual machine.
constexpr std::size_t kSearches = 2;
/// Changes tried in a round, by bed, and their limits for very small and very large gardens.
constexpr double kChangesPerBed = 170.0;
constexpr double kFewestChanges = 200.0;
constexpr double kMostChanges = 4000.0;
/// A first, quick cooling gives a good plan early; the long one follows.
constexpr double kQuickShare = 0.12;
/// Warmth at the start, in servings (chosen): from nothing, from the relaxation's first plan, and from one
/// that was told.
constexpr double kMeltingWarmth = 1.0;
constexpr double kSofteningWarmth = 0.25;
constexpr double kMendingWarmth = 0.15;
constexpr double kEndWarmth = 0.01;
/// A shortage below this is rounding.
constexpr double kRoundingGrams = 1e-6;
/// A stand of fewer clumps is given to a neighbour in time, when that costs no more than its bother.
constexpr int kTinyStand = 3;
/// By so much of the price of a change a plan may get dearer for a sowing to stay just as it was told
/// (chosen).
constexpr double kRestoreAllowance = 0.5;
/// Part of the time limit that may go into laying out the choices.
constexpr double kChoiceShare = 0.5;
/// Part of the time limit after which nothing new is begun.
constexpr double kSearchShare = 0.95;

/// Watches the clock and the caller's wish to stop.
class Watch {
 public:
  explicit Watch(const PlanOptions& options) : options_(options), begin_(std::chrono::steady_clock::now()) {}

  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
  }
  [[nodiscard]] bool out_of_time() const { return seconds() > kSearchShare * options_.time_limit_s; }
  void report(double objective, double bound) {
    tell({.seconds = seconds(), .laid_out = 1.0, .objective = objective, .bound = bound});
  }
  /// While the choices are laid out; false when that is to end.
  bool report_laid_out(double share) {
    tell({.seconds = seconds(), .laid_out = share, .objective = {}, .bound = {}});
    return !stopped_;
  }
  [[nodiscard]] bool stopped() const { return stopped_; }
  [[nodiscard]] bool go_on() const { return !stopped() && !out_of_time(); }

 private:
  void tell(const PlanProgress& progress) {
    if (options_.progress && !options_.progress(progress)) stopped_ = true;
  }

  const PlanOptions& options_;
  std::chrono::steady_clock::time_point begin_;
  std::atomic<bool> stopped_ = false;
};

/// What the searches begin with.
struct Start {
  std::vector<PlacedStand> stands;
  double warmth = kMeltingWarmth;
};

/// Coolings side by side, each from its own random stream; the best stands of all.
std::vector<PlacedStand> search_side_by_side(const GardenModel& model, const Start& start,
                                             const std::vector<std::size_t>& likely,
                                             const PlanOptions& options, double bound, std::uint64_t seed,
                                             Watch& watch) {
  const double per_round =
      std::clamp(kChangesPerBed * static_cast<double>(model.beds.size()), kFewestChanges, kMostChanges);
  const double changes = per_round * static_cast<double>(options.rounds);
  const double goal = bound / (1.0 - std::clamp(options.gap_goal, 0.0, 0.99));
  std::vector<std::unique_ptr<Annealing>> searches(kSearches);
  base::parallel_for(kSearches, [&](std::size_t i) {
    searches[i] = std::make_unique<Annealing>(model, likely);
    searches[i]->start_from(start.stands);
    for (const double share : {kQuickShare, 1.0 - kQuickShare}) {
      AnnealingOptions how;
      how.changes = static_cast<std::size_t>(share * changes);
      how.start_warmth = start.warmth;
      how.end_warmth = kEndWarmth;
      how.seed = seed + 1000003 * i + (share == kQuickShare ? 0 : 7919);
      // Only the first search speaks, so that the listener hears one voice; each ends by itself when it is
      // good enough.
      how.keep_going = [&, i](double table_cost) {
        if (i == 0) watch.report(table_cost, bound);
        return watch.go_on() && table_cost > goal;
      };
      searches[i]->run(how);
    }
  });
  const auto best = std::min_element(searches.begin(), searches.end(), [](const auto& a, const auto& b) {
    return a->best_burden() < b->best_burden();
  });
  return (*best)->best_stands();
}

/// A plan that was told is kept to. Else, where stands have a price, a search from nothing finds the few,
/// large ones that it asks for; where they have none, one from the relaxation's first plan comes nearer to
/// the bound.
Start start_of(const GardenModel& model, const Formulation& formulation, RelaxationSolver& solver,
               const std::function<bool()>& stop) {
  if (!model.promised.empty()) return {model.promised, kMendingWarmth};
  if (model.prices.stand > 0.0) return {{}, kMeltingWarmth};
  return {first_plan(model, formulation, solver, stop), kSofteningWarmth};
}

std::string status_of(const SolvedModel& solved, const PlanOptions& options, const Watch& watch) {
  if (relative_gap(solved.objective, solved.bound) <= options.gap_goal) return "gap reached";
  if (watch.stopped()) return "stopped";
  return watch.out_of_time() ? "time limit" : "rounds done";
}

/// By demand: what a plan misses in its weeks, in the mean of the scenarios.
std::vector<double> missed_servings(const GardenModel& model, const ForwardPass& judge) {
  std::vector<double> missed(model.demands.size(), 0.0);
  for (std::size_t d = 0; d < missed.size(); ++d) {
    const std::vector<double> missing = judge.missing(d);
    for (std::size_t m = 0; m < judge.member_count(); ++m) {
      for (std::size_t w = 0; w < model.told_weeks; ++w) missed[d] += missing[m * model.weeks + w];
    }
    missed[d] /= static_cast<double>(judge.member_count());
  }
  return missed;
}

base::Result<SolvedModel> solve_watched(const GardenModel& model, const PlanOptions& options,
                                        std::uint64_t seed, Watch& watch) {
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  if (!relaxation) return tl::unexpected(relaxation.error());
  PlacedSearch best(model, formulation, *relaxation);
  watch.report(best.cost(), relaxation->objective);
  const Start start = start_of(model, formulation, solver, [&] {
    watch.report(best.cost(), relaxation->objective);
    return !watch.go_on();
  });
  best.start_from(
      search_side_by_side(model, start, best.likely_sowings(), options, relaxation->objective, seed, watch));
  best.merge_tiny(kTinyStand, model.prices.stand);
  best.complete_blocks();
  best.restore_promises(kRestoreAllowance * model.prices.change);
  best.restore_places(kRestoreAllowance * model.prices.change);
  SolvedModel solved{best.stands(), best.cost(), std::min(relaxation->objective, best.cost()), {}, {}, {}};
  solved.worths = worths_of(model, formulation, *relaxation, solver);
  solved.limiting = limiting_of(model, formulation, *relaxation, missed_servings(model, best.judge()));
  solved.status = status_of(solved, options, watch);
  return solved;
}

/// The names of all stands, be they standing, planned or over.
stand::StandNames names_of(const PlanInput& input) {
  stand::StandNames names;
  for (const FixedStand& stand : input.fixed) names.take(stand.plan.id);
  for (const std::string& id : input.names_taken) names.take(id);
  for (const stand::StandPlan& plan : input.earlier) names.take(plan.id);
  return names;
}

stand::StandPlan stand_plan(const GardenModel& model, const PlacedStand& placed) {
  const Candidate& candidate = model.candidates[placed.candidate];
  const bed::Bed& bed = model.beds[placed.bed];
  const int across = std::max(1, clumps_across(bed, candidate));
  stand::StandPlan plan = candidate.sowing;
  plan.clumps = placed.clumps;
  plan.bed = bed.id;
  plan.from_m = placed.from_mm / 1000.0;
  plan.to_m = (placed.from_mm + stretch_mm(candidate, across, placed.clumps)) / 1000.0;
  plan.cells =
      candidate.tray >= 0 ? cells_for(candidate, placed.clumps) / candidate.tray_places : placed.clumps;
  if (stand::bought_as_plants(plan)) plan.cells = 0;
  return plan;
}

std::vector<PlacedStand> in_order(const GardenModel& model, std::vector<PlacedStand> stands) {
  std::sort(stands.begin(), stands.end(), [&](const PlacedStand& a, const PlacedStand& b) {
    const auto key = [&](const PlacedStand& s) {
      return std::make_tuple(model.candidates[s.candidate].sow_week, s.bed, s.from_mm, s.candidate);
    };
    return key(a) < key(b);
  });
  return stands;
}

void add_shortages(const GardenModel& model, const ForwardPass& judge, Plan& plan) {
  const auto members = static_cast<double>(judge.member_count());
  for (std::size_t d = 0; d < model.demands.size(); ++d) {
    const Demand& demand = model.demands[d];
    const std::vector<double> missing = judge.missing(d);
    double wanted = 0.0, missed = 0.0;
    for (std::size_t w = 0; w < model.told_weeks; ++w) {
      Shortage shortage{demand.want, model.first_monday + base::Days{static_cast<int>(7 * w)}, 0.0, 0.0};
      for (std::size_t m = 0; m < judge.member_count(); ++m) {
        const double servings = missing[m * model.weeks + w];
        shortage.grams += servings * demand.serving_g / members;
        // Less than a hundredth of a week's want is not felt.
        if (servings > 0.01 * demand.servings[w]) shortage.probability += 1.0 / members;
      }
      wanted += demand.servings[w] * demand.serving_g;
      missed += shortage.grams;
      // A little that nobody feels is listed too, so that the weeks add up to what the want misses in all.
      if (shortage.grams > kRoundingGrams) plan.shortages.push_back(shortage);
    }
    plan.wanted_g[demand.want] = wanted;
    plan.supplied_g[demand.want] = std::max(0.0, wanted - missed);
  }
}

/// What it would cost if nothing at all reached the table.
double value_at_stake(const GardenModel& model) {
  double value = 0.0;
  for (const Demand& demand : model.demands) {
    for (std::size_t w = 0; w < model.weeks; ++w) value += price_in(demand, w) * demand.servings[w];
    value += missing_most(model, demand).cost_of(wanted_servings(model, demand));
  }
  return value;
}

/// Mean cost of the dearest fifth of all the weather years, those of the model and those outside it.
double cost_of_bad_years(const GardenModel& model, const ClumpCounts& counts) {
  std::vector<std::size_t> all(model.member_count);
  std::iota(all.begin(), all.end(), 0U);
  ForwardPass judge(model, std::move(all));
  judge.set_counts(counts);
  std::vector<double> costs = judge.year_costs();
  const double mean = std::accumulate(costs.begin(), costs.end(), 0.0) / static_cast<double>(costs.size());
  return mean + bad_years_excess(costs);
}

/// Mean cost in the weather years outside the model; nothing where all are in it.
std::optional<double> cost_of_unseen_years(const GardenModel& model, const ClumpCounts& counts) {
  const std::vector<std::size_t> unseen = unseen_members(model);
  if (unseen.empty()) return {};
  ForwardPass judge(model, unseen);
  judge.set_counts(counts);
  return judge.cost();
}

/// What is not as the earlier plan had it, and why.
void tell_changes(const PlanInput& input, const PreparedGarden& garden, ForwardPass& judge,
                  const std::vector<PlacedStand>& stands, Plan& plan) {
  if (input.earlier.empty()) return;
  const std::vector<StandChange> changes = stand_changes(input.earlier, plan.stands);
  std::vector<base::Message> reasons;
  for (const StandChange& change : changes)
    reasons.push_back(reason_of_change(input, garden, judge, stands, plan.stands, change));
  const auto since = Hindsight(input, garden, stands, plan.stands).reasons_since(judge, changes, reasons);
  for (std::size_t i = 0; i < changes.size(); ++i) {
    Note& note = plan.changes.emplace_back(Note{change_said(input, plan.stands, changes[i])});
    if (auto weather = weather_of_change(input, garden, plan.stands, changes[i], reasons[i]))
      note.push_back(std::move(*weather));
    if (since[i]) note.push_back(*since[i]);
    note.push_back(std::move(reasons[i]));
  }
}

/// Without time (stopped, or the limit is near) the programs that only explain are not solved.
Plan plan_of(const PlanInput& input, const PreparedGarden& garden, const SolvedModel& solved,
             const std::function<bool()>& has_time) {
  const GardenModel& model = garden.model;
  Plan plan;
  plan.objective = solved.objective;
  plan.bound = solved.bound;
  plan.gap = relative_gap(solved.objective, solved.bound);
  plan.status = solved.status;
  plan.candidates = model.candidates.size();
  const std::vector<PlacedStand> stands = in_order(model, solved.stands);
  for (const PlacedStand& placed : stands) plan.stands.push_back(stand_plan(model, placed));
  keep_names(input.earlier, plan.stands);
  stand::StandNames names = names_of(input);
  for (stand::StandPlan& stand : plan.stands) {
    if (stand.id.empty()) stand.id = names.next();
  }
  const ClumpCounts counts = counts_of(model, stands);
  ForwardPass judge(model, model.scenarios);
  judge.set_counts(counts);
  plan.worths = solved.worths;
  for (Worth& worth : plan.worths) name_wants(input, worth.what);
  for (Worth& worth : worths_of_an_earlier_week(input, garden, judge, solved.bound, has_time))
    plan.worths.push_back(std::move(worth));
  std::stable_sort(plan.worths.begin(), plan.worths.end(),
                   [](const Worth& a, const Worth& b) { return a.servings > b.servings; });
  add_shortages(model, judge, plan);
  const auto outlooks = outlooks_of(input, garden, stands, plan.stands);
  for (std::size_t i = 0; i < stands.size(); ++i) {
    plan.reasons[plan.stands[i].id] =
        reason_for_stand(input, model, judge, stands, i, plan.stands, outlooks[i]);
  }
  tell_changes(input, garden, judge, stands, plan);
  plan.bad_years_objective = cost_of_bad_years(model, counts);
  plan.unseen_objective = cost_of_unseen_years(model, counts).value_or(plan.objective);
  return plan;
}

}  // namespace

void PlanOptions::search_longer(double times) {
  rounds = static_cast<std::size_t>(std::max(1.0, std::round(times * static_cast<double>(kUsualRounds))));
  time_limit_s = kUsualTimeLimitS * std::max(1.0, times);
}

double relative_gap(double objective, double bound) {
  constexpr double kRounding = 1e-12;
  if (!(objective > 0.0) || bound >= objective * (1.0 - kRounding)) return 0.0;
  return (objective - bound) / objective;
}

base::Result<SolvedModel> solve_model(const GardenModel& model, const PlanOptions& options,
                                      std::uint64_t seed) {
  Watch watch(options);
  return solve_watched(model, options, seed, watch);
}

base::Result<Plan> plan_season(const PlanInput& input, const PlanOptions& options,
                               const SourceMaker& make_source) {
  Watch watch(options);
  const ChoiceWatch choosing{
      .has_time = [&] { return watch.seconds() < kChoiceShare * options.time_limit_s; },
      .laid_out = [&](double share) { return watch.report_laid_out(share); }};
  const auto garden = prepare_garden(input, options, make_source, choosing);
  if (!garden) return tl::unexpected(garden.error());
  const auto solved = solve_watched(garden->model, options, input.seed, watch);
  if (!solved) return tl::unexpected(solved.error());
  // Whoever wants to stop is heard while it is explained too.
  std::mutex one_report;
  Plan plan = plan_of(input, *garden, *solved, [&] {
    const std::lock_guard lock(one_report);
    watch.report(solved->objective, solved->bound);
    return watch.go_on();
  });
  plan.notes = garden->notes;
  const std::vector<Note> limits = notes_on_limits(*garden, input, plan, solved->limiting);
  plan.notes.insert(plan.notes.end(), limits.begin(), limits.end());
  const std::vector<Note> empty = notes_on_empty_beds(garden->model, solved->stands);
  plan.notes.insert(plan.notes.end(), empty.begin(), empty.end());
  plan.wanted_value = value_at_stake(garden->model);
  plan.seconds = watch.seconds();
  return plan;
}

namespace {

SourceMaker grown_by_the_model(const PlanInput& input) {
  return [&input](const std::vector<crop::Crop>& crops, const WeekGrid& grid) {
    return growing_source(*input.weather, grid, crops, input.seed, input.typical_years, input.memory);
  };
}

}  // namespace

base::Result<Plan> make_plan(const PlanInput& input, const PlanOptions& options) {
  return plan_season(input, options, grown_by_the_model(input));
}

base::Result<LinearProgram> program_of(const PlanInput& input, const PlanOptions& options) {
  const auto garden = prepare_garden(input, options, grown_by_the_model(input));
  if (!garden) return tl::unexpected(garden.error());
  Formulation formulation = formulate(garden->model);
  add_all_age_rows(garden->model, formulation);
  return std::move(formulation.program);
}

}  // namespace sowtide::plan
