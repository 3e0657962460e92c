#include "book/garden_file.hpp"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/SQLiteCpp.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <set>
#include <system_error>
#include <utility>

#include "book/corrections.hpp"
#include "book/detail/rows.hpp"
#include "book/detail/schema.hpp"
#include "book/event_check.hpp"
#include "book/garden_check.hpp"
#include "book/taken_back.hpp"

namespace sowtide::book {
namespace {

using base::fail;
using base::ProblemCode;

constexpr int kBusyTimeout_ms = 5000;

base::Place at(const std::string& path) {
  return {.file = path};
}

std::string remedy_for(int code) {
  constexpr int kPrimaryCodeMask = 0xFF;
  switch (code & kPrimaryCodeMask) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return "Another program is writing to it; try again when it is done";
    case SQLITE_FULL:
      return "Make room on the disk";
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return "The file is damaged; go back to a backup or an export";
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
      return "Check that the file and its directory may be written to";
    default:
      return "Check the disk, or go back to a backup or an export";
  }
}

base::Problem storage_problem(const std::string& path, const SQLite::Exception& error) {
  return {ProblemCode::storage, fmt::format("the garden file failed ({})", error.what()), at(path),
          remedy_for(error.getErrorCode())};
}

/// Runs what may throw and turns what it throws into a problem: no exception leaves the room.
template <class Action>
auto guarded(const std::string& path, Action action) -> decltype(action()) {
  try {
    return action();
  } catch (const SQLite::Exception& error) {
    return tl::make_unexpected(storage_problem(path, error));
  } catch (const detail::BadRow& row) {
    return fail(ProblemCode::storage,
                fmt::format("holds what no version of this program writes ({})", row.what), at(path),
                "Go back to a backup or an export");
  }
}

/// Absolute, since SQLite gives names such as ":memory:" and "file:..." a meaning of their own.
std::string plain_name(const std::string& path) {
  std::error_code error;
  const auto absolute = std::filesystem::absolute(path, error);
  return error ? "./" + path : absolute.string();
}

std::string temporary_name(const std::string& path) {
  static std::atomic<unsigned> counter{0};
  return fmt::format("{}.{}-{}.new", plain_name(path), ::getpid(), counter.fetch_add(1));
}

/// Removes a half-made file, and what SQLite put beside it, unless it was given its name.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::string& path) : path_(temporary_name(path)) { remove(); }
  ~TemporaryFile() { remove(); }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

  /// Gives the file its name, never over another file.
  [[nodiscard]] base::Result<void> rename_to(const std::string& path) const {
    int failed = ::renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE);
    if (failed != 0 && (errno == EINVAL || errno == ENOSYS)) {
      // File systems without that flag: the gap between the look and the rename is accepted.
      std::error_code error;
      failed = std::filesystem::exists(path, error) ? (errno = EEXIST, -1)
                                                    : std::rename(path_.c_str(), path.c_str());
    }
    if (failed == 0) return {};
    if (errno == EEXIST) return already_exists(path);
    return fail(ProblemCode::storage,
                fmt::format("cannot be written ({})", std::generic_category().message(errno)), at(path),
                "Check that the directory may be written to");
  }

  static tl::unexpected<base::Problem> already_exists(const std::string& path) {
    return fail(ProblemCode::already_exists, "is there already", at(path),
                "Choose another name, or move the file away");
  }

 private:
  void remove() const {
    for (const char* ending : {"", "-journal", "-wal", "-shm"}) ::unlink((path_ + ending).c_str());
  }
  std::string path_;
};

constexpr std::string_view kMagic{"SQLite format 3\0", 16};

/// Tells whether a file can be a garden before SQLite touches it.
base::Result<void> look_at(const std::string& path) {
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) {
    return fail(ProblemCode::file_unreadable, "is a directory, not a garden file", at(path),
                "Name a file in it");
  }
  std::ifstream file(path, std::ios::binary);
  if (!file) {
    return fail(ProblemCode::file_missing, "cannot be opened", at(path),
                "Check its name, or make a garden with `sowtide new`");
  }
  std::array<char, kMagic.size()> head{};
  file.read(head.data(), head.size());
  if (file.gcount() == 0) {
    return fail(ProblemCode::empty, "is empty, not a garden file", at(path),
                "Make a garden with `sowtide new`");
  }
  if (!looks_like_garden_file({head.data(), static_cast<std::size_t>(file.gcount())})) {
    return fail(ProblemCode::wrong_version, "is not a garden file", at(path),
                "A description in TOML becomes one with `sowtide new GARDEN --from FILE.toml`");
  }
  return {};
}

