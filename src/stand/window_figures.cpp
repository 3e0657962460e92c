#include "stand/window_figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <string>

#include "climate/ensemble.hpp"
#include "climate/places.hpp"
#include "stand/calendar_score.hpp"
#include "stand/windows.hpp"

namespace sowtide::stand {
namespace {

using base::Explanation;
using base::FigureDescription;
using base::FigureInputs;

constexpr const char* kModel = "docs/models/windows.md";
constexpr const char* kNothing = "nothing";

std::string input_or(const FigureInputs& inputs, const std::string& key, const std::string& fallback) {
  const auto found = inputs.find(key);
  return found == inputs.end() ? fallback : found->second;
}

// The day of the year of "05-20" or of "2026-05-20"; 29 February counts as the 28th.
base::Result<base::MonthDay> day_input(const std::string& text) {
  const auto date = base::parse_iso_date(text);
  return date ? base::month_day_of(*date) : base::parse_month_day(text);
}

std::string text_or_none(Limit limit) {
  return limit == Limit::none ? kNothing : std::string(limit_text(limit));
}

// How the answer came about, one step a line.
std::vector<std::string> working_of(const SowingDay& day, std::size_t years, double level,
                                    const std::vector<SowingWindow>& windows, const std::string& method) {
  std::vector<std::string> lines{fmt::format(
      "{:.0f} % of sowings of this day and three days to both sides succeed in {} made weather years",
      100.0 * day.success, years)};
  for (const SowingWindow& window : windows) {
    if (window.method != method) continue;
    lines.push_back(fmt::format("at least {:.0f} % succeed from {} to {}; before: {}; after: {}",
                                100.0 * level, base::to_text(window.span.from), base::to_text(window.span.to),
                                text_or_none(window.before), text_or_none(window.after)));
  }
  if (lines.size() == 1) lines.push_back(fmt::format("no day of the year reaches {:.0f} %", 100.0 * level));
  return lines;
}

Explanation answered(const FigureDescription& figure, const FigureInputs& inputs) {
  Explanation answer;
  answer.name = figure.name;
  for (const base::FigureKey& key : figure.keys) {
    if (const auto found = inputs.find(key.name); found != inputs.end())
      answer.inputs.push_back({key.name, found->second, key.unit});
  }
  answer.source = {kModel};
  return answer;
}

void add_results(Explanation& answer, const SowingDay& day, const std::vector<SowingWindow>& windows,
                 const std::string& method) {
  std::vector<std::string> from, to, before, after;
  for (const SowingWindow& window : windows) {
    if (window.method != method) continue;
    from.push_back(base::to_text(window.span.from));
    to.push_back(base::to_text(window.span.to));
    before.push_back(text_or_none(window.before));
    after.push_back(text_or_none(window.after));
  }
  answer.result = {{"probability", day.success, ""}, {"limit", text_or_none(day.limit), ""},
                   {"method", method, ""},           {"from", from, "month and day"},
                   {"to", to, "month and day"},      {"limit_before", before, ""},
                   {"limit_after", after, ""}};
}

base::Result<Explanation> sowing_window(const FigureDescription& figure, const FigureInputs& inputs,
                                        const crop::Crop& crop) {
  const auto place = climate::find_place(inputs.find("place")->second);
  if (!place) return tl::unexpected(place.error());
  const auto date = day_input(inputs.find("date")->second);
  if (!date) return tl::unexpected(date.error());
  double level = 0.5;
  if (inputs.contains("level")) {
    const auto given = base::number_input(inputs, "level", 0.01, 1.0);
    if (!given) return tl::unexpected(given.error());
    level = *given;
  }
  const std::string method =
      input_or(inputs, "method", crop.nursery.can_direct_sow ? "direct-sow" : "set-out");
  climate::EnsembleOptions options;
  options.first = base::date_of(2025, 1, 1);  // members carry the climate, not the calendar
  const auto ensemble = climate::ensemble_from_normals(*place, options);
  const CropWeather weather(crop, std::make_shared<const SeasonWeather>(ensemble));
  const auto year = sowing_year(weather, method);
  if (year.empty()) {
    return base::fail(base::ProblemCode::out_of_range,
                      fmt::format("{} is not grown by \"{}\"", crop.name, method), {.field = "method"},
                      "Use direct-sow, start-indoors or set-out, as the crop allows");
  }
  const SowingDay& day = year[static_cast<std::size_t>(base::climatological_day(*date) - 1)];
  const auto windows = sowing_windows(weather, level);
  Explanation answer = answered(figure, inputs);
  add_results(answer, day, windows, method);
  answer.working = working_of(day, ensemble.member_count, level, windows, method);
  return answer;
}

bool is_one_of(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

base::Result<Explanation> sowing_window_score(const FigureDescription& figure, const FigureInputs& inputs) {
  const std::string group = input_or(inputs, "group", "all");
  const std::string part = input_or(inputs, "part", "both");
  if (!is_one_of(score_groups(), group)) {
    return base::fail(base::ProblemCode::not_found, fmt::format("there is no group \"{}\"", group),
                      {.field = "group"}, fmt::format("Groups: {}", fmt::join(score_groups(), ", ")));
  }
  if (!is_one_of({"both", "tuned-on", "held-out"}, part)) {
    return base::fail(base::ProblemCode::not_found, fmt::format("there is no part \"{}\"", part),
                      {.field = "part"}, "Use both, tuned-on or held-out");
  }
  const ScoreMeans means = means_of(agreements_of(built_in_score(), group, part));
  Explanation answer = answered(figure, inputs);
  answer.result = {{"jaccard", means.jaccard, ""},
                   {"jaccard_week", means.tolerant, ""},
                   {"recall", means.recall, ""},
                   {"precision", means.precision, ""},
                   {"start_error", means.start_median, "d"},
                   {"start_error_size", means.start_size, "d"},
                   {"end_error", means.end_median, "d"},
                   {"end_error_size", means.end_size, "d"},
                   {"missed", static_cast<double>(means.missed), "windows"},
                   {"pairs", static_cast<double>(means.pairs), ""}};
  answer.working = {
      fmt::format("means over {} pairs of place, crop and method; errors are medians, computed "
                  "less published; a week of tolerance counts in jaccard_week",
                  means.pairs)};
  answer.source.emplace_back("data/calendars/planting_calendars.csv, each row with its source");
  return answer;
}

}  // namespace

const std::vector<FigureDescription>& window_figures() {
  static const std::vector<FigureDescription> figures{
      {"sowing-window",
       "how likely a sowing of a day gives a harvest worth having in a place, and what limits it",
       {{"crop", "", true, "a crop of the library, for example beet"},
        {"place", "", true, "a built-in place with monthly normals, for example \"Olympia WA\""},
        {"date", "", true, "day of the year, MM-DD or YYYY-MM-DD"},
        {"method", "", false,
         "direct-sow, start-indoors or set-out; in place when left out, where that is done"},
        {"level", "", false, "share of years that a window asks for, 0.5 when left out"}},
       "crop=beet place=\"Olympia WA\" date=05-01"},
      {"sowing-window-score",
       "how far the computed sowing windows agree with published planting calendars",
       {{"group", "", false, "all, seen, spring, autumn, overwintering or frost-free; all when left out"},
        {"part", "", false,
         "tuned-on or held-out: places used to set figures, or kept apart; both when left out"}},
       "group=autumn part=held-out"}};
  return figures;
}

base::Result<Explanation> window_figure(std::string_view name, const FigureInputs& inputs,
                                        const crop::CropLibrary& library) {
  const auto& figures = window_figures();
  const auto figure = std::find_if(figures.begin(), figures.end(),
                                   [&](const FigureDescription& each) { return each.name == name; });
  if (figure == figures.end()) {
    return base::fail(base::ProblemCode::not_found, fmt::format("there is no figure {}", name));
  }
  if (auto ok = base::check_keys(*figure, inputs); !ok) return tl::unexpected(ok.error());
  if (figure->name == "sowing-window-score") return sowing_window_score(*figure, inputs);
  const auto crop = library.find(inputs.find("crop")->second);
  if (!crop) return tl::unexpected(crop.error());
  return sowing_window(*figure, inputs, **crop);
}

}  // namespace sowtide::stand
