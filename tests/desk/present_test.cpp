#include "desk/present.hpp"

#include <gtest/gtest.h>

namespace sowtide::desk {
namespace {

TEST(Present, SentencesOfCropFilesHaveTheirTemperaturesInTheUnitsOfTheGarden) {
  const std::string cure = "Cure two weeks in the dark at 13 to 16 °C, keep near 2 °C.";
  EXPECT_EQ(with_temperatures_in(cure, Units::metric), cure);
  EXPECT_EQ(with_temperatures_in(cure, Units::us),
            "Cure two weeks in the dark at 55 to 61 °F, keep near 36 °F.");
  EXPECT_EQ(with_temperatures_in("Eat soon.", Units::us), "Eat soon.");
}

TEST(Present, SeedIsWeighedFinelyInBothUnits) {
  EXPECT_EQ(seed_weight_text(0.42, Units::metric), "0.4 g");
  EXPECT_EQ(seed_weight_text(35.0, Units::metric), "35 g");
  EXPECT_EQ(seed_weight_text(1.42, Units::us), "0.05 oz");
  EXPECT_EQ(seed_weight_text(2.0 * 453.59237, Units::us), "2 lb");
}

TEST(Present, WeightsSwitchUnitWhereAPersonWould) {
  EXPECT_EQ(weight_text(350.0, Units::metric), "350 g");
  EXPECT_EQ(weight_text(1234.0, Units::metric), "1.2 kg");
  EXPECT_EQ(weight_text(12'345.0, Units::metric), "12 kg");
  // 1 lb = 453.59237 g and 1 oz = 1/16 lb exactly (international yard and pound agreement 1959).
  EXPECT_EQ(weight_text(453.59237, Units::us), "1 lb");
  EXPECT_EQ(weight_text(28.349523125 * 12.0, Units::us), "12 oz");
}

TEST(Present, NoWeightReadsAsAThousandGrams) {
  EXPECT_EQ(weight_text(999.7, Units::metric), "1 kg");
}

TEST(Present, DatesFollowTheUnitsAndNameAnotherYear) {
  const base::Date reference = base::date_of(2026, 3, 1);
  EXPECT_EQ(date_text(base::date_of(2026, 4, 12), Units::metric, reference), "12 Apr");
  EXPECT_EQ(date_text(base::date_of(2026, 4, 12), Units::us, reference), "Apr 12");
  EXPECT_EQ(date_text(base::date_of(2027, 1, 2), Units::metric, reference), "2 Jan 2027");
  EXPECT_EQ(date_text(base::date_of(2027, 1, 2), Units::us, reference), "Jan 2, 2027");
}

TEST(Present, SmallDistancesAreInMillimetresOrInches) {
  EXPECT_EQ(spacing_text(13.0, Units::metric), "13 mm");
  EXPECT_EQ(spacing_text(150.0, Units::metric), "15 cm");
  EXPECT_EQ(spacing_text(152.4, Units::us), "6 in");
  EXPECT_EQ(length_text(2.4, Units::metric), "2.40 m");
  EXPECT_EQ(length_text(2.4384, Units::us), "8 ft");
  EXPECT_EQ(length_text(-0.05, Units::metric), "-0.05 m");
  EXPECT_EQ(length_text(-1e-12, Units::metric), "0.00 m") << "a rounding error is no sign";
  EXPECT_EQ(length_text(-2.4384, Units::us), "-8 ft");
}

TEST(Present, LengthsInInchesUpToAYardThenInFeetAndInches) {
  constexpr double kInch = 0.0254;
  EXPECT_EQ(length_text(35.0 * kInch, Units::us), "35 in");
  EXPECT_EQ(length_text(36.0 * kInch, Units::us), "3 ft");
  EXPECT_EQ(length_text(94.0 * kInch, Units::us), "7 ft 10 in");
  EXPECT_EQ(length_text(95.8 * kInch, Units::us), "8 ft") << "never 7 ft 12 in";
}

TEST(Present, BothEndsOfAStretchAreInOneUnit) {
  using Ends = std::pair<std::string, std::string>;
  EXPECT_EQ(stretch_texts(0.5334, 0.7366, Units::us), (Ends{"21 in", "29 in"}));
  EXPECT_EQ(stretch_texts(0.5334, 1.016, Units::us), (Ends{"1 ft 9 in", "3 ft 4 in"}));
  EXPECT_EQ(stretch_texts(0.0, 2.4384, Units::us), (Ends{"0 ft", "8 ft"}));
  EXPECT_EQ(stretch_texts(0.5, 1.2, Units::metric), (Ends{"0.50 m", "1.20 m"}));
  // The double next to 1.845 m lies below it; an edge computed from the other side lies above.
  EXPECT_EQ(stretch_texts(1.23, 1.845, Units::metric), (Ends{"1.23 m", "1.85 m"}));
  EXPECT_EQ(stretch_texts(1.8450000000000002, 2.4, Units::metric), (Ends{"1.85 m", "2.40 m"}));
}

TEST(Present, ATraceIsNotNothing) {
  EXPECT_EQ(weight_text(0.0, Units::metric), "0 g");
  EXPECT_EQ(weight_text(0.3, Units::metric), "under 1 g");
  EXPECT_EQ(weight_text(0.6, Units::metric), "1 g");
  EXPECT_EQ(weight_text(0.0, Units::us), "0 oz");
  EXPECT_EQ(weight_text(1.0, Units::us), "under 0.1 oz");
  EXPECT_EQ(weight_text(1.5, Units::us), "0.1 oz");
  EXPECT_EQ(weight_text(-250.0, Units::metric), "-250 g");
}

TEST(TextTable, CountsCharactersNotBytes) {
  TextTable table({"crop", "°C"}, {TextTable::Align::left, TextTable::Align::right});
  table.add({"pâtisson", "4"});
  table.add({"beet", "12"});
  EXPECT_EQ(table.text(), "crop      °C\n--------  --\npâtisson   4\nbeet      12\n");
}

TEST(Counted, OneIsOne) {
  EXPECT_EQ(counted(0, "bed"), "0 beds");
  EXPECT_EQ(counted(1, "bed"), "1 bed");
  EXPECT_EQ(counted(2, "log entry", "log entries"), "2 log entries");
  EXPECT_EQ(counted(1, "log entry", "log entries"), "1 log entry");
}

TEST(TextTable, ShortRowsAreFilled) {
  TextTable table({"a", "b"});
  table.add({"x"});
  EXPECT_EQ(table.text(), "a  b\n-  -\nx\n");
}

}  // namespace
}  // namespace sowtide::desk
