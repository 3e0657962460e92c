#include <algorithm>
#include <cmath>
#include <utility>

#include "base/parallel.hpp"
#include "plan/preparation.hpp"
#include "stand/places.hpp"
#include "stand/stay.hpp"

namespace sowtide::plan {
namespace {

/// What stands in the beds and trays of one garden, and what stood there.
class Standing {
 public:
  explicit Standing(Preparation& garden) : garden_(garden) {}

  base::Result<void> add() {
    if (auto ok = add_fixed(); !ok) return ok;
    count_picking_of_fixed();
    add_former();
    add_past();
    return {};
  }

 private:
  [[nodiscard]] GardenModel& model() const { return garden_.out.model; }

  base::Result<void> add_fixed() {
    std::vector<base::Result<SowingLife>> lives(garden_.input.fixed.size());
    base::parallel_for(garden_.input.fixed.size(), [&](std::size_t i) {
      const FixedStand& fixed = garden_.input.fixed[i];
      lives[i] = SowingLife{};
      if (garden_.begins_beyond(fixed)) return;
      const auto crop = garden_.crop_with(fixed.plan.crop, fixed.plan.variety);
      lives[i] = garden_.source->life(*crop, fixed.plan, fixed.facts,
                                      stand::raising_of(fixed.plan, garden_.tray_named(fixed.plan.tray)),
                                      stand::bed_place(garden_.input.beds, fixed.plan));
    });
    for (std::size_t i = 0; i < lives.size(); ++i) {
      if (!lives[i]) return tl::unexpected(lives[i].error());
      if (garden_.begins_beyond(garden_.input.fixed[i]))
        garden_.out.notes.push_back({{"stand-beyond-plan", {{"stand", garden_.input.fixed[i].plan.id}}}});
      take_room(garden_.input.fixed[i], *lives[i]);
      add_supply(garden_.input.fixed[i], *lives[i]);
    }
    return {};
  }

  /// The day by which so many of the years for which it happens have it; nothing where it happens in none.
  std::optional<base::Date> date_quantile(const std::vector<int>& days, double share) const {
    const int day = day_quantile(days, share);
    return day == kNeverDay ? std::nullopt : std::optional(garden_.out.grid.first_monday + base::Days{day});
  }

  void take_room(const FixedStand& fixed, const SowingLife& life) {
    const bool raised = fixed.plan.method == stand::Method::start_indoors;
    const base::Date sown = fixed.facts.sown.value_or(fixed.plan.sow);
    const int first_week = garden_.grid_week(sown);
    /// When so many of the years have set it out, or when that was decided.
    const auto set_out_by = [&](double share) {
      const auto expected = date_quantile(life.set_out_day, share);
      return std::max(
          sown, stand::goes_out_on(fixed.plan, fixed.facts, expected, garden_.input.today).value_or(sown));
    };
    const base::Date enters = raised ? set_out_by(0.5) : sown;
    const int last_week_in_tray = garden_.grid_week(set_out_by(kStayQuantile));
    take_cells(fixed, first_week, last_week_in_tray, model().tray_taken);
    take_cells(fixed, first_week, last_week_on_mat(life, last_week_in_tray), model().mat_taken);
    const auto bed = garden_.bed_named(fixed.plan.bed);
    if (!bed) {
      garden_.out.notes.push_back({{"stand-without-bed", {{"stand", fixed.plan.id}}}});
      return;
    }
    const int last_week =
        garden_.grid_week(stand::leaves_bed_on(enters, date_quantile(life.end_day, kStayQuantile)));
    take_ground(fixed.plan, *bed, garden_.grid_week(enters), last_week);
  }

  void take_ground(const stand::StandPlan& stand, std::size_t bed, int first_week, int last_week) {
    TakenStretch taken{bed, whole_mm(stand.from_m), whole_mm(stand.to_m), first_week, last_week};
    taken.stand = stand.id;
    taken.crop = stand.crop;
    if (const auto crop = garden_.input.library->find(stand.crop)) {
      taken.family = (*crop)->family;
      taken.feeder = (*crop)->place.feeder;
      taken.height_m = (*crop)->place.height_m.value;
      taken.needs_sun = (*crop)->place.sun == crop::SunNeed::full;
    }
    model().taken.push_back(std::move(taken));
  }

  /// What is over has left its ground to the first week of the plan on.
  void add_former() {
    for (const FormerStand& former : garden_.input.former) {
      if (const auto bed = garden_.bed_named(former.plan.bed))
        take_ground(former.plan, *bed, garden_.grid_week(former.entered),
                    std::min(-1, garden_.grid_week(former.left)));
    }
  }

  /// What was sown stands in the tray as a sowing to choose does: with the room that its seedlings ask for.
  void take_cells(const FixedStand& fixed, int first_week, int last_week,
                  std::vector<std::vector<int>>& taken) {
    if (fixed.facts.set_out || fixed.plan.method != stand::Method::start_indoors) return;
    const auto crop = garden_.input.library->find(fixed.plan.crop);
    for (std::size_t t = 0; t < garden_.input.trays.size(); ++t) {
      if (garden_.input.trays[t].id != fixed.plan.tray) continue;
      const int places = crop ? places_in(**crop, garden_.input.trays[t]) : 1;
      for (int w = std::max(0, first_week); w <= last_week && w < static_cast<int>(model().weeks); ++w) {
        taken[t][static_cast<std::size_t>(w)] += stand::places_of(fixed.plan) * places;
      }
    }
  }

  void add_supply(const FixedStand& fixed, const SowingLife& life) {
    const stand::StandPlan& stand = fixed.plan;
    const auto product = sown_product(model(), stand.crop, stand.variety, stand.size);
    if (!product) return;
    for (std::size_t i = 0; i < life.weekly_g.size(); ++i)
      model().base_supply[*product][i] += life.weekly_g[i] / model().products[*product].serving_g;
  }

  /// Picking what stands there already takes hours too, the mean of the model's years.
  void count_picking_of_fixed() {
    model().hours_taken.assign(model().weeks, 0.0);
    for (std::size_t p = 0; p < model().products.size(); ++p) {
      for (std::size_t w = 0; w < model().weeks; ++w)
        model().hours_taken[w] +=
            model().products[p].pick_hours * mean_of_years(model(), model().base_supply[p], w);
    }
  }

  void add_past() {
    for (const bed::PastCrop& past : garden_.input.past) {
      const auto bed = garden_.bed_named(past.bed);
      if (!bed) continue;
      model().past.push_back({*bed, whole_mm(past.from_m), whole_mm(past.to_m), past.family, past.year});
    }
  }

  Preparation& garden_;
};

}  // namespace

base::Result<void> add_standing(Preparation& garden) {
  return Standing(garden).add();
}

}  // namespace sowtide::plan
