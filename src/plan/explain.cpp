#include "plan/explain.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/parallel.hpp"
#include "plan/limiting.hpp"
#include "plan/neighbours.hpp"
#include "plan/notes.hpp"
#include "stand/bought.hpp"
#include "stand/harvest_total.hpp"
#include "stand/places.hpp"

namespace sowtide::plan {
namespace {

/// A saving below this is not worth telling, servings.
constexpr double kWorthNaming = 0.05;

/// Mean servings of one clump by week, over the scenarios.
std::vector<double> mean_weeks(const GardenModel& model, const Candidate& candidate) {
  std::vector<double> mean(model.weeks, 0.0);
  for (const std::size_t m : model.scenarios) {
    for (std::size_t w = 0; w < model.weeks; ++w) mean[w] += candidate.servings[m * model.weeks + w];
  }
  for (double& servings : mean) servings /= static_cast<double>(model.scenarios.size());
  return mean;
}

base::Date monday_of(const GardenModel& model, std::size_t week) {
  return model.first_monday + base::Days{static_cast<int>(7 * week)};
}

base::Message brings(int clumps, double total_g, base::Date from, base::Date to) {
  return {"stand-brings",
          {{"clumps", static_cast<double>(clumps)}, {"total_g", total_g}, {"from", from}, {"to", to}}};
}

/// As its outlook has it, in the weeks that bring something in half of the weather years; nothing where there
/// is no such week.
std::optional<base::Message> what_it_likely_brings(const stand::Outlook& outlook, int clumps) {
  const auto likely = [](const stand::WeekOutlook& week) { return week.weight_g.p50 > 0.0; };
  const auto first = std::find_if(outlook.weeks.begin(), outlook.weeks.end(), likely);
  if (first == outlook.weeks.end()) return {};
  const auto last = std::find_if(outlook.weeks.rbegin(), outlook.weeks.rend(), likely);
  return brings(clumps, stand::still_to_come_g(outlook).p50, first->week_start, last->week_start);
}

/// As the choice was reckoned, in all weeks that bring something in any weather year.
base::Message what_it_brings(const GardenModel& model, const Candidate& candidate, int clumps) {
  const std::vector<double> mean = mean_weeks(model, candidate);
  double total = 0.0;
  std::size_t first = model.weeks, last = 0;
  for (std::size_t w = 0; w < model.weeks; ++w) {
    if (mean[w] <= 0.0) continue;
    total += mean[w];
    first = std::min(first, w);
    last = w;
  }
  if (first == model.weeks) return {"brings-nothing", {}};
  const double grams = total * clumps * model.products[candidate.product].serving_g;
  return brings(clumps, grams, monday_of(model, first), monday_of(model, last));
}

/// The same sowing a number of weeks off, if the model has it.
std::optional<std::size_t> shifted(const GardenModel& model, const Candidate& candidate, int weeks) {
  SowingKey key = key_of(candidate);
  key.week += weeks;
  return sowing_of(model, key);
}

/// Change of the whole cost when the stand is sown some weeks off.
std::optional<double> cost_of_shift(const GardenModel& model, ForwardPass& judge, const PlacedStand& stand,
                                    int weeks) {
  const auto other = shifted(model, model.candidates[stand.candidate], weeks);
  if (!other) return {};
  const ClumpCounts kept = judge.counts();
  const double before = judge.cost();
  ClumpCounts moved = kept;
  moved[stand.candidate] -= stand.clumps;
  moved[*other] += stand.clumps;
  judge.set_counts(moved);
  const double change = judge.cost() - before;
  judge.set_counts(kept);
  return change;
}

/// Keys of what a week's shift costs, brings, or that there is no such sowing.
struct ShiftKeys {
  const char *costs, *brings, *none;
};

/// A week before its own: past, for what is sown in the first week.
const char* no_earlier(const Candidate& candidate) {
  return candidate.sow_week == 0 ? "earlier-is-past" : "earlier-is-none";
}

base::Message shift_said(const ShiftKeys& keys, const std::optional<double>& change) {
  if (!change) return {keys.none, {}};
  const bool brings = *change <= -kWorthNaming;
  return {brings ? keys.brings : keys.costs, {{"servings", brings ? -*change : std::max(0.0, *change)}}};
}

/// What stood on a stretch before.
struct StoodThere {
  int last_week = 0;
  crop::FeederClass feeder = crop::FeederClass::medium;
  std::string crop, stand;
};

/// The latest that leaves a placed stand's ground before it comes, of the plan's stands and of what stands
/// there already.
std::optional<StoodThere> stood_before(const GardenModel& model, const std::vector<PlacedStand>& placed,
                                       std::size_t which, const std::vector<stand::StandPlan>& stands) {
  const Candidate& own = model.candidates[placed[which].candidate];
  const Neighbour ground = neighbour_of(model, placed[which]);
  std::optional<StoodThere> latest;
  const auto look = [&](std::size_t bed, int from_mm, int to_mm, StoodThere stood) {
    const bool is_before = bed == placed[which].bed && stood.last_week < own.bed_first_week;
    if (!is_before || to_mm <= ground.from_mm || ground.to_mm <= from_mm) return;
    if (!latest || stood.last_week > latest->last_week) latest = std::move(stood);
  };
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const Neighbour other = neighbour_of(model, placed[i]);
    look(placed[i].bed, other.from_mm, other.to_mm,
         {other.last_week, other.feeder, stands[i].crop, stands[i].id});
  }
  for (const TakenStretch& taken : model.taken)
    look(taken.bed, taken.from_mm, taken.to_mm, {taken.last_week, taken.feeder, taken.crop, taken.stand});
  return latest;
}

/// What stood on the ground before, and whether that suits.
base::Message ground_said(const PlanInput& input, const Candidate& own,
                          const std::optional<StoodThere>& before) {
  if (!before) return {"first-on-its-ground", {}};
  const char* key = "follows";
  if (before->feeder == crop::FeederClass::heavy) {
    if (own.feeder == crop::FeederClass::heavy) key = "follows-hungry-itself-hungry";
    if (own.feeder == crop::FeederClass::light) key = "follows-hungry";
  }
  return {key,
          {{"crop", before->crop}, {"crop_name", crop_name(input, before->crop)}, {"stand", before->stand}}};
}

/// The week in which a stand leaves its tray, and with an outlook the likely day, which every other answer
/// tells too; without one, the first week for which its room is kept.
base::Message goes_out(const GardenModel& model, const Candidate& candidate,
                       const std::optional<stand::Outlook>& outlook) {
  const stand::EventOutlook* event = outlook ? stand::expected_event(*outlook, "set-out") : nullptr;
  if (event != nullptr)
    return {"goes-out", {{"week", base::week_start(event->p50)}, {"set_out", event->p50}}};
  return {"goes-out", {{"week", monday_of(model, static_cast<std::size_t>(candidate.bed_first_week))}}};
}

constexpr std::size_t kWantsAsked = 3;

/// The wants whose missing servings cost most, dearest first.
std::vector<std::size_t> shortest_wants(const GardenModel& model, const ForwardPass& judge) {
  std::vector<std::pair<double, std::size_t>> costs;
  for (std::size_t d = 0; d < model.demands.size(); ++d) {
    const std::vector<double> missing = judge.missing(d);
    const MissingMost most = missing_most(model, model.demands[d]);
    double cost = 0.0;
    for (std::size_t m = 0; m < judge.member_count(); ++m) {
      double of_year = 0.0;
      for (std::size_t w = 0; w < model.weeks; ++w) {
        if (w < model.told_weeks) of_year += missing[m * model.weeks + w];
        cost += price_in(model.demands[d], w) * missing[m * model.weeks + w];
      }
      cost += most.cost_of(of_year);
    }
    if (cost > 0.0) costs.emplace_back(-cost, d);
  }
  std::sort(costs.begin(), costs.end());
  std::vector<std::size_t> wants;
  for (const auto& [cost, want] : costs) wants.push_back(want);
  wants.resize(std::min(wants.size(), kWantsAsked));
  return wants;
}

/// The earliest sowing of what meets a want; nothing when it has none.
std::optional<std::size_t> earliest_sowing(const GardenModel& model, const Demand& demand) {
  std::optional<std::size_t> earliest;
  for (std::size_t c = 0; c < model.candidates.size(); ++c) {
    const Candidate& candidate = model.candidates[c];
    if (!meets(demand, candidate.product)) continue;
    if (!earliest || candidate.sow_week < model.candidates[*earliest].sow_week) earliest = c;
  }
  return earliest;
}

/// The sowing as it would be with everything a week before.
Candidate a_week_earlier(const GardenModel& model, Candidate sowing) {
  for (int* week : {&sowing.sow_week, &sowing.bed_first_week, &sowing.bed_last_week, &sowing.tray_first_week,
                    &sowing.tray_last_week, &sowing.mat_last_week})
    --*week;
  for (std::size_t m = 0; m < model.member_count; ++m) {
    const auto year = sowing.servings.begin() + static_cast<std::ptrdiff_t>(m * model.weeks);
    const auto end = year + static_cast<std::ptrdiff_t>(model.weeks);
    std::copy(year + 1, end, year);
    *(end - 1) = 0.0;
  }
  return sowing;
}

/// The program's bound when a sowing more could be made; nothing when it was not solved.
std::optional<double> bound_with(GardenModel model, Candidate sowing) {
  model.candidates.push_back(std::move(sowing));
  finish_model(model);
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  const auto solved = solve_with_age_rows(model, formulation, solver);
  if (!solved) return {};
  return solved->objective;
}

/// What spoils the same sowing a week before too often; nothing where it was not refused for that.
std::optional<std::string> in_the_way_before(const PreparedGarden& garden, const Candidate& sowing) {
  SowingKey key = key_of(sowing);
  --key.week;
  const RefusedSowing* refused = refused_as(garden, key);
  if (refused == nullptr || refused->beyond || refused->limits.empty()) return {};
  return refused->limits;
}

base::Message earlier_week_said(const PlanInput& input, const GardenModel& model, const Candidate& sowing,
                                const std::string& cause) {
  const std::string& crop = model.products[sowing.product].crop;
  const bool bought = stand::bought_as_plants(sowing.sowing);
  base::Message said{
      bought ? "earlier-bought" : "earlier-in-place",
      {{"crop", crop},
       {"crop_name", crop_name(input, crop)},
       {bought ? "set_out" : "sow", monday_of(model, static_cast<std::size_t>(sowing.sow_week))},
       {"cause", cause}}};
  if (sowing.tray < 0) return said;
  const bed::Tray& tray = model.trays[static_cast<std::size_t>(sowing.tray)];
  said.key = "earlier-in-tray";
  said.values.emplace_back("tray", tray.name.empty() ? tray.id : tray.name);
  return said;
}

base::Message one_more_said(double saved) {
  if (saved < kWorthNaming) return {"one-more-brings-nothing", {}};
  return {"one-more", {{"servings", saved}}};
}

/// What the light of its bed is to a sowing.
const char* light_said(bed::SunClass sun, const Candidate& candidate) {
  switch (sun) {
    case bed::SunClass::full:
      return candidate.stands_part_shade ? "full-sun-gives-more" : "needs-full-sun";
    case bed::SunClass::partial:
      return candidate.stands_part_shade ? "bears-part-shade" : "less-in-part-shade";
    case bed::SunClass::shade:
      return "less-in-shade";
  }
  return "needs-full-sun";
}

}  // namespace

