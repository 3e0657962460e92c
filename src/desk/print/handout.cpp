// The handout: when each crop can be sown and set out in a place, one page, for teaching.
#include "desk/print/handout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <memory>

#include "base/parallel.hpp"
#include "climate/risk.hpp"
#include "stand/windows.hpp"

namespace sowtide::desk::print {
namespace {

using base::Date;
using base::Days;

constexpr int kYearDays = 365;
constexpr double kNamesMm = 41.0;
constexpr double kWeatherMm = 21.0;
constexpr double kLegendMm = 17.0;
constexpr double kMostRowMm = 9.0;
constexpr double kLeastChance = 0.5;
constexpr std::array<std::string_view, 3> kMethods{"start-indoors", "direct-sow", "set-out"};

/// Days of a year as an axis: no leap day, January first.
struct YearAxis {
  double left = 0.0, width = 0.0;
  [[nodiscard]] double x(int day) const { return left + width * day / kYearDays; }  ///< 0..365
};

double mean_of_month(const climate::WeatherEnsemble& weather, const std::vector<double>& values, int month) {
  double sum = 0.0;
  std::size_t count = 0;
  for (std::size_t d = 0; d < weather.day_count; ++d) {
    if (base::month_of(weather.first + Days{static_cast<int>(d)}) != month) continue;
    for (std::size_t m = 0; m < weather.member_count; ++m) sum += values[weather.at(m, d)];
    count += weather.member_count;
  }
  return sum / static_cast<double>(std::max<std::size_t>(1, count));
}

/// Freezes of the one whole winter that every member of two calendar years holds.
climate::FreezeDates freezes_of(const climate::WeatherEnsemble& weather) {
  const bool south = weather.site.latitude_deg < 0.0;
  climate::FreezeDates dates(0.0, south);
  const int year = base::year_of(weather.first);
  const Date begin = base::date_of(year, south ? 2 : 8, 1);
  for (std::size_t m = 0; m < weather.member_count; ++m) {
    climate::FreezeDates::Winter winter{.first_year = year, .first_known = true, .last_known = true};
    for (int k = 0; k < kYearDays; ++k) {
      const auto day = static_cast<std::size_t>((begin - weather.first).count() + k);
      if (weather.tmin_c[weather.at(m, day)] > 0.0) continue;
      if (winter.first < 0) winter.first = k;
      winter.last = k;
    }
    dates.add(winter);
  }
  return dates;
}

Colour shade_of(double success) {
  // From the least chance that counts up to certainty, so that the ends of a window are pale.
  constexpr double kFaintest = 0.15;
  return ready_shade(kFaintest + (1.0 - kFaintest) * (success - kLeastChance) / (1.0 - kLeastChance));
}

class HandoutPage {
 public:
  HandoutPage(const PlaceWeather& place, const std::vector<CropYear>& crops, const Words& words,
              Canvas& canvas, Pages& pages)
      : place_(place), crops_(crops), words_(words), canvas_(canvas), pages_(pages) {}

  void draw() {
    const std::size_t all = crops_.size();
    for (std::size_t from = 0; from == 0 || from < all;) {
      const Box room = pages_.next({}, words_.say("handout.lead", {{"place", place_.place}}));
      axis_ = {room.x + kNamesMm, room.width - kNamesMm};
      const double rows_height = room.height - kWeatherMm - kMonthsHeightMm - kLegendMm;
      const auto fit = static_cast<std::size_t>(rows_height / kLeastRowMm);
      const std::size_t to = std::min(all, from + fit);
      const double row =
          std::min(kMostRowMm, rows_height / static_cast<double>(std::max<std::size_t>(1, to - from)));
      draw_weather({room.x, room.y, room.width, kWeatherMm});
      const double top = room.y + kWeatherMm + kMonthsHeightMm;
      draw_grid(top, row * static_cast<double>(to - from));
      for (std::size_t i = from; i < to; ++i)
        draw_row(crops_[i], i, room.x, top + row * static_cast<double>(i - from), row);
      draw_legend({room.x, top + row * static_cast<double>(to - from) + 2.5, room.width, kLegendMm});
      from = std::max<std::size_t>(to, 1);
    }
  }

 private:
  static constexpr double kLeastRowMm = 3.6;

