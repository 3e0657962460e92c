// The ensemble: K complete weather years for the season ahead, on which every outlook is computed.
//
// Arrays are laid out member by member: value of member m on day d is `tmin_c[m * day_count + d]`. Nothing is
// missing in an ensemble. Day 0 is `first`; seasons may cross the new year; every member has the calendar of
// the season itself (29 February of a season that has one is made from the member's 28 February).
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "climate/record.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Where the years of an ensemble come from, to be said in any language; `source` of the ensemble is its
/// English.
struct EnsembleOrigin {
  std::string place;             ///< station or site of the record; empty: all made from monthly normals
  std::size_t record_years = 0;  ///< of the record, from `first_year` to `last_year`
  int first_year = 0, last_year = 0;
  std::size_t made_years = 0;  ///< made by a generator fitted to the record's
  std::string normals_source;  ///< of the monthly normals, where they are used and it is known
  double warming_c = 0.0;      ///< added by choice
  bool record_unused = false;  ///< there is a record, but it cannot stand for years to come
  bool operator==(const EnsembleOrigin&) const = default;
};

struct WeatherEnsemble {
  Site site;
  base::Date first{};
  std::size_t day_count = 0;
  std::size_t member_count = 0;
  std::vector<std::string> member_names;   ///< "2013" for a year of the record, "made 07" for a generated one
  std::vector<double> tmin_c, tmax_c, rain_mm, radiation_mj_m2;
  std::vector<double> et0_mm;              ///< reference evapotranspiration, FAO-56
  std::size_t observed_days = 0;           ///< leading days that are the same observation in every member
  EnsembleOrigin origin;
  std::string source;                      ///< for people: "29 years of Seattle, 1991-2020", "made from monthly normals"

  [[nodiscard]] std::size_t at(std::size_t member, std::size_t day) const { return member * day_count + day; }
  /// Mean of the extremes of the day that is stored at a place, °C.
  [[nodiscard]] double mean_c(std::size_t place) const { return 0.5 * (tmin_c[place] + tmax_c[place]); }
  bool operator==(const WeatherEnsemble&) const = default;
};

struct EnsembleOptions {
  base::Date first{};                ///< first day of the season
  std::size_t day_count = 730;       ///< days ahead
  std::size_t member_count = 30;     ///< generated members, or the most record years used (the latest)
  std::uint64_t seed = 1;
  double warming_c = 0.0;            ///< added to every temperature neither observed nor forecast, by choice
  base::Date known_to = base::Date::max();  ///< last day whose observation is known; later ones count as not made
};

/// Members are the record's own years; what the record holds of the season, observed or forecast, is put into all
/// members, wherever it begins; holes of more than five days keep each member's own weather. Needs at least 4 usable years (insufficient_data otherwise, naming what is missing).
[[nodiscard]] base::Result<WeatherEnsemble> ensemble_from_record(const WeatherRecord& record,
                                                                 const EnsembleOptions& options);

/// Members are drawn from the stochastic generator made from monthly normals.
[[nodiscard]] WeatherEnsemble ensemble_from_normals(const PlaceNormals& place, const EnsembleOptions& options);

/// Like `ensemble_from_normals`, with the days that `record` (if any) knows of the season put in as above.
[[nodiscard]] WeatherEnsemble ensemble_from_normals(const PlaceNormals& place, const WeatherRecord& record,
                                                    const EnsembleOptions& options);

}  // namespace sowtide::climate
