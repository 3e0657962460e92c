#include "stand/overdue.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "base/parallel.hpp"
#include "base/quantile.hpp"
#include "crop/emergence.hpp"
#include "stand/bought.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace {

using base::Date;
using base::Days;
using base::ProblemCode;

constexpr std::size_t kHours = 24;
// The soil is run in for a year by its own module; these days of real weather before the sowing bring it up
// to date.
constexpr int kRunInDays = 45;
constexpr double kDeepestMm = 300.0;
constexpr double kFirstDayShare = 0.5;  // seed goes in about noon
constexpr int kLongestAheadDays = 182;
constexpr int kWeek = 7;
constexpr int kClimatologicalYear = 365;
constexpr std::size_t kShortLookDays = 60;
constexpr std::size_t kLongLookDays = 180;

std::array<double, kHours> daily_wave() {
  std::array<double, kHours> wave{};
  for (std::size_t h = 0; h < kHours; ++h)
    wave[h] = std::sin(2.0 * std::numbers::pi * (static_cast<double>(h) + 0.5) / static_cast<double>(kHours));
  return wave;
}

/// Thermal time of a day whose temperature swings as a sine about its mean.
double day_cd(const crop::CardinalTemperatures& cardinal, double mean_c, double swing_k) {
  static const std::array<double, kHours> wave = daily_wave();
  std::array<double, kHours> hours_c{};
  for (std::size_t h = 0; h < kHours; ++h) hours_c[h] = mean_c + swing_k * wave[h];
  return crop::daily_thermal_time(cardinal, hours_c);
}

/// Days `from` to `to` of an ensemble as an ensemble of their own.
climate::WeatherEnsemble cut_out(const climate::WeatherEnsemble& weather, std::size_t from, std::size_t to) {
  climate::WeatherEnsemble part;
  part.site = weather.site;
  part.first = weather.first + Days{static_cast<int>(from)};
  part.day_count = to - from;
  part.member_count = weather.member_count;
  const auto copy = [&](const std::vector<double>& all, std::vector<double>& into) {
    if (all.empty()) return;
    into.reserve(part.member_count * part.day_count);
    for (std::size_t m = 0; m < weather.member_count; ++m) {
      const auto begin = all.begin() + static_cast<std::ptrdiff_t>(weather.at(m, from));
      into.insert(into.end(), begin, begin + static_cast<std::ptrdiff_t>(part.day_count));
    }
  };
  copy(weather.tmin_c, part.tmin_c);
  copy(weather.tmax_c, part.tmax_c);
  copy(weather.rain_mm, part.rain_mm);
  copy(weather.radiation_mj_m2, part.radiation_mj_m2);
  copy(weather.et0_mm, part.et0_mm);
  return part;
}

/// Thermal time of every day of the span, by member; in the soil of a bed.
std::vector<double> soil_days_cd(const crop::Crop& crop, const SownPlace& place,
                                 const climate::WeatherEnsemble& weather, std::size_t sown,
                                 std::size_t days) {
  const std::size_t run_in = std::min<std::size_t>(sown, kRunInDays);
  const auto part = cut_out(weather, sown - run_in, sown + days);
  const auto soil =
      climate::sowing_depth_temperature(part, place.soil, base::Millimetres::of(place.depth_mm));
  std::vector<double> each(weather.member_count * days);
  for (std::size_t m = 0; m < weather.member_count; ++m) {
    for (std::size_t i = 0; i < days; ++i) {
      const std::size_t at = part.at(m, run_in + i);
      each[m * days + i] =
          day_cd(crop.germination.cardinal, soil.tmean_c[at], 0.5 * (soil.tmax_c[at] - soil.tmin_c[at]));
    }
  }
  return each;
}

/// The same in a tray: as warm as its place, the swing of the air outside.
std::vector<double> tray_days_cd(const crop::Crop& crop, const RaisingPlace& raising,
                                 const climate::WeatherEnsemble& weather, std::size_t sown,
                                 std::size_t days) {
  const auto& cardinal = crop.germination.cardinal;
  if (is_inside(raising.place)) {
    return std::vector<double>(weather.member_count * days, crop::thermal_rate(cardinal, raising.temp_c));
  }
  std::vector<double> each(weather.member_count * days);
  for (std::size_t m = 0; m < weather.member_count; ++m) {
    for (std::size_t i = 0; i < days; ++i) {
      const std::size_t at = weather.at(m, sown + i);
      each[m * days + i] = day_cd(cardinal, seed_c_in_place(raising, weather.mean_c(at)),
                                  0.5 * (weather.tmax_c[at] - weather.tmin_c[at]));
    }
  }
  return each;
}

