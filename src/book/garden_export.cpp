#include <fmt/format.h>

#include <array>
#include <filesystem>
#include <system_error>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "base/toml.hpp"
#include "book/garden_file.hpp"
#include "book/log_csv.hpp"
#include "book/weather_csv.hpp"
#include "book/weather_findings_csv.hpp"
#include "book/words.hpp"

namespace sowtide::book {
namespace {

using base::fail;
using base::ProblemCode;

constexpr const char* kWeatherFile = "weather.csv";
constexpr const char* kFindingsFile = "weather-findings.csv";
constexpr const char* kLogFile = "log.csv";
constexpr const char* kGardenFile = "garden.toml";

/// Writes TOML line by line.
class TomlWriter {
 public:
  void table(std::string_view name) { text_ += fmt::format("\n[{}]\n", name); }
  void item(std::string_view name) { text_ += fmt::format("\n[[{}]]\n", name); }
  void text(std::string_view key, std::string_view value) {
    text_ += fmt::format("{} = {}\n", key, base::toml_text(value));
  }
  void text_unless_empty(std::string_view key, std::string_view value) {
    if (!value.empty()) text(key, value);
  }
  void number(std::string_view key, double value) {
    text_ += fmt::format("{} = {}\n", key, base::number_text(value));
  }
  void flag(std::string_view key, bool value) { text_ += fmt::format("{} = {}\n", key, value); }
  void date(std::string_view key, base::Date value) {
    text_ += fmt::format("{} = {}\n", key, base::to_iso(value));
  }
  void numbers(std::string_view key, const std::array<double, 12>& values) {
    std::string list;
    for (const double value : values)
      list += fmt::format("{}{}", list.empty() ? "" : ", ", base::number_text(value));
    text_ += fmt::format("{} = [{}]\n", key, list);
  }
  [[nodiscard]] std::string finish() { return std::move(text_); }

