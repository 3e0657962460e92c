#include "crop/counts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <numeric>

#include "crop/emergence.hpp"

namespace sowtide::crop {
namespace {

using base::ProblemCode;

constexpr int kMostCells = 1'000'000;
constexpr int kMostSeedsPerCell = 50;
/// Longest exact convolution: beyond it a tray is no tray.
constexpr int kMostConvolvedCells = 20'000;

std::vector<double> convolve(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> product(a.size() + b.size() - 1, 0.0);
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t j = 0; j < b.size(); ++j) product[i + j] += a[i] * b[j];
  }
  return product;
}

/// P(at least `wanted` of `count` trials of chance `p`), by the incomplete beta function.
double at_least(int count, int wanted, double p) {
  if (wanted <= 0) return 1.0;
  if (wanted > count || p <= 0.0) return 0.0;
  if (p >= 1.0) return 1.0;
  return boost::math::ibeta(static_cast<double>(wanted), static_cast<double>(count - wanted + 1), p);
}

double tail_from(const std::vector<double>& distribution, int least) {
  const auto from = static_cast<std::size_t>(std::max(least, 0));
  if (from >= distribution.size()) return 0.0;
  return std::accumulate(distribution.begin() + static_cast<std::ptrdiff_t>(from), distribution.end(), 0.0);
}

/// The least n in [from, most] for which `enough` holds; it must be monotone. Nothing when even `most` is too
/// few.
template <class Enough>
std::optional<int> least_count(int from, int most, Enough enough) {
  int high = from;
  while (!enough(high)) {
    if (high >= most) return std::nullopt;
    high = high > most / 2 ? most : 2 * high;
  }
  int low = from;
  while (low < high) {
    const int middle = low + (high - low) / 2;
    if (enough(middle)) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return low;
}

template <class Number>
base::Result<void> in_range(std::string_view name, Number value, Number low, Number high) {
  if (value >= low && value <= high) return {};
  return base::fail(ProblemCode::out_of_range, fmt::format("is {}, must be from {} to {}", value, low, high),
                    {.field = std::string(name)});
}

base::Result<void> check_service(double service) {
  if (service > 0.0 && service < 1.0) return {};
  return base::fail(ProblemCode::out_of_range, fmt::format("is {}, must be above 0 and below 1", service),
                    {.field = "service"}, "Write 0.9 for nine times in ten");
}

tl::unexpected<base::Problem> cannot(std::string what) {
  return base::fail(ProblemCode::infeasible, std::move(what), {},
                    "Sow more seeds a cell, use fresher seed, or ask for fewer");
}

base::Result<void> check_order(int good, double service, double germination_pct, int seeds_per_cell) {
  if (auto ok = in_range("good_clumps", good, 1, kMostCells); !ok) return ok;
  if (auto ok = check_service(service); !ok) return ok;
  if (auto ok = in_range("germination_pct", germination_pct, 0.0, 100.0); !ok) return ok;
  return in_range("seeds_per_cell", seeds_per_cell, 1, kMostSeedsPerCell);
}

base::Result<void> check_plan(const TrayPlan& plan) {
  if (auto ok = in_range("cells", plan.cells, 1, kMostConvolvedCells); !ok) return ok;
  if (auto ok = in_range("seeds_per_cell", plan.seeds_per_cell, 1, kMostSeedsPerCell); !ok) return ok;
  if (auto ok = in_range("germination_pct", plan.germination_pct, 0.0, 100.0); !ok) return ok;
  if (auto ok = in_range("min_plants", plan.min_plants, 1, kMostSeedsPerCell); !ok) return ok;
  if (plan.policy == CellPolicy::thin && plan.keep < plan.min_plants) {
    return base::fail(ProblemCode::contradiction, "is below min_plants, so no cell would be good",
                      {.field = "keep"});
  }
  if (plan.policy == CellPolicy::move_one && plan.min_plants != 1) {
    return base::fail(ProblemCode::contradiction, "moving seedlings fills cells with one plant each",
                      {.field = "min_plants"}, "Use min_plants 1 with this policy");
  }
  return {};
}

/// Quantile of a distribution over 0, 1, 2 …: the least count whose cumulative share reaches p.
double count_quantile(const std::vector<double>& distribution, double p) {
  double sum = 0.0;
  for (std::size_t k = 0; k < distribution.size(); ++k) {
    sum += distribution[k];
    if (sum >= p - 1e-12) return static_cast<double>(k);
  }
  return static_cast<double>(distribution.size() - 1);
}

double mean_count(const std::vector<double>& distribution) {
  double mean = 0.0;
  for (std::size_t k = 0; k < distribution.size(); ++k) mean += static_cast<double>(k) * distribution[k];
  return mean;
}

std::vector<double> binomial(int count, double p) {
  return sum_of_draws({1.0 - p, p}, count);
}

void summarise(TrayOutcome& outcome, const std::vector<double>& good_cells) {
  outcome.good_cells_mean = mean_count(good_cells);
  outcome.good_cells = {count_quantile(good_cells, 0.1), count_quantile(good_cells, 0.5),
                        count_quantile(good_cells, 0.9)};
}

/// All above `keep` are lumped into `keep`.
std::vector<double> capped(const std::vector<double>& distribution, int keep) {
  const std::size_t size = std::min(distribution.size(), static_cast<std::size_t>(keep) + 1);
  std::vector<double> made(distribution.begin(), distribution.begin() + static_cast<std::ptrdiff_t>(size));
  made.back() +=
      std::accumulate(distribution.begin() + static_cast<std::ptrdiff_t>(size), distribution.end(), 0.0);
  return made;
}

/// Moving fills cells until seedlings or cells run out, so the filled cells are min(cells, all seedlings).
/// Seedlings beyond the cells stay where they came up.
TrayOutcome moved_outcome(const std::vector<double>& per_cell, int cells) {
  const std::vector<double> filled = capped(sum_of_draws(per_cell, cells), cells);
  TrayOutcome outcome;
  summarise(outcome, filled);
  const double filled_share = outcome.good_cells_mean / cells;
  const double came_up_share = 1.0 - per_cell[0];
  outcome.seedlings_removed_mean = outcome.good_cells_mean - cells * came_up_share;
  // A moved seedling turns a cell of 0 into 1 and one of k+1 into k; only the split between 0 and more is
  // exact without knowing which cell gave, so the others are shown as "one or more".
  outcome.plants_per_cell = {1.0 - filled_share, filled_share};
  return outcome;
}

}  // namespace

