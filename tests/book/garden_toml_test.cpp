// Garden descriptions in text: read with problems that point at the place, written without loss.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <ostream>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "base/file.hpp"
#include "book/garden_file.hpp"
#include "book/log_csv.hpp"
#include "book/sample_garden.hpp"
#include "book/weather_csv.hpp"

namespace sowtide::book {
namespace {

using base::ProblemCode;
using testing::TemporaryDirectory;

constexpr const char* kGood = R"(name = "Trial ground"

[site]
name = "Trial ground"
lat = 47.5
lon = -122.3
elevation_m = 60

[[beds]]
id = "gate"
length_m = 4.0
width_m = 1.2

[[trays]]
id = "sill"
cells = 60

[[varieties]]
id = "rubycoil"
crop = "beet"

[[packets]]
id = "p1"
crop = "beet"
variety = "rubycoil"
packed_year = 2025
seeds = 100

[[wants]]
id = "w1"
crop = "beet"
amount_per_week = 500
unit = "grams"
from = "06-01"
to = "10-31"

[[stands]]
id = "s1"
crop = "beet"
variety = "rubycoil"
method = "start-indoors"
sow = 2026-03-15
set_out = 2026-04-10
clumps = 20
spacing_mm = 130
bed = "gate"
from_m = 0
to_m = 1.5
tray = "sill"
packet = "p1"
)";

/// The good text with its only occurrence of `from` replaced, and the line on which it stands.
struct Changed {
  std::string text;
  int line = 0;
};

Changed change(const std::string& from, const std::string& to) {
  std::string text = kGood;
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  EXPECT_EQ(text.find(from, at + 1), std::string::npos) << "\"" << from << "\" stands there more than once";
  const int line =
      1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
  return {text.replace(at, from.size(), to), line};
}

TEST(GardenToml, ReadsAGardenAndFillsInWhatIsUsual) {
  const auto text = parse_garden_toml(kGood, "g.toml");
  ASSERT_TRUE(text) << base::to_text(text.error());
  const GardenDescription& garden = text->garden;
  EXPECT_EQ(garden.name, "Trial ground");
  EXPECT_EQ(garden.units, "metric");
  EXPECT_EQ(garden.beds.at(0).name, "gate") << "a bed without a name is called by its id";
  EXPECT_EQ(garden.beds[0].sun, bed::SunClass::full);
  EXPECT_EQ(garden.trays.at(0).place, bed::TrayPlace::indoors);
  EXPECT_EQ(garden.wants.at(0).from, (base::MonthDay{6, 1}));
  EXPECT_DOUBLE_EQ(garden.wants[0].priority, 1.0);
  EXPECT_EQ(garden.stands.at(0).set_out, base::date_of(2026, 4, 10));
  EXPECT_EQ(garden.stands[0].method, stand::Method::start_indoors);
  EXPECT_FALSE(garden.packets.at(0).germination_pct);
}

TEST(GardenToml, ReadsTheDemoGarden) {
  const auto text = read_garden_toml(SOWTIDE_SOURCE_DIR "/demo/garden.toml");
  ASSERT_TRUE(text) << base::to_text(text.error());
  EXPECT_EQ(text->garden.beds.size(), 6U);
  EXPECT_EQ(text->garden.wants.size(), 12U);
}

/// One thing wrong in the good text; the problem must name its line, field and kind.
struct BadText {
  const char* from;
  const char* to;
  ProblemCode code;
  const char* field;
  int line_offset = 0;  ///< of the problem, against the line that was changed
};

void PrintTo(const BadText& bad, std::ostream* out) {
  *out << bad.field << ": " << base::problem_code_text(bad.code);
}

class GardenTomlBadInput : public ::testing::TestWithParam<BadText> {};

TEST_P(GardenTomlBadInput, NamesLineAndField) {
  const BadText& bad = GetParam();
  const Changed changed = change(bad.from, bad.to);
  const auto text = parse_garden_toml(changed.text, "g.toml");
  ASSERT_FALSE(text) << changed.text;
  const base::Problem& problem = text.error();
  EXPECT_EQ(problem.code, bad.code) << base::to_text(problem);
  EXPECT_EQ(problem.where.file, "g.toml");
  EXPECT_EQ(problem.where.field, bad.field) << base::to_text(problem);
  EXPECT_EQ(problem.where.line, changed.line + bad.line_offset) << base::to_text(problem);
}

INSTANTIATE_TEST_SUITE_P(
    Cases, GardenTomlBadInput,
    ::testing::Values(
        // Wrong units.
        BadText{"unit = \"grams\"", "unit = \"stones\"", ProblemCode::wrong_unit, "wants[0].unit"},
        BadText{"name = \"Trial ground\"\n\n", "name = \"Trial ground\"\nunits = \"furlongs\"\n\n",
                ProblemCode::wrong_unit, "units", 1},
        BadText{"length_m = 4.0", "length_ft = 13.1", ProblemCode::missing_field, "beds[0].length_m", -2},
        BadText{"elevation_m = 60", "elevation_m = \"60 m\"", ProblemCode::wrong_type, "site.elevation_m"},
        // Out of range.
        BadText{"length_m = 4.0", "length_m = -4.0", ProblemCode::out_of_range, "beds[0].length_m"},
        BadText{"length_m = 4.0", "length_m = nan", ProblemCode::out_of_range, "beds[0].length_m"},
        BadText{"length_m = 4.0", "length_m = 1e300", ProblemCode::out_of_range, "beds[0].length_m"},
        BadText{"lat = 47.5", "lat = 147.5", ProblemCode::out_of_range, "site.lat"},
        BadText{"cells = 60", "cells = 0", ProblemCode::out_of_range, "trays[0].cells"},
        BadText{"cells = 60", "cells = 99999999999", ProblemCode::out_of_range, "trays[0].cells"},
        BadText{"cells = 60", "cells = 60\nmat_cells = -1", ProblemCode::out_of_range, "trays[0].mat_cells",
                1},
        BadText{"cells = 60", "cells = 60\nplace = \"heat_mat\"\nmat_cells = 61", ProblemCode::out_of_range,
                "trays[0].mat_cells", 2},
        BadText{"cells = 60", "cells = 60\nroom_c = 400", ProblemCode::out_of_range, "trays[0].room_c", 1},
        BadText{"from = \"06-01\"", "from = \"06-31\"", ProblemCode::out_of_range, "wants[0].from"},
        BadText{"from = \"06-01\"", "from = \"june\"", ProblemCode::syntax, "wants[0].from"},
        BadText{"amount_per_week = 500", "amount_per_week = 0", ProblemCode::out_of_range,
                "wants[0].amount_per_week"},
        BadText{"seeds = 100", "seeds = -1", ProblemCode::out_of_range, "packets[0].seeds"},
        BadText{"id = \"sill\"", "id = \"the sill\"", ProblemCode::out_of_range, "trays[0].id"},
        BadText{"method = \"start-indoors\"", "method = \"broadcast\"", ProblemCode::out_of_range,
                "stands[0].method"},
        // Missing, unknown, of another kind.
        BadText{"id = \"gate\"\n", "", ProblemCode::missing_field, "beds[0].id", -1},
        BadText{"unit = \"grams\"\n", "", ProblemCode::missing_field, "wants[0].unit", -4},
        BadText{"spacing_mm = 130", "spacing_mm = 130\nspacing_m = 0.13", ProblemCode::unknown_field,
                "stands[0].spacing_m", 1},
        BadText{"clumps = 20", "clumps = 20.5", ProblemCode::wrong_type, "stands[0].clumps"},
        BadText{"sow = 2026-03-15", "sow = 2026-02-30", ProblemCode::syntax, ""},
        BadText{"sow = 2026-03-15", "sow = \"soon\"", ProblemCode::syntax, "stands[0].sow"},
        BadText{"sow = 2026-03-15", "sow = 12:30:00", ProblemCode::wrong_type, ""},
        // References and contradictions.
        BadText{"bed = \"gate\"", "bed = \"gat\"", ProblemCode::not_found, "stands[0].bed"},
        BadText{"tray = \"sill\"", "tray = \"shelf\"", ProblemCode::not_found, "stands[0].tray"},
        BadText{"packet = \"p1\"", "packet = \"p2\"", ProblemCode::not_found, "stands[0].packet"},
        BadText{"set_out = 2026-04-10", "set_out = 2026-03-10", ProblemCode::contradiction,
                "stands[0].set_out"},
        BadText{"to_m = 1.5", "to_m = 4.5", ProblemCode::contradiction, "stands[0].to_m"},
        BadText{"to_m = 1.5", "to_m = 0", ProblemCode::contradiction, "stands[0].to_m"},
        BadText{"[[trays]]", "[[beds]]\nid = \"gate\"\nlength_m = 1\nwidth_m = 1\n[[trays]]",
                ProblemCode::contradiction, "beds[1].id", 1},
        BadText{"unit = \"grams\"", "unit = \"grams\"\ngroup = \"roots\"", ProblemCode::contradiction,
                "wants[0].group", 1}));

TEST(GardenTomlBadText, EmptyBinaryAndTruncatedTextsAreProblems) {
  EXPECT_EQ(parse_garden_toml("", "g.toml").error().code, ProblemCode::empty);
  EXPECT_EQ(parse_garden_toml("# only a comment\n", "g.toml").error().code, ProblemCode::empty);
  const std::string binary(
      "\x7f"
      "ELF\x02\x01\x01\x00\x00\xff\xfe",
      11);
  const auto refused = parse_garden_toml(binary, "g.toml");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ProblemCode::syntax);
  EXPECT_EQ(refused.error().where.line, 1);
  const std::string good = kGood;
  // Cut anywhere before the last field that must be there: none may be read as if it were whole.
  const std::size_t last_needed = good.find("to_m = 1.5") + std::string("to_m = ").size();
  for (std::size_t size = good.find("[[stands]]") + 12; size <= last_needed; ++size) {
    EXPECT_FALSE(parse_garden_toml(good.substr(0, size), "g.toml")) << size;
  }
}

