// A crop as data: everything the engine knows about beet, chard or courgette, each figure with its source.
//
// Crops live in crops/<id>.toml, one file a crop; citations in crops/sources.toml. No figure of a crop stands
// in code. The schema is documented in docs/formats/crop.md and checked on load with line-precise problems.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace sowtide::crop {

/// How far a figure can be trusted.
enum class Mark { seen, memory, chosen, common_practice };

/// One figure: the value used, the spread of the sources, and where it comes from. Reads as a double; two are
/// equal when all of it is.
struct Figure {
  double value = 0.0;
  std::optional<double> low;   ///< lowest published
  std::optional<double> high;  ///< highest published
  std::string source;          ///< key into sources.toml, "common practice" or "from memory"
  Mark mark = Mark::memory;
  std::string note;                                   ///< why this value; may be empty
  operator double() const noexcept { return value; }  // NOLINT(google-explicit-constructor)
  bool operator==(const Figure&) const = default;
};

enum class LifeForm { annual, biennial, perennial };
enum class HarvestedPart { root, leaf, head, stem, bulb, pod, fruit, tuber, herb, flower };
enum class HarvestStyle { once, repeat_cut, picked };  ///< pull/cut once; cut again; picked over weeks
enum class DayLengthClass { neutral, long_day, short_day };
enum class FeederClass { light, medium, heavy, fixes_nitrogen };
enum class RootShape { none, round, cylindrical, conical };
enum class SunNeed { full, partial };

/// Cardinal temperatures of a rate that rises from base to optimum, is flat to the upper optimum, and falls
/// to zero at the ceiling; °C.
struct CardinalTemperatures {
  Figure base_c, optimum_low_c, optimum_high_c, ceiling_c;
  bool operator==(const CardinalTemperatures&) const = default;
};

/// A point of a curve against temperature.
struct TemperaturePoint {
  double temp_c = 0.0;
  double value = 0.0;
  bool operator==(const TemperaturePoint&) const = default;
};

/// Seed to emergence (docs/models/emergence.md).
struct Germination {
  CardinalTemperatures cardinal;
  Figure thermal_time_50_cd;                     ///< sowing at `depth_mm` to 50 % emergence, °C d above base
  Figure log_spread;                             ///< standard deviation of ln(thermal time) between seeds
  std::vector<TemperaturePoint> final_fraction;  ///< share of live seeds that emerge, 0..1, by temperature
  std::string final_fraction_source;
  Figure depth_mm;
  Figure depth_thermal_time_cd_per_mm;  ///< extra thermal time per mm deeper than depth_mm
  /// Thermal time to emergence from garden soil over that of `thermal_time_50_cd`, where the table behind the
  /// latter really counted bare germination (celery, onion, turnip …); absent means 1.
  std::optional<Figure> soil_factor;
  bool operator==(const Germination&) const = default;
};

/// The seed itself.
struct SeedFacts {
  bool planting_piece = false;  ///< no seed but a tuber, clove or slip, set one to a place
  std::vector<double> embryos;  ///< probability of 1, 2, 3 … seedlings at most in one "seed" (sums to 1); {1}
                                ///< for single-germ seed
  std::string embryos_source;
  Figure seeds_per_gram;
  Figure germination_pct;  ///< of a good fresh packet: share of "seeds" giving at least one seedling
  Figure life_years;       ///< rule-of-thumb storage life
  struct Viability {
    Figure ke, cw, ch, cq;
    bool operator==(const Viability&) const = default;
  };  ///< Ellis and Roberts 1980; absent where no constants are published
  std::optional<Viability> viability;
  bool operator==(const SeedFacts&) const = default;
};

/// Raising in trays, and clumps.
struct Nursery {
  bool can_transplant = true;
  bool can_direct_sow = true;
  Figure ready_thermal_time_cd;   ///< emergence to fit for setting out, °C d above growth base
  Figure latest_thermal_time_cd;  ///< emergence to root-bound
  Figure hardening_days;
  Figure cell_width_mm;        ///< cell size usual for the crop
  Figure plants_per_clump;     ///< kept together in a cell by practice; 1 for single plants
  Figure set_out_min_temp_c;   ///< coldest mean air temperature at which growers set it out
  Figure transplant_check_cd;  ///< thermal time lost to the shock of setting out
  std::string caution;         ///< for example the tap-root rule; may be empty
  bool operator==(const Nursery&) const = default;
};

