// What the log already says of each stand, so that an entry which contradicts it is refused
// (docs/formats/log.md, "Contradictions").
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"

namespace sowtide::book {

/// Seeds (not plants) that a stand is planned to be sown with: cells, or else clumps, times the seeds in
/// each.
[[nodiscard]] double planned_seeds(const stand::StandPlan& plan);

/// One entry about a stand, of a kind that can contradict others.
struct StandEntry {
  std::string id;
  base::Date date{};
  EventKind kind = EventKind::noted;
  std::optional<double> count;  ///< plants or seeds, as the kind has it
  std::size_t arrival = 0;
};

/// All stands with their entries. Entries that a correction has taken out count for nothing.
class StandLogs {
 public:
  using Ids = std::set<std::string, std::less<>>;

  /// The stands without entries; `library` tells for which crops a picking takes whole plants.
  [[nodiscard]] static StandLogs of(const std::vector<stand::StandPlan>& stands,
                                    const crop::CropLibrary& library = crop::built_in_library());

  /// Contradiction when the entry cannot be true together with those taken that stand: set out though sown
  /// in place; counted, thinned, measured, picked or set out before the sowing; more plants than the seeds
  /// can give; more thinned than are left. An entry that a correction brings back is checked likewise.
  [[nodiscard]] base::Result<void> check(const Event& event) const;

  /// Takes an entry unchecked; entries are to be taken in the order of arrival.
  void take(const Event& event);

 private:
  struct Stand {
    std::string name;  ///< for people: "s1" (beet)
    bool sown_in_place = false;
    bool pulled_once = false;    ///< a picking counts whole plants
    double planned_seeds = 0.0;  ///< at least 1
    double planned_plants = 0.0;
    std::vector<StandEntry> entries;
  };
  using Correction = std::pair<std::string, std::string>;  ///< its id, its target

  static Ids removed_by(const std::vector<Correction>& corrections);
  static std::vector<StandEntry> standing(const Stand& stand, const Ids& removed, const StandEntry& entry);
  static base::Result<void> check_entry(const Stand& stand, const Ids& removed, const StandEntry& entry);
  static base::Result<void> check_sowing(const Stand& stand, const std::vector<StandEntry>& log,
                                         const StandEntry& entry);
  static base::Result<void> check_seeds(const Stand& stand, const std::vector<StandEntry>& log,
                                        const StandEntry& entry);
  static base::Result<void> check_thinning(const Stand& stand, const std::vector<StandEntry>& log,
                                           const StandEntry& entry);
  [[nodiscard]] base::Result<void> check_brought_back(const Event& correction) const;

  std::map<std::string, Stand, std::less<>> stands_;
  std::vector<Correction> corrections_;
  Ids removed_;
  std::size_t arrivals_ = 0;
};

}  // namespace sowtide::book
