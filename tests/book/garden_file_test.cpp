// The garden file: nothing acknowledged is lost, nothing foreign is touched, old files come forward.
#include "book/garden_file.hpp"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "base/file.hpp"
#include "book/detail/schema.hpp"
#include "book/sample_garden.hpp"

namespace sowtide::book {
namespace {

using base::date_of;
using base::ProblemCode;
using testing::TemporaryDirectory;
using testing::whole_text;

GardenDescription small_garden() {
  base::RandomStream random(3, "tests.book.small");
  return testing::random_garden(random);
}

/// Keeps a plan as it is, whatever the garden is by then.
base::Result<void> keep_plan(GardenFile& file, const std::vector<stand::StandPlan>& stands,
                             const std::string& answer, base::Date day = date_of(2026, 5, 1)) {
  return file.keep_plan([&](const auto&, const auto&) { return PlanToKeep{stands, answer}; }, day);
}

Event note(const std::string& id, const std::string& text = "rain at last") {
  return {.id = id, .date = date_of(2026, 5, 1), .kind = EventKind::noted, .text = text};
}

std::string text_of(const GardenFile& file) {
  return whole_text(file.description().value(), file.events().value());
}

base::Result<void> set_description(GardenFile& file, const GardenDescription& wanted) {
  return file.change_description([&wanted](GardenDescription& garden, std::size_t /*event_count*/) {
    garden = wanted;
    return base::Result<void>{};
  });
}

std::string bytes_of(const std::string& path) {
  return base::read_file(path).value();
}

TEST(GardenFile, GivesBackWhatWasPutIn) {
  const TemporaryDirectory directory;
  const GardenDescription garden = small_garden();
  base::RandomStream random(3, "tests.book.log");
  const auto log = testing::random_log(random, garden, 50);
  {
    const auto file = GardenFile::create(directory.file("g"), garden, log);
    ASSERT_TRUE(file) << base::to_text(file.error());
  }
  const auto file = GardenFile::open(directory.file("g"));
  ASSERT_TRUE(file) << base::to_text(file.error());
  EXPECT_EQ(text_of(*file), whole_text(garden, log));
}

TEST(GardenFile, LeavesNoFilesBesideItOnceClosed) {
  const TemporaryDirectory directory;
  { ASSERT_TRUE(GardenFile::create(directory.file("g"), small_garden())); }
  EXPECT_EQ(directory.names(), std::vector<std::string>{"g"});
}

TEST(GardenFile, NeverOverwrites) {
  const TemporaryDirectory directory;
  ASSERT_TRUE(base::write_file(directory.file("g"), "precious"));
  const auto made = GardenFile::create(directory.file("g"), small_garden());
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().code, ProblemCode::already_exists);
  EXPECT_EQ(bytes_of(directory.file("g")), "precious");
  EXPECT_EQ(directory.names().size(), 1U);
}

TEST(GardenFile, IsNotMadeFromAGardenThatCannotBe) {
  const TemporaryDirectory directory;
  GardenDescription garden = small_garden();
  garden.beds[0].length_m = -1.0;
  const auto made = GardenFile::create(directory.file("g"), garden);
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().code, ProblemCode::out_of_range);
  EXPECT_EQ(made.error().where.field, "beds[0].length_m");
  EXPECT_TRUE(directory.names().empty());
}

TEST(GardenFile, ALogOfAnOlderProgramWithAContradictionStillOpensAndTakesEntries) {
  const TemporaryDirectory directory;
  GardenDescription garden = small_garden();
  garden.stands.assign(1, {.id = "s1", .crop = "beet", .clumps = 10, .bed = garden.beds[0].id, .to_m = 1.0});
  const auto entry = [](const char* id, int day, EventKind kind) {
    return Event{.id = id, .date = date_of(2026, 5, day), .kind = kind, .stand = "s1", .count = 5.0};
  };
  ASSERT_TRUE(GardenFile::create(directory.file("g"), garden, {entry("a", 10, EventKind::sown)}));
  SQLite::Database(directory.file("g"), SQLite::OPEN_READWRITE)
      .exec(
          "INSERT INTO event VALUES (2, 'b', '2026-05-01', 'counted', 's1', NULL, 5, NULL, NULL, NULL, '')");
  auto file = GardenFile::open(directory.file("g"));
  ASSERT_TRUE(file) << file.error().what;
  EXPECT_TRUE(file->append({entry("c", 20, EventKind::counted)}));
  const auto refused = file->append({entry("d", 2, EventKind::counted)});
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ProblemCode::contradiction);
  EXPECT_EQ(refused.error().where.field, "events[0].date");
  EXPECT_EQ(file->events()->size(), 3U);
}

