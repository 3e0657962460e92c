// Improving a placed plan by very many small changes, each judged by the forward pass: simulated annealing
// (S. Kirkpatrick, C. D. Gelatt and M. P. Vecchi 1983, Science 220:671) over stands that stay placed all the
// time.
//
// A change puts a stand somewhere, makes one longer or shorter, or gives its stretch to another sowing; what
// is in the way is cut back or goes. The number of changes is given, not the time: the same input gives the
// same plan.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "base/random.hpp"
#include "plan/forward_pass.hpp"
#include "plan/layout.hpp"
#include "plan/neighbours.hpp"
#include "plan/risk.hpp"

namespace sowtide::plan {

struct AnnealingOptions {
  std::size_t changes = 1000000;  ///< tried in all
  double start_warmth = 0.4;      ///< servings by which a change may make the plan dearer, at the start
  double end_warmth = 0.004;      ///< and at the end
  std::uint64_t seed = 1;
  /// Asked every few thousand changes with the best plan's cost of the table; false stops.
  std::function<bool(double table_cost)> keep_going;
};

class Annealing {
 public:
  /// `likely` are the sowings that may be added, dearest to the relaxation first; `model` must outlive this.
  Annealing(const GardenModel& model, std::vector<std::size_t> likely);

  /// Starts from stands that fit (what does not is left out).
  void start_from(const std::vector<PlacedStand>& stands);
  void run(const AnnealingOptions& options);

  /// The best plan met, stands that touch and are of one sowing joined.
  [[nodiscard]] std::vector<PlacedStand> best_stands() const;
  /// Its cost of the table, of the bother of every stand, of promises broken, of bad neighbours, and of risk.
  [[nodiscard]] double best_burden() const { return best_burden_; }

 private:
  struct Piece {
    std::size_t candidate = 0;
    int from_mm = 0, to_mm = 0;
    int clumps = 0;
  };
  /// What of a candidate is asked for again and again.
  struct Shape {
    int first_week = 0, last_week = 0;
    int family = -1;
    double rest_weeks = 0.0;
    std::vector<int> across;  ///< by bed; 0 when it may not stand there
  };
  struct Stretch {
    int from_mm = 0, to_mm = 0;
  };
  struct Promise {
    int promised = 0, kept = 0;  ///< clumps of the sowing in the bed: told by the plan before, and now
  };

  void learn_shapes();
  void close_stretches();
  [[nodiscard]] int most_worth(std::size_t candidate);

  // One change, undone unless taken.
  void begin(std::size_t bed);
  double change_of_burden();
  void settle(bool keep);
  bool take_cells(std::size_t candidate, int clumps_before, int clumps_after);
  bool take_clumps(std::size_t candidate, int clumps_before, int clumps_after);
  bool remove_piece(std::size_t piece);
  bool cut_back(std::size_t piece, int from_mm, int to_mm);
  bool put(std::size_t candidate, int from_mm, int clumps);

  // Kinds of change; false when there is nothing to try.
  bool try_new_stand(base::RandomStream& random);
  bool try_resize(base::RandomStream& random);
  bool try_exchange(base::RandomStream& random, bool same_product);
  bool try_slide(base::RandomStream& random);
  bool try_removal(base::RandomStream& random);
  bool try_one(base::RandomStream& random);
  [[nodiscard]] bool pick_stand(base::RandomStream& random, std::size_t& bed, std::size_t& piece) const;
  [[nodiscard]] std::size_t pick_likely(base::RandomStream& random) const;
  [[nodiscard]] int pick_clumps(base::RandomStream& random, std::size_t candidate, int across,
                                int hole_mm) const;
  [[nodiscard]] int hole_after(std::size_t candidate, std::size_t bed, int from_mm) const;
  [[nodiscard]] double burden() const;
  [[nodiscard]] double preferences() const;
  void judge_open_bed();
  void count_promised(std::size_t candidate, int more);

  const GardenModel* model_;
  ForwardPass judge_;
  std::vector<Shape> shapes_;
  std::vector<std::vector<std::vector<Stretch>>> closed_;  ///< by candidate and bed: never free for it
  std::vector<std::size_t> likely_;
  std::vector<std::vector<std::size_t>> of_product_;  ///< likely candidates by product, in order of time
  std::vector<int> most_;                ///< by candidate: clumps above which none is worth sowing
  std::vector<std::vector<int>> cells_;  ///< by room (`CellStay`) and week
  std::vector<std::vector<Piece>> beds_;
  std::size_t stand_count_ = 0;
  std::vector<std::vector<int>>
      promises_;  ///< by candidate and bed: place in `told_`, or -1; empty: none of it
  std::vector<Promise> told_;
  double broken_promises_ = 0.0;
  NeighbourPrices neighbours_;
  std::vector<double> bed_prices_;  ///< by bed: of bad neighbours
  double neighbour_price_ = 0.0;    ///< their sum

  SpreadPrices spread_;
  double spread_price_ = 0.0;               ///< of all sowings
  std::size_t open_bed_ = 0;                ///< of the change at hand
  std::vector<Neighbour> open_neighbours_;  ///< scratch
  double kept_bed_price_ = 0.0, kept_neighbour_price_ = 0.0, kept_spread_price_ = 0.0,
         kept_preferences_ = 0.0;
  std::vector<Piece> kept_pieces_;
  std::size_t kept_stand_count_ = 0;
  double kept_broken_promises_ = 0.0;
  std::vector<std::pair<std::size_t, int>>
      counted_;  ///< promise and its clumps more or fewer, to be put back
  std::vector<std::pair<std::size_t, int>> taken_cells_;  ///< candidate and cells, to be given back

  std::vector<std::vector<Piece>> best_;
  double best_burden_ = 0.0;
  double best_table_ = 0.0;
};

}  // namespace sowtide::plan
