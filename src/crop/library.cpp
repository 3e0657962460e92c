#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <numeric>

#include "base/toml.hpp"
#include "crop/crop.hpp"

namespace sowtide::crop {
namespace {

using base::ProblemCode;
using base::TomlReader;
using Range = TomlReader::Range;
using SourceTable = std::map<std::string, std::string, std::less<>>;

constexpr std::string_view kCommonPractice = "common practice";
constexpr std::string_view kFromMemory = "from memory";

constexpr Range kPositive{.above = 0.0, .at_least = {}, .at_most = {}};
constexpr Range kNotNegative{.above = {}, .at_least = 0.0, .at_most = {}};
constexpr Range kShare{.above = {}, .at_least = 0.0, .at_most = 1.0};
constexpr Range kPositiveShare{.above = 0.0, .at_least = {}, .at_most = 1.0};
constexpr Range kPercent{.above = 0.0, .at_least = {}, .at_most = 100.0};
constexpr Range kTemperature{.above = {}, .at_least = -40.0, .at_most = 60.0};

/// One section of a crop file: figures with their source, each problem at its own line.
class SectionReader {
 public:
  SectionReader(TomlReader reader, const SourceTable& sources)
      : reader_(std::move(reader)), sources_(&sources) {}

  [[nodiscard]] TomlReader& raw() { return reader_; }

  Figure figure(std::string_view key, const Range& range) {
    std::optional<TomlReader> table = reader_.table(key);
    if (!table) {
      missing(key);
      return {};
    }
    Figure figure = read(*table, range);
    reader_.adopt(*table);
    return figure;
  }

  std::optional<Figure> optional_figure(std::string_view key, const Range& range) {
    if (!reader_.has(key)) return std::nullopt;
    return figure(key, range);
  }

  /// A source given for a list of figures as one text.
  std::string source(std::string_view key) {
    std::string name = reader_.text(key);
    if (!reader_.problem() && !is_known(name)) report_source(reader_, name, key);
    return name;
  }

  /// Records a problem unless the figures rise in the order given (ties allowed).
  void must_not_fall(std::initializer_list<std::pair<std::string_view, double>> figures) {
    ordered(
        figures, [](double a, double b) { return a <= b; }, "must not be below");
  }
  void must_rise(std::initializer_list<std::pair<std::string_view, double>> figures) {
    ordered(
        figures, [](double a, double b) { return a < b; }, "must be above");
  }

 private:
  void missing(std::string_view key) {
    if (reader_.problem()) return;
    reader_.report(ProblemCode::missing_field, "is missing", key,
                   fmt::format("Write {} = {{ value = ..., source = \"...\", mark = \"...\" }}", key));
  }

  [[nodiscard]] bool is_known(std::string_view name) const {
    return name == kCommonPractice || name == kFromMemory || sources_->contains(name);
  }

  void report_source(TomlReader& reader, const std::string& name, std::string_view key) const {
    reader.report(ProblemCode::not_found,
                  fmt::format("\"{}\" is not a key of sources.toml", name.substr(0, 60)), key,
                  "Add the citation to crops/sources.toml, or write \"common practice\" or \"from memory\"");
  }

  Figure read(TomlReader& table, const Range& range) const {
    Figure figure;
    figure.value = table.number("value", range);
    figure.low = table.optional_number("low");
    figure.high = table.optional_number("high");
    figure.source = table.text("source");
    figure.note = table.text_or("note", "");
    figure.mark = read_mark(table, figure.source);
    table.reject_unknown();
    if (table.problem()) return figure;
    if (!is_known(figure.source)) report_source(table, figure.source, "source");
    if (figure.low && *figure.low > figure.value) {
      table.report(ProblemCode::contradiction, "is above the value used", "low",
                   "Lower it, or raise the value");
    }
    if (figure.high && *figure.high < figure.value) {
      table.report(ProblemCode::contradiction, "is below the value used", "high",
                   "Raise it, or lower the value");
    }
    return figure;
  }