double embryo_chance(const SeedFacts& seed, double germination_pct) {
  const double wanted = std::clamp(germination_pct / 100.0, 0.0, 1.0);
  if (wanted <= 0.0) return 0.0;
  if (wanted >= 1.0) return 1.0;
  const auto excess = [&](double q) {
    double empty = 0.0;
    double power = 1.0;
    for (const double share : seed.embryos) {
      power *= 1.0 - q;
      empty += share * power;
    }
    return (1.0 - empty) - wanted;
  };
  std::uintmax_t iterations = 200;
  const auto bracket = boost::math::tools::toms748_solve(
      excess, 0.0, 1.0, -wanted, 1.0 - wanted, boost::math::tools::eps_tolerance<double>(50), iterations);
  return 0.5 * (bracket.first + bracket.second);
}

std::vector<double> seedlings_per_seed(const SeedFacts& seed, double germination_pct) {
  const double q = embryo_chance(seed, germination_pct);
  std::vector<double> distribution(seed.embryos.size() + 1, 0.0);
  std::vector<double> power{1.0};
  for (const double share : seed.embryos) {
    power = convolve(power, {1.0 - q, q});
    for (std::size_t k = 0; k < power.size(); ++k) distribution[k] += share * power[k];
  }
  return distribution;
}

std::vector<double> sum_of_draws(const std::vector<double>& one, int count) {
  std::vector<double> sum{1.0};
  std::vector<double> square = one;
  for (int left = count; left > 0; left /= 2) {
    if (left % 2 == 1) sum = convolve(sum, square);
    if (left > 1) square = convolve(square, square);
  }
  return sum;
}

std::vector<double> seedlings_per_cell(const SeedFacts& seed, int seeds_per_cell, double germination_pct) {
  return sum_of_draws(seedlings_per_seed(seed, germination_pct),
                      std::clamp(seeds_per_cell, 0, kMostSeedsPerCell));
}

