#include "base/quantile.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cassert>
#include <cmath>
#include <numeric>

namespace sowtide::base {

double quantile_of_sorted(std::span<const double> sorted, double p) {
  assert(!sorted.empty() && p >= 0.0 && p <= 1.0);
  const double position = static_cast<double>(sorted.size() - 1) * p;
  const auto below = static_cast<std::size_t>(position);
  if (below + 1 >= sorted.size()) return sorted.back();
  const double fraction = position - static_cast<double>(below);
  return sorted[below] + fraction * (sorted[below + 1] - sorted[below]);
}

Quantiles quantiles(std::vector<double> sample) {
  std::sort(sample.begin(), sample.end());
  return {quantile_of_sorted(sample, 0.1), quantile_of_sorted(sample, 0.5), quantile_of_sorted(sample, 0.9)};
}

double mean(std::span<const double> sample) {
  assert(!sample.empty());
  return std::accumulate(sample.begin(), sample.end(), 0.0) / static_cast<double>(sample.size());
}

double standard_deviation(std::span<const double> sample) {
  assert(sample.size() > 1);
  const double centre = mean(sample);
  double sum = 0.0;
  for (const double x : sample) sum += (x - centre) * (x - centre);
  return std::sqrt(sum / static_cast<double>(sample.size() - 1));
}

double normal_cdf(double z) { return boost::math::cdf(boost::math::normal(), z); }
double normal_quantile(double p) { return boost::math::quantile(boost::math::normal(), p); }

}  // namespace sowtide::base
