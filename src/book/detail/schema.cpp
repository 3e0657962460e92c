#include "book/detail/schema.hpp"

#include <fmt/format.h>

namespace sowtide::book::detail {
namespace {

// Weather is kept as one blob a variable (docs/decisions/0003-garden-file.md). `position` keeps the order in
// which people wrote their lists. References are by id, so that the file can be read with any SQLite tool.
constexpr const char* kVersion1 = R"sql(
CREATE TABLE garden (
  only INTEGER PRIMARY KEY CHECK (only = 1),
  name TEXT NOT NULL,
  units TEXT NOT NULL CHECK (units IN ('metric', 'us')),
  site_name TEXT NOT NULL,
  latitude_deg REAL NOT NULL,
  longitude_deg REAL NOT NULL,
  elevation_m REAL NOT NULL,
  normals_source TEXT,
  revision INTEGER NOT NULL
) STRICT;
CREATE TABLE normals (
  month INTEGER PRIMARY KEY CHECK (month BETWEEN 1 AND 12),
  tmax_c REAL NOT NULL,
  tmin_c REAL NOT NULL,
  precip_mm REAL NOT NULL,
  wet_days REAL
) STRICT;
CREATE TABLE bed (
  id TEXT PRIMARY KEY,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  length_m REAL NOT NULL,
  width_m REAL NOT NULL,
  sun TEXT NOT NULL,
  kind TEXT NOT NULL,
  fed INTEGER NOT NULL
) STRICT;
CREATE TABLE tray (
  id TEXT PRIMARY KEY,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  cells INTEGER NOT NULL,
  cell_width_mm REAL NOT NULL,
  place TEXT NOT NULL,
  temp_c REAL NOT NULL
) STRICT;
CREATE TABLE past_crop (
  position INTEGER PRIMARY KEY,
  bed TEXT NOT NULL REFERENCES bed (id) DEFERRABLE INITIALLY DEFERRED,
  from_m REAL NOT NULL,
  to_m REAL NOT NULL,
  family TEXT NOT NULL,
  year INTEGER NOT NULL
) STRICT;
CREATE TABLE variety (
  id TEXT PRIMARY KEY,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  crop TEXT NOT NULL,
  earliness REAL NOT NULL,
  size REAL NOT NULL,
  bolting_resistance REAL NOT NULL,
  single_germ INTEGER NOT NULL,
  colour TEXT NOT NULL,
  notes TEXT NOT NULL
) STRICT;
CREATE TABLE packet (
  id TEXT PRIMARY KEY,
  position INTEGER NOT NULL,
  crop TEXT NOT NULL,
  variety TEXT REFERENCES variety (id) DEFERRABLE INITIALLY DEFERRED,
  packed_year INTEGER NOT NULL,
  seeds REAL NOT NULL,
  germination_pct REAL,
  cost REAL NOT NULL
) STRICT;
CREATE TABLE want (
  id TEXT PRIMARY KEY,
  position INTEGER NOT NULL,
  crop TEXT,
  crop_group TEXT,
  variety TEXT REFERENCES variety (id) DEFERRABLE INITIALLY DEFERRED,
  amount_per_week REAL NOT NULL,
  unit TEXT NOT NULL,
  from_day TEXT NOT NULL,
  to_day TEXT NOT NULL,
  priority REAL NOT NULL,
  size TEXT NOT NULL
) STRICT;
CREATE TABLE stand (
  id TEXT PRIMARY KEY,
  position INTEGER NOT NULL,
  crop TEXT NOT NULL,
  variety TEXT REFERENCES variety (id) DEFERRABLE INITIALLY DEFERRED,
  method TEXT NOT NULL,
  sow TEXT NOT NULL,
  set_out TEXT,
  size TEXT NOT NULL,
  clumps INTEGER NOT NULL,
  plants_per_clump REAL NOT NULL,
  spacing_mm REAL NOT NULL,
  bed TEXT NOT NULL REFERENCES bed (id) DEFERRABLE INITIALLY DEFERRED,
  from_m REAL NOT NULL,
  to_m REAL NOT NULL,
  tray TEXT REFERENCES tray (id) DEFERRABLE INITIALLY DEFERRED,
  seeds_per_cell REAL NOT NULL,
  cells INTEGER NOT NULL,
  packet TEXT REFERENCES packet (id) DEFERRABLE INITIALLY DEFERRED
) STRICT;
CREATE TABLE weather (
  only INTEGER PRIMARY KEY CHECK (only = 1),
  site_name TEXT NOT NULL,
  latitude_deg REAL NOT NULL,
  longitude_deg REAL NOT NULL,
  elevation_m REAL NOT NULL,
  first_day TEXT NOT NULL,
  days INTEGER NOT NULL
) STRICT;
CREATE TABLE weather_series (
  variable TEXT PRIMARY KEY,
  value BLOB NOT NULL,
  origin BLOB NOT NULL
) STRICT;
CREATE TABLE event (
  sequence INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE CHECK (length(id) BETWEEN 1 AND 64),
  day TEXT NOT NULL,
  kind TEXT NOT NULL,
  stand TEXT REFERENCES stand (id),
  target TEXT,
  count REAL,
  grams REAL,
  litres REAL,
  diameter_mm REAL,
  text TEXT NOT NULL
) STRICT;
CREATE INDEX event_of_stand ON event (stand);
CREATE INDEX event_of_kind ON event (kind);
CREATE TRIGGER event_stays BEFORE UPDATE ON event BEGIN SELECT RAISE(ABORT, 'the log is only ever added to'); END;
CREATE TRIGGER event_is_kept BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, 'the log is only ever added to'); END;
)sql";

