#include "plan/sowing_memory.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <string>
#include <vector>

#include "base/parallel.hpp"
#include "base/random.hpp"
#include "climate/places.hpp"
#include "plan/season_plan.hpp"

namespace sowtide::plan {
namespace {

climate::WeatherEnsemble weather_at(const char* place, std::uint64_t seed = 1) {
  climate::EnsembleOptions options;
  options.first = base::date_of(2026, 1, 1);
  options.day_count = 730;
  options.member_count = 4;
  options.seed = seed;
  return climate::ensemble_from_normals(*climate::find_place(place), options);
}

crop::Crop crop_named(const char* id) {
  return **crop::built_in_library().find(id);
}

class Remembered : public testing::Test {
 protected:
  climate::WeatherEnsemble weather_ = weather_at("Trier");
  WeekGrid grid_{base::date_of(2026, 2, 2), 52};
  std::vector<crop::Crop> crops_{crop_named("beet"), crop_named("tomato"), crop_named("lettuce")};

  std::unique_ptr<SowingSource> source(SowingMemory* memory) const {
    return growing_source(weather_, grid_, crops_, 1, &weather_, memory);
  }

  static stand::StandPlan sowing(const crop::Crop& crop, int day) {
    stand::StandPlan plan;
    plan.id = "s1";
    plan.crop = crop.id;
    plan.sow = base::date_of(2026, 2, 3) + base::Days{day};
    plan.clumps = 20;
    plan.spacing_mm = crop.place.spacing_large_mm;
    plan.method = crop.nursery.can_direct_sow ? stand::Method::direct_sow : stand::Method::start_indoors;
    return plan;
  }

  static std::optional<stand::RaisingPlace> raising(const stand::StandPlan& plan) {
    if (plan.method == stand::Method::direct_sow) return {};
    return stand::RaisingPlace{};
  }