/// Refuses files of other programs and of newer versions; brings older ones forward.
base::Result<void> settle_version(SQLite::Database& database, const std::string& path) {
  const int application = database.execAndGet("PRAGMA application_id").getInt();
  const int version = database.execAndGet("PRAGMA user_version").getInt();
  if (application != detail::kApplicationId || version < 1) {
    return fail(ProblemCode::wrong_version, "is an SQLite file of another program", at(path),
                "Name a garden file");
  }
  if (version > detail::current_version()) {
    return fail(ProblemCode::wrong_version,
                fmt::format("was written by a newer program (version {} of the file, this one knows {})",
                            version, detail::current_version()),
                at(path), "Install the newer program; the file was left as it is");
  }
  if (version < detail::current_version()) detail::migrate(database, detail::migrations());
  return {};
}

void set_up_connection(SQLite::Database& database) {
  // A garden file may come from elsewhere: nothing in its schema is trusted to have side effects.
  database.exec("PRAGMA trusted_schema = OFF");
  database.exec("PRAGMA cell_size_check = ON");
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA synchronous = FULL");
}

std::set<std::string, std::less<>> texts_of(const SQLite::Database& database, const char* sql) {
  std::set<std::string, std::less<>> texts;
  SQLite::Statement statement(database, sql);
  while (statement.executeStep()) texts.insert(statement.getColumn(0).getString());
  return texts;
}

/// The context of what the file holds. Entries of earlier days are taken as they are: a garden of an older
/// program, which let contradictions pass, still takes new entries.
EventContext context_of(const SQLite::Database& database) {
  EventContext context = EventContext::of(detail::load_description(database));
  for (const Event& event : detail::load_events(database)) context.take(event);
  context.has_event = [&database](const std::string& id) {
    return detail::find_event(database, id).has_value();
  };
  return context;
}

/// The description with its weather.
GardenDescription load_whole(const SQLite::Database& database) {
  GardenDescription garden = detail::load_description(database);
  garden.weather = detail::load_weather(database);
  garden.weather_findings = detail::load_weather_findings(database);
  return garden;
}

void save_all(SQLite::Database& database, const GardenDescription& garden, const std::vector<Event>& events) {
  SQLite::Transaction transaction(database);
  detail::save_description(database, garden);
  int position = 0;
  for (const stand::StandPlan& plan : garden.stands) detail::insert_stand(database, plan, position++);
  detail::save_weather(database, garden.weather, garden.weather_findings);
  detail::EventInserter inserter(database);
  for (const Event& event : events) inserter.insert(event);
  transaction.commit();
}

tl::unexpected<base::Problem> no_stand(const std::string& path, const std::string& id, std::string field) {
  return fail(ProblemCode::not_found, fmt::format("there is no stand \"{}\" in this garden", id.substr(0, 70)),
              {.file = path, .field = std::move(field)}, "Name one of its stands");
}

base::Problem in_events(base::Problem problem, std::size_t index) {
  problem.where.field = fmt::format("events[{}].{}", index, problem.where.field);
  return problem;
}

/// Puts entries behind the others, within a write: what the log holds already is read once.
class LogWriter {
 public:
  LogWriter(SQLite::Database& database, const std::string& path)
      : database_(database),
        path_(path),
        context_(context_of(database)),
        inserter_(database),
        last_(database.execAndGet("SELECT coalesce(max(sequence), 0) FROM event").getInt64()) {}

  /// Whether the entry was new; it is not when the log holds the same already.
  base::Result<bool> take(Event event) {
    if (const auto known = detail::find_event(database_, event.id)) {
      if (same_content(*known, event)) return false;
      return fail(ProblemCode::contradiction, fmt::format("another entry has the id \"{}\"", event.id),
                  {.file = path_, .field = "id"},
                  "Give the entry an id of its own; to put right what is written, add a correction");
    }
    if (auto checked = check_event(event, context_); !checked) {
      base::Problem problem = checked.error();
      problem.where.file = path_;
      return tl::make_unexpected(std::move(problem));
    }
    event.sequence = ++last_;
    inserter_.insert(event);
    context_.take(event);
    return true;
  }

