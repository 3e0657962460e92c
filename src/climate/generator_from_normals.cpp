// The generator from twelve monthly normals alone.
//
// Normals hold means; how far days stray from them has to be guessed. The rules below were fitted by least
// squares to the monthly parameters of 14 daily records (five of the Netherlands, Milwaukee, New York,
// Champion, Maricopa and Seattle in the United States, Cork, Brussels, Tunis and Hyderabad) and the published
// table of Tifton, Georgia; a site left out of the fit is met within 19 % (tmin) and 24 % (tmax) of its
// standard deviation on average. Numbers, and what older published rules would give, in
// docs/models/weather-generator.md.
#include <algorithm>
#include <cmath>

#include "climate/detail/residual_curves.hpp"
#include "climate/generator.hpp"
#include "climate/sun.hpp"

namespace sowtide::climate {
namespace {

using detail::kClearness;
using detail::kTmax;
using detail::kTmin;

constexpr std::array<double, kMonthCount> kMonthDays = {31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// Mean of the 14 records.
constexpr double kWetPersistence = 0.27;
constexpr double kLightShare = 0.38;
constexpr double kLightRatio = 0.40;
constexpr double kSlowShare = 0.12;

/// Where the months stand in the year's course of temperature.
struct Season {
  double amplitude_k = 0.0;  ///< warmest less coldest monthly mean
  MonthlyValues place{};     ///< -1 coldest, +1 warmest part of the year
};

Season season_of(const MonthlyNormals& normals) {
  MonthlyValues mean{};
  double year = 0.0;
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    mean[m] = 0.5 * (normals.tmax_c[m] + normals.tmin_c[m]);
    year += mean[m] / kMonthCount;
  }
  const auto [coldest, warmest] = std::minmax_element(mean.begin(), mean.end());
  Season season;
  season.amplitude_k = *warmest - *coldest;
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    season.place[m] = (mean[m] - year) / std::max(0.5 * season.amplitude_k, 0.5);
  }
  return season;
}

RainParameters rain_from_normals(const MonthlyNormals& normals) {
  RainParameters rain;
  rain.threshold_mm = 1.0;
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    const double total_mm = normals.precip_mm[m];
    const double mean_c = 0.5 * (normals.tmax_c[m] + normals.tmin_c[m]);
    // Without a count of wet days: wetter and warmer months have heavier ones.
    const double usual_wet_day_mm = std::max(3.0, 4.6 + 0.040 * total_mm + 0.08 * mean_c);
    const double wet_days = normals.wet_days ? (*normals.wet_days)[m] : total_mm / usual_wet_day_mm;
    rain.wet_fraction[m] = std::clamp(wet_days / kMonthDays[m], 0.0, 0.97);
    rain.wet_persistence[m] = kWetPersistence;
    rain.wet_day_mm[m] = std::max(total_mm / std::max(wet_days, 0.05), rain.threshold_mm + 0.2);
    rain.light_share[m] = kLightShare;
    rain.light_ratio[m] = kLightRatio;
  }
  return rain;
}

/// Clearness from the temperature range (FAO-56 eq. 50 over eq. 37); wet days get 37 % less than dry ones, as
/// in the six records that measure radiation.
void set_clearness(VariableParameters& clearness, std::size_t m, double range_k, double elevation_m,
                   double wet) {
  constexpr double kWetLoss = 0.37;
  const double clear_share = 0.75 + 2e-5 * elevation_m;
  clearness.mean[m] = std::min(kInlandKrs * std::sqrt(std::max(range_k, 1.0)) / clear_share, 0.92);
  const double dry_mean = clearness.mean[m] / (1.0 - kWetLoss * wet);
  clearness.wet_minus_dry[m] = -kWetLoss * dry_mean;
  clearness.dry_sd[m] = std::clamp(0.05 + 0.45 * (1.06 - dry_mean), 0.07, 0.25);
  clearness.wet_sd[m] = 0.18;
}

/// Arctic air reaches the Gulf of Mexico unhindered: south of 42° N and east of the Rocky Mountains all but
/// the summer strays further than twelve monthly means tell anywhere else. Logarithm of the factor on
/// standard deviations; its course through the year fitted to Tifton's published table (31.5° N), checked on
/// NOAA freeze dates of 26 stations.
double gulf_outbreaks(const Site& site, double season_place) {
  if (site.latitude_deg < 20.0 || site.longitude_deg < -115.0 || site.longitude_deg > -65.0) return 0.0;
  const double south = std::clamp((42.0 - site.latitude_deg) / 10.0, 0.0, 1.2);
  const double east = std::clamp((site.longitude_deg + 112.0) / 10.0, 0.0, 1.0);
  return south * east * (0.48 - 0.44 * season_place - 0.44 * season_place * season_place);
}

}  // namespace

GeneratorParameters generator_from_normals(const PlaceNormals& place) {
  GeneratorParameters p;
  p.site = place.site;
  p.rain = rain_from_normals(place.normals);
  p.has_clearness = true;
  p.lag0.fill(kRichardsonLag0);
  p.lag1.fill(kRichardsonLag1);
  for (VariableParameters& variable : p.variable) variable.shape.fill(kShapeScores);
  const Season season = season_of(place.normals);
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    const double tmax = place.normals.tmax_c[m];
    const double tmin = place.normals.tmin_c[m];
    const double outbreak = gulf_outbreaks(place.site, season.place[m]);
    VariableParameters& maximum = p.variable[kTmax];
    maximum.mean[m] = tmax;
    maximum.wet_minus_dry[m] = -1.3 - 1.1 * season.place[m];
    maximum.dry_sd[m] = maximum.wet_sd[m] =
        std::exp(0.65 - 0.0141 * tmax + 0.0486 * season.amplitude_k + outbreak);
    VariableParameters& minimum = p.variable[kTmin];
    minimum.mean[m] = tmin;
    minimum.wet_minus_dry[m] = 1.1 - 0.9 * season.place[m];
    minimum.dry_sd[m] = minimum.wet_sd[m] =
        std::exp(1.037 - 0.0279 * tmin + 0.0194 * season.amplitude_k + outbreak);
    maximum.slow_share[m] = minimum.slow_share[m] = kSlowShare;
    set_clearness(p.variable[kClearness], m, tmax - tmin, place.site.elevation_m, p.rain.wet_fraction[m]);
  }
  p.source = "made from monthly normals";
  return p;
}

}  // namespace sowtide::climate
