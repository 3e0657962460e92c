#include "plan/season_plan.hpp"

#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <stdexcept>
#include <tuple>

#include "base/parallel.hpp"
#include "plan/changes.hpp"
#include "plan/explain.hpp"
#include "plan/ground.hpp"
#include "plan/made_up_crops.hpp"
#include "plan/synthetic_garden.hpp"
#include "stand/bed_length.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

constexpr std::size_t kMembers = 6;

class SeasonPlan : public testing::Test {
 protected:
  crop::CropLibrary library_ = made_up_library();
  climate::WeatherEnsemble weather_ = blank_weather(base::date_of(2027, 1, 4), 730, kMembers);
  PlanInput input_ = made_up_input(library_, weather_);
  PlanOptions options_ = [] {
    PlanOptions options;
    options.scenarios = 4;
    options.rounds = 100;
    options.time_limit_s = 600.0;
    return options;
  }();

  /// Everything wanted all year, from a day of the first year on.
  base::Result<Plan> plan_all_year_from(base::MonthDay day, std::size_t weeks) {
    input_.today = base::in_year(day, base::year_of(weather_.first));
    options_.weeks = weeks;
    for (Want& want : input_.wants) want.from = {1, 1}, want.to = {12, 31};
    return plan();
  }

  base::Result<Plan> plan() { return plan_season(input_, options_, made_up_source(kMembers)); }

  /// A stand that was sown on the day its plan says.
  static FixedStand sown_stand(const std::string& id, const std::string& crop, base::Date sow, int clumps) {
    FixedStand sown;
    sown.plan.id = id;
    sown.plan.crop = crop;
    sown.plan.sow = sow;
    sown.plan.clumps = clumps;
    sown.facts.sown = sow;
    return sown;
  }

  /// Five clumps of fruits in cells of the first tray.
  [[nodiscard]] FixedStand sown_in_tray(base::Date sow, int cells = 5) const {
    FixedStand sown = sown_stand("s1", "fruits", sow, 5);
    sown.plan.method = stand::Method::start_indoors;
    sown.plan.cells = cells;
    sown.plan.tray = input_.trays.front().id;
    return sown;
  }

  /// The weeks in which a made-up stand has its ground, from the week of today on: until the later of its
  /// members has finished. One that comes to nothing, a month.
  struct Weeks {
    int first = 0, last = 0;
  };
  [[nodiscard]] Weeks weeks_in_bed(const stand::StandPlan& stand, base::Date sown) const {
    const base::Date monday = base::week_start(input_.today);
    const bool raised = stand.method == stand::Method::start_indoors && !stand::bought_as_plants(stand);
    const MadeUpLife life = made_up_life(stand.crop, raised);
    const base::Date enters = stand.set_out.value_or(sown + base::Days{life.raised});
    const base::Date ends = sown + base::Days{life.to_first_pick + kLaterDays + 7 * life.picks - 1};
    const auto week = [&](base::Date day) {
      return static_cast<int>(std::floor(static_cast<double>((day - monday).count()) / 7.0));
    };
    return {week(enters), week(ends)};
  }

  /// No ground is taken twice at one time, nor twice by one of the made-up families, which all rest for three
  /// years.
  void expect_no_overlap(const Plan& plan) const {
    constexpr int kYears = 3 * 52;
    for (const bed::Bed& bed : input_.beds) {
      const auto length_mm = static_cast<int>(std::lround(bed.length_m * 1000.0));
      Ground ground(length_mm, kYears);
      std::map<std::string, Ground> of_family;
      const auto paint = [&](const stand::StandPlan& stand, base::Date sown) {
        if (stand.bed != bed.id) return;
        const auto from = static_cast<int>(std::lround(stand.from_m * 1000.0));
        const auto to = static_cast<int>(std::lround(stand.to_m * 1000.0));
        const Weeks weeks = weeks_in_bed(stand, sown);
        ground.paint(from, to, weeks.first, weeks.last, stand.id);
        const std::string& family = library_.crops.at(stand.crop).family;
        of_family.try_emplace(family, length_mm, 1)
            .first->second.paint(from, to, 0, 0, stand.id + " of " + family);
      };
      for (const FixedStand& fixed : input_.fixed)
        paint(fixed.plan, fixed.facts.sown.value_or(fixed.plan.sow));
      for (const stand::StandPlan& stand : plan.stands) paint(stand, stand.sow);
    }
  }

  /// Every stand in its bed, no two at one place at one time, ids unique.
  void expect_sound(const Plan& plan) {
    expect_no_overlap(plan);
    std::set<std::string> ids;
    for (const FixedStand& fixed : input_.fixed) ids.insert(fixed.plan.id);
    for (const stand::StandPlan& stand : plan.stands) {
      EXPECT_TRUE(ids.insert(stand.id).second) << stand.id;
      const auto bed = std::find_if(input_.beds.begin(), input_.beds.end(),
                                    [&](const bed::Bed& b) { return b.id == stand.bed; });
      ASSERT_NE(bed, input_.beds.end());
      EXPECT_GE(stand.from_m, 0.0);
      EXPECT_LE(stand.to_m, bed->length_m + 1e-9);
      // Every clump has its area: length × clumps across / spacing clumps fit; and a stand takes at least
      // half a row.
      const double rows = (stand.to_m - stand.from_m) * 1000.0 / stand.spacing_mm;
      EXPECT_GE(rows * bed::clumps_across(*bed, stand.spacing_mm), stand.clumps - 1e-6);
      EXPECT_GE(rows, 0.5 - 1e-6);
      EXPECT_LE(stand.to_m - stand.from_m, stand::length_in_m(*bed, stand) + 0.001 + 1e-9);
      EXPECT_GE(stand::begins_on(stand), input_.today);
      EXPECT_GT(stand.clumps, 0);
      if (stand::bought_as_plants(stand)) continue;
      EXPECT_GE(stand.cells, stand.method == stand::Method::start_indoors ? stand.clumps : 1);
      EXPECT_EQ(stand.tray.empty(), stand.method == stand::Method::direct_sow);
    }
    EXPECT_LE(plan.bound, plan.objective + 1e-9);
    EXPECT_NEAR(plan.gap, relative_gap(plan.objective, plan.bound), 1e-12);
    for (const auto& [want, wanted] : plan.wanted_g) {
      double missing = 0.0;
      for (const Shortage& shortage : plan.shortages) missing += shortage.want == want ? shortage.grams : 0.0;
      EXPECT_NEAR(plan.supplied_g.at(want), wanted - missing, 1e-6 * (1.0 + wanted));
    }
  }
};

/// Counts the sowings that are lived.
class CountingSource final : public SowingSource {
 public:
  CountingSource(std::unique_ptr<SowingSource> inner, std::size_t& lives)
      : inner_(std::move(inner)), lives_(lives) {}
  [[nodiscard]] std::size_t member_count() const override { return inner_->member_count(); }
  [[nodiscard]] base::Result<SowingLife> life(const crop::Crop& crop, const stand::StandPlan& plan,
                                              const stand::StandFacts& facts,
                                              const std::optional<stand::RaisingPlace>& raising,
                                              const stand::BedPlace& bed) const override {
    ++lives_;
    return inner_->life(crop, plan, facts, raising, bed);
  }

 private:
  std::unique_ptr<SowingSource> inner_;
  std::size_t& lives_;
};

/// The same source; for one thread.
SourceMaker counted(const SourceMaker& make, std::size_t& lives) {
  return [make, &lives](const std::vector<crop::Crop>& crops, const WeekGrid& grid) {
    return std::make_unique<CountingSource>(make(crops, grid), lives);
  };
}

/// The first phrase of that key in the notes for which the test holds.
const base::Message* phrase(
    const Plan& plan, const std::string& key,
    const std::function<bool(const base::Message&)>& holds = [](const base::Message&) { return true; }) {
  for (const Note& note : plan.notes) {
    for (const base::Message& message : note) {
      if (message.key == key && holds(message)) return &message;
    }
  }
  return nullptr;
}

template <typename T>
T value_of(const base::Message& message, const std::string& name) {
  for (const auto& [own, value] : message.values) {
    if (own == name) return std::get<T>(value);
  }
  throw std::logic_error(message.key + " lacks its " + name);
}

/// Says of the want with that name in words that it is short.
const base::Message* short_of(const Plan& plan, const std::string& want) {
  return phrase(plan, "want-short",
                [&](const base::Message& message) { return value_of<std::string>(message, "want") == want; });
}

/// The note that says of a want that it is short, and why.
const Note* why_short(const Plan& plan, const std::string& want_id) {
  const auto found = std::find_if(plan.notes.begin(), plan.notes.end(), [&](const Note& note) {
    return note.front().key == "want-short" && value_of<std::string>(note.front(), "want_id") == want_id;
  });
  return found == plan.notes.end() ? nullptr : &*found;
}

TEST_F(SeasonPlan, ItsCheckSeesAnOverlap) {
  const auto result = plan();
  ASSERT_TRUE(result && !result->stands.empty());
  Plan doubled = *result;
  doubled.stands.push_back(doubled.stands.front());
  doubled.stands.back().id = "twin";
  testing::TestPartResultArray seen;
  {
    const testing::ScopedFakeTestPartResultReporter reporter(
        testing::ScopedFakeTestPartResultReporter::INTERCEPT_ONLY_CURRENT_THREAD, &seen);
    expect_no_overlap(doubled);
  }
  ASSERT_GT(seen.size(), 0);
  EXPECT_NE(std::string(seen.GetTestPartResult(0).message()).find("twin at "), std::string::npos);
}

TEST_F(SeasonPlan, FeedsTheTableFromASmallGarden) {
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  expect_sound(*result);
  EXPECT_FALSE(result->stands.empty());
  for (const std::string want : {"w-greens", "w-roots"}) {
    EXPECT_GT(result->supplied_g.at(want), 0.5 * result->wanted_g.at(want)) << want;
  }
}

TEST_F(SeasonPlan, IsTheSameOnOneAndTwoThreadsAndOnEveryRun) {
  const auto first = plan();
  const auto second = plan();
  const base::ThreadLimit one(1);
  const auto third = plan();
  ASSERT_TRUE(first && second && third);
  for (const auto* other : {&*second, &*third}) {
    EXPECT_EQ(first->objective, other->objective);
    EXPECT_EQ(first->bound, other->bound);
    ASSERT_EQ(first->stands.size(), other->stands.size());
    for (std::size_t i = 0; i < first->stands.size(); ++i) {
      EXPECT_EQ(first->stands[i].sow, other->stands[i].sow);
      EXPECT_EQ(first->stands[i].clumps, other->stands[i].clumps);
      EXPECT_EQ(first->stands[i].bed, other->stands[i].bed);
      EXPECT_EQ(first->stands[i].from_m, other->stands[i].from_m);
    }
  }
}

