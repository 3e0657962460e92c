// Files are read whole or not at all, and written whole or not at all.
#include "base/file.hpp"

#include <gtest/gtest.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <zlib.h>

#include <filesystem>
#include <stdexcept>
#include <string>

namespace sowtide::base {
namespace {

class FileTest : public ::testing::Test {
 protected:
  FileTest() {
    std::string form = (std::filesystem::temp_directory_path() / "sowtide-base-XXXXXX").string();
    if (mkdtemp(form.data()) == nullptr) throw std::runtime_error("no temporary directory");
    directory_ = form;
  }
  ~FileTest() override {
    std::error_code error;
    std::filesystem::remove_all(directory_, error);
  }
  FileTest(const FileTest&) = delete;
  FileTest& operator=(const FileTest&) = delete;
  [[nodiscard]] std::string file(const std::string& name) const { return (directory_ / name).string(); }
  [[nodiscard]] long count() const {
    return std::distance(std::filesystem::directory_iterator(directory_),
                         std::filesystem::directory_iterator());
  }
  static void pack(const std::string& path, const std::string& bytes) {
    gzFile packed = gzopen(path.c_str(), "wb");
    ASSERT_NE(packed, nullptr);
    ASSERT_EQ(gzwrite(packed, bytes.data(), static_cast<unsigned>(bytes.size())),
              static_cast<int>(bytes.size()));
    ASSERT_EQ(gzclose(packed), Z_OK);
  }

 private:
  std::filesystem::path directory_;
};

TEST_F(FileTest, GivesBackEveryByte) {
  std::string bytes;
  for (int i = 0; i < 300000; ++i) bytes += static_cast<char>(i * 7);
  ASSERT_TRUE(write_file(file("a"), bytes));
  EXPECT_EQ(read_file(file("a")).value(), bytes);
  ASSERT_TRUE(write_file(file("a"), ""));
  EXPECT_EQ(read_file(file("a")).value(), "");
  EXPECT_EQ(count(), 1) << "no temporary is left beside it";
}

TEST_F(FileTest, UnpacksGzip) {
  const std::string bytes(200000, 'x');
  pack(file("a.gz"), bytes);
  EXPECT_EQ(read_file(file("a.gz")).value(), bytes);
  EXPECT_EQ(read_file(file("a.gz"), 1000).error().code, ProblemCode::too_large)
      << "the limit is on what comes out";
}

TEST_F(FileTest, RefusesWhatIsNotWholeOrNotGzip) {
  pack(file("a.gz"), std::string(200000, 'x') + "and so on");
  const std::string packed = read_file(file("a.gz")).has_value() ? "" : "unreadable";
  ASSERT_EQ(packed, "");
  ASSERT_EQ(std::rename(file("a.gz").c_str(), file("a.bin").c_str()), 0);
  const std::string bytes = read_file(file("a.bin")).value();
  ASSERT_TRUE(write_file(file("cut.gz"), bytes.substr(0, bytes.size() - 12)));
  EXPECT_EQ(read_file(file("cut.gz")).error().code, ProblemCode::file_unreadable);
  ASSERT_TRUE(write_file(file("text.gz"), "just text"));
  EXPECT_EQ(read_file(file("text.gz")).error().code, ProblemCode::file_unreadable);
}

TEST_F(FileTest, SaysWhatIsWrong) {
  EXPECT_EQ(read_file(file("none")).error().code, ProblemCode::file_missing);
  EXPECT_EQ(read_file(file("")).error().code, ProblemCode::file_unreadable) << "a directory";
  ASSERT_TRUE(write_file(file("a"), "12345"));
  EXPECT_EQ(read_file(file("a"), 4).error().code, ProblemCode::too_large);
  EXPECT_TRUE(read_file(file("a"), 5));
  const auto written = write_file(file("no/such/directory"), "x");
  EXPECT_EQ(written.error().code, ProblemCode::file_unreadable);
  EXPECT_FALSE(written.error().remedy.empty());
}

TEST_F(FileTest, OfTheOwnerAloneWhateverWasThereBefore) {
  const auto mode = [this](const std::string& name) {
    struct stat facts {};
    EXPECT_EQ(::stat(file(name).c_str(), &facts), 0);
    return facts.st_mode & 0777U;
  };
  ASSERT_TRUE(write_file(file("key"), "old"));
  ASSERT_EQ(::chmod(file("key").c_str(), 0666), 0);
  ASSERT_TRUE(write_file(file("key"), "secret", Readers::owner));
  EXPECT_EQ(mode("key"), 0600U);
  EXPECT_EQ(read_file(file("key")).value(), "secret");
  ASSERT_TRUE(write_file(file("open"), "for all"));
  EXPECT_NE(mode("open"), 0600U);
}

TEST_F(FileTest, AFailedWriteLeavesTheOldFile) {
  std::filesystem::create_directory(file("taken"));
  EXPECT_FALSE(write_file(file("taken"), "x")) << "a directory is in the way";
  EXPECT_TRUE(std::filesystem::is_directory(file("taken")));
  EXPECT_EQ(count(), 1) << "no temporary is left beside it";
}

}  // namespace
}  // namespace sowtide::base
