#include "plan/sowing_source.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <mutex>
#include <utility>

#include "base/parallel.hpp"
#include "plan/sowing_memory.hpp"
#include "stand/bought.hpp"
#include "stand/crop_weather.hpp"
#include "stand/simulate.hpp"

namespace sowtide::plan {
namespace {

/// Clumps that stand for all when a candidate is judged: the planner wants weights, not the spread of sizes.
constexpr int kSampledClumps = 8;
/// Beds of more rows are taken as without edges: those would give less than a twentieth more.
constexpr int kMostRowsWithEdges = 24;

/// About `kSampledClumps`, so many that just the right share of them stands at an edge: two rows of all, one
/// clump in half the rows. An odd number above eleven counts as one row more, so that the sample stays small.
struct SampledRows {
  int rows = 0;
  std::size_t clumps = kSampledClumps;
};

SampledRows sampled_rows(int rows_across) {
  constexpr int kSmallOddRows = 11;
  if (rows_across <= 1) return {std::max(0, rows_across), kSampledClumps};
  const int rows = rows_across > kSmallOddRows ? rows_across + rows_across % 2 : rows_across;
  if (rows > kMostRowsWithEdges) return {};
  const int cycle = rows % 2 == 0 ? rows / 2 : rows;
  return {rows, static_cast<std::size_t>(cycle * std::max(1, (kSampledClumps + cycle / 2) / cycle))};
}

/// Seed in the ground minds the soil of its first week; what is raised in a tray minds the air until it goes
/// out.
constexpr std::int64_t kSoilDays = 7;
constexpr std::int64_t kAirDays = 56;

/// What the source knows of one crop. What it feels of the weather is worked out when a sowing has to be
/// lived.
struct CropWork {
  explicit CropWork(const crop::Crop& grown) : crop(grown) {}
  crop::Crop crop;
  std::uint64_t number = 0;  ///< in the memory
  std::shared_ptr<const SowingYears> years;
  std::once_flag feels;
  std::unique_ptr<const stand::CropWeather> felt;
};

class GrowingSource final : public SowingSource {
 public:
  GrowingSource(const climate::WeatherEnsemble& weather, const WeekGrid& grid,
                const std::vector<crop::Crop>& crops, std::uint64_t seed,
                const climate::WeatherEnsemble* typical_years, SowingMemory* memory)
      : weather_(&weather), grid_(grid), seed_(seed), memory_(memory) {
    for (const crop::Crop& crop : crops) work_.emplace(crop.id, std::make_unique<CropWork>(crop));
    std::vector<CropWork*> to_feel;
    if (memory_ != nullptr) weather_number_ = memory_->number_of(weather);
    for (const auto& [id, work] : work_) {
      if (memory_ != nullptr) work->number = memory_->number_of(work->crop);
      if (memory_ == nullptr || memory_->is_new(work->number, weather_number_)) to_feel.push_back(work.get());
    }
    if (!to_feel.empty()) {
      felt_season();
      base::parallel_for(to_feel.size(), [&](std::size_t i) { felt(*to_feel[i]); });
    }
    if (typical_years != nullptr) judge_days(*typical_years);
  }

  [[nodiscard]] std::size_t member_count() const override { return weather_->member_count; }

  [[nodiscard]] base::Result<SowingLife> life(const crop::Crop& crop, const stand::StandPlan& plan,
                                              const stand::StandFacts& facts,
                                              const std::optional<stand::RaisingPlace>& raising,
                                              const stand::BedPlace& bed) const override {
    const auto found = work_.find(crop.id);
    if (found == work_.end()) {
      return base::fail(base::ProblemCode::internal,
                        "the crop " + crop.id + " was not prepared for planning");
    }
    const auto sown = (facts.sown.value_or(plan.sow) - weather_->first).count();
    if (sown < 0 || sown >= static_cast<std::int64_t>(weather_->day_count)) {
      return base::fail(base::ProblemCode::out_of_range,
                        "stand " + plan.id + " is sown outside the weather that is known or made up",
                        {"", 0, 0, "sow"}, "Make the weather ensemble begin before the earliest stand.");
    }
    if (memory_ == nullptr) return live(*found->second, plan, facts, raising, bed);
    const SowingQuestion question{
        found->second->number, weather_number_, grid_, seed_, plan, facts, raising, bed};
    if (const auto known = memory_->find(question)) return *known;
    SowingLife life = live(*found->second, plan, facts, raising, bed);
    memory_->keep(question, life);
    return life;
  }

  [[nodiscard]] std::optional<double> warmth_c(stand::Method method, base::Date sow) const override {
    const bool in_place = method == stand::Method::direct_sow;
    const auto first = (sow - weather_->first).count();
    const std::int64_t days = in_place ? kSoilDays : kAirDays;
    if (first < 0 || first + days > static_cast<std::int64_t>(weather_->day_count)) return {};
    const std::vector<double>* soil_c = in_place ? &felt_season()->soil_mean_c() : nullptr;
    double sum_c = 0.0;
    for (std::size_t m = 0; m < weather_->member_count; ++m) {
      for (std::int64_t day = first; day < first + days; ++day) {
        const std::size_t at = weather_->at(m, static_cast<std::size_t>(day));
        sum_c += in_place ? (*soil_c)[at] : weather_->mean_c(at);
      }
    }
    return sum_c / static_cast<double>(weather_->member_count) / static_cast<double>(days);
  }

