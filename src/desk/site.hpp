// The garden's place through the year, for the Site page: how warm and how light it is and how warm the soil,
// with its spread between the years; when frost and heat come; from when on the soil is warm enough to sow
// each crop.
//
// "The years" are the weather years on which every outlook of the season is computed, taken from the last
// calendar year of the season's ensemble, in which nothing observed is grafted. The axis is the calendar year
// of today, January to December on both halves of the globe; 29 February repeats 28 February.
//
//   bands of air     on each day, quantiles of the values of all years within 7 days of it
//   bands of soil    quantiles between years of the mean of the 7 days around the day; radiation likewise
//   chances          share of the years in which it happens at least once in the week
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "climate/places.hpp"
#include "climate/risk.hpp"
#include "climate/site.hpp"
#include "desk/season.hpp"

namespace sowtide::desk {

/// Frost on tender plants, a frost that ends most of them, and a day too hot for many crops; °C.
inline constexpr double kFrostC = 0.0;
inline constexpr double kHardFrostC = -2.0;
inline constexpr double kHeatC = 30.0;
/// Depths at which most seed and the roots of young plants lie, mm.
inline constexpr std::array<double, 2> kSoilDepthsMm{20.0, 100.0};
/// Farther than this, the garden's nights and rain are no longer the station's (our judgement, as in the
/// import report).
inline constexpr double kFarStationKm = 30.0;
inline constexpr double kHighStationM = 100.0;

/// Quantiles for each day of the axis.
struct YearBand {
  std::vector<double> p10, p50, p90;
};

/// Where the weather comes from.
struct WeatherOrigin {
  std::string source;                     ///< for people, as the ensemble says it
  std::size_t years = 0;                  ///< weather years behind the answers …
  std::size_t made_years = 0;             ///< … of which the generator made so many
  std::optional<base::Date> first, last;  ///< of the record, as known today; absent: monthly normals only
  std::optional<climate::Site> station;   ///< where the record was measured
  double station_distance_km = 0.0;
  double station_height_difference_m = 0.0;  ///< station less garden
  bool far = false, other_height = false;    ///< beyond the two limits above
  std::optional<climate::NormalsStation> normals_station;  ///< whose built-in normals all years are made of
};

/// Extremes of the last days, as observed; NaN where a day is not known.
struct ObservedDays {
  base::Date first{};
  std::vector<double> tmin_c, tmax_c;
};

/// The mean of the last observed days, and the share of years that were colder on the same calendar days.
struct LastDays {
  base::Date from{}, to{};
  double tmin_c = 0.0, tmax_c = 0.0;
  double tmin_share_colder = 0.0, tmax_share_colder = 0.0;
};

/// Chances of one week of the axis; the last one has 8 or 9 days.
struct RiskWeek {
  base::Date from{}, to{};
  double frost = 0.0, hard_frost = 0.0, heat = 0.0;
};

/// A date of the year that is reached in 1, 5 and 9 years of 10.
struct RiskDates {
  climate::RiskDate p10, p50, p90;
};

struct FreezeSeason {
  double threshold_c = 0.0;
  std::size_t winters = 0;         ///< counted
  double share_with_freeze = 0.0;  ///< of winters
  RiskDates last, first;           ///< last freeze before and first one after midsummer
};

struct SoilDepth {
  double depth_mm = 0.0;
  YearBand mean_c;
};

/// Stretch of the year in which the soil is warm enough.
struct WarmSpan {
  enum class Kind { span, never, always };
  Kind kind = Kind::never;
  base::MonthDay from, until;  ///< both included; `from` after `until` wraps the new year
};

/// When the mean of a week at one depth reaches the coldest soil that growers sow the crop in.
struct SoilWarmth {
  double depth_mm = 0.0;
  WarmSpan half, nine_of_ten;  ///< in so many of the years
};

struct CropWarmth {
  std::string id, name;
  crop::Figure base_c;                          ///< germination stands still below
  crop::Figure coldest_sow_c;                   ///< coldest soil in which growers sow
  std::string base_source, coldest_sow_source;  ///< written out
  bool sown_outdoors = true;  ///< false: only raised in trays, so the soil says when the set-out bed is warm
  std::vector<SoilWarmth> depths;
};

struct SiteYear {
  std::string garden;
  climate::Site site;
  base::Date today{};
  int days = 365;  ///< of the axis, which begins on 1 January of the year of today
  WeatherOrigin weather;
  YearBand tmin_c, tmax_c;
  std::optional<ObservedDays> observed;
  std::optional<LastDays> last_days;
  std::vector<RiskWeek> weeks;
  std::array<FreezeSeason, 2> freezes;  ///< at kFrostC and kHardFrostC
  base::Quantiles hot_days;             ///< days of a year at or above kHeatC
  std::vector<double> day_length_h;     ///< sunrise to sunset as almanacs count it
  YearBand radiation_mj_m2;
  std::vector<double> clear_sky_mj_m2;
  std::vector<SoilDepth> soil;    ///< bare, watered loam in the open ground, at kSoilDepthsMm
  std::vector<CropWarmth> crops;  ///< by name
};

/// The stretch around its warmest day in which `curve_c` (one value a day of a climatological year, circular)
/// is at or above `least_c`.
[[nodiscard]] WarmSpan warm_span(const std::vector<double>& curve_c, double least_c);

/// Everything of the Site page. The season's ensemble must end with a whole calendar year, as make_season
/// makes it (insufficient_data otherwise).
[[nodiscard]] base::Result<SiteYear> site_year(const Season& season);

/// docs/api/site.schema.json
[[nodiscard]] std::string site_json(const SiteYear& year);
[[nodiscard]] base::Result<std::string> site_json(const Season& season);

}  // namespace sowtide::desk
