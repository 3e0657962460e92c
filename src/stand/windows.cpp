#include "stand/windows.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <string_view>

#include "crop/emergence.hpp"
#include "stand/detail/sowing_judge.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace {

constexpr int kYear = 365;
constexpr int kSmoothDays = 3;       // a day's success is a mean over so many days to both sides
constexpr double kTrayC = 20.0;      // the tray assumed for windows: a heated shelf indoors
constexpr double kGoodShare = 0.5;   // of the years, from which a day counts as a good sowing
constexpr double kNeverDays = 1e6;

std::size_t wrapped(int day) {
  return static_cast<std::size_t>((day % kYear + kYear) % kYear);
}

SowingDay counted(const std::array<int, kLimits>& counts) {
  int all = 0;
  for (const int count : counts) all += count;
  SowingDay day;
  day.success = all > 0 ? static_cast<double>(counts[0]) / all : 0.0;
  const auto worst = std::max_element(counts.begin() + 1, counts.end());
  if (*worst > 0) day.limit = static_cast<Limit>(worst - counts.begin());
  return day;
}

// Weather differs little from one day to the next: neighbours lend each other their years.
std::vector<SowingDay> smoothed(const std::vector<std::array<int, kLimits>>& counts) {
  std::vector<SowingDay> year(kYear);
  for (int day = 0; day < kYear; ++day) {
    std::array<int, kLimits> around{};
    for (int shift = -kSmoothDays; shift <= kSmoothDays; ++shift) {
      for (std::size_t i = 0; i < kLimits; ++i) around[i] += counts[wrapped(day + shift)][i];
    }
    year[static_cast<std::size_t>(day)] = counted(around);
  }
  return year;
}

std::vector<std::array<int, kLimits>> counts_of(const std::vector<std::vector<detail::Judged>>& days) {
  std::vector<std::array<int, kLimits>> counts(kYear);
  for (std::size_t day = 0; day < days.size(); ++day) {
    for (const detail::Judged& each : days[day]) ++counts[day][static_cast<std::size_t>(each.limit)];
  }
  return counts;
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// The best that good sowings of a place give: the shortest time in the bed and the longest picking.
struct Best {
  double days = 0.0, picking_cd = 0.0;
};

std::optional<Best> best_of(const std::vector<std::vector<detail::Judged>>& days,
                            const std::vector<SowingDay>& year) {
  std::optional<Best> best;
  for (std::size_t day = 0; day < days.size(); ++day) {
    if (year[day].success < kGoodShare) continue;
    std::vector<double> taken, picking;
    for (const detail::Judged& each : days[day]) {
      taken.push_back(each.days > 0 ? each.days : kNeverDays);
      picking.push_back(each.picking_cd);
    }
    const Best here{median(std::move(taken)), median(std::move(picking))};
    if (!best) best = here;
    best->days = std::min(best->days, here.days);
    best->picking_cd = std::max(best->picking_cd, here.picking_cd);
  }
  return best;
}

// Growers do not sow where another date of their place gives the same for much less: sowings that take far
// longer than the quickest good one, or give far less picking than the best, are taken out.
void hold_against_best(std::vector<std::vector<detail::Judged>>& days, const crop::SowingHabit& habit,
                       const Best& best) {
  for (auto& day : days) {
    for (detail::Judged& each : day) {
      if (each.limit != Limit::none) continue;
      const bool slow = habit.slowest_here && each.days > *habit.slowest_here * best.days;
      const bool little = habit.picking_here && each.picking_cd < *habit.picking_here * best.picking_cd;
      if (slow || little) each.limit = Limit::season_too_short;
    }
  }
}

template <typename Judgement>
std::vector<SowingDay> judged_year(std::size_t members, const crop::SowingHabit& habit,
                                   const Judgement& judge) {
  std::vector<std::vector<detail::Judged>> days(kYear, std::vector<detail::Judged>(members));
  for (int day = 0; day < kYear; ++day) {
    for (std::size_t member = 0; member < members; ++member)
      days[static_cast<std::size_t>(day)][member] = judge(member, day);
  }
  auto year = smoothed(counts_of(days));
  if (!habit.slowest_here && !habit.picking_here) return year;
  const auto best = best_of(days, year);
  if (!best) return year;
  hold_against_best(days, habit, *best);
  return smoothed(counts_of(days));
}

// Days in the tray from sowing: the earliest and the latest good age for setting out.
struct TrayDays {
  int earliest = 0, latest = 0;
};

TrayDays tray_days(const CropWeather& weather) {
  const crop::Crop& crop = weather.crop();
  const double up = crop::half_emergence_cd(crop) / std::max(1e-6, weather.germination_cd_at(kTrayC));
  const double daily_cd = std::max(1e-6, weather.growth_cd_at(kTrayC));
  const double before = up + crop.nursery.hardening_days;
  const double ready = before + crop.nursery.ready_thermal_time_cd / daily_cd;
  const double latest = before + crop.nursery.latest_thermal_time_cd / daily_cd;
  return {.earliest = static_cast<int>(std::lround(ready)),
          .latest = static_cast<int>(std::lround(std::max(ready, latest)))};
}

/// Runs of good days of the circle of the year, as first day and length; short gaps closed, short runs gone.
struct Run {
  int from = 0, days = 0;
};

void close_gaps(std::vector<bool>& good, int longest) {
  const auto first = std::find(good.begin(), good.end(), true);
  if (first == good.end()) return;
  const int start = static_cast<int>(first - good.begin());
  int gap = 0;
  for (int day = start; day <= start + kYear; ++day) {
    if (!good[wrapped(day)]) {
      ++gap;
      continue;
    }
    if (gap > 0 && gap < longest) {
      for (int back = 1; back <= gap; ++back) good[wrapped(day - back)] = true;
    }
    gap = 0;
  }
}

std::vector<Run> runs_of(const std::vector<bool>& good, int shortest) {
  const auto bad = std::find(good.begin(), good.end(), false);
  if (bad == good.end()) return {{.from = 0, .days = kYear}};
  const int start = static_cast<int>(bad - good.begin());
  std::vector<Run> runs;
  Run run;
  for (int day = start; day <= start + kYear; ++day) {
    if (good[wrapped(day)]) {
      if (run.days == 0) run.from = day;
      ++run.days;
      continue;
    }
    if (run.days >= shortest) runs.push_back(run);
    run = {};
  }
  std::sort(runs.begin(), runs.end(),
            [](const Run& a, const Run& b) { return a.from % kYear < b.from % kYear; });
  return runs;
}

std::vector<Run> runs_of_windows(const std::vector<SowingDay>& year, double level, const WindowRules& rules) {
  std::vector<bool> good(kYear);
  for (std::size_t day = 0; day < good.size(); ++day) good[day] = year[day].success >= level;
  close_gaps(good, rules.gap_days);
  return runs_of(good, rules.shortest_days);
}

void add_windows(std::vector<SowingWindow>& windows, const crop::Crop& crop, const char* method,
                 const std::vector<SowingDay>& year, double level, const WindowRules& rules) {
  for (const Run& run : runs_of_windows(year, level, rules)) {
    SowingWindow window{.crop = crop.id, .method = method, .span = {}};
    for (int day = run.from; day < run.from + run.days; ++day) window.success += year[wrapped(day)].success;
    window.success /= run.days;
    window.span.from = base::month_day_of_climatological_day(static_cast<int>(wrapped(run.from)) + 1);
    window.span.to =
        base::month_day_of_climatological_day(static_cast<int>(wrapped(run.from + run.days - 1)) + 1);
    if (run.days < kYear) {
      window.before = year[wrapped(run.from - 1)].limit;
      window.after = year[wrapped(run.from + run.days)].limit;
    }
    windows.push_back(window);
  }
}

}  // namespace