TEST_F(SeasonPlan, SaysWhenThereIsNoBed) {
  input_.beds.clear();
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->stands.empty());
  for (const Want& want : input_.wants) {
    const Note* why = why_short(*result, want.id);
    ASSERT_NE(why, nullptr) << want.id;
    EXPECT_EQ(why->at(1).key, "no-bed");
  }
  EXPECT_DOUBLE_EQ(result->gap, 0.0);
  EXPECT_NEAR(result->objective, result->wanted_value, 1e-9);
}

TEST_F(SeasonPlan, SaysWhenEveryBedIsShaded) {
  for (bed::Bed& bed : input_.beds) bed.sun = bed::SunClass::shade;
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  // Greens bear part shade, so they are looked at in shade; what wants full sun has no bed there.
  EXPECT_FALSE(result->stands.empty());
  for (const stand::StandPlan& stand : result->stands) EXPECT_EQ(stand.crop, "greens");
  for (const std::string want : {"w-roots", "w-fruits", "w-bulbs"}) {
    const Note* why = why_short(*result, want);
    ASSERT_NE(why, nullptr) << want;
    EXPECT_EQ(why->at(1).key, "no-bed-for-it") << want;
    EXPECT_DOUBLE_EQ(result->supplied_g.at(want), 0.0);
  }
  EXPECT_GT(result->supplied_g.at("w-greens"), 0.0);
  expect_sound(*result);
}

TEST_F(SeasonPlan, DoesWithoutTraysWhatCanBeSownInPlace) {
  input_.trays.clear();
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  expect_sound(*result);
  for (const stand::StandPlan& stand : result->stands) EXPECT_NE(stand.crop, "fruits");
  EXPECT_TRUE(short_of(*result, "fruits"));
  EXPECT_FALSE(short_of(*result, "w-fruits")) << "people do not know the ids of wants";
  const Note* why = why_short(*result, "w-fruits");
  ASSERT_NE(why, nullptr);
  EXPECT_EQ(why->at(1).key, "no-tray-to-raise-it");
  EXPECT_GT(result->supplied_g.at("w-bulbs"), 0.0) << "may be sown in place as well";
}

TEST_F(SeasonPlan, TellsTwoWantsOfOneCropApart) {
  input_.beds.clear();
  input_.wants.push_back(input_.wants.front());
  input_.wants.back().id = "w-again";
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  const std::string name =
      input_.wants.front().crop.empty() ? input_.wants.front().group : input_.wants.front().crop;
  const base::Message* again = short_of(*result, name + " (w-again)");
  ASSERT_NE(again, nullptr);
  EXPECT_DOUBLE_EQ(value_of<double>(*again, "met_share"), 0.0);
}

TEST_F(SeasonPlan, PlansNothingWhenNothingIsWanted) {
  input_.wants.clear();
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->stands.empty());
  EXPECT_DOUBLE_EQ(result->objective, 0.0);
  EXPECT_TRUE(result->notes.empty());
}

TEST_F(SeasonPlan, PlansNothingForAWantOfNothing) {
  for (Want& want : input_.wants) want.amount_per_week = 0.0;
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->stands.empty());
  EXPECT_NEAR(result->objective, 0.0, 1e-9);
}

// A plan of one week in January for a table that asks for nothing until June: nothing is missing.
TEST_F(SeasonPlan, PlansNothingForAWeekInWhichNothingIsWanted) {
  options_.weeks = 1;
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->stands.empty());
  EXPECT_DOUBLE_EQ(result->objective, 0.0);
  EXPECT_TRUE(result->shortages.empty());
  EXPECT_TRUE(result->notes.empty());
}

// What is wanted in the very week can be had from nothing that is sown in it: every want says so.
TEST_F(SeasonPlan, SaysOfASeasonOfOneWeekThatNothingIsReadyInIt) {
  const auto result = plan_all_year_from({6, 7}, 1);
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->stands.empty());
  EXPECT_EQ(result->shortages.size(), input_.wants.size());
  EXPECT_DOUBLE_EQ(result->objective, result->bound);
  EXPECT_NEAR(result->objective, result->wanted_value, 1e-9);
  for (const Want& want : input_.wants) {
    EXPECT_DOUBLE_EQ(result->supplied_g.at(want.id), 0.0);
    EXPECT_NEAR(result->wanted_g.at(want.id), want.amount_per_week, 1e-9);
    EXPECT_NE(short_of(*result, want.crop), nullptr) << want.crop;
  }
  EXPECT_NE(phrase(*result, "harvest-after-plan"), nullptr);
}

// Of weather for a single day no week can be planned; nor is it an error of the grower's.
TEST_F(SeasonPlan, SaysWhenTheWeatherIsKnownForADayOnly) {
  const climate::WeatherEnsemble a_day = blank_weather(weather_.first, 1, kMembers);
  input_.weather = &a_day;
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->stands.empty());
  const base::Message* ends = phrase(*result, "weather-ends");
  ASSERT_NE(ends, nullptr);
  EXPECT_LE(value_of<double>(*ends, "weeks"), 1.0);
}

// One day's want is a seventh of a week's. It is met by a small stand, and by nothing beside it.
TEST_F(SeasonPlan, MeetsAWantOfOneDay) {
  input_.wants = {input_.wants.front()};
  Want& want = input_.wants.front();
  want.crop = "greens";
  want.from = want.to = {7, 14};
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  expect_sound(*result);
  EXPECT_NEAR(result->wanted_g.at(want.id), want.amount_per_week / 7.0, 1e-9);
  EXPECT_GT(result->supplied_g.at(want.id), 0.9 * result->wanted_g.at(want.id));
  ASSERT_FALSE(result->stands.empty());
  double grams = 0.0;
  for (const stand::StandPlan& stand : result->stands) {
    EXPECT_EQ(stand.crop, "greens");
    EXPECT_LE(stand.sow, base::in_year({7, 14}, 2027));
    grams += 200.0 * stand.clumps;  // two pickings of 100 g a clump
  }
  EXPECT_LT(grams, 20.0 * result->wanted_g.at(want.id)) << "more than a day's meal calls for";
}

// The made-up bulbs take fourteen weeks and more: sown in season they succeed, but not within ten weeks of
// April.
TEST_F(SeasonPlan, SaysWhenAHarvestWouldComeAfterThePlan) {
  const auto result = plan_all_year_from({4, 6}, 10);
  ASSERT_TRUE(result.has_value());
  ASSERT_NE(short_of(*result, "bulbs"), nullptr);
  EXPECT_NE(phrase(*result, "harvest-after-plan"), nullptr);
}

// In late summer nothing of it can be ripe before winter, and what is sown in spring is not within 34 weeks.
TEST_F(SeasonPlan, SaysWhenItIsTooLateForThisSeasonAndTheNextLiesBeyondThePlan) {
  const auto result = plan_all_year_from({9, 14}, 34);
  ASSERT_TRUE(result.has_value());
  ASSERT_NE(short_of(*result, "bulbs"), nullptr);
  EXPECT_NE(phrase(*result, "too-late-this-season"), nullptr);
}

TEST_F(SeasonPlan, EndsWithTheWeatherThatIsKnown) {
  const climate::WeatherEnsemble short_weather = blank_weather(weather_.first, 70, kMembers);
  input_.weather = &short_weather;
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  const base::Message* ends = phrase(*result, "weather-ends");
  ASSERT_NE(ends, nullptr);
  EXPECT_DOUBLE_EQ(value_of<double>(*ends, "weeks"), 10.0);
  EXPECT_DOUBLE_EQ(value_of<double>(*ends, "asked"), 52.0);
}

TEST_F(SeasonPlan, KeepsWhatStandsAndNumbersNewStandsAfterIt) {
  FixedStand fixed = sown_stand("s7", "roots", base::date_of(2027, 4, 5), 120);
  fixed.plan.spacing_mm = 100.0;
  fixed.plan.bed = "north";
  fixed.plan.from_m = 0.0;
  fixed.plan.to_m = 3.0;
  input_.fixed.push_back(fixed);
  input_.today = base::date_of(2027, 4, 20);
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  expect_sound(*result);
  for (const stand::StandPlan& stand : result->stands) {
    EXPECT_GT(std::stoi(stand.id.substr(1)), 7);
    // The roots stand until week 8 after sowing, in the worst year; nothing goes there before.
    if (stand.bed != "north") continue;
    const base::Days raised{stand.method == stand::Method::start_indoors ? 28 : 0};
    EXPECT_GE(stand.sow + raised, base::date_of(2027, 5, 31));
    // Nor does their family come back in the same year.
    EXPECT_NE(stand.crop, "roots");
  }
}

// Sown too late for any harvest, it holds its bed as long as every page says.
TEST_F(SeasonPlan, KeepsTheGroundOfAStandWithoutAHarvestForAMonth) {
  FixedStand fixed = sown_stand("s1", "roots", base::date_of(2027, 2, 15), 120);
  fixed.plan.bed = "north";
  fixed.plan.to_m = 3.0;
  input_.fixed = {fixed};
  input_.today = base::date_of(2027, 2, 17);
  const auto garden = prepare_garden(input_, options_, made_up_source(kMembers));
  ASSERT_TRUE(garden.has_value());
  ASSERT_EQ(garden->model.taken.size(), 1U);
  EXPECT_EQ(garden->model.taken.front().first_week, 0);
  EXPECT_EQ(garden->model.taken.front().last_week, 4) << "17 March is a day of the fifth week";
}

TEST_F(SeasonPlan, PlansNothingIntoBedsThatAreFull) {
  for (const bed::Bed& bed : input_.beds) {
    FixedStand fixed = sown_stand("f-" + bed.id, "bulbs", base::date_of(2027, 3, 1), 10);
    fixed.plan.bed = bed.id;
    fixed.plan.to_m = bed.length_m;
    input_.fixed.push_back(fixed);
  }
  input_.today = base::date_of(2027, 3, 8);
  options_.weeks = 14;
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  EXPECT_TRUE(result->stands.empty());
}

TEST_F(SeasonPlan, MeetsAGroupWantWithEitherCrop) {
  Want soup;
  soup.id = "w-soup";
  soup.group = "soup";
  soup.amount_per_week = 5.0;
  soup.unit = WantUnit::servings;
  soup.from = {6, 1};
  soup.to = {10, 31};
  input_.wants = {soup};
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  expect_sound(*result);
  EXPECT_GT(result->supplied_g.at("w-soup"), 0.8 * result->wanted_g.at("w-soup"));
}

