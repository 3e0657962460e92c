#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "base/file.hpp"
#include "base/toml.hpp"
#include "book/garden_check.hpp"
#include "book/garden_file.hpp"
#include "book/log_csv.hpp"
#include "book/weather_csv.hpp"
#include "book/weather_findings_csv.hpp"
#include "book/words.hpp"
#include "climate/gaps.hpp"
#include "climate/intake.hpp"
#include "climate/quality.hpp"
#include "climate/readers.hpp"

namespace sowtide::book {
namespace {

using base::fail;
using base::ProblemCode;
using base::TomlReader;

/// Reads the parts one after another. Ranges and references are checked once, by `check_description`; here
/// only kinds of value and words.
class DescriptionReader {
 public:
  DescriptionReader(const base::TomlValue& root, const std::string& file) : top_(root, file, "") {}

  base::Result<GardenDescription> read() {
    garden_.name = top_.text("name");
    garden_.units = unit_word(top_, "units", kGardenUnitWords, "metric");
    garden_.cool_store = top_.flag_or("cool_store", false);
    read_site();
    read_normals();
    each("beds", [this](TomlReader& bed) { garden_.beds.push_back(read_bed(bed)); });
    each("trays", [this](TomlReader& tray) { garden_.trays.push_back(read_tray(tray)); });
    each("past", [this](TomlReader& past) { garden_.past.push_back(read_past(past)); });
    each("varieties", [this](TomlReader& variety) { garden_.varieties.push_back(read_variety(variety)); });
    each("packets", [this](TomlReader& packet) { garden_.packets.push_back(read_packet(packet)); });
    each("wants", [this](TomlReader& want) { garden_.wants.push_back(read_want(want)); });
    each("stands", [this](TomlReader& stand) { garden_.stands.push_back(read_stand(stand)); });
    read_file_names();
    top_.reject_unknown();
    if (top_.problem()) return tl::make_unexpected(*top_.problem());
    return std::move(garden_);
  }

  [[nodiscard]] const FilesBeside& files() const { return files_; }
  [[nodiscard]] const std::optional<climate::Site>& weather_site() const { return weather_site_; }

 private:
  template <class Take>
  void each(std::string_view key, Take take) {
    for (TomlReader& item : top_.tables(key)) {
      take(item);
      item.reject_unknown();
      top_.adopt(item);
      if (top_.problem()) return;
    }
  }

  static climate::Site read_place(TomlReader& table, const std::string& name) {
    climate::Site site;
    site.name = table.text_or("name", name);
    site.latitude_deg = table.number("lat");
    site.longitude_deg = table.number("lon");
    site.elevation_m = table.number("elevation_m");
    return site;
  }

  void read_site() {
    auto site = top_.table("site");
    if (!site) return;
    garden_.site = read_place(*site, garden_.name);
    garden_.warming_c = site->number_or("warming_c", 0.0);
    site->reject_unknown();
    top_.adopt(*site);
  }

  static std::array<double, 12> twelve(TomlReader& table, std::string_view key) {
    std::array<double, 12> months{};
    const std::vector<double> numbers = table.numbers(key, months.size());
    if (numbers.size() == months.size()) std::copy(numbers.begin(), numbers.end(), months.begin());
    return months;
  }

  void read_normals() {
    auto table = top_.table("normals");
    if (!table) return;
    climate::MonthlyNormals normals;
    normals.tmax_c = twelve(*table, "tmax_c");
    normals.tmin_c = twelve(*table, "tmin_c");
    normals.precip_mm = twelve(*table, "precip_mm");
    if (table->has("wet_days")) normals.wet_days = twelve(*table, "wet_days");
    normals.source = table->text_or("source", "");
    table->reject_unknown();
    top_.adopt(*table);
    garden_.normals = std::move(normals);
  }

  /// A word for a unit: an unknown one is a wrong unit, not merely out of range.
  template <std::size_t N>
  static std::string unit_word(TomlReader& table, std::string_view key,
                               const std::array<std::string_view, N>& words, std::string_view fallback) {
    const std::string word = table.text_or(key, std::string(fallback));
    if (!place_of(words, word)) {
      table.report(ProblemCode::wrong_unit, fmt::format("is \"{}\"", word.substr(0, 60)), key,
                   fmt::format("Write one of: {}", fmt::join(words, ", ")));
    }
    return word;
  }

