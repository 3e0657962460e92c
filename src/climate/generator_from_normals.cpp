// The generator from twelve monthly normals alone.
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

RainParameters rain_from_normals(const MonthlyNormals& normals) {
  RainParameters rain;
  rain.threshold_mm = 1.0;
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    const double total_mm = normals.precip_mm[m];
    // Without a count of wet days: a wetter month has more of them and heavier ones.
    const double wet_days = normals.wet_days ? (*normals.wet_days)[m] : total_mm / (4.0 + 0.05 * total_mm);
    rain.wet_fraction[m] = std::clamp(wet_days / kMonthDays[m], 0.0, 0.97);
    rain.wet_persistence[m] = 0.25;
    rain.wet_day_mm[m] = std::max(total_mm / std::max(wet_days, 0.05), rain.threshold_mm + 0.2);
    rain.light_share[m] = 0.55;
    rain.light_ratio[m] = 0.35;
  }
  return rain;
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
  for (std::size_t m = 0; m < kMonthCount; ++m) {
    const double tmax = place.normals.tmax_c[m];
    const double tmin = place.normals.tmin_c[m];
    VariableParameters& maximum = p.variable[kTmax];
    maximum.mean[m] = tmax;
    maximum.wet_minus_dry[m] = -2.0;
    maximum.dry_sd[m] = maximum.wet_sd[m] = std::max(5.8 - 0.09 * tmax, 0.5);
    VariableParameters& minimum = p.variable[kTmin];
    minimum.mean[m] = tmin;
    minimum.dry_sd[m] = minimum.wet_sd[m] = std::max(5.2 - 0.13 * tmin, 0.5);
    maximum.slow_share[m] = minimum.slow_share[m] = 0.1;
    VariableParameters& clearness = p.variable[kClearness];
    const double clear_share = 0.75 + 2e-5 * place.site.elevation_m;
    clearness.mean[m] = std::min(kInlandKrs * std::sqrt(std::max(tmax - tmin, 1.0)) / clear_share, 0.92);
    const double wet = p.rain.wet_fraction[m];
    const double dry_mean = clearness.mean[m] / (1.0 - 0.38 * wet);
    clearness.wet_minus_dry[m] = -0.38 * dry_mean;
    clearness.dry_sd[m] = 0.24 * dry_mean;
    clearness.wet_sd[m] = 0.45 * 0.62 * dry_mean;
  }
  p.source = "made from monthly normals";
  return p;
}

}  // namespace sowtide::climate
