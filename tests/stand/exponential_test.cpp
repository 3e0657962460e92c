#include "stand/detail/exponential.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace sowtide::stand::detail {
namespace {

TEST(Exponential, IsExactAtZero) {
  EXPECT_EQ(exponential(0.0), 1.0);
}

TEST(Exponential, StopsAtTheEdgesOfItsRange) {
  EXPECT_DOUBLE_EQ(exponential(-5000.0), exponential(-700.0));
  EXPECT_GT(exponential(-5000.0), 0.0);
  EXPECT_TRUE(std::isfinite(exponential(5000.0)));
}

RC_GTEST_PROP(Exponential, AgreesWithTheLibrary, ()) {
  const double x = *rc::gen::inRange(-69'900'000, 69'900'000) * 1e-5;
  const double expected = std::exp(x);
  RC_ASSERT(std::abs(exponential(x) - expected) <= 1e-14 * expected);
}

}  // namespace
}  // namespace sowtide::stand::detail
