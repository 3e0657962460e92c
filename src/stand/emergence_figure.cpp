#include "stand/emergence_figure.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "base/quantile.hpp"
#include "climate/places.hpp"
#include "climate/soil_temperature.hpp"
#include "crop/emergence.hpp"
#include "crop/figures.hpp"

namespace sowtide::stand {
namespace {

using base::Date;
using base::Days;
using base::Explanation;
using base::ProblemCode;
using climate::Variable;

constexpr std::size_t kHours = 24;
constexpr std::size_t kMostDays = 183;
constexpr int kRunInDays = 60;
constexpr double kAnyNorthernDeg = 45.0;

struct Question {
  const crop::Crop* crop = nullptr;
  Date sown{};
  double depth_mm = 0.0;
  double germination_pct = 0.0;
  std::optional<double> latitude_deg;
};

base::Result<double> number_or(const base::FigureInputs& inputs, const std::string& key, double low,
                               double high, double otherwise) {
  if (!inputs.contains(key)) return otherwise;
  return base::number_input(inputs, key, low, high);
}

base::Result<Question> read_question(const base::FigureInputs& inputs, const crop::CropLibrary& library) {
  Question question;
  const auto missing = [](const char* key, const char* remedy) {
    return base::fail(ProblemCode::missing_field, "is needed", {.field = key}, remedy);
  };
  const auto crop = inputs.find("crop");
  if (crop == inputs.end()) return missing("crop", "For example crop=beet");
  const auto found = library.find(crop->second);
  if (!found) return tl::unexpected(found.error());
  question.crop = *found;
  const auto date = inputs.find("date");
  if (date == inputs.end()) return missing("date", "The day of sowing, for example date=2026-04-20");
  const auto sown = base::parse_iso_date(date->second);
  if (!sown) {
    base::Problem problem = sown.error();
    problem.where.field = "date";
    return tl::unexpected(problem);
  }
  question.sown = *sown;
  const auto depth = number_or(inputs, "depth_mm", 0.0, 300.0, question.crop->germination.depth_mm);
  const auto pct = number_or(inputs, "germination_pct", 0.0, 100.0, question.crop->seed.germination_pct);
  const auto lat = number_or(inputs, "lat", -90.0, 90.0, 0.0);
  for (const auto* number : {&depth, &pct, &lat}) {
    if (!*number) return tl::unexpected(number->error());
  }
  question.depth_mm = *depth;
  question.germination_pct = *pct;
  if (inputs.contains("lat")) question.latitude_deg = *lat;
  return question;
}

/// Soil temperature at sowing depth from the day of sowing on, one course of hours for each weather year.
using Courses = std::vector<std::vector<double>>;

/// Hours of days whose temperature swings as a sine about its mean.
std::vector<double> hours_of(const climate::SoilTemperatures& soil, std::size_t from, std::size_t days) {
  std::vector<double> hours;
  hours.reserve(days * kHours);
  for (std::size_t d = from; d < from + days; ++d) {
    const double swing_k = 0.5 * (soil.tmax_c[d] - soil.tmin_c[d]);
    for (std::size_t h = 0; h < kHours; ++h) {
      const double wave =
          std::sin(2.0 * std::numbers::pi * (static_cast<double>(h) + 0.5) / static_cast<double>(kHours));
      hours.push_back(soil.tmean_c[d] + swing_k * wave);
    }
  }
  return hours;
}

/// The latitude to reckon with, and how it was found: it only steers the sunshine that the soil is warmed by.
double latitude_of(const climate::WeatherRecord& record, const Question& question, std::string& how) {
  if (question.latitude_deg) {
    how = fmt::format("latitude {:g}°, as given", *question.latitude_deg);
    return *question.latitude_deg;
  }
  if (record.site.latitude_deg != 0.0 || record.site.longitude_deg != 0.0) {
    how = fmt::format("latitude {:g}°, as the file states", record.site.latitude_deg);
    return record.site.latitude_deg;
  }
  how = fmt::format("latitude {:g}°, since neither the file nor lat= says it", kAnyNorthernDeg);
  return kAnyNorthernDeg;
}

/// The values of a variable over some days; nothing where one of them is not known.
std::vector<double> known(const climate::WeatherRecord& record, Variable variable, std::size_t from,
                          std::size_t days) {
  const auto& all = record.values(variable);
  std::vector<double> part(all.begin() + static_cast<std::ptrdiff_t>(from),
                           all.begin() + static_cast<std::ptrdiff_t>(from + days));
  if (std::any_of(part.begin(), part.end(), [](double v) { return std::isnan(v); })) part.clear();
  return part;
}

base::Result<Courses> courses_of(const climate::WeatherRecord& record, const Question& question,
                                 std::vector<std::string>& working) {
  const auto sown = (question.sown - record.first).count();
  if (sown < 0 || sown >= static_cast<std::int64_t>(record.day_count())) {
    return base::fail(
        ProblemCode::insufficient_data,
        fmt::format("the record goes from {} to {}", base::to_iso(record.first), base::to_iso(record.last())),
        {.field = "date"}, "Give a day of sowing within it");
  }
  const auto day = static_cast<std::size_t>(sown);
  const std::size_t run_in = std::min<std::size_t>(day, kRunInDays);
  const std::size_t from = day - run_in;
  std::size_t days = std::min(kMostDays, record.day_count() - day);
  // Up to the first day without temperatures.
  for (std::size_t i = 0; i < days; ++i) {
    if (std::isnan(record.values(Variable::tmin)[day + i]) ||
        std::isnan(record.values(Variable::tmax)[day + i]))
      days = i;
  }
  std::string how;
  climate::SoilWeather weather{.site = record.site, .first = record.first + Days{static_cast<int>(from)}};
  weather.site.latitude_deg = latitude_of(record, question, how);
  const auto tmin = known(record, Variable::tmin, from, run_in + days);
  const auto tmax = known(record, Variable::tmax, from, run_in + days);
  const auto rain = known(record, Variable::rain, from, run_in + days);
  const auto radiation = known(record, Variable::radiation, from, run_in + days);
  if (days == 0 || tmin.empty() || tmax.empty()) {
    return base::fail(ProblemCode::insufficient_data, "the record lacks temperatures about that day",
                      {.field = "date"}, "Give a day of sowing that the record holds");
  }
  weather.tmin_c = tmin;
  weather.tmax_c = tmax;
  weather.rain_mm = rain;
  weather.radiation_mj_m2 = radiation;
  const std::vector<base::Millimetres> depths{base::Millimetres::of(question.depth_mm)};
  const auto soil = climate::soil_temperature_daily(weather, {}, depths);
  if (!soil) return tl::unexpected(soil.error());
  working.push_back(how);
  return Courses{hours_of(soil->front(), run_in, days)};
}

base::Result<Courses> courses_of(const climate::PlaceNormals& place, const Question& question,
                                 std::vector<std::string>& working) {
  climate::EnsembleOptions options;
  options.first = question.sown - Days{kRunInDays};
  options.day_count = kMostDays + kRunInDays;
  const auto weather = climate::ensemble_from_normals(place, options);
  const auto soil = climate::sowing_depth_temperature(weather, {}, base::Millimetres::of(question.depth_mm));
  Courses courses;
  for (std::size_t m = 0; m < weather.member_count; ++m)
    courses.push_back(hours_of(soil, weather.at(m, kRunInDays), kMostDays));
  working.push_back(
      fmt::format("{} years made from the monthly normals of {}", weather.member_count, place.site.name));
  return courses;
}

/// Day, counted from the sowing, by whose end a share of what comes up in all is up; nothing: not in time.
std::optional<double> day_of_share(const std::vector<double>& up, double share) {
  if (up.empty() || up.back() <= 0.0) return std::nullopt;
  const double wanted = share * up.back();
  const auto found = std::find_if(up.begin(), up.end(), [wanted](double u) { return u >= wanted; });
  return static_cast<double>(found - up.begin()) + 1.0;
}

struct Curve {
  std::vector<double> p10, p50, p90;  ///< days, one of each weather year that sees it
  double final_share = 0.0;           ///< mean over all
  double mean_c = 0.0;                ///< of the soil till half are up
};

Curve curve_of(const Courses& courses, const Question& question) {
  // Half the seed that can come up must be up within the days reckoned, or the sowing counts as lost.
  constexpr double kLeastShare = 0.05;
  Curve curve;
  double heat = 0.0;
  double hours = 0.0;
  for (const auto& course : courses) {
    const auto up = crop::emergence_by_day(*question.crop, course, question.depth_mm);
    if (up.empty() || up.back() < kLeastShare) continue;
    curve.final_share += up.back() / static_cast<double>(courses.size());
    const auto half = day_of_share(up, 0.5);
    curve.p10.push_back(*day_of_share(up, 0.1));
    curve.p50.push_back(*half);
    curve.p90.push_back(*day_of_share(up, 0.9));
    for (std::size_t h = 0; h < static_cast<std::size_t>(*half) * kHours; ++h, hours += 1.0)
      heat += course[h];
  }
  if (hours > 0.0) curve.mean_c = heat / hours;
  for (auto* days : {&curve.p10, &curve.p50, &curve.p90}) std::sort(days->begin(), days->end());
  return curve;
}

Explanation explain(const base::FigureInputs& inputs, const crop::CropLibrary& library,
                    const Question& question, const Curve& curve, std::vector<std::string> working,
                    std::size_t years) {
  Explanation answer;
  answer.name = "emergence";
  answer.inputs = {{"crop", question.crop->id, ""},
                   {"date", base::to_iso(question.sown), ""},
                   {"depth_mm", question.depth_mm, "mm"}};
  for (const char* key : {"weather", "place"}) {
    if (const auto given = inputs.find(key); given != inputs.end())
      answer.inputs.push_back({key, given->second, ""});
  }
  const double half = base::quantile_of_sorted(curve.p50, 0.5);
  answer.result = {
      {"days", half, "d"},
      {"p10", base::quantile_of_sorted(curve.p10, 0.5), "d"},
      {"p90", base::quantile_of_sorted(curve.p90, 0.5), "d"},
      {"final_pct", curve.final_share * question.germination_pct, "%"},
      {"date_of_half", base::to_iso(question.sown + Days{static_cast<int>(std::lround(half)) - 1}), ""},
      {"soil_mean_c", curve.mean_c, "°C"}};
  const auto& g = question.crop->germination;
  working.push_back(fmt::format(
      "soil at {} mm, bare and watered ground, by heat conduction from the day's weather; hours as "
      "a sine between its minimum and maximum",
      question.depth_mm));
  working.push_back(fmt::format(
      "each hour adds its warmth above {} °C, up to {} °C and less above {} °C; half are up at {:.4g} °C d",
      g.cardinal.base_c.value, g.cardinal.optimum_low_c.value, g.cardinal.optimum_high_c.value,
      crop::half_emergence_cd(*question.crop)));
  working.push_back(
      fmt::format("one in ten of those that come up is up after {:.0f} days, half after {:.0f}, nine in ten "
                  "after {:.0f}; "
                  "the soil was {:.1f} °C warm till then",
                  base::quantile_of_sorted(curve.p10, 0.5), half, base::quantile_of_sorted(curve.p90, 0.5),
                  curve.mean_c));
  if (years > 1) {
    working.push_back(
        fmt::format("medians over the years; half are up after {:.0f} to {:.0f} days in 8 years of 10",
                    base::quantile_of_sorted(curve.p50, 0.1), base::quantile_of_sorted(curve.p50, 0.9)));
  }
  answer.working = std::move(working);
  answer.source = {crop::figure_citation(library, g.thermal_time_50_cd),
                   crop::figure_citation(library, g.cardinal.base_c),
                   "soil: docs/models/climate.md (heat conduction, D. A. de Vries 1963; S. Lu et al. 2007)"};
  return answer;
}

}  // namespace

base::Result<Explanation> emergence_in_weather(const base::FigureInputs& inputs,
                                               const crop::CropLibrary& library,
                                               const climate::WeatherRecord* record) {
  if (inputs.contains("temp_c") || (record != nullptr && inputs.contains("place"))) {
    return base::fail(ProblemCode::contradiction, "only one of temp_c, weather and place can be meant",
                      {.field = record != nullptr ? "weather" : "place"}, "Give one of them");
  }
  const auto question = read_question(inputs, library);
  if (!question) return tl::unexpected(question.error());
  std::vector<std::string> working;
  base::Result<Courses> courses;
  if (record != nullptr) {
    courses = courses_of(*record, *question, working);
  } else {
    const auto named = inputs.find("place");
    const auto place = climate::find_place(named == inputs.end() ? "" : named->second);
    if (!place) return tl::unexpected(place.error());
    courses = courses_of(*place, *question, working);
  }
  if (!courses) return tl::unexpected(courses.error());
  const Curve curve = curve_of(*courses, *question);
  if (2 * curve.p50.size() < courses->size() || curve.p50.empty()) {
    return base::fail(
        ProblemCode::out_of_range,
        fmt::format("{} sown on {} does not come up within {} days of that weather", question->crop->name,
                    base::to_iso(question->sown), courses->front().size() / kHours),
        {.field = "date"}, "Sow when the soil is warmer");
  }
  return explain(inputs, library, *question, curve, std::move(working), courses->size());
}

}  // namespace sowtide::stand
