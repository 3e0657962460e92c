#include "stand/detail/seedling_draw.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "base/quantile.hpp"
#include "base/random.hpp"

namespace sowtide::stand::detail {
namespace {

/// Middles of equal shares of the standard normal distribution, in random order.
std::vector<double> shuffled_normals(std::size_t count, std::uint64_t seed, std::string_view name) {
  std::vector<std::uint32_t> order(count);
  std::iota(order.begin(), order.end(), 0U);
  base::RandomStream stream(seed, name);
  for (std::size_t i = count; i > 1; --i)
    std::swap(order[i - 1], order[stream.below(static_cast<std::uint32_t>(i))]);
  std::vector<double> normals(count);
  for (std::size_t i = 0; i < count; ++i)
    normals[i] = base::normal_quantile((order[i] + 0.5) / static_cast<double>(count));
  return normals;
}

}  // namespace

std::vector<double> seedling_deviates(std::size_t clumps, std::size_t ranks, double shared,
                                      std::uint64_t seed, std::string_view name) {
  const std::size_t plants = clumps * ranks;
  std::vector<double> deviates = shuffled_normals(plants, seed, name);
  if (ranks <= 1 || shared <= 0.0) return deviates;
  const std::vector<double> common = shuffled_normals(clumps, seed, std::string(name) + ".clump");
  for (std::size_t i = 0; i < plants; ++i)
    deviates[i] = std::sqrt(shared) * common[i % clumps] + std::sqrt(1.0 - shared) * deviates[i];
  // The order of the sums, put back onto the middles of equal shares.
  std::vector<std::size_t> rising(plants);
  std::iota(rising.begin(), rising.end(), std::size_t{0});
  std::stable_sort(rising.begin(), rising.end(),
                   [&](std::size_t a, std::size_t b) { return deviates[a] < deviates[b]; });
  for (std::size_t place = 0; place < plants; ++place)
    deviates[rising[place]] =
        base::normal_quantile((static_cast<double>(place) + 0.5) / static_cast<double>(plants));
  return deviates;
}

}  // namespace sowtide::stand::detail
