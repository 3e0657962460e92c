#include "desk/worklist.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <optional>

#include "base/parallel.hpp"
#include "base/quantile.hpp"
#include "book/stand_log.hpp"
#include "book/store_place.hpp"
#include "book/words.hpp"
#include "crop/emergence.hpp"
#include "desk/judgement.hpp"
#include "desk/overdue.hpp"
#include "desk/packets.hpp"
#include "desk/present.hpp"
#include "desk/print/moments.hpp"
#include "desk/pulling.hpp"
#include "desk/raising.hpp"
#include "desk/stand_end.hpp"
#include "desk/stand_room.hpp"
#include "desk/stand_stage.hpp"
#include "stand/bought.hpp"
#include "stand/hardening.hpp"
#include "stand/overdue.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::Days;

// How much is lost when a kind of work is left undone, 0..1. Our judgement: what dies or rots first stands first.
constexpr double kProtectWeight = 1.0;
constexpr double kProtectLeast = 0.7;  // of the above where the killing night hardly comes: tonight goes before sowing
constexpr double kReSowWeight = 0.9;
constexpr double kPickWeight = 0.85;
constexpr double kDeadWeight = 0.8;  // time to sow or buy again runs out, and nothing else is lost
constexpr double kSetOutWeight = 0.8;
constexpr double kEatWeight = 0.75;
constexpr double kSowWeight = 0.7;
/// What is spoilt costs nothing more by lying on but room and smell: chosen.
constexpr double kSpoiltUrgency = 0.05;
/// By when a quarter of a lot is good nobody sorts it out any more, as the plan has it (keep::most_weeks):
/// chosen.
constexpr double kSpoiltShare = 0.25;
constexpr double kHardenWeight = 0.6;
constexpr double kThinWeight = 0.5;
constexpr double kLookOverdueWeight = 0.5;  // one sowing in ten that is overdue has failed; the others only were not looked at
constexpr double kCheckWeight = 0.4;
constexpr double kFinishWeight = 0.3;
constexpr double kMayWaitWeight = 0.2;  // it is ready, and more by next week

/// The plan chooses among weekly sowing dates, so a sowing a week late has become the next candidate.
constexpr Days kSowingStep{7};
/// A sowing that was missed, or hardly ever brings a harvest any more, goes to the end of the list.
constexpr double kMissedUrgency = 0.02;
/// What a late sowing still has to lose halves within this time: the best of its season is gone already.
constexpr double kLateSowingDays = 14.0;
/// A sowing missed by longer than this is no work any more: only a new plan finds it another day.
constexpr Days kForgotten{60};
/// Thinning waits until the seedlings can be told apart and held: common practice, about two weeks after emergence.
constexpr Days kThinAfterEmergence{14};
constexpr Days kThinWithin{14};
/// A chance of killing cold below this is not worth a cover.
constexpr double kProtectChance = 0.1;

struct Context {
  const Season& season;
  const book::StandState& state;
  const stand::Outlook& outlook;
  const crop::Crop& crop;
  const JudgedStand* judged = nullptr;          ///< of a stand that may be picked
  const stand::Judgement* judgement = nullptr;  ///< the same stand's
  std::vector<Message> doubtful_seed;           ///< of the packet that it would be sown from
};

std::size_t index_of(const Context& c) {
  return static_cast<std::size_t>(&c.state - c.season.state.stands.data());
}

double urgency(double weight, Date due, Date latest, Date today) {
  const double span = std::max(1.0, static_cast<double>((latest - due).count()));
  const double progress = static_cast<double>((today - due).count()) / span;
  return weight * std::clamp(0.5 + 0.5 * progress, 0.05, 1.0);
}

/// A sowing presses more and more to its latest day, and less and less after it.
double sowing_urgency(Date due, Date latest, Date today) {
  const double pressing = urgency(kSowWeight, due, latest, today);
  const auto late_days = static_cast<double>((today - latest).count());
  return late_days > 0.0 ? pressing * std::exp2(-late_days / kLateSowingDays) : pressing;
}

double day_count(Days days) { return static_cast<double>(days.count()); }

Message days_of(std::string key, const stand::EventOutlook& event) {
  return {std::move(key), {{"from", event.p10}, {"to", event.p90}}};
}

Message bed_place(const Context& c) {
  const stand::StandPlan& plan = c.state.plan;
  const bed::Bed* bed = bed_of(c.season.garden, plan.bed);
  if (bed == nullptr) return {"named-place", {{"name", plan.bed}}};
  return {"stretch", {{"bed", bed->name}, {"from_m", plan.from_m}, {"to_m", plan.to_m}}};
}

Message raising_place(const Context& c) {
  if (c.state.plan.method == stand::Method::direct_sow) return bed_place(c);
  const bed::Tray* tray = tray_of(c.season.garden, c.state.plan);
  return tray == nullptr ? Message{"a-tray", {}} : Message{"named-place", {{"name", tray->name}}};
}

std::string variety_name(const Context& c) {
  for (const crop::Variety& variety : c.season.garden.varieties) {
    if (variety.id == c.state.plan.variety) return variety.name;
  }
  return {};
}

Task new_task(const Context& c, std::string kind, double weight, Date due, Date latest) {
  Task task;
  task.kind = std::move(kind);
  task.stand = c.state.plan.id;
  task.crop = c.state.plan.crop;
  task.crop_name = c.crop.name;
  task.variety = variety_name(c);
  task.place_said = {bed_place(c)};
  task.due = due;
  task.latest = std::max(due, latest);
  task.urgency = urgency(weight, task.due, task.latest, c.season.today);
  return task;
}