 private:
  std::string text_;
};

void write_place(TomlWriter& out, const climate::Site& site) {
  out.text("name", site.name);
  out.number("lat", site.latitude_deg);
  out.number("lon", site.longitude_deg);
  out.number("elevation_m", site.elevation_m);
}

void write_normals(TomlWriter& out, const climate::MonthlyNormals& normals) {
  out.table("normals");
  out.numbers("tmax_c", normals.tmax_c);
  out.numbers("tmin_c", normals.tmin_c);
  out.numbers("precip_mm", normals.precip_mm);
  if (normals.wet_days) out.numbers("wet_days", *normals.wet_days);
  out.text_unless_empty("source", normals.source);
}

void write_bed(TomlWriter& out, const bed::Bed& bed) {
  out.item("beds");
  out.text("id", bed.id);
  out.text("name", bed.name);
  out.number("length_m", bed.length_m);
  out.number("width_m", bed.width_m);
  out.text("sun", word_of(kSunWords, bed.sun));
  out.text("kind", word_of(kBedKindWords, bed.kind));
  out.flag("fed", bed.fed);
  if (bed.pole_end != bed::PoleEnd::neither)
    out.text("pole_end", word_of(kPoleEndWords, bed.pole_end));
}

void write_tray(TomlWriter& out, const bed::Tray& tray) {
  out.item("trays");
  out.text("id", tray.id);
  out.text("name", tray.name);
  out.number("cells", tray.cells);
  out.number("cell_width_mm", tray.cell_width_mm);
  out.text("place", word_of(kTrayPlaceWords, tray.place));
  out.number("temp_c", tray.temp_c);
  if (tray.mat_cells != 0) out.number("mat_cells", tray.mat_cells);
  if (tray.room_c) out.number("room_c", *tray.room_c);
}

void write_past(TomlWriter& out, const bed::PastCrop& past) {
  out.item("past");
  out.text("bed", past.bed);
  out.number("from_m", past.from_m);
  out.number("to_m", past.to_m);
  out.text("family", past.family);
  out.number("year", past.year);
}

void write_variety(TomlWriter& out, const crop::Variety& variety) {
  out.item("varieties");
  out.text("id", variety.id);
  out.text("crop", variety.crop);
  out.text("name", variety.name);
  out.number("earliness", variety.earliness);
  out.number("size", variety.size);
  out.number("bolting_resistance", variety.bolting_resistance);
  out.flag("single_germ", variety.single_germ);
  out.text_unless_empty("colour", variety.colour);
  out.text_unless_empty("notes", variety.notes);
}

void write_packet(TomlWriter& out, const crop::Packet& packet) {
  out.item("packets");
  out.text("id", packet.id);
  out.text("crop", packet.crop);
  out.text_unless_empty("variety", packet.variety);
  out.number("packed_year", packet.packed_year);
  out.number("seeds", packet.seeds);
  if (packet.germination_pct) out.number("germination_pct", *packet.germination_pct);
  out.number("cost", packet.cost);
}

void write_want(TomlWriter& out, const plan::Want& want) {
  out.item("wants");
  out.text("id", want.id);
  out.text_unless_empty("crop", want.crop);
  out.text_unless_empty("group", want.group);
  out.text_unless_empty("variety", want.variety);
  out.number("amount_per_week", want.amount_per_week);
  out.text("unit", word_of(kWantUnitWords, want.unit));
  out.text("from", base::to_text(want.from));
  out.text("to", base::to_text(want.to));
  out.number("priority", want.priority);
  const plan::Want usual;
  if (want.early) out.flag("early", want.early);
  if (want.total != usual.total) out.number("total", want.total);
  if (want.waste_dislike != usual.waste_dislike) out.number("waste_dislike", want.waste_dislike);
  if (want.bought) out.flag("bought", want.bought);
  out.text("size", word_of(kSizeWords, want.size));
}

void write_stand(TomlWriter& out, const stand::StandPlan& plan) {
  out.item("stands");
  out.text("id", plan.id);
  out.text("crop", plan.crop);
  out.text_unless_empty("variety", plan.variety);
  out.text("method", word_of(kMethodWords, plan.method));
  out.date("sow", plan.sow);
  if (plan.set_out) out.date("set_out", *plan.set_out);
  out.text("size", word_of(kSizeWords, plan.size));
  out.number("clumps", plan.clumps);
  out.number("plants_per_clump", plan.plants_per_clump);
  out.number("spacing_mm", plan.spacing_mm);
  out.text("bed", plan.bed);
  out.number("from_m", plan.from_m);
  out.number("to_m", plan.to_m);
  out.text_unless_empty("tray", plan.tray);
  out.number("seeds_per_cell", plan.seeds_per_cell);
  out.number("cells", plan.cells);
  out.text_unless_empty("packet", plan.packet);
  if (plan.planned_c) out.number("planned_c", *plan.planned_c);
  if (plan.pick_from) out.date("pick_from", *plan.pick_from);
  if (plan.pick_weeks != 0) out.number("pick_weeks", plan.pick_weeks);
}

base::Result<void> make_empty_directory(const std::string& directory) {
  namespace fs = std::filesystem;
  std::error_code error;
  fs::create_directories(directory, error);
  if (error || !fs::is_directory(directory, error)) {
    return fail(ProblemCode::file_unreadable, fmt::format("cannot be made a directory ({})", error.message()),
                {.file = directory}, "Name a new directory in a place that may be written to");
  }
  const bool empty = fs::is_empty(directory, error);
  if (error)
    return fail(ProblemCode::file_unreadable, fmt::format("cannot be read ({})", error.message()),
                {.file = directory});
  if (empty) return {};
  return fail(ProblemCode::already_exists, "is not empty", {.file = directory},
              "Name a new or an empty directory");
}

}  // namespace

std::string garden_toml(const GardenDescription& garden, const FilesBeside& files) {
  TomlWriter out;
  out.text("name", garden.name);
  out.text("units", garden.units);
  if (garden.cool_store) out.flag("cool_store", true);
  if (garden.place_told()) {
    out.table("site");
    write_place(out, garden.site);
    if (garden.warming_c != 0.0) out.number("warming_c", garden.warming_c);
  }
  if (garden.normals) write_normals(out, *garden.normals);
  if (!files.weather.empty()) {
    out.table("weather");
    out.text("file", files.weather);
    out.text_unless_empty("findings_file", files.weather_findings);
    write_place(out, garden.weather.site);
  }
  if (!files.log.empty()) {
    out.table("log");
    out.text("file", files.log);
  }
  for (const auto& bed : garden.beds) write_bed(out, bed);
  for (const auto& tray : garden.trays) write_tray(out, tray);
  for (const auto& past : garden.past) write_past(out, past);
  for (const auto& variety : garden.varieties) write_variety(out, variety);
  for (const auto& packet : garden.packets) write_packet(out, packet);
  for (const auto& want : garden.wants) write_want(out, want);
  for (const auto& plan : garden.stands) write_stand(out, plan);
  return out.finish();
}

base::Result<void> write_export(const GardenDescription& garden, const std::vector<Event>& events,
                                const std::string& directory) {
  if (auto made = make_empty_directory(directory); !made) return made;
  const auto path = [&directory](const char* name) {
    return (std::filesystem::path(directory) / name).string();
  };
  FilesBeside files{.log = kLogFile};
  if (garden.weather.day_count() > 0) files.weather = kWeatherFile;
  if (!files.weather.empty() && !garden.weather_findings.empty()) files.weather_findings = kFindingsFile;
  if (!files.weather.empty()) {
    if (auto written = base::write_file(path(kWeatherFile), weather_csv(garden.weather)); !written)
      return written;
  }
  if (!files.weather_findings.empty()) {
    const std::string table = weather_findings_csv(garden.weather_findings);
    if (auto written = base::write_file(path(kFindingsFile), table); !written) return written;
  }
  if (auto written = base::write_file(path(kLogFile), log_csv(events)); !written) return written;
  // The description last: a directory without it is seen to be unfinished.
  return base::write_file(path(kGardenFile), garden_toml(garden, files));
}

}  // namespace sowtide::book
