// An invented crop file for tests, whole and valid; tests change one line at a time.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "crop/crop.hpp"

namespace sowtide::crop::testing {

/// The text of a valid crop with round figures.
[[nodiscard]] inline std::string example_text() {
  return R"(name = "Testroot"
latin = "Exemplum hortense"
family = "Exemplaceae"
groups = ["roots"]
life = "biennial"

[germination]
base_c = { value = 2, source = "some1999", mark = "seen" }
optimum_low_c = { value = 22, source = "some1999", mark = "seen" }
optimum_high_c = { value = 30, source = "some1999", mark = "seen" }
ceiling_c = { value = 40, source = "some1999", mark = "seen" }
thermal_time_50_cd = { value = 100, low = 90, high = 110, source = "some1999", mark = "seen", note = "round" }
log_spread = { value = 0.25, source = "from memory" }
final_fraction = [[5, 0.5], [15, 1.0], [25, 1.0], [35, 0.2]]
final_fraction_source = "some1999"
depth_mm = { value = 10, source = "common practice" }
depth_thermal_time_cd_per_mm = { value = 0.5, source = "some1999", mark = "memory" }

[seed]
embryos = [0.25, 0.5, 0.25]
embryos_source = "common practice"
seeds_per_gram = { value = 100, source = "some1999", mark = "seen" }
germination_pct = { value = 80, source = "some1999", mark = "seen" }
life_years = { value = 4, source = "some1999", mark = "seen" }

[seed.viability]
ke = { value = 8.242, source = "some1999", mark = "seen" }
cw = { value = 4.345, source = "some1999", mark = "seen" }
ch = { value = 0.0307, source = "some1999", mark = "seen" }
cq = { value = 0.000501, source = "some1999", mark = "seen" }

[nursery]
can_transplant = true
can_direct_sow = true
ready_thermal_time_cd = { value = 200, source = "common practice" }
latest_thermal_time_cd = { value = 400, source = "common practice" }
hardening_days = { value = 7, source = "common practice" }
cell_width_mm = { value = 40, source = "common practice" }
plants_per_clump = { value = 3, source = "common practice" }
set_out_min_temp_c = { value = 7, source = "common practice" }
transplant_check_cd = { value = 40, source = "common practice" }

[growth]
base_c = { value = 5, source = "some1999", mark = "seen" }
optimum_low_c = { value = 20, source = "some1999", mark = "seen" }
optimum_high_c = { value = 30, source = "some1999", mark = "seen" }
ceiling_c = { value = 40, source = "some1999", mark = "seen" }
radiation_use_g_per_mj = { value = 2.5, source = "some1999", mark = "seen" }
extinction = { value = 0.6, source = "some1999", mark = "seen" }
specific_leaf_area_m2_per_g = { value = 0.02, source = "some1999", mark = "seen" }
start_leaf_area_cm2 = { value = 1, source = "some1999", mark = "chosen" }
early_relative_rate_per_cd = { value = 0.013, source = "some1999", mark = "seen" }
organ_start_cd = { value = 150, source = "some1999", mark = "chosen" }
organ_full_cd = { value = 600, source = "some1999", mark = "chosen" }
organ_share_max = { value = 0.8, source = "some1999", mark = "seen" }
maturity_cd = { value = 700, source = "some1999", mark = "seen" }
decline_cd = { value = 1500, source = "some1999", mark = "seen" }
dry_matter_fraction = { value = 0.12, source = "some1999", mark = "seen" }
marketable_fraction = { value = 0.9, source = "common practice" }
field_efficiency = { value = 0.6, source = "common practice" }

[harvest]
part = "root"
style = "once"
shape = "round"
smallest_g = { value = 10, source = "some1999", mark = "seen" }
small_g = { value = 40, source = "some1999", mark = "seen" }
large_g = { value = 150, source = "some1999", mark = "seen" }
over_size_g = { value = 400, source = "some1999", mark = "seen" }
small_diameter_mm = { value = 40, source = "some1999", mark = "seen" }
large_diameter_mm = { value = 60, source = "some1999", mark = "seen" }
weight_g_per_cm3 = { value = 0.6, source = "some1999", mark = "seen" }
picking_days = { value = 0, source = "common practice" }
pick_interval_days = { value = 0, source = "common practice" }
serving_g = { value = 85, source = "some1999", mark = "seen" }
edible_fraction = { value = 0.7, source = "some1999", mark = "seen" }

[place]
spacing_small_mm = { value = 80, source = "common practice" }
spacing_large_mm = { value = 140, source = "common practice" }
row_spacing_mm = { value = 300, source = "common practice" }
height_m = { value = 0.4, source = "some1999", mark = "seen" }
rooting_depth_m = { value = 0.6, source = "some1999", mark = "seen" }
sun = "full"
feeder = "light"
rotation_years = { value = 3, source = "some1999", mark = "seen" }
day_length = "neutral"

[limits]
kill_seedling_c = { value = -3, source = "some1999", mark = "seen" }
kill_mature_c = { value = -7, source = "some1999", mark = "seen" }
damage_hot_c = { value = 32, source = "some1999", mark = "seen" }
soil_min_sow_c = { value = 5, source = "some1999", mark = "seen" }
vernal_base_c = { value = 0, source = "some1999", mark = "seen" }
vernal_best_c = { value = 5, source = "some1999", mark = "seen" }
vernal_ceiling_c = { value = 12, source = "some1999", mark = "seen" }
vernal_days = { value = 60, source = "some1999", mark = "seen" }

[keeping]
kitchen_days = { value = 2, source = "common practice" }
fridge_days = { value = 10, source = "common practice" }
best_days = { value = 100, source = "some1999", mark = "seen" }
best_temp_c = { value = 0, source = "some1999", mark = "seen" }
best_humidity_pct = { value = 95, source = "some1999", mark = "seen" }
chilling_c = { value = -1, source = "some1999", mark = "seen" }
handling = "Keep cool."
)";
}

[[nodiscard]] inline std::map<std::string, std::string, std::less<>> example_sources() {
  return {{"some1999", "A. Writer 1999, An invented citation for tests"}};
}

[[nodiscard]] inline Crop example_crop() {
  return *read_crop(example_text(), "crops/testroot.toml", example_sources());
}

/// The example with the first `from` replaced by `to`.
[[nodiscard]] inline std::string changed(std::string_view from, std::string_view to) {
  std::string text = example_text();
  const std::size_t at = text.find(from);
  if (at != std::string::npos) text.replace(at, from.size(), to);
  return text;
}

}  // namespace sowtide::crop::testing