Message harvest_said(const Context& c) {
  const stand::EventOutlook* first = expected_event(c.outlook, "first-pick");
  if (first == nullptr) return {"no-harvest", {}};
  if (const auto ready = ready_by_itself(c.season, index_of(c))) {
    return {"picked-from",
            {{"day", first->p50},
             {"from", ready->p10},
             {"to", ready->p90},
             {"success_share", c.outlook.success}}};
  }
  Message said = days_of("first-pick", *first);
  said.values.emplace_back("success_share", c.outlook.success);
  return said;
}

/// In one place or cell; of tubers and cloves one, whatever an older plan says.
double seeds_each(const Context& c) {
  return c.crop.seed.planting_piece ? 1.0 : c.state.plan.seeds_per_cell;
}

int seeds_in_all(const Context& c) {
  const stand::StandPlan& plan = c.state.plan;
  const int places = stand::places_of(plan);
  return static_cast<int>(std::lround(places * seeds_each(c)));
}

Message sowing_amount(const Context& c) {
  const stand::StandPlan& plan = c.state.plan;
  const int places = stand::places_of(plan);
  if (set_in_cells(c.crop, plan)) return {"plant-cells", {{"cells", 1.0 * places}}};
  if (c.crop.seed.planting_piece) {
    return {"plant-places",
            {{"places", 1.0 * places},
             {"spacing_mm", plan.spacing_mm},
             {"depth_mm", c.crop.germination.depth_mm.value}}};
  }
  Message amount;
  if (plan.method == stand::Method::start_indoors) {
    amount = {"sow-cells", {{"cells", 1.0 * places}}};
  } else {
    amount = {"sow-places", {{"places", 1.0 * places}, {"spacing_mm", plan.spacing_mm}}};
  }
  amount.values.emplace_back("seeds", seeds_each(c));
  amount.values.emplace_back("depth_mm", c.crop.germination.depth_mm);
  return amount;
}

/// How a sowing, or a buying of plants, presses. One that brings nothing or was missed goes to the end of the
/// list and says so.
void judge_beginning(const Context& c, Task& task) {
  if (!(c.outlook.success > 0.0)) task.reason_said = {{"no-harvest", {}}};
  task.urgency = sowing_urgency(task.due, task.latest, c.season.today);
  if (c.outlook.success < kHopeless) task.urgency = kMissedUrgency;
  if (sowing_missed(c.state.plan, c.state.facts, c.season.today)) {
    task.reason_said = {{"missed", {{"days", day_count(c.season.today - task.latest)}}}};
    task.urgency = kMissedUrgency;
  }
}

/// The ground that it needs is another's by then.
void say_place_taken(const Context& c, Task& task) {
  const auto holder = place_holder(c.season, c.state.plan.id);
  if (!holder) return;
  const stand::StandPlan& plan = c.season.state.stands[holder->stand].plan;
  task.reason_said.insert(task.reason_said.begin(), {"place-taken",
                                                     {{"stand", plan.id},
                                                      {"crop", plan.crop},
                                                      {"crop_name", c.season.library->name_of(plan.crop)},
                                                      {"until", std::max(holder->until, c.season.today)}}});
}

Task sow_task(const Context& c) {
  const stand::StandPlan& plan = c.state.plan;
  Task task = new_task(c, "sow", kSowWeight, plan.sow, plan.sow + kSowingStep);
  task.place_said = {raising_place(c)};
  const bool indoors = plan.method == stand::Method::start_indoors;
  task.amount_said = {sowing_amount(c)};
  if (const stand::EventOutlook* emerge = expected_event(c.outlook, "emerge")) {
    task.reason_said.push_back(days_of("half-up", *emerge));
  }
  task.reason_said.push_back(harvest_said(c));
  const bed::Tray* tray = tray_of(c.season.garden, c.state.plan);
  if (indoors && tray != nullptr && tray->place == bed::TrayPlace::heat_mat) {
    task.caution_said = {{"heat-near-water", {}}};
  } else if (indoors) {
    // Cautions of the nursery are about raising and setting out.
    task.caution = c.crop.nursery.caution;
  }
  judge_beginning(c, task);
  task.reason_said.insert(task.reason_said.begin(), c.doubtful_seed.begin(), c.doubtful_seed.end());
  task.log_event = "sown";
  task.log_count = seeds_in_all(c);
  return task;
}

/// Plants to buy and set out: one deed in the place of sowing and raising.
Task buy_task(const Context& c) {
  const stand::StandPlan& plan = c.state.plan;
  const Date due = stand::begins_on(plan);
  Task task = new_task(c, "set-out", kSowWeight, due, due + kSowingStep);
  const double plants = std::round(stand::planned_plants(plan));
  task.amount_said = {{"buy-plants", {{"count", plants}, {"spacing_mm", plan.spacing_mm}}}};
  task.reason_said = {harvest_said(c)};
  const double hardening_days = std::round(c.crop.nursery.hardening_days);
  if (hardening_days > 0.0) task.reason_said.push_back({"harden-bought", {{"days", hardening_days}}});
  task.caution = c.crop.nursery.caution;
  judge_beginning(c, task);
  task.log_event = "set-out";
  task.log_text = "bought";
  task.log_count = plants;
  return task;
}

