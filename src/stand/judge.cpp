#include "stand/judge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace sowtide::stand {
namespace {

constexpr int kMostWeeks = kWeeksJudged;
constexpr double kOverSizeWorth = 0.5;  // a woody or split root is worth half of a good one (chosen)
constexpr double kLostWorth = 0.5;  // what a hurried harvest saves of a stand that bolts or freezes (chosen)
constexpr double kWorthWaitingShare =
    0.05;  // of today's usable weight: less gain than that is no reason to wait
constexpr double kFarMore =
    1.5;  // of what a wait brings: a hungry kitchen waits too for half as much again (chosen)
constexpr double kEndTooLikely = 1.0 / 3.0;  // chosen: of the weather years; then it is all taken before
constexpr double kMuchLeft =
    0.25;  // of what is usable today: more than that left to an end that is likely is too much (chosen)
constexpr double kRipeShare =
    0.25;  // of the weather years, in which something is ripe: then there is to pick (chosen)
constexpr double kSomeShare = 0.01;  // fewer large plants than this are told as 0 %

double usable_g(const crop::Harvest& harvest, double grams) {
  switch (size_class(harvest, grams)) {
    case SizeClass::too_small:
      return 0.0;
    case SizeClass::over_size:
      return kOverSizeWorth * grams;
    default:
      return grams;
  }
}

bool lost_by(const MemberLife& life, int day) {
  return life.end_day >= 0 && life.end_day <= day;
}

/// A night has killed it before a day, by the weather of that year.
bool frozen_before(const MemberLife& life, int day) {
  return life.limit == Limit::frost && lost_by(life, day - 1);
}

/// The weather years that count: those whose frost has not killed before a day what lives on it; all where
/// that is none.
std::vector<std::size_t> years_outlived(const StandLives& lives, int today) {
  std::vector<std::size_t> years(lives.members.size());
  std::iota(years.begin(), years.end(), std::size_t{0});
  const auto frozen = [&](std::size_t m) { return frozen_before(lives.members[m], today); };
  if (!std::all_of(years.begin(), years.end(), frozen)) std::erase_if(years, frozen);
  return years;
}

/// Lives of the stand left alone, seen on today and after each wait.
struct Watched {
  StandLives lives;
  std::vector<std::size_t> years;  ///< that count (`years_outlived`)
  std::size_t days = 0;
  std::size_t plants = 0;
  double whole = 0.0;  ///< plants of the stand for one of the sample

  [[nodiscard]] const double* at(std::size_t member, std::size_t wait) const {
    return &lives.watched_g[(member * days + wait) * plants];
  }
  [[nodiscard]] double alive(std::size_t member, std::size_t wait) const {
    return lives.watched_alive[member * days + wait];
  }
};

Watched watch(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
              const std::optional<RaisingPlace>& raising, base::Date date, SimulationOptions options,
              const std::optional<Removal>& removal) {
  options.leave_standing = true;
  options.removal = removal;
  options.watch.clear();
  for (int week = 0; week <= kMostWeeks; ++week) options.watch.push_back(date + base::Days{7 * week});
  Watched watched;
  watched.days = options.watch.size();
  watched.lives = simulate(weather, plan, facts, raising, options);
  watched.plants = watched.lives.clumps * watched.lives.ranks;
  watched.whole =
      watched.lives.sampled_plants > 0.0 ? watched.lives.plants / watched.lives.sampled_plants : 0.0;
  watched.years = years_outlived(watched.lives, static_cast<int>((date - weather.ensemble().first).count()));
  return watched;
}

struct MemberSums {
  double mean_g = 0.0;
  double usable_g = 0.0;
  double standing = 0.0;
  double large = 0.0, large_g = 0.0;
};

MemberSums sums_of(const Watched& watched, const crop::Harvest& harvest, std::size_t member, std::size_t wait,
                   std::array<double, kSizeClasses>& classes) {
  MemberSums sums;
  const double* weights = watched.at(member, wait);
  for (std::size_t i = 0; i < watched.plants; ++i) {
    if (!(weights[i] > 0.0)) continue;
    sums.standing += 1.0;
    sums.mean_g += weights[i];
    sums.usable_g += usable_g(harvest, weights[i]);
    classes[static_cast<std::size_t>(size_class(harvest, weights[i]))] += watched.alive(member, wait);
    if (weights[i] < harvest.large_g) continue;
    sums.large += 1.0;
    sums.large_g += weights[i];
  }
  if (sums.standing > 0.0) sums.mean_g /= sums.standing;
  for (double* of_stand : {&sums.usable_g, &sums.standing, &sums.large, &sums.large_g})
    *of_stand *= watched.alive(member, wait);
  return sums;
}

/// The weather years that are lost, by what ends them.
class Losses {
 public:
  void add(Limit limit) {
    ++count_[static_cast<std::size_t>(limit)];
    ++years_;
  }
  [[nodiscard]] double years() const { return years_; }
  /// What ends most of them; empty when none is lost.
  [[nodiscard]] std::string commonest_cause() const {
    if (years_ == 0) return {};
    const auto limit = static_cast<Limit>(std::max_element(count_.begin(), count_.end()) - count_.begin());
    return limit == Limit::none ? "age" : std::string(limit_text(limit));
  }