int least_plants_of_clump(double plants) noexcept {
  return std::max(1, static_cast<int>(std::lround(0.5 * plants)));
}

base::Result<int> cells_to_sow(const SeedFacts& seed, int good_clumps, double service, double germination_pct,
                               int seeds_per_cell, int min_plants) {
  if (auto ok = check_order(good_clumps, service, germination_pct, seeds_per_cell); !ok) {
    return tl::unexpected(ok.error());
  }
  if (auto ok = in_range("min_plants", min_plants, 1, kMostSeedsPerCell); !ok)
    return tl::unexpected(ok.error());
  const double good =
      std::min(1.0, tail_from(seedlings_per_cell(seed, seeds_per_cell, germination_pct), min_plants));
  const auto cells = least_count(good_clumps, kMostCells,
                                 [&](int n) { return at_least(n, good_clumps, good) >= service - 1e-12; });
  if (!cells) {
    return cannot(
        fmt::format("a cell has {} or more seedlings with a chance of only {:.2g}", min_plants, good));
  }
  return *cells;
}

base::Result<int> cells_to_sow_with_moving(const SeedFacts& seed, int good_clumps, double service,
                                           double germination_pct, int seeds_per_cell) {
  if (auto ok = check_order(good_clumps, service, germination_pct, seeds_per_cell); !ok) {
    return tl::unexpected(ok.error());
  }
  if (auto ok = in_range("good_clumps", good_clumps, 1, kMostConvolvedCells / 4); !ok) {
    return tl::unexpected(ok.error());
  }
  const std::vector<double> per_cell = seedlings_per_cell(seed, seeds_per_cell, germination_pct);
  const auto cells = least_count(good_clumps, kMostConvolvedCells, [&](int n) {
    return tail_from(sum_of_draws(per_cell, n), good_clumps) >= service - 1e-12;
  });
  if (!cells) return cannot("too few seedlings come up");
  return *cells;
}

base::Result<int> seeds_to_sow(const SeedFacts& seed, int plants, double service, double germination_pct,
                               double field_share) {
  if (auto ok = check_order(plants, service, germination_pct, 1); !ok) return tl::unexpected(ok.error());
  if (!(field_share > 0.0 && field_share <= 1.0)) {
    return base::fail(ProblemCode::out_of_range,
                      fmt::format("is {}, must be above 0 and at most 1", field_share),
                      {.field = "field_share"});
  }
  if (seed.embryos.size() == 1) {
    const double chance = field_share * germination_pct / 100.0;
    const auto seeds =
        least_count(1, kMostCells, [&](int n) { return at_least(n, plants, chance) >= service - 1e-12; });
    if (!seeds) return cannot("too few seedlings come up");
    return *seeds;
  }
  if (auto ok = in_range("plants", plants, 1, kMostConvolvedCells / 4); !ok)
    return tl::unexpected(ok.error());
  const std::vector<double> one = seedlings_per_seed(seed, germination_pct * field_share);
  const auto seeds = least_count(1, kMostConvolvedCells, [&](int n) {
    return tail_from(sum_of_draws(one, n), plants) >= service - 1e-12;
  });
  if (!seeds) return cannot("too few seedlings come up");
  return *seeds;
}

base::Result<TrayOutcome> tray_outcome(const SeedFacts& seed, const TrayPlan& plan) {
  if (auto ok = check_plan(plan); !ok) return tl::unexpected(ok.error());
  const std::vector<double> came_up = seedlings_per_cell(seed, plan.seeds_per_cell, plan.germination_pct);
  if (plan.policy == CellPolicy::move_one) return moved_outcome(came_up, plan.cells);
  TrayOutcome outcome;
  outcome.plants_per_cell = plan.policy == CellPolicy::thin ? capped(came_up, plan.keep) : came_up;
  outcome.seedlings_removed_mean = plan.cells * (mean_count(came_up) - mean_count(outcome.plants_per_cell));
  summarise(outcome,
            binomial(plan.cells, std::min(1.0, tail_from(outcome.plants_per_cell, plan.min_plants))));
  return outcome;
}

double grams_of_seed(const SeedFacts& seed, double seeds) {
  return seeds / seed.seeds_per_gram;
}

}  // namespace sowtide::crop
