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
// corn) and Gainesville 2007 (bush bean); no figure was set on any other trial by itself, though most are
// among the 43 whose pooled light use and shares stand behind the crop files. Levels within a factor of two,
// and a median error of a quarter along the shape.
bool within_bounds(const CourseAgreement& found) {
  return found.level >= 0.5 && found.level <= 2.0 && found.shape <= 0.25;
}

TEST(PublishedCourses, OrgansGrowAsInTrials) {
  const std::set<std::string> known_to_miss{
      "Citra 2006 tomato",           "Bradenton 1991 tomato", "Quincy autumn 1995 tomato",
      "Bradenton 1996 sweet-pepper", "Citra 2002 sweet-corn", "Carrington 2014 beet",
      "San Ramon 2013 potato",       "Benton 2003 potato",    "Cordoba 1987 broad-bean"};
  for (const TrialCourse& course : trial_courses()) {
    const CourseAgreement found = agreement_with(course);
    std::cout << course.name << ": level " << found.level << ", shape within " << found.shape << "\n";
    EXPECT_EQ(within_bounds(found), known_to_miss.count(course.name) == 0) << course.name;
  }
}

}  // namespace
}  // namespace sowtide::stand