TEST(GardenTomlBadText, AMissingFileOrFileBesideItIsAProblem) {
  const TemporaryDirectory directory;
  EXPECT_EQ(read_garden_toml(directory.file("no.toml")).error().code, ProblemCode::file_missing);
  ASSERT_TRUE(
      base::write_file(directory.file("g.toml"), std::string(kGood) + "[weather]\nfile = \"rain.csv\"\n"));
  const auto text = read_garden_toml(directory.file("g.toml"));
  ASSERT_FALSE(text);
  EXPECT_EQ(text.error().code, ProblemCode::file_missing);
  EXPECT_TRUE(text.error().where.file.ends_with("rain.csv"));
}

TEST(GardenToml, ContradictoryNormalsAreRefusedWithTheirMonth) {
  const std::string normals =
      "[normals]\ntmax_c = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]\n"
      "tmin_c = [0, 0, 0, 9, 0, 0, 0, 0, 0, 0, 0, 0]\nprecip_mm = [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1]\n";
  const auto text = parse_garden_toml(std::string(kGood) + normals, "g.toml");
  ASSERT_FALSE(text);
  EXPECT_EQ(text.error().code, ProblemCode::contradiction);
  EXPECT_EQ(text.error().where.field, "normals.tmin_c[3]");
  EXPECT_GT(text.error().where.column, 1) << "points at the value in the list";
}