  template <class Enumeration, std::size_t N>
  static Enumeration choice_or(TomlReader& table, std::string_view key,
                               const std::array<std::string_view, N>& words, Enumeration fallback) {
    return static_cast<Enumeration>(
        table.choice_or(key, list_of(words), static_cast<std::size_t>(fallback)));
  }

  static int whole(TomlReader& table, std::string_view key) {
    return static_cast<int>(table.integer(key, {.at_least = -kMostWhole, .at_most = kMostWhole}));
  }

  static int whole_or(TomlReader& table, std::string_view key, int fallback) {
    return static_cast<int>(
        table.integer_or(key, fallback, {.at_least = -kMostWhole, .at_most = kMostWhole}));
  }

  static bed::Bed read_bed(TomlReader& table) {
    bed::Bed bed;
    bed.id = table.text("id");
    bed.name = table.text_or("name", bed.id);
    bed.length_m = table.number("length_m");
    bed.width_m = table.number("width_m");
    bed.sun = choice_or(table, "sun", kSunWords, bed.sun);
    bed.kind = choice_or(table, "kind", kBedKindWords, bed.kind);
    bed.fed = table.flag_or("fed", bed.fed);
    bed.pole_end = choice_or(table, "pole_end", kPoleEndWords, bed.pole_end);
    return bed;
  }

  static bed::Tray read_tray(TomlReader& table) {
    bed::Tray tray;
    tray.id = table.text("id");
    tray.name = table.text_or("name", tray.id);
    tray.cells = whole(table, "cells");
    tray.cell_width_mm = table.number_or("cell_width_mm", tray.cell_width_mm);
    tray.place = choice_or(table, "place", kTrayPlaceWords, tray.place);
    tray.temp_c = table.number_or("temp_c", tray.temp_c);
    tray.mat_cells = whole_or(table, "mat_cells", tray.mat_cells);
    tray.room_c = table.optional_number("room_c");
    return tray;
  }

  static bed::PastCrop read_past(TomlReader& table) {
    bed::PastCrop past;
    past.bed = table.text("bed");
    past.from_m = table.number("from_m");
    past.to_m = table.number("to_m");
    past.family = table.text("family");
    past.year = whole(table, "year");
    return past;
  }

  /// A garden names its crops by id; a person by any name that a crop goes by.
  static std::string crop_id(const std::string& name) { return crop::built_in_library().id_for(name); }

  static crop::Variety read_variety(TomlReader& table) {
    crop::Variety variety;
    variety.id = table.text("id");
    variety.name = table.text_or("name", variety.id);
    variety.crop = crop_id(table.text("crop"));
    variety.earliness = table.number_or("earliness", variety.earliness);
    variety.size = table.number_or("size", variety.size);
    variety.bolting_resistance = table.number_or("bolting_resistance", variety.bolting_resistance);
    variety.single_germ = table.flag_or("single_germ", variety.single_germ);
    variety.colour = table.text_or("colour", "");
    variety.notes = table.text_or("notes", "");
    return variety;
  }

  static crop::Packet read_packet(TomlReader& table) {
    crop::Packet packet;
    packet.id = table.text("id");
    packet.crop = crop_id(table.text("crop"));
    packet.variety = table.text_or("variety", "");
    packet.packed_year = whole(table, "packed_year");
    packet.seeds = table.number("seeds");
    packet.germination_pct = table.optional_number("germination_pct");
    packet.cost = table.number_or("cost", packet.cost);
    return packet;
  }

  static base::MonthDay month_day(TomlReader& table, std::string_view key, base::MonthDay fallback) {
    const std::string text = table.text_or(key, "");
    if (text.empty() && !table.has(key)) return fallback;
    const auto day = base::parse_month_day(text);
    if (day) return *day;
    table.report(day.error().code, day.error().what, key, day.error().remedy);
    return fallback;
  }

  static plan::Want read_want(TomlReader& table) {
    plan::Want want;
    want.id = table.text("id");
    want.crop = crop_id(table.text_or("crop", ""));
    want.group = table.text_or("group", "");
    want.variety = table.text_or("variety", "");
    want.amount_per_week = table.number("amount_per_week");
    if (!table.has("unit"))
      table.report(ProblemCode::missing_field, "is missing", "unit", "Write grams, servings or pieces");
    const std::string unit = unit_word(table, "unit", kWantUnitWords, kWantUnitWords.front());
    want.unit = static_cast<plan::WantUnit>(place_of(kWantUnitWords, unit).value_or(0));
    want.from = month_day(table, "from", want.from);
    want.to = month_day(table, "to", want.to);
    want.priority = table.number_or("priority", want.priority);
    want.size = choice_or(table, "size", kSizeWords, want.size);
    want.early = table.flag_or("early", want.early);
    want.total = table.number_or("total", want.total);
    want.waste_dislike = table.number_or("waste_dislike", want.waste_dislike);
    want.bought = table.flag_or("bought", want.bought);
    return want;
  }

