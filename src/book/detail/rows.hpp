// Between the garden's values and the rows of its file. All of it throws: SQLite::Exception when SQLite
// fails, `BadRow` when a row holds what this program never wrote.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <string>
#include <vector>

#include "book/garden.hpp"

namespace sowtide::book::detail {

/// A row that cannot be understood: the file was written by something else, or is damaged.
struct BadRow {
  std::string what;
};

/// Everything but the weather.
[[nodiscard]] GardenDescription load_description(const SQLite::Database& database);
[[nodiscard]] climate::WeatherRecord load_weather(const SQLite::Database& database);
[[nodiscard]] std::vector<climate::QualityFinding> load_weather_findings(const SQLite::Database& database);
[[nodiscard]] std::vector<Event> load_events(const SQLite::Database& database);

/// Replaces all but stands, weather and log. The revision is kept, and begins at 0.
void save_description(SQLite::Database& database, const GardenDescription& garden);
void insert_stand(SQLite::Database& database, const stand::StandPlan& plan, int position);
void update_stand(SQLite::Database& database, const stand::StandPlan& plan);
/// Replaces the weather and what was found in it.
void save_weather(SQLite::Database& database, const climate::WeatherRecord& record,
                  const std::vector<climate::QualityFinding>& findings);

/// Puts entries into the log, one after another.
class EventInserter {
 public:
  explicit EventInserter(SQLite::Database& database);
  void insert(const Event& event);

 private:
  SQLite::Statement statement_;
};

/// The entry with an id, or nothing.
[[nodiscard]] std::optional<Event> find_event(const SQLite::Database& database, const std::string& id);

}  // namespace sowtide::book::detail
