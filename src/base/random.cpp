#include "base/random.hpp"

#include <bit>
#include <cmath>

#include "base/hash.hpp"

namespace sowtide::base {
namespace {

std::uint64_t split_mix(std::uint64_t& state) noexcept {
  state += 0x9e3779b97f4a7c15ULL;
  std::uint64_t z = state;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31U);
}

/// The bytes of a number, the lowest first, on whatever machine.
std::uint64_t fnv1a_of_number(std::uint64_t hash, std::uint64_t value) noexcept {
  for (unsigned shift = 0; shift < 64; shift += 8) hash = fnv1a(hash, static_cast<unsigned char>(value >> shift));
  return hash;
}

}  // namespace

RandomStream::RandomStream(std::uint64_t seed, std::string_view name, std::uint64_t index) noexcept {
  std::uint64_t hash = fnv1a_of_number(kFnv1aStart, seed);
  hash = fnv1a(name, hash);
  hash = fnv1a_of_number(hash, index);
  for (std::uint64_t& word : state_) word = split_mix(hash);
}

std::uint64_t RandomStream::bits() noexcept {
  const std::uint64_t result = std::rotl(state_[0] + state_[3], 23) + state_[0];
  const std::uint64_t t = state_[1] << 17U;
  state_[2] ^= state_[0];
  state_[3] ^= state_[1];
  state_[1] ^= state_[2];
  state_[0] ^= state_[3];
  state_[2] ^= t;
  state_[3] = std::rotl(state_[3], 45);
  return result;
}

double RandomStream::uniform() noexcept { return static_cast<double>(bits() >> 11U) * 0x1.0p-53; }

double RandomStream::normal() noexcept {
  if (has_spare_normal_) {
    has_spare_normal_ = false;
    return spare_normal_;
  }
  double u = 0.0;
  double v = 0.0;
  double s = 0.0;
  do {
    u = 2.0 * uniform() - 1.0;
    v = 2.0 * uniform() - 1.0;
    s = u * u + v * v;
  } while (s >= 1.0 || s == 0.0);
  const double factor = std::sqrt(-2.0 * std::log(s) / s);
  spare_normal_ = v * factor;
  has_spare_normal_ = true;
  return u * factor;
}

double RandomStream::exponential() noexcept { return -std::log1p(-uniform()); }

double RandomStream::gamma(double shape) noexcept {
  // For shape < 1: draw at shape + 1 and scale by u^(1/shape).
  if (shape < 1.0) return gamma(shape + 1.0) * std::pow(1.0 - uniform(), 1.0 / shape);
  const double d = shape - 1.0 / 3.0;
  const double c = 1.0 / std::sqrt(9.0 * d);
  for (;;) {
    const double x = normal();
    const double root = 1.0 + c * x;
    if (root <= 0.0) continue;
    const double v = root * root * root;
    if (std::log(1.0 - uniform()) < 0.5 * x * x + d - d * v + d * std::log(v)) return d * v;
  }
}

bool RandomStream::chance(double probability) noexcept { return uniform() < probability; }

std::uint32_t RandomStream::below(std::uint32_t bound) noexcept {
  // Multiply-shift with rejection of the biased low part (Lemire 2019).
  const auto draw = [this] { return static_cast<std::uint32_t>(bits() >> 32U); };
  std::uint64_t product = static_cast<std::uint64_t>(draw()) * bound;
  const std::uint32_t threshold = (0U - bound) % bound;
  while (static_cast<std::uint32_t>(product) < threshold) product = static_cast<std::uint64_t>(draw()) * bound;
  return static_cast<std::uint32_t>(product >> 32U);
}

}  // namespace sowtide::base
