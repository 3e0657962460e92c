#include "plan/made_up_crops.hpp"

#include <algorithm>

#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

crop::Crop made_up_crop(const std::string& id, const std::string& family, double spacing_mm) {
  crop::Crop crop;
  crop.id = crop.name = id;
  crop.family = family;
  crop.seed.embryos = {1.0};
  crop.seed.germination_pct.value = 80.0;
  crop.nursery.cell_width_mm.value = 40.0;
  crop.nursery.plants_per_clump.value = 1.0;
  crop.harvest.small_g.value = 50.0;
  crop.harvest.large_g.value = 200.0;
  crop.harvest.serving_g.value = 100.0;
  crop.harvest.edible_fraction.value = 0.8;
  crop.place.spacing_small_mm.value = 0.7 * spacing_mm;
  crop.place.spacing_large_mm.value = spacing_mm;
  crop.place.rotation_years.value = 3.0;
  crop.keeping.kitchen_days.value = 2.0;
  crop.keeping.fridge_days.value = 7.0;
  return crop;
}

bool bears_fruits(const std::string& crop) {
  return crop.rfind("fruits", 0) == 0;
}

class MadeUpSource final : public SowingSource {
 public:
  MadeUpSource(std::size_t members, WeekGrid grid, double colder_k)
      : members_(members), grid_(grid), colder_k_(colder_k) {}
  [[nodiscard]] std::size_t member_count() const override { return members_; }

  [[nodiscard]] base::Result<SowingLife> life(
      const crop::Crop& crop, const stand::StandPlan& plan, const stand::StandFacts& facts,
      const std::optional<stand::RaisingPlace>& raising, const stand::BedPlace& bed) const override {
    SowingLife life;
    life.weekly_g.assign(members_ * grid_.weeks, 0.0);
    const base::Date sown = facts.sown.value_or(plan.sow);
    const int day = static_cast<int>((sown - grid_.first_monday).count());
    const base::Date as_if = sown - base::Days{static_cast<int>(10.0 * colder_k_)};
    const bool in_season = base::month_of(as_if) >= 3 && base::month_of(as_if) <= 8;
    const bool fruits = bears_fruits(crop.id);
    const MadeUpLife made_up = made_up_life(crop.id, raising.has_value());
    for (std::size_t m = 0; m < members_; ++m) {
      const int first = day + made_up.to_first_pick + (m % 2 == 0 ? 0 : kLaterDays);
      for (int k = 0; k < made_up.picks && in_season; ++k) {
        const int week = (first + 7 * k) / 7;
        if (first < 0 || week >= static_cast<int>(grid_.weeks)) continue;
        life.weekly_g[m * grid_.weeks + static_cast<std::size_t>(week)] +=
            plan.clumps * (fruits ? 300.0 : 100.0) * (bed.sun == bed::SunClass::full ? 1.0 : kPartShadeShare);
      }
      life.emerge_day.push_back(day + (m % 2 == 0 ? 6 : 12));
      life.set_out_day.push_back(raising ? day + made_up.raised : kNeverDay);
      life.end_day.push_back(in_season ? first + 7 * made_up.picks - 1 : kNeverDay);
    }
    life.success = in_season ? 1.0 : 0.0;
    life.limits = in_season ? "" : "frost";
    life.warmth_c = warmth_c(plan.method, facts.sown.value_or(stand::begins_on(plan)));
    return life;
  }

  [[nodiscard]] std::optional<double> warmth_c(stand::Method /*method*/, base::Date sow) const override {
    return 0.1 * base::climatological_day(sow) - colder_k_;
  }

 private:
  std::size_t members_;
  WeekGrid grid_;
  double colder_k_;
};

}  // namespace

MadeUpLife made_up_life(const std::string& crop, bool raised) {
  constexpr int kRaisedDays = 28;
  const int raise = raised ? kRaisedDays : 0;
  if (bears_fruits(crop)) return {raise, raise + 63, 8};
  return {raise, raise + (crop.rfind("bulbs", 0) == 0 ? 98 : 42), 2};
}

crop::CropLibrary made_up_library() {
  crop::CropLibrary library;
  crop::Crop greens = made_up_crop("greens", "Asteraceae", 250.0);
  greens.place.sun = crop::SunNeed::partial;
  greens.nursery.can_transplant = false;
  greens.groups = {"soup"};
  crop::Crop roots = made_up_crop("roots", "Apiaceae", 100.0);
  roots.nursery.can_transplant = false;
  roots.keeping.fridge_days.value = 60.0;
  roots.groups = {"soup"};
  crop::Crop fruits = made_up_crop("fruits", "Solanaceae", 600.0);
  fruits.nursery.can_direct_sow = false;
  const crop::Crop bulbs = made_up_crop("bulbs", "Amaryllidaceae", 150.0);
  for (const crop::Crop& crop : {greens, roots, fruits, bulbs}) library.crops.emplace(crop.id, crop);
  return library;
}

climate::WeatherEnsemble blank_weather(base::Date first, std::size_t days, std::size_t members) {
  climate::WeatherEnsemble weather;
  weather.first = first;
  weather.day_count = days;
  weather.member_count = members;
  return weather;
}

SourceMaker made_up_source(std::size_t members, double colder_k) {
  return [members, colder_k](const std::vector<crop::Crop>&, const WeekGrid& grid) {
    return std::make_unique<MadeUpSource>(members, grid, colder_k);
  };
}

PlanInput made_up_input(const crop::CropLibrary& library, const climate::WeatherEnsemble& weather) {
  PlanInput input;
  input.library = &library;
  input.weather = &weather;
  input.today = weather.first;
  input.beds = {{"north", "North bed", 3.0, 1.2, bed::SunClass::full, bed::BedKind::raised, false},
                {"south", "South bed", 2.4, 1.0, bed::SunClass::full, bed::BedKind::raised, false},
                {"hedge", "Hedge bed", 2.0, 1.2, bed::SunClass::partial, bed::BedKind::raised, false}};
  input.trays = {{"shelf", "Shelf", 60, 40.0, bed::TrayPlace::indoors, 20.0}};
  for (const auto& [id, crop] : library.crops) {
    Want want;
    want.id = "w-" + id;
    want.crop = id;
    want.amount_per_week = 600.0;
    want.from = {6, 1};
    want.to = {10, 31};
    input.wants.push_back(want);
  }
  return input;
}

}  // namespace sowtide::plan
