#include "desk/nursery.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/parallel.hpp"
#include "desk/overdue.hpp"
#include "desk/present.hpp"
#include "desk/raising.hpp"
#include "desk/stand_stage.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::Days;
using stand::NurseryVerdict;

constexpr int kMostWeeks = 78;
constexpr int kWeek = 7;
constexpr double kLightShareOfSolar = 0.5;  // 400 to 700 nm, as in the growth model
constexpr double kWorthSaying = 0.02;       // a loss below this is not spoken of

bool in_nursery(const Season& season, const book::StandState& stand) {
  const StandStage stage = stand_stage(stand.facts);
  return !sowing_failed(season, stand) && stand.plan.method == stand::Method::start_indoors &&
         !to_be_bought(stand.plan, stand.facts) && !sowing_missed(stand.plan, stand.facts, season.today) &&
         (stage == StandStage::planned || stage == StandStage::sown || stage == StandStage::up);
}

/// The day of sowing; what is overdue is sown today.
Date sown_on(const Season& season, std::size_t stand) {
  const book::StandState seen = as_seen(season, season.state.stands[stand]);
  return seen.facts.sown.value_or(seen.plan.sow);
}

std::string loss_words(const RaisedStand& raised) {
  if (raised.late_cost.size() < 3 || raised.late_cost.front().harvest_g <= 0.0) return {};
  const double lost = 1.0 - raised.late_cost[2].harvest_g / raised.late_cost.front().harvest_g;
  if (lost < kWorthSaying) return "; two weeks late costs next to nothing";
  return fmt::format("; two weeks late costs {} of the harvest", percent_text(lost));
}

/// "goes out 16 Apr", or that its day is past.
std::string set_out_words(Date set_out, Date today, const std::string& day) {
  return set_out < today ? fmt::format("was to go out {}: set it out now", day) : fmt::format("goes out {}", day);
}

std::string reason_of(const Season& season, const RaisedStand& raised, const crop::Crop& crop) {
  const stand::NurseryOutlook& o = raised.outlook;
  const Units units = units_of(season.garden.units);
  const auto day = [&](Date date) { return date_text(date, units, season.today); };
  switch (o.verdict) {
    case NurseryVerdict::sow_in_place:
      return fmt::format("{} does not stand being moved: sow it where it is to grow", crop.name);
    case NurseryVerdict::no_safe_day:
      return fmt::format("finds no day mild enough for setting out in {} of the years: sow at another time",
                         percent_text(1.0 - o.best.probability));
    case NurseryVerdict::outgrown:
      return o.latest_reason == stand::TooOld::bolting
                 ? fmt::format(
                       "has had the cold that makes it bolt by about {}, before it goes out: sow later or "
                       "keep it warmer",
                       day(o.latest.p50))
                 : fmt::format(
                       "outgrows its cell about {} and waits till {}, longer than a pot of {} holds it: sow "
                       "later",
                       day(o.latest.p50), day(*o.set_out), spacing_text(stand::kWidestPotMm, units));
    case NurseryVerdict::too_early:
      return fmt::format(
          "is to go out {}, and is fit, or the air mild enough, not before {}", day(*o.set_out),
          o.earliest.probability > 0.0 ? day(o.earliest.p10) : std::string("any day reckoned"));
    case NurseryVerdict::late:
      return fmt::format("has outgrown its cell since about {}{}", day(o.latest.p50), loss_words(raised));
    case NurseryVerdict::in_time:
      break;
  }
  if (o.pot_on) {
    return fmt::format("outgrows its cell about {} and goes out {}: pot on into {}{}", day(o.latest.p50),
                       day(*o.set_out), spacing_text(o.pot_on->into_width_mm, units), loss_words(raised));
  }
  return set_out_words(*o.set_out, season.today, day(*o.set_out)) + loss_words(raised);
}

base::Result<RaisedStand> raise(const Season& season, std::size_t index, const stand::CropWeather& weather) {
  const book::StandState state = as_seen(season, season.state.stands[index]);
  const bed::Tray* tray = tray_of(season.garden, state.plan);
  RaisedStand raised{.stand = index, .cells = stand::places_of(state.plan)};
  raised.cell_width_mm = tray != nullptr ? tray->cell_width_mm : weather.crop().nursery.cell_width_mm.value;
  const auto place = raising_of(season.garden, state.plan).value_or(stand::RaisingPlace{});
  auto outlook =
      stand::nursery_outlook(weather, state.plan, state.facts, {place, raised.cell_width_mm}, season.today);
  if (!outlook) return tl::unexpected(outlook.error());
  raised.outlook = std::move(*outlook);
  if (raised.outlook.set_out && raised.outlook.verdict != NurseryVerdict::sow_in_place) {
    const Date on_time = std::max(*raised.outlook.set_out, season.today);
    auto cost = stand::cost_of_setting_out_late(weather, state.plan, state.facts, place,
                                                bed_place(season.garden, state.plan), on_time);
    if (!cost) return tl::unexpected(cost.error());
    raised.late_cost = std::move(*cost);
  }
  raised.reason = reason_of(season, raised, weather.crop());
  return raised;
}

