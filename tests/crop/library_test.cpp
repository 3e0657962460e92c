// The crop files: that the built-in library reads, and that a wrong file is told by line.
#include <gtest/gtest.h>

#include "base/file.hpp"
#include "crop/crop.hpp"

namespace sowtide::crop {
namespace {

TEST(CropLibrary, BuiltInLibraryReads) {
  const CropLibrary& library = built_in_library();
  ASSERT_TRUE(library.crops.contains("beet"));
  const auto beet = library.find("beet");
  ASSERT_TRUE(beet.has_value());
  EXPECT_EQ((*beet)->family, "Amaranthaceae");
  EXPECT_GT(library.sources.size(), 5U);
}

TEST(CropLibrary, UnknownCropNamesTheNearest) {
  const auto found = built_in_library().find("beat");
  ASSERT_FALSE(found.has_value());
  EXPECT_EQ(found.error().code, base::ProblemCode::not_found);
  EXPECT_NE(found.error().remedy.find("beet"), std::string::npos);
}

}  // namespace
}  // namespace sowtide::crop
