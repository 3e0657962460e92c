// The codes are read back by ZBar (https://zbar.sourceforge.net), a reader that has nothing to do with how
// they are made.
#include <gtest/gtest.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <string>

#include "desk/qr.hpp"

namespace sowtide::desk {
namespace {

/// A grey picture of a square of modules, light unless set.
class Picture {
 public:
  explicit Picture(std::size_t side) : side_(side), dark_(side * side) {}
  void set(std::size_t row, std::size_t column) { dark_.at(row * side_ + column) = true; }

  /// Binary PGM, several pixels a module.
  [[nodiscard]] std::string pgm() const {
    constexpr std::size_t kScale = 6;
    const std::string width = std::to_string(side_ * kScale);
    std::string text = "P5\n" + width + " " + width + "\n255\n";
    for (std::size_t y = 0; y < side_ * kScale; ++y) {
      for (std::size_t x = 0; x < side_ * kScale; ++x)
        text += dark_[y / kScale * side_ + x / kScale] ? '\0' : '\xff';
    }
    return text;
  }

 private:
  std::size_t side_;
  std::vector<bool> dark_;
};

std::string read_back(const Picture& picture) {
  const std::string file =
      (std::filesystem::temp_directory_path() / ("sowtide-qr-" + std::to_string(::getpid()) + ".pgm"))
          .string();
  std::ofstream(file, std::ios::binary) << picture.pgm();
  std::string text;
  const std::string command = "zbarimg --raw -q -Sdisable -Sqrcode.enable " + file + " 2>/dev/null";
  if (FILE* pipe = ::popen(command.c_str(), "r")) {
    std::array<char, 256> buffer{};
    while (std::fgets(buffer.data(), buffer.size(), pipe) != nullptr) text += buffer.data();
    ::pclose(pipe);
  }
  std::filesystem::remove(file);
  if (!text.empty() && text.back() == '\n') text.pop_back();
  return text;
}

/// What the path of an SVG covers.
Picture drawn_svg(const std::string& svg) {
  std::smatch side;
  EXPECT_TRUE(std::regex_search(svg, side, std::regex("viewBox=\"0 0 ([0-9]+) ")));
  Picture picture(std::stoul(side[1]));
  const std::regex run("M([0-9]+) ([0-9]+)h([0-9]+)v1h");
  for (std::sregex_iterator it(svg.begin(), svg.end(), run), end; it != end; ++it) {
    for (std::size_t i = 0; i < std::stoul((*it)[3]); ++i)
      picture.set(std::stoul((*it)[2]), std::stoul((*it)[1]) + i);
  }
  return picture;
}

/// What a dark terminal shows: blocks are light.
Picture drawn_text(const std::string& text, std::size_t side) {
  Picture picture(side);
  std::size_t row = 0;
  std::size_t column = 0;
  for (std::size_t i = 0; i < text.size();) {
    const std::string sign = text.substr(i, text[i] == '\n' || text[i] == ' ' ? 1 : 3);
    i += sign.size();
    if (sign == "\n") {
      row += 2;
      column = 0;
      continue;
    }
    if (sign != "█" && sign != "▀") picture.set(row, column);
    if (sign != "█" && sign != "▄" && row + 1 < side) picture.set(row + 1, column);
    ++column;
  }
  return picture;
}

class QrReading : public ::testing::TestWithParam<const char*> {};

TEST_P(QrReading, GivesTheTextBackFromPictureAndTerminal) {
  if (std::system("command -v zbarimg >/dev/null 2>&1") != 0) GTEST_SKIP() << "zbarimg is not installed";
  const std::string text = GetParam();
  const auto code = qr_code(text);
  ASSERT_TRUE(code);
  EXPECT_EQ(read_back(drawn_svg(qr_svg(*code, "a title"))), text);
  EXPECT_EQ(read_back(drawn_text(qr_text(*code), code->size + 2 * kQrQuietModules)), text);
}

INSTANTIATE_TEST_SUITE_P(Links, QrReading,
                         ::testing::Values("http://127.0.0.1:8080/#/stand/s1",
                                           "http://192.168.178.20:8437/#/pair/K7QM2XTR",
                                           "lower and UPPER, 0-9 & <signs>", "a"));

}  // namespace
}  // namespace sowtide::desk
