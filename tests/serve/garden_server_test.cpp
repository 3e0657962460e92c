// A garden served whole: a garden file on disk, the real engine, a client on a socket.

#include "serve/garden_server.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <future>
#include <nlohmann/json.hpp>
#include <thread>

#include "book/garden_file.hpp"
#include "serve/detail/body.hpp"
#include "serve/detail/garden_desk.hpp"
#include "serve/detail/plan_job.hpp"
#include "serve/http_client.hpp"

namespace sowtide::serve {
namespace {

using nlohmann::json;
using test::Answer;
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
    std::promise<std::string> ready;
    auto url = ready.get_future();
    server_ = std::thread([this, &ready] {
      const auto served = serve(
          {.garden = path_, .port = 0, .web = {}, .today = base::date_of(2027, 4, 20)},
          [&ready](const std::string& given) { ready.set_value(given); }, stop_);
      EXPECT_TRUE(served);
    });
    port_ = test::port_of(url.get());
  }

  void TearDown() override {
    stop_ = true;
    if (server_.joinable()) server_.join();
    remove_files();
  }

  void remove_files() const {
    for (const char* ending : {"", "-wal", "-shm", ".devices"}) std::filesystem::remove(path_ + ending);
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

TEST_F(ServedGarden, TakesNothingOfDaysToCome) {
  const auto entry = [](const char* id, const char* date) {
    return std::string(R"([{"id":")") + id + R"(","date":")" + date + R"(","kind":"noted","text":"x"}])";
  };
  EXPECT_EQ(post_json(port_, "/api/events", entry("a", "2027-04-21")).status, 200) << "a clock a day ahead";
  const auto ahead = post_json(port_, "/api/events", entry("b", "2027-04-22"));
  EXPECT_GE(ahead.status, 400);
  EXPECT_LT(ahead.status, 500);
  EXPECT_EQ(json::parse(ahead.body)["error"]["where"]["field"], "events[0].date") << ahead.body;
  EXPECT_EQ(answer("/api/events").size(), 1U);
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

TEST(GardenDesk, TheTurnOfTheDayIsAChange) {
  const auto path = std::filesystem::temp_directory_path() / ("sowtide-desk-" + std::to_string(::getpid()));
  auto text = book::parse_garden_toml(kGarden, "garden.toml");
  ASSERT_TRUE(text);
  auto file = book::GardenFile::create(path.string(), text->garden);
  ASSERT_TRUE(file);
  base::Date day = base::date_of(2027, 4, 20);
  detail::GardenDesk desk(std::move(*file), [&day] { return day; });
  EXPECT_TRUE(desk.look_for_change());
  EXPECT_FALSE(desk.look_for_change());
  const auto revision = desk.seen().revision;
  ++day;
  EXPECT_TRUE(desk.look_for_change());
  EXPECT_EQ(desk.seen(), (detail::GardenMoment{revision, base::date_of(2027, 4, 21)}));
  EXPECT_FALSE(desk.look_for_change());
  for (const char* ending : {"", "-wal", "-shm"}) std::filesystem::remove(path.string() + ending);
}

TEST_F(ServedGarden, TellsListenersOfAnEntryHereAndOfOneMadeByAnotherProgram) {
  Client listener(port_);
  listener.send("GET /api/changes HTTP/1.1\r\nHost: localhost:" + std::to_string(port_) + "\r\n\r\n");
  ASSERT_FALSE(listener.read_until("event: revision\ndata: {\"revision\":").empty());
  ASSERT_NE(listener.read_until("\n\n").find(R"("today":"2027-04-20"})"), std::string::npos);
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

TEST_F(ServedGarden, TellsWhatAMoveTakesFromTheTableLateIntoTheWinter) {
  // Carrots keep in store: of those sown in spring some reach the table in winter, of those sown in autumn
  // none.
  ASSERT_EQ(
      test::request(port_, "PUT", "/api/setup/wants", {{"Content-Type", "application/json"}},
                    R"([{"id":"winter","crop":"carrot","amount_per_week":100,"from":"10-15","to":"12-15"}])")
          .status,
      200);
  const auto made = post_json(
      port_, "/api/stands", R"({"crop":"carrot","bed":"long","clumps":60,"from_m":4.0,"day":"2027-05-20"})");
  ASSERT_EQ(made.status, 200);
  const std::string path = "/api/stands/" + json::parse(made.body)["stand"].get<std::string>() + "/try/table";
  const auto wish = [&](const std::string& move) {
    return json::parse(post_json(port_, path, move).body)["wants"][0];
  };
  const json same = wish("{}");
  EXPECT_GT(same["before"].get<double>(), 0.0);
  EXPECT_EQ(same["before"], same["after"]) << "nothing was moved";
  EXPECT_LT(wish(R"({"sow":"2027-09-20"})")["after"].get<double>(), 0.5 * same["before"].get<double>());
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

TEST(PlanJobOptions, ATimeLimitThatIsGivenOutdoesThatOfTheEffort) {
  const auto effort = detail::read_plan_options(json::parse(R"({"effort":3})"));
  ASSERT_TRUE(effort);
  EXPECT_EQ(effort->rounds, 3 * plan::kUsualRounds);
  EXPECT_DOUBLE_EQ(effort->time_limit_s, 3.0 * plan::kUsualTimeLimitS);
  const auto both = detail::read_plan_options(json::parse(R"({"time_limit_s":5,"effort":3})"));
  ASSERT_TRUE(both);
  EXPECT_EQ(both->rounds, 3 * plan::kUsualRounds);
  EXPECT_DOUBLE_EQ(both->time_limit_s, 5.0);
}

TEST(PlanJobOptions, GoAsFarAsThoseOfTheCommandLine) {
  const auto least = detail::read_plan_options(json::parse(R"({"weeks":1,"time_limit_s":1,"effort":0.1})"));
  ASSERT_TRUE(least);
  EXPECT_EQ(least->weeks, 1U);
  const auto most =
      detail::read_plan_options(json::parse(R"({"weeks":104,"time_limit_s":3600,"effort":50})"));
  ASSERT_TRUE(most);
  EXPECT_EQ(most->weeks, 104U);
  EXPECT_EQ(most->time_limit_s, 3600.0);
}

TEST_F(ServedGarden, RefusesOptionsOfAPlanThatMakeNoSense) {
  for (const std::string body :
       {R"({"weeks":0})", R"({"weeks":4.5})", R"({"weeks":105})", R"({"time_limit_s":3601})", R"({"speed":1})",
        R"({"effort":0})", "7"}) {
    EXPECT_EQ(post_json(port_, "/api/plan", body).status, 400) << body;
  }
  EXPECT_EQ(get(port_, "/api/plan").status, 204);
}

Answer put(std::uint16_t port, const std::string& path, const std::string& body, test::Headers headers = {}) {
  headers.emplace_back("Content-Type", "application/json");
  return test::request(port, "PUT", path, headers, body);
}

TEST_F(ServedGarden, AnswersWithThePlanOfTheFileWhoeverMadeIt) {
  ASSERT_EQ(put(port_, "/api/setup/wants", R"([{"crop":"radish","amount_per_week":50,"from":"06-01","to":"06-30"}])").status,
            200);
  ASSERT_EQ(post_json(port_, "/api/plan", R"({"weeks":12,"time_limit_s":2,"effort":0.1})").status, 202);
  // Asked so often, the server never has a moment of its own.
  for (int i = 0; i < 600 && get(port_, "/api/plan").status == 204; ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  EXPECT_TRUE(answer("/api/plan").contains("gap"));
  auto other = book::GardenFile::open(path_);
  ASSERT_TRUE(other);
  ASSERT_TRUE(other->keep_plan(
      [](const auto&, const auto&) {
        return book::PlanToKeep{{}, R"({"gap":0.25,"by":"the command line"})"};
      },
      base::date_of(2026, 5, 1)));
  EXPECT_EQ(answer("/api/plan")["by"], "the command line");
}

/// What GET /api/plan/trial gives once the plan that is being tried has come to its end.
json tried_plan(std::uint16_t port) {
  for (int i = 0; i < 600 && get(port, "/api/plan/trial").status == 204; ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  const auto tried = get(port, "/api/plan/trial");
  return tried.status == 200 ? json::parse(tried.body) : json();
}

TEST_F(ServedGarden, TriesAPlanAndKeepsItOnlyWhenTold) {
  ASSERT_EQ(put(port_, "/api/setup/wants",
                R"([{"id":"r","crop":"radish","amount_per_week":50,"from":"06-01","to":"06-30"}])")
                .status,
            200);
  const json before = answer("/api/outlook");
  const std::string try_only = R"({"weeks":12,"time_limit_s":2,"effort":0.1,"only_try":true})";
  ASSERT_EQ(post_json(port_, "/api/plan", try_only).status, 202);
  const json tried = tried_plan(port_);
  ASSERT_TRUE(tried.is_object());
  EXPECT_EQ(answer("/api/outlook"), before) << "nothing is written";
  EXPECT_EQ(get(port_, "/api/plan").status, 204) << "nothing is written";
  EXPECT_GT(tried["after"]["wants"][0]["mean_reaches"].get<double>(),
            tried["before"]["wants"][0]["mean_reaches"].get<double>());

  ASSERT_EQ(test::request(port_, "DELETE", "/api/plan/trial", {}).status, 200);
  EXPECT_EQ(get(port_, "/api/plan/trial").status, 204);
  EXPECT_EQ(post_json(port_, "/api/plan/trial", "{}").status, 404);

  ASSERT_EQ(post_json(port_, "/api/plan", try_only).status, 202);
  ASSERT_TRUE(tried_plan(port_).is_object());
  ASSERT_EQ(post_json(port_, "/api/plan/trial", "{}").status, 200);
  EXPECT_EQ(answer("/api/outlook")["stands"], tried["outlook"]["stands"]) << "as it was shown";
  EXPECT_EQ(get(port_, "/api/plan/trial").status, 204);
}

TEST_F(ServedGarden, TriesAPlanOfAnotherGardenAndWritesNothingOfIt) {
  const json setup = answer("/api/setup");
  const std::string asked =
      R"({"weeks":12,"time_limit_s":2,"effort":0.1,"only_try":true,"what_if":{"wants":[)"
      R"({"id":"r","crop":"radish","amount_per_week":50,"from":"06-01","to":"06-30"}]}})";
  ASSERT_EQ(post_json(port_, "/api/plan", asked).status, 202);
  const json tried = tried_plan(port_);
  ASSERT_TRUE(tried.is_object());
  EXPECT_EQ(tried["changed"], json({"wants"}));
  EXPECT_GT(tried["after"]["wants"][0]["mean_reaches"].get<double>(), 0.0);
  EXPECT_EQ(post_json(port_, "/api/plan/trial", "{}").status, 409) << "the garden has no such wish";
  EXPECT_EQ(answer("/api/setup"), setup);
}

TEST_F(ServedGarden, RefusesATrialThatMakesNoSense) {
  for (const std::string body :
       {R"({"only_try":1})", R"({"what_if":{}})", R"({"only_try":true,"what_if":[]})",
        R"({"only_try":true,"what_if":{"place":{"place":"Seattle"}}})",
        R"({"only_try":true,"what_if":{"beds":[{"name":"A"}]}})",
        R"({"only_try":true,"what_if":{"beds":[]}})",
        R"({"only_try":true,"what_if":{"wants":[{"crop":"moon"}]}})"}) {
    EXPECT_EQ(post_json(port_, "/api/plan", body).status, 400) << body;
  }
}

TEST_F(ServedGarden, RefusesNumbersOfAQueryThatAreNone) {
  for (const std::string path :
       {"/api/places/nearest?lat=inf&lon=0", "/api/places/nearest?lat=47&lon=181", "/api/places/nearest?lat=47",
        "/api/places/nearest?lat=47&lon=8&elevation_m=nan", "/api/household?people=1001", "/api/household?people=-1",
        "/api/packets?temp_c=inf", "/api/windows?level=much", "/api/stands/s1/picture?step_days=2.7",
        "/api/stands/s1/picture?clumps=61", "/api/stands/s1/picture?from=tomorrow"}) {
    const auto refused = get(port_, path);
    EXPECT_EQ(refused.status, 400) << path << ": " << refused.body;
  }
  EXPECT_EQ(get(port_, "/api/stands/s1/picture?step_days=7.0&clumps=3").status, 200);
}

TEST_F(ServedGarden, AnswersEachQuestionForItselfAndRefusesUnknownOnes) {
  // Run together, "?a=1&date=…" would pass for "?a=1%26date%3D…".
  EXPECT_EQ(get(port_, "/api/judge?a=1%26date%3D2027-09-01").status, 400);
  EXPECT_EQ(get(port_, "/api/judge?a=1&date=2027-09-01").status, 400);
  EXPECT_NE(get(port_, "/api/judge?date=2027-09-01").body, get(port_, "/api/judge").body);
  for (const std::string path :
       {"/api/judge/s1?day=2027-05-01", "/api/stands/s1/picture?steps=3", "/api/stands/s1/removal?keep=1",
        "/api/packets?temp=5", "/api/windows?lvl=0.5"}) {
    const auto refused = get(port_, path);
    EXPECT_EQ(refused.status, 400) << path;
    EXPECT_EQ(json::parse(refused.body)["error"]["code"], "unknown-field") << path;
  }
}

TEST_F(ServedGarden, KeepsAPlanThoughTheGardenChangesWhileItIsMade) {
  ASSERT_EQ(put(port_, "/api/setup/wants",
                R"([{"crop":"radish","amount_per_week":50,"from":"06-01","to":"06-30"}])")
                .status,
            200);
  ASSERT_EQ(post_json(port_, "/api/plan", R"({"weeks":12,"time_limit_s":20,"effort":1})").status, 202);
  ASSERT_EQ(post_json(port_, "/api/events",
                      R"([{"id":"m1","date":"2027-04-10","kind":"sown","stand":"s1","count":30}])")
                .status,
            200);
  ASSERT_EQ(put(port_, "/api/stands/s2", R"({"bed":"low","from_m":0.5})").status, 200);
  ASSERT_EQ(
      post_json(port_, "/api/stands", R"({"crop":"carrot","bed":"long","clumps":20,"from_m":4.5})").status,
      200);
  ASSERT_EQ(get(port_, "/api/plan").status, 204) << "it is still being made";
  for (int i = 0; i < 600 && get(port_, "/api/plan").status == 204; ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  ASSERT_EQ(get(port_, "/api/plan").status, 200) << "the plan was kept";
  const json stands = answer("/api/outlook")["stands"];
  const auto stand = [&stands](const std::string& id) {
    const auto found =
        std::find_if(stands.begin(), stands.end(), [&](const json& each) { return each["id"] == id; });
    return found == stands.end() ? json() : *found;
  };
  EXPECT_EQ(stand("s1")["state"], "sown");
  EXPECT_EQ(stand("s2")["bed"], "low") << "where it was moved to";
  EXPECT_EQ(stand("s3")["crop"], "carrot");
}

TEST_F(ServedGarden, TellsWhichCropsMayMeetAWant) {
  ASSERT_EQ(
      put(port_, "/api/setup/wants", R"([{"crop":"radish","amount_per_week":50,"from":"06-01","to":"06-30"},
    {"group":"roots","amount_per_week":50,"from":"06-01","to":"06-30"}])")
          .status,
      200);
  const json wants = answer("/api/garden")["wants"];
  EXPECT_EQ(wants[0]["crops"], json::array({"radish"}));
  EXPECT_GT(wants[1]["crops"].size(), 2U);
}

TEST_F(ServedGarden, RefusesAMoveOntoAnotherStand) {
  const auto refused = put(port_, "/api/stands/s2", R"({"from_m":0.5})");
  EXPECT_EQ(refused.status, 409) << refused.body;
  EXPECT_NE(refused.body.find("s1"), std::string::npos) << "the stand in the way is named";
  EXPECT_DOUBLE_EQ(answer("/api/outlook/s2")["stands"][0]["from_m"].get<double>(), 1.0);
  // The same stretch is free a year later, when the beet has long been pulled.
  EXPECT_EQ(put(port_, "/api/stands/s2", R"({"from_m":0.5,"sow":"2028-04-20"})").status, 200);
  EXPECT_EQ(put(port_, "/api/stands/s1", R"({"from_m":1.0})").status, 200) << "and they only touch now";
}

TEST_F(ServedGarden, KeepsOfAnOfflineDeviceWhatItCanAndAnswersTheSameAgain) {
  const std::string entries = R"({"entries":[
    {"event":{"id":"p1","date":"2027-04-12","kind":"sown","stand":"s1","count":30},"crop":"beet"},
    {"event":{"id":"p2","date":"2027-04-12","kind":"sown","stand":"gone","count":30}},
    {"event":{"id":"p3","date":"2027-04-13","kind":"sown","stand":"s2","count":30},"crop":"beet"},
    {"event":{"id":"p4","date":"2027-04-14","kind":"noted","text":"slugs"}},
    7]})";
  const auto first = post_json(port_, "/api/events/sync", entries);
  ASSERT_EQ(first.status, 200) << first.body;
  const json results = json::parse(first.body)["results"];
  ASSERT_EQ(results.size(), 5U);
  const std::vector<std::string> wanted{"kept", "refused", "refused", "kept", "refused"};
  for (std::size_t i = 0; i < wanted.size(); ++i) EXPECT_EQ(results[i]["status"], wanted[i]) << results[i];
  EXPECT_EQ(results[1]["id"], "p2");
  EXPECT_EQ(results[1]["error"]["code"], "not-found");
  EXPECT_EQ(results[2]["error"]["code"], "contradiction")
      << "s2 is radish, not the beet that the phone showed";
  EXPECT_EQ(answer("/api/events").size(), 2U);
  EXPECT_EQ(post_json(port_, "/api/events/sync", entries).body, first.body);
  EXPECT_EQ(answer("/api/events").size(), 2U);
}

TEST_F(ServedGarden, RefusesASyncThatIsNoList) {
  for (const char* body : {"", "[]", "{}", R"({"entries":7})", R"({"entries":[],"more":1})"})
    EXPECT_EQ(post_json(port_, "/api/events/sync", body).status, 400) << body;
}

TEST_F(ServedGarden, RefusesBodiesNestedWithoutEndAndGoesOn) {
  constexpr std::size_t kLevels = 80'000;
  const std::string deep = std::string(kLevels, '[') + std::string(kLevels, ']');
  const std::string entry = R"({"entries":[{"event":)" + deep + "}]}";
  for (const char* path :
       {"/api/events/sync", "/api/events", "/api/stands", "/api/stands/s2/try", "/api/plan", "/api/pair"}) {
    EXPECT_EQ(post_json(port_, path, entry).status, 400) << path;
    EXPECT_EQ(post_json(port_, path, deep).status, 400) << path;
  }
  EXPECT_EQ(put(port_, "/api/setup/beds", deep).status, 400);
  EXPECT_EQ(get(port_, "/api/events").status, 200);
}

TEST(Body, IsReadDownToALevelAndNoDeeper) {
  const auto nested = [](int levels) {
    const auto count = static_cast<std::size_t>(levels);
    return detail::parse_body(std::string(count, '[') + std::string(count, ']'));
  };
  EXPECT_TRUE(nested(detail::kDeepestBody));
  const auto refused = nested(detail::kDeepestBody + 1);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, base::ProblemCode::syntax);
}

/// Lists and objects within one another, as deep as told, outermost first in the order of the draw.
std::string nested_json(int levels, const std::vector<bool>& lists) {
  std::string text = "1";
  for (int level = 0; level < levels; ++level) {
    const bool list = lists.empty() || lists[static_cast<std::size_t>(level) % lists.size()];
    text = list ? "[" + text + "]" : R"({"a":)" + text + "}";
  }
  return text;
}

RC_GTEST_PROP(Body, IsTakenExactlyWhereItIsNotTooDeep, (const std::vector<bool>& lists)) {
  const int levels = *rc::gen::inRange(0, 2 * detail::kDeepestBody);
  const std::string text = nested_json(levels, lists);
  RC_ASSERT(detail::parse_body(text).has_value() == (levels <= detail::kDeepestBody));
  RC_ASSERT(!detail::parse_body(text + "]"));
  RC_ASSERT(!detail::parse_body(text.substr(0, text.size() - 1)) || levels == 0);
}

TEST_F(ServedGarden, SetsUpPartByPart) {
  EXPECT_EQ(answer("/api/setup")["missing"], json::array({"wants"}));
  const auto beds = put(port_, "/api/setup/beds", R"([
    {"id":"long","name":"Long bed","length_m":6.0,"width_m":1.2},
    {"name":"Gate bed","length_m":3,"width_m":1,"sun":"partial","kind":"ground"},
    {"name":"Gate bed","length_m":3,"width_m":1}])");
  ASSERT_EQ(beds.status, 200) << beds.body;
  const json setup = json::parse(beds.body);
  EXPECT_EQ(setup["beds"][1]["id"], "gate-bed");
  EXPECT_EQ(setup["beds"][1]["sun"], "partial");
  EXPECT_EQ(setup["beds"][2]["id"], "gate-bed-2");
  const auto wants =
      put(port_, "/api/setup/wants",
          R"([{"crop":"beet","amount_per_week":2,"unit":"servings","from":"06-01","to":"10-31"}])");
  ASSERT_EQ(wants.status, 200) << wants.body;
  EXPECT_TRUE(json::parse(wants.body)["missing"].empty());
  EXPECT_EQ(answer("/api/garden")["wants"][0]["from"], "06-01");
  EXPECT_EQ(put(port_, "/api/setup/about", R"({"name":"Other","units":"us"})").status, 200);
  EXPECT_EQ(answer("/api/garden")["units"], "us");
}

TEST_F(ServedGarden, TakesAPlaceByNameOrCoordinates) {
  const json places = answer("/api/places")["places"];
  ASSERT_FALSE(places.empty());
  const std::string name = places[0]["name"];
  ASSERT_EQ(put(port_, "/api/setup/place", json{{"place", name}}.dump()).status, 200);
  EXPECT_EQ(answer("/api/setup")["site"]["name"], name);
  ASSERT_EQ(put(port_, "/api/setup/place",
                R"({"name":"My plot","latitude_deg":-33.9,"longitude_deg":151.2,"elevation_m":40})")
                .status,
            200);
  const json site = answer("/api/garden")["site"];
  EXPECT_EQ(site["name"], "My plot");
  EXPECT_DOUBLE_EQ(site["latitude_deg"].get<double>(), -33.9);
  EXPECT_FALSE(answer("/api/places/nearest?lat=-33.9&lon=151.2")["station"].get<std::string>().empty());
  for (const char* bad : {"", "?lat=1", "?lat=x&lon=1", "?lat=91&lon=1", "?lat=1&lon=181", "?lat=nan&lon=1",
                          "?lat=1&lon=1&elevation_m=high"})
    EXPECT_EQ(get(port_, std::string("/api/places/nearest") + bad).status, 400) << bad;
}

TEST_F(ServedGarden, TakesAFarClimateOnlyWhenToldToAndNeverAFarHeight) {
  const json before = answer("/api/setup");
  EXPECT_EQ(
      put(port_, "/api/setup/place", R"({"name":"Plot","latitude_deg":1.35,"longitude_deg":103.82})").status,
      400);
  const auto refused = put(port_, "/api/setup/place",
                           R"({"name":"Plot","latitude_deg":1.35,"longitude_deg":103.82,"elevation_m":15})");
  EXPECT_EQ(refused.status, 409) << refused.body;
  EXPECT_EQ(answer("/api/setup"), before);
  const auto taken = put(
      port_, "/api/setup/place",
      R"({"name":"Plot","latitude_deg":1.35,"longitude_deg":103.82,"elevation_m":15,"far_climate":true})");
  ASSERT_EQ(taken.status, 200) << taken.body;
  const json setup = json::parse(taken.body);
  EXPECT_DOUBLE_EQ(setup["site"]["elevation_m"].get<double>(), 15.0);
  EXPECT_EQ(setup["lent_climate"]["other"], true);
  EXPECT_GT(setup["lent_climate"]["distance_km"].get<double>(), 500.0);
}

TEST_F(ServedGarden, RefusesASetUpThatMakesNoSenseAndKeepsWhatWasThere) {
  const auto before = get(port_, "/api/setup").body;
  const std::vector<std::tuple<const char*, const char*, int>> changes{
      {"nothing", "[]", 404},
      {"beds", "{", 400},
      {"beds", "{}", 400},
      {"beds", "[7]", 400},
      {"beds", R"([{"name":"A","length_m":-1,"width_m":1}])", 400},
      {"beds", R"([{"name":"A","length_m":"1","width_m":1}])", 400},
      {"beds", R"([{"name":"A","length_m":1}])", 400},
      {"beds", R"([{"name":"A","length_m":1,"width_m":1,"colour":"red"}])", 400},
      {"beds", R"([{"name":"A","length_m":1,"width_m":1,"sun":"dark"}])", 400},
      {"beds", R"([{"id":"a/b","name":"A","length_m":1,"width_m":1}])", 400},
      {"trays", R"([{"name":"T","cells":1.5}])", 400},
      {"wants", R"([{"crop":"moonfruit","amount_per_week":1}])", 400},
      {"wants", R"([{"crop":"beet","amount_per_week":1,"from":"31-12"}])", 400},
      {"packets", R"([{"crop":"beet","packed_year":"new","seeds":1}])", 400},
      {"place", R"({"place":"Nowhere at all"})", 404},
      {"place", R"({"name":"X","latitude_deg":95,"longitude_deg":0})", 400},
      {"place", R"({"name":"X"})", 400},
      {"about", R"({"units":"cubits"})", 400}};
  for (const auto& [part, body, status] : changes)
    EXPECT_EQ(put(port_, std::string("/api/setup/") + part, body).status, status) << part << " " << body;
  // A bed on which a stand stands cannot go.
  const auto gone = put(port_, "/api/setup/beds", "[]");
  EXPECT_TRUE(gone.status >= 400 && gone.status < 500) << gone.status;
  EXPECT_EQ(get(port_, "/api/setup").body, before);
}

TEST_F(ServedGarden, DoesNotWriteOverWhatTheWriterHasNotSeen) {
  const std::string seen = get(port_, "/api/setup").headers.at("etag");
  ASSERT_EQ(put(port_, "/api/setup/about", R"({"name":"First"})", {{"If-Match", seen}}).status, 200);
  EXPECT_EQ(put(port_, "/api/setup/about", R"({"name":"Second"})", {{"If-Match", seen}}).status, 412);
  EXPECT_EQ(answer("/api/setup")["name"], "First");
}

TEST_F(ServedGarden, DrawsTheCodeOfAStandThatIsThere) {
  const auto code = get(port_, "/api/stands/s1/code");
  EXPECT_EQ(code.status, 200);
  EXPECT_EQ(code.headers.at("content-type"), "image/svg+xml");
  EXPECT_NE(code.body.find("/#/stand/s1</title>"), std::string::npos);
  EXPECT_EQ(get(port_, "/api/stands/nobody/code").status, 404);
}

TEST_F(ServedGarden, PairsNobodyWhileItIsServedOnThisMachineOnly) {
  EXPECT_EQ(post_json(port_, "/api/pair", R"({"code":""})").status, 403);
  EXPECT_EQ(post_json(port_, "/api/pair", R"({"code":7})").status, 400);
  EXPECT_EQ(post_json(port_, "/api/devices/code", "{}").status, 409);
  EXPECT_TRUE(answer("/api/devices")["devices"].empty());
}

TEST(Serve, SaysWhatIsWrongWithTheGardenFile) {
  const std::atomic<bool> stop{true};
  const auto served = serve(
      {.garden = "/nonexistent/garden.sowtide"}, [](const std::string&) {}, stop);
  ASSERT_FALSE(served);
  EXPECT_EQ(served.error().code, base::ProblemCode::file_missing);
}

}  // namespace
}  // namespace sowtide::serve
