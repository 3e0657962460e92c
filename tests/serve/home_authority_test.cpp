// What `make_certificate` makes is read by OpenSSL's tool and by Node in tests/e2e/certificate.test.mjs; here
// its answers and its reading back.

#include "serve/home_authority.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "base/file.hpp"
#include "serve/certificate.hpp"
#include "serve/http_client.hpp"
#include "serve/http_server.hpp"

namespace sowtide::serve {
namespace {

using base::ProblemCode;
using namespace std::chrono_literals;
using Clock = std::chrono::system_clock;

const Clock::time_point kNow = base::date_of(2027, 4, 20) + 12h;

class HomeAuthority : public ::testing::Test {
 protected:
  void SetUp() override { std::filesystem::remove_all(directory); }
  void TearDown() override { std::filesystem::remove_all(directory); }

  [[nodiscard]] MadeCertificate make(std::vector<std::string> hosts = {"localhost", "127.0.0.1"},
                                     Clock::time_point now = kNow) const {
    auto made = make_certificate({directory, std::move(hosts), now});
    EXPECT_TRUE(made) << base::to_text(made.error());
    return made ? *made : MadeCertificate{};
  }

  std::string directory =
      (std::filesystem::temp_directory_path() / ("sowtide-authority-" + std::to_string(::getpid()))).string();
};

TEST_F(HomeAuthority, MakesWhatTheServerReads) {
  const auto made = make({"LocalHost", "127.0.0.1", "garden.local", "192.168.1.20", "garden.LOCAL"});
  EXPECT_TRUE(made.new_authority);
  const std::vector<std::string> hosts{"localhost", "127.0.0.1", "garden.local", "192.168.1.20"};
  EXPECT_EQ(made.hosts, hosts);
  const auto read = read_server_certificate(made.certificate_file, made.key_file, kNow);
  ASSERT_TRUE(read) << base::to_text(read.error());
  EXPECT_EQ(read->names, hosts);
  EXPECT_TRUE(read->has("192.168.1.20"));
  EXPECT_FALSE(read->has("192.168.1.2"));
  EXPECT_EQ(read->last_day, made.certificate_last_day);
}

TEST_F(HomeAuthority, EndsWhenItSaysAndBeginsADayEarly) {
  const auto made = make();
  // From noon on 19 April, 397 days: until noon on 20 May 2028.
  EXPECT_EQ(made.certificate_last_day, base::date_of(2028, 5, 19));
  EXPECT_EQ(made.authority_last_day, base::date_of(2037, 4, 15));
  const auto on = [&](Clock::time_point now) {
    const auto read = read_server_certificate(made.certificate_file, made.key_file, now);
    return read ? std::string("good") : base::to_text(read.error());
  };
  EXPECT_EQ(on(kNow - 24h), "good");
  EXPECT_NE(on(kNow - 24h - 1s).find("good only from 2027-04-19 on"), std::string::npos);
  EXPECT_EQ(on(base::date_of(2028, 5, 20) + 11h), "good");
  EXPECT_NE(on(base::date_of(2028, 5, 20) + 12h).find("ran out on 2028-05-20"), std::string::npos);
}

TEST_F(HomeAuthority, SignsAgainUntilItRunsOutAndNeverBeyond) {
  const auto first = make();
  const auto later = make({"localhost"}, kNow + std::chrono::days(3400));
  EXPECT_FALSE(later.new_authority);
  EXPECT_EQ(later.authority_sha256, first.authority_sha256);
  EXPECT_EQ(later.certificate_last_day, first.authority_last_day);
  const auto too_late = make_certificate({directory, {"localhost"}, kNow + kAuthorityLife});
  ASSERT_FALSE(too_late);
  EXPECT_EQ(too_late.error().code, ProblemCode::out_of_range);
}

TEST_F(HomeAuthority, RefusesHostsOfTheInternet) {
  for (const char* host :
       {"bank.example", "local", "8.8.8.8", "172.32.0.1", "fd00::1", "*.local", "", "a_b.local"}) {
    const auto made = make_certificate({directory, {"localhost", host}, kNow});
    ASSERT_FALSE(made) << host;
    EXPECT_EQ(made.error().code, ProblemCode::out_of_range) << host;
    EXPECT_EQ(made.error().where.field, "--host");
  }
  EXPECT_FALSE(std::filesystem::exists(directory));
}

TEST_F(HomeAuthority, KnowsThisMachine) {
  const auto hosts = own_hosts();
  ASSERT_GE(hosts.size(), 2U);
  EXPECT_EQ(hosts[0], "localhost");
  EXPECT_EQ(hosts[1], "127.0.0.1");
  EXPECT_TRUE(make_certificate({directory, hosts, kNow}));
}

TEST_F(HomeAuthority, FilesThatDoNotBelongTogetherAreRefused) {
  const auto made = make();
  const auto code = [](const std::string& certificate, const std::string& key) {
    const auto read = read_server_certificate(certificate, key, kNow);
    return read ? ProblemCode::internal : read.error().code;
  };
  EXPECT_EQ(code("/nonexistent.pem", made.key_file), ProblemCode::file_missing);
  EXPECT_EQ(code(directory, made.key_file), ProblemCode::file_unreadable);
  EXPECT_EQ(code(made.key_file, made.key_file), ProblemCode::syntax);
  EXPECT_EQ(code(made.certificate_file, made.certificate_file), ProblemCode::syntax);
  EXPECT_EQ(code(made.certificate_file, made.authority_key_file), ProblemCode::contradiction);
  EXPECT_EQ(code(made.authority_file, made.authority_key_file), ProblemCode::contradiction);
}

TEST_F(HomeAuthority, CutFilesNeverPass) {
  const auto made = make();
  const auto whole = base::read_file(made.certificate_file);
  ASSERT_TRUE(whole);
  const std::string cut = directory + "/cut.pem";
  for (std::size_t length = 0; length + 30 < whole->size(); length += 7) {
    std::ofstream(cut, std::ios::trunc) << whole->substr(0, length);
    EXPECT_FALSE(read_server_certificate(cut, made.key_file, kNow)) << length;
  }
}

TEST_F(HomeAuthority, AServerOfItCallsItselfEncryptedAndClosesOnSilence) {
  const auto made = make({"localhost", "127.0.0.1"}, Clock::now());
  auto certificate = read_server_certificate(made.certificate_file, made.key_file, Clock::now());
  ASSERT_TRUE(certificate) << base::to_text(certificate.error());
  HttpServer server({.certificate = *certificate, .timeout = 1s});
  const auto started = server.start();
  ASSERT_TRUE(started) << base::to_text(started.error());
  EXPECT_TRUE(server.encrypted());
  EXPECT_EQ(server.url("garden.local"), "https://garden.local:" + std::to_string(server.port()));
  test::Client silent(server.port());
  const auto began = std::chrono::steady_clock::now();
  EXPECT_EQ(silent.read_until("what never comes"), "");  // until the end, past the alert that TLS sends
  EXPECT_LT(std::chrono::steady_clock::now() - began, 5s);
  test::Client plain(server.port());
  plain.send("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n");
  EXPECT_EQ(plain.read_answer().status, 0);
}

}  // namespace
}  // namespace sowtide::serve
