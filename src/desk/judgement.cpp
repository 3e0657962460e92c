#include "desk/judgement.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>
#include <numeric>

#include "base/parallel.hpp"
#include "book/stand_log.hpp"
#include "book/store_place.hpp"
#include "crop/groups.hpp"
#include "crop/organ_size.hpp"
#include "desk/json_number.hpp"
#include "desk/message_json.hpp"
#include "desk/observed_json.hpp"
#include "desk/overdue.hpp"
#include "desk/present.hpp"
#include "desk/print/moments.hpp"
#include "desk/pulling.hpp"
#include "desk/raising.hpp"
#include "desk/stand_end.hpp"
#include "desk/stand_stage.hpp"
#include "desk/supply.hpp"
#include "keep/storage.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;
using stand::SizeClass;

constexpr int kTrialDelayDays = 14;  // the next stand is lived once in time and once so much later
constexpr std::size_t kNextStandClumps = 8;
constexpr int kLookWeeks = 14;
constexpr int kMostClumps = 60;

base::Result<std::size_t> index_of(const Season& season, const std::string& id) {
  const auto& stands = season.state.stands;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    if (stands[i].plan.id == id) return i;
  }
  return base::fail(base::ProblemCode::not_found, fmt::format("there is no stand \"{}\"", id),
                    {.field = "STAND"}, "`sowtide outlook GARDEN` lists the stands");
}

// ---- what the rest of the household brings in

/// Grams of a serving as harvested, refuse included.
double serving_g(const crop::Crop& crop) {
  return plan::grams_per_unit({.unit = plan::WantUnit::servings}, crop);
}

/// Whether it stands in its bed on the day, and no look found that nothing came.
bool is_to_be_judged(const Season& season, std::size_t i, base::Date date) {
  const auto& facts = season.state.stands[i].facts;
  const bool direct = season.state.stands[i].plan.method == stand::Method::direct_sow;
  const auto& began = direct ? facts.sown : facts.set_out;
  const bool begun = (began && *began <= date) || (facts.emerged && direct);
  return begun && !facts.finished && !sowing_failed(season, season.state.stands[i]);
}

/// What could be taken today of a stand that the plan does not ration and that is no fruit or pod, and how
/// ready it is.
struct Ready {
  std::size_t stand = 0;
  double usable_g = 0.0;
  double of_large = 0.0;  ///< a plant's weight as a share of what a large one weighs
};

std::optional<Ready> ready_on(const Season& season, std::size_t i, base::Date date) {
  const book::StandState& state = season.state.stands[i];
  const auto crop = crop_of(season, state.plan);
  if (!crop || crop->harvest.style == crop::HarvestStyle::picked || !is_to_be_judged(season, i, date) ||
      planned_pulling(season, i, date))
    return std::nullopt;
  const double plant_g = stand::plant_on_g(season.outlooks[i], date).p50;
  if (plant_g < crop->harvest.smallest_g) return std::nullopt;
  return Ready{i, stand::plants_left(state.plan, state.facts) * plant_g, plant_g / crop->harvest.large_g};
}

/// What the stands that are readier than this one can give of what a want takes, g: a lack is asked of one
/// stand, and only what it cannot meet of the next.
double met_by_readier_g(const Season& season, std::size_t i, const plan::Want& want, base::Date date) {
  const auto own = ready_on(season, i, date);
  double met_g = 0.0;
  for (std::size_t k = 0; k < season.state.stands.size(); ++k) {
    const stand::StandPlan& other = season.state.stands[k].plan;
    const auto crop = season.library->find(other.crop);
    if (k == i || !crop || !plan::takes(want, **crop, other.variety)) continue;
    const auto ready = ready_on(season, k, date);
    if (!ready) continue;
    const bool before =
        !own || ready->of_large > own->of_large || (ready->of_large == own->of_large && k < i);
    if (before) met_g += ready->usable_g;
  }
  return met_g;
}

/// What was picked as greens of a stand since the Monday of a day's week: how often, and what was weighed of
/// it.
struct GreensPicked {
  int times = 0;
  double grams = 0.0;
};

GreensPicked greens_picked_in_week(const stand::StandFacts& facts, base::Date date) {
  GreensPicked picked;
  for (const stand::PlantsTaken& taken : facts.taken) {
    if (!taken.leaves || taken.date < base::week_start(date) || taken.date > date) continue;
    ++picked.times;
    picked.grams += taken.grams.value_or(0.0);
  }
  return picked;
}

