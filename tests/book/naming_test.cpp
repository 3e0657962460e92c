// Names as people type them. No outside source: the rules stand in the header.
#include "book/naming.hpp"

#include <gtest/gtest.h>

namespace sowtide::book {
namespace {

GardenDescription named_garden() {
  GardenDescription garden;
  garden.beds.push_back({.id = "b10", .name = "Maple side"});
  garden.beds.push_back({.id = "b11", .name = "Patch"});
  garden.beds.push_back({.id = "b12", .name = "patch"});
  garden.stands.push_back({.id = "s1", .crop = "carrot", .bed = "b10"});
  garden.stands.push_back({.id = "s2", .crop = "beet", .bed = "b10"});
  garden.stands.push_back({.id = "s12", .crop = "carrot", .bed = "b11"});
  return garden;
}

std::string remedy_for_stand(std::string_view typed) {
  const auto named = stand_named(named_garden(), crop::built_in_library(), typed);
  EXPECT_FALSE(named) << typed;
  if (named) return {};
  EXPECT_EQ(named.error().code, base::ProblemCode::not_found);
  return named.error().remedy;
}

TEST(Naming, AStandIsFoundWhateverTheCapitals) {
  const auto garden = named_garden();
  EXPECT_EQ(stand_named(garden, crop::built_in_library(), "s1").value(), "s1");
  EXPECT_EQ(stand_named(garden, crop::built_in_library(), "S12").value(), "s12");
}

TEST(Naming, CapitalsAreToldApartWhereTwoStandsDifferInThemOnly) {
  auto garden = named_garden();
  garden.stands.push_back({.id = "S1", .crop = "beet", .bed = "b10"});
  EXPECT_EQ(stand_named(garden, crop::built_in_library(), "s1").value(), "s1");
  EXPECT_EQ(stand_named(garden, crop::built_in_library(), "S1").value(), "S1");
}

TEST(Naming, ACropInPlaceOfAStandIsAnsweredWithItsStands) {
  EXPECT_EQ(remedy_for_stand("Carrots"), "Stands of carrot: s1, s12");
  EXPECT_EQ(remedy_for_stand("beet"), "Stands of beet: s2");
}

TEST(Naming, AMistypedCropOrStandIsAnsweredWithWhatIsNear) {
  EXPECT_EQ(remedy_for_stand("carot"), "Did you mean carrot? `sowtide outlook GARDEN` lists the stands");
  // A crop of which nothing stands names no stand.
  EXPECT_EQ(remedy_for_stand("tomato"), "`sowtide outlook GARDEN` lists the stands");
}

TEST(Naming, ABedInPlaceOfAStandIsAnsweredWithHowItIsNamed) {
  EXPECT_EQ(remedy_for_stand("b10"),
            "b10 is a bed; what is done to all of it is logged with --target b10; its stands: s1, s2");
  EXPECT_EQ(remedy_for_stand("maple side"), remedy_for_stand("b10"));
  EXPECT_EQ(remedy_for_stand("b12"), "b12 is a bed; what is done to all of it is logged with --target b12");
}

TEST(Naming, ABedGoesByItsIdOrItsName) {
  const auto garden = named_garden();
  EXPECT_EQ(bed_named(garden, "b10").value(), "b10");
  EXPECT_EQ(bed_named(garden, "B10").value(), "b10");
  EXPECT_EQ(bed_named(garden, "MAPLE side").value(), "b10");
}

TEST(Naming, ABedThatIsNotThereOrNotTheOnlyOneIsAProblemWithARemedy) {
  const auto garden = named_garden();
  const auto wrong = bed_named(garden, "Maple sid");
  ASSERT_FALSE(wrong);
  EXPECT_EQ(wrong.error().code, base::ProblemCode::not_found);
  EXPECT_EQ(wrong.error().remedy, "Did you mean Maple side?");
  const auto both = bed_named(garden, "PATCH");
  ASSERT_FALSE(both);
  EXPECT_EQ(both.error().code, base::ProblemCode::ambiguous);
  EXPECT_EQ(both.error().remedy, "Name one by its id: b11, b12");
}

TEST(Naming, AVarietyAndATrayGoByIdOrName) {
  auto garden = named_garden();
  garden.trays.push_back({.id = "plugs", .name = "Plug trays"});
  garden.varieties.push_back({.id = "oldred", .name = "Old Red", .crop = "tomato"});
  garden.varieties.push_back({.id = "red-leaf", .name = "Old Red", .crop = "lettuce"});
  garden.varieties.push_back({.id = "winter", .name = "Winter", .crop = "lettuce"});
  EXPECT_EQ(tray_named(garden, "plug trays").value(), "plugs");
  EXPECT_EQ(variety_named(garden, "tomato", "old red").value(), "oldred");
  EXPECT_EQ(variety_named(garden, "tomato", "oldred").value(), "oldred");
  EXPECT_EQ(variety_named(garden, "lettuce", "Old Red").value(), "red-leaf");
  const auto unknown = variety_named(garden, "tomato", "Heart");
  ASSERT_FALSE(unknown);
  EXPECT_EQ(unknown.error().remedy, "Varieties: oldred, Old Red");
  const auto of_another = variety_named(garden, "tomato", "Winter");
  ASSERT_FALSE(of_another);
  EXPECT_EQ(of_another.error().code, base::ProblemCode::contradiction);
  EXPECT_EQ(of_another.error().what, "Winter is a variety of lettuce, not of tomato");
  EXPECT_EQ(variety_named(garden, "beet", "Heart").error().remedy,
            "The garden has no variety of beet; leave it out");
}

TEST(Naming, AnEntryIsOfAKindWhateverTheCapitalsAndOtherWordsAreAnswered) {
  EXPECT_EQ(event_kind_named("Set-Out").value(), EventKind::set_out);
  const auto remedy = [](std::string_view typed) {
    const auto kind = event_kind_named(typed);
    return kind ? std::string("none") : kind.error().remedy.substr(0, kind.error().remedy.find('?'));
  };
  EXPECT_EQ(remedy("pickd"), "Did you mean picked");
  EXPECT_EQ(remedy("harvested"), "Did you mean picked");
  EXPECT_EQ(remedy("sowed"), "Did you mean sown");
  EXPECT_EQ(remedy("planted"), "Did you mean sown or set-out");
  EXPECT_EQ(remedy("died"), "Did you mean discarded");
  EXPECT_EQ(remedy("Transplanted"), "Did you mean set-out");
  EXPECT_EQ(remedy("ate"), "Did you mean eaten");
  EXPECT_EQ(remedy("weeded"), "Did you mean noted");
  EXPECT_EQ(remedy("germinated"), "Did you mean counted");
  EXPECT_TRUE(event_kind_named("zzz").error().remedy.starts_with("Kinds: sown, counted, "));
}

}  // namespace
}  // namespace sowtide::book
