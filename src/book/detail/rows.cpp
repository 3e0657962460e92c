#include "book/detail/rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <limits>

#include "book/words.hpp"

namespace sowtide::book::detail {
namespace {

// Blobs hold IEEE doubles with the low byte first, so that a file can move between machines.
static_assert(std::endian::native == std::endian::little, "weather blobs are written as they lie in memory");

/// Binds the parameters of a statement from left to right.
class Binder {
 public:
  explicit Binder(SQLite::Statement& statement) : statement_(statement) {}
  Binder& text(const std::string& value) {
    statement_.bind(next_++, value);
    return *this;
  }
  Binder& text(std::string_view value) { return text(std::string(value)); }
  /// An empty text is stored as NULL, so that references hold.
  Binder& text_or_null(const std::string& value) {
    if (!value.empty()) return text(value);
    return null();
  }
  Binder& number(double value) {
    statement_.bind(next_++, value);
    return *this;
  }
  Binder& number(const std::optional<double>& value) { return value ? number(*value) : null(); }
  Binder& whole(std::int64_t value) {
    statement_.bind(next_++, value);
    return *this;
  }
  Binder& day(base::Date value) { return text(base::to_iso(value)); }
  Binder& day(const std::optional<base::Date>& value) { return value ? day(*value) : null(); }
  Binder& blob(const void* bytes, std::size_t size) {
    statement_.bind(next_++, bytes, static_cast<int>(size));
    return *this;
  }
  void execute() {
    statement_.exec();
    statement_.reset();
    next_ = 1;
  }

 private:
  Binder& null() {
    statement_.bind(next_++);
    return *this;
  }
  SQLite::Statement& statement_;
  int next_ = 1;
};

/// Reads the columns of a row from left to right.
class Row {
 public:
  explicit Row(SQLite::Statement& statement) : statement_(statement) {}
  std::string text() { return next().getString(); }
  double number() { return next().getDouble(); }
  std::optional<double> optional_number() {
    const SQLite::Column column = next();
    return column.isNull() ? std::nullopt : std::optional(column.getDouble());
  }
  int whole() {
    const std::int64_t value = next().getInt64();
    if (value < std::numeric_limits<int>::min() || value > std::numeric_limits<int>::max()) {
      throw BadRow{fmt::format("{} is too large a number", value)};
    }
    return static_cast<int>(value);
  }
  std::int64_t large_whole() { return next().getInt64(); }
  bool flag() { return next().getInt() != 0; }
  base::Date day() { return day_of(text()); }
  std::optional<base::Date> optional_day() {
    const SQLite::Column column = next();
    return column.isNull() ? std::nullopt : std::optional(day_of(column.getString()));
  }
  base::MonthDay month_day() {
    const std::string word = text();
    const auto day = base::parse_month_day(word);
    if (!day) throw BadRow{day.error().what};
    return *day;
  }
  template <class Enumeration, std::size_t N>
  Enumeration choice(const std::array<std::string_view, N>& words) {
    const std::string word = text();
    const auto place = place_of(words, word);
    if (!place) throw BadRow{fmt::format("\"{}\" is not a word that is known here", word.substr(0, 60))};
    return static_cast<Enumeration>(*place);
  }
  SQLite::Column next() { return statement_.getColumn(next_++); }