TEST(GardenFile, WritingTheSameEntryTwiceChangesNothing) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  EXPECT_EQ(file->append({note("a"), note("b")}).value(), 2U);
  const auto revision = file->revision().value();
  EXPECT_EQ(file->append({note("b"), note("a")}).value(), 0U);
  EXPECT_EQ(file->revision().value(), revision);
  EXPECT_EQ(file->append({note("b"), note("c"), note("c")}).value(), 1U);
  EXPECT_EQ(file->revision().value(), revision + 1);
  const auto log = file->events().value();
  ASSERT_EQ(log.size(), 3U);
  EXPECT_EQ(log[2].sequence, 3);
}

TEST(GardenFile, TheSameIdWithOtherContentIsAContradictionAndNothingIsWritten) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  ASSERT_TRUE(file->append({note("a")}));
  const auto appended = file->append({note("z"), note("a", "something else")});
  ASSERT_FALSE(appended);
  EXPECT_EQ(appended.error().code, ProblemCode::contradiction);
  EXPECT_EQ(appended.error().where.field, "events[1].id");
  EXPECT_EQ(file->events().value().size(), 1U) << "\"z\" of the same call must not stay";
}

TEST(GardenFile, EntriesTakenEachByItselfHoldNoneUpAndAreOneWrite) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  ASSERT_TRUE(file->append({note("a")}));
  const auto revision = file->revision().value();
  Event correction{.id = "c", .date = date_of(2026, 5, 1), .kind = EventKind::corrected, .target = "b"};
  Event nowhere = note("d");
  nowhere.stand = "nowhere";
  const auto taken =
      file->append_each({note("a"), nowhere, note("a", "something else"), note("b"), correction});
  ASSERT_TRUE(taken) << taken.error().what;
  ASSERT_EQ(taken->size(), 5U);
  EXPECT_FALSE((*taken)[0].value()) << "it was there already";
  EXPECT_EQ((*taken)[1].error().code, ProblemCode::not_found);
  EXPECT_EQ((*taken)[1].error().where.field, "stand");
  EXPECT_EQ((*taken)[2].error().code, ProblemCode::contradiction);
  EXPECT_TRUE((*taken)[3].value());
  EXPECT_TRUE((*taken)[4].value()) << "of an entry of the same call";
  EXPECT_EQ(file->events()->size(), 3U);
  EXPECT_EQ(file->revision().value(), revision + 1);
  ASSERT_TRUE(file->append_each({note("a"), nowhere}));
  EXPECT_EQ(file->revision().value(), revision + 1) << "nothing was new";
}

TEST(GardenFile, AnEntryMayCorrectOneOfTheSameCall) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  const Event correction{.id = "b", .date = date_of(2026, 5, 1), .kind = EventKind::corrected, .target = "a"};
  EXPECT_FALSE(file->append({correction, note("a")})) << "what is corrected must be there before";
  EXPECT_TRUE(file->append({note("a"), correction}));
}

TEST(GardenFile, TheLogCannotBeRewrittenEvenBySql) {
  const TemporaryDirectory directory;
  {
    auto file = GardenFile::create(directory.file("g"), small_garden());
    ASSERT_TRUE(file->append({note("a")}));
  }
  SQLite::Database database(directory.file("g"), SQLite::OPEN_READWRITE);
  EXPECT_THROW(database.exec("UPDATE event SET text = 'lies'"), SQLite::Exception);
  EXPECT_THROW(database.exec("DELETE FROM event"), SQLite::Exception);
}

