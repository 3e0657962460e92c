// windows, plan, outlook, today.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <ostream>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "base/parallel.hpp"
#include "cli/open.hpp"
#include "cli/verbs.hpp"
#include "climate/places.hpp"
#include "desk/json.hpp"
#include "desk/planning.hpp"
#include "desk/present.hpp"
#include "desk/season_text.hpp"
#include "stand/windows.hpp"

namespace sowtide::cli {
namespace {

constexpr std::string_view kSqliteMagic = "SQLite format 3";
constexpr std::size_t kWindowDays = 730;

struct NamedWeather {
  std::string place;
  climate::WeatherEnsemble weather;
};

base::Result<NamedWeather> weather_of_place(const climate::PlaceNormals& place, base::Date first) {
  climate::EnsembleOptions options;
  options.first = first;
  options.day_count = kWindowDays;
  return NamedWeather{place.site.name, climate::ensemble_from_normals(place, options)};
}

/// "47.4,-122.3" or "47.4,-122.3,110": latitude, longitude and, if given, elevation in metres; nothing for other texts.
std::optional<std::vector<double>> coordinates_of(const std::string& text) {
  std::vector<double> numbers;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const auto number = base::parse_number(base::trim(std::string_view(text).substr(from, comma - from)));
    if (!number) return std::nullopt;
    numbers.push_back(*number);
    from = comma + 1;
  }
  if (numbers.size() < 2 || numbers.size() > 3) return std::nullopt;
  return numbers;
}

/// The built-in place nearest to coordinates, moved to their elevation; how far off that is goes to stderr.
base::Result<NamedWeather> weather_of_nearest(const std::vector<double>& at, base::Date first, Output& output) {
  if (std::abs(at[0]) > 90.0 || std::abs(at[1]) > 180.0) {
    return base::fail(base::ProblemCode::out_of_range, fmt::format("{}, {} is not on earth", at[0], at[1]),
                      {.field = "PLACE"}, "Give latitude -90 to 90 and longitude -180 to 180");
  }
  const climate::NearestPlace nearest =
      at.size() == 3 ? climate::nearest_place(at[0], at[1], at[2]) : climate::nearest_place(at[0], at[1]);
  if (!nearest.warning.empty()) output.err << "note: " << nearest.warning << "\n";
  return weather_of_place(nearest.place, first);
}

/// A PLACE is a garden file, a TOML file, coordinates, or the name of a built-in place.
base::Result<NamedWeather> weather_for(const std::string& place, base::Date first, Output& output) {
  if (const auto coordinates = coordinates_of(place)) return weather_of_nearest(*coordinates, first, output);
  const auto bytes = base::read_file(place);
  if (bytes && bytes->starts_with(kSqliteMagic)) {
    auto opened = open_garden(place);
    if (!opened) return tl::make_unexpected(opened.error());
    auto weather = desk::garden_weather(opened->garden, first, kWindowDays, first - base::Days{1});
    if (!weather) return tl::make_unexpected(weather.error());
    return NamedWeather{opened->garden.name, std::move(*weather)};
  }
  if (bytes) {
    const auto read = climate::read_place(*bytes, place);
    if (!read) return tl::make_unexpected(read.error());
    return weather_of_place(*read, first);
  }
  if (place.ends_with(".toml") || place.ends_with(".sowtide") || place.find('/') != std::string::npos) {
    return tl::make_unexpected(bytes.error());
  }
  const auto built_in = climate::find_place(place);
  if (!built_in) return tl::make_unexpected(built_in.error());
  return weather_of_place(*built_in, first);
}

base::Result<std::vector<const crop::Crop*>> chosen_crops(const std::vector<std::string>& names) {
  const crop::CropLibrary& library = crop::built_in_library();
  std::vector<const crop::Crop*> chosen;
  if (names.empty()) {
    for (const auto& [id, crop] : library.crops) chosen.push_back(&crop);
    return chosen;
  }
  for (const std::string& name : names) {
    const auto found = library.find(name);
    if (!found) return tl::make_unexpected(found.error());
    chosen.push_back(*found);
  }
  return chosen;
}

std::function<bool(double, double, double)> progress_of(Output& output) {
  return [&output](double seconds, double objective, double bound) {
    if (output.progress) {
      fmt::print(output.err, "\r{:5.1f} s  best {:.1f}  bound {:.1f}  gap {:.2f} %  (Ctrl-C keeps the best so far)", seconds,
                 objective, bound, objective > 0.0 ? 100.0 * (objective - bound) / objective : 0.0);
      output.err.flush();
    }
    return output.stop == nullptr || !output.stop->load();
  };
}

}  // namespace

base::Result<void> run_windows(const WindowsOptions& options, Output& output) {
  // Any common year serves: members carry the climate, not the calendar.
  const base::Date first = base::date_of(2025, 1, 1);
  const auto crops = chosen_crops(options.crops);
  if (!crops) return tl::make_unexpected(crops.error());
  const auto place = weather_for(options.place, first, output);
  if (!place) return tl::make_unexpected(place.error());
  std::vector<std::vector<stand::SowingWindow>> found(crops->size());
  base::parallel_for(crops->size(), [&](std::size_t i) {
    found[i] = stand::sowing_windows(*(*crops)[i], place->weather, options.level);
  });
  std::vector<stand::SowingWindow> windows;
  for (const auto& list : found) windows.insert(windows.end(), list.begin(), list.end());
  if (output.json) {
    output.out << desk::windows_json(place->place, windows) << "\n";
  } else {
    output.out << desk::windows_text(place->place, place->weather.source, windows, options.level);
  }
  return {};
}

base::Result<void> run_plan(const PlanVerbOptions& options, Output& output) {
  std::optional<base::ThreadLimit> limit;
  if (options.threads > 0) limit.emplace(options.threads);
  auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  plan::PlanOptions how;
  how.time_limit_s = options.time_limit_s;
  how.gap_goal = options.gap_goal;
  how.weeks = options.weeks;
  how.progress = progress_of(output);
  const auto plan = desk::plan_garden(crop::built_in_library(), opened->garden, opened->events, options.date, how);
  if (output.progress) output.err << "\n";
  if (!plan) return tl::make_unexpected(plan.error());
  if (options.keep) {
    if (auto kept = opened->file.set_planned_stands(plan->stands); !kept) return kept;
  }
  if (output.json) {
    output.out << desk::plan_json(*plan) << "\n";
  } else {
    output.out << desk::plan_text(*plan, opened->garden, crop::built_in_library(), options.date);
  }
  return {};
}

base::Result<void> run_outlook(const OutlookOptions& options, Output& output) {
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::make_unexpected(season.error());
  const auto& stands = season->state.stands;
  const bool known = std::any_of(stands.begin(), stands.end(),
                                 [&](const book::StandState& stand) { return stand.plan.id == options.stand; });
  if (!options.stand.empty() && !known) {
    return base::fail(base::ProblemCode::not_found, fmt::format("there is no stand \"{}\"", options.stand),
                      {.file = options.garden, .field = "STAND"}, "`sowtide outlook GARDEN` lists the stands");
  }
  output.out << (output.json ? desk::outlook_json(*season, options.stand) + "\n"
                             : desk::outlook_text(*season, options.stand));
  return {};
}

base::Result<void> run_today(const TodayOptions& options, Output& output) {
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::make_unexpected(season.error());
  const std::vector<desk::Task> tasks = desk::worklist(*season, options.days);
  output.out << (output.json ? desk::worklist_json(*season, tasks) + "\n"
                             : desk::worklist_text(*season, tasks, options.days));
  return {};
}

}  // namespace sowtide::cli
