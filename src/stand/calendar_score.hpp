// Agreement of computed sowing windows with published planting calendars:
// data/calendars/planting_calendars.csv (compiled in, each row with its source) against the windows of the
// places in planting_places.csv. How it is counted: docs/models/windows.md.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "climate/ensemble.hpp"
#include "stand/windows.hpp"

namespace sowtide::stand {

/// One window as printed; an end that the source leaves open is absent.
struct CalendarRow {
  std::string place, read_as, crop, mark, covers;
  std::optional<base::MonthDay> from, to;
  bool second = false;  ///< a later window of the same year
};

struct CalendarPlace {
  climate::PlaceNormals normals;
  bool held_out = false;  ///< never used to set a figure of the model
  std::unique_ptr<climate::WeatherEnsemble> weather;
  std::shared_ptr<const SeasonWeather> season;
  std::map<std::string, std::unique_ptr<CropWeather>> crops;  ///< those that its calendar names
};

struct Calendars {
  std::vector<CalendarRow> rows;
  std::map<std::string, CalendarPlace> places;
};

/// How far computed days agree with printed ones, over the year or a part of it.
struct Agreement {
  double jaccard = 0.0, recall = 0.0, precision = 0.0;
  double tolerant = 0.0;                      ///< Jaccard; days within a week of the other set agree
  std::vector<int> start_errors, end_errors;  ///< days, computed less published, of each printed window
  std::vector<std::string> missed;            ///< printed windows without a computed day within a week
};

/// Agreement for one place, crop and method.
struct PairScore {
  std::string place, crop, method;
  bool held_out = false, seen = false, frost_free = false, overwintering = false;
  Agreement year;
  std::optional<Agreement> spring, autumn;  ///< where such a window is printed: that part of the year alone
  std::string published, computed;          ///< for people
};

/// A printed window that gives one end, or only says that a month lies inside.
struct PartialScore {
  std::string place, crop, method;
  bool held_out = false;
  std::optional<int> start_error, end_error;
  std::optional<bool> member;  ///< at least half of the month is computed as fit
};

struct CalendarScore {
  std::vector<PairScore> pairs;
  std::vector<PartialScore> partial;
};

/// Reads both tables and makes every place's weather. Throws std::runtime_error: the tables are the
/// project's.
[[nodiscard]] Calendars read_calendars(std::string_view calendars_csv, std::string_view places_csv);
/// The tables that are compiled in.
[[nodiscard]] Calendars built_in_calendars();

[[nodiscard]] CalendarScore score_windows(const Calendars& calendars, const WindowRules& rules, double level);
/// The built-in calendars against the windows of the built-in rules; worked out once, some seconds.
[[nodiscard]] const CalendarScore& built_in_score();

/// Means over pairs; errors in days, as medians: signed, and of their sizes.
struct ScoreMeans {
  int pairs = 0, missed = 0;
  double jaccard = 0.0, tolerant = 0.0, recall = 0.0, precision = 0.0;
  double start_median = 0.0, start_size = 0.0, end_median = 0.0, end_size = 0.0;
};

[[nodiscard]] ScoreMeans means_of(const std::vector<const Agreement*>& agreements);

/// Kinds of places and windows that are told apart: "all", "seen" (read in the source), "spring" (where frost
/// ends the winter, without crops that overwinter), "autumn", "overwintering", "frost-free".
[[nodiscard]] const std::vector<std::string>& score_groups();
/// The agreements of a group; `part` is "both", "tuned-on" or "held-out". Empty for unknown words.
[[nodiscard]] std::vector<const Agreement*> agreements_of(const CalendarScore& score, std::string_view group,
                                                          std::string_view part);

}  // namespace sowtide::stand