/// The light-driven growth of one plant (docs/models/stand.md).
struct Growth {
  CardinalTemperatures cardinal;  ///< of leaf growth and development
  /// Dry matter made of the same light, 0..1, by the mean temperature of the daylight hours; empty where
  /// nothing is published, then it goes with `cardinal`, read at the same mean.
  std::vector<TemperaturePoint> light_response;
  std::string light_response_source, light_response_note;
  Figure radiation_use_g_per_mj;  ///< g dry matter per MJ of intercepted PAR
  Figure extinction;              ///< k of Beer's law, on PAR
  Figure specific_leaf_area_m2_per_g;
  Figure start_leaf_area_cm2;         ///< per seedling at emergence
  /// Leaf area that a full-grown plant carries with room all round, m², where its number of leaves is settled
  /// before it bears (maize, broccoli); absent: no bound.
  std::optional<Figure> leaf_area_most_m2;
  /// Share of a stand's light that goes to the taller first, 0..1 (the rest by leaf area); absent: the
  /// engine's own. Broad leaves lie over their neighbours, narrow upright ones let light past.
  std::optional<Figure> taller_first_share;
  Figure early_relative_rate_per_cd;  ///< growth of leaf area per °C d while small
  Figure organ_start_cd;   ///< emergence to the start of filling the harvested organ, °C d above growth base
  Figure organ_full_cd;    ///< emergence to all growth going to the organ
  Figure organ_share_max;  ///< largest share of new growth that the organ takes, 0..1
  Figure maturity_cd;      ///< emergence to usual harvest maturity (large size for roots and heads), °C d
  Figure decline_cd;       ///< emergence to the end of life in the bed (leaves dying, woody, bolted)
  Figure dry_matter_fraction;  ///< of the fresh harvested part
  Figure marketable_fraction;  ///< of the organ's fresh weight that reaches the kitchen before trimming waste
  Figure field_efficiency;     ///< ordinary garden growth as a share of the unstressed, 0..1
  bool operator==(const Growth&) const = default;
};

/// What is harvested and how large.
struct Harvest {
  HarvestedPart part = HarvestedPart::leaf;
  HarvestStyle style = HarvestStyle::once;
  RootShape shape = RootShape::none;
  Figure smallest_g;   ///< fresh weight of one plant (or one fruit or pod) worth taking
  Figure small_g;      ///< the small size people want (baby)
  Figure large_g;      ///< the full size
  Figure over_size_g;  ///< above this it is woody, split or coarse
  std::optional<Figure> small_diameter_mm, large_diameter_mm;
  std::optional<Figure> weight_g_per_cm3;  ///< c of weight = c·D³ (round) or c·D²·L
  std::optional<Figure> length_per_diameter;  ///< L over D of a long root whose length nobody measured
  /// Leaves of a root crop as greens: dry matter of the fresh leaf, and the share of the leaf that can be
  /// taken at once; absent where the tops are not eaten.
  std::optional<Figure> greens_dry_matter_fraction, greens_share;
  Figure picking_days;  ///< picked crops: length of the picking season in °C d at organ stage; repeat cut:
                        ///< days between cuts at the best temperature
  Figure pick_interval_days;  ///< days between picks of picked crops; 0 otherwise
  Figure serving_g;           ///< edible weight of a serving
  Figure edible_fraction;     ///< 1 - refuse
  bool operator==(const Harvest&) const = default;
};

/// Kinds of a crop that are grown at a latitude, by the day length they answer to.
struct KindAtLatitude {
  double latitude_deg = 0.0;  ///< north or south
  double day_length_h = 0.0;  ///< from which (or, for short-day crops, below which) the organ begins
  bool operator==(const KindAtLatitude&) const = default;
};