  void draw_weather(const Box& room) {
    std::array<double, 12> low{};
    std::array<double, 12> high{};
    for (int month = 1; month <= 12; ++month) {
      low[static_cast<std::size_t>(month - 1)] =
          mean_of_month(*place_.weather, place_.weather->tmin_c, month);
      high[static_cast<std::size_t>(month - 1)] =
          mean_of_month(*place_.weather, place_.weather->tmax_c, month);
    }
    const double coldest = std::floor(*std::min_element(low.begin(), low.end()) / 10.0) * 10.0;
    const double warmest = std::ceil(*std::max_element(high.begin(), high.end()) / 10.0) * 10.0;
    const double top = room.y + 3.0;
    const double height = room.height - 4.5;
    const auto y_of = [&](double celsius) {
      return top + height * (warmest - celsius) / std::max(10.0, warmest - coldest);
    };
    draw_degrees(coldest, warmest, y_of);
    std::vector<Point> band;
    for (int m = 0; m < 12; ++m)
      band.push_back({axis_.x(kYearDays * (2 * m + 1) / 24), y_of(high[static_cast<std::size_t>(m)])});
    for (int m = 11; m >= 0; --m)
      band.push_back({axis_.x(kYearDays * (2 * m + 1) / 24), y_of(low[static_cast<std::size_t>(m)])});
    canvas_.area(band, kSoil);
    canvas_.polyline({band.begin(), band.begin() + 12}, {.width_mm = 0.3});
    canvas_.polyline({band.begin() + 12, band.end()}, {.width_mm = 0.3});
    canvas_.text({room.x, top + height / 2.0 - 6.0}, words_.say("handout.weather"),
                 {.size_pt = 7.0, .colour = kInkSoft, .width_mm = kNamesMm - 12.0});
  }

  template <class YOf>
  void draw_degrees(double coldest, double warmest, const YOf& y_of) {
    const double step = warmest - coldest > 30.0 ? 20.0 : 10.0;
    for (double celsius = coldest; celsius <= warmest + 0.1; celsius += step) {
      const double y = y_of(celsius);
      canvas_.line({axis_.left, y}, {axis_.left + axis_.width, y}, {.width_mm = 0.12, .colour = kRule});
      canvas_.text({axis_.left - 1.0, y - 1.4}, words_.temperature(celsius),
                   {.size_pt = 6.3, .colour = kInkSoft, .align = Align::right});
    }
  }

  void draw_grid(double top, double height) {
    int day = 0;
    for (int month = 1; month <= 12; ++month) {
      canvas_.line({axis_.x(day), top - kMonthsHeightMm}, {axis_.x(day), top + height},
                   {.width_mm = 0.15, .colour = kRule});
      canvas_.text({axis_.x(day) + 0.8, top - kMonthsHeightMm + 0.7}, words_.month(month),
                   {.size_pt = 7.5, .colour = kInkSoft});
      day += base::days_in_month(2025, month);
    }
    canvas_.line({axis_.x(kYearDays), top - kMonthsHeightMm}, {axis_.x(kYearDays), top + height},
                 {.width_mm = 0.15, .colour = kRule});
    const climate::FreezeDates dates = freezes_of(*place_.weather);
    for (const double chance : {0.5, 0.1}) {
      for (const climate::RiskDate& date : {dates.last(chance), dates.first(chance)}) {
        if (date.kind != climate::RiskDate::Kind::on_date) continue;
        const double x = axis_.x(base::climatological_day(date.date) - 1);
        const double from = top - kMonthsHeightMm - kWeatherMm + 2.0;
        Stroke stroke{.width_mm = 0.35, .colour = kAct};
        if (chance < 0.5) stroke = {.width_mm = 0.2, .colour = kAct, .dash_mm = {1.2, 0.9}};
        canvas_.line({x, from}, {x, top + height}, stroke);
      }
    }
  }

  void draw_row(const CropYear& crop, std::size_t index, double left, double top, double height) {
    if (index % 2 == 0) canvas_.fill({left, top, kNamesMm + axis_.width, height}, {0.972, 0.962, 0.94});
    const TextStyle style{
        .size_pt = std::clamp(height / 0.46, 6.5, 9.0), .width_mm = kNamesMm - 1.5, .lines = 1};
    const double line = canvas_.measure(crop.name, style).height;
    canvas_.text({left + 0.6, top + (height - line) / 2.0}, crop.name, style);
    const double lane = (height - 0.7) / 3.0;
    for (std::size_t m = 0; m < kMethods.size(); ++m) {
      const double y = top + 0.35 + lane * static_cast<double>(m);
      for (const stand::SowingWindow& window : crop.windows) {
        if (window.method == kMethods[m]) draw_window(crop, m, window, y, lane - 0.15);
      }
    }
    if (crop.windows.empty()) {
      canvas_.text({axis_.left + 1.5, top + (height - line) / 2.0}, words_.say("handout.never"),
                   {.size_pt = 6.5, .colour = kInkSoft, .halo = true});
    }
  }

  void draw_window(const CropYear& crop, std::size_t method, const stand::SowingWindow& window, double y,
                   double height) {
    const int from = base::climatological_day(window.span.from) - 1;
    const int to = base::climatological_day(window.span.to);
    if (from < to) return draw_bar(crop, method, from, to, y, height);
    draw_bar(crop, method, from, kYearDays, y, height);
    draw_bar(crop, method, 0, to, y, height);
  }

