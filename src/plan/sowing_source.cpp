#include "plan/sowing_source.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <utility>

#include "base/parallel.hpp"
#include "stand/crop_weather.hpp"
#include "stand/simulate.hpp"

namespace sowtide::plan {
namespace {

/// Clumps that stand for all when a candidate is judged: the planner wants weights, not the spread of sizes.
constexpr std::size_t kSampledClumps = 8;

/// Every day of the year as a day to sow; empty where the crop is not grown so or no typical years are known.
struct SowingYears {
  std::vector<stand::SowingDay> in_place, in_trays;
};

class GrowingSource final : public SowingSource {
 public:
  GrowingSource(const climate::WeatherEnsemble& weather, const WeekGrid& grid,
                const std::vector<crop::Crop>& crops, std::uint64_t seed,
                const climate::WeatherEnsemble* typical_years)
      : weather_(&weather), grid_(grid), seed_(seed) {
    const auto season = std::make_shared<const stand::SeasonWeather>(weather);
    std::vector<std::unique_ptr<stand::CropWeather>> felt(crops.size());
    std::vector<SowingYears> years(crops.size());
    const auto typical =
        typical_years == nullptr ? nullptr : std::make_shared<const stand::SeasonWeather>(*typical_years);
    base::parallel_for(crops.size(), [&](std::size_t i) {
      felt[i] = std::make_unique<stand::CropWeather>(crops[i], season);
      if (typical == nullptr) return;
      const stand::CropWeather year(crops[i], typical);
      years[i] = {stand::sowing_year(year, "direct-sow"), stand::sowing_year(year, "start-indoors")};
    });
    for (std::size_t i = 0; i < crops.size(); ++i) {
      felt_.emplace(crops[i].id, std::move(felt[i]));
      years_.emplace(crops[i].id, std::move(years[i]));
    }
  }

  [[nodiscard]] std::size_t member_count() const override { return weather_->member_count; }

  [[nodiscard]] base::Result<SowingLife> life(
      const crop::Crop& crop, const stand::StandPlan& plan, const stand::StandFacts& facts,
      const std::optional<stand::RaisingPlace>& raising) const override {
    const auto found = felt_.find(crop.id);
    if (found == felt_.end()) {
      return base::fail(base::ProblemCode::internal,
                        "the crop " + crop.id + " was not prepared for planning");
    }
    const auto sown = (facts.sown.value_or(plan.sow) - weather_->first).count();
    if (sown < 0 || sown >= static_cast<std::int64_t>(weather_->day_count)) {
      return base::fail(base::ProblemCode::out_of_range,
                        "stand " + plan.id + " is sown outside the weather that is known or made up",
                        {"", 0, 0, "sow"}, "Make the weather ensemble begin before the earliest stand.");
    }
    stand::SimulationOptions options;
    options.sampled_clumps = kSampledClumps;
    options.seed = seed_;
    return fold(stand::simulate(*found->second, plan, facts, raising, options));
  }

  [[nodiscard]] stand::SowingDay sowing_day(const crop::Crop& crop, const stand::StandPlan& plan) const override {
    const auto found = years_.find(crop.id);
    if (found == years_.end()) return SowingSource::sowing_day(crop, plan);
    const auto& year = plan.method == stand::Method::direct_sow ? found->second.in_place : found->second.in_trays;
    if (year.empty()) return SowingSource::sowing_day(crop, plan);
    return year[static_cast<std::size_t>(base::climatological_day(plan.sow) - 1)];
  }

 private:
  [[nodiscard]] int grid_day(int ensemble_day) const {
    if (ensemble_day < 0) return kNeverDay;
    return ensemble_day + static_cast<int>((weather_->first - grid_.first_monday).count());
  }

  [[nodiscard]] SowingLife fold(const stand::StandLives& lives) const {
    SowingLife life;
    const std::size_t members = lives.members.size();
    life.weekly_g.assign(members * grid_.weeks, 0.0);
    const int first_day = grid_day(static_cast<int>(lives.first_day));
    for (std::size_t m = 0; m < members; ++m) {
      const stand::MemberLife& member = lives.members[m];
      for (std::size_t i = 0; i < lives.day_count; ++i) {
        const int day = first_day + static_cast<int>(i);
        const double grams = lives.taken_g[m * lives.day_count + i];
        if (grams <= 0.0 || day < 0 || day >= static_cast<int>(7 * grid_.weeks)) continue;
        life.weekly_g[m * grid_.weeks + static_cast<std::size_t>(day) / 7] += grams;
      }
      life.set_out_day.push_back(grid_day(member.set_out_day));
      const bool picked = member.first_pick_day >= 0;
      const int last = std::max(member.end_day, member.last_pick_day);
      life.end_day.push_back(picked ? grid_day(last) : kNeverDay);
      life.success += member.success ? 1.0 : 0.0;
      if (member.limit != stand::Limit::none && life.limits.empty())
        life.limits = stand::limit_text(member.limit);
    }
    life.success /= static_cast<double>(std::max<std::size_t>(1, members));
    return life;
  }

  const climate::WeatherEnsemble* weather_;
  WeekGrid grid_;
  std::uint64_t seed_;
  std::map<std::string, std::unique_ptr<stand::CropWeather>, std::less<>> felt_;
  std::map<std::string, SowingYears, std::less<>> years_;
};

}  // namespace

std::unique_ptr<SowingSource> growing_source(const climate::WeatherEnsemble& weather, const WeekGrid& grid,
                                             const std::vector<crop::Crop>& crops, std::uint64_t seed,
                                             const climate::WeatherEnsemble* typical_years) {
  return std::make_unique<GrowingSource>(weather, grid, crops, seed, typical_years);
}

std::string crop_key(const std::string& crop, const std::string& variety) {
  return variety.empty() ? crop : crop + "/" + variety;
}

}  // namespace sowtide::plan
