#include "serve/http_server.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <future>
#include <mutex>
#include <nlohmann/json.hpp>
#include <thread>

#include "serve/http_client.hpp"

namespace sowtide::serve {
namespace {

using namespace std::chrono_literals;
using test::Client;
using test::get;
using test::post_json;
using test::request;

/// A server with an echo, a long text, a slow and a failing handler, a stream and a page.
class Http : public ::testing::Test {
 protected:
  void SetUp() override { start({}); }

  void start(HttpOptions options) {
    server = std::make_unique<HttpServer>(options);
    server->route("GET", "/api/echo/{word}",
                  [](const Request& r) { return Response{.body = r.captured.at("word"), .headers = {}}; });
    server->route("GET", "/api/long",
                  [](const Request&) { return Response{.body = std::string(20'000, 'a'), .headers = {}}; });
    server->route("POST", "/api/echo", [this](const Request& r) {
      ++posts;
      return Response{.body = r.body, .headers = {}};
    });
    server->route("GET", "/api/slow", [this](const Request&) {
      gate.wait();
      return Response{.body = "done", .headers = {}};
    });
    server->route("GET", "/api/fails",
                  [](const Request&) -> Response { throw std::runtime_error("on purpose"); });
    server->event_stream("/api/changes", [] { return std::pair<std::string, std::string>{"revision", "7"}; });
    server->assets({make_asset("/index.html", "<!doctype html>" + std::string(4000, ' ')),
                    make_asset("/assets/index-1.js", std::string(4000, ';'))});
    const auto started = server->start();
    ASSERT_TRUE(started) << base::to_text(started.error());
    port = server->port();
  }

  void TearDown() override {
    if (!opened.exchange(true)) open_gate.set_value();
    server->stop();
  }

  std::promise<void> open_gate;
  std::shared_future<void> gate{open_gate.get_future()};
  std::atomic<bool> opened{false};
  std::atomic<int> posts{0};
  std::unique_ptr<HttpServer> server;
  std::uint16_t port = 0;
};

TEST_F(Http, AnswersARoute) {
  const auto answer = get(port, "/api/echo/beet");
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.body, "beet");
  EXPECT_EQ(answer.headers.at("content-type"), "application/json; charset=utf-8");
}

TEST(HttpGate, StandsBeforeEverythingThatAnswers) {
  HttpServer server({});
  std::atomic<bool> open{false};
  std::atomic<bool> from_here{false};
  server.route("GET", "/api/thing", [](const Request&) { return Response{.body = "thing", .headers = {}}; });
  server.event_stream("/api/changes", [] { return std::pair<std::string, std::string>{"revision", "1"}; });
  server.assets({make_asset("/index.html", "page")});
  server.gate([&](const Request& r) -> std::optional<Response> {
    from_here = r.from_this_machine;
    if (open) return std::nullopt;
    return Response{.status = 401, .body = "closed", .headers = {}};
  });
  ASSERT_TRUE(server.start());
  for (const char* path : {"/api/thing", "/api/changes", "/", "/nothing"})
    EXPECT_EQ(get(server.port(), path).status, 401) << path;
  EXPECT_TRUE(from_here);
  open = true;
  EXPECT_EQ(get(server.port(), "/api/thing").status, 200);
  EXPECT_EQ(get(server.port(), "/nothing").status, 404);
  server.stop();
}

TEST(HttpStreams, EndWhenTheyAreToldTo) {
  HttpServer server({});
  server.event_stream("/api/changes", [] { return std::pair<std::string, std::string>{"revision", "1"}; });
  ASSERT_TRUE(server.start());
  Client listener(server.port());
  listener.send("GET /api/changes HTTP/1.1\r\nHost: localhost:" + std::to_string(server.port()) + "\r\n\r\n");
  ASSERT_FALSE(listener.read_until("data: 1").empty());
  server.end_streams();
  EXPECT_TRUE(listener.closed_by_server() || !listener.read_until("\r\n0\r\n").empty());
  server.stop();
}

TEST_F(Http, DecodesACapturedPartOnce) {
  EXPECT_EQ(get(port, "/api/echo/a%2541").body, "a%41");
}

TEST_F(Http, KeepsAConnectionForSeveralRequests) {
  Client client(port);
  for (int i = 0; i < 3; ++i) {
    client.send("GET /api/echo/" + std::to_string(i) +
                " HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
    EXPECT_EQ(client.read_answer().body, std::to_string(i));
  }
}

TEST_F(Http, AnswersHeadWithoutABody) {
  const auto answer = request(port, "HEAD", "/api/echo/beet");
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.headers.at("content-length"), "4");
}

TEST_F(Http, SaysNotFoundAsAProblem) {
  const auto answer = get(port, "/api/nothing");
  EXPECT_EQ(answer.status, 404);
  const auto json = nlohmann::json::parse(answer.body);
  EXPECT_EQ(json["error"]["code"], "not-found");
  EXPECT_FALSE(json["error"]["remedy"].get<std::string>().empty());
}

TEST_F(Http, NamesTheMethodsThatAreAllowed) {
  const auto answer = request(port, "DELETE", "/api/echo/beet");
  EXPECT_EQ(answer.status, 405);
  EXPECT_EQ(answer.headers.at("allow"), "GET, HEAD");
  EXPECT_EQ(request(port, "OPTIONS", "/api/echo").status, 405);
  EXPECT_EQ(post_json(port, "/index.html", "{}").status, 405);
}

TEST_F(Http, TakesABodyInChunks) {
  Client client(port);
  client.send("POST /api/echo HTTP/1.1\r\nHost: localhost:" + std::to_string(port) +
              "\r\nContent-Type: application/json\r\nTransfer-Encoding: "
              "chunked\r\n\r\n3\r\n[1,\r\n2\r\n2]\r\n0\r\n\r\n");
  EXPECT_EQ(client.read_answer().body, "[1,2]");
}

TEST_F(Http, TurnsAnExceptionIntoAProblemAndGoesOn) {
  const auto answer = get(port, "/api/fails");
  EXPECT_EQ(answer.status, 500);
  EXPECT_EQ(nlohmann::json::parse(answer.body)["error"]["code"], "internal");
  EXPECT_EQ(get(port, "/api/echo/on").status, 200);
}

TEST_F(Http, CarriesTheSecurityHeadersOnEveryAnswer) {
  for (const std::string path : {"/", "/api/echo/a", "/api/nothing", "/api/fails", "/%00"}) {
    const auto answer = get(port, path);
    for (const auto& [name, value] : security_headers()) {
      std::string lower = name;
      for (char& c : lower) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      ASSERT_TRUE(answer.headers.count(lower)) << path << " " << name;
      EXPECT_EQ(answer.headers.at(lower), value) << path;
    }
  }
}

TEST_F(Http, PolicyAllowsNothingInlineAndNoOtherHost) {
  const std::string policy = get(port, "/").headers.at("content-security-policy");
  EXPECT_NE(policy.find("default-src 'none'"), std::string::npos);
  EXPECT_EQ(policy.find("unsafe"), std::string::npos);
  EXPECT_EQ(policy.find("http"), std::string::npos);
  EXPECT_EQ(policy.find('*'), std::string::npos);
}

TEST_F(Http, ServesThePageAndItsFiles) {
  EXPECT_EQ(get(port, "/").body, get(port, "/index.html").body);
  const auto script = get(port, "/assets/index-1.js");
  EXPECT_EQ(script.headers.at("cache-control"), "public, max-age=31536000, immutable");
  EXPECT_EQ(get(port, "/").headers.at("cache-control"), "no-cache");
  EXPECT_EQ(get(port, "/assets/").status, 404);
}

TEST_F(Http, SaysNotModifiedToOneWhoHasIt) {
  for (const std::string path : {"/", "/assets/index-1.js", "/api/long"}) {
    for (const test::Headers& accept : {test::Headers{}, test::Headers{{"Accept-Encoding", "gzip"}}}) {
      const std::string tag = get(port, path, accept).headers.at("etag");
      test::Headers again = accept;
      again.emplace_back("If-None-Match", tag);
      const auto answer = get(port, path, again);
      EXPECT_EQ(answer.status, 304) << path;
      EXPECT_EQ(answer.body, "");
      EXPECT_EQ(get(port, path, {{"If-None-Match", "\"other\""}}).status, 200);
    }
  }
}

TEST_F(Http, PacksTextForOneWhoCanUnpackIt) {
  for (const std::string path : {"/", "/api/long"}) {
    const auto plain = get(port, path);
    const auto packed = get(port, path, {{"Accept-Encoding", "br, gzip"}});
    EXPECT_EQ(plain.headers.count("content-encoding"), 0U);
    EXPECT_EQ(packed.headers.at("content-encoding"), "gzip");
    EXPECT_EQ(packed.headers.at("vary"), "Accept-Encoding");
    EXPECT_LT(packed.body.size(), plain.body.size());
    EXPECT_EQ(test::gunzip(packed.body), plain.body);
    EXPECT_NE(packed.headers.at("etag"), plain.headers.at("etag"));
  }
  EXPECT_EQ(get(port, "/api/echo/short", {{"Accept-Encoding", "gzip"}}).headers.count("content-encoding"),
            0U);
}

TEST_F(Http, GreetsAListenerAndTellsItWhatIsPublished) {
  Client client(port);
  client.send("GET /api/changes HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
  const std::string top = client.read_until("data: 7\n\n");
  EXPECT_NE(top.find("text/event-stream"), std::string::npos);
  EXPECT_NE(top.find("event: revision\n"), std::string::npos);
  server->publish("/api/changes", "revision", "8");
  EXPECT_NE(client.read_until("data: 8\n\n").find("event: revision\n"), std::string::npos);
  server->publish("/api/changes", "note", "two\nlines");
  EXPECT_NE(client.read_until("data: two\ndata: lines\n\n").find("event: note\n"), std::string::npos);
}

TEST_F(Http, TellsManyListenersAndStillAnswersOthers) {
  std::vector<std::unique_ptr<Client>> clients;
  for (int i = 0; i < 100; ++i) {
    clients.push_back(std::make_unique<Client>(port));
    clients.back()->send("GET /api/changes HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
    ASSERT_FALSE(clients.back()->read_until("data: 7\n\n").empty()) << i;
  }
  EXPECT_EQ(server->listener_count(), 100U);
  EXPECT_EQ(get(port, "/api/echo/still").body, "still");
  server->publish("/api/changes", "revision", "9");
  for (auto& client : clients) EXPECT_FALSE(client->read_until("data: 9\n\n").empty());
}

TEST_F(Http, ForgetsAListenerThatWentAway) {
  {
    Client client(port);
    client.send("GET /api/changes HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
    ASSERT_FALSE(client.read_until("data: 7\n\n").empty());
  }
  // The system notices a closed connection when something is written to it.
  for (int i = 0; i < 200 && server->listener_count() > 0; ++i) {
    server->publish("/api/changes", "revision", "8");
    std::this_thread::sleep_for(10ms);
  }
  EXPECT_EQ(server->listener_count(), 0U);
}

TEST_F(Http, CutsOffAListenerThatDoesNotRead) {
  Client client(port);
  client.send("GET /api/changes HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
  ASSERT_FALSE(client.read_until("data: 7\n\n").empty());
  const std::string large(16'000, 'x');
  for (int i = 0; i < 3000 && server->listener_count() > 0; ++i)
    server->publish("/api/changes", "note", large);
  for (int i = 0; i < 300 && server->listener_count() > 0; ++i) std::this_thread::sleep_for(10ms);
  EXPECT_EQ(get(port, "/api/echo/alive").status, 200);
}

TEST_F(Http, ServesThePageWhileAHandlerWorks) {
  Client slow(port);
  slow.send("GET /api/slow HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
  EXPECT_EQ(get(port, "/").status, 200);
  opened = true;
  open_gate.set_value();
  EXPECT_EQ(slow.read_answer().body, "done");
}

TEST_F(Http, SaysBusyWhenTooManyWait) {
  TearDown();
  opened = false;
  open_gate = {};
  gate = open_gate.get_future();
  start({.waiting_limit = 3});
  std::vector<std::unique_ptr<Client>> clients;
  int busy = 0;
  for (int i = 0; i < 8; ++i) {
    clients.push_back(std::make_unique<Client>(port));
    clients.back()->send("GET /api/slow HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
    std::this_thread::sleep_for(20ms);
  }
  opened = true;
  open_gate.set_value();
  for (auto& client : clients) {
    const auto answer = client->read_answer();
    EXPECT_TRUE(answer.status == 200 || answer.status == 503) << answer.status;
    if (answer.status == 503) {
      ++busy;
      EXPECT_EQ(answer.headers.at("retry-after"), "2");
    }
  }
  EXPECT_EQ(busy, 8 - 1 - 3);
}

TEST_F(Http, FinishesWhatItTookOnBeforeItStops) {
  Client slow(port);
  slow.send("GET /api/slow HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
  Client listener(port);
  listener.send("GET /api/changes HTTP/1.1\r\nHost: localhost:" + std::to_string(port) + "\r\n\r\n");
  ASSERT_FALSE(listener.read_until("data: 7\n\n").empty());
  std::thread stopper([this] { server->stop(); });
  std::this_thread::sleep_for(50ms);
  opened = true;
  open_gate.set_value();
  EXPECT_EQ(slow.read_answer().body, "done");
  stopper.join();
  while (!listener.closed_by_server()) listener.read_until("\n");
}

TEST_F(Http, SaysThatAPortIsTaken) {
  HttpServer second({.port = port});
  const auto started = second.start();
  ASSERT_FALSE(started);
  EXPECT_EQ(started.error().code, base::ProblemCode::already_exists);
  EXPECT_EQ(started.error().where.field, "port");
}

TEST_F(Http, CallsTheTickWhileIdle) {
  HttpServer ticking({.tick = 10ms});
  std::atomic<int> ticks{0};
  ticking.on_tick([&ticks] { ++ticks; });
  ASSERT_TRUE(ticking.start());
  for (int i = 0; i < 500 && ticks < 3; ++i) std::this_thread::sleep_for(10ms);
  EXPECT_GE(ticks, 3);
}

TEST_F(Http, GoesOnWhenATickFailsAndTellsEachFailureOnce) {
  HttpServer ticking({.tick = 10ms});
  std::atomic<int> ticks{0};
  std::mutex mutex;
  std::vector<std::string> told;
  ticking.on_tick([&ticks] {
    const int tick = ++ticks;
    if (tick <= 2) throw std::runtime_error("the first");
    if (tick == 3) throw std::runtime_error("the second");
  });
  ticking.on_defect([&](const std::string& text) {
    const std::lock_guard lock(mutex);
    told.push_back(text);
  });
  ticking.route("GET", "/api/on", [](const Request&) { return Response{.body = "on", .headers = {}}; });
  ASSERT_TRUE(ticking.start());
  for (int i = 0; i < 500 && ticks < 5; ++i) std::this_thread::sleep_for(10ms);
  EXPECT_GE(ticks, 5);
  EXPECT_EQ(get(ticking.port(), "/api/on").body, "on");
  const std::lock_guard lock(mutex);
  ASSERT_EQ(told.size(), 2U);
  EXPECT_NE(told[0].find("the first"), std::string::npos);
  EXPECT_NE(told[1].find("the second"), std::string::npos);
}

TEST(ProblemResponse, FitsTheStatusToTheProblem) {
  using base::ProblemCode;
  const std::vector<std::pair<ProblemCode, int>> statuses{
      {ProblemCode::not_found, 404},    {ProblemCode::contradiction, 409}, {ProblemCode::too_large, 413},
      {ProblemCode::infeasible, 422},   {ProblemCode::storage, 500},       {ProblemCode::out_of_range, 400},
      {ProblemCode::unknown_field, 400}};
  for (const auto& [code, status] : statuses) {
    EXPECT_EQ(problem_response({.code = code, .what = "x", .where = {}, .remedy = "y"}).status, status);
  }
}

}  // namespace
}  // namespace sowtide::serve