/// From when a stand stands in its tray, and the day on which it has left it, in the median and in the slow
/// years.
struct Stay {
  Date from{}, median{}, slow{};
  std::optional<Date> potted;
};

Stay stay_of(const Season& season, const RaisedStand& raised) {
  const stand::NurseryOutlook& o = raised.outlook;
  Stay stay{.from = sown_on(season, raised.stand)};
  stay.median = stay.from;
  // Nobody has set it out by today, whatever was decided.
  if (o.set_out) stay.median = std::max(*o.set_out, season.today + Days{1});
  stay.slow = stay.median;
  if (!o.set_out_decided && o.best.probability > 0.0) stay.slow = std::max(stay.median, o.best.p90);
  if (o.pot_on) stay.potted = o.pot_on->from;
  return stay;
}

/// Mean light and warmth of a week in a place, over the weather years, and over its cells, of which a share
/// is up.
void add_climate(const Season& season, const bed::Tray& tray, Date week, double up_share, TrayUse& use) {
  const auto& weather = season.weather;
  double light = 0.0;
  double air = 0.0;
  double count = 0.0;
  for (int d = 0; d < kWeek; ++d) {
    const auto day = (week - weather.first).count() + d;
    if (day < 0 || day >= static_cast<std::int64_t>(weather.day_count)) continue;
    for (std::size_t m = 0; m < weather.member_count; ++m) {
      const std::size_t at = weather.at(m, static_cast<std::size_t>(day));
      light += kLightShareOfSolar * weather.radiation_mj_m2[at];
      air += weather.mean_c(at);
      count += 1.0;
    }
  }
  if (count <= 0.0) return;
  use.light_mj_m2 = stand::light_in_place(tray.place, light / count);
  const stand::RaisingPlace place = stand::raising_in(tray);
  use.mean_c = up_share * stand::seedling_c_in_place(place, air / count) +
               (1.0 - up_share) * stand::seed_c_in_place(place, air / count);
}

/// What one stand takes of its tray on a day.
void add_stand_use(const RaisedStand& raised, const Stay& stay, Date day, TrayUse& use) {
  constexpr double kSquareMillimetres = 1e6;
  const bool median = day < stay.median || (day == stay.median && stay.median == stay.from);
  const bool slow = day < stay.slow || median;
  if (day < stay.from || !slow) return;
  const bool potted = stay.potted && day >= *stay.potted;
  if (!potted) use.cells_most += raised.cells;
  if (!median) return;
  const double width_mm = potted ? raised.outlook.pot_on->into_width_mm : raised.cell_width_mm;
  (potted ? use.pots : use.cells) += raised.cells;
  use.area_m2 += raised.cells * width_mm * width_mm / kSquareMillimetres;
}

std::vector<TrayUse> week_use(const Season& season, const NurseryView& view, const std::vector<Stay>& stays,
                              Date week) {
  std::vector<TrayUse> all;
  for (const bed::Tray& tray : season.garden.trays) {
    TrayUse busiest{.tray = tray.id};
    double cell_days = 0.0, up_days = 0.0;
    for (int d = 0; d < kWeek; ++d) {
      TrayUse use{.tray = tray.id};
      for (std::size_t i = 0; i < view.stands.size(); ++i) {
        const RaisedStand& raised = view.stands[i];
        if (season.state.stands[raised.stand].plan.tray != tray.id) continue;
        const int before = use.cells_most + use.pots;
        add_stand_use(raised, stays[i], week + Days{d}, use);
        const double stood = use.cells_most + use.pots - before;
        cell_days += stood;
        if (raised.outlook.up.probability > 0.0 && week + Days{d} >= raised.outlook.up.p50) up_days += stood;
      }
      busiest.cells = std::max(busiest.cells, use.cells);
      busiest.cells_most = std::max(busiest.cells_most, use.cells_most);
      busiest.pots = std::max(busiest.pots, use.pots);
      busiest.area_m2 = std::max(busiest.area_m2, use.area_m2);
    }
    if (busiest.cells_most == 0 && busiest.pots == 0) continue;
    add_climate(season, tray, week, cell_days > 0.0 ? up_days / cell_days : 0.0, busiest);
    all.push_back(busiest);
  }
  return all;
}

