// Where every stand stands: stretches of beds through time, cells of trays through time.
//
// Bed space is counted in whole millimetres and whole weeks; a stand takes `stretch_mm`. Nothing overlaps in
// space and time, and a family keeps off a stretch for its years of rest.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "plan/garden_model.hpp"

namespace sowtide::plan {

class Layout {
 public:
  /// An empty layout: only what the model says is taken. `model` must outlive it.
  explicit Layout(const GardenModel& model);

  [[nodiscard]] const std::vector<PlacedStand>& stands() const { return stands_; }
  [[nodiscard]] int length_of(const PlacedStand& stand) const;

  /// Adds clumps of a candidate: by lengthening a stand, or as a new stand in the best free
  /// stretch. All of them or none; false when there is no room, or no cells. `group` prefers its beds when
  /// given.
  bool grow(std::size_t candidate, int clumps, std::optional<std::size_t> group = {});
  /// Like `grow`, but splits over several stretches and returns how many clumps found room.
  int grow_split(std::size_t candidate, int clumps, std::optional<std::size_t> group = {});
  /// Puts a stand exactly there; false when it does not fit.
  bool put(const PlacedStand& stand);
  /// Puts a stand as near there in its bed as may be; false when no stretch has room for it.
  bool put_near(PlacedStand stand);
  /// Takes clumps away from a stand (from its far end); the stand goes when none is left. Others keep their
  /// order.
  void shrink(std::size_t stand, int clumps);

  /// Clumps in one row of the widest bed the candidate may stand in; 0 when there is none.
  [[nodiscard]] int widest_row(std::size_t candidate) const;

  /// Free stretches [from, to) of a bed for the candidate's time and family, in order, each long
  /// enough for one clump.
  [[nodiscard]] std::vector<std::pair<int, int>> free_stretches(std::size_t candidate, std::size_t bed) const;
  /// Cells of its tray, and on the tray's mat, still free in the fullest week of the candidate's stay.
  [[nodiscard]] int free_cells(std::size_t candidate) const;

 private:
  /// Something that keeps others off a stretch.
  struct Block {
    int from_mm = 0, to_mm = 0;
    int first_week = 0, last_week = 0;
    int family = -1;
    double rest_weeks = 0.0;
    std::size_t stand = 0;  ///< serial number of the stand, or kNoStand
  };
  /// What of a candidate is asked for again and again.
  struct Shape {
    int first_week = 0, last_week = 0;
    int family = -1;
    double rest_weeks = 0.0;
    std::vector<int> across;  ///< by bed; 0 when it may not stand there
    std::vector<std::pair<std::size_t, std::pair<int, int>>> closed;  ///< bed and stretch, from years before
  };
  struct Spot {
    std::size_t bed = 0;
    int from_mm = 0;
    int clumps = 0;
  };

  [[nodiscard]] bool is_free(std::size_t candidate, std::size_t bed, int from_mm, int to_mm) const;
  [[nodiscard]] std::optional<Spot> best_spot(std::size_t candidate, int clumps,
                                              std::optional<std::size_t> group, bool whole) const;
  /// Weeks that a stretch would lie idle before and after a stand put there.
  [[nodiscard]] int idle_weeks(std::size_t candidate, std::size_t bed, int from_mm, int to_mm) const;
  [[nodiscard]] bool group_has(std::size_t group, std::size_t bed) const;
  bool widen(std::size_t stand, int clumps);
  void take_cells(std::size_t candidate, int cells);
  [[nodiscard]] bool cells_allow(std::size_t candidate, int more_cells) const {
    return more_cells <= free_cells(candidate);
  }
  void set_block(std::size_t stand);
  void append(const PlacedStand& stand);

  const GardenModel* model_;
  std::shared_ptr<const std::vector<Shape>> shapes_;  ///< shared by copies: layouts are copied often
  std::vector<std::vector<Block>> blocks_;            ///< by bed
  std::vector<std::vector<int>> cells_;               ///< by room (`CellStay`) and week
  std::vector<PlacedStand> stands_;
  std::vector<std::size_t> serials_;
  std::size_t next_serial_ = 0;
};

/// What is wrong with a set of placed stands, in words; empty when nothing is. A slow, independent check:
/// every pair of stands is compared, every week of a tray and of a mat is summed.
[[nodiscard]] std::vector<std::string> layout_faults(const GardenModel& model,
                                                     const std::vector<PlacedStand>& stands);

}  // namespace sowtide::plan