 private:
  std::array<int, kLimits> count_{};
  int years_ = 0;
};

/// What ends a stand that is watched: it is not picked, so that its years count as failed for want of time where
/// nothing but age has ended them.
Limit end_of_watched(const MemberLife& life) {
  return life.limit == Limit::season_too_short ? Limit::none : life.limit;
}

/// A phrase about a weight that is known as a range.
base::Message range_said(const char* key, const base::Quantiles& grams) {
  return {key, {{"middle_g", grams.p50}, {"low_g", grams.p10}, {"high_g", grams.p90}}};
}

double ground_cost_g(const JudgeNeeds& needs, base::Date today, base::Date until) {
  const base::Date from = std::max(today, needs.next_from.value_or(today));
  const auto days = static_cast<double>((until - from).count());
  return days > 0.0 ? needs.ground_worth_g_per_week * days / 7.0 : 0.0;
}

/// The weather years after one wait, each with what the whole stand has then.
struct Years {
  std::vector<double> plant_g;  ///< of those in which any stands
  std::vector<double> usable_g, large, large_g;
  double standing = 0.0;  ///< plants of the sample, all years together
  Losses lost;
};

Years years_after(const Watched& watched, const crop::Harvest& harvest, std::size_t wait, int today,
                  std::array<double, kSizeClasses>& classes) {
  Years years;
  for (const std::size_t m : watched.years) {
    const MemberLife& life = watched.lives.members[m];
    MemberSums sums = sums_of(watched, harvest, m, wait, classes);
    if (wait > 0 && lost_by(life, today + 7 * static_cast<int>(wait)) && !frozen_before(life, today)) {
      sums.usable_g *= kLostWorth;
      years.lost.add(end_of_watched(life));
    }
    // A year in which nothing stands any more has no plant to weigh, as it has none to sort by size.
    if (sums.standing > 0.0) years.plant_g.push_back(sums.mean_g);
    years.usable_g.push_back(sums.usable_g * watched.whole);
    years.large.push_back(sums.large * watched.whole);
    years.large_g.push_back(sums.large_g * watched.whole);
    years.standing += sums.standing;
  }
  return years;
}

/// The option that so many weeks of waiting are, by its years and what each of them brings without the wait.
WaitOption option_of(std::size_t wait, base::Date today, const Years& years,
                     const std::vector<double>& unwaited_g, const JudgeNeeds& needs) {
  WaitOption option;
  option.weeks = static_cast<int>(wait);
  option.date = today + base::Days{7 * option.weeks};
  std::vector<double> gain_g = years.usable_g;
  for (std::size_t m = 0; m < gain_g.size(); ++m) gain_g[m] -= unwaited_g[m];
  if (!years.plant_g.empty()) option.plant_g = base::quantiles(years.plant_g);
  option.mean_gain_g = base::mean(gain_g);
  option.gain_g = base::quantiles(std::move(gain_g));
  option.usable_g = base::mean(years.usable_g);
  option.loss_risk = years.lost.years() / static_cast<double>(unwaited_g.size());
  option.loss_cause = years.lost.commonest_cause();
  option.ground_cost_g = ground_cost_g(needs, today, option.date);
  option.net_g = option.usable_g - option.ground_cost_g;
  return option;
}

std::vector<WaitOption> options_of(const Watched& watched, const CropWeather& weather, base::Date date,
                                   const JudgeNeeds& needs) {
  const int today = static_cast<int>((date - weather.ensemble().first).count());
  std::vector<WaitOption> options;
  std::vector<double> now_g;
  for (std::size_t wait = 0; wait < watched.days; ++wait) {
    std::array<double, kSizeClasses> classes{};
    const Years years = years_after(watched, weather.crop().harvest, wait, today, classes);
    if (wait == 0) now_g = years.usable_g;
    WaitOption option = option_of(wait, date, years, now_g, needs);
    for (std::size_t c = 0; c < kSizeClasses; ++c)
      option.class_share[c] = years.standing > 0.0 ? classes[c] / years.standing : 0.0;
    option.large_plants = base::quantiles(years.large);
    option.large_g = base::quantiles(years.large_g);
    options.push_back(option);
  }
  return options;
}

/// Plants of the whole stand that stand today, mean over the weather years.
double standing_today(const Watched& watched) {
  double standing = 0.0;
  for (const std::size_t m : watched.years) {
    const double* weights = watched.at(m, 0);
    standing +=
        watched.alive(m, 0) * static_cast<double>(std::count_if(weights, weights + watched.plants,
                                                                [](double weight) { return weight > 0.0; }));
  }
  return standing * watched.whole / static_cast<double>(watched.years.size());
}

/// The weights of the plants of every clump today in one weather year, the heaviest first; clumps that are
/// empty are left out.
std::vector<std::vector<double>> clumps_today(const Watched& watched, std::size_t member) {
  const double* weights = watched.at(member, 0);
  const std::size_t clumps = watched.lives.clumps;
  std::vector<std::vector<double>> found;
  for (std::size_t c = 0; c < clumps; ++c) {
    std::vector<double> clump;
    for (std::size_t i = c; i < watched.plants; i += clumps) {
      if (weights[i] > 0.0) clump.push_back(weights[i]);
    }
    std::sort(clump.rbegin(), clump.rend());
    if (!clump.empty()) found.push_back(std::move(clump));
  }
  return found;
}

/// Plants of a clump as most are: what stands by the clumps that hold any, over all weather years.
std::size_t plants_of_most(const std::vector<std::vector<std::vector<double>>>& years) {
  double plants = 0.0;
  double clumps = 0.0;
  for (const auto& year : years) {
    clumps += static_cast<double>(year.size());
    for (const auto& clump : year) plants += static_cast<double>(clump.size());
  }
  return clumps > 0.0 ? static_cast<std::size_t>(std::max(1.0, std::round(plants / clumps))) : 0;
}

// The average of a year, as what taking the largest brings, over the same clumps for every rank: those that
// hold so many. So the ranks fall in weight, and fuller clumps add none.
std::vector<ClumpPlant> clump_today(const Watched& watched, const crop::Harvest& harvest) {
  std::vector<std::vector<std::vector<double>>> years;
  for (const std::size_t m : watched.years) years.push_back(clumps_today(watched, m));
  const std::size_t ranks = plants_of_most(years);
  std::vector<std::vector<double>> by_rank(ranks);
  for (auto& year : years) {
    std::erase_if(year, [ranks](const auto& clump) { return clump.size() < ranks; });
    for (std::size_t p = 0; p < ranks && !year.empty(); ++p) {
      double sum_g = 0.0;
      for (const auto& clump : year) sum_g += clump[p];
      by_rank[p].push_back(sum_g / static_cast<double>(year.size()));
    }
  }
  std::vector<ClumpPlant> plants;
  for (std::size_t p = 0; p < ranks; ++p) {
    ClumpPlant plant{.rank = static_cast<int>(p), .weight_g = base::quantiles(by_rank[p])};
    plant.size = size_class(harvest, plant.weight_g.p50);
    plants.push_back(plant);
  }
  return plants;
}

// What taking the largest of every clump today gives, and what the others gain by it in two weeks.
void weigh_the_largest(Judgement& answer, const Watched& alone, const CropWeather& weather,
                       const StandPlan& plan, const StandFacts& facts,
                       const std::optional<RaisingPlace>& raising, const SimulationOptions& options) {
  constexpr std::size_t kWeeks = 2;
  const Watched thinned = watch(weather, plan, facts, raising, answer.date, options,
                                Removal{.date = answer.date, .largest_per_clump = 1});
  const double whole = alone.whole;
  const double per_member = whole / static_cast<double>(alone.years.size());
  std::vector<double> now_g;
  for (const std::size_t m : alone.years) {
    now_g.push_back(thinned.lives.removed_g[m] * static_cast<double>(alone.lives.clumps) * whole);
    const double* left = thinned.at(m, kWeeks);
    const double* full = alone.at(m, kWeeks);
    for (std::size_t i = 0; i < alone.plants; ++i) {
      if (left[i] > 0.0) answer.rest_gain_g += (left[i] - full[i]) * alone.alive(m, kWeeks) * per_member;
    }
  }
  answer.pull_largest_now_g = base::quantiles(std::move(now_g)).p50;
}

/// Lives of the stand with the plan's rule picking from a day on, and before it only what the log tells.
struct Picked {
  StandLives lives;