 private:
  static base::Date day_of(const std::string& word) {
    const auto date = base::parse_iso_date(word);
    if (!date) throw BadRow{date.error().what};
    return *date;
  }
  SQLite::Statement& statement_;
  int next_ = 0;
};

template <class Take>
void for_each_row(const SQLite::Database& database, const char* sql, Take take) {
  SQLite::Statement statement(database, sql);
  while (statement.executeStep()) {
    Row row(statement);
    take(row);
  }
}

// Fields of braced lists are evaluated from left to right, so a row is read in the order of its columns.

climate::Site read_site(Row& row) {
  return {row.text(), row.number(), row.number(), row.number()};
}

void load_garden(const SQLite::Database& database, GardenDescription& garden) {
  bool found = false;
  for_each_row(database,
               "SELECT name, units, site_name, latitude_deg, longitude_deg, elevation_m, normals_source, "
               "warming_c, cool_store "
               "FROM garden",
               [&](Row& row) {
                 found = true;
                 garden.name = row.text();
                 garden.units = row.text();
                 garden.site = read_site(row);
                 const SQLite::Column source = row.next();
                 if (!source.isNull()) garden.normals.emplace().source = source.getString();
                 garden.warming_c = row.number();
                 garden.cool_store = row.whole() != 0;
               });
  if (!found) throw BadRow{"it holds no garden"};
  if (!garden.normals) return;
  std::array<double, 12> wet_days{};
  std::size_t months = 0;
  std::size_t wet_months = 0;
  for_each_row(database, "SELECT tmax_c, tmin_c, precip_mm, wet_days FROM normals ORDER BY month",
               [&](Row& row) {
                 if (months == wet_days.size()) throw BadRow{"it holds more than twelve months"};
                 garden.normals->tmax_c[months] = row.number();
                 garden.normals->tmin_c[months] = row.number();
                 garden.normals->precip_mm[months] = row.number();
                 const auto days = row.optional_number();
                 wet_days[months++] = days.value_or(0.0);
                 wet_months += days ? 1U : 0U;
               });
  if (months != wet_days.size()) throw BadRow{"its normals are not of twelve months"};
  if (wet_months == months) garden.normals->wet_days = wet_days;
}

void load_places(const SQLite::Database& database, GardenDescription& garden) {
  for_each_row(database, "SELECT id, name, length_m, width_m, sun, kind, fed, pole_end FROM bed ORDER BY position",
               [&](Row& row) {
                 garden.beds.push_back({row.text(), row.text(), row.number(), row.number(),
                                        row.choice<bed::SunClass>(kSunWords),
                                        row.choice<bed::BedKind>(kBedKindWords), row.flag(),
                                        row.choice<bed::PoleEnd>(kPoleEndWords)});
               });
  for_each_row(
      database,
      "SELECT id, name, cells, cell_width_mm, place, temp_c, mat_cells, room_c FROM tray ORDER BY position",
      [&](Row& row) {
        garden.trays.push_back({row.text(), row.text(), row.whole(), row.number(),
                                row.choice<bed::TrayPlace>(kTrayPlaceWords), row.number(), row.whole(),
                                row.optional_number()});
      });
  for_each_row(database, "SELECT bed, from_m, to_m, family, year FROM past_crop ORDER BY position",
               [&](Row& row) {
                 garden.past.push_back({row.text(), row.number(), row.number(), row.text(), row.whole()});
               });
}

void load_seed_and_wants(const SQLite::Database& database, GardenDescription& garden) {
  for_each_row(
      database,
      "SELECT id, name, crop, earliness, size, bolting_resistance, single_germ, colour, notes FROM variety "
      "ORDER BY position",
      [&](Row& row) {
        garden.varieties.push_back({row.text(), row.text(), row.text(), row.number(), row.number(),
                                    row.number(), row.flag(), row.text(), row.text()});
      });
  for_each_row(
      database,
      "SELECT id, crop, variety, packed_year, seeds, germination_pct, cost FROM packet ORDER BY position",
      [&](Row& row) {
        garden.packets.push_back({row.text(), row.text(), row.text(), row.whole(), row.number(),
                                  row.optional_number(), row.number()});
      });
  for_each_row(
      database,
      "SELECT id, crop, crop_group, variety, amount_per_week, unit, from_day, to_day, priority, size, early, "
      "total, waste_dislike, bought FROM want "
      "ORDER BY position",
      [&](Row& row) {
        garden.wants.push_back({row.text(), row.text(), row.text(), row.text(), row.number(),
                                row.choice<plan::WantUnit>(kWantUnitWords), row.month_day(), row.month_day(),
                                row.number(), row.choice<stand::SizeGoal>(kSizeWords), row.flag(),
                                row.number(), row.number(), row.flag()});
      });
}

void load_stands(const SQLite::Database& database, GardenDescription& garden) {
  for_each_row(
      database,
      "SELECT id, crop, variety, method, sow, set_out, size, clumps, plants_per_clump, spacing_mm, bed, "
      "from_m, to_m, tray, seeds_per_cell, cells, packet, planned_c, pick_from, pick_weeks FROM stand ORDER "
      "BY position",
      [&](Row& row) {
        garden.stands.push_back({.id = row.text(),
                                 .crop = row.text(),
                                 .variety = row.text(),
                                 .method = row.choice<stand::Method>(kMethodWords),
                                 .sow = row.day(),
                                 .set_out = row.optional_day(),
                                 .size = row.choice<stand::SizeGoal>(kSizeWords),
                                 .clumps = row.whole(),
                                 .plants_per_clump = row.number(),
                                 .spacing_mm = row.number(),
                                 .bed = row.text(),
                                 .from_m = row.number(),
                                 .to_m = row.number(),
                                 .tray = row.text(),
                                 .seeds_per_cell = row.number(),
                                 .cells = row.whole(),
                                 .packet = row.text(),
                                 .planned_c = row.optional_number(),
                                 .pick_from = row.optional_day(),
                                 .pick_weeks = row.whole()});
      });
}

void save_garden_row(SQLite::Database& database, const GardenDescription& garden) {
  SQLite::Statement statement(
      database,
      "INSERT INTO garden (only, name, units, site_name, latitude_deg, longitude_deg, elevation_m, "
      "warming_c, cool_store, normals_source, "
      "revision) VALUES (1, ?, ?, ?, ?, ?, ?, ?, ?, ?, 0) ON CONFLICT (only) DO UPDATE SET name = "
      "excluded.name, "
      "units = excluded.units, site_name = excluded.site_name, latitude_deg = excluded.latitude_deg, "
      "longitude_deg = excluded.longitude_deg, elevation_m = excluded.elevation_m, "
      "normals_source = excluded.normals_source, warming_c = excluded.warming_c, "
      "cool_store = excluded.cool_store");
  Binder binder(statement);
  binder.text(garden.name).text(garden.units).text(garden.site.name).number(garden.site.latitude_deg);
  binder.number(garden.site.longitude_deg).number(garden.site.elevation_m).number(garden.warming_c);
  binder.whole(garden.cool_store ? 1 : 0);
  // Not text_or_null: normals without a source are normals all the same.
  if (garden.normals) binder.text(garden.normals->source);
  binder.execute();
}

void save_normals(SQLite::Database& database, const GardenDescription& garden) {
  if (!garden.normals) return;
  SQLite::Statement statement(database, "INSERT INTO normals VALUES (?, ?, ?, ?, ?)");
  Binder binder(statement);
  for (std::size_t month = 0; month < 12; ++month) {
    const auto& wet_days = garden.normals->wet_days;
    binder.whole(static_cast<int>(month) + 1).number(garden.normals->tmax_c[month]);
    binder.number(garden.normals->tmin_c[month]).number(garden.normals->precip_mm[month]);
    binder.number(wet_days ? std::optional((*wet_days)[month]) : std::nullopt).execute();
  }
}

void save_places(SQLite::Database& database, const GardenDescription& garden) {
  SQLite::Statement beds(database, "INSERT INTO bed VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
  SQLite::Statement trays(database, "INSERT INTO tray VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
  SQLite::Statement past(database, "INSERT INTO past_crop VALUES (?, ?, ?, ?, ?, ?)");
  int position = 0;
  for (const bed::Bed& bed : garden.beds) {
    Binder binder(beds);
    binder.text(bed.id).whole(position++).text(bed.name).number(bed.length_m).number(bed.width_m);
    binder.text(word_of(kSunWords, bed.sun))
        .text(word_of(kBedKindWords, bed.kind))
        .whole(bed.fed ? 1 : 0)
        .text(word_of(kPoleEndWords, bed.pole_end))
        .execute();
  }
  for (const bed::Tray& tray : garden.trays) {
    Binder binder(trays);
    binder.text(tray.id).whole(position++).text(tray.name).whole(tray.cells).number(tray.cell_width_mm);
    binder.text(word_of(kTrayPlaceWords, tray.place)).number(tray.temp_c).whole(tray.mat_cells);
    binder.number(tray.room_c).execute();
  }
  for (const bed::PastCrop& crop : garden.past) {
    Binder binder(past);
    binder.whole(position++).text(crop.bed).number(crop.from_m).number(crop.to_m).text(crop.family);
    binder.whole(crop.year).execute();
  }
}

void save_seed(SQLite::Database& database, const GardenDescription& garden) {
  SQLite::Statement varieties(database, "INSERT INTO variety VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  SQLite::Statement packets(database, "INSERT INTO packet VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
  int position = 0;
  for (const crop::Variety& variety : garden.varieties) {
    Binder binder(varieties);
    binder.text(variety.id).whole(position++).text(variety.name).text(variety.crop).number(variety.earliness);
    binder.number(variety.size).number(variety.bolting_resistance).whole(variety.single_germ ? 1 : 0);
    binder.text(variety.colour).text(variety.notes).execute();
  }
  for (const crop::Packet& packet : garden.packets) {
    Binder binder(packets);
    binder.text(packet.id).whole(position++).text(packet.crop).text_or_null(packet.variety);
    binder.whole(packet.packed_year)
        .number(packet.seeds)
        .number(packet.germination_pct)
        .number(packet.cost)
        .execute();
  }
}

void save_wants(SQLite::Database& database, const GardenDescription& garden) {
  SQLite::Statement wants(database, "INSERT INTO want VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  int position = 0;
  for (const plan::Want& want : garden.wants) {
    Binder binder(wants);
    binder.text(want.id).whole(position++).text_or_null(want.crop).text_or_null(want.group);
    binder.text_or_null(want.variety).number(want.amount_per_week).text(word_of(kWantUnitWords, want.unit));
    binder.text(base::to_text(want.from)).text(base::to_text(want.to)).number(want.priority);
    binder.text(word_of(kSizeWords, want.size)).whole(want.early ? 1 : 0).number(want.total);
    binder.number(want.waste_dislike).whole(want.bought ? 1 : 0).execute();
  }
}

/// Binds all of a stand but its id and position.
void bind_stand(Binder& binder, const stand::StandPlan& plan) {
  binder.text(plan.crop).text_or_null(plan.variety).text(word_of(kMethodWords, plan.method)).day(plan.sow);
  binder.day(plan.set_out)
      .text(word_of(kSizeWords, plan.size))
      .whole(plan.clumps)
      .number(plan.plants_per_clump);
  binder.number(plan.spacing_mm).text(plan.bed).number(plan.from_m).number(plan.to_m).text_or_null(plan.tray);
  binder.number(plan.seeds_per_cell).whole(plan.cells).text_or_null(plan.packet).number(plan.planned_c);
  binder.day(plan.pick_from).whole(plan.pick_weeks);
}

/// An entry of the log from its columns, in the order of the table.
Event read_event(Row& row) {
  Event event;
  event.sequence = row.large_whole();
  event.id = row.text();
  event.date = row.day();
  const std::string kind = row.text();
  const auto parsed = parse_event_kind(kind);
  if (!parsed) throw BadRow{fmt::format("\"{}\" is no kind of entry", kind.substr(0, 60))};
  event.kind = *parsed;
  event.stand = row.text();
  event.target = row.text();
  event.count = row.optional_number();
  event.grams = row.optional_number();
  event.litres = row.optional_number();
  event.diameter_mm = row.optional_number();
  event.text = row.text();
  return event;
}

climate::Variable read_variable(Row& row) {
  const std::string word = row.text();
  const auto variable = place_of(kVariableWords, word);
  if (!variable) throw BadRow{fmt::format("\"{}\" is no weather variable", word.substr(0, 60))};
  return static_cast<climate::Variable>(*variable);
}

void load_series(Row& row, climate::WeatherRecord& record) {
  const climate::Variable variable = read_variable(row);
  climate::Series& series = record.of(variable);
  const SQLite::Column value = row.next();
  const SQLite::Column origin = row.next();
  const std::size_t days = series.value.size();
  if (static_cast<std::size_t>(value.getBytes()) != days * sizeof(double) ||
      static_cast<std::size_t>(origin.getBytes()) != days) {
    throw BadRow{fmt::format("the series of {} has not {} days", word_of(kVariableWords, variable), days)};
  }
  std::memcpy(series.value.data(), value.getBlob(), days * sizeof(double));
  const auto* codes = static_cast<const std::uint8_t*>(origin.getBlob());
  for (std::size_t day = 0; day < days; ++day) {
    if (codes[day] >= kOriginWords.size())
      throw BadRow{fmt::format("{} is no origin of a value", codes[day])};
    series.origin[day] = static_cast<climate::ValueOrigin>(codes[day]);
  }
}

constexpr const char* kEventColumns =
    "SELECT sequence, id, day, kind, stand, target, count, grams, litres, diameter_mm, text FROM event ";

void save_findings(SQLite::Database& database, const std::vector<climate::QualityFinding>& findings) {
  SQLite::Statement statement(database, "INSERT INTO weather_finding VALUES (?, ?, ?, ?, ?, ?, ?)");
  std::int64_t position = 0;
  for (const climate::QualityFinding& finding : findings) {
    Binder(statement)
        .whole(position++)
        .day(finding.date)
        .text(word_of(kVariableWords, finding.variable))
        .number(std::isfinite(finding.value) ? std::optional(finding.value) : std::nullopt)
        .text(finding.check)
        .text(finding.action)
        .text(finding.detail)
        .execute();
  }
}

}  // namespace

GardenDescription load_description(const SQLite::Database& database) {
  GardenDescription garden;
  load_garden(database, garden);
  load_places(database, garden);
  load_seed_and_wants(database, garden);
  load_stands(database, garden);
  return garden;
}

climate::WeatherRecord load_weather(const SQLite::Database& database) {
  constexpr int kMostDays = 400000;  // a thousand years and more
  climate::WeatherRecord record;
  int days = 0;
  for_each_row(database,
               "SELECT site_name, latitude_deg, longitude_deg, elevation_m, first_day, days FROM weather",
               [&](Row& row) {
                 record.site = read_site(row);
                 record.first = row.day();
                 days = row.whole();
               });
  if (days < 0 || days > kMostDays) throw BadRow{fmt::format("a record of {} days", days)};
  if (days == 0) return record;
  for (climate::Series& series : record.series) {
    series.value.assign(static_cast<std::size_t>(days), std::numeric_limits<double>::quiet_NaN());
    series.origin.assign(static_cast<std::size_t>(days), climate::ValueOrigin::missing);
  }
  for_each_row(database, "SELECT variable, value, origin FROM weather_series",
               [&](Row& row) { load_series(row, record); });
  return record;
}

std::vector<climate::QualityFinding> load_weather_findings(const SQLite::Database& database) {
  std::vector<climate::QualityFinding> findings;
  for_each_row(database,
               "SELECT day, variable, value, finding, action, detail FROM weather_finding ORDER BY position", [&](Row& row) {
                 climate::QualityFinding finding;
                 finding.date = row.day();
                 finding.variable = read_variable(row);
                 finding.value = row.optional_number().value_or(std::numeric_limits<double>::quiet_NaN());
                 finding.check = row.text();
                 finding.action = row.text();
                 finding.detail = row.text();
                 findings.push_back(std::move(finding));
               });
  return findings;
}

std::vector<Event> load_events(const SQLite::Database& database) {
  std::vector<Event> events;
  for_each_row(database, (std::string(kEventColumns) + "ORDER BY sequence").c_str(),
               [&](Row& row) { events.push_back(read_event(row)); });
  return events;
}

std::optional<Event> find_event(const SQLite::Database& database, const std::string& id) {
  SQLite::Statement statement(database, std::string(kEventColumns) + "WHERE id = ?");
  statement.bind(1, id);
  if (!statement.executeStep()) return std::nullopt;
  Row row(statement);
  return read_event(row);
}

void save_description(SQLite::Database& database, const GardenDescription& garden) {
  database.exec(
      "DELETE FROM want; DELETE FROM packet; DELETE FROM variety; DELETE FROM past_crop; DELETE FROM tray; "
      "DELETE FROM bed; DELETE FROM normals;");
  save_garden_row(database, garden);
  save_normals(database, garden);
  save_places(database, garden);
  save_seed(database, garden);
  save_wants(database, garden);
}

void insert_stand(SQLite::Database& database, const stand::StandPlan& plan, int position) {
  SQLite::Statement statement(
      database, "INSERT INTO stand VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  Binder binder(statement);
  binder.text(plan.id).whole(position);
  bind_stand(binder, plan);
  binder.execute();
}

void update_stand(SQLite::Database& database, const stand::StandPlan& plan) {
  SQLite::Statement statement(
      database,
      "UPDATE stand SET crop = ?, variety = ?, method = ?, sow = ?, set_out = ?, size = ?, clumps = ?, "
      "plants_per_clump = ?, spacing_mm = ?, bed = ?, from_m = ?, to_m = ?, tray = ?, seeds_per_cell = ?, "
      "cells = ?, "
      "packet = ?, planned_c = ?, pick_from = ?, pick_weeks = ? WHERE id = ?");
  Binder binder(statement);
  bind_stand(binder, plan);
  binder.text(plan.id).execute();
}

void save_weather(SQLite::Database& database, const climate::WeatherRecord& record,
                  const std::vector<climate::QualityFinding>& findings) {
  database.exec("DELETE FROM weather; DELETE FROM weather_series; DELETE FROM weather_finding;");
  save_findings(database, findings);
  if (record.day_count() == 0) return;
  SQLite::Statement head(database, "INSERT INTO weather VALUES (1, ?, ?, ?, ?, ?, ?)");
  Binder(head)
      .text(record.site.name)
      .number(record.site.latitude_deg)
      .number(record.site.longitude_deg)
      .number(record.site.elevation_m)
      .day(record.first)
      .whole(static_cast<std::int64_t>(record.day_count()))
      .execute();
  SQLite::Statement statement(database, "INSERT INTO weather_series VALUES (?, ?, ?)");
  for (std::size_t v = 0; v < climate::kVariableCount; ++v) {
    const climate::Series& series = record.series[v];
    const auto is_missing = [](climate::ValueOrigin origin) {
      return origin == climate::ValueOrigin::missing;
    };
    if (std::all_of(series.origin.begin(), series.origin.end(), is_missing)) continue;
    static_assert(sizeof(climate::ValueOrigin) == 1);
    Binder(statement)
        .text(kVariableWords[v])
        .blob(series.value.data(), series.value.size() * sizeof(double))
        .blob(series.origin.data(), series.origin.size())
        .execute();
  }
}

EventInserter::EventInserter(SQLite::Database& database)
    : statement_(database, "INSERT INTO event VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)") {}

void EventInserter::insert(const Event& event) {
  Binder(statement_)
      .whole(event.sequence)
      .text(event.id)
      .day(event.date)
      .text(event_kind_text(event.kind))
      .text_or_null(event.stand)
      .text_or_null(event.target)
      .number(event.count)
      .number(event.grams)
      .number(event.litres)
      .number(event.diameter_mm)
      .text(event.text)
      .execute();
}

}  // namespace sowtide::book::detail
