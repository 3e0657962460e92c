#include "plan/preparation.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "base/quantile.hpp"
#include "plan/store.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

using base::fail;
using base::ProblemCode;

/// A cell may be smaller than is usual for the crop by a quarter of its area before two are needed.
constexpr double kCellAreaSlack = 0.25;

/// The whole work: checks what was told, and has the parts made one after the other.
class Work {
 public:
  explicit Work(Preparation& garden) : garden_(garden) {}

  base::Result<PreparedGarden> run(const SourceMaker& make_source) {
    if (auto ok = check(); !ok) return tl::unexpected(ok.error());
    garden_.count.add(0);
    if (garden_.count.cancelled()) return cancelled();
    make_grid();
    if (auto ok = make_products(garden_); !ok) return tl::unexpected(ok.error());
    const auto crops = all_crops();
    if (!crops) return tl::unexpected(crops.error());
    garden_.source = make_source(*crops, garden_.out.grid);
    model().member_count = garden_.source->member_count();
    choose_scenarios();
    model().base_supply.assign(model().products.size(),
                               std::vector<double>(model().member_count * model().weeks, 0.0));
    model().tray_taken.assign(model().trays.size(), std::vector<int>(model().weeks, 0));
    model().mat_taken = model().tray_taken;
    if (auto ok = add_standing(garden_); !ok) return tl::unexpected(ok.error());
    if (auto ok = make_candidates(garden_); !ok) return tl::unexpected(ok.error());
    add_totals(garden_);
    ask_beyond_for_what_can_be_had(garden_);
    add_promised(garden_);
    add_store(garden_.input, garden_.out);
    finish_model(model());
    garden_.out.source = std::move(garden_.source);
    return std::move(garden_.out);
  }

 private:
  [[nodiscard]] GardenModel& model() const { return garden_.out.model; }

  base::Result<void> check() const {
    if (garden_.input.library == nullptr || garden_.input.weather == nullptr) {
      return fail(ProblemCode::internal, "planning needs a crop library and a weather ensemble");
    }
    if (garden_.options.weeks == 0 || garden_.options.weeks > 520 || garden_.options.scenarios == 0) {
      return fail(ProblemCode::out_of_range, "a plan covers 1 to 520 weeks and at least one weather year",
                  {"", 0, 0, "weeks"}, "Ask for a year (52 weeks) and 10 scenarios.");
    }
    std::set<std::string> ids;
    for (const Want& want : garden_.input.wants) {
      if (!std::isfinite(want.amount_per_week) || want.amount_per_week < 0.0) {
        return fail(ProblemCode::out_of_range, "want " + want.id + " asks for an impossible amount a week",
                    {"", 0, 0, "amount_per_week"}, "Give an amount of 0 or more.");
      }
      if (!(want.priority > 0.0) || !std::isfinite(want.priority)) {
        return fail(ProblemCode::out_of_range, "want " + want.id + " has a priority that is not above 0",
                    {"", 0, 0, "priority"}, "Give a priority from 0.1 to 10.");
      }
      if (!std::isfinite(want.total) || want.total < 0.0) {
        return fail(ProblemCode::out_of_range, "want " + want.id + " asks for an impossible total",
                    {"", 0, 0, "total"}, "Give a total of 0 or more.");
      }
      if (!(want.waste_dislike >= 0.0) || want.waste_dislike > 20.0) {
        return fail(ProblemCode::out_of_range, "want " + want.id + " has a waste dislike outside 0 to 20",
                    {"", 0, 0, "waste_dislike"}, "1 is usual; give more where nothing must spoil.");
      }
      if (!ids.insert(want.id).second) {
        return fail(ProblemCode::already_exists, "two wants are called " + want.id, {"", 0, 0, "id"},
                    "Rename one.");
      }
      if (want.crop.empty() == want.group.empty()) {
        return fail(ProblemCode::contradiction,
                    "want " + want.id + " must name a crop or a group, and not both", {"", 0, 0, "crop"},
                    "Keep one of them.");
      }
    }
    return {};
  }

  void make_grid() {
    garden_.out.grid.first_monday = base::week_start(garden_.input.today);
    const auto end =
        garden_.input.weather->first + base::Days{static_cast<int>(garden_.input.weather->day_count)};
    const auto covered = (end - garden_.out.grid.first_monday).count() / 7;
    garden_.out.grid.weeks = static_cast<std::size_t>(std::clamp<std::int64_t>(
        covered, 1, static_cast<std::int64_t>(garden_.options.weeks + garden_.options.weeks_after)));
    if (garden_.out.grid.weeks < garden_.options.weeks) {
      garden_.out.notes.push_back({{"weather-ends",
                                    {{"weeks", static_cast<double>(garden_.out.grid.weeks)},
                                     {"asked", static_cast<double>(garden_.options.weeks)}}}});
    }
    model().first_monday = garden_.out.grid.first_monday;
    model().latitude_deg = garden_.input.weather->site.latitude_deg;
    model().weeks = garden_.out.grid.weeks;
    model().told_weeks = std::min(garden_.out.grid.weeks, garden_.options.weeks);
    model().beds = garden_.input.beds;
    model().trays = garden_.input.trays;
    model().prices = garden_.options.prices;
  }