TEST(GardenFile, RunsWithAWriteAheadLogAndSyncsEveryWrite) {
  const TemporaryDirectory directory;
  { ASSERT_TRUE(GardenFile::create(directory.file("g"), small_garden())); }
  SQLite::Database database(directory.file("g"), SQLite::OPEN_READONLY);
  EXPECT_EQ(database.execAndGet("PRAGMA journal_mode").getString(), "wal");
  EXPECT_EQ(database.execAndGet("PRAGMA integrity_check").getString(), "ok");
  EXPECT_EQ(
      database
          .execAndGet("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND sql NOT LIKE '%STRICT'")
          .getInt(),
      0);
}

TEST(GardenFile, ReplacesPlannedStandsAndKeepsThoseThatBegan) {
  const TemporaryDirectory directory;
  GardenDescription garden = small_garden();
  stand::StandPlan begun{.id = "begun",
                         .crop = "beet",
                         .sow = date_of(2026, 4, 1),
                         .bed = garden.beds[0].id,
                         .from_m = 0.0,
                         .to_m = 0.5};
  stand::StandPlan planned = begun;
  planned.id = "planned";
  garden.stands = {planned, begun};
  auto file = GardenFile::create(directory.file("g"), garden);
  ASSERT_TRUE(
      file->append({{.id = "a", .date = date_of(2026, 4, 1), .kind = EventKind::sown, .stand = "begun"}}));
  stand::StandPlan fresh = begun;
  fresh.id = "fresh";
  ASSERT_TRUE(keep_plan(*file, {fresh}, "{}"));
  const auto stands = file->description()->stands;
  ASSERT_EQ(stands.size(), 2U);
  EXPECT_EQ(stands[0].id, "begun");
  EXPECT_EQ(stands[1].id, "fresh");
  EXPECT_FALSE(keep_plan(*file, {begun}, "{\"gap\":0.1}"))
      << "a new stand cannot take the name of one that stands";
  EXPECT_EQ(file->description()->stands.size(), 2U);
  EXPECT_EQ(file->plan_answer().value(), "{}") << "the answer is that of the stands kept";
}

TEST(GardenFile, APlanMayDoWithoutAStandWhoseEntriesWereAllCorrected) {
  const TemporaryDirectory directory;
  base::RandomStream random(3, "tests.book.garden_file.corrected");
  GardenDescription garden = testing::random_garden(random);
  const stand::StandPlan mistaken{.id = "s3",
                                  .crop = "beet",
                                  .sow = date_of(2026, 4, 1),
                                  .bed = garden.beds[0].id,
                                  .from_m = 0.0,
                                  .to_m = 0.5};
  garden.stands = {mistaken};
  auto file = GardenFile::create(directory.file("g"), garden);
  ASSERT_TRUE(
      file->append({{.id = "a", .date = date_of(2026, 4, 1), .kind = EventKind::sown, .stand = "s3"}}));
  ASSERT_TRUE(
      file->append({{.id = "b", .date = date_of(2026, 4, 2), .kind = EventKind::corrected, .target = "a"}}));
  const auto counting = [&] {
    return fold(*file->description(), *file->events(), date_of(2026, 6, 1)).stands;
  };
  ASSERT_EQ(counting().size(), 1U);
  stand::StandPlan later = mistaken;
  later.sow = date_of(2026, 5, 20);
  ASSERT_TRUE(keep_plan(*file, {later}, "{}")) << "the plan may go on with it";
  ASSERT_EQ(counting().size(), 1U);
  EXPECT_EQ(counting().front().plan.sow, later.sow);
  stand::StandPlan other = mistaken;
  other.id = "s4";
  ASSERT_TRUE(keep_plan(*file, {other}, "{}", date_of(2026, 5, 2)));
  ASSERT_EQ(counting().size(), 1U) << "nothing stands on the ground of another";
  EXPECT_EQ(counting().front().plan.id, "s4");
  EXPECT_EQ(file->events()->size(), 3U)
      << "the log keeps what was written, and tells that the stand was given up";
}