  static stand::StandPlan read_stand(TomlReader& table) {
    stand::StandPlan plan;
    plan.id = table.text("id");
    plan.crop = crop_id(table.text("crop"));
    plan.variety = table.text_or("variety", "");
    plan.method = static_cast<stand::Method>(table.choice("method", list_of(kMethodWords)));
    plan.sow = table.date("sow");
    plan.set_out = table.optional_date("set_out");
    plan.size = choice_or(table, "size", kSizeWords, plan.size);
    plan.clumps = whole(table, "clumps");
    plan.plants_per_clump = table.number_or("plants_per_clump", plan.plants_per_clump);
    plan.spacing_mm = table.number("spacing_mm");
    plan.bed = table.text("bed");
    plan.from_m = table.number("from_m");
    plan.to_m = table.number("to_m");
    plan.tray = table.text_or("tray", "");
    plan.seeds_per_cell = table.number_or("seeds_per_cell", plan.seeds_per_cell);
    plan.cells = whole_or(table, "cells", plan.cells);
    plan.packet = table.text_or("packet", "");
    plan.planned_c = table.optional_number("planned_c");
    plan.pick_from = table.optional_date("pick_from");
    plan.pick_weeks = whole_or(table, "pick_weeks", plan.pick_weeks);
    return plan;
  }

  void read_file_names() {
    if (auto weather = top_.table("weather")) {
      files_.weather = weather->text("file");
      files_.weather_findings = weather->text_or("findings_file", "");
      if (weather->has("lat") || weather->has("lon")) weather_site_ = read_place(*weather, garden_.site.name);
      weather->reject_unknown();
      top_.adopt(*weather);
    }
    if (auto log = top_.table("log")) {
      files_.log = log->text("file");
      log->reject_unknown();
      top_.adopt(*log);
    }
  }

  static constexpr double kMostWhole = 2e9;