/// Nothing came: sow it again while that still brings something, else give the place away.
Task failed_sowing_task(const Context& c, const Awaited& sowing) {
  const bool worth_it = sowing.again && sowing.again->by;
  const Date due = std::max(*c.state.counted_on, sowing.half_by);
  Task task = worth_it ? new_task(c, "re-sow", kReSowWeight, due, *sowing.again->by)
                       : new_task(c, "finish", kFinishWeight, due, due + kSowingStep);
  task.place_said = {raising_place(c)};
  task.amount_said = {worth_it ? sowing_amount(c) : Message{"clear", {}}};
  task.reason_said = awaited_said(sowing);
  task.reason_said.front() = {"none-came", {{"day", *c.state.counted_on}}};
  // Without an amount a discarding ends the stand.
  task.log_event = worth_it ? "sown" : "discarded";
  if (worth_it) task.log_count = sowing.seeds_again;
  return task;
}

/// Seedlings by place sown, with their chances, at the crop's usual germination.
std::vector<double> seedling_chances(const Context& c) {
  const int seeds = std::max(1, static_cast<int>(std::lround(seeds_each(c))));
  return crop::seedlings_per_cell(c.crop.seed, seeds, c.crop.seed.germination_pct);
}

double expected_seedlings(const Context& c) {
  const std::vector<double> chance = seedling_chances(c);
  double expected = 0.0;
  for (std::size_t n = 0; n < chance.size(); ++n) expected += static_cast<double>(n) * chance[n];
  return expected;
}

/// What a count is likely to come to: in place all that come up, so that they can be thinned; of a cell no
/// more than the plan keeps there, and never more than it wants.
double likely_count(const Context& c) {
  const stand::StandPlan& plan = c.state.plan;
  if (plan.method == stand::Method::direct_sow && !c.crop.seed.planting_piece)
    return std::round(stand::places_of(plan) * expected_seedlings(c));
  const std::vector<double> chance = seedling_chances(c);
  double a_place = 0.0;
  for (std::size_t n = 0; n < chance.size(); ++n)
    a_place += std::min(static_cast<double>(n), std::max(1.0, plan.plants_per_clump)) * chance[n];
  const int places = stand::places_of(plan);
  return std::round(std::min(places * a_place, stand::planned_plants(plan)));
}

/// Is it up? Most likely so once it is overdue: nobody has written down what showed.
Task look_task(const Context& c, const Awaited& sowing) {
  const bool overdue = sowing.state == WaitState::overdue;
  const bool worth_it = sowing.again && sowing.again->by;
  const double weight = overdue && worth_it ? kLookOverdueWeight : kCheckWeight;
  const Date latest = worth_it ? *sowing.again->by : sowing.half_by + kSowingStep;
  Task task = new_task(c, "check-emergence", weight, overdue ? sowing.half_by : sowing.p50.value_or(sowing.half_by),
                       overdue ? latest : sowing.half_by + kSowingStep);
  task.place_said = {raising_place(c)};
  const bool pieces = c.crop.seed.planting_piece;
  task.amount_said = {!overdue ? Message{pieces ? "look-for-shoots" : "look-and-count", {}}
                      : !worth_it ? Message{"look-or-leave", {}}
                      : pieces    ? Message{"look-or-plant", {{"pieces", 1.0 * sowing.seeds_again}}}
                                  : Message{"look-or-sow", {{"seeds", 1.0 * sowing.seeds_again}}}};
  task.reason_said = awaited_said(sowing);
  const bed::Tray* tray = tray_of(c.season.garden, c.state.plan);
  if (tray != nullptr && stand::leaves_mat_once_up(*tray)) task.reason_said.push_back({"off-the-mat", {}});
  task.log_event = "counted";
  task.log_count = likely_count(c);
  if (overdue && worth_it) task.again_count = sowing.seeds_again;
  return task;
}

void add_emergence_task(const Context& c, std::vector<Task>& tasks) {
  const auto found = awaited(c.season, index_of(c));
  if (!found || !*found) return;
  const Awaited& sowing = **found;
  if (sowing.state == WaitState::waiting && (!sowing.p10 || c.season.today < *sowing.p10)) return;
  const bool failed = sowing_failed(c.season, c.state);
  tasks.push_back(failed ? failed_sowing_task(c, sowing) : look_task(c, sowing));
}

/// Seedlings of which nothing comes any more: overgrown in the tray, or too late for the season.
Task hopeless_tray_task(const Context& c, const stand::EventOutlook& event) {
  Task task = new_task(c, "finish", kFinishWeight, std::max(event.p50, c.season.today), event.p90 + kSowingStep);
  task.place_said = {raising_place(c)};
  task.amount_said = {{"compost-or-try", {}}};
  task.reason_said = tray_too_late_said(c.season, index_of(c));
  task.log_event = "discarded";  // without an amount: the stand is over
  return task;
}

/// A stand alone, with its outlook had its work been done when it was due: what nobody wrote down does not
/// wait for today.
base::Result<Season> seen_when_due(const Context& c) {
  book::StandState then = c.state;
  then.facts.log_to.reset();
  return with_state_tried(c.season, std::move(then));
}

