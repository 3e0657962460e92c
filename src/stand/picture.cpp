#include "stand/picture.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace sowtide::stand {
namespace {

base::Result<std::vector<base::Date>> days_of(const CropWeather& weather, const StandPlan& plan,
                                              const StandFacts& facts, const PictureQuery& query) {
  const auto& ensemble = weather.ensemble();
  const base::Date end = ensemble.first + base::Days{static_cast<int>(ensemble.day_count)};
  const base::Date sown = facts.sown.value_or(plan.sow);
  if (query.step_days < 1 || query.clumps < 1 || query.from > query.to || query.from < sown ||
      query.to >= end || sown < ensemble.first) {
    return base::fail(
        base::ProblemCode::out_of_range,
        fmt::format("stand {} can be looked at from its sowing on {} to {}, every day or less often", plan.id,
                    base::to_iso(sown), base::to_iso(end - base::Days{1})),
        {.field = "from"}, "Ask for days in that range");
  }
  std::vector<base::Date> days;
  for (base::Date day = query.from; day <= query.to; day += base::Days{query.step_days}) days.push_back(day);
  if (days.size() <= static_cast<std::size_t>(kMostPictureDays)) return days;
  return base::fail(base::ProblemCode::too_large,
                    fmt::format("{} days are more than {}", days.size(), kMostPictureDays),
                    {.field = "step_days"}, "Take a longer step");
}

/// Lives of the stand left alone, with the weights of every plant on the days looked at.
struct Seen {
  std::vector<base::Date> days;
  StandLives lives;
  std::size_t plants = 0;
  double whole = 0.0;

