// Amounts with their unit, as they are typed.
#include "base/amount.hpp"

#include <gtest/gtest.h>

#include <ostream>

namespace sowtide::base {
namespace {

struct Typed {
  std::string_view text;
  Measure measure;
  double amount;
};

void PrintTo(const Typed& typed, std::ostream* out) {
  *out << typed.text;
}

class TypedAmount : public ::testing::TestWithParam<Typed> {};

// The yard and pound agreement of 1959 (1 lb = 453.59237 g, 1 in = 25.4 mm); a US gallon is 231 cubic inches.
TEST_P(TypedAmount, IsReadInItsUnit) {
  const auto read = read_amount(GetParam().text, GetParam().measure);
  ASSERT_TRUE(read.has_value()) << to_text(read.error());
  EXPECT_NEAR(*read, GetParam().amount, 1e-9);
}

INSTANTIATE_TEST_SUITE_P(Amounts, TypedAmount,
                         ::testing::ValuesIn(std::vector<Typed>{
                             {"850", Measure::grams, 850.0},
                             {" 0.5 ", Measure::grams, 0.5},
                             {"-4", Measure::grams, -4.0},
                             {"2lb", Measure::grams, 907.18474},
                             {"12 OZ", Measure::grams, 340.1942775},
                             {"1 lb 4 oz", Measure::grams, 453.59237 * 1.25},
                             {"1.5kg", Measure::grams, 1500.0},
                             {"2 pounds", Measure::grams, 907.18474},
                             {"45", Measure::millimetres, 45.0},
                             {"2in", Measure::millimetres, 50.8},
                             {"2\"", Measure::millimetres, 50.8},
                             {"4.5cm", Measure::millimetres, 45.0},
                             {"1 ft 2 in", Measure::millimetres, 14 * 25.4},
                             {"10", Measure::litres, 10.0},
                             {"2gal", Measure::litres, 2 * 3.785411784},
                             {"3 qt", Measure::litres, 0.75 * 3.785411784},
                             {"500ml", Measure::litres, 0.5}}));

TEST(Amount, OfAnotherMeasureOrOfNoneIsRefusedWithTheUnitsThatServe) {
  for (const std::string_view text : {"2gal", "3 stone"}) {
    const auto read = read_amount(text, Measure::grams);
    ASSERT_FALSE(read.has_value()) << text;
    EXPECT_EQ(read.error().code, ProblemCode::wrong_unit) << text;
    EXPECT_NE(read.error().remedy.find("g, kg, oz, lb"), std::string::npos);
  }
}

TEST(Amount, ACommaMayBeAPointOrStandForThousands) {
  for (const std::string_view text : {"1,2kg", "1,5kg", "1,200 g"}) {
    const auto read = read_amount(text, Measure::grams);
    ASSERT_FALSE(read.has_value()) << text;
    EXPECT_EQ(read.error().code, ProblemCode::syntax) << text;
    EXPECT_NE(read.error().remedy.find("behind a point"), std::string::npos) << read.error().remedy;
  }
}

TEST(Amount, KnowsItsUnitsAsWords) {
  EXPECT_TRUE(is_unit("g") && is_unit("gallons") && is_unit("in"));
  EXPECT_TRUE(is_unit("L") && is_unit("LB"));
  EXPECT_FALSE(is_unit("s3") || is_unit("") || is_unit("stone"));
}

TEST(Amount, ThatIsNoneIsRefused) {
  for (const std::string_view text : {"", "lb", "1 lb 4", "2 3", "1 lb -4 oz", "--", "1.2.3"})
    EXPECT_FALSE(read_amount(text, Measure::grams).has_value()) << text;
}

}  // namespace
}  // namespace sowtide::base