  /// Those of the products and of what stands there, each once.
  base::Result<std::vector<crop::Crop>> all_crops() const {
    std::vector<crop::Crop> crops;
    const auto add = [&crops](const crop::Crop& crop) {
      const bool known =
          std::any_of(crops.begin(), crops.end(), [&](const crop::Crop& c) { return c.id == crop.id; });
      if (!known) crops.push_back(crop);
    };
    for (const crop::Crop& crop : garden_.out.crops) add(crop);
    for (const FixedStand& fixed : garden_.input.fixed) {
      const auto crop = garden_.crop_with(fixed.plan.crop, fixed.plan.variety);
      if (!crop) return tl::unexpected(crop.error());
      add(*crop);
    }
    return crops;
  }

  /// Evenly over the members, so that early and late years of a record are both there.
  void choose_scenarios() {
    const std::size_t members = model().member_count;
    const std::size_t count = std::min(garden_.options.scenarios, members);
    for (std::size_t s = 0; s < count; ++s) model().scenarios.push_back(s * members / count);
  }

  Preparation& garden_;
};

}  // namespace

base::Result<crop::Crop> Preparation::crop_with(const std::string& id, const std::string& variety) const {
  const auto found = input.library->find(id);
  if (!found) return tl::unexpected(found.error());
  crop::Crop result = **found;
  if (!variety.empty()) {
    const auto match = std::find_if(input.varieties.begin(), input.varieties.end(),
                                    [&](const crop::Variety& v) { return v.id == variety; });
    if (match == input.varieties.end() || match->crop != id) {
      return fail(ProblemCode::not_found, "there is no variety " + variety + " of " + id,
                  {"", 0, 0, "variety"}, "Describe the variety in the garden, or leave the field empty.");
    }
    result = crop::with_variety(result, *match);
  }
  result.id = crop_key(id, variety);
  return result;
}

const bed::Tray* Preparation::tray_named(const std::string& id) const {
  const auto found =
      std::find_if(input.trays.begin(), input.trays.end(), [&](const bed::Tray& t) { return t.id == id; });
  return found == input.trays.end() ? nullptr : &*found;
}

std::optional<std::size_t> Preparation::bed_named(const std::string& id) const {
  for (std::size_t b = 0; b < input.beds.size(); ++b) {
    if (input.beds[b].id == id) return b;
  }
  return {};
}

int Preparation::grid_week(base::Date day) const {
  return week_of_day(static_cast<int>((day - out.grid.first_monday).count()));
}

bool Preparation::begins_beyond(const FixedStand& fixed) const {
  const base::Date begin = fixed.facts.sown.value_or(stand::begins_on(fixed.plan));
  return grid_week(begin) >= static_cast<int>(out.grid.weeks);
}

bool Preparation::has_light(const stand::StandPlan& stand, bed::SunClass sun) const {
  const auto bed = bed_named(stand.bed);
  return !bed || input.beds[*bed].sun == sun;
}

bool Preparation::is_bought(std::size_t product) const {
  return means[product].bought && out.crops[product].nursery.can_transplant;
}

int week_of_day(int day) {
  return day >= 0 ? day / 7 : -((-day + 6) / 7);
}

int day_quantile(const std::vector<int>& days, double p) {
  std::vector<double> sample;
  for (const int day : days) {
    if (day != kNeverDay) sample.push_back(day);
  }
  if (sample.empty()) return kNeverDay;
  std::sort(sample.begin(), sample.end());
  return static_cast<int>(std::lround(base::quantile_of_sorted(sample, p)));
}

void ChoiceCount::add(std::size_t some) {
  const std::lock_guard lock(mutex_);
  done_ += some;
  if (!watch_.laid_out || cancelled_) return;
  const double share = all_ == 0 ? 0.0 : static_cast<double>(done_) / static_cast<double>(all_);
  if (!watch_.laid_out(share)) cancelled_ = true;
}

tl::unexpected<base::Problem> cancelled() {
  return fail(ProblemCode::cancelled, "planning was stopped before there was a plan", {},
              "Nothing is changed; plan again when there is time.");
}

bool has_small_mat(const bed::Tray& tray) {
  return tray.place == bed::TrayPlace::heat_mat && tray.mat_cells > 0;
}

int last_week_on_mat(const SowingLife& life, int stay_last_week) {
  const int up = day_quantile(life.emerge_day, kStayQuantile);
  return up == kNeverDay ? stay_last_week : std::min(week_of_day(up), stay_last_week);
}

int places_in(const crop::Crop& crop, const bed::Tray& tray) {
  const double ratio = crop.nursery.cell_width_mm / std::max(1.0, tray.cell_width_mm);
  return std::max(1, static_cast<int>(std::ceil(ratio * ratio - kCellAreaSlack)));
}

base::Result<PreparedGarden> prepare_garden(const PlanInput& input, const PlanOptions& options,
                                            const SourceMaker& make_source, const ChoiceWatch& watch) {
  Preparation garden{input, options, watch};
  return Work(garden).run(make_source);
}

}  // namespace sowtide::plan
