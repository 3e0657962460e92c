// Frost, heat and cold of a place as chances: when the last and first frost come, how long lies between, how
// often heat spells and how much chill there is.
//
// Freeze dates as the United States publish them (NOAA U.S. Climate Normals 1991-2020 and 1981-2010, A.
// Arguez and others 2012, Bull. Am. Meteorol. Soc. 93:1687): a freeze is a day whose screen minimum is at or
// below the threshold; last freezes are those up to 31 July, first ones from 1 August (here six months later
// in the south);
//     last  at probability p: a freeze on or after that date comes in a share p of all years (0.1 is late,
//     careful) first at probability p: a freeze on or before that date has come in a share p of all years
//     (0.1 is early)
// Winters without any freeze count as what they are (H. C. S. Thom 1959, Mon. Weather Rev. 87:136): with a
// share q of winters that have one, the date at p is the quantile p/q of their dates, and where p >= q the
// answer is `never`. Where the quantile falls within a week of the boundary itself, freezes come in
// midsummer: `always` (NOAA leaves such stations without a date). Winters run over the new year, so a last
// freeze in December is an ordinary value.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "climate/record.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// A day of the year, or the two answers that are not one.
struct RiskDate {
  enum class Kind : std::uint8_t {
    on_date,
    never,  ///< the event does not come that often
    always  ///< it comes even in midsummer: no day is safe
  };
  Kind kind = Kind::never;
  base::MonthDay date;
  friend bool operator==(const RiskDate&, const RiskDate&) = default;
};

/// "04-23", "never" or "always".
[[nodiscard]] std::string to_text(const RiskDate& date);

/// How a date between the years is found.
enum class DateLaw : std::uint8_t {
  counted,  ///< quantiles of the sample, plotting position (i - 0.5)/n (A. Hazen 1914)
  normal    ///< of a normal law with the sample's mean and standard deviation (Thom 1959); for few years
};

/// Last and first freezes of every winter of a record.
class FreezeDates {
 public:
  FreezeDates(double threshold_c, bool southern) : threshold_c_(threshold_c), southern_(southern) {}

  /// Days in the winter year (0 = 1 August, or 1 February in the south).
  struct Winter {
    int first_year = 0;  ///< year in which the winter year begins
    int first = -1;      ///< first freeze; -1: none
    int last = -1;
    bool first_known = false;  ///< the record tells when the first one came, or that none did
    bool last_known = false;
  };

  void add(const Winter& winter) { winters_.push_back(winter); }
  [[nodiscard]] const std::vector<Winter>& winters() const { return winters_; }
  [[nodiscard]] double threshold_c() const { return threshold_c_; }
  [[nodiscard]] bool southern() const { return southern_; }

  /// Share of winters with any freeze, of those whose last one is known.
  [[nodiscard]] double share_with_freeze() const;
  /// Date such that a freeze on or after it comes in a share `probability` (0..1, exclusive) of years.
  [[nodiscard]] RiskDate last(double probability, DateLaw law = DateLaw::counted) const;
  /// Date such that a freeze on or before it has come in a share `probability` of years.
  [[nodiscard]] RiskDate first(double probability, DateLaw law = DateLaw::counted) const;
  /// Days between last and first freeze that are reached or passed in a share `probability` of summers; 365
  /// where a summer lies between winters without freeze.
  [[nodiscard]] int frost_free_days(double probability) const;
  /// Chance of a freeze on or after `day` before midsummer, and on or before `day` after midsummer.
  [[nodiscard]] double chance_on_or_after(base::MonthDay day) const;
  [[nodiscard]] double chance_on_or_before(base::MonthDay day) const;

 private:
  double threshold_c_;
  bool southern_;
  std::vector<Winter> winters_;
};

/// The autumn part of a winter year (to 31 December, 4 July in the south) and its spring part are each known
/// with at most 5 days without tmin. A last freeze is known when the spring part is and holds one, or when
/// both are; a first one likewise, so that a record's first spring and last autumn count. insufficient_data
/// with fewer than 5 known last or first freezes.
[[nodiscard]] base::Result<FreezeDates> freeze_dates(const WeatherRecord& record, double threshold_c);

/// From monthly normals alone, over 300 years of generated weather. Against NOAA's published dates of 26
/// stations in the United States the median last freeze is off by 4 days on average and the first by 3 (15
/// and 12 at worst, near the Gulf coast): tests/published/freeze_dates_published_test.cpp.
[[nodiscard]] FreezeDates freeze_dates(const PlaceNormals& place, double threshold_c, std::uint64_t seed = 1);

/// Generated years as a record (from 1 January 1601), for statistics of a place that has normals only.
[[nodiscard]] WeatherRecord generated_record(const PlaceNormals& place, int years, std::uint64_t seed = 1);

/// Runs of at least `least_days` days with tmax at or above a threshold.
struct HeatSpells {
  double threshold_c = 0.0;
  int least_days = 0;
  std::size_t years = 0;
  double per_year = 0.0;        ///< spells
  double share_of_years = 0.0;  ///< with at least one
  double days_per_year = 0.0;   ///< days inside spells
  int longest_days = 0;
  std::array<double, 12> share_by_month{};  ///< share of years in which a day of the month lies in a spell
};

/// Over calendar years with at most 10 days without tmax. insufficient_data with fewer than 5.
[[nodiscard]] base::Result<HeatSpells> heat_spells(const WeatherRecord& record, double threshold_c,
                                                   int least_days);

/// Mean hours of a month below a threshold, from daily extremes by `hourly_temperatures`. Needs 5 years of
/// each month.
[[nodiscard]] base::Result<std::array<double, 12>> monthly_hours_below(const WeatherRecord& record,
                                                                       double threshold_c);

/// Winter chill by hours between 0 and 7.2 °C (`chilling_hours`) over the winter half-year, October to March
/// (April to September in the south): value that is reached in a share of winters.
struct WinterChill {
  std::vector<double> hours;  ///< one a winter, ascending
  /// Reached or passed in a share `probability` of winters.
  [[nodiscard]] double reached(double probability) const;
};
[[nodiscard]] base::Result<WinterChill> winter_chill(const WeatherRecord& record);

}  // namespace sowtide::climate