base::Result<std::size_t> day_of(const climate::WeatherEnsemble& weather, Date date, std::string_view field) {
  const auto day = (date - weather.first).count();
  if (day >= 0 && static_cast<std::size_t>(day) < weather.day_count) return static_cast<std::size_t>(day);
  return base::fail(ProblemCode::out_of_range,
                    fmt::format("{} lies outside the weather from {} over {} days", base::to_iso(date),
                                base::to_iso(weather.first), weather.day_count),
                    {.field = std::string(field)}, "Make an ensemble that holds the day");
}

bool lasts_all_year(const base::YearSpan& span) {
  return base::climatological_day(span.to) % kClimatologicalYear + 1 == base::climatological_day(span.from);
}

/// The first of a day of the year that is `from` or later.
Date first_on_or_after(base::MonthDay day, Date from) {
  const Date this_year = base::in_year(day, base::year_of(from));
  return this_year >= from ? this_year : base::in_year(day, base::year_of(from) + 1);
}

/// The days of a window that last until today or later: those that today lies in begin with today.
DaysToSow days_ahead(const base::YearSpan& span, Date today) {
  const bool in_it = base::contains(span, base::month_day_of(today));
  const Date from = in_it ? today : first_on_or_after(span.from, today);
  return {.from = from, .to = first_on_or_after(span.to, from)};
}

std::optional<Date> first_day_at(const std::vector<double>& chance, Date sown, double level) {
  const auto found = std::find_if(chance.begin(), chance.end(), [level](double c) { return c >= level; });
  if (found == chance.end()) return std::nullopt;
  return sown + Days{static_cast<int>(found - chance.begin())};
}

/// Lives a stand that is begun again on today and on later days; `on` gives its outlook of a day.
template <class OutlookOn>
base::Result<SowingAgain> begun_again(const OutlookOn& on, const climate::WeatherEnsemble& ensemble,
                                      Date today, double level) {
  const auto now = on(today);
  if (!now) return tl::unexpected(now.error());
  SowingAgain answer;
  answer.success_today = now->success;
  if (const EventOutlook* pick = expected_event(*now, "first-pick")) answer.first_pick = pick->p50;
  if (now->success < level) return answer;
  // Week by week to the first that fails, then day by day within that week.
  const Date last = std::min(today + Days{kLongestAheadDays},
                             ensemble.first + Days{static_cast<int>(ensemble.day_count) - 1});
  answer.by = today;
  for (const int step : {kWeek, 1}) {
    for (Date day = *answer.by + Days{step}; day <= last; day += Days{step}) {
      const auto later = on(day);
      if (!later || later->success < level) break;
      answer.by = day;
    }
  }
  return answer;
}

}  // namespace

climate::SoilSetting soil_of(const bed::Bed& bed) {
  climate::SoilSetting soil;
  if (bed.kind == bed::BedKind::raised) {
    soil.place = climate::SoilPlace::raised_bed;
    soil.bed.width_m = bed.width_m;
  }
  return soil;
}

base::Result<GerminationTime> germination_time(const crop::Crop& crop, Date sown, const SownPlace& place,
                                               const climate::WeatherEnsemble& weather,
                                               std::size_t most_days) {
  const auto day = day_of(weather, sown, "sown");
  if (!day) return tl::unexpected(day.error());
  if (!(place.depth_mm >= 0.0 && place.depth_mm <= kDeepestMm)) {
    return base::fail(ProblemCode::out_of_range, fmt::format("{} mm is not a sowing depth", place.depth_mm),
                      {.field = "depth_mm"}, "Give a depth from 0 to 300 mm");
  }
  if (!place.raising) {
    if (const auto ok = climate::check(place.soil); !ok) return tl::unexpected(ok.error());
  }
  GerminationTime time{.sown = sown, .days = std::min(most_days, weather.day_count - *day), .sum_cd = {}};
  time.sum_cd = place.raising ? tray_days_cd(crop, *place.raising, weather, *day, time.days)
                              : soil_days_cd(crop, place, weather, *day, time.days);
  for (std::size_t m = 0; m < weather.member_count && time.days > 0; ++m) {
    double sum = 0.0;
    for (std::size_t i = 0; i < time.days; ++i) {
      double& value = time.sum_cd[m * time.days + i];
      sum += i == 0 ? kFirstDayShare * value : value;
      value = sum;
    }
  }
  return time;
}