TEST(GardenFile, UpdatesOneStand) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  stand::StandPlan plan = file->description()->stands[0];
  plan.clumps += 5;
  plan.set_out = plan.sow + base::Days{30};
  ASSERT_TRUE(file->update_stand(plan));
  EXPECT_EQ(file->description()->stands[0].clumps, plan.clumps);
  EXPECT_EQ(file->description()->stands[0].set_out, plan.set_out);
  plan.id = "nobody";
  EXPECT_EQ(file->update_stand(plan).error().code, ProblemCode::not_found);
}

TEST(GardenFile, KeepsBedsThatStandsOrEntriesNeed) {
  const TemporaryDirectory directory;
  GardenDescription garden = small_garden();
  garden.beds.push_back({.id = "spare", .name = "Spare", .length_m = 1.0, .width_m = 1.0});
  garden.beds.push_back({.id = "wet", .name = "Wet", .length_m = 1.0, .width_m = 1.0});
  auto file = GardenFile::create(directory.file("g"), garden);
  ASSERT_TRUE(
      file->append({{.id = "a", .date = date_of(2026, 5, 1), .kind = EventKind::watered, .target = "wet"}}));
  const std::string before = text_of(*file);
  GardenDescription without = garden;
  without.beds.pop_back();
  EXPECT_EQ(set_description(*file, without).error().code, ProblemCode::contradiction);
  without = garden;
  without.beds.erase(without.beds.begin());
  EXPECT_FALSE(set_description(*file, without));
  EXPECT_EQ(text_of(*file), before);
  garden.beds.erase(garden.beds.end() - 2);
  ASSERT_TRUE(set_description(*file, garden));
  EXPECT_EQ(file->description()->beds.size(), garden.beds.size());
}

TEST(GardenFile, NothingIsWrittenBetweenWhatAChangeIsGivenAndWhatIsKeptOfIt) {
  const TemporaryDirectory directory;
  const std::string path = directory.file("g");
  auto file = GardenFile::create(path, small_garden());
  ASSERT_TRUE(file->append({note("a"), note("b")}));
  const auto renamed = file->change_description([&path](GardenDescription& garden, std::size_t event_count) {
    EXPECT_EQ(event_count, 2U);
    constexpr int kNoPatience_ms = 0;
    SQLite::Database beside(path, SQLite::OPEN_READWRITE, kNoPatience_ms);
    EXPECT_THROW(beside.exec("BEGIN IMMEDIATE"), SQLite::Exception);
    garden.name = "Renamed";
    return base::Result<void>{};
  });
  ASSERT_TRUE(renamed) << base::to_text(renamed.error());
  EXPECT_EQ(file->description()->name, "Renamed");
}

TEST(GardenFile, AChangeThatIsRefusedLeavesTheDescription) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  const auto revision = file->revision().value();
  const auto refused =
      file->change_description([](GardenDescription& garden, std::size_t /*event_count*/) -> base::Result<void> {
        garden.name = "Renamed";
        return base::fail(ProblemCode::syntax, "is not read", {});
      });
  EXPECT_EQ(refused.error().code, ProblemCode::syntax);
  EXPECT_EQ(file->description()->name, small_garden().name);
  EXPECT_EQ(file->revision().value(), revision);
}

TEST(GardenFile, ReplacesTheWeather) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  const auto record = testing::large_garden().weather;
  ASSERT_TRUE(file->set_weather(record, {}));
  EXPECT_EQ(file->description()->weather.day_count(), record.day_count());
  ASSERT_TRUE(file->set_weather({}, {}));
  EXPECT_EQ(file->description()->weather.day_count(), 0U);
  climate::WeatherRecord torn = record;
  torn.series[2].value.pop_back();
  EXPECT_EQ(file->set_weather(torn, {}).error().code, ProblemCode::contradiction);
}