TEST(CheckAgainst, NamesTheNearestCropAndGroup) {
  const auto text =
      parse_garden_toml(change("crop = \"beet\"\namount", "crop = \"bete\"\namount").text, "g.toml");
  ASSERT_TRUE(text) << base::to_text(text.error());
  crop::CropLibrary library;
  for (const char* id : {"beet", "carrot", "courgette"}) {
    crop::Crop crop;
    crop.id = id;
    crop.family = "Amaranthaceae";
    crop.groups = {"roots"};
    library.crops.emplace(id, crop);
  }
  const auto checked = check_against(library, text->garden);
  ASSERT_FALSE(checked);
  EXPECT_EQ(checked.error().code, ProblemCode::not_found);
  EXPECT_EQ(checked.error().where.field, "wants[0].crop");
  EXPECT_NE(checked.error().remedy.find("beet"), std::string::npos) << checked.error().remedy;
  const base::Problem located = locate(checked.error(), *text);
  EXPECT_EQ(located.where.line, 31);
  GardenDescription garden = text->garden;
  garden.wants[0].crop = "beet";
  EXPECT_TRUE(check_against(library, garden));
  garden.wants[0].crop.clear();
  garden.wants[0].group = "root";
  EXPECT_EQ(check_against(library, garden).error().where.field, "wants[0].group");
}

