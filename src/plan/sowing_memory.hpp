// What sowings bring, kept for the next plan of the same process: a garden that is planned again asks mostly
// what it asked before. The key is the content itself, compared whole, field by field as the compiler writes
// it: nothing can be forgotten in it, and no two contents share one (docs/decisions/0005-sowing-memory.md).
#pragma once

#include <cstddef>
#include <cstdint>
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <unordered_map>
#include <utility>
#include <vector>

#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "plan/sowing_source.hpp"
#include "stand/outlook.hpp"
#include "stand/windows.hpp"

namespace sowtide::plan {

/// All that the life of one sowing depends on; crop (variety's deltas in it) and weather by the number that
/// `SowingMemory` gave to their content.
struct SowingQuestion {
  std::uint64_t crop = 0, weather = 0;
  WeekGrid grid;
  std::uint64_t seed = 0;
  stand::StandPlan plan;
  stand::StandFacts facts;
  std::optional<stand::RaisingPlace> raising;
  stand::BedPlace bed;
  bool operator==(const SowingQuestion&) const = default;
};

/// Every day of the year as a day to sow, and to set plants out; empty where the crop is not grown so or no
/// typical years are known.
struct SowingYears {
  std::vector<stand::SowingDay> in_place, in_trays, set_out;
};

/// Safe to use from several threads at once, and by several plans. Answers taken out of it are the same, to
/// the last digit, as new ones.
class SowingMemory {
 public:
  /// The candidates of 20 wants take 7.5 MB (bench/plan_bench); a garden of 45 wants and four trays may take
  /// ten times that.
  static constexpr std::size_t kUsualBytes = std::size_t{64} << 20U;

  /// Keeps lives of about so many bytes; those unused for longest go first.
  explicit SowingMemory(std::size_t most_bytes = kUsualBytes) : most_bytes_(most_bytes) {}

  /// A number for a content: the same for the same, never given to another. Of the latest few weathers only:
  /// what belongs to older ones is forgotten.
  [[nodiscard]] std::uint64_t number_of(const crop::Crop& crop);
  [[nodiscard]] std::uint64_t number_of(const climate::WeatherEnsemble& weather);

  /// Whether nobody has asked this before of the crop in the weather: most of its sowings will have to be
  /// lived.
  [[nodiscard]] bool is_new(std::uint64_t crop, std::uint64_t weather);

  /// The kept life, or nothing.
  [[nodiscard]] std::shared_ptr<const SowingLife> find(const SowingQuestion& question);
  void keep(const SowingQuestion& question, const SowingLife& life);

  /// The same for the sowing days of a crop in typical years.
  [[nodiscard]] std::shared_ptr<const SowingYears> find_years(std::uint64_t crop, std::uint64_t weather);
  void keep_years(std::uint64_t crop, std::uint64_t weather, std::shared_ptr<const SowingYears> years);

  /// For tests and measurements: lives taken out, lives put in, and what those that are there take.
  struct Tally {
    std::size_t found = 0, kept = 0, lives = 0, bytes = 0;
  };
  [[nodiscard]] Tally tally() const;

 private:
  struct Hash {
    std::size_t operator()(const SowingQuestion& question) const noexcept;
  };
  struct Known;
  using Entry = std::pair<const SowingQuestion, Known>;
  struct Known {
    std::shared_ptr<const SowingLife> life;
    std::size_t bytes = 0;
    std::list<const Entry*>::iterator used;  ///< in `by_use_`
  };
  using Pair = std::pair<std::uint64_t, std::uint64_t>;  ///< crop and weather

  [[nodiscard]] bool is_known(std::uint64_t weather) const;
  void forget(const Entry& entry);
  void forget_weather(std::uint64_t number);
  void forget_unused();

  const std::size_t most_bytes_;
  mutable std::mutex mutex_;  ///< guards all below
  std::uint64_t next_number_ = 1;
  std::vector<std::pair<std::uint64_t, crop::Crop>> crops_;
  std::list<std::pair<std::uint64_t, climate::WeatherEnsemble>> weathers_;  ///< the latest used first
  std::unordered_map<SowingQuestion, Known, Hash> lives_;
  std::list<const Entry*> by_use_;  ///< those of `lives_`, the latest used first
  std::map<Pair, std::shared_ptr<const SowingYears>> years_;
  std::set<Pair> asked_;
  Tally tally_;
};

}  // namespace sowtide::plan