  /// What a member takes from one day of the ensemble to before another, whole stand.
  [[nodiscard]] double taken_g(std::size_t member, std::size_t from, std::size_t to) const {
    double sum = 0.0;
    const std::size_t end = std::min(to, lives.first_day + lives.day_count);
    for (std::size_t day = std::max(from, lives.first_day); day < end; ++day)
      sum += lives.taken_g[member * lives.day_count + day - lives.first_day];
    return sum;
  }
  /// The first day from `from` on that brings something; the end of the weather when none does.
  [[nodiscard]] std::size_t next_day(std::size_t member, std::size_t from) const {
    std::size_t day = from;
    while (day < lives.first_day + lives.day_count && !(taken_g(member, day, day + 1) > 0.0)) ++day;
    return day;
  }
  [[nodiscard]] double plant_g(std::size_t member, std::size_t day) const {
    return lives.plant_g[member * lives.day_count + day - lives.first_day];
  }
};

Picked picked_from(const CropWeather& weather, const StandPlan& plan, StandFacts facts,
                   const std::optional<RaisingPlace>& raising, base::Date date,
                   const SimulationOptions& options) {
  facts.log_to = date;
  return {simulate(weather, plan, facts, raising, options)};
}

/// How picking goes on after `today`, a day of the ensemble, when the rule picks.
Rhythm rhythm_after(const Picked& picked, std::size_t today) {
  Rhythm rhythm;
  std::vector<double> days, grams;
  const std::size_t end = picked.lives.first_day + picked.lives.day_count;
  const std::vector<std::size_t> years = years_outlived(picked.lives, static_cast<int>(today));
  for (const std::size_t m : years) {
    const std::size_t next = picked.next_day(m, today + 1);
    if (next >= end) continue;
    days.push_back(static_cast<double>(next - today));
    grams.push_back(picked.taken_g(m, next, next + 1));
  }
  if (2 * days.size() <= years.size()) return rhythm;
  rhythm.next_days = static_cast<int>(std::lround(base::quantiles(days).p50));
  rhythm.next_g = base::quantiles(grams);
  return rhythm;
}

/// How cutting goes on when it is cut today.
Rhythm cuts_after(const CropWeather& weather, const StandPlan& plan, StandFacts facts,
                  const std::optional<RaisingPlace>& raising, base::Date date,
                  const SimulationOptions& options) {
  const auto later = [](base::Date day, const PlantsTaken& taken) { return day < taken.date; };
  facts.taken.insert(std::upper_bound(facts.taken.begin(), facts.taken.end(), date, later),
                     PlantsTaken{.date = date, .largest = true});
  const auto today = static_cast<std::size_t>((date - weather.ensemble().first).count());
  return rhythm_after(picked_from(weather, plan, facts, raising, date + base::Days{1}, options), today);
}

/// What a share of the leaf gives today, and by how much more the harvested part then weighs in three weeks
/// than if it had stayed (less than 0 where it weighs less); whole stand, means of the years.
struct LeafTaken {
  double now_g = 0.0, change_g = 0.0;
};

LeafTaken leaf_taken(const Watched& alone, const Watched& cut) {
  LeafTaken taken;
  const auto members = static_cast<double>(alone.years.size());
  for (const std::size_t m : alone.years) {
    taken.now_g += cut.lives.greens_g[m] * static_cast<double>(alone.lives.clumps) * alone.whole / members;
    for (std::size_t i = 0; i < alone.plants; ++i) {
      taken.change_g += (cut.at(m, kMostWeeks)[i] - alone.at(m, kMostWeeks)[i]) * alone.alive(m, kMostWeeks) *
                        alone.whole / members;
    }
  }
  return taken;
}

// What a cut of half the leaf gives today, and whether the regrowth makes up for it in three weeks.
void weigh_a_cut(Judgement& answer, const Watched& alone, const CropWeather& weather, const StandPlan& plan,
                 const StandFacts& facts, const std::optional<RaisingPlace>& raising,
                 const SimulationOptions& options) {
  const Watched cut = watch(weather, plan, facts, raising, answer.date, options,
                            Removal{.date = answer.date, .leaf_share = kCutShare});
  const LeafTaken taken = leaf_taken(alone, cut);
  answer.cut_now_g = taken.now_g;
  answer.cut_gain_g = taken.now_g + taken.change_g;
}

// What the leaves of a root crop give today as greens, and what that costs its roots.
void weigh_the_greens(Judgement& answer, const Watched& alone, const CropWeather& weather,
                      const StandPlan& plan, const StandFacts& facts,
                      const std::optional<RaisingPlace>& raising, const SimulationOptions& options) {
  const auto& share = weather.crop().harvest.greens_share;
  if (!share) return;
  const Watched cut = watch(weather, plan, facts, raising, answer.date, options,
                            Removal{.date = answer.date, .leaf_share = *share});
  const LeafTaken taken = leaf_taken(alone, cut);
  answer.greens = GreensOffer{.now_g = taken.now_g, .root_cost_g = std::max(0.0, -taken.change_g)};
}

/// Where most years have ended the stand before the day of judging: what is left comes in, or nothing.
/// Whether they have.
bool reason_of_past(Judgement& answer, const Watched& alone, base::Date first) {
  const int today = static_cast<int>((answer.date - first).count());
  Losses past;
  for (const MemberLife& life : alone.lives.members) {
    if (lost_by(life, today - 1)) past.add(end_of_watched(life));
  }
  const auto years = static_cast<double>(alone.lives.members.size());
  if (2.0 * past.years() <= years) return false;
  answer.reasons.push_back(
      {"is-past", {{"past_years", past.years()}, {"years", years}, {"cause", past.commonest_cause()}}});
  return true;
}

/// Counted in weather years.
void reason_of_loss(Judgement& answer, const WaitOption& option, std::size_t years) {
  const bool told_past = !answer.reasons.empty() && answer.reasons.front().key == "is-past";
  if (!(option.loss_risk > 0.0) || told_past) return;
  answer.reasons.push_back({"ends-it",
                            {{"lost_years", option.loss_risk * static_cast<double>(years)},
                             {"years", static_cast<double>(years)},
                             {"cause", option.loss_cause},
                             {"weeks", static_cast<double>(option.weeks)}}});
}

void reasons_of_needs(Judgement& answer, const JudgeNeeds& needs) {
  if (needs.kitchen_short_g > 0.0)
    answer.reasons.push_back({"kitchen-lacks", {{"short_g", needs.kitchen_short_g}}});
  if (!(needs.ground_worth_g_per_week > 0.0)) return;
  base::Message next{"next-loses", {{"week_g", needs.ground_worth_g_per_week}}};
  if (needs.next_from && *needs.next_from > answer.date) next.values.emplace_back("since", *needs.next_from);
  answer.reasons.push_back(std::move(next));
}

/// Leaves for a kitchen that lacks greens, where they come to a tenth of the lack or more (chosen). Of plants
/// that are pulled they come along.
void reason_of_greens(Judgement& answer, const JudgeNeeds& needs) {
  constexpr double kWorthCutting = 0.1;
  if (!answer.greens || !(needs.greens_short_g > 0.0) || answer.advice == "pull" ||
      answer.greens->now_g < kWorthCutting * needs.greens_short_g)
    return;
  answer.reasons.push_back({"leaves-for-kitchen",
                            {{"short_g", needs.greens_short_g},
                             {"now_g", answer.greens->now_g},
                             {"cost_g", answer.greens->root_cost_g},
                             {"weeks", 1.0 * kMostWeeks}}});
}

/// In how many of the years that count frost ends it by the last day that is looked at.
void count_frost(Judgement& answer, const Watched& alone, int today) {
  answer.years_alive = static_cast<int>(alone.years.size());
  answer.frost_years =
      static_cast<int>(std::count_if(alone.years.begin(), alone.years.end(), [&](std::size_t m) {
        const MemberLife& life = alone.lives.members[m];
        return life.limit == Limit::frost && !frozen_before(life, today) &&
               lost_by(life, today + 7 * kMostWeeks);
      }));
}

/// Fruit and pods left until a day: what is good to pick then, in the years that count.
Years years_unpicked(const Picked& left, const std::vector<std::size_t>& counting, std::size_t day,
                     bool is_today) {
  Years years;
  for (const std::size_t m : counting) {
    const MemberLife& life = left.lives.members[m];
    years.usable_g.push_back(left.taken_g(m, day, day + 1));
    years.plant_g.push_back(left.plant_g(m, day));
    const bool ended =
        life.limit == Limit::frost || life.limit == Limit::heat || life.limit == Limit::bolting;
    if (!is_today && ended && lost_by(life, static_cast<int>(day))) years.lost.add(life.limit);
  }
  return years;
}

/// A phrase about the next day of picking or cutting; nothing where none is in sight.
void reason_of_next(Judgement& answer, const char* key) {
  const Rhythm& rhythm = *answer.rhythm;
  if (!rhythm.next_days) return;
  base::Message next = range_said(key, rhythm.next_g);
  next.values.emplace_back("days", static_cast<double>(*rhythm.next_days));
  answer.reasons.push_back(std::move(next));
}

void advise_picking(Judgement& answer, std::size_t years, bool is_ripe, const JudgeNeeds& needs) {
  const Rhythm& rhythm = *answer.rhythm;
  constexpr int kSoonDays = 7 * kMostWeeks;
  const bool soon = rhythm.next_days && *rhythm.next_days <= kSoonDays;
  if (is_ripe) {
    answer.advice = "pick";
    answer.reasons.push_back({"ripe-by-today", {{"now_g", rhythm.now_g}}});
    if (rhythm.week_costs_g > 0.0)
      answer.reasons.push_back({"week-costs", {{"cost_g", rhythm.week_costs_g}}});
    if (!soon) answer.reasons.push_back({"last-picking", {}});
  } else if (soon) {
    answer.advice = "wait";
    answer.best_weeks = std::clamp((*rhythm.next_days + 6) / 7, 1, kMostWeeks);
  } else {
    answer.advice = "nothing to judge yet";
    answer.reasons.push_back({"ripens-not", {}});
    return;
  }
  if (soon) reason_of_next(answer, "next-picking");
  reason_of_loss(answer, answer.options.back(), years);
  reasons_of_needs(answer, needs);
}

// Fruit and pods: what is ripe is picked, and more ripens by the next picking day. Nothing is gained by
// leaving it: a wait brings only what is good on its day, since what hangs longer goes over.
void judge_picking(Judgement& answer, const CropWeather& weather, const StandPlan& plan,
                   const StandFacts& facts, const std::optional<RaisingPlace>& raising,
                   const JudgeNeeds& needs, const SimulationOptions& options) {
  const auto today = static_cast<std::size_t>((answer.date - weather.ensemble().first).count());
  const Picked on_time = picked_from(weather, plan, facts, raising, answer.date, options);
  const std::vector<std::size_t> counting = years_outlived(on_time.lives, static_cast<int>(today));
  std::size_t ripe_years = 0;
  for (std::size_t week = 0; week <= kMostWeeks; ++week) {
    const base::Date date = answer.date + base::Days{7 * static_cast<int>(week)};
    const Picked left = week == 0 ? on_time : picked_from(weather, plan, facts, raising, date, options);
    const Years years = years_unpicked(left, counting, today + 7 * week, week == 0);
    std::vector<double> by_then_g;
    for (const std::size_t m : counting) by_then_g.push_back(on_time.taken_g(m, today, today + 7 * week + 1));
    answer.options.push_back(option_of(week, answer.date, years, by_then_g, needs));
    if (week == 0)
      ripe_years = static_cast<std::size_t>(std::count_if(years.usable_g.begin(), years.usable_g.end(),
                                                          [](double grams) { return grams > 0.0; }));
  }
  answer.rhythm = rhythm_after(on_time, today);
  answer.rhythm->now_g = answer.options.front().usable_g;
  answer.rhythm->week_costs_g = std::max(0.0, -answer.options[1].mean_gain_g);
  const std::size_t years = counting.size();
  advise_picking(answer, years, static_cast<double>(ripe_years) >= kRipeShare * static_cast<double>(years),
                 needs);
}

void advise_waiting(Judgement& answer, const WaitOption& chosen) {
  answer.advice = "wait";
  base::Message adds = range_said("waiting-adds", chosen.gain_g);
  adds.values.front().second = chosen.mean_gain_g;
  adds.values.emplace_back("weeks", static_cast<double>(answer.best_weeks));
  answer.reasons.push_back(std::move(adds));
}

void advise_largest(Judgement& answer, const JudgeNeeds& needs, double to_spare) {
  answer.advice = "pull the largest";
  if (answer.clump.size() > 1 && answer.rest_gain_g > 0.0) {
    answer.reasons.push_back(
        {"largest-come-to", {{"now_g", answer.pull_largest_now_g}, {"gain_g", answer.rest_gain_g}}});
  }
  const double largest_g = answer.clump.empty() ? 0.0 : answer.clump.front().weight_g.p50;
  const bool enough = needs.kitchen_short_g < answer.options.front().usable_g;
  if (!(needs.kitchen_short_g > 0.0) || !(largest_g > 0.0) || !enough) return;
  const double lacking = std::ceil(needs.kitchen_short_g / largest_g);
  answer.plants_for_kitchen = static_cast<int>(std::min(to_spare, lacking));
  answer.reasons.push_back({lacking <= to_spare ? "largest-meet" : "largest-in-part",
                            {{"plants", static_cast<double>(answer.plants_for_kitchen)}}});
}

// Which of the waits nets most; worth it only when it beats today by more than a twentieth.
void choose_wait(Judgement& answer) {
  const auto& now = answer.options.front();
  const auto best = std::max_element(answer.options.begin(), answer.options.end(),
                                     [](const auto& a, const auto& b) { return a.net_g < b.net_g; });
  const bool worth = best->net_g > now.net_g + kWorthWaitingShare * now.usable_g;
  answer.best_weeks = worth ? best->weeks : 0;
}

/// Share of today's plants in a size class.
double share_now(const Judgement& answer, SizeClass size) {
  return answer.options.front().class_share[static_cast<std::size_t>(size)];
}

bool some_large(const Judgement& answer) {
  return share_now(answer, SizeClass::large) + share_now(answer, SizeClass::over_size) >= kSomeShare;
}

/// The wait that is told of: the best, or a week where none beats today.
const WaitOption& wait_told(const Judgement& answer) {
  return answer.options[static_cast<std::size_t>(std::max(1, answer.best_weeks))];
}

// Leaf is cut when it is worth it: when cut and regrowth bring as much as leaving it, at its size, or for a
// kitchen that lacks it.
void advise_cutting(Judgement& answer, const JudgeNeeds& needs) {
  const bool pays = answer.cut_gain_g >= 0.0 || answer.best_weeks == 0;
  const bool ready = answer.options.front().usable_g > 0.0;
  if (!ready || !(pays || some_large(answer) || needs.kitchen_short_g > 0.0))
    return advise_waiting(answer, wait_told(answer));
  answer.advice = "cut";
  answer.best_weeks = 0;
  answer.reasons.push_back({answer.cut_gain_g >= 0.0 ? "cut-brings-more" : "cut-brings-less",
                            {{"now_g", answer.cut_now_g}, {"change_g", std::abs(answer.cut_gain_g)}}});
  reason_of_next(answer, "next-cut");
}

/// Plants that a hungry kitchen may have today: all that stand, but where a wait brings half as much again
/// only those that are large already. What is young is not pulled to fill one week.
double plants_to_spare(const Judgement& answer, double standing) {
  const WaitOption& now = answer.options.front();
  const bool grows_far_more = wait_told(answer).net_g > kFarMore * now.net_g;
  return grows_far_more ? std::floor(now.large_plants.p50) : standing;
}

/// Whether the largest of most clumps come out so that the others grow on. Bulbs and tubers ripen together.
bool largest_come_first(const Judgement& answer, const crop::Harvest& harvest) {
  const bool ripens_together =
      harvest.part == crop::HarvestedPart::bulb || harvest.part == crop::HarvestedPart::tuber;
  return answer.clump.size() > 1 && answer.clump.front().size >= SizeClass::large &&
         answer.rest_gain_g > 0.0 && !ripens_together;
}

void advise_pulling(Judgement& answer, const JudgeNeeds& needs, const crop::Harvest& harvest,
                    double standing) {
  const auto& now = answer.options.front();
  const auto& chosen = wait_told(answer);
  // A kitchen that could take all does not get young plants that come to more than it lacks if left, nor
  // those that soon come to far more.
  const bool kitchen_takes_all = needs.kitchen_short_g > 0.0 && needs.kitchen_short_g >= now.usable_g &&
                                 chosen.net_g - now.net_g <= needs.kitchen_short_g &&
                                 chosen.net_g <= kFarMore * now.net_g;
  const double to_spare = plants_to_spare(answer, standing);
  const bool kitchen_takes_some =
      needs.kitchen_short_g > 0.0 && needs.kitchen_short_g < now.usable_g && to_spare >= 1.0;
  if (now.usable_g > 0.0 && (answer.best_weeks == 0 || kitchen_takes_all)) {
    if (answer.best_weeks > 0) advise_waiting(answer, chosen);  // what is given up for the kitchen
    answer.advice = "pull";
  } else if (now.usable_g > 0.0 && (kitchen_takes_some || largest_come_first(answer, harvest))) {
    advise_largest(answer, needs, to_spare);
  } else {
    advise_waiting(answer, chosen);
  }
}

base::Message planned_said(const PlannedPulling& pulling, const std::optional<int>& weeks_to_next,
                           double plant_g) {
  base::Message said{"plan-pulls", {}};
  if (pulling.now) said = range_said("plan-pulls-now", pulling.week_g);
  if (pulling.now && weeks_to_next)
    said = {"plan-pulls-one", {{"plant_g", plant_g}, {"each_weeks", 1.0 * *weeks_to_next}}};
  said.values.emplace_back("pull_weeks", static_cast<double>(pulling.weeks));
  if (pulling.from) said.values.emplace_back("pull_from", *pulling.from);
  return said;
}

/// The first wait by which more grows over-size than the plan takes until then; nothing where the stand
/// likely ends first, which is said by itself.
const WaitOption* outgrows_the_plan(const Judgement& answer, const PlannedPulling& pulling) {
  const WaitOption& now = answer.options.front();
  for (const WaitOption& option : answer.options) {
    if (option.weeks == 0 || option.loss_risk >= kEndTooLikely) continue;
    const double lost_g = now.usable_g - option.usable_g;
    const double taken_g = pulling.by_wait_g[static_cast<std::size_t>(option.weeks - 1)];
    if (lost_g > std::max(taken_g, kWorthWaitingShare * now.usable_g)) return &option;
  }
  return nullptr;
}

// What waits in the ground is pulled as the plan has it: the kitchen's other weeks count on what is left.
void advise_as_planned(Judgement& answer, const PlannedPulling& pulling, crop::HarvestStyle style) {
  const int nets_most = answer.best_weeks;
  answer.best_weeks = 0;
  if (!pulling.now) {
    answer.advice = "wait";
    const auto days = pulling.from ? (*pulling.from - answer.date).count() : 0;
    answer.best_weeks = static_cast<int>(std::clamp<std::int64_t>((days + 6) / 7, 1, kMostWeeks));
    return;
  }
  const bool of_leaf = style == crop::HarvestStyle::repeat_cut;
  answer.advice = of_leaf ? "cut" : "pull the largest";
  if (const WaitOption* large = of_leaf ? nullptr : outgrows_the_plan(answer, pulling)) {
    answer.reasons.push_back(
        {"outgrows-plan",
         {{"over_share", large->class_share[static_cast<std::size_t>(SizeClass::over_size)]},
          {"weeks", 1.0 * large->weeks}}});
    return;
  }
  answer.as_planned = true;
  if (nets_most > 0) answer.reasons.push_back({"plan-before-most", {{"weeks", 1.0 * nets_most}}});
}

void reasons_of_sizes(Judgement& answer) {
  answer.reasons.push_back({"sizes",
                            {{"large_share", share_now(answer, SizeClass::large)},
                             {"over_share", share_now(answer, SizeClass::over_size)},
                             {"small_share", share_now(answer, SizeClass::small)},
                             {"too_small_share", share_now(answer, SizeClass::too_small)}}});
}

void advise_taking_all(Judgement& answer, crop::HarvestStyle style) {
  answer.advice = style == crop::HarvestStyle::repeat_cut ? "cut" : "pull";
  answer.best_weeks = 0;
  answer.takes_all = true;
}

// All that is worth taking comes in, whatever the plan or the kitchen would leave for later weeks.
void advise_before_frost(Judgement& answer, const CropWeather& weather, const JudgeNeeds& needs) {
  advise_taking_all(answer, weather.crop().harvest.style);
  reasons_of_sizes(answer);
  answer.reasons.push_back({"frost-will-have-ended",
                            {{"lost_years", 1.0 * answer.frost_years},
                             {"years", 1.0 * answer.years_alive},
                             {"weeks", 1.0 * kMostWeeks},
                             {"now_g", answer.options.front().usable_g}}});
  reasons_of_needs(answer, needs);
}

/// The first wait by which the stand has likely ended while the plan has left much of it; an end within a
/// week asks for all of it, however the plan would have it. Nothing where none is.
const WaitOption* ends_before_eaten(const Judgement& answer, const PlannedPulling& pulling) {
  const double now_g = answer.options.front().usable_g;
  for (const WaitOption& option : answer.options) {
    if (option.weeks == 0 || option.loss_risk < kEndTooLikely) continue;
    const double left_g = now_g - pulling.by_wait_g[static_cast<std::size_t>(option.weeks - 1)];
    if (now_g > 0.0 && (option.weeks == 1 || left_g > kMuchLeft * now_g)) return &option;
  }
  return nullptr;
}

void advise_before_end(Judgement& answer, const WaitOption& end, const CropWeather& weather,
                       const JudgeNeeds& needs) {
  advise_taking_all(answer, weather.crop().harvest.style);
  reasons_of_sizes(answer);
  answer.reasons.push_back({"ends-before-eaten",
                            {{"lost_years", end.loss_risk * answer.years_alive},
                             {"years", 1.0 * answer.years_alive},
                             {"cause", end.loss_cause},
                             {"weeks", 1.0 * end.weeks},
                             {"planned_g", needs.pulling->by_wait_g[static_cast<std::size_t>(end.weeks - 1)]},
                             {"now_g", answer.options.front().usable_g}}});
  reasons_of_needs(answer, needs);
}

// Leaf past its end does not grow again: there is no cut to weigh against leaving it.
void advise_past_leaf(Judgement& answer) {
  advise_taking_all(answer, crop::HarvestStyle::repeat_cut);
  answer.cut_now_g = answer.options.front().usable_g;
  answer.cut_gain_g = 0.0;
  answer.rhythm.reset();
}

/// Why the plan's weeks do not begin yet though its day has come.
void reason_of_small(Judgement& answer, const PlannedPulling& pulling, const crop::Harvest& harvest) {
  const double now_g = answer.options.front().plant_g.p50;
  if (!pulling.begun || pulling.now || !(now_g < harvest.small_g)) return;
  answer.reasons.push_back({"still-small", {{"now_g", now_g}, {"small_g", harvest.small_g.value}}});
}

/// Points at the option that nets most where the advice is that one.
void mark_best(Judgement& answer, int nets_most) {
  const bool any = std::any_of(answer.options.begin(), answer.options.end(),
                               [](const auto& option) { return option.usable_g > 0.0; });
  if (!any || answer.advice == "nothing to judge yet") return;
  const bool waits = answer.advice == "wait";
  const int advised = waits ? answer.best_weeks : 0;
  if (advised == nets_most && waits == (advised > 0)) answer.marked_weeks = advised;
}

void reason_of_plan(Judgement& answer, const PlannedPulling& pulling, const crop::Harvest& harvest) {
  const double plant_g = answer.options.front().plant_g.p50;
  const bool whole = harvest.style == crop::HarvestStyle::once;
  const auto weeks_to_next = whole ? weeks_to_each_plant(pulling, plant_g) : std::nullopt;
  answer.reasons.push_back(planned_said(pulling, weeks_to_next, plant_g));
  reason_of_small(answer, pulling, harvest);
}

void advise(Judgement& answer, const CropWeather& weather, const JudgeNeeds& needs, double standing,
            bool is_past) {
  base::Message weighs = range_said("plant-weighs", answer.options[1].plant_g);
  weighs.values.emplace_back("now_g", answer.options.front().plant_g.p50);
  answer.reasons.push_back(std::move(weighs));
  const bool usable = answer.options.front().usable_g > 0.0;
  answer.before_frost = answer.frost_years >= kEndTooLikely * answer.years_alive && usable;
  if (answer.before_frost) return advise_before_frost(answer, weather, needs);
  const bool planned_now = needs.pulling && needs.pulling->now;
  if (const WaitOption* end = planned_now ? ends_before_eaten(answer, *needs.pulling) : nullptr)
    return advise_before_end(answer, *end, weather, needs);
  const auto years = static_cast<std::size_t>(answer.years_alive);
  if (needs.pulling) reason_of_plan(answer, *needs.pulling, weather.crop().harvest);
  const bool later = std::any_of(answer.options.begin(), answer.options.end(),
                                 [](const auto& option) { return option.usable_g > 0.0; });
  if (!later && !planned_now) {
    answer.advice = "nothing to judge yet";
    reason_of_loss(answer, answer.options.back(), years);
    return;
  }
  reasons_of_sizes(answer);
  reason_of_loss(answer, wait_told(answer), years);
  reasons_of_needs(answer, needs);
  const crop::HarvestStyle style = weather.crop().harvest.style;
  if (needs.pulling) {
    advise_as_planned(answer, *needs.pulling, style);
  } else if (style == crop::HarvestStyle::repeat_cut && is_past && usable) {
    advise_past_leaf(answer);
  } else if (style == crop::HarvestStyle::repeat_cut) {
    advise_cutting(answer, needs);
  } else {
    advise_pulling(answer, needs, weather.crop().harvest, standing);
  }
}

}  // namespace