Note reason_for_stand(const PlanInput& input, const GardenModel& model, ForwardPass& judge,
                      const std::vector<PlacedStand>& placed, std::size_t which,
                      const std::vector<stand::StandPlan>& stands,
                      const std::optional<stand::Outlook>& outlook) {
  const PlacedStand& stand = placed[which];
  const Candidate& candidate = model.candidates[stand.candidate];
  const auto likely = outlook ? what_it_likely_brings(*outlook, stand.clumps) : std::nullopt;
  const double success = outlook ? outlook->success : candidate.success;
  Note note{
      likely ? *likely : what_it_brings(model, candidate, stand.clumps),
      {"missed-without", {{"servings", judge.change_by(stand.candidate, -stand.clumps)}}},
      one_more_said(-judge.change_by(stand.candidate, 1)),
      {"one-fewer", {{"servings", std::max(0.0, judge.change_by(stand.candidate, -1))}}},
      shift_said({"earlier-costs", "earlier-brings", no_earlier(candidate)},
                 cost_of_shift(model, judge, stand, -1)),
      shift_said({"later-costs", "later-brings", "later-is-none"}, cost_of_shift(model, judge, stand, 1)),
      {light_said(model.beds[stand.bed].sun, candidate), {}},
      ground_said(input, candidate, stood_before(model, placed, which, stands))};
  if (success < 0.995) note.push_back({"succeeds", {{"success_share", success}}});
  if (candidate.tray >= 0) note.push_back(goes_out(model, candidate, outlook));
  if (stand::bought_as_plants(candidate.sowing))
    note.push_back({"plants-to-buy",
                    {{"plants", std::round(stand::planned_plants(stands[which]))},
                     {"set_out", stand::begins_on(candidate.sowing)}}});
  return note;
}

