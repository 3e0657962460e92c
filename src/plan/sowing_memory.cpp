#include "plan/sowing_memory.hpp"

#include <algorithm>
#include <functional>
#include <string>

namespace sowtide::plan {
namespace {

/// A plan has one weather and one pair of typical years; those of a few gardens, or of a few days, are kept.
constexpr std::size_t kMostWeathers = 6;
/// Crops with their varieties' deltas: many times the library.
constexpr std::size_t kMostCrops = 1000;

std::size_t bytes_of(const SowingQuestion& question, const SowingLife& life) {
  return sizeof question + sizeof life + question.facts.taken.size() * sizeof(stand::PlantsTaken) +
         life.weekly_g.size() * sizeof(double) +
         (life.emerge_day.size() + life.set_out_day.size() + life.end_day.size()) * sizeof(int);
}

}  // namespace

// Only what tells most sowings apart; `==` decides.
std::size_t SowingMemory::Hash::operator()(const SowingQuestion& question) const noexcept {
  std::size_t mixed = 0;
  const auto mix = [&mixed](std::size_t part) {
    constexpr std::size_t kGolden = 0x9e3779b97f4a7c15ULL;
    mixed = (mixed ^ part) * kGolden;
    mixed ^= mixed >> 29U;
  };
  mix(question.crop);
  mix(question.weather);
  mix(static_cast<std::size_t>(question.plan.sow.time_since_epoch().count()));
  mix(std::hash<double>{}(question.plan.spacing_mm));
  mix(static_cast<std::size_t>(question.bed.rows_across));
  mix(static_cast<std::size_t>(question.bed.sun));
  mix(static_cast<std::size_t>(question.plan.method));
  mix(std::hash<std::string>{}(question.plan.tray));
  mix(std::hash<std::string>{}(question.plan.id));
  return mixed;
}

std::uint64_t SowingMemory::number_of(const crop::Crop& crop) {
  const std::lock_guard lock(mutex_);
  const auto known =
      std::find_if(crops_.begin(), crops_.end(), [&](const auto& each) { return each.second == crop; });
  if (known != crops_.end()) return known->first;
  if (crops_.size() == kMostCrops) {
    crops_.clear();  // numbers are not given twice, so nothing old is found under new ones
    years_.clear();
    asked_.clear();
  }
  crops_.emplace_back(next_number_++, crop);
  return crops_.back().first;
}

std::uint64_t SowingMemory::number_of(const climate::WeatherEnsemble& weather) {
  const std::lock_guard lock(mutex_);
  const auto known = std::find_if(weathers_.begin(), weathers_.end(),
                                  [&](const auto& each) { return each.second == weather; });
  if (known != weathers_.end()) {
    weathers_.splice(weathers_.begin(), weathers_, known);
    return known->first;
  }
  weathers_.emplace_front(next_number_++, weather);
  if (weathers_.size() > kMostWeathers) {
    forget_weather(weathers_.back().first);
    weathers_.pop_back();
  }
  return weathers_.front().first;
}

bool SowingMemory::is_new(std::uint64_t crop, std::uint64_t weather) {
  const std::lock_guard lock(mutex_);
  return !is_known(weather) || asked_.emplace(crop, weather).second;
}

std::shared_ptr<const SowingLife> SowingMemory::find(const SowingQuestion& question) {
  const std::lock_guard lock(mutex_);
  const auto known = lives_.find(question);
  if (known == lives_.end()) return nullptr;
  by_use_.splice(by_use_.begin(), by_use_, known->second.used);
  ++tally_.found;
  return known->second.life;
}

void SowingMemory::keep(const SowingQuestion& question, const SowingLife& life) {
  auto copy = std::make_shared<const SowingLife>(life);
  const std::lock_guard lock(mutex_);
  if (!is_known(question.weather)) return;
  const auto [place, added] = lives_.try_emplace(question);
  if (!added) return;  // two threads may have lived the same sowing
  by_use_.push_front(&*place);
  place->second = {std::move(copy), bytes_of(question, life), by_use_.begin()};
  tally_.bytes += place->second.bytes;
  ++tally_.kept;
  forget_unused();
}

std::shared_ptr<const SowingYears> SowingMemory::find_years(std::uint64_t crop, std::uint64_t weather) {
  const std::lock_guard lock(mutex_);
  const auto known = years_.find({crop, weather});
  return known == years_.end() ? nullptr : known->second;
}

void SowingMemory::keep_years(std::uint64_t crop, std::uint64_t weather,
                              std::shared_ptr<const SowingYears> years) {
  const std::lock_guard lock(mutex_);
  if (is_known(weather)) years_.try_emplace({crop, weather}, std::move(years));
}

SowingMemory::Tally SowingMemory::tally() const {
  const std::lock_guard lock(mutex_);
  Tally now = tally_;
  now.lives = lives_.size();
  return now;
}

/// Another plan may have pushed the weather out meanwhile; what belongs to it is not kept then.
bool SowingMemory::is_known(std::uint64_t weather) const {
  return std::any_of(weathers_.begin(), weathers_.end(),
                     [weather](const auto& each) { return each.first == weather; });
}

void SowingMemory::forget(const Entry& entry) {
  tally_.bytes -= entry.second.bytes;
  by_use_.erase(entry.second.used);
  lives_.erase(entry.first);
}

void SowingMemory::forget_weather(std::uint64_t number) {
  for (auto each = by_use_.begin(); each != by_use_.end();) {
    const Entry& entry = **each;
    ++each;
    if (entry.first.weather == number) forget(entry);
  }
  std::erase_if(years_, [number](const auto& each) { return each.first.second == number; });
  std::erase_if(asked_, [number](const Pair& each) { return each.second == number; });
}

void SowingMemory::forget_unused() {
  while (tally_.bytes > most_bytes_ && !by_use_.empty()) forget(*by_use_.back());
}

}  // namespace sowtide::plan
