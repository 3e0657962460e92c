// The crop files: that the built-in library reads and is sound, and that a wrong file is told by its line.
#include <gtest/gtest.h>

#include <algorithm>
#include <ostream>
#include <set>

#include "base/file.hpp"
#include "crop/crop.hpp"
#include "crop/curve.hpp"
#include "crop/emergence.hpp"
#include "example_crop.hpp"

namespace sowtide::crop {
namespace {

using base::ProblemCode;
using testing::changed;
using testing::example_crop;
using testing::example_sources;
using testing::example_text;

/// Line of the first place where `word` stands in the example.
int line_of(const std::string& text, std::string_view word) {
  const std::size_t at = text.find(word);
  EXPECT_NE(at, std::string::npos) << word;
  return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

struct WrongFile {
  std::string_view name;
  std::string_view from, to;  ///< the change that makes it wrong
  ProblemCode code;
  std::string_view field;  ///< part of the field that must be named
  std::string_view at;     ///< text on the line that must be told
};

void PrintTo(const WrongFile& file, std::ostream* out) {
  *out << file.name;
}

class WrongCropFile : public ::testing::TestWithParam<WrongFile> {};

TEST_P(WrongCropFile, IsToldWithLineAndField) {
  const WrongFile& wrong = GetParam();
  const std::string text = changed(wrong.from, wrong.to);
  ASSERT_NE(text, example_text()) << "the change must hit";
  const auto read = read_crop(text, "crops/testroot.toml", example_sources());
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error().code, wrong.code) << base::to_text(read.error());
  EXPECT_NE(read.error().where.field.find(wrong.field), std::string::npos) << base::to_text(read.error());
  EXPECT_EQ(read.error().where.file, "crops/testroot.toml");
  if (!wrong.at.empty()) {
    EXPECT_EQ(read.error().where.line, line_of(text, wrong.at)) << base::to_text(read.error());
  }
}

const WrongFile kWrongFiles[] = {
    {"UnknownKey", "hardening_days =", "hardening_dais =", ProblemCode::missing_field,
     "nursery.hardening_days", "[nursery]"},
    {"ExtraKey", "[nursery]", "[nursery]\nshoe_size = 43", ProblemCode::unknown_field, "nursery.shoe_size",
     "shoe_size"},
    {"ExtraSection", "[keeping]", "[shed]\ndoor = 1\n[keeping]", ProblemCode::unknown_field, "shed",
     "[shed]"},
    {"MissingSection", "[limits]", "[limits2]", ProblemCode::missing_field, "limits", ""},
    {"UnknownKeyInFigure", "value = 7, source", "value = 7, unit = \"d\", source", ProblemCode::unknown_field,
     "hardening_days.unit", "unit = "},
    {"NoSource", "hardening_days = { value = 7, source = \"common practice\" }",
     "hardening_days = { value = 7 }", ProblemCode::missing_field, "hardening_days.source", "hardening_days"},
    {"UnknownSource", "extinction = { value = 0.6, source = \"some1999\"",
     "extinction = { value = 0.6, source = \"some1998\"", ProblemCode::not_found, "extinction", "extinction"},
    {"NoMark", "extinction = { value = 0.6, source = \"some1999\", mark = \"seen\" }",
     "extinction = { value = 0.6, source = \"some1999\" }", ProblemCode::missing_field, "extinction.mark",
     "extinction"},
    {"WrongMark", "extinction = { value = 0.6, source = \"some1999\", mark = \"seen\" }",
     "extinction = { value = 0.6, source = \"some1999\", mark = \"common practice\" }",
     ProblemCode::contradiction, "extinction.mark", "extinction"},
    {"PlainNumber", "log_spread = { value = 0.25, source = \"from memory\" }", "log_spread = 0.25",
     ProblemCode::wrong_type, "log_spread", "log_spread"},
    {"TextForNumber", "log_spread = { value = 0.25", "log_spread = { value = \"a\"", ProblemCode::wrong_type,
     "log_spread.value", "log_spread"},
    {"LowAboveValue", "low = 90", "low = 101", ProblemCode::contradiction, "thermal_time_50_cd.low",
     "thermal_time"},
    {"HighBelowValue", "high = 110", "high = 99", ProblemCode::contradiction, "thermal_time_50_cd.high",
     "thermal_time"},
    {"BaseAboveOptimum", "base_c = { value = 2,", "base_c = { value = 22,", ProblemCode::contradiction,
     "germination.optimum_low_c", "optimum_low_c"},
    {"OptimumUpsideDown", "optimum_high_c = { value = 30, ", "optimum_high_c = { value = 21, ",
     ProblemCode::contradiction, "optimum_high_c", "optimum_high_c"},
    {"CeilingAtOptimum", "ceiling_c = { value = 40, ", "ceiling_c = { value = 30, ",
     ProblemCode::contradiction, "ceiling_c", "ceiling_c"},
    {"NegativeThermalTime", "thermal_time_50_cd = { value = 100, low = 90, high = 110",
     "thermal_time_50_cd = { value = -1", ProblemCode::out_of_range, "thermal_time_50_cd.value",
     "thermal_time"},
    {"EmbryosNotOne", "embryos = [0.25, 0.5, 0.25]", "embryos = [0.25, 0.5, 0.3]", ProblemCode::contradiction,
     "embryos", "embryos"},
    {"NoEmbryos", "embryos = [0.25, 0.5, 0.25]", "embryos = []", ProblemCode::contradiction, "embryos",
     "embryos"},
    {"CurveNotRising", "[15, 1.0], [25, 1.0]", "[25, 1.0], [15, 1.0]", ProblemCode::contradiction,
     "final_fraction", "final_fraction"},
    {"CurveAboveOne", "[15, 1.0]", "[15, 1.1]", ProblemCode::out_of_range, "final_fraction",
     "final_fraction"},
    {"CurveOfNumbers", "[[5, 0.5], [15, 1.0], [25, 1.0], [35, 0.2]]", "[5, 15]", ProblemCode::out_of_range,
     "final_fraction", "final_fraction"},
    {"LessLeafThanASeedling", "[growth]",
     "[growth]\nleaf_area_most_m2 = { value = 0.00005, source = \"some1999\", mark = \"seen\" }",
     ProblemCode::contradiction, "leaf_area_most_m2", "leaf_area_most"},
    {"LightCurveNotRising", "[growth]",
     "[growth]\nlight_response = [[20, 1.0], [5, 0.1]]\nlight_response_source = \"some1999\"",
     ProblemCode::contradiction, "light_response", "light_response"},
    {"LightCurveWithoutSource", "[growth]", "[growth]\nlight_response = [[5, 0.1], [20, 1.0]]",
     ProblemCode::missing_field, "light_response_source", ""},
    {"GreensWithoutDryMatter", "serving_g =",
     "greens_share = { value = 0.3, source = \"common practice\" }\nserving_g =", ProblemCode::missing_field,
     "greens_dry_matter_fraction", ""},
    {"KindsNotRising", "sun = \"full\"", "sun = \"full\"\nkinds_by_latitude = [[38, 14], [32, 12]]",
     ProblemCode::contradiction, "kinds_by_latitude", "kinds_by_latitude"},
    {"KindOffTheGlobe", "sun = \"full\"", "sun = \"full\"\nkinds_by_latitude = [[98, 14]]",
     ProblemCode::out_of_range, "kinds_by_latitude", "kinds_by_latitude"},
    {"KindsOfNothing", "sun = \"full\"", "sun = \"full\"\nkinds_by_latitude = []", ProblemCode::wrong_type,
     "kinds_by_latitude", "kinds_by_latitude"},
    {"KindsWithoutSource", "sun = \"full\"", "sun = \"full\"\nkinds_by_latitude = [[32, 12], [38, 14]]",
     ProblemCode::missing_field, "kinds_by_latitude_source", ""},
    {"NoWayToGrow", "can_transplant = true\ncan_direct_sow = true",
     "can_transplant = false\ncan_direct_sow = false", ProblemCode::contradiction, "can_direct_sow",
     "can_direct_sow"},
    {"LatestBeforeReady", "latest_thermal_time_cd = { value = 400", "latest_thermal_time_cd = { value = 100",
     ProblemCode::contradiction, "latest_thermal_time_cd", "latest_thermal"},
    {"DeclineBeforeMaturity", "decline_cd = { value = 1500", "decline_cd = { value = 500",
     ProblemCode::contradiction, "decline_cd", "decline_cd"},
    {"SmallAboveLarge", "small_g = { value = 40", "small_g = { value = 160", ProblemCode::contradiction,
     "large_g", "large_g"},
    {"ShareAboveOne", "edible_fraction = { value = 0.7", "edible_fraction = { value = 1.7",
     ProblemCode::out_of_range, "edible_fraction.value", "edible_fraction"},
    {"UnknownPart", "part = \"root\"", "part = \"wing\"", ProblemCode::out_of_range, "harvest.part",
     "part ="},
    {"SeedlingHardierThanGrown", "kill_mature_c = { value = -7", "kill_mature_c = { value = -1",
     ProblemCode::contradiction, "kill_seedling_c", "kill_seedling_c"},
    {"HalfAColdNeed", "vernal_days = { value = 60, source = \"some1999\", mark = \"seen\" }", "",
     ProblemCode::missing_field, "vernal_days", "[limits]"},
    {"ColdUpsideDown", "vernal_best_c = { value = 5", "vernal_best_c = { value = 13",
     ProblemCode::contradiction, "vernal_ceiling_c", "vernal_ceiling_c"},
    {"KeepsLongestInTheKitchen", "kitchen_days = { value = 2", "kitchen_days = { value = 200",
     ProblemCode::contradiction, "best_days", "best_days"},
    {"EmptyHandling", "handling = \"Keep cool.\"", "handling = \"\"", ProblemCode::empty, "handling",
     "handling"},
};

INSTANTIATE_TEST_SUITE_P(Every, WrongCropFile, ::testing::ValuesIn(kWrongFiles),
                         [](const auto& tested) { return std::string(tested.param.name); });

TEST(CropFile, ExampleReads) {
  const auto read = read_crop(example_text(), "crops/testroot.toml", example_sources());
  ASSERT_TRUE(read.has_value()) << base::to_text(read.error());
  EXPECT_EQ(read->id, "testroot");
  EXPECT_EQ(read->life, LifeForm::biennial);
  EXPECT_EQ(read->germination.thermal_time_50_cd.low, 90.0);
  EXPECT_EQ(read->germination.thermal_time_50_cd.note, "round");
  EXPECT_EQ(read->germination.log_spread.mark, Mark::memory);
  EXPECT_EQ(read->germination.depth_mm.mark, Mark::common_practice);
  EXPECT_EQ(read->harvest.shape, RootShape::round);
  EXPECT_FALSE(read->germination.soil_factor.has_value());
}

TEST(CropFile, EmptyAndBrokenTextsAreProblems) {
  for (const std::string_view text : {"", "[[[", "name = ", "\x00\x01\xff", "name = \"x\""}) {
    EXPECT_FALSE(read_crop(text, "crops/x.toml", example_sources()).has_value()) << text;
  }
}

TEST(CropFile, EveryTruncationIsAProblemOrReads) {
  const std::string text = example_text();
  for (std::size_t size = 0; size + 30 < text.size(); size += 61) {
    EXPECT_FALSE(read_crop(text.substr(0, size), "crops/x.toml", example_sources()).has_value()) << size;
  }
}

TEST(CropLibraryFiles, TwoFilesOfOneNameAreRefused) {
  const std::string text = example_text();
  const CropFile sources{"crops/sources.toml", "some1999 = \"A. Writer 1999\""};
  const std::string other = changed("name = \"Testroot\"", "name = \"Otherroot\"");
  const auto once = read_library({{"crops/a.toml", text}, {"crops/b.toml", other}}, sources);
  ASSERT_TRUE(once.has_value()) << base::to_text(once.error());
  EXPECT_EQ(once->crops.size(), 2U);
  const auto twice = read_library({{"crops/a.toml", text}, {"more/a.toml", text}}, sources);
  ASSERT_FALSE(twice.has_value());
  EXPECT_EQ(twice.error().code, ProblemCode::already_exists);
}

TEST(BuiltInLibrary, HoldsTheCropsThatOthersName) {
  const CropLibrary& library = built_in_library();
  for (const char* id : {"beet", "chard", "carrot", "radish", "lettuce", "spinach", "kale", "onion", "pea",
                         "bush-bean", "tomato", "courgette"}) {
    EXPECT_TRUE(library.crops.contains(id)) << id;
  }
}

TEST(BuiltInLibrary, NamesTheNearestCropWhenOneIsUnknown) {
  const auto found = built_in_library().find("beat");
  ASSERT_FALSE(found.has_value());
  EXPECT_EQ(found.error().code, ProblemCode::not_found);
  EXPECT_NE(found.error().remedy.find("beet"), std::string::npos);
}

TEST(BuiltInLibrary, EveryCitationIsUsed) {
  std::string all;
  for (const auto& [id, crop] : built_in_library().crops) {
    const auto text = base::read_file(std::string(SOWTIDE_SOURCE_DIR) + "/crops/" + id + ".toml");
    ASSERT_TRUE(text.has_value()) << id;
    all += *text;
  }
  for (const auto& [key, citation] : built_in_library().sources) {
    EXPECT_NE(all.find("\"" + key + "\""), std::string::npos) << key;
  }
}

/// What any crop must satisfy, whatever its figures.
TEST(BuiltInLibrary, EveryCropIsSound) {
  for (const auto& [id, crop] : built_in_library().crops) {
    SCOPED_TRACE(id);
    EXPECT_FALSE(crop.groups.empty());
    EXPECT_TRUE(crop.family.ends_with("aceae"));
    const auto up = emergence_at(
        crop, 0.5 * (crop.germination.cardinal.optimum_low_c + crop.germination.cardinal.optimum_high_c),
        crop.germination.depth_mm);
    ASSERT_TRUE(up.has_value());
    EXPECT_GT(up->soil_days.p50, 1.0);
    EXPECT_LT(up->soil_days.p90, 60.0);
    const auto most = [](const std::vector<TemperaturePoint>& points) {
      double highest = 0.0;
      for (const TemperaturePoint& point : points) highest = std::max(highest, point.value);
      return highest;
    };
    EXPECT_DOUBLE_EQ(most(crop.germination.final_fraction), 1.0);
    EXPECT_DOUBLE_EQ(most(light_response_of(crop.growth)), 1.0);
    const bool picked = crop.harvest.style == HarvestStyle::picked;
    EXPECT_EQ(picked, crop.harvest.pick_interval_days > 0.0);
    EXPECT_EQ(crop.harvest.style == HarvestStyle::once, crop.harvest.picking_days == 0.0);
    EXPECT_LT(crop.limits.kill_seedling_c, crop.limits.damage_hot_c);
    if (crop.harvest.shape != RootShape::none && crop.harvest.weight_g_per_cm3 &&
        crop.harvest.large_diameter_mm) {
      EXPECT_EQ(crop.harvest.shape == RootShape::round, !crop.harvest.length_per_diameter) << crop.id;
      const double d_cm = *crop.harvest.large_diameter_mm / 10.0;
      const double length_cm =
          d_cm * (crop.harvest.length_per_diameter ? crop.harvest.length_per_diameter->value : 1.0);
      EXPECT_NEAR(*crop.harvest.weight_g_per_cm3 * d_cm * d_cm * length_cm / crop.harvest.large_g, 1.0, 0.25)
          << crop.id;
    }
  }
}

struct OtherName {
  std::string_view name, id;
};

void PrintTo(const OtherName& other, std::ostream* out) {
  *out << other.name;
}

class CropByAnotherName : public ::testing::TestWithParam<OtherName> {};

TEST_P(CropByAnotherName, IsFound) {
  const auto found = built_in_library().find(GetParam().name);
  ASSERT_TRUE(found.has_value()) << base::to_text(found.error());
  EXPECT_EQ((*found)->id, GetParam().id);
  EXPECT_EQ(built_in_library().id_for(GetParam().name), GetParam().id);
}

INSTANTIATE_TEST_SUITE_P(Library, CropByAnotherName,
                         ::testing::ValuesIn(std::vector<OtherName>{
                             {"zucchini", "courgette"},
                             {"Courgette (summer squash)", "courgette"},
                             {"coriander", "cilantro"},
                             {"Rocket", "arugula"},
                             {"aubergine", "eggplant"},
                             {"capsicum", "sweet-pepper"},
                             {"pumpkins", "winter-squash"},
                             {"swede", "rutabaga"},
                             {"silverbeet", "chard"},
                             {"spring-onion", "scallion"},
                             {"Spring Onions", "scallion"},
                             {"tomatoes", "tomato"},
                             {"broad bean", "broad-bean"},
                             {" beetroot ", "beet"}}));

TEST(Library, OffersOnlyNamesThatAreNear) {
  const auto slip = built_in_library().find("zuchini");
  ASSERT_FALSE(slip.has_value());
  EXPECT_EQ(slip.error().remedy, "Did you mean courgette?");
  const auto unknown = built_in_library().find("quinoa");
  ASSERT_FALSE(unknown.has_value());
  EXPECT_EQ(unknown.error().remedy.find("Did you mean"), std::string::npos) << unknown.error().remedy;
  EXPECT_EQ(built_in_library().id_for("quinoa"), "quinoa");
  EXPECT_EQ(built_in_library().named(""), nullptr);
}

TEST(Library, RefusesANameOfTwoCrops) {
  const std::string first = changed("latin =", "also = [\"Twin root\"]\nlatin =");
  const std::string second = changed("name = \"Testroot\"", "name = \"Twin-root\"");
  std::string sources;
  for (const auto& [key, citation] : example_sources()) sources += key + " = \"" + citation + "\"\n";
  const auto read =
      read_library({{"crops/a.toml", first}, {"crops/b.toml", second}}, {"crops/sources.toml", sources});
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error().code, ProblemCode::already_exists);
  EXPECT_NE(read.error().what.find("twin root"), std::string::npos) << read.error().what;
}

TEST(Variety, ScalesTimesSizesAndBolting) {
  const Crop crop = example_crop();
  Variety variety;
  variety.earliness = 0.9;
  variety.size = 1.331;
  variety.bolting_resistance = 2.0;
  const Crop made = with_variety(crop, variety);
  EXPECT_DOUBLE_EQ(made.growth.maturity_cd, 630.0);
  EXPECT_DOUBLE_EQ(made.growth.organ_start_cd, 135.0);
  EXPECT_NEAR(made.harvest.large_g, 199.65, 1e-9);
  EXPECT_NEAR(*made.harvest.large_diameter_mm, 66.0, 1e-9);
  EXPECT_DOUBLE_EQ(*made.limits.vernal_days, 120.0);
  EXPECT_EQ(made.seed.embryos.size(), 3U);
}

TEST(Variety, SingleGermSeedHasOneEmbryo) {
  Variety variety;
  variety.single_germ = true;
  EXPECT_EQ(with_variety(example_crop(), variety).seed.embryos, std::vector<double>{1.0});
}

TEST(Variety, WithoutDeltasIsTheCrop) {
  const Crop crop = example_crop();
  const Crop made = with_variety(crop, Variety{});
  EXPECT_DOUBLE_EQ(made.growth.maturity_cd, crop.growth.maturity_cd);
  EXPECT_DOUBLE_EQ(made.harvest.large_g, crop.harvest.large_g);
  EXPECT_EQ(made.seed.embryos, crop.seed.embryos);
}

}  // namespace
}  // namespace sowtide::crop
