// The garden file: one SQLite file (WAL, foreign keys, schema version with forward migrations).
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "book/garden.hpp"

namespace sowtide::book {

/// The stands without an entry that a garden is to have from now on, and the answer kept with them (JSON
/// text).
struct PlanToKeep {
  std::vector<stand::StandPlan> stands;
  std::string answer;
};

/// An open garden file. Every write is one transaction; what is acknowledged survives a kill.
class GardenFile {
 public:
  /// Makes a new file. Fails already_exists rather than overwrite.
  [[nodiscard]] static base::Result<GardenFile> create(const std::string& path,
                                                       const GardenDescription& garden,
                                                       const std::vector<Event>& events = {});
  /// Opens an existing file and migrates it forward. Fails wrong_version for a newer one or a file that is
  /// not ours.
  [[nodiscard]] static base::Result<GardenFile> open(const std::string& path);
  GardenFile(GardenFile&&) noexcept;
  GardenFile& operator=(GardenFile&&) noexcept;
  ~GardenFile();

  /// Everything but the log: beds, trays, wants, packets, stands, weather.
  [[nodiscard]] base::Result<GardenDescription> description() const;
  /// The whole log in the order of arrival, corrections and what they took out among it.
  [[nodiscard]] base::Result<std::vector<Event>> events() const;
  /// Appends events; one whose id is already there with the same content is skipped, with other content is a
  /// contradiction. Checks that stands, beds and lots exist and amounts are sane. Returns how many were new.
  base::Result<std::size_t> append(const std::vector<Event>& events);
  /// Appends events each by itself, in one write: one that is refused holds up none of the others. For each,
  /// whether it was new, or why it is refused. Problems of the whole (nothing is written then): storage.
  base::Result<std::vector<base::Result<bool>>> append_each(const std::vector<Event>& events);
  /// Replaces the weather and what was found in it.
  base::Result<void> set_weather(const climate::WeatherRecord& record,
                                 const std::vector<climate::QualityFinding>& findings);
  /// What makes a plan fit for the garden as it is when the plan is kept. With a problem nothing is written.
  using PlanFit = std::function<base::Result<PlanToKeep>(const GardenDescription& garden,
                                                         const std::vector<Event>& events)>;
  /// Replaces the stands of which no entry stands, and the answer kept, by those of a plan, all or nothing; the
  /// others stay. One that the plan does without and of which every entry was corrected is taken back on `day`
  /// (book/taken_back.hpp). No other write comes between what `fit` is given and what is kept of it.
  base::Result<void> keep_plan(const PlanFit& fit, base::Date day);
  /// Adds a stand with the first entries of its log, all or nothing. already_exists, or what `append`
  /// refuses.
  base::Result<void> add_stand(const stand::StandPlan& stand, const std::vector<Event>& events);
  /// Changes the plan of the stand of that id, and adds these entries to the log, all or nothing. not_found,
  /// what a stand's plan is refused for, or what `append` refuses.
  base::Result<void> update_stand(const stand::StandPlan& stand, const std::vector<Event>& events = {});
  /// Takes a stand back altogether, so that nothing of it counts (book/taken_back.hpp); one that the log
  /// never named goes. not_found, or what `taking_back` refuses.
  base::Result<void> take_back_stand(const std::string& stand, base::Date day);
  /// The answer of the last plan kept; empty when there is none.
  [[nodiscard]] base::Result<std::string> plan_answer() const;
  /// What changes a description, given also how many entries the log has. With a problem nothing is written.
  using DescriptionChange = std::function<base::Result<void>(GardenDescription& garden, std::size_t event_count)>;
  /// Changes beds, trays, wants, packets, varieties and site from what the file holds now: no other write comes between
  /// what `change` is given and what is kept of it. Problems: those of `change`, and what a description is refused for.
  base::Result<void> change_description(const DescriptionChange& change);
  /// A number that grows with every write, for ETags and change events.
  [[nodiscard]] base::Result<std::int64_t> revision() const;
  /// A consistent copy by SQLite's online backup.
  base::Result<void> backup(const std::string& path) const;

 private:
  struct Impl;
  explicit GardenFile(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

/// Whether bytes begin as a garden file does: it is an SQLite file (SQLite file format, section 1.3).
[[nodiscard]] bool looks_like_garden_file(std::string_view bytes) noexcept;

/// A garden read from text.
struct GardenText {
  GardenDescription garden;
  std::vector<Event> events;
  std::map<std::string, base::Place>
      places;  ///< where each field stands in the TOML, by path ("wants[3].crop")
  std::vector<std::string> weather_notes;  ///< what was assumed when a weather file beside it was read, for people
};

/// Reads a garden description in TOML (docs/formats/garden.md), with the log and weather beside it when it
/// names them; weather that is not an export's goes through quality control and gap filling. Everything is
/// checked but the crops (`check_against`).
[[nodiscard]] base::Result<GardenText> read_garden_toml(const std::string& path);

/// Reads a description alone from text; the files it names are not read.
[[nodiscard]] base::Result<GardenText> parse_garden_toml(std::string_view text, const std::string& file);

/// Gives a problem whose field is a path the line and column at which that field (or what holds it) stands.
[[nodiscard]] base::Problem locate(base::Problem problem, const GardenText& text);

/// Names of the files beside a description; empty where there is none.
struct FilesBeside {
  std::string weather;
  std::string weather_findings;
  std::string log;
};

/// The description as TOML, every field written; the files beside it are named in it.
[[nodiscard]] std::string garden_toml(const GardenDescription& garden, const FilesBeside& files);

/// Writes everything as TOML and CSV into a directory (made when missing; must be empty): garden.toml,
/// log.csv, weather.csv, weather-findings.csv. `read_garden_toml(dir + "/garden.toml")` reads it back without loss.
[[nodiscard]] base::Result<void> write_export(const GardenDescription& garden,
                                              const std::vector<Event>& events, const std::string& directory);

}  // namespace sowtide::book