std::vector<SowingDay> sowing_year(const CropWeather& weather, std::string_view method,
                                   const WindowRules& rules) {
  const auto& nursery = weather.crop().nursery;
  const std::size_t members = weather.ensemble().member_count;
  const bool direct = method == "direct-sow";
  if (direct ? !nursery.can_direct_sow : !nursery.can_transplant) return {};
  const detail::SowingJudge judge(weather, rules);
  if (direct) {
    return judged_year(members, weather.crop().sowing,
                       [&](std::size_t m, int day) { return judge.direct_sowing(m, day); });
  }
  auto set_out = judged_year(members, weather.crop().sowing,
                             [&](std::size_t m, int day) { return judge.setting_out(m, day); });
  if (method == "set-out") return set_out;
  return indoor_sowing_year(weather, set_out);
}

std::vector<SowingDay> indoor_sowing_year(const CropWeather& weather, const std::vector<SowingDay>& set_out) {
  if (set_out.empty()) return {};
  const TrayDays tray = tray_days(weather);
  std::vector<SowingDay> year(kYear);
  for (int day = 0; day < kYear; ++day) {
    SowingDay best = set_out[wrapped(day + tray.earliest)];
    for (int age = tray.earliest + 1; age <= tray.latest; ++age) {
      const SowingDay& other = set_out[wrapped(day + age)];
      if (other.success > best.success) best = other;
    }
    year[static_cast<std::size_t>(day)] = best;
  }
  return year;
}

void mark_windows(std::vector<SowingDay>& year, double level, const WindowRules& rules) {
  if (year.empty()) return;
  for (SowingDay& day : year) day.in_window = false;
  for (const Run& run : runs_of_windows(year, level, rules)) {
    for (int day = run.from; day < run.from + run.days; ++day) year[wrapped(day)].in_window = true;
  }
}

std::vector<SowingWindow> sowing_windows(const CropWeather& weather, double level, const WindowRules& rules) {
  const crop::Crop& crop = weather.crop();
  std::vector<SowingWindow> windows;
  if (crop.nursery.can_direct_sow)
    add_windows(windows, crop, "direct-sow", sowing_year(weather, "direct-sow", rules), level, rules);
  if (crop.nursery.can_transplant) {
    const auto set_out = sowing_year(weather, "set-out", rules);
    add_windows(windows, crop, "start-indoors", indoor_sowing_year(weather, set_out), level, rules);
    add_windows(windows, crop, "set-out", set_out, level, rules);
  }
  return windows;
}

}  // namespace sowtide::stand