/// Plants whose leaves may be taken as greens: of a root crop whose leaves are eaten too, that stands in its
/// bed and has not given its share this week; else none.
double plants_for_greens(const Season& season, std::size_t i, base::Date date) {
  const book::StandState& state = season.state.stands[i];
  const auto crop = season.library->find(state.plan.crop);
  const bool gives = crop && book::gives_greens((*crop)->harvest) && is_to_be_judged(season, i, date) &&
                     greens_picked_in_week(state.facts, date).times == 0;
  return gives ? stand::plants_left(state.plan, state.facts) : 0.0;
}

/// The one stand of which greens are asked, so that one lack is asked for once: that with the most plants.
bool is_asked_for_greens(const Season& season, std::size_t i, base::Date date) {
  const double own = plants_for_greens(season, i, date);
  bool most = own > 0.0;
  for (std::size_t k = 0; k < season.state.stands.size() && most; ++k) {
    const double other = plants_for_greens(season, k, date);
    most = other < own || (other == own && k >= i);
  }
  return most;
}

/// What the wants for cooking greens lack beyond what was picked as greens this week, g, where it is asked of
/// this stand. A serving of leaf is taken to weigh what one of the root does; pieces of leaf are none.
double greens_short_g(const Season& season, std::size_t i, const crop::Crop& crop,
                      const std::vector<double>& lacking, base::Date date) {
  double short_g = 0.0;
  for (std::size_t w = 0; w < lacking.size(); ++w) {
    const plan::Want& want = season.garden.wants[w];
    if (want.group != crop::kCookingGreens || want.unit == plan::WantUnit::pieces) continue;
    short_g += lacking[w] * (want.unit == plan::WantUnit::servings ? crop.harvest.serving_g.value : 1.0);
  }
  for (const book::StandState& other : season.state.stands)
    short_g -= greens_picked_in_week(other.facts, date).grams;
  return short_g > 0.0 && is_asked_for_greens(season, i, date) ? short_g : 0.0;
}

void add_kitchen(const Season& season, std::size_t i, JudgedStand& judged, base::Date date) {
  const auto crop = season.library->find(judged.plan.crop);
  if (!crop) return;
  const std::vector<double> lacking = lacking_in_week(season, date, judged.plan.id);
  for (std::size_t w = 0; w < lacking.size(); ++w) {
    const plan::Want& want = season.garden.wants[w];
    if (!(lacking[w] > 0.0) || !plan::takes(want, **crop, judged.plan.variety)) continue;
    const double short_g =
        lacking[w] * plan::grams_per_unit(want, **crop) - met_by_readier_g(season, i, want, date);
    if (!(short_g > 0.0)) continue;
    judged.needs.kitchen_short_g += short_g;
    judged.short_wants.push_back(want.id);
  }
  judged.needs.greens_short_g = greens_short_g(season, i, **crop, lacking, date);
}

/// The day a stand that is not in its bed yet needs its ground.
std::optional<base::Date> needs_ground_on(const Season& season, std::size_t i) {
  const auto& state = season.state.stands[i];
  const bool direct = state.plan.method == stand::Method::direct_sow;
  if (state.facts.finished || state.facts.set_out || (direct && (state.facts.sown || state.facts.emerged)))
    return std::nullopt;
  if (direct) return state.plan.sow;
  if (state.plan.set_out) return state.plan.set_out;
  const stand::EventOutlook* set_out = expected_event(season.outlooks[i], "set-out");
  return set_out == nullptr ? std::nullopt : std::optional(set_out->p50);
}

double mean_taken_g(const stand::Outlook& outlook) {
  const std::vector<double>& weekly_g = outlook.members.weekly_g;
  const double sum_g = std::accumulate(weekly_g.begin(), weekly_g.end(), 0.0);
  return sum_g / static_cast<double>(std::max<std::size_t>(1, outlook.members.member_count));
}

