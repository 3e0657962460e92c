// From a dive's counts to a placed plan, and from a placed plan to a better one.
//
// The search works on plans that are always placed: it takes some stands out and fills the room again by what
// the forward pass says is worth most, net of what the room is worth by the relaxation's prices. All its
// randomness comes from one named stream, so the same input gives the same plan.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <limits>
#include <vector>

#include "base/random.hpp"
#include "plan/formulate.hpp"
#include "plan/forward_pass.hpp"
#include "plan/layout.hpp"
#include "plan/solver.hpp"

namespace sowtide::plan {

struct SearchOptions {
  int rounds = 100;
  double goal = 0.0;      ///< stops at a cost at or below this
  double leniency = 0.0;  ///< how much dearer a plan it may walk through, as a share of the cost
  std::uint64_t seed = 1;
  std::function<bool(double cost)> keep_going;  ///< asked every few rounds; false stops
};

class PlacedSearch {
 public:
  /// `relaxation` gives the prices of room and which candidates can matter at all.
  PlacedSearch(const GardenModel& model, const Formulation& formulation, const LinearSolution& relaxation);

  /// Places the whole-number solution of a dive; what finds no room is left out, then free room is filled.
  void place(const std::vector<double>& values);
  /// Starts from stands given (those that fit), for re-planning.
  void start_from(const std::vector<PlacedStand>& stands);
  void improve(const SearchOptions& options);
  /// Gives stands of fewer than `smallest` clumps to a sowing of the same product near in time, where the
  /// cost rises by no more than `allowance`.
  void merge_tiny(int smallest, double allowance);

  /// Takes over another search's plan (of the same model).
  void adopt(const PlacedSearch& other);

  /// Cost of the table, without the bother of stands.
  [[nodiscard]] double cost() const { return judge_.cost(); }
  /// With the bother of every stand: what the search makes small.
  [[nodiscard]] double burden() const {
    return judge_.cost() + model_->prices.stand * static_cast<double>(layout_.stands().size());
  }
  [[nodiscard]] const std::vector<PlacedStand>& stands() const { return layout_.stands(); }
  [[nodiscard]] const ForwardPass& judge() const { return judge_; }

 private:
  struct Offer {
    double net = 0.0;
    int clumps = 0;
  };
  /// What one more clump, one more row, three more rows would save: kept until the pool's counts change.
  struct Gains {
    std::size_t version = std::numeric_limits<std::size_t>::max();
    std::array<int, 3> clumps{};
    std::array<double, 3> gain{};
  };
  /// A plan that can be gone back to.
  struct Kept {
    Layout layout;
    ClumpCounts counts;
    double cost = 0.0;    ///< of the table
    double burden = 0.0;  ///< with the bother of stands
  };
  void renew_gains(std::size_t candidate);
  [[nodiscard]] Offer best_offer(std::size_t candidate, double price_factor) const;
  bool take_offer(std::size_t candidate);
  [[nodiscard]] bool stands_already(std::size_t candidate) const;
  void count_changed(std::size_t candidate, bool fewer);
  void fill(double price_factor);
  void trim();
  void take_out(std::size_t stand, int clumps);
  void take_out_where(const std::function<bool(const PlacedStand&)>& chosen);
  void ruin(base::RandomStream& random);
  void choose_active();
  void narrow_active();
  [[nodiscard]] Kept keep() const;
  void go_back(const Kept& kept);

  const GardenModel* model_;
  const Formulation* formulation_;
  Layout layout_;
  ForwardPass judge_;
  std::vector<double> room_price_;  ///< by candidate: of the room one clump takes
  std::vector<double> least_cost_;  ///< by candidate: least reduced cost of its columns
  double bound_ = 0.0;
  std::vector<std::size_t> active_;        ///< candidates that the search may add
  std::vector<Offer> offers_;              ///< by candidate, while filling
  std::vector<Gains> gains_;               ///< by candidate, valid for one version of its pool
  std::vector<std::size_t> pool_version_;  ///< by pool: changes with its counts
  std::vector<bool> pool_eased_;           ///< by pool: something was taken out since the last fill
  std::size_t next_version_ = 0;
};

}  // namespace sowtide::plan
