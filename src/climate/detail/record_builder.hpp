// Gathers values day by day in any order and makes a record of them, with the checks that every reader owes.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "climate/readers.hpp"

namespace sowtide::climate::detail {

/// Gathers the values of one file. A day given twice keeps its first value; whether the second differs is
/// listed.
class RecordBuilder {
 public:
  RecordBuilder(std::string file, const ReadOptions& options);

  /// A series beside the seven of the record; the same name gives the same place.
  std::size_t extra(std::string_view name, std::string_view unit, std::string_view column);

  /// Takes one value of a variable; NaN is ignored.
  void put(Variable variable, base::Date day, double value) { put(variable, day, value, options_.origin); }
  void put(Variable variable, base::Date day, double value, ValueOrigin origin);
  void put_extra(std::size_t place, base::Date day, double value);

  /// Shares a total of several days evenly over them, the last being `last_day`; marked estimated and listed.
  void put_total(Variable variable, base::Date last_day, int days, double total);

  /// A value that the source marks as failed: listed; taken all the same when the options say so.
  void put_flagged(Variable variable, base::Date day, double value, std::string detail);

  void find(QualityFinding finding);
  void note(std::string text);  ///< once, however often it is given
  /// Temperatures named no unit, and °C was taken.
  void assume_celsius() { made_.celsius_assumed = true; }

  /// The record, or the problem of the whole file. `site` as far as the file states it.
  [[nodiscard]] base::Result<WeatherImport> finish(std::string format, Site site, bool site_stated);

  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] const ReadOptions& options() const { return options_; }

 private:
  std::size_t place_of(base::Date day);
  void grow(base::Date day);
  [[nodiscard]] std::optional<base::Problem> refuse() const;
  [[nodiscard]] std::optional<base::Problem> refuse_impossible(Variable variable) const;
  [[nodiscard]] std::optional<base::Problem> refuse_swapped() const;
  void limit_humidity();
  void add_humidity();
  void trim();

  std::string file_;
  ReadOptions options_;
  WeatherImport made_;
  std::size_t taken_ = 0, repeated_ = 0, contradicted_ = 0, unlisted_ = 0;
  base::Date first_repeated_{};
};

/// Range in which a variable can lie at all (the world's extremes); outside it is impossible.
struct PossibleRange {
  double lowest = 0.0;
  double highest = 0.0;
};
[[nodiscard]] PossibleRange possible_range(Variable variable);

}  // namespace sowtide::climate::detail