  [[nodiscard]] std::optional<stand::Outlook> outlook(const crop::Crop& crop, const stand::StandPlan& plan,
                                                      const std::optional<stand::RaisingPlace>& raising,
                                                      const stand::BedPlace& bed) const override {
    const auto found = work_.find(crop.id);
    if (found == work_.end()) return {};
    auto outlook = stand::outlook(felt(*found->second), plan, {}, raising, {.bed = bed});
    return outlook ? std::optional(std::move(*outlook)) : std::nullopt;
  }

  [[nodiscard]] stand::SowingDay sowing_day(const crop::Crop& crop,
                                            const stand::StandPlan& plan) const override {
    const auto found = work_.find(crop.id);
    if (found == work_.end() || found->second->years == nullptr) return SowingSource::sowing_day(crop, plan);
    const SowingYears& years = *found->second->years;
    // Bought plants are judged on the day they are set out: on that of their sowing they were somewhere else.
    const auto& year = plan.method == stand::Method::direct_sow ? years.in_place
                       : stand::bought_as_plants(plan)          ? years.set_out
                                                                : years.in_trays;
    if (year.empty()) return SowingSource::sowing_day(crop, plan);
    return year[static_cast<std::size_t>(base::climatological_day(stand::begins_on(plan)) - 1)];
  }

 private:
  /// How good every day of the typical years is to sow each crop, from the memory where it is known.
  void judge_days(const climate::WeatherEnsemble& typical_years) {
    const std::uint64_t number = memory_ == nullptr ? 0 : memory_->number_of(typical_years);
    std::vector<CropWork*> unknown;
    for (const auto& [id, work] : work_) {
      if (memory_ != nullptr) work->years = memory_->find_years(work->number, number);
      if (work->years == nullptr) unknown.push_back(work.get());
    }
    if (unknown.empty()) return;
    const auto typical = std::make_shared<const stand::SeasonWeather>(typical_years);
    base::parallel_for(unknown.size(), [&](std::size_t i) {
      const stand::CropWeather year(unknown[i]->crop, typical);
      SowingYears years{.in_place = stand::sowing_year(year, "direct-sow"),
                        .set_out = stand::sowing_year(year, "set-out")};
      years.in_trays = stand::indoor_sowing_year(year, years.set_out);
      for (auto* each : {&years.in_place, &years.set_out, &years.in_trays}) stand::mark_windows(*each);
      unknown[i]->years = std::make_shared<const SowingYears>(std::move(years));
    });
    for (const CropWork* work : unknown) {
      if (memory_ != nullptr) memory_->keep_years(work->number, number, work->years);
    }
  }

  // The loops within run apart: a thread that waits for them must not begin another sowing, which would wait
  // for this same season.
  const std::shared_ptr<const stand::SeasonWeather>& felt_season() const {
    std::call_once(feels_season_, [this] {
      base::apart([this] { season_ = std::make_shared<const stand::SeasonWeather>(*weather_); });
    });
    return season_;
  }

  const stand::CropWeather& felt(CropWork& work) const {
    std::call_once(work.feels,
                   [&] { work.felt = std::make_unique<const stand::CropWeather>(work.crop, felt_season()); });
    return *work.felt;
  }

  [[nodiscard]] SowingLife live(CropWork& work, const stand::StandPlan& plan, const stand::StandFacts& facts,
                                const std::optional<stand::RaisingPlace>& raising, const stand::BedPlace& bed) const {
    const SampledRows sampled = sampled_rows(bed.rows_across);
    stand::SimulationOptions options;
    options.sampled_clumps = sampled.clumps;
    options.bed = {sampled.rows, bed.sun};
    options.seed = seed_;
    SowingLife life = fold(stand::simulate(felt(work), plan, facts, raising, options));
    life.warmth_c = warmth_c(plan.method, facts.sown.value_or(stand::begins_on(plan)));
    return life;
  }

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
      life.emerge_day.push_back(grid_day(member.emerge_day));
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
  SowingMemory* memory_;
  std::uint64_t weather_number_ = 0;
  mutable std::once_flag feels_season_;
  mutable std::shared_ptr<const stand::SeasonWeather> season_;
  std::map<std::string, std::unique_ptr<CropWork>, std::less<>> work_;  ///< by the crop's id
};

}  // namespace

std::unique_ptr<SowingSource> growing_source(const climate::WeatherEnsemble& weather, const WeekGrid& grid,
                                             const std::vector<crop::Crop>& crops, std::uint64_t seed,
                                             const climate::WeatherEnsemble* typical_years,
                                             SowingMemory* memory) {
  return std::make_unique<GrowingSource>(weather, grid, crops, seed, typical_years, memory);
}

std::string crop_key(const std::string& crop, const std::string& variety) {
  return variety.empty() ? crop : crop + "/" + variety;
}

}  // namespace sowtide::plan
