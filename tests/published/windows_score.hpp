// Agreement of the computed sowing windows with published planting calendars: planting_calendars.csv against
// the windows of the places in planting_places.csv. How it is counted: docs/models/windows.md.
#pragma once

#include <bitset>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "climate/ensemble.hpp"
#include "stand/windows.hpp"

namespace sowtide::published {

using YearDays = std::bitset<365>;

/// One window as printed; an end that the source leaves open is absent.
struct CalendarRow {
  std::string place, read_as, crop, mark, covers;
  std::optional<base::MonthDay> from, to;
  bool second = false;
};

struct CalendarPlace {
  climate::PlaceNormals normals;
  bool held_out = false;
  std::unique_ptr<climate::WeatherEnsemble> weather;
  std::shared_ptr<const stand::SeasonWeather> season;
  std::map<std::string, std::unique_ptr<stand::CropWeather>> crops;  ///< those that its calendar names
};

struct Calendars {
  std::vector<CalendarRow> rows;
  std::map<std::string, CalendarPlace> places;
};

/// Agreement for one place, crop and method.
struct PairScore {
  std::string place, crop, method;
  bool held_out = false, seen = false, frost_free = false, overwintering = false, autumn = false;
  double jaccard = 0.0, tolerant = 0.0, recall = 0.0, precision = 0.0;
  std::optional<double> autumn_jaccard, autumn_tolerant, autumn_recall;  ///< mid June to December only
  std::vector<int> start_errors, end_errors;  ///< days, computed less published, of each printed window
  std::vector<std::string> missed;            ///< printed windows without a computed day within a week
  std::string published, computed;            ///< for people
};

/// A printed window that gives one end, or only says that a month lies inside.
struct PartialScore {
  std::string place, crop, method;
  bool held_out = false;
  std::optional<int> start_error, end_error;
  std::optional<bool> member;  ///< at least half of the month is computed as fit
};

struct Score {
  std::vector<PairScore> pairs;
  std::vector<PartialScore> partial;
};

/// Reads both tables from the directory and makes every place's weather. Throws std::runtime_error.
[[nodiscard]] Calendars read_calendars(const std::string& directory);

[[nodiscard]] Score score_windows(const Calendars& calendars, const stand::WindowRules& rules, double level);

/// Means over pairs.
struct Means {
  int pairs = 0, missed = 0;
  double jaccard = 0.0, tolerant = 0.0, recall = 0.0, precision = 0.0;
  double start_median = 0.0, start_spread = 0.0, end_median = 0.0, end_spread = 0.0;  ///< spread: median |.|
};

[[nodiscard]] Means means_of(const std::vector<const PairScore*>& pairs);

}  // namespace sowtide::published
