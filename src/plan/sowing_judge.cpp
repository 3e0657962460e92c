#include "plan/sowing_judge.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "plan/labour.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

/// A sowing that succeeds in fewer than this share of the weather years is not proposed.
constexpr double kLeastSuccess = 0.3;

class SowingJudge {
 public:
  explicit SowingJudge(const Preparation& garden) : garden_(garden) {}

  std::optional<Candidate> judge(const Way& way, std::size_t week, int ready_week_pulled,
                                 SowingNote& note) const {
    Candidate candidate;
    candidate.sowing = way.like;
    const base::Date monday = garden_.out.grid.first_monday + base::Days{static_cast<int>(7 * week)};
    const base::Date begin = std::max(monday, garden_.input.today);
    candidate.sowing.sow = begin;
    if (stand::bought_as_plants(way.like))
      stand::set_out_as_bought(candidate.sowing, begin, garden_.out.crops[way.product]);
    if (way.wanted) {
      std::optional<base::Date> ready;
      if (ready_week_pulled != kNeverReady)
        ready = garden_.out.grid.first_monday + base::Days{7 * ready_week_pulled};
      const Pulling pulling = pulling_of(way, begin, ready);
      candidate.sowing.pick_from = pulling.from;
      candidate.sowing.pick_weeks = pulling.weeks;
    }
    if (way.cells && way.cells->size() < 2) return {};
    const bed::Tray* tray =
        way.tray >= 0 ? &garden_.input.trays[static_cast<std::size_t>(way.tray)] : nullptr;
    const stand::SowingDay day = garden_.source->sowing_day(garden_.out.crops[way.product], candidate.sowing);
    note = {.success = day.success, .limits = std::string(stand::limit_text(day.limit))};
    if (!day.in_window) return {};
    const auto life = garden_.source->life(garden_.out.crops[way.product], candidate.sowing, {},
                                           stand::raising_of(candidate.sowing, tray), way.bed);
    if (!life) return {};
    note = {.success = life->success, .limits = life->limits, .ready_week = ready_week(*life)};
    if (life->success < kLeastSuccess) return {};
    candidate.product = way.product;
    candidate.sun = way.bed.sun;
    candidate.success = life->success;
    candidate.sow_week = static_cast<int>(week);
    candidate.tray = way.tray;
    candidate.cells_for_clumps = way.cells;
    candidate.tray_places = way.places;
    note.beyond = !set_times(candidate, *life) || !set_supply(candidate, *life) || can_wait(candidate);
    if (note.beyond) return {};
    describe(candidate);
    candidate.sowing.planned_c = life->warmth_c;
    return candidate;
  }

 private:
  [[nodiscard]] const GardenModel& model() const { return garden_.out.model; }

  /// When a stand that is left standing is pulled.
  struct Pulling {
    base::Date from{};
    int weeks = 0;
  };

  /// The first such day after another.
  static base::Date next_day(base::MonthDay day, base::Date after) {
    const base::Date same_year = base::in_year(day, base::year_of(after));
    return same_year > after ? same_year : base::in_year(day, base::year_of(after) + 1);
  }

  /// While it is wanted. What is ready within those weeks is pulled from then on, for as long as they last;
  /// what is ready before or after them waits until they come.
  static Pulling pulling_of(const Way& way, base::Date begin, std::optional<base::Date> ready) {
    const base::Date from = ready.value_or(begin);
    base::Date first = base::in_year(way.wanted->from, base::year_of(from));
    if (first > from) first = base::in_year(way.wanted->from, base::year_of(from) - 1);
    base::Date last = base::in_year(way.wanted->to, base::year_of(first));
    if (last < first) last = base::in_year(way.wanted->to, base::year_of(first) + 1);
    if (!ready || from > last) return {next_day(way.wanted->from, from), way.like.pick_weeks};
    const int weeks = static_cast<int>((last - from).count()) / 7 + 1;
    return {from, std::min(weeks, stand::kMostPickWeeks)};
  }

  /// The week in which half of the years that give something have first given it.
  int ready_week(const SowingLife& life) const {
    const std::size_t weeks = garden_.out.grid.weeks;
    std::vector<int> first;
    for (auto year = life.weekly_g.begin(); year != life.weekly_g.end();
         year += static_cast<std::ptrdiff_t>(weeks)) {
      const auto end = year + static_cast<std::ptrdiff_t>(weeks);
      const auto given = std::find_if(year, end, [](double grams) { return grams > 0.0; });
      if (given != end) first.push_back(static_cast<int>(given - year));
    }
    if (first.empty()) return kNeverReady;
    const auto middle = first.begin() + static_cast<std::ptrdiff_t>(first.size() / 2);
    std::nth_element(first.begin(), middle, first.end());
    return *middle;
  }