TEST(GardenFile, EveryWriteMakesTheRevisionGrow) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  auto last = file->revision().value();
  const auto grew = [&] { return std::exchange(last, file->revision().value()) < last; };
  ASSERT_TRUE(file->append({note("a")}));
  EXPECT_TRUE(grew());
  ASSERT_TRUE(file->set_weather({}, {}));
  EXPECT_TRUE(grew());
  ASSERT_TRUE(keep_plan(*file, {}, "{}"));
  EXPECT_TRUE(grew());
  ASSERT_TRUE(set_description(*file, small_garden()));
  EXPECT_TRUE(grew());
}

TEST(GardenFile, ABackupIsTheWholeGarden) {
  const TemporaryDirectory directory;
  auto file = GardenFile::create(directory.file("g"), small_garden());
  ASSERT_TRUE(file->append({note("a")}));
  ASSERT_TRUE(file->backup(directory.file("copy")));
  EXPECT_EQ(text_of(GardenFile::open(directory.file("copy")).value()), text_of(*file));
  EXPECT_EQ(file->backup(directory.file("copy")).error().code, ProblemCode::already_exists);
}

TEST(GardenFile, TwoWritersTakeTurns) {
  const TemporaryDirectory directory;
  auto one = GardenFile::create(directory.file("g"), small_garden());
  auto two = GardenFile::open(directory.file("g"));
  for (int i = 0; i < 20; ++i) {
    ASSERT_TRUE(one->append({note(fmt::format("one-{}", i))}));
    ASSERT_TRUE(two->append({note(fmt::format("two-{}", i))}));
  }
  const auto log = one->events().value();
  ASSERT_EQ(log.size(), 40U);
  for (std::size_t i = 0; i < log.size(); ++i) EXPECT_EQ(log[i].sequence, static_cast<std::int64_t>(i) + 1);
}

/// Writes entries until it is killed, and tells each one that was acknowledged.
[[noreturn]] void write_until_killed(const std::string& path, int acknowledge) {
  auto file = GardenFile::open(path);
  for (int i = 0; file; ++i) {
    if (!file->append({note(fmt::format("e-{}", i))})) break;
    if (::write(acknowledge, &i, sizeof(i)) != sizeof(i)) break;
  }
  ::_exit(1);
}

TEST(GardenFile, AKillLosesNothingAcknowledged) {
  const TemporaryDirectory directory;
  { ASSERT_TRUE(GardenFile::create(directory.file("g"), small_garden())); }
  std::size_t total = 0;
  for (int round = 0; round < 3; ++round) {
    const std::string path = directory.file("g");
    ASSERT_EQ(
        std::filesystem::copy_file(path, path + "-work", std::filesystem::copy_options::overwrite_existing),
        true);
    std::array<int, 2> pipe{};
    ASSERT_EQ(::pipe(pipe.data()), 0);
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) write_until_killed(path + "-work", pipe[1]);
    ::close(pipe[1]);
    int last = -1;
    const int wanted = 5 + 17 * round;
    while (last < wanted) ASSERT_EQ(::read(pipe[0], &last, sizeof(last)), static_cast<ssize_t>(sizeof(last)));
    ASSERT_EQ(::kill(child, SIGKILL), 0);
    ::waitpid(child, nullptr, 0);
    for (int more = 0; ::read(pipe[0], &more, sizeof(more)) == sizeof(more);) last = more;
    ::close(pipe[0]);
    auto file = GardenFile::open(path + "-work");
    ASSERT_TRUE(file) << base::to_text(file.error());
    const auto log = file->events().value();
    ASSERT_GE(log.size(), static_cast<std::size_t>(last) + 1);
    ASSERT_LE(log.size(), static_cast<std::size_t>(last) + 2)
        << "at most one entry was written but not yet told";
    for (std::size_t i = 0; i < log.size(); ++i) ASSERT_EQ(log[i].id, fmt::format("e-{}", i));
    EXPECT_TRUE(file->append({note("after")})) << "and it can be written again";
    total += log.size();
  }
  EXPECT_GT(total, 15U);
}

// Bad input: one clear problem, and the file is left as it was.

