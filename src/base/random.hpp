// Named random streams of one seed: the same input gives the same output on any number of threads.
//
//     RandomStream rain(seed, "climate.generator.rain", member);
// The name and index choose an independent stream; nothing is shared between streams. Generator: xoshiro256++
// (D. Blackman and S. Vigna 2021, ACM Trans. Math. Softw. 47:36), seeded by SplitMix64 over an FNV-1a hash of
// seed, name and index. Variates use own algorithms, since those of <random> differ between libraries.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace sowtide::base {

class RandomStream {
 public:
  RandomStream(std::uint64_t seed, std::string_view name, std::uint64_t index = 0) noexcept;

  std::uint64_t bits() noexcept;                          ///< 64 random bits
  double uniform() noexcept;                              ///< in [0, 1), 53 bits
  double normal() noexcept;                               ///< mean 0, standard deviation 1 (polar method)
  double exponential() noexcept;                          ///< mean 1
  double gamma(double shape) noexcept;                    ///< scale 1; shape > 0 (Marsaglia and Tsang 2000)
  bool chance(double probability) noexcept;               ///< true with the probability
  std::uint32_t below(std::uint32_t bound) noexcept;      ///< uniform in 0..bound-1, bound > 0

 private:
  std::array<std::uint64_t, 4> state_{};
  double spare_normal_ = 0.0;
  bool has_spare_normal_ = false;
};

}  // namespace sowtide::base