std::vector<std::optional<stand::Outlook>> outlooks_of(const PlanInput& input, const PreparedGarden& garden,
                                                       const std::vector<PlacedStand>& placed,
                                                       const std::vector<stand::StandPlan>& stands) {
  std::vector<std::optional<stand::Outlook>> outlooks(stands.size());
  base::parallel_for(stands.size(), [&](std::size_t i) {
    const Candidate& candidate = garden.model.candidates[placed[i].candidate];
    const bed::Tray* tray =
        candidate.tray >= 0 ? &input.trays[static_cast<std::size_t>(candidate.tray)] : nullptr;
    outlooks[i] =
        garden.source->outlook(garden.crops[candidate.product], stands[i], stand::raising_of(stands[i], tray),
                               stand::bed_place(input.beds, stands[i]));
  });
  return outlooks;
}

namespace {

/// The wants that miss least of what they missed before, up to two, each with over a fifth of all that is
/// gained.
std::vector<base::Message> most_helped(const GardenModel& model, const std::vector<double>& before,
                                       const std::vector<double>& after) {
  constexpr std::size_t kMostNamed = 2;
  constexpr double kLeastShare = 0.2;
  std::vector<std::pair<double, std::size_t>> gains;
  double all = 0.0;
  for (std::size_t d = 0; d < before.size(); ++d) {
    const double gain = before[d] - after[d];
    if (gain <= 0.0) continue;
    all += gain;
    gains.emplace_back(-gain, d);
  }
  std::sort(gains.begin(), gains.end());
  std::vector<base::Message> helped;
  for (const auto& [negative, d] : gains) {
    if (helped.size() == kMostNamed || -negative < kLeastShare * all) break;
    helped.push_back({"helps-want",
                      {{"want", model.demands[d].want},
                       {"want_id", model.demands[d].want},
                       {"weight_g", -negative * model.demands[d].serving_g}}});
  }
  return helped;
}

const char* metre_in(bed::SunClass sun) {
  switch (sun) {
    case bed::SunClass::full:
      return "metre-in-sun";
    case bed::SunClass::partial:
      return "metre-in-part-shade";
    case bed::SunClass::shade:
      return "metre-in-shade";
  }
  return "metre-in-sun";
}

}  // namespace