TEST(GardenToml, TakesACropByAnyOfItsNames) {
  const auto text =
      parse_garden_toml(change("crop = \"beet\"\namount", "crop = \"Beetroot\"\namount").text, "g.toml");
  ASSERT_TRUE(text) << base::to_text(text.error());
  EXPECT_EQ(text->garden.wants[0].crop, "beet");
}

RC_GTEST_PROP(Export, NewFromAnExportGivesTheSameExportToTheByte, (std::uint64_t seed)) {
  base::RandomStream random(seed, "tests.book.export");
  const GardenDescription garden = testing::random_garden(random);
  const auto log = testing::random_log(random, garden, random.below(40));
  const TemporaryDirectory directory;
  const auto first = GardenFile::create(directory.file("g1"), garden, log);
  RC_ASSERT(first.has_value());
  RC_ASSERT(write_export(*first->description(), *first->events(), directory.file("one")).has_value());
  const auto text = read_garden_toml(directory.file("one/garden.toml"));
  if (!text) RC_FAIL(base::to_text(text.error()));
  const auto second = GardenFile::create(directory.file("g2"), text->garden, text->events);
  RC_ASSERT(second.has_value());
  RC_ASSERT(write_export(*second->description(), *second->events(), directory.file("two")).has_value());
  for (const char* name : {"garden.toml", "log.csv", "weather.csv"}) {
    const auto one = base::read_file(directory.file(std::string("one/") + name));
    const auto two = base::read_file(directory.file(std::string("two/") + name));
    RC_ASSERT(one.has_value() == two.has_value());
    RC_ASSERT(one.value_or("") == two.value_or(""));
  }
  // And the export says all of the garden, not merely the same twice.
  RC_ASSERT(testing::whole_text(garden, log) == testing::whole_text(text->garden, text->events));
}

TEST(Export, KeepsThatThePlaceIsNotTold) {
  GardenDescription begun;
  begun.name = "Begun";
  const TemporaryDirectory directory;
  const auto file = GardenFile::create(directory.file("g"), begun);
  ASSERT_TRUE(file) << base::to_text(file.error());
  EXPECT_FALSE(file->description()->place_told());
  EXPECT_EQ(need_place(*file->description()).error().where.field, "site");
  ASSERT_TRUE(write_export(*file->description(), {}, directory.file("out")));
  const auto text = read_garden_toml(directory.file("out/garden.toml"));
  ASSERT_TRUE(text) << base::to_text(text.error());
  EXPECT_FALSE(text->garden.place_told());
}

TEST(GardenToml, NormalsNeedTheirPlace) {
  std::string text = "name = \"N\"\n[normals]\n";
  for (const char* field : {"tmax_c", "tmin_c", "precip_mm"})
    text += std::string(field) + " = [9,9,9,9,9,9,9,9,9,9,9,9]\n";
  const auto read = parse_garden_toml(text, "n.toml");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().code, ProblemCode::missing_field);
  EXPECT_EQ(read.error().where.field, "site");
}

TEST(Export, RefusesADirectoryThatHoldsSomething) {
  const TemporaryDirectory directory;
  ASSERT_TRUE(base::write_file(directory.file("precious"), "x"));
  base::RandomStream random(1, "tests.book.export");
  const auto written = write_export(testing::random_garden(random), {}, directory.path());
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().code, ProblemCode::already_exists);
  EXPECT_EQ(directory.names().size(), 1U);
  EXPECT_FALSE(write_export(testing::random_garden(random), {}, directory.file("precious")));
}