std::vector<NurseryTask> tasks_of(const Season& season, const RaisedStand& raised) {
  const book::StandState& state = season.state.stands[raised.stand];
  const stand::NurseryOutlook& o = raised.outlook;
  std::vector<NurseryTask> tasks;
  if (!state.facts.sown) {
    const auto crop = season.library->find(state.plan.crop);
    const double seeds = std::max(1.0, state.plan.seeds_per_cell);
    Message amount{"sow-tray-cells", {{"cells", 1.0 * raised.cells}, {"seeds", std::round(seeds)}}};
    if (crop && (*crop)->seed.planting_piece) amount = {"plant-cells", {{"cells", 1.0 * raised.cells}}};
    tasks.push_back({state.plan.sow, state.plan.sow + Days{kWeek}, "sow", raised.stand, std::move(amount)});
  }
  if (o.up.probability > 0.0 && stand_stage(state.facts) != StandStage::up) {
    const bed::Tray* tray = tray_of(season.garden, state.plan);
    const bool off_mat = tray != nullptr && stand::leaves_mat_once_up(*tray);
    tasks.push_back({o.up.p50,
                     o.up.p90 + Days{kWeek},
                     "look",
                     raised.stand,
                     {off_mat ? "look-and-take-off-mat" : "look-and-count", {}}});
  }
  if (o.pot_on) {
    tasks.push_back(
        {o.pot_on->from, o.pot_on->latest, "pot-on", raised.stand,
         {"pot-on", {{"cells", 1.0 * raised.cells}, {"width_mm", o.pot_on->into_width_mm}}}});
  }
  if (o.set_out && o.harden_from) {
    tasks.push_back({*o.harden_from, *o.set_out, "harden-off", raised.stand,
                     {"harden", {{"days", static_cast<double>((*o.set_out - *o.harden_from).count())}}}});
    tasks.push_back({*o.set_out,
                     std::max(*o.set_out + Days{kWeek},
                              o.latest.probability > 0.0 && !o.pot_on ? o.latest.p50 : *o.set_out),
                     "set-out",
                     raised.stand,
                     {stand::several_to_a_clump(state.plan) ? "set-clumps" : "set-plants",
                      {{"count", 1.0 * state.plan.clumps}, {"spacing_mm", state.plan.spacing_mm}}}});
  }
  return tasks;
}

void fill_weeks(const Season& season, NurseryView& view) {
  std::vector<Stay> stays;
  std::vector<NurseryTask> tasks;
  Date last = season.today;
  for (const RaisedStand& raised : view.stands) {
    stays.push_back(stay_of(season, raised));
    last = std::max(last, stays.back().slow);
    for (NurseryTask& task : tasks_of(season, raised)) {
      // What should be done by now is work of this week.
      task.date = std::max(task.date, season.today);
      task.latest = std::max(task.latest, task.date);
      tasks.push_back(std::move(task));
    }
  }
  std::stable_sort(tasks.begin(), tasks.end(),
                   [](const NurseryTask& a, const NurseryTask& b) { return a.date < b.date; });
  if (view.stands.empty()) return;
  Date week = base::week_start(season.today);
  for (int i = 0; i < kMostWeeks && week <= last; ++i, week += Days{kWeek}) {
    NurseryWeek made{.week_start = week, .use = week_use(season, view, stays, week), .tasks = {}};
    for (const NurseryTask& task : tasks) {
      if (task.date >= week && task.date < week + Days{kWeek}) made.tasks.push_back(task);
    }
    view.weeks.push_back(std::move(made));
  }
}

}  // namespace

base::Result<NurseryView> nursery_view(const Season& season) {
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    // One without an outlook says so where it is shown, and holds up no other.
    const book::StandState& stand = season.state.stands[i];
    if (in_nursery(season, stand) && !season.no_outlook.contains(stand.plan.id)) indices.push_back(i);
  }
  std::stable_sort(indices.begin(), indices.end(), [&](std::size_t a, std::size_t b) {
    return sown_on(season, a) < sown_on(season, b);
  });
  const CropWeathers weathers(season, indices);
  std::vector<base::Result<RaisedStand>> found(indices.size());
  base::parallel_for(indices.size(), [&](std::size_t i) {
    const auto weather = weathers.of(season.state.stands[indices[i]].plan);
    found[i] = weather ? season.remember<base::Result<RaisedStand>>(
                             indices[i], "nursery", [&] { return raise(season, indices[i], **weather); })
                       : tl::unexpected(weather.error());
    if (found[i]) found[i]->stand = indices[i];  // it may have had another place in the list before
  });
  NurseryView view;
  for (auto& raised : found) {
    if (!raised) return tl::unexpected(raised.error());
    view.stands.push_back(std::move(*raised));
  }
  fill_weeks(season, view);
  return view;
}

}  // namespace sowtide::desk
