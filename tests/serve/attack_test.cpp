// What a hostile page, a rough client or a broken network may send. None may reach a handler, crash the
// server or make it hold much memory; afterwards it must still answer.

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <fstream>
#include <thread>

#include "serve/http_client.hpp"
#include "serve/http_server.hpp"

namespace sowtide::serve {
namespace {

using namespace std::chrono_literals;
using test::Answer;
using test::Client;
using test::get;
using test::Headers;
using test::post_json;
using test::request;

class Attack : public ::testing::Test {
 protected:
  void SetUp() override {
    server = std::make_unique<HttpServer>(HttpOptions{.body_limit_bytes = 64U << 10U, .timeout = 2s});
    const auto reached = [this](const Request& r) {
      ++handled;
      return Response{.body = r.body, .headers = {}};
    };
    server->route("GET", "/api/garden", reached);
    server->route("POST", "/api/events", reached);
    server->event_stream("/api/changes", [] { return std::pair<std::string, std::string>{"revision", "1"}; });
    server->assets({make_asset("/index.html", "page")});
    ASSERT_TRUE(server->start());
    port = server->port();
    host = "Host: 127.0.0.1:" + std::to_string(port) + "\r\n";
  }

  void TearDown() override {
    EXPECT_EQ(get(port, "/").status, 200) << "the server no longer answers";
    server->stop();
  }

  Answer raw(const std::string& bytes) const {
    Client client(port);
    client.send(bytes);
    client.finish();
    return client.read_answer();
  }

  /// Refused with that status, and no handler saw it.
  void expect_refused(const Answer& answer, int status, const std::string& what) {
    EXPECT_EQ(answer.status, status) << what;
    EXPECT_EQ(handled, 0) << what;
  }

