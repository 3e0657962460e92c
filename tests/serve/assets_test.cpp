#include "serve/assets.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <filesystem>

#include "base/file.hpp"
#include "serve/http_client.hpp"

namespace sowtide::serve {
namespace {

namespace fs = std::filesystem;

class Directory {
 public:
  Directory() : path_(fs::temp_directory_path() / ("sowtide-assets-" + std::to_string(::getpid()))) {
    fs::remove_all(path_);
    fs::create_directories(path_ / "assets");
  }
  ~Directory() { fs::remove_all(path_); }
  Directory(const Directory&) = delete;
  Directory& operator=(const Directory&) = delete;
  void write(const std::string& name, const std::string& bytes) const {
    ASSERT_TRUE(base::write_file((path_ / name).string(), bytes));
  }
  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  fs::path path_;
};

RC_GTEST_PROP(Gzip, UnpacksToWhatWasPacked, (const std::string& bytes)) {
  RC_ASSERT(test::gunzip(gzip(bytes)) == bytes);
}

TEST(Asset, IsPackedOnlyWhenThatPays) {
  EXPECT_FALSE(make_asset("/a.css", std::string(5000, 'x')).gzip_bytes.empty());
  EXPECT_TRUE(make_asset("/a.css", "x").gzip_bytes.empty());
  EXPECT_TRUE(make_asset("/a.png", std::string(5000, 'x')).gzip_bytes.empty());
}

TEST(Asset, OfHashedNameMayBeKeptForEver) {
  EXPECT_TRUE(make_asset("/assets/index-1.js", "1").immutable);
  EXPECT_FALSE(make_asset("/index.html", "1").immutable);
}

TEST(Asset, TagChangesWithAnyByte) {
  EXPECT_NE(entity_tag("abc"), entity_tag("abd"));
  EXPECT_NE(entity_tag(""), entity_tag(std::string(1, '\0')));
  EXPECT_EQ(entity_tag("abc"), entity_tag("abc"));
}

// FNV-1a test vectors: http://www.isthe.com/chongo/tech/comp/fnv/ (64 bits: "" and "a", "foobar").
TEST(Asset, TagHashesAsPublished) {
  EXPECT_EQ(entity_tag(""), "\"0-cbf29ce484222325\"");
  EXPECT_EQ(entity_tag("a"), "\"1-af63dc4c8601ec8c\"");
  EXPECT_EQ(entity_tag("foobar"), "\"6-85944171f73967e8\"");
}

TEST(ReadAssets, FindsEveryFileBelowTheDirectory) {
  const Directory web;
  web.write("index.html", "<!doctype html>");
  web.write("assets/index-1.js", "export {}");
  const auto assets = read_assets(web.path());
  ASSERT_TRUE(assets);
  ASSERT_EQ(assets->size(), 2U);
  EXPECT_EQ((*assets)[0].path, "/assets/index-1.js");
  EXPECT_EQ((*assets)[0].content_type, "text/javascript; charset=utf-8");
  EXPECT_EQ((*assets)[1].content_type, "text/html; charset=utf-8");
}

TEST(ReadAssets, RefusesADirectoryWithoutAPage) {
  const Directory web;
  web.write("other.html", "x");
  for (const std::string& path : {web.path(), web.path() + "/nowhere"}) {
    const auto assets = read_assets(path);
    ASSERT_FALSE(assets);
    EXPECT_EQ(assets.error().code, base::ProblemCode::file_missing);
    EXPECT_FALSE(assets.error().remedy.empty());
  }
}

TEST(ReadAssets, FollowsNoLinkOutOfTheDirectory) {
  const Directory web;
  web.write("index.html", "x");
  fs::create_symlink("/etc/passwd", fs::path(web.path()) / "passwd");
  const auto assets = read_assets(web.path());
  ASSERT_TRUE(assets);
  EXPECT_EQ(assets->size(), 1U);
}

}  // namespace
}  // namespace sowtide::serve
