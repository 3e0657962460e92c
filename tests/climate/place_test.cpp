// PLACE files: a site with twelve monthly normals.
#include <gtest/gtest.h>

#include <ostream>

#include "climate/site.hpp"

namespace sowtide::climate {
namespace {

using base::ProblemCode;

constexpr std::string_view kGood = R"([site]
name = "Anywhere"
lat = 47.4        # degrees north
lon = -122.3      # degrees east
elevation_m = 110
[normals]         # January to December
tmax_c    = [8, 9.5, 12, 15, 19, 22, 25, 25, 21, 15, 10, 7]
tmin_c    = [2, 2, 4, 5, 8, 11, 13, 13, 11, 8, 4, 2]
precip_mm = [140, 90, 95, 70, 50, 40, 18, 22, 40, 90, 160, 140]
wet_days  = [15, 12, 14, 11, 9, 7, 4, 4, 7, 11, 16, 15]
)";

std::string changed(std::string_view from, std::string_view to) {
  std::string text(kGood);
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos);
  return text.replace(at, from.size(), to);
}

TEST(PlaceFile, IsReadWhole) {
  const auto place = read_place(kGood, "p.toml");
  ASSERT_TRUE(place) << to_text(place.error());
  EXPECT_EQ(place->site.name, "Anywhere");
  EXPECT_EQ(place->site.latitude_deg, 47.4);
  EXPECT_EQ(place->site.longitude_deg, -122.3);
  EXPECT_EQ(place->site.elevation_m, 110.0);
  EXPECT_EQ(place->normals.tmax_c[6], 25.0);
  EXPECT_EQ(place->normals.precip_mm[10], 160.0);
  ASSERT_TRUE(place->normals.wet_days);
  EXPECT_EQ((*place->normals.wet_days)[0], 15.0);
}

TEST(PlaceFile, WetDaysMayBeLeftOut) {
  const auto place =
      read_place(changed("wet_days  = [15, 12, 14, 11, 9, 7, 4, 4, 7, 11, 16, 15]\n", ""), "p.toml");
  ASSERT_TRUE(place);
  EXPECT_FALSE(place->normals.wet_days);
}

struct Refused {
  const char* name;
  std::string text;
  ProblemCode code;
  int line;
};

void PrintTo(const Refused& refused, std::ostream* out) {
  *out << refused.name;
}

class PlaceFileRefuses : public ::testing::TestWithParam<Refused> {};

TEST_P(PlaceFileRefuses, WithOneClearProblem) {
  const auto place = read_place(GetParam().text, "p.toml");
  ASSERT_FALSE(place);
  EXPECT_EQ(base::problem_code_text(place.error().code), base::problem_code_text(GetParam().code))
      << to_text(place.error());
  EXPECT_EQ(place.error().where.line, GetParam().line) << to_text(place.error());
  EXPECT_EQ(place.error().where.file, "p.toml");
}

INSTANTIATE_TEST_SUITE_P(
    Bad, PlaceFileRefuses,
    ::testing::Values(
        Refused{"LatitudeOutOfRange", changed("lat = 47.4", "lat = 147.4"), ProblemCode::out_of_range, 3},
        Refused{"LatitudeMissing", changed("lat = 47.4", "# lat"), ProblemCode::missing_field, 1},
        Refused{"ElevenMonths", changed("10, 7]", "10]"), ProblemCode::out_of_range, 7},
        Refused{"Fahrenheit", changed("25, 25, 21", "77, 77, 70"), ProblemCode::out_of_range, 7},
        Refused{"MinimumAbove", changed("[2, 2, 4", "[12, 2, 4"), ProblemCode::contradiction, 8},
        Refused{"NegativeRain", changed("[140, 90", "[-140, 90"), ProblemCode::out_of_range, 9},
        Refused{"TooManyWetDays", changed("[15, 12, 14", "[15, 30, 14"), ProblemCode::out_of_range, 10},
        Refused{"UnknownKey", changed("elevation_m = 110", "elevation_m = 110\nheight = 3"),
                ProblemCode::unknown_field, 6},
        Refused{"WarmingBeyondBelief", changed("elevation_m = 110", "elevation_m = 110\nwarming_c = 30"),
                ProblemCode::out_of_range, 6},
        Refused{"NotText", "\x01\x02\x03", ProblemCode::syntax, 1}),
    [](const ::testing::TestParamInfo<Refused>& refused) { return std::string(refused.param.name); });

TEST(PlaceFile, MayStateAWarming) {
  EXPECT_DOUBLE_EQ(read_place(changed("elevation_m = 110", "elevation_m = 110"), "p.toml")->warming_c, 0.0);
  const auto warmer = read_place(changed("elevation_m = 110", "elevation_m = 110\nwarming_c = 1.5"), "p.toml");
  ASSERT_TRUE(warmer) << base::to_text(warmer.error());
  EXPECT_DOUBLE_EQ(warmer->warming_c, 1.5);
}

TEST(PlaceFile, TablesMustBeThere) {
  EXPECT_EQ(read_place("", "p.toml").error().code, ProblemCode::missing_field);
  EXPECT_EQ(read_place("[site]\nname='a'\nlat=1\nlon=1\nelevation_m=1\n", "p.toml").error().code,
            ProblemCode::missing_field);
}

}  // namespace
}  // namespace sowtide::climate
