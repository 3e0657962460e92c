#include "book/garden_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/csv.hpp"
#include "base/nearest.hpp"
#include "base/utf8.hpp"

namespace sowtide::book {
namespace {

using base::fail;
using base::ProblemCode;
using Names = std::set<std::string, std::less<>>;

constexpr int kEarliestYear = 1900;
constexpr int kLatestYear = 2199;
constexpr int kEarliestWeatherYear = 1700;
constexpr double kLowestSite_m = -430.0;
constexpr double kHighestSite_m = 6000.0;
constexpr double kColdest_c = -90.0;
constexpr double kWarmest_c = 70.0;
constexpr double kWettestMonth_mm = 10000.0;
constexpr std::size_t kLongestName = 200;
constexpr std::size_t kLongestNotes = 4000;
/// Stretches are written with millimetres in mind; what is less than one is rounding.
constexpr double kLengthSlack_m = 1e-3;

/// The first problem found, with the fields checked one after another.
class Checker {
 public:
  void report(ProblemCode code, std::string what, std::string field, std::string remedy = {}) {
    if (result_) result_ = fail(code, std::move(what), {.field = std::move(field)}, std::move(remedy));
  }

  void within(double value, double low, double high, const std::string& field) {
    if (std::isfinite(value) && value >= low && value <= high) return;
    report(ProblemCode::out_of_range,
           fmt::format("is {}, must be {} to {}", base::number_text(value), base::number_text(low),
                       base::number_text(high)),
           field);
  }

  void above_zero(double value, double high, const std::string& field) {
    if (std::isfinite(value) && value > 0.0 && value <= high) return;
    report(ProblemCode::out_of_range,
           fmt::format("is {}, must be above 0 and at most {}", base::number_text(value),
                       base::number_text(high)),
           field);
  }

  void id(const std::string& text, Names& taken, const std::string& path) {
    if (!is_id(text)) {
      return report(ProblemCode::out_of_range, fmt::format("\"{}\" is not an id", text.substr(0, 70)),
                    path + ".id", "Use 1 to 64 letters, digits, - and _");
    }
    if (!taken.insert(text).second) {
      report(ProblemCode::contradiction, fmt::format("\"{}\" is used twice", text), path + ".id",
             "Give each an id of its own");
    }
  }

  void name(const std::string& text, const std::string& field) {
    if (text.empty()) report(ProblemCode::empty, "is empty", field);
    short_text(text, kLongestName, field);
  }

  void short_text(const std::string& text, std::size_t longest, const std::string& field) {
    if (text.size() > longest)
      report(ProblemCode::too_large, fmt::format("is longer than {} bytes", longest), field);
    if (text.find('\0') != std::string::npos || base::first_bad_utf8(text)) {
      report(ProblemCode::syntax, "is not plain UTF-8 text", field);
    }
  }

  /// A reference to one of `known`; the empty text is allowed when `optional`.
  template <class T>
  void refers(const std::string& id, const std::map<std::string, const T*, std::less<>>& known,
              std::string_view what, const std::string& field, bool optional) {
    if ((optional && id.empty()) || known.contains(id) || !result_) return;
    std::vector<std::string> names;
    for (const auto& entry : known) names.push_back(entry.first);
    report(ProblemCode::not_found,
           fmt::format("there is no {} \"{}\" in this garden", what, id.substr(0, 70)), field,
           base::did_you_mean(id, names));
  }

  [[nodiscard]] base::Result<void> result() const { return result_; }

 private:
  base::Result<void> result_;
};

template <class T>
using ById = std::map<std::string, const T*, std::less<>>;

/// The named parts of a garden, so that checking stays near linear in its size.
struct References {
  ById<bed::Bed> beds;
  ById<bed::Tray> trays;
  ById<crop::Variety> varieties;
  ById<crop::Packet> packets;

