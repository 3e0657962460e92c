#include "climate/normals.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "climate/places.hpp"
#include "climate/support/stored_record.hpp"

namespace sowtide::climate {
namespace {

using base::date_of;

// NOAA GHCN-Daily of Milwaukee, 1991-2020, averaged by a separate program (data/places.csv).
TEST(Normals, OfMilwaukeeAreThoseOfAnIndependentProgram) {
  const RecordNormals normals = normals_from_record(test::milwaukee()).value();
  const PlaceNormals table = find_place("Milwaukee WI").value();
  EXPECT_EQ(normals.from_year, 1991);
  EXPECT_EQ(normals.to_year, 2020);
  for (std::size_t m = 0; m < 12; ++m) {
    EXPECT_NEAR(normals.place.normals.tmax_c[m], table.normals.tmax_c[m], 0.1) << m;
    EXPECT_NEAR(normals.place.normals.tmin_c[m], table.normals.tmin_c[m], 0.1) << m;
    EXPECT_NEAR(normals.place.normals.precip_mm[m], table.normals.precip_mm[m], 1.0) << m;
    EXPECT_NEAR((*normals.place.normals.wet_days)[m], (*table.normals.wet_days)[m], 0.3) << m;
    EXPECT_EQ(normals.years[m], 30) << m;
    EXPECT_LT(normals.record_low_c[m], normals.place.normals.tmin_c[m]);
    EXPECT_GT(normals.record_high_c[m], normals.place.normals.tmax_c[m]);
  }
}

TEST(Normals, LeaveOutMonthsWithTooManyHoles) {
  WeatherRecord record = test::milwaukee();
  for (int i = 0; i < 5; ++i) {
    record.set(Variable::tmax, date_of(2000, 7, 10) + base::Days{i}, std::numeric_limits<double>::quiet_NaN(),
               ValueOrigin::missing);
  }
  const RecordNormals normals = normals_from_record(record).value();
  EXPECT_EQ(normals.years[6], 29);
  EXPECT_EQ(normals.years[7], 30);
}

TEST(Normals, NeedFourFifthsOfTheYears) {
  WeatherRecord record = test::milwaukee();
  for (int year = 1991; year <= 1997; ++year) {
    for (int i = 0; i < 28; ++i) {
      record.set(Variable::rain, date_of(year, 2, 1) + base::Days{i},
                 std::numeric_limits<double>::quiet_NaN(), ValueOrigin::missing);
    }
  }
  const auto normals = normals_from_record(record);
  ASSERT_FALSE(normals);
  EXPECT_EQ(normals.error().code, base::ProblemCode::insufficient_data);
  EXPECT_NE(normals.error().what.find("February"), std::string::npos);
  EXPECT_TRUE(normals_from_record(record, 1998, 2020));
}

TEST(Normals, OfNothingOrOfYearsInTheWrongOrderAreProblems) {
  EXPECT_FALSE(normals_from_record(WeatherRecord{}));
  EXPECT_EQ(normals_from_record(test::milwaukee(), 2010, 2000).error().code, base::ProblemCode::out_of_range);
}

}  // namespace
}  // namespace sowtide::climate
