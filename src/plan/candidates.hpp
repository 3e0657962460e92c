// From the garden's description to the planner's model: products, wants on the weeks, and every sowing worth
// considering: crop × variety × method (bought plants among them) × tray × week × size, pruned where it fails
// too often or another is at least as good in every way.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "plan/garden_model.hpp"
#include "plan/plan.hpp"
#include "plan/sowing_source.hpp"

namespace sowtide::plan {

/// Makes the source for the crops of the plan (variety deltas applied, `id` = crop_key).
using SourceMaker =
    std::function<std::unique_ptr<SowingSource>(const std::vector<crop::Crop>& crops, const WeekGrid& grid)>;

/// Why a product cannot be had: filled while candidates are made, for the notes.
struct ProductNote {
  std::size_t tried = 0;      ///< sowings looked at
  std::size_t promising = 0;  ///< of them, likely enough to succeed
  std::size_t kept = 0;       ///< of them, in the model
  double best_success = 0.0;
  bool lacks_tray =
      false;  ///< it is not sown in place, and the garden has no tray: only plants that are bought would do
  bool lacks_cells = false;  ///< nor has any tray the cells that are sown for one of it
  std::string limits;  ///< what limits the best that failed
  bool beyond = false;  ///< some succeed, but too late: their harvest comes after the plan's last week
};

/// A sowing that was looked at and is not in the model.
struct RefusedSowing {
  std::size_t product = 0;
  int tray = -1;  ///< place among the trays, or -1
  bool bought = false;
  bed::SunClass sun = bed::SunClass::full;
  int week = 0;
  std::string limits;   ///< what spoils it too often, or empty
  bool beyond = false;  ///< it succeeds, but its harvest comes after the plan's last week
};

struct PreparedGarden {
  GardenModel model;
  WeekGrid grid;
  std::vector<crop::Crop> crops;           ///< by product, deltas applied
  std::shared_ptr<const SowingSource>
      source;                              ///< that told of the sowings; the input's weather must outlive it
  std::vector<ProductNote> product_notes;  ///< by product
  std::vector<RefusedSowing> refused;
  std::vector<std::optional<double>>
      earlier_c;                           ///< by stand of the earlier plan: `planned_c` as it would be now
  std::vector<std::string> packets;        ///< by product: id of the packet to sow from, or empty
  std::vector<Note> notes;
};

/// What makes two sowings one but for their day: a plan that was told and a week's shift are looked up by it.
struct SowingKey {
  std::optional<std::size_t> product;
  int tray = -1;
  bool bought = false;               ///< as plants: neither in a tray nor sown in place
  std::optional<bed::SunClass> sun;  ///< nothing: any light
  int week = 0;                      ///< of sowing, or of setting out what is bought
  int pick_weeks = 0;
};

[[nodiscard]] SowingKey key_of(const Candidate& candidate);

/// Whether both are left standing or both are pulled as they are ready. Over how many weeks a stand is pulled
/// follows its day and the weather as it is known, so it makes no other sowing of it.
[[nodiscard]] bool stand_alike(int pick_weeks, int other_pick_weeks);

/// The candidate of the key, of those left standing the one whose weeks of pulling are nearest; nothing where
/// the model has none.
[[nodiscard]] std::optional<std::size_t> sowing_of(const GardenModel& model, const SowingKey& key);

/// The sowing of the key that was looked at and refused, however it would be picked; null where none was.
[[nodiscard]] const RefusedSowing* refused_as(const PreparedGarden& garden, const SowingKey& key);

/// Who watches while choices are laid out; both may be empty.
struct ChoiceWatch {
  /// Whether there is time for more than the sowings that are looked at in any case. May be asked by several
  /// threads at once.
  std::function<bool()> has_time;
  /// Told, by one thread at a time, the share of the choices that is laid out; false ends the work at once.
  std::function<bool(double share)> laid_out;
};

/// Problems: out_of_range or contradiction for a description that makes no sense; what cannot be grown is a
/// note; cancelled where the watch ends it. Every fourth week is looked at as a week to sow in; the weeks
/// between as long as there is time, with a note when there was not to the end.
[[nodiscard]] base::Result<PreparedGarden> prepare_garden(const PlanInput& input, const PlanOptions& options,
                                                          const SourceMaker& make_source,
                                                          const ChoiceWatch& watch = {});

/// Takes out candidates that another of the same product beats or equals in every week, room, tray and hour.
/// Returns how many went.
std::size_t drop_dominated(std::vector<Candidate>& candidates);

}  // namespace sowtide::plan