/// What the next stand loses for each week that it comes into the ground later, g of its own crop.
double loss_g_per_week(const Season& season, const std::shared_ptr<const stand::SeasonWeather>& weather,
                       const stand::StandPlan& next, const stand::StandFacts& facts, base::Date from) {
  const auto crop = crop_of(season, next);
  if (!crop) return 0.0;
  const stand::CropWeather felt(*crop, weather);
  const stand::SimulationOptions options{.sampled_clumps = kNextStandClumps,
                                         .bed = bed_place(season.garden, next)};
  const auto taken = [&](int delay_days) {
    stand::StandPlan plan = next;
    const base::Date begin = from + base::Days{delay_days};
    if (to_be_bought(plan, facts)) plan.sow += begin - stand::begins_on(plan);  // as old as on any other day
    if (plan.method == stand::Method::direct_sow) {
      plan.sow = begin;
    } else {
      plan.set_out = begin;
    }
    const auto outlook = stand::outlook(felt, plan, facts, raising_of(season.garden, plan), options);
    return outlook ? mean_taken_g(*outlook) : 0.0;
  };
  return std::max(0.0, (taken(0) - taken(kTrialDelayDays)) * 7.0 / kTrialDelayDays);
}

void add_next_stand(const Season& season, const std::shared_ptr<const stand::SeasonWeather>& weather,
                    JudgedStand& judged, base::Date date) {
  const auto& stands = season.state.stands;
  std::optional<std::size_t> next;
  std::optional<base::Date> from;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    const auto& other = stands[i].plan;
    const bool same_ground = other.id != judged.plan.id && !other.bed.empty() &&
                             other.bed == judged.plan.bed && other.from_m < judged.plan.to_m - 1e-6 &&
                             judged.plan.from_m < other.to_m - 1e-6;
    const auto day = same_ground ? needs_ground_on(season, i) : std::nullopt;
    if (!day || *day <= judged.facts.sown.value_or(judged.plan.sow) || (from && *day >= *from)) continue;
    next = i;
    from = day;
  }
  if (!next || *from > date + base::Days{21}) return;
  const auto here = season.library->find(judged.plan.crop);
  const auto there = season.library->find(stands[*next].plan.crop);
  if (!here || !there) return;
  judged.next_stand = stands[*next].plan.id;
  judged.needs.next_from = from;
  const base::Date late_from = std::max(*from, date);
  // Kept with the stand that waits, since its plan and facts make it.
  const double loss_g = season.remember<double>(*next, "loss from " + base::to_iso(late_from), [&] {
    return loss_g_per_week(season, weather, stands[*next].plan, stands[*next].facts, late_from);
  });
  judged.needs.ground_worth_g_per_week = loss_g / serving_g(**there) * serving_g(**here);
}

/// Kept with the stand for the same needs, so that a worklist and a page made again after an entry cost little.
base::Result<stand::Judgement> judgement_of(const Season& season,
                                            const std::shared_ptr<const stand::SeasonWeather>& weather,
                                            std::size_t i, const JudgedStand& judged, base::Date date) {
  const stand::JudgeNeeds& needs = judged.needs;
  const std::string name = fmt::format(
      "judged {} {} {} {} {}", base::to_iso(date), needs.kitchen_short_g, needs.greens_short_g,
      needs.ground_worth_g_per_week, needs.next_from ? base::to_iso(*needs.next_from) : std::string("none"));
  return season.remember<base::Result<stand::Judgement>>(i, name, [&]() -> base::Result<stand::Judgement> {
    const auto crop = crop_of(season, judged.plan);
    if (!crop) return tl::unexpected(crop.error());
    const stand::CropWeather felt(*crop, weather);
    stand::SimulationOptions options;
    options.bed = bed_place(season.garden, judged.plan);
    return stand::judge(felt, judged.plan, judged.facts, raising_of(season.garden, judged.plan), date, needs, options);
  });
}

/// A stand that is over is no food: it is looked at, or cleared.
void judge_over(const Season& season, std::size_t i, base::Date date, stand::Judgement& answer) {
  std::vector<Message> over = over_said(season, i, date);
  if (over.empty()) return;
  const bool killed = over.front().key == "likely-killed";
  answer.advice = killed ? "look" : "clear";
  over.push_back(killed ? look_if_dead_said(replacement_of(season, i)) : Message{"look-and-clear", {}});
  answer.reasons = std::move(over);
  answer.best_weeks = answer.plants_for_kitchen = 0;
  answer.pull_largest_now_g = answer.rest_gain_g = answer.cut_now_g = answer.cut_gain_g = 0.0;
  answer.before_frost = answer.takes_all = answer.as_planned = false;
  answer.marked_weeks.reset();
  answer.rhythm.reset();
  answer.greens.reset();
  answer.clump.clear();
  for (stand::WaitOption& option : answer.options)
    option = {.weeks = option.weeks, .date = option.date, .ground_cost_g = option.ground_cost_g};
}

