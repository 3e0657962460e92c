// How the seedlings of a sample differ at their start.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace sowtide::stand::detail {

/// Standard normal deviates of the plants of a sample, the plant of rank p in clump c at p · clumps + c. The
/// sample is balanced: the plants take the middles of equal shares of the distribution, so there is no luck
/// in its mean or spread. `shared` (0 to 1) is the part of the variance that the mates of a clump have in
/// common; plants that stand alone have no mates and differ one by one. The same seed and name give the same
/// deviates.
[[nodiscard]] std::vector<double> seedling_deviates(std::size_t clumps, std::size_t ranks, double shared,
                                                    std::uint64_t seed, std::string_view name);

}  // namespace sowtide::stand::detail
