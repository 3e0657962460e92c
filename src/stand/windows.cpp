#include "stand/windows.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>

#include "base/parallel.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace {

constexpr int kYear = 365;
constexpr int kSampleStepDays = 3;
constexpr int kShortestWindowDays = 7;
constexpr double kSetOutPlace = 20.0;  // °C, the tray assumed for windows: a heated shelf indoors

using YearCurve = std::array<double, kYear>;

StandPlan plan_for_window(const crop::Crop& crop, Method method, base::Date sow) {
  StandPlan plan;
  plan.id = "window";
  plan.crop = crop.id;
  plan.method = method;
  plan.sow = sow;
  plan.spacing_mm = crop.place.spacing_large_mm;
  return plan;
}

struct Sample {
  double success = 0.0;
  std::vector<int> set_out;  ///< climatological day 0..364 of each successful member
};

Sample sample_of(const CropWeather& weather, Method method, base::Date sow) {
  const StandPlan plan = plan_for_window(weather.crop(), method, sow);
  const StandLives lives =
      simulate(weather, plan, {}, RaisingPlace{.temp_c = kSetOutPlace}, {.sampled_clumps = 4});
  Sample sample;
  double good = 0.0;
  for (const auto& life : lives.members) {
    if (!life.success) continue;
    good += 1.0;
    if (life.set_out_day < 0) continue;
    const base::Date day = weather.ensemble().first + base::Days{life.set_out_day};
    sample.set_out.push_back(base::climatological_day(day) - 1);
  }
  sample.success = good / static_cast<double>(std::max<std::size_t>(1, lives.members.size()));
  return sample;
}

std::vector<Sample> sample_year(const CropWeather& weather, Method method) {
  std::vector<Sample> samples((kYear + kSampleStepDays - 1) / kSampleStepDays);
  base::parallel_for(samples.size(), [&](std::size_t i) {
    const auto day = base::month_day_of_climatological_day(static_cast<int>(i) * kSampleStepDays + 1);
    const base::Date sow = base::in_year(day, base::year_of(weather.ensemble().first));
    samples[i] = sample_of(weather, method, sow);
  });
  return samples;
}

YearCurve curve_of(const std::vector<Sample>& samples) {
  YearCurve curve{};
  const auto count = static_cast<int>(samples.size());
  for (int day = 0; day < kYear; ++day) {
    const int before = day / kSampleStepDays;
    const double along = static_cast<double>(day % kSampleStepDays) / kSampleStepDays;
    const double a = samples[static_cast<std::size_t>(before)].success;
    const double b = samples[static_cast<std::size_t>((before + 1) % count)].success;
    curve[static_cast<std::size_t>(day)] = a + along * (b - a);
  }
  return curve;
}

// Setting out works on a day when the indoor sowings that would be set out about then succeed.
YearCurve set_out_curve(const std::vector<Sample>& samples) {
  YearCurve weight{};
  YearCurve good{};
  constexpr int kReach = 5;
  for (const auto& sample : samples) {
    for (const int day : sample.set_out) {
      for (int shift = -kReach; shift <= kReach; ++shift) {
        const auto at = static_cast<std::size_t>((day + shift + kYear) % kYear);
        weight[at] += 1.0;
        good[at] += sample.success;
      }
    }
  }
  YearCurve curve{};
  for (std::size_t i = 0; i < curve.size(); ++i) curve[i] = weight[i] >= 3.0 ? good[i] / weight[i] : 0.0;
  return curve;
}

void add_windows(std::vector<SowingWindow>& windows, const crop::Crop& crop, const char* method,
                 const YearCurve& curve, double level) {
  const auto good = [&](int day) {
    return curve[static_cast<std::size_t>((day % kYear + kYear) % kYear)] >= level;
  };
  int start = -1;
  for (int day = 0; day < kYear && start < 0; ++day) {
    if (!good(day)) start = day;
  }
  const auto add = [&](int from, int to) {
    if (to - from + 1 < kShortestWindowDays) return;
    double sum = 0.0;
    for (int day = from; day <= to; ++day) sum += curve[static_cast<std::size_t>(day % kYear)];
    SowingWindow window{.crop = crop.id, .method = method, .span = {}, .success = sum / (to - from + 1)};
    window.span.from = base::month_day_of_climatological_day(from % kYear + 1);
    window.span.to = base::month_day_of_climatological_day(to % kYear + 1);
    windows.push_back(window);
  };
  if (start < 0) return add(0, kYear - 1);
  int from = -1;
  for (int day = start; day <= start + kYear; ++day) {
    if (good(day) && day < start + kYear) {
      if (from < 0) from = day;
    } else if (from >= 0) {
      add(from, day - 1);
      from = -1;
    }
  }
}

}  // namespace

std::vector<SowingWindow> sowing_windows(const CropWeather& weather, double level) {
  const crop::Crop& crop = weather.crop();
  std::vector<SowingWindow> windows;
  if (crop.nursery.can_direct_sow) {
    add_windows(windows, crop, "direct-sow", curve_of(sample_year(weather, Method::direct_sow)), level);
  }
  if (crop.nursery.can_transplant) {
    const auto samples = sample_year(weather, Method::start_indoors);
    add_windows(windows, crop, "start-indoors", curve_of(samples), level);
    add_windows(windows, crop, "set-out", set_out_curve(samples), level);
  }
  return windows;
}

std::vector<SowingWindow> sowing_windows(const crop::Crop& crop, const climate::WeatherEnsemble& weather,
                                         double level) {
  return sowing_windows(CropWeather(crop, std::make_shared<const SeasonWeather>(weather)), level);
}

}  // namespace sowtide::stand