/// What the log says is over has nothing to judge.
stand::Judgement over_by_log(const book::StandState& state, base::Date date) {
  stand::Judgement answer{.stand = state.plan.id, .date = date, .options = {}, .advice = "over"};
  if (state.over_on) answer.reasons = {{"stand-over", {{"day", *state.over_on}}}};
  return answer;
}

/// What stands in its tray by the log is judged as set out on the first day fit for it; not where nothing
/// comes of it any more.
void judge_in_tray(const Season& season, std::size_t i, stand::Judgement& answer) {
  const book::StandState& state = season.state.stands[i];
  std::vector<Message> too_late = tray_too_late_said(season, i);
  if (!too_late.empty()) {
    too_late.push_back({"compost-or-try", {}});
    answer = {.stand = answer.stand,
              .date = answer.date,
              .options = std::move(answer.options),
              .advice = "clear",
              .reasons = std::move(too_late)};
    return;
  }
  const stand::EventOutlook* set_out = expected_event(season.outlooks[i], "set-out");
  if (stands_in_tray(state.plan, state.facts) && set_out != nullptr)
    answer.reasons.insert(answer.reasons.begin(), Message{"judged-as-set-out", {{"day", set_out->p50}}});
}

bool is_past_its_end(const stand::Judgement& answer) {
  return std::any_of(answer.reasons.begin(), answer.reasons.end(),
                     [](const Message& reason) { return reason.key == "is-past"; });
}

/// Of a stand past its end until when something good may be found in it.
void say_good_until(const Season& season, std::size_t i, stand::Judgement& answer) {
  const auto gone = past_eating_from(season, i);
  if (gone && is_past_its_end(answer)) answer.reasons.push_back({"good-until", {{"day", *gone}}});
}

/// Where what is taken whole goes, and how long it keeps there: before its end, or more of it than the week
/// lacks. What is past its end already is no food for the store.
void say_where_to(const Season& season, const crop::Crop& crop, base::Date date, JudgedStand& judged) {
  const stand::Judgement& answer = judged.judgement;
  const WhereTo where = where_to(crop, season.garden.cool_store, date);
  const bool more_than_lacks = (answer.advice == "pull" || answer.takes_all) && !is_past_its_end(answer) &&
                               answer.options.front().usable_g > judged.needs.kitchen_short_g;
  if (!answer.before_frost && !(more_than_lacks && where.keeps)) return;
  judged.where_to = where;
  if (where.keeps) judged.handling = crop.keeping.handling;
  judged.judgement.reasons.push_back(
      where.freezes
          ? Message{"greens-freeze", {}}
          : Message{where.keeps ? "store-in" : "keeps-short",
                    {{"place", std::string(book::store_place_text(where.place))}, {"until", where.until}}});
}

base::Result<JudgedStand> judge_one(const Season& season,
                                    const std::shared_ptr<const stand::SeasonWeather>& weather, std::size_t i,
                                    base::Date date) {
  JudgedStand judged;
  const book::StandState seen = as_seen(season, season.state.stands[i]);
  judged.plan = seen.plan;
  judged.facts = seen.facts;
  if (judged.facts.finished) {
    judged.judgement = over_by_log(season.state.stands[i], date);
    return judged;
  }
  add_kitchen(season, i, judged, date);
  add_next_stand(season, weather, judged, date);
  judged.needs.pulling = planned_pulling(season, i, date);
  auto answer = judgement_of(season, weather, i, judged, date);
  if (!answer) return tl::unexpected(answer.error());
  judged.judgement = std::move(*answer);
  judge_over(season, i, date, judged.judgement);
  judge_in_tray(season, i, judged.judgement);
  say_good_until(season, i, judged.judgement);
  if (const auto crop = crop_of(season, judged.plan)) say_where_to(season, *crop, date, judged);
  return judged;
}

// ---- JSON

Json number(double value) {
  return json_number(value);
}

Json quantiles(const base::Quantiles& q) {
  return {{"p10", number(q.p10)}, {"p50", number(q.p50)}, {"p90", number(q.p90)}};
}

Json diameter(const crop::Crop& crop, double weight_g) {
  const auto found = weight_g > 0.0 ? crop::diameter_from_weight(crop, weight_g) : std::nullopt;
  return found ? number(*found) : Json(nullptr);
}