  void draw_bar(const CropYear& crop, std::size_t method, int from, int to, double y, double height) {
    const Box box{axis_.x(from), y, axis_.x(to) - axis_.x(from), height};
    std::vector<ShadeStop> stops;
    constexpr int kStep = 7;
    const std::vector<double>& chance = crop.chance[method];
    for (int day = from; day <= to; day = day == to ? to + 1 : std::min(to, day + kStep)) {
      const double success =
          chance.empty() ? kLeastChance : chance[static_cast<std::size_t>(std::min(day, kYearDays - 1))];
      stops.push_back({static_cast<double>(day - from) / std::max(1, to - from),
                       shade_of(std::max(kLeastChance, success))});
    }
    draw_pattern(box, method, stops);
  }

  /// Three lanes and three patterns: hollow for indoors, full for in place, slanted lines for setting out.
  void draw_pattern(const Box& box, std::size_t method, const std::vector<ShadeStop>& stops) {
    if (method == 0) {
      canvas_.shade(box, stops);
      canvas_.fill(
          {box.x + 0.35, box.y + box.height * 0.28, std::max(0.0, box.width - 0.7), box.height * 0.44},
          kWhite);
    } else {
      canvas_.shade(box, stops);
      if (method == 2) canvas_.hatch(box, 1.1, {.width_mm = 0.28, .colour = kWhite});
    }
  }

  void draw_legend(const Box& room) {
    const TextStyle style{.size_pt = 7.2};
    double x = room.x;
    constexpr double kSample = 11.0;
    const auto item = [&](const std::string& text, const std::function<void(const Box&)>& draw) {
      draw({x, room.y + 0.5, kSample, 1.8});
      canvas_.text({x + kSample + 1.2, room.y - 0.1}, text, style);
      x += kSample + 5.0 + canvas_.measure(text, style).width;
    };
    const std::vector<ShadeStop> stops{{0.0, shade_of(kLeastChance)}, {1.0, shade_of(1.0)}};
    for (std::size_t m = 0; m < kMethods.size(); ++m) {
      item(words_.say(fmt::format("handout.{}", kMethods[m])),
           [&](const Box& box) { draw_pattern(box, m, stops); });
    }
    item(words_.say("handout.freeze"), [&](const Box& box) {
      canvas_.line({box.x + 2.0, box.y - 0.4}, {box.x + 2.0, box.y + 2.2},
                   {.width_mm = 0.35, .colour = kAct});
      canvas_.line({box.x + 7.0, box.y - 0.4}, {box.x + 7.0, box.y + 2.2},
                   {.width_mm = 0.2, .colour = kAct, .dash_mm = {1.2, 0.9}});
    });
    canvas_.text({room.x, room.y + 4.2}, words_.say("handout.explain"),
                 {.size_pt = 7.2, .width_mm = room.width});
  }

  const PlaceWeather& place_;
  const std::vector<CropYear>& crops_;
  const Words& words_;
  Canvas& canvas_;
  Pages& pages_;
  YearAxis axis_;
};

CropYear year_of_crop(const crop::Crop& crop, const std::shared_ptr<const stand::SeasonWeather>& season,
                      const Words& words) {
  const stand::CropWeather weather(crop, season);
  CropYear year{.name = words.crop(crop)};
  year.windows = stand::sowing_windows(weather, kLeastChance);
  for (std::size_t m = 0; m < kMethods.size(); ++m) {
    if (m == 0 ? !crop.nursery.can_transplant : false) continue;
    for (const stand::SowingDay& day : stand::sowing_year(weather, kMethods[m]))
      year.chance[m].push_back(day.success);
  }
  return year;
}

}  // namespace

base::Result<std::vector<CropYear>> crop_years(const PlaceWeather& place, const Words& words) {
  std::vector<const crop::Crop*> crops;
  for (const std::string& name : place.crops) {
    const auto found = place.library->find(name);
    if (!found) return tl::make_unexpected(found.error());
    crops.push_back(*found);
  }
  if (place.crops.empty()) {
    for (const auto& [id, crop] : place.library->crops) crops.push_back(&crop);
  }
  const auto season = std::make_shared<const stand::SeasonWeather>(*place.weather);
  std::vector<CropYear> years(crops.size());
  base::parallel_for(crops.size(), [&](std::size_t i) { years[i] = year_of_crop(*crops[i], season, words); });
  std::stable_sort(years.begin(), years.end(),
                   [](const CropYear& a, const CropYear& b) { return a.name < b.name; });
  return years;
}

void draw_handout(const PlaceWeather& place, const std::vector<CropYear>& crops, const Words& words,
                  Canvas& canvas, Pages& pages) {
  HandoutPage(place, crops, words, canvas, pages).draw();
}

}  // namespace sowtide::desk::print