/// A garden in which greens and roots, whose pieces weigh 400 and 100 g, are wanted as "soup".
class SoupOfEither : public SeasonPlan {
 protected:
  SoupOfEither() {
    library_.crops.at("greens").harvest.large_g.value = 400.0;
    library_.crops.at("greens").harvest.small_g.value = 120.0;
    library_.crops.at("roots").harvest.large_g.value = 100.0;
    input_.wants = {soup(WantUnit::pieces)};
  }

  static Want soup(WantUnit unit, stand::SizeGoal size = stand::SizeGoal::large) {
    Want soup;
    soup.id = "w-soup";
    soup.group = "soup";
    soup.amount_per_week = 6.0;
    soup.unit = unit;
    soup.size = size;
    soup.from = {6, 1};
    soup.to = {10, 31};
    return soup;
  }

  /// What a unit of the first want comes to when it is met by the crop alone, g.
  double grams_of_a_unit(const std::string& crop) {
    const auto garden = prepare_garden(input_, options_, made_up_source(kMembers));
    const GardenModel& model = garden.value().model;
    const Demand& demand = model.demands.front();
    const double most = *std::max_element(demand.servings.begin(), demand.servings.end());
    const std::size_t product = sown_product(model, crop, "", input_.wants.front().size).value();
    return most * model.products[product].serving_g / input_.wants.front().amount_per_week;
  }
};

TEST_F(SoupOfEither, CountsEachCropByItsOwnPiece) {
  EXPECT_NEAR(grams_of_a_unit("greens"), 400.0, 1e-9);
  EXPECT_NEAR(grams_of_a_unit("roots"), 100.0, 1e-9);
  input_.wants = {soup(WantUnit::pieces, stand::SizeGoal::small)};
  EXPECT_NEAR(grams_of_a_unit("greens"), 120.0, 1e-9);
  EXPECT_NEAR(grams_of_a_unit("roots"), 50.0, 1e-9);
}

TEST_F(SoupOfEither, CountsEachCropByItsOwnServingOrByWeight) {
  input_.wants = {soup(WantUnit::servings)};
  library_.crops.at("roots").harvest.serving_g.value = 60.0;
  EXPECT_NEAR(grams_of_a_unit("greens"), 100.0 / 0.8, 1e-9);
  EXPECT_NEAR(grams_of_a_unit("roots"), 60.0 / 0.8, 1e-9);
  input_.wants = {soup(WantUnit::grams)};
  EXPECT_NEAR(grams_of_a_unit("greens"), 1.0, 1e-9);
  EXPECT_NEAR(grams_of_a_unit("roots"), 1.0, 1e-9);
}

// A clump of either brings 200 g: half a piece of greens, two of roots. So roots are what the soup is made
// of.
TEST_F(SoupOfEither, IsMetByAsManyPieces) {
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  expect_sound(*result);
  int greens = 0, roots = 0;
  for (const stand::StandPlan& stand : result->stands)
    (stand.crop == "greens" ? greens : roots) += stand.clumps;
  EXPECT_GT(roots, 5 * greens);
}

// No one measure serves both wants: both weigh their crops.
TEST_F(SoupOfEither, WeighsWhereWantsInGramsAndInPiecesShareCrops) {
  input_.wants.push_back(soup(WantUnit::grams));
  input_.wants.back().id = "w-by-weight";
  EXPECT_NEAR(grams_of_a_unit("greens"), grams_of_a_unit("roots"), 1e-9);
}

// Two crops that differ in name only: what is in the drawer decides, and the plan says what is not there.
TEST_F(SeasonPlan, SowsFirstWhatIsInTheSeedBox) {
  crop::Crop twin = library_.crops.at("greens");
  twin.id = twin.name = "greens-twin";
  library_.crops.emplace(twin.id, twin);
  Want soup{.id = "w-soup", .group = "soup", .amount_per_week = 5.0};
  soup.from = {6, 1};
  soup.to = {10, 31};
  input_.wants = {soup};
  options_.prices.seed = 0.002;
  for (const char* crop : {"greens", "greens-twin"}) {
    input_.packets = {{.id = "p", .crop = crop, .packed_year = 2026, .seeds = 100000.0}};
    const auto result = plan();
    ASSERT_TRUE(result.has_value());
    expect_sound(*result);
    ASSERT_FALSE(result->stands.empty());
    std::map<std::string, int> clumps;
    for (const stand::StandPlan& stand : result->stands) clumps[stand.crop] += stand.clumps;
    const std::string other = std::string(crop) == "greens" ? "greens-twin" : "greens";
    EXPECT_EQ(clumps[other], 0) << crop;
    EXPECT_EQ(phrase(*result, "packet-too-small"), nullptr);
  }
  // Used up, so all of it is to buy; with a box of other seed only, it says that there is none.
  input_.seeds_gone = {{"p", 100000.0}};
  const auto emptied = plan();
  ASSERT_TRUE(emptied.has_value());
  EXPECT_TRUE(phrase(*emptied, "packet-too-small") != nullptr || phrase(*emptied, "seed-to-buy") != nullptr);
  input_.packets = {{.id = "q", .crop = "fruits", .packed_year = 2026, .seeds = 10.0}};
  const auto without = plan();
  ASSERT_TRUE(without.has_value());
  EXPECT_NE(phrase(*without, "seed-to-buy"), nullptr);
  EXPECT_LE(without->bound, without->objective + 1e-9);
  // Nothing told of the box: seed costs nothing and nothing is said.
  input_.packets.clear();
  const auto untold = plan();
  ASSERT_TRUE(untold.has_value());
  EXPECT_EQ(phrase(*untold, "seed-to-buy"), nullptr);
  EXPECT_LT(untold->bound, without->bound);
}

TEST_F(SeasonPlan, RefusesWantsThatContradictThemselves) {
  input_.wants.front().group = "soup";
  EXPECT_EQ(plan().error().code, base::ProblemCode::contradiction);
  input_.wants.front().group.clear();
  input_.wants.front().amount_per_week = -1.0;
  EXPECT_EQ(plan().error().code, base::ProblemCode::out_of_range);
  input_.wants.front().amount_per_week = 1.0;
  input_.wants.front().crop = "moon-cheese";
  EXPECT_EQ(plan().error().code, base::ProblemCode::not_found);
}

TEST_F(SeasonPlan, LooksAtEveryFourthWeekWhenThereIsNoTimeForMore) {
  const auto in_time = plan();
  options_.time_limit_s = 0.0;
  const auto hurried = plan();
  ASSERT_TRUE(in_time && hurried);
  EXPECT_EQ(phrase(*in_time, "choices-cut-short"), nullptr);
  const base::Message* cut = phrase(*hurried, "choices-cut-short");
  ASSERT_NE(cut, nullptr);
  EXPECT_DOUBLE_EQ(value_of<double>(*cut, "seen") * 4.0, value_of<double>(*cut, "of"));
  EXPECT_LT(hurried->candidates, in_time->candidates);
  expect_sound(*hurried);
  EXPECT_FALSE(hurried->stands.empty());
  for (const stand::StandPlan& stand : hurried->stands) EXPECT_EQ((stand.sow - input_.today).count() % 28, 0);
}

// However little time there is: what the plan before sows is looked at, and so can be kept.
TEST_F(SeasonPlan, LooksAtWhatThePlanBeforeSowsHoweverLittleTimeThereIs) {
  const auto in_time = plan();
  ASSERT_TRUE(in_time.has_value());
  input_.earlier = in_time->stands;
  const bool between = std::any_of(in_time->stands.begin(), in_time->stands.end(), [&](const auto& stand) {
    return (stand.sow - input_.today).count() % 28 != 0;
  });
  ASSERT_TRUE(between) << "the plan sows in weeks that a hurried one leaves out";
  options_.time_limit_s = 0.0;
  const auto hurried = plan();
  ASSERT_TRUE(hurried.has_value());
  ASSERT_NE(phrase(*hurried, "choices-cut-short"), nullptr);
  for (const Note& change : hurried->changes) {
    for (const base::Message& said : change) EXPECT_NE(said.key, "better-sowing-near");
  }
}

// As many as there are weeks for every way to raise a crop, in order of the weeks.
TEST_F(SeasonPlan, LooksAtAllWeeksWhenThereIsTime) {
  options_.weeks = 51;
  std::atomic<int> asked = 0;
  const auto all = prepare_garden(input_, options_, made_up_source(kMembers));
  const auto asking =
      prepare_garden(input_, options_, made_up_source(kMembers), {.has_time = [&] { return ++asked, true; }});
  ASSERT_TRUE(all && asking);
  EXPECT_GT(asked, 0);
  ASSERT_EQ(all->model.candidates.size(), asking->model.candidates.size());
  std::size_t tried = 0;
  for (const ProductNote& note : all->product_notes) tried += note.tried;
  EXPECT_EQ(tried % 51, 0U);
  for (std::size_t c = 1; c < all->model.candidates.size(); ++c) {
    const Candidate &a = all->model.candidates[c - 1], &b = all->model.candidates[c];
    EXPECT_TRUE(std::tie(a.product, a.tray) != std::tie(b.product, b.tray) || a.sow_week < b.sow_week);
  }
}

TEST_F(SeasonPlan, ReckonsWhatBearsPartShadeInTheLightOfEachKindOfBed) {
  const auto garden = prepare_garden(input_, options_, made_up_source(kMembers));
  ASSERT_TRUE(garden);
  const auto best_in = [&](const std::string& crop, bed::SunClass sun) {
    double most = 0.0;
    for (const Candidate& candidate : garden->model.candidates) {
      if (candidate.sowing.crop == crop && candidate.sun == sun) most = std::max(most, candidate.expected_servings);
    }
    return most;
  };
  EXPECT_GT(best_in("greens", bed::SunClass::full), 0.0);
  EXPECT_NEAR(best_in("greens", bed::SunClass::partial) / best_in("greens", bed::SunClass::full), kPartShadeShare,
              1e-9);
  EXPECT_NEAR(best_in("roots", bed::SunClass::partial) / best_in("roots", bed::SunClass::full),
              kPartShadeShare, 1e-9)
      << "what wants full sun is looked at in one step less";
  const bed::Bed& hedge = input_.beds[2];
  for (const Candidate& candidate : garden->model.candidates)
    EXPECT_EQ(may_stand(hedge, candidate), candidate.sun == bed::SunClass::partial);
}

