// The growth of harvested organs through the season against field trials with their own weather
// (proof/trials/courses.csv and weather.csv, from the DSSAT distribution v4.8; sugar beet stands in for
// beet). A trial is fed and watered, so the crop's light use counts in full.
#include <gtest/gtest.h>

#include <iostream>
#include <set>

#include "stand/trials.hpp"

namespace sowtide::stand {
namespace {

// Light use and the organ's share were set on Paterson 1992 (potato), Mauka 1997 (cabbage), Citra 2003 (sweet
// corn) and Gainesville 2007 (bush bean); the other trials were not looked at for setting. Levels within a
// factor of two, and a median error of a quarter along the shape. Two tomatoes and the peppers miss the
// shape: their first fruit comes earlier than it did.
TEST(PublishedCourses, OrgansGrowAsInTrials) {
  const std::set<std::string> known_to_miss{"Citra 2006 tomato", "Bradenton 1991 tomato",
                                            "Bradenton 1996 sweet-pepper"};
  std::size_t held = 0;
  for (const TrialCourse& course : trial_courses()) {
    const CourseAgreement found = agreement_with(course);
    std::cout << course.name << ": level " << found.level << ", shape within " << found.shape << "\n";
    if (known_to_miss.count(course.name) > 0) continue;
    ++held;
    EXPECT_GE(found.level, 0.5) << course.name;
    EXPECT_LE(found.level, 2.0) << course.name;
    EXPECT_LE(found.shape, 0.25) << course.name;
  }
  EXPECT_EQ(held, 16U);
}

}  // namespace
}  // namespace sowtide::stand
