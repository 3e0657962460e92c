#include "crop/listing.hpp"

#include <fmt/format.h>

#include "base/csv.hpp"

namespace sowtide::crop {
namespace {

/// Adds the figures of one section, in order.
class SectionLister {
 public:
  SectionLister(std::string_view section, std::vector<ListedFigure>& into)
      : section_(section), into_(&into) {}

  SectionLister& add(std::string_view name, const Figure& figure) {
    into_->push_back({section_, name, &figure});
    return *this;
  }
  SectionLister& add(std::string_view name, const std::optional<Figure>& figure) {
    if (figure) into_->push_back({section_, name, &*figure});
    return *this;
  }
  SectionLister& add(const CardinalTemperatures& cardinal) {
    return add("base_c", cardinal.base_c)
        .add("optimum_low_c", cardinal.optimum_low_c)
        .add("optimum_high_c", cardinal.optimum_high_c)
        .add("ceiling_c", cardinal.ceiling_c);
  }

 private:
  std::string_view section_;
  std::vector<ListedFigure>* into_;
};

void list_germination(const Germination& x, std::vector<ListedFigure>& into) {
  SectionLister("germination", into)
      .add(x.cardinal)
      .add("thermal_time_50_cd", x.thermal_time_50_cd)
      .add("log_spread", x.log_spread)
      .add("depth_mm", x.depth_mm)
      .add("depth_thermal_time_cd_per_mm", x.depth_thermal_time_cd_per_mm)
      .add("soil_factor", x.soil_factor);
}

void list_seed(const SeedFacts& x, std::vector<ListedFigure>& into) {
  SectionLister("seed", into)
      .add("seeds_per_gram", x.seeds_per_gram)
      .add("germination_pct", x.germination_pct)
      .add("life_years", x.life_years);
  if (x.viability) {
    SectionLister("seed.viability", into)
        .add("ke", x.viability->ke)
        .add("cw", x.viability->cw)
        .add("ch", x.viability->ch)
        .add("cq", x.viability->cq);
  }
}

void list_nursery(const Nursery& x, std::vector<ListedFigure>& into) {
  SectionLister("nursery", into)
      .add("ready_thermal_time_cd", x.ready_thermal_time_cd)
      .add("latest_thermal_time_cd", x.latest_thermal_time_cd)
      .add("hardening_days", x.hardening_days)
      .add("cell_width_mm", x.cell_width_mm)
      .add("plants_per_clump", x.plants_per_clump)
      .add("set_out_min_temp_c", x.set_out_min_temp_c)
      .add("transplant_check_cd", x.transplant_check_cd);
}

void list_growth(const Growth& x, std::vector<ListedFigure>& into) {
  SectionLister("growth", into)
      .add(x.cardinal)
      .add("radiation_use_g_per_mj", x.radiation_use_g_per_mj)
      .add("extinction", x.extinction)
      .add("specific_leaf_area_m2_per_g", x.specific_leaf_area_m2_per_g)
      .add("start_leaf_area_cm2", x.start_leaf_area_cm2)
      .add("leaf_area_most_m2", x.leaf_area_most_m2)
      .add("taller_first_share", x.taller_first_share)
      .add("early_relative_rate_per_cd", x.early_relative_rate_per_cd)
      .add("organ_start_cd", x.organ_start_cd)
      .add("organ_full_cd", x.organ_full_cd)
      .add("organ_share_max", x.organ_share_max)
      .add("maturity_cd", x.maturity_cd)
      .add("decline_cd", x.decline_cd)
      .add("dry_matter_fraction", x.dry_matter_fraction)
      .add("marketable_fraction", x.marketable_fraction)
      .add("field_efficiency", x.field_efficiency);
}

void list_harvest(const Harvest& x, std::vector<ListedFigure>& into) {
  SectionLister("harvest", into)
      .add("smallest_g", x.smallest_g)
      .add("small_g", x.small_g)
      .add("large_g", x.large_g)
      .add("over_size_g", x.over_size_g)
      .add("small_diameter_mm", x.small_diameter_mm)
      .add("large_diameter_mm", x.large_diameter_mm)
      .add("weight_g_per_cm3", x.weight_g_per_cm3)
      .add("length_per_diameter", x.length_per_diameter)
      .add("greens_dry_matter_fraction", x.greens_dry_matter_fraction)
      .add("greens_share", x.greens_share)
      .add("picking_days", x.picking_days)
      .add("pick_interval_days", x.pick_interval_days)
      .add("serving_g", x.serving_g)
      .add("edible_fraction", x.edible_fraction);
}

void list_place(const Place& x, std::vector<ListedFigure>& into) {
  SectionLister("place", into)
      .add("spacing_small_mm", x.spacing_small_mm)
      .add("spacing_large_mm", x.spacing_large_mm)
      .add("row_spacing_mm", x.row_spacing_mm)
      .add("height_m", x.height_m)
      .add("rooting_depth_m", x.rooting_depth_m)
      .add("rotation_years", x.rotation_years)
      .add("least_block", x.least_block)
      .add("critical_day_length_h", x.critical_day_length_h);
}

void list_limits(const Limits& x, std::vector<ListedFigure>& into) {
  SectionLister("limits", into)
      .add("kill_seedling_c", x.kill_seedling_c)
      .add("kill_mature_c", x.kill_mature_c)
      .add("damage_hot_c", x.damage_hot_c)
      .add("soil_min_sow_c", x.soil_min_sow_c)
      .add("vernal_base_c", x.vernal_base_c)
      .add("vernal_best_c", x.vernal_best_c)
      .add("vernal_ceiling_c", x.vernal_ceiling_c)
      .add("vernal_days", x.vernal_days)
      .add("bolt_day_length_h", x.bolt_day_length_h);
}

void list_sowing(const SowingHabit& x, std::vector<ListedFigure>& into) {
  SectionLister("sowing", into)
      .add("coldest_night_c", x.coldest_night_c)
      .add("hottest_c", x.hottest_c)
      .add("slowest", x.slowest)
      .add("start_share", x.start_share)
      .add("closing_share", x.closing_share)
      .add("autumn_hottest_c", x.autumn_hottest_c)
      .add("young_hottest_c", x.young_hottest_c)
      .add("slowest_here", x.slowest_here)
      .add("picking_here", x.picking_here)
      .add("autumn_day_length_h", x.autumn_day_length_h)
      .add("leaf_growth_cd", x.leaf_growth_cd);
}

void list_keeping(const Keeping& x, std::vector<ListedFigure>& into) {
  SectionLister("keeping", into)
      .add("kitchen_days", x.kitchen_days)
      .add("fridge_days", x.fridge_days)
      .add("best_days", x.best_days)
      .add("best_temp_c", x.best_temp_c)
      .add("best_humidity_pct", x.best_humidity_pct)
      .add("chilling_c", x.chilling_c);
}

std::string words(const std::vector<std::string_view>& list, std::size_t at) {
  return std::string(list[at]);
}

/// A text that cannot break out of its cell.
std::string cell(std::string_view text) {
  std::string made;
  for (const char c : text) {
    if (c == '|') made += '\\';
    made += c;
  }
  return made;
}

std::string source_cell(const Figure& figure) {
  const std::string mark = words(mark_words(), static_cast<std::size_t>(figure.mark));
  if (figure.source == "common practice" || figure.source == "from memory") return figure.source;
  return fmt::format("{} ({})", figure.source, mark);
}

std::string spread_cell(const Figure& figure) {
  if (!figure.low && !figure.high) return "";
  const std::string low = figure.low ? base::number_text(*figure.low) : "";
  const std::string high = figure.high ? base::number_text(*figure.high) : "";
  return fmt::format("{} to {}", low.empty() ? "…" : low, high.empty() ? "…" : high);
}

std::string curve_text(const std::vector<TemperaturePoint>& points) {
  std::string made;
  for (const TemperaturePoint& point : points) {
    made += fmt::format("{}{} °C: {}", made.empty() ? "" : ", ", base::number_text(point.temp_c),
                        base::number_text(point.value));
  }
  return made;
}

std::string kinds_text(const std::vector<KindAtLatitude>& kinds) {
  std::string made;
  for (const KindAtLatitude& kind : kinds) {
    made += fmt::format("{}{}°: {} h", made.empty() ? "" : ", ", base::number_text(kind.latitude_deg),
                        base::number_text(kind.day_length_h));
  }
  return made;
}

std::string embryo_text(const std::vector<double>& embryos) {
  std::string made;
  for (std::size_t m = 0; m < embryos.size(); ++m) {
    made += fmt::format("{}{}: {}", made.empty() ? "" : ", ", m + 1, base::number_text(embryos[m]));
  }
  return made;
}

std::string heading(const Crop& crop) {
  std::string groups;
  for (const std::string& group : crop.groups) groups += (groups.empty() ? "" : ", ") + group;
  return fmt::format(
      "\n## {}\n\n`{}` · *{}* · {} · {} · {} ({}) · {} · {} sun · {} feeder · day length {}\n\n", crop.name,
      crop.id, crop.latin, crop.family, words(life_form_words(), static_cast<std::size_t>(crop.life)),
      words(harvested_part_words(), static_cast<std::size_t>(crop.harvest.part)),
      words(harvest_style_words(), static_cast<std::size_t>(crop.harvest.style)), groups,
      words(sun_need_words(), static_cast<std::size_t>(crop.place.sun)),
      words(feeder_class_words(), static_cast<std::size_t>(crop.place.feeder)),
      words(day_length_class_words(), static_cast<std::size_t>(crop.place.day_length)));
}

std::string remarks(const Crop& crop) {
  std::string made;
  for (const std::string& other : crop.also) made += (made.empty() ? "- Also called " : ", ") + other;
  if (!made.empty()) made += ".\n";
  if (!crop.nursery.can_transplant) made += "- Sown in place only.\n";
  if (!crop.nursery.can_direct_sow) made += "- Raised in trays only.\n";
  for (const std::string* text : {&crop.nursery.caution, &crop.limits.caution, &crop.keeping.handling}) {
    if (!text->empty()) made += "- " + *text + "\n";
  }
  return made + "\n";
}

std::string table(const Crop& crop) {
  std::string made = "| section | figure | value | spread | source | note |\n|---|---|---:|---|---|---|\n";
  made += fmt::format("| germination | final_fraction | {} | | {} | |\n",
                      curve_text(crop.germination.final_fraction), crop.germination.final_fraction_source);
  made += fmt::format("| seed | embryos | {} | | {} | |\n", embryo_text(crop.seed.embryos),
                      crop.seed.embryos_source);
  if (!crop.growth.light_response.empty()) {
    made +=
        fmt::format("| growth | light_response | {} | | {} | {} |\n", curve_text(crop.growth.light_response),
                    crop.growth.light_response_source, cell(crop.growth.light_response_note));
  }
  if (!crop.place.kinds_by_latitude.empty()) {
    made += fmt::format("| place | kinds_by_latitude | {} | | {} | |\n",
                        kinds_text(crop.place.kinds_by_latitude), crop.place.kinds_by_latitude_source);
  }
  for (const ListedFigure& listed : listed_figures(crop)) {
    const Figure& figure = *listed.figure;
    made += fmt::format("| {} | {} | {} | {} | {} | {} |\n", listed.section, listed.name,
                        base::number_text(figure.value), spread_cell(figure), source_cell(figure),
                        cell(figure.note));
  }
  return made;
}

}  // namespace

std::vector<ListedFigure> listed_figures(const Crop& crop) {
  std::vector<ListedFigure> figures;
  list_germination(crop.germination, figures);
  list_seed(crop.seed, figures);
  list_nursery(crop.nursery, figures);
  list_growth(crop.growth, figures);
  list_harvest(crop.harvest, figures);
  list_place(crop.place, figures);
  list_limits(crop.limits, figures);
  list_sowing(crop.sowing, figures);
  list_keeping(crop.keeping, figures);
  return figures;
}

std::string library_page(const CropLibrary& library) {
  std::string page = fmt::format(
      "# The crops\n\nMade from `crops/*.toml` by `scripts/make-crop-docs`; do not edit. {} crops. The unit "
      "is the end of a "
      "figure's name (`_c` °C, `_cd` °C d). Spread: the lowest and highest found. Marks: seen, read in the "
      "source or a "
      "copy of it; memory, recalled; chosen, picked or worked out from it. What each figure means stands in "
      "[formats/crop.md](formats/crop.md).\n",
      library.crops.size());
  for (const auto& [id, crop] : library.crops) page += heading(crop) + remarks(crop) + table(crop);
  page += "\n## Sources\n\n";
  for (const auto& [key, citation] : library.sources) page += fmt::format("- **{}**: {}\n", key, citation);
  return page;
}

}  // namespace sowtide::crop