Json diameters(const crop::Crop& crop, const base::Quantiles& q) {
  if (!crop::diameter_from_weight(crop, 1.0)) return nullptr;
  const auto of = [&](double grams) { return grams > 0.0 ? diameter(crop, grams) : Json(0.0); };
  return {{"p10", of(q.p10)}, {"p50", of(q.p50)}, {"p90", of(q.p90)}};
}

Json classes(const std::array<double, stand::kSizeClasses>& share) {
  const auto of = [&](SizeClass size) { return number(share[static_cast<std::size_t>(size)]); };
  return {{"too_small", of(SizeClass::too_small)},
          {"small", of(SizeClass::small)},
          {"large", of(SizeClass::large)},
          {"over_size", of(SizeClass::over_size)}};
}

std::string name_of(const Season& season, const std::string& crop) {
  const auto found = season.library->find(crop);
  return found ? (*found)->name : crop;
}

std::vector<std::string> reasons_of(const Season& season, const stand::Judgement& answer) {
  std::vector<std::string> texts;
  for (const Message& reason : answer.reasons)
    texts.push_back(message_text(reason, units_of(season.garden.units), season.today));
  return texts;
}

Json option_json(const crop::Crop& crop, const stand::WaitOption& option) {
  return {{"weeks", option.weeks},
          {"date", base::to_iso(option.date)},
          {"plant_g", quantiles(option.plant_g)},
          {"diameter_mm", diameters(crop, option.plant_g)},
          {"gain_g", quantiles(option.gain_g)},
          {"mean_gain_g", number(option.mean_gain_g)},
          {"usable_g", number(option.usable_g)},
          {"classes", classes(option.class_share)},
          {"large_plants", quantiles(option.large_plants)},
          {"large_g", quantiles(option.large_g)},
          {"loss_risk", number(option.loss_risk)},
          {"loss_cause", option.loss_cause},
          {"ground_cost_g", number(option.ground_cost_g)},
          {"net_g", number(option.net_g)}};
}

Json clump_json(const crop::Crop& crop, const std::vector<stand::ClumpPlant>& clump) {
  Json list = Json::array();
  for (const auto& plant : clump) {
    list.push_back({{"rank", plant.rank},
                    {"weight_g", quantiles(plant.weight_g)},
                    {"diameter_mm", diameters(crop, plant.weight_g)},
                    {"size", stand::size_class_text(plant.size)},
                    {"first", plant.rank == 0 && clump.size() > 1}});
  }
  return list;
}

Json sizes_json(const crop::Harvest& harvest) {
  return {{"smallest_g", number(harvest.smallest_g)},
          {"small_g", number(harvest.small_g)},
          {"large_g", number(harvest.large_g)},
          {"over_size_g", number(harvest.over_size_g)}};
}

/// What a size seen at the bed is held against. Of crops picked over weeks a size is that of a fruit or pod,
/// which says nothing about the plant.
Json observable_json(const crop::Harvest& harvest) {
  return harvest.style == crop::HarvestStyle::picked ? Json(nullptr) : sizes_json(harvest);
}

Json rhythm_json(const std::optional<stand::Rhythm>& rhythm) {
  if (!rhythm) return nullptr;
  return {{"now_g", number(rhythm->now_g)},
          {"next_days", rhythm->next_days ? Json(*rhythm->next_days) : Json(nullptr)},
          {"next_g", quantiles(rhythm->next_g)},
          {"week_costs_g", number(rhythm->week_costs_g)}};
}

Json greens_json(const JudgedStand& judged) {
  const auto& greens = judged.judgement.greens;
  if (!greens) return nullptr;
  return {{"now_g", number(greens->now_g)},
          {"root_cost_g", number(greens->root_cost_g)},
          {"weeks", stand::kWeeksJudged},
          {"short_g", number(judged.needs.greens_short_g)}};
}

