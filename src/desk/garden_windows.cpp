#include "desk/garden_windows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>

#include "base/parallel.hpp"
#include "desk/season.hpp"
#include "stand/crop_weather.hpp"

namespace sowtide::desk {
namespace {

constexpr std::size_t kTwoYears = 730;

}  // namespace

base::Result<climate::WeatherEnsemble> typical_years(const book::GardenDescription& garden) {
  // Any common year serves: members carry the climate, not the calendar.
  const base::Date first = base::date_of(2025, 1, 1);
  auto weather = garden_weather(garden, first, kTwoYears, first - base::Days{1});
  if (weather) return weather;
  // A record that begins later is not known on that day; then all of it counts.
  return garden_weather(garden, first, kTwoYears, base::date_of(2199, 12, 31));
}

base::Result<std::vector<stand::SowingWindow>> garden_windows(const crop::CropLibrary& library,
                                                              const book::GardenDescription& garden,
                                                              double level) {
  if (!(level > 0.0 && level < 1.0)) {
    return base::fail(base::ProblemCode::out_of_range, fmt::format("{} is not a chance", level),
                      {.field = "level"}, "Give a chance between 0 and 1, for example 0.5");
  }
  const auto weather = typical_years(garden);
  if (!weather) return tl::make_unexpected(weather.error());
  const auto season = std::make_shared<const stand::SeasonWeather>(*weather);
  std::vector<const crop::Crop*> crops;
  for (const auto& [id, crop] : library.crops) crops.push_back(&crop);
  std::vector<std::vector<stand::SowingWindow>> found(crops.size());
  base::parallel_for(crops.size(), [&](std::size_t i) {
    found[i] = stand::sowing_windows(stand::CropWeather(*crops[i], season), level);
  });
  std::vector<stand::SowingWindow> windows;
  for (const auto& list : found) windows.insert(windows.end(), list.begin(), list.end());
  return windows;
}

base::Result<CropWindows::Felt> CropWindows::felt(const book::GardenDescription& garden) {
  if (felt_) return felt_;
  auto weather = typical_years(garden);
  if (!weather) return tl::make_unexpected(weather.error());
  years_ = std::move(*weather);
  felt_ = std::make_shared<const stand::SeasonWeather>(*years_);
  return felt_;
}

base::Result<CropWindows::Windows> CropWindows::of(const Season& season, const stand::StandPlan& plan) {
  // Two that ask at once would both work it out; the work within is not shared between threads.
  const std::lock_guard lock(mutex_);
  const std::pair key{plan.crop, plan.variety};
  if (const auto known = known_.find(key); known != known_.end()) return known->second;
  const auto crop = crop_of(season, plan);
  if (!crop) return tl::make_unexpected(crop.error());
  Windows windows;
  base::Result<Felt> weather;
  base::apart([&] {
    weather = felt(season.garden);
    if (weather) windows = stand::sowing_windows(stand::CropWeather(*crop, *weather));
  });
  if (!weather) return tl::make_unexpected(weather.error());
  return known_.emplace(key, std::move(windows)).first->second;
}

NoWindow no_window(const stand::CropWeather& weather) {
  NoWindow none{.crop = weather.crop().id, .success = -1.0};
  std::map<stand::Limit, int> days;
  for (const char* method : {"direct-sow", "set-out"}) {
    for (const stand::SowingDay& day : stand::sowing_year(weather, method)) {
      if (day.success < none.success) continue;
      if (day.success > none.success) days.clear();
      none.success = day.success;
      none.method = days.empty() ? method : none.method;
      ++days[day.limit];
    }
  }
  const auto most = std::max_element(days.begin(), days.end(),
                                     [](const auto& a, const auto& b) { return a.second < b.second; });
  if (most != days.end()) none.limit = most->first;
  return none;
}

}  // namespace sowtide::desk
