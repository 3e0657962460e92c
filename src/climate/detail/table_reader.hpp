// Rows of a table into a record: which column is what, in which unit, how dates are written, and whether
// several rows make one day.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "climate/detail/date_scan.hpp"
#include "climate/detail/headings.hpp"
#include "climate/detail/record_builder.hpp"
#include "climate/detail/row_source.hpp"
#include "climate/detail/station_filter.hpp"

namespace sowtide::climate::detail {

/// One column that is read.
struct Column {
  std::size_t index = 0;
  Field field = Field::none;
  Conversion conversion;
  std::optional<double> height_m;
  std::size_t extra = 0;  ///< place of the extra series, for fields outside the record
  bool bare = false;      ///< no unit is named: ours are taken
  std::string heading;
};

/// How a field of a known format is stored, for readers that need no guessing.
struct KnownColumn {
  std::string_view heading;
  Field field;
  Conversion conversion;
  std::optional<double> missing;  ///< a value of this or more (or of this or less, when negative) is missing
};

/// What a table's headings and options say together.
struct TablePlan {
  std::vector<Column> values;  ///< weather
  std::optional<std::size_t> date, time, year, month, day, day_of_year, unix_time, station, rain_days, unit_system;
  std::optional<std::size_t> latitude, longitude, elevation;
  std::vector<std::string> unread;  ///< headings that mean nothing here
  [[nodiscard]] bool dated() const;
};

/// Works out the plan. `units_line` gives units by column where they stand under the headings (else empty).
[[nodiscard]] base::Result<TablePlan> plan_table(const std::vector<std::string>& heading, int heading_line,
                                                 const std::vector<std::string>& units_line,
                                                 const std::string& file, const ReadOptions& options);

/// Adds several rows of one day up.
class DayParts {
 public:
  void take(const std::vector<Column>& columns, const std::vector<double>& values, base::Date day);
  /// Hands the days on; those with too few rows are listed as incomplete.
  void finish(const std::vector<Column>& columns, RecordBuilder& builder) const;

 private:
  struct Part {
    double sum = 0.0;
    double lowest = 0.0;
    double highest = 0.0;
    int count = 0;
  };
  struct Day {
    int rows = 0;
    std::vector<Part> parts;  ///< by column
  };
  std::map<base::Date, Day> days_;
};

/// Reads the rows in two passes: first how dates are written and which stations there are, then the values.
class TableReader {
 public:
  TableReader(RowSource& rows, RecordBuilder& builder, TablePlan plan);
  [[nodiscard]] base::Result<WeatherImport> read(const std::string& format);

 private:
  using Refusal = std::optional<base::Problem>;
  /// What the first pass found out about one order of the parts of dates.
  struct Order {
    DateForm form;
    const char* words;                   ///< how dates were read, for people
    bool possible = true;
    std::size_t steps = 0;               ///< days that follow the one before
    std::optional<base::Date> previous;
  };
  [[nodiscard]] base::Problem problem(base::ProblemCode code, std::string what, const Row& row,
                                      std::string field, std::string remedy) const;
  [[nodiscard]] bool blank(const Row& row) const;
  [[nodiscard]] Refusal check_width(const Row& row) const;
  [[nodiscard]] base::Result<WrittenDate> date_of(const Row& row) const;
  [[nodiscard]] base::Result<WrittenDate> date_of_parts(const Row& row) const;
  [[nodiscard]] bool wanted(const Row& row);
  Refusal look();
  void weigh_order(const WrittenDate& date);
  Refusal choose_order();
  [[nodiscard]] const Order* clear_order() const;
  Refusal weigh_units(const Row& row);
  void choose_units();
  void note_bare_units();
  Refusal take_rows();
  Refusal take_row(const Row& row);
  Refusal take_value(const Row& row, const Column& column, double& value, bool& estimated);
  void take_day(const Row& row, base::Date day, const std::vector<double>& values,
                const std::vector<bool>& estimated);
  void take_site(const Row& row);

  RowSource& rows_;
  RecordBuilder& builder_;
  TablePlan plan_;
  StationFilter stations_;
  DateForm form_;
  std::array<Order, 3> orders_{{{DateForm::day_month_year, "with the day before the month"},
                                {DateForm::month_day_year, "with the month before the day"},
                                {DateForm::year_month_day, "with the year first"}}};
  std::size_t undecided_ = 0, short_years_ = 0;
  std::string example_;
  bool parts_of_days_ = false;
  bool timed_ = false;
  std::optional<int> unit_system_;
  std::size_t coded_missing_ = 0;
  std::size_t row_count_ = 0;
  std::unique_ptr<DayParts> parts_;
  Site site_;
  bool site_known_ = false;
};

}  // namespace sowtide::climate::detail