SizeClass size_class(const crop::Harvest& harvest, double grams) noexcept {
  if (grams < harvest.smallest_g) return SizeClass::too_small;
  if (grams > harvest.over_size_g) return SizeClass::over_size;
  return grams >= harvest.large_g ? SizeClass::large : SizeClass::small;
}

std::string_view size_class_text(SizeClass size) noexcept {
  switch (size) {
    case SizeClass::too_small:
      return "too small";
    case SizeClass::small:
      return "small";
    case SizeClass::large:
      return "large";
    case SizeClass::over_size:
      return "over-size";
  }
  return "";
}

std::optional<int> weeks_to_each_plant(const PlannedPulling& pulling, double plant_g) noexcept {
  constexpr double kAboutAPlant = 2.0 / 3.0;
  const double share_g = pulling.week_g.p50;
  if (!(share_g > 0.0) || share_g >= kAboutAPlant * plant_g) return std::nullopt;
  return static_cast<int>(std::lround(plant_g / share_g));
}

base::Result<Judgement> judge(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
                              const std::optional<RaisingPlace>& raising, base::Date date,
                              const JudgeNeeds& needs, const SimulationOptions& options) {
  const auto& ensemble = weather.ensemble();
  const auto sown = (facts.sown.value_or(plan.sow) - ensemble.first).count();
  const auto day = (date - ensemble.first).count();
  if (sown < 0 || day < sown || day + 7 * kMostWeeks >= static_cast<std::int64_t>(ensemble.day_count)) {
    return base::fail(base::ProblemCode::out_of_range,
                      fmt::format("{} lies before the sowing of stand {} or too near the end of the weather",
                                  base::to_iso(date), plan.id),
                      {.field = "date"}, "Judge on a day after sowing, with three weeks of weather ahead");
  }
  Judgement answer;
  answer.stand = plan.id;
  answer.date = date;
  if (weather.crop().harvest.style == crop::HarvestStyle::picked) {
    judge_picking(answer, weather, plan, facts, raising, needs, options);
    mark_best(answer, answer.best_weeks);
    return answer;
  }
  const Watched alone = watch(weather, plan, facts, raising, date, options, {});
  answer.options = options_of(alone, weather, date, needs);
  answer.clump = clump_today(alone, weather.crop().harvest);
  if (weather.crop().harvest.style == crop::HarvestStyle::repeat_cut) {
    weigh_a_cut(answer, alone, weather, plan, facts, raising, options);
    answer.rhythm = cuts_after(weather, plan, facts, raising, date, options);
    answer.rhythm->now_g = answer.cut_now_g;
  } else {
    if (answer.clump.size() > 1) weigh_the_largest(answer, alone, weather, plan, facts, raising, options);
    weigh_the_greens(answer, alone, weather, plan, facts, raising, options);
  }
  const bool is_past = reason_of_past(answer, alone, ensemble.first);
  count_frost(answer, alone, static_cast<int>(day));
  choose_wait(answer);
  const int nets_most = answer.best_weeks;
  advise(answer, weather, needs, standing_today(alone), is_past);
  reason_of_greens(answer, needs);
  mark_best(answer, nets_most);
  return answer;
}

}  // namespace sowtide::stand
