// The last touches to a placed plan: what still finds room and is worth it is added, what is not worth its
// place goes, and crumbs are given to a neighbour in time. The relaxation's prices say which sowings are
// worth looking at.
#pragma once

#include <array>
#include <limits>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "plan/formulate.hpp"
#include "plan/forward_pass.hpp"
#include "plan/layout.hpp"
#include "plan/neighbours.hpp"
#include "plan/risk.hpp"
#include "plan/solver.hpp"

namespace sowtide::plan {

class PlacedSearch {
 public:
  /// `relaxation` gives the prices of room and which candidates can matter at all.
  PlacedSearch(const GardenModel& model, const Formulation& formulation, const LinearSolution& relaxation);

  /// All sowings that could find a place, those first that the relaxation finds nearest to worth it.
  [[nodiscard]] std::vector<std::size_t> likely_sowings() const;
  /// Starts from stands given (those that fit), fills the room that is left and takes out what costs more
  /// than it brings.
  void start_from(const std::vector<PlacedStand>& stands);
  /// Gives stands of fewer than `smallest` clumps to a sowing of the same product near in time, where the
  /// cost rises by no more than `allowance`.
  void merge_tiny(int smallest, double allowance);
  /// Makes every stand that is smaller than its crop must stand together (`Candidate::least_clumps`) as large
  /// as that, or takes it out: the cheaper of the two, the largest stands first.
  void complete_blocks();
  /// Gives a sowing that is nearly what an earlier plan told of it (`broken_share` under a third) just the
  /// clumps that were told, where they fit and the cost, that of changes counted, rises by no more than
  /// `allowance`: a clump more or fewer is news too.
  void restore_promises(double allowance);

  /// Lays the stands of each bed back to where an earlier plan told of them, as far as they fit there, the
  /// others to where they find room; a bed in which not all find any, or whose neighbours get dearer by more
  /// than `allowance`, stays as it is. The search slides stands about for nothing, and a grower has labelled
  /// the ground.
  void restore_places(double allowance);

  /// Cost of the table, without the bother of stands.
  [[nodiscard]] double cost() const { return judge_.cost(); }
  [[nodiscard]] const std::vector<PlacedStand>& stands() const { return layout_.stands(); }
  [[nodiscard]] const ForwardPass& judge() const { return judge_; }

 private:
  struct Offer {
    double net = 0.0;
    int clumps = 0;
  };
  /// What one more clump, one more row, three more rows would save, risk counted: kept until the pool's
  /// counts change.
  struct Gains {
    std::size_t version = std::numeric_limits<std::size_t>::max();
    std::array<int, 3> clumps{};
    std::array<double, 3> gain{};
  };
  /// A plan that can be gone back to.
  struct Kept {
    Layout layout;
    ClumpCounts counts;
    double cost = 0.0;  ///< of the table, bad neighbours, risk and broken promises
  };
  using SowingInBed = std::pair<std::size_t, std::size_t>;  ///< candidate and bed
  struct ToldAndKept {
    int told = 0, kept = 0;
  };
  [[nodiscard]] std::map<SowingInBed, ToldAndKept> promises() const;
  [[nodiscard]] double broken_promises() const;
  [[nodiscard]] double cost_with_preferences() const;
  [[nodiscard]] double change_by(std::size_t candidate, int clumps);
  bool grow_among_neighbours(std::size_t candidate, int clumps, double gain);
  void renew_gains(std::size_t candidate);
  [[nodiscard]] Offer best_offer(std::size_t candidate, double price_factor) const;
  bool take_offer(std::size_t candidate);
  [[nodiscard]] bool stands_already(std::size_t candidate) const;
  void count_changed(std::size_t candidate, bool fewer);
  [[nodiscard]] std::optional<std::size_t> largest_short_block() const;
  void fill(double price_factor);
  void trim();
  void take_out(std::size_t stand, int clumps);
  bool lengthen(std::size_t stand, int more);
  bool take_out_of(const SowingInBed& sowing, int clumps);
  bool add_to(const SowingInBed& sowing, int clumps);
  [[nodiscard]] std::optional<Layout> laid_back(std::size_t bed) const;
  void choose_active();
  [[nodiscard]] Kept keep() const;
  void go_back(const Kept& kept);

  const GardenModel* model_;
  Layout layout_;
  ForwardPass judge_;
  NeighbourPrices neighbours_;
  SpreadPrices spread_;
  std::vector<double> room_price_;         ///< by candidate: of the room one clump takes
  std::vector<double> least_cost_;         ///< by candidate: least reduced cost of its columns
  std::vector<std::size_t> active_;        ///< candidates that the search may add
  std::vector<Offer> offers_;              ///< by candidate, while filling
  std::vector<Gains> gains_;               ///< by candidate, valid for one version of its pool
  std::vector<std::size_t> pool_version_;  ///< by pool: changes with its counts
  std::vector<bool> pool_eased_;           ///< by pool: something was taken out since the last fill
  std::size_t next_version_ = 0;
};

}  // namespace sowtide::plan