  explicit References(const GardenDescription& garden) {
    for (const auto& bed : garden.beds) beds.emplace(bed.id, &bed);
    for (const auto& tray : garden.trays) trays.emplace(tray.id, &tray);
    for (const auto& variety : garden.varieties) varieties.emplace(variety.id, &variety);
    for (const auto& packet : garden.packets) packets.emplace(packet.id, &packet);
  }
};

template <class T>
const T* find_by_id(const ById<T>& things, const std::string& id) {
  const auto found = things.find(id);
  return found == things.end() ? nullptr : found->second;
}

std::string at(std::string_view list, std::size_t index) {
  return fmt::format("{}[{}]", list, index);
}

/// A garden may be begun without its place; weather and normals are those of a place.
void check_site(Checker& check, const GardenDescription& garden) {
  const climate::Site& site = garden.site;
  const bool untold =
      site.name.empty() && site.latitude_deg == 0.0 && site.longitude_deg == 0.0 && site.elevation_m == 0.0;
  if (untold && !garden.normals && garden.weather.day_count() == 0) return;
  if (untold) return check.report(ProblemCode::missing_field, "is missing", "site", "Begin it with [site]");
  check.name(site.name, "site.name");
  check.within(site.latitude_deg, -90.0, 90.0, "site.lat");
  check.within(site.longitude_deg, -180.0, 180.0, "site.lon");
  check.within(site.elevation_m, kLowestSite_m, kHighestSite_m, "site.elevation_m");
}

void check_normals(Checker& check, const climate::MonthlyNormals& normals) {
  constexpr int kCommonYear = 2001;
  for (std::size_t month = 0; month < 12; ++month) {
    const auto field = [month](std::string_view name) { return fmt::format("normals.{}[{}]", name, month); };
    check.within(normals.tmax_c[month], kColdest_c, kWarmest_c, field("tmax_c"));
    check.within(normals.tmin_c[month], kColdest_c, kWarmest_c, field("tmin_c"));
    check.within(normals.precip_mm[month], 0.0, kWettestMonth_mm, field("precip_mm"));
    if (normals.tmin_c[month] > normals.tmax_c[month]) {
      check.report(
          ProblemCode::contradiction,
          fmt::format("is {}, above tmax_c of the same month ({})", base::number_text(normals.tmin_c[month]),
                      base::number_text(normals.tmax_c[month])),
          field("tmin_c"), "Check the units, and that the two lists are not exchanged");
    }
    if (!normals.wet_days) continue;
    // A long mean of February counts leap years too, so up to 29 is possible.
    const int days = month == 1 ? 29 : base::days_in_month(kCommonYear, static_cast<int>(month) + 1);
    check.within((*normals.wet_days)[month], 0.0, days, field("wet_days"));
  }
  check.short_text(normals.source, kLongestNotes, "normals.source");
}

void check_beds(Checker& check, const GardenDescription& garden) {
  constexpr double kLongestBed_m = 1000.0;
  constexpr double kWidestBed_m = 100.0;
  Names taken;
  for (std::size_t i = 0; i < garden.beds.size(); ++i) {
    const bed::Bed& bed = garden.beds[i];
    const std::string path = at("beds", i);
    check.id(bed.id, taken, path);
    check.name(bed.name, path + ".name");
    check.above_zero(bed.length_m, kLongestBed_m, path + ".length_m");
    check.above_zero(bed.width_m, kWidestBed_m, path + ".width_m");
  }
}

void check_trays(Checker& check, const GardenDescription& garden) {
  constexpr int kMostCells = 100000;
  constexpr double kWidestCell_mm = 500.0;
  constexpr double kColdestTray_c = -10.0;
  constexpr double kWarmestTray_c = 50.0;
  Names taken;
  for (std::size_t i = 0; i < garden.trays.size(); ++i) {
    const bed::Tray& tray = garden.trays[i];
    const std::string path = at("trays", i);
    check.id(tray.id, taken, path);
    check.name(tray.name, path + ".name");
    check.within(tray.cells, 1, kMostCells, path + ".cells");
    check.above_zero(tray.cell_width_mm, kWidestCell_mm, path + ".cell_width_mm");
    check.within(tray.temp_c, kColdestTray_c, kWarmestTray_c, path + ".temp_c");
    const bool on_mat = tray.place == bed::TrayPlace::heat_mat;
    check.within(tray.mat_cells, 0, on_mat ? std::clamp(tray.cells, 0, kMostCells) : kMostCells,
                 path + ".mat_cells");
    if (tray.room_c) check.within(*tray.room_c, kColdestTray_c, kWarmestTray_c, path + ".room_c");
  }
}

/// A stretch must run forward and lie inside its bed.
void check_stretch(Checker& check, const bed::Bed* bed, double from_m, double to_m, const std::string& path) {
  if (bed == nullptr) return;
  const double length_m = bed->length_m + kLengthSlack_m;
  check.within(from_m, 0.0, length_m, path + ".from_m");
  if (!std::isfinite(to_m) || to_m > length_m) {
    return check.report(ProblemCode::contradiction,
                        fmt::format("is {}, but bed \"{}\" is {} m long", base::number_text(to_m), bed->id,
                                    base::number_text(bed->length_m)),
                        path + ".to_m", "End the stretch inside the bed");
  }
  if (to_m <= from_m) {
    check.report(
        ProblemCode::contradiction,
        fmt::format("is {}, not beyond from_m ({})", base::number_text(to_m), base::number_text(from_m)),
        path + ".to_m", "Give the stretch from its near end to its far end");
  }
}

void check_past(Checker& check, const GardenDescription& garden, const References& references) {
  for (std::size_t i = 0; i < garden.past.size(); ++i) {
    const bed::PastCrop& past = garden.past[i];
    const std::string path = at("past", i);
    check.refers(past.bed, references.beds, "bed", path + ".bed", false);
    check_stretch(check, find_by_id(references.beds, past.bed), past.from_m, past.to_m, path);
    check.name(past.family, path + ".family");
    check.within(past.year, kEarliestYear, kLatestYear, path + ".year");
  }
}

void check_varieties(Checker& check, const GardenDescription& garden) {
  constexpr double kLeastFactor = 0.2;
  constexpr double kMostFactor = 5.0;
  Names taken;
  for (std::size_t i = 0; i < garden.varieties.size(); ++i) {
    const crop::Variety& variety = garden.varieties[i];
    const std::string path = at("varieties", i);
    check.id(variety.id, taken, path);
    check.name(variety.name, path + ".name");
    check.name(variety.crop, path + ".crop");
    check.within(variety.earliness, kLeastFactor, kMostFactor, path + ".earliness");
    check.within(variety.size, kLeastFactor, kMostFactor, path + ".size");
    check.within(variety.bolting_resistance, kLeastFactor, kMostFactor, path + ".bolting_resistance");
    check.short_text(variety.colour, kLongestName, path + ".colour");
    check.short_text(variety.notes, kLongestNotes, path + ".notes");
  }
}

/// A variety must be of the crop it is named for.
void check_variety_of(Checker& check, const References& references, const std::string& variety,
                      const std::string& crop, const std::string& path) {
  const crop::Variety* found = find_by_id(references.varieties, variety);
  if (found == nullptr || found->crop == crop) return;
  check.report(ProblemCode::contradiction,
               fmt::format("\"{}\" is a variety of {}, not of {}", variety, found->crop, crop),
               path + ".variety", "Name a variety of the crop, or leave it out");
}

void check_packets(Checker& check, const GardenDescription& garden, const References& references) {
  constexpr double kMostSeeds = 1e8;
  constexpr double kMostCost = 1e6;
  Names taken;
  for (std::size_t i = 0; i < garden.packets.size(); ++i) {
    const crop::Packet& packet = garden.packets[i];
    const std::string path = at("packets", i);
    check.id(packet.id, taken, path);
    check.name(packet.crop, path + ".crop");
    check.refers(packet.variety, references.varieties, "variety", path + ".variety", true);
    check_variety_of(check, references, packet.variety, packet.crop, path);
    check.within(packet.packed_year, kEarliestYear, kLatestYear, path + ".packed_year");
    check.within(packet.seeds, 0.0, kMostSeeds, path + ".seeds");
    if (packet.germination_pct) check.within(*packet.germination_pct, 0.0, 100.0, path + ".germination_pct");
    check.within(packet.cost, 0.0, kMostCost, path + ".cost");
  }
}

void check_wants(Checker& check, const GardenDescription& garden, const References& references) {
  constexpr double kMostAmount = 1e6;
  constexpr double kLeastPriority = 0.1;
  constexpr double kMostPriority = 10.0;
  constexpr double kMostWasteDislike = 20.0;
  Names taken;
  for (std::size_t i = 0; i < garden.wants.size(); ++i) {
    const plan::Want& want = garden.wants[i];
    const std::string path = at("wants", i);
    check.id(want.id, taken, path);
    if (want.crop.empty() && want.group.empty()) {
      check.report(ProblemCode::missing_field, "names neither a crop nor a group", path,
                   "Give crop or group");
    }
    if (!want.crop.empty() && !want.group.empty()) {
      check.report(ProblemCode::contradiction, "names a crop and a group", path + ".group",
                   "Give one of the two");
    }
    check.refers(want.variety, references.varieties, "variety", path + ".variety", true);
    if (!want.crop.empty()) check_variety_of(check, references, want.variety, want.crop, path);
    if (want.total > 0.0) {
      check.within(want.amount_per_week, 0.0, kMostAmount, path + ".amount_per_week");
    } else {
      check.above_zero(want.amount_per_week, kMostAmount, path + ".amount_per_week");
    }
    check.within(want.total, 0.0, kMostAmount, path + ".total");
    check.within(want.waste_dislike, 0.0, kMostWasteDislike, path + ".waste_dislike");
    check.within(want.priority, kLeastPriority, kMostPriority, path + ".priority");
  }
}

void check_stand_numbers(Checker& check, const stand::StandPlan& plan, const std::string& path) {
  constexpr double kMostClumps = 1e6;
  constexpr double kMostSeedsPerCell = 1000.0;
  constexpr double kColdestPlanned_c = -90.0;
  constexpr double kWarmestPlanned_c = 90.0;
  check.within(plan.clumps, 1.0, kMostClumps, path + ".clumps");
  check.above_zero(plan.plants_per_clump, stand::kMostPlantsPerClump, path + ".plants_per_clump");
  check.within(plan.spacing_mm, stand::kClosestSpacingMm, stand::kWidestSpacingMm, path + ".spacing_mm");
  check.above_zero(plan.seeds_per_cell, kMostSeedsPerCell, path + ".seeds_per_cell");
  check.within(plan.cells, 0.0, kMostClumps, path + ".cells");
  check.within(base::year_of(plan.sow), kEarliestYear, kLatestYear, path + ".sow");
  if (plan.planned_c)
    check.within(*plan.planned_c, kColdestPlanned_c, kWarmestPlanned_c, path + ".planned_c");
  check.within(plan.pick_weeks, 0.0, stand::kMostPickWeeks, path + ".pick_weeks");
  if (plan.pick_from) {
    check.within(base::year_of(*plan.pick_from), kEarliestYear, kLatestYear, path + ".pick_from");
    if (plan.pick_weeks == 0)
      check.report(ProblemCode::missing_field, "tells when to begin pulling, and not over how many weeks",
                   path + ".pick_weeks", "Give pick_weeks, 1 or more");
  }
  if (!plan.set_out) return;
  check.within(base::year_of(*plan.set_out), kEarliestYear, kLatestYear, path + ".set_out");
  if (*plan.set_out < plan.sow) {
    check.report(
        ProblemCode::contradiction,
        fmt::format("{} is before sowing on {}", base::to_iso(*plan.set_out), base::to_iso(plan.sow)),
        path + ".set_out", "Set out after sowing");
  }
}

void check_stand_references(Checker& check, const References& references, const stand::StandPlan& plan,
                            const std::string& path) {
  check.name(plan.crop, path + ".crop");
  check.refers(plan.variety, references.varieties, "variety", path + ".variety", true);
  check_variety_of(check, references, plan.variety, plan.crop, path);
  check.refers(plan.bed, references.beds, "bed", path + ".bed", false);
  check_stretch(check, find_by_id(references.beds, plan.bed), plan.from_m, plan.to_m, path);
  check.refers(plan.tray, references.trays, "tray", path + ".tray", true);
  check.refers(plan.packet, references.packets, "packet", path + ".packet", true);
  if (const auto* packet = find_by_id(references.packets, plan.packet);
      packet != nullptr && packet->crop != plan.crop) {
    check.report(ProblemCode::contradiction,
                 fmt::format("packet \"{}\" holds {}, not {}", packet->id, packet->crop, plan.crop),
                 path + ".packet", "Name a packet of the crop");
  }
  if (plan.method == stand::Method::direct_sow && !plan.tray.empty()) {
    check.report(ProblemCode::contradiction, "names a tray, but the stand is sown in place", path + ".tray",
                 "Leave the tray out, or give method \"start-indoors\"");
  }
}

void check_stand(Checker& check, const References& references, const stand::StandPlan& plan,
                 const std::string& path) {
  check_stand_references(check, references, plan, path);
  check_stand_numbers(check, plan, path);
}

/// Names that a library may be asked for.
std::vector<std::string> groups_of(const crop::CropLibrary& library) {
  std::set<std::string> groups;
  for (const auto& [id, crop] : library.crops) groups.insert(crop.groups.begin(), crop.groups.end());
  return {groups.begin(), groups.end()};
}

std::vector<std::string> families_of(const crop::CropLibrary& library) {
  std::set<std::string> families;
  for (const auto& [id, crop] : library.crops) families.insert(crop.family);
  return {families.begin(), families.end()};
}

/// A crop must be named by its id here: readers put the id for any other name.
void check_crop(Checker& check, const std::string& word, const crop::CropLibrary& library,
                const std::string& path) {
  if (library.crops.contains(word)) return;
  const auto found = library.find(word);
  const std::string what = fmt::format("there is no crop \"{}\"", word.substr(0, 70));
  check.report(ProblemCode::not_found, what, path + ".crop",
               found ? fmt::format("Did you mean {}?", (*found)->id) : found.error().remedy);
}

void check_known(Checker& check, const std::string& word, const std::vector<std::string>& known,
                 std::string_view what, const std::string& field) {
  if (std::find(known.begin(), known.end(), word) != known.end()) return;
  check.report(ProblemCode::not_found, fmt::format("there is no {} \"{}\"", what, word.substr(0, 70)), field,
               base::did_you_mean(word, known));
}

/// Families beyond the library are fine (they only never meet again); one that nearly is a known one is a
/// slip.
void check_family(Checker& check, const std::string& family, const std::vector<std::string>& known,
                  const std::string& field) {
  constexpr std::size_t kSlipEdits = 2;
  for (const std::string& name : known) {
    const std::size_t edits = base::edit_distance(name, family.substr(0, kLongestName));
    if (edits == 0) return;
    if (edits <= kSlipEdits) return check_known(check, family, known, "family", field);
  }
}

}  // namespace

base::Result<void> need_place(const GardenDescription& garden) {
  if (garden.place_told()) return {};
  return fail(ProblemCode::missing_field, "the garden's place is not told yet", {.field = "site"},
              "Tell it on the page that `sowtide serve GARDEN` opens, or make the garden with --place");
}

base::Result<void> check_description(const GardenDescription& garden) {
  Checker check;
  check.name(garden.name, "name");
  if (garden.units != "metric" && garden.units != "us") {
    check.report(ProblemCode::wrong_unit, fmt::format("is \"{}\"", garden.units.substr(0, 60)), "units",
                 "Write \"metric\" or \"us\"");
  }
  check_site(check, garden);
  check.within(garden.warming_c, climate::kLeastWarming_c, climate::kMostWarming_c, "site.warming_c");
  if (garden.normals) check_normals(check, *garden.normals);
  const References references(garden);
  check_beds(check, garden);
  check_trays(check, garden);
  check_past(check, garden, references);
  check_varieties(check, garden);
  check_packets(check, garden, references);
  check_wants(check, garden, references);
  Names taken;
  for (std::size_t i = 0; i < garden.stands.size(); ++i) {
    check.id(garden.stands[i].id, taken, at("stands", i));
    check_stand(check, references, garden.stands[i], at("stands", i));
  }
  return check.result();
}

base::Result<void> check_stand_plan(const GardenDescription& garden, const stand::StandPlan& plan,
                                    const std::string& path) {
  Checker check;
  Names taken;
  check.id(plan.id, taken, path);
  check_stand(check, References(garden), plan, path);
  return check.result();
}

base::Result<void> check_weather(const climate::WeatherRecord& record) {
  Checker check;
  const std::size_t days = record.day_count();
  for (const climate::Series& series : record.series) {
    if (series.value.size() != days || series.origin.size() != days) {
      check.report(ProblemCode::contradiction, "the series of the record differ in length", "weather");
      return check.result();
    }
    for (std::size_t day = 0; day < days; ++day) {
      const bool missing = series.origin[day] == climate::ValueOrigin::missing;
      if (missing == std::isnan(series.value[day]) && !std::isinf(series.value[day])) continue;
      check.report(
          ProblemCode::contradiction,
          fmt::format("on {} a value and its origin do not agree", base::to_iso(record.date_at(day))),
          "weather", "A missing value has no number, every other has one");
      return check.result();
    }
  }
  if (days == 0) return check.result();
  check.within(base::year_of(record.first), kEarliestWeatherYear, kLatestYear, "weather");
  check.within(base::year_of(record.last()), kEarliestWeatherYear, kLatestYear, "weather");
  return check.result();
}

base::Result<void> check_against(const crop::CropLibrary& library, const GardenDescription& garden) {
  Checker check;
  const std::vector<std::string> groups = groups_of(library);
  const std::vector<std::string> families = families_of(library);
  for (std::size_t i = 0; i < garden.varieties.size(); ++i) {
    check_crop(check, garden.varieties[i].crop, library, at("varieties", i));
  }
  for (std::size_t i = 0; i < garden.packets.size(); ++i) {
    check_crop(check, garden.packets[i].crop, library, at("packets", i));
  }
  for (std::size_t i = 0; i < garden.wants.size(); ++i) {
    const plan::Want& want = garden.wants[i];
    if (!want.crop.empty()) check_crop(check, want.crop, library, at("wants", i));
    if (!want.group.empty())
      check_known(check, want.group, groups, "kitchen group", at("wants", i) + ".group");
  }
  for (std::size_t i = 0; i < garden.past.size(); ++i) {
    check_family(check, garden.past[i].family, families, at("past", i) + ".family");
  }
  for (std::size_t i = 0; i < garden.stands.size(); ++i) {
    check_crop(check, garden.stands[i].crop, library, at("stands", i));
  }
  return check.result();
}

}  // namespace sowtide::book
