// The days of a stand take no memory: what a stand needs is taken before its first year is lived.
#include <gtest/gtest.h>

#include <atomic>
#include <cstdlib>
#include <memory>
#include <new>

#include "base/date.hpp"
#include "crop/crop.hpp"
#include "made_weather.hpp"
#include "stand/simulate.hpp"

namespace {
std::atomic<long> allocations{0};

void* counted(std::size_t bytes) {
  ++allocations;
  if (void* memory = std::malloc(bytes > 0 ? bytes : 1)) return memory;
  throw std::bad_alloc();
}
}  // namespace

void* operator new(std::size_t bytes) {
  return counted(bytes);
}
void* operator new[](std::size_t bytes) {
  return counted(bytes);
}
void operator delete(void* memory) noexcept {
  std::free(memory);
}
void operator delete[](void* memory) noexcept {
  std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
  std::free(memory);
}
void operator delete[](void* memory, std::size_t) noexcept {
  std::free(memory);
}

namespace sowtide::stand {
namespace {

/// How often memory is taken to live a stand through so many years.
long allocations_of(const char* crop, StandPlan plan, std::size_t years) {
  const climate::WeatherEnsemble ensemble = testing::made_ensemble(
      {.mean_c = 13.0, .swing_k = 10.0, .noise_k = 3.0}, base::date_of(2026, 1, 1), 500, years);
  const CropWeather weather(**crop::built_in_library().find(crop),
                            std::make_shared<const SeasonWeather>(ensemble));
  plan.crop = crop;
  plan.sow = base::date_of(2026, 5, 10);
  const long before = allocations;
  const StandLives lives = simulate(weather, plan, {}, {}, {});
  const long taken = allocations - before;
  double had_g = 0.0;
  for (const double grams : lives.taken_g) had_g += grams;
  EXPECT_GT(had_g, 0.0) << crop << ": it lived to its harvest";
  return taken;
}

TEST(Allocations, OfAStandDoNotGrowWithItsYears) {
  for (const char* crop : {"bush-bean", "beet", "chard", "lettuce"}) {
    StandPlan plan{.id = "s1"};
    plan.clumps = 20;
    plan.spacing_mm = 200.0;
    EXPECT_EQ(allocations_of(crop, plan, 3), allocations_of(crop, plan, 12)) << crop;
    plan.pick_weeks = 10;
    EXPECT_EQ(allocations_of(crop, plan, 3), allocations_of(crop, plan, 12)) << crop << ", left standing";
  }
}

}  // namespace
}  // namespace sowtide::stand