TEST_F(SeasonPlan, KeepsAPlannedStandInItsLight) {
  const auto first = plan();
  ASSERT_TRUE(first);
  PlanInput again = input_;
  again.earlier = first->stands;
  const auto garden = prepare_garden(again, options_, made_up_source(kMembers));
  ASSERT_TRUE(garden);
  bool in_shade = false;
  for (const PlacedStand& promised : garden->model.promised) {
    const bed::SunClass sun = garden->model.beds[promised.bed].sun;
    EXPECT_EQ(garden->model.candidates[promised.candidate].sun, sun);
    in_shade = in_shade || sun == bed::SunClass::partial;
  }
  EXPECT_TRUE(in_shade) << "the hedge bed is planned too";
}

TEST_F(SeasonPlan, StopsWhenAskedTo) {
  options_.gap_goal = 0.0;
  options_.progress = [](const PlanProgress& progress) { return !progress.bound.has_value(); };
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  expect_sound(*result);
  EXPECT_TRUE(result->status == "stopped" || result->gap == 0.0);
}

// While the sowings are laid out there is nothing to keep yet: those that are begun end, and no more are
// lived.
TEST_F(SeasonPlan, EndsAtOnceWhenStoppedWhileChoicesAreLaidOut) {
  const base::ThreadLimit one_thread(1);
  std::size_t lives = 0, told = 0;
  double share = 0.0;
  options_.progress = [&](const PlanProgress& progress) {
    EXPECT_FALSE(progress.bound || progress.objective);
    EXPECT_GE(progress.laid_out, share);
    share = progress.laid_out;
    ++told;
    return share == 0.0;
  };
  const SourceMaker counting = counted(made_up_source(kMembers), lives);
  const auto stopped = plan_season(input_, options_, counting);
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().code, base::ProblemCode::cancelled);
  EXPECT_EQ(told, 2U) << "once as it begins, once after the first sowing";
  EXPECT_LE(lives, 1U);
  options_.progress = {};
  ASSERT_TRUE(plan_season(input_, options_, counting));
  EXPECT_GT(lives, 100U) << "so many are lived when nobody stops it";
}

TEST_F(SeasonPlan, TellsHowFarTheChoicesAreLaidOut) {
  std::vector<double> shares;
  options_.progress = [&](const PlanProgress& progress) {
    if (!progress.bound) shares.push_back(progress.laid_out);
    return true;
  };
  ASSERT_TRUE(plan());
  ASSERT_GT(shares.size(), 100U);
  EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
  EXPECT_EQ(shares.front(), 0.0);
  EXPECT_EQ(shares.back(), 1.0);
}

TEST_F(SeasonPlan, NeedsMoreCellsThanClumpsSinceNotAllSeedComesUp) {
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  bool any = false;
  for (const stand::StandPlan& stand : result->stands) {
    if (stand.method != stand::Method::start_indoors) continue;
    any = true;
    EXPECT_GT(stand.cells, stand.clumps);
  }
  EXPECT_TRUE(any);
}

TEST_F(SeasonPlan, SaysForEveryStandWhyItIsThere) {
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  for (const stand::StandPlan& stand : result->stands) {
    ASSERT_TRUE(result->reasons.count(stand.id) == 1) << stand.id;
    const Note& reason = result->reasons.at(stand.id);
    EXPECT_EQ(reason.at(0).key, "stand-brings");
    ASSERT_EQ(reason.at(1).key, "missed-without");
    EXPECT_GT(std::get<double>(reason.at(1).values.at(0).second), 0.0) << stand.id << " is of no use";
  }
}

// What a metre would bring is told by solving again from the last basis: it must be what a garden with that
// metre, formulated and solved afresh, gives.
TEST(Worth, OfAMetreOfBedIsWhatALongerBedBringsSolvedAfresh) {
  double metres_told = 0.0, cells_told = 0.0;
  for (const std::uint64_t seed : {3, 4, 5}) {
    SyntheticSize size;
    size.crops = 6;
    size.beds = 1;
    size.members = size.scenarios = 3;
    size.tray_cells = 8;
    GardenModel model = synthetic_garden(seed, size);
    model.beds.front().sun = bed::SunClass::full;
    finish_model(model);
    const auto solved = [](const GardenModel& garden, std::vector<Worth>* worths) {
      const Formulation formulation = formulate(garden);
      RelaxationSolver solver(formulation.program);
      const auto solution = solver.solve();
      EXPECT_TRUE(solution.has_value());
      if (worths != nullptr) *worths = worths_of(garden, formulation, *solution, solver);
      return solution->objective;
    };
    std::vector<Worth> worths;
    const double bound = solved(model, &worths);
    const auto told = [&](const char* key) {
      double servings = 0.0;
      for (const Worth& worth : worths) servings += worth.what.front().key == key ? worth.servings : 0.0;
      return servings;
    };
    GardenModel longer = model;
    longer.beds.front().length_m += 1.0;
    finish_model(longer);
    // What saves next to nothing is not named.
    const auto named = [](double saved) { return saved < 0.05 ? 0.0 : saved; };
    EXPECT_NEAR(told("metre-in-sun"), named(bound - solved(longer, nullptr)), 1e-6);
    GardenModel more_cells = model;
    more_cells.trays.front().cells += 10;
    EXPECT_NEAR(told("cells-of-tray"), named(bound - solved(more_cells, nullptr)), 1e-6);
    metres_told += told("metre-in-sun");
    cells_told += told("cells-of-tray");
  }
  EXPECT_GT(metres_told, 0.1) << "no garden in which a metre matters";
  EXPECT_GT(cells_told, 0.1) << "no garden in which cells matter";
}

stand::StandPlan stand_of(const std::string& id, const std::string& crop, base::Date sow, int clumps,
                          const std::string& bed) {
  stand::StandPlan plan;
  plan.id = id;
  plan.crop = crop;
  plan.sow = sow;
  plan.clumps = clumps;
  plan.bed = bed;
  return plan;
}

/// Ten servings wanted in one week; the only sowing bears a serving a clump, a week too late.
GardenModel a_week_too_late() {
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.member_count = 2;
  model.scenarios = {0, 1};
  model.beds.push_back({.id = "bed", .length_m = 3.0, .width_m = 1.2});
  model.products.push_back({"roots", "", stand::SizeGoal::large, 100.0, 0.5});
  Candidate sowing;
  sowing.spacing_mm = 300;
  sowing.sow_week = 4;
  sowing.bed_first_week = 4;
  sowing.bed_last_week = 11;
  sowing.expected_servings = 1.0;
  sowing.servings.assign(2 * model.weeks, 0.0);
  for (const std::size_t m : model.scenarios) sowing.servings[m * model.weeks + 11] = 1.0;
  model.candidates.push_back(sowing);
  Demand demand;
  demand.want = "roots";
  demand.products = {0};
  demand.servings.assign(model.weeks, 0.0);
  demand.servings[10] = 10.0;
  model.demands.push_back(demand);
  finish_model(model);
  return model;
}

TEST(Worth, OfAWeekEarlierIsAllThatCameAWeekTooLate) {
  const crop::CropLibrary library = made_up_library();
  PlanInput input;
  input.library = &library;
  PreparedGarden garden;
  GardenModel& model = garden.model;
  model = a_week_too_late();
  garden.refused = {{.product = 0, .tray = -1, .week = 3, .limits = "soil too cold"}};
  bool go_on = true;
  const auto worths_of_plan = [&] {
    const Formulation formulation = formulate(model);
    const auto relaxation = RelaxationSolver(formulation.program).solve();
    EXPECT_NEAR(relaxation->objective, 10.0, 1e-9);
    return worths_of_an_earlier_week(input, garden, ForwardPass(model, model.scenarios),
                                     relaxation->objective, [&] { return go_on; });
  };
  go_on = false;
  EXPECT_TRUE(worths_of_plan().empty()) << "stopped: nothing more is solved";
  go_on = true;
  const std::vector<Worth> worths = worths_of_plan();
  ASSERT_EQ(worths.size(), 1U);
  EXPECT_EQ(worths.front().what.front().key, "earlier-in-place");
  EXPECT_NEAR(worths.front().servings, 10.0, 1e-9);
  // Sown too early for the plan to see the end, or in a week in which no weather spoils it: nothing is in the
  // way.
  garden.refused.front().beyond = true;
  EXPECT_TRUE(worths_of_plan().empty());
  garden.refused.front() = {.product = 0, .tray = -1, .week = 2, .limits = "soil too cold"};
  EXPECT_TRUE(worths_of_plan().empty());
  garden.refused.front().week = 3;
  // Two weeks too late a single week brings nothing; nor can anything be sown before this week.
  std::vector<double>& servings = model.candidates.front().servings;
  std::rotate(servings.begin(), servings.end() - 1, servings.end());
  EXPECT_TRUE(worths_of_plan().empty());
  model = a_week_too_late();
  model.candidates.front().sow_week = 0;
  EXPECT_TRUE(worths_of_plan().empty());
}

// 2027 has no 29 February: a range that ends on it ends on the 28th, a Sunday.
TEST(Total, OfALeapDayIsWantedInACommonYearToo) {
  Want want;
  want.total = 1000.0;
  want.to = {2, 29};
  const base::Date monday = base::date_of(2027, 2, 15);
  EXPECT_EQ(week_of_total(want, monday, 10, monday), std::optional<std::size_t>(1));
  const base::Date leap_monday = base::date_of(2028, 2, 21);
  EXPECT_EQ(week_of_total(want, leap_monday, 10, leap_monday), std::optional<std::size_t>(1));
}

TEST_F(SeasonPlan, LaysATotalOnTheWeekOfItsLastDay) {
  Want& want = input_.wants.front();
  want.amount_per_week = 0.0;
  want.unit = WantUnit::grams;
  want.total = 5000.0;
  input_.wants.resize(1);
  const auto made = plan();
  ASSERT_TRUE(made.has_value());
  EXPECT_NEAR(made->wanted_g.at(want.id), 5000.0, 1e-6);
  for (const Shortage& shortage : made->shortages) {
    const auto days =
        (base::date_of(base::year_of(shortage.week_start), want.to.month, want.to.day) - shortage.week_start)
            .count();
    EXPECT_TRUE(days >= 0 && days < 7) << base::to_iso(shortage.week_start);
  }
}

// Greens keep a week: half of what is picked in October cannot lie there at Christmas.
TEST_F(SeasonPlan, LaysATotalWhereHalfOfItCanStillBeGood) {
  Want& want = input_.wants[2];
  ASSERT_EQ(want.crop, "greens");
  want.amount_per_week = 0.0;
  want.unit = WantUnit::grams;
  want.total = 1000.0;
  want.to = {12, 25};
  input_.wants = {want};
  const auto made = plan();
  ASSERT_TRUE(made.has_value());
  EXPECT_NEAR(made->wanted_g.at("w-greens"), 1000.0, 1e-6);
  EXPECT_GT(made->supplied_g.at("w-greens"), 900.0);
}

