#include "crop/organ_size.hpp"

#include <gtest/gtest.h>

namespace sowtide::crop {
namespace {

TEST(OrganSize, NamesWhatIsMissing) {
  EXPECT_FALSE(weight_from_diameter(**built_in_library().find("beet"), -5.0));
  EXPECT_FALSE(weight_from_diameter(**built_in_library().find("lettuce"), 50.0));
  Crop carrot = **built_in_library().find("carrot");
  carrot.harvest.length_per_diameter.reset();
  EXPECT_EQ(weight_from_diameter(carrot, 30.0).error().where.field, "length_mm");
  EXPECT_FALSE(diameter_from_weight(carrot, 30.0));
}

TEST(OrganSize, ARoundRootIsAsLongAsItIsThick) {
  EXPECT_EQ(usual_length_mm(**built_in_library().find("beet"), 60.0), 60.0);
  Crop carrot = **built_in_library().find("carrot");
  EXPECT_GT(usual_length_mm(carrot, 30.0), 60.0);
  carrot.harvest.length_per_diameter.reset();
  EXPECT_FALSE(usual_length_mm(carrot, 30.0));
}

TEST(OrganSize, DiameterAndWeightUndoEachOther) {
  const Crop& beet = **built_in_library().find("beet");
  for (const double diameter : {10.0, 41.0, 64.0, 120.0}) {
    EXPECT_NEAR(*diameter_from_weight(beet, *weight_from_diameter(beet, diameter)), diameter, 1e-9);
  }
  const Crop& carrot = **built_in_library().find("carrot");
  EXPECT_NEAR(*diameter_from_weight(carrot, *weight_from_diameter(carrot, 30.0, 150.0), 150.0), 30.0, 1e-9);
  EXPECT_NEAR(*diameter_from_weight(carrot, *weight_from_diameter(carrot, 30.0)), 30.0, 1e-9);
  // USDA SR 26: a medium carrot weighs 61 g; grade 1 is 19 to 38 mm across.
  EXPECT_NEAR(*diameter_from_weight(carrot, 61.0), 38.0, 0.5);
}

}  // namespace
}  // namespace sowtide::crop
