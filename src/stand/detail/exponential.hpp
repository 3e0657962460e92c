// exp() that a compiler can turn into vector instructions: no branch, no table, no call.
//
// exp(x) = 2^n · exp(r), n = round(x / ln 2), |r| <= ln 2 / 2; exp(r) by its Taylor polynomial of degree 12
// (the first left-out term is below 2e-16 of the sum). Relative error under 1e-15 for x in [-700, 700]; below
// -700 it answers exp(-700), which is 1e-304. The same on every compiler and machine, since nothing is
// contracted.
#pragma once

#include <bit>
#include <cstdint>

namespace sowtide::stand::detail {

[[gnu::always_inline]] inline double exponential(double x) noexcept {
  constexpr double kLog2E = 1.4426950408889634074;
  constexpr double kLn2High =
      6.93147180369123816490e-01;  // ln 2 in two parts, the first with 32 trailing zero bits
  constexpr double kLn2Low = 1.90821492927058770002e-10;
  constexpr double kRounder =
      6755399441055744.0;  // 1.5 · 2^52: adding it rounds to an integer in the low bits
  x = -700.0 < x ? x : -700.0;
  x = x < 700.0 ? x : 700.0;
  const double shifted = x * kLog2E + kRounder;
  const double n = shifted - kRounder;
  const double r = (x - n * kLn2High) - n * kLn2Low;
  // Terms in pairs, so that few wait for each other (Estrin's scheme).
  const double r2 = r * r;
  const double r4 = r2 * r2;
  const double second = (1.0 / 2.0 + r * (1.0 / 6.0)) + r2 * (1.0 / 24.0 + r * (1.0 / 120.0));
  const double sixth = (1.0 / 720.0 + r * (1.0 / 5040.0)) + r2 * (1.0 / 40320.0 + r * (1.0 / 362880.0));
  const double tenth = (1.0 / 3628800.0 + r * (1.0 / 39916800.0)) + r2 * (1.0 / 479001600.0);
  const double sum = 1.0 + (r + r2 * ((second + r4 * sixth) + (r4 * r4) * tenth));
  const auto power = (std::bit_cast<std::uint64_t>(shifted) + 1023U) << 52U;
  return sum * std::bit_cast<double>(power);
}

}  // namespace sowtide::stand::detail