  std::unique_ptr<HttpServer> server;
  std::uint16_t port = 0;
  std::string host;
  std::atomic<int> handled{0};
};

TEST_F(Attack, LengthAndChunksTogetherAreRefused) {
  const std::string json = "Content-Type: application/json\r\n";
  expect_refused(raw("POST /api/events HTTP/1.1\r\n" + host + json +
                     "Content-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n"),
                 400, "both");
  expect_refused(
      raw("POST /api/events HTTP/1.1\r\n" + host + json + "Content-Length: 2\r\nContent-Length: 7\r\n\r\n[]"),
      400, "two lengths");
  expect_refused(raw("POST /api/events HTTP/1.1\r\n" + host + json +
                     "Transfer-Encoding: gzip, chunked\r\n\r\n0\r\n\r\n"),
                 400, "another coding");
  expect_refused(raw("POST /api/events HTTP/1.1\r\n" + host + json +
                     "Transfer-Encoding: chunked\r\nTransfer-Encoding: identity\r\n\r\n0\r\n\r\n"),
                 400, "two codings");
}

TEST_F(Attack, ARefusedBodyIsNeverTakenForARequest) {
  const std::string inner = "GET /api/garden HTTP/1.1\r\n" + host + "\r\n";
  Client client(port);
  client.send("POST /api/events HTTP/1.1\r\n" + host + "Content-Type: text/plain\r\nContent-Length: " +
              std::to_string(inner.size()) + "\r\n\r\n" + inner);
  EXPECT_EQ(client.read_answer().status, 415);
  EXPECT_EQ(client.read_answer().status, 0) << "a second answer came";
  EXPECT_EQ(handled, 0);
}

TEST_F(Attack, ALengthThatIsNoNumberIsRefused) {
  for (const std::string length : {"-1", "1e3", "0x10", "99999999999999999999999", "5, 5", "", "+5"}) {
    const Answer answer = raw("POST /api/events HTTP/1.1\r\n" + host +
                              "Content-Type: application/json\r\nContent-Length: " + length + "\r\n\r\n[]");
    EXPECT_TRUE(answer.status == 0 || (answer.status >= 400 && answer.status < 500))
        << length << " " << answer.status;
    EXPECT_EQ(handled, 0) << length;
  }
}

TEST_F(Attack, ARequestWithoutExactlyOneHostIsRefused) {
  expect_refused(raw("GET /api/garden HTTP/1.1\r\n\r\n"), 400, "none");
  expect_refused(raw("GET /api/garden HTTP/1.0\r\n\r\n"), 400, "none, HTTP/1.0");
  expect_refused(raw("GET /api/garden HTTP/1.1\r\n" + host + host + "\r\n"), 400, "two");
}

TEST_F(Attack, AHostThatIsNotOursIsRefused) {
  // A name of the attacker's that was made to point to this machine, the right address with another port, and
  // near misses.
  const std::string p = std::to_string(port);
  for (const std::string& name : std::vector<std::string>{
           "evil.example", "evil.example:" + p, "127.0.0.1", "127.0.0.1:1", "localhost.evil.example:" + p,
           "127.0.0.1:" + p + ".evil.example", "0.0.0.0:" + p, "user@127.0.0.1:" + p, "127.1:" + p}) {
    expect_refused(raw("GET /api/garden HTTP/1.1\r\nHost: " + name + "\r\n\r\n"), 421, name);
    expect_refused(raw("GET / HTTP/1.1\r\nHost: " + name + "\r\n\r\n"), 421, name);
    expect_refused(raw("GET /api/changes HTTP/1.1\r\nHost: " + name + "\r\n\r\n"), 421, name);
  }
  EXPECT_EQ(raw("GET /api/garden HTTP/1.1\r\nHost: LocalHost:" + p + "\r\n\r\n").status, 200);
}

TEST_F(Attack, AnotherSiteCanNeitherWriteNorRead) {
  const Headers json{{"Content-Type", "application/json"}};
  const auto with = [](Headers headers, const std::string& name, const std::string& value) {
    headers.emplace_back(name, value);
    return headers;
  };
  for (const std::string& origin : std::vector<std::string>{
           "http://evil.example", "null", "https://127.0.0.1:" + std::to_string(port),
           std::string("http://127.0.0.1:1"), std::string("http://localhost.evil.example")}) {
    expect_refused(request(port, "POST", "/api/events", with(json, "Origin", origin), "[]"), 403, origin);
    expect_refused(get(port, "/api/garden", {{"Origin", origin}}), 403, origin);
  }
  for (const std::string site : {"cross-site", "same-site"}) {
    expect_refused(request(port, "POST", "/api/events", with(json, "Sec-Fetch-Site", site), "[]"), 403, site);
    expect_refused(get(port, "/api/garden", {{"Sec-Fetch-Site", site}, {"Sec-Fetch-Mode", "no-cors"}}), 403,
                   site);
    expect_refused(get(port, "/api/changes", {{"Sec-Fetch-Site", site}, {"Sec-Fetch-Mode", "cors"}}), 403,
                   site);
    expect_refused(
        get(port, "/api/garden",
            {{"Sec-Fetch-Site", site}, {"Sec-Fetch-Mode", "navigate"}, {"Sec-Fetch-Dest", "document"}}),
        403, site);
    expect_refused(
        get(port, "/",
            {{"Sec-Fetch-Site", site}, {"Sec-Fetch-Mode", "navigate"}, {"Sec-Fetch-Dest", "iframe"}}),
        403, site);
  }
}

TEST_F(Attack, ALinkFromElsewhereMayOpenThePage) {
  EXPECT_EQ(
      get(port, "/",
          {{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Mode", "navigate"}, {"Sec-Fetch-Dest", "document"}})
          .status,
      200);
  EXPECT_EQ(get(port, "/",
                {{"Sec-Fetch-Site", "none"}, {"Sec-Fetch-Mode", "navigate"}, {"Sec-Fetch-Dest", "document"}})
                .status,
            200);
}

TEST_F(Attack, AFormCannotPost) {
  for (const std::string type :
       {"application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain", ""}) {
    expect_refused(request(port, "POST", "/api/events", {{"Content-Type", type}}, "[]"), 415, type);
  }
  expect_refused(request(port, "POST", "/api/events", {}, "[]"), 415, "no type");
}

TEST_F(Attack, ACompressedBodyIsNotUnpacked) {
  expect_refused(
      post_json(port, "/api/events", gzip(std::string(1U << 20U, '[')), {{"Content-Encoding", "gzip"}}), 415,
      "gzip");
}

TEST_F(Attack, ALongBodyIsRefusedByItsLengthAlone) {
  Client client(port);
  client.send("POST /api/events HTTP/1.1\r\n" + host +
              "Content-Type: application/json\r\nContent-Length: 104857600\r\n\r\n");
  EXPECT_EQ(client.read_answer().status, 413);
  EXPECT_EQ(handled, 0);
}

long resident_kb() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (line.rfind("VmRSS:", 0) == 0) return std::stol(line.substr(6));
  }
  return 0;
}

TEST_F(Attack, AnEndlessChunkedBodyIsCutOffWithoutBeingKept) {
  const long before_kb = resident_kb();
  Client client(port);
  client.send("POST /api/events HTTP/1.1\r\n" + host +
              "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n");
  const std::string chunk = "10000\r\n" + std::string(0x10000, 'x') + "\r\n";
  for (int i = 0; i < 400; ++i) client.send(chunk);  // 25 MiB against a limit of 64 KiB
  EXPECT_EQ(handled, 0);
  EXPECT_LT(resident_kb() - before_kb, 8 * 1024);
}

TEST_F(Attack, BrokenChunksReachNoHandler) {
  const std::string head = "POST /api/events HTTP/1.1\r\n" + host +
                           "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n";
  for (const std::string body : {"zz\r\n{}\r\n0\r\n\r\n", "-1\r\n{}\r\n0\r\n\r\n", "2\r\n{}XX0\r\n\r\n",
                                 "fffffffffffffffff\r\n{}\r\n0\r\n\r\n", "2\r\n{", "2\r\n{}\r\n"}) {
    const Answer answer = raw(head + body);
    EXPECT_TRUE(answer.status == 0 || answer.status == 400 || answer.status == 413) << body << answer.status;
    EXPECT_EQ(handled, 0) << body;
  }
}

TEST_F(Attack, NoHeaderCanBeMadeByWhatIsAsked) {
  for (const std::string target : {"/api/garden?x=%0d%0aSet-Cookie:a", "/api/garden?%0aX=1",
                                   "/api/garden?x=%00", "/%0d%0aSet-Cookie:%20a", "/api/garden?x=%zz"}) {
    const Answer answer = raw("GET " + target + " HTTP/1.1\r\n" + host + "\r\n");
    expect_refused(answer, 400, target);
    EXPECT_EQ(answer.headers.count("set-cookie"), 0U) << target;
  }
}

TEST_F(Attack, ABodyJustOverTheLimitIsToldSo) {
  Client client(port);
  client.send("POST /api/events HTTP/1.1\r\n" + host +
              "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n10001\r\n" +
              std::string(0x10001, 'x') + "\r\n0\r\n\r\n");
  EXPECT_EQ(client.read_answer().status, 413);
  EXPECT_EQ(handled, 0);
}

TEST_F(Attack, EndlessHeadersAreCutOff) {
  const long before_kb = resident_kb();
  Client client(port);
  client.send("GET /api/garden HTTP/1.1\r\n" + host);
  const std::string header = "X-Long: " + std::string(1000, 'x') + "\r\n";
  for (int i = 0; i < 14'000; ++i) client.send(header);
  const Answer answer = client.read_answer();
  EXPECT_TRUE(answer.status == 0 || answer.status == 431 || answer.status == 413) << answer.status;
  EXPECT_EQ(handled, 0);
  EXPECT_LT(resident_kb() - before_kb, 8 * 1024);
}

TEST_F(Attack, ALongTargetIsRefused) {
  const Answer answer = raw("GET /" + std::string(100'000, 'a') + " HTTP/1.1\r\n" + host + "\r\n");
  EXPECT_TRUE(answer.status == 0 || answer.status == 414 || answer.status == 431) << answer.status;
}

TEST_F(Attack, ATargetThatLeavesTheTreeIsRefused) {
  for (const std::string target :
       {"/../etc/passwd", "/assets/../../etc/passwd", "/%2e%2e/etc/passwd", "/..%2fetc/passwd", "/a%00b",
        "/a%0d%0aX-Injected:%201", "//..//", "http://127.0.0.1/api/garden", "*", "/%zz"}) {
    const Answer answer = raw("GET " + target + " HTTP/1.1\r\n" + host + "\r\n");
    EXPECT_TRUE(answer.status == 400 || answer.status == 404) << target << " " << answer.status;
    EXPECT_EQ(answer.headers.count("x-injected"), 0U);
    EXPECT_EQ(handled, 0) << target;
  }
}

TEST_F(Attack, ManyWhoNeverFinishTheirHeadersHoldUpNobody) {
  std::vector<std::unique_ptr<Client>> stuck;
  for (int i = 0; i < 60; ++i) {
    stuck.push_back(std::make_unique<Client>(port));
    stuck.back()->send("GET /api/garden HTTP/1.1\r\nHos");
  }
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(get(port, "/api/garden").status, 200);
  EXPECT_LT(std::chrono::steady_clock::now() - start, 1s);
}

TEST_F(Attack, OneWhoFallsSilentIsCutOff) {
  Client client(port);
  client.send("GET /api/garden HTTP/1.1\r\nHos");
  EXPECT_TRUE(client.closed_by_server() || client.read_answer().status == 408);
}

TEST_F(Attack, RubbishIsRefused) {
  for (const std::string& bytes :
       {std::string("\0\0\0\0", 4), std::string("\x16\x03\x01\x02\x00\x01\x00\x01", 8),
        std::string("GET\r\n\r\n"), std::string("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"), std::string(300, '\n'),
        std::string("GET / HTTP/9.9\r\n") + host + "\r\n"}) {
    const Answer answer = raw(bytes);
    EXPECT_TRUE(answer.status == 0 || answer.status >= 400) << answer.status;
    EXPECT_EQ(handled, 0);
  }
}

TEST_F(Attack, ChangedBytesHarmNobody) {
  std::uint64_t state = 88172645463325252ULL;
  const auto next = [&state] {  // xorshift64 (Marsaglia 2003)
    state ^= state << 13U;
    state ^= state >> 7U;
    state ^= state << 17U;
    return state;
  };
  for (int round = 0; round < 500; ++round) {
    std::string bytes = "POST /api/events HTTP/1.1\r\n" + host +
                        "Content-Type: application/json\r\nContent-Length: 2\r\n\r\n[]";
    for (int change = 0; change < 3; ++change) bytes[next() % (bytes.size() - 2)] = static_cast<char>(next());
    Client client(port);
    client.send(bytes);
    client.finish();
  }
}

TEST_F(Attack, AnAbortedUploadLeavesNothingBehind) {
  for (int i = 0; i < 50; ++i) {
    Client client(port);
    client.send("POST /api/events HTTP/1.1\r\n" + host +
                "Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n[");
  }
  EXPECT_EQ(handled, 0);
}

TEST_F(Attack, OneWhoLeavesWhileBeingAnsweredHarmsNobody) {
  for (int i = 0; i < 100; ++i) {
    Client client(port);
    client.send("GET /api/garden HTTP/1.1\r\n" + host + "\r\n");
  }
  // While those are worked off the server may say that it is busy, but not for long.
  int status = get(port, "/api/garden").status;
  for (int i = 0; i < 200 && status == 503; ++i) {
    std::this_thread::sleep_for(10ms);
    status = get(port, "/api/garden").status;
  }
  EXPECT_EQ(status, 200);
}

TEST_F(Attack, OnlyThisMachineIsListenedOn) {
  // /proc/net/tcp lists listening sockets (state 0A) with their address in hexadecimal, low byte first.
  std::ifstream sockets("/proc/net/tcp");
  char wanted[16];
  std::snprintf(wanted, sizeof wanted, ":%04X", static_cast<unsigned>(port));
  int listening = 0;
  for (std::string line; std::getline(sockets, line);) {
    const auto at = line.find(wanted);
    if (at == std::string::npos || at > 16 || line.find(" 0A ") == std::string::npos) continue;
    ++listening;
    EXPECT_EQ(line.substr(at - 8, 8), "0100007F");
  }
  EXPECT_EQ(listening, 1);
}

}  // namespace
}  // namespace sowtide::serve
