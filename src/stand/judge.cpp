#include "stand/judge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sowtide::stand {
namespace {

constexpr int kMostWeeks = 3;
constexpr double kOverSizeWorth = 0.5;  // a woody or split root is worth half of a good one (chosen)
constexpr double kLostWorth = 0.5;  // what a hurried harvest saves of a stand that bolts or freezes (chosen)
constexpr double kWorthWaitingShare =
    0.05;  // of today's usable weight: less gain than that is no reason to wait

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

/// Lives of the stand left alone, seen on today and after each wait.
struct Watched {
  StandLives lives;
  std::size_t days = 0;
  std::size_t plants = 0;
  double whole = 0.0;  ///< plants of the stand for one of the sample

  [[nodiscard]] const double* at(std::size_t member, std::size_t wait) const {
    return &lives.watched_g[(member * days + wait) * plants];
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
  return watched;
}

bool lost_by(const MemberLife& life, int day) {
  return life.end_day >= 0 && life.end_day <= day;
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
    classes[static_cast<std::size_t>(size_class(harvest, weights[i]))] += 1.0;
    if (weights[i] < harvest.large_g) continue;
    sums.large += 1.0;
    sums.large_g += weights[i];
  }
  if (sums.standing > 0.0) sums.mean_g /= sums.standing;
  return sums;
}

std::string commonest_cause(const std::vector<MemberLife>& lives, int from, int to) {
  std::array<int, kLimits> count{};
  for (const auto& life : lives) {
    if (life.end_day > from && life.end_day <= to) ++count[static_cast<std::size_t>(life.limit)];
  }
  const auto most = std::max_element(count.begin(), count.end());
  if (*most == 0) return {};
  const auto limit = static_cast<Limit>(most - count.begin());
  return limit == Limit::none ? "age" : std::string(limit_text(limit));
}

double ground_cost_g(const JudgeNeeds& needs, base::Date today, base::Date until) {
  const base::Date from = std::max(today, needs.next_from.value_or(today));
  const auto days = static_cast<double>((until - from).count());
  return days > 0.0 ? needs.ground_worth_g_per_week * days / 7.0 : 0.0;
}

std::vector<WaitOption> options_of(const Watched& watched, const CropWeather& weather, base::Date date,
                                   const JudgeNeeds& needs) {
  const auto& harvest = weather.crop().harvest;
  const std::size_t members = watched.lives.members.size();
  const double whole = watched.whole;
  const int today = static_cast<int>((date - weather.ensemble().first).count());
  std::vector<WaitOption> options;
  std::vector<double> now(members, 0.0);
  for (std::size_t wait = 0; wait < watched.days; ++wait) {
    WaitOption option;
    option.weeks = static_cast<int>(wait);
    option.date = date + base::Days{7 * option.weeks};
    std::vector<double> weight;
    std::vector<double> gain, large, large_g;
    double standing = 0.0;
    double lost = 0.0;
    for (std::size_t m = 0; m < members; ++m) {
      auto sums = sums_of(watched, harvest, m, wait, option.class_share);
      const bool over = lost_by(watched.lives.members[m], today + 7 * option.weeks);
      if (over && wait > 0) {
        sums.usable_g *= kLostWorth;
        lost += 1.0;
      }
      if (wait == 0) now[m] = sums.usable_g * whole;
      weight.push_back(sums.mean_g);
      gain.push_back(sums.usable_g * whole - now[m]);
      large.push_back(sums.large * whole);
      large_g.push_back(sums.large_g * whole);
      option.usable_g += sums.usable_g * whole / static_cast<double>(members);
      standing += sums.standing;
    }
    for (double& share : option.class_share) share = standing > 0.0 ? share / standing : 0.0;
    option.plant_g = base::quantiles(weight);
    option.gain_g = base::quantiles(gain);
    option.loss_risk = lost / static_cast<double>(members);
    option.loss_cause = commonest_cause(watched.lives.members, today, today + 7 * option.weeks);
    option.large_plants = base::quantiles(large);
    option.large_g = base::quantiles(large_g);
    option.ground_cost_g = ground_cost_g(needs, date, option.date);
    option.net_g = option.usable_g - option.ground_cost_g;
    options.push_back(option);
  }
  return options;
}

std::vector<ClumpPlant> clump_today(const Watched& watched, const crop::Harvest& harvest) {
  const std::size_t ranks = watched.lives.ranks;
  const std::size_t clumps = watched.lives.clumps;
  std::vector<std::vector<double>> by_rank(ranks);
  std::vector<double> clump;
  for (std::size_t m = 0; m < watched.lives.members.size(); ++m) {
    const double* weights = watched.at(m, 0);
    for (std::size_t c = 0; c < clumps; ++c) {
      clump.clear();
      for (std::size_t p = 0; p < ranks; ++p) {
        if (weights[p * clumps + c] > 0.0) clump.push_back(weights[p * clumps + c]);
      }
      std::sort(clump.rbegin(), clump.rend());
      for (std::size_t p = 0; p < clump.size(); ++p) by_rank[p].push_back(clump[p]);
    }
  }
  std::vector<ClumpPlant> plants;
  for (std::size_t p = 0; p < ranks; ++p) {
    if (by_rank[p].empty()) continue;
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
  const std::size_t members = alone.lives.members.size();
  const double whole = alone.whole;
  const double per_member = whole / static_cast<double>(members);
  for (std::size_t m = 0; m < members; ++m) {
    answer.pull_largest_now_g +=
        thinned.lives.removed_g[m] * static_cast<double>(alone.lives.clumps) * per_member;
    const double* left = thinned.at(m, kWeeks);
    const double* full = alone.at(m, kWeeks);
    for (std::size_t i = 0; i < alone.plants; ++i) {
      if (left[i] > 0.0) answer.rest_gain_g += (left[i] - full[i]) * per_member;
    }
  }
}

// What a cut of half the leaf gives today, and whether the regrowth makes up for it in three weeks.
void weigh_a_cut(Judgement& answer, const Watched& alone, const CropWeather& weather, const StandPlan& plan,
                 const StandFacts& facts, const std::optional<RaisingPlace>& raising,
                 const SimulationOptions& options) {
  constexpr double kCutShare = 0.5;
  const Watched cut = watch(weather, plan, facts, raising, answer.date, options,
                            Removal{.date = answer.date, .leaf_share = kCutShare});
  const auto members = static_cast<double>(alone.lives.members.size());
  for (std::size_t m = 0; m < alone.lives.members.size(); ++m) {
    const double taken = cut.lives.greens_g[m] * static_cast<double>(alone.lives.clumps) * alone.whole;
    answer.cut_now_g += taken / members;
    answer.cut_gain_g += taken / members;
    for (std::size_t i = 0; i < alone.plants; ++i) {
      answer.cut_gain_g += (cut.at(m, kMostWeeks)[i] - alone.at(m, kMostWeeks)[i]) * alone.whole / members;
    }
  }
}

// Fruit and pods: what has ripened by each day if it is picked on its rhythm. Nothing is gained by leaving
// it.
void judge_picking(Judgement& answer, const CropWeather& weather, const StandPlan& plan,
                   const StandFacts& facts, const std::optional<RaisingPlace>& raising,
                   const JudgeNeeds& needs, const SimulationOptions& options) {
  const StandLives lives = simulate(weather, plan, facts, raising, options);
  const auto members = static_cast<double>(lives.members.size());
  const auto today = static_cast<std::size_t>((answer.date - weather.ensemble().first).count());
  const auto interval =
      static_cast<std::size_t>(std::max(1L, std::lround(weather.crop().harvest.pick_interval_days.value)));
  const auto picked = [&](std::size_t m, std::size_t from, std::size_t to) {
    double sum = 0.0;
    for (std::size_t day = std::max(from, lives.first_day);
         day < std::min(to, lives.first_day + lives.day_count); ++day)
      sum += lives.taken_g[m * lives.day_count + day - lives.first_day];
    return sum;
  };
  for (std::size_t week = 0; week <= kMostWeeks; ++week) {
    WaitOption option;
    option.weeks = static_cast<int>(week);
    option.date = answer.date + base::Days{7 * option.weeks};
    std::vector<double> weight, gain;
    double lost = 0.0;
    for (std::size_t m = 0; m < lives.members.size(); ++m) {
      const std::size_t from = today >= interval ? today + 1 - interval : 0;
      const double by_then = picked(m, from, today + 1 + 7 * week);
      option.usable_g += by_then / members;
      gain.push_back(by_then - picked(m, from, today + 1));
      weight.push_back(lives.plant_g[m * lives.day_count + today + 7 * week - lives.first_day]);
      const auto& life = lives.members[m];
      const bool spoilt = life.limit != Limit::none && lost_by(life, static_cast<int>(today + 7 * week));
      lost += week > 0 && spoilt ? 1.0 : 0.0;
    }
    option.plant_g = base::quantiles(weight);
    option.gain_g = base::quantiles(gain);
    option.loss_risk = lost / members;
    option.loss_cause =
        commonest_cause(lives.members, static_cast<int>(today), static_cast<int>(today + 7 * week));
    option.ground_cost_g = ground_cost_g(needs, answer.date, option.date);
    option.net_g = option.usable_g - option.ground_cost_g;
    answer.options.push_back(option);
  }
  const auto& now = answer.options.front();
  if (now.usable_g > 0.0) {
    answer.advice = "pick";
    answer.reasons.push_back(fmt::format("About {:.0f} g are ripe by today.", now.usable_g));
    answer.reasons.push_back(
        fmt::format("Pick again every {} days: what is left longer grows coarse or drops.", interval));
  } else {
    const auto& last = answer.options.back();
    answer.advice = last.usable_g > 0.0 ? "wait" : "nothing to judge yet";
    answer.reasons.push_back(last.usable_g > 0.0
                                 ? fmt::format("Nothing is ripe yet; about {:.0f} g ripen within three weeks "
                                               "({:.0f} to {:.0f} g).",
                                               last.gain_g.p50, last.gain_g.p10, last.gain_g.p90)
                                 : std::string("Nothing ripens within three weeks."));
  }
}

/// Counted as a share of the weather years: "In 3 of 30 years frost ends it within 2 weeks."
void reason_of_loss(Judgement& answer, const WaitOption& option, std::size_t years) {
  if (!(option.loss_risk > 0.0)) return;
  answer.reasons.push_back(fmt::format("In {:.0f} of {} years {} ends it within {} week{}.",
                                       option.loss_risk * static_cast<double>(years), years,
                                       option.loss_cause, option.weeks, option.weeks == 1 ? "" : "s"));
}

void reasons_of_needs(Judgement& answer, const JudgeNeeds& needs) {
  if (needs.kitchen_short_g > 0.0)
    answer.reasons.push_back(fmt::format("The kitchen lacks {:.0f} g this week.", needs.kitchen_short_g));
  if (!(needs.ground_worth_g_per_week > 0.0)) return;
  const std::string from = needs.next_from && *needs.next_from > answer.date
                               ? " from " + base::to_iso(*needs.next_from) + " on"
                               : "";
  answer.reasons.push_back(
      fmt::format("What comes next on this ground loses as much as {:.0f} g for every week "
                  "it waits{}.",
                  needs.ground_worth_g_per_week, from));
}

void advise_waiting(Judgement& answer, const WaitOption& chosen) {
  answer.advice = "wait";
  answer.reasons.push_back(fmt::format("Waiting {} week{} adds about {:.0f} g ({:.0f} to {:.0f} g).",
                                       answer.best_weeks, answer.best_weeks == 1 ? "" : "s",
                                       chosen.gain_g.p50, chosen.gain_g.p10, chosen.gain_g.p90));
}

void advise_largest(Judgement& answer, const JudgeNeeds& needs, double standing) {
  answer.advice = "pull the largest";
  if (answer.clump.size() > 1 && answer.rest_gain_g > 0.0) {
    answer.reasons.push_back(
        fmt::format("The largest of every clump come to {:.0f} g; the others gain {:.0f} g from their "
                    "light in two weeks.",
                    answer.pull_largest_now_g, answer.rest_gain_g));
  }
  const double largest_g = answer.clump.empty() ? 0.0 : answer.clump.front().weight_g.p50;
  if (!(needs.kitchen_short_g > 0.0) || !(largest_g > 0.0)) return;
  answer.plants_for_kitchen =
      static_cast<int>(std::min(standing, std::ceil(needs.kitchen_short_g / largest_g)));
  answer.reasons.push_back(
      fmt::format("{} of the largest meet what the kitchen lacks.", answer.plants_for_kitchen));
}

// Which of the waits nets most; worth it only when it beats today by more than a twentieth.
void choose_wait(Judgement& answer) {
  const auto& now = answer.options.front();
  const auto best = std::max_element(answer.options.begin(), answer.options.end(),
                                     [](const auto& a, const auto& b) { return a.net_g < b.net_g; });
  const bool worth = best->net_g > now.net_g + kWorthWaitingShare * now.usable_g;
  answer.best_weeks = worth ? best->weeks : 0;
}

void advise(Judgement& answer, const CropWeather& weather, const JudgeNeeds& needs, double standing) {
  choose_wait(answer);
  const auto& now = answer.options.front();
  const auto& next = answer.options[1];
  const bool cut_again = weather.crop().harvest.style == crop::HarvestStyle::repeat_cut;
  answer.reasons.push_back(
      fmt::format("A plant weighs {:.0f} g now and {:.0f} g in a week ({:.0f} to {:.0f} g).", now.plant_g.p50,
                  next.plant_g.p50, next.plant_g.p10, next.plant_g.p90));
  const bool later = std::any_of(answer.options.begin(), answer.options.end(),
                                 [](const auto& option) { return option.usable_g > 0.0; });
  if (!later) {
    answer.advice = "nothing to judge yet";
    return;
  }
  const auto share = [&](SizeClass size) { return now.class_share[static_cast<std::size_t>(size)]; };
  answer.reasons.push_back(fmt::format(
      "{:.0f} % of the plants are of the large size, {:.0f} % small, {:.0f} % too small.",
      100.0 * share(SizeClass::large), 100.0 * share(SizeClass::small), 100.0 * share(SizeClass::too_small)));
  const auto& chosen = answer.options[static_cast<std::size_t>(std::max(1, answer.best_weeks))];
  reason_of_loss(answer, chosen, weather.ensemble().member_count);
  reasons_of_needs(answer, needs);
  const bool some_large = share(SizeClass::large) + share(SizeClass::over_size) > 0.0;
  const bool kitchen_takes_all = needs.kitchen_short_g > 0.0 && needs.kitchen_short_g >= now.usable_g;
  if (now.usable_g > 0.0 && (answer.best_weeks == 0 || kitchen_takes_all)) {
    answer.advice = cut_again ? "cut" : "pull";
  } else if (cut_again && now.usable_g > 0.0 && (some_large || needs.kitchen_short_g > 0.0)) {
    answer.advice = "cut";
    answer.reasons.push_back(fmt::format(
        "A cut of half the leaf takes {:.0f} g; with what grows again that is {:.0f} g {} in three weeks "
        "than "
        "leaving it.",
        answer.cut_now_g, std::abs(answer.cut_gain_g), answer.cut_gain_g >= 0.0 ? "more" : "less"));
  } else if (!cut_again && now.usable_g > 0.0 &&
             (needs.kitchen_short_g > 0.0 ||
              (answer.clump.size() > 1 && some_large && answer.rest_gain_g > 0.0))) {
    advise_largest(answer, needs, standing);
  } else {
    advise_waiting(answer, chosen);
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
    return answer;
  }
  const Watched alone = watch(weather, plan, facts, raising, date, options, {});
  answer.options = options_of(alone, weather, date, needs);
  answer.clump = clump_today(alone, weather.crop().harvest);
  if (weather.crop().harvest.style == crop::HarvestStyle::repeat_cut) {
    weigh_a_cut(answer, alone, weather, plan, facts, raising, options);
  } else if (answer.clump.size() > 1) {
    weigh_the_largest(answer, alone, weather, plan, facts, raising, options);
  }
  advise(answer, weather, needs, alone.lives.plants - facts.plants_removed);
  return answer;
}

}  // namespace sowtide::stand