/// When a stand was to be set out, where it is due and was not: of today's outlook that day is always today.
stand::EventOutlook set_out_when_due(const Context& c, const stand::EventOutlook& by_now) {
  if (by_now.p50 > c.season.today) return by_now;
  return c.season.remember<stand::EventOutlook>(index_of(c), "set-out-when-due", [&] {
    const auto then = seen_when_due(c);
    const stand::EventOutlook* event = then ? expected_event(then->outlooks.front(), "set-out") : nullptr;
    return event == nullptr ? by_now : *event;
  });
}

void add_setting_out_tasks(const Context& c, std::vector<Task>& tasks) {
  const stand::EventOutlook* by_now = expected_event(c.outlook, "set-out");
  if (by_now == nullptr) return;
  if (!tray_too_late_said(c.season, index_of(c)).empty()) {
    tasks.push_back(hopeless_tray_task(c, *by_now));
    return;
  }
  const stand::EventOutlook event = set_out_when_due(c, *by_now);
  const Date due = c.state.plan.set_out.value_or(event.p50);
  const Days hardening{static_cast<int>(std::lround(c.crop.nursery.hardening_days))};
  if (c.season.today < due) {
    Task task = new_task(c, "harden-off", kHardenWeight, due - hardening, due);
    task.place_said = {raising_place(c)};
    task.amount_said = {{"harden", {{"days", day_count(hardening)}}}};
    task.reason_said = {{"to-set-out", {{"day", due}}}};
    tasks.push_back(std::move(task));
  }
  Task task = new_task(c, "set-out", kSetOutWeight, due, event.p90 + kSowingStep);
  task.amount_said = {{stand::several_to_a_clump(c.state.plan) ? "set-clumps" : "set-plants",
                       {{"count", 1.0 * c.state.plan.clumps}, {"spacing_mm", c.state.plan.spacing_mm}}}};
  task.reason_said = {days_of("fit-to-set-out", event), harvest_said(c)};
  task.log_event = "set-out";
  task.log_count = c.state.plan.clumps;
  say_place_taken(c, task);
  tasks.push_back(std::move(task));
}

void add_thinning_task(const Context& c, std::vector<Task>& tasks) {
  constexpr double kWorthThinning = 1.25;
  const stand::StandPlan& plan = c.state.plan;
  // What was thinned before a count left those that were counted.
  const auto since_count = [](const stand::PlantsTaken& taken) { return !taken.before_count; };
  const auto& taken = c.state.facts.taken;
  if (plan.method != stand::Method::direct_sow || std::any_of(taken.begin(), taken.end(), since_count))
    return;
  const stand::EventOutlook* emerge = expected_event(c.outlook, "emerge");
  // A piece is one plant, however many shoots it sends up.
  if (emerge == nullptr || c.crop.seed.planting_piece) return;
  const double standing = c.state.facts.counted_plants ? *c.state.facts.counted_plants / std::max(1.0, 1.0 * plan.clumps)
                                                       : expected_seedlings(c);
  if (standing < plan.plants_per_clump * kWorthThinning) return;
  const Date up = emerge->p50;
  Task task = new_task(c, "thin", kThinWeight, up + kThinAfterEmergence, up + kThinAfterEmergence + kThinWithin);
  task.amount_said = {{"leave", {{"plants", std::max(1.0, plan.plants_per_clump)}, {"spacing_mm", plan.spacing_mm}}}};
  task.reason_said = {{"crowded", {{"seedlings", standing}}}};
  task.log_event = "thinned";
  task.log_count = std::round((standing - plan.plants_per_clump) * plan.clumps);
  tasks.push_back(std::move(task));
}

/// An occasional picking brings nothing in most years: then it is said how often there is something, and how much.
void say_amount_to_pick(Task& task, const base::Quantiles& grams, std::vector<double> weights_g) {
  constexpr double kLeastWorthPicking_g = 1.0;
  task.amount_said = {{"pick-ready", {}}};
  if (grams.p50 >= kLeastWorthPicking_g) {
    task.log_grams = grams.p50;
    task.amount_said = {{"pick-about", {{"middle_g", grams.p50}, {"low_g", grams.p10}, {"high_g", grams.p90}}}};
    return;
  }
  const auto years = static_cast<double>(weights_g.size());
  std::erase_if(weights_g, [](double weight_g) { return weight_g < kLeastWorthPicking_g; });
  if (weights_g.empty()) return;
  const double share = static_cast<double>(weights_g.size()) / years;
  const base::Quantiles some = base::quantiles(std::move(weights_g));
  task.log_grams = some.p50;
  task.amount_said = {
      {"pick-perhaps", {{"chance_share", share}, {"middle_g", some.p50}, {"high_g", some.p90}}}};
}