TEST_F(SeasonPlan, KeepsAPlanThatWasToldWhereNothingHasChanged) {
  options_.prices.stand = 0.2;
  options_.prices.change = 5.0;
  const auto before = plan();
  ASSERT_TRUE(before.has_value());
  input_.earlier = before->stands;
  const auto after = plan();
  ASSERT_TRUE(after.has_value());
  expect_sound(*after);
  // What was told of a sowing in a bed is kept, in however many stands.
  const auto clumps_like = [](const Plan& plan, const stand::StandPlan& stand) {
    int clumps = 0;
    for (const stand::StandPlan& other : plan.stands) {
      const bool like = other.crop == stand.crop && other.bed == stand.bed && other.sow == stand.sow;
      if (like && other.tray == stand.tray) clumps += other.clumps;
    }
    return clumps;
  };
  for (const stand::StandPlan& stand : before->stands)
    EXPECT_EQ(clumps_like(*after, stand), clumps_like(*before, stand)) << stand.id << " " << stand.crop;
}

/// The changes of a plan against an earlier one, as keys and crops: "stand-changed kale".
std::vector<std::string> keys_of(const PlanInput& input, const std::vector<stand::StandPlan>& after) {
  std::vector<std::string> keys;
  for (const StandChange& change : stand_changes(input.earlier, after)) {
    const base::Message said = change_said(input, after, change);
    keys.push_back(said.key + " " + std::get<std::string>(said.values.at(1).second));
  }
  return keys;
}

TEST(StandChanges, NamesWhatMovedGrewWentAndCame) {
  const base::Date april = base::date_of(2027, 4, 5);
  PlanInput input;
  input.earlier = {stand_of("s1", "beet", april, 10, "a"), stand_of("s2", "kale", april, 4, "a"),
                   stand_of("s3", "pea", april, 30, "b")};
  const std::vector<stand::StandPlan> after = {stand_of("s1", "beet", april, 10, "a"),
                                               stand_of("s2", "kale", april + base::Days{14}, 6, "b"),
                                               stand_of("s4", "leek", april, 12, "b")};
  EXPECT_EQ(keys_of(input, after),
            (std::vector<std::string>{"stand-changed kale", "stand-left-out pea", "stand-new leek"}));
  const base::Message moved = change_said(input, after, stand_changes(input.earlier, after).front());
  const std::vector<std::pair<std::string, base::Message::Value>> told(moved.values.begin() + 3,
                                                                       moved.values.end());
  EXPECT_EQ(told,
            (std::vector<std::pair<std::string, base::Message::Value>>{{"days_later", 14.0},
                                                                       {"clumps", 6.0},
                                                                       {"clumps_before", 4.0},
                                                                       {"bed", std::string("b")},
                                                                       {"bed_before", std::string("a")}}));
  EXPECT_TRUE(stand_changes(input.earlier, input.earlier).empty());
}

TEST(StandChanges, TellsOtherWeeksOfPullingAlone) {
  const base::Date april = base::date_of(2027, 4, 5);
  PlanInput input;
  input.earlier = {stand_of("s1", "leek", april, 10, "a")};
  input.earlier.front().pick_weeks = 12;
  input.earlier.front().pick_from = base::date_of(2027, 11, 1);
  std::vector<stand::StandPlan> after = input.earlier;
  const auto told = [&] {
    const auto changes = stand_changes(input.earlier, after);
    if (changes.size() != 1) return std::vector<std::pair<std::string, base::Message::Value>>{};
    const base::Message said = change_said(input, after, changes.front());
    return std::vector<std::pair<std::string, base::Message::Value>>(said.values.begin() + 3, said.values.end());
  };
  EXPECT_TRUE(told().empty());
  after.front().pick_weeks = 0;
  after.front().pick_from.reset();
  EXPECT_EQ(told(), (std::vector<std::pair<std::string, base::Message::Value>>{
                        {"pick_weeks", 0.0},
                        {"pick_weeks_before", 12.0},
                        {"pick_from_before", base::date_of(2027, 11, 1)}}));
  after.front().pick_weeks = 12;
  after.front().pick_from = base::date_of(2027, 11, 15);
  EXPECT_TRUE(told().empty()) << "two weeks are no news";
  after.front().pick_from = base::date_of(2027, 12, 1);
  EXPECT_EQ(told().size(), 4U) << "another day alone";
}

TEST(SeasonPlanChanges, AStandKeepsItsNameInANewPlan) {
  const base::Date april = base::date_of(2026, 4, 6);
  const std::vector<stand::StandPlan> before{stand_of("s5", "beet", april, 10, "a"),
                                             stand_of("s2", "kale", april, 4, "a")};
  std::vector<stand::StandPlan> after{stand_of("", "lettuce", april, 9, "a"),
                                      stand_of("", "beet", april + base::Days{60}, 10, "a"),
                                      stand_of("", "beet", april + base::Days{7}, 12, "b")};
  keep_names(before, after);
  EXPECT_EQ(after[0].id, "");
  EXPECT_EQ(after[1].id, "");
  EXPECT_EQ(after[2].id, "s5") << "the nearer in date";
}

/// The reason that a new plan gives for what became of one earlier stand; empty when nothing did.
std::string reason_told(const Plan& plan, const std::string& stand) {
  for (const Note& change : plan.changes) {
    const auto& values = change.front().values;
    const bool of_it = std::any_of(values.begin(), values.end(), [&](const auto& value) {
      return value.first == "stand" && std::get<std::string>(value.second) == stand;
    });
    if (of_it) return change.at(1).key;
  }
  return {};
}

TEST_F(SeasonPlan, SaysWhyAPlannedStandIsNotAsItWas) {
  const auto first = plan();
  ASSERT_TRUE(first.has_value());
  ASSERT_FALSE(first->stands.empty());
  const stand::StandPlan kept = first->stands.front();
  input_.earlier = {kept};
  PlanInput base = input_;

  input_.wants.erase(
      std::remove_if(input_.wants.begin(), input_.wants.end(),
                     [&](const Want& want) { return want.crop == kept.crop || !want.group.empty(); }),
      input_.wants.end());
  const auto unasked = plan();
  ASSERT_TRUE(unasked.has_value());
  EXPECT_EQ(reason_told(*unasked, kept.id), "nobody-asks");

  input_ = base;
  input_.today = kept.sow + base::Days{21};
  const auto later = plan();
  ASSERT_TRUE(later.has_value());
  EXPECT_EQ(reason_told(*later, kept.id), "day-is-past");

  input_ = base;
  std::erase_if(input_.beds, [&](const bed::Bed& bed) { return bed.id == kept.bed; });
  const auto without_bed = plan();
  ASSERT_TRUE(without_bed.has_value());
  EXPECT_EQ(reason_told(*without_bed, kept.id), "bed-is-gone");

  input_ = base;
  FixedStand standing{kept, {}};
  standing.plan.id = "s900";
  standing.facts.sown = kept.sow;
  const auto its_bed = std::find_if(input_.beds.begin(), input_.beds.end(),
                                    [&](const bed::Bed& bed) { return bed.id == kept.bed; });
  standing.plan.from_m = 0.0;
  standing.plan.to_m = its_bed->length_m;
  input_.fixed.push_back(standing);
  const auto taken = plan();
  ASSERT_TRUE(taken.has_value());
  EXPECT_EQ(reason_told(*taken, kept.id), "ground-held-by");
}

const base::Message* in_change(const Note& change, const std::string& key) {
  const auto found = std::find_if(change.begin(), change.end(),
                                  [&](const base::Message& message) { return message.key == key; });
  return found == change.end() ? nullptr : &*found;
}

/// Whether the changes of a plan tell such a reason.
bool told_in_changes(const Plan& plan, const std::string& key) {
  return std::any_of(plan.changes.begin(), plan.changes.end(),
                     [&](const Note& change) { return in_change(change, key) != nullptr; });
}

// Roots that stand are enough for the table; when they fail others are sown, and only for that.
TEST_F(SeasonPlan, TellsOfANewSowingWhatFailedSinceTheLastPlan) {
  std::erase_if(input_.wants, [](const Want& want) { return want.crop != "roots"; });
  input_.today = base::date_of(2027, 3, 8);
  FixedStand roots = sown_stand("s900", "roots", base::date_of(2027, 5, 3), 60);
  roots.plan.bed = "north";
  roots.plan.to_m = 0.6;
  roots.facts.sown.reset();
  input_.fixed.push_back(roots);
  const auto first = plan();
  ASSERT_TRUE(first.has_value());
  input_.earlier = first->stands;
  input_.fixed.clear();
  const auto unexplained = plan();
  ASSERT_TRUE(unexplained.has_value());
  ASSERT_FALSE(unexplained->changes.empty()) << "what the roots would have brought is sown anew";
  EXPECT_FALSE(told_in_changes(*unexplained, "stand-failed-since"));
  input_.since.stands.push_back({.kind = StandNews::Kind::failed,
                                 .as_planned = roots,
                                 .date = base::date_of(2027, 3, 7),
                                 .plants = 0,
                                 .planned = 60});
  const auto second = plan();
  ASSERT_TRUE(second.has_value());
  EXPECT_EQ(second->stands, unexplained->stands) << "the reason is told; the plan is no other";
  EXPECT_TRUE(told_in_changes(*second, "stand-failed-since"));
  // Bulbs that failed are no reason for roots.
  input_.since.stands.front().as_planned.plan.crop = "bulbs";
  const auto others = plan();
  ASSERT_TRUE(others.has_value());
  EXPECT_FALSE(told_in_changes(*others, "stand-failed-since"));
}

TEST_F(SeasonPlan, TellsOfANewSowingThatMoreIsWantedThanForTheLastPlan) {
  std::erase_if(input_.wants, [](const Want& want) { return want.crop != "roots"; });
  Want& want = input_.wants.front();
  want.amount_per_week = 200.0;
  const Want before = want;
  const auto first = plan();
  ASSERT_TRUE(first.has_value());
  input_.earlier = first->stands;
  want.amount_per_week = 2000.0;
  input_.since.wants = {{want.id, before}};
  const auto more = plan();
  ASSERT_TRUE(more.has_value());
  EXPECT_TRUE(told_in_changes(*more, "want-more-since"));
  EXPECT_FALSE(told_in_changes(*more, "want-less-since"));
  input_.since.wants = {{want.id, {}}};
  const auto fresh = plan();
  ASSERT_TRUE(fresh.has_value());
  EXPECT_TRUE(told_in_changes(*fresh, "want-new-since"));
}