  /// Many sowings of each crop, by place i; the same one comes up several times.
  SowingLife ask(const SowingSource& source, std::size_t i) const {
    const crop::Crop& crop = crops_[i % crops_.size()];
    const stand::StandPlan plan = sowing(crop, static_cast<int>(7 * (i / crops_.size() % 40)));
    const auto life = source.life(crop, plan, {}, raising(plan), {.rows_across = 5});
    EXPECT_TRUE(life.has_value());
    return *life;
  }
};

constexpr std::size_t kAsked = 120;

TEST_F(Remembered, LivesAreTheSameAsNewOnes) {
  SowingMemory memory;
  const auto anew = source(nullptr);
  const auto first = source(&memory);
  for (std::size_t i = 0; i < kAsked; ++i) EXPECT_EQ(ask(*first, i), ask(*anew, i)) << i;
  EXPECT_EQ(memory.tally().kept, kAsked);
  EXPECT_EQ(memory.tally().found, 0U);
  // A source made later for equal, not the same, weather and crops.
  const climate::WeatherEnsemble equal = weather_;
  const auto second = growing_source(equal, grid_, {crops_[2], crops_[0], crops_[1]}, 1, &weather_, &memory);
  for (std::size_t i = 0; i < kAsked; ++i) EXPECT_EQ(ask(*second, i), ask(*anew, i)) << i;
  EXPECT_EQ(memory.tally().kept, kAsked);
  EXPECT_EQ(memory.tally().found, kAsked);
}

TEST_F(Remembered, DaysToSowAreTheSameAsNewOnes) {
  SowingMemory memory;
  const auto anew = source(nullptr);
  const auto first = source(&memory);
  const auto second = source(&memory);
  for (const crop::Crop& crop : crops_) {
    for (int day = 0; day < 365; ++day) {
      const stand::StandPlan plan = sowing(crop, day);
      const stand::SowingDay expected = anew->sowing_day(crop, plan);
      for (const auto* each : {first.get(), second.get()}) {
        EXPECT_EQ(each->sowing_day(crop, plan).success, expected.success);
        EXPECT_EQ(each->sowing_day(crop, plan).limit, expected.limit);
      }
    }
  }
}

TEST_F(Remembered, ManyThreadsGetTheSame) {
  const base::ThreadLimit threads(8);
  const auto anew = source(nullptr);
  std::vector<SowingLife> expected;
  for (std::size_t i = 0; i < kAsked; ++i) expected.push_back(ask(*anew, i));
  SowingMemory memory;
  // The second time all is there; what does not fit is lived again, its crop's weather worked out meanwhile.
  SowingMemory nothing_fits(0);
  for (SowingMemory* each : {&memory, &memory, &nothing_fits, &nothing_fits}) {
    const auto shared = source(each);
    std::vector<SowingLife> found(10 * kAsked);
    base::parallel_for(found.size(), [&](std::size_t i) { found[i] = ask(*shared, i); });
    for (std::size_t i = 0; i < found.size(); ++i) ASSERT_EQ(found[i], expected[i % kAsked]) << i;
  }
  EXPECT_EQ(memory.tally().lives, kAsked);
  EXPECT_EQ(nothing_fits.tally().found, 0U);
}

/// All that a life may depend on, before the memory gives numbers to crop and weather.
struct Inputs {
  crop::Crop crop;
  climate::WeatherEnsemble weather;
  SowingQuestion question;
};

SowingQuestion asked(SowingMemory& memory, const Inputs& inputs) {
  SowingQuestion question = inputs.question;
  question.crop = memory.number_of(inputs.crop);
  question.weather = memory.number_of(inputs.weather);
  return question;
}

using Change = std::function<void(Inputs&, base::RandomStream&)>;

template <class Values>
void nudge_one(Values& values, base::RandomStream& stream) {
  values[stream.below(static_cast<std::uint32_t>(values.size()))] += 0.01;
}

/// One change each; the places within long tables are drawn.
std::vector<Change> changes() {
  using I = Inputs;
  using R = base::RandomStream;
  return {
      [](I& i, R&) { i.crop.id += "/early"; },
      [](I& i, R&) {
        i.crop = crop::with_variety(i.crop, {.id = "v", .name = "", .crop = "beet", .earliness = 0.99});
      },
      [](I& i, R&) {
        i.crop = crop::with_variety(i.crop, {.id = "v", .name = "", .crop = "beet", .size = 1.01});
      },
      [](I& i, R&) { i.crop.growth.field_efficiency.value += 1e-9; },
      [](I& i, R&) { i.crop.growth.cardinal.base_c.low = -1.0; },
      [](I& i, R&) {
        i.crop.germination.final_fraction.push_back({30.0, 0.1});
      },
      [](I& i, R&) { i.crop.germination.soil_factor = crop::Figure{.value = 1.1}; },
      [](I& i, R&) { i.crop.nursery.hardening_days.value += 1.0; },
      [](I& i, R&) { i.crop.harvest.large_g.value += 1.0; },
      [](I& i, R&) { i.crop.limits.kill_mature_c.value -= 0.1; },
      [](I& i, R&) {
        i.crop.place.kinds_by_latitude.push_back({50.0, 14.0});
      },
      [](I& i, R&) { i.crop.sowing.overwinters = !i.crop.sowing.overwinters; },
      [](I& i, R& r) { nudge_one(i.weather.tmin_c, r); },
      [](I& i, R& r) { nudge_one(i.weather.tmax_c, r); },
      [](I& i, R& r) { nudge_one(i.weather.rain_mm, r); },
      [](I& i, R& r) { nudge_one(i.weather.radiation_mj_m2, r); },
      [](I& i, R& r) { nudge_one(i.weather.et0_mm, r); },
      [](I& i, R&) { i.weather.first += base::Days{1}; },
      [](I& i, R&) { i.weather.site.latitude_deg += 0.1; },
      [](I& i, R&) { i.weather.site.elevation_m += 1.0; },
      [](I& i, R&) { i.question.grid.first_monday += base::Days{7}; },
      [](I& i, R&) { --i.question.grid.weeks; },
      [](I& i, R&) { ++i.question.seed; },
      [](I& i, R& r) { i.question.plan.sow += base::Days{1 + static_cast<int>(r.below(300))}; },
      [](I& i, R&) { i.question.plan.set_out = i.question.plan.sow + base::Days{40}; },
      [](I& i, R&) { i.question.plan.method = stand::Method::start_indoors; },
      [](I& i, R&) { i.question.plan.size = stand::SizeGoal::small; },
      [](I& i, R&) { ++i.question.plan.clumps; },
      [](I& i, R&) { i.question.plan.plants_per_clump += 0.1; },
      [](I& i, R&) { i.question.plan.spacing_mm += 1.0; },
      [](I& i, R&) { i.question.plan.arrangement = stand::Arrangement::rows; },
      [](I& i, R&) { i.question.plan.row_spacing_mm += 1.0; },
      [](I& i, R&) { i.question.plan.tray = "t1"; },
      [](I& i, R&) { i.question.plan.seeds_per_cell += 1.0; },
      [](I& i, R&) { i.question.facts.emerged = base::date_of(2026, 4, 20); },
      [](I& i, R&) { i.question.facts.counted_plants = 7; },
      [](I& i, R&) { i.question.facts.taken.push_back({.date = base::date_of(2026, 6, 1), .plants = 2}); },
      [](I& i, R&) { i.question.facts.finished = true; },
      [](I& i, R&) { i.question.raising = stand::RaisingPlace{}; },
      [](I& i, R&) { i.question.bed.rows_across = 5; },
      [](I& i, R&) { i.question.bed.sun = bed::SunClass::partial; },
  };
}

TEST_F(Remembered, AnyChangeOfWhatALifeDependsOnIsAnotherQuestion) {
  SowingMemory memory;
  const Inputs inputs{
      crop_named("beet"), weather_, {.grid = grid_, .seed = 1, .plan = sowing(crops_[0], 30)}};
  memory.keep(asked(memory, inputs), {});
  base::RandomStream stream(20261129, "changes");
  const auto all = changes();
  for (std::size_t c = 0; c < all.size(); ++c) {
    for (int round = 0; round < 5; ++round) {
      Inputs changed = inputs;
      all[c](changed, stream);
      EXPECT_EQ(memory.find(asked(memory, changed)), nullptr) << "change " << c;
      // Two changes at once do not cancel each other either.
      const std::size_t other = stream.below(static_cast<std::uint32_t>(all.size()));
      if (other != c) all[other](changed, stream);
      EXPECT_EQ(memory.find(asked(memory, changed)), nullptr) << "changes " << c << " and " << other;
      ASSERT_NE(memory.find(asked(memory, inputs)), nullptr) << "after change " << c;
    }
  }
}

TEST_F(Remembered, ForgetsWhatIsUnusedForLongest) {
  SowingLife life;
  life.weekly_g.assign(1000, 1.0);
  SowingMemory memory(100'000);
  const std::uint64_t weather = memory.number_of(weather_);
  const auto question = [&](int day) {
    return SowingQuestion{
        .crop = 1, .weather = weather, .grid = grid_, .seed = 1, .plan = sowing(crops_[0], day)};
  };
  for (int day = 0; day < 50; ++day) {
    memory.keep(question(day), life);
    EXPECT_NE(memory.find(question(0)), nullptr) << "in use, so it stays";
    EXPECT_NE(memory.find(question(day)), nullptr) << "just kept";
    EXPECT_LE(memory.tally().bytes, 100'000U);
  }
  EXPECT_EQ(memory.find(question(1)), nullptr);
  EXPECT_GE(memory.tally().lives, 8U);
  EXPECT_LE(memory.tally().lives, 12U);
}

TEST_F(Remembered, ForgetsWeathersOfOldDays) {
  SowingMemory memory;
  const std::uint64_t number = memory.number_of(weather_);
  EXPECT_EQ(memory.number_of(weather_at("Trier")), number);
  EXPECT_TRUE(memory.is_new(1, number));
  EXPECT_FALSE(memory.is_new(1, number));
  memory.keep({.crop = 1, .weather = number, .grid = grid_, .plan = sowing(crops_[0], 0)}, {});
  for (std::uint64_t seed = 2; seed < 12; ++seed)
    EXPECT_NE(memory.number_of(weather_at("Trier", seed)), number);
  // A plan that still runs with the old weather leaves nothing behind.
  memory.keep({.crop = 1, .weather = number, .grid = grid_, .plan = sowing(crops_[0], 1)}, {});
  memory.keep_years(1, number, std::make_shared<const SowingYears>());
  EXPECT_EQ(memory.find_years(1, number), nullptr);
  EXPECT_EQ(memory.tally().lives, 0U);
  EXPECT_EQ(memory.tally().bytes, 0U);
  EXPECT_GT(memory.number_of(weather_), number) << "a number is not given twice";
}

// The way the page's server goes: the same garden planned again, and with another want, in one process.
TEST_F(Remembered, APlanIsTheSameAsOneMadeAnew) {
  PlanInput input;
  input.library = &crop::built_in_library();
  bed::Bed bed;
  bed.id = "b1";
  bed.length_m = 3.0;
  bed.width_m = 1.2;
  input.beds = {bed};
  bed::Tray tray;
  tray.id = "t1";
  tray.cells = 40;
  tray.cell_width_mm = 40.0;
  input.trays = {tray};
  for (const char* crop : {"beet", "lettuce"}) {
    Want want;
    want.id = want.crop = crop;
    want.amount_per_week = 500.0;
    input.wants.push_back(want);
  }
  input.weather = &weather_;
  input.typical_years = &weather_;
  input.today = base::date_of(2026, 2, 15);
  PlanOptions options;
  options.rounds = 50;
  SowingMemory memory;
  for (int round = 0; round < 3; ++round) {
    input.memory = nullptr;
    const auto anew = make_plan(input, options);
    input.memory = &memory;
    const auto remembered = make_plan(input, options);
    ASSERT_TRUE(anew && remembered);
    EXPECT_GT(anew->candidates, 0U);
    EXPECT_EQ(remembered->stands, anew->stands) << round;
    EXPECT_EQ(remembered->objective, anew->objective);
    EXPECT_EQ(remembered->bound, anew->bound);
    EXPECT_EQ(remembered->notes.size(), anew->notes.size());
    if (round == 1) input.wants.push_back({.id = "more", .crop = "tomato", .amount_per_week = 300.0});
  }
  EXPECT_GT(memory.tally().found, memory.tally().kept / 2);
}

}  // namespace
}  // namespace sowtide::plan