base::Result<HalfShown> half_shown(const crop::Crop& crop, Date sown, const SownPlace& place,
                                   const climate::WeatherEnsemble& weather, double log_error) {
  const double half = crop::half_emergence_cd(crop, place.depth_mm);
  const double members = static_cast<double>(std::max<std::size_t>(1, weather.member_count));
  HalfShown shown;
  // Most sowings are up within weeks: the long look is taken only where the short one does not settle it.
  for (const std::size_t days : {kShortLookDays, kLongLookDays}) {
    const auto time = germination_time(crop, sown, place, weather, days);
    if (!time) return tl::unexpected(time.error());
    shown.chance.assign(time->days, 0.0);
    for (std::size_t m = 0; m < weather.member_count; ++m) {
      for (std::size_t i = 0; i < time->days; ++i) {
        const double sum = time->sum_cd[m * time->days + i];
        if (sum > 0.0) shown.chance[i] += base::normal_cdf(std::log(sum / half) / log_error) / members;
      }
    }
    // A mean of ones may come out a rounding above one.
    for (double& chance : shown.chance) chance = std::min(chance, 1.0);
    shown.p90 = first_day_at(shown.chance, sown, kOverdueChance);
    if (shown.p90) break;
  }
  shown.p10 = first_day_at(shown.chance, sown, 0.1);
  shown.p50 = first_day_at(shown.chance, sown, 0.5);
  return shown;
}

double chance_on(const HalfShown& shown, Date sown, Date day) noexcept {
  const auto index = (day - sown).count();
  if (index < 0 || shown.chance.empty()) return 0.0;
  return shown.chance[std::min(static_cast<std::size_t>(index), shown.chance.size() - 1)];
}

base::Result<SowingAgain> sowing_again(const CropWeather& weather, const StandPlan& plan,
                                       const std::optional<RaisingPlace>& raising, const BedPlace& bed,
                                       Date today, double level) {
  StandPlan again = plan;
  again.set_out.reset();
  const SimulationOptions options{.bed = bed};
  const auto on = [&](Date day) {
    again.sow = day;
    return outlook(weather, again, {}, raising, options);
  };
  return begun_again(on, weather.ensemble(), today, level);
}

base::Result<SowingAgain> buying_again(const CropWeather& weather, const StandPlan& plan,
                                       const RaisingPlace& raising, const BedPlace& bed, Date today,
                                       double level) {
  StandPlan again = plan;
  again.method = Method::start_indoors;
  again.tray.clear();
  const SimulationOptions options{.bed = bed};
  const auto on = [&](Date day) {
    set_out_as_bought(again, day, weather.crop());
    again.sow = std::max(again.sow, weather.ensemble().first);
    return outlook(weather, again, {}, raising, options);
  };
  return begun_again(on, weather.ensemble(), today, level);
}

SowingAgain hold_to_windows(SowingAgain again, const std::vector<SowingWindow>& windows, Method method,
                            Date today) {
  return hold_to_windows(std::move(again), windows,
                         method == Method::direct_sow ? "direct-sow" : "start-indoors", today);
}

SowingAgain hold_to_windows(SowingAgain again, const std::vector<SowingWindow>& windows, std::string_view how,
                            Date today) {
  std::optional<Date> last;
  std::optional<DaysToSow> next;
  for (const SowingWindow& window : windows) {
    if (window.method != how) continue;
    const DaysToSow days = days_ahead(window.span, today);
    if (days.from <= today) {
      last = lasts_all_year(window.span) ? today + Days{kLongestAheadDays} : days.to;
    } else if (!next || days.from < next->from) {
      next = days;
    }
  }
  if (last) {
    if (again.by) again.by = std::min(*again.by, *last);
    return again;
  }
  again.by.reset();
  again.first_pick.reset();
  again.next = next;
  return again;
}

}  // namespace sowtide::stand