/// What is pulled once goes by the judgement, so that the worklist and the stand's own page say the same.
void say_what_to_pull(Task& task, const stand::Judgement& judgement) {
  if (judgement.advice == "pull" || judgement.takes_all) {
    task.log_grams = judgement.options.front().usable_g;
    task.amount_said = {{"pull-all", {{"weight_g", task.log_grams}}}};
  } else if (judgement.advice == "pull the largest" && judgement.plants_for_kitchen > 0) {
    task.log_count = judgement.plants_for_kitchen;
    task.log_grams = task.log_count * judgement.clump.front().weight_g.p50;
    task.amount_said = {{"pull-largest", {{"plants", task.log_count}, {"weight_g", task.log_grams}}}};
  } else if (judgement.advice == "pull the largest" && judgement.clump.size() < 2) {
    // None may be large yet of what outgrows the plan: then one of the heaviest.
    const stand::WaitOption& today = judgement.options.front();
    const bool any_large = today.large_plants.p50 >= 0.5;
    task.log_count = any_large ? std::round(today.large_plants.p50) : 1.0;
    task.log_grams = any_large ? today.large_g.p50 : today.plant_g.p90;
    task.amount_said = {{"pull-largest", {{"plants", task.log_count}, {"weight_g", task.log_grams}}}};
  } else if (judgement.advice == "pull the largest") {
    task.log_grams = judgement.pull_largest_now_g;
    task.amount_said = {{"pull-largest-each", {{"weight_g", task.log_grams}}}};
  } else if (judgement.advice == "wait") {
    const auto best = static_cast<std::size_t>(std::max(1, judgement.best_weeks));
    const stand::WaitOption& later = judgement.options[best];
    task.log_grams = judgement.options.front().usable_g;
    task.amount_said = {
        {"may-wait",
         {{"weight_g", task.log_grams}, {"weeks", 1.0 * later.weeks}, {"gain_g", later.mean_gain_g}}}};
  }
}

/// A stand of few large plants gives one now and then, not a part of one every week.
void say_one_of_few(Task& task, const Context& c) {
  const double plant_g = c.judgement->options.front().plant_g.p50;
  const auto weeks =
      stand::weeks_to_each_plant({.week_g = left_of_week_g(c.season, index_of(c), c.season.today)}, plant_g);
  if (!weeks || c.crop.harvest.style != crop::HarvestStyle::once) return;
  task.log_count = 1.0;
  task.log_grams = plant_g;
  task.amount_said = {{"pull-one-of-few", {{"weight_g", plant_g}, {"weeks", 1.0 * *weeks}}}};
}

/// What is taken whole, and where it goes.
void say_where_to(Task& task, const Context& c) {
  const WhereTo& where = *c.judged->where_to;
  task.log_grams = c.judgement->options.front().usable_g;
  task.amount_said = {{where.freezes ? "take-and-freeze"
                       : where.keeps ? "lift-and-store"
                                     : "take-or-cover",
                       {{"weight_g", task.log_grams}}}};
  if (!where.freezes) {
    task.amount_said.front().values.emplace_back("place", std::string(book::store_place_text(where.place)));
    task.amount_said.front().values.emplace_back("until", where.until);
  }
  if (where.keeps) task.log_store = book::store_place_text(where.place);
  task.handling = c.judged->handling;
  if (!c.judgement->before_frost) return;
  task.reason_said.push_back({"frost-by-then",
                              {{"lost_years", 1.0 * c.judgement->frost_years},
                               {"years", 1.0 * c.judgement->years_alive},
                               {"weeks", 1.0 * stand::kWeeksJudged}}});
  task.urgency = std::max(task.urgency, kProtectWeight * kProtectLeast);
}

/// What is to be taken, by the judgement where there is one.
void say_what_to_take(Task& task, const Context& c) {
  say_amount_to_pick(task, left_of_week_g(c.season, index_of(c), c.season.today),
                     taken_in_week_g(c.season, index_of(c), c.season.today));
  if (c.judgement == nullptr) return;
  if (c.judged->where_to) {
    say_where_to(task, c);
  } else if (c.judgement->as_planned) {
    say_one_of_few(task, c);
  } else {
    say_what_to_pull(task, *c.judgement);
  }
}

/// Why something is taken or may be.
void say_why_picked(Task& task, const Context& c) {
  const Date today = c.season.today;
  const stand::EventOutlook* last = expected_event(c.outlook, "last-pick");
  if (is_ready(c.outlook, today)) {
    task.reason_said.push_back({"ready", {{"chance_share", ready_chance(c.outlook, today)}}});
  } else if (last != nullptr && today > last->p50) {
    task.reason_said.push_back({"past", {{"day", last->p50}}});
  }
  const double short_g = c.judged == nullptr ? 0.0 : c.judged->needs.kitchen_short_g;
  if (short_g > 0.0) task.reason_said.push_back({"kitchen-short", {{"short_g", short_g}}});
  if (!task.reason_said.empty()) return;
  const bool others_grow = c.judgement != nullptr && c.judgement->advice == "pull the largest";
  task.reason_said.push_back({others_grow ? "others-grow-on" : "waiting-adds-little", {}});
}

/// Its next picking takes all that stands there.
bool leaves_whole(const Context& c) {
  return c.judgement != nullptr && (c.judgement->advice == "pull" || c.judgement->takes_all);
}

/// The entry says that nothing is left, else the log would have the stand go on: what a scale shows is never
/// quite what was expected.
void log_as_whole(Task& task, const Context& c) {
  task.log_text = book::kAllWord;
  if (book::picks_plants(c.crop.harvest)) task.log_count = stand::plants_left(c.state.plan, c.state.facts);
}

/// To be taken today, or after the wait that the judgement advises.
Task picking_task(const Context& c, bool may_wait) {
  const stand::EventOutlook* last = expected_event(c.outlook, "last-pick");
  const Days interval{std::max(1, static_cast<int>(std::lround(c.crop.harvest.pick_interval_days)))};
  const Date due = c.season.today + Days{may_wait ? 7 * std::max(1, c.judgement->best_weeks) : 0};
  const Date by_interval = due + interval + Days{7};
  Task task = new_task(c, "pick", may_wait ? kMayWaitWeight : kPickWeight, due,
                       last == nullptr ? by_interval : std::min(last->p50, by_interval));
  say_what_to_take(task, c);
  say_why_picked(task, c);
  task.caution = c.crop.limits.caution;
  task.log_event = "picked";
  if (leaves_whole(c)) log_as_whole(task, c);
  return task;
}

