// The parallel loop: the same result on any number of threads, every index once, exceptions let through.
#include "base/parallel.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

#include "base/random.hpp"

namespace sowtide::base {
namespace {

std::vector<double> worked_out(std::size_t threads) {
  const ThreadLimit limit(threads);
  std::vector<double> result(500);
  parallel_for(result.size(), [&result](std::size_t i) {
    RandomStream random(11, "tests.parallel", i);
    for (int draw = 0; draw < 200; ++draw) result[i] += random.normal();
  });
  return result;
}

TEST(ParallelFor, GivesTheSameOnOneAndOnManyThreads) {
  const auto one = worked_out(1);
  EXPECT_EQ(worked_out(2), one);
  EXPECT_EQ(worked_out(8), one);
}

TEST(ParallelFor, VisitsEveryIndexOnce) {
  std::vector<std::atomic<int>> visits(10000);
  parallel_for(visits.size(), [&visits](std::size_t i) { ++visits[i]; });
  for (const auto& count : visits) ASSERT_EQ(count.load(), 1);
  parallel_for(0, [](std::size_t) { FAIL(); });
}

TEST(ParallelFor, RethrowsWhatTheBodyThrows) {
  EXPECT_THROW(parallel_for(100,
                            [](std::size_t i) {
                              if (i == 57) throw std::runtime_error("broken");
                            }),
               std::runtime_error);
}

}  // namespace
}  // namespace sowtide::base