// In a spring three degrees colder, what was to be sown in March cannot be sown then.
TEST_F(SeasonPlan, SaysOfWhatMovedThatTheSoilIsColderThanPlannedFor) {
  const auto first = plan();
  ASSERT_TRUE(first.has_value());
  input_.earlier = first->stands;
  for (const stand::StandPlan& stand : first->stands) {
    ASSERT_TRUE(stand.planned_c.has_value());
    EXPECT_NEAR(*stand.planned_c, 0.1 * base::climatological_day(stand.sow), 1e-9);
  }
  const auto told_colder = [&](double colder_k) {
    const auto second = plan_season(input_, options_, made_up_source(kMembers, colder_k));
    EXPECT_TRUE(second.has_value());
    int told = 0, failing = 0;
    for (const Note& change : second->changes) {
      const bool fails = in_change(change, "sowing-then-fails") != nullptr;
      const bool moved = std::any_of(change[0].values.begin(), change[0].values.end(),
                                     [](const auto& value) { return value.first == "days_later"; });
      const base::Message* soil = in_change(change, "soil-colder-than-planned");
      const base::Message* air = in_change(change, "air-colder-than-planned");
      const base::Message* weather = soil != nullptr ? soil : air;
      failing += fails && (moved || change[0].key == "stand-left-out") ? 1 : 0;
      if (weather == nullptr) continue;
      ++told;
      EXPECT_NEAR(value_of<double>(*weather, "by_k"), colder_k, 1e-9);
      EXPECT_GT(value_of<double>(*weather, "planned_c"), 0.0);
      EXPECT_EQ(weather, &change[1]) << "before the other reason";
      EXPECT_EQ(change.size(), 3U);
    }
    EXPECT_TRUE(told >= failing || !input_.earlier.front().planned_c) << told << " of " << failing;
    return told;
  };
  EXPECT_GT(told_colder(3.0), 0);
  EXPECT_EQ(told_colder(0.0), 0);
  // A plan of an older file does not know what it reckoned with.
  for (stand::StandPlan& stand : input_.earlier) stand.planned_c.reset();
  EXPECT_EQ(told_colder(3.0), 0);
}

TEST(StandChanges, BlamesTheWeatherOnlyWhereItCanHaveMovedTheStand) {
  const base::Date april = base::date_of(2027, 4, 5);
  PlanInput input;
  input.earlier = {stand_of("s1", "beet", april, 10, "a")};
  input.earlier.front().planned_c = 11.0;
  PreparedGarden garden;
  garden.earlier_c = {9.0};
  std::vector<stand::StandPlan> after = {stand_of("s1", "beet", april + base::Days{14}, 10, "a")};
  after.front().planned_c = 10.5;
  const auto told = [&](const char* reason, bool left_out = false) {
    const StandChange change{0, left_out ? std::nullopt : std::optional<std::size_t>(0)};
    const auto weather = weather_of_change(input, garden, after, change, {reason, {}});
    return weather ? weather->key : std::string{};
  };
  EXPECT_EQ(told("as-it-was-loses"), "soil-colder-than-planned");
  EXPECT_EQ(told("sowing-then-fails", true), "soil-colder-than-planned");
  for (const char* reason :
       {"nobody-asks", "bed-is-gone", "day-is-past", "ground-held-by", "family-held-off-by"})
    EXPECT_EQ(told(reason), "") << reason;
  EXPECT_EQ(told("as-it-was-loses", true), "") << "left out for something better, whatever the weather";
  // Moved to a day that is further from what it was planned for, the weather did not move it.
  after.front().planned_c = 8.0;
  EXPECT_EQ(told("as-it-was-loses"), "");
  EXPECT_EQ(told("sowing-then-fails"), "soil-colder-than-planned") << "in autumn it had to go sooner";
  after.front().planned_c = 10.5;
  garden.earlier_c = {12.5};
  input.earlier.front().method = stand::Method::start_indoors;
  EXPECT_EQ(told("as-it-was-loses"), "air-warmer-than-planned");
  // Fewer clumps on the same day are no matter of warmth, and half a degree is not felt.
  after.front().sow = april;
  EXPECT_EQ(told("as-it-was-loses"), "");
  after.front().sow = april - base::Days{7};
  garden.earlier_c = {11.5};
  EXPECT_EQ(told("as-it-was-loses"), "");
  garden.earlier_c = {std::nullopt};
  EXPECT_EQ(told("as-it-was-loses"), "");
  EXPECT_FALSE(weather_of_change(input, garden, after, {{}, 0}, {"missed-without", {}}).has_value()) << "new";
}

// A sowing that is not in the model: it fails, comes too late for the plan, or another is better in every
// way.
TEST(StandChanges, TellsApartWhyASowingIsNotInTheModel) {
  PlanInput input;
  input.today = base::date_of(2027, 1, 4);
  input.earlier = {stand_of("s1", "beet", base::date_of(2027, 4, 5), 10, "a")};
  PreparedGarden garden;
  garden.model.first_monday = input.today;
  garden.model.beds.push_back({.id = "a", .name = "A", .length_m = 2.0, .width_m = 1.0});
  garden.model.products.push_back({"beet", "", input.earlier.front().size, 100.0, 0.9});
  finish_model(garden.model);
  ForwardPass judge(garden.model, garden.model.scenarios);
  const auto reason = [&] {
    return reason_of_change(input, garden, judge, {}, {}, {.before = 0, .after = {}}).key;
  };
  EXPECT_EQ(reason(), "better-sowing-near");
  garden.refused = {{.product = 0, .tray = -1, .week = 13, .limits = "frost"}};
  EXPECT_EQ(reason(), "sowing-then-fails");
  garden.refused.front().beyond = true;
  EXPECT_EQ(reason(), "harvest-after-plan");
  garden.refused = {{.product = 0, .tray = -1, .week = 12, .limits = "frost"}};
  EXPECT_EQ(reason(), "better-sowing-near") << "another week's sowing";
  input.earlier.front().pick_weeks = 12;
  EXPECT_EQ(reason(), "asked-in-other-weeks") << "nothing is pulled over twelve weeks any more";
}

int clumps_of(const Plan& plan, const std::string& crop) {
  int clumps = 0;
  for (const stand::StandPlan& stand : plan.stands) clumps += stand.crop == crop ? stand.clumps : 0;
  return clumps;
}

// From June on 600 g of roots are wanted a week; they keep 120 days, halving every 60.
TEST_F(SeasonPlan, SowsLessOfWhatLiesInStore) {
  input_.today = base::date_of(2027, 5, 31);
  const auto empty = plan();
  ASSERT_TRUE(empty.has_value());
  EXPECT_EQ(phrase(*empty, "store-counted"), nullptr);
  for (const keep::StorePlace place : {keep::StorePlace::fridge, keep::StorePlace::best}) {
    library_.crops.at("roots").keeping.best_days.value = 150.0;
    input_.store = {{"l1", "roots", place, input_.today - base::Days{8}, 20000.0}};
    const auto full = plan();
    ASSERT_TRUE(full.has_value());
    expect_sound(*full);
    EXPECT_LT(clumps_of(*full, "roots"), 0.6 * clumps_of(*empty, "roots"));
    EXPECT_LT(full->objective, empty->objective);
    EXPECT_GE(full->supplied_g.at("w-roots"), empty->supplied_g.at("w-roots") - 1e-6);
    const base::Message* counted = phrase(*full, "store-counted");
    ASSERT_NE(counted, nullptr);
    EXPECT_LT(value_of<double>(*counted, "total_g"), 20000.0);
    EXPECT_GT(value_of<double>(*counted, "total_g"), 17000.0);
    // Week 17 after that of picking is the last within 120 days in the refrigerator; it was picked the week before.
    // At the best place it keeps for 41 weeks, longer than anybody asks for it.
    const base::Date last_good =
        input_.today + base::Days{7 * (place == keep::StorePlace::fridge ? 16 : 41) + 6};
    const Want& roots = *std::find_if(input_.wants.begin(), input_.wants.end(),
                                      [](const Want& want) { return want.id == "w-roots"; });
    const base::Date last_wanted =
        base::week_start(base::date_of(2027, roots.to.month, roots.to.day)) + base::Days{6};
    EXPECT_EQ(value_of<base::Date>(*counted, "to"), std::min(last_good, last_wanted));
  }
  // Nobody asks for another crop, and what has lain far too long is for this week or never.
  input_.store = {{"l2", "beet", keep::StorePlace::fridge, input_.today, 20000.0}};
  const auto unasked = plan();
  ASSERT_TRUE(unasked.has_value());
  EXPECT_EQ(unasked->objective, empty->objective);
  input_.store = {{"l3", "roots", keep::StorePlace::fridge, input_.today - base::Days{400}, 1e6}};
  const auto old = plan();
  ASSERT_TRUE(old.has_value());
  EXPECT_GT(clumps_of(*old, "roots"), 0.8 * clumps_of(*empty, "roots"));
}

// A lot has no variety and no size: every want of the crop and of its group may take it, none other.
TEST_F(SeasonPlan, GivesTheStoreToEveryWantOfTheCrop) {
  Want soup{.id = "w-soup", .group = "soup", .amount_per_week = 5.0, .unit = WantUnit::servings};
  Want small{.id = "w-small", .crop = "roots", .amount_per_week = 200.0, .size = stand::SizeGoal::small};
  Want fruits{.id = "w-fruits", .crop = "fruits", .amount_per_week = 200.0};
  input_.wants = {soup, small, fruits};
  input_.today = base::date_of(2027, 1, 4);
  options_.weeks = 4;
  input_.store = {{"l1", "roots", keep::StorePlace::fridge, input_.today, 6000.0}};
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  for (const char* want : {"w-soup", "w-small"})
    EXPECT_NEAR(result->supplied_g.at(want), result->wanted_g.at(want), 1e-6) << want;
  EXPECT_EQ(result->supplied_g.at("w-fruits"), 0.0);
}

// What was sown takes the cells that it would take as a choice, to the week in which nine years in ten have
// set it out.
TEST_F(SeasonPlan, CountsTheRoomOfSeedlingsThatStandInTheTrayAlready) {
  library_.crops.at("fruits").nursery.cell_width_mm.value = 2.0 * input_.trays.front().cell_width_mm;
  input_.today = base::date_of(2027, 4, 12);
  const auto free = prepare_garden(input_, options_, made_up_source(kMembers));
  input_.fixed = {sown_in_tray(base::date_of(2027, 4, 5))};
  const auto taken = prepare_garden(input_, options_, made_up_source(kMembers));
  ASSERT_TRUE(free && taken);
  EXPECT_EQ(free->model.tray_taken.front().front(), 0);
  EXPECT_EQ(taken->model.tray_taken.front().front(), 20) << "four cells to each sown one";
  const auto like =
      std::find_if(free->model.candidates.begin(), free->model.candidates.end(),
                   [](const Candidate& c) { return c.sowing.crop == "fruits" && c.sow_week == 0; });
  ASSERT_NE(like, free->model.candidates.end());
  EXPECT_EQ(like->tray_places, 4);
}