void expect_refused(const std::string& path, ProblemCode code) {
  const auto opened = GardenFile::open(path);
  ASSERT_FALSE(opened) << path;
  EXPECT_EQ(opened.error().code, code) << base::to_text(opened.error());
  EXPECT_EQ(opened.error().where.file, path);
  EXPECT_FALSE(opened.error().remedy.empty());
}

TEST(GardenFileBadInput, MissingEmptyDirectoryTextAndRandomBytes) {
  const TemporaryDirectory directory;
  expect_refused(directory.file("nothing"), ProblemCode::file_missing);
  expect_refused(directory.path(), ProblemCode::file_unreadable);
  ASSERT_TRUE(base::write_file(directory.file("empty"), ""));
  expect_refused(directory.file("empty"), ProblemCode::empty);
  ASSERT_TRUE(base::write_file(directory.file("text"), "name = \"a garden\"\n"));
  expect_refused(directory.file("text"), ProblemCode::wrong_version);
  base::RandomStream random(1, "tests.book.bytes");
  std::string bytes;
  for (int i = 0; i < 20000; ++i) bytes += static_cast<char>(random.bits());
  ASSERT_TRUE(base::write_file(directory.file("bytes"), bytes));
  expect_refused(directory.file("bytes"), ProblemCode::wrong_version);
  EXPECT_EQ(bytes_of(directory.file("bytes")), bytes);
  EXPECT_EQ(directory.names().size(), 3U);
}