Json judged_json(const Season& season, const JudgedStand& judged) {
  const crop::Crop crop = *crop_of(season, judged.plan);
  const auto& answer = judged.judgement;
  Json options = Json::array();
  for (const auto& option : answer.options) options.push_back(option_json(crop, option));
  Json next = nullptr;
  if (!judged.next_stand.empty()) {
    next = {{"stand", judged.next_stand},
            {"from", base::to_iso(*judged.needs.next_from)},
            {"loss_g_per_week", number(judged.needs.ground_worth_g_per_week)}};
  }
  return {{"stand", judged.plan.id},
          {"crop", judged.plan.crop},
          {"crop_name", name_of(season, judged.plan.crop)},
          {"bed", judged.plan.bed},
          {"shape", crop::root_shape_words()[static_cast<std::size_t>(crop.harvest.shape)]},
          {"sizes", observable_json(crop.harvest)},
          {"advice", answer.advice},
          {"best_weeks", answer.best_weeks},
          {"marked_weeks", answer.marked_weeks ? Json(*answer.marked_weeks) : Json(nullptr)},
          {"reasons", reasons_of(season, answer)},
          {"handling", judged.handling},
          {"said", messages_json(answer.reasons)},
          {"options", options},
          {"clump", clump_json(crop, answer.clump)},
          {"pull_largest",
           {{"now_g", number(answer.pull_largest_now_g)}, {"rest_gain_g", number(answer.rest_gain_g)}}},
          {"cut", {{"now_g", number(answer.cut_now_g)}, {"gain_g", number(answer.cut_gain_g)}}},
          {"rhythm", rhythm_json(answer.rhythm)},
          {"kitchen",
           {{"short_g", number(judged.needs.kitchen_short_g)},
            {"wants", judged.short_wants},
            {"plants", answer.plants_for_kitchen}}},
          {"greens", greens_json(judged)},
          {"next", next}};
}

Json observations(const std::vector<book::SizeObserved>& observed, const crop::Crop& crop) {
  Json list = Json::array();
  for (const book::SizeObserved& each : observed) {
    list.push_back(observed_size_json(each));
    list.back()["diameter_mm"] = diameter(crop, each.weight_g);
  }
  return list;
}

Json days_json(const stand::StandPicture& picture, const crop::Crop& crop) {
  Json days = Json::array();
  for (const auto& day : picture.days) {
    Json weights = Json::array();
    Json across = Json::array();
    Json stands = Json::array();
    for (const std::uint8_t each : day.stands) stands.push_back(each != 0);
    for (const double weight : day.weight_g) {
      weights.push_back(number(weight));
      across.push_back(diameter(crop, weight));
    }
    days.push_back({{"date", base::to_iso(day.date)},
                    {"plant_g", quantiles(day.plant_g)},
                    {"one_plant_g", quantiles(day.one_plant_g)},
                    {"diameter_mm", diameters(crop, day.plant_g)},
                    {"standing_plants", number(day.standing_plants)},
                    {"classes", classes(day.class_share)},
                    {"stands", stands},
                    {"weight_g", weights},
                    {"plant_diameter_mm", across}});
  }
  return days;
}

/// A stand made ready to be looked at.
struct Looked {
  std::size_t index = 0;
  crop::Crop crop;
  stand::PictureQuery query;
  stand::SimulationOptions options;
};

/// The last day to look at where none is asked for: by which nine years in ten have taken the last of it.
base::Date look_to(const stand::Outlook& outlook, base::Date from, const StandLook& look) {
  const stand::EventOutlook* last = expected_event(outlook, "last-pick");
  if (last == nullptr) return from + base::Days{7 * kLookWeeks};
  return std::clamp(last->p90, from, from + base::Days{look.step_days * (stand::kMostPictureDays - 1)});
}

base::Result<Looked> look_at(const Season& season, const std::string& id, const StandLook& look,
                             std::optional<base::Date> not_after = {}) {
  const auto index = index_of(season, id);
  if (!index) return tl::unexpected(index.error());
  if (look.clumps < 1 || look.clumps > kMostClumps) {
    return base::fail(base::ProblemCode::out_of_range, fmt::format("{} clumps cannot be drawn", look.clumps),
                      {.field = "clumps"}, fmt::format("Ask for 1 to {}", kMostClumps));
  }
  const book::StandState state = as_seen(season, season.state.stands[*index]);
  auto crop = crop_of(season, state.plan);
  if (!crop) return tl::unexpected(crop.error());
  Looked looked{.index = *index, .crop = std::move(*crop), .query = {}, .options = {}};
  const base::Date sown = state.facts.sown.value_or(state.plan.sow);
  const base::Date last = season.weather.first + base::Days{static_cast<int>(season.weather.day_count) - 1};
  base::Date from = std::max(sown, season.today);
  if (not_after) from = std::min(from, std::max(sown, *not_after));
  looked.query.from = look.from.value_or(from);
  looked.query.to =
      look.to.value_or(std::min(last, look_to(season.outlooks[*index], looked.query.from, look)));
  looked.query.step_days = look.step_days;
  looked.query.clumps = static_cast<std::size_t>(look.clumps);
  looked.options.bed = bed_place(season.garden, state.plan);
  return looked;
}