  [[nodiscard]] const double* at(std::size_t member, std::size_t day) const {
    return &lives.watched_g[(member * days.size() + day) * plants];
  }
  [[nodiscard]] const std::uint8_t* up(std::size_t member, std::size_t day) const {
    return &lives.watched_up[(member * days.size() + day) * plants];
  }
  [[nodiscard]] double alive(std::size_t member, std::size_t day) const {
    return lives.watched_alive[member * days.size() + day];
  }
  [[nodiscard]] std::size_t members() const { return lives.members.size(); }
};

Seen see(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
         const std::optional<RaisingPlace>& raising, std::vector<base::Date> days,
         SimulationOptions options) {
  options.leave_standing = true;
  options.watch = days;
  Seen seen;
  seen.days = std::move(days);
  seen.lives = simulate(weather, plan, facts, raising, options);
  seen.plants = seen.lives.clumps * seen.lives.ranks;
  seen.whole = seen.lives.sampled_plants > 0.0 ? seen.lives.plants / seen.lives.sampled_plants : 0.0;
  return seen;
}

void weigh_day(const Seen& seen, std::size_t day, const crop::Harvest& harvest, PictureDay& into) {
  std::vector<double> means, singles;
  double standing = 0.0;
  for (std::size_t m = 0; m < seen.members(); ++m) {
    const double* weights = seen.at(m, day);
    const std::uint8_t* up = seen.up(m, day);
    double sum = 0.0;
    double count = 0.0;
    for (std::size_t i = 0; i < seen.plants; ++i) {
      if (up[i] == 0) continue;
      sum += weights[i];
      count += 1.0;
      singles.push_back(weights[i]);
      into.class_share[static_cast<std::size_t>(size_class(harvest, weights[i]))] += seen.alive(m, day);
    }
    if (count > 0.0) means.push_back(sum / count);
    standing += count * seen.alive(m, day);
  }
  into.standing_plants = standing * seen.whole / static_cast<double>(seen.members());
  for (double& share : into.class_share) share = standing > 0.0 ? share / standing : 0.0;
  if (singles.empty()) return;
  into.plant_g = base::quantiles(means);
  into.one_plant_g = base::quantiles(singles);
}

// Drawn clumps are spread over the sample, so that inside and edge come in their shares.
std::vector<std::size_t> drawn_clumps(const Seen& seen, std::size_t wanted) {
  const std::size_t count = std::min(wanted, seen.lives.clumps);
  std::vector<std::size_t> drawn;
  for (std::size_t k = 0; k < count; ++k) drawn.push_back(k * seen.lives.clumps / count);
  return drawn;
}

void draw_day(const Seen& seen, std::size_t day, const std::vector<std::size_t>& drawn, PictureDay& into) {
  std::vector<double> sample;
  for (std::size_t p = 0; p < seen.lives.ranks; ++p) {
    for (const std::size_t c : drawn) {
      const std::size_t plant = p * seen.lives.clumps + c;
      sample.clear();
      for (std::size_t m = 0; m < seen.members(); ++m) {
        if (seen.up(m, day)[plant] != 0) sample.push_back(seen.at(m, day)[plant]);
      }
      const bool stands = 2 * sample.size() > seen.members();
      into.stands.push_back(stands ? 1 : 0);
      into.weight_g.push_back(stands ? base::quantiles(sample).p50 : 0.0);
    }
  }
}

StandPicture picture_of(const Seen& seen, const crop::Harvest& harvest, std::size_t clumps) {
  StandPicture made;
  const auto drawn = drawn_clumps(seen, clumps);
  made.clumps = drawn.size();
  made.ranks = seen.lives.ranks;
  for (const std::size_t c : drawn) made.open_sides.push_back(seen.lives.open_sides[c]);
  for (std::size_t day = 0; day < seen.days.size(); ++day) {
    PictureDay each;
    each.date = seen.days[day];
    weigh_day(seen, day, harvest, each);
    draw_day(seen, day, drawn, each);
    made.days.push_back(std::move(each));
  }
  return made;
}

std::vector<double> of_whole_stand(const Seen& seen, const std::vector<double>& per_clump) {
  std::vector<double> grams;
  for (const double each : per_clump)
    grams.push_back(each * static_cast<double>(seen.lives.clumps) * seen.whole);
  return grams;
}

base::Quantiles rest_gain(const Seen& before, const Seen& after, std::size_t day) {
  std::vector<double> gain(before.members(), 0.0);
  for (std::size_t m = 0; m < before.members(); ++m) {
    for (std::size_t i = 0; i < before.plants; ++i) {
      if (after.up(m, day)[i] == 0) continue;
      gain[m] += (after.at(m, day)[i] - before.at(m, day)[i]) * before.alive(m, day) * before.whole;
    }
  }
  return base::quantiles(gain);
}

}  // namespace

base::Result<StandPicture> picture(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
                                   const std::optional<RaisingPlace>& raising, const PictureQuery& query,
                                   const SimulationOptions& options) {
  auto days = days_of(weather, plan, facts, query);
  if (!days) return tl::unexpected(days.error());
  return picture_of(see(weather, plan, facts, raising, std::move(*days), options), weather.crop().harvest,
                    query.clumps);
}

base::Result<Trial> try_removal(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
                                const std::optional<RaisingPlace>& raising, const Removal& removal,
                                const PictureQuery& query, const SimulationOptions& options) {
  const auto days = days_of(weather, plan, facts, query);
  if (!days) return tl::unexpected(days.error());
  SimulationOptions with = options;
  with.removal = removal;
  const Seen before = see(weather, plan, facts, raising, *days, options);
  const Seen after = see(weather, plan, facts, raising, *days, with);
  Trial trial;
  trial.before = picture_of(before, weather.crop().harvest, query.clumps);
  trial.after = picture_of(after, weather.crop().harvest, query.clumps);
  trial.taken_g = base::quantiles(of_whole_stand(after, after.lives.removed_g));
  trial.greens_g = base::quantiles(of_whole_stand(after, after.lives.greens_g));
  trial.taken_plants = base::mean(after.lives.removed_plants) * after.whole;
  for (std::size_t day = 0; day < days->size(); ++day)
    trial.rest_gain_g.push_back(rest_gain(before, after, day));
  return trial;
}

}  // namespace sowtide::stand
