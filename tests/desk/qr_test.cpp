#include "desk/qr.hpp"

#include <gtest/gtest.h>

#include <string>

namespace sowtide::desk {
namespace {

TEST(Qr, HasTheFinderPatternOfTheStandardInThreeCorners) {
  // ISO/IEC 18004, 5.3.3 (figure from memory): a 7 x 7 dark ring, a light ring, a dark 3 x 3 square.
  const auto code = qr_code("http://garden.example:8420/#/stand/s1");
  ASSERT_TRUE(code);
  const auto finder = [](std::size_t r, std::size_t c) {
    const bool ring = r == 0 || r == 6 || c == 0 || c == 6;
    return ring || (r >= 2 && r <= 4 && c >= 2 && c <= 4);
  };
  for (std::size_t r = 0; r < 7; ++r) {
    for (std::size_t c = 0; c < 7; ++c) {
      EXPECT_EQ(code->at(r, c), finder(r, c));
      EXPECT_EQ(code->at(r, code->size - 7 + c), finder(r, c));
      EXPECT_EQ(code->at(code->size - 7 + r, c), finder(r, c));
    }
  }
}

TEST(Qr, SizesAreThoseOfTheStandardsVersions) {
  // ISO/IEC 18004: version v has 17 + 4 v modules; level M holds 14 bytes in version 1, 26 in 2, 2331 in 40
  // (from memory).
  EXPECT_EQ(qr_code(std::string(14, 'x'))->size, 21U);
  EXPECT_EQ(qr_code(std::string(15, 'x'))->size, 25U);
  EXPECT_EQ(qr_code(std::string(26, 'x'))->size, 25U);
  EXPECT_EQ(qr_code(std::string(2331, 'x'))->size, 177U);
}

TEST(Qr, RefusesWhatDoesNotFit) {
  EXPECT_EQ(qr_code("").error().code, base::ProblemCode::empty);
  EXPECT_EQ(qr_code(std::string(2332, 'x')).error().code, base::ProblemCode::too_large);
}

TEST(Qr, ThePictureEscapesItsNameAndHoldsTheQuietZone) {
  const auto code = qr_code("x");
  const std::string svg = qr_svg(*code, "<Bed & \"wall\">");
  EXPECT_NE(svg.find("viewBox=\"0 0 29 29\""), std::string::npos);
  EXPECT_NE(svg.find("&lt;Bed &amp; &quot;wall&quot;&gt;"), std::string::npos);
  EXPECT_NE(svg.find("M4 4h7v1"), std::string::npos);
}

}  // namespace
}  // namespace sowtide::desk
