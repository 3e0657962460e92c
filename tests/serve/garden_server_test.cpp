// A garden served whole: a garden file on disk, the real engine, a client on a socket.

#include "serve/garden_server.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <future>
#include <nlohmann/json.hpp>
#include <thread>

#include "book/garden_file.hpp"
#include "serve/http_client.hpp"

namespace sowtide::serve {
namespace {

using nlohmann::json;
using test::Client;
using test::get;
using test::post_json;

constexpr const char* kToday = "2027-04-20";

/// A small garden at Seattle's latitude with round monthly normals (made up, near NOAA's 1991-2020 normals in
/// shape).
constexpr const char* kGarden = R"(
name = "Served"
[site]
name = "Served"
lat = 47.45
lon = -122.3
elevation_m = 122
[normals]
tmax_c = [8, 10, 12, 15, 19, 22, 26, 26, 22, 16, 11, 8]
tmin_c = [2, 2, 4, 6, 9, 12, 14, 14, 12, 8, 5, 2]
precip_mm = [142, 89, 94, 69, 48, 37, 18, 22, 38, 88, 167, 145]
[[beds]]
id = "long"
name = "Long bed"
length_m = 6.0
width_m = 1.2
[[beds]]
id = "low"
name = "Low bed"
length_m = 2.0
width_m = 1.2
[[stands]]
id = "s1"
crop = "beet"
method = "direct-sow"
sow = 2027-04-10
clumps = 30
spacing_mm = 120.0
bed = "long"
from_m = 0.0
to_m = 1.0
cells = 30
[[stands]]
id = "s2"
crop = "radish"
method = "direct-sow"
sow = 2027-05-10
clumps = 60
spacing_mm = 50.0
bed = "long"
from_m = 1.0
to_m = 2.0
cells = 60
)";

class ServedGarden : public ::testing::Test {
 protected:
  void SetUp() override {
    path_ = (std::filesystem::temp_directory_path() /
             ("sowtide-serve-" + std::to_string(::getpid()) + ".sowtide"))
                .string();
    remove_files();
    const auto text = book::parse_garden_toml(kGarden, "garden.toml");
    ASSERT_TRUE(text) << base::to_text(text.error());
    const auto made = book::GardenFile::create(path_, text->garden);
    ASSERT_TRUE(made) << base::to_text(made.error());
    std::promise<std::uint16_t> ready;
    auto port = ready.get_future();
    server_ = std::thread([this, &ready] {
      const auto served = serve(
          {.garden = path_, .port = 0, .web = {}, .today = base::date_of(2027, 4, 20)},
          [&ready](std::uint16_t given) { ready.set_value(given); }, stop_);
      EXPECT_TRUE(served);
    });
    port_ = port.get();
  }

  void TearDown() override {
    stop_ = true;
    if (server_.joinable()) server_.join();
    remove_files();
  }

  void remove_files() const {
    for (const char* ending : {"", "-wal", "-shm"}) std::filesystem::remove(path_ + ending);
  }

  [[nodiscard]] json answer(const std::string& path) const {
    const auto given = get(port_, path);
    EXPECT_EQ(given.status, 200) << path << ": " << given.body;
    return json::parse(given.body, nullptr, false);
  }