// A day of setting out that has passed without it leaves the seedlings where they are.
TEST_F(SeasonPlan, CountsSeedlingsThatShouldHaveGoneOutAndHaveNot) {
  FixedStand late = sown_in_tray(base::date_of(2027, 3, 8));
  late.plan.set_out = base::date_of(2027, 4, 5);
  late.plan.bed = "north";
  late.plan.to_m = 1.0;
  input_.today = base::date_of(2027, 4, 12);
  input_.fixed = {late};
  const auto garden = prepare_garden(input_, options_, made_up_source(kMembers));
  ASSERT_TRUE(garden.has_value());
  EXPECT_EQ(garden->model.tray_taken.front()[0], 5);
  EXPECT_EQ(garden->model.tray_taken.front()[1], 0) << "they go out today";
  EXPECT_EQ(garden->model.taken.front().first_week, 0);
}

// Maize of two plants bears half-empty cobs: a block or nothing.
TEST_F(SeasonPlan, SetsWhatNeedsABlockInBlocks) {
  library_.crops.at("roots").place.least_block.emplace().value = 12.0;
  for (Want& want : input_.wants) want.amount_per_week = 150.0;
  const auto made = plan();
  ASSERT_TRUE(made.has_value());
  int blocks = 0;
  for (const stand::StandPlan& stand : made->stands) {
    if (stand.crop != "roots") continue;
    EXPECT_GE(stand.clumps, 12) << stand.id;
    ++blocks;
  }
  EXPECT_GT(blocks, 0);
  expect_sound(*made);
}

// By the log more may stand in a tray than it has cells: that is no reason to make no plan.
TEST_F(SeasonPlan, PlansThoughMoreStandsInATrayThanItHasCells) {
  input_.today = base::date_of(2027, 4, 12);
  input_.fixed = {sown_in_tray(base::date_of(2027, 4, 5), 2 * input_.trays.front().cells)};
  const auto made = plan();
  ASSERT_TRUE(made.has_value()) << made.error().what;
  EXPECT_FALSE(made->stands.empty());
  expect_sound(*made);
}

// Bulbs lifted in the last weeks of a plan are for the weeks after it.
TEST_F(SeasonPlan, MindsWhatItsHarvestFeedsAfterItsWeeks) {
  input_.wants = {input_.wants.front()};
  input_.wants.front().from = {1, 1};
  input_.wants.front().to = {12, 31};
  library_.crops.at("bulbs").keeping.fridge_days.value = 120.0;
  input_.today = base::date_of(2027, 3, 1);
  options_.weeks = 20;
  const auto blind = plan();
  options_.weeks_after = 20;
  const auto minding = plan();
  ASSERT_TRUE(blind && minding);
  const auto clumps = [](const Plan& plan) {
    int sum = 0;
    for (const stand::StandPlan& stand : plan.stands) sum += stand.clumps;
    return sum;
  };
  EXPECT_GT(clumps(*minding), clumps(*blind));
  const base::Date end = input_.today + base::Days{7 * 20};
  for (const stand::StandPlan& stand : minding->stands) EXPECT_LT(stand.sow, end);
  for (const Shortage& shortage : minding->shortages) EXPECT_LT(shortage.week_start, end) << "not told of";
  EXPECT_NEAR(minding->wanted_g.at("w-bulbs"), blind->wanted_g.at("w-bulbs"), 1e-6);
}

// What stands in the beds feeds a want that takes it, though the want would sow another variety or size.
TEST_F(SeasonPlan, CountsWhatStandsOfAnotherVariety) {
  input_.wants = {input_.wants.back()};  // roots
  FixedStand standing = sown_stand("s1", "roots", base::date_of(2027, 4, 19), 60);
  standing.plan.size = stand::SizeGoal::small;
  standing.plan.spacing_mm = 100.0;
  standing.plan.bed = "north";
  standing.plan.to_m = 0.5;
  input_.today = base::date_of(2027, 5, 3);
  const auto garden_without = prepare_garden(input_, options_, made_up_source(kMembers));
  input_.fixed = {standing};
  const auto garden_with = prepare_garden(input_, options_, made_up_source(kMembers));
  ASSERT_TRUE(garden_without && garden_with);
  EXPECT_EQ(garden_with->model.products.size(), garden_without->model.products.size() + 1);
  EXPECT_EQ(garden_with->model.demands.front().products.size(), 2U);
  EXPECT_EQ(garden_with->model.candidates.size(), garden_without->model.candidates.size())
      << "nothing new to sow";
  double standing_servings = 0.0;
  for (const double servings : garden_with->model.base_supply.back()) standing_servings += servings;
  EXPECT_GT(standing_servings, 0.0);
}

/// Cells that stand on a tray's mat in each week.
std::vector<int> cells_on_mat(const GardenModel& model, const std::vector<PlacedStand>& stands,
                              std::size_t tray) {
  std::vector<int> cells = model.mat_taken[tray];
  for (const PlacedStand& stand : stands) {
    const Candidate& candidate = model.candidates[stand.candidate];
    if (candidate.tray != static_cast<int>(tray)) continue;
    for (int w = candidate.tray_first_week; w <= candidate.mat_last_week && w < static_cast<int>(model.weeks);
         ++w)
      cells[static_cast<std::size_t>(w)] += cells_for(candidate, stand.clumps);
  }
  return cells;
}

// ---- bought plants

constexpr int kRaisedDays = 28;

/// The garden of `SeasonPlan` without a tray, whose "fruits" are raised for four weeks at 20 °C, and bought.
class BoughtPlants : public SeasonPlan {
 protected:
  BoughtPlants() {
    crop::Crop& fruits = library_.crops.at("fruits");
    fruits.growth.cardinal.optimum_low_c.value = fruits.growth.cardinal.optimum_high_c.value = 20.0;
    fruits.growth.cardinal.ceiling_c.value = 40.0;
    fruits.nursery.ready_thermal_time_cd.value = 20.0 * kRaisedDays;
    input_.trays.clear();
    want("fruits").bought = true;
  }

  Want& want(const std::string& crop) {
    return *std::find_if(input_.wants.begin(), input_.wants.end(),
                         [&](const Want& each) { return each.crop == crop; });
  }

  std::vector<stand::StandPlan> fruits_of(const Plan& plan) {
    std::vector<stand::StandPlan> fruits;
    for (const stand::StandPlan& stand : plan.stands) {
      if (stand.crop == "fruits") fruits.push_back(stand);
    }
    return fruits;
  }
};

TEST_F(BoughtPlants, NeedNoTrayNoSeedAndTheirBedFromTheDayOfSettingOut) {
  input_.packets = {{.id = "p", .crop = "roots", .packed_year = 2026, .seeds = 1e6},
                    {.id = "f", .crop = "fruits", .packed_year = 2026, .seeds = 3.0}};
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  expect_sound(*result);
  ASSERT_FALSE(fruits_of(*result).empty());
  for (const stand::StandPlan& stand : fruits_of(*result)) {
    EXPECT_TRUE(stand::bought_as_plants(stand));
    ASSERT_TRUE(stand.set_out.has_value());
    EXPECT_GE(*stand.set_out, input_.today);
    EXPECT_TRUE(*stand.set_out == input_.today || *stand.set_out == base::week_start(*stand.set_out));
    EXPECT_EQ((*stand.set_out - stand.sow).count(), kRaisedDays);
    EXPECT_EQ(stand.cells, 0);
    EXPECT_EQ(stand.packet, "");
    EXPECT_EQ(stand.planned_c, 0.1 * base::climatological_day(*stand.set_out)) << "warm from then on";
    const Note& why = result->reasons.at(stand.id);
    const auto told = std::find_if(
        why.begin(), why.end(), [](const base::Message& message) { return message.key == "plants-to-buy"; });
    ASSERT_NE(told, why.end());
    EXPECT_EQ(std::get<double>(told->values[0].second), stand.clumps);
    EXPECT_EQ(std::get<base::Date>(told->values[1].second), *stand.set_out);
  }
  for (const Note& note : result->notes) {
    for (const base::Message& message : note) {
      for (const auto& [name, value] : message.values)
        EXPECT_FALSE(name == "crop" && std::get<std::string>(value) == "fruits") << message.key;
    }
  }
}

TEST_F(BoughtPlants, AreNamedWhereNothingElseWouldDo) {
  want("fruits").bought = false;
  const auto without = plan();
  ASSERT_TRUE(without.has_value());
  EXPECT_TRUE(fruits_of(*without).empty());
  EXPECT_NE(phrase(*without, "no-tray-to-raise-it"), nullptr);
  want("fruits").bought = true;
  const auto with = plan();
  ASSERT_TRUE(with.has_value());
  EXPECT_EQ(phrase(*with, "no-tray-to-raise-it"), nullptr);
}

TEST_F(BoughtPlants, AreNoneOfACropThatDoesNotBearToBeSetOut) {
  want("roots").bought = want("greens").bought = true;
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  int sown = 0;
  for (const stand::StandPlan& stand : result->stands) {
    if (stand.crop != "roots" && stand.crop != "greens") continue;
    EXPECT_EQ(stand.method, stand::Method::direct_sow);
    ++sown;
  }
  EXPECT_GT(sown, 0);
}

// "bulbs" may be sown in place, raised in the tray, or bought.
TEST_F(BoughtPlants, AreTheOnlyWayOfACropAndOneMoreOfAGroup) {
  constexpr std::size_t kLights = 2;  // beds in full sun and in part shade
  const auto tried = [&] {
    const auto garden = prepare_garden(input_, options_, made_up_source(kMembers));
    for (std::size_t p = 0; garden && p < garden->model.products.size(); ++p) {
      if (garden->model.products[p].crop == "bulbs")
        return garden->product_notes[p].tried / garden->model.weeks;
    }
    return std::size_t{0};
  };
  input_.trays = {{"shelf", "Shelf", 60, 40.0, bed::TrayPlace::indoors, 20.0}};
  EXPECT_EQ(tried(), 2U * kLights);
  want("bulbs").bought = true;
  EXPECT_EQ(tried(), 1U * kLights);
  library_.crops.at("bulbs").groups = {"stews"};
  Want& bulbs = want("bulbs");
  bulbs.crop.clear();
  bulbs.group = "stews";
  EXPECT_EQ(tried(), 3U * kLights);
  bulbs.bought = false;
  EXPECT_EQ(tried(), 2U * kLights);
}