/// The whole place is cleared: nothing is picked there any more.
Task clearing_task(const Context& c, Date since, Message reason) {
  Task task = new_task(c, "finish", kFinishWeight, since, since + Days{14});
  task.amount_said = {{"clear", {}}};
  task.reason_said = {std::move(reason)};
  task.log_event = "discarded";  // without an amount: the stand is over
  return task;
}

/// One order for one stand, and that of its judgement: what can still be picked is not cleared at once. Fruit
/// that is waited for, and leaf, is told when it is there; of what stands ready it is told what a wait
/// brings.
void add_picking_tasks(const Context& c, std::vector<Task>& tasks) {
  const Date today = c.season.today;
  const bool ready = is_ready(c.outlook, today);
  const Picking picking = c.judgement != nullptr ? picking_of(*c.judgement)
                          : ready                ? Picking::now
                                                 : Picking::none;
  if (picking == Picking::now) tasks.push_back(picking_task(c, false));
  if (picking == Picking::later && ready && !c.judgement->rhythm) tasks.push_back(picking_task(c, true));
  const stand::EventOutlook* last = expected_event(c.outlook, "last-pick");
  if (picking == Picking::none && last != nullptr && today > last->p90)
    tasks.push_back(clearing_task(c, last->p90, {"past", {{"day", last->p90}}}));
}

/// Share of the weather years with a night below `kill_c` from a day on to another, which is not included.
double cold_chance(const climate::WeatherEnsemble& weather, Date from, Date until,
                   const std::function<double(std::size_t at)>& kill_c) {
  if (from < weather.first || until <= from) return 0.0;
  const auto begin = static_cast<std::size_t>((from - weather.first).count());
  const std::size_t end =
      std::min(weather.day_count, static_cast<std::size_t>((until - weather.first).count()));
  std::size_t hits = 0;
  for (std::size_t m = 0; m < weather.member_count; ++m) {
    for (std::size_t d = begin; d < end; ++d) {
      if (weather.tmin_c[weather.at(m, d)] <= kill_c(weather.at(m, d))) {
        ++hits;
        break;
      }
    }
  }
  return static_cast<double>(hits) / static_cast<double>(std::max<std::size_t>(1, weather.member_count));
}

/// The picking by which all of the stand leaves the bed now, or is covered; null where it stays.
Task* whole_picking(const Context& c, std::vector<Task>& tasks, std::size_t first_of_stand) {
  const auto found = std::find_if(tasks.begin() + static_cast<std::ptrdiff_t>(first_of_stand), tasks.end(),
                                  [](const Task& task) { return task.kind == "pick"; });
  return leaves_whole(c) && found != tasks.end() ? &*found : nullptr;
}

/// The day from which a cover serves it: until it is up in most of the years, the ground is its cover.
/// Nothing where it is not to come up at all.
std::optional<Date> to_be_covered_from(const Context& c) {
  if (stand_stage(c.state.facts) != StandStage::sown) return c.season.today;
  const stand::EventOutlook* up = expected_event(c.outlook, "emerge");
  const bool mostly_up = up != nullptr && up->probability >= 0.5;
  return mostly_up ? std::optional(std::max(c.season.today, up->p50)) : std::nullopt;
}

/// What kills half of it in a night of the weather, as old as it is today and as hardened as the days before
/// that night leave it.
std::function<double(std::size_t at)> half_killed_by_night(const Context& c) {
  const crop::Limits limits = c.crop.limits;
  const auto day = (c.season.today - c.season.weather.first).count();
  const double grown = stand::is_grown(c.outlook, day) ? 1.0 : 0.0;
  return [limits, grown, felt = c.season.felt_weather](std::size_t at) {
    return stand::half_killed_c(limits, grown, felt->hardening()[at]);
  };
}

/// The same of the night of today, mean of the years.
double half_killed_today_c(const Context& c, const std::function<double(std::size_t at)>& by_night) {
  const auto& weather = c.season.weather;
  const auto day = static_cast<std::size_t>((c.season.today - weather.first).count());
  double sum_c = 0.0;
  for (std::size_t m = 0; m < weather.member_count; ++m) sum_c += by_night(weather.at(m, day));
  return sum_c / static_cast<double>(weather.member_count);
}

/// What leaves the bed today needs no cover: there the cold is a reason to do it.
void add_protection_task(const Context& c, int horizon_days, Task* picked_whole, std::vector<Task>& tasks) {
  const auto kill_c = half_killed_by_night(c);
  const auto from = to_be_covered_from(c);
  const Date until = c.season.today + Days{horizon_days};
  const double chance = from ? cold_chance(c.season.weather, *from, until, kill_c) : 0.0;
  if (chance < kProtectChance) return;
  const Message reason{
      "killing-night",
      {{"night_c", half_killed_today_c(c, kill_c)}, {"days", 1.0 * horizon_days}, {"chance_share", chance}}};
  const double weight = kProtectWeight * (kProtectLeast + (1.0 - kProtectLeast) * chance);
  if (picked_whole != nullptr) {
    picked_whole->reason_said.push_back(reason);
    picked_whole->urgency = std::max(picked_whole->urgency, weight);
    return;
  }
  Task task = new_task(c, "protect", weight, c.season.today, c.season.today);
  task.urgency = weight;
  task.amount_said = {{"cover", {}}};
  task.reason_said = {reason};
  tasks.push_back(std::move(task));
}

