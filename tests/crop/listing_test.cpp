// The list of figures and the page made from it.
#include "crop/listing.hpp"

#include <gtest/gtest.h>

#include <set>

#include "base/file.hpp"
#include "example_crop.hpp"

namespace sowtide::crop {
namespace {

TEST(ListedFigures, AreAsManyAsTheFileHas) {
  const std::string text = testing::example_text();
  std::size_t written = 0;
  for (std::size_t at = text.find("{ value ="); at != std::string::npos; at = text.find("{ value =", at + 1))
    ++written;
  const Crop crop = testing::example_crop();
  const auto listed = listed_figures(crop);
  EXPECT_EQ(listed.size(), written);
  std::set<std::string> names;
  for (const ListedFigure& one : listed) names.insert(std::string(one.section) + "." + std::string(one.name));
  EXPECT_EQ(names.size(), listed.size());
}

TEST(ListedFigures, EachOfTheLibraryHasASource) {
  for (const auto& [id, crop] : built_in_library().crops) {
    for (const ListedFigure& one : listed_figures(crop)) {
      EXPECT_FALSE(one.figure->source.empty()) << id << " " << one.section << "." << one.name;
    }
  }
}

TEST(LibraryPage, IsTheOneInTheDocs) {
  const auto kept = base::read_file(std::string(SOWTIDE_SOURCE_DIR) + "/docs/crops.md");
  ASSERT_TRUE(kept.has_value()) << base::to_text(kept.error());
  EXPECT_TRUE(*kept == library_page(built_in_library())) << "run scripts/make-crop-docs";
}

TEST(LibraryPage, HasATableForEveryCropAndEveryCitation) {
  const std::string page = library_page(built_in_library());
  for (const auto& [id, crop] : built_in_library().crops)
    EXPECT_NE(page.find("\n## " + crop.name + "\n"), std::string::npos);
  for (const auto& [key, citation] : built_in_library().sources)
    EXPECT_NE(page.find("**" + key + "**"), std::string::npos);
}

}  // namespace
}  // namespace sowtide::crop