  std::string path_;
  std::uint16_t port_ = 0;
  std::atomic<bool> stop_{false};
  std::thread server_;
};

TEST_F(ServedGarden, AnswersWithTheGardenItsOutlookAndItsWork) {
  EXPECT_EQ(answer("/api/garden")["name"], "Served");
  EXPECT_EQ(answer("/api/garden")["beds"].size(), 2U);
  const json outlook = answer("/api/outlook");
  EXPECT_EQ(outlook["today"], kToday);
  ASSERT_EQ(outlook["stands"].size(), 2U);
  EXPECT_FALSE(outlook["stands"][0].contains("fan"));
  const json one = answer("/api/outlook/s1");
  ASSERT_EQ(one["stands"].size(), 1U);
  EXPECT_TRUE(one["stands"][0].contains("fan"));
  EXPECT_EQ(answer("/api/today")["today"], kToday);
  EXPECT_TRUE(answer("/api/events").empty());
}

TEST_F(ServedGarden, SaysWhichStandIsNotThere) {
  const auto given = get(port_, "/api/outlook/nobody");
  EXPECT_EQ(given.status, 404);
  EXPECT_EQ(json::parse(given.body)["error"]["code"], "not-found");
}

TEST_F(ServedGarden, TakesAnEntryOnceHoweverOftenItIsSent) {
  const std::string entry = R"([{"id":"e1","date":"2027-04-10","kind":"sown","stand":"s1","count":30}])";
  const auto first = post_json(port_, "/api/events", entry);
  ASSERT_EQ(first.status, 200) << first.body;
  EXPECT_EQ(json::parse(first.body)["added"], 1);
  const auto again = post_json(port_, "/api/events", entry);
  EXPECT_EQ(json::parse(again.body)["added"], 0);
  EXPECT_EQ(json::parse(again.body)["revision"], json::parse(first.body)["revision"]);
  EXPECT_EQ(answer("/api/events").size(), 1U);
  EXPECT_EQ(answer("/api/outlook/s1")["stands"][0]["state"], "sown");
}

TEST_F(ServedGarden, RefusesAnotherEntryUnderTheSameId) {
  post_json(port_, "/api/events",
            R"([{"id":"e1","date":"2027-04-10","kind":"sown","stand":"s1","count":30}])");
  const auto other = post_json(port_, "/api/events",
                               R"([{"id":"e1","date":"2027-04-10","kind":"sown","stand":"s1","count":31}])");
  EXPECT_EQ(other.status, 409);
  EXPECT_EQ(answer("/api/events").size(), 1U);
}

TEST_F(ServedGarden, TakesAllEntriesOfARequestOrNone) {
  const auto mixed = post_json(port_, "/api/events",
                               R"([{"id":"a","date":"2027-04-10","kind":"sown","stand":"s1","count":30},
                                   {"id":"b","date":"2027-04-11","kind":"sown","stand":"nobody","count":3}])");
  EXPECT_GE(mixed.status, 400);
  EXPECT_LT(mixed.status, 500);
  EXPECT_TRUE(answer("/api/events").empty());
}