/// A stand that a night has likely killed: somebody should look, and nothing of it is tended.
Task dead_task(const Context& c, const KillingNight& night) {
  Task task = new_task(c, "look", kDeadWeight, night.day, night.day + kSowingStep);
  const Replacement replacement = replacement_of(c.season, index_of(c));
  task.amount_said = {look_if_dead_said(replacement)};
  task.reason_said = over_said(c.season, index_of(c), c.season.today);
  for (Message& said : replacement_said(replacement)) task.reason_said.push_back(std::move(said));
  task.log_event = "discarded";
  return task;
}

/// Nothing was left of it by a count: sow or buy it again while that brings something, else give the place
/// away.
void add_replacing_task(const Context& c, std::vector<Task>& tasks) {
  const Date counted = *c.state.counted_on;
  if (counted + kStillWork < c.season.today) return;
  const Replacement replacement = replacement_of(c.season, index_of(c));
  const bool sown = replacement.may_be_sown();
  const bool bought = !sown && replacement.may_be_bought();
  Task task = sown     ? new_task(c, "re-sow", kReSowWeight, counted, *replacement.sown->by)
              : bought ? new_task(c, "set-out", kReSowWeight, counted, *replacement.bought->by)
                       : new_task(c, "finish", kFinishWeight, counted, counted + kSowingStep);
  if (sown) task.place_said = {raising_place(c)};
  const double plants = std::round(stand::planned_plants(c.state.plan));
  task.amount_said = {
      sown     ? sowing_amount(c)
      : bought ? Message{"buy-plants", {{"count", plants}, {"spacing_mm", c.state.plan.spacing_mm}}}
               : Message{"give-place", {}}};
  task.reason_said = {{"none-left", {{"day", counted}}}};
  for (Message& said : replacement_said(replacement)) task.reason_said.push_back(std::move(said));
  // Without an amount a discarding gives the place up.
  task.log_event = sown ? "sown" : bought ? "set-out" : "discarded";
  if (sown) task.log_count = seeds_in_all(c);
  if (bought) task.log_count = plants;
  if (bought) task.log_text = "bought";
  tasks.push_back(std::move(task));
}

/// What leaves the bed today, or is over, is not thinned before.
void drop_thinning(const Context& c, std::vector<Task>& tasks) {
  std::erase_if(tasks,
                [&](const Task& task) { return task.kind == "thin" && task.stand == c.state.plan.id; });
}

/// Looking after what is over; otherwise picking, and protection of what stays.
void add_tasks_in_bed(const Context& c, int horizon_days, std::vector<Task>& tasks) {
  const std::size_t first = tasks.size();
  if (const auto night = likely_killed(c.season, index_of(c), c.season.today)) {
    tasks.push_back(dead_task(c, *night));
    return;
  }
  if (const auto since = past_eating_since(c.season, index_of(c), c.season.today)) {
    tasks.push_back(clearing_task(c, *since, {"past-eating", {{"day", *since}}}));
    tasks.back().amount_said = {{"look-and-clear", {}}};
    return;
  }
  add_picking_tasks(c, tasks);
  const bool cleared = tasks.size() > first && tasks.back().kind == "finish";
  Task* whole = whole_picking(c, tasks, first);
  if (!cleared) add_protection_task(c, horizon_days, whole, tasks);
  if (cleared || whole != nullptr) drop_thinning(c, tasks);
}

void add_tasks_of_sown(const Context& c, int horizon_days, std::vector<Task>& tasks) {
  const Date today = c.season.today;
  const auto before = static_cast<std::ptrdiff_t>(tasks.size());
  const bool indoors = c.state.plan.method == stand::Method::start_indoors;
  if (indoors) {
    add_setting_out_tasks(c, tasks);
  } else {
    add_tasks_in_bed(c, horizon_days, tasks);
  }
  // What is ripe, or to be hardened off or set out by now, is looked at anyway.
  const bool picked =
      std::any_of(tasks.begin() + before, tasks.end(), [](const Task& task) { return task.kind == "pick"; });
  const bool ripe = picked || (!indoors && (is_ready(c.outlook, today) || is_past(c.outlook, today)));
  const bool over = !indoors && !over_said(c.season, index_of(c), today).empty();
  const bool looked_at = ripe || over || std::any_of(tasks.begin() + before, tasks.end(), [today](const Task& task) {
                           return task.kind != "protect" && task.due <= today;
                         });
  if (!looked_at) add_emergence_task(c, tasks);
}