 private:
  SQLite::Database& database_;
  const std::string& path_;
  EventContext context_;
  detail::EventInserter inserter_;
  std::int64_t last_;
};

}  // namespace

bool looks_like_garden_file(std::string_view bytes) noexcept {
  return bytes.starts_with(kMagic);
}

struct GardenFile::Impl {
  std::string path;
  mutable SQLite::Database database;

  /// Runs a write in one transaction; a failure leaves everything as it was. The action says whether it
  /// changed anything; only then does the revision grow.
  template <class Action>
  base::Result<void> write(Action action) {
    return guarded(path, [&]() -> base::Result<void> {
      database.exec("BEGIN IMMEDIATE");
      try {
        base::Result<bool> changed = action();
        if (!changed || !*changed) {
          database.exec("ROLLBACK");
          if (!changed) return tl::make_unexpected(changed.error());
          return {};
        }
        database.exec("UPDATE garden SET revision = revision + 1");
        database.exec("COMMIT");
        return {};
      } catch (...) {
        database.tryExec("ROLLBACK");
        throw;
      }
    });
  }

  /// Puts entries behind the others, within a write; how many were new.
  base::Result<std::size_t> insert_events(const std::vector<Event>& events) {
    std::size_t added = 0;
    LogWriter log(database, path);
    for (std::size_t i = 0; i < events.size(); ++i) {
      const auto taken = log.take(events[i]);
      if (!taken) return tl::make_unexpected(in_events(taken.error(), i));
      added += *taken ? 1 : 0;
    }
    return added;
  }

  /// Takes out the stands that the log never named and puts these in; one that it named, but of which nothing
  /// stands any more, is changed to what is planned of it now.
  void replace_stands(const std::vector<stand::StandPlan>& stands) {
    database.exec("DELETE FROM stand WHERE id NOT IN (SELECT stand FROM event WHERE stand IS NOT NULL)");
    const auto there = texts_of(database, "SELECT id FROM stand");
    int position = database.execAndGet("SELECT coalesce(max(position), -1) + 1 FROM stand").getInt();
    for (const stand::StandPlan& plan : stands) {
      if (there.contains(plan.id)) {
        detail::update_stand(database, plan);
      } else {
        detail::insert_stand(database, plan, position++);
      }
    }
  }

  /// Reads in one transaction, so that a writer beside does not show through half-way.
  template <class Action>
  auto read(Action action) const -> base::Result<decltype(action())> {
    return guarded(path, [&]() -> base::Result<decltype(action())> {
      SQLite::Transaction transaction(database);
      auto result = action();
      transaction.commit();
      return result;
    });
  }
};