TEST_F(ServedGarden, RefusesWhatIsNoEntryAndChangesNothing) {
  const std::vector<std::string> bodies{
      "",
      "{",
      "null",
      "[1]",
      R"([{"id":"a"}])",
      R"([{"id":"a","date":"2027-02-30","kind":"sown","stand":"s1"}])",
      R"([{"id":"a b","date":"2027-04-10","kind":"noted","text":"x"}])",
      R"([{"id":"a","date":"2027-04-10","kind":"burnt","stand":"s1"}])",
      R"([{"id":"a","date":"2027-04-10","kind":"picked","stand":"s1","grams":-5}])",
      R"([{"id":"a","date":"2027-04-10","kind":"picked","stand":"s1","grams":"five"}])",
      R"([{"id":"a","date":"2027-04-10","kind":"noted","text":"x","colour":"red"}])",
      std::string(100'000, '[')};
  for (const std::string& body : bodies) {
    const auto given = post_json(port_, "/api/events", body);
    EXPECT_TRUE(given.status >= 400 && given.status < 500) << body.substr(0, 80) << " " << given.status;
    EXPECT_FALSE(json::parse(given.body)["error"]["what"].get<std::string>().empty()) << body.substr(0, 80);
  }
  EXPECT_TRUE(answer("/api/events").empty());
}

TEST_F(ServedGarden, GivesTheSameTagUntilTheGardenChanges) {
  const auto before = get(port_, "/api/outlook");
  EXPECT_EQ(get(port_, "/api/outlook", {{"If-None-Match", before.headers.at("etag")}}).status, 304);
  post_json(port_, "/api/events",
            R"([{"id":"e1","date":"2027-04-10","kind":"sown","stand":"s1","count":30}])");
  const auto after = get(port_, "/api/outlook", {{"If-None-Match", before.headers.at("etag")}});
  EXPECT_EQ(after.status, 200);
  EXPECT_NE(after.headers.at("etag"), before.headers.at("etag"));
}

TEST_F(ServedGarden, TellsListenersOfAnEntryHereAndOfOneMadeByAnotherProgram) {
  Client listener(port_);
  listener.send("GET /api/changes HTTP/1.1\r\nHost: localhost:" + std::to_string(port_) + "\r\n\r\n");
  ASSERT_FALSE(listener.read_until("event: revision\ndata: ").empty());
  ASSERT_FALSE(listener.read_until("\n\n").empty());
  post_json(port_, "/api/events",
            R"([{"id":"e1","date":"2027-04-10","kind":"sown","stand":"s1","count":30}])");
  EXPECT_FALSE(listener.read_until("event: revision\ndata: ").empty());
  EXPECT_FALSE(listener.read_until("\n\n").empty());
  auto other = book::GardenFile::open(path_);
  ASSERT_TRUE(other);
  book::Event note;
  note.id = "e2";
  note.date = base::date_of(2027, 4, 20);
  note.text = "written beside the server";
  ASSERT_TRUE(other->append({note}));
  EXPECT_FALSE(listener.read_until("event: revision\ndata: ").empty());
  EXPECT_EQ(answer("/api/events").size(), 2U);
}

TEST_F(ServedGarden, TriesAMoveWithoutKeepingIt) {
  const auto tried =
      post_json(port_, "/api/stands/s2/try", R"({"bed":"low","from_m":0.5,"sow":"2027-06-01"})");
  ASSERT_EQ(tried.status, 200) << tried.body;
  const json stand = json::parse(tried.body)["stands"][0];
  EXPECT_EQ(stand["bed"], "low");
  EXPECT_EQ(stand["sow"], "2027-06-01");
  EXPECT_DOUBLE_EQ(stand["to_m"].get<double>(), 1.5);
  EXPECT_EQ(answer("/api/outlook/s2")["stands"][0]["sow"], "2027-05-10");
}

TEST_F(ServedGarden, KeepsAMoveWithTheOutlookThatWasTried) {
  const std::string move = R"({"bed":"low","from_m":0.5,"sow":"2027-06-01"})";
  const json tried = json::parse(post_json(port_, "/api/stands/s2/try", move).body)["stands"][0];
  const auto kept =
      test::request(port_, "PUT", "/api/stands/s2", {{"Content-Type", "application/json"}}, move);
  ASSERT_EQ(kept.status, 200) << kept.body;
  EXPECT_EQ(answer("/api/outlook/s2")["stands"][0]["events"], tried["events"]);
  EXPECT_EQ(answer("/api/outlook/s2")["stands"][0]["bed"], "low");
}

TEST_F(ServedGarden, RefusesAMoveThatCannotBe) {
  const std::vector<std::pair<std::string, int>> moves{{R"({"from_m":5.5})", 400},
                                                       {R"({"from_m":-1})", 400},
                                                       {R"({"bed":"nowhere"})", 404},
                                                       {R"({"sow":"2027-04-19"})", 400},
                                                       {R"({"sow":"2031-01-01"})", 400},
                                                       {R"({"sow":"soon"})", 400},
                                                       {R"({"depth":3})", 400},
                                                       {R"({"from_m":"1"})", 400},
                                                       {"[]", 400},
                                                       {R"({"set_out":"2027-05-01"})", 409}};
  for (const auto& [move, status] : moves) {
    EXPECT_EQ(post_json(port_, "/api/stands/s2/try", move).status, status) << move;
  }
  EXPECT_EQ(post_json(port_, "/api/stands/nobody/try", "{}").status, 404);
}

TEST_F(ServedGarden, DoesNotMoveWhatHasBeenSown) {
  post_json(port_, "/api/events",
            R"([{"id":"e1","date":"2027-04-10","kind":"sown","stand":"s1","count":30}])");
  for (const std::string move : {R"({"sow":"2027-05-01"})", R"({"from_m":2.5})", R"({"bed":"low"})"}) {
    EXPECT_EQ(
        test::request(port_, "PUT", "/api/stands/s1", {{"Content-Type", "application/json"}}, move).status,
        409)
        << move;
  }
}

TEST_F(ServedGarden, RefusesOptionsOfAPlanThatMakeNoSense) {
  for (const std::string body : {R"({"weeks":0})", R"({"time_limit_s":1e9})", R"({"speed":1})", "7"}) {
    EXPECT_EQ(post_json(port_, "/api/plan", body).status, 400) << body;
  }
  EXPECT_EQ(get(port_, "/api/plan").status, 204);
}

TEST(Serve, SaysWhatIsWrongWithTheGardenFile) {
  const std::atomic<bool> stop{true};
  const auto served = serve(
      {.garden = "/nonexistent/garden.sowtide"}, [](std::uint16_t) {}, stop);
  ASSERT_FALSE(served);
  EXPECT_EQ(served.error().code, base::ProblemCode::file_missing);
}

TEST(Serve, OffersNoHomeNetworkYet) {
  const std::atomic<bool> stop{true};
  const auto served = serve(
      {.garden = "x", .lan = true}, [](std::uint16_t) {}, stop);
  ASSERT_FALSE(served);
  EXPECT_EQ(served.error().code, base::ProblemCode::usage);
}

}  // namespace
}  // namespace sowtide::serve