/// What may be taken of the leaves at once as greens, beside the root.
Json greens_share_json(const crop::Harvest& harvest) {
  return book::gives_greens(harvest) && harvest.greens_share ? number(*harvest.greens_share) : Json(nullptr);
}

Json head_json(const Season& season, const Looked& looked, const stand::StandPicture& picture) {
  const auto& state = season.state.stands[looked.index];
  return {{"stand", state.plan.id},
          {"crop", state.plan.crop},
          {"crop_name", name_of(season, state.plan.crop)},
          {"today", base::to_iso(season.today)},
          {"spacing_mm", number(state.plan.spacing_mm)},
          {"part", crop::harvested_part_words()[static_cast<std::size_t>(looked.crop.harvest.part)]},
          {"style", crop::harvest_style_words()[static_cast<std::size_t>(looked.crop.harvest.style)]},
          {"shape", crop::root_shape_words()[static_cast<std::size_t>(looked.crop.harvest.shape)]},
          {"sizes", sizes_json(looked.crop.harvest)},
          {"greens_share", greens_share_json(looked.crop.harvest)},
          {"observations", observations(state.observed, looked.crop)},
          {"clumps", picture.clumps},
          {"plants_per_clump", picture.ranks},
          {"open_sides", picture.open_sides}};
}

std::string text(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

// ---- plain text

std::string option_line(const stand::WaitOption& option) {
  return option.weeks == 0 ? std::string("today") : "in " + counted(option.weeks, "week");
}

/// It is to be looked at, cleared, or over by the log: there is nothing to weigh.
bool is_told_over(const stand::Judgement& answer) {
  return answer.advice == "look" || answer.advice == "clear" || answer.advice == "over";
}

/// Which of a clump comes first, and what its mates gain by that; empty where plants stand singly.
std::string clump_text(const stand::Judgement& answer, Units units) {
  if (answer.clump.size() < 2) return {};
  std::string weights;
  for (const stand::ClumpPlant& plant : answer.clump)
    weights += (weights.empty() ? "" : ", ") + weight_text(plant.weight_g.p50, units);
  std::string text = fmt::format("  Of a clump the heaviest first: {}.", weights);
  if (answer.pull_largest_now_g > 0.0)
    text +=
        fmt::format(" The largest of every clump come to {}; the others gain {} by that in two weeks.",
                    weight_text(answer.pull_largest_now_g, units), weight_text(answer.rest_gain_g, units));
  return text + "\n";
}

std::string stand_text(const Season& season, const JudgedStand& judged) {
  const Units units = units_of(season.garden.units);
  const auto& answer = judged.judgement;
  std::string out = fmt::format("{} {}, {}: {}\n", judged.plan.id, name_of(season, judged.plan.crop),
                                judged.plan.bed.empty() ? "no bed" : judged.plan.bed, answer.advice);
  if (is_told_over(answer))
    return out + fmt::format("  {}\n", sentence_text(answer.reasons, units, season.today));
  for (const auto& reason : reasons_of(season, answer)) out += fmt::format("  {}\n", reason);
  if (!judged.handling.empty()) out += fmt::format("  {}\n", with_temperatures_in(judged.handling, units));
  out += clump_text(answer, units);
  using Align = TextTable::Align;
  TextTable table(
      {"", "a plant", "usable", "gain", "large", "loss risk", "net"},
      {Align::left, Align::right, Align::right, Align::right, Align::right, Align::right, Align::right});
  for (const auto& option : answer.options) {
    const auto share = [&](SizeClass size) { return option.class_share[static_cast<std::size_t>(size)]; };
    table.add({option_line(option), weight_text(option.plant_g.p50, units),
               weight_text(option.usable_g, units), weight_text(option.mean_gain_g, units),
               percent_text(share(SizeClass::large) + share(SizeClass::over_size)),
               percent_text(option.loss_risk), weight_text(option.net_g, units)});
  }
  return out + table.text();
}

}  // namespace

