#include "stand/calendar_score.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bitset>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

#include "base/csv.hpp"
#include "base/parallel.hpp"

namespace sowtide::stand {
namespace detail {
/// The tables of data/calendars by name, made by cmake/embed_text.cmake.
const std::map<std::string, std::string_view>& calendar_files();
}  // namespace detail

namespace {

using YearDays = std::bitset<365>;

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

base::CsvTable table_of(std::string_view text, const std::string& name) {
  auto table = base::parse_csv(text, name, {.separator = ','});
  if (!table) throw std::runtime_error(name + " is not a table");
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

std::vector<CalendarRow> read_rows(std::string_view text) {
  const auto table = table_of(text, "planting_calendars.csv");
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

CalendarPlace read_place(const base::CsvTable& table, const base::CsvRow& row) {
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
  return place;
}

std::map<std::string, CalendarPlace> read_places(std::string_view text) {
  const auto table = table_of(text, "planting_places.csv");
  std::map<std::string, CalendarPlace> places;
  for (const auto& row : table.rows) places.emplace(cell(table, row, "place"), read_place(table, row));
  return places;
}

struct Computed {
  YearDays days;
  std::vector<base::YearSpan> spans;
};

Computed computed_days(const std::vector<SowingWindow>& windows, const std::string& method) {
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

Agreement agreement(const YearDays& published, const YearDays& computed) {
  const YearDays either = published | computed;
  const YearDays both = published & computed;
  const YearDays near = either & widened(published) & widened(computed);
  Agreement agreement;
  agreement.jaccard = ratio(both.count(), either.count());
  agreement.tolerant = ratio(near.count(), either.count());
  agreement.recall = ratio(both.count(), published.count());
  agreement.precision = ratio(both.count(), computed.count());
  return agreement;
}

std::string span_text(const base::YearSpan& span) {
  return base::to_text(span.from) + ".." + base::to_text(span.to);
}

void add_word(std::string& list, const std::string& word) {
  if (!list.empty()) list += ' ';
  list += word;
}

// Errors against the computed window whose ends are nearest to the printed ones.
void add_errors(Agreement& score, const base::YearSpan& printed, const std::vector<base::YearSpan>& spans) {
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

bool in_autumn(const CalendarRow& row) {
  return row.second || row.covers == "autumn";
}

/// Errors and misses of the rows that `which` chooses.
template <typename Which>
void add_windows(Agreement& score, const std::vector<const CalendarRow*>& rows, const Computed& computed,
                 const Which& which) {
  const YearDays wide = widened(computed.days);
  for (const auto* row : rows) {
    if (!which(*row)) continue;
    const base::YearSpan span{*row->from, *row->to};
    if ((days_of(span.from, span.to) & wide).none()) {
      score.missed.push_back(span_text(span));
    } else {
      add_errors(score, span, computed.spans);
    }
  }
}

std::optional<Agreement> part_of_year(const std::vector<const CalendarRow*>& rows, const Computed& computed,
                                      bool autumn) {
  const YearDays part = covered(autumn ? "autumn" : "spring");
  YearDays published;
  for (const auto* row : rows) {
    if (in_autumn(*row) == autumn) published |= days_of(*row->from, *row->to);
  }
  if ((published & part).none()) return std::nullopt;
  const YearDays open = part & covered(rows.front()->covers);
  for (const auto* row : rows) published |= days_of(*row->from, *row->to);
  Agreement score = agreement(published & open, computed.days & open);
  add_windows(score, rows, computed, [&](const CalendarRow& row) { return in_autumn(row) == autumn; });
  return score;
}

PairScore score_pair(const std::vector<const CalendarRow*>& rows, const Computed& computed) {
  PairScore score;
  YearDays published;
  for (const auto* row : rows) {
    published |= days_of(*row->from, *row->to);
    score.seen = score.seen || row->mark == "seen";
    add_word(score.published, span_text({*row->from, *row->to}));
  }
  for (const auto& span : computed.spans) add_word(score.computed, span_text(span));
  const YearDays open = covered(rows.front()->covers);
  score.year = agreement(published & open, computed.days & open);
  add_windows(score.year, rows, computed, [](const CalendarRow&) { return true; });
  score.spring = part_of_year(rows, computed, false);
  score.autumn = part_of_year(rows, computed, true);
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

using WindowsOf = std::map<std::pair<std::string, std::string>, std::vector<SowingWindow>>;

WindowsOf all_windows(const Calendars& calendars, const WindowRules& rules, double level) {
  std::vector<std::pair<std::pair<std::string, std::string>, const CropWeather*>> jobs;
  for (const auto& [name, place] : calendars.places) {
    for (const auto& [crop, weather] : place.crops) jobs.push_back({{name, crop}, weather.get()});
  }
  std::vector<std::vector<SowingWindow>> found(jobs.size());
  base::parallel_for(jobs.size(),
                     [&](std::size_t i) { found[i] = sowing_windows(*jobs[i].second, level, rules); });
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

using PairRows = std::map<std::array<std::string, 3>, std::vector<const CalendarRow*>>;

// How far a partial score is from agreement, to choose the nearer method.
int distance(const PartialScore& score) {
  if (score.member) return *score.member ? 0 : 1;
  const auto& error = score.start_error ? score.start_error : score.end_error;
  return error ? std::abs(*error) : 1000;
}

PartialScore best_partial(const CalendarRow& row, const Calendars& calendars,
                          const std::vector<SowingWindow>& found) {
  std::optional<PartialScore> best;
  for (const auto& method : methods_of(row.read_as)) {
    const auto score = score_partial(row, computed_days(found, method));
    if (!best || distance(score) < distance(*best)) best = score;
  }
  best->place = row.place;
  best->crop = row.crop;
  best->method = row.read_as;
  best->held_out = calendars.places.at(row.place).held_out;
  return *best;
}

PairScore best_pair(const PairRows::value_type& pair, const CalendarPlace& place,
                    const std::vector<SowingWindow>& found) {
  const auto& [place_name, crop, read_as] = pair.first;
  std::optional<PairScore> best;
  for (const auto& method : methods_of(read_as)) {
    const auto score = score_pair(pair.second, computed_days(found, method));
    if (!best || score.year.jaccard > best->year.jaccard) best = score;
  }
  best->place = place_name;
  best->crop = crop;
  best->method = read_as;
  best->held_out = place.held_out;
  best->frost_free = frost_free(place.normals);
  best->overwintering = crop == "garlic" || crop == "broad-bean" || crop == "onion";
  return *best;
}

const Agreement* agreement_in(const PairScore& pair, std::string_view group) {
  const auto part = [](const std::optional<Agreement>& each) { return each ? &*each : nullptr; };
  if (group == "spring") return pair.frost_free || pair.overwintering ? nullptr : part(pair.spring);
  if (group == "autumn") return part(pair.autumn);
  const bool in = group == "all" || (group == "seen" && pair.seen) ||
                  (group == "overwintering" && pair.overwintering) ||
                  (group == "frost-free" && pair.frost_free);
  return in ? &pair.year : nullptr;
}

void make_weather(CalendarPlace& place, const std::vector<CalendarRow>& rows) {
  climate::EnsembleOptions options;
  options.first = base::date_of(2025, 1, 1);
  options.member_count = 24;
  place.weather =
      std::make_unique<climate::WeatherEnsemble>(climate::ensemble_from_normals(place.normals, options));
  place.season = std::make_shared<const SeasonWeather>(*place.weather);
  for (const auto& row : rows) {
    if (row.place != place.normals.site.name || place.crops.contains(row.crop)) continue;
    const auto crop = crop::built_in_library().find(row.crop);
    if (!crop) throw std::runtime_error("no crop " + row.crop);
    place.crops[row.crop] = std::make_unique<CropWeather>(**crop, place.season);
  }
}

}  // namespace

Calendars read_calendars(std::string_view calendars_csv, std::string_view places_csv) {
  Calendars calendars{.rows = read_rows(calendars_csv), .places = read_places(places_csv)};
  std::vector<CalendarPlace*> places;
  for (auto& [name, place] : calendars.places) places.push_back(&place);
  base::parallel_for(places.size(), [&](std::size_t i) { make_weather(*places[i], calendars.rows); });
  return calendars;
}

Calendars built_in_calendars() {
  const auto& files = detail::calendar_files();
  return read_calendars(files.at("planting_calendars"), files.at("planting_places"));
}

CalendarScore score_windows(const Calendars& calendars, const WindowRules& rules, double level) {
  const auto windows = all_windows(calendars, rules, level);
  PairRows pairs;
  CalendarScore result;
  for (const auto& row : calendars.rows) {
    if (row.from && row.to && row.mark != "seen-membership") {
      pairs[{row.place, row.crop, row.read_as}].push_back(&row);
    } else {
      result.partial.push_back(best_partial(row, calendars, windows.at({row.place, row.crop})));
    }
  }
  for (const auto& pair : pairs) {
    const auto& found = windows.at({pair.first[0], pair.first[1]});
    result.pairs.push_back(best_pair(pair, calendars.places.at(pair.first[0]), found));
  }
  return result;
}

const CalendarScore& built_in_score() {
  static const CalendarScore score = score_windows(built_in_calendars(), {}, 0.5);
  return score;
}

ScoreMeans means_of(const std::vector<const Agreement*>& agreements) {
  ScoreMeans means;
  std::vector<double> starts, ends, start_sizes, end_sizes;
  for (const auto* each : agreements) {
    ++means.pairs;
    means.missed += static_cast<int>(each->missed.size());
    means.jaccard += each->jaccard;
    means.tolerant += each->tolerant;
    means.recall += each->recall;
    means.precision += each->precision;
    for (const int error : each->start_errors) {
      starts.push_back(error);
      start_sizes.push_back(std::abs(error));
    }
    for (const int error : each->end_errors) {
      ends.push_back(error);
      end_sizes.push_back(std::abs(error));
    }
  }
  const double count = std::max(1, means.pairs);
  for (double* each : {&means.jaccard, &means.tolerant, &means.recall, &means.precision}) *each /= count;
  means.start_median = median(starts);
  means.end_median = median(ends);
  means.start_size = median(start_sizes);
  means.end_size = median(end_sizes);
  return means;
}

const std::vector<std::string>& score_groups() {
  static const std::vector<std::string> groups{"all",    "seen",          "spring",
                                               "autumn", "overwintering", "frost-free"};
  return groups;
}

std::vector<const Agreement*> agreements_of(const CalendarScore& score, std::string_view group,
                                            std::string_view part) {
  std::vector<const Agreement*> chosen;
  for (const PairScore& pair : score.pairs) {
    if (part != "both" && part != (pair.held_out ? "held-out" : "tuned-on")) continue;
    if (const Agreement* each = agreement_in(pair, group)) chosen.push_back(each);
  }
  return chosen;
}

}  // namespace sowtide::stand