void add_stand_tasks(const Context& c, int horizon_days, std::vector<Task>& tasks) {
  const bool indoors = c.state.plan.method == stand::Method::start_indoors;
  switch (stand_stage(c.state.facts)) {
    case StandStage::planned:
      if (stand::begins_on(c.state.plan) + kForgotten < c.season.today ||
          stand::begins_on(c.state.plan) > c.season.today + Days{horizon_days})
        break;
      tasks.push_back(to_be_bought(c.state.plan, c.state.facts) ? buy_task(c) : sow_task(c));
      say_place_taken(c, tasks.back());
      break;
    case StandStage::sown:
      add_tasks_of_sown(c, horizon_days, tasks);
      break;
    case StandStage::up:
      if (indoors) {
        add_setting_out_tasks(c, tasks);
        break;
      }
      if (over_said(c.season, index_of(c), c.season.today).empty()) add_thinning_task(c, tasks);
      [[fallthrough]];
    case StandStage::growing:
      add_tasks_in_bed(c, horizon_days, tasks);
      break;
    case StandStage::finished:
      if (c.state.none_left) add_replacing_task(c, tasks);
      break;
  }
}

/// Whether so little of a lot is good that it is thrown away; of a crop that the library does not know nobody
/// knows.
bool is_spoilt(const Season& season, const keep::Lot& lot) {
  const auto crop = season.library->find(lot.crop);
  const auto days = static_cast<double>((season.today - lot.stored).count());
  return crop && keep::good_share(**crop, lot.place, days) < kSpoiltShare;
}

/// A lot in store to be thrown away where it was to be eaten.
void throw_away(Task& task, double grams) {
  task.kind = "throw-away";
  task.amount_said = {{"weight", {{"weight_g", grams}}}};
  task.urgency = kSpoiltUrgency;
  task.log_event = "discarded";
}

void add_eating_tasks(const Season& season, std::vector<Task>& tasks) {
  for (const keep::LotAdvice& advice : keep::eat_first(season.state.store, *season.library)) {
    Task task;
    task.kind = "eat";
    task.crop = advice.lot.crop;
    const auto crop = season.library->find(advice.lot.crop);
    task.crop_name = crop ? (*crop)->name : advice.lot.crop;
    task.target = advice.lot.id;
    task.place_said = {{"store", {{"place", std::string(book::store_place_text(advice.lot.place))}}}};
    const bool past = advice.eat_by < season.today;
    task.amount_said = {{past ? "look-over" : "weight", {{"weight_g", advice.lot.grams}}}};
    task.reason_said = {
        {past ? "kept-until" : "in-store", {{"since", advice.lot.stored}, {"until", advice.eat_by}}}};
    task.due = advice.eat_by - Days{3};
    task.latest = advice.eat_by;
    task.urgency = urgency(kEatWeight, task.due, task.latest, season.today);
    task.log_event = "eaten";
    task.log_grams = advice.lot.grams;
    if (is_spoilt(season, advice.lot)) throw_away(task, advice.lot.grams);
    tasks.push_back(std::move(task));
  }
}

/// The judgements of the stands that can be picked in a bed, in the order of the season's stands.
std::vector<std::optional<JudgedStand>> judged_stands(const Season& season) {
  std::vector<std::optional<JudgedStand>> judged(season.state.stands.size());
  base::parallel_for(judged.size(), [&](std::size_t i) {
    const book::StandState& state = season.state.stands[i];
    const auto crop = crop_of(season, state.plan);
    if (!stands_in_bed(state.plan, state.facts) || !crop ||
        !may_be_picked(season.outlooks[i], *crop, season.today))
      return;
    if (auto answer = judged_today(season, i)) judged[i] = std::move(*answer);
  });
  return judged;
}

/// What is doubtful about the seed of stands still to be sown, by stand.
std::map<std::string, std::vector<Message>> doubts_of_seed(const Season& season) {
  std::map<std::string, std::vector<Message>> doubts;
  const auto box = seed_box(season);
  if (!box) return doubts;  // a season that was made has a box; without one nothing is known
  for (const SeedNeed& need : box->needs) {
    for (const StandSeed& stand : need.stands) doubts[stand.stand] = stand.doubt;
  }
  return doubts;
}

/// The phrases of a task in English.
void put_in_words(Task& task, Units units, Date today) {
  task.place = messages_text(task.place_said, units, today);
  task.amount = messages_text(task.amount_said, units, today);
  task.reason = messages_text(task.reason_said, units, today);
  if (!task.caution_said.empty()) task.caution = messages_text(task.caution_said, units, today);
}

}  // namespace

std::vector<Task> worklist(const Season& season, int horizon_days) {
  const Units units = units_of(season.garden.units);
  std::vector<Task> tasks;
  const std::vector<std::optional<JudgedStand>> judged = judged_stands(season);
  const auto doubts = doubts_of_seed(season);
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const auto crop = crop_of(season, season.state.stands[i].plan);
    if (!crop) continue;  // the season tells why it has no outlook
    Context context{season, season.state.stands[i], season.outlooks[i], *crop};
    if (judged[i]) {
      context.judged = &*judged[i];
      context.judgement = &judged[i]->judgement;
    }
    const auto doubt = doubts.find(context.state.plan.id);
    if (doubt != doubts.end()) context.doubtful_seed = doubt->second;
    add_stand_tasks(context, horizon_days, tasks);
  }
  add_eating_tasks(season, tasks);
  const Date horizon = season.today + Days{horizon_days};
  std::erase_if(tasks, [horizon](const Task& task) { return task.due > horizon; });
  for (Task& task : tasks) put_in_words(task, units, season.today);
  std::stable_sort(tasks.begin(), tasks.end(),
                   [](const Task& a, const Task& b) { return a.urgency > b.urgency; });
  return tasks;
}

}  // namespace sowtide::desk
