#include "stand/garden_yield.hpp"

#include <algorithm>

#include "base/quantile.hpp"

namespace sowtide::stand {
namespace {

constexpr double kWorthSowing = 0.7;
// Small plants stand twice as close in a row as on the square; large ones (heads, fruit) keep their distance.
constexpr double kThickInRowMm = 250.0;

StandPlan plan_of(const crop::Crop& crop) {
  StandPlan plan;
  plan.id = crop.id;
  plan.crop = crop.id;
  plan.clumps = 100;
  plan.spacing_mm = crop.place.spacing_large_mm;
  return plan;
}

std::vector<Method> methods_of(const crop::Crop& crop) {
  std::vector<Method> methods;
  if (crop.nursery.can_direct_sow) methods.push_back(Method::direct_sow);
  if (crop.nursery.can_transplant) methods.push_back(Method::start_indoors);
  return methods;
}

struct OneDay {
  double grams = 0.0, days = 0.0, success = 0.0;
  base::Date sow{};
  Method method = Method::direct_sow;
};

OneDay sowing(const CropWeather& weather, const StandPlan& plan, const SimulationOptions& options) {
  const StandLives lives = simulate(weather, plan, {}, RaisingPlace{}, options);
  OneDay day{.sow = plan.sow, .method = plan.method};
  std::vector<double> days;  // of the years that give a harvest
  const auto members = static_cast<double>(lives.members.size());
  for (const auto& life : lives.members) {
    day.grams += life.success ? life.taken_g / members : 0.0;
    day.success += life.success ? 1.0 / members : 0.0;
    if (life.success) days.push_back(life.last_pick_day - static_cast<double>(lives.first_day));
  }
  if (!days.empty()) day.days = base::mean(days);
  return day;
}

// Sown where it grows and raised in trays, on every half month: what does best, and what does nearly so.
std::vector<OneDay> sowings(const CropWeather& weather, StandPlan plan, const SimulationOptions& options) {
  std::vector<OneDay> found;
  const int year = base::year_of(weather.ensemble().first);
  for (const Method method : methods_of(weather.crop())) {
    plan.method = method;
    for (int half_month = 0; half_month < 24; ++half_month) {
      plan.sow = base::date_of(year, 1 + half_month / 2, half_month % 2 == 0 ? 1 : 15);
      found.push_back(sowing(weather, plan, options));
    }
  }
  std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.grams > b.grams; });
  const double least = kWorthSowing * found.front().grams;
  std::erase_if(found, [&](const OneDay& day) { return !(day.grams > 0.0) || day.grams < least; });
  return found;
}

}  // namespace

GardenYield garden_yield(const CropWeather& weather) {
  const StandPlan plan = plan_of(weather.crop());
  const auto days = sowings(weather, plan, {.sampled_clumps = 16});
  if (days.empty()) return {};
  const OneDay& best = days.front();
  const OneDay& middle = days[days.size() / 2];
  const double ground_m2 = plan.spacing_mm * plan.spacing_mm * 1e-6;
  return {.kg_m2 = middle.grams * 1e-3 / ground_m2,
          .days = middle.days,
          .best = {.sow = best.sow, .method = best.method, .days = best.days, .success = best.success}};
}

RowPlanting usual_row(const crop::Crop& crop) {
  const double spacing_mm = crop.place.spacing_large_mm;
  return {.in_row_mm = spacing_mm < kThickInRowMm ? 0.5 * spacing_mm : spacing_mm,
          .row_mm = crop.place.row_spacing_mm};
}

double row_yield_kg_m(const CropWeather& weather, const RowPlanting& row) {
  StandPlan plan = plan_of(weather.crop());
  plan.spacing_mm = row.in_row_mm;
  plan.arrangement = Arrangement::rows;
  plan.row_spacing_mm = row.row_mm;
  const SimulationOptions options{.sampled_clumps = 16};
  const auto days = sowings(weather, plan, options);
  return days.empty() ? 0.0 : days[days.size() / 2].grams / plan.spacing_mm;
}

}  // namespace sowtide::stand