TEST(GardenFileBadInput, AnSqliteFileOfAnotherProgramIsLeftAlone) {
  const TemporaryDirectory directory;
  {
    SQLite::Database(directory.file("db"), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("CREATE TABLE t (a)");
  }
  const std::string before = bytes_of(directory.file("db"));
  expect_refused(directory.file("db"), ProblemCode::wrong_version);
  EXPECT_EQ(bytes_of(directory.file("db")), before);
}

TEST(GardenFileBadInput, ANewerSchemaIsLeftAlone) {
  const TemporaryDirectory directory;
  { ASSERT_TRUE(GardenFile::create(directory.file("g"), small_garden())); }
  { SQLite::Database(directory.file("g"), SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 999"); }
  const std::string before = bytes_of(directory.file("g"));
  expect_refused(directory.file("g"), ProblemCode::wrong_version);
  EXPECT_EQ(bytes_of(directory.file("g")), before);
}

TEST(GardenFileBadInput, ATruncatedOrDamagedFileIsAProblemNotACrash) {
  const TemporaryDirectory directory;
  { ASSERT_TRUE(GardenFile::create(directory.file("g"), testing::large_garden())); }
  const std::string whole = bytes_of(directory.file("g"));
  base::RandomStream random(5, "tests.book.damage");
  int refused = 0;
  for (int i = 0; i < 40; ++i) {
    std::string damaged = whole;
    if (i % 2 == 0) {
      damaged.resize(100 + random.below(static_cast<std::uint32_t>(whole.size() - 200)));
    } else {
      for (int hit = 0; hit < 50; ++hit) {
        damaged[random.below(static_cast<std::uint32_t>(whole.size()))] = static_cast<char>(random.bits());
      }
    }
    const std::string path = directory.file(fmt::format("d{}", i));
    ASSERT_TRUE(base::write_file(path, damaged));
    auto file = GardenFile::open(path);
    const bool read = file && file->description() && file->events();
    EXPECT_TRUE(i % 2 == 1 || !read) << "truncated to " << damaged.size() << " of " << whole.size();
    refused += read ? 0 : 1;
  }
  EXPECT_GE(refused, 20);
}

TEST(GardenFileBadInput, ARowThatNoVersionWritesIsAProblem) {
  const TemporaryDirectory directory;
  { ASSERT_TRUE(GardenFile::create(directory.file("g"), small_garden())); }
  { SQLite::Database(directory.file("g"), SQLite::OPEN_READWRITE).exec("UPDATE bed SET sun = 'blazing'"); }
  const auto read = GardenFile::open(directory.file("g"))->description();
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ProblemCode::storage);
}

/// Runs a check as a user without special rights, since root may write anywhere.
bool holds_without_rights(const std::function<bool()>& check) {
  const pid_t child = ::fork();
  if (child == 0) {
    constexpr uid_t kNobody = 65534;
    if (::geteuid() == 0 && ::setuid(kNobody) != 0) ::_exit(2);
    ::_exit(check() ? 0 : 1);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

TEST(GardenFileBadInput, ADirectoryThatCannotBeWrittenIsAProblem) {
  const TemporaryDirectory directory;
  { ASSERT_TRUE(GardenFile::create(directory.file("g"), small_garden())); }
  ASSERT_EQ(::chmod(directory.path().c_str(), 0555), 0);
  const std::string path = directory.file("g");
  EXPECT_TRUE(holds_without_rights([&] {
    const auto opened = GardenFile::open(path);
    return !opened && opened.error().code == ProblemCode::storage && !opened.error().remedy.empty();
  }));
  EXPECT_TRUE(holds_without_rights([&] {
    const auto made = GardenFile::create(path + "2", small_garden());
    return !made && made.error().code == ProblemCode::storage;
  }));
  ASSERT_EQ(::chmod(directory.path().c_str(), 0755), 0);
  EXPECT_EQ(directory.names(), std::vector<std::string>{"g"});
}

// Wants and the plan.

TEST(GardenFileWants, HurryStoreWasteAndBuyingAreKeptInTheFileAndInText) {
  const TemporaryDirectory directory;
  GardenDescription garden = small_garden();
  plan::Want want;
  want.id = "w-store";
  want.crop = "onion";
  want.total = 20.0;
  want.unit = plan::WantUnit::servings;
  want.early = true;
  want.waste_dislike = 3.5;
  want.bought = true;
  garden.wants.push_back(want);
  const auto expect_kept = [](const plan::Want& kept) {
    EXPECT_TRUE(kept.early);
    EXPECT_EQ(kept.total, 20.0);
    EXPECT_EQ(kept.waste_dislike, 3.5);
    EXPECT_TRUE(kept.bought);
  };
  {
    const auto made = GardenFile::create(directory.file("g"), garden);
    ASSERT_TRUE(made) << base::to_text(made.error());
  }
  const auto file = GardenFile::open(directory.file("g"));
  ASSERT_TRUE(file);
  const auto read = file->description();
  ASSERT_TRUE(read) << base::to_text(read.error());
  expect_kept(read->wants.back());
  const auto text = parse_garden_toml(garden_toml(*read, {}), "garden.toml");
  ASSERT_TRUE(text) << base::to_text(text.error());
  expect_kept(text->garden.wants.back());
}

TEST(GardenFileStands, OneIsAddedWithItsEntriesOrNotAtAll) {
  const TemporaryDirectory directory;
  GardenDescription garden = small_garden();
  garden.stands.clear();
  auto file = GardenFile::create(directory.file("g"), garden);
  ASSERT_TRUE(file) << base::to_text(file.error());
  const stand::StandPlan stand{.id = "s9",
                               .crop = "beet",
                               .sow = date_of(2026, 5, 1),
                               .clumps = 10,
                               .bed = garden.beds[0].id,
                               .to_m = 0.1};
  Event sown{.id = "e1", .date = date_of(2026, 5, 1), .kind = EventKind::sown, .stand = "s9", .count = 20.0};
  Event counted = sown;
  counted.id = "e2";
  counted.kind = EventKind::counted;
  counted.count = 1e5;  // more than twenty seeds can give
  const std::string before = text_of(*file);
  EXPECT_FALSE(file->add_stand(stand, {sown, counted}));
  EXPECT_EQ(text_of(*file), before);
  ASSERT_TRUE(file->add_stand(stand, {sown}));
  EXPECT_EQ(file->description()->stands.back(), stand);
  EXPECT_EQ(file->events()->size(), 1U);
  EXPECT_FALSE(file->add_stand(stand, {})) << "its name is taken";
}

TEST(GardenFilePlan, TheLastAnswerIsThereWhenOpenedAgain) {
  const TemporaryDirectory directory;
  {
    auto file = GardenFile::create(directory.file("g"), small_garden());
    ASSERT_TRUE(file);
    EXPECT_EQ(file->plan_answer().value(), "");
    ASSERT_TRUE(keep_plan(*file, {}, "{\"gap\":0.2}"));
    ASSERT_TRUE(keep_plan(*file, {}, "{\"gap\":0.1}"));
  }
  const auto file = GardenFile::open(directory.file("g"));
  ASSERT_TRUE(file);
  EXPECT_EQ(file->plan_answer().value(), "{\"gap\":0.1}");
}

// Versions.

TEST(GardenFileVersions, AFileOfVersion1IsStillRead) {
  const TemporaryDirectory directory;
  const std::string kept = SOWTIDE_SOURCE_DIR "/tests/book/files/garden-version-1";
  ASSERT_TRUE(std::filesystem::copy_file(kept, directory.file("g")));
  auto file = GardenFile::open(directory.file("g"));
  ASSERT_TRUE(file) << base::to_text(file.error());
  EXPECT_EQ(text_of(*file), bytes_of(kept + ".txt"));
  const auto read = file->description();
  ASSERT_TRUE(read) << base::to_text(read.error());
  ASSERT_FALSE(read->wants.empty());
  for (const plan::Want& want : read->wants) EXPECT_FALSE(want.bought) << "version 10 asks for it";
  EXPECT_TRUE(file->append({note("new-entry")}));
  SQLite::Database database(directory.file("g"), SQLite::OPEN_READONLY);
  EXPECT_EQ(database.execAndGet("PRAGMA user_version").getInt(), detail::current_version());
}

TEST(GardenFileVersions, MigrationRunsTheStepsAboveTheFilesVersionInOneTransaction) {
  const TemporaryDirectory directory;
  { ASSERT_TRUE(GardenFile::create(directory.file("g"), small_garden())); }
  SQLite::Database database(directory.file("g"), SQLite::OPEN_READWRITE);
  auto steps = detail::migrations();
  const int next = detail::current_version() + 1;
  steps.push_back({next, "ALTER TABLE bed ADD COLUMN height_m REAL NOT NULL DEFAULT 0.25"});
  steps.push_back({next + 1, "INSERT INTO no_such_table VALUES (1)"});
  EXPECT_THROW(detail::migrate(database, steps), SQLite::Exception);
  EXPECT_EQ(database.execAndGet("PRAGMA user_version").getInt(), detail::current_version())
      << "nothing half-way";
  steps.pop_back();
  detail::migrate(database, steps);
  EXPECT_EQ(database.execAndGet("PRAGMA user_version").getInt(), next);
  EXPECT_EQ(database.execAndGet("SELECT sum(height_m) = 0.25 * count(*) FROM bed").getInt(), 1);
}

RC_GTEST_PROP(GardenFileLaws, AppendingInPiecesIsAppendingAtOnce, (std::uint64_t seed)) {
  const TemporaryDirectory directory;
  base::RandomStream random(seed, "tests.book.append");
  const GardenDescription garden = testing::random_garden(random);
  const auto log = testing::random_log(random, garden, 20);
  auto once = GardenFile::create(directory.file("once"), garden);
  auto pieces = GardenFile::create(directory.file("pieces"), garden);
  RC_ASSERT(once && pieces);
  RC_ASSERT(once->append(log).value() == log.size());
  for (std::size_t i = 0; i < log.size();) {
    const std::size_t length = 1 + random.below(6);
    const std::size_t end = std::min(log.size(), i + length);
    RC_ASSERT(pieces
                  ->append({log.begin() + static_cast<std::ptrdiff_t>(i),
                            log.begin() + static_cast<std::ptrdiff_t>(end)})
                  .has_value());
    i = end;
  }
  RC_ASSERT(text_of(*once) == text_of(*pieces));
}

}  // namespace
}  // namespace sowtide::book