  /// The two sources without a citation imply their mark; a citation must say how far it was followed.
  static Mark read_mark(TomlReader& table, std::string_view source) {
    if (source == kCommonPractice && !table.has("mark")) return Mark::common_practice;
    if (source == kFromMemory && !table.has("mark")) return Mark::memory;
    const std::size_t at = table.choice("mark", {"seen", "memory", "chosen", "common practice"});
    const auto mark = static_cast<Mark>(at);
    if (!table.problem() && (source == kCommonPractice) != (mark == Mark::common_practice)) {
      table.report(ProblemCode::contradiction, "does not fit the source", "mark",
                   "The mark \"common practice\" goes with the source \"common practice\" and with no other");
    }
    return mark;
  }

  template <class Fits>
  void ordered(std::initializer_list<std::pair<std::string_view, double>> figures, Fits fits,
               std::string_view words) {
    for (const auto* it = figures.begin(); it + 1 < figures.end() && !reader_.problem(); ++it) {
      const auto* next = it + 1;
      if (fits(it->second, next->second)) continue;
      reader_.report(ProblemCode::contradiction,
                     fmt::format("is {}, {} {} ({})", next->second, words, it->first, it->second),
                     next->first);
    }
  }

  TomlReader reader_;
  const SourceTable* sources_;
};

CardinalTemperatures read_cardinal(SectionReader& in) {
  CardinalTemperatures c;
  c.base_c = in.figure("base_c", kTemperature);
  c.optimum_low_c = in.figure("optimum_low_c", kTemperature);
  c.optimum_high_c = in.figure("optimum_high_c", kTemperature);
  c.ceiling_c = in.figure("ceiling_c", kTemperature);
  in.must_rise({{"base_c", c.base_c}, {"optimum_low_c", c.optimum_low_c}});
  in.must_not_fall({{"optimum_low_c", c.optimum_low_c}, {"optimum_high_c", c.optimum_high_c}});
  in.must_rise({{"optimum_high_c", c.optimum_high_c}, {"ceiling_c", c.ceiling_c}});
  return c;
}

std::optional<double> as_number(const base::TomlValue& value) {
  if (const auto* real = std::get_if<double>(&value.data)) return *real;
  if (const auto* whole = std::get_if<std::int64_t>(&value.data)) return static_cast<double>(*whole);
  return std::nullopt;
}

/// One [temperature, share] pair; nothing when it is not one.
std::optional<TemperaturePoint> read_point(const base::TomlValue& value) {
  const auto* pair = std::get_if<base::TomlArray>(&value.data);
  if (pair == nullptr || pair->size() != 2) return std::nullopt;
  const auto temp = as_number((*pair)[0]);
  const auto share = as_number((*pair)[1]);
  if (!temp || !share || !(*temp >= -40.0 && *temp <= 60.0) || !(*share >= 0.0 && *share <= 1.0))
    return std::nullopt;
  return TemperaturePoint{*temp, *share};
}

std::vector<TemperaturePoint> read_curve(TomlReader& in, std::string_view key) {
  std::vector<TemperaturePoint> points;
  const base::TomlValue* value = in.raw(key);
  const auto* list = value == nullptr ? nullptr : std::get_if<base::TomlArray>(&value->data);
  if (list == nullptr || list->size() < 2) {
    in.report(value == nullptr ? ProblemCode::missing_field : ProblemCode::wrong_type,
              "must be a list of at least two [temperature, share] pairs", key,
              "For example [[5, 0.4], [20, 1.0]]");
    return points;
  }
  for (const base::TomlValue& entry : *list) {
    const auto point = read_point(entry);
    if (!point) {
      in.report(ProblemCode::out_of_range, "holds a pair that is not [temperature -40..60, share 0..1]", key);
      return points;
    }
    if (!points.empty() && point->temp_c <= points.back().temp_c) {
      in.report(ProblemCode::contradiction, "temperatures must rise from pair to pair", key);
      return points;
    }
    points.push_back(*point);
  }
  return points;
}

/// One [latitude, hours] pair; nothing when it is not one.
std::optional<KindAtLatitude> read_kind(const base::TomlValue& value) {
  const auto* pair = std::get_if<base::TomlArray>(&value.data);
  if (pair == nullptr || pair->size() != 2) return std::nullopt;
  const auto latitude = as_number((*pair)[0]);
  const auto hours = as_number((*pair)[1]);
  if (!latitude || !hours || !(*latitude >= 0.0 && *latitude <= 90.0) || !(*hours >= 6.0 && *hours <= 24.0))
    return std::nullopt;
  return KindAtLatitude{*latitude, *hours};
}

std::vector<KindAtLatitude> read_kinds(TomlReader& in, std::string_view key) {
  std::vector<KindAtLatitude> kinds;
  const base::TomlValue* value = in.raw(key);
  if (value == nullptr) return kinds;
  const auto* list = std::get_if<base::TomlArray>(&value->data);
  if (list == nullptr || list->empty()) {
    in.report(ProblemCode::wrong_type, "must be a list of [latitude, hours] pairs", key,
              "For example [[32, 12], [38, 14]]");
    return kinds;
  }
  for (const base::TomlValue& entry : *list) {
    const auto kind = read_kind(entry);
    if (!kind) {
      in.report(ProblemCode::out_of_range, "holds a pair that is not [latitude 0..90, hours 6..24]", key);
      return kinds;
    }
    if (!kinds.empty() && kind->latitude_deg <= kinds.back().latitude_deg) {
      in.report(ProblemCode::contradiction, "latitudes must rise from pair to pair", key);
      return kinds;
    }
    kinds.push_back(*kind);
  }
  return kinds;
}

Germination read_germination(SectionReader& in) {
  Germination g;
  g.cardinal = read_cardinal(in);
  g.thermal_time_50_cd = in.figure("thermal_time_50_cd", kPositive);
  g.log_spread = in.figure("log_spread", {.above = 0.0, .at_least = {}, .at_most = 2.0});
  g.final_fraction = read_curve(in.raw(), "final_fraction");
  g.final_fraction_source = in.source("final_fraction_source");
  g.depth_mm = in.figure("depth_mm", {.above = {}, .at_least = 0.0, .at_most = 300.0});
  g.depth_thermal_time_cd_per_mm = in.figure("depth_thermal_time_cd_per_mm", kNotNegative);
  g.soil_factor = in.optional_figure("soil_factor", {.above = {}, .at_least = 1.0, .at_most = 5.0});
  return g;
}

void check_embryos(TomlReader& in, const std::vector<double>& embryos) {
  if (in.problem()) return;
  const double sum = std::accumulate(embryos.begin(), embryos.end(), 0.0);
  if (embryos.empty() || embryos.size() > 12 || std::abs(sum - 1.0) > 1e-9) {
    in.report(
        ProblemCode::contradiction, fmt::format("has {} shares that sum to {}", embryos.size(), sum),
        "embryos",
        "Give the probability of 1, 2, 3 ... seedlings from one seed, at most 12 of them, summing to 1");
  }
}

SeedFacts read_seed(SectionReader& in, const SourceTable& sources) {
  SeedFacts s;
  s.planting_piece = in.raw().flag_or("planting_piece", false);
  s.embryos = in.raw().numbers("embryos", 0, kShare);
  check_embryos(in.raw(), s.embryos);
  s.embryos_source = in.source("embryos_source");
  s.seeds_per_gram = in.figure("seeds_per_gram", kPositive);
  s.germination_pct = in.figure("germination_pct", kPercent);
  s.life_years = in.figure("life_years", kPositive);
  if (auto table = in.raw().table("viability")) {
    SectionReader section(std::move(*table), sources);
    SeedFacts::Viability v;
    v.ke = section.figure("ke", kPositive);
    v.cw = section.figure("cw", kPositive);
    v.ch = section.figure("ch", kPositive);
    v.cq = section.figure("cq", kPositive);
    section.raw().reject_unknown();
    in.raw().adopt(section.raw());
    s.viability = v;
  }
  return s;
}

Nursery read_nursery(SectionReader& in) {
  Nursery n;
  n.can_transplant = in.raw().flag_or("can_transplant", true);
  n.can_direct_sow = in.raw().flag_or("can_direct_sow", true);
  n.ready_thermal_time_cd = in.figure("ready_thermal_time_cd", kPositive);
  n.latest_thermal_time_cd = in.figure("latest_thermal_time_cd", kPositive);
  n.hardening_days = in.figure("hardening_days", kNotNegative);
  n.cell_width_mm = in.figure("cell_width_mm", kPositive);
  n.plants_per_clump = in.figure("plants_per_clump", {.above = {}, .at_least = 1.0, .at_most = 20.0});
  n.set_out_min_temp_c = in.figure("set_out_min_temp_c", kTemperature);
  n.transplant_check_cd = in.figure("transplant_check_cd", kNotNegative);
  n.caution = in.raw().text_or("caution", "");
  in.must_not_fall({{"ready_thermal_time_cd", n.ready_thermal_time_cd},
                    {"latest_thermal_time_cd", n.latest_thermal_time_cd}});
  if (!n.can_transplant && !n.can_direct_sow && !in.raw().problem()) {
    in.raw().report(ProblemCode::contradiction, "no way to grow it is left", "can_direct_sow",
                    "Allow can_transplant or can_direct_sow");
  }
  return n;
}

Growth read_growth(SectionReader& in) {
  Growth g;
  g.cardinal = read_cardinal(in);
  if (in.raw().raw("light_response") != nullptr) {
    g.light_response = read_curve(in.raw(), "light_response");
    g.light_response_source = in.source("light_response_source");
    g.light_response_note = in.raw().text_or("light_response_note", "");
  }
  g.radiation_use_g_per_mj =
      in.figure("radiation_use_g_per_mj", {.above = 0.0, .at_least = {}, .at_most = 8.0});
  g.extinction = in.figure("extinction", {.above = 0.0, .at_least = {}, .at_most = 1.5});
  g.specific_leaf_area_m2_per_g =
      in.figure("specific_leaf_area_m2_per_g", {.above = 0.0, .at_least = {}, .at_most = 0.2});
  g.start_leaf_area_cm2 = in.figure("start_leaf_area_cm2", kPositive);
  g.leaf_area_most_m2 = in.optional_figure("leaf_area_most_m2", kPositive);
  g.taller_first_share = in.optional_figure("taller_first_share", kShare);
  g.early_relative_rate_per_cd =
      in.figure("early_relative_rate_per_cd", {.above = 0.0, .at_least = {}, .at_most = 0.1});
  g.organ_start_cd = in.figure("organ_start_cd", kNotNegative);
  g.organ_full_cd = in.figure("organ_full_cd", kNotNegative);
  g.organ_share_max = in.figure("organ_share_max", kPositiveShare);
  g.maturity_cd = in.figure("maturity_cd", kPositive);
  g.decline_cd = in.figure("decline_cd", kPositive);
  g.dry_matter_fraction = in.figure("dry_matter_fraction", kPositiveShare);
  g.marketable_fraction = in.figure("marketable_fraction", kPositiveShare);
  g.field_efficiency = in.figure("field_efficiency", kPositiveShare);
  if (g.leaf_area_most_m2 && *g.leaf_area_most_m2 * 1e4 <= g.start_leaf_area_cm2) {
    in.raw().report(ProblemCode::contradiction, "must be above the leaf that a seedling starts with",
                    "leaf_area_most_m2");
  }
  in.must_not_fall({{"organ_start_cd", g.organ_start_cd}, {"organ_full_cd", g.organ_full_cd}});
  in.must_not_fall(
      {{"organ_start_cd", g.organ_start_cd}, {"maturity_cd", g.maturity_cd}, {"decline_cd", g.decline_cd}});
  return g;
}

Harvest read_harvest(SectionReader& in) {
  Harvest h;
  h.part = static_cast<HarvestedPart>(in.raw().choice("part", harvested_part_words()));
  h.style = static_cast<HarvestStyle>(in.raw().choice("style", harvest_style_words()));
  h.shape = static_cast<RootShape>(in.raw().choice_or("shape", root_shape_words(), 0));
  h.smallest_g = in.figure("smallest_g", kPositive);
  h.small_g = in.figure("small_g", kPositive);
  h.large_g = in.figure("large_g", kPositive);
  h.over_size_g = in.figure("over_size_g", kPositive);
  h.small_diameter_mm = in.optional_figure("small_diameter_mm", kPositive);
  h.large_diameter_mm = in.optional_figure("large_diameter_mm", kPositive);
  h.weight_g_per_cm3 = in.optional_figure("weight_g_per_cm3", kPositive);
  h.length_per_diameter = in.optional_figure("length_per_diameter", kPositive);
  h.greens_dry_matter_fraction = in.optional_figure("greens_dry_matter_fraction", kPositiveShare);
  h.greens_share = in.optional_figure("greens_share", kPositiveShare);
  if (h.greens_share.has_value() != h.greens_dry_matter_fraction.has_value()) {
    in.raw().report(ProblemCode::missing_field, "is needed where the leaves are eaten too",
                    h.greens_share ? "greens_dry_matter_fraction" : "greens_share",
                    "Give both figures of the greens, or neither");
  }
  h.picking_days = in.figure("picking_days", kNotNegative);
  h.pick_interval_days = in.figure("pick_interval_days", kNotNegative);
  h.serving_g = in.figure("serving_g", kPositive);
  h.edible_fraction = in.figure("edible_fraction", kPositiveShare);
  in.must_not_fall({{"smallest_g", h.smallest_g},
                    {"small_g", h.small_g},
                    {"large_g", h.large_g},
                    {"over_size_g", h.over_size_g}});
  if (h.small_diameter_mm && h.large_diameter_mm) {
    in.must_not_fall(
        {{"small_diameter_mm", *h.small_diameter_mm}, {"large_diameter_mm", *h.large_diameter_mm}});
  }
  return h;
}

Place read_place(SectionReader& in) {
  Place p;
  p.spacing_small_mm = in.figure("spacing_small_mm", kPositive);
  p.spacing_large_mm = in.figure("spacing_large_mm", kPositive);
  p.row_spacing_mm = in.figure("row_spacing_mm", kPositive);
  p.height_m = in.figure("height_m", kPositive);
  p.rooting_depth_m = in.figure("rooting_depth_m", kPositive);
  p.sun = static_cast<SunNeed>(in.raw().choice("sun", sun_need_words()));
  p.feeder = static_cast<FeederClass>(in.raw().choice("feeder", feeder_class_words()));
  p.rotation_years = in.figure("rotation_years", kNotNegative);
  p.day_length = static_cast<DayLengthClass>(in.raw().choice_or("day_length", day_length_class_words(), 0));
  p.least_block = in.optional_figure("least_block", {.above = {}, .at_least = 1.0, .at_most = 100.0});
  p.critical_day_length_h =
      in.optional_figure("critical_day_length_h", {.above = {}, .at_least = 6.0, .at_most = 24.0});
  p.kinds_by_latitude = read_kinds(in.raw(), "kinds_by_latitude");
  if (!p.kinds_by_latitude.empty()) p.kinds_by_latitude_source = in.source("kinds_by_latitude_source");
  in.must_not_fall({{"spacing_small_mm", p.spacing_small_mm}, {"spacing_large_mm", p.spacing_large_mm}});
  return p;
}

Limits read_limits(SectionReader& in) {
  Limits l;
  l.kill_seedling_c = in.figure("kill_seedling_c", kTemperature);
  l.kill_mature_c = in.figure("kill_mature_c", kTemperature);
  l.damage_hot_c = in.figure("damage_hot_c", kTemperature);
  l.soil_min_sow_c = in.figure("soil_min_sow_c", kTemperature);
  l.vernal_base_c = in.optional_figure("vernal_base_c", kTemperature);
  l.vernal_best_c = in.optional_figure("vernal_best_c", kTemperature);
  l.vernal_ceiling_c = in.optional_figure("vernal_ceiling_c", kTemperature);
  l.vernal_days = in.optional_figure("vernal_days", kPositive);
  l.bolt_day_length_h =
      in.optional_figure("bolt_day_length_h", {.above = {}, .at_least = 6.0, .at_most = 24.0});
  l.caution = in.raw().text_or("caution", "");
  in.must_not_fall({{"kill_mature_c", l.kill_mature_c}, {"kill_seedling_c", l.kill_seedling_c}});
  in.must_rise({{"kill_seedling_c", l.kill_seedling_c}, {"damage_hot_c", l.damage_hot_c}});
  const std::array given{l.vernal_base_c.has_value(), l.vernal_best_c.has_value(),
                         l.vernal_ceiling_c.has_value(), l.vernal_days.has_value()};
  const auto count = std::count(given.begin(), given.end(), true);
  if (count == 4) {
    in.must_rise({{"vernal_base_c", *l.vernal_base_c},
                  {"vernal_best_c", *l.vernal_best_c},
                  {"vernal_ceiling_c", *l.vernal_ceiling_c}});
  } else if (count != 0 && !in.raw().problem()) {
    in.raw().report(ProblemCode::missing_field, "a cold requirement needs all four of its figures",
                    "vernal_days",
                    "Give vernal_base_c, vernal_best_c, vernal_ceiling_c and vernal_days, or none of them");
  }
  return l;
}

SowingHabit read_sowing(SectionReader& in) {
  SowingHabit s;
  s.overwinters = in.raw().flag_or("overwinters", false);
  s.coldest_night_c = in.optional_figure("coldest_night_c", kTemperature);
  s.hottest_c = in.optional_figure("hottest_c", kTemperature);
  s.slowest = in.optional_figure("slowest", {.above = {}, .at_least = 1.0, .at_most = 10.0});
  s.start_share = in.optional_figure("start_share", kShare);
  s.closing_share = in.optional_figure("closing_share", kShare);
  s.autumn_hottest_c = in.optional_figure("autumn_hottest_c", kTemperature);
  s.young_hottest_c = in.optional_figure("young_hottest_c", kTemperature);
  s.slowest_here = in.optional_figure("slowest_here", {.above = {}, .at_least = 1.0, .at_most = 10.0});
  s.picking_here = in.optional_figure("picking_here", kShare);
  s.autumn_day_length_h =
      in.optional_figure("autumn_day_length_h", {.above = {}, .at_least = 6.0, .at_most = 24.0});
  s.leaf_growth_cd = in.optional_figure("leaf_growth_cd", kNotNegative);
  return s;
}

Keeping read_keeping(SectionReader& in) {
  Keeping k;
  k.kitchen_days = in.figure("kitchen_days", kNotNegative);
  k.fridge_days = in.figure("fridge_days", kNotNegative);
  k.best_days = in.figure("best_days", kPositive);
  k.best_temp_c = in.figure("best_temp_c", kTemperature);
  k.best_humidity_pct = in.figure("best_humidity_pct", kPercent);
  k.chilling_c = in.figure("chilling_c", kTemperature);
  k.handling = in.raw().text("handling");
  in.must_not_fall({{"kitchen_days", k.kitchen_days}, {"best_days", k.best_days}});
  in.must_not_fall({{"fridge_days", k.fridge_days}, {"best_days", k.best_days}});
  return k;
}

/// The crop's id: the file's name without folders and ending.
std::string id_of(std::string_view file) {
  const std::size_t slash = file.find_last_of('/');
  std::string_view name = slash == std::string_view::npos ? file : file.substr(slash + 1);
  const std::size_t dot = name.find_last_of('.');
  return std::string(dot == std::string_view::npos ? name : name.substr(0, dot));
}

/// Reads a section that must be there and takes over its first problem.
template <class Section, class Read>
void read_section(TomlReader& top, std::string_view key, const SourceTable& sources, Section& into,
                  Read read) {
  std::optional<TomlReader> table = top.table(key);
  if (!table) {
    if (!top.problem()) top.report(ProblemCode::missing_field, "this section is missing", key);
    return;
  }
  SectionReader section(std::move(*table), sources);
  into = read(section);
  section.raw().reject_unknown();
  top.adopt(section.raw());
}

}  // namespace

const std::vector<std::string_view>& life_form_words() {
  static const std::vector<std::string_view> words{"annual", "biennial", "perennial"};
  return words;
}
const std::vector<std::string_view>& harvested_part_words() {
  static const std::vector<std::string_view> words{"root", "leaf",  "head",  "stem", "bulb",
                                                   "pod",  "fruit", "tuber", "herb", "flower"};
  return words;
}
const std::vector<std::string_view>& harvest_style_words() {
  static const std::vector<std::string_view> words{"once", "repeat-cut", "picked"};
  return words;
}
const std::vector<std::string_view>& root_shape_words() {
  static const std::vector<std::string_view> words{"none", "round", "cylindrical", "conical"};
  return words;
}
const std::vector<std::string_view>& sun_need_words() {
  static const std::vector<std::string_view> words{"full", "partial"};
  return words;
}
const std::vector<std::string_view>& feeder_class_words() {
  static const std::vector<std::string_view> words{"light", "medium", "heavy", "fixes-nitrogen"};
  return words;
}
const std::vector<std::string_view>& day_length_class_words() {
  static const std::vector<std::string_view> words{"neutral", "long-day", "short-day"};
  return words;
}
const std::vector<std::string_view>& mark_words() {
  static const std::vector<std::string_view> words{"seen", "memory", "chosen", "common practice"};
  return words;
}

base::Result<Crop> read_crop(std::string_view text, const std::string& file,
                             const SourceTable& known_sources) {
  auto document = base::parse_toml(text, file);
  if (!document) return tl::unexpected(document.error());
  TomlReader top(*document, file, "");
  Crop crop;
  crop.id = id_of(file);
  crop.name = top.text("name");
  crop.also = top.texts_or_empty("also");
  crop.latin = top.text("latin");
  crop.family = top.text("family");
  crop.groups = top.texts_or_empty("groups");
  crop.life = static_cast<LifeForm>(top.choice("life", life_form_words()));
  read_section(top, "germination", known_sources, crop.germination, read_germination);
  read_section(top, "seed", known_sources, crop.seed,
               [&](SectionReader& in) { return read_seed(in, known_sources); });
  read_section(top, "nursery", known_sources, crop.nursery, read_nursery);
  read_section(top, "growth", known_sources, crop.growth, read_growth);
  read_section(top, "harvest", known_sources, crop.harvest, read_harvest);
  read_section(top, "place", known_sources, crop.place, read_place);
  read_section(top, "limits", known_sources, crop.limits, read_limits);
  if (top.has("sowing")) read_section(top, "sowing", known_sources, crop.sowing, read_sowing);
  read_section(top, "keeping", known_sources, crop.keeping, read_keeping);
  top.reject_unknown();
  if (top.problem()) return tl::unexpected(*top.problem());
  return crop;
}

base::Result<SourceTable> read_sources(std::string_view text, const std::string& file) {
  auto document = base::parse_toml(text, file);
  if (!document) return tl::unexpected(document.error());
  TomlReader top(*document, file, "");
  SourceTable sources;
  for (const std::string& key : top.keys()) sources[key] = top.text(key);
  if (top.problem()) return tl::unexpected(*top.problem());
  return sources;
}

}  // namespace sowtide::crop