/// Room, neighbours and the year.
struct Place {
  Figure spacing_small_mm;  ///< between plants (or clumps ×√plants) for the small size, square
  Figure spacing_large_mm;
  Figure row_spacing_mm;
  Figure height_m;
  Figure rooting_depth_m;
  SunNeed sun = SunNeed::full;
  FeederClass feeder = FeederClass::medium;
  std::optional<Figure> least_block;  ///< plants that must stand together, where pollen goes by wind
  Figure rotation_years;  ///< years before the same family should come back to the same stretch
  DayLengthClass day_length = DayLengthClass::neutral;
  std::optional<Figure>
      critical_day_length_h;  ///< long-day bulbing or flowering begins above, short-day below
  /// The same by latitude, where growers choose kinds by it; latitudes rise. Empty where they do not.
  std::vector<KindAtLatitude> kinds_by_latitude;
  std::string kinds_by_latitude_source;
  bool operator==(const Place&) const = default;
};

/// What ends it.
struct Limits {
  Figure kill_seedling_c;  ///< half of young plants die at this air minimum
  Figure kill_mature_c;    ///< half of hardened plants die
  Figure damage_hot_c;     ///< daily maximum above which quality or fruit set fails
  Figure soil_min_sow_c;   ///< coldest soil in which growers sow
  std::optional<Figure> vernal_base_c, vernal_best_c, vernal_ceiling_c;
  std::optional<Figure> vernal_days;  ///< days at the best cold that make it bolt
  std::optional<Figure> bolt_day_length_h;
  std::string caution;  ///< toxic parts and the like; may be empty
  bool operator==(const Limits&) const = default;
};

/// When growers choose to sow it, beyond what the other figures say (docs/models/windows.md). All optional:
/// where a figure is absent, the general rule of sowing windows serves.
struct SowingHabit {
  bool overwinters = false;  ///< also sown in autumn, to stand through winter for an early harvest
  std::optional<Figure> coldest_night_c;  ///< young plants are not trusted out where colder nights follow
  std::optional<Figure> hottest_c;    ///< mean daily maximum that the harvest (or the setting of fruit, pods
                                      ///< and tubers) must not meet
  std::optional<Figure> slowest;      ///< longest time in the bed over that at the best temperatures
  std::optional<Figure> start_share;  ///< least growth in the first three weeks, of the full rate, 0..1
  std::optional<Figure> closing_share;  ///< least growth in the three weeks before harvest, the same
  /// As hottest_c, for harvests while the weather cools: growers wait for better ones.
  std::optional<Figure> autumn_hottest_c;
  /// Mean daily maximum that the first two weeks in the bed must not pass.
  std::optional<Figure> young_hottest_c;
  /// Longest time in the bed over the shortest of any good sowing in the same place.
  std::optional<Figure> slowest_here;
  /// Least picking before frost over the longest of any good sowing in the same place, 0..1.
  std::optional<Figure> picking_here;
  /// Longest day, while days shorten, on which crops that overwinter are sown: earlier ones grow too big.
  std::optional<Figure> autumn_day_length_h;
  /// Least thermal time from the seedling to the bulbing days, °C d: later bulbs stay small.
  std::optional<Figure> leaf_growth_cd;
  bool operator==(const SowingHabit&) const = default;
};

/// Keeping after harvest.
struct Keeping {
  Figure kitchen_days;  ///< at room temperature
  Figure fridge_days;   ///< kitchen refrigerator, 4 to 7 °C, in a bag
  Figure best_days;     ///< at the best temperature and humidity
  Figure best_temp_c;
  Figure best_humidity_pct;
  Figure chilling_c;     ///< injured when kept colder; at most 0 when it is not sensitive
  std::string handling;  ///< one line: how to handle it after harvest
  bool operator==(const Keeping&) const = default;
};

/// A crop.
struct Crop {
  std::string id;    ///< "bush-bean"; file name without ending
  std::string name;  ///< "Bush bean"
  std::vector<std::string> also;  ///< other names it goes by: "zucchini", "summer squash"
  std::string latin;
  std::string family;               ///< botanical family, "Fabaceae": the unit of rotation
  std::vector<std::string> groups;  ///< kitchen groups a want may name: "cooking-greens", "salad", "roots" …
  LifeForm life = LifeForm::annual;
  Germination germination;
  SeedFacts seed;
  Nursery nursery;
  Growth growth;
  Harvest harvest;
  Place place;
  Limits limits;
  SowingHabit sowing;
  Keeping keeping;
  bool operator==(const Crop&) const = default;
};

