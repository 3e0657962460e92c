#include "serve/pairing.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

namespace sowtide::serve {
namespace {

using namespace std::chrono_literals;
using Kind = PairingOutcome::Kind;

class PairingTest : public ::testing::Test {
 protected:
  void SetUp() override { remove(); }
  void TearDown() override { remove(); }
  void remove() const { std::filesystem::remove(file); }

  Pairing open() {
    auto pairing = Pairing::open(file, [this] { return now; });
    EXPECT_TRUE(pairing);
    return std::move(*pairing);
  }
  PairingOutcome attempt(Pairing& pairing, const std::string& code) {
    const auto outcome = pairing.pair(code, "Ada's phone", day);
    EXPECT_TRUE(outcome);
    return *outcome;
  }

  std::string file =
      (std::filesystem::temp_directory_path() / ("sowtide-pairing-" + std::to_string(::getpid()))).string();
  std::chrono::steady_clock::time_point now{std::chrono::hours(1)};
  base::Date day = base::date_of(2027, 4, 20);
};

TEST_F(PairingTest, ACodePairsOneDeviceOnce) {
  Pairing pairing = open();
  const std::string code = pairing.new_code();
  const auto paired = attempt(pairing, code);
  ASSERT_EQ(paired.kind, Kind::paired);
  EXPECT_TRUE(pairing.knows(paired.token));
  EXPECT_EQ(attempt(pairing, code).kind, Kind::wrong_code);
  ASSERT_EQ(pairing.devices().size(), 1U);
  EXPECT_EQ(pairing.devices()[0].name, "Ada's phone");
}

TEST_F(PairingTest, DashesBlanksAndCaseDoNotCount) {
  Pairing pairing = open();
  std::string typed = " ";
  for (const char c : pairing.new_code()) {
    if (c != '-') typed += {static_cast<char>(std::tolower(c)), ' '};
  }
  EXPECT_EQ(attempt(pairing, typed).kind, Kind::paired);
}

TEST_F(PairingTest, WithoutACodeNothingPairs) {
  Pairing pairing = open();
  EXPECT_EQ(attempt(pairing, "").kind, Kind::wrong_code);
  EXPECT_EQ(attempt(pairing, "--------").kind, Kind::wrong_code);
}

TEST_F(PairingTest, ACodeRunsOut) {
  Pairing pairing = open();
  const std::string code = pairing.new_code();
  now += kCodeLife;
  EXPECT_EQ(attempt(pairing, code).kind, Kind::wrong_code);
}

TEST_F(PairingTest, WrongAttemptsVoidTheCode) {
  Pairing pairing = open();
  const std::string code = pairing.new_code();
  for (int i = 0; i < kAttemptsPerCode; ++i) EXPECT_EQ(attempt(pairing, "AAAA-AAAA").kind, Kind::wrong_code);
  EXPECT_EQ(attempt(pairing, code).kind, Kind::wrong_code);
}

TEST_F(PairingTest, AttemptsArePutOffWhenTheyComeTooFast) {
  Pairing pairing = open();
  for (std::size_t i = 0; i < kAttemptsPerMinute; ++i) attempt(pairing, "AAAA-AAAA");
  const std::string code = pairing.new_code();
  EXPECT_EQ(attempt(pairing, code).kind, Kind::too_many);
  now += 61s;
  EXPECT_EQ(attempt(pairing, code).kind, Kind::paired);
}

TEST_F(PairingTest, OnlyTheWholeTokenIsKnown) {
  Pairing pairing = open();
  const std::string token = attempt(pairing, pairing.new_code()).token;
  EXPECT_EQ(token.size(), 64U);
  EXPECT_FALSE(pairing.knows(""));
  EXPECT_FALSE(pairing.knows(token.substr(1)));
  EXPECT_FALSE(pairing.knows(token + "0"));
  std::string other = token;
  other[0] = other[0] == '0' ? '1' : '0';
  EXPECT_FALSE(pairing.knows(other));
}

TEST_F(PairingTest, DevicesOutliveTheServerAndTheTokenIsNotInTheFile) {
  std::string token;
  {
    Pairing pairing = open();
    token = attempt(pairing, pairing.new_code()).token;
  }
  EXPECT_TRUE(open().knows(token));
  std::ifstream stream(file);
  std::stringstream text;
  text << stream.rdbuf();
  EXPECT_EQ(text.str().find(token), std::string::npos);
  struct stat state {};
  ASSERT_EQ(::stat(file.c_str(), &state), 0);
  EXPECT_EQ(state.st_mode & 0777U, 0600U);
}

TEST_F(PairingTest, AForgottenDeviceIsNotKnown) {
  Pairing pairing = open();
  const auto first = attempt(pairing, pairing.new_code());
  const auto second = attempt(pairing, pairing.new_code());
  ASSERT_TRUE(pairing.forget(first.device));
  EXPECT_FALSE(pairing.knows(first.token));
  EXPECT_TRUE(pairing.knows(second.token));
  EXPECT_EQ(pairing.forget(first.device).error().code, base::ProblemCode::not_found);
  EXPECT_FALSE(open().knows(first.token));
}

TEST_F(PairingTest, ANewDeviceTakesThePlaceOfTheOldestOnlyOnceThatIsWritten) {
  const std::filesystem::path directory = file + ".d";
  std::filesystem::create_directory(directory);
  auto pairing = Pairing::open((directory / "devices").string(), [this] { return now; });
  ASSERT_TRUE(pairing);
  const auto next = [&] {
    now += 7s;  // no more attempts a minute than are let through
    return pairing->pair(pairing->new_code(), "a phone", day);
  };
  const auto oldest = next();
  for (int i = 1; i < 100; ++i) ASSERT_TRUE(next());
  std::filesystem::remove_all(directory);
  EXPECT_FALSE(next()) << "there is no place to write to";
  EXPECT_EQ(pairing->devices().size(), 100U);
  EXPECT_TRUE(pairing->knows(oldest->token));
  EXPECT_FALSE(pairing->forget(oldest->device));
  EXPECT_EQ(pairing->devices().front().id, oldest->device);
  std::filesystem::create_directory(directory);
  ASSERT_TRUE(next());
  EXPECT_EQ(pairing->devices().size(), 100U);
  EXPECT_FALSE(pairing->knows(oldest->token));
  std::filesystem::remove_all(directory);
}

TEST_F(PairingTest, ALongNameIsCutBetweenCharacters) {
  Pairing pairing = open();
  ASSERT_TRUE(pairing.pair(pairing.new_code(), std::string(59, 'a') + "\u00fc", day));
  EXPECT_EQ(pairing.devices()[0].name, std::string(59, 'a'));
}

TEST_F(PairingTest, CodesDifferAndUseNoLettersThatLookAlike) {
  Pairing pairing = open();
  std::set<std::string> codes;
  for (int i = 0; i < 200; ++i) {
    const std::string code = pairing.new_code();
    EXPECT_EQ(code.size(), 9U);
    EXPECT_EQ(code.find_first_of("01ILO"), std::string::npos) << code;
    codes.insert(code);
  }
  EXPECT_EQ(codes.size(), 200U);
}

TEST_F(PairingTest, RefusesAFileThatItDidNotWrite) {
  for (const char* text : {"{", "[]", R"({"devices":[1]})", R"({"devices":[{"id":"a"}]})",
                           R"({"devices":[{"id":"a","name":"b","paired_on":"soon","token_sha256":"c"}]})"}) {
    std::ofstream(file) << text;
    const auto opened = Pairing::open(file);
    ASSERT_FALSE(opened) << text;
    EXPECT_EQ(opened.error().code, base::ProblemCode::syntax) << text;
  }
}

TEST(CookieValue, FindsOneByItsWholeName) {
  EXPECT_EQ(cookie_value("a=1; sowtide_session=xy; b=2", "sowtide_session"), "xy");
  EXPECT_EQ(cookie_value("sowtide_session=", "sowtide_session"), "");
  EXPECT_EQ(cookie_value("not_sowtide_session=xy", "sowtide_session"), std::nullopt);
  EXPECT_EQ(cookie_value("sowtide_session", "sowtide_session"), std::nullopt);
  EXPECT_EQ(cookie_value("", "sowtide_session"), std::nullopt);
}

}  // namespace
}  // namespace sowtide::serve