std::vector<Worth> worths_of(const GardenModel& model, const Formulation& formulation,
                             const LinearSolution& relaxation, RelaxationSolver& solver) {
  constexpr double kCells = 10.0;
  std::vector<Worth> worths;
  const std::vector<double> missed = missed_by(model, formulation, relaxation);
  const auto add = [&](base::Message what, std::vector<int> rows, double more) {
    std::erase(rows, -1);
    // What no row holds back brings nothing; the prices say so without solving again.
    const bool held = std::any_of(rows.begin(), rows.end(), [&](int row) {
      return relaxation.row_prices[static_cast<std::size_t>(row)] < -1e-9;
    });
    if (!held) return;
    const auto with_more = solver.solution_with_more(rows, more);
    if (!with_more || relaxation.objective - with_more->objective < kWorthNaming) return;
    Worth worth{{std::move(what)}, relaxation.objective - with_more->objective};
    for (base::Message& helped : most_helped(model, missed, missed_by(model, formulation, *with_more)))
      worth.what.push_back(std::move(helped));
    worths.push_back(std::move(worth));
  };
  for (std::size_t g = 0; g < model.groups.size(); ++g) {
    const BedGroup& group = model.groups[g];
    // A new metre is open to every family as well as in every week.
    std::vector<int> rows = formulation.bed_rows[g];
    rows.insert(rows.end(), formulation.family_rows[g].begin(), formulation.family_rows[g].end());
    constexpr double kMore_m = 1.0;
    add({metre_in(group.sun), {{"length_m", kMore_m}, {"width_m", group.width_m}}}, std::move(rows), kMore_m);
  }
  const std::size_t trays = model.trays.size();
  for (std::size_t room = 0; room < formulation.tray_rows.size(); ++room) {
    const bed::Tray& tray = model.trays[room % trays];
    add({room < trays ? "cells-of-tray" : "cells-on-mat",
         {{"cells", kCells}, {"tray", tray.name.empty() ? tray.id : tray.name}}},
        formulation.tray_rows[room], kCells);
  }
  std::stable_sort(worths.begin(), worths.end(),
                   [](const Worth& a, const Worth& b) { return a.servings > b.servings; });
  return worths;
}

std::vector<Worth> worths_of_an_earlier_week(const PlanInput& input, const PreparedGarden& garden,
                                             const ForwardPass& judge, double bound,
                                             const std::function<bool()>& go_on) {
  const GardenModel& model = garden.model;
  std::vector<std::size_t> sowings;
  std::vector<std::string> causes;
  for (const std::size_t want : shortest_wants(model, judge)) {
    const auto earliest = earliest_sowing(model, model.demands[want]);
    if (!earliest || std::find(sowings.begin(), sowings.end(), *earliest) != sowings.end()) continue;
    if (auto cause = in_the_way_before(garden, model.candidates[*earliest])) {
      sowings.push_back(*earliest);
      causes.push_back(std::move(*cause));
    }
  }
  std::vector<double> saved(sowings.size(), 0.0);
  base::parallel_for(sowings.size(), [&](std::size_t i) {
    if (!go_on()) return;
    const auto with_it = bound_with(model, a_week_earlier(model, model.candidates[sowings[i]]));
    if (with_it) saved[i] = bound - *with_it;
  });
  std::vector<Worth> worths;
  for (std::size_t i = 0; i < sowings.size(); ++i) {
    if (saved[i] >= kWorthNaming)
      worths.push_back(
          {{earlier_week_said(input, model, model.candidates[sowings[i]], causes[i])}, saved[i]});
  }
  return worths;
}

}  // namespace sowtide::plan
