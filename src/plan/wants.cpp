#include <algorithm>

#include "plan/plan.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

bool may_be_bought(const PlanInput& input, const crop::Crop& crop) {
  return std::any_of(input.wants.begin(), input.wants.end(),
                     [&crop](const Want& want) { return want.bought && takes_crop(want, crop); });
}

}  // namespace

base::Date weather_needed_from(const PlanInput& input) {
  int longest_days = 0;
  for (const auto& [id, crop] : input.library->crops) {
    if (!crop.nursery.can_transplant || !may_be_bought(input, crop)) continue;
    longest_days = std::max(longest_days, stand::raising_days(crop));
    for (const crop::Variety& variety : input.varieties) {
      if (variety.crop == id)
        longest_days = std::max(longest_days, stand::raising_days(crop::with_variety(crop, variety)));
    }
  }
  base::Date first = std::min(base::week_start(input.today), input.today - base::Days{longest_days});
  for (const FixedStand& fixed : input.fixed)
    first = std::min(first, fixed.facts.sown.value_or(fixed.plan.sow));
  return base::week_start(first);
}

double seeds_left(const PlanInput& input, const crop::Packet& packet) {
  const auto gone = input.seeds_gone.find(packet.id);
  return std::max(0.0, packet.seeds - (gone == input.seeds_gone.end() ? 0.0 : gone->second));
}

double wanted_in_week(const Want& want, base::Date monday, base::Date from) {
  constexpr int kWeekDays = 7;
  int days = 0;
  for (int k = 0; k < kWeekDays; ++k) {
    const base::Date day = monday + base::Days{k};
    if (day >= from && base::contains({want.from, want.to}, base::month_day_of(day))) ++days;
  }
  return want.amount_per_week * days / kWeekDays;
}

std::optional<std::size_t> week_of_total(const Want& want, base::Date first_monday, std::size_t weeks,
                                         base::Date today) {
  constexpr std::size_t kWeekDays = 7;
  if (want.total <= 0.0) return std::nullopt;
  for (std::size_t d = 0; d < kWeekDays * weeks; ++d) {
    const base::Date day = first_monday + base::Days{static_cast<int>(d)};
    if (day >= today && day == base::in_year(want.to, base::year_of(day))) return d / kWeekDays;
  }
  return std::nullopt;
}

std::size_t last_week_to_lie_in_store(const Want& want, base::Date first_monday, std::size_t due,
                                      const std::vector<bool>& can_lie) {
  const base::YearSpan range{want.from, want.to};
  for (std::size_t w = due;; --w) {
    const base::Date sunday = first_monday + base::Days{static_cast<int>(7 * w) + 6};
    if (w != due && !base::contains(range, base::month_day_of(sunday))) return due;
    if (can_lie[w]) return w;
    if (w == 0) return due;
  }
}

bool takes_crop(const Want& want, const crop::Crop& crop) {
  if (!want.crop.empty()) return want.crop == crop.id;
  return std::find(crop.groups.begin(), crop.groups.end(), want.group) != crop.groups.end();
}

bool takes(const Want& want, const crop::Crop& crop, const std::string& variety) {
  const bool any_variety = want.crop.empty() || want.variety.empty();
  return takes_crop(want, crop) && (any_variety || want.variety == variety);
}

double grams_per_unit(const Want& want, const crop::Crop& crop) {
  constexpr double kLeastEdible = 0.05;
  const crop::Harvest& harvest = crop.harvest;
  switch (want.unit) {
    case WantUnit::grams:
      return 1.0;
    case WantUnit::servings:
      return std::max(1.0, harvest.serving_g.value) /
             std::clamp(harvest.edible_fraction.value, kLeastEdible, 1.0);
    case WantUnit::pieces:
      return std::max(1.0,
                      want.size == stand::SizeGoal::small ? harvest.small_g.value : harvest.large_g.value);
  }
  return 1.0;
}

}  // namespace sowtide::plan
