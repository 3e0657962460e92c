// windows, places, plan, outlook, today.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <memory>
#include <optional>
#include <ostream>

#include "base/file.hpp"
#include "base/parallel.hpp"
#include "cli/open.hpp"
#include "cli/place_weather.hpp"
#include "cli/verbs.hpp"
#include "desk/json.hpp"
#include "desk/place_list.hpp"
#include "desk/plan_keeping.hpp"
#include "desk/planning.hpp"
#include "desk/present.hpp"
#include "desk/season_text.hpp"
#include "desk/standing.hpp"
#include "stand/windows.hpp"

namespace sowtide::cli {
namespace {

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

/// The line that is written over and over again; each is as long as the longest, so that nothing of another
/// is left.
std::string progress_line(const plan::PlanProgress& progress) {
  if (!progress.objective || !progress.bound) {
    return fmt::format(
        "\r{:<84}",
        fmt::format("{:5.1f} s  laying out the sowings to choose from, {:.0f} %  (Ctrl-C ends it)",
                    progress.seconds, 100.0 * progress.laid_out));
  }
  const double objective = *progress.objective, bound = *progress.bound;
  return fmt::format(
      "\r{:<84}",
      fmt::format("{:5.1f} s  best {:.1f}  bound {:.1f}  gap {:.2f} %  (Ctrl-C keeps the best so far)",
                  progress.seconds, objective, bound,
                  objective > 0.0 ? 100.0 * (objective - bound) / objective : 0.0));
}

std::function<bool(const plan::PlanProgress&)> progress_of(Output& output) {
  constexpr double kBetweenLines_s = 0.1;
  const std::atomic<bool>* stop = output.catch_stop ? &output.catch_stop() : nullptr;
  return [&output, stop, next_s = 0.0](const plan::PlanProgress& progress) mutable {
    if (output.progress && progress.seconds >= next_s) {
      next_s = progress.seconds + kBetweenLines_s;
      output.err << progress_line(progress);
      output.err.flush();
    }
    return stop == nullptr || !stop->load();
  };
}

base::Result<void> write_plan_model(const PlanVerbOptions& options, const OpenGarden& opened, const plan::PlanOptions& how,
                                    Output& output) {
  const bool mps = options.write_model.ends_with(".mps");
  if (!mps && !options.write_model.ends_with(".lp")) {
    return base::fail(base::ProblemCode::wrong_type, "the model is written as .mps or .lp",
                      {.file = options.write_model, .field = "--write-model"}, "End the file's name in .mps or .lp");
  }
  const auto text = desk::plan_program_text(crop::built_in_library(), opened.garden, opened.events, options.date, how,
                                            mps ? desk::ProgramText::mps : desk::ProgramText::lp);
  if (!text) return tl::make_unexpected(text.error());
  if (auto written = base::write_file(options.write_model, *text); !written) return written;
  output.out << (output.json ? desk::written_model_json(options.write_model, text->size()) + "\n"
                             : fmt::format("Wrote {}.\n", options.write_model));
  return {};
}

}  // namespace

base::Result<void> run_windows(const WindowsOptions& options, Output& output) {
  // Any common year serves: members carry the climate, not the calendar.
  const base::Date first = base::date_of(2025, 1, 1);
  const auto crops = chosen_crops(options.crops);
  if (!crops) return tl::make_unexpected(crops.error());
  const auto place = weather_of(options.place, first, options.warming_c, output);
  if (!place) return tl::make_unexpected(place.error());
  const auto season = std::make_shared<const stand::SeasonWeather>(place->weather);
  std::vector<std::vector<stand::SowingWindow>> found(crops->size());
  std::vector<std::optional<desk::NoWindow>> none(crops->size());
  base::parallel_for(crops->size(), [&](std::size_t i) {
    const stand::CropWeather weather(*(*crops)[i], season);
    found[i] = stand::sowing_windows(weather, options.level);
    if (found[i].empty()) none[i] = desk::no_window(weather);
  });
  std::vector<stand::SowingWindow> windows;
  std::vector<desk::NoWindow> without;
  for (std::size_t i = 0; i < found.size(); ++i) {
    windows.insert(windows.end(), found[i].begin(), found[i].end());
    if (none[i]) without.push_back(*none[i]);
  }
  if (output.json) {
    output.out << desk::windows_json(place->place, windows, place->weather.source, without) << "\n";
  } else {
    output.out << desk::windows_text(place->place, place->weather.source, windows, without, options.level);
  }
  return {};
}

base::Result<void> run_places(const PlacesOptions& options, Output& output) {
  output.out << (output.json ? desk::places_json(options.word) + "\n" : desk::places_text(options.word));
  return {};
}

base::Result<void> run_plan(const PlanVerbOptions& options, Output& output) {
  std::optional<base::ThreadLimit> limit;
  if (options.threads > 0) limit.emplace(options.threads);
  auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  plan::PlanOptions how;
  how.search_longer(options.effort);
  how.time_limit_s = options.time_limit_s.value_or(how.time_limit_s);
  how.gap_goal = options.gap_goal;
  how.weeks = options.weeks;
  how.prices.bad_years = options.bad_years;
  if (!options.write_model.empty()) return write_plan_model(options, *opened, how, output);
  how.progress = progress_of(output);
  const auto answer_before = opened->file.plan_answer();
  if (!answer_before) return tl::make_unexpected(answer_before.error());
  auto plan = desk::plan_garden(crop::built_in_library(), opened->garden, opened->events, options.date, how,
                                nullptr, *answer_before);
  if (output.progress) output.err << "\n";
  if (!plan) return tl::make_unexpected(plan.error());
  if (options.keep) {
    const desk::PlannedFor before = desk::planned_for(opened->garden, opened->events);
    auto kept = desk::keep_plan(opened->file, crop::built_in_library(), before, *plan, options.date);
    if (!kept) return tl::make_unexpected(kept.error());
    plan = std::move(kept->plan);
  }
  if (output.json) {
    output.out << desk::plan_json(*plan) << "\n";
  } else {
    output.out << desk::plan_text(*plan, opened->garden, crop::built_in_library(), options.date);
    if (options.why)
      output.out << "\n"
                 << desk::plan_reasons_text(*plan, opened->garden, crop::built_in_library(), options.date);
  }
  return {};
}

base::Result<void> run_outlook(const OutlookOptions& options, Output& output) {
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::make_unexpected(season.error());
  const auto stand = stand_typed(options.stand, season->garden, "STAND");
  if (!stand) return tl::make_unexpected(stand.error());
  if (options.on && stand->empty())
    return base::fail(base::ProblemCode::usage, "plants by size are told of one stand", {.field = "--on"},
                      "Name a stand: sowtide outlook GARDEN s3 --on 2026-07-10");
  if (options.on) {
    auto checked = desk::check_standing_day(*season, *stand, *options.on);
    if (!checked) {
      checked.error().where.field = "--on";
      return checked;
    }
  }
  output.out << (output.json ? desk::outlook_json(*season, *stand, options.on) + "\n"
                             : desk::outlook_text(*season, *stand, options.on));
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