/// A variety as deltas on its crop.
struct Variety {
  std::string id;
  std::string name;
  std::string crop;
  double earliness = 1.0;           ///< factor on thermal times to harvest, below 1 is earlier
  double size = 1.0;                ///< factor on sizes
  double bolting_resistance = 1.0;  ///< factor on the cold or day length needed to bolt
  bool single_germ = false;         ///< a variety bred to one seedling per seed
  std::string colour;
  std::string notes;
};

/// A packet of seed in the box.
struct Packet {
  std::string id;
  std::string crop;
  std::string variety;  ///< id of a variety of the garden, or empty
  int packed_year = 0;
  double seeds = 0.0;                     ///< seeds (balls) left
  std::optional<double> germination_pct;  ///< as printed or tested
  double cost = 0.0;                      ///< in the garden's own money; 0 when not given
};

/// All crops by id, with the citations behind their figures.
class CropLibrary {
 public:
  std::map<std::string, Crop, std::less<>> crops;
  std::map<std::string, std::string, std::less<>> sources;  ///< key → full citation

  /// The crop of an id or of any other name it goes by, or not_found with the names that are near.
  [[nodiscard]] base::Result<const Crop*> find(std::string_view name) const;
  /// The crop of an id or of any other name it goes by ("zucchini", "Broad Beans"), null when there is none.
  /// Capitals, hyphens, and one or many, are all the same.
  [[nodiscard]] const Crop* named(std::string_view name) const;
  /// The id of the crop that goes by a name; the name as it is where there is none.
  [[nodiscard]] std::string id_for(std::string_view name) const;
  /// How people call the crop of an id; the id where there is none.
  [[nodiscard]] std::string name_of(const std::string& id) const;
};

/// The words of the file format, in the order of the enumerators.
[[nodiscard]] const std::vector<std::string_view>& life_form_words();
[[nodiscard]] const std::vector<std::string_view>& harvested_part_words();
[[nodiscard]] const std::vector<std::string_view>& harvest_style_words();
[[nodiscard]] const std::vector<std::string_view>& root_shape_words();
[[nodiscard]] const std::vector<std::string_view>& sun_need_words();
[[nodiscard]] const std::vector<std::string_view>& feeder_class_words();
[[nodiscard]] const std::vector<std::string_view>& day_length_class_words();
[[nodiscard]] const std::vector<std::string_view>& mark_words();

/// Reads one crop file. `known_sources` are the keys of sources.toml; every figure must name one of them or
/// be "common practice" or "from memory".
[[nodiscard]] base::Result<Crop> read_crop(
    std::string_view text, const std::string& file,
    const std::map<std::string, std::string, std::less<>>& known_sources);

/// Reads sources.toml: key = "citation".
[[nodiscard]] base::Result<std::map<std::string, std::string, std::less<>>> read_sources(
    std::string_view text, const std::string& file);

/// One file of the library: its name ("crops/beet.toml") and its text.
struct CropFile {
  std::string_view name;
  std::string_view text;
};

/// Reads a whole library; the first problem of any file stops it. Two files of one id, or two crops that go
/// by one name, are already_exists.
[[nodiscard]] base::Result<CropLibrary> read_library(const std::vector<CropFile>& crop_files,
                                                     const CropFile& sources_file);

/// The crop with a variety's deltas applied: thermal times to harvest by earliness, weights by size and
/// diameters by its cube root, days of cold by bolting resistance.
[[nodiscard]] Crop with_variety(const Crop& crop, const Variety& variety);

/// The library that is compiled into the binary from crops/*.toml (checked by a test to be readable). Throws
/// std::logic_error, which says where, if a compiled-in file is wrong: a broken build, not an input.
[[nodiscard]] const CropLibrary& built_in_library();

}  // namespace sowtide::crop
