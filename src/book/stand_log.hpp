// What the log already says of each stand, so that an entry which contradicts it is refused
// (docs/formats/log.md, "Contradictions").
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "book/corrections.hpp"
#include "book/garden.hpp"

namespace sowtide::book {

/// Seeds (not plants) that a stand is planned to be sown with: cells, or else clumps, times the seeds in
/// each.
[[nodiscard]] double planned_seeds(const stand::StandPlan& plan);

/// The same, of planting pieces one to a place, whatever an older plan says. `crop`: null where not known.
[[nodiscard]] double planned_seeds(const stand::StandPlan& plan, const crop::Crop* crop);

/// Seedlings that so many seeds give at most: those of every embryo.
[[nodiscard]] double most_seedlings(double seeds, const crop::Crop& crop) noexcept;

/// Whether a plant gives several pieces: tubers and fruits.
[[nodiscard]] bool gives_several(const crop::Harvest& harvest) noexcept;

/// Whether the pieces of a picking are plants that are gone: of what is pulled or cut once, but for tubers
/// and fruits, of which a plant has several.
[[nodiscard]] bool picks_plants(const crop::Harvest& harvest) noexcept;

/// Whether the leaves of a crop that is grown for something else are food as well: beet, turnip.
[[nodiscard]] bool gives_greens(const crop::Harvest& harvest) noexcept;

/// Whether a picking takes leaves alone, as greens, of a crop that gives such beside its root: no plant is
/// gone.
[[nodiscard]] bool picks_greens(const Event& event, const crop::Harvest& harvest) noexcept;

/// Work on one stand that a log may hold: several entries a day over its whole life; a bound on hostile files.
inline constexpr std::size_t kMostEntriesOfAStand = 2000;

/// One entry about a stand, of a kind that can contradict others.
struct StandEntry {
  std::string id;
  base::Date date{};
  EventKind kind = EventKind::noted;
  std::optional<double> count;  ///< plants or seeds, as the kind has it
  std::optional<double> grams;
  std::optional<double> diameter_mm;
  std::size_t arrival = 0;
  bool bought = false;  ///< of a setting out: the plants were raised elsewhere
};

/// All stands with their entries. Entries that a correction has taken out count for nothing.
class StandLogs {
 public:
  /// The stands without entries; `library` tells for which crops a picking takes whole plants.
  [[nodiscard]] static StandLogs of(const std::vector<stand::StandPlan>& stands,
                                    const crop::CropLibrary& library = crop::built_in_library());

  /// Contradiction when the entry cannot be true together with those taken that stand: set out though sown
  /// in place; counted, thinned, measured, picked or set out before the sowing; picked before set out; more
  /// plants counted, or taken in all, than the seeds sown and those planned can give; more thinned than are
  /// left, or far more pulled or thrown away; a plant measured far beyond its crop's size. An entry that a
  /// correction brings back is checked likewise. Too_large beyond kMostEntriesOfAStand.
  [[nodiscard]] base::Result<void> check(const Event& event) const;

  /// Takes an entry unchecked; entries are to be taken in the order of arrival.
  void take(const Event& event);

  /// True when a correction that stands has taken the entry out.
  [[nodiscard]] bool removed(std::string_view id) const { return corrections_.removed(id); }

 private:
  struct Stand {
    std::string name;  ///< for people: "s1" (beet)
    bool sown_in_place = false;
    bool can_be_set_out = true;  ///< the crop bears to be raised elsewhere
    bool whole_plants = false;   ///< a picking takes plants, of heads also
    bool has_greens = false;     ///< its leaves may be picked alone
    bool pulled_once = false;    ///< a picking counts whole plants: one piece each
    double planned_seeds = 0.0;  ///< at least 1
    double planned_plants = 0.0;
    double most_g = 0.0;            ///< of one plant, root or fruit; 0 where the crop does not tell
    double most_diameter_mm = 0.0;  ///< likewise
    std::vector<StandEntry> entries;
  };

  [[nodiscard]] static std::optional<StandEntry> entry_of(const Stand& stand, const Event& event,
                                                          std::size_t arrival);
  [[nodiscard]] std::vector<StandEntry> standing(const Stand& stand, const StandEntry& entry) const;
  [[nodiscard]] base::Result<void> check_entry(const Stand& stand, const StandEntry& entry) const;
  static base::Result<void> check_size(const Stand& stand, const StandEntry& entry);
  static base::Result<void> check_sowing(const Stand& stand, const std::vector<StandEntry>& log,
                                         const StandEntry& entry);
  static base::Result<void> check_setting_out(const Stand& stand, const std::vector<StandEntry>& log,
                                              const StandEntry& entry);
  static double planned_most(const Stand& stand);
  static base::Result<void> check_seeds(const Stand& stand, const std::vector<StandEntry>& log,
                                        const StandEntry& entry);
  static base::Result<void> check_taken(const Stand& stand, const std::vector<StandEntry>& log,
                                        const StandEntry& entry);
  static base::Result<void> check_thinning(const Stand& stand, const std::vector<StandEntry>& log,
                                           const StandEntry& entry);
  [[nodiscard]] base::Result<void> check_brought_back(const Event& correction) const;

  std::map<std::string, Stand, std::less<>> stands_;
  std::map<std::string, std::string, std::less<>> stand_of_;  ///< by entry
  Corrections corrections_;
  std::size_t arrivals_ = 0;
};

}  // namespace sowtide::book
