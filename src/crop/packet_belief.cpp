#include "crop/packet_belief.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace sowtide::crop {
namespace {

using base::ProblemCode;

constexpr double kDaysPerYear = 365.25;
/// Of the first figure, after the published life of seed (common practice; the lists do not say).
constexpr double kShareLeftAtLife = 0.5;
/// Spread of packets about the figure of a fresh one, in probits. Chosen: with it the figure is worth about
/// as much as a test of ten seeds.
constexpr double kFreshSpread = 0.5;
/// Spread of how fast seed ages, of its logarithm: nine in ten age at most twice as fast as the usual, and
/// nine in ten at least half as fast. Chosen: lists of seed life differ by so much, and so do drawers.
const double kRateSpread = std::log(2.0) / base::normal_quantile(0.9);
/// Lines a side of the grid, and how many standard deviations it reaches.
constexpr int kGridSide = 41;
constexpr double kGridReach = 4.0;
// Warmth in the viability equation where a crop's own constants are not published: the same for all seeds of
// eight species (J. B. Dickie et al. 1990, Annals of Botany 65:197-204).
constexpr double kUsualCh = 0.0329;
constexpr double kUsualCq = 0.000478;

/// How many times faster seed ages at a warmth than in ordinary keeping.
double haste_of_warmth(const SeedFacts& seed, double temp_c) {
  const double ch = seed.viability ? seed.viability->ch.value : kUsualCh;
  const double cq = seed.viability ? seed.viability->cq.value : kUsualCq;
  return std::pow(
      10.0, ch * (temp_c - kOrdinaryStoreC) + cq * (temp_c * temp_c - kOrdinaryStoreC * kOrdinaryStoreC));
}

/// Mean of normal_cdf over a normal distribution of this spread is normal_cdf of its centre over this.
double widening(double spread) {
  return std::sqrt(1.0 + spread * spread);
}

/// Probits a year by the published life: the mean of many packets falls to kShareLeftAtLife in that time.
double fall_by_life(const SeedFacts& seed, double temp_c, double fresh_pct) {
  const double lost_probits =
      base::normal_quantile(fresh_pct / 100.0) - base::normal_quantile(kShareLeftAtLife * fresh_pct / 100.0);
  return widening(kFreshSpread) * lost_probits / seed.life_years * haste_of_warmth(seed, temp_c);
}

base::Result<void> check_test(const HomeTest& test) {
  constexpr int kMostSown = 1'000'000;
  if (test.sown >= 0 && test.sown <= kMostSown && test.came_up >= 0 && test.came_up <= test.sown) return {};
  return base::fail(ProblemCode::out_of_range,
                    fmt::format("{} of {} cannot have come up", test.came_up, test.sown),
                    {.field = "came_up"}, "Write how many were sown and how many of them came up");
}

/// Logarithm of the chance of what came up, but for a constant. Far tails stand at the smallest number there
/// is.
double log_chance(const HomeTest& test, double probits) {
  constexpr double kLeast = 1e-300;
  const double up = std::max(kLeast, base::normal_cdf(probits));
  const double dead = std::max(kLeast, base::normal_cdf(-probits));
  return test.came_up * std::log(up) + (test.sown - test.came_up) * std::log(dead);
}

}  // namespace

base::Result<PacketBelief> PacketBelief::of_packet(const SeedFacts& seed, const SeedKeeping& keeping,
                                                   double fresh_pct) {
  if (!(fresh_pct > 0.0 && fresh_pct < 100.0)) {
    return base::fail(ProblemCode::out_of_range,
                      fmt::format("is {}, must be above 0 and below 100", fresh_pct),
                      {.field = "germination_pct"});
  }
  const SeedStore store{keeping.temp_c.value_or(kOrdinaryStoreC),
                        keeping.moisture_pct.value_or(kDriestMoisturePct)};
  const auto sigma =
      days_per_probit(seed.viability ? constants_of(*seed.viability) : ViabilityConstants{}, store);
  if (!sigma) return tl::unexpected(sigma.error());
  PacketBelief belief;
  belief.by_equation_ = seed.viability && keeping.moisture_pct;
  const double fall =
      belief.by_equation_ ? kDaysPerYear / *sigma : fall_by_life(seed, store.temp_c, fresh_pct);
  const double centre = base::normal_quantile(fresh_pct / 100.0) * widening(kFreshSpread);
  double sum = 0.0;
  for (int i = 0; i < kGridSide * kGridSide; ++i) {
    const double step = 2.0 * kGridReach / (kGridSide - 1);
    const double start = -kGridReach + step * (i / kGridSide);
    const double rate = -kGridReach + step * (i % kGridSide);
    const double weight = std::exp(-0.5 * (start * start + rate * rate));
    belief.lines_.push_back({centre + kFreshSpread * start, fall * std::exp(kRateSpread * rate), weight});
    sum += weight;
  }
  for (Line& line : belief.lines_) line.weight /= sum;
  return belief;
}

void PacketBelief::age(double years) {
  for (Line& line : lines_) line.probits -= std::max(0.0, years) * line.fall_per_year;
}

base::Result<void> PacketBelief::learn(const HomeTest& test) {
  if (auto ok = check_test(test); !ok) return ok;
  std::vector<double> logs;
  for (const Line& line : lines_) logs.push_back(log_chance(test, line.probits));
  const double best = *std::max_element(logs.begin(), logs.end());
  double sum = 0.0;
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    lines_[i].weight *= std::exp(logs[i] - best);
    sum += lines_[i].weight;
  }
  for (Line& line : lines_) line.weight /= sum;
  return {};
}

double PacketBelief::mean_pct() const {
  double mean = 0.0;
  for (const Line& line : lines_) mean += line.weight * base::normal_cdf(line.probits);
  return 100.0 * mean;
}

base::Quantiles PacketBelief::pct() const {
  std::vector<std::pair<double, double>> by_probits;
  for (const Line& line : lines_) by_probits.emplace_back(line.probits, line.weight);
  std::sort(by_probits.begin(), by_probits.end());
  const auto at = [&](double share) {
    double below = 0.0;
    for (const auto& [probits, weight] : by_probits) {
      below += weight;
      if (below >= share) return 100.0 * base::normal_cdf(probits);
    }
    return 100.0 * base::normal_cdf(by_probits.back().first);
  };
  return {at(0.1), at(0.5), at(0.9)};
}

double PacketBelief::worth_seeds() const {
  const double mean = mean_pct() / 100.0;
  double variance = 0.0;
  for (const Line& line : lines_) {
    const double off = base::normal_cdf(line.probits) - mean;
    variance += line.weight * off * off;
  }
  constexpr double kLeastVariance = 1e-12;
  return std::max(0.0, mean * (1.0 - mean) / std::max(kLeastVariance, variance) - 1.0);
}

}  // namespace sowtide::crop