GardenFile::GardenFile(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
GardenFile::GardenFile(GardenFile&&) noexcept = default;
GardenFile& GardenFile::operator=(GardenFile&&) noexcept = default;
GardenFile::~GardenFile() = default;

base::Result<GardenFile> GardenFile::create(const std::string& path, const GardenDescription& garden,
                                            const std::vector<Event>& events) {
  std::error_code error;
  if (std::filesystem::exists(std::filesystem::symlink_status(path, error)))
    return TemporaryFile::already_exists(path);
  if (auto checked = check_description(garden); !checked) return tl::make_unexpected(checked.error());
  if (auto checked = check_weather(garden.weather); !checked) return tl::make_unexpected(checked.error());
  const auto log = check_log(garden, events);
  if (!log) return tl::make_unexpected(log.error());
  const TemporaryFile temporary(path);
  auto made = guarded(path, [&]() -> base::Result<void> {
    SQLite::Database database(temporary.path(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE,
                              kBusyTimeout_ms);
    set_up_connection(database);
    detail::migrate(database, detail::migrations());
    save_all(database, garden, *log);
    return {};
  });
  if (!made) return tl::make_unexpected(made.error());
  if (auto renamed = temporary.rename_to(path); !renamed) return tl::make_unexpected(renamed.error());
  return open(path);
}

base::Result<GardenFile> GardenFile::open(const std::string& path) {
  if (auto looked = look_at(path); !looked) return tl::make_unexpected(looked.error());
  return guarded(path, [&]() -> base::Result<GardenFile> {
    SQLite::Database database(plain_name(path), SQLite::OPEN_READWRITE, kBusyTimeout_ms);
    set_up_connection(database);
    if (auto settled = settle_version(database, path); !settled) return tl::make_unexpected(settled.error());
    const std::string mode = database.execAndGet("PRAGMA journal_mode = WAL").getString();
    if (mode != "wal") {
      return fail(ProblemCode::storage, fmt::format("cannot keep a write-ahead log (mode {})", mode),
                  at(path), "Keep the garden on a local disk");
    }
    return GardenFile(std::make_unique<Impl>(Impl{path, std::move(database)}));
  });
}

base::Result<GardenDescription> GardenFile::description() const {
  return impl_->read([this] { return load_whole(impl_->database); });
}

base::Result<std::vector<Event>> GardenFile::events() const {
  return impl_->read([this] { return detail::load_events(impl_->database); });
}

base::Result<std::size_t> GardenFile::append(const std::vector<Event>& events) {
  std::size_t added = 0;
  auto written = impl_->write([&]() -> base::Result<bool> {
    const auto taken = impl_->insert_events(events);
    if (!taken) return tl::make_unexpected(taken.error());
    added = *taken;
    return added > 0;
  });
  if (!written) return tl::make_unexpected(written.error());
  return added;
}

base::Result<std::vector<base::Result<bool>>> GardenFile::append_each(const std::vector<Event>& events) {
  std::vector<base::Result<bool>> outcomes;
  outcomes.reserve(events.size());
  auto written = impl_->write([&]() -> base::Result<bool> {
    LogWriter log(impl_->database, impl_->path);
    for (const Event& event : events) outcomes.push_back(log.take(event));
    return std::any_of(outcomes.begin(), outcomes.end(), [](const auto& taken) { return taken && *taken; });
  });
  if (!written) return tl::make_unexpected(written.error());
  return outcomes;
}

base::Result<void> GardenFile::add_stand(const stand::StandPlan& stand, const std::vector<Event>& events) {
  return impl_->write([&]() -> base::Result<bool> {
    SQLite::Database& database = impl_->database;
    GardenDescription garden = detail::load_description(database);
    garden.stands.push_back(stand);
    if (auto checked = check_description(garden); !checked) return tl::make_unexpected(checked.error());
    const int position = database.execAndGet("SELECT coalesce(max(position), -1) + 1 FROM stand").getInt();
    detail::insert_stand(database, stand, position);
    if (const auto taken = impl_->insert_events(events); !taken) return tl::make_unexpected(taken.error());
    return true;
  });
}

base::Result<void> GardenFile::set_weather(const climate::WeatherRecord& record,
                                           const std::vector<climate::QualityFinding>& findings) {
  if (auto checked = check_weather(record); !checked) return checked;
  return impl_->write([&]() -> base::Result<bool> {
    detail::save_weather(impl_->database, record, findings);
    return true;
  });
}

base::Result<void> GardenFile::keep_plan(const PlanFit& fit, base::Date day) {
  return impl_->write([&]() -> base::Result<bool> {
    SQLite::Database& database = impl_->database;
    const std::vector<Event> events = detail::load_events(database);
    GardenDescription garden = load_whole(database);
    const auto plan = fit(garden, events);
    if (!plan) return tl::make_unexpected(plan.error());
    const auto begun = stands_of_log(events);
    const auto gone = taken_back(events);
    std::vector<Event> given_up;
    const auto leaves = [&](const stand::StandPlan& old) {
      if (begun.contains(old.id) || gone.contains(old.id)) return false;
      const bool kept = std::any_of(plan->stands.begin(), plan->stands.end(),
                                    [&](const auto& each) { return each.id == old.id; });
      // What was written of it and taken back again still names it: its row stays, and nothing of it counts.
      auto back = kept ? std::optional<Event>{} : taking_back(old.id, events, day).value_or(std::nullopt);
      if (back) given_up.push_back(*std::move(back));
      return true;
    };
    std::erase_if(garden.stands, leaves);
    garden.stands.insert(garden.stands.end(), plan->stands.begin(), plan->stands.end());
    if (auto checked = check_description(garden); !checked) return tl::make_unexpected(checked.error());
    if (const auto taken = impl_->insert_events(given_up); !taken) return tl::make_unexpected(taken.error());
    impl_->replace_stands(plan->stands);
    SQLite::Statement keep(database, "INSERT OR REPLACE INTO plan_answer VALUES (1, ?)");
    keep.bind(1, plan->answer);
    keep.exec();
    return true;
  });
}

base::Result<void> GardenFile::update_stand(const stand::StandPlan& stand, const std::vector<Event>& events) {
  return impl_->write([&]() -> base::Result<bool> {
    const GardenDescription garden = detail::load_description(impl_->database);
    const auto is_it = [&stand](const stand::StandPlan& plan) { return plan.id == stand.id; };
    if (std::none_of(garden.stands.begin(), garden.stands.end(), is_it))
      return no_stand(impl_->path, stand.id, "stand.id");
    if (auto checked = check_stand_plan(garden, stand, "stand"); !checked)
      return tl::make_unexpected(checked.error());
    detail::update_stand(impl_->database, stand);
    if (const auto taken = impl_->insert_events(events); !taken) return tl::make_unexpected(taken.error());
    return true;
  });
}

base::Result<void> GardenFile::take_back_stand(const std::string& stand, base::Date day) {
  return impl_->write([&]() -> base::Result<bool> {
    SQLite::Database& database = impl_->database;
    const std::vector<Event> events = detail::load_events(database);
    if (!texts_of(database, "SELECT id FROM stand").contains(stand) || taken_back(events).contains(stand))
      return no_stand(impl_->path, stand, "stand");
    const auto correction = taking_back(stand, events, day);
    if (!correction) return tl::make_unexpected(correction.error());
    if (*correction) {
      if (const auto taken = impl_->insert_events({**correction}); !taken)
        return tl::make_unexpected(taken.error());
      return true;
    }
    SQLite::Statement remove(database, "DELETE FROM stand WHERE id = ?");
    remove.bind(1, stand);
    remove.exec();
    return true;
  });
}

base::Result<void> GardenFile::change_description(const DescriptionChange& change) {
  return impl_->write([&]() -> base::Result<bool> {
    SQLite::Database& database = impl_->database;
    GardenDescription garden = load_whole(database);
    const std::vector<stand::StandPlan> stands = garden.stands;
    const int event_count = database.execAndGet("SELECT count(*) FROM event").getInt();
    if (auto changed = change(garden, static_cast<std::size_t>(event_count)); !changed)
      return tl::make_unexpected(changed.error());
    garden.stands = stands;
    if (auto checked = check_description(garden); !checked) return tl::make_unexpected(checked.error());
    detail::save_description(database, garden);
    const auto lost =
        texts_of(database,
                 "SELECT target FROM event WHERE kind IN ('watered', 'fed') AND target IS NOT NULL "
                 "AND target NOT IN (SELECT id FROM bed)");
    if (lost.empty()) return true;
    return fail(ProblemCode::contradiction,
                fmt::format("bed \"{}\" is named in the log and cannot go", *lost.begin()),
                {.file = impl_->path, .field = "beds"}, "Keep the bed");
  });
}

base::Result<std::string> GardenFile::plan_answer() const {
  return impl_->read([this] {
    return impl_->database.execAndGet("SELECT coalesce(max(answer), '') FROM plan_answer").getString();
  });
}

base::Result<std::int64_t> GardenFile::revision() const {
  return impl_->read([this] { return impl_->database.execAndGet("SELECT revision FROM garden").getInt64(); });
}

base::Result<void> GardenFile::backup(const std::string& path) const {
  std::error_code error;
  if (std::filesystem::exists(std::filesystem::symlink_status(path, error)))
    return TemporaryFile::already_exists(path);
  const TemporaryFile temporary(path);
  auto copied = guarded(path, [&]() -> base::Result<void> {
    constexpr int kAllPages = -1;
    SQLite::Database copy(temporary.path(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, kBusyTimeout_ms);
    SQLite::Backup backup(copy, impl_->database);
    backup.executeStep(kAllPages);
    return {};
  });
  if (!copied) return copied;
  return temporary.rename_to(path);
}

}  // namespace sowtide::book
