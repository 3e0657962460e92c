#include "published/windows_score.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "base/parallel.hpp"

namespace sowtide::published {
namespace {

constexpr int kYear = 365;
constexpr int kTolerance = 7;

std::size_t wrapped(int day) {
  return static_cast<std::size_t>((day % kYear + kYear) % kYear);
}
int day_of(base::MonthDay day) {
  return base::climatological_day(day) - 1;
}

int circular_difference(int to, int from) {
  return (to - from + kYear + kYear / 2) % kYear - kYear / 2;
}

YearDays days_of(base::MonthDay from, base::MonthDay to) {
  YearDays days;
  const int last = day_of(to);
  for (int day = day_of(from);; ++day) {
    days.set(wrapped(day));
    if (static_cast<int>(wrapped(day)) == last) return days;
  }
}

YearDays widened(const YearDays& days) {
  YearDays wide;
  for (int day = 0; day < kYear; ++day) {
    for (int shift = -kTolerance; shift <= kTolerance; ++shift) {
      if (days[wrapped(day + shift)]) wide.set(wrapped(day));
    }
  }
  return wide;
}

// The part of the year that a source speaks of.
YearDays covered(const std::string& covers) {
  if (covers == "spring") return days_of({12, 1}, {7, 15});
  if (covers == "autumn") return days_of({6, 15}, {12, 31});
  return YearDays().set();
}

base::CsvTable table_of(const std::string& path) {
  const auto text = base::read_file(path);
  if (!text) throw std::runtime_error("cannot read " + path);
  auto table = base::parse_csv(*text, path, {.separator = ','});
  if (!table) throw std::runtime_error(path + " is not a table");
  return *table;
}

std::string cell(const base::CsvTable& table, const base::CsvRow& row, const char* name) {
  const auto column = table.column(name);
  if (!column) throw std::runtime_error(table.file + " has no column " + name);
  return row.cells[*column];
}

std::optional<base::MonthDay> day_in(const std::string& text) {
  if (text.empty()) return std::nullopt;
  return base::parse_month_day(text).value();
}

std::vector<CalendarRow> read_rows(const std::string& path) {
  const auto table = table_of(path);
  std::vector<CalendarRow> rows;
  for (const auto& row : table.rows) {
    rows.push_back({.place = cell(table, row, "place"),
                    .read_as = cell(table, row, "read_as"),
                    .crop = cell(table, row, "crop"),
                    .mark = cell(table, row, "mark"),
                    .covers = cell(table, row, "covers"),
                    .from = day_in(cell(table, row, "from")),
                    .to = day_in(cell(table, row, "to")),
                    .second = cell(table, row, "second") == "yes"});
  }
  return rows;
}

std::map<std::string, CalendarPlace> read_places(const std::string& path) {
  const auto table = table_of(path);
  std::map<std::string, CalendarPlace> places;
  for (const auto& row : table.rows) {
    const auto number = [&](const std::string& name) { return std::stod(cell(table, row, name.c_str())); };
    CalendarPlace place;
    auto& normals = place.normals;
    normals.site = {.name = cell(table, row, "place"),
                    .latitude_deg = number("lat"),
                    .longitude_deg = number("lon"),
                    .elevation_m = number("elevation_m")};
    for (std::size_t month = 0; month < 12; ++month) {
      normals.normals.tmax_c[month] = number(fmt::format("tmax_{}", month + 1));
      normals.normals.tmin_c[month] = number(fmt::format("tmin_{}", month + 1));
      normals.normals.precip_mm[month] = number(fmt::format("precip_{}", month + 1));
    }
    place.held_out = cell(table, row, "held_out") == "yes";
    const std::string name = normals.site.name;
    places.emplace(name, std::move(place));
  }
  return places;
}

struct Computed {
  YearDays days;
  std::vector<base::YearSpan> spans;
};

Computed computed_days(const std::vector<stand::SowingWindow>& windows, const std::string& method) {
  Computed computed;
  for (const auto& window : windows) {
    if (window.method != method) continue;
    computed.days |= days_of(window.span.from, window.span.to);
    computed.spans.push_back(window.span);
  }
  return computed;
}

double ratio(std::size_t part, std::size_t whole) {
  return whole > 0 ? static_cast<double>(part) / static_cast<double>(whole) : 0.0;
}

struct Agreement {
  double jaccard = 0.0, tolerant = 0.0, recall = 0.0, precision = 0.0;
};

Agreement agreement(const YearDays& published, const YearDays& computed) {
  const YearDays either = published | computed;
  const YearDays both = published & computed;
  const YearDays near = either & widened(published) & widened(computed);
  return {.jaccard = ratio(both.count(), either.count()),
          .tolerant = ratio(near.count(), either.count()),
          .recall = ratio(both.count(), published.count()),
          .precision = ratio(both.count(), computed.count())};
}

std::string span_text(const base::YearSpan& span) {
  return base::to_text(span.from) + ".." + base::to_text(span.to);
}

void add_word(std::string& list, const std::string& word) {
  if (!list.empty()) list += ' ';
  list += word;
}

// Errors against the computed window whose ends are nearest to the printed ones.
void add_errors(PairScore& score, const base::YearSpan& printed, const std::vector<base::YearSpan>& spans) {
  int best = 100000, start = 0, end = 0;
  for (const auto& span : spans) {
    const int s = circular_difference(day_of(span.from), day_of(printed.from));
    const int e = circular_difference(day_of(span.to), day_of(printed.to));
    if (std::abs(s) + std::abs(e) >= best) continue;
    best = std::abs(s) + std::abs(e);
    start = s;
    end = e;
  }
  if (spans.empty()) return;
  score.start_errors.push_back(start);
  score.end_errors.push_back(end);
}

PairScore score_pair(const std::vector<const CalendarRow*>& rows, const Computed& computed) {
  PairScore score;
  YearDays published;
  const YearDays open = covered(rows.front()->covers);
  const YearDays wide = widened(computed.days);
  for (const auto* row : rows) {
    const YearDays printed = days_of(*row->from, *row->to);
    published |= printed;
    const base::YearSpan span{*row->from, *row->to};
    score.seen = score.seen || row->mark == "seen";
    score.autumn = score.autumn || row->second || row->covers == "autumn";
    add_word(score.published, span_text(span));
    if ((printed & wide).none()) {
      score.missed.push_back(span_text(span));
    } else {
      add_errors(score, span, computed.spans);
    }
  }
  for (const auto& span : computed.spans) add_word(score.computed, span_text(span));
  const auto all = agreement(published & open, computed.days & open);
  score.jaccard = all.jaccard;
  score.tolerant = all.tolerant;
  score.recall = all.recall;
  score.precision = all.precision;
  const YearDays late = covered("autumn");
  if (score.autumn && (published & late).any()) {
    const auto autumn = agreement(published & late, computed.days & late);
    score.autumn_jaccard = autumn.jaccard;
    score.autumn_tolerant = autumn.tolerant;
    score.autumn_recall = autumn.recall;
  }
  return score;
}

bool frost_free(const climate::PlaceNormals& place) {
  return *std::min_element(place.normals.tmin_c.begin(), place.normals.tmin_c.end()) >= 4.7;
}

PartialScore score_partial(const CalendarRow& row, const Computed& computed) {
  PartialScore score;
  if (row.mark == "seen-membership") {
    const YearDays printed = days_of(*row.from, *row.to);
    score.member = 2 * (printed & computed.days).count() >= printed.count();
    return score;
  }
  const bool start = row.from.has_value();
  for (const auto& span : computed.spans) {
    const int error = start ? circular_difference(day_of(span.from), day_of(*row.from))
                            : circular_difference(day_of(span.to), day_of(*row.to));
    auto& best = start ? score.start_error : score.end_error;
    if (!best || std::abs(error) < std::abs(*best)) best = error;
  }
  return score;
}

using WindowsOf = std::map<std::pair<std::string, std::string>, std::vector<stand::SowingWindow>>;

WindowsOf all_windows(const Calendars& calendars, const stand::WindowRules& rules, double level) {
  std::vector<std::pair<std::pair<std::string, std::string>, const stand::CropWeather*>> jobs;
  for (const auto& [name, place] : calendars.places) {
    for (const auto& [crop, weather] : place.crops) jobs.push_back({{name, crop}, weather.get()});
  }
  std::vector<std::vector<stand::SowingWindow>> found(jobs.size());
  base::parallel_for(jobs.size(),
                     [&](std::size_t i) { found[i] = stand::sowing_windows(*jobs[i].second, level, rules); });
  WindowsOf windows;
  for (std::size_t i = 0; i < jobs.size(); ++i) windows[jobs[i].first] = std::move(found[i]);
  return windows;
}

// A source that does not say how is matched with the nearer of sowing in place and setting plants out.
std::vector<std::string> methods_of(const std::string& read_as) {
  if (read_as == "either") return {"direct-sow", "set-out"};
  return {read_as};
}

double median(std::vector<double> values) {
  if (values.empty()) return 0.0;
  std::sort(values.begin(), values.end());
  const std::size_t middle = values.size() / 2;
  return values.size() % 2 == 1 ? values[middle] : 0.5 * (values[middle - 1] + values[middle]);
}

}  // namespace

Calendars read_calendars(const std::string& directory) {
  Calendars calendars{.rows = read_rows(directory + "/planting_calendars.csv"),
                      .places = read_places(directory + "/planting_places.csv")};
  climate::EnsembleOptions options;
  options.first = base::date_of(2025, 1, 1);
  options.member_count = 24;
  std::vector<CalendarPlace*> places;
  for (auto& [name, place] : calendars.places) places.push_back(&place);
  base::parallel_for(places.size(), [&](std::size_t i) {
    CalendarPlace& place = *places[i];
    place.weather =
        std::make_unique<climate::WeatherEnsemble>(climate::ensemble_from_normals(place.normals, options));
    place.season = std::make_shared<const stand::SeasonWeather>(*place.weather);
    for (const auto& row : calendars.rows) {
      if (row.place != place.normals.site.name || place.crops.contains(row.crop)) continue;
      const auto crop = crop::built_in_library().find(row.crop);
      if (!crop) throw std::runtime_error("no crop " + row.crop);
      place.crops[row.crop] = std::make_unique<stand::CropWeather>(**crop, place.season);
    }
  });
  return calendars;
}

Score score_windows(const Calendars& calendars, const stand::WindowRules& rules, double level) {
  const auto windows = all_windows(calendars, rules, level);
  std::map<std::array<std::string, 3>, std::vector<const CalendarRow*>> pairs;
  Score result;
  for (const auto& row : calendars.rows) {
    if (row.from && row.to && row.mark != "seen-membership") {
      pairs[{row.place, row.crop, row.read_as}].push_back(&row);
      continue;
    }
    const auto& found = windows.at({row.place, row.crop});
    std::optional<PartialScore> best;
    for (const auto& method : methods_of(row.read_as)) {
      auto score = score_partial(row, computed_days(found, method));
      const auto size = [](const PartialScore& s) {
        if (s.member) return *s.member ? 0 : 1;
        const auto& error = s.start_error ? s.start_error : s.end_error;
        return error ? std::abs(*error) : 1000;
      };
      if (!best || size(score) < size(*best)) best = score;
    }
    best->place = row.place;
    best->crop = row.crop;
    best->method = row.read_as;
    best->held_out = calendars.places.at(row.place).held_out;
    result.partial.push_back(*best);
  }
  for (const auto& [key, rows] : pairs) {
    const auto& found = windows.at({key[0], key[1]});
    std::optional<PairScore> best;
    for (const auto& method : methods_of(key[2])) {
      auto score = score_pair(rows, computed_days(found, method));
      if (!best || score.jaccard > best->jaccard) best = score;
    }
    const auto& place = calendars.places.at(key[0]);
    best->place = key[0];
    best->crop = key[1];
    best->method = key[2];
    best->held_out = place.held_out;
    best->frost_free = frost_free(place.normals);
    best->overwintering = key[1] == "garlic" || key[1] == "broad-bean" || key[1] == "onion";
    result.pairs.push_back(*best);
  }
  return result;
}

Means means_of(const std::vector<const PairScore*>& pairs) {
  Means means;
  std::vector<double> starts, ends, start_sizes, end_sizes;
  for (const auto* pair : pairs) {
    ++means.pairs;
    means.missed += static_cast<int>(pair->missed.size());
    means.jaccard += pair->jaccard;
    means.tolerant += pair->tolerant;
    means.recall += pair->recall;
    means.precision += pair->precision;
    for (const int error : pair->start_errors) {
      starts.push_back(error);
      start_sizes.push_back(std::abs(error));
    }
    for (const int error : pair->end_errors) {
      ends.push_back(error);
      end_sizes.push_back(std::abs(error));
    }
  }
  const double count = std::max(1, means.pairs);
  for (double* each : {&means.jaccard, &means.tolerant, &means.recall, &means.precision}) *each /= count;
  means.start_median = median(starts);
  means.end_median = median(ends);
  means.start_spread = median(start_sizes);
  means.end_spread = median(end_sizes);
  return means;
}

}  // namespace sowtide::published