  /// When it needs a tray and a bed; false when that lies outside the plan's weeks.
  bool set_times(Candidate& candidate, const SowingLife& life) const {
    const int end_day = day_quantile(life.end_day, kStayQuantile);
    if (end_day == kNeverDay) return false;
    candidate.bed_first_week = candidate.sow_week;
    if (candidate.tray >= 0) {
      const int set_out = day_quantile(life.set_out_day, 0.5);
      if (set_out == kNeverDay) return false;
      candidate.bed_first_week = std::max(candidate.sow_week, week_of_day(set_out));
      candidate.tray_first_week = candidate.sow_week;
      candidate.tray_last_week =
          std::max(candidate.sow_week, week_of_day(day_quantile(life.set_out_day, kStayQuantile)));
      if (has_small_mat(garden_.input.trays[static_cast<std::size_t>(candidate.tray)]))
        candidate.mat_last_week =
            std::max(candidate.sow_week, last_week_on_mat(life, candidate.tray_last_week));
    }
    candidate.bed_last_week = std::max(candidate.bed_first_week, week_of_day(end_day));
    return candidate.bed_first_week < static_cast<int>(garden_.out.grid.weeks);
  }

  void describe(Candidate& candidate) const {
    describe_needs(garden_.out.crops[candidate.product], candidate);
    const bool bought = stand::bought_as_plants(candidate.sowing);
    candidate.sow_hours = bought ? 0.0 : candidate.tray >= 0 ? kSowCellHours : kSowInPlaceHours;
    candidate.bed_hours = bought || candidate.tray >= 0 ? kSetOutHours : 0.0;
    draw_seed(garden_, candidate);
  }

  /// What one clump brings while the bed is its own; false when that is nothing.
  bool set_supply(Candidate& candidate, const SowingLife& life) const {
    const std::size_t weeks = garden_.out.grid.weeks;
    const double per_clump = 1.0 / (kJudgedClumps * model().products[candidate.product].serving_g);
    candidate.servings.assign(life.weekly_g.size(), 0.0);
    double sum = 0.0;
    for (std::size_t i = 0; i < life.weekly_g.size(); ++i) {
      if (static_cast<int>(i % weeks) > candidate.bed_last_week) continue;
      candidate.servings[i] = life.weekly_g[i] * per_clump;
      sum += candidate.servings[i];
    }
    candidate.expected_servings = sum * static_cast<double>(weeks) /
                                  static_cast<double>(std::max<std::size_t>(1, life.weekly_g.size()));
    return sum > 0.0;
  }

  /// Whether it is sown in the second half of the plan for the time after it alone: then the next plan sows
  /// it.
  bool can_wait(const Candidate& candidate) const {
    if (2 * static_cast<std::size_t>(candidate.sow_week) < model().told_weeks) return false;
    for (std::size_t i = 0; i < candidate.servings.size(); ++i) {
      if (candidate.servings[i] > 0.0 && i % model().weeks < model().told_weeks) return false;
    }
    return true;
  }

  const Preparation& garden_;
};

}  // namespace

std::optional<Candidate> judge_sowing(const Preparation& garden, const Way& way, std::size_t week,
                                      int ready_week_pulled, SowingNote& note) {
  return SowingJudge(garden).judge(way, week, ready_week_pulled, note);
}

void describe_needs(const crop::Crop& crop, Candidate& candidate) {
  candidate.family = crop.family;
  candidate.rotation_years = crop.place.rotation_years;
  candidate.stands_part_shade = crop.place.sun == crop::SunNeed::partial;
  candidate.feeder = crop.place.feeder;
  candidate.height_m = crop.place.height_m.value;
  candidate.spacing_mm = static_cast<int>(std::lround(candidate.sowing.spacing_mm));
  if (crop.place.least_block)
    candidate.least_clumps = static_cast<int>(
        std::ceil(*crop.place.least_block / std::max(1.0, candidate.sowing.plants_per_clump) - 1e-9));
}

}  // namespace sowtide::plan
