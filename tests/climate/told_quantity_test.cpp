// Quantities kept within a text, told in any units.
#include "climate/told_quantity.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace sowtide::climate {
namespace {

std::string bracketed(double value, ToldUnit unit) {
  return fmt::format("<{:.2f}|{}>", value, static_cast<int>(unit));
}

RC_GTEST_PROP(ToldQuantityLaws, EachIsToldOnceAndAllElseStays, (const std::vector<std::string>& words)) {
  std::string text, expected;
  for (const std::string& word : words) {
    const double value = *rc::gen::inRange(-200000, 200000) / 100.0;
    const auto unit = static_cast<ToldUnit>(*rc::gen::inRange(0, 3));
    // A brace that is left open does not swallow what follows.
    const std::string between = "{ " + word + "{x} c";
    text += between + quantity(value, unit);
    expected += between + bracketed(value, unit);
  }
  RC_ASSERT(tell_quantities(text, bracketed) == expected);
}

TEST(ToldQuantity, OfAVariableIsInItsUnit) {
  EXPECT_EQ(quantity(20.004, Variable::tmax), "{20 c}");
  EXPECT_EQ(quantity(25.4, Variable::rain), "{25.4 mm}");
  EXPECT_EQ(quantity(3.25, Variable::wind), "3.25 m/s") << "told alike everywhere";
}

TEST(ToldQuantity, WhatOnlyLooksLikeOneStays) {
  for (const char* text : {"", "{", "}", "{}", "{20}", "{20 c", "{twenty c}", "{20 C}", "20 c", "{20  c}"})
    EXPECT_EQ(tell_quantities(text, bracketed), text);
}

}  // namespace
}  // namespace sowtide::climate