struct BadLog {
  const char* csv;
  ProblemCode code;
  int line;
  const char* field;
};

TEST(LogCsv, NamesLineAndFieldOfWhatIsWrong) {
  const auto garden = parse_garden_toml(kGood, "g.toml")->garden;
  const std::vector<BadLog> rows{
      {"", ProblemCode::empty, 0, ""},
      {"id,date\n", ProblemCode::missing_field, 1, ""},
      {"id,date,kind,colour\n", ProblemCode::unknown_field, 1, ""},
      {"id,date,kind,stand\na,2026-05-01,sowed,s1\n", ProblemCode::not_found, 2, "kind"},
      {"id,date,kind,stand\na,1.5.2026,sown,s1\n", ProblemCode::syntax, 2, "date"},
      {"id,date,kind,stand\na,2026-05-01,sown,s1\n\nb,2026-05-01,sown,s2\n", ProblemCode::not_found, 4,
       "stand"},
      {"id,date,kind,stand,grams\na,2026-05-01,picked,s1,2 kg\n", ProblemCode::wrong_type, 2, "grams"},
      {"id,date,kind,text\na,2026-05-01,noted,x\na,2026-05-01,noted,y\n", ProblemCode::contradiction, 3,
       "id"},
      {"sequence,id,date,kind,text\n1,a,2026-05-01,noted,x\n1,b,2026-05-01,noted,y\n",
       ProblemCode::contradiction, 3, "sequence"},
      {"id,date,kind,text\na,2026-05-01,noted,\"open\n", ProblemCode::syntax, 2, ""},
      {"id,date,kind,text\na,2026-05-01,noted,\xff\n", ProblemCode::syntax, 2, ""},
  };
  for (const BadLog& row : rows) {
    const auto log = read_log_csv(row.csv, "log.csv", garden);
    ASSERT_FALSE(log) << row.csv;
    EXPECT_EQ(log.error().code, row.code) << base::to_text(log.error());
    EXPECT_EQ(log.error().where.line, row.line) << base::to_text(log.error());
    EXPECT_EQ(log.error().where.field, row.field) << base::to_text(log.error());
  }
}

TEST(LogCsv, ReadsALogWrittenByHand) {
  const auto garden = parse_garden_toml(kGood, "g.toml")->garden;
  const auto log = read_log_csv(
      "kind,date,id,stand,count\nsown,2026-03-15,a,s1,60\ncounted,2026-03-25,b,s1,41\n", "log.csv", garden);
  ASSERT_TRUE(log) << base::to_text(log.error());
  ASSERT_EQ(log->size(), 2U);
  EXPECT_EQ(log->at(1).sequence, 2);
  EXPECT_EQ(log->at(1).count, 41.0);
}

TEST(WeatherCsv, NamesLineAndFieldOfWhatIsWrong) {
  const std::string head = "date,tmin_c,tmin_origin\n";
  const auto refuse = [&](const std::string& rows, ProblemCode code, int line) {
    const auto record = read_weather_csv(head + rows, "weather.csv", {});
    ASSERT_FALSE(record) << rows;
    EXPECT_EQ(record.error().code, code) << base::to_text(record.error());
    EXPECT_EQ(record.error().where.line, line) << base::to_text(record.error());
  };
  refuse("2026-01-01,1.5,observed\n2026-01-03,1.5,observed\n", ProblemCode::contradiction, 3);
  refuse("2026-01-01,,observed\n", ProblemCode::wrong_type, 2);
  refuse("2026-01-01,3,missing\n", ProblemCode::contradiction, 2);
  refuse("2026-01-01,3,guessed\n", ProblemCode::out_of_range, 2);
  refuse("2026-13-01,3,observed\n", ProblemCode::out_of_range, 2);
  EXPECT_TRUE(read_weather_csv(head + "2026-01-01,,missing\n", "weather.csv", {}));
}

}  // namespace
}  // namespace sowtide::book