  TomlReader top_;
  GardenDescription garden_;
  FilesBeside files_;
  std::optional<climate::Site> weather_site_;
};

/// Notes where every value stands, by its path.
void note_places(const base::TomlValue& value, const std::string& path, const std::string& file,
                 std::map<std::string, base::Place>& places) {
  if (!path.empty()) places.emplace(path, base::Place{file, value.line, value.column, path});
  if (const auto* members = std::get_if<base::TomlMembers>(&value.data)) {
    for (const auto& [key, member] : *members) {
      note_places(member, path.empty() ? key : path + "." + key, file, places);
    }
  }
  if (const auto* items = std::get_if<base::TomlArray>(&value.data)) {
    for (std::size_t i = 0; i < items->size(); ++i)
      note_places((*items)[i], fmt::format("{}[{}]", path, i), file, places);
  }
}

/// What a description and the names of the files beside it say.
struct ParsedDescription {
  GardenText text;
  FilesBeside files;
  std::optional<climate::Site> weather_site;
};

base::Result<ParsedDescription> parse_description(std::string_view text, const std::string& file) {
  const auto root = base::parse_toml(text, file);
  if (!root) return tl::make_unexpected(root.error());
  if (const auto* members = std::get_if<base::TomlMembers>(&root->data);
      members == nullptr || members->empty()) {
    return fail(ProblemCode::empty, "describes no garden", {.file = file},
                "Begin with name = \"...\" and [site]");
  }
  DescriptionReader reader(*root, file);
  auto garden = reader.read();
  if (!garden) return tl::make_unexpected(garden.error());
  ParsedDescription parsed{
      {std::move(*garden), {}, {}, {}}, reader.files(), reader.weather_site()};
  note_places(*root, "", file, parsed.text.places);
  if (auto checked = check_description(parsed.text.garden); !checked) {
    return tl::make_unexpected(locate(checked.error(), parsed.text));
  }
  return parsed;
}

/// Names in a description are relative to it.
std::string beside(const std::string& path, const std::string& name) {
  return (std::filesystem::path(path).parent_path() / name).string();
}

/// A file that a section of a description names; where it is not there, what to do about it.
base::Result<std::string> read_named(const std::string& description, const std::string& file,
                                     std::string_view section) {
  auto bytes = base::read_file(file);
  if (bytes || bytes.error().code != ProblemCode::file_missing) return bytes;
  base::Problem problem = bytes.error();
  problem.what = fmt::format("is not there, and {} names it under [{}]", description, section);
  problem.remedy =
      fmt::format("Put the file there, beside the description, or take the section [{}] out of it", section);
  return tl::make_unexpected(std::move(problem));
}

base::Result<void> read_findings(const std::string& description, const std::string& path,
                                 GardenDescription& garden) {
  const auto bytes = read_named(description, path, "weather");
  if (!bytes) return tl::make_unexpected(bytes.error());
  auto findings = read_weather_findings_csv(*bytes, path);
  if (!findings) return tl::make_unexpected(findings.error());
  climate::add_findings(garden.weather_findings, *findings);
  return {};
}

/// Reads the export's own table as it is, or any format that the climate room knows with quality control and
/// gap filling, and what was found in it.
base::Result<void> read_record(const std::string& path, const ParsedDescription& parsed, GardenText& text) {
  GardenDescription& garden = text.garden;
  const std::string file = beside(path, parsed.files.weather);
  const auto bytes = read_named(path, file, "weather");
  if (!bytes) return tl::make_unexpected(bytes.error());
  if (is_weather_csv(*bytes)) {
    auto record = read_weather_csv(*bytes, file, parsed.weather_site.value_or(garden.site));
    if (!record) return tl::make_unexpected(record.error());
    garden.weather = std::move(*record);
  } else {
    auto import = climate::read_weather(*bytes, file);
    if (!import) return tl::make_unexpected(import.error());
    if (parsed.weather_site || !import->site_stated) import->record.site = parsed.weather_site.value_or(garden.site);
    text.weather_notes = import->notes;
    climate::Intake intake = climate::take_in({}, std::move(*import));
    climate::GapOutcome filled = climate::fill_gaps(std::move(intake.record));
    garden.weather = std::move(filled.record);
    climate::add_findings(garden.weather_findings, intake.findings);
    climate::add_findings(garden.weather_findings, filled.findings);
  }
  if (parsed.files.weather_findings.empty()) return {};
  return read_findings(path, beside(path, parsed.files.weather_findings), garden);
}

}  // namespace

base::Problem locate(base::Problem problem, const GardenText& text) {
  for (std::string path = problem.where.field; !path.empty();) {
    if (const auto found = text.places.find(path); found != text.places.end()) {
      problem.where.file = found->second.file;
      problem.where.line = found->second.line;
      problem.where.column = found->second.column;
      return problem;
    }
    const auto end = path.find_last_of(".[");
    path.resize(end == std::string::npos ? 0 : end);
  }
  if (!text.places.empty() && problem.where.file.empty())
    problem.where.file = text.places.begin()->second.file;
  return problem;
}

base::Result<GardenText> parse_garden_toml(std::string_view text, const std::string& file) {
  auto parsed = parse_description(text, file);
  if (!parsed) return tl::make_unexpected(parsed.error());
  return std::move(parsed->text);
}

base::Result<GardenText> read_garden_toml(const std::string& path) {
  const auto bytes = base::read_file(path);
  if (!bytes) return tl::make_unexpected(bytes.error());
  if (bytes->empty()) return fail(ProblemCode::empty, "is empty", {.file = path}, "Describe a garden in it");
  auto parsed = parse_description(*bytes, path);
  if (!parsed) return tl::make_unexpected(parsed.error());
  GardenText& text = parsed->text;
  if (!parsed->files.weather.empty()) {
    if (auto read = read_record(path, *parsed, text); !read) return tl::make_unexpected(read.error());
  }
  if (!parsed->files.log.empty()) {
    const std::string log_path = beside(path, parsed->files.log);
    const auto log = read_named(path, log_path, "log");
    if (!log) return tl::make_unexpected(log.error());
    auto events = read_log_csv(*log, log_path, text.garden);
    if (!events) return tl::make_unexpected(events.error());
    text.events = std::move(*events);
  }
  return std::move(text);
}

}  // namespace sowtide::book