base::Result<std::vector<JudgedStand>> judge_stands(const Season& season, const std::string& only,
                                                    base::Date date) {
  const auto weather = felt_weather_of(season);
  if (!only.empty()) {
    const auto index = index_of(season, only);
    if (!index) return tl::unexpected(index.error());
    auto judged = judge_one(season, weather, *index, date);
    if (!judged) return tl::unexpected(judged.error());
    return std::vector<JudgedStand>{std::move(*judged)};
  }
  std::vector<std::size_t> chosen;
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const bool known = !season.no_outlook.contains(season.state.stands[i].plan.id);
    if (known && is_to_be_judged(season, i, date)) chosen.push_back(i);
  }
  std::vector<base::Result<JudgedStand>> results(chosen.size());
  base::parallel_for(chosen.size(),
                     [&](std::size_t k) { results[k] = judge_one(season, weather, chosen[k], date); });
  std::vector<JudgedStand> judged;
  for (auto& result : results) {
    if (!result) return tl::unexpected(result.error());
    judged.push_back(std::move(*result));
  }
  return judged;
}

base::Result<JudgedStand> judged_today(const Season& season, std::size_t stand) {
  return judge_one(season, felt_weather_of(season), stand, season.today);
}

std::string judge_json(const Season& season, const std::vector<JudgedStand>& judged, base::Date date) {
  Json list = Json::array();
  for (const auto& each : judged) list.push_back(judged_json(season, each));
  return text({{"garden", season.garden.name},
               {"today", base::to_iso(season.today)},
               {"date", base::to_iso(date)},
               {"members", season.weather.member_count},
               {"stands", list}});
}

std::string judge_text(const Season& season, const std::vector<JudgedStand>& judged, base::Date date) {
  if (judged.empty())
    return fmt::format("Nothing stands in a bed on {} by the log; name a stand to judge it all the same.\n",
                       base::to_iso(date));
  std::string out;
  for (const auto& each : judged) {
    if (!out.empty()) out += '\n';
    out += stand_text(season, each);
  }
  const bool any = std::any_of(judged.begin(), judged.end(),
                               [](const JudgedStand& each) { return !is_told_over(each.judgement); });
  if (any) out += "\nA plant: the middle weather year. Usable, gain and net: means over the weather years.\n";
  return out;
}

base::Result<std::string> picture_json(const Season& season, const std::string& id, const StandLook& look) {
  const auto looked = look_at(season, id, look);
  if (!looked) return tl::unexpected(looked.error());
  const book::StandState state = as_seen(season, season.state.stands[looked->index]);
  const stand::CropWeather felt(looked->crop, felt_weather_of(season));
  const auto made = stand::picture(felt, state.plan, state.facts, raising_of(season.garden, state.plan),
                                   looked->query, looked->options);
  if (!made) return tl::unexpected(made.error());
  Json json = head_json(season, *looked, *made);
  json["days"] = days_json(*made, looked->crop);
  return text(json);
}

base::Result<std::string> trial_json(const Season& season, const std::string& id,
                                     const stand::Removal& removal, const StandLook& look) {
  const auto looked = look_at(season, id, look, removal.date);
  if (!looked) return tl::unexpected(looked.error());
  const book::StandState state = as_seen(season, season.state.stands[looked->index]);
  const stand::CropWeather felt(looked->crop, felt_weather_of(season));
  const auto trial = stand::try_removal(felt, state.plan, state.facts, raising_of(season.garden, state.plan),
                                        removal, looked->query, looked->options);
  if (!trial) return tl::unexpected(trial.error());
  Json json = head_json(season, *looked, trial->before);
  json["removal"] = {{"date", base::to_iso(removal.date)},
                     {"largest_per_clump", removal.largest_per_clump},
                     {"above_g", number(removal.above_g)},
                     {"keep_per_clump", removal.keep_per_clump},
                     {"leaf_share", number(removal.leaf_share)}};
  json["taken_g"] = quantiles(trial->taken_g);
  json["taken_plants"] = number(trial->taken_plants);
  json["greens_g"] = quantiles(trial->greens_g);
  Json gain = Json::array();
  for (const auto& each : trial->rest_gain_g) gain.push_back(quantiles(each));
  json["rest_gain_g"] = gain;
  json["before"] = days_json(trial->before, looked->crop);
  json["after"] = days_json(trial->after, looked->crop);
  return text(json);
}

}  // namespace sowtide::desk
