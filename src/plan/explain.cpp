#include "plan/explain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace sowtide::plan {
namespace {

/// Mean servings of one clump by week, over the scenarios.
std::vector<double> mean_weeks(const GardenModel& model, const Candidate& candidate) {
  std::vector<double> mean(model.weeks, 0.0);
  for (const std::size_t m : model.scenarios) {
    for (std::size_t w = 0; w < model.weeks; ++w) mean[w] += candidate.servings[m * model.weeks + w];
  }
  for (double& servings : mean) servings /= static_cast<double>(model.scenarios.size());
  return mean;
}

std::string day_text(const GardenModel& model, std::size_t week) {
  return base::to_iso(model.first_monday + base::Days{static_cast<int>(7 * week)});
}

std::string what_it_brings(const GardenModel& model, const Candidate& candidate, int clumps) {
  const std::vector<double> mean = mean_weeks(model, candidate);
  double total = 0.0;
  std::size_t first = model.weeks, last = 0;
  for (std::size_t w = 0; w < model.weeks; ++w) {
    if (mean[w] <= 0.0) continue;
    total += mean[w];
    first = std::min(first, w);
    last = w;
  }
  if (first == model.weeks) return "It brings nothing within the plan.";
  const double grams = total * clumps * model.products[candidate.product].serving_g;
  return fmt::format("{} {} bring about {:.1f} kg, picked between the weeks of {} and {}.", clumps,
                     clumps == 1 ? "clump" : "clumps", grams / 1000.0, day_text(model, first),
                     day_text(model, last));
}

/// The same sowing a number of weeks off, if the model has it.
std::optional<std::size_t> shifted(const GardenModel& model, const Candidate& candidate, int weeks) {
  for (std::size_t c = 0; c < model.candidates.size(); ++c) {
    const Candidate& other = model.candidates[c];
    if (other.product == candidate.product && other.tray == candidate.tray &&
        other.sow_week == candidate.sow_week + weeks)
      return c;
  }
  return {};
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

std::string shift_text(const char* when, const std::optional<double>& change) {
  if (!change) return fmt::format(" A week {} is not worth trying here.", when);
  if (*change >= 0.0) return fmt::format(" A week {} would cost {:.1f} servings.", when, *change);
  return fmt::format(" A week {} would bring {:.1f} servings more if the place were free then.", when,
                     -*change);
}

std::string stand_before(const GardenModel& model, const std::vector<PlacedStand>& placed, std::size_t which,
                         const std::vector<stand::StandPlan>& stands) {
  const Candidate& own = model.candidates[placed[which].candidate];
  std::optional<std::size_t> latest;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const Candidate& other = model.candidates[placed[i].candidate];
    if (placed[i].bed != placed[which].bed || other.bed_last_week >= own.bed_first_week) continue;
    if (stands[i].to_m <= stands[which].from_m || stands[which].to_m <= stands[i].from_m) continue;
    if (!latest || other.bed_last_week > model.candidates[placed[*latest].candidate].bed_last_week)
      latest = i;
  }
  if (!latest) return {};
  return fmt::format(" It follows {} ({}) on its stretch.", stands[*latest].id, stands[*latest].crop);
}

std::string sun_text(const Candidate& candidate, const bed::Bed& bed) {
  if (bed.sun == bed::SunClass::partial) return " It bears part shade and leaves full sun to others.";
  return candidate.stands_part_shade ? std::string{} : " It needs full sun.";
}

}  // namespace

std::string reason_for_stand(const GardenModel& model, ForwardPass& judge,
                             const std::vector<PlacedStand>& placed, std::size_t which,
                             const std::vector<stand::StandPlan>& stands) {
  const PlacedStand& stand = placed[which];
  const Candidate& candidate = model.candidates[stand.candidate];
  std::string text = what_it_brings(model, candidate, stand.clumps);
  text += fmt::format(" Without it the table would lose {:.1f} servings.",
                      judge.change_by(stand.candidate, -stand.clumps));
  text += shift_text("earlier", cost_of_shift(model, judge, stand, -1));
  text += shift_text("later", cost_of_shift(model, judge, stand, 1));
  text += sun_text(candidate, model.beds[stand.bed]);
  text += stand_before(model, placed, which, stands);
  if (candidate.success < 0.995)
    text += fmt::format(" It succeeds in {:.0f} of 100 years.", 100.0 * candidate.success);
  return text;
}

std::vector<Worth> worths_of(const GardenModel& model, const Formulation& formulation,
                             const LinearSolution& relaxation) {
  constexpr double kWorthNaming = 0.05;
  const auto sum_of = [&](const std::vector<int>& rows) {
    double servings = 0.0;
    for (const int row : rows) {
      if (row >= 0) servings -= relaxation.row_prices[static_cast<std::size_t>(row)];
    }
    return servings;
  };
  std::vector<Worth> worths;
  for (std::size_t g = 0; g < model.groups.size(); ++g) {
    const BedGroup& group = model.groups[g];
    const char* sun = group.sun == bed::SunClass::full ? "full sun" : "part shade";
    // A new metre is open to every family as well as in every week.
    const double servings = sum_of(formulation.bed_rows[g]) + sum_of(formulation.family_rows[g]);
    worths.push_back({fmt::format("metre of bed, {}, {:.1f} m wide", sun, group.width_m), servings});
  }
  for (std::size_t t = 0; t < model.trays.size(); ++t) {
    worths.push_back({"cell in tray " + model.trays[t].id, sum_of(formulation.tray_rows[t])});
  }
  std::erase_if(worths, [](const Worth& worth) { return worth.servings < kWorthNaming; });
  std::stable_sort(worths.begin(), worths.end(),
                   [](const Worth& a, const Worth& b) { return a.servings > b.servings; });
  return worths;
}

}  // namespace sowtide::plan