TEST_F(BoughtPlants, CostWhatSoManySeedsDo) {
  const auto garden = prepare_garden(input_, options_, made_up_source(kMembers));
  ASSERT_TRUE(garden.has_value());
  int bought = 0;
  for (const Candidate& candidate : garden->model.candidates) {
    if (!stand::bought_as_plants(candidate.sowing)) continue;
    ++bought;
    EXPECT_EQ(garden->model.seed_lots.at(static_cast<std::size_t>(candidate.seed_lot)).seeds, 0.0);
    EXPECT_EQ(candidate.seeds, 25.0);
  }
  EXPECT_GT(bought, 0);
  EXPECT_FALSE(fruits_of(*plan()).empty());
  options_.prices.seed = 10.0;
  EXPECT_TRUE(fruits_of(*plan()).empty()) << "dearer than all that they bring";
}

TEST_F(BoughtPlants, StayAsTheyWerePlannedInANewPlan) {
  options_.prices.change = 1.0;
  const auto first = plan();
  ASSERT_TRUE(first.has_value());
  ASSERT_FALSE(fruits_of(*first).empty());
  input_.earlier = first->stands;
  const auto same = plan();
  ASSERT_TRUE(same.has_value());
  ASSERT_EQ(fruits_of(*same).size(), fruits_of(*first).size());
  for (const stand::StandPlan& before : fruits_of(*first)) {
    const auto after = std::find_if(same->stands.begin(), same->stands.end(),
                                    [&](const stand::StandPlan& each) { return each.id == before.id; });
    ASSERT_NE(after, same->stands.end()) << before.id;
    EXPECT_EQ(after->set_out, before.set_out);
    EXPECT_EQ(after->bed, before.bed);
  }
}

TEST_F(BoughtPlants, SayWhyTheyAreNotAsTheyWere) {
  const auto first = plan();
  ASSERT_TRUE(first.has_value());
  ASSERT_FALSE(fruits_of(*first).empty());
  const stand::StandPlan kept = fruits_of(*first).front();
  input_.earlier = {kept};
  // Long after their made-up sowing they can still be bought.
  input_.today = *kept.set_out - base::Days{7};
  const auto before = plan();
  ASSERT_TRUE(before.has_value());
  EXPECT_NE(reason_told(*before, kept.id), "day-to-buy-is-past");
  EXPECT_FALSE(fruits_of(*before).empty());
  input_.today = *kept.set_out + base::Days{21};
  const auto later = plan();
  ASSERT_TRUE(later.has_value());
  EXPECT_EQ(reason_told(*later, kept.id), "day-to-buy-is-past");
}

// A tray gives the same plants; which of the two ways was meant is not mixed up.
TEST_F(BoughtPlants, AreNotTheSameAsThoseOfATray) {
  const auto first = plan();
  ASSERT_TRUE(first.has_value());
  ASSERT_FALSE(fruits_of(*first).empty());
  const stand::StandPlan bought = fruits_of(*first).front();
  input_.trays = {{"shelf", "Shelf", 60, 40.0, bed::TrayPlace::indoors, 20.0}};
  want("fruits").bought = false;
  input_.earlier = {bought};
  const auto raised = plan();
  ASSERT_TRUE(raised.has_value());
  std::set<std::string> keys;
  for (const Note& change : raised->changes) keys.insert(change.front().key);
  EXPECT_TRUE(keys.contains("bought-left-out"));
  for (const stand::StandPlan& stand : fruits_of(*raised)) EXPECT_EQ(stand.tray, "shelf");
}

TEST_F(BoughtPlants, HoldTheirGroundFromTheDayTheyAreSetOut) {
  const auto first = plan();
  ASSERT_TRUE(first.has_value());
  ASSERT_FALSE(fruits_of(*first).empty());
  stand::StandPlan fixed = fruits_of(*first).front();
  fixed.id = "s90";
  input_.fixed = {{fixed, {}}};
  const auto garden = prepare_garden(input_, options_, made_up_source(kMembers));
  ASSERT_TRUE(garden.has_value());
  ASSERT_EQ(garden->model.taken.size(), 1U);
  EXPECT_EQ(garden->model.taken.front().first_week, (*fixed.set_out - garden->grid.first_monday).count() / 7);
}

TEST_F(BoughtPlants, AskForTheWeatherFromTheDayTheyWereSown) {
  EXPECT_EQ(weather_needed_from(input_), base::week_start(input_.today - base::Days{kRaisedDays}));
  want("fruits").bought = false;
  EXPECT_EQ(weather_needed_from(input_), base::week_start(input_.today));
  input_.fixed = {{{.id = "s1", .crop = "roots", .sow = input_.today - base::Days{50}}, {}}};
  EXPECT_EQ(weather_needed_from(input_), base::week_start(input_.today - base::Days{50}));
}

// In no week do more cells stand on the mat than it takes, and the relaxation knows of it.
TEST(SolveModel, NeverPutsMoreOnAMatThanItTakes) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    SyntheticSize size;
    size.crops = 6;
    size.beds = 3;
    size.members = 6;
    size.scenarios = 3;
    PlanOptions options;
    options.rounds = 100;
    const GardenModel without = synthetic_garden(seed, size);
    size.mat_cells = 10;
    GardenModel model = synthetic_garden(seed, size);
    model.mat_taken[0][14] = 7;
    const auto free = solve_model(without, options);
    const auto solved = solve_model(model, options);
    ASSERT_TRUE(free.has_value() && solved.has_value());
    EXPECT_TRUE(layout_faults(model, solved->stands).empty());
    const std::vector<int> cells = cells_on_mat(model, solved->stands, 0);
    EXPECT_LE(*std::max_element(cells.begin(), cells.end()), 10) << "seed " << seed;
    EXPECT_GE(solved->bound, free->bound - 1e-9);
    EXPECT_LE(solved->bound, solved->objective + 1e-9);
    // The plan without a mat would not fit on it.
    std::vector<std::string> faults = layout_faults(model, free->stands);
    ASSERT_FALSE(faults.empty()) << "seed " << seed;
    EXPECT_EQ(faults.front().find("the mat of tray"), 0U) << faults.front();
  }
}

// A mat with room for all, told or not, leaves the plan as it is; a small one lets fewer be raised at once.
TEST_F(SeasonPlan, RaisesNoMoreAtOnceThanTheMatTakes) {
  input_.trays.front().place = bed::TrayPlace::heat_mat;
  const auto untold = plan();
  input_.trays.front().mat_cells = 60;
  const auto roomy = plan();
  input_.trays.front().mat_cells = 2;
  const auto small = plan();
  ASSERT_TRUE(untold && roomy && small);
  EXPECT_EQ(untold->objective, roomy->objective);
  EXPECT_GT(small->bound, untold->bound);
  expect_sound(*small);
  const auto most_on_the_mat = [](const Plan& plan) {
    // The made-up seed is up on its sixth or twelfth day: in the second week.
    std::map<base::Date, int> by_week;
    for (const stand::StandPlan& stand : plan.stands) {
      if (stand.tray.empty()) continue;
      for (const int days : {0, 7}) by_week[stand.sow + base::Days{days}] += stand.cells;
    }
    int most = 0;
    for (const auto& [week, cells] : by_week) most = std::max(most, cells);
    return most;
  };
  EXPECT_GT(most_on_the_mat(*untold), 2);
  EXPECT_LE(most_on_the_mat(*small), 2);
  EXPECT_GT(most_on_the_mat(*small), 0);
}

// What was sown already stands on the mat until it is up.
TEST_F(SeasonPlan, KeepsTheMatForWhatStandsThere) {
  input_.today = base::date_of(2027, 4, 5);
  input_.trays.front().place = bed::TrayPlace::heat_mat;
  input_.trays.front().mat_cells = 5;
  FixedStand sown = sown_in_tray(input_.today);
  sown.plan.spacing_mm = 600.0;
  sown.plan.bed = "north";
  sown.plan.to_m = 1.0;
  input_.fixed = {sown};
  const auto result = plan();
  ASSERT_TRUE(result.has_value());
  int raised = 0;
  for (const stand::StandPlan& stand : result->stands) {
    if (stand.tray.empty()) continue;
    EXPECT_GE(stand.sow, input_.today + base::Days{14}) << stand.crop;
    ++raised;
  }
  EXPECT_GT(raised, 0);
}

TEST(SolveModel, PlacesEveryStandOfRandomGardensWithoutFault) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    SyntheticSize size;
    size.crops = 5;
    size.beds = 3;
    size.members = 6;
    size.scenarios = 3;
    size.week_step = 2;
    const GardenModel model = synthetic_garden(seed, size);
    PlanOptions options;
    options.rounds = 100;
    const auto solved = solve_model(model, options);
    ASSERT_TRUE(solved.has_value());
    EXPECT_TRUE(layout_faults(model, solved->stands).empty());
    ForwardPass judge(model, model.scenarios);
    judge.set_counts(counts_of(model, solved->stands));
    EXPECT_NEAR(judge.cost(), solved->objective, 1e-9 * (1.0 + solved->objective));
    EXPECT_LE(solved->bound, solved->objective + 1e-9);
  }
}

TEST(PlanOptions, SearchingLongerAsksForMoreRoundsAndMoreTime) {
  PlanOptions options;
  options.search_longer(1.0);
  EXPECT_EQ(options.rounds, PlanOptions{}.rounds);
  EXPECT_DOUBLE_EQ(options.time_limit_s, PlanOptions{}.time_limit_s);
  options.search_longer(3.0);
  EXPECT_EQ(options.rounds, 3 * kUsualRounds);
  EXPECT_DOUBLE_EQ(options.time_limit_s, 3.0 * kUsualTimeLimitS);
  options.search_longer(0.1);
  EXPECT_EQ(options.rounds, kUsualRounds / 10);
  EXPECT_DOUBLE_EQ(options.time_limit_s, kUsualTimeLimitS);
  options.search_longer(1e-9);
  EXPECT_EQ(options.rounds, 1U);
}

TEST(DropDominated, KeepsOneOfTwins) {
  SyntheticSize size;
  size.crops = 2;
  size.beds = 1;
  size.members = size.scenarios = 2;
  GardenModel model = synthetic_garden(5, size);
  const std::size_t count = model.candidates.size();
  model.candidates.push_back(model.candidates.front());
  Candidate worse = model.candidates.front();
  ++worse.bed_last_week;
  model.candidates.push_back(worse);
  EXPECT_GE(drop_dominated(model.candidates), 2U);
  EXPECT_LE(model.candidates.size(), count);
}

}  // namespace
}  // namespace sowtide::plan