// Wants that hurry, are for storing, or mind waste; and the planner's last answer, so that it is still there after a restart.
constexpr const char* kVersion2 = R"sql(
ALTER TABLE want ADD COLUMN early INTEGER NOT NULL DEFAULT 0;
ALTER TABLE want ADD COLUMN total REAL NOT NULL DEFAULT 0;
ALTER TABLE want ADD COLUMN waste_dislike REAL NOT NULL DEFAULT 1;
CREATE TABLE plan_answer (
  only INTEGER PRIMARY KEY CHECK (only = 1),
  answer TEXT NOT NULL
) STRICT;
)sql";

// A warming that the grower chose to reckon with.
constexpr const char* kVersion3 = R"sql(
ALTER TABLE garden ADD COLUMN warming_c REAL NOT NULL DEFAULT 0;
)sql";

// What was found in the weather when it came in, so that a removed value is not forgotten.
constexpr const char* kVersion4 = R"sql(
CREATE TABLE weather_finding (
  position INTEGER PRIMARY KEY,
  day TEXT NOT NULL,
  variable TEXT NOT NULL,
  value REAL,
  finding TEXT NOT NULL,
  action TEXT NOT NULL,
  detail TEXT NOT NULL
) STRICT;
)sql";

// Which end of a bed lies towards the pole, for tall crops.
constexpr const char* kVersion5 = R"sql(
ALTER TABLE bed ADD COLUMN pole_end TEXT NOT NULL DEFAULT 'neither';
)sql";

// How many of a tray's cells have room on the heat mat at once.
constexpr const char* kVersion6 = R"sql(
ALTER TABLE tray ADD COLUMN mat_cells INTEGER NOT NULL DEFAULT 0;
)sql";

// The warmth that a planned stand's plan reckoned with.
constexpr const char* kVersion7 = R"sql(
ALTER TABLE stand ADD COLUMN planned_c REAL;
)sql";

// The warmth of where seedlings stand once they are off the heat mat.
constexpr const char* kVersion8 = R"sql(
ALTER TABLE tray ADD COLUMN room_c REAL;
UPDATE tray SET mat_cells = 0 WHERE mat_cells > cells;
)sql";

// What is left standing until it is wanted; a cool place to store in.
constexpr const char* kVersion9 = R"sql(
ALTER TABLE stand ADD COLUMN pick_from TEXT;
ALTER TABLE stand ADD COLUMN pick_weeks INTEGER NOT NULL DEFAULT 0;
ALTER TABLE garden ADD COLUMN cool_store INTEGER NOT NULL DEFAULT 0;
)sql";

// Wants whose plants are bought.
constexpr const char* kVersion10 = R"sql(
ALTER TABLE want ADD COLUMN bought INTEGER NOT NULL DEFAULT 0;
)sql";

}  // namespace

const std::vector<Migration>& migrations() {
  static const std::vector<Migration> steps{{1, kVersion1}, {2, kVersion2},  {3, kVersion3}, {4, kVersion4},
                                            {5, kVersion5}, {6, kVersion6},  {7, kVersion7}, {8, kVersion8},
                                            {9, kVersion9}, {10, kVersion10}};
  return steps;
}

int current_version() {
  return migrations().back().to_version;
}

void migrate(SQLite::Database& database, const std::vector<Migration>& steps) {
  database.exec("BEGIN IMMEDIATE");
  try {
    const int version = database.execAndGet("PRAGMA user_version").getInt();
    for (const Migration& step : steps) {
      if (step.to_version <= version) continue;
      database.exec(step.sql);
      database.exec(fmt::format("PRAGMA user_version = {}", step.to_version));
    }
    database.exec(fmt::format("PRAGMA application_id = {}", kApplicationId));
    database.exec("COMMIT");
  } catch (const SQLite::Exception&) {
    database.tryExec("ROLLBACK");
    throw;
  }
}

}  // namespace sowtide::book::detail
